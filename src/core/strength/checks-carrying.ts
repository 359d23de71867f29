import { type CheckRow, checkTable } from '../notes/index.ts';

const NIOSH = 'NIOSH 94-110 (rev. 9/2021)';
const EXACT = 1e-9;
/** A lift in which every other multiplier is 1. */
const ideal = { reach: '25 cm', height: '75 cm', travel: '25 cm', coupling: 'good' };
const us = { reach: '10 in', height: '30 in', travel: '10 in', coupling: 'good', system: 'us' };

/** Table 5 as printed: rows by lifts a minute, columns ≤ 1 h, 1–2 h, 2–8 h, each V < 30 in and ≥ 30 in. */
const TABLE_5: readonly (readonly [number, readonly number[]])[] = [
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

const corner = (from: number, to: number, longest: number, source: string, confidence: CheckRow['confidence']) =>
  checkTable('corner-turn', source, confidence, [[{ from: `${from} ft`, to: `${to} ft` }, longest, 'ft', '0.05%']]);

export const carryingChecks: readonly CheckRow[] = [
  ...checkTable('lifting-limit', `${NIOSH}, load constants`, 'seen', [
    [us, 51, 'lb', EXACT],
    [ideal, 23, 'kg', EXACT],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, section 1.3.1: 10/H, 25/H`, 'seen', [
    [{ ...us, reach: '20 in' }, 0.5, '', EXACT, 'HM'],
    [{ ...ideal, reach: '50 cm' }, 0.5, '', EXACT, 'HM'],
    [{ ...us, reach: '8 in' }, 1, '', EXACT, 'HM'],
    [{ ...us, reach: '26 in' }, 0, '', EXACT, 'HM'],
    [{ ...ideal, reach: '64 cm' }, 0, 'kg', EXACT],
    // printed .46 and .44 in table 1: the formula governs
    [{ ...us, reach: '22 in' }, 0.4545, '', 0.0001, 'HM'],
    [{ ...us, reach: '23 in' }, 0.4348, '', 0.0001, 'HM'],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, section 1.3.2: 1 − .0075|V − 30|, table 2`, 'computed', [
    [{ ...us, height: '0 in' }, 0.775, '', EXACT, 'VM'],
    [{ ...us, height: '60 in' }, 0.775, '', EXACT, 'VM'],
    [{ ...us, height: '71 in' }, 0, '', EXACT, 'VM'],
    [{ ...ideal, height: '175 cm' }, 0.7, '', EXACT, 'VM'],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, table 3: .82 + 1.8/D`, 'seen', [
    [{ ...us, travel: '10 in' }, 1, '', 0.0005, 'DM'],
    [{ ...us, travel: '40 in' }, 0.865, '', 0.0005, 'DM'],
    [{ ...us, travel: '70 in' }, 0.8457, '', 0.0005, 'DM'],
    // printed .86 in the metric table: the formula governs
    [{ ...ideal, travel: '130 cm' }, 0.8546, '', 0.0001, 'DM'],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, table 4: 1 − .0032 A`, 'seen', [
    [{ ...ideal, twist: 0 }, 1, '', 0.0005, 'AM'],
    [{ ...ideal, twist: 45 }, 0.856, '', 0.0005, 'AM'],
    [{ ...ideal, twist: 90 }, 0.712, '', 0.0005, 'AM'],
    [{ ...ideal, twist: 135 }, 0.568, '', 0.0005, 'AM'],
    [{ ...ideal, twist: 140 }, 0, 'kg', EXACT],
  ]),
  ...TABLE_5.flatMap(([frequency, factors]) =>
    checkTable(
      'lifting-frequency-multiplier',
      `${NIOSH}, table 5`,
      'seen',
      factors.map((factor, i) => [
        { frequency, duration: ['short', 'moderate', 'long'][Math.floor(i / 2)]!, hands: i % 2 === 0 ? 'low' : 'high' },
        factor,
        '',
        EXACT,
      ]),
    ),
  ),
  ...checkTable(
    'lifting-frequency-multiplier',
    `${NIOSH}, table 5: 0.2 for less, straight line between, 0 above 15`,
    'computed',
    [
      [{ frequency: 0.05, duration: 'moderate' }, 0.95, '', EXACT],
      [{ frequency: 1.5, duration: 'short' }, 0.925, '', EXACT],
      [{ frequency: 5.33, duration: 'short' }, 0.7835, '', 0.0001],
      [{ frequency: 16, duration: 'short' }, 0, '', EXACT],
    ],
  ),
  ...checkTable('lifting-coupling-multiplier', `${NIOSH}, table 7`, 'seen', [
    [{ coupling: 'good', hands: 'low' }, 1, '', EXACT],
    [{ coupling: 'fair', hands: 'low' }, 0.95, '', EXACT],
    [{ coupling: 'poor', hands: 'low' }, 0.9, '', EXACT],
    [{ coupling: 'good', hands: 'high' }, 1, '', EXACT],
    [{ coupling: 'fair', hands: 'high' }, 1, '', EXACT],
    [{ coupling: 'poor', hands: 'high' }, 0.9, '', EXACT],
  ]),
  ...checkTable('lifting-reach', `${NIOSH}, p. 8`, 'seen', [
    [{ 'box-depth': '16 in', height: '30 in', system: 'us' }, 16, 'in', EXACT],
    [{ 'box-depth': '16 in', height: '5 in', system: 'us' }, 18, 'in', EXACT],
    [{ 'box-depth': '40 cm', height: '75 cm' }, 40, 'cm', EXACT],
  ]),
  ...checkTable('lifting-frequency', `${NIOSH}, p. 16`, 'seen', [[{ rate: 10, minutes: '8 min' }, 5.33, '/min', 0.01]]),
  ...checkTable('lifting-duration', `${NIOSH}, p. 14: 30 min, 10 min light work, 45 min is moderate`, 'seen', [
    [{ work: '30, 45 min', rest: '10 min' }, 75, 'min', EXACT],
    [{ work: '30, 45 min', rest: '10 min' }, 2, '', EXACT, 'class'],
    [{ work: '30, 45 min', rest: '30 min' }, 1, '', EXACT, 'class'],
    [{ work: '120, 120 min', rest: '36 min' }, 2, '', EXACT, 'class'],
    [{ work: '120, 120 min', rest: '35 min' }, 3, '', EXACT, 'class'],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, example 4, destination, fig. 14: 15.2 rounded, 15.3 full`, 'seen', [
    [
      {
        reach: '20 in',
        height: '59 in',
        travel: '37 in',
        system: 'us',
        'frequency-multiplier': 0.88,
        'coupling-multiplier': 1,
      },
      15.25,
      'lb',
      0.1,
    ],
    // FM .88 is three lifts a minute for up to an hour
    [{ reach: '20 in', height: '59 in', travel: '37 in', system: 'us', frequency: 3 }, 15.25, 'lb', 0.1],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, metric formulas, worked by hand`, 'computed', [
    [{ reach: '40 cm', height: '20 cm', travel: '80 cm', 'coupling-multiplier': 1 }, 10.52, 'kg', 0.02],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, examples 1 to 3 at full precision (inputs from memory)`, 'memory', [
    [{ reach: '23 in', height: '15 in', travel: '49 in', system: 'us' }, 16.0, 'lb', 0.1],
    [{ reach: '23 in', height: '64 in', travel: '49 in', system: 'us' }, 14.1, 'lb', 0.1],
    [{ reach: '15 in', height: '27 in', travel: '17 in', system: 'us', coupling: 'poor' }, 27.7, 'lb', 0.1],
    [{ reach: '20 in', height: '10 in', travel: '17 in', system: 'us', coupling: 'poor' }, 18.1, 'lb', 0.1],
    [{ reach: '18 in', height: '15 in', travel: '21 in', twist: 45, system: 'us' }, 18.5, 'lb', 0.1],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, example 4, worksheet of rounded multipliers: 15.2 lb`, 'seen', [
    [
      { reach: '20 in', height: '59 in', travel: '37 in', system: 'us', frequency: 3, precision: 'worksheet' },
      15.2,
      'lb',
      0.05,
    ],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, tables 1 and 3 as printed, against their own formulas`, 'seen', [
    [{ ...us, reach: '22 in', precision: 'worksheet' }, 0.46, '', EXACT, 'HM'],
    [{ ...us, reach: '23 in', precision: 'worksheet' }, 0.44, '', EXACT, 'HM'],
    [{ ...ideal, travel: '130 cm', precision: 'worksheet' }, 0.86, '', EXACT, 'DM'],
    [{ ...us, reach: '20 in', precision: 'worksheet' }, 0.5, '', EXACT, 'HM'],
  ]),
  ...checkTable('lifting-limit', `${NIOSH}, worksheets of examples 1 to 3 (inputs and figures from memory)`, 'memory', [
    [{ reach: '23 in', height: '15 in', travel: '49 in', system: 'us', precision: 'worksheet' }, 16.3, 'lb', 0.05],
    [{ reach: '23 in', height: '64 in', travel: '49 in', system: 'us', precision: 'worksheet' }, 14.5, 'lb', 0.05],
    [
      { reach: '15 in', height: '27 in', travel: '17 in', system: 'us', coupling: 'poor', precision: 'worksheet' },
      28.0,
      'lb',
      0.05,
    ],
    [
      { reach: '20 in', height: '10 in', travel: '17 in', system: 'us', coupling: 'poor', precision: 'worksheet' },
      18.1,
      'lb',
      0.05,
    ],
    [
      { reach: '18 in', height: '15 in', travel: '21 in', twist: 45, system: 'us', precision: 'worksheet' },
      18.9,
      'lb',
      0.05,
    ],
  ]),
  ...checkTable('lifting-index', `${NIOSH}, examples 1 to 3 at full precision (inputs from memory)`, 'memory', [
    [{ load: '44 lb', reach: '23 in', height: '64 in', travel: '49 in', system: 'us' }, 3.1, '', 0.05],
    [{ load: '40 lb', reach: '18 in', height: '15 in', travel: '21 in', twist: 45, system: 'us' }, 2.16, '', 0.01],
  ]),
  ...checkTable('lifting-index', `${NIOSH}, examples 1 and 2 as their worksheets round (from memory)`, 'memory', [
    [
      { load: '44 lb', reach: '23 in', height: '15 in', travel: '49 in', precision: 'worksheet', system: 'us' },
      2.7,
      '',
      0.05,
    ],
    [
      {
        load: '35 lb',
        reach: '20 in',
        height: '10 in',
        travel: '17 in',
        coupling: 'poor',
        precision: 'worksheet',
        system: 'us',
      },
      1.93,
      '',
      0.05,
    ],
  ]),
  ...checkTable('lifting-index', `${NIOSH}, section 1.4: load over limit, ideal lift of 23 kg`, 'computed', [
    [{ load: '46 kg', ...ideal }, 2, '', EXACT],
  ]),
  ...checkTable('lifting-product', 'CCOHS, lifting equation, worked example: 1.97 kg', 'seen', [
    [{ vertical: 0.93, asymmetry: 0.71, frequency: 0.13 }, 1.97, 'kg', 0.01],
  ]),
  ...checkTable('composite-lifting-index', `${NIOSH}, section 2.4.5 (numbers from memory, printed 1.9)`, 'memory', [
    [{ loads: '30, 20, 10 lb', frequencies: '1, 2, 4', limits: '20, 20, 15 lb' }, 1.87, '', 0.05],
  ]),
  ...checkTable(
    'composite-lifting-index',
    `${NIOSH}, section 2.4.5: one task alone is its single-task index`,
    'computed',
    [[{ loads: '10 kg', frequencies: '1', limits: '20 kg' }, 0.5 / 0.94, '', EXACT]],
  ),
  ...checkTable('team-lift', 'safety consultants quoting HSE L23: 33 and 21 kg', 'seen', [
    [{ each: '25, 25 kg' }, 33.3, 'kg', 0.5],
    [{ each: '16, 16 kg' }, 21.3, 'kg', 0.5],
  ]),
  ...checkTable('lifting-guide', 'HSE INDG143 fig. 1 (from memory)', 'memory', [
    [{ zone: 'knuckle to elbow', who: 'men' }, 25, 'kg', EXACT],
    [{ zone: 'elbow to shoulder', who: 'men' }, 20, 'kg', EXACT],
    [{ zone: 'knuckle to elbow', who: 'women' }, 16, 'kg', EXACT],
  ]),
  ...checkTable('lifting-reference-mass', 'ISO 11228-1 annex C (from memory)', 'memory', [
    [{ who: 'men of working age' }, 25, 'kg', EXACT],
    [{ who: 'adults in general' }, 20, 'kg', EXACT],
    [{ who: 'young and old' }, 15, 'kg', EXACT],
  ]),

  ...checkTable('stand-up-height', 'diagonal: √(H² + D²)', 'computed', [
    [{ height: '84 in', depth: '24 in' }, 87.36, 'in', 0.01],
    [{ height: '90 in', depth: '24 in' }, 93.15, 'in', 0.01],
    [{ height: '93 in', depth: '24 in', ceiling: '96 in' }, 96.05, 'in', 0.01],
    [{ height: '93 in', depth: '24 in', ceiling: '96 in' }, -0.05, 'in', 0.01, 's'],
  ]),
  ...checkTable('tallest-case', '√(C² − D²)', 'computed', [[{ ceiling: '96 in', depth: '24 in' }, 92.95, 'in', 0.01]]),
  ...corner(
    9,
    6,
    21.07,
    'a calculus textbook’s pole problem (statement seen, answer recomputed; 10.82 circulates and is wrong)',
    'computed',
  ),
  ...corner(3, 4, 9.866, 'turning a corner with a pole (statement seen, answer recomputed)', 'computed'),
  ...corner(4, 8, 16.648, 'the ladder over an 8 ft fence 4 ft from a wall: 16.65 ft printed', 'seen'),
  ...corner(5.8, 8.73, 20.41, '(a^(2/3) + b^(2/3))^(3/2); 20.97 circulates and is wrong', 'computed'),
  ...checkTable('corner-turn', '(a^(2/3) + b^(2/3))^(3/2), textbook answer', 'seen', [
    [{ from: '36 in', to: '36 in' }, 101.823, 'in', '0.05%'],
    [{ from: '36 in', to: '42 in' }, 110.2, 'in', '0.05%'],
  ]),
  ...checkTable('corner-turn', 'least of (a sin x + b cos x − t)/(sin x cos x); a = b gives 2(a√2 − t)', 'computed', [
    [{ from: '36 in', to: '36 in', thickness: '30 in' }, 41.82, 'in', '0.1%'],
    [{ from: '36 in', to: '42 in', thickness: '24 in' }, 62.05, 'in', '0.1%'],
    [{ from: '1 m', to: '1 m', thickness: '0.6 m' }, 2 * (1000 * Math.SQRT2 - 600), 'mm', 1e-3],
  ]),
  ...checkTable('corner-pass', 'as corner-turn; a case 60 in tall lies down, its 24 in depth across', 'computed', [
    [
      { height: '60 in', width: '30 in', depth: '24 in', from: '36 in', to: '42 in', ceiling: '40 in' },
      2.05,
      'in',
      0.01,
    ],
  ]),
  ...checkTable('door-pass', 'plain: a 600 x 300 face through 762 x 1981 has 162 to spare across', 'computed', [
    [{ height: 2100, width: 600, depth: 300, 'door-width': 762, 'door-height': 1981 }, 462, 'mm', 1e-6],
    [{ height: 2100, width: 900, depth: 800, 'door-width': 762, 'door-height': 1981 }, -38, 'mm', 1e-6],
  ]),
  ...checkTable('vehicle-fit', 'plain: sides sorted, 610 into 1000, 762 into 1050, 1400 into 1500', 'computed', [
    [
      { height: 1400, width: 762, depth: 610, 'space-length': 1500, 'space-width': 1000, 'space-height': 1050 },
      100,
      'mm',
      1e-6,
    ],
  ]),
  ...checkTable('end-lift', 'moments about the end that stays down, by hand', 'computed', [
    [{ mass: '40 kg', length: '1.2 m' }, 20, 'kg', 1e-9],
    [{ mass: '100 lb', length: '48 in', centre: '18 in' }, 37.5, 'lb', 1e-9],
  ]),
];
