import { type AnyCalculator, formula, type Source } from '../notes/index.ts';
import { convertTo, MM_PER_INCH } from '../quantity/index.ts';

const NIOSH = (place: string): Source => ({
  title: 'NIOSH, Applications Manual for the Revised NIOSH Lifting Equation, Publication 94-110',
  edition: 'rev. 9/2021',
  place,
});
const CAUTION =
  'For a healthy adult, two hands, standing, good footing, a load that does not shift; stairs, doorways and one-handed grips are worse. When in doubt, get a second person.';

/** Constants in the two unit systems of the manual. They are not conversions of each other: 51 lb is 23.13 kg. */
const SYSTEMS = {
  metric: {
    unit: 10,
    load: 23,
    reach: 25,
    reachMax: 63,
    height: 75,
    heightSlope: 0.003,
    heightMax: 175,
    travel: 4.5,
    travelMin: 25,
    travelMax: 175,
  },
  us: {
    unit: MM_PER_INCH,
    load: 51,
    reach: 10,
    reachMax: 25,
    height: 30,
    heightSlope: 0.0075,
    heightMax: 70,
    travel: 1.8,
    travelMin: 10,
    travelMax: 70,
  },
} as const;
export type LiftingSystem = keyof typeof SYSTEMS;

export const LIFT_DURATIONS = ['short', 'moderate', 'long'] as const;
export type LiftDuration = (typeof LIFT_DURATIONS)[number];
export const COUPLINGS = ['good', 'fair', 'poor'] as const;
export type Coupling = (typeof COUPLINGS)[number];

/** Lifts a minute → multiplier for ≤ 1 h (V low, V high), 1–2 h, 2–8 h. Source: NIOSH 94-110, table 5. */
const FREQUENCY: readonly (readonly [
  perMinute: number,
  factors: readonly [number, number, number, number, number, number],
])[] = [
  [0.2, [1, 1, 0.95, 0.95, 0.85, 0.85]],
  [0.5, [0.97, 0.97, 0.92, 0.92, 0.81, 0.81]],
  [1, [0.94, 0.94, 0.88, 0.88, 0.75, 0.75]],
  [2, [0.91, 0.91, 0.84, 0.84, 0.65, 0.65]],
  [3, [0.88, 0.88, 0.79, 0.79, 0.55, 0.55]],
  [4, [0.84, 0.84, 0.72, 0.72, 0.45, 0.45]],
  [5, [0.8, 0.8, 0.6, 0.6, 0.35, 0.35]],
  [6, [0.75, 0.75, 0.5, 0.5, 0.27, 0.27]],
  [7, [0.7, 0.7, 0.42, 0.42, 0.22, 0.22]],
  [8, [0.6, 0.6, 0.35, 0.35, 0.18, 0.18]],
  [9, [0.52, 0.52, 0.3, 0.3, 0, 0.15]],
  [10, [0.45, 0.45, 0.26, 0.26, 0, 0.13]],
  [11, [0.41, 0.41, 0, 0.23, 0, 0]],
  [12, [0.37, 0.37, 0, 0.21, 0, 0]],
  [13, [0, 0.34, 0, 0, 0, 0]],
  [14, [0, 0.31, 0, 0, 0, 0]],
  [15, [0, 0.28, 0, 0, 0, 0]],
];

/** Straight line between the rows; 0.2 and less as 0.2; more than 15 a minute is not allowed at all. */
export function frequencyMultiplier(perMinute: number, duration: LiftDuration, high: boolean): number {
  const column = 2 * LIFT_DURATIONS.indexOf(duration) + (high ? 1 : 0);
  const f = Math.max(0.2, perMinute);
  if (f > 15) return 0;
  const above = FREQUENCY.findIndex(([rate]) => rate >= f);
  const [rate, factors] = FREQUENCY[above]!;
  if (rate === f || above === 0) return factors[column]!;
  const [before, earlier] = FREQUENCY[above - 1]!;
  return earlier[column]! + ((factors[column]! - earlier[column]!) * (f - before)) / (rate - before);
}

