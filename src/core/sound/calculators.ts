import { vec } from '../geometry/index.ts';
import { type AnyCalculator, formula, type Source } from '../notes/index.ts';
import { airAttenuation, exactMidband, sabineConstant, soundSpeed } from './air.ts';
import { flutterDecay, flutterRate, reflectionLoss } from './echo.ts';
import {
  coefficientOf,
  FURNITURE_DENSITY,
  objectAbsorption,
  PERSON_ABSORPTION,
  SURFACE_MATERIALS,
} from './materials.ts';
import { countModes, lowestModes, modeFrequency, schroederFrequency, smoothModeCount } from './modes.ts';
import { findReflections } from './reflections.ts';
import {
  absorption,
  absorptionFor,
  arau,
  eyring,
  fitzroy,
  meanCoefficient,
  meanFreePath,
  millington,
  type Pairs,
  type Patch,
  pairAreas,
  sabine,
} from './reverberation.ts';
import {
  articulationLoss,
  bandIndex,
  clarity,
  criticalDistance,
  criticalDistanceByTime,
  directToReverberant,
  indexFromArticulation,
  modulationTransfer,
  roomConstant,
  STI_WORDS,
  speechTransmission,
  sumLevels,
  transmissionIndex,
} from './speech.ts';
import { CLASSROOM_BACKGROUND, classroomTime, listeningRoomTime, teachingTime, toleranceAbout } from './targets.ts';
import {
  absorberCount,
  beadLength,
  contactAdhesive,
  dabTiles,
  edgeRatio,
  noiseReduction,
  tilesAlong,
} from './treatment.ts';

const topic = 'sound';
const KUTTRUFF: Source = { title: 'H. Kuttruff, Room Acoustics' };
const BALLOU: Source = { title: 'G. Ballou (ed.), Handbook for Sound Engineers', edition: '4th (2008)' };
const SABINE: Source = {
  title: 'W. C. Sabine, Collected Papers on Acoustics',
  place: 'as in F. A. Everest, The Master Handbook of Acoustics, Reverberation',
};
const MTF: Source = { title: 'IEC 60268-16', place: 'modulation transfer by T. Houtgast & H. J. M. Steeneken' };
const DESIGN_MANUAL: Source = {
  title: 'Sound System Design Reference Manual',
  edition: '1999',
  place: 'chapters 5 and 6',
};
const GEOMETRY: Source = {
  title: 'Image source construction (J. B. Allen & D. A. Berkley, J. Acoust. Soc. Am. 65, 1979)',
};
const SMALL_ROOM =
  'statistical: below the Schroeder frequency (about 150 Hz in a room of 50 m³) it does not describe the room; look at the modes there';
const FOAM_CAUTION =
  'Open-cell foam and fabrics burn: use only what is rated for a room interior where you are, keep it off heat and lamps, and ask the local code.';

const volume = { dimension: 'volume', about: 'volume of the room', symbol: 'V', above: 0 } as const;
const speed = { dimension: 'speed', about: 'speed of sound', symbol: 'c', default: 343, above: 0 } as const;
const constant = {
  dimension: 'time per length',
  about: 'constant k in place of 24 ln 10 / c, as a book may print it',
  symbol: 'k',
  optional: true,
  above: 0,
} as const;
const areas = { dimension: 'area', about: 'areas of the surfaces', symbol: 'S', list: true, min: 0 } as const;
const coefficients = {
  dimension: 'ratio',
  about: 'absorption coefficient of each surface (one for all will do)',
  symbol: 'α',
  list: true,
  min: 0,
  max: 1,
} as const;
const air = { dimension: 'attenuation', about: 'attenuation of the air', default: 0, min: 0 } as const;
const objects = {
  dimension: 'sound absorption',
  about: 'absorption of people and things',
  symbol: 'A',
  default: 0,
  min: 0,
} as const;
const size = {
  dimension: 'length',
  about: 'length, width and height of the room',
  symbol: 'L, W, H',
  list: true,
  above: 0,
} as const;

function patchesOf(areaList: readonly number[], coefficientList: readonly number[]): readonly Patch[] {
  if (coefficientList.length !== 1 && coefficientList.length !== areaList.length)
    throw new RangeError(`${areaList.length} areas but ${coefficientList.length} coefficients`);
  return areaList.map((area, k) => ({ area, coefficient: coefficientList[k] ?? coefficientList[0]! }));
}
function pairsOf(areaList: readonly number[], coefficientList: readonly number[]): Pairs {
  if (areaList.length !== 3)
    throw new RangeError('this formula needs three areas, one for each pair of opposite faces');
  return patchesOf(areaList, coefficientList) as unknown as Pairs;
}
function sizeOf(list: readonly number[]): readonly [number, number, number] {
  if (list.length !== 3) throw new RangeError('the room needs a length, a width and a height');
  return [list[0]! / 1000, list[1]! / 1000, list[2]! / 1000];
}
const k = (v: { readonly constant: number | undefined; readonly speed: number }): number =>
  v.constant ?? sabineConstant(v.speed);

const statistical = { volume, areas, coefficients, objects, air, speed, constant } as const;
const sabinsBeside = (patches: readonly Patch[]) => [
  { symbol: 'A', name: 'absorption of the surfaces', value: absorption(patches), unit: 'm²' },
  { symbol: 'ᾱ', name: 'mean coefficient', value: meanCoefficient(patches), unit: '' },
];

