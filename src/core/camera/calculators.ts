import { type AnyCalculator, formula, type Source } from '../notes/index.ts';
import {
  angleOfView,
  blurDiameter,
  circleOfConfusion,
  cropFactor,
  cropTo,
  diagonalOf,
  distanceFor,
  farLimit,
  focalFor,
  frameAt,
  hyperfocal,
  nearLimit,
  rowWidth,
  SENSORS,
  sensorOf,
} from './optics.ts';
import { ANSUR, PEOPLE, personSize, type Sex, SHOULDERS } from './people.ts';
import {
  barsAcross,
  displaySize,
  distanceForAngle,
  MOIRE_LIMIT,
  oneMinuteDistance,
  pitchInPixels,
  pulseSwing,
  rippleLeft,
  safeShutter,
  shutterAngle,
  viewingAngle,
} from './shutter.ts';

const topic = 'camera';
const GREENLEAF: Source = { title: 'A. R. Greenleaf, Photographic Optics', edition: '1950', place: 'depth of field' };
const PINHOLE: Source = { title: 'Pinhole projection (similar triangles)' };
const FLICKER: Source = { title: 'Camera-maker support article 000044870, flicker and shutter speeds' };

const sensor = { choices: SENSORS.map((s) => s.id), about: 'sensor format', default: 'full frame' } as const;
const focal = { dimension: 'length', about: 'focal length', symbol: 'f', above: 0 } as const;
const stop = { dimension: 'number', about: 'f-number', symbol: 'N', above: 0 } as const;
const circle = { dimension: 'length', about: 'circle of confusion', symbol: 'c', default: 0.03, above: 0 } as const;
const focus = { dimension: 'length', about: 'distance in focus', symbol: 's', above: 0 } as const;
const aspect = {
  dimension: 'ratio',
  about: 'width over height of the picture; the whole sensor when left out',
  optional: true,
  above: 0,
} as const;
const width = {
  dimension: 'length',
  about: 'width of the sensor, in place of the format’s',
  optional: true,
  above: 0,
} as const;
const height = {
  dimension: 'length',
  about: 'height of the sensor, in place of the format’s',
  optional: true,
  above: 0,
} as const;
const SIDES = ['width', 'height', 'diagonal'] as const;

interface SensorInputs {
  readonly sensor: string;
  readonly width: number | undefined;
  readonly height: number | undefined;
  readonly aspect?: number | undefined;
}
function activeSensor(v: SensorInputs): { readonly width: number; readonly height: number } {
  const format = sensorOf(v.sensor);
  const whole = { width: v.width ?? format.width, height: v.height ?? format.height };
  return v.aspect === undefined ? whole : cropTo(whole, v.aspect);
}
const sideOf = (s: { readonly width: number; readonly height: number }, side: string): number =>
  side === 'width' ? s.width : side === 'height' ? s.height : diagonalOf(s);