/** Source: NIOSH 94-110, table 7. */
export const couplingMultiplier = (coupling: Coupling, high: boolean): number =>
  coupling === 'good' ? 1 : coupling === 'poor' ? 0.9 : high ? 1 : 0.95;

export interface Lift {
  /** Hands in front of the ankles, mm. */
  readonly reach: number;
  /** Hands above the floor, mm. */
  readonly height: number;
  /** How far up or down it goes, mm. */
  readonly travel: number;
  /** Turn of the body, degrees. */
  readonly twist?: number;
  /** Lifts a minute. */
  readonly frequency?: number;
  readonly duration?: LiftDuration;
  readonly coupling?: Coupling;
  readonly system?: LiftingSystem;
  /** Multipliers taken as given instead of looked up. */
  readonly given?: { readonly frequency?: number; readonly coupling?: number };
  /** Round the multipliers as the manual's printed worksheets do; full precision when left out. */
  readonly worksheet?: boolean;
}

export interface LiftingLimit {
  /** Recommended weight limit, kg. */
  readonly limit: number;
  readonly multipliers: {
    readonly HM: number;
    readonly VM: number;
    readonly DM: number;
    readonly AM: number;
    readonly FM: number;
    readonly CM: number;
  };
}

/**
 * Recommended weight limit: RWL = LC · HM · VM · DM · AM · FM · CM at one end of the lift, full precision.
 * HM = 25/H, VM = 1 − 0.003 |V − 75|, DM = 0.82 + 4.5/D, AM = 1 − 0.0032 A (cm, °); beyond the ranges the limit is 0.
 * Source: NIOSH 94-110 (rev. 9/2021), section 1.3.
 */
export function liftingLimit(lift: Lift): LiftingLimit {
  const s = SYSTEMS[lift.system ?? 'metric'];
  const [H, V, D] = [lift.reach / s.unit, lift.height / s.unit, lift.travel / s.unit];
  const A = lift.twist ?? 0;
  const high = V >= s.height - 1e-9;
  const over = 1e-9; // a limit given in the other unit must not fail by rounding
  const HM = H > s.reachMax + over ? 0 : Math.min(1, s.reach / H);
  const VM = V > s.heightMax + over ? 0 : 1 - s.heightSlope * Math.abs(V - s.height);
  const DM = D > s.travelMax + over ? 0 : D <= s.travelMin ? 1 : 0.82 + s.travel / D;
  const AM = A > 135 ? 0 : 1 - 0.0032 * A;
  const FM = lift.given?.frequency ?? frequencyMultiplier(lift.frequency ?? 0.2, lift.duration ?? 'short', high);
  const CM = lift.given?.coupling ?? couplingMultiplier(lift.coupling ?? 'fair', high);
  const multipliers = lift.worksheet
    ? { HM: printed('HM', H, HM), VM: twoPlaces(VM), DM: printed('DM', D, DM), AM: twoPlaces(AM), FM, CM }
    : { HM, VM, DM, AM, FM, CM };
  const product = Object.values(multipliers).reduce((a, b) => a * b, 1);
  const constant = lift.system === 'us' ? s.load / convertTo(1, 'lb', 'mass') : s.load;
  return { limit: constant * product, multipliers };
}

/** A half is rounded up, as the worksheets do; the last bit of the product must not turn it down. */
const twoPlaces = (value: number): number => Math.round(value * 100 + 1e-9) / 100;

/** Table 1 (22 and 23 in) and table 3 (130 cm) print other values than their formulas give; the examples use the printed ones. */
const PRINTED = { HM: { '22': 0.46, '23': 0.44 }, DM: { '130': 0.86 } } as const;
const printed = (which: keyof typeof PRINTED, at: number, value: number): number =>
  (PRINTED[which] as Readonly<Record<string, number>>)[String(Math.round(at * 1e6) / 1e6)] ?? twoPlaces(value);