const reverberation = [
  formula({
    name: 'reverberation-sabine',
    title: 'Reverberation time by Sabine',
    topic,
    about: 'For rooms that absorb little, evenly.',
    formula: 'T = k V / (Σ S α + A + 4 m V), k = 24 ln 10 / c',
    inputs: statistical,
    result: { symbol: 'T', name: 'reverberation time', dimension: 'time' },
    source: SABINE,
    validity: `mean coefficient below about 0.2; ${SMALL_ROOM}`,
    compute: (v) => {
      const patches = patchesOf(v.areas, v.coefficients);
      return { value: sabine({ ...v, patches, constant: k(v) }), also: sabinsBeside(patches) };
    },
  }),
  formula({
    name: 'reverberation-eyring',
    title: 'Reverberation time by Norris and Eyring',
    topic,
    about: 'For rooms that absorb much, evenly.',
    formula: 'T = k V / (−S ln(1 − ᾱ) + A + 4 m V)',
    inputs: statistical,
    result: { symbol: 'T', name: 'reverberation time', dimension: 'time' },
    source: { title: 'C. F. Eyring, J. Acoust. Soc. Am. 1 (1930)' },
    validity: SMALL_ROOM,
    compute: (v) => {
      const patches = patchesOf(v.areas, v.coefficients);
      return { value: eyring({ ...v, patches, constant: k(v) }), also: sabinsBeside(patches) };
    },
  }),
  formula({
    name: 'reverberation-millington',
    title: 'Reverberation time by Millington and Sette',
    topic,
    about: 'Each surface takes its own share of the energy at each pass.',
    formula: 'T = k V / (−Σ S ln(1 − α) + A + 4 m V)',
    inputs: statistical,
    result: { symbol: 'T', name: 'reverberation time', dimension: 'time' },
    source: { title: 'G. Millington, J. Acoust. Soc. Am. 4 (1932)' },
    validity: `a surface of coefficient 1 makes it nothing; ${SMALL_ROOM}`,
    compute: (v) => {
      const patches = patchesOf(v.areas, v.coefficients);
      return { value: millington({ ...v, patches, constant: k(v) }), also: sabinsBeside(patches) };
    },
  }),
  formula({
    name: 'reverberation-fitzroy',
    title: 'Reverberation time by Fitzroy',
    topic,
    about: 'Absorption gathered on one or two of the three pairs of opposite faces.',
    formula: 'T = (k V / S²) Σ S_j / (−ln(1 − α_j))',
    inputs: {
      volume,
      areas: { ...areas, about: 'areas of the three pairs of opposite faces' },
      coefficients,
      air,
      speed,
      constant,
    },
    result: { symbol: 'T', name: 'reverberation time', dimension: 'time' },
    source: { title: 'D. Fitzroy, J. Acoust. Soc. Am. 31 (1959)' },
    validity: `a box; too long where a pair is very hard; ${SMALL_ROOM}`,
    compute: (v) => fitzroy({ volume: v.volume, pairs: pairsOf(v.areas, v.coefficients), air: v.air, constant: k(v) }),
  }),
  formula({
    name: 'reverberation-arau',
    title: 'Reverberation time by Arau-Puchades',
    topic,
    about: 'Uneven absorption on the three pairs of opposite faces.',
    formula: 'T = Π [k V / (−S ln(1 − α_j) + 4 m V)]^(S_j/S)',
    inputs: {
      volume,
      areas: { ...areas, about: 'areas of the three pairs of opposite faces' },
      coefficients,
      air,
      speed,
      constant,
    },
    result: { symbol: 'T', name: 'reverberation time', dimension: 'time' },
    source: { title: 'H. Arau-Puchades, Acustica 65 (1988)' },
    validity: `a box; ${SMALL_ROOM}`,
    compute: (v) => arau({ volume: v.volume, pairs: pairsOf(v.areas, v.coefficients), air: v.air, constant: k(v) }),
  }),
  formula({
    name: 'sabine-constant',
    title: 'Constant of the reverberation formulas',
    topic,
    about: 'Books round it to 0.16 … 0.167 s/m or 0.049 s/ft; it follows from the speed of sound.',
    formula: 'k = 24 ln 10 / c',
    inputs: { speed },
    result: { symbol: 'k', name: 'constant', dimension: 'time per length' },
    source: SABINE,
    compute: (v) => sabineConstant(v.speed),
  }),
  formula({
    name: 'room-absorption',
    title: 'Absorption of a room',
    topic,
    about: 'Surfaces, people and things; the mean coefficient of the surfaces beside it.',
    formula: 'A = Σ S α + Σ objects',
    inputs: { areas, coefficients, objects },
    result: { symbol: 'A', name: 'absorption', dimension: 'sound absorption' },
    source: SABINE,
    compute: (v) => {
      const patches = patchesOf(v.areas, v.coefficients);
      return {
        value: absorption(patches) + v.objects,
        also: [{ symbol: 'ᾱ', name: 'mean coefficient', value: meanCoefficient(patches), unit: '' }],
      };
    },
  }),
  formula({
    name: 'absorption-after-covering',
    title: 'Absorption after an absorber covers part of a surface',
    topic,
    about: 'What is covered no longer absorbs by itself.',
    formula: 'A = A0 + S (α_new − α_covered)',
    inputs: {
      before: { dimension: 'sound absorption', about: 'absorption before', symbol: 'A0', min: 0 },
      area: { dimension: 'area', about: 'area covered', symbol: 'S', min: 0 },
      absorber: { dimension: 'ratio', about: 'coefficient of the absorber', symbol: 'α_new', min: 0, max: 1 },
      covered: {
        dimension: 'ratio',
        about: 'coefficient of what it covers (0: it adds to it, as an older book reckons)',
        symbol: 'α_covered',
        min: 0,
        max: 1,
      },
      volume: { ...volume, optional: true },
      speed,
      constant,
    },
    result: { symbol: 'A', name: 'absorption', dimension: 'sound absorption' },
    source: SABINE,
    compute: (v) => {
      const value = v.before + v.area * (v.absorber - v.covered);
      return {
        value,
        also:
          v.volume === undefined
            ? []
            : [{ symbol: 'T', name: 'reverberation time', value: (k(v) * v.volume) / value, unit: 's' }],
      };
    },
  }),
  formula({
    name: 'absorption-for-time',
    title: 'Absorption a room needs for a reverberation time',
    topic,
    about: 'By Sabine; with the size of the room or its surface, the mean coefficient too.',
    formula: 'A = k V / T',
    inputs: {
      volume: { ...volume, optional: true },
      size: { ...size, optional: true },
      surface: { dimension: 'area', about: 'area of all surfaces', symbol: 'S', optional: true, above: 0 },
      time: { dimension: 'time', about: 'reverberation time wanted', symbol: 'T', above: 0 },
      speed,
      constant,
    },
    result: { symbol: 'A', name: 'absorption', dimension: 'sound absorption' },
    source: SABINE,
    compute: (v) => {
      const box = v.size && sizeOf(v.size);
      const V = v.volume ?? (box && box[0] * box[1] * box[2]);
      if (V === undefined) throw new RangeError('the room needs a volume or a size');
      const S = v.surface ?? (box && pairAreas(...box).reduce((sum, a) => sum + a, 0));
      const value = absorptionFor(V, v.time, k(v));
      return {
        value,
        also: S === undefined ? [] : [{ symbol: 'ᾱ', name: 'mean coefficient', value: value / S, unit: '' }],
      };
    },
  }),
  formula({
    name: 'coefficient-from-times',
    title: 'Coefficient of a surface from the time with and without it',
    topic,
    about: 'A curtain hung free absorbs on both sides.',
    formula: 'α = k V (1/T2 − 1/T1) / S',
    inputs: {
      volume,
      before: { dimension: 'time', about: 'reverberation time without it', symbol: 'T1', above: 0 },
      after: { dimension: 'time', about: 'reverberation time with it', symbol: 'T2', above: 0 },
      area: { dimension: 'area', about: 'area of one side', above: 0 },
      sides: { dimension: 'count', about: 'sides exposed', default: 1, min: 1, max: 2 },
      speed,
      constant,
    },
    result: { symbol: 'α', name: 'coefficient', dimension: 'ratio' },
    source: SABINE,
    compute: (v) => (k(v) * v.volume * (1 / v.after - 1 / v.before)) / (v.sides * v.area),
  }),
  formula({
    name: 'face-areas',
    title: 'Areas of the three pairs of opposite faces of a box',
    topic,
    about: 'Across the length, across the width, and floor with ceiling.',
    formula: '2 W H; 2 L H; 2 L W',
    inputs: { size },
    result: { symbol: 'S', name: 'all surfaces', dimension: 'area' },
    source: KUTTRUFF,
    compute: (v) => {
      const pairs = pairAreas(...sizeOf(v.size));
      return {
        value: pairs.reduce((sum, a) => sum + a, 0),
        also: [
          { symbol: 'Sx', name: 'end walls', value: pairs[0], unit: 'm²' },
          { symbol: 'Sy', name: 'side walls', value: pairs[1], unit: 'm²' },
          { symbol: 'Sz', name: 'floor and ceiling', value: pairs[2], unit: 'm²' },
        ],
      };
    },
  }),
  formula({
    name: 'mean-free-path',
    title: 'Mean distance between reflections',
    topic,
    about: 'In a room whose sound goes everywhere.',
    formula: '4 V / S',
    inputs: { volume, surface: { dimension: 'area', about: 'area of all surfaces', symbol: 'S', above: 0 } },
    result: { symbol: 'l', name: 'mean free path', dimension: 'length' },
    source: KUTTRUFF,
    compute: (v) => meanFreePath(v.volume, v.surface) * 1000,
  }),
  formula({
    name: 'absorption-coefficient',
    title: 'Absorption coefficient of a surface material',
    topic,
    about: 'From published tables, by octave band.',
    formula: 'table',
    inputs: {
      material: { choices: SURFACE_MATERIALS.map((m) => m.id), about: 'surface material' },
      band: { dimension: 'frequency', about: 'octave band: 125, 250, 500, 1000, 2000 or 4000 Hz' },
    },
    result: { symbol: 'α', name: 'coefficient', dimension: 'ratio' },
    source: { title: 'Published tables of absorption coefficients', place: 'named with each material' },
    validity:
      'random incidence, older materials: a maker’s data sheet is better; sources differ threefold for gypsum board at 125 Hz',
    compute: ({ material, band }) => ({
      value: coefficientOf(material, band),
      source: SURFACE_MATERIALS.find((m) => m.id === material)!.source,
    }),
  }),
  formula({
    name: 'noise-reduction-coefficient',
    title: 'Noise reduction coefficient',
    topic,
    about: 'Mean of the four middle bands to the nearest 0.05.',
    formula: 'mean of 250, 500, 1000, 2000 Hz, rounded to 0.05',
    inputs: { coefficients: { ...coefficients, about: 'coefficients at 250, 500, 1000 and 2000 Hz', max: 2 } },
    result: { symbol: 'NRC', name: 'coefficient', dimension: 'ratio' },
    source: { title: 'ASTM C423' },
    compute: (v) => {
      const [a, b, c, d] = v.coefficients;
      if (a === undefined || b === undefined || c === undefined || d === undefined || v.coefficients.length > 4)
        throw new RangeError('four coefficients are needed: 250, 500, 1000 and 2000 Hz');
      return {
        value: noiseReduction([a, b, c, d]),
        also: [{ symbol: '', name: 'mean', value: (a + b + c + d) / 4, unit: '' }],
      };
    },
  }),
  formula({
    name: 'people-absorption',
    title: 'Absorption of people',
    topic,
    about: 'Seated or standing, mid-band.',
    formula: 'A = n · 0.46 m²',
    inputs: {
      people: { dimension: 'count', about: 'how many', symbol: 'n', default: 1, min: 0 },
      each: { dimension: 'sound absorption', about: 'absorption of one', default: PERSON_ABSORPTION, min: 0 },
    },
    result: { symbol: 'A', name: 'absorption', dimension: 'sound absorption' },
    source: { title: 'I. A. Shaikh, Applied Physics I', place: 'chapter 4' },
    validity: 'texts print 0.44 to 0.46 m² (4.7 to 5 ft²)',
    compute: (v) => v.people * v.each,
  }),
  formula({
    name: 'furniture-absorption',
    title: 'Absorption of hard furniture that stands free',
    topic,
    about: 'A table, a shelf unit, a wooden chair, in every band; what is upholstered takes more.',
    formula: 'A = n (m/ρ)^(2/3)',
    inputs: {
      mass: { dimension: 'mass', about: 'of one', symbol: 'm', above: 0 },
      density: { dimension: 'density', about: 'of its wood', symbol: 'ρ', default: FURNITURE_DENSITY, above: 0 },
      count: { dimension: 'count', about: 'how many', symbol: 'n', default: 1, min: 1 },
    },
    result: { symbol: 'A', name: 'absorption', dimension: 'sound absorption' },
    source: { title: 'EN 12354-6', edition: '2003', place: 'clause 4.3, hard irregular objects (from memory)' },
    assumes: ['V = m/ρ is the volume of the thing itself, not of the box round it'],
    compute: (v) => v.count * objectAbsorption(v.mass / v.density),
  }),
  formula({
    name: 'test-specimen-area',
    title: 'Area of a specimen in an absorption test',
    topic,
    about: 'Smaller patches absorb more for their size, so a published coefficient belongs to such an area.',
    formula: 'table',
    inputs: { standard: { choices: ['ASTM C423, least', 'ISO 354, least', 'ISO 354, most'], about: 'test standard' } },
    result: { symbol: 'S', name: 'area', dimension: 'area' },
    source: { title: 'ASTM C423 and ISO 354' },
    compute: ({ standard }) =>
      ({ 'ASTM C423, least': 60 * 0.3048 ** 2, 'ISO 354, least': 10, 'ISO 354, most': 12 })[standard],
  }),
];

