import { type CheckRow, checkTable } from '../notes/index.ts';

const LAG = 'NDS-2018 table 12.2A, printed to 1 lb/in';
const SCREW = 'NDS-2018 table 12.2B and eq. (12.2-2)';
const NAIL = 'NDS-2018 eq. (12.2-3)';
const ESR = 'ICC-ES evaluation report of steel screws, table 4, equal sheets (AISI S100, F_u 45 ksi, Ω 3)';
const PULLOVER = 'a screw maker’s technical guide, ultimate pull-over table (AISI S100, F_u 45 ksi)';
const S100 = 'AISI S100 pull-out equation, Ω 3.0';
const STUDS = 'cold-formed steel thickness table; design = minimum / 0.95';
const STATICS = 'statics, worked by hand';
const EXACT = 1e-9;

/** A row of the printed table: gravity, then 1/4, 5/16, 3/8, 7/16, 1/2, 5/8, 3/4 in. */
const lagRow = (gravity: number, ...values: readonly number[]): readonly CheckRow[] =>
  checkTable(
    'lag-withdrawal',
    LAG,
    'seen',
    values.map((value, i) => [
      {
        gravity,
        diameter: ['1/4 in', '5/16 in', '3/8 in', '7/16 in', '1/2 in', '5/8 in', '3/4 in'][i]!,
        penetration: '1 in',
      },
      value,
      'lb',
      1,
    ]),
  );

const stud = (mils: string, least: number, design: number, confidence: CheckRow['confidence'] = 'seen') =>
  checkTable('steel-stud-thickness', STUDS, confidence, [
    [{ mils }, design, 'in', 0.0001],
    [{ mils }, least, 'in', 0.0001, 't_min'],
  ]);

const sheets = (t: number, allowable: number): readonly CheckRow[] =>
  checkTable('steel-screw-shear', ESR, 'seen', [
    [{ 'head-thickness': `${t} in`, thickness: `${t} in`, number: '10', ultimate: '45 ksi' }, allowable, 'lb', 1],
  ]);

const overHead = (head: number, t: number, ultimate: number): readonly CheckRow[] =>
  checkTable('steel-pullover', PULLOVER, 'seen', [
    // printed to three figures
    [{ head: `${head} in`, thickness: `${t} in`, ultimate: '45 ksi', safety: 1 }, ultimate, 'lb', 6],
  ]);

const square = { load: '1019.71621 kg', across: '0, 0, 200, 200', up: '0, 200, 0, 200' };

