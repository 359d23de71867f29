import { type AnyCalculator, type CheckRow, checkTable, formula, type Origin } from '../notes/index.ts';
import { inch } from '../quantity/index.ts';
import { VENTILATION_CALCULATORS, ventilationChecks } from './ventilation.ts';

export { gearWarming } from './ventilation.ts';

const screen = formula({
  name: 'screen-height',
  title: 'Height of a screen on the wall',
  topic: 'ergonomics',
  about: 'Middle of the picture for a seated viewer who looks a little down; its top should not stand above the eye.',
  formula: 'h = h_eye − D tan β',
  inputs: {
    eye: {
      dimension: 'length',
      about: 'eye height when seated: 42 to 48 in',
      symbol: 'h_eye',
      default: inch(45),
      above: 0,
    },
    distance: { dimension: 'length', about: 'eye to screen', symbol: 'D', above: 0 },
    gaze: {
      dimension: 'angle',
      about: 'downward gaze to the middle: 15 to 20° at a desk',
      symbol: 'β',
      default: 15,
      min: 0,
      max: 60,
    },
  },
  result: { symbol: 'h', name: 'middle of the picture above the floor', dimension: 'length' },
  source: 'from memory',
  validity: 'ANSI/HFES 100, for screens at a desk; across a room the gaze is flatter.',
  compute: ({ eye, distance, gaze }) => eye - distance * Math.tan((gaze * Math.PI) / 180),
});

interface HouseDimension {
  readonly from: number;
  readonly to?: number;
  readonly source: Origin;
}
const CABINETS: Origin = { title: 'standard cabinet measurements', place: 'as listed by cabinet dealers' };
const NEC: Origin = { title: 'NEC', place: '210.52(A)' };
/** Sizes a room or a cabinet usually has, or must have, mm. */
export const HOUSE_DIMENSIONS = {
  'base cabinet height, without top': { from: inch(34.5), source: CABINETS },
  'base cabinet depth': { from: inch(24), source: CABINETS },
  'toe-kick height': { from: inch(4.5), source: CABINETS },
  'wall cabinet depth': { from: inch(12), source: CABINETS },
  'counter to wall cabinet': { from: inch(18), source: CABINETS },
  'counter height': { from: inch(36), source: CABINETS },
  'stud spacing': { from: inch(16), to: inch(24), source: { title: 'IRC; GA-216' } },
  'receptacle height, accessible': {
    from: inch(15),
    to: inch(48),
    source: { title: 'ADA standards', place: 'reach ranges' },
  },
  'receptacle, farthest along the floor line': { from: inch(72), source: NEC },
  'wall that needs a receptacle, width': { from: inch(24), source: NEC },
  'receptacle that counts, height': { from: inch(66), source: NEC },
  'outlet box, usual height': { from: inch(12), to: inch(18), source: 'common practice' },
  'switch box, usual height': { from: inch(48), source: 'common practice' },
} as const satisfies Record<string, HouseDimension>;
export type HouseDimensionName = keyof typeof HOUSE_DIMENSIONS;

const house = formula({
  name: 'house-dimension',
  title: 'Usual or required size',
  topic: 'ergonomics',
  about: 'Cabinets, studs, outlets: what to expect, and what codes ask.',
  formula: 'table',
  inputs: { what: { choices: Object.keys(HOUSE_DIMENSIONS) as HouseDimensionName[], about: 'which size' } },
  result: { symbol: 'x', name: 'size, or the least of a range', dimension: 'length' },
  source: { title: 'codes and dealers’ lists', place: 'see the working' },
  caution: 'Outlets and switches are an electrician’s work; the local code and its edition govern.',
  compute: ({ what }) => {
    const { from, to, source }: HouseDimension = HOUSE_DIMENSIONS[what];
    return {
      value: from,
      source,
      ...(to !== undefined && { also: [{ symbol: 'x₂', name: 'most', value: to, unit: 'mm' }] }),
    };
  },
});

const outlets = formula({
  name: 'receptacles-needed',
  title: 'Receptacles a wall needs',
  topic: 'ergonomics',
  about: 'Least number so that no point along the floor line is more than 6 ft from one; walls from 2 ft wide.',
  formula: 'n = ⌈L / 12 ft⌉ for L ≥ 2 ft',
  inputs: { wall: { dimension: 'length', about: 'unbroken wall along the floor', symbol: 'L', above: 0 } },
  result: { symbol: 'n', name: 'receptacles', dimension: 'count' },
  source: { title: 'NEC', place: '210.52(A)' },
  caution: 'An electrician’s work; the local code and its edition govern. Casework must not bury an outlet.',
  compute: ({ wall }) => (wall < inch(24) ? 0 : Math.ceil(wall / inch(144) - 1e-9)),
});