const airAndModes = [
  formula({
    name: 'air-attenuation',
    title: 'What air takes from sound',
    topic,
    about: 'A pure tone at the exact midband behind a nominal frequency.',
    formula: 'ISO 9613-1 equations (3) to (5)',
    inputs: {
      temperature: {
        dimension: 'temperature',
        about: 'temperature of the air',
        symbol: 'T',
        default: 20,
        min: -20,
        max: 50,
      },
      humidity: { dimension: 'percent', about: 'relative humidity', symbol: 'h', default: 50, min: 0, max: 100 },
      frequency: { dimension: 'frequency', about: 'frequency', symbol: 'f', above: 0 },
      pressure: { dimension: 'stress', about: 'air pressure', symbol: 'p', default: 0.101325, above: 0 },
      tone: { choices: ['nominal midband', 'exact'], about: 'how the frequency is meant', default: 'nominal midband' },
    },
    result: { symbol: 'α', name: 'attenuation', dimension: 'attenuation' },
    source: { title: 'ISO 9613-1', edition: '1993', place: '6.2 and 6.3' },
    validity: '−20 to 50 °C, 50 Hz to 10 kHz, ±10 %',
    compute: (v) => {
      const f = v.tone === 'exact' ? v.frequency : exactMidband(v.frequency);
      const value = airAttenuation({ celsius: v.temperature, humidity: v.humidity, pressure: v.pressure * 1000 }, f);
      return {
        value,
        also: [{ symbol: 'm', name: 'power attenuation', value: value / 1000 / (10 * Math.LOG10E), unit: '1/m' }],
      };
    },
  }),
  formula({
    name: 'sound-speed',
    title: 'Speed of sound in air',
    topic,
    about: 'By temperature.',
    formula: 'c = 343.2 √(T/293.15 K)',
    inputs: {
      temperature: {
        dimension: 'temperature',
        about: 'temperature of the air',
        symbol: 'T',
        default: 20,
        above: -273.15,
      },
    },
    result: { symbol: 'c', name: 'speed', dimension: 'speed' },
    source: { title: 'ISO 9613-1', edition: '1993' },
    compute: (v) => soundSpeed(v.temperature),
  }),
  formula({
    name: 'room-mode',
    title: 'Frequency of a standing wave in a box',
    topic,
    about: 'By its order along length, width and height.',
    formula: 'f = (c/2) √((p/L)² + (q/W)² + (r/H)²)',
    inputs: {
      size,
      order: { dimension: 'number', about: 'order p, q, r', symbol: 'p, q, r', list: true, min: 0 },
      speed,
    },
    result: { symbol: 'f', name: 'frequency', dimension: 'frequency' },
    source: { ...BALLOU, place: 'chapter 6' },
    validity: 'rigid walls, no furniture',
    compute: (v) => {
      const [p, q, r] = v.order;
      if (p === undefined || q === undefined || r === undefined || v.order.length !== 3)
        throw new RangeError('the order has three numbers, as in 1, 0, 0');
      return modeFrequency([p, q, r], sizeOf(v.size), v.speed);
    },
  }),
  formula({
    name: 'lowest-room-modes',
    title: 'The lowest standing waves of a box',
    topic,
    about: 'Ascending; the first is the result.',
    formula: 'f = (c/2) √((p/L)² + (q/W)² + (r/H)²)',
    inputs: { size, count: { dimension: 'count', about: 'how many', default: 10, min: 1, max: 200 }, speed },
    result: { symbol: 'f1', name: 'lowest', dimension: 'frequency' },
    source: { ...BALLOU, place: 'chapter 6' },
    validity: 'rigid walls, no furniture',
    compute: (v) => {
      const modes = lowestModes(sizeOf(v.size), v.speed, v.count);
      return {
        value: modes[0]!.frequency,
        also: modes.map((m, i) => ({
          symbol: `f${i + 1}`,
          name: `mode ${i + 1}: ${m.order.join(' ')} ${m.kind}`,
          value: m.frequency,
          unit: 'Hz',
        })),
      };
    },
  }),
  formula({
    name: 'mode-count',
    title: 'Standing waves below a frequency',
    topic,
    about: 'Counted one by one; the smooth formula beside.',
    formula: '4πV f³/(3c³) + πS f²/(4c²) + L f/(8c)',
    inputs: {
      size,
      frequency: { dimension: 'frequency', about: 'frequency', symbol: 'f', above: 0, max: 2000 },
      speed,
    },
    result: { symbol: 'N', name: 'modes', dimension: 'count' },
    source: KUTTRUFF,
    compute: (v) => {
      const smooth = smoothModeCount(sizeOf(v.size), v.speed, v.frequency);
      const orders = sizeOf(v.size).reduce((n, side) => n * (Math.floor((2 * v.frequency * side) / v.speed) + 1), 1);
      if (orders > 200_000)
        throw new RangeError('there are too many modes to count one by one: take a lower frequency');
      return {
        value: countModes(sizeOf(v.size), v.speed, v.frequency),
        also: [{ symbol: '', name: 'smooth formula', value: smooth, unit: '' }],
      };
    },
  }),
  formula({
    name: 'schroeder-frequency',
    title: 'Schroeder frequency',
    topic,
    about: 'Above it statistics hold; below it single modes rule.',
    formula: 'f = 2000 √(T/V)',
    inputs: { time: { dimension: 'time', about: 'reverberation time', symbol: 'T', above: 0 }, volume },
    result: { symbol: 'f', name: 'frequency', dimension: 'frequency' },
    source: { title: 'M. R. Schroeder', place: 'as in H. Kuttruff, Room Acoustics' },
    compute: (v) => schroederFrequency(v.time, v.volume),
  }),
];