/** Load over the recommended limit; more than 1 is a raised risk. Infinite where the limit is 0. */
export const liftingIndex = (mass: number, lift: Lift): number => mass / liftingLimit(lift).limit;

/** Reach to the middle of a box of a depth W, held in front: 20 + W/2 cm, 25 + W/2 when V is below 25 cm. NIOSH 94-110, p. 8. */
export function liftReach(boxDepth: number, height: number, system: LiftingSystem = 'metric'): number {
  const { unit } = SYSTEMS[system];
  const [near, low, threshold] = system === 'us' ? [8, 10, 10] : [20, 25, 25];
  return (height / unit >= threshold - 1e-9 ? near : low) * unit + boxDepth / 2;
}

/**
 * Duration class of a day of lifting. Work is added up until a recovery is long enough: as long as the work up to 1 h, three
 * tenths of it up to 2 h. Minutes; the last recovery is taken as long enough. Source: NIOSH 94-110 (rev. 9/2021), p. 14.
 */
export function liftDuration(
  work: readonly number[],
  recovery: readonly number[],
): { duration: LiftDuration; longest: number } {
  let longest = 0;
  let total = 0;
  work.forEach((minutes, i) => {
    total += minutes;
    longest = Math.max(longest, total);
    const rest = recovery[i] ?? Number.POSITIVE_INFINITY;
    if ((total <= 60 && rest >= total) || (total <= 120 && total > 60 && rest >= 0.3 * total)) total = 0;
  });
  return { duration: longest <= 60 ? 'short' : longest <= 120 ? 'moderate' : 'long', longest };
}

/** What a team can lift: the whole of one, two thirds of the sum of two, half of the sum of three. Source: HSE L23, guidance. */
export function teamCapacity(each: readonly number[]): number {
  const share = [1, 2 / 3, 1 / 2][each.length - 1];
  if (share === undefined) throw new RangeError('guidance is given for one, two or three people');
  return share * each.reduce((a, b) => a + b, 0);
}

export interface LiftTask {
  readonly mass: number;
  readonly frequency: number;
  /** Frequency-independent recommended weight limit, kg. */
  readonly limit: number;
}

/**
 * Composite lifting index of a job of several tasks: the largest single-task index, and for each further task its
 * frequency-independent index times what its lifts add to 1/FM. Source: NIOSH 94-110, section 2.4.5.
 */
export function compositeIndex(tasks: readonly LiftTask[], duration: LiftDuration, high: boolean): number {
  const FM = (f: number) => frequencyMultiplier(f, duration, high);
  const sorted = [...tasks].sort((a, b) => b.mass / (b.limit * FM(b.frequency)) - a.mass / (a.limit * FM(a.frequency)));
  let sum = 0;
  let index = 0;
  sorted.forEach((task, i) => {
    const before = sum;
    sum += task.frequency;
    index += (task.mass / task.limit) * (1 / FM(sum) - (i === 0 ? 0 : 1 / FM(before)));
  });
  return index;
}

const liftInputs = {
  reach: { dimension: 'length', about: 'hands in front of the middle of the ankles', symbol: 'H', above: 0 },
  height: { dimension: 'length', about: 'hands above the floor', symbol: 'V', min: 0 },
  travel: { dimension: 'length', about: 'how far up or down it goes', symbol: 'D', min: 0 },
  twist: { dimension: 'angle', about: 'turn of the body', symbol: 'A', default: 0, min: 0, max: 180 },
  frequency: { dimension: 'rate per minute', about: 'lifts a minute', symbol: 'F', default: 0.2, min: 0 },
  duration: {
    choices: LIFT_DURATIONS,
    about: 'how long it goes on: short to 1 h, moderate 1 to 2 h, long 2 to 8 h',
    default: 'short',
  },
  coupling: {
    choices: COUPLINGS,
    about: 'grip: good has handles, fair lets the fingers under at a right angle, poor is none',
    default: 'fair',
  },
  'frequency-multiplier': {
    dimension: 'ratio',
    about: 'instead of looking it up',
    symbol: 'FM',
    optional: true,
    min: 0,
    max: 1,
  },
  'coupling-multiplier': {
    dimension: 'ratio',
    about: 'instead of looking it up',
    symbol: 'CM',
    optional: true,
    min: 0,
    max: 1,
  },
  precision: {
    choices: ['full', 'worksheet'],
    about: 'precision: full, or multipliers rounded to two places as printed worksheets do',
    default: 'full',
  },
  system: {
    choices: ['metric', 'us'],
    about: 'constants of the manual: 23 kg, 25 cm … or 51 lb, 10 in …',
    default: 'metric',
  },
} as const;

