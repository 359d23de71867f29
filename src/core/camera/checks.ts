import { absolute, type CheckRow, checkRows, relative } from '../notes/index.ts';

const CLAFF = 'B. Claff, Angle of View Values for Common Focal Lengths (2006), table';
const ANGLE = '2 atan(s/2f), computed';
const FORMATS = 'sensor format dimensions, two published lists';
const GREENLEAF = 'depth-of-field equations as in A. R. Greenleaf, Photographic Optics (1950), computed';
const ANSUR =
  '2012 Anthropometric Survey of U.S. Army Personnel (NATICK/TR-15/007): percentiles of the public data, linear interpolation';
const PINHOLE = 'pinhole projection, computed';
const SINC = 'mean of a sinusoid over the exposure, computed';
const FLICKER = 'camera-maker support article 000044870, flicker and shutter speeds';

export const checks: readonly CheckRow[] = [
  ...checkRows(
    { calculator: 'angle-of-view', unit: '°', tolerance: absolute(0.051), source: CLAFF, confidence: 'seen' },
    [
      [{ focal: 24, across: 'width' }, 73.7],
      [{ focal: 24, across: 'height' }, 53.1],
      [{ focal: 24, across: 'diagonal' }, 84.1],
      [{ focal: 35, across: 'width' }, 54.4],
      [{ focal: 35, across: 'height' }, 37.8],
      [{ focal: 35, across: 'diagonal' }, 63.4],
      [{ focal: 50, across: 'width' }, 39.6],
      [{ focal: 50, across: 'height' }, 27.0],
      [{ focal: 50, across: 'diagonal' }, 46.8],
      [{ focal: 85, across: 'width' }, 23.9],
      [{ focal: 85, across: 'height' }, 16.1],
      [{ focal: 85, across: 'diagonal' }, 28.6],
      [{ focal: 135, across: 'width' }, 15.2],
      [{ focal: 135, across: 'height' }, 10.2],
      [{ focal: 135, across: 'diagonal' }, 18.2],
    ],
  ),
  ...checkRows(
    { calculator: 'angle-of-view', unit: '°', tolerance: absolute(0.01), source: ANGLE, confidence: 'computed' },
    [
      [{ focal: 25, sensor: 'four thirds' }, 38.17, { also: 'width' }],
      [{ focal: 25, sensor: 'four thirds' }, 29.15, { also: 'height' }],
      [{ focal: 25, sensor: 'four thirds' }, 46.81, { also: 'diagonal' }],
      [{ focal: 25, sensor: '1 inch' }, 29.58, { also: 'width' }],
      [{ focal: 25, sensor: '1 inch' }, 19.96, { also: 'height' }],
      [{ focal: 25, sensor: '1 inch' }, 35.21, { also: 'diagonal' }],
      [{ focal: 25, sensor: '1/2.3 inch' }, 14.07, { also: 'width' }],
      [{ focal: 25, sensor: '1/2.3 inch' }, 10.4, { also: 'height' }],
      [{ focal: 25, sensor: '1/2.3 inch' }, 17.43, { also: 'diagonal' }],
      [{ focal: 35, aspect: '16/9' }, 32.26, { also: 'height' }],
    ],
  ),
  ...checkRows(
    { calculator: 'sensor-size', unit: 'mm', tolerance: absolute(0.002), source: FORMATS, confidence: 'seen' },
    [
      [{ sensor: 'four thirds' }, 17.3],
      [{ sensor: 'four thirds' }, 13.0, { also: 'height' }],
      [{ sensor: 'four thirds' }, 21.64, { also: 'diagonal' }],
      [{ sensor: 'four thirds' }, 2.0, { also: 'crop factor', unit: '' }],
    ],
  ),
  ...checkRows(
    { calculator: 'sensor-size', unit: 'mm', tolerance: absolute(0.002), source: FORMATS, confidence: 'seen' },
    [
      [{ sensor: '1 inch' }, 13.2],
      [{ sensor: '1 inch' }, 8.8, { also: 'height' }],
      [{ sensor: '1 inch' }, 15.864, { also: 'diagonal' }],
      [{ sensor: '1 inch' }, 2.727, { also: 'crop factor', unit: '' }],
    ],
  ),
  ...checkRows(
    { calculator: 'sensor-size', unit: 'mm', tolerance: absolute(0.002), source: FORMATS, confidence: 'memory' },
    [
      [{ sensor: '1/2.3 inch' }, 6.17],
      [{ sensor: '1/2.3 inch' }, 4.55, { also: 'height' }],
      [{ sensor: '1/2.3 inch' }, 7.666, { also: 'diagonal' }],
      [{ sensor: '1/2.3 inch' }, 5.644, { also: 'crop factor', unit: '' }],
    ],
  ),
  ...checkRows(
    { calculator: 'sensor-size', unit: 'mm', tolerance: absolute(0.01), source: ANGLE, confidence: 'computed' },
    [[{ aspect: '16/9' }, 20.25, { also: 'height' }]],
  ),
  ...checkRows(
    { calculator: 'focal-length-for-angle', unit: 'mm', tolerance: relative(0.002), source: CLAFF, confidence: 'seen' },
    [
      [{ angle: '73.7°' }, 24],
      [{ angle: '27.0°', across: 'height' }, 50],
    ],
  ),
  ...checkRows(
    {
      calculator: 'hyperfocal-distance',
      unit: 'mm',
      tolerance: absolute(0.01),
      source: GREENLEAF,
      confidence: 'computed',
    },
    [[{ focal: 35, stop: 4, circle: 0.03 }, 10243.33]],
  ),
  ...checkRows(
    { calculator: 'near-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 35, stop: 4, circle: 0.03, focus: 2000 }, 1677.16]],
  ),
  ...checkRows(
    { calculator: 'far-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 35, stop: 4, circle: 0.03, focus: 2000 }, 2476.75]],
  ),
  ...checkRows(
    { calculator: 'depth-of-field', unit: 'mm', tolerance: absolute(0.02), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 35, stop: 4, circle: 0.03, focus: 2000 }, 799.59]],
  ),
  ...checkRows(
    {
      calculator: 'hyperfocal-distance',
      unit: 'mm',
      tolerance: absolute(0.01),
      source: GREENLEAF,
      confidence: 'computed',
    },
    [[{ focal: 25, stop: 2.8, circle: 0.015 }, 14905.95]],
  ),
  ...checkRows(
    { calculator: 'near-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 25, stop: 2.8, circle: 0.015, focus: 2000 }, 1765.66]],
  ),
  ...checkRows(
    { calculator: 'far-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 25, stop: 2.8, circle: 0.015, focus: 2000 }, 2306.06]],
  ),
  ...checkRows(
    { calculator: 'depth-of-field', unit: 'mm', tolerance: absolute(0.02), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 25, stop: 2.8, circle: 0.015, focus: 2000 }, 540.4]],
  ),
  ...checkRows(
    {
      calculator: 'hyperfocal-distance',
      unit: 'mm',
      tolerance: absolute(0.01),
      source: GREENLEAF,
      confidence: 'computed',
    },
    [[{ focal: 50, stop: 2.8, circle: 0.03 }, 29811.9]],
  ),
  ...checkRows(
    { calculator: 'near-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 50, stop: 2.8, circle: 0.03, focus: 2500 }, 2309.85]],
  ),
  ...checkRows(
    { calculator: 'far-limit', unit: 'mm', tolerance: absolute(0.01), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 50, stop: 2.8, circle: 0.03, focus: 2500 }, 2724.26]],
  ),
  ...checkRows(
    { calculator: 'depth-of-field', unit: 'mm', tolerance: absolute(0.02), source: GREENLEAF, confidence: 'computed' },
    [[{ focal: 50, stop: 2.8, circle: 0.03, focus: 2500 }, 414.41]],
  ),
  // at the far limit the blur is the circle of confusion, by definition
  ...checkRows(
    { calculator: 'background-blur', unit: 'mm', tolerance: absolute(1e-6), source: GREENLEAF, confidence: 'computed' },
    [
      [{ focal: 35, stop: 4, focus: 2000, distance: 2476.75 }, 0.03, { tolerance: absolute(1e-5) }],
      [{ focal: 35, stop: 4, focus: 2000, distance: 1677.16 }, 0.03, { tolerance: absolute(1e-5) }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'circle-of-confusion',
      unit: 'mm',
      tolerance: absolute(1e-5),
      source: 'd/1500, computed',
      confidence: 'computed',
    },
    [[{}, 0.02884]],
  ),
  ...checkRows(
    { calculator: 'person-size', unit: 'mm', tolerance: absolute(1.5), source: ANSUR, confidence: 'computed' },
    [
      [{ measure: 'shoulder breadth', sex: 'men', percentile: 5 }, 459],
      [{ measure: 'shoulder breadth', sex: 'men', percentile: 50 }, 509],
      [{ measure: 'shoulder breadth', sex: 'men', percentile: 95 }, 567],
      [{ measure: 'shoulder breadth', sex: 'women', percentile: 5 }, 406],
      [{ measure: 'shoulder breadth', sex: 'women', percentile: 50 }, 450],
      [{ measure: 'shoulder breadth', sex: 'women', percentile: 95 }, 499],
      [{ measure: 'stature', sex: 'men', percentile: 5 }, 1648],
      [{ measure: 'stature', sex: 'men', percentile: 50 }, 1755],
      [{ measure: 'stature', sex: 'men', percentile: 95 }, 1870],
      [{ measure: 'stature', sex: 'women', percentile: 5 }, 1525],
      [{ measure: 'stature', sex: 'women', percentile: 50 }, 1626],
      [{ measure: 'stature', sex: 'women', percentile: 95 }, 1740],
      [{ measure: 'eye height sitting', sex: 'women', percentile: 5 }, 698],
      [{ measure: 'eye height sitting', sex: 'women', percentile: 50 }, 748],
      [{ measure: 'eye height sitting', sex: 'women', percentile: 95 }, 799],
      [{ measure: 'sitting height', sex: 'men', percentile: 5 }, 860],
      [{ measure: 'sitting height', sex: 'men', percentile: 50 }, 918],
      [{ measure: 'sitting height', sex: 'men', percentile: 95 }, 977],
      [{ measure: 'sitting height', sex: 'women', percentile: 5 }, 803],
      [{ measure: 'sitting height', sex: 'women', percentile: 50 }, 857],
      [{ measure: 'sitting height', sex: 'women', percentile: 95 }, 912],
      [{ measure: 'popliteal height', sex: 'men', percentile: 5 }, 390],
      [{ measure: 'popliteal height', sex: 'men', percentile: 50 }, 430],
      [{ measure: 'popliteal height', sex: 'men', percentile: 95 }, 471],
      [{ measure: 'popliteal height', sex: 'women', percentile: 5 }, 350],
      [{ measure: 'popliteal height', sex: 'women', percentile: 50 }, 387],
      [{ measure: 'popliteal height', sex: 'women', percentile: 95 }, 428],
      [{ measure: 'forearm breadth', sex: 'women', percentile: 5 }, 432],
      [{ measure: 'forearm breadth', sex: 'women', percentile: 50 }, 492],
      [{ measure: 'forearm breadth', sex: 'women', percentile: 95 }, 564],
    ],
  ),
  ...checkRows(
    { calculator: 'shoulder-breadth', unit: 'mm', tolerance: absolute(0.1), source: ANSUR, confidence: 'computed' },
    [
      [{ sex: 'men' }, 510.4],
      [{ sex: 'men' }, 32.5, { also: 'standard deviation' }],
      [{ sex: 'women' }, 450.3],
      [{ sex: 'women' }, 28.7, { also: 'standard deviation' }],
    ],
  ),
  ...checkRows(
    { calculator: 'seated-eye-height', unit: 'mm', tolerance: absolute(4), source: ANSUR, confidence: 'computed' },
    [
      [{ sex: 'women', percentile: 5 }, 1048],
      [{ sex: 'men', percentile: 95 }, 1331],
      [{ sex: 'women', percentile: 5, seat: 450 }, 1148],
      [{ sex: 'men', percentile: 95, seat: 450 }, 1310],
    ],
  ),
  ...checkRows(
    { calculator: 'frame-distance', unit: 'm', tolerance: absolute(0.0002), source: PINHOLE, confidence: 'computed' },
    [
      [{ people: 1, shoulder: 567, gap: 100, focal: 50 }, 0.7875],
      [{ people: 2, shoulder: 567, gap: 100, focal: 35 }, 1.1997],
      [{ people: 3, shoulder: 567, gap: 100, focal: 24 }, 1.2673],
      [{ people: 3, shoulder: 567, gap: 100, focal: 35 }, 1.8482],
    ],
  ),
  ...checkRows(
    { calculator: 'frame-size', unit: 'm', tolerance: absolute(0.0001), source: PINHOLE, confidence: 'computed' },
    [[{ distance: '3 m', focal: 35, aspect: '16/9', across: 'height' }, 1.7357]],
  ),
  ...checkRows(
    { calculator: 'flicker-safe-shutter', unit: 's', tolerance: relative(1e-6), source: FLICKER, confidence: 'seen' },
    [
      [{ mains: 60, periods: 1 }, 1 / 120],
      [{ mains: 60, periods: 2 }, 1 / 60],
      [{ mains: 60, periods: 4 }, 1 / 30],
      [{ mains: 50, periods: 1 }, 0.01],
      [{ mains: 50, periods: 2 }, 0.02],
      [{ mains: 50, periods: 4 }, 0.04],
    ],
  ),
  ...checkRows(
    { calculator: 'exposure-ripple', unit: '', tolerance: absolute(2e-5), source: SINC, confidence: 'computed' },
    [
      [{ frequency: 100, exposure: 0.016667 }, 0.1654],
      [{ frequency: 100, exposure: 0.02 }, 0],
      [{ frequency: 120, exposure: 0.016667 }, 0],
      [{ frequency: 120, exposure: 0.02 }, 0.12614],
    ],
  ),
  // half a period of a lamp that is on half the time: all of its light or none
  ...checkRows(
    {
      calculator: 'pulsed-light-swing',
      unit: '',
      tolerance: absolute(1e-9),
      source: 'square wave by hand',
      confidence: 'computed',
    },
    [
      [{ frequency: 100, duty: 0.5, exposure: '5 ms' }, 2],
      [{ frequency: 100, duty: 0.5, exposure: '10 ms' }, 0],
      [{ frequency: 1000, duty: 0.25, exposure: '10.5 ms' }, 0.25 / (10.5 * 0.25)],
    ],
  ),
  ...checkRows(
    {
      calculator: 'rolling-shutter-bars',
      unit: '',
      tolerance: absolute(1e-9),
      source: 'definition',
      confidence: 'computed',
    },
    [[{ frequency: 120, readout: '25 ms' }, 3]],
  ),
  ...checkRows(
    {
      calculator: 'shutter-angle',
      unit: '°',
      tolerance: absolute(1e-6),
      source: 'definition of the shutter angle',
      confidence: 'computed',
    },
    [
      [{ rate: 24, exposure: 1 / 50 }, 172.8],
      [{ rate: 24, exposure: 1 / 60 }, 144],
      [{ rate: 25, exposure: 1 / 50 }, 180],
    ],
  ),
  ...checkRows(
    { calculator: 'pitch-in-pixels', unit: '', tolerance: absolute(0.01), source: PINHOLE, confidence: 'computed' },
    [[{ pitch: '16.6667 mm', focal: 35, distance: '3 m' }, 32.41]],
  ),
  ...checkRows(
    {
      calculator: 'one-minute-distance',
      unit: '',
      tolerance: absolute(0.001),
      source: 'one minute of arc, computed',
      confidence: 'computed',
    },
    [
      [{ lines: 1080 }, 3.183],
      [{ lines: 2160 }, 1.592],
    ],
  ),
  ...checkRows(
    {
      calculator: 'display-angle',
      unit: '°',
      tolerance: absolute(0.1),
      source: 'ITU-R BT.1845/BT.2022 distances, angle computed',
      confidence: 'memory',
    },
    [
      [{ heights: 3.1 }, 32],
      [{ heights: 1.5 }, 61.3],
    ],
  ),
  ...checkRows(
    {
      calculator: 'display-size',
      unit: 'mm',
      tolerance: absolute(0.05),
      source: 'd · 16/√337, computed',
      confidence: 'computed',
    },
    [
      [{ diagonal: '55 in' }, 1217.6],
      [{ diagonal: '55 in' }, 684.9, { also: 'height' }],
    ],
  ),
  ...checkRows(
    {
      calculator: 'viewing-distance',
      unit: 'mm',
      tolerance: absolute(1),
      source: 'w/(2 tan 15°), computed',
      confidence: 'computed',
    },
    [[{ diagonal: '55 in', angle: '30°' }, 2272]],
  ),
  // 1217.6 mm over 3840 pixels
  ...checkRows(
    {
      calculator: 'display-pixel-pitch',
      unit: 'mm',
      tolerance: absolute(2e-5),
      source: 'd · 16/√337, computed',
      confidence: 'computed',
    },
    [[{ diagonal: '55 in', pixels: 3840 }, 1217.6 / 3840]],
  ),
  // a normal distribution of the published mean and deviation: 510.4 ± 0.6745 · 32.5 mm; the sample is a little skew
  ...checkRows(
    {
      calculator: 'person-size',
      unit: 'mm',
      tolerance: absolute(4),
      source: '2012 Anthropometric Survey of U.S. Army Personnel: mean and standard deviation of the bideltoid breadth',
      confidence: 'computed',
    },
    [
      [{ measure: 'shoulder breadth', sex: 'men', percentile: 25 }, 488.5],
      [{ measure: 'shoulder breadth', sex: 'men', percentile: 75 }, 532.3],
      [{ measure: 'shoulder breadth', sex: 'women', percentile: 75 }, 469.7],
    ],
  ),
];
