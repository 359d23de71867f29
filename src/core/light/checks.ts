import { absolute, type CheckRow, checkRows, relative } from '../notes/index.ts';

const HOWELL = 'J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, C-11 and C-14, computed';
const EES = 'Engineering Equation Solver, view-factor documentation examples (citing Chapman 1987; Howell C-13)';
const HOLMAN = 'J. P. Holman, Heat Transfer (SI), ch. 8 example 8-16';
const HOLMAN_CHART = 'J. P. Holman, Heat Transfer (SI), ch. 8 example 8-18, chart reading';
const SOM = 'S. K. Som, Introduction to Heat Transfer, ch. 11';
const SPHERE = 'sphere multiplier (Goebel 1967), computed';
const BALANCE = 'flux balance of a closed diffuse room, computed';
const CORNELL = 'Cornell University Program of Computer Graphics, Cornell Box Data';
const gupta = (example: string): string =>
  `J. B. Gupta, Utilization of Electric Power & Electric Traction, example ${example}`;
const wadhwa = (example: string): string =>
  `C. L. Wadhwa, Generation, Distribution and Utilization of Electrical Energy, example ${example}`;
const chakrabarti = (example: string): string =>
  `A. Chakrabarti et al., Power System Engineering, part IV example ${example}`;
const SHARMA = 'G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30 (2005), table 1';
const MCCAMY = 'C. S. McCamy, Color Res. Appl. 17 (1992); value of the colour-science/colour tests';
const CIE_15 = 'CIE 15 / ISO 11664-2, 2° chromaticities';
const SRGB = 'IEC 61966-2-1:1999, primaries and white, computed';
const OHNO = 'Y. Ohno, LEUKOS 10 (2014); value of colour-science/colour';