export const calculators: readonly AnyCalculator[] = [screen, house, outlets, ...VENTILATION_CALCULATORS];

const EXACT = 1e-9;
const SOUND_AND_VISION = 'a magazine’s article on viewing distances, from the angle';
/** Two of them hold calculators of the camera topic, which has the viewing distances. */
export const checks: readonly CheckRow[] = [
  ...ventilationChecks,
  ...checkTable('viewing-distance', 'cinema recommendation of 40°, 0.84 rule', 'seen', [
    [{ width: '100 in', angle: 40 }, 137.37, 'in', '0.5%'],
    [{ diagonal: '100 in', angle: 40 }, 119.73, 'in', '0.5%'],
  ]),
  ...checkTable('viewing-distance', SOUND_AND_VISION, 'seen', [
    [{ width: '100 in', angle: 36 }, 153.9, 'in', 1],
    [{ diagonal: '100 in', angle: 36 }, 134.12, 'in', '0.5%'],
    // the article multiplies by 2.2; the angle gives 2.166
    [{ width: '100 in', angle: 26 }, 216.6, 'in', 1],
    [{ diagonal: '100 in', angle: 26 }, 188.76, 'in', '0.5%'],
    [{ diagonal: '50 in', angle: 30 }, 81.3, 'in', 0.5],
  ]),
  ...checkTable('one-minute-distance', 'ITU-R BT.500 as quoted in viewing-distance texts: 4.8, 3.2, 1.6, 0.8', 'seen', [
    [{ lines: 720 }, 4.775, '', '2%'],
    [{ lines: 1080 }, 3.183, '', '2%'],
    [{ lines: 2160 }, 1.592, '', '2%'],
    [{ lines: 4320 }, 0.796, '', '2%'],
  ]),
  ...checkTable('screen-height', 'geometry: 1 m away, 15° down', 'computed', [
    [{ eye: 1150, distance: 1000, gaze: 15 }, 1150 - 267.949, 'mm', 0.001],
  ]),
  ...checkTable('house-dimension', 'cabinet dealers’ lists of standard measurements', 'seen', [
    [{ what: 'base cabinet height, without top' }, 34.5, 'in', EXACT],
    [{ what: 'base cabinet depth' }, 24, 'in', EXACT],
    [{ what: 'toe-kick height' }, 4.5, 'in', EXACT],
    [{ what: 'wall cabinet depth' }, 12, 'in', EXACT],
    [{ what: 'counter to wall cabinet' }, 18, 'in', EXACT],
    [{ what: 'counter height' }, 36, 'in', EXACT],
  ]),
  ...checkTable('house-dimension', 'IRC / GA-216; ADA; NEC 210.52(A), as reprinted', 'seen', [
    [{ what: 'stud spacing' }, 16, 'in', EXACT],
    [{ what: 'stud spacing' }, 24, 'in', EXACT, 'most'],
    [{ what: 'receptacle height, accessible' }, 15, 'in', EXACT],
    [{ what: 'receptacle height, accessible' }, 48, 'in', EXACT, 'most'],
    [{ what: 'receptacle, farthest along the floor line' }, 6, 'ft', EXACT],
    [{ what: 'wall that needs a receptacle, width' }, 2, 'ft', EXACT],
    [{ what: 'receptacle that counts, height' }, 5.5, 'ft', EXACT],
  ]),
  ...checkTable('house-dimension', 'pages for home electricians: 12 to 18 in, 48 in', 'seen', [
    [{ what: 'outlet box, usual height' }, 12, 'in', EXACT],
    [{ what: 'outlet box, usual height' }, 18, 'in', EXACT, 'most'],
    [{ what: 'switch box, usual height' }, 48, 'in', EXACT],
  ]),
  ...checkTable('receptacles-needed', 'NEC 210.52(A): at most 6 ft from any point, walls from 2 ft', 'computed', [
    [{ wall: '12 ft' }, 1, '', EXACT],
    [{ wall: '13 ft 4 in' }, 2, '', EXACT],
    [{ wall: '23 in' }, 0, '', EXACT],
  ]),
];
