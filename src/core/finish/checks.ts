import { type CheckRow, checkTable } from '../notes/index.ts';

const WOODWORKS = 'a wood-construction council’s expert tip on tolerances';
const SEALANT = 'volume over cross-section; yield rule of a sealant supplier';
const EXACT = 1e-9;
const ANGLED = {
  along: '0, 12, 24, 36, 48, 60, 72, 84, 96 in',
  out: '0; 0.06; 0.1; 0.05; -0.04; -0.1; -0.06; 0.03; 0.08 in',
};

export const checks: readonly CheckRow[] = [
  ...checkTable('paint-coverage', '231 in³ a gallon; trade press prints 1604 ft² at 1 mil', 'seen', [
    [{ solids: 1, 'dry-film': '1 mil' }, 1604.17, 'ft²/gal', 0.5],
  ]),
  ...checkTable('paint-coverage', 'spreading-rate paper: 208.52 ft²/gal; 5.2 m²/L', 'seen', [
    [{ solids: '65%', 'dry-film': '5 mil' }, 208.5, 'ft²/gal', 1],
    [{ solids: '65%', 'dry-film': '125 µm' }, 5.2, 'm²/L', 0.01],
  ]),
  ...checkTable('paint-coverage', 'coating trade press: 167 ft²/gal', 'seen', [
    [{ solids: '52%', 'dry-film': '1.5 mil', transfer: '30%' }, 166.8, 'ft²/gal', 1],
  ]),
  ...checkTable('paint-coverage', 'a paint maker’s product sheet: 400 ft²/gal', 'seen', [
    [{ solids: '37.4%', 'dry-film': '1.5 mil' }, 399.9, 'ft²/gal', 1],
  ]),
  // printed 389 where the formula gives 389.9: cut down, not rounded
  ...checkTable('paint-coverage', 'a painters’ discussion: 389 ft²/gal at 35 % and 1.44 mil', 'seen', [
    [{ solids: '35%', 'dry-film': '1.44 mil' }, 389.9, 'ft²/gal', 1],
  ]),
  ...checkTable('wet-film', 'product-sheet range 350 to 400 ft²/gal: 4.58 to 4.01 mils', 'seen', [
    [{ rate: '350 ft²/gal' }, 4.58, 'mil', 0.005],
    [{ rate: '400 ft²/gal' }, 4.01, 'mil', 0.005],
  ]),
  ...checkTable('wet-film', 'a lagging-adhesive data sheet: 40 to 70 ft²/gal, 0.040 to 0.023 in', 'seen', [
    [{ rate: '40 ft²/gal' }, 0.0401, 'in', 0.0003],
    [{ rate: '70 ft²/gal' }, 0.0229, 'in', 0.0003],
  ]),
  ...checkTable(
    'paint-needed',
    '(wall area − openings) · coats / rate: a 12 x 14 x 8 ft room at 375 ft²/gal',
    'computed',
    [
      [{ perimeter: '52 ft', height: '8 ft', openings: '57 ft²', coats: 2, rate: '375 ft²/gal' }, 1.91, 'gal', 0.01],
      [{ perimeter: '52 ft', height: '8 ft', openings: '57 ft²', tin: '1 gal' }, 2, '', EXACT, 'tins'],
      [{ area: '359 ft²', coats: 2, rate: '375 ft²/gal' }, 1.91, 'gal', 0.01],
    ],
  ),
  ...checkTable('waiting-time', 'paint and glue makers’ guides', 'seen', [
    [{ step: 'latex paint, dry to touch' }, 1, 'h', EXACT],
    [{ step: 'latex paint, next coat' }, 4 * 3600, 's', EXACT, 't₀'],
    [{ step: 'PVA glue, open time' }, 20, 'min', EXACT],
    [{ step: 'PVA glue, in clamps' }, 90, 'min', EXACT],
    [{ step: 'PVA glue, full strength' }, 24, 'h', EXACT],
  ]),
  ...checkTable('waiting-time', 'common product data (from memory)', 'memory', [
    [{ step: 'light filler' }, 2, 'h', EXACT],
    [{ step: 'ready-mixed joint compound, a coat' }, 24, 'h', EXACT],
  ]),

  ...checkTable('sealant-length', 'a sealant supplier’s table: 48.7 and 54.1 in³', 'seen', [
    [{ pack: '27 fl oz', width: '1 in' }, 48.73, 'in³', 0.6, 'contents'],
    [{ pack: '30 fl oz', width: '1 in' }, 54.14, 'in³', 0.6, 'contents'],
  ]),
  ...checkTable('sealant-length', SEALANT, 'computed', [
    [{ width: '1/8 in' }, 97.21, 'ft', '1%'],
    [{ width: '1/4 in' }, 24.3, 'ft', '1%'],
    [{ width: '3/8 in' }, 10.8, 'ft', '1%'],
    [{ width: '1/2 in', depth: '1/4 in' }, 12.15, 'ft', '1%'],
    [{ shape: 'round', width: '1/4 in' }, 30.9, 'ft', '1%'],
    [{ shape: 'fillet', width: '1/4 in' }, 48.6, 'ft', '1%'],
    [{ shape: 'round', width: '3/16 in' }, 55, 'ft', '1%'],
    [{ width: '1/4 in', run: '50 ft' }, 3, '', EXACT, 'cartridges'],
  ]),
  ...checkTable('sealant-length', 'a sealant page lists 25, 11 and 6.2 ft for 10.3 fl oz', 'seen', [
    [{ pack: '10.3 fl oz', width: '1/4 in' }, 24.8, 'ft', 0.3],
    [{ pack: '10.3 fl oz', width: '3/8 in' }, 11, 'ft', 0.3],
    [{ pack: '10.3 fl oz', width: '1/2 in' }, 6.2, 'ft', 0.3],
  ]),
  ...checkTable('clamp-force', 'pressure times area: 24 x 3/4 in oak edge at 200 psi', 'computed', [
    [{ length: '24 in', thickness: '3/4 in', pressure: '200 psi' }, 3600, 'lb', 1e-6],
    [{ length: '24 in', thickness: '3/4 in' }, 3600, 'lb', 1e-6],
    [{ length: '24 in', thickness: '3/4 in' }, 3, '', EXACT, 'clamps'],
  ]),
  ...checkTable('clamp-force', 'a glue maker’s technical guide: at least 100, 150 and 200 psi', 'seen', [
    [{ length: '1 in', thickness: '1 in', wood: 'softwood' }, 100, 'lb', 1e-6],
    [{ length: '1 in', thickness: '1 in', wood: 'medium wood' }, 150, 'lb', 1e-6],
    [{ length: '1 in', thickness: '1 in', wood: 'hardwood' }, 200, 'lb', 1e-6],
  ]),
  ...checkTable('nail-size', 'NDS-2018 table L4', 'seen', [
    [{ penny: '8' }, 0.131, 'in', EXACT],
    [{ penny: '8' }, 2.5, 'in', EXACT, 'length'],
    [{ penny: '10' }, 0.148, 'in', EXACT],
    [{ penny: '16' }, 0.162, 'in', EXACT],
    [{ penny: '16' }, 3.5, 'in', EXACT, 'length'],
    [{ kind: 'box', penny: '8' }, 0.113, 'in', EXACT],
    [{ kind: 'box', penny: '10' }, 0.128, 'in', EXACT],
    [{ kind: 'box', penny: '16' }, 0.135, 'in', EXACT],
  ]),
  ...checkTable('penny-length', 'two tables of penny sizes', 'seen', [
    [{ penny: 2 }, 1, 'in', EXACT],
    [{ penny: 4 }, 1.5, 'in', EXACT],
    [{ penny: 6 }, 2, 'in', EXACT],
    [{ penny: 8 }, 2.5, 'in', EXACT],
    [{ penny: 10 }, 3, 'in', EXACT],
    [{ penny: 16 }, 3.5, 'in', EXACT],
  ]),
  ...checkTable('nailer-gauge', 'a table of nail sizes, 15 gauge', 'seen', [[{ gauge: '15' }, 0.072, 'in', 0.002]]),
  ...checkTable('nailer-gauge', 'steel-wire gauge (from memory)', 'memory', [
    [{ gauge: '16' }, 0.0625, 'in', 0.002],
    [{ gauge: '18' }, 0.0475, 'in', 0.002],
    [{ gauge: '23' }, 0.025, 'in', 0.002],
  ]),
  ...checkTable('edge-banding', 'worked by hand: (600 + 30 + 400 + 30) · 2 · 1.05', 'computed', [
    [{ edges: '600, 400', count: 2 }, 2226, 'mm', 1e-6],
  ]),

  ...checkTable('minimax-gap', 'brute force over all pairs of points', 'computed', [
    [ANGLED, 0.19, 'in', 0.0001],
    [ANGLED, -0.0002778, '', 0.000001, 'slope'],
    [ANGLED, 0.10667, 'in', 0.0001, 'intercept'],
    [ANGLED, 24, 'in', EXACT, 'touches first at'],
    [ANGLED, 60, 'in', EXACT, 'widest first at'],
    [{ along: '0, 25, 100', out: '0, 1, 0' }, 1, 'mm', EXACT],
  ]),
  // least-error line of eˣ on [0, 1]: .8941 + 1.7183x, error .1059; one-sided it is twice that
  ...checkTable('minimax-gap', 'textbook minimax line of eˣ on [0, 1], by its three touching points', 'computed', [
    [{ along: '0, 0.541324855, 1', out: '1, 1.718281828, 2.718281828' }, 0.21187, 'mm', 0.0001],
    [{ along: '0, 0.541324855, 1', out: '1, 1.718281828, 2.718281828' }, 1.71828, '', 0.0001, 'slope'],
  ]),
  ...checkTable('building-tolerance', WOODWORKS, 'seen', [
    [{ standard: 'wall plumb, performance guidelines' }, 0.375, 'in', EXACT],
    [{ standard: 'wall plumb, gypsum finish' }, 0.25, 'in', EXACT],
    [{ standard: 'stud plumb, wallboard' }, 0.25, 'in', EXACT],
    [{ standard: 'stud plumb, thin-set tile' }, 0.125, 'in', EXACT],
    [{ standard: 'wall, residential and light commercial' }, 0.25, 'in', EXACT],
    [{ standard: 'wall, residential and light commercial', length: '8 ft' }, 0.75, 'in', EXACT],
  ]),
  ...checkTable('building-tolerance', `${WOODWORKS}, scaled in proportion`, 'computed', [
    [{ standard: 'wall plumb, performance guidelines', length: '8 ft' }, 1.125, 'in', EXACT],
    [{ standard: 'wall plumb, gypsum finish', length: '8 ft' }, 0.2, 'in', EXACT],
  ]),
  ...checkTable('building-tolerance', 'a builder’s performance standard, p. 54', 'seen', [
    [{ standard: 'ceiling bow, builder’s standard' }, 0.5, 'in', EXACT],
    [{ standard: 'sub-floor, builder’s standard' }, 0.375, 'in', EXACT],
  ]),
  ...checkTable(
    'building-tolerance',
    'building trade press: 3/4 in per 100 ft on the diagonal, of a 48 x 36 x 60 in layout',
    'computed',
    [[{ standard: 'square layout, on the diagonal', length: '60 in' }, 0.0375, 'in', EXACT]],
  ),
  ...checkTable('layout-tolerance', 'building trade press, foundation and framing tolerances', 'seen', [
    [{ length: '9 ft' }, 0.125, 'in', EXACT],
    [{ length: '50 ft' }, 0.25, 'in', EXACT],
  ]),
  ...checkTable('mitre-angle', 'geometry', 'computed', [
    [{ corner: 90 }, 45, '°', EXACT],
    [{ corner: 270 }, 45, '°', EXACT],
    [{ corner: 135 }, 22.5, '°', EXACT],
  ]),
  ...checkTable('mitre-length', 'geometry: two outside corners add a thickness each', 'computed', [
    [{ wall: 1400, thickness: 18, start: 270, end: 270 }, 1436, 'mm', 1e-6],
    [{ wall: 4000, thickness: 18 }, 4000, 'mm', 1e-6],
    [{ wall: 4000, thickness: 18 }, 3964, 'mm', 1e-6, 'length of the front edge'],
  ]),
];
