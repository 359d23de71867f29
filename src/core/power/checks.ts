import { absolute, type CheckRow, checkRows, relative } from '../notes/index.ts';

const WIRE_TABLE =
  'NBS Handbook 100, Copper Wire Tables (1966): diameters and resistances at 20 °C; the printed table was read in a reprint';
const ASTM = 'ASTM B258-02, standard nominal diameters of AWG wire: 0.005 in at No. 36, ratio 92^(1/39)';
const TABLE_8 = 'NFPA 70 (NEC) chapter 9 table 8, read in a reprint';
const IEC_60228 = 'IEC 60228:2004, highest conductor resistance at 20 °C, read in two reprints';
const WS2812B = 'Worldsemi WS2812B data sheet, timing (first editions): 1.25 µs a bit';
const COPPER = 'International Annealed Copper Standard: 1/58 Ω·mm²/m at 20 °C; 1 oz/ft² = 35 µm';
const CLOSED_FORM = "closed form from Ohm's and Kirchhoff's laws";
const MEHTA_PRINTED =
  'V. K. Mehta, Principles of Power System, ch. 13 example 13.1, printed answers (second span 500 m)';
const mehta = (example: string): string =>
  `V. K. Mehta & R. Mehta, Principles of Power System, ch. 13 D.C. distribution, example ${example}`;

