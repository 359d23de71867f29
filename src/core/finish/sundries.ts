import { type AnyCalculator, formula } from '../notes/index.ts';
import { convert, inch } from '../quantity/index.ts';

/** Cross-section of a bead, mm². */
export function beadArea(shape: BeadShape, width: number, depth: number): number {
  switch (shape) {
    case 'joint':
      return width * depth;
    case 'round':
      return (Math.PI * width ** 2) / 4;
    case 'fillet':
      return (width * depth) / 2;
    default:
      return shape satisfies never;
  }
}
export const BEAD_SHAPES = ['joint', 'round', 'fillet'] as const;
export type BeadShape = (typeof BEAD_SHAPES)[number];

export const sealantLength = formula({
  name: 'sealant-length',
  title: 'Bead length from a cartridge',
  topic: 'finish',
  about: 'How far a cartridge of caulk or sealant goes, and how many a run takes.',
  formula: 'L = V / A;  joint A = w d, round A = π w²/4, fillet A = w d/2',
  inputs: {
    pack: {
      dimension: 'liquid volume',
      about: 'contents of the cartridge',
      symbol: 'V',
      default: convert(10.1, 'fl oz', 'liquid volume'),
      above: 0,
    },
    shape: {
      choices: BEAD_SHAPES,
      about: 'shape: a filled joint, a round bead, or a fillet tooled flat in a corner',
      default: 'joint',
    },
    width: {
      dimension: 'length',
      about: 'width of the joint, diameter of the bead, leg of the fillet',
      symbol: 'w',
      above: 0,
    },
    depth: {
      dimension: 'length',
      about: 'depth of the joint, other leg; as the width when left out',
      symbol: 'd',
      optional: true,
      above: 0,
    },
    run: { dimension: 'length', about: 'length to fill, to count cartridges', optional: true, above: 0 },
  },
  result: { symbol: 'L', name: 'length of bead', dimension: 'length' },
  source: { title: 'Volume over cross-section', place: '231 in³ a US gallon of 128 fl oz' },
  assumes: ['nothing is wasted: add a tenth for tooling and the nozzle'],
  compute: (v) => {
    const length = (v.pack * 1e6) / beadArea(v.shape, v.width, v.depth ?? v.width);
    return {
      value: length,
      also: [
        { symbol: 'V', name: 'contents', value: v.pack * 1e-3, unit: 'm³' },
        ...(v.run === undefined
          ? []
          : [{ symbol: 'n', name: 'cartridges', value: Math.ceil(v.run / length - 1e-9), unit: '' }]),
      ],
    };
  },
});

/** Clamp pressure for PVA glue, MPa. Source: a glue maker's technical guide, 100–150, 150–200, 200–300 psi. */
export const CLAMP_PRESSURE = {
  softwood: [convert(100, 'psi', 'stress'), convert(150, 'psi', 'stress')],
  'medium wood': [convert(150, 'psi', 'stress'), convert(200, 'psi', 'stress')],
  hardwood: [convert(200, 'psi', 'stress'), convert(300, 'psi', 'stress')],
} as const;
export type ClampWood = keyof typeof CLAMP_PRESSURE;

const clamp = formula({
  name: 'clamp-force',
  title: 'Clamp force for a glued joint',
  topic: 'finish',
  about: 'Force over the whole joint, and clamps at a spacing.',
  formula: 'F = p · L · T;  n = ⌈L / spacing⌉',
  inputs: {
    length: { dimension: 'length', about: 'length of the joint', symbol: 'L', above: 0 },
    thickness: { dimension: 'length', about: 'thickness of the joint', symbol: 'T', above: 0 },
    wood: {
      choices: Object.keys(CLAMP_PRESSURE) as ClampWood[],
      about: 'low end of the range for it',
      default: 'hardwood',
    },
    pressure: { dimension: 'stress', about: 'pressure, instead of by wood', symbol: 'p', optional: true, above: 0 },
    spacing: { dimension: 'length', about: 'clamps apart: 8 to 12 in', default: inch(8), above: 0 },
  },
  result: { symbol: 'F', name: 'force over the joint', dimension: 'force' },
  source: { title: 'a glue maker’s technical guide', place: 'clamp pressures' },
  compute: (v) => {
    const p = v.pressure ?? CLAMP_PRESSURE[v.wood][0];
    const n = Math.max(1, Math.ceil(v.length / v.spacing - 1e-9));
    const F = p * v.length * v.thickness;
    return {
      value: F,
      looked: v.pressure === undefined ? [{ symbol: 'p', name: `pressure for ${v.wood}`, value: p, unit: 'MPa' }] : [],
      also: [
        { symbol: 'n', name: 'clamps', value: n, unit: '' },
        { symbol: 'F/n', name: 'force of each', value: F / n, unit: 'N' },
      ],
    };
  },
});

