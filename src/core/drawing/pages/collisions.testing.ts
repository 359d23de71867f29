import { overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark, Page, Point } from '../marks.ts';

/** Pairs of texts on a page that lie over one another. */
export function collisions(page: Page): readonly string[] {
  const texts = textsOf(page.marks);
  const areas = texts.map(textArea);
  const order = areas.map((_, i) => i).sort((a, b) => areas[a]!.x - areas[b]!.x);
  const out: string[] = [];
  order.forEach((i, k) => {
    for (let m = k + 1; m < order.length; m++) {
      const j = order[m]!;
      if (areas[j]!.x > areas[i]!.x + areas[i]!.width) break;
      if (overlaps(areas[i]!, areas[j]!, 0.25))
        out.push(`${page.number} ${page.id}: '${texts[i]!.text}' and '${texts[j]!.text}'`);
    }
  });
  return out;
}

/** Spots that more than one leader of a note ends at: their balloons would stand round it like a star. */
export function stars(page: Page): readonly string[] {
  const dots = flat(page.marks).flatMap((m) =>
    m.kind === 'circle' && m.fill !== undefined && m.radius === 0.6 ? [m] : [],
  );
  return dots.flatMap(({ centre: a }, i) =>
    dots.slice(i + 1).some(({ centre: b }) => Math.hypot(a.x - b.x, a.y - b.y) < 0.5)
      ? [`${page.id}: several leaders at ${a.x.toFixed(1)}, ${a.y.toFixed(1)}`]
      : [],
  );
}

/** Texts of a plan that run over the heavy line of a wall's face, by walking along it. */
export function overWalls(page: Page): readonly string[] {
  const faces = flat(page.marks).flatMap((m) => (m.kind === 'shape' && m.pen === 'wall' ? [m.points] : []));
  const points = faces.flatMap((corners) =>
    corners.flatMap((a, i) => {
      const b = corners[(i + 1) % corners.length]!;
      return Array.from({ length: 400 }, (_, k) => ({
        x: a.x + ((b.x - a.x) * k) / 400,
        y: a.y + ((b.y - a.y) * k) / 400,
      }));
    }),
  );
  // a balloon stands on the line, on paper of its own
  return textsOf(page.marks)
    .filter(
      (t) => !/^\d+$/.test(t.text) && points.some((p) => overlaps(textArea(t), { ...p, width: 0, height: 0 }, 0.25)),
    )
    .map((t) => `${page.id}: '${t.text}' runs over a wall`);
}

const flat = (marks: readonly Mark[]): readonly Mark[] =>
  marks.flatMap((mark) => (mark.kind === 'group' ? flat(mark.marks) : [mark]));
const isSame = (a: Point, b: Point): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 1e-6;

/**
 * Texts that a leader goes through, a leader being a thin line that ends in a dot, or within a ring that holds a number. Followed in small
 * steps, which is not how it was laid.
 */
export function crossings(page: Page): readonly string[] {
  const marks = flat(page.marks);
  const circles = marks.flatMap((m) => (m.kind === 'circle' ? [m] : []));
  const dots = circles.filter((m) => m.fill !== undefined && m.radius < 1).map((m) => m.centre);
  const texts = textsOf(page.marks).map((words) => ({ words: words.text, at: textArea(words) }));
  const within = (p: Point, a: ReturnType<typeof textArea>): boolean =>
    overlaps(a, { x: p.x, y: p.y, width: 0, height: 0 }, 0.25);
  const rings = circles
    .filter((m) => m.fill === 'paper' && texts.some(({ at }) => within(m.centre, at)))
    .map((m) => m.centre);
  return marks.flatMap((mark) => {
    if (mark.kind !== 'line' || mark.pen !== 'thin') return [];
    const end = [...dots, ...rings].find((d) => isSame(d, mark.from) || isSame(d, mark.to));
    if (!end) return [];
    const far = isSame(end, mark.from) ? mark.to : mark.from;
    const points = Array.from({ length: 99 }, (_, i) => {
      const share = (i + 1) / 100;
      return { x: end.x + (far.x - end.x) * share, y: end.y + (far.y - end.y) * share };
    });
    return texts
      .filter(({ at }) => !within(far, at) && !within(end, at) && points.some((p) => within(p, at)))
      .map(({ words }) => `${page.number} ${page.id}: a leader goes through '${words}'`);
  });
}