export const checks: readonly CheckRow[] = [
  ...checkRows(
    { calculator: 'wire-diameter', unit: 'in', tolerance: absolute(6e-5), source: WIRE_TABLE, confidence: 'seen' },
    [
      [{ gauge: 10 }, 0.1019],
      [{ gauge: 12 }, 0.0808],
      [{ gauge: 16 }, 0.0508],
      [{ gauge: 18 }, 0.0403],
      [{ gauge: 20 }, 0.032],
      [{ gauge: 22 }, 0.0253],
      [{ gauge: 24 }, 0.0201],
      [{ gauge: 26 }, 0.0159],
    ],
  ),
  ...checkRows(
    { calculator: 'wire-diameter', unit: 'in', tolerance: absolute(1e-12), source: ASTM, confidence: 'seen' },
    [
      [{ gauge: 36 }, 0.005],
      [{ gauge: -3 }, 0.46],
    ],
  ),
  ...checkRows({ calculator: 'gauge-step', unit: '', tolerance: absolute(5e-8), source: ASTM, confidence: 'seen' }, [
    [{}, 1.1229322],
    [{ steps: 39 }, 92],
  ]),
  ...checkRows(
    // Table 8 rounds to three figures
    { calculator: 'wire-area', unit: 'mm²', tolerance: relative(0.003), source: TABLE_8, confidence: 'seen' },
    [
      [{ gauge: 16 }, 1.31],
      [{ gauge: 12 }, 3.31],
      [{ gauge: 10 }, 5.261],
    ],
  ),
  ...checkRows(
    {
      calculator: 'wire-resistance',
      unit: 'ohm/1000 ft',
      tolerance: relative(0.006), // the table rounds to three figures
      source: WIRE_TABLE,
      confidence: 'seen',
    },
    [
      [{ gauge: 10 }, 1.0],
      [{ gauge: 12 }, 1.59],
      [{ gauge: 14 }, 2.53],
      [{ gauge: 20 }, 10.15],
      [{ gauge: 22 }, 16.14],
      [{ gauge: 24 }, 25.67],
      [{ gauge: 26 }, 40.81],
      [{ gauge: 28 }, 64.9],
    ],
  ),
  ...checkRows(
    {
      calculator: 'wire-resistance',
      unit: 'ohm/1000 ft',
      tolerance: relative(0.006),
      source: TABLE_8,
      confidence: 'seen',
    },
    [
      [{ gauge: 18, temperature: '75 °C' }, 7.77],
      [{ gauge: 16, temperature: '75 °C' }, 4.89],
      [{ gauge: 14, temperature: '75 °C' }, 3.07],
      [{ gauge: 12, temperature: '75 °C' }, 1.93],
      [{ gauge: 10, temperature: '75 °C' }, 1.21],
    ],
  ),
  ...checkRows(
    {
      calculator: 'wire-resistance',
      unit: 'ohm/1000 ft',
      tolerance: relative(0.012), // the 2 % of the lay is itself a mean over the table
      source: TABLE_8,
      confidence: 'seen',
    },
    [
      [{ gauge: 18, temperature: '75 °C', stranding: '7 strands' }, 7.95],
      [{ gauge: 16, temperature: '75 °C', stranding: '7 strands' }, 4.99],
      [{ gauge: 14, temperature: '75 °C', stranding: '7 strands' }, 3.14],
      [{ gauge: 12, temperature: '75 °C', stranding: '7 strands' }, 1.98],
      [{ gauge: 10, temperature: '75 °C', stranding: '7 strands' }, 1.24],
    ],
  ),
  ...checkRows(
    {
      calculator: 'wire-resistance-at-75',
      unit: 'ohm/1000 ft',
      tolerance: absolute(1e-9),
      source: TABLE_8,
      confidence: 'seen',
    },
    [
      [{ gauge: 18 }, 7.77],
      [{ gauge: 18, stranding: '7 strands' }, 7.95],
    ],
  ),
  ...checkRows(
    {
      calculator: 'resistance-at-temperature',
      unit: 'ohm/1000 ft',
      tolerance: absolute(0.01),
      source: TABLE_8,
      confidence: 'computed',
    },
    [[{ resistance: '7.77 ohm/1000 ft', from: '75 °C', to: '20 °C', coefficient: 0.00323 }, 6.39]],
  ),
  ...checkRows(
    {
      calculator: 'cable-resistance-limit',
      unit: 'Ω/km',
      tolerance: absolute(1e-9),
      source: IEC_60228,
      confidence: 'seen',
    },
    [
      [{ area: '0.5 mm²', class: 'solid' }, 36],
      [{ area: '0.5 mm²', class: 'flexible' }, 39],
      [{ area: '0.75 mm²', class: 'solid' }, 24.5],
      [{ area: '0.75 mm²', class: 'flexible' }, 26],
      [{ area: '1 mm²', class: 'solid' }, 18.1],
      [{ area: '1 mm²', class: 'flexible' }, 19.5],
      [{ area: '2.5 mm²', class: 'solid' }, 7.41],
      [{ area: '2.5 mm²', class: 'flexible' }, 7.98],
      [{ area: '4 mm²', class: 'solid' }, 4.61],
      [{ area: '4 mm²', class: 'flexible' }, 4.95],
      [{ area: '10 mm²', class: 'solid' }, 1.83],
      [{ area: '10 mm²', class: 'flexible' }, 1.91],
    ],
  ),
  ...checkRows(
    {
      calculator: 'resistance-factor-to-20',
      unit: '',
      tolerance: absolute(0.001),
      source: IEC_60228,
      confidence: 'seen',
    },
    [
      [{ temperature: '5 °C' }, 1.064],
      [{ temperature: '30 °C' }, 0.962],
      [{ temperature: '50 °C' }, 0.893],
      [{ temperature: '75 °C' }, 0.82],
      [{ temperature: '90 °C' }, 0.781],
    ],
  ),
  ...checkRows(
    { calculator: 'pixel-reset-time', unit: 'µs', tolerance: absolute(1e-6), source: WS2812B, confidence: 'seen' },
    [[{ kind: '5 V RGB, first edition' }, 50]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-reset-time',
      unit: 'µs',
      tolerance: absolute(1e-6),
      source: 'Worldsemi WS2812B data sheet, later revision: reset > 280 µs',
      confidence: 'seen',
    },
    [[{ kind: '5 V RGB, typical' }, 280]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-reset-time',
      unit: 'µs',
      tolerance: absolute(1e-6),
      source: 'SK6812RGBW rev. 01 data sheet, timing as quoted in a driver source',
      confidence: 'seen',
    },
    [[{ kind: '5 V RGBW' }, 80]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-reset-time',
      unit: 'µs',
      tolerance: absolute(1e-6),
      source: 'Worldsemi WS2815 data sheet, summary',
      confidence: 'seen',
    },
    [[{ kind: '12 V RGB' }, 300]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-supply-voltage',
      unit: 'V',
      tolerance: absolute(1e-9),
      source: 'Worldsemi WS2815 data sheet, summary: 9-13 V',
      confidence: 'seen',
    },
    [
      [{ kind: '12 V RGB' }, 9, { also: 'least' }],
      [{ kind: '12 V RGB' }, 13, { also: 'most' }],
    ],
  ),
  ...checkRows(
    { calculator: 'pixel-time', unit: 'µs', tolerance: absolute(1e-9), source: WS2812B, confidence: 'computed' },
    [
      [{ bits: 24 }, 30],
      [{ bits: 32 }, 40],
    ],
  ),
  ...checkRows(
    { calculator: 'frame-rate', unit: 'Hz', tolerance: relative(1e-5), source: WS2812B, confidence: 'computed' },
    [
      [{ pixels: 60, bits: 24, reset: '50 µs' }, 540.541],
      [{ pixels: 100, bits: 24, reset: '280 µs' }, 304.878],
      [{ pixels: 144, bits: 24, reset: '280 µs' }, 217.391],
      [{ pixels: 150, bits: 24, reset: '280 µs' }, 209.205],
      [{ pixels: 300, bits: 24, reset: '280 µs' }, 107.759],
      [{ pixels: 1000, bits: 24, reset: '50 µs' }, 33.278],
    ],
  ),
  ...checkRows(
    { calculator: 'pixels-for-frame-rate', unit: '', tolerance: absolute(0), source: WS2812B, confidence: 'computed' },
    [
      [{ rate: 25, reset: '280 µs' }, 1324],
      [{ rate: 30, reset: '280 µs' }, 1101],
      [{ rate: 50, reset: '280 µs' }, 657],
    ],
  ),
  ...checkRows(
    {
      calculator: 'pixel-current',
      unit: 'mA',
      tolerance: absolute(1e-9),
      source: 'FastLED library, power_mgt.cpp: 16, 11, 15 and 1 mA of a 5 V pixel',
      confidence: 'seen',
    },
    [
      [{ kind: '5 V RGB, typical' }, 43],
      [{ kind: '5 V RGB, typical', levels: '1, 0, 0' }, 17],
      [{ kind: '5 V RGB, typical', levels: '0, 1, 0' }, 12],
      [{ kind: '5 V RGB, typical', levels: '0, 0, 1' }, 16],
      [{ kind: '5 V RGB, typical', levels: '0' }, 1],
      [{ kind: '5 V RGB, typical' }, 0.215, { also: 'power', unit: 'W' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'pixel-current',
      unit: 'mA',
      tolerance: absolute(1e-9),
      source: 'community list of addressable LED chips (not a data sheet): 10 mA a channel, 2.1 mA dark',
      confidence: 'seen',
    },
    [[{ kind: '12 V RGB', levels: '0' }, 2.1]],
  ),
  ...checkRows(
    { calculator: 'strip-current', unit: 'A', tolerance: absolute(1e-9), source: CLOSED_FORM, confidence: 'computed' },
    [[{ length: '5 m', density: 60, each: '60 mA' }, 18]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-pitch',
      unit: 'mm',
      tolerance: absolute(0.0005),
      source: 'unit definition',
      confidence: 'computed',
    },
    [
      [{ density: 30 }, 33.333],
      [{ density: 60 }, 16.667],
      [{ density: 96 }, 10.417],
    ],
  ),
  ...checkRows(
    {
      calculator: 'strip-rail-resistance',
      unit: 'Ω/m',
      tolerance: relative(0.0005),
      source: COPPER,
      confidence: 'computed',
    },
    [
      [{ width: '10 mm', thickness: '35 µm' }, 0.04926],
      [{ width: '5 mm', thickness: '70 µm' }, 0.04926],
      [{ width: '3 mm', thickness: '70 µm' }, 0.0821],
    ],
  ),
  ...checkRows(
    { calculator: 'line-voltages', unit: 'V', tolerance: absolute(0.05), source: MEHTA_PRINTED, confidence: 'seen' },
    [
      ...([295, 291, 288, 287.6] as const).map(
        (volts, k) =>
          [
            { voltage: 300, conductor: '0.01 ohm/km', loads: '100, 150, 200, 50', at: '500, 1000, 1600, 2000 m' },
            volts,
            { also: `voltage at load ${k + 1}` },
          ] as const,
      ),
    ],
  ),
  ...checkRows(
    {
      calculator: 'uniform-line-drop',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.5'),
      confidence: 'computed',
    },
    [[{ uniform: 2, length: '200 m', loop: '0.0006 ohm/m', at: '150 m' }, 22.5]],
  ),
  ...checkRows(
    { calculator: 'feed-voltage', unit: 'V', tolerance: absolute(1e-6), source: mehta('13.7'), confidence: 'computed' },
    [
      [{ voltage: 250, uniform: 1.6, length: '250 m', loop: '0.0004 ohm/m' }, 270],
      [{ voltage: 250, uniform: 1.6, length: '250 m', loop: '0.0004 ohm/m', at: '125 m' }, 265],
    ],
  ),
  ...checkRows(
    {
      calculator: 'uniform-line-drop',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.9'),
      confidence: 'computed',
    },
    [
      [{ uniform: 0.75, length: '300 m', loop: '0.00018 ohm/m', at: '200 m' }, 5.4],
      [{ uniform: 0.75, length: '300 m', loop: '0.00018 ohm/m' }, 911.25, { also: 'loss', unit: 'W' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'line-voltages',
      unit: 'A',
      tolerance: absolute(0.01),
      source: mehta('13.12'),
      confidence: 'computed',
    },
    [
      ...(
        [
          ['current from A', 437.5, 'A'],
          ['current from B', 412.5, 'A'],
          ['loss', 14706.25, 'W'],
        ] as const
      ).map(
        ([also, value, unit]) =>
          [
            {
              voltage: 440,
              'far-voltage': 430,
              loads: '100, 200, 250, 300',
              at: '150, 300, 350, 450 m',
              length: '600 m',
              loop: '0.0002 ohm/m',
            },
            value,
            { also, unit },
          ] as const,
      ),
    ],
  ),
  ...checkRows(
    {
      calculator: 'two-end-drop',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.14'),
      confidence: 'computed',
    },
    [
      [{ current: 500, resistance: 0.1, voltage: 220 }, 6.25],
      [{ current: 500, resistance: 0.1, voltage: 220 }, 213.75, { also: 'lowest voltage' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'two-end-line',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.15'),
      confidence: 'computed',
    },
    [
      [{ voltage: 255, 'far-voltage': 250, uniform: 1, length: '500 m', loop: '0.0002 ohm/m' }, 246],
      [
        { voltage: 255, 'far-voltage': 250, uniform: 1, length: '500 m', loop: '0.0002 ohm/m' },
        300,
        { also: 'place of the lowest', unit: 'm' },
      ],
      [
        { voltage: 255, 'far-voltage': 250, uniform: 1, length: '500 m', loop: '0.0002 ohm/m' },
        300,
        { also: 'current from A', unit: 'A' },
      ],
      [
        { voltage: 255, 'far-voltage': 250, uniform: 1, length: '500 m', loop: '0.0002 ohm/m' },
        200,
        { also: 'current from B', unit: 'A' },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'end-voltages-for-minimum',
      unit: 'V',
      tolerance: absolute(0.001),
      source: mehta('13.16'),
      confidence: 'computed',
    },
    [
      [{ lowest: 220, at: '450 m', uniform: 1.25, length: '800 m', loop: '0.0001 ohm/m' }, 232.656],
      [
        { lowest: 220, at: '450 m', uniform: 1.25, length: '800 m', loop: '0.0001 ohm/m' },
        227.656,
        { also: 'voltage at B' },
      ],
    ],
  ),
  ...checkRows(
    {
      calculator: 'two-end-drop',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.17'),
      confidence: 'computed',
    },
    [[{ current: 1250, resistance: 0.1 }, 15.625]],
  ),
  ...checkRows(
    {
      calculator: 'line-voltages',
      unit: 'V',
      tolerance: absolute(1e-6),
      source: mehta('13.19'),
      confidence: 'computed',
    },
    [
      [
        {
          voltage: 400,
          loads: '50, 100, 150',
          at: '200, 500, 800 m',
          uniform: 0.5,
          length: '900 m',
          loop: '0.0001 ohm/m',
        },
        361.75,
        { also: 'voltage at the far end' },
      ],
      [
        {
          voltage: 400,
          loads: '50, 100, 150',
          at: '200, 500, 800 m',
          uniform: 0.5,
          length: '900 m',
          loop: '0.0001 ohm/m',
        },
        370.25,
        { also: 'voltage at load 2' },
      ],
    ],
  ),
  ...checkRows(
    { calculator: 'ladder-drop', unit: 'V', tolerance: absolute(1e-9), source: CLOSED_FORM, confidence: 'computed' },
    [
      [{ count: 60, current: '50 mA', section: 0.002 }, 0.183],
      [{ count: 60, current: '50 mA', section: 0.002, feed: 'both ends' }, 0.0465],
      [{ count: 60, current: '50 mA', section: 0.002 }, 0.36905, { also: 'loss', unit: 'W' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'resistive-line-end-voltage',
      unit: 'V',
      tolerance: absolute(1e-5),
      source: CLOSED_FORM,
      confidence: 'computed',
    },
    [[{ voltage: 12, loop: '0.06 ohm/m', conductance: 0.8, length: '5 m' }, 7.21825]],
  ),
  ...checkRows(
    {
      calculator: 'constant-power-voltage',
      unit: 'V',
      tolerance: absolute(1e-4),
      source: CLOSED_FORM,
      confidence: 'computed',
    },
    [
      [{ voltage: 12, power: 30, resistance: 0.4 }, 10.899],
      [{ voltage: 5, power: 10, resistance: 0.2 }, 4.56155],
    ],
  ),
  ...checkRows(
    { calculator: 'wire-drop', unit: 'V', tolerance: absolute(1e-9), source: IEC_60228, confidence: 'computed' },
    [[{ current: 5, length: '3 m', resistance: '13.3 ohm/km' }, 0.399]],
  ),
  ...checkRows(
    { calculator: 'wire-drop', unit: 'V', tolerance: absolute(1e-9), source: TABLE_8, confidence: 'computed' },
    [[{ current: 10, length: '2 m', resistance: '16 ohm/km' }, 0.64]],
  ),
  ...checkRows(
    {
      calculator: 'class-2-power',
      unit: 'W',
      tolerance: absolute(0.01),
      source: 'NFPA 70 chapter 9 table 11(B)',
      confidence: 'memory',
    },
    [
      [{ voltage: 5 }, 25],
      [{ voltage: 12 }, 60],
      [{ voltage: 20 }, 100],
      [{ voltage: 24 }, 100],
      [{ voltage: 48 }, 100],
    ],
  ),
  ...checkRows(
    {
      calculator: 'class-2-current',
      unit: 'A',
      tolerance: absolute(0.01),
      source: 'NFPA 70 chapter 9 table 11(B)',
      confidence: 'memory',
    },
    [
      [{ voltage: 5 }, 5],
      [{ voltage: 12 }, 5],
      [{ voltage: 20 }, 5],
      [{ voltage: 24 }, 4.167],
      [{ voltage: 48 }, 2.083],
    ],
  ),
  ...checkRows(
    {
      calculator: 'class-2-voltage',
      unit: 'V',
      tolerance: absolute(0),
      source: 'NFPA 70 chapter 9 table 11(B), note 4',
      confidence: 'memory',
    },
    [
      [{ place: 'dry' }, 60],
      [{ place: 'wet' }, 30],
    ],
  ),
  ...checkRows(
    {
      calculator: 'limited-source-current',
      unit: 'A',
      tolerance: absolute(0),
      source: 'IEC 60950-1 tables 2B/2C, limited power sources',
      confidence: 'seen',
    },
    [[{ voltage: 24 }, 8]],
  ),
  ...checkRows(
    {
      calculator: 'continuous-load-limit',
      unit: 'A',
      tolerance: absolute(1e-9),
      source: 'NFPA 70 sections 210.19(A), 210.20(A)',
      confidence: 'memory',
    },
    [[{ device: 20 }, 16]],
  ),
  ...checkRows(
    {
      calculator: 'device-for-continuous-load',
      unit: 'A',
      tolerance: absolute(1e-9),
      source: 'NFPA 70 sections 210.19(A), 210.20(A)',
      confidence: 'memory',
    },
    [[{ load: 9 }, 11.25]],
  ),
  ...checkRows(
    {
      calculator: 'wire-protection-limit',
      unit: 'A',
      tolerance: absolute(0),
      source: 'NFPA 70 section 240.4(D), read in a reprint',
      confidence: 'seen',
    },
    [
      [{ gauge: 14 }, 15],
      [{ gauge: 12 }, 20],
      [{ gauge: 10 }, 30],
    ],
  ),
  ...checkRows(
    {
      calculator: 'wire-protection-limit',
      unit: 'A',
      tolerance: absolute(0),
      source: 'NFPA 70 section 240.4(D)(1) and (2), with conditions',
      confidence: 'memory',
    },
    [
      [{ gauge: 18 }, 7],
      [{ gauge: 16 }, 10],
    ],
  ),
  ...checkRows(
    {
      calculator: 'class-2-separation',
      unit: 'mm',
      tolerance: absolute(1), // 2 in, printed as 50 mm
      source: 'NFPA 70 section 725.136, read in quotations',
      confidence: 'seen',
    },
    [
      [{ where: 'outside enclosures' }, 50],
      [{ where: 'outside enclosures' }, 2, { unit: 'in', tolerance: absolute(0.04) }],
      [{ where: 'in one enclosure' }, 6, { tolerance: absolute(0.4) }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'limited-cable-voltage',
      unit: 'V',
      tolerance: absolute(0),
      source: 'NFPA 70, CL2 and CL3 cable listing',
      confidence: 'seen',
    },
    [
      [{ cable: 'CL2' }, 150],
      [{ cable: 'CL3' }, 300],
    ],
  ),
  ...checkRows(
    { calculator: 'wire-gauge-for-area', unit: '', tolerance: absolute(0), source: TABLE_8, confidence: 'seen' },
    [
      // the printed areas of 16, 12 and 10 gauge, less what they were rounded by
      [{ area: '1.305 mm²' }, 16],
      [{ area: '3.305 mm²' }, 12],
      [{ area: '5.26 mm²' }, 10],
    ],
  ),
  ...checkRows(
    { calculator: 'wire-for-drop', unit: 'mm²', tolerance: relative(1e-9), source: COPPER, confidence: 'computed' },
    [
      [{ length: '5.8 m', current: 1, drop: 0.2 }, 1],
      [{ length: '10 m', current: 5, drop: 0.5 }, 200 / 58],
    ],
  ),
  ...checkRows(
    {
      calculator: 'strip-lowest-voltage',
      unit: 'V',
      tolerance: absolute(1e-4),
      source: CLOSED_FORM,
      confidence: 'computed',
    },
    [
      // 60 lights of 20 mA, loop of 1/600 Ω a section, the first and last half sections apart: i r N²/2
      [{ count: 60, density: 60, voltage: 12, rail: '0.05 ohm/m', each: '20 mA' }, 12 - (0.02 * 3600) / 1200],
      // fed at both ends as if cut in the middle: two strips of half the length
      [
        { count: 60, density: 60, voltage: 12, rail: '0.05 ohm/m', each: '20 mA', feed: 'both ends' },
        12 - (0.02 * 900) / 1200,
      ],
      // a conductance all along: Vs / cosh(L √(r g)), r = 0.1 Ω/m, g = 60 · 0.02 A / 12 V, L = 5 m
      [
        { count: 300, density: 60, voltage: 12, rail: '0.05 ohm/m', each: '20 mA', load: 'resistance' },
        12 / Math.cosh(5 * Math.sqrt(0.1 * 0.1)),
        { tolerance: absolute(2e-4) },
      ],
    ],
  ),
  ...checkRows(
    { calculator: 'supply-power', unit: 'W', tolerance: absolute(1e-9), source: CLOSED_FORM, confidence: 'computed' },
    [[{ voltage: 5, current: 8 }, 50]],
  ),
  ...checkRows(
    {
      calculator: 'fuse-for-load',
      unit: 'A',
      tolerance: absolute(0),
      source: 'NFPA 70 sections 210.20(A) and 240.4(D)',
      confidence: 'memory',
    },
    [
      [{ load: 4, gauge: 18 }, 5],
      [{ load: 12, gauge: 14 }, 15],
    ],
  ),
  ...checkRows(
    {
      calculator: 'channel-temperature-rise',
      unit: 'K',
      tolerance: absolute(1e-9),
      source: 'definition of surface resistance: 10 W through 0.05 m² at 0.13 m²K/W',
      confidence: 'computed',
    },
    [[{ power: 10, perimeter: '50 mm' }, 26]],
  ),
  ...checkRows(
    {
      calculator: 'data-level',
      unit: 'V',
      tolerance: absolute(1e-9),
      source: 'WS2812B data sheet, input level 0.7 of the supply',
      confidence: 'memory',
    },
    [[{ supply: 5 }, 3.5]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-bit-shape',
      unit: 'µs',
      tolerance: absolute(0.15),
      source: 'SK6812RGBW rev. 01 data sheet, timing as quoted in a driver source',
      confidence: 'seen',
    },
    [
      [{ bit: 'zero' }, 0.3],
      [{ bit: 'zero' }, 0.9, { also: 'low' }],
      [{ bit: 'one' }, 0.6],
      [{ bit: 'one' }, 0.6, { also: 'low' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'pixel-current',
      unit: 'mA',
      tolerance: relative(0.05),
      source: 'published regression of measured WS2812B currents',
      confidence: 'seen',
    },
    [[{ kind: '5 V RGB, measured' }, 33.25]],
  ),
  ...checkRows(
    {
      calculator: 'pixel-current',
      unit: 'mA',
      tolerance: absolute(1e-9),
      source: 'community list of addressable LED chips (not a data sheet): one channel and what it takes dark',
      confidence: 'seen',
    },
    [
      [{ kind: '12 V RGB', levels: '1, 0, 0' }, 12.1],
      [{ kind: '5 V RGBW', levels: '1, 0, 0, 0' }, 21],
    ],
  ),
];
