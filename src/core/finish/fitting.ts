import { type AnyCalculator, formula, type Origin } from '../notes/index.ts';
import { inch } from '../quantity/index.ts';
import { minimaxFit } from './minimax.ts';
import { mitreFront, mitreSaw } from './trim.ts';

export const minimaxGap = formula({
  name: 'minimax-gap',
  title: 'Least possible gap behind a run on a wavy wall',
  topic: 'finish',
  about:
    'Where a straight back sits so that its largest gap to the wall is least: the scribe or moulding must cover it.',
  formula: 'min over m of [max(y − m x) − min(y − m x)];  y = m x + c, c = max(y − m x)',
  inputs: {
    along: { dimension: 'length', about: 'where along the wall it was measured', symbol: 'x', list: true },
    out: { dimension: 'length', about: 'how far the wall stands out into the room there', symbol: 'y', list: true },
  },
  result: { symbol: 'g', name: 'largest gap', dimension: 'length' },
  source: { title: 'One-sided minimax (Chebyshev) line', place: 'convexity of the hull’s width' },
  assumes: ['the wall between the measured points is no worse than at them'],
  compute: ({ along, out }) => {
    if (along.length !== out.length) throw new RangeError('along and out must be lists of the same length');
    const fit = minimaxFit(along.map((x, i) => ({ x, y: out[i]! })));
    return {
      value: fit.largestGap,
      also: [
        { symbol: 'm', name: 'slope', value: fit.slope, unit: '' },
        { symbol: 'c', name: 'intercept', value: fit.intercept, unit: 'mm' },
        { symbol: 'x_t', name: 'touches first at', value: along[fit.touches[0]!]!, unit: 'mm' },
        { symbol: 'x_g', name: 'widest first at', value: along[fit.widest[0]!]!, unit: 'mm' },
      ],
    };
  },
});

interface Tolerance {
  readonly deviation: number;
  readonly over: number;
  readonly source: Origin;
}
/** How far walls and floors may be out, mm over mm. */
export const BUILDING_TOLERANCES = {
  'wall plumb, performance guidelines': {
    deviation: inch(3 / 8),
    over: inch(32),
    source: {
      title: 'Residential Construction Performance Guidelines',
      place: 'as quoted by a wood-construction council',
    },
  },
  'wall plumb, gypsum finish': {
    deviation: inch(1 / 4),
    over: inch(120),
    source: { title: 'Handbook of Construction Tolerances', place: 'as quoted by a wood-construction council' },
  },
  'stud plumb, wallboard': {
    deviation: inch(1 / 4),
    over: inch(96),
    source: { title: 'UFGS', place: 'as quoted by a wood-construction council' },
  },
  'stud plumb, thin-set tile': {
    deviation: inch(1 / 8),
    over: inch(96),
    source: { title: 'UFGS', place: 'as quoted by a wood-construction council' },
  },
  'wall, residential and light commercial': {
    deviation: inch(1 / 4),
    over: inch(32),
    source: { title: 'Residential & Light Commercial standard', place: 'as quoted by a wood-construction council' },
  },
  'ceiling bow, builder’s standard': {
    deviation: inch(1 / 2),
    over: inch(32),
    source: { title: 'a builder’s performance standard', place: 'p. 54' },
  },
  'sub-floor, builder’s standard': {
    deviation: inch(3 / 8),
    over: inch(32),
    source: { title: 'a builder’s performance standard', place: 'p. 54' },
  },
  'square layout, on the diagonal': {
    deviation: inch(3 / 4),
    over: inch(1200),
    source: { title: 'framing tolerances in the building trade press' },
  },
} as const satisfies Record<string, Tolerance>;
export type BuildingTolerance = keyof typeof BUILDING_TOLERANCES;

const tolerance = formula({
  name: 'building-tolerance',
  title: 'How far a wall, ceiling or floor may be out',
  topic: 'finish',
  about: 'What a run must expect and still fit: the published allowance, scaled to a length.',
  formula: 'd = d₀ · L / L₀',
  inputs: {
    standard: { choices: Object.keys(BUILDING_TOLERANCES) as BuildingTolerance[], about: 'which allowance' },
    length: {
      dimension: 'length',
      about: 'height or length it is wanted for; the standard’s own when left out',
      symbol: 'L',
      optional: true,
      above: 0,
    },
  },
  result: { symbol: 'd', name: 'allowed deviation', dimension: 'length' },
  source: { title: 'residential tolerance guides', place: 'see the working' },
  assumes: ['scaled in proportion to the length'],
  compute: ({ standard, length }) => {
    const { deviation, over, source } = BUILDING_TOLERANCES[standard];
    return { value: (deviation * (length ?? over)) / over, source };
  },
});

const layout = formula({
  name: 'layout-tolerance',
  title: 'How exact a setting-out must be',
  topic: 'finish',
  about: 'Framing layout: 1/8 in below 10 ft, 1/4 in from 10 to 100 ft.',
  formula: 'table',
  inputs: { length: { dimension: 'length', about: 'length set out', symbol: 'L', above: 0, max: inch(1200) } },
  result: { symbol: 'd', name: 'allowed deviation', dimension: 'length' },
  source: { title: 'foundation and framing tolerances in the building trade press' },
  compute: ({ length }) => inch(length < inch(120) ? 1 / 8 : 1 / 4),
});

const mitre = formula({
  name: 'mitre-angle',
  title: 'Saw setting for a mitred corner',
  topic: 'finish',
  about: 'Two equal pieces that meet in a corner of the room; measure the corner, few are square.',
  formula: 'α = |90° − θ/2|',
  inputs: {
    corner: { dimension: 'angle', about: 'angle of the room: 90 inside, 270 outside', symbol: 'θ', above: 0, max: 359 },
  },
  result: { symbol: 'α', name: 'from square', dimension: 'angle' },
  source: { title: 'Geometry', place: 'bisector of the corner' },
  compute: ({ corner }) => mitreSaw(corner),
});

const mitreLength = formula({
  name: 'mitre-length',
  title: 'Length to cut a mitred moulding',
  topic: 'finish',
  about: 'Longest edge of a piece between two corners; at inside corners that is the wall itself.',
  formula: 'L = wall + Σ max(0, t tan(θ/2 − 90°))',
  inputs: {
    wall: { dimension: 'length', about: 'along the wall, corner to corner', above: 0 },
    thickness: { dimension: 'length', about: 'how far the moulding stands out', symbol: 't', above: 0 },
    start: {
      dimension: 'angle',
      about: 'angle of the room at one end; 180 for a square end',
      symbol: 'θ₁',
      default: 90,
      above: 0,
      max: 359,
    },
    end: {
      dimension: 'angle',
      about: 'angle of the room at the other end',
      symbol: 'θ₂',
      default: 90,
      above: 0,
      max: 359,
    },
  },
  result: { symbol: 'L', name: 'longest edge', dimension: 'length' },
  source: { title: 'Geometry', place: 'bisector of the corner' },
  compute: (v) => {
    const fronts = [mitreFront(v.start, v.thickness), mitreFront(v.end, v.thickness)];
    return {
      value: fronts.reduce((sum, extra) => sum + Math.max(0, extra), v.wall),
      also: [
        {
          symbol: 'L_f',
          name: 'length of the front edge',
          value: fronts.reduce((sum, extra) => sum + extra, v.wall),
          unit: 'mm',
        },
      ],
    };
  },
});

export const FITTING_CALCULATORS: readonly AnyCalculator[] = [minimaxGap, tolerance, layout, mitre, mitreLength];
