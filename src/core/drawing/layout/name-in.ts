import { type Area, area, below, LETTER, overlaps, rectangle, right, text } from '../draw.ts';
import { fitText, textWidth, wrapText } from '../font/measure.ts';
import type { Mark, Point } from '../marks.ts';
import { type Places, takeFirst } from './place.ts';
import { LEADING } from './table.ts';

export interface Naming {
  readonly words: string;
  /** What is named. */
  readonly at: Area;
  /** Lines of the drawing, as flat areas: the name stands where it crosses the fewest. */
  readonly lines?: readonly Area[];
  /** Good places, best first, before the general ones. */
  readonly prefer?: readonly Point[];
  readonly bold?: boolean;
  /** Only inside, or not at all. */
  readonly inside?: boolean;
}

/** Where a name may stand, best first. Only of the name and the drawing under it, whatever else is written. */
export interface NamePlace {
  readonly marks: readonly Mark[];
  /** How many lines it is written in. */
  readonly lines: number;
  readonly area: Area;
}

/** Names something on the drawing: in it, else above or below it, where nothing else is written. Takes the place. */
export const nameIn = (places: Places, naming: Naming): readonly Mark[] => takeName(places, namePlaces(naming));

export function takeName(places: Places, candidates: readonly NamePlace[]): readonly Mark[] {
  const found = takeFirst(places, candidates);
  return found ? [rectangle(found.area, { fill: 'paper' }), ...found.marks] : [];
}

export function namePlaces({
  words,
  at,
  lines = [],
  prefer = [],
  bold = true,
  inside = false,
}: Naming): readonly NamePlace[] {
  const longest = Math.max(...words.split(/\s+/).map((w) => textWidth(w, LETTER.small, bold)));
  const width = Math.max(at.width - 2, inside ? 0 : Math.min(longest, 40) + 0.1);
  const shown = wrapText(words, LETTER.small, width, bold)
    .slice(0, 3)
    .map((l) => fitText(l, LETTER.small, width, bold));
  if (shown.every((l) => l === '')) return [];
  const high = shown.length * LEADING;
  const [cx, cy] = [at.x + at.width / 2, at.y + at.height / 2];
  const general = [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((fy) =>
    [0.5, 0.3, 0.7, 0.2, 0.8].map((fx) => ({ x: at.x + at.width * fx, y: at.y + at.height * fy })),
  );
  const within = [{ x: cx, y: cy }, ...prefer, ...general];
  const without = inside
    ? []
    : [
        { x: cx, y: at.y - high / 2 - 1.2 },
        { x: cx, y: below(at) + high / 2 + 1.2 },
      ];
  const wide = Math.max(...shown.map((l) => textWidth(l, LETTER.small, bold))) + 1.2;
  const candidates = [...within, ...without].map(({ x, y }, i) => {
    const own = area(x - wide / 2, y - high / 2 - 0.1, wide, high + 0.2);
    const sticksOut =
      i < within.length && (own.x < at.x || right(own) > right(at) || own.y < at.y || below(own) > below(at));
    const crossed = lines.filter((l) => overlaps(own, l, -0.2)).length;
    const cost = 2 * crossed + (i === 0 ? 0 : 1) + (i >= within.length ? 4 : 0) + (sticksOut ? 30 : 0);
    return {
      // few of them are ever written
      get marks() {
        return shown.map((l, k) =>
          text(x, y - high / 2 + LEADING * (k + 0.5), l, { align: 'centre', anchor: 'middle', bold }),
        );
      },
      lines: shown.length,
      area: own,
      cost,
      sticksOut,
    };
  });
  const allowed = inside ? candidates.filter((c) => !c.sticksOut) : candidates;
  return allowed.sort((a, b) => a.cost - b.cost);
}