type LiftValues = {
  readonly reach: number;
  readonly height: number;
  readonly travel: number;
  readonly twist: number;
  readonly frequency: number;
  readonly duration: LiftDuration;
  readonly coupling: Coupling;
  readonly system: LiftingSystem;
  readonly precision: 'full' | 'worksheet';
  readonly 'frequency-multiplier': number | undefined;
  readonly 'coupling-multiplier': number | undefined;
};
function liftFrom(v: LiftValues): LiftingLimit {
  const [FM, CM] = [v['frequency-multiplier'], v['coupling-multiplier']];
  return liftingLimit({
    ...v,
    worksheet: v.precision === 'worksheet',
    given: { ...(FM !== undefined && { frequency: FM }), ...(CM !== undefined && { coupling: CM }) },
  });
}
const systemOf = ({ system }: LiftValues) => (system === 'metric' ? { reckonedIn: 'metric' as const } : {});
const shown = ({ multipliers: m }: LiftingLimit) =>
  (
    [
      ['HM', 'horizontal multiplier'],
      ['VM', 'vertical multiplier'],
      ['DM', 'distance multiplier'],
      ['AM', 'asymmetry multiplier'],
      ['FM', 'frequency multiplier'],
      ['CM', 'coupling multiplier'],
    ] as const
  ).map(([symbol, name]) => ({ symbol, name, value: m[symbol], unit: '' }));

const limit = formula({
  name: 'lifting-limit',
  title: 'Recommended weight limit for lifting',
  topic: 'strength',
  about:
    'What nearly all healthy people can lift in this way without a raised risk to the back. Take the worse end of the lift.',
  formula:
    'RWL = LC · HM · VM · DM · AM · FM · CM;  HM = 25/H, VM = 1 − 0.003|V − 75|, DM = 0.82 + 4.5/D, AM = 1 − 0.0032 A  (cm)',
  inputs: liftInputs,
  result: { symbol: 'RWL', name: 'recommended weight limit', dimension: 'mass' },
  source: NIOSH('section 1.3, tables 1 to 7'),
  validity: 'H to 63 cm, V to 175 cm, D to 175 cm, A to 135°, 15 lifts a minute; beyond, 0.',
  caution: CAUTION,
  assumes: ['full precision: worksheets with rounded multipliers differ in the third figure'],
  compute: (v) => {
    const lift = liftFrom(v);
    return { value: lift.limit, also: shown(lift), ...systemOf(v) };
  },
});

export const indexOfLift = formula({
  name: 'lifting-index',
  title: 'Lifting index',
  topic: 'strength',
  about: 'Load over the recommended limit. Above 1: a raised risk, lift with two; above 3: do not.',
  formula: 'LI = L / RWL',
  inputs: { load: { dimension: 'mass', about: 'mass lifted', symbol: 'L', above: 0 }, ...liftInputs },
  result: { symbol: 'LI', name: 'lifting index', dimension: 'ratio' },
  source: NIOSH('section 1.4'),
  caution: CAUTION,
  compute: (v) => {
    const lift = liftFrom(v);
    if (lift.limit <= 0)
      throw new RangeError('outside the range of the lifting equation nothing should be lifted at all');
    return {
      value: v.load / lift.limit,
      also: [{ symbol: 'RWL', name: 'recommended weight limit', value: lift.limit, unit: 'kg' }, ...shown(lift)],
      limit: { value: 1, unit: '', why: 'goal of the manual', source: NIOSH('section 1.4.2') },
      ...systemOf(v),
    };
  },
});