const lenses = [
  formula({
    name: 'angle-of-view',
    title: 'Angle of view of a lens',
    topic,
    about: 'Across the width, height or diagonal of the picture; all three are shown.',
    formula: '2 atan(s/2f)',
    inputs: { focal, sensor, width, height, aspect, across: { choices: SIDES, about: 'which way', default: 'width' } },
    result: { symbol: '', name: 'angle of view', dimension: 'angle' },
    source: { title: 'B. Claff, Angle of View Values for Common Focal Lengths', edition: '2006' },
    assumes: ['a lens without distortion, focused far away'],
    compute: (v) => {
      const active = activeSensor(v);
      return {
        value: angleOfView(sideOf(active, v.across), v.focal),
        also: SIDES.map((s) => ({
          symbol: s,
          name: `angle across the ${s}`,
          value: angleOfView(sideOf(active, s), v.focal),
          unit: '°',
        })),
      };
    },
  }),
  formula({
    name: 'focal-length-for-angle',
    title: 'Focal length that sees an angle',
    topic,
    about: 'The lens to look for.',
    formula: 'f = s/(2 tan(angle/2))',
    inputs: {
      angle: { dimension: 'angle', about: 'angle of view wanted', above: 0, max: 170 },
      sensor,
      width,
      height,
      aspect,
      across: { choices: SIDES, about: 'which way', default: 'width' },
    },
    result: { symbol: 'f', name: 'focal length', dimension: 'length' },
    source: PINHOLE,
    compute: (v) => focalFor(sideOf(activeSensor(v), v.across), v.angle),
  }),
  formula({
    name: 'sensor-size',
    title: 'Size of a sensor',
    topic,
    about: 'Width, height, diagonal and crop factor; with a picture shape, the part that is used.',
    formula: 'crop = diagonal of 36 × 24 mm / diagonal',
    inputs: { sensor, width, height, aspect },
    result: { symbol: 'w', name: 'width', dimension: 'length' },
    source: { title: 'Sensor format dimensions, two published lists' },
    compute: (v) => {
      const active = activeSensor(v);
      return {
        value: active.width,
        also: [
          { symbol: 'h', name: 'height', value: active.height, unit: 'mm' },
          { symbol: 'd', name: 'diagonal', value: diagonalOf(active), unit: 'mm' },
          { symbol: '', name: 'crop factor', value: cropFactor(active), unit: '' },
        ],
        source: v.width === undefined ? sensorOf(v.sensor).source : PINHOLE,
      };
    },
  }),
  formula({
    name: 'hyperfocal-distance',
    title: 'Hyperfocal distance',
    topic,
    about: 'Focus there and everything from half of it on is sharp enough.',
    formula: 'H = f²/(N c) + f',
    inputs: { focal, stop, circle },
    result: { symbol: 'H', name: 'hyperfocal distance', dimension: 'length' },
    source: GREENLEAF,
    compute: (v) => hyperfocal(v.focal, v.stop, v.circle),
  }),
  formula({
    name: 'near-limit',
    title: 'Nearest sharp distance',
    topic,
    about: 'With the lens focused at a distance.',
    formula: 's (H − f)/(H + s − 2f)',
    inputs: { focal, stop, circle, focus },
    result: { symbol: '', name: 'near limit', dimension: 'length' },
    source: GREENLEAF,
    compute: (v) => nearLimit(hyperfocal(v.focal, v.stop, v.circle), v.focal, v.focus),
  }),
  formula({
    name: 'far-limit',
    title: 'Farthest sharp distance',
    topic,
    about: 'With the lens focused nearer than the hyperfocal distance.',
    formula: 's (H − f)/(H − s)',
    inputs: { focal, stop, circle, focus },
    result: { symbol: '', name: 'far limit', dimension: 'length' },
    source: GREENLEAF,
    compute: (v) => {
      const value = farLimit(hyperfocal(v.focal, v.stop, v.circle), v.focal, v.focus);
      if (value === Number.POSITIVE_INFINITY)
        throw new RangeError('everything beyond is sharp: the focus is at or past the hyperfocal distance');
      return value;
    },
  }),
  formula({
    name: 'depth-of-field',
    title: 'Depth of field',
    topic,
    about: 'From the nearest to the farthest sharp distance.',
    formula: 'H = f²/(N c) + f; from s (H − f)/(H + s − 2f) to s (H − f)/(H − s)',
    inputs: { focal, stop, circle, focus },
    result: { symbol: '', name: 'depth of field', dimension: 'length' },
    source: GREENLEAF,
    compute: (v) => {
      const H = hyperfocal(v.focal, v.stop, v.circle);
      const [near, far] = [nearLimit(H, v.focal, v.focus), farLimit(H, v.focal, v.focus)];
      if (far === Number.POSITIVE_INFINITY)
        throw new RangeError(
          `everything from ${Math.round(near)} mm on is sharp: the focus is at or past the hyperfocal distance`,
        );
      return {
        value: far - near,
        also: [
          { symbol: 'H', name: 'hyperfocal distance', value: H, unit: 'mm' },
          { symbol: '', name: 'near limit', value: near, unit: 'mm' },
          { symbol: '', name: 'far limit', value: far, unit: 'mm' },
        ],
      };
    },
  }),
  formula({
    name: 'background-blur',
    title: 'Blur of what is out of focus',
    topic,
    about: 'Diameter on the sensor of the image of a point at a distance.',
    formula: 'f²/(N (s − f)) · |d − s|/d',
    inputs: {
      focal,
      stop,
      focus,
      distance: { dimension: 'length', about: 'distance of the background', symbol: 'd', above: 0 },
    },
    result: { symbol: '', name: 'blur', dimension: 'length' },
    source: GREENLEAF,
    compute: (v) => blurDiameter(v.focal, v.stop, v.focus, v.distance),
  }),
  formula({
    name: 'circle-of-confusion',
    title: 'Circle of confusion',
    topic,
    about: 'What still counts as a point on the sensor.',
    formula: 'c = diagonal/1500',
    inputs: {
      sensor,
      width,
      height,
      share: { dimension: 'number', about: 'parts of the diagonal', default: 1500, above: 0 },
    },
    result: { symbol: 'c', name: 'circle of confusion', dimension: 'length' },
    source: 'common practice',
    compute: (v) => circleOfConfusion(diagonalOf(activeSensor(v)), v.share),
  }),
];

