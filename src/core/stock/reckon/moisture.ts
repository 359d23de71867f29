import { formula, type Source } from '../../notes/index.ts';
import { SPECIES, SPECIES_NAMES, type SpeciesName } from '../data/species.ts';

const HANDBOOK = 'Wood Handbook: Wood as an Engineering Material, FPL-GTR-190';
const EMC_SOURCE: Source = {
  title: HANDBOOK,
  edition: '2010',
  place: 'eq. (4-5), Hailwood–Horrobin sorption; constants as in FPL-RN-268',
};
const FIBRE_SATURATION = 30; // % moisture content, FPL-GTR-190 ch. 4

/**
 * Moisture content wood comes to in air, % of its oven-dry mass.
 *
 *     M = 1800/W · [ K h/(1−K h) + (K₁ K h + 2 K₁ K₂ K² h²)/(1 + K₁ K h + K₁ K₂ K² h²) ]
 *
 * temperature in °C, relative humidity h as a ratio 0…1 (below 1). The constants are the published ones for °F.
 * Source: FPL-GTR-190 (2010), eq. (4-5).
 */
export function equilibriumMoisture(temperature: number, h: number): number {
  const T = temperature * 1.8 + 32; // °F
  const W = 330 + 0.452 * T + 0.00415 * T ** 2;
  const K = 0.791 + 0.000463 * T - 0.000000844 * T ** 2;
  const K1 = 6.34 + 0.000775 * T - 0.0000935 * T ** 2;
  const K2 = 1.09 + 0.0284 * T - 0.0000904 * T ** 2;
  const Kh = K * h;
  return (1800 / W) * (Kh / (1 - Kh) + (K1 * Kh + 2 * K1 * K2 * Kh ** 2) / (1 + K1 * Kh + K1 * K2 * Kh ** 2));
}

/**
 * Dimensional change coefficient, 1 per % of moisture content, for small changes about 10 %.
 * From ΔD = D (M₂−M₁)/(30·100/S − 30 + M₁) with M₁ = 10: C = 1/(3000/S − 20). Source: FPL-GTR-190, eqs. (13-1), (13-2).
 */
export const changeCoefficient = (shrinkagePercent: number): number =>
  1 / ((FIBRE_SATURATION * 100) / shrinkagePercent - FIBRE_SATURATION + 10);

/** Change of a width, in the width's unit, when the moisture content goes from one % to another (6 … 14 %). */
export const woodMovement = (width: number, coefficient: number, from: number, to: number): number =>
  width * coefficient * (to - from);

export const MOVEMENT_DIRECTIONS = ['tangential', 'radial'] as const;
type Direction = (typeof MOVEMENT_DIRECTIONS)[number];

export const coefficientOf = (species: SpeciesName, direction: Direction): number =>
  changeCoefficient(SPECIES[species].shrinkage[direction]);

const directionInput = {
  choices: MOVEMENT_DIRECTIONS,
  about: 'how it is sawn: tangential is flat-sawn and moves more, radial is quarter-sawn',
  default: 'tangential',
} as const;

function shrinkageOf(species: SpeciesName) {
  const { shrinkage, shrinkageSource } = SPECIES[species];
  return { shrinkage, source: shrinkageSource };
}

const equilibrium = formula({
  name: 'equilibrium-moisture',
  title: 'Moisture content wood comes to in air',
  topic: 'stock',
  about: 'What a board settles at after weeks in a room of steady temperature and humidity.',
  formula: 'M = 1800/W · [Kh/(1−Kh) + (K₁Kh + 2K₁K₂K²h²)/(1 + K₁Kh + K₁K₂K²h²)]',
  inputs: {
    temperature: { dimension: 'temperature', about: 'air temperature', symbol: 'T', default: 21, min: -10, max: 70 },
    humidity: { dimension: 'ratio', about: 'relative humidity, 0 to 1 or in %', symbol: 'h', min: 0, max: 0.98 },
  },
  result: { symbol: 'M', name: 'equilibrium moisture content', dimension: 'percent' },
  source: EMC_SOURCE,
  validity: 'An average of species; wood that is drying settles a little above, wood that is wetting a little below.',
  compute: ({ temperature, humidity }) => equilibriumMoisture(temperature, humidity),
});