const product = formula({
  name: 'lifting-product',
  title: 'Weight limit from multipliers already looked up',
  topic: 'strength',
  about: 'As worksheets do it: the constant times six multipliers.',
  formula: 'RWL = LC · HM · VM · DM · AM · FM · CM',
  inputs: {
    constant: { dimension: 'mass', about: 'load constant', symbol: 'LC', default: 23, above: 0 },
    horizontal: { dimension: 'ratio', about: 'horizontal multiplier', symbol: 'HM', default: 1, min: 0, max: 1 },
    vertical: { dimension: 'ratio', about: 'vertical multiplier', symbol: 'VM', default: 1, min: 0, max: 1 },
    distance: { dimension: 'ratio', about: 'distance multiplier', symbol: 'DM', default: 1, min: 0, max: 1 },
    asymmetry: { dimension: 'ratio', about: 'asymmetry multiplier', symbol: 'AM', default: 1, min: 0, max: 1 },
    frequency: { dimension: 'ratio', about: 'frequency multiplier', symbol: 'FM', default: 1, min: 0, max: 1 },
    coupling: { dimension: 'ratio', about: 'coupling multiplier', symbol: 'CM', default: 1, min: 0, max: 1 },
  },
  result: { symbol: 'RWL', name: 'recommended weight limit', dimension: 'mass' },
  source: NIOSH('section 1.3'),
  caution: CAUTION,
  compute: (v) => v.constant * v.horizontal * v.vertical * v.distance * v.asymmetry * v.frequency * v.coupling,
});

const frequency = formula({
  name: 'lifting-frequency-multiplier',
  title: 'Frequency multiplier of lifting',
  topic: 'strength',
  about: 'From lifts a minute, how long it goes on, and the height of the hands.',
  formula: 'table 5, straight line between rows',
  inputs: {
    frequency: liftInputs.frequency,
    duration: liftInputs.duration,
    hands: {
      choices: ['low', 'high'],
      about: 'height of the hands: low below 75 cm (30 in), high from there up',
      default: 'low',
    },
  },
  result: { symbol: 'FM', name: 'frequency multiplier', dimension: 'ratio' },
  source: NIOSH('table 5'),
  compute: (v) => frequencyMultiplier(v.frequency, v.duration, v.hands === 'high'),
});

const coupling = formula({
  name: 'lifting-coupling-multiplier',
  title: 'Coupling multiplier of lifting',
  topic: 'strength',
  about: 'From the grip and the height of the hands.',
  formula: 'table 7',
  inputs: {
    coupling: { choices: COUPLINGS, about: 'the grip' },
    hands: {
      choices: ['low', 'high'],
      about: 'height of the hands: low below 75 cm (30 in), high from there up',
      default: 'low',
    },
  },
  result: { symbol: 'CM', name: 'coupling multiplier', dimension: 'ratio' },
  source: NIOSH('table 7'),
  compute: (v) => couplingMultiplier(v.coupling, v.hands === 'high'),
});

const reach = formula({
  name: 'lifting-reach',
  title: 'Reach to the middle of a box in front of the body',
  topic: 'strength',
  about: 'Estimate where it cannot be measured.',
  formula: 'H = 20 + W/2, below 25 cm height 25 + W/2 (cm);  8 + W/2, 10 + W/2 (in)',
  inputs: {
    'box-depth': { dimension: 'length', about: 'depth of the box, away from the body', symbol: 'W', above: 0 },
    height: { dimension: 'length', about: 'hands above the floor', symbol: 'V', min: 0 },
    system: liftInputs.system,
  },
  result: { symbol: 'H', name: 'reach', dimension: 'length' },
  source: NIOSH('p. 8'),
  compute: (v) => liftReach(v['box-depth'], v.height, v.system),
});