export const fixingChecks: readonly CheckRow[] = [
  ...lagRow(0.73, 397, 469, 538, 604, 668, 789, 905),
  ...lagRow(0.55, 260, 307, 352, 395, 437, 516, 592),
  ...lagRow(0.5, 225, 266, 305, 342, 378, 447, 513),
  ...lagRow(0.43, 179, 212, 243, 273, 302, 357, 409),
  ...lagRow(0.42, 173, 205, 235, 264, 291, 344, 395),
  ...lagRow(0.36, 137, 163, 186, 209, 231, 273, 313),
  ...lagRow(0.31, 110, 130, 149, 167, 185, 218, 250),
  ...checkTable(
    'lag-withdrawal',
    'NDS-2018 12.2.1.4 (end grain factor 0.75) and table 2.3.2 (C_D 0.9 permanent) on the table value',
    'computed',
    [
      [{ gravity: 0.5, diameter: '1/4 in', penetration: '1 in', grain: 'end' }, 0.75 * 225, 'lb', 0.75],
      [
        { gravity: 0.5, diameter: '1/4 in', penetration: '2-1/2 in', 'load-duration': 'permanent', count: 2 },
        2 * 2.5 * 0.9 * 225,
        'lb',
        4.5,
      ],
    ],
  ),
  ...checkTable('screw-withdrawal', SCREW, 'seen', [
    [{ gravity: 0.55, diameter: '0.242 in', penetration: '1 in' }, 208, 'lb', 1],
    [{ gravity: 0.5, diameter: '0.242 in', penetration: '1 in' }, 172, 'lb', 1],
    [{ gravity: 0.42, number: '14', penetration: '1 in' }, 121, 'lb', 1],
  ]),
  ...checkTable('screw-withdrawal', SCREW, 'computed', [
    [{ gravity: 0.42, number: '8', penetration: '1 in' }, 82.4, 'lb', 1],
    [{ gravity: 0.42, number: '10', penetration: '1 in' }, 95.5, 'lb', 1],
    [{ gravity: 0.5, number: '10', penetration: '1 in' }, 135.4, 'lb', 1],
    [{ gravity: 0.42, number: '12', penetration: '1 in' }, 108.6, 'lb', 1],
    [{ gravity: 0.5, number: '12', penetration: '1 in' }, 153.9, 'lb', 1],
  ]),
  ...checkTable('screw-withdrawal', 'FPL-GTR-190 eq. (8-10) over NDS eq. (12.2-2): 15 700/2850', 'computed', [
    [{ gravity: 0.5, number: '10' }, 5.51, '', 0.02, 'W_u/W'],
  ]),
  ...checkTable('nail-withdrawal', NAIL, 'seen', [
    [{ gravity: 0.5, diameter: '0.131 in', penetration: '1 in' }, 32, 'lb', 0.5],
    [{ gravity: 0.5, diameter: '0.162 in', penetration: '1 in' }, 39.5, 'lb', 0.5],
  ]),
  ...checkTable('head-pull-through', 'NDS-2018 table 12.2F, printed to 1 lb', 'seen', [
    [{ gravity: 0.5, head: '0.234 in', thickness: '5/16 in' }, 40, 'lb', 0.5],
    [{ gravity: 0.5, head: '0.312 in', thickness: '1 in' }, 132, 'lb', 0.5],
    [{ gravity: 0.42, head: '0.5 in', thickness: '1-1/2 in' }, 239, 'lb', 0.5],
  ]),
  ...checkTable('head-pull-through', 'NDS-2018 eq. (12.2-6) at the ends of its range, and table 2.3.2', 'computed', [
    // t at 2.5 heads: both lines give 431.25 π G² in²
    [{ gravity: 0.5, head: '0.4 in', thickness: '1 in' }, 1725 * Math.PI * 0.16 * 0.25, 'lb', 0.01],
    [{ gravity: 0.5, head: '0.4 in', thickness: '1/2 in', 'load-duration': 'permanent', count: 2 }, 195.1, 'lb', 0.1],
    // no head counts for more than the widest of the table
    [{ gravity: 0.42, head: '3/4 in', thickness: '1-1/2 in' }, 239, 'lb', 0.5],
  ]),
  ...checkTable(
    'rail-screws',
    'NDS-2018 12.5.2.2 (0.67 in end grain) and table 2.3.2 on the 90 lb of a #10 screw in table 12L',
    'computed',
    [
      [{ shear: '60.3 lb', pull: '0 lb', lateral: '90 lb', count: 1 }, 1, '', 1e-9],
      [
        { shear: '144.72 lb', pull: '108.54 lb', lateral: '90 lb', count: 4, 'load-duration': 'permanent' },
        0.8333,
        '',
        1e-4,
      ],
    ],
  ),
  ...checkTable(
    'let-in-bending',
    'NDS Supplement table 1B, section moduli of a dressed 2×4 (1.313 and 3.063 in³), on its bending design value for stud grade (from memory)',
    'memory',
    [
      [
        {
          pull: `${1.3125 * 675} lb·in`,
          weight: '0 N·m',
          height: '3.5 in',
          thickness: '1.5 in',
          'load-duration': 'ten years',
        },
        1,
        '',
        EXACT,
      ],
      [
        {
          pull: '0 N·m',
          weight: `${3.0625 * 675 * 0.9} lb·in`,
          height: '3.5 in',
          thickness: '1.5 in',
          'load-duration': 'permanent',
        },
        1,
        '',
        EXACT,
      ],
      [
        {
          pull: `${1.3125 * 675 * 0.9} lb·in`,
          weight: `${3.0625 * 675 * 0.9} lb·in`,
          height: '3.5 in',
          thickness: '1.5 in',
          count: 2,
          'load-duration': 'permanent',
        },
        1,
        '',
        EXACT,
      ],
    ],
  ),
  ...checkTable(
    'let-in-screws',
    'NDS-2018 12.5.4.1 (0.83 at a slant), 12.5.2.2 (0.67 in end grain) and table 2.3.2 on the 90 lb of a #10 screw in table 12L',
    'computed',
    [
      [{ shear: '74.7 lb', pull: '0 lb', lateral: '90 lb', count: 1 }, 1, '', 1e-9],
      [{ shear: '144.72 lb', pull: '108.54 lb', lateral: '90 lb', count: 3, end: 'end grain' }, 1, '', 1e-9],
      [
        { shear: '107.568 lb', pull: '80.676 lb', lateral: '90 lb', count: 2, 'load-duration': 'permanent' },
        1,
        '',
        1e-9,
      ],
    ],
  ),
  ...checkTable('lateral-value', 'NDS-2018 table 12N: 16d common nail, 1-1/2 in side member, printed to 1 lb', 'seen', [
    [{ fastener: 'nail', diameter: '0.162 in', 'side-thickness': '1.5 in', gravity: 0.55 }, 154, 'lb', 0.5],
    [{ fastener: 'nail', diameter: '0.162 in', 'side-thickness': '1.5 in', gravity: 0.5 }, 141, 'lb', 0.5],
    [{ fastener: 'nail', diameter: '0.162 in', 'side-thickness': '1.5 in', gravity: 0.42 }, 120, 'lb', 0.5],
  ]),
  ...checkTable('lateral-value', 'NDS-2018 table 12N note: penetration below 10 D takes p/10 D', 'computed', [
    [
      { fastener: 'nail', diameter: '0.162 in', 'side-thickness': '1.5 in', gravity: 0.5, penetration: '1.296 in' },
      140.7 * 0.8,
      'lb',
      0.5,
    ],
  ]),
  ...checkTable('combined-loading', 'NDS-2018 eq. (12.4-1)', 'computed', [
    [{ withdrawal: '143.3 lb', lateral: '100 lb', angle: 0 }, 100, 'lb', 0.1],
    [{ withdrawal: '143.3 lb', lateral: '100 lb', angle: 30 }, 108.2, 'lb', 0.1],
    [{ withdrawal: '143.3 lb', lateral: '100 lb', angle: 60 }, 129.3, 'lb', 0.1],
    [{ withdrawal: '143.3 lb', lateral: '100 lb', angle: 90 }, 143.3, 'lb', 0.1],
    [{ withdrawal: '143.3 lb', lateral: '100 lb', tension: '30 lb', shear: '30 lb' }, 117.8, 'lb', 0.1],
  ]),
  ...checkTable(
    'screw-use',
    'NDS-2018 eq. (12.4-1): 42.43 lb at 45° over 117.8 lb; pull alone and shear alone',
    'computed',
    [
      [{ withdrawal: '143.3 lb', lateral: '100 lb', tension: '30 lb', shear: '30 lb' }, 42.43 / 117.8, '', 0.001],
      [{ withdrawal: '143.3 lb', lateral: '100 lb', tension: '25 lb', shear: '99 lb' }, 102.11 / 101.85, '', 0.002],
      // shear alone: by the equation, whose resistance rises to 104.7 lb at this angle, 0.975
      [{ withdrawal: '400 lb', lateral: '100 lb', tension: '25 lb', shear: '99 lb' }, 0.99, '', 1e-9],
    ],
  ),
  ...checkTable(
    'fixing-margin',
    'NDS eq. (12.2-1): 2-1/2 in of 1/4 in lag in spruce-pine-fir against four times 91.8 lb',
    'computed',
    [[{ capacity: '433 lb', demand: '91.76 lb', factor: 4 }, 1.18, '', '0.5%']],
  ),

  ...stud('27', 0.0269, 0.0283, 'memory'),
  ...stud('30', 0.0296, 0.0312),
  ...stud('33', 0.0329, 0.0346),
  ...stud('54', 0.0538, 0.0566),
  ...stud('97', 0.0966, 0.1017),
  ...checkTable('sheet-gauge', 'trade press: how thick is 20 gauge; Manufacturers’ Standard Gauge table', 'seen', [
    [{ system: 'drywall framing', gauge: '20' }, 0.0296, 'in', EXACT],
    [{ system: 'structural framing', gauge: '20' }, 0.0329, 'in', EXACT],
    [{ system: 'sheet-metal (Manufacturers’ Standard)', gauge: '20' }, 0.0359, 'in', EXACT],
  ]),
  ...sheets(0.024, 102),
  ...sheets(0.03, 143),
  ...sheets(0.048, 289),
  ...sheets(0.06, 404),
  ...sheets(0.075, 564),
  ...sheets(0.105, 808),
  ...sheets(0.125, 962),
  ...overHead(0.399, 0.03, 805),
  ...overHead(0.399, 0.036, 970),
  ...overHead(0.399, 0.048, 1290),
  ...overHead(0.415, 0.06, 1680),
  ...overHead(0.5, 0.048, 1620),
  ...overHead(0.364, 0.048, 1180),
  ...checkTable('steel-stud-pullout', S100, 'computed', [
    [{ thickness: '0.0188 in', diameter: '0.164 in', ultimate: '45 ksi' }, 39.3, 'lb', '0.5%'],
    [{ thickness: '0.0188 in', diameter: '0.164 in', ultimate: '45 ksi' }, 117.9, 'lb', '0.5%', 'P_n'],
    [{ mils: '18', number: '8' }, 39.3, 'lb', '0.5%'],
    [{ mils: '30', number: '8' }, 65.2, 'lb', '0.5%'],
    [{ mils: '43', number: '10' }, 109.3, 'lb', '0.5%'],
    [{ mils: '30', number: '8' }, 195.7, 'lb', '0.5%', 'P_n'],
    [{ mils: '43', number: '10' }, 327.8, 'lb', '0.5%', 'P_n'],
    [{ mils: '54', number: '10', ultimate: '65 ksi' }, 198.1, 'lb', '0.5%'],
  ]),
  ...checkTable('steel-stud-pullout', 'screw makers’ tables: 1.22, 1.29 and 1.44 times for 55, 58 and 65 ksi', 'seen', [
    // referred to 1 lb: t and d chosen so that 0.85 t d 45 ksi / 3 = 1 lb
    [{ thickness: '0.01 in', diameter: '0.00784314 in', ultimate: '55 ksi' }, 1.22, 'lb', 0.005],
    [{ thickness: '0.01 in', diameter: '0.00784314 in', ultimate: '58 ksi' }, 1.29, 'lb', 0.005],
    [{ thickness: '0.01 in', diameter: '0.00784314 in', ultimate: '65 ksi' }, 1.44, 'lb', 0.005],
  ]),
  ...checkTable(
    'anchor-working-load',
    'a fastener-strength page: at least 4; a 1/8 in toggle of 200 lb ultimate',
    'seen',
    [[{ ultimate: '200 lb' }, 50, 'lb', 1e-6]],
  ),
  ...checkTable(
    'partition-load',
    'DIN 4103-1 and DIN 18183-1, as trade pages give them: a cupboard of 600 mm takes 24 kg',
    'seen',
    [
      [{ load: '392.27 N/m', reach: '150 mm', board: '12.5 mm' }, 1, '', '2%'],
      [{ load: '0.4 kN/m', reach: '300 mm', board: '12.5 mm' }, 1, '', EXACT],
      [{ load: '0.7 kN/m', reach: '300 mm', board: '18 mm' }, 1, '', EXACT],
      [{ load: '1.5 kN/m', reach: '300 mm', board: '25 mm' }, 1, '', EXACT],
      [{ load: '0.7 kN/m', reach: '300 mm', board: '25 mm', into: 'board' }, 1, '', EXACT],
    ],
  ),
  ...checkTable('mount-proof-load', 'UL product standards, mounting means test', 'seen', [
    [{ mass: '25 lb' }, 100, 'lb', EXACT],
    [{ mass: '2 lb' }, 12, 'lb', EXACT],
  ]),
  ...checkTable('mount-test-force', 'IEC 62368-1:2014 8.7 test 1 (from memory)', 'memory', [
    [{ mass: '20 kg' }, 589, 'N', 1],
    [{ mass: '100 kg' }, 1860.7, 'N', 1],
  ]),
  ...checkTable('display-pattern', 'VESA FDMI variants, as listed by mount suppliers', 'seen', [
    ...(
      [
        ['MIS-B 50x20', 50, 20],
        ['MIS-C 75x35', 75, 35],
        ['MIS-D 75x75', 75, 75],
        ['MIS-D 100x100', 100, 100],
        ['MIS-E 200x100', 200, 100],
        ['MIS-F 200x200', 200, 200],
        ['MIS-F 400x400', 400, 400],
        ['MIS-F 600x200', 600, 200],
        ['MIS-F 600x400', 600, 400],
        ['MIS-F 800x400', 800, 400],
      ] as const
    ).flatMap(
      ([pattern, across, up]) =>
        [
          [{ pattern }, across, 'mm', EXACT, 'holes apart, across'],
          [{ pattern }, up, 'mm', EXACT, 'holes apart, up'],
        ] as const,
    ),
    [{ pattern: 'MIS-D 75x75' }, 4, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-D 100x100' }, 4, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-E 200x100' }, 4, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-F 200x200' }, 6, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-F 400x400' }, 6, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-F 800x400' }, 8, 'mm', EXACT, 'metric screw'],
    [{ pattern: 'MIS-D 75x75' }, 14, 'kg', 0.1],
    [{ pattern: 'MIS-B 50x20' }, 2, 'kg', 0.1],
    [{ pattern: 'MIS-C 75x35' }, 4.5, 'kg', 0.1],
    [{ pattern: 'MIS-D 100x100' }, 14, 'kg', 0.1],
    [{ pattern: 'MIS-E 200x100' }, 50, 'lb', 0.1],
  ]),
  ...checkTable('gypsum-board', 'GA-235-10, ASTM C473 method A', 'seen', [
    [{ board: '1/2 in' }, 110, 'lbf', 1e-6],
    [{ board: '1/2 in' }, 40, 'lbf', 1e-6, 'F_∥'],
    [{ board: '5/8 in' }, 150, 'lbf', 1e-6],
    [{ board: '5/8 in' }, 50, 'lbf', 1e-6, 'F_∥'],
    [{ board: '1/2 in' }, 1500, '', EXACT, 'EI'],
    [{ board: '1/2 in' }, 4000, '', EXACT, 'EI_high'],
    [{ board: '5/8 in' }, 3000, '', EXACT, 'EI'],
    [{ board: '5/8 in' }, 8000, '', EXACT, 'EI_high'],
  ]),

  ...checkTable('gypsum-board', 'GA-235 and makers’ data (from memory)', 'memory', [
    [{ board: '1/2 in' }, 1.7, 'psf', 0.3, 'w'],
    [{ board: '5/8 in' }, 2.3, 'psf', 0.3, 'w'],
  ]),

  ...checkTable('cabinet-proof-load', 'ANSI/KCMA A161.1, structural tests, as reprinted: 500 lb (227 kg)', 'seen', [
    [{}, 500, 'lb', 1e-9],
    [{ depth: '12 in', height: '30 in', fixings: 4 }, 25, 'lb', 1e-9, 'T'],
    [{ fixings: 4 }, 125, 'lb', 1e-9, 'V'],
  ]),
  ...checkTable('bracket-tension', STATICS, 'computed', [
    [{ load: '50 lb', reach: '6 in', height: '8 in' }, 37.5, 'lb', 1e-6],
    [{ load: '300 lb', reach: '6 in', height: '28 in' }, 64.29, 'lb', 0.01],
    [{ load: '60 lb', reach: '20 in', height: '12 in' }, 100, 'lb', 1e-6],
  ]),
  ...checkTable('row-tensions', `${STATICS}: T_i = M y_i / Σ y²`, 'computed', [
    [{ moment: '1800 in-lb', heights: '2 in, 14 in, 28 in' }, 51.22, 'lb', 0.01],
    [{ moment: '1800 in-lb', heights: '2, 14, 28 in' }, 25.61, 'lb', 0.01, 'T2'],
    [{ moment: '1800 in-lb', heights: '2, 14, 28 in' }, 3.66, 'lb', 0.01, 'T1'],
    [{ load: '60 lb', reach: '20 in', heights: '13, 1 in' }, 91.76, 'lb', 0.01],
    [{ load: '60 lb', reach: '20 in', heights: '13, 1 in' }, 7.06, 'lb', 0.01, 'T2'],
  ]),
  ...checkTable(
    'fixing-twist',
    `four at the corners of a square of 200, 10 kN at 300 from its middle, ${STATICS}`,
    'computed',
    [
      // of the nearer pair 2500 + 37.5 · 100 down, 3750 across
      [{ ...square, at: 400 }, Math.hypot(6250, 3750), 'N', 0.01],
      [{ ...square, at: 400 }, 80_000, 'mm²', EXACT, 'Σr²'],
      [{ ...square, at: 400 }, Math.hypot(1250, 3750), 'N', 0.01, 'V1'],
      [{ ...square, at: 100 }, 2500, 'N', 0.01],
    ],
  ),
  ...checkTable('tipping-pull', `${STATICS}: m g (d/2)/h, 40 kg, 300 deep, pulled at 1.5 m`, 'computed', [
    [{ mass: '40 kg', depth: 300, height: '1.5 m' }, 39.23, 'N', 0.01],
  ]),
  ...checkTable('stud-cut-limit', 'IRC R602.6, as given by building-code pages', 'seen', [
    [{ depth: '3.5 in', cut: 'notch, bearing wall' }, 0.875, 'in', EXACT],
    [{ depth: '3.5 in', cut: 'hole, bearing wall' }, 1.4, 'in', EXACT],
    [{ depth: '3.5 in', cut: 'notch, other wall' }, 1.4, 'in', EXACT],
    [{ depth: '3.5 in', cut: 'hole, other wall' }, 2.1, 'in', EXACT],
    [{ depth: '5.5 in', cut: 'hole, bearing wall' }, 2.2, 'in', EXACT],
  ]),
  {
    calculator: 'fixing-use',
    inputs: { tension: '300 N', shear: '200 N', pull: '1200 N', lateral: '400 N' },
    expected: 0.75,
    unit: '',
    tolerance: { absolute: 1e-9 },
    source: 'straight-line interaction by hand: 300/1200 + 200/400',
    confidence: 'computed',
  },
];