const shrinkage = formula({
  name: 'wood-shrinkage',
  title: 'Shrinkage from green to a moisture content',
  topic: 'stock',
  about: 'How much of its green size a wood loses on drying; at 0 % moisture it is the handbook figure itself.',
  formula: 'S_M = S₀ (30 − M) / 30',
  inputs: {
    species: { choices: SPECIES_NAMES, about: 'wood; or give its green-to-oven-dry shrinkage', optional: true },
    direction: {
      choices: ['tangential', 'radial', 'volumetric'],
      about: 'along the rings, across them, or of the volume',
      default: 'tangential',
    },
    'full-shrinkage': {
      dimension: 'percent',
      about: 'shrinkage from green to oven-dry',
      symbol: 'S₀',
      optional: true,
      above: 0,
      max: 30,
    },
    moisture: { dimension: 'percent', about: 'moisture content dried to', symbol: 'M', default: 0, min: 0 },
    'fibre-saturation': {
      dimension: 'percent',
      about: 'moisture content at which shrinking begins',
      symbol: 'M_f',
      default: FIBRE_SATURATION,
      above: 0,
      max: 40,
    },
  },
  result: { symbol: 'S_M', name: 'shrinkage, % of the green size', dimension: 'percent' },
  source: { title: HANDBOOK, edition: '2010', place: 'eq. (4-7); S₀ of the species from table 4-3' },
  compute: ({ species, direction, 'full-shrinkage': given, moisture, 'fibre-saturation': fibre }) => {
    if (given === undefined && species === undefined) throw new RangeError('name a species or give its full-shrinkage');
    const handbook = species === undefined ? undefined : shrinkageOf(species);
    const S0 = given ?? handbook!.shrinkage[direction];
    return {
      value: (S0 * Math.max(0, fibre - moisture)) / fibre,
      ...(given === undefined && handbook
        ? {
            looked: [
              { symbol: 'S₀', name: 'shrinkage, green to oven-dry', value: S0, unit: '%', source: handbook.source },
            ],
          }
        : {}),
    };
  },
});

const movementInputs = {
  width: { dimension: 'length', about: 'width across the grain', symbol: 'D', above: 0 },
  species: { choices: SPECIES_NAMES, about: 'wood; or give its coefficient', optional: true },
  direction: directionInput,
  coefficient: {
    dimension: 'number',
    about: 'dimensional change per % of moisture content, e.g. 0.00353',
    symbol: 'C',
    optional: true,
    above: 0,
    max: 0.01,
  },
} as const;

function movementCoefficient(
  species: SpeciesName | undefined,
  direction: Direction,
  coefficient: number | undefined,
): { C: number; looked: { symbol: string; name: string; value: number; unit: string; source: Source }[] } {
  if (coefficient !== undefined) return { C: coefficient, looked: [] };
  if (species === undefined) throw new RangeError('name a species or give its coefficient');
  const C = coefficientOf(species, direction);
  return {
    C,
    looked: [
      {
        symbol: 'C',
        name: `change per % moisture, ${direction}`,
        value: C,
        unit: '',
        source: { title: HANDBOOK, edition: '2010', place: 'eq. (13-2) at 10 %, shrinkage from table 4-3' },
      },
    ],
  };
}

const movement = formula({
  name: 'wood-movement',
  title: 'Movement of a solid top or board across the grain',
  topic: 'stock',
  about: 'How much a solid-wood width swells (+) or shrinks (−) between two moisture contents.',
  formula: 'ΔD = D · C · (M₂ − M₁)',
  inputs: {
    ...movementInputs,
    from: { dimension: 'percent', about: 'moisture content when made', symbol: 'M₁', min: 0, max: 30 },
    to: { dimension: 'percent', about: 'moisture content later', symbol: 'M₂', min: 0, max: 30 },
  },
  result: { symbol: 'ΔD', name: 'change of width', dimension: 'length' },
  source: { title: HANDBOOK, edition: '2010', place: 'eq. (13-1)' },
  validity: 'Moisture contents from 6 to 14 %; along the grain wood hardly moves (0.1 to 0.2 % green to oven-dry).',
  assumes: ['the whole thickness has come to the new moisture content', 'nothing holds it: fix it so that it can move'],
  compute: ({ width, species, direction, coefficient, from, to }) => {
    const { C, looked } = movementCoefficient(species, direction, coefficient);
    const outside = [from, to].some((m) => m < 6 || m > 14);
    return {
      value: woodMovement(width, C, from, to),
      looked,
      ...(outside && { assumes: ['a moisture content outside 6 to 14 %: the straight-line coefficient is stretched'] }),
    };
  },
});