/** Nails by penny size: common and box, diameter and length in inches. Source: NDS appendix L, table L4; 6d, 12d, 20d from memory. */
export const NAILS = {
  common: {
    '6': [0.113, 2],
    '8': [0.131, 2.5],
    '10': [0.148, 3],
    '12': [0.148, 3.25],
    '16': [0.162, 3.5],
    '20': [0.192, 4],
  },
  box: {
    '6': [0.099, 2],
    '8': [0.113, 2.5],
    '10': [0.128, 3],
    '12': [0.128, 3.25],
    '16': [0.135, 3.5],
    '20': [0.148, 4],
  },
} as const;

const nailSize = formula({
  name: 'nail-size',
  title: 'Size of a nail by penny',
  topic: 'finish',
  about: 'Shank and length of common and box nails.',
  formula: 'table',
  inputs: {
    kind: { choices: ['common', 'box'], about: 'kind of nail', default: 'common' },
    penny: { choices: ['6', '8', '10', '12', '16', '20'], about: 'penny size' },
  },
  result: { symbol: 'D', name: 'shank', dimension: 'length' },
  source: { title: 'NDS', edition: '2018', place: 'appendix L, table L4' },
  compute: ({ kind, penny }) => {
    const [D, L] = NAILS[kind][penny];
    return { value: inch(D), also: [{ symbol: 'L', name: 'length', value: inch(L), unit: 'mm' }] };
  },
});

/** Inches. 1 + (d − 2)/4 from 2d to 10d; 12d 3-1/4, 16d 3-1/2, 20d 4. */
export function pennyLength(penny: number): number {
  if (!Number.isInteger(penny) || penny < 2) throw new RangeError('penny sizes start at 2d and are whole');
  if (penny <= 10) return inch(1 + (penny - 2) / 4);
  const larger: Readonly<Record<number, number>> = { 12: 3.25, 16: 3.5, 20: 4 };
  const length = larger[penny];
  if (length === undefined) throw new RangeError(`there is no ${penny}d nail in the table: 2 to 10, 12, 16, 20`);
  return inch(length);
}

const penny = formula({
  name: 'penny-length',
  title: 'Length of a nail by penny',
  topic: 'finish',
  about: 'From the old penny size.',
  formula: 'L = 1 + (d − 2)/4 in up to 10d; 12d 3-1/4, 16d 3-1/2, 20d 4',
  inputs: { penny: { dimension: 'count', about: 'penny size', symbol: 'd', min: 2, max: 20 } },
  result: { symbol: 'L', name: 'length', dimension: 'length' },
  source: 'common practice',
  compute: (v) => pennyLength(v.penny),
});

/** Shank of pneumatic nails by steel-wire gauge, inches (from memory; 15 gauge seen). */
export const WIRE_GAUGES = { '15': 0.072, '16': 0.0625, '18': 0.0475, '23': 0.025 } as const;

const wire = formula({
  name: 'nailer-gauge',
  title: 'Shank of a finish nail by gauge',
  topic: 'finish',
  about: 'What a 15, 16, 18 or 23 gauge nailer drives: 18 gauge is a brad, 23 a pin.',
  formula: 'table',
  inputs: { gauge: { choices: ['15', '16', '18', '23'], about: 'gauge of the nailer' } },
  result: { symbol: 'D', name: 'shank', dimension: 'length' },
  source: 'from memory',
  validity: 'Steel-wire gauge. Brads hold a joint until the glue has dried and are not counted as strength.',
  compute: ({ gauge }) => inch(WIRE_GAUGES[gauge]),
});

const banding = formula({
  name: 'edge-banding',
  title: 'Edge banding to buy',
  topic: 'finish',
  about: 'Length for a list of edges, with an overhang at each end to trim off.',
  formula: 'L = Σ (edge · count + 2 · overhang · count) (1 + waste)',
  inputs: {
    edges: { dimension: 'length', about: 'edges to cover', list: true, above: 0 },
    count: { dimension: 'count', about: 'how many times the list', default: 1, min: 1 },
    overhang: { dimension: 'length', about: 'left over at each end of an edge', default: 15, min: 0 },
    waste: { dimension: 'ratio', about: 'for slips and splices', default: 0.05, min: 0, max: 1 },
  },
  result: { symbol: 'L', name: 'banding', dimension: 'length' },
  source: 'common practice',
  compute: (v) => v.edges.reduce((sum, edge) => sum + edge + 2 * v.overhang, 0) * v.count * (1 + v.waste),
});

export const SUNDRY_CALCULATORS: readonly AnyCalculator[] = [sealantLength, clamp, nailSize, penny, wire, banding];