export const checks: readonly CheckRow[] = [
  ...checkRows(
    { calculator: 'view-factor-parallel', unit: '', tolerance: absolute(1e-6), source: HOWELL, confidence: 'computed' },
    [
      [{ a: '1 m', b: '1 m', distance: '1 m' }, 0.199825],
      [{ a: '2 m', b: '2 m', distance: '1 m' }, 0.415253],
      [{ a: '4 m', b: '5 m', distance: '2.6 m' }, 0.363013],
    ],
  ),
  ...checkRows(
    { calculator: 'view-factor-parallel', unit: '', tolerance: absolute(0.0001), source: EES, confidence: 'seen' },
    [[{ a: '1 m', b: '1.5 m', distance: '0.5 m' }, 0.4756]],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-parallel',
      unit: '',
      tolerance: absolute(0.008),
      source: `${SOM}, chart reading`,
      confidence: 'seen',
    },
    [[{ a: '1.5 m', b: '3 m', distance: '3 m' }, 0.11]],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-perpendicular',
      unit: '',
      tolerance: absolute(1e-6),
      source: HOWELL,
      confidence: 'computed',
    },
    [
      [{ edge: '1 m', width: '1 m', height: '1 m' }, 0.200044],
      [{ edge: '1 m', width: '2 m', height: '1 m' }, 0.116426],
      [{ edge: '5 m', width: '4 m', height: '2.6 m' }, 0.178159],
    ],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-perpendicular',
      unit: '',
      tolerance: absolute(0.002),
      source: HOLMAN_CHART,
      confidence: 'seen',
    },
    [[{ edge: '1 m', width: '0.5 m', height: '0.5 m' }, 0.24]],
  ),
  ...checkRows(
    { calculator: 'view-factor-perpendicular', unit: '', tolerance: absolute(1e-5), source: EES, confidence: 'seen' },
    [
      [{ edge: '0.5 m', width: '0.5 m', height: '0.5 m', 'height-from': '0.2 m' }, 0.07235],
      [{ edge: '0.5 m', width: '0.6 m', 'width-from': '0.1 m', height: '0.5 m', 'height-from': '0.2 m' }, 0.07182],
    ],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-offset-perpendicular',
      unit: '',
      tolerance: absolute(1e-5),
      source: EES,
      confidence: 'seen',
    },
    [
      [{ x: '0, 0.5 m', y: '0, 0.5 m', 'y-2': '0, 0.5 m', height: '0.2, 0.5 m' }, 0.07235],
      [{ x: '0.1, 0.6 m', y: '0, 0.5 m', 'y-2': '0, 0.5 m', height: '0.2, 0.5 m' }, 0.07182],
    ],
  ),
  ...checkRows(
    { calculator: 'view-factor-offset', unit: '', tolerance: absolute(0.0001), source: EES, confidence: 'seen' },
    [[{ x: '0, 0.1 m', y: '0, 0.1 m', 'x-2': '0, 0.1 m', 'y-2': '0, 0.1 m', distance: '0.05 m' }, 0.4153]],
  ),
  ...checkRows(
    { calculator: 'room-view-factors', unit: '', tolerance: absolute(1e-9), source: HOWELL, confidence: 'computed' },
    [
      [{ size: '5, 4, 2.6 m' }, 1, { also: 'sum' }],
      [{ size: '5, 4, 2.6 m' }, 0.363013, { tolerance: absolute(1e-6) }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-perpendicular',
      unit: 'm²',
      tolerance: absolute(1e-5),
      source: HOWELL,
      confidence: 'computed',
    },
    [
      [{ edge: '5 m', width: '4 m', height: '2.6 m' }, 3.563187, { also: 'area times factor' }],
      [{ edge: '5 m', width: '2.6 m', height: '4 m' }, 3.563187, { also: 'area times factor' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'view-factor-rest',
      unit: '',
      tolerance: absolute(1e-9),
      source: `${SOM} example 11.4`,
      confidence: 'seen',
    },
    [[{ 'area-1': 12, 'area-2': 12, 'f-12-34': 0.14, 'f-12-3': 0.1, 'f-2-34': 0.24, 'f-2-3': 0.18 }, 0.02]],
  ),
  ...checkRows(
    { calculator: 'disc-illuminance', unit: 'lx', tolerance: relative(0.0001), source: HOWELL, confidence: 'computed' },
    [[{ luminance: 1000, radius: '0.5 m', height: '2 m' }, 184.8]],
  ),
  ...checkRows(
    {
      calculator: 'interreflection-gain',
      unit: '',
      tolerance: absolute(0.0001),
      source: SPHERE,
      confidence: 'computed',
    },
    [
      [{ reflectance: 0.5 }, 1],
      [{ reflectance: 0.7 }, 2.33333],
      [{ reflectance: 0.8 }, 4],
    ],
  ),
  ...checkRows(
    { calculator: 'sphere-multiplier', unit: '', tolerance: absolute(0.001), source: SPHERE, confidence: 'computed' },
    [[{ reflectance: 0.98, ports: 0.05 }, 14.203]],
  ),
  ...checkRows(
    {
      calculator: 'enclosure-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: BALANCE,
      confidence: 'computed',
    },
    [[{ flux: 2000, size: '5, 4, 2.6 m', reflectance: 0.5 }, 46.083]],
  ),
  ...checkRows(
    {
      calculator: 'lumens-for-enclosure',
      unit: 'lm',
      tolerance: absolute(0.05),
      source: BALANCE,
      confidence: 'computed',
    },
    [[{ illuminance: 46.083, surface: 86.8, reflectance: 0.5 }, 2000]],
  ),
  ...checkRows(
    { calculator: 'facing-planes-gain', unit: '', tolerance: absolute(1e-5), source: BALANCE, confidence: 'computed' },
    [[{ first: 0.7, second: 0.5 }, 1.53846]],
  ),
  ...checkRows(
    { calculator: 'colour-bleed', unit: '', tolerance: absolute(1e-5), source: BALANCE, confidence: 'computed' },
    [[{ white: 0.8, paint: 0.6, 'paint-2': 0.1 }, 1.76923]],
  ),
  ...checkRows(
    {
      calculator: 'wall-colour-cast',
      unit: '',
      tolerance: absolute(1e-6),
      source: `${BALANCE}: nothing painted, all grey`,
      confidence: 'computed',
    },
    [
      [{ paint: '200, 120, 40', share: 0, rest: 0.6 }, 0],
      [{ paint: '200, 120, 40', share: 0, rest: 0.6, lamp: 6500 }, 0],
    ],
  ),
  ...checkRows(
    { calculator: 'measured-reflectance', unit: '', tolerance: absolute(0.0005), source: CORNELL, confidence: 'seen' },
    [
      [{ paint: 'white', wavelength: '400 nm' }, 0.343],
      [{ paint: 'white', wavelength: '500 nm' }, 0.747],
      [{ paint: 'white', wavelength: '600 nm' }, 0.74],
      [{ paint: 'white', wavelength: '700 nm' }, 0.737],
    ],
  ),
  ...checkRows(
    { calculator: 'measured-reflectance', unit: '', tolerance: absolute(0.0005), source: CORNELL, confidence: 'seen' },
    [
      [{ paint: 'green', wavelength: '400 nm' }, 0.092],
      [{ paint: 'green', wavelength: '500 nm' }, 0.285],
      [{ paint: 'green', wavelength: '520 nm' }, 0.472],
      [{ paint: 'green', wavelength: '600 nm' }, 0.16],
    ],
  ),
  ...checkRows(
    { calculator: 'measured-reflectance', unit: '', tolerance: absolute(0.0005), source: CORNELL, confidence: 'seen' },
    [
      [{ paint: 'red', wavelength: '400 nm' }, 0.04],
      [{ paint: 'red', wavelength: '500 nm' }, 0.058],
    ],
  ),
  ...checkRows(
    {
      calculator: 'grey-exchange',
      unit: 'kW',
      tolerance: absolute(0.002),
      source: `${HOLMAN}: two plates in a room`,
      confidence: 'computed',
    },
    [
      [
        {
          areas: '1, 1, 1000000',
          emissivities: '0.8, 0.5, 1',
          temperatures: '1000 K, 400 K, 300 K',
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.0000008, 0.0000008, 0.9999984',
          sigma: 5.669e-8,
        },
        44.182,
      ],
      [
        {
          areas: '1, 1, 1000000',
          emissivities: '0.8, 0.5, 1',
          temperatures: '1000 K, 400 K, 300 K',
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.0000008, 0.0000008, 0.9999984',
          sigma: 5.669e-8,
        },
        -4.022,
        { also: 'q2' },
      ],
      [
        {
          areas: '1, 1, 1000000',
          emissivities: '0.8, 0.5, 1',
          temperatures: '1000 K, 400 K, 300 K',
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.0000008, 0.0000008, 0.9999984',
          sigma: 5.669e-8,
        },
        -40.16,
        { also: 'q3', tolerance: absolute(0.004) },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'grey-exchange',
      unit: 'kW',
      tolerance: absolute(0.006),
      source: `${HOLMAN}: the same plates joined by an insulated wall`,
      confidence: 'computed',
    },
    [
      [
        {
          areas: '1, 1, 4',
          emissivities: '0.8, 0.5, 0.5',
          temperatures: '1000 K, 400 K, 300 K',
          insulated: 3,
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.2, 0.2, 0.6',
          sigma: 5.669e-8,
        },
        18.939,
      ],
      [
        {
          areas: '1, 1, 4',
          emissivities: '0.8, 0.5, 0.5',
          temperatures: '1000 K, 400 K, 300 K',
          insulated: 3,
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.2, 0.2, 0.6',
          sigma: 5.669e-8,
        },
        -18.939,
        { also: 'q2' },
      ],
      [
        {
          areas: '1, 1, 4',
          emissivities: '0.8, 0.5, 0.5',
          temperatures: '1000 K, 400 K, 300 K',
          insulated: 3,
          factors: '0, 0.2, 0.8, 0.2, 0, 0.8, 0.2, 0.2, 0.6',
          sigma: 5.669e-8,
        },
        893.76,
        { also: 'T3', unit: 'K', tolerance: absolute(0.06) },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: 'B. L. Theraja & A. K. Theraja, A Textbook of Electrical Technology, example 49.1',
      confidence: 'seen',
    },
    [[{ flux: 1200, height: '8 m', aside: '6 m' }, 0.764]],
  ),
  ...checkRows(
    {
      calculator: 'disc-under-lamp',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: gupta('4.12'),
      confidence: 'computed',
    },
    [
      [{ intensity: 1000, height: '12 m', diameter: '24 m' }, 6.944],
      [{ intensity: 1000, height: '12 m', diameter: '24 m' }, 2.455, { also: 'at the edge' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: gupta('4.14'),
      confidence: 'computed',
    },
    [
      [{ intensity: 100, height: '6 m', aside: '0, 16 m' }, 2.898],
      [{ intensity: 100, height: '6 m', aside: '8, 8 m' }, 1.2],
    ],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: gupta('4.15'),
      confidence: 'computed',
    },
    [
      [{ intensity: 800, height: '10 m', aside: '0, 12, 12 m' }, 12.198],
      [{ intensity: 800, height: '10 m', aside: '6, 6 m' }, 10.088],
    ],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: gupta('4.16'),
      confidence: 'computed',
    },
    [[{ intensity: 400, height: '10 m', aside: '14.142136, 14.142136, 14.142136, 14.142136 m' }, 3.0792]],
  ),
  ...checkRows(
    {
      calculator: 'disc-under-lamp',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: wadhwa('6.4'),
      confidence: 'computed',
    },
    [
      [{ intensity: 200, height: '4 m', diameter: '5 m' }, 12.5],
      [{ intensity: 200, height: '4 m', diameter: '5 m' }, 7.6225, { also: 'at the edge' }],
      [{ intensity: 200, height: '4 m', diameter: '5 m' }, 9.7281, { also: 'mean' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: wadhwa('6.6'),
      confidence: 'computed',
    },
    [[{ intensity: 500, height: '5, 9 m', aside: '5, 5 m', weights: '1, 0.8' }, 10.3698]],
  ),
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: wadhwa('6.10'),
      confidence: 'computed',
    },
    [
      [{ intensity: 300, height: '6 m' }, 8.3333],
      [{ intensity: 300, height: '6 m', aside: '6 m' }, 2.9463],
    ],
  ),
  ...checkRows(
    {
      calculator: 'mean-intensity',
      unit: 'cd',
      tolerance: absolute(0.005),
      source: chakrabarti('4.2'),
      confidence: 'computed',
    },
    [[{ flux: 800 }, 63.66]],
  ),
  ...checkRows(
    {
      calculator: 'normal-illuminance',
      unit: 'lx',
      tolerance: absolute(0.005),
      source: chakrabarti('4.2'),
      confidence: 'computed',
    },
    [
      [{ intensity: 100, distance: '2 m' }, 25],
      [{ intensity: 100, distance: '2 m', angle: '45°' }, 17.678],
    ],
  ),
  // the book’s least value counts three lamps on either side of the middle between two
  ...checkRows(
    {
      calculator: 'point-illuminance',
      unit: 'lx',
      tolerance: absolute(0.001),
      source: chakrabarti('4.7'),
      confidence: 'computed',
    },
    [
      [{ intensity: 100, height: '4.575 m', aside: '0, 9.15, 9.15, 18.3, 18.3, 27.45, 27.45 m' }, 5.811],
      [{ intensity: 100, height: '4.575 m', aside: '4.575, 4.575, 13.725, 13.725, 22.875, 22.875 m' }, 3.753],
    ],
  ),
  ...checkRows(
    {
      calculator: 'lamp-lumens',
      unit: 'lm',
      tolerance: absolute(0),
      source: 'Philippine Efficient Lighting Market Transformation Project, lighting calculations module',
      confidence: 'seen',
    },
    [[{ luminaires: 2, lamps: 3, flux: 2900 }, 17400]],
  ),
  ...checkRows(
    {
      calculator: 'room-cavity-ratio',
      unit: '',
      tolerance: absolute(0.005),
      source: 'Philippine Efficient Lighting Market Transformation Project, lighting calculations module',
      confidence: 'seen',
    },
    [[{ height: '1.83 m', length: '3.05 m', width: '4.57 m' }, 5]],
  ),
  ...checkRows(
    {
      calculator: 'room-cavity-ratio',
      unit: '',
      tolerance: absolute(0.006),
      source: 'zonal-cavity class exercise, 40 × 15 ft classroom',
      confidence: 'seen',
    },
    [
      [{ height: '9.5 ft', length: '40 ft', width: '15 ft' }, 4.35],
      [{ height: '2.5 ft', length: '40 ft', width: '15 ft' }, 1.15],
    ],
  ),
  ...checkRows(
    {
      calculator: 'room-index',
      unit: '',
      tolerance: absolute(1e-9),
      source: 'k = 5/RCR, computed',
      confidence: 'computed',
    },
    [[{ 'cavity-ratio': 5 }, 1]],
  ),
  ...checkRows(
    {
      calculator: 'cavity-reflectance',
      unit: '',
      tolerance: absolute(0.001),
      source: `${'zonal-cavity class exercise, 40 × 15 ft classroom'}; the handbook's table, interpolated there`,
      confidence: 'seen',
    },
    [[{ base: 0.1, walls: 0.5, length: '40 ft', width: '15 ft', height: '2.5 ft' }, 0.1175]],
  ),
  ...checkRows(
    {
      calculator: 'cavity-reflectance',
      unit: '',
      tolerance: absolute(0.0001),
      source: 'IESNA effective cavity reflectance, computed',
      confidence: 'computed',
    },
    [[{ base: 0.8, walls: 0.5, length: '10 m', width: '10 m', height: '2 m' }, 0.55331]],
  ),
  ...checkRows(
    {
      calculator: 'lumens-needed',
      unit: 'W',
      tolerance: absolute(0.01),
      source: gupta('4.26'),
      confidence: 'computed',
    },
    [
      [
        { illuminance: 75, area: 900, utilisation: 0.5, maintenance: 0.8, efficacy: 15, 'lamp-power': 300 },
        11250,
        { also: 'power' },
      ],
      [
        { illuminance: 75, area: 900, utilisation: 0.5, maintenance: 0.8, efficacy: 15, 'lamp-power': 300 },
        37.5,
        { also: 'lamps', unit: '' },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'lumens-needed',
      unit: 'W',
      tolerance: absolute(0.01),
      source: gupta('4.28'),
      confidence: 'computed',
    },
    [
      [
        { illuminance: 120, area: 450, utilisation: 0.5, depreciation: 1.4, efficacy: 40, 'lamp-power': 80 },
        3780,
        { also: 'power' },
      ],
      [
        { illuminance: 120, area: 450, utilisation: 0.5, depreciation: 1.4, efficacy: 40, 'lamp-power': 80 },
        47.25,
        { also: 'lamps', unit: '' },
      ],
      [
        { illuminance: 120, area: 450, utilisation: 0.5, depreciation: 1.4, efficacy: 40, 'lamp-power': 80 },
        48,
        { also: 'whole lamps', unit: '' },
      ],
    ],
  ),
  ...checkRows(
    { calculator: 'lumens-needed', unit: '', tolerance: absolute(0.01), source: gupta('4.29'), confidence: 'computed' },
    [
      [{ illuminance: 50, area: 360, utilisation: 0.5, depreciation: 1.3, each: 1615 }, 28.98, { also: 'lamps' }],
      [{ illuminance: 50, area: 360, utilisation: 0.5, depreciation: 1.3, each: 3650 }, 12.82, { also: 'lamps' }],
      [{ illuminance: 50, area: 360, utilisation: 0.5, depreciation: 1.3, each: 4700 }, 9.96, { also: 'lamps' }],
      [{ illuminance: 50, area: 360, utilisation: 0.5, depreciation: 1.3, each: 9950 }, 4.7, { also: 'lamps' }],
      [{ illuminance: 50, area: 360, utilisation: 0.5, depreciation: 1.3, each: 21500 }, 2.18, { also: 'lamps' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'mean-illuminance',
      unit: 'lx',
      tolerance: absolute(0.01),
      source: gupta('4.30'),
      confidence: 'computed',
    },
    [[{ power: '16 kW', efficacy: 17.4, area: 800, utilisation: 0.4, depreciation: 1.2, waste: 1.3 }, 89.23]],
  ),
  ...checkRows(
    {
      calculator: 'mean-illuminance',
      unit: 'lx',
      tolerance: absolute(0.01),
      source: chakrabarti('4.8'),
      confidence: 'computed',
    },
    [[{ count: 20, power: 500, efficacy: 15, area: 558.15, utilisation: 0.5, maintenance: 0.7 }, 94.06]],
  ),
  ...checkRows(
    {
      calculator: 'lumens-needed',
      unit: 'lm',
      tolerance: absolute(0.001),
      source: wadhwa('6.8'),
      confidence: 'computed',
    },
    [
      [{ illuminance: 32, area: 1200, utilisation: 0.5, maintenance: 0.8, each: 2800 }, 96000],
      [
        { illuminance: 32, area: 1200, utilisation: 0.5, maintenance: 0.8, each: 2800 },
        34.286,
        { also: 'lamps', unit: '' },
      ],
    ],
  ),
  ...checkRows(
    { calculator: 'lamp-columns', unit: '', tolerance: absolute(0), source: wadhwa('6.8'), confidence: 'computed' },
    [[{ length: '80 m', height: '4.5 m', spacing: 1.5 }, 12]],
  ),
  // 25 lm/m² of brightness off a wall of 0.25 is 100 lx on it
  ...checkRows(
    { calculator: 'lumens-needed', unit: '', tolerance: absolute(1e-6), source: wadhwa('6.9'), confidence: 'computed' },
    [
      [
        { illuminance: 100, area: 600, utilisation: 0.6, maintenance: 0.75, waste: 1.2, each: 8000 },
        20,
        { also: 'lamps' },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'illuminance-level',
      unit: 'lx',
      tolerance: absolute(0),
      source: 'EN 12464-1:2011 table 5.36 / 2021 table 44, task rows',
      confidence: 'memory',
    },
    [
      [{ place: 'classroom, general' }, 300],
      [{ place: 'classroom, evening classes' }, 500],
      [{ place: 'lecture hall' }, 500],
      [{ place: 'board' }, 500],
    ],
  ),
  ...checkRows(
    {
      calculator: 'illuminance-level',
      unit: 'lx',
      tolerance: absolute(0),
      source: 'EN 12464-1, walls, ceiling and cylindrical illuminance of teaching rooms, read in a maker’s page',
      confidence: 'seen',
    },
    [
      [{ place: 'teaching room, walls' }, 75],
      [{ place: 'teaching room, ceiling' }, 50],
      [{ place: 'teaching room, faces' }, 150],
    ],
  ),
  ...checkRows(
    {
      calculator: 'illuminance-level',
      unit: 'fc',
      tolerance: absolute(1e-9),
      source: 'B. Aleksander, How Bright Is My Studio?',
      confidence: 'seen',
    },
    [
      [{ place: 'studio, from' }, 45],
      [{ place: 'studio, to' }, 65],
      [{ place: 'studio, early 1970s' }, 300],
    ],
  ),
  ...checkRows(
    {
      calculator: 'footcandles',
      unit: 'lx',
      tolerance: absolute(0.0001),
      source: 'unit definition, 1/0.3048²',
      confidence: 'computed',
    },
    [[{}, 10.7639]],
  ),
  ...checkRows(
    {
      calculator: 'light-reflectance-value',
      unit: '%',
      tolerance: absolute(0.006),
      source: 'BS 8493:2008, table of six flooring samples',
      confidence: 'seen',
    },
    [
      [{ lightness: 51.12 }, 19.37],
      [{ lightness: 38.04 }, 10.11],
      [{ lightness: 48.62 }, 17.29],
      [{ lightness: 50.09 }, 18.49],
      [{ lightness: 39.24 }, 10.8],
      [{ lightness: 23.3 }, 3.89],
    ],
  ),
  ...checkRows(
    {
      calculator: 'reflectance-contrast',
      unit: '%',
      tolerance: absolute(0),
      source: 'BS 8300-2:2018 annex B',
      confidence: 'seen',
    },
    [
      [{ surfaces: 'normal' }, 30],
      [{ surfaces: 'large, or lit above 200 lx' }, 20],
    ],
  ),
  ...checkRows(
    { calculator: 'colour-difference', unit: '', tolerance: absolute(5.1e-5), source: SHARMA, confidence: 'seen' },
    [
      [{ lab: '50.0, 2.6772, -79.7751', 'lab-2': '50.0, 0.0, -82.7485' }, 2.0425],
      [{ lab: '50.0, 3.1571, -77.2803', 'lab-2': '50.0, 0.0, -82.7485' }, 2.8615],
      [{ lab: '50.0, 2.8361, -74.02', 'lab-2': '50.0, 0.0, -82.7485' }, 3.4412],
      [{ lab: '50.0, -1.1848, -84.8006', 'lab-2': '50.0, 0.0, -82.7485' }, 1.0],
      [{ lab: '50.0, -0.9009, -85.5211', 'lab-2': '50.0, 0.0, -82.7485' }, 1.0],
      [{ lab: '50.0, 0.0, 0.0', 'lab-2': '50.0, -1.0, 2.0' }, 2.3669],
      [{ lab: '50.0, -1.0, 2.0', 'lab-2': '50.0, 0.0, 0.0' }, 2.3669],
      [{ lab: '50.0, 2.49, -0.001', 'lab-2': '50.0, -2.49, 0.0009' }, 7.1792],
      [{ lab: '50.0, 2.49, -0.001', 'lab-2': '50.0, -2.49, 0.001' }, 7.1792],
      [{ lab: '50.0, 2.49, -0.001', 'lab-2': '50.0, -2.49, 0.0011' }, 7.2195],
      [{ lab: '50.0, 2.49, -0.001', 'lab-2': '50.0, -2.49, 0.0012' }, 7.2195],
      [{ lab: '50.0, -0.001, 2.49', 'lab-2': '50.0, 0.0009, -2.49' }, 4.8045],
      [{ lab: '50.0, -0.001, 2.49', 'lab-2': '50.0, 0.0011, -2.49' }, 4.7461],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '50.0, 0.0, -2.5' }, 4.3065],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '73.0, 25.0, -18.0' }, 27.1492],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '61.0, -5.0, 29.0' }, 22.8977],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '56.0, -27.0, -3.0' }, 31.903],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '50.0, 3.2972, 0.0' }, 1.0],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '50.0, 1.8634, 0.5757' }, 1.0],
      [{ lab: '50.0, 2.5, 0.0', 'lab-2': '50.0, 3.2592, 0.335' }, 1.0],
      [{ lab: '60.2574, -34.0099, 36.2677', 'lab-2': '60.4626, -34.1751, 39.4387' }, 1.2644],
      [{ lab: '63.0109, -31.0961, -5.8663', 'lab-2': '62.8187, -29.7946, -4.0864' }, 1.263],
      [{ lab: '61.2901, 3.7196, -5.3901', 'lab-2': '61.4292, 2.248, -4.962' }, 1.8731],
      [{ lab: '35.0831, -44.1164, 3.7933', 'lab-2': '35.0232, -40.0716, 1.5901' }, 1.8645],
      [{ lab: '22.7233, 20.0904, -46.694', 'lab-2': '23.0331, 14.973, -42.5619' }, 2.0373],
      [{ lab: '36.4612, 47.858, 18.3852', 'lab-2': '36.2715, 50.5065, 21.2231' }, 1.4146],
      [{ lab: '90.8027, -2.0831, 1.441', 'lab-2': '91.1528, -1.6435, 0.0447' }, 1.4441],
      [{ lab: '6.7747, -0.2908, -2.4247', 'lab-2': '5.8714, -0.0985, -2.2286' }, 0.6377],
      [{ lab: '2.0776, 0.0795, -1.135', 'lab-2': '0.9033, -0.0636, -0.5514' }, 0.9082],
    ],
  ),
  // the second pair is printed to six figures, worth 0.1 K there
  ...checkRows(
    {
      calculator: 'colour-temperature-mccamy',
      unit: 'K',
      tolerance: absolute(0.01),
      source: MCCAMY,
      confidence: 'seen',
    },
    [
      [{ x: 0.3127, y: 0.329 }, 6505.0806],
      [{ x: 0.252521, y: 0.252221 }, 19501.6195, { tolerance: absolute(0.1) }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'colour-temperature-mccamy',
      unit: 'K',
      tolerance: absolute(0.01),
      source: 'C. S. McCamy, Color Res. Appl. 17 (1992), computed',
      confidence: 'computed',
    },
    [[{ x: 1 / 3, y: 1 / 3 }, 5458.95]],
  ),
  ...checkRows({ calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'seen' }, [
    [{ illuminant: 'A' }, 0.44757],
    [{ illuminant: 'A' }, 0.40745, { also: 'y' }],
  ]),
  ...checkRows({ calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'seen' }, [
    [{ illuminant: 'D65' }, 0.3127],
    [{ illuminant: 'D65' }, 0.329, { also: 'y' }],
  ]),
  ...checkRows(
    { calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'memory' },
    [
      [{ illuminant: 'D50' }, 0.34567],
      [{ illuminant: 'D50' }, 0.3585, { also: 'y' }],
    ],
  ),
  ...checkRows(
    { calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'memory' },
    [
      [{ illuminant: 'D55' }, 0.33242],
      [{ illuminant: 'D55' }, 0.34743, { also: 'y' }],
    ],
  ),
  ...checkRows(
    { calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'memory' },
    [
      [{ illuminant: 'D75' }, 0.29902],
      [{ illuminant: 'D75' }, 0.31485, { also: 'y' }],
    ],
  ),
  ...checkRows(
    { calculator: 'white-point', unit: '', tolerance: absolute(5e-5), source: CIE_15, confidence: 'memory' },
    [
      [{ illuminant: 'E' }, 0.33333],
      [{ illuminant: 'E' }, 0.33333, { also: 'y' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'daylight-chromaticity',
      unit: '',
      tolerance: absolute(2e-5),
      source: `${CIE_15}, daylight locus, computed`,
      confidence: 'computed',
    },
    [
      [{ temperature: 6504 }, 0.31271],
      [{ temperature: 6504 }, 0.32912, { also: 'y' }],
    ],
  ),
  ...checkRows(
    { calculator: 'linear-srgb-from-xyz', unit: '', tolerance: absolute(0.0001), source: SRGB, confidence: 'seen' },
    [
      [{ xyz: '1, 0, 0' }, 3.2406],
      [{ xyz: '1, 0, 0' }, -0.9689, { also: 'G' }],
      [{ xyz: '1, 0, 0' }, 0.0557, { also: 'B' }],
      [{ xyz: '0, 1, 0' }, -1.5372],
      [{ xyz: '0, 1, 0' }, 1.8758, { also: 'G' }],
      [{ xyz: '0, 1, 0' }, -0.204, { also: 'B' }],
      [{ xyz: '0, 0, 1' }, -0.4986],
      [{ xyz: '0, 0, 1' }, 0.0415, { also: 'G' }],
      [{ xyz: '0, 0, 1' }, 1.057, { also: 'B' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'xyz-from-linear-srgb',
      unit: '',
      tolerance: absolute(1e-5),
      source: `${SRGB}: the white of D65`,
      confidence: 'computed',
    },
    [
      [{ rgb: '1, 1, 1' }, 0.95047],
      [{ rgb: '1, 1, 1' }, 1, { also: 'Y' }],
      [{ rgb: '1, 1, 1' }, 1.08883, { also: 'Z' }],
    ],
  ),
  ...checkRows(
    { calculator: 'srgb-decode', unit: '', tolerance: absolute(1e-6), source: SRGB, confidence: 'computed' },
    [
      [{ channel: 0.5 }, 0.214041],
      [{ channel: 128 / 255 }, 0.215861],
      [{ channel: 64 / 255 }, 0.051269],
    ],
  ),
  ...checkRows(
    { calculator: 'srgb-lightness', unit: '', tolerance: absolute(0.03), source: SRGB, confidence: 'computed' },
    [
      [{ rgb: '255, 0, 0' }, 53.241],
      [{ rgb: '255, 0, 0' }, 80.092, { also: 'a*' }],
      [{ rgb: '255, 0, 0' }, 67.203, { also: 'b*' }],
      [{ rgb: '0, 255, 0' }, 87.735],
      [{ rgb: '0, 255, 0' }, -86.183, { also: 'a*' }],
      [{ rgb: '0, 255, 0' }, 83.179, { also: 'b*' }],
      [{ rgb: '0, 0, 255' }, 32.297],
      [{ rgb: '0, 0, 255' }, 79.188, { also: 'a*' }],
      [{ rgb: '0, 0, 255' }, -107.86, { also: 'b*' }],
    ],
  ),
  ...checkRows(
    { calculator: 'uv-chromaticity', unit: '', tolerance: absolute(6e-5), source: OHNO, confidence: 'seen' },
    [
      [{ x: 0.3127, y: 0.329 }, 0.1978],
      [{ x: 0.3127, y: 0.329 }, 0.3122, { also: 'v' }],
    ],
  ),
  ...checkRows({ calculator: 'duv', unit: '', tolerance: absolute(5e-5), source: OHNO, confidence: 'seen' }, [
    [{ u: 0.1978, v: 0.3122 }, 0.00322],
  ]),
  // its 1 nm tables against our 5 nm
  ...checkRows(
    { calculator: 'colour-temperature', unit: 'K', tolerance: absolute(2), source: OHNO, confidence: 'seen' },
    [
      [{ u: 0.1978, v: 0.3122 }, 6507.47],
      [{ u: 0.1978, v: 0.3122 }, 0.00322, { also: 'Duv', unit: '', tolerance: absolute(5e-5) }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'duv',
      unit: '',
      tolerance: absolute(0.00015),
      source: 'ANSI C78.377 targets, Ohno’s Duv, computed',
      confidence: 'computed',
    },
    [
      [{ x: 0.44757, y: 0.40745 }, 0.0],
      [{ x: 0.4578, y: 0.4101 }, 0.0],
      [{ x: 0.4338, y: 0.403 }, 0.0],
      [{ x: 0.3818, y: 0.3797 }, 0.001],
      [{ x: 0.3447, y: 0.3553 }, 0.002],
      [{ x: 0.3123, y: 0.3282 }, 0.0031],
    ],
  ),
  ...checkRows(
    {
      calculator: 'colour-temperature',
      unit: '',
      tolerance: absolute(0.00015),
      source: 'ANSI C78.377 targets, Duv computed',
      confidence: 'computed',
    },
    [
      [{ x: 0.44757, y: 0.40745 }, 0.0, { also: 'Duv' }],
      [{ x: 0.4578, y: 0.4101 }, 0.0, { also: 'Duv' }],
      [{ x: 0.4338, y: 0.403 }, 0.0, { also: 'Duv' }],
      [{ x: 0.3818, y: 0.3797 }, 0.001, { also: 'Duv' }],
      [{ x: 0.3447, y: 0.3553 }, 0.002, { also: 'Duv' }],
      [{ x: 0.3123, y: 0.3282 }, 0.0031, { also: 'Duv' }],
    ],
  ),
  // illuminant A is a black body of 2856 K (2848 K with c2 = 1.435e-2 on today's scale: 2855.5 K)
  ...checkRows(
    {
      calculator: 'colour-temperature',
      unit: 'K',
      tolerance: absolute(1),
      source: `${CIE_15}: illuminant A, 2856 K`,
      confidence: 'seen',
    },
    [[{ x: 0.44757, y: 0.40745 }, 2855.5]],
  ),
  ...checkRows(
    {
      calculator: 'lamp-target',
      unit: '',
      tolerance: absolute(1e-9),
      source: 'ANSI C78.377 targets',
      confidence: 'seen',
    },
    [
      [{ lamp: '3000' }, 0.4338],
      [{ lamp: '3000' }, 0.403, { also: 'y' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'mirrored-luminance',
      unit: 'cd/m²',
      tolerance: absolute(1e-9),
      source: 'Fresnel’s equations at normal incidence: n = 1.5 mirrors 4 %',
      confidence: 'computed',
    },
    [[{ luminance: 1000 }, 40]],
  ),
  ...checkRows(
    {
      calculator: 'display-contrast',
      unit: '',
      tolerance: absolute(1e-9),
      source: 'Lambert’s law by hand: 314.159… lx on 0.01 is 1 cd/m²',
      confidence: 'computed',
    },
    [
      [{ white: 299, black: 0, illuminance: 100 * Math.PI, diffuse: 0.01 }, 300],
      [{ white: 296, black: 0, mirrored: 100, share: 0.04 }, 75],
    ],
  ),
];
