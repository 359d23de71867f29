import { type CheckRow, checkTable } from '../notes/index.ts';

const PS_20 = 'American Softwood Lumber Standard PS 20, minimum dressed sizes (as reprinted in lumber tables)';
const PS_1 = 'US PS 1 / PS 2, Performance Category thickness table';
const TABLE_4_3 = 'FPL-GTR-190 Wood Handbook (2010), table 4-3';
const TABLE_5_3B = 'FPL-GTR-190 Wood Handbook (2010), table 5-3b';
const TABLE_12_1 = 'FPL-GTR-190 Wood Handbook (2010), table 12-1';
const HARDWOOD = 'Hardwood surfaced-thickness table, engineering handbook pages';
/** A printed table: nothing but the last bit of the conversion may differ. */
const EXACT = 1e-9;

const dressed = (size: string, thickness: number, width: number, seasoning = 'dry'): readonly CheckRow[] =>
  checkTable('nominal-size', PS_20, 'seen', [
    [{ size, seasoning }, width, 'in', EXACT],
    [{ size, seasoning }, thickness, 'in', EXACT, 't'],
  ]);

const category = (name: string, least: number, most: number, label: number): readonly CheckRow[] =>
  checkTable('panel-thickness', PS_1, 'seen', [
    // printed to a thousandth
    [{ category: name }, label, 'in', 0.001],
    [{ category: name }, least, 'in', 0.001, 'least'],
    [{ category: name }, most, 'in', 0.001, 'most'],
  ]);

const quarters = (name: string, rough: number, one: number, two: number): readonly CheckRow[] =>
  checkTable('hardwood-thickness', HARDWOOD, 'seen', [
    [{ quarters: name, surfaced: 'rough' }, rough, 'in', EXACT],
    [{ quarters: name, surfaced: 'one side' }, one, 'in', EXACT],
    [{ quarters: name, surfaced: 'two sides' }, two, 'in', EXACT],
  ]);

const shrinks = (species: string, radial: number, tangential: number, volumetric: number): readonly CheckRow[] =>
  checkTable('wood-shrinkage', TABLE_4_3, 'seen', [
    [{ species, direction: 'radial' }, radial, '%', EXACT],
    [{ species, direction: 'tangential' }, tangential, '%', EXACT],
    [{ species, direction: 'volumetric' }, volumetric, '%', EXACT],
  ]);

/** Stiffness as printed, in million psi; strength in psi where the source has it. */
const stiff = (source: string, species: string, gravity: number, modulus: number, rupture?: number) =>
  checkTable('wood-stiffness', source, 'seen', [
    [{ species }, modulus, 'Mpsi', 0.005],
    [{ species }, gravity, '', 0.005, 'G'],
    ...(rupture === undefined ? [] : ([[{ species }, rupture, 'psi', '1%', 'R']] as const)),
  ]);

const panelRange = (
  kind: string,
  low: number,
  high: number,
  weak: number,
  strong: number,
  light: number,
  heavy: number,
) =>
  checkTable('panel-stiffness', TABLE_12_1, 'seen', [
    [{ kind }, low, 'Mpsi', EXACT],
    [{ kind }, high, 'Mpsi', EXACT, 'E_high'],
    [{ kind }, weak, 'psi', 1e-6, 'R'],
    [{ kind }, strong, 'psi', 1e-6, 'R_high'],
    [{ kind }, light, 'g/cm³', EXACT, 'ρ'],
    [{ kind }, heavy, 'g/cm³', EXACT, 'ρ_high'],
  ]);

const EMC = 'FPL-GTR-190 eq. (4-5); the table entry is printed to 0.1 %';

