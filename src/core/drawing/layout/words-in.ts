import { type Area, area, extentOf, LETTER, line, point, rectangle, type TextMark, text } from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import { type Places, takeFirst, takeLed } from './place.ts';

export interface Line {
  readonly words: string;
  readonly h: number;
  readonly bold: boolean;
}
export const small = (words: string): Line => ({ words, h: LETTER.small, bold: false });

const SHIFTS = [0.5, 0.3, 0.7, 0.15, 0.85];
const LEAD = 1.55;

/** Some lines in an area, as the first of several ways that fits: upright first, then turned to read from the right. */
export function wordsIn(places: Places, at: Area, ways: readonly (readonly Line[])[]): readonly Mark[] {
  for (const turned of [false, true]) {
    const [wide, high] = turned ? [at.height - 1.6, at.width - 0.8] : [at.width - 1.6, at.height - 0.8];
    for (const lines of ways) {
      const tall = lines.reduce((sum, l) => sum + l.h * LEAD, 0) - 0.4 * LETTER.small;
      const broad = Math.max(...lines.map((l) => textWidth(l.words, l.h, l.bold)));
      if (tall > high || broad > wide) continue;
      const [sx, sy] = turned ? [tall, broad] : [broad, tall];
      const candidates = SHIFTS.flatMap((fy) =>
        SHIFTS.map((fx) => {
          const cx = at.x + sx / 2 + 0.4 + (at.width - sx - 0.8) * fx;
          const cy = at.y + sy / 2 + 0.4 + (at.height - sy - 0.8) * fy;
          const marks = written(lines, cx, cy, tall, turned);
          return { marks, area: extentOf(marks)! };
        }),
      );
      const found = takeFirst(places, candidates);
      if (found) return found.marks;
    }
  }
  return [];
}

function written(lines: readonly Line[], cx: number, cy: number, tall: number, turned: boolean): readonly TextMark[] {
  let t = -tall / 2;
  return lines.map(({ words, h, bold }) => {
    const base = t + h * 1.12;
    t += h * LEAD;
    return turned
      ? text(cx + base, cy, words, { height: h, align: 'centre', turn: -90, bold })
      : text(cx, cy + base, words, { height: h, align: 'centre', bold });
  });
}

/** Words as lines of a width, none of them broken: one line where a word is wider than that. */
export function linesOf(words: string, width: number, bold = false): readonly Line[] {
  const whole = words.split(/\s+/).every((w) => textWidth(w, LETTER.small, bold) <= width);
  return (whole ? wrapText(words, LETTER.small, width, bold) : [words]).map((l) => ({
    words: l,
    h: LETTER.small,
    bold,
  }));
}

/** A number, a name and a size, as much as fits; at least the number, on a leader where it must be. */
export function numberedWords(places: Places, at: Area, number: string, name: string, size: string): readonly Mark[] {
  const head: Line = { words: number, h: LETTER.head, bold: true };
  const inside = wordsIn(places, at, [
    [head, ...linesOf(name, at.width - 1.6).slice(0, 3), small(size)],
    [head, small(size)],
    [{ words: `${number}   ${size}`, h: LETTER.small, bold: true }],
    [{ words: number, h: LETTER.small, bold: true }],
  ]);
  return inside.length > 0 ? inside : tag(places, at, number);
}

const FAR = [4, 5.5, 7.5, 10, 13, 17, 22];
const DIRECTIONS = [-60, -120, 60, 120, -30, -150, 30, 150, -90, 90, 0, 180];

/** A number on a short leader, for what is too thin to hold it. Nothing when there is no free place near. */
export function tag(places: Places, at: Area, number: string): readonly Mark[] {
  const [tx, ty] = [at.x + at.width / 2, at.y + at.height / 2];
  const wide = textWidth(number, LETTER.small, true) + 1.2;
  const spots = FAR.flatMap((far) =>
    DIRECTIONS.flatMap((degrees) =>
      [0, 0.3, -0.3, 0.45, -0.45].map((share) => {
        const angle = (degrees * Math.PI) / 180;
        const [sx, sy] = [tx + at.width * share, ty + at.height * share];
        const [x, y] = [sx + far * Math.cos(angle), sy + far * Math.sin(angle)];
        const leader = [point(sx, sy), point(x, y)] as const;
        return { x, y, sx, sy, leader, area: area(x - wide / 2, y - 1.8, wide, 3.6) };
      }),
    ),
  );
  const spot = takeLed(places, spots);
  if (!spot) return [];
  return [
    line(spot.x, spot.y, spot.sx, spot.sy, 'thin'),
    { kind: 'circle', centre: point(spot.sx, spot.sy), radius: 0.45, fill: 'ink' },
    rectangle(spot.area, { fill: 'paper' }),
    text(spot.x, spot.y, number, { align: 'centre', anchor: 'middle', bold: true }),
  ];
}