const adjusted = formula({
  name: 'lifting-frequency',
  title: 'Lifts a minute of work that comes in bouts',
  topic: 'strength',
  about: 'Where lifting fills only part of each quarter hour.',
  formula: 'F = rate · minutes / 15',
  inputs: {
    rate: { dimension: 'rate per minute', about: 'lifts a minute while lifting', above: 0 },
    minutes: { dimension: 'time', about: 'time spent lifting in each 15 minutes', above: 0, max: 900 },
  },
  result: { symbol: 'F', name: 'lifts a minute to reckon with', dimension: 'rate per minute' },
  source: NIOSH('p. 16'),
  compute: (v) => (v.rate * (v.minutes / 60)) / 15,
});

const duration = formula({
  name: 'lifting-duration',
  title: 'Longest spell of lifting without recovery',
  topic: 'strength',
  about:
    'Spells are added up unless the rest between them is long enough. Up to 1 h is short, to 2 h moderate, more is long.',
  formula: 'rest ≥ work (to 1 h), ≥ 0.3 work (to 2 h), else add up',
  inputs: {
    work: { dimension: 'time', about: 'spells of lifting, in order', list: true, above: 0 },
    rest: { dimension: 'time', about: 'light work or rest after each', list: true, optional: true, min: 0 },
  },
  result: { symbol: 't', name: 'longest spell', dimension: 'time' },
  source: NIOSH('p. 14'),
  compute: ({ work, rest }) => {
    const found = liftDuration(
      work.map((s) => s / 60),
      (rest ?? []).map((s) => s / 60),
    );
    return {
      value: found.longest * 60,
      assumes: [`duration class: ${found.duration}`],
      also: [
        {
          symbol: 'class',
          name: 'class: 1 short, 2 moderate, 3 long',
          value: LIFT_DURATIONS.indexOf(found.duration) + 1,
          unit: '',
        },
      ],
    };
  },
});

const composite = formula({
  name: 'composite-lifting-index',
  title: 'Composite lifting index of several tasks',
  topic: 'strength',
  about: 'One figure for a job in which different things are lifted at different rates.',
  formula: 'CLI = STLI₁ + Σ FILI_i (1/FM_{1…i} − 1/FM_{1…i−1})',
  inputs: {
    loads: { dimension: 'mass', about: 'mass of each', list: true, above: 0 },
    frequencies: { dimension: 'rate per minute', about: 'lifts a minute of each', list: true, above: 0 },
    limits: { dimension: 'mass', about: 'recommended limit of each at FM = 1', list: true, above: 0 },
    duration: liftInputs.duration,
    hands: {
      choices: ['low', 'high'],
      about: 'height of the hands: low below 75 cm (30 in), high from there up',
      default: 'low',
    },
  },
  result: { symbol: 'CLI', name: 'composite lifting index', dimension: 'ratio' },
  source: NIOSH('section 2.4.5'),
  caution: CAUTION,
  compute: (v) => {
    if (v.loads.length !== v.frequencies.length || v.loads.length !== v.limits.length)
      throw new RangeError('loads, frequencies and limits must be lists of the same length');
    const tasks = v.loads.map((mass, i) => ({ mass, frequency: v.frequencies[i]!, limit: v.limits[i]! }));
    const value = compositeIndex(tasks, v.duration, v.hands === 'high');
    if (!Number.isFinite(value)) throw new RangeError('so many lifts a minute are outside the lifting equation');
    return value;
  },
});

export const teamLift = formula({
  name: 'team-lift',
  title: 'What two or three people lift together',
  topic: 'strength',
  about: 'A team lifts less than the sum of its members.',
  formula: 'm = 2/3 Σ (two), 1/2 Σ (three)',
  inputs: { each: { dimension: 'mass', about: 'what each could lift alone', list: true, above: 0 } },
  result: { symbol: 'm', name: 'guideline for the team', dimension: 'mass' },
  source: { title: 'HSE, Manual handling, guidance on regulations L23', place: 'handling in teams' },
  caution: CAUTION,
  compute: ({ each }) => teamCapacity(each),
});

