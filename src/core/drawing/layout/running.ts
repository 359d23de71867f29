import { LETTER, line, text } from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import { spread } from './spread.ts';

/**
 * Running dimensions (ISO 129-1:2018): every level told from one datum, each on its own extension line, so that nothing adds
 * up. Figures stand in a column and are read from below; where levels lie close their lines bend apart.
 */
export interface Level {
  /** On the paper. */
  readonly y: number;
  readonly figure: string;
}
const H = LETTER.small;
const GAP = 1.2;
const STRAIGHT = 2.5;
const BEND = 4;
const ROW = H + 1.3;

export const runningWidth = (levels: readonly Level[]): number =>
  levels.length === 0 ? 0 : GAP + STRAIGHT + BEND + 1 + Math.max(...levels.map((l) => textWidth(l.figure, H)));

/** Levels beside an object whose edge is at `x`; `limits` are how far up and down the figures may spread. */
export function runningLevels(
  levels: readonly Level[],
  side: 'left' | 'right',
  x: number,
  limits: readonly [number, number],
): readonly Mark[] {
  const sign = side === 'left' ? -1 : 1;
  const sorted = [...levels].sort((a, b) => a.y - b.y);
  const centres = spread(
    sorted.map((l) => ({ centre: l.y, width: ROW })),
    0,
    limits[0],
    limits[1],
  );
  return sorted.flatMap(({ y, figure }, i) => {
    const at = centres[i]!;
    const [start, knee, end] = [x + sign * GAP, x + sign * (GAP + STRAIGHT), x + sign * (GAP + STRAIGHT + BEND)];
    return [
      line(start, y, knee, y, 'thin'),
      line(knee, y, end, at, 'thin'),
      text(end + sign * 0.8, at, figure, { anchor: 'middle', align: side === 'left' ? 'right' : 'left' }),
    ];
  });
}
