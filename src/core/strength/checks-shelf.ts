import { type CheckRow, checkTable } from '../notes/index.ts';

const BEAM_TABLES = 'standard beam tables (Roark table 8.1; AISC Manual table 3-23)';
const AWS = 'Architectural Woodwork Standards ed. 1 (2009), sec. 10, item 4.4.14.10';
const AWS_LOADS = 'Architectural Woodwork Standards ed. 1 (2009), sec. 10, item 1.2.21';
const KCMA = 'ANSI/KCMA A161.1, structural tests 5.1 and 5.2, as reprinted';
const EC5_1 = 'EN 1995-1-1 table 3.1, as reprinted in the ICE Manual, table 19.9';
const EC5_2 = 'EN 1995-1-1 table 3.2';
const STATICS = 'worked by hand from the textbook formula';
const EXACT = 1e-9;

const particleboard = { span: '36 in', depth: '11.25 in', thickness: '0.75 in', modulus: '400000 psi' };
const at = (modulus: string, thickness: string, load: string) => ({ modulus, thickness, 'area-load': load });

const box = { length: 1000, depth: 300, height: 50, skin: 6, webs: 36, material: 'northern red oak', load: '30 kg' };

export const shelfChecks: readonly CheckRow[] = [
  ...checkTable('shelf-sag', BEAM_TABLES, 'seen', [
    [{ ...particleboard, 'line-load': '25 lb/ft' }, 0.288, 'in', '0.5%'],
    [{ ...particleboard, load: '75 lb' }, 0.288, 'in', '0.5%'],
    [{ ...particleboard, 'line-load': '25 lb/ft', supports: 'fixed' }, 0.0576, 'in', '0.5%'],
    [{ ...particleboard, 'point-load': '25 lb' }, 0.1536, 'in', '0.5%'],
    [{ ...particleboard, 'point-load': '25 lb', supports: 'fixed' }, 0.0384, 'in', '0.5%'],
    [
      {
        span: '10 in',
        depth: '12 in',
        thickness: '3/4 in',
        modulus: '1e6 psi',
        'area-load': '40 psf',
        supports: 'cantilever',
      },
      0.00988,
      'in',
      '0.5%',
    ],
  ]),
  ...checkTable('shelf-sag', `${BEAM_TABLES}: WL³/185EI, itself rounded by 0.2 %`, 'computed', [
    [{ ...particleboard, 'line-load': '25 lb/ft', supports: 'propped' }, 0.1196, 'in', '1%'],
    [{ ...particleboard, 'line-load': '25 lb/ft', supports: 'two-span' }, 0.1196, 'in', '1%'],
  ]),
  ...checkTable('shelf-sag', '5WL³/384EI with the modulus of red oak, 1.82 million psi', 'computed', [
    [{ ...particleboard, modulus: '1820000 psi', load: '75 lb' }, 0.0633, 'in', '0.5%'],
    [
      { span: '36 in', depth: '11.25 in', thickness: '0.75 in', material: 'northern red oak', load: '75 lb' },
      0.0633,
      'in',
      '0.5%',
    ],
  ]),
  ...checkTable('shelf-sag', 'EN 1995-1-1 table 3.2: MDF, permanent load, 1 + 2.25', 'computed', [
    [{ ...particleboard, load: '75 lb', creep: 'MDF' }, 0.288 * 3.25, 'in', '0.5%'],
  ]),
  ...checkTable('shelf-sag', 'NDS 3.5.2: K_cr = 1.5 for seasoned lumber, on the lasting half of the load', 'computed', [
    [{ ...particleboard, load: '75 lb', creep: 'seasoned lumber', 'lasting-share': 0.5 }, 0.288 * 1.25, 'in', '0.5%'],
  ]),
  ...checkTable(
    'shelf-sag',
    `transformed section, ${STATICS}: an oak strip stiffens the shelf 4.56 times`,
    'computed',
    [
      [
        {
          ...particleboard,
          load: '75 lb',
          'lip-height': '1.5 in',
          'lip-thickness': '0.75 in',
          'lip-modulus': '1.82e6 psi',
        },
        0.288 / 4.56,
        'in',
        '0.5%',
      ],
    ],
  ),

  ...checkTable(
    'shelf-sag',
    'hollow-section worked by hand, I = 1 917 816 mm⁴: 5WL³/384EI of 294.2 N over 1 m at 10 000 MPa',
    'computed',
    [
      [
        { span: 1000, depth: 300, thickness: 50, skin: 6, webs: 36, modulus: '10000 MPa', load: '30 kg' },
        0.19975,
        'mm',
        '0.05%',
      ],
      // σ = (W L/8)(H/2)/I
      [
        { span: 1000, depth: 300, thickness: 50, skin: 6, webs: 36, modulus: '10000 MPa', load: '30 kg' },
        0.4794,
        'MPa',
        '0.05%',
        'σ',
      ],
    ],
  ),

  // the standard prints whole inches: the sum cut down to an integer, once rounded up (45.98 → 46)
  ...(
    [
      [at('950000 psi', '0.75 in', '40 psf'), 40.03, 40],
      [at('950000 psi', '1 in', '40 psf'), 53.37, 53],
      [at('950000 psi', '1 in', '50 psf'), 49.54, 49],
      [at('1.8e6 psi', '0.75 in', '40 psf'), 49.53, 49],
      [at('1.8e6 psi', '0.75 in', '50 psf'), 45.98, 46],
      [at('1.8e6 psi', '1 in', '50 psf'), 61.3, 61],
      [at('1.82e6 psi', '1 in', '40 psf'), 66.28, 66],
      [at('1.82e6 psi', '1 in', '50 psf'), 61.53, 61],
    ] as const
  ).flatMap(([inputs, computed, printed]) => [
    ...checkTable('shelf-span', `${AWS}, recomputed`, 'computed', [[inputs, computed, 'in', 0.01]]),
    // window −0.05 … +1.0 in about the printed integer
    ...checkTable('shelf-span', `${AWS}, printed in whole inches`, 'seen', [[inputs, printed + 0.475, 'in', 0.525]]),
  ]),
  ...checkTable('shelf-span', `${AWS}, printed in whole inches, by the handbook stiffness of the material`, 'seen', [
    [{ material: 'veneer-core fir plywood', thickness: '3/4 in', 'area-load': '40 psf' }, 40.475, 'in', 0.525],
    [{ material: 'northern red oak', thickness: '1 in', 'area-load': '50 psf' }, 61.475, 'in', 0.525],
  ]),
  ...checkTable('shelf-load', 'inverse of 5WL³/384EI', 'computed', [
    [{ ...particleboard, 'limit-ratio': 240 }, 39.06, 'lb', '0.5%'],
    [{ ...particleboard, 'limit-ratio': 144 }, 65.1, 'lb', '0.5%'],
    [{ ...particleboard, 'limit-length': '0.06 in' }, 15.62, 'lb', '0.5%'],
  ]),
  ...checkTable(
    'shelf-thickness',
    'inverse of 5WL³/384EI: 65.1 lb at L/144 needs the 3/4 in it came from',
    'computed',
    [[{ span: '36 in', depth: '11.25 in', modulus: '400000 psi', load: '65.1 lb' }, 0.75, 'in', '0.1%']],
  ),
  ...checkTable(
    'lip-height',
    `transformed section, ${STATICS}: at 4.56 times the stiffness the strip is 1.5 in high`,
    'computed',
    [
      [
        {
          ...particleboard,
          load: '75 lb',
          'lip-thickness': '0.75 in',
          'lip-modulus': '1.82e6 psi',
          'limit-length': '0.06318 in',
        },
        1.5,
        'in',
        0.01,
      ],
    ],
  ),

  ...checkTable('design-load', AWS_LOADS, 'seen', [
    [{ use: 'casework: books, school, library' }, 50, 'psf', EXACT],
    [{ use: 'casework: all other' }, 40, 'psf', EXACT],
  ]),
  // the standard’s own metric figure is 718 Pa
  ...checkTable('design-load', KCMA, 'seen', [
    [{ use: 'kitchen cabinet test' }, 15, 'psf', EXACT],
    [{ use: 'kitchen cabinet test' }, 718, 'Pa', 0.5],
  ]),
  ...checkTable('design-load', 'IBC / ASCE 7 table of live loads, as quoted by structural engineers', 'seen', [
    [{ use: 'floor: library stack room' }, 150, 'psf', EXACT],
    [{ use: 'floor: library reading room' }, 60, 'psf', EXACT],
  ]),
  ...checkTable('sag-limit', AWS_LOADS, 'seen', [[{ rule: 'L/144', span: '36 in' }, 0.25, 'in', EXACT]]),
  ...checkTable('sag-limit', KCMA, 'seen', [
    [{ rule: 'kitchen cabinet', span: '12 in' }, 0.0625, 'in', EXACT],
    [{ rule: 'kitchen cabinet', span: '24 in' }, 0.125, 'in', EXACT],
    [{ rule: 'kitchen cabinet', span: '72 in' }, 0.25, 'in', EXACT],
  ]),
  ...checkTable('sag-limit', 'a shelving article: L/240 for particleboard and MDF, 3/16 in for plywood', 'seen', [
    [{ rule: 'L/240', span: '36 in' }, 0.15, 'in', EXACT],
    [{ rule: 'plywood trade', span: '36 in' }, 0.1875, 'in', EXACT],
  ]),
  ...checkTable('sag-limit', 'woodworking rule of thumb 0.02 in per foot; ANSI/NISO Z39.73 (from memory)', 'memory', [
    [{ rule: 'seen by eye', span: '3 ft' }, 0.06, 'in', EXACT],
    [{ rule: 'library', span: '36 in' }, 0.1875, 'in', EXACT],
  ]),
  ...checkTable('book-load', 'woodworking tips: 20 to 25 lb per running foot', 'seen', [
    [{ length: '1 ft', size: 'ordinary' }, 20, 'lb', EXACT],
    [{ length: '1 ft' }, 22.5, 'lb', 2.5],
  ]),
  ...checkTable('shelf-span-guide', 'woodworking tips: longest spans for about 42 lb in the middle', 'seen', [
    [{ shelf: '3/4 in particleboard' }, 24, 'in', EXACT],
    [{ shelf: '3/4 in plywood' }, 30, 'in', EXACT],
    [{ shelf: '13/16 in solid wood' }, 36, 'in', EXACT],
    [{ shelf: '1-5/16 in solid wood' }, 60, 'in', EXACT],
  ]),

  ...checkTable('shear-share', 'FPL-GTR-190 eq. (9-2), table 9-1: 15.36 (d/L)² at E/G = 16', 'computed', [
    [{ thickness: '0.75 in', span: '36 in' }, 0.00667, '', '1%'],
    [{ thickness: '5.5 in', span: '36 in' }, 0.359, '', '0.5%'],
  ]),
  ...checkTable(
    'beam-constants',
    'FPL-GTR-190 table 9-1 (from memory); bending constants also in every beam table',
    'memory',
    [
      [{ supports: 'simple', loaded: 'uniform' }, 5 / 384, '', EXACT],
      [{ supports: 'simple', loaded: 'uniform' }, 1 / 8, '', EXACT, 'k_s'],
      [{ supports: 'fixed', loaded: 'point' }, 1 / 4, '', EXACT, 'k_s'],
      [{ supports: 'cantilever', loaded: 'uniform' }, 1 / 2, '', EXACT, 'k_s'],
      [{ supports: 'cantilever', loaded: 'point' }, 1, '', EXACT, 'k_s'],
    ],
  ),
  ...checkTable('beam-constants', BEAM_TABLES, 'seen', [
    [{ supports: 'simple', loaded: 'point' }, 1 / 48, '', EXACT],
    [{ supports: 'fixed', loaded: 'point' }, 1 / 192, '', EXACT],
    [{ supports: 'cantilever', loaded: 'uniform' }, 1 / 8, '', EXACT],
    [{ supports: 'cantilever', loaded: 'point' }, 1 / 3, '', EXACT],
    [{ supports: 'propped', loaded: 'uniform' }, 1 / 185, '', '0.5%'],
    [{ supports: 'simple', loaded: 'uniform' }, 1 / 8, '', EXACT, 'm'],
    [{ supports: 'fixed', loaded: 'uniform' }, 1 / 12, '', EXACT, 'm'],
    [{ supports: 'simple', loaded: 'point' }, 1 / 4, '', EXACT, 'm'],
    [{ supports: 'fixed', loaded: 'point' }, 1 / 8, '', EXACT, 'm'],
  ]),
  ...checkTable('support-overhang', 'Euler–Bernoulli, solved numerically; a classic prints 0.2232', 'computed', [
    [{ rule: 'equal sag' }, 0.2231, '', 0.0002],
    [{ rule: 'equal sag' }, 0.0207, '', 0.0001, 'δ/δ₀'],
  ]),
  ...checkTable('support-overhang', 'statics: (√2 − 1)/2; Airy points, L/√3 apart', 'computed', [
    [{ rule: 'equal moment' }, 0.20711, '', 0.00001],
    [{ rule: 'level ends' }, 0.21132, '', 0.00001],
    [{ rule: 'level ends', length: '1000 mm' }, 211.32, 'mm', 0.01, 'overhang'],
  ]),

  ...checkTable('hollow-section', `(BH³ − bh³)/12 and the parallel-axis sum, ${STATICS}`, 'computed', [
    [{ width: 300, height: 50, skin: 6, webs: 36 }, 1917816, 'mm⁴', '0.1%'],
    [{ width: 300, height: 50, skin: 6, webs: 36 }, 13.2, '', '0.5%', 'I/I_b'],
    [{ width: 300, height: 50, skin: 6, webs: 36 }, 0.614, '', '0.1%', 'I/I_s'],
    [{ width: '12 in', height: '2 in', skin: '1/4 in', webs: '1.5 in' }, 5.0469, 'in⁴', '0.1%'],
    [
      { width: '12 in', height: '2 in', skin: '1/4 in', webs: '1.5 in', 'compared-thickness': '3/4 in' },
      11.96,
      '',
      '0.1%',
      'I/I_b',
    ],
  ]),
  ...checkTable(
    'lipped-section',
    `transformed section, ${STATICS}: oak strip (1.82) on particleboard (0.40)`,
    'computed',
    [
      [
        {
          depth: '11.25 in',
          thickness: '0.75 in',
          'lip-height': '1.5 in',
          'lip-thickness': '0.75 in',
          'moduli-ratio': 4.55,
        },
        1.8033,
        'in⁴',
        '0.1%',
      ],
      [
        {
          depth: '11.25 in',
          thickness: '0.75 in',
          'lip-height': '1.5 in',
          'lip-thickness': '0.75 in',
          'moduli-ratio': 4.55,
        },
        0.5166,
        'in',
        '0.1%',
        'ȳ',
      ],
      [
        {
          depth: '11.25 in',
          thickness: '0.75 in',
          'lip-height': '1.5 in',
          'lip-thickness': '0.75 in',
          'moduli-ratio': 4.55,
        },
        4.56,
        '',
        '0.2%',
        'I/I₀',
      ],
    ],
  ),
  ...checkTable('rod-section', 'π d⁴/64', 'computed', [[{ diameter: '0.5 in' }, 0.003068, 'in⁴', '0.1%']]),
  ...checkTable('rod-shelf', `${BEAM_TABLES}: cantilever WL³/8EI; 200 N on one 12 mm rod, 200 mm out`, 'computed', [
    [{ rods: 1, diameter: 12, reach: 200, load: '20.394 kg' }, 0.982, 'mm', '0.1%'],
    [{ rods: 2, diameter: 12, reach: 200, load: '40.789 kg' }, 0.982, 'mm', '0.1%'],
    // σ = (W L/2)(d/2)/I = 20 000 · 6 / 1017.9
    [{ rods: 1, diameter: 12, reach: 200, load: '20.394 kg' }, 117.9, 'MPa', '0.1%', 'σ'],
  ]),

  // the hollow section above, I = 1 917 816 mm⁴, of red oak, 1.82 million psi: 294.2 N on a metre
  ...checkTable('shelf-between-rods', `${BEAM_TABLES}: two rods at its ends, 5WL³/384EI`, 'computed', [
    [{ ...box, rods: '0, 1000' }, 0.15918, 'mm', '0.05%'],
    [{ ...box, rods: '0, 1000' }, 36.77, 'N·m', '0.05%', 'M'],
  ]),
  ...checkTable(
    'shelf-between-rods',
    'AISC Steel Construction Manual, table 3-22c: two even spans, wl²/8 and wl⁴/185EI',
    'computed',
    [
      [{ ...box, rods: '0, 500, 1000' }, 0.004139, 'mm', '0.2%'],
      [{ ...box, rods: '0, 500, 1000' }, 9.193, 'N·m', '0.05%', 'M'],
    ],
  ),
  ...checkTable(
    'shelf-between-rods',
    `overhangs of a fifth, tip a⁴/8 + a³l/4 − al³/24 upwards, middle 5l⁴/384 − a²l²/16, ${STATICS}`,
    'computed',
    [[{ ...box, rods: '200, 800' }, 0.0096271, 'mm', '0.2%']],
  ),

  ...checkTable('creep-factor', 'NDS 3.5.2, K_cr, as explained by the wood council', 'seen', [
    [{ class: 'seasoned lumber' }, 1.5, '', EXACT],
    [{ class: 'unseasoned lumber' }, 2, '', EXACT],
  ]),
  ...checkTable('deformation-factor', EC5_2, 'computed', [
    [{ product: 'MDF.LA' }, 2.25, '', EXACT],
    [{ product: 'plywood EN 636-2' }, 0.8, '', EXACT],
    [{ product: 'solid timber' }, 0.6, '', EXACT],
    [{ product: 'OSB/3' }, 1.5, '', EXACT],
    [{ product: 'OSB/2' }, 2.25, '', EXACT],
    [{ product: 'plywood EN 636-3', 'service-class': '3' }, 2.5, '', EXACT],
  ]),
  ...checkTable('final-sag', `${EC5_2}, eq. (2.3); ψ₂ of EN 1990 table A1.1`, 'computed', [
    [{ initial: '3 mm', product: 'MDF.LA' }, 9.75, 'mm', 0.01],
    [{ initial: '3 mm', product: 'plywood EN 636-1', 'lasting-share': 0.8 }, 4.92, 'mm', 0.01],
    [{ initial: '3 mm', factor: 2.25 }, 9.75, 'mm', 0.01],
  ]),
  ...checkTable('strength-factor', EC5_1, 'seen', [
    [{ product: 'solid timber', duration: 'long' }, 0.7, '', EXACT],
    [{ product: 'plywood', duration: 'long' }, 0.7, '', EXACT],
    [{ product: 'OSB/3', duration: 'long' }, 0.5, '', EXACT],
    [{ product: 'particleboard P4', duration: 'long' }, 0.45, '', EXACT],
    [{ product: 'MDF', duration: 'long' }, 0.4, '', EXACT],
    [{ product: 'solid timber', duration: 'permanent' }, 0.6, '', EXACT],
    [{ product: 'OSB/3', duration: 'permanent' }, 0.4, '', EXACT],
    [{ product: 'particleboard P4', duration: 'permanent' }, 0.3, '', EXACT],
    [{ product: 'MDF', duration: 'permanent' }, 0.2, '', EXACT],
  ]),
];
