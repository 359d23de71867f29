import { type AnyCalculator, formula } from '../notes/index.ts';
import { convert } from '../quantity/index.ts';

/** m²/L of a film: share of solids by volume, dry film in mm, share that lands on the work. 1 L spread 1 mm thick covers 1 m². */
export const spreadingRate = (solids: number, dryFilm: number, transfer = 1): number => (solids * transfer) / dryFilm;

/** Wet film in mm left by a spreading rate in m²/L. */
export const wetFilm = (rate: number): number => 1 / rate;

/** Litres for an area in m², coats and rate in m²/L. */
export const paintVolume = (area: number, coats: number, rate: number, waste = 0): number =>
  (area * coats * (1 + waste)) / rate;

/** Nominal spreading rate of wall paint, m²/L: 350 to 400 ft² a US gallon on product sheets, the middle of it. */
export const WALL_PAINT_RATE = convert(375, 'ft²/gal', 'coverage');

const CAUTION =
  'Paint from before about 1980 may hold lead, old textured coatings and tile adhesives asbestos: have them tested before sanding or scraping. Mask against dust, air the room.';

const rate = formula({
  name: 'paint-coverage',
  title: 'Spreading rate of a coating',
  topic: 'finish',
  about: 'Area a litre or gallon covers at a dry film thickness.',
  formula: 'C = V_s η / DFT   (1000 V_s η / DFT in µm → m²/L;  1604 V_s η / DFT in mils → ft²/gal)',
  inputs: {
    solids: { dimension: 'ratio', about: 'solids by volume', symbol: 'V_s', above: 0, max: 1 },
    'dry-film': { dimension: 'length', about: 'dry film thickness', symbol: 'DFT', above: 0 },
    transfer: {
      dimension: 'ratio',
      about: 'share that lands on the work: brush and roller near 1, spray less',
      symbol: 'η',
      default: 1,
      above: 0,
      max: 1,
    },
  },
  result: { symbol: 'C', name: 'spreading rate', dimension: 'coverage' },
  source: { title: 'Definition of volume solids', place: '231 in³ a US gallon; coating trade press' },
  compute: (v) => {
    const value = spreadingRate(v.solids, v['dry-film'], v.transfer);
    return {
      value,
      also: [{ symbol: 'WFT', name: 'wet film on the work', value: v['dry-film'] / v.solids, unit: 'mm' }],
    };
  },
});

const wet = formula({
  name: 'wet-film',
  title: 'Wet film left by a spreading rate',
  topic: 'finish',
  about: 'How thick a coat goes on when a litre or gallon covers so much.',
  formula: 'WFT = 1 / C',
  inputs: { rate: { dimension: 'coverage', about: 'spreading rate', symbol: 'C', above: 0 } },
  result: { symbol: 'WFT', name: 'wet film thickness', dimension: 'length' },
  source: { title: 'Definition of spreading rate', place: 'volume over area' },
  compute: (v) => wetFilm(v.rate),
});

export const paintNeeded = formula({
  name: 'paint-needed',
  title: 'Paint for an area',
  topic: 'finish',
  about: 'Volume and tins for walls or casework, openings taken off.',
  formula: 'V = (A − A_o) n (1 + waste) / C,  A = perimeter · height',
  inputs: {
    area: {
      dimension: 'area',
      about: 'area to paint; or give perimeter and height',
      symbol: 'A',
      optional: true,
      min: 0,
    },
    perimeter: { dimension: 'length', about: 'length of the walls', optional: true, above: 0 },
    height: { dimension: 'length', about: 'height of the walls', optional: true, above: 0 },
    openings: {
      dimension: 'area',
      about: 'doors, windows and cases to take off, together',
      symbol: 'A_o',
      default: 0,
      min: 0,
    },
    coats: { dimension: 'count', about: 'coats', symbol: 'n', default: 2, min: 1, max: 20 },
    rate: {
      dimension: 'coverage',
      about: 'spreading rate by the tin',
      symbol: 'C',
      default: WALL_PAINT_RATE,
      above: 0,
    },
    waste: { dimension: 'ratio', about: 'left in tray, roller and tin', default: 0, min: 0, max: 1 },
    tin: { dimension: 'liquid volume', about: 'size of tin, to count them', optional: true, above: 0 },
  },
  result: { symbol: 'V', name: 'paint', dimension: 'liquid volume' },
  source: { title: 'Area over spreading rate', place: '350 to 400 ft²/gal by product sheets unless a rate is given' },
  validity: 'Bare plaster and bare wood drink more: prime first. Filled holes are primed too, or they flash through.',
  caution: CAUTION,
  compute: (v) => {
    const walls = v.perimeter !== undefined && v.height !== undefined ? v.perimeter * v.height * 1e-6 : undefined;
    if (v.area === undefined && walls === undefined) throw new RangeError('give the area, or perimeter and height');
    const net = (v.area ?? 0) + (walls ?? 0) - v.openings;
    if (net < 0) throw new RangeError('the openings are larger than the area');
    const value = paintVolume(net, v.coats, v.rate, v.waste);
    return {
      value,
      also: [
        { symbol: 'A_n', name: 'area painted', value: net, unit: 'm²' },
        ...(v.tin === undefined
          ? []
          : [{ symbol: 'tins', name: 'tins to buy', value: Math.ceil(value / v.tin - 1e-9), unit: '' }]),
      ],
    };
  },
});

/** Waiting times, hours: shortest and longest of the published range. */
export const WAITING = {
  'latex paint, dry to touch': { from: 1, to: 1, source: 'a paint maker’s guide' },
  'latex paint, next coat': { from: 4, to: 8, source: 'a paint maker’s guide; a product sheet has 8 h' },
  'PVA glue, open time': { from: 10 / 60, to: 20 / 60, source: 'a tool merchant’s guide to PVA glues' },
  'PVA glue, in clamps': {
    from: 0.5,
    to: 1.5,
    source: 'a tool merchant’s guide; a glue maker has 30 to 60 min unstressed',
  },
  'PVA glue, stressed joint': { from: 24, to: 24, source: 'a glue maker’s technical guide' },
  'PVA glue, full strength': { from: 24, to: 24, source: 'a tool merchant’s guide to PVA glues' },
  'light filler': { from: 0.5, to: 2, source: 'from memory' },
  'ready-mixed joint compound, a coat': { from: 24, to: 24, source: 'from memory' },
} as const;
export type Waiting = keyof typeof WAITING;

const waiting = formula({
  name: 'waiting-time',
  title: 'Time to wait before the next step',
  topic: 'finish',
  about: 'Drying and setting by published guides, at about 20 °C and half-dry air; PVA needs at least 10 °C.',
  formula: 'table',
  inputs: { step: { choices: Object.keys(WAITING) as Waiting[], about: 'what dries or sets' } },
  result: { symbol: 't', name: 'longest of the range', dimension: 'time' },
  source: 'common practice',
  validity:
    'The tin or bottle in your hand governs. Cold and damp take longer; setting compound by its number of minutes.',
  compute: ({ step }) => ({
    value: WAITING[step].to * 3600,
    assumes: [WAITING[step].source],
    also: [{ symbol: 't₀', name: 'shortest of the range', value: WAITING[step].from * 3600, unit: 's' }],
  }),
});

export const PAINT_CALCULATORS: readonly AnyCalculator[] = [rate, wet, paintNeeded, waiting];