/** What is lifted where one end of a load is tipped up while the other stays down: m · a/L, kg; a from the end that stays. */
export const endLift = (mass: number, length: number, centre: number): number => (mass * centre) / length;

export const liftAtOneEnd = formula({
  name: 'end-lift',
  title: 'What is lifted when one end is tipped up',
  topic: 'strength',
  about: 'To push a trolley, rollers or a blanket under a case, only one end comes off the floor.',
  formula: 'm_e = m a / L',
  inputs: {
    mass: { dimension: 'mass', about: 'mass of the load', symbol: 'm', above: 0 },
    length: { dimension: 'length', about: 'from the end that stays down to the end lifted', symbol: 'L', above: 0 },
    centre: {
      dimension: 'length',
      about: 'from the end that stays down to the centre of gravity; half the length when left out',
      symbol: 'a',
      optional: true,
      min: 0,
    },
  },
  result: { symbol: 'm_e', name: 'lifted at the end', dimension: 'mass' },
  source: { title: 'Statics', place: 'moments about the end that stays down' },
  caution: CAUTION,
  assumes: ['lifted a hand high: the higher it goes, the less it takes, until it falls over'],
  compute: ({ mass, length, centre }) => {
    if (centre !== undefined && centre > length) throw new RangeError('the centre of gravity lies beyond the end');
    return endLift(mass, length, centre ?? length / 2);
  },
});

/** Guideline masses, kg: held close to the body. Source: HSE INDG143, figure 1 (from memory). */
const FILTER = {
  'shoulder to head': { men: 10, women: 7 },
  'elbow to shoulder': { men: 20, women: 13 },
  'knuckle to elbow': { men: 25, women: 16 },
  'mid-leg to knuckle': { men: 20, women: 13 },
  'floor to mid-leg': { men: 10, women: 7 },
} as const;

const filter = formula({
  name: 'lifting-guide',
  title: 'Guideline mass by height of the hands',
  topic: 'strength',
  about: 'A quick filter for loads held close to the body; below it no closer look is asked for.',
  formula: 'table',
  inputs: {
    zone: { choices: Object.keys(FILTER) as (keyof typeof FILTER)[], about: 'where the hands are' },
    who: { choices: ['men', 'women'], about: 'as the guide has it', default: 'women' },
  },
  result: { symbol: 'm', name: 'guideline mass', dimension: 'mass' },
  source: 'from memory',
  validity: 'HSE INDG143, figure 1.',
  caution: CAUTION,
  compute: ({ zone, who }) => FILTER[zone][who],
});

/** Reference masses for one person, kg. Source: ISO 11228-1, annex C, 2003 edition (from memory). */
const REFERENCE_MASS = { 'men of working age': 25, 'adults in general': 20, 'young and old': 15 } as const;

const reference = formula({
  name: 'lifting-reference-mass',
  title: 'Reference mass by who lifts',
  topic: 'strength',
  about: 'Starting mass for a single lift in the international standard.',
  formula: 'table',
  inputs: { who: { choices: Object.keys(REFERENCE_MASS) as (keyof typeof REFERENCE_MASS)[], about: 'who lifts' } },
  result: { symbol: 'm', name: 'reference mass', dimension: 'mass' },
  source: 'from memory',
  validity: 'ISO 11228-1, annex C, 2003 edition; the 2021 edition grades by age and sex.',
  caution: CAUTION,
  compute: ({ who }) => REFERENCE_MASS[who],
});

export const LIFTING_CALCULATORS: readonly AnyCalculator[] = [
  limit,
  indexOfLift,
  product,
  frequency,
  coupling,
  reach,
  adjusted,
  duration,
  composite,
  teamLift,
  liftAtOneEnd,
  filter,
  reference,
];