export const checks: readonly CheckRow[] = [
  ...dressed('1x2', 0.75, 1.5),
  ...dressed('1x3', 0.75, 2.5),
  ...dressed('1x4', 0.75, 3.5),
  ...dressed('1x6', 0.75, 5.5),
  ...dressed('1x8', 0.75, 7.25),
  ...dressed('1x10', 0.75, 9.25),
  ...dressed('1x12', 0.75, 11.25),
  ...dressed('5/4x6', 1, 5.5),
  ...dressed('2x2', 1.5, 1.5),
  ...dressed('2x4', 1.5, 3.5),
  ...dressed('2x6', 1.5, 5.5),
  ...dressed('2x8', 1.5, 7.25),
  ...dressed('2x10', 1.5, 9.25),
  ...dressed('2x12', 1.5, 11.25),
  ...dressed('4x4', 3.5, 3.5),
  ...dressed('2x4', 1.5625, 3.5625, 'green'),
  ...dressed('2x8', 1.5625, 7.5, 'green'),

  ...checkTable('board-feet', 'a hardwood dealer’s worked figure: 1 in x 6 in x 8 ft', 'seen', [
    [{ thickness: '1 in', width: '6 in', length: '96 in' }, 4, '', EXACT],
  ]),
  ...checkTable(
    'board-feet',
    'definition: 144 in³; NIST SP 811 (2008) B.8 gives 1 board foot as 2.359 737 E-03 m³',
    'seen',
    [[{ thickness: '1 in', width: '12 in', length: '12 in' }, 2.359737e-3, 'm³', 5e-10, 'volume']],
  ),
  ...checkTable('board-feet', 'a thickness under 1 in is sold as 1 in (common practice of the trade)', 'computed', [
    [{ thickness: '3/4 in', width: '12 in', length: '12 in', count: 3 }, 3, '', EXACT],
  ]),

  ...category('1/4', 0.219, 0.281, 0.225),
  ...category('15/32', 0.438, 0.5, 0.451),
  ...category('1/2', 0.469, 0.531, 0.483),
  ...category('19/32', 0.563, 0.625, 0.578),
  ...category('23/32', 0.688, 0.75, 0.703),
  ...category('3/4', 0.719, 0.781, 0.734),
  ...category('1-1/8', 1.069, 1.181, 1.091),
  ...checkTable('dado-slack', `${PS_1}: a 3/4 in dado for 23/32 panel at its label`, 'computed', [
    [{ groove: '0.75 in', panel: '0.703 in' }, 0.047, 'in', 0.001],
  ]),

  ...quarters('4/4', 1, 0.875, 0.8125),
  ...quarters('5/4', 1.25, 1.125, 1.0625),
  ...quarters('6/4', 1.5, 1.375, 1.3125),
  ...quarters('8/4', 2, 1.8125, 1.75),
  ...quarters('12/4', 3, 2.8125, 2.75),
  ...quarters('16/4', 4, 3.8125, 3.75),

  ...shrinks('yellow-poplar', 4.6, 8.2, 12.7),
  ...shrinks('white oak', 5.6, 10.5, 16.3),
  ...shrinks('black cherry', 3.7, 7.1, 11.5),
  ...shrinks('black walnut', 5.5, 7.8, 12.8),
  ...shrinks('yellow birch', 7.3, 9.5, 16.8),
  ...shrinks('white ash', 4.9, 7.8, 13.3),
  ...shrinks('quaking aspen', 3.5, 6.7, 11.5),
  ...shrinks('Douglas-fir coast', 4.8, 7.6, 12.4),
  ...shrinks('western redcedar', 2.4, 5, 6.8),
  ...shrinks('red alder', 4.4, 7.3, 12.6),
  ...shrinks('basswood', 6.6, 9.3, 15.8),
  ...shrinks('American beech', 5.5, 11.9, 17.2),
  ...shrinks('paper birch', 6.3, 8.6, 16.2),
  ...checkTable('wood-shrinkage', 'FPL-GTR-190 eq. (4-7) with S₀ of table 4-3', 'computed', [
    [{ species: 'yellow-poplar', moisture: '12%' }, 4.92, '%', 0.01],
    [{ 'full-shrinkage': '8.2%', moisture: 12 }, 4.92, '%', 0.01],
  ]),

  ...checkTable('wood-movement', 'FPL-GTR-190 eq. (13-1), coefficient of flat-sawn sugar maple', 'computed', [
    [{ width: '6 in', coefficient: 0.00353, from: 8, to: 11 }, 0.0635, 'in', 0.0005],
    // the same from the species, whose shrinkage of 9.9 % gives 0.003533
    [{ width: '6 in', species: 'sugar maple', from: 8, to: 11 }, 0.0635, 'in', 0.0005],
  ]),
  ...checkTable('wood-movement', 'FPL-GTR-190 table 13-5, coefficients (from memory)', 'memory', [
    [{ width: 1000, species: 'black cherry', from: 8, to: 9 }, 2.48, 'mm', 0.005],
    [{ width: 1000, species: 'yellow-poplar', direction: 'radial', from: 8, to: 9 }, 1.58, 'mm', 0.005],
  ]),
  ...checkTable(
    'seasonal-movement',
    'FPL-GTR-190 eqs. (4-5), (13-1): 24 in of C = 0.00369 from 25 % (5.36 %) to 50 % (9.25 %) at 70 F',
    'computed',
    [
      [
        { width: '24 in', coefficient: 0.00369, dry: '25%', damp: '50%', temperature: '70 F' },
        24 * 0.00369 * 3.89,
        'in',
        0.002,
      ],
    ],
  ),
  ...checkTable('lumber-shrinkage', 'FPL-RP-489, published as 2.8 % and 2.35 % at 15 %', 'seen', [
    [{ face: 'width', to: 15 }, 2.806, '%', 0.01],
    [{ face: 'thickness', to: 15 }, 2.347, '%', 0.01],
  ]),
  ...checkTable('lumber-shrinkage', 'FPL-RP-489: 0.215 % per % from 19 to 10 %', 'computed', [
    [{ face: 'width', from: 19, to: 10, size: '11.25 in' }, 0.218, 'in', 0.01, 'change of size'],
  ]),

  ...checkTable('equilibrium-moisture', EMC, 'computed', [
    [{ temperature: '70 F', humidity: '25%' }, 5.36, '%', 0.05],
    [{ temperature: '70 F', humidity: '30%' }, 6.17, '%', 0.05],
    [{ temperature: '70 F', humidity: '40%' }, 7.7, '%', 0.05],
    [{ temperature: '70 F', humidity: '50%' }, 9.25, '%', 0.05],
    [{ temperature: '70 F', humidity: '65%' }, 11.96, '%', 0.05],
    [{ temperature: '70 F', humidity: '80%' }, 16.0, '%', 0.05],
  ]),
  ...checkTable(
    'equilibrium-moisture',
    'a published equilibrium calculator’s worked example, 11.1 %, of slightly other constants',
    'seen',
    [[{ temperature: '70 F', humidity: '60%' }, 10.97, '%', 0.2]],
  ),

  ...checkTable('panel-grade', 'EN 312:2010 as declared by a panel maker', 'seen', [
    [{ grade: 'EN 312 P2', thickness: '18 mm', property: 'strength' }, 11, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '25 mm', property: 'strength' }, 10.5, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '30 mm', property: 'strength' }, 9.5, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '38 mm', property: 'strength' }, 8.5, 'N/mm²', EXACT],
  ]),
  ...checkTable('panel-grade', 'EN 312 table of requirements, supplier’s technical specification', 'seen', [
    [{ grade: 'EN 312 P2', thickness: '9 mm' }, 1800, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '16 mm' }, 1600, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '25 mm' }, 1500, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P2', thickness: '30 mm' }, 1350, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P5', thickness: '16 mm' }, 2400, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P5', thickness: '25 mm' }, 2150, 'N/mm²', EXACT],
    [{ grade: 'EN 312 P5', thickness: '30 mm' }, 1900, 'N/mm²', EXACT],
  ]),
  ...checkTable('panel-grade', 'ANSI A208.2-2009, table 2', 'seen', [
    [{ grade: 'ANSI A208.2 MDF 220', thickness: '6 mm', property: 'bond' }, 0.54, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 220', thickness: '6 mm', property: 'strength' }, 28.9, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 210', thickness: '6 mm', property: 'strength' }, 18.9, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 210', thickness: '6 mm', property: 'bond' }, 0.32, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 230', thickness: '6 mm', property: 'strength' }, 28.9, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 230', thickness: '6 mm', property: 'bond' }, 0.9, 'N/mm²', EXACT],
  ]),
  ...checkTable('panel-grade', 'EN 622-5:2009 table 3; ANSI A208.2-2009 table 1 (from memory)', 'memory', [
    [{ grade: 'EN 622-5 MDF', thickness: '18 mm' }, 2200, 'N/mm²', EXACT],
    [{ grade: 'EN 622-5 MDF', thickness: '18 mm', property: 'strength' }, 20, 'N/mm²', EXACT],
    [{ grade: 'ANSI A208.2 MDF 130', thickness: '18 mm' }, 2160, 'N/mm²', '3%'],
  ]),

  ...checkTable('sheet-size', 'suppliers’ lists of sheet sizes, to 5 mm', 'seen', [
    [{ sheet: '4 x 8 ft' }, 2440, 'mm', 5],
    [{ sheet: '4 x 8 ft' }, 1220, 'mm', 5, 'width'],
    [{ sheet: '2800 x 2070' }, 2800, 'mm', 5],
    [{ sheet: '2800 x 2070' }, 2070, 'mm', 5, 'width'],
    [{ sheet: '2620 x 2070' }, 2620, 'mm', 5],
    [{ sheet: '5 x 5 ft' }, 1525, 'mm', 5],
  ]),

  ...stiff(TABLE_12_1, 'white oak', 0.68, 1.78, 15200),
  ...stiff(TABLE_12_1, 'red maple', 0.54, 1.64, 13400),
  ...stiff(TABLE_12_1, 'Douglas-fir coast', 0.48, 1.95, 12400),
  ...stiff(TABLE_12_1, 'western white pine', 0.38, 1.46, 9700),
  ...stiff(TABLE_12_1, 'longleaf pine', 0.59, 1.98, 14500),
  ...stiff('FPL TechSheet, yellow-poplar', 'yellow-poplar', 0.42, 1.58, 10100),
  ...stiff(
    'a maple-flooring association’s properties page; a materials database (12 600 MPa)',
    'sugar maple',
    0.63,
    1.83,
    15800,
  ),
  ...stiff(TABLE_5_3B, 'red alder', 0.41, 1.38),
  ...stiff(TABLE_5_3B, 'white ash', 0.6, 1.74),
  ...stiff(TABLE_5_3B, 'quaking aspen', 0.38, 1.18),
  ...stiff(TABLE_5_3B, 'basswood', 0.37, 1.46),
  ...stiff(TABLE_5_3B, 'American beech', 0.64, 1.72),
  ...stiff(TABLE_5_3B, 'paper birch', 0.55, 1.59),
  ...stiff(TABLE_5_3B, 'yellow birch', 0.62, 2.01),
  ...stiff(TABLE_5_3B, 'black cherry', 0.5, 1.49),
  ...stiff(TABLE_5_3B, 'shagbark hickory', 0.72, 2.16),
  ...checkTable(
    'wood-stiffness',
    'Architectural Woodwork Standards ed. 1, sec. 10 (modulus of the red oak shelf rows)',
    'seen',
    [[{ species: 'northern red oak' }, 1.82, 'Mpsi', 0.005]],
  ),
  ...checkTable('wood-stiffness', 'FPL-GTR-190 table 5-3a (metric)', 'seen', [
    [{ species: 'ponderosa pine' }, 8900, 'MPa', EXACT],
    [{ species: 'ponderosa pine' }, 65, 'MPa', EXACT, 'R'],
    [{ species: 'slash pine' }, 13700, 'MPa', EXACT],
    [{ species: 'sugar pine' }, 8200, 'MPa', EXACT],
    [{ species: 'redwood, old growth' }, 9200, 'MPa', EXACT],
  ]),
  ...panelRange('hardboard', 0.45, 0.8, 4500, 8200, 0.9, 1.0),
  ...panelRange('MDF', 0.52, 0.52, 5200, 5200, 0.7, 0.9),
  ...panelRange('particleboard', 0.4, 0.6, 2200, 3500, 0.6, 0.8),
  ...panelRange('OSB', 0.64, 0.91, 3161, 5027, 0.5, 0.8),
  ...panelRange('plywood', 1.01, 1.24, 4890, 6180, 0.4, 0.6),
  ...panelRange('LVL', 1.3, 2.79, 4900, 12500, 0.4, 0.7),
  ...checkTable('panel-stiffness', 'FPL-GTR-190 (2010) table 12-3, mill 1, southern pine', 'seen', [
    [{ kind: 'OSB along its strands' }, 4.41, 'GPa', EXACT],
    [{ kind: 'OSB across its strands' }, 2.89, 'GPa', EXACT],
  ]),
  ...checkTable('panel-stiffness', 'AISC Manual; Aluminum Design Manual (from memory)', 'memory', [
    [{ kind: 'steel' }, 29000, 'ksi', '2%'],
    [{ kind: 'aluminium' }, 10000, 'ksi', '2%'],
    [{ kind: 'steel' }, 490, 'lb/ft³', '2%', 'ρ'],
    [{ kind: 'aluminium' }, 169, 'lb/ft³', '2%', 'ρ'],
  ]),
  ...checkTable('wood-density', 'FPL-GTR-190 ch. 4: 62.4 G (1 + M/100)', 'computed', [
    [{ gravity: 0.42, moisture: 12 }, 29.4, 'lb/ft³', 0.2],
    [{ species: 'yellow-poplar' }, 29.4, 'lb/ft³', 0.2],
  ]),
  ...checkTable('piece-weight', 'FPL-GTR-190 ch. 4: a 3/4 x 11-1/4 yellow-poplar shelf weighs 1.72 lb/ft', 'computed', [
    [{ length: '1 ft', width: '11-1/4 in', thickness: '3/4 in', material: 'yellow-poplar' }, 1.72, 'lb', 0.01],
    [{ length: '8 ft', width: '4 ft', thickness: '18 mm', density: '650 kg/m3' }, 34.78, 'kg', 0.01],
  ]),
];