const frames = [
  formula({
    name: 'frame-size',
    title: 'What fills the picture at a distance',
    topic,
    about: 'Width or height of the room that the picture shows there.',
    formula: 's D/f',
    inputs: {
      distance: { dimension: 'length', about: 'distance from the lens', symbol: 'D', above: 0 },
      focal,
      sensor,
      width,
      height,
      aspect,
      across: { choices: SIDES, about: 'which way', default: 'width' },
    },
    result: { symbol: '', name: 'size', dimension: 'length' },
    source: PINHOLE,
    compute: (v) => {
      const active = activeSensor(v);
      return {
        value: frameAt(sideOf(active, v.across), v.focal, v.distance),
        also: SIDES.map((s) => ({
          symbol: s,
          name: `${s} there`,
          value: frameAt(sideOf(active, s), v.focal, v.distance),
          unit: 'mm',
        })),
      };
    },
  }),
  formula({
    name: 'frame-distance',
    title: 'How far the camera must stand',
    topic,
    about: 'So that a width fills the picture, or so many people beside one another.',
    formula: 'D = W f/w; W = n · shoulder + (n − 1) · gap',
    inputs: {
      subject: {
        dimension: 'length',
        about: 'width to show, in place of people',
        symbol: 'W',
        optional: true,
        above: 0,
      },
      people: { dimension: 'count', about: 'people beside one another', symbol: 'n', default: 1, min: 1 },
      shoulder: {
        dimension: 'length',
        about: 'breadth of one at the shoulders (567 mm: 95 of 100 men)',
        default: 567,
        above: 0,
      },
      gap: { dimension: 'length', about: 'gap between them', default: 100, min: 0 },
      margin: { dimension: 'ratio', about: 'how much wider the picture is than they are', default: 1, above: 0 },
      focal,
      sensor,
      width,
      height,
      aspect,
    },
    result: { symbol: 'D', name: 'distance', dimension: 'length' },
    source: PINHOLE,
    compute: (v) => {
      const W = v.subject ?? rowWidth(v.people, v.shoulder, v.gap);
      return {
        value: distanceFor(W * v.margin, v.focal, activeSensor(v).width),
        also: [{ symbol: 'W', name: 'width shown', value: W * v.margin, unit: 'mm' }],
      };
    },
  }),
  formula({
    name: 'person-size',
    title: 'Size of a person',
    topic,
    about: 'By percentile: so many of a hundred are smaller.',
    formula: 'table',
    inputs: {
      measure: { choices: Object.keys(PEOPLE), about: 'what is measured' },
      sex: { choices: ['men', 'women'], about: 'of whom' },
      percentile: {
        dimension: 'number',
        about: '5, 50 and 95 are printed; others follow the normal distribution through them',
        default: 50,
        min: 1,
        max: 99,
      },
    },
    result: { symbol: '', name: 'size', dimension: 'length' },
    source: ANSUR,
    validity: 'a sample of American soldiers, unweighted; not for children',
    compute: (v) => personSize(v.measure, v.sex as Sex, v.percentile),
  }),
  formula({
    name: 'shoulder-breadth',
    title: 'Breadth at the shoulders, mean and spread',
    topic,
    about: 'Bideltoid breadth, with its standard deviation.',
    formula: 'table',
    inputs: { sex: { choices: ['men', 'women'], about: 'of whom' } },
    result: { symbol: '', name: 'mean', dimension: 'length' },
    source: ANSUR,
    compute: (v) => ({
      value: SHOULDERS[v.sex as Sex].mean,
      also: [{ symbol: '', name: 'standard deviation', value: SHOULDERS[v.sex as Sex].deviation, unit: 'mm' }],
    }),
  }),
  formula({
    name: 'seated-eye-height',
    title: 'Eye height of someone seated',
    topic,
    about: 'Above the floor, without shoes: sitting eye height on a seat, or on their own popliteal height.',
    formula: 'eye height sitting + seat',
    inputs: {
      sex: { choices: ['men', 'women'], about: 'of whom' },
      percentile: {
        dimension: 'number',
        about: '5, 50 and 95 are printed; others follow the normal distribution through them',
        default: 50,
        min: 1,
        max: 99,
      },
      seat: {
        dimension: 'length',
        about: 'height of the seat; their own popliteal height when left out',
        optional: true,
        above: 0,
      },
    },
    result: { symbol: '', name: 'eye height', dimension: 'length' },
    source: ANSUR,
    validity: 'a sum of percentiles overstates the spread; men’s 5th and 50th are not in the table here',
    compute: (v) =>
      personSize('eye height sitting', v.sex as Sex, v.percentile) +
      (v.seat ?? personSize('popliteal height', v.sex as Sex, v.percentile)),
  }),
];