const speech = [
  formula({
    name: 'room-constant',
    title: 'Room constant',
    topic,
    about: 'From the surface and its mean coefficient.',
    formula: 'R = S ᾱ / (1 − ᾱ)',
    inputs: {
      surface: { dimension: 'area', about: 'area of all surfaces', symbol: 'S', above: 0 },
      coefficient: { dimension: 'ratio', about: 'mean coefficient', symbol: 'ᾱ', min: 0, max: 0.9999 },
    },
    result: { symbol: 'R', name: 'room constant', dimension: 'sound absorption' },
    source: DESIGN_MANUAL,
    compute: (v) => roomConstant(v.surface, v.coefficient),
  }),
  formula({
    name: 'critical-distance',
    title: 'Distance at which direct and reverberant sound are equal',
    topic,
    about: 'From the room constant, or from volume and reverberation time.',
    formula: '0.141 √(Q R), or 0.057 √(Q V/T)',
    inputs: {
      directivity: {
        dimension: 'ratio',
        about: 'directivity of the source (a talker about 2)',
        symbol: 'Q',
        default: 1,
        above: 0,
      },
      'room-constant': { dimension: 'sound absorption', about: 'room constant', symbol: 'R', optional: true, above: 0 },
      volume: { ...volume, optional: true },
      time: { dimension: 'time', about: 'reverberation time', symbol: 'T', optional: true, above: 0 },
    },
    result: { symbol: 'Dc', name: 'critical distance', dimension: 'length' },
    source: DESIGN_MANUAL,
    compute: (v) => {
      const R = v['room-constant'];
      if (R !== undefined) return { value: 1000 * criticalDistance(v.directivity, R), formula: 'Dc = 0.141 √(Q R)' };
      if (v.volume === undefined || v.time === undefined)
        throw new RangeError('give the room constant, or the volume and the reverberation time');
      return {
        value: 1000 * criticalDistanceByTime(v.directivity, v.volume, v.time),
        formula: 'Dc = 0.057 √(Q V/T)',
        source: BALLOU,
      };
    },
  }),
  formula({
    name: 'direct-to-reverberant',
    title: 'Direct over reverberant level',
    topic,
    about: 'At a distance, from the critical distance.',
    formula: '20 lg(Dc/r)',
    inputs: {
      critical: { dimension: 'length', about: 'critical distance', symbol: 'Dc', above: 0 },
      distance: { dimension: 'length', about: 'distance from the source', symbol: 'r', above: 0 },
    },
    result: { symbol: '', name: 'direct to reverberant', dimension: 'sound level' },
    source: DESIGN_MANUAL,
    compute: (v) => directToReverberant(v.critical, v.distance),
  }),
  formula({
    name: 'modulation-transfer',
    title: 'What reverberation and noise leave of a modulation',
    topic,
    about: 'One modulation frequency; its transmission index beside.',
    formula: 'm = [1 + (2πF T/13.8)²]^−½ / (1 + 10^(−SNR/10))',
    inputs: {
      frequency: { dimension: 'frequency', about: 'modulation frequency', symbol: 'F', above: 0 },
      time: { dimension: 'time', about: 'reverberation time', symbol: 'T', default: 0, min: 0 },
      'signal-to-noise': { dimension: 'sound level', about: 'signal over noise', symbol: 'SNR', optional: true },
    },
    result: { symbol: 'm', name: 'modulation left', dimension: 'ratio' },
    source: MTF,
    compute: (v) => {
      const value = modulationTransfer(v.frequency, v.time, v['signal-to-noise']);
      return { value, also: [{ symbol: 'TI', name: 'transmission index', value: transmissionIndex(value), unit: '' }] };
    },
  }),
  formula({
    name: 'speech-transmission-index',
    title: 'Speech transmission index',
    topic,
    about: 'From reverberation time and signal over noise; one value for all bands, or seven, 125 Hz to 8 kHz.',
    formula: 'SNRapp = 10 lg(m/(1−m)) within ±15; TI = (SNRapp + 15)/30; STI = Σ α MTI − Σ β √(MTI MTI′)',
    inputs: {
      time: { dimension: 'time', about: 'reverberation time, one or by band', symbol: 'T', list: true, min: 0 },
      'signal-to-noise': {
        dimension: 'sound level',
        about: 'signal over noise, one or by band; none when left out',
        symbol: 'SNR',
        list: true,
        optional: true,
      },
    },
    result: { symbol: 'STI', name: 'index', dimension: 'ratio' },
    source: MTF,
    validity: 'exponential decay, no direct sound; masking between bands and the threshold of hearing are left out',
    assumes: [
      'weights of the bands: IEC 60268-16:2011, male, from memory; they do not matter when all bands are alike',
    ],
    compute: (v) => {
      const seven = (list: readonly number[], what: string): readonly number[] => {
        if (list.length === 7) return list;
        if (list.length === 1) return Array.from({ length: 7 }, () => list[0]!);
        throw new RangeError(`${what}: one value, or seven for 125 Hz to 8 kHz`);
      };
      const noise = v['signal-to-noise'];
      const snr = noise === undefined ? undefined : seven(noise, 'signal over noise');
      const times = seven(v.time, 'time');
      const alike = v.time.length === 1 && (noise === undefined || noise.length === 1);
      const value = alike ? bandIndex(times[0]!, snr?.[0]) : speechTransmission(times, snr);
      const [excellent, good, fair] = STI_WORDS;
      return {
        value,
        limit:
          value >= good.from
            ? {
                value: good.from,
                unit: '',
                why: value >= excellent.from ? 'good from 0.6, excellent from 0.75' : 'good from 0.6',
              }
            : { value: fair.from, unit: '', why: 'bad below 0.3, poor to 0.45, fair to 0.6, good to 0.75' },
      };
    },
  }),
  formula({
    name: 'speech-rating-limit',
    title: 'Where a word for the speech transmission index begins',
    topic,
    about: 'Least index of each word.',
    formula: 'table',
    inputs: { word: { choices: STI_WORDS.map((w) => w.word), about: 'word' } },
    result: { symbol: 'STI', name: 'least index', dimension: 'ratio' },
    source: { title: 'IEC 60268-16', place: 'as read in a secondary text' },
    compute: ({ word }) => STI_WORDS.find((w) => w.word === word)!.from,
  }),
  formula({
    name: 'articulation-loss',
    title: 'Articulation loss of consonants',
    topic,
    about: 'At a distance from the talker, no more than that of the far field.',
    formula: '200 D² T² / (V Q), at most 9 T',
    inputs: {
      distance: {
        dimension: 'length',
        about: 'distance from the talker; the far field when left out',
        symbol: 'D',
        optional: true,
        above: 0,
      },
      time: { dimension: 'time', about: 'reverberation time', symbol: 'T', above: 0 },
      volume: { ...volume, optional: true },
      directivity: { dimension: 'ratio', about: 'directivity of the talker', symbol: 'Q', default: 2, above: 0 },
    },
    result: { symbol: '%ALcons', name: 'loss', dimension: 'percent' },
    source: { title: 'V. M. A. Peutz, J. Audio Eng. Soc. 19 (1971)' },
    compute: (v) => {
      const far = 9 * v.time;
      if (v.distance === undefined) return { value: far, formula: '9 T' };
      if (v.volume === undefined) throw new RangeError('the room needs a volume');
      return {
        value: articulationLoss(v.distance / 1000, v.time, v.volume, v.directivity),
        also: [{ symbol: '', name: 'far field', value: far, unit: '%' }],
      };
    },
  }),
  formula({
    name: 'index-from-articulation-loss',
    title: 'Speech transmission index from articulation loss',
    topic,
    about: 'A fitted relation.',
    formula: 'STI = 0.9482 − 0.1845 ln(%ALcons)',
    inputs: { loss: { dimension: 'percent', about: 'articulation loss of consonants', symbol: '%ALcons', above: 0 } },
    result: { symbol: 'STI', name: 'index', dimension: 'ratio' },
    source: 'from memory',
    validity: 'F. Becker’s relation; kept within 0 to 1',
    compute: (v) => indexFromArticulation(v.loss),
  }),
  formula({
    name: 'speech-clarity',
    title: 'Early over late energy of a decay',
    topic,
    about: 'C50 of an exponential decay.',
    formula: '10 lg(e^(13.8 · t/T) − 1)',
    inputs: {
      time: { dimension: 'time', about: 'reverberation time', symbol: 'T', above: 0 },
      early: { dimension: 'time', about: 'what counts as early', symbol: 't', default: 0.05, above: 0 },
    },
    result: { symbol: 'C', name: 'clarity', dimension: 'sound level' },
    source: { title: 'ISO 3382-1', place: 'definition of C50, integrated for an exponential decay' },
    compute: (v) => clarity(v.time, v.early),
  }),
  formula({
    name: 'level-sum',
    title: 'Sum of sound levels',
    topic,
    about: 'Of sources that have nothing to do with one another.',
    formula: 'L = 10 lg Σ 10^(L_i/10)',
    inputs: { levels: { dimension: 'sound level', about: 'levels', symbol: 'L_i', list: true } },
    result: { symbol: 'L', name: 'level', dimension: 'sound level' },
    source: KUTTRUFF,
    compute: (v) => sumLevels(v.levels),
  }),
];

