import { type Area, area, LETTER, line, overlaps, point, text } from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import { CLEAR, type Places, takeLed } from './place.ts';
import { LEADING } from './table.ts';

const FAR = [5, 7, 10, 13, 17, 22, 28, 36];
const DIRECTIONS = Array.from({ length: 16 }, (_, i) => (i * Math.PI) / 8);

/** A word over one of these costs more than the longest leader. */
const HEAVY = 50;

/**
 * A name beside what is too thin to hold it, on a leader: clear of what is written, its leader too, and as far as can be of what is drawn, of
 * walls and dimensions above all. It is broken into lines as suits the place best. Nothing where there is no free place.
 */
export function nameBeside(
  places: Places,
  {
    broken,
    at,
    drawn,
    heavy,
    bold,
  }: {
    /** Ways to break it into lines. */
    readonly broken: readonly (readonly string[])[];
    readonly at: Area;
    readonly drawn: readonly Area[];
    /** Lines that a word over them would break: walls and dimensions. */
    readonly heavy: readonly Area[];
    readonly bold: boolean;
  },
): readonly Mark[] {
  const candidates = [0.5, 0.3, 0.7, 0.12, 0.88].flatMap((share) => {
    // what is named may be long: the leader starts from one of a few places along it
    const from =
      at.width > at.height
        ? point(at.x + at.width * share, at.y + at.height / 2)
        : point(at.x + at.width / 2, at.y + at.height * share);
    return broken.flatMap((lines) => {
      const wide = Math.max(...lines.map((l) => textWidth(l, LETTER.small, bold))) + 1.2;
      const high = lines.length * LEADING + 0.4;
      return FAR.flatMap((far) =>
        DIRECTIONS.map((angle) => {
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          // the near edge of the words lies that far off, whichever way they stand
          const [x, y] = [from.x + c * (far + wide / 2), from.y + s * (far + high / 2)];
          const own = area(x - wide / 2, y - high / 2, wide, high);
          const covers = drawn.filter((d) => overlaps(d, own)).length;
          const touches = drawn.filter((d) => overlaps(d, own, -CLEAR)).length - covers;
          const crossed = heavy.filter((d) => overlaps(d, own)).length;
          const cost = far + 14 * covers + 4 * touches + HEAVY * crossed;
          return { x, y, lines, top: y - high / 2, area: own, leader: [from, nearest(own, from)] as const, cost };
        }),
      );
    });
  });
  const found = takeLed(
    places,
    candidates.sort((a, b) => a.cost - b.cost),
  );
  if (!found) return [];
  const {
    x,
    top,
    lines,
    leader: [from, end],
  } = found;
  return [
    line(from.x, from.y, end.x, end.y, 'thin'),
    { kind: 'circle', centre: from, radius: 0.45, fill: 'ink' },
    ...lines.map((l, i) => text(x, top + 0.2 + LEADING * (i + 0.5), l, { align: 'centre', anchor: 'middle', bold })),
  ];
}

/** The point of an area's edge that is nearest to a point outside it. */
export const nearest = (a: Area, p: { readonly x: number; readonly y: number }) =>
  point(Math.min(Math.max(p.x, a.x), a.x + a.width), Math.min(Math.max(p.y, a.y), a.y + a.height));
