import { formula } from '../notes/index.ts';
import { convert, convertTo, inch } from '../quantity/index.ts';
import { NDS, OVERHEAD } from './cited.ts';
import { DURATION_FACTOR, durationInput, gravityOf, woodInputs } from './fixings.ts';
import { WOOD_SCREWS } from './timber-fixing.ts';

/** Heads and thicknesses that the table of the NDS goes over, mm. */
const WIDEST = inch(0.5);
const THINNEST = inch(5 / 16);

/**
 * The head of a screw drawn through the wood under it: W_H = 690 π D_H G² t, t at most 2.5 D_H (lb, in); N. Source: NDS-2018, 12.2.5.
 * A head wider than its table counts as the widest in it.
 */
export function pullThrough(gravity: number, head: number, thickness: number): number {
  const D = convertTo(Math.min(head, WIDEST), 'in', 'length');
  const t = Math.min(convertTo(thickness, 'in', 'length'), 2.5 * D);
  return convert(690 * Math.PI * D * gravity ** 2 * t, 'lbf', 'force');
}

/** So thin that the equation is drawn on below the thinnest of its table. */
export const isBelowTable = (thickness: number): boolean => thickness < THINNEST - 1e-9;

/** Of flat-headed wood screws by number, inches. Source: NDS-2018, appendix L, table L3. */
const FLAT_HEADS: Readonly<Record<string, number>> = {
  '6': 0.262,
  '7': 0.287,
  '8': 0.312,
  '9': 0.337,
  '10': 0.363,
  '12': 0.414,
  '14': 0.48,
};
/** Of countersunk metric wood screws over their diameter, the least of 4 to 6 mm; DIN 95: 7.5, 8.3, 9.2 and 11 mm at 4, 4.5, 5 and 6 mm. */
const FLAT = 11 / 6;
/** Across the flats of hexagon lag screws, mm. Source: DIN 571; ANSI/ASME B18.2.1-2012, table 6, basic widths. */
const HEXAGONS: readonly (readonly [diameter: number, flats: number])[] = [
  [5, 8],
  [6, 10],
  [8, 13],
  [10, 17],
  [inch(1 / 4), inch(7 / 16)],
  [inch(5 / 16), inch(1 / 2)],
  [inch(3 / 8), inch(9 / 16)],
];
/** Of other sizes: less than any of these over its diameter. */
const HEXAGON = 1.5;

/** What bears under the head of a screw without a washer: the circle that fits into it, mm. */
export function headOf(kind: 'lag screw' | 'wood screw' | 'self-drilling screw', diameter: number): number {
  if (kind === 'lag screw') return HEXAGONS.find(([d]) => Math.abs(d - diameter) < 0.001)?.[1] ?? HEXAGON * diameter;
  const number = Object.entries(WOOD_SCREWS).find(([, shank]) => Math.abs(inch(shank) - diameter) < 0.001)?.[0];
  const head = number === undefined ? undefined : FLAT_HEADS[number];
  return head === undefined ? FLAT * diameter : inch(head);
}

/** A flat head lies flush in the wood: a third of its depth, at 90°, is taken from the thickness, as in the tests behind NDS 12.2.5. */
export const underHead = (
  kind: 'lag screw' | 'wood screw' | 'self-drilling screw',
  diameter: number,
  thickness: number,
): number => thickness - (kind === 'wood screw' ? (headOf(kind, diameter) - diameter) / 6 : 0);

export const headPullThrough = formula({
  name: 'head-pull-through',
  title: 'A head pulled through a panel',
  topic: 'strength',
  about: 'Allowable pull at which the head of a screw goes through the panel or rail that it holds.',
  formula: 'W_H = 690 π D_H G_H² min(t_H, 2.5 D_H) · C_D  (lb, in)',
  inputs: {
    head: { dimension: 'length', about: 'head or washer; at most 1/2 in counted', symbol: 'D_H', above: 0 },
    thickness: { dimension: 'length', about: 'wood left under the head', symbol: 't_H', above: 0 },
    gravity: {
      ...woodInputs.gravity,
      symbol: 'G_H',
      about: 'specific gravity of what is held: plywood of no named grade 0.42, Structural I and marine 0.50',
    },
    species: { ...woodInputs.species, about: 'wood of what is held, instead of its specific gravity' },
    'load-duration': durationInput,
    count: { dimension: 'count', about: 'how many share the pull', default: 1, min: 1 },
  },
  result: { symbol: 'W_H', name: 'reference pull-through value', dimension: 'force' },
  source: NDS('12.2.5, eq. (12.2-6), table 12.2F; specific gravity of panels table 12.3.3B'),
  validity: 'Printed for heads of 0.234 to 0.5 in and wood of 5/16 to 1-1/2 in; thinner wood along the same line.',
  caution: OVERHEAD,
  assumes: ['a round head, or the circle that fits into it, which bears all round on dry wood'],
  compute: (v) =>
    v.count * pullThrough(gravityOf(v.gravity, v.species), v.head, v.thickness) * DURATION_FACTOR[v['load-duration']],
});