const targets = [
  formula({
    name: 'recording-room-time',
    title: 'Reverberation time for a listening or recording room',
    topic,
    about: 'Nominal mid-band time by volume.',
    formula: 'T = 0.25 (V/100 m³)^⅓, within 0.2 to 0.4 s',
    inputs: { volume },
    result: { symbol: 'T', name: 'target', dimension: 'time' },
    source: { title: 'EBU Tech 3276', edition: '2nd (1998)', place: '2.3' },
    compute: (v) => listeningRoomTime(v.volume).time,
  }),
  formula({
    name: 'classroom-time',
    title: 'Longest reverberation time of a classroom',
    topic,
    about: 'Core learning space, furnished, nobody in it; 500, 1000 and 2000 Hz.',
    formula: '0.6 s to 283 m³, 0.7 s to 566 m³',
    inputs: { volume },
    result: { symbol: 'T', name: 'most', dimension: 'time' },
    source: { title: 'ANSI/ASA S12.60', edition: '2010', place: 'part 1' },
    compute: (v) => ({
      value: classroomTime(v.volume).time,
      also: [{ symbol: '', name: 'background level', value: CLASSROOM_BACKGROUND.dBA, unit: 'dB' }],
    }),
  }),
  formula({
    name: 'teaching-room-time',
    title: 'Reverberation time for teaching and talk',
    topic,
    about: 'Group A3.',
    formula: 'T = 0.32 lg V − 0.17',
    inputs: { volume },
    result: { symbol: 'T', name: 'target', dimension: 'time' },
    source: 'from memory',
    validity: 'DIN 18041:2016-03, recalled; read the standard before you rely on it',
    compute: (v) => teachingTime(v.volume).time,
  }),
  formula({
    name: 'reverberation-tolerance',
    title: 'Tolerance about the mid-band reverberation time',
    topic,
    about: 'How far a band may lie above.',
    formula: '0.05 s from 200 Hz to 4 kHz, rising to 0.3 s at 63 Hz; 0.1 s to 8 kHz',
    inputs: { frequency: { dimension: 'frequency', about: 'band', above: 0 } },
    result: { symbol: '', name: 'above', dimension: 'time' },
    source: 'from memory',
    validity: 'ITU-R BS.1116-3, recalled; read it before you rely on it',
    compute: (v) => {
      const { above, below } = toleranceAbout(v.frequency);
      return { value: above, also: [{ symbol: '', name: 'below', value: below, unit: 's' }] };
    },
  }),
];