const time = { dimension: 'time', about: 'exposure', symbol: 't', above: 0 } as const;
const flicker = [
  formula({
    name: 'flicker-safe-shutter',
    title: 'Shutter time under lamps on the mains',
    topic,
    about: 'Whole half periods of the mains average their flicker out.',
    formula: 't = k/(2 f)',
    inputs: {
      mains: { dimension: 'frequency', about: 'mains frequency', symbol: 'f', default: 60, above: 0 },
      periods: { dimension: 'count', about: 'half periods', symbol: 'k', default: 1, min: 1 },
    },
    result: { symbol: 't', name: 'exposure', dimension: 'time' },
    source: FLICKER,
    compute: (v) => safeShutter(v.mains, v.periods),
  }),
  formula({
    name: 'exposure-ripple',
    title: 'Ripple of light that an exposure leaves',
    topic,
    about: 'Share of a sinusoidal swing in brightness that is left from frame to frame.',
    formula: '|sin(π f t)/(π f t)|',
    inputs: {
      frequency: { dimension: 'frequency', about: 'frequency of the light (twice the mains)', symbol: 'f', above: 0 },
      exposure: time,
    },
    result: { symbol: '', name: 'share left', dimension: 'ratio' },
    source: { title: 'Mean of a sinusoid over the exposure' },
    compute: (v) => rippleLeft(v.frequency, v.exposure),
  }),
  formula({
    name: 'pulsed-light-swing',
    title: 'Swing of brightness under a pulse-dimmed lamp',
    topic,
    about: 'Most less least light that an exposure may catch, over the mean.',
    formula: 'n = f t; (min(part, d) − max(0, part + d − 1))/(n d)',
    inputs: {
      frequency: { dimension: 'frequency', about: 'pulses a second', symbol: 'f', above: 0 },
      duty: { dimension: 'ratio', about: 'share of the time it is on', symbol: 'd', above: 0, max: 1 },
      exposure: time,
    },
    result: { symbol: '', name: 'swing', dimension: 'ratio' },
    source: { title: 'Sliding window over a square wave' },
    compute: (v) => pulseSwing(v.frequency, v.duty, v.exposure),
  }),
  formula({
    name: 'rolling-shutter-bars',
    title: 'Bars across a picture under flickering light',
    topic,
    about: 'A sensor read out line by line sees so many periods in one picture.',
    formula: 'f · read-out time',
    inputs: {
      frequency: { dimension: 'frequency', about: 'frequency of the light', symbol: 'f', above: 0 },
      readout: { dimension: 'time', about: 'time to read the sensor out', above: 0 },
    },
    result: { symbol: '', name: 'bars', dimension: 'number' },
    source: { title: 'Line-by-line read-out' },
    compute: (v) => barsAcross(v.frequency, v.readout),
  }),
  formula({
    name: 'shutter-angle',
    title: 'Shutter angle',
    topic,
    about: 'Of an exposure at a frame rate.',
    formula: '360° · frames a second · t',
    inputs: { rate: { dimension: 'frequency', about: 'frames a second', above: 0 }, exposure: time },
    result: { symbol: '', name: 'angle', dimension: 'angle' },
    source: { title: 'Definition of the shutter angle' },
    compute: (v) => shutterAngle(v.rate, v.exposure),
  }),
];