export const seasonalMovement = formula({
  name: 'seasonal-movement',
  title: 'Movement of a solid top between the dry and the damp season',
  topic: 'stock',
  about: 'The width a solid top travels in a year, from the humidity of the room.',
  formula: 'ΔD = D · C · (M(h₂) − M(h₁)),  M by equilibrium-moisture',
  inputs: {
    ...movementInputs,
    dry: { dimension: 'ratio', about: 'lowest relative humidity of the year', symbol: 'h₁', min: 0, max: 0.98 },
    damp: { dimension: 'ratio', about: 'highest relative humidity of the year', symbol: 'h₂', min: 0, max: 0.98 },
    temperature: { dimension: 'temperature', about: 'room temperature', symbol: 'T', default: 21, min: -10, max: 70 },
  },
  result: { symbol: 'ΔD', name: 'change of width over the year', dimension: 'length' },
  source: { title: HANDBOOK, edition: '2010', place: 'eqs. (4-5) and (13-1)' },
  assumes: ['the wood reaches equilibrium in each season; a finish slows it, it does not stop it'],
  compute: ({ width, species, direction, coefficient, dry, damp, temperature }) => {
    const { C, looked } = movementCoefficient(species, direction, coefficient);
    const [M1, M2] = [equilibriumMoisture(temperature, dry), equilibriumMoisture(temperature, damp)];
    return {
      value: woodMovement(width, C, M1, M2),
      looked,
      also: [
        { symbol: 'M₁', name: 'moisture content in the dry season', value: M1, unit: '%' },
        { symbol: 'M₂', name: 'moisture content in the damp season', value: M2, unit: '%' },
      ],
    };
  },
});

const RP_489: Source = {
  title: 'Green, Shrinkage of softwood lumber, FPL-RP-489',
  place: 'equations for width and thickness',
};

/** % shrinkage of softwood lumber from green. Source: FPL-RP-489. */
export const lumberShrinkage = (face: 'width' | 'thickness', moisture: number): number =>
  face === 'width' ? 6.031 - 0.215 * moisture : 5.062 - 0.181 * moisture;

const lumber = formula({
  name: 'lumber-shrinkage',
  title: 'Shrinkage of framing lumber',
  topic: 'stock',
  about: 'What a softwood plank loses from green, or from one moisture content to another, in width or thickness.',
  formula: 'S_width = 6.031 − 0.215 M,  S_thickness = 5.062 − 0.181 M  (% of the green size)',
  inputs: {
    face: { choices: ['width', 'thickness'], about: 'which face', default: 'width' },
    to: { dimension: 'percent', about: 'moisture content dried to', symbol: 'M', min: 0, max: 30 },
    from: {
      dimension: 'percent',
      about: 'moisture content dried from; green when left out',
      symbol: 'M₁',
      optional: true,
      min: 0,
      max: 30,
    },
    size: {
      dimension: 'length',
      about: 'green size, to see the change as a length',
      symbol: 'D',
      optional: true,
      above: 0,
    },
  },
  result: { symbol: 'S', name: 'shrinkage, % of the green size', dimension: 'percent' },
  source: RP_489,
  validity: 'Stated for 8 to 19 % moisture content.',
  compute: ({ face, to, from, size }) => {
    const S = lumberShrinkage(face, to) - (from === undefined ? 0 : lumberShrinkage(face, from));
    return {
      value: S,
      ...(size !== undefined && {
        also: [{ symbol: 'ΔD', name: 'change of size', value: (size * S) / 100, unit: 'mm' }],
      }),
    };
  },
});

export const MOISTURE_CALCULATORS = [equilibrium, shrinkage, movement, seasonalMovement, lumber] as const;