const point = (about: string) => ({ dimension: 'length', about, list: true }) as const;
const SURFACES = ['left wall', 'right wall', 'front wall', 'back wall', 'floor', 'ceiling'] as const;
/** In our room x runs along the length, z across, y up: the walls of the outline in order. */
const FACE: Record<(typeof SURFACES)[number], string> = {
  'left wall': 'wall 0',
  'back wall': 'wall 1',
  'right wall': 'wall 2',
  'front wall': 'wall 3',
  floor: 'floor',
  ceiling: 'ceiling',
};

const echoes = [
  formula({
    name: 'flutter-rate',
    title: 'Rate of a flutter echo',
    topic,
    about: 'Between two parallel faces; its period beside.',
    formula: 'f = c/(2d)',
    inputs: { distance: { dimension: 'length', about: 'distance of the faces', symbol: 'd', above: 0 }, speed },
    result: { symbol: 'f', name: 'rate', dimension: 'frequency' },
    source: GEOMETRY,
    compute: (v) => {
      const value = flutterRate(v.distance / 1000, v.speed);
      return { value, also: [{ symbol: '', name: 'period', value: 1 / value, unit: 's' }] };
    },
  }),
  formula({
    name: 'flutter-decay',
    title: 'How long a flutter echo lasts',
    topic,
    about: 'Time for 60 dB between two parallel faces.',
    formula: '60 / (−10 lg((1−α1)(1−α2))) · 2d/c',
    inputs: {
      distance: { dimension: 'length', about: 'distance of the faces', symbol: 'd', above: 0 },
      coefficients: { ...coefficients, about: 'absorption coefficients of the two faces', max: 0.9999 },
      speed,
    },
    result: { symbol: 'T', name: 'time', dimension: 'time' },
    source: GEOMETRY,
    compute: (v) => {
      const [a, b = a] = v.coefficients;
      if (a === undefined || b === undefined || a + b === 0)
        throw new RangeError('at least one of the faces must absorb');
      return flutterDecay(v.distance / 1000, a, b, v.speed);
    },
  }),
  formula({
    name: 'reflection-loss',
    title: 'What one reflection takes',
    topic,
    about: 'In decibels, by coefficient.',
    formula: '−10 lg(1 − α)',
    inputs: { coefficient: { dimension: 'ratio', about: 'absorption coefficient', symbol: 'α', min: 0, max: 0.9999 } },
    result: { symbol: '', name: 'loss', dimension: 'sound level' },
    source: DESIGN_MANUAL,
    compute: (v) => reflectionLoss(v.coefficient),
  }),
  formula({
    name: 'first-reflection',
    title: 'First reflection off a surface of a box',
    topic,
    about:
      'Where it meets the surface, how much later and weaker than the direct sound it comes. Points are given along the length, across, up.',
    formula: 'image of the source in the surface; delay (L − d)/c; level 20 lg(d/L) + 10 lg(1 − α)',
    inputs: {
      room: { ...size, symbol: 'L, W, H' },
      source: point('source: along, across, up'),
      listener: point('listener: along, across, up'),
      surface: { choices: SURFACES, about: 'surface (left wall: across = 0; front wall: along = 0)' },
      coefficient: {
        dimension: 'ratio',
        about: 'its absorption coefficient',
        symbol: 'α',
        default: 0,
        min: 0,
        max: 0.9999,
      },
      speed,
    },
    result: { symbol: 't', name: 'delay', dimension: 'time' },
    source: GEOMETRY,
    compute: (v) => {
      const [L, W, H] = sizeOf(v.room).map((x) => x * 1000) as [number, number, number];
      const place = (p: readonly number[], what: string) => {
        if (p.length !== 3) throw new RangeError(`the ${what} needs three figures: along, across, up`);
        return vec(p[0]!, p[2]!, p[1]!);
      };
      const room = {
        outline: [
          { x: 0, z: 0 },
          { x: L, z: 0 },
          { x: L, z: W },
          { x: 0, z: W },
        ],
        height: H,
      };
      const found = findReflections(room, place(v.source, 'source'), place(v.listener, 'listener'), { speed: v.speed });
      const path = found.paths.find((p) => p.faces[0] === FACE[v.surface as (typeof SURFACES)[number]]);
      if (!path) throw new RangeError('this surface sends no reflection there');
      const at = path.points[0]!;
      return {
        value: path.delay,
        also: [
          { symbol: 'x', name: 'along', value: at.x, unit: 'mm' },
          { symbol: 'y', name: 'across', value: at.z, unit: 'mm' },
          { symbol: 'z', name: 'up', value: at.y, unit: 'mm' },
          { symbol: 'L', name: 'path', value: path.length, unit: 'mm' },
          { symbol: 'd', name: 'direct path', value: found.direct, unit: 'mm' },
          { symbol: '', name: 'level', value: path.spreading - reflectionLoss(v.coefficient), unit: 'dB' },
        ],
      };
    },
  }),
  formula({
    name: 'direct-sound',
    title: 'Direct path and arrival',
    topic,
    about: 'Straight from source to listener.',
    formula: 't = d/c',
    inputs: { source: point('source: three figures'), listener: point('listener: three figures'), speed },
    result: { symbol: 'd', name: 'path', dimension: 'length' },
    source: GEOMETRY,
    compute: (v) => {
      if (v.source.length !== 3 || v.listener.length !== 3) throw new RangeError('each point needs three figures');
      const d = Math.hypot(...v.source.map((x, i) => x - v.listener[i]!));
      return { value: d, also: [{ symbol: 't', name: 'arrival', value: d / 1000 / v.speed, unit: 's' }] };
    },
  }),
  formula({
    name: 'echo-path',
    title: 'Path difference of an echo',
    topic,
    about:
      'How much longer a way is that arrives so much later: 50 ms for an echo of speech, 15 ms for an early reflection.',
    formula: 'Δ = c t',
    inputs: { delay: { dimension: 'time', about: 'delay', symbol: 't', default: 0.05, above: 0 }, speed },
    result: { symbol: 'Δ', name: 'path difference', dimension: 'length' },
    source: GEOMETRY,
    compute: (v) => v.speed * v.delay * 1000,
  }),
];