const displays = [
  formula({
    name: 'pitch-in-pixels',
    title: 'Sensor pixels that one pitch of a display or strip covers',
    topic,
    about: 'Below two, patterns may appear over a display (moiré).',
    formula: 'p f/D / sensor pitch',
    inputs: {
      pitch: {
        dimension: 'length',
        about: 'pitch of the display’s pixels or the strip’s lights',
        symbol: 'p',
        above: 0,
      },
      focal,
      distance: { dimension: 'length', about: 'distance from the lens', symbol: 'D', above: 0 },
      sensor,
      width,
      pixels: { dimension: 'count', about: 'pixels across the sensor', default: 6000, min: 1 },
    },
    result: { symbol: '', name: 'sensor pixels', dimension: 'number' },
    source: PINHOLE,
    compute: (v) => ({
      value: pitchInPixels(v.pitch, v.focal, v.distance, (v.width ?? sensorOf(v.sensor).width) / v.pixels),
      limit: {
        value: MOIRE_LIMIT,
        unit: '',
        why: 'at least two pixels for each (Nyquist), unless the display is out of focus',
      },
    }),
  }),
  formula({
    name: 'display-size',
    title: 'Width and height of a display',
    topic,
    about: 'By its diagonal.',
    formula: 'd · a/√(a² + 1)',
    inputs: {
      diagonal: { dimension: 'length', about: 'diagonal', symbol: 'd', above: 0 },
      aspect: { dimension: 'ratio', about: 'width over height', symbol: 'a', default: 16 / 9, above: 0 },
    },
    result: { symbol: 'w', name: 'width', dimension: 'length' },
    source: { title: 'Pythagoras' },
    compute: (v) => {
      const size = displaySize(v.diagonal, v.aspect);
      return { value: size.width, also: [{ symbol: 'h', name: 'height', value: size.height, unit: 'mm' }] };
    },
  }),
  formula({
    name: 'display-pixel-pitch',
    title: 'Distance from one pixel of a display to the next',
    topic,
    about: 'By its diagonal and its pixels across.',
    formula: 'd · a/√(a² + 1)/n',
    inputs: {
      diagonal: { dimension: 'length', about: 'diagonal', symbol: 'd', above: 0 },
      pixels: { dimension: 'count', about: 'pixels across its width', symbol: 'n', default: 3840, min: 1 },
      aspect: { dimension: 'ratio', about: 'width over height', symbol: 'a', default: 16 / 9, above: 0 },
    },
    result: { symbol: 'p', name: 'pitch', dimension: 'length' },
    source: { title: 'Pythagoras' },
    compute: (v) => displaySize(v.diagonal, v.aspect).width / v.pixels,
  }),
  formula({
    name: 'viewing-distance',
    title: 'Distance from which a display takes an angle',
    topic,
    about: 'Across its width.',
    formula: 'w/(2 tan(angle/2))',
    inputs: {
      width: { dimension: 'length', about: 'width of the display, in place of its diagonal', optional: true, above: 0 },
      diagonal: { dimension: 'length', about: 'diagonal of the display', optional: true, above: 0 },
      aspect: { dimension: 'ratio', about: 'width over height', default: 16 / 9, above: 0 },
      angle: { dimension: 'angle', about: 'angle across its width', default: 30, above: 0, max: 170 },
    },
    result: { symbol: 'D', name: 'distance', dimension: 'length' },
    source: { title: 'Trigonometry' },
    compute: (v) => {
      const w = v.width ?? (v.diagonal === undefined ? undefined : displaySize(v.diagonal, v.aspect).width);
      if (w === undefined) throw new RangeError('the display needs a width or a diagonal');
      return distanceForAngle(w, v.angle);
    },
  }),
  formula({
    name: 'one-minute-distance',
    title: 'Distance at which the lines of a display run together',
    topic,
    about: 'In heights of the picture: one line spans one minute of arc.',
    formula: '1/(n tan 1′)',
    inputs: { lines: { dimension: 'count', about: 'lines of the picture', symbol: 'n', default: 1080, min: 1 } },
    result: { symbol: '', name: 'heights', dimension: 'ratio' },
    source: { title: 'One minute of arc for normal sight', place: 'as in ITU-R BT.1845' },
    compute: (v) => oneMinuteDistance(v.lines),
  }),
  formula({
    name: 'display-angle',
    title: 'Angle a display takes',
    topic,
    about: 'Across its width, from a distance in heights of the picture.',
    formula: '2 atan(a/(2 k))',
    inputs: {
      heights: { dimension: 'ratio', about: 'distance in heights of the picture', symbol: 'k', above: 0 },
      aspect: { dimension: 'ratio', about: 'width over height', symbol: 'a', default: 16 / 9, above: 0 },
    },
    result: { symbol: '', name: 'angle', dimension: 'angle' },
    source: { title: 'Trigonometry' },
    compute: (v) => viewingAngle(v.aspect, v.heights),
  }),
];

export const calculators: readonly AnyCalculator[] = [...lenses, ...frames, ...flicker, ...displays];