const treatment = [
  formula({
    name: 'absorbers-needed',
    title: 'Absorbers needed to shorten a reverberation time',
    topic,
    about: 'Tiles that cover a surface; by Sabine, at one band.',
    formula: 'n = ⌈k V (1/T2 − 1/T1) / ((α_t − α_w) s)⌉',
    inputs: {
      volume,
      before: { dimension: 'time', about: 'reverberation time now', symbol: 'T1', above: 0 },
      after: { dimension: 'time', about: 'reverberation time wanted', symbol: 'T2', above: 0 },
      absorber: { dimension: 'ratio', about: 'coefficient of the absorber', symbol: 'α_t', min: 0, max: 1 },
      covered: {
        dimension: 'ratio',
        about: 'coefficient of what it covers',
        symbol: 'α_w',
        default: 0,
        min: 0,
        max: 1,
      },
      each: { dimension: 'area', about: 'area of one absorber', symbol: 's', above: 0 },
      speed,
      constant,
    },
    result: { symbol: 'n', name: 'absorbers', dimension: 'count' },
    source: SABINE,
    validity: SMALL_ROOM,
    caution: FOAM_CAUTION,
    compute: (v) => {
      const answer = absorberCount(v.volume, v.before, v.after, v.absorber - v.covered, v.each, k(v));
      return {
        value: answer.count,
        also: [
          { symbol: 'ΔA', name: 'absorption to add', value: answer.absorption, unit: 'm²' },
          { symbol: 'S', name: 'area', value: answer.area, unit: 'm²' },
        ],
      };
    },
  }),
  formula({
    name: 'tiles-per-row',
    title: 'Whole tiles along a wall, with equal margins',
    topic,
    about: 'How many fit and what is left at each end.',
    formula: 'n = ⌊(W + g)/(t + g)⌋; margin = (W − n t − (n−1) g)/2',
    inputs: {
      wall: { dimension: 'length', about: 'length of the wall', symbol: 'W', above: 0 },
      tile: { dimension: 'length', about: 'side of a tile', symbol: 't', above: 0 },
      gap: { dimension: 'length', about: 'gap between tiles', symbol: 'g', default: 0, min: 0 },
    },
    result: { symbol: 'n', name: 'tiles', dimension: 'count' },
    source: 'common practice',
    compute: (v) => {
      const { count, margin } = tilesAlong(v.wall, v.tile, v.gap);
      return { value: count, also: [{ symbol: '', name: 'margin', value: margin, unit: 'mm' }] };
    },
  }),
  formula({
    name: 'edge-ratio',
    title: 'Edge of a patch of absorbers for its area',
    topic,
    about: 'Small separate patches absorb more for their size than large ones.',
    formula: '2 (a + b)/(a b)',
    inputs: {
      width: { dimension: 'length', about: 'width of the patch', symbol: 'a', above: 0 },
      height: { dimension: 'length', about: 'height of the patch', symbol: 'b', above: 0 },
    },
    result: { symbol: 'E', name: 'edge ratio', dimension: 'per length' },
    source: { title: 'ASTM C423', place: 'significance: edge effect' },
    compute: (v) => edgeRatio(v.width / 1000, v.height / 1000),
  }),
  formula({
    name: 'bead-length',
    title: 'Length of bead from a cartridge',
    topic,
    about: 'A round bead by its diameter, or a joint by width and depth.',
    formula: 'V / A',
    inputs: {
      volume: { dimension: 'liquid volume', about: 'volume of the cartridge', symbol: 'V', above: 0 },
      diameter: { dimension: 'length', about: 'diameter of a round bead', symbol: 'd', optional: true, above: 0 },
      width: { dimension: 'length', about: 'width of a joint', optional: true, above: 0 },
      depth: { dimension: 'length', about: 'depth of a joint; its width when left out', optional: true, above: 0 },
    },
    result: { symbol: 'L', name: 'length', dimension: 'length' },
    source: { title: 'Volume of a prism or cylinder; 1 US fl oz = 231/128 in³' },
    assumes: ['nothing is wasted'],
    compute: (v) => {
      const section =
        v.diameter !== undefined
          ? (Math.PI / 4) * v.diameter ** 2
          : v.width !== undefined
            ? v.width * (v.depth ?? v.width)
            : undefined;
      if (section === undefined) throw new RangeError('the bead needs a diameter, or the joint a width');
      return beadLength(v.volume * 1000, section);
    },
  }),
  formula({
    name: 'dabs-per-cartridge',
    title: 'Tiles one cartridge sticks on with dabs',
    topic,
    about: 'Dabs pressed flat to a disc.',
    formula: '⌊V / (n π/4 d² h)⌋',
    inputs: {
      volume: { dimension: 'liquid volume', about: 'volume of the cartridge', symbol: 'V', above: 0 },
      dabs: { dimension: 'count', about: 'dabs a tile', symbol: 'n', default: 5, min: 1 },
      diameter: { dimension: 'length', about: 'diameter of a pressed dab', symbol: 'd', above: 0 },
      thickness: { dimension: 'length', about: 'its thickness', symbol: 'h', above: 0 },
    },
    result: { symbol: '', name: 'tiles', dimension: 'count' },
    source: { title: 'Volume of a cylinder' },
    caution: FOAM_CAUTION,
    compute: (v) => dabTiles(v.volume * 1000, v.dabs, v.diameter, v.thickness),
  }),
  formula({
    name: 'contact-adhesive',
    title: 'Contact adhesive for tiles',
    topic,
    about: 'Brushed on tile and backing alike.',
    formula: 'faces · n s / coverage',
    inputs: {
      tiles: { dimension: 'count', about: 'tiles', symbol: 'n', min: 0 },
      each: { dimension: 'area', about: 'area of one tile', symbol: 's', above: 0 },
      coverage: { dimension: 'coverage', about: 'area one litre covers on one face, from its data sheet', above: 0 },
      faces: { dimension: 'count', about: 'faces that are coated', default: 2, min: 1, max: 2 },
    },
    result: { symbol: 'V', name: 'adhesive', dimension: 'liquid volume' },
    source: 'common practice',
    caution:
      'Solvent adhesives give off fumes that burn: air the room, keep flames and sparks away, and follow the label.',
    compute: (v) => contactAdhesive(v.tiles, v.each, v.coverage, v.faces),
  }),
];

export const calculators: readonly AnyCalculator[] = [
  ...reverberation,
  ...airAndModes,
  ...speech,
  ...targets,
  ...echoes,
  ...treatment,
];
