import type { Origin } from '../notes/index.ts';

/** Lenses and sensors. Lengths mm, angles degrees. Thin lens; angles with focus at infinity unless said otherwise. */

export interface Sensor {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly source: Origin;
}
const FORMATS: Origin = { title: 'Sensor format dimensions, two published lists' };
export const SENSORS: readonly Sensor[] = [
  { id: 'full frame', width: 36, height: 24, source: FORMATS },
  // 23.4, 23.5 and 23.7 mm are all in use; data sheets decide
  { id: 'APS-C', width: 23.5, height: 15.6, source: FORMATS },
  { id: 'four thirds', width: 17.3, height: 13, source: FORMATS },
  { id: '1 inch', width: 13.2, height: 8.8, source: FORMATS },
  { id: '1/2.3 inch', width: 6.17, height: 4.55, source: 'from memory' },
];
export function sensorOf(id: string): Sensor {
  const sensor = SENSORS.find((s) => s.id === id);
  if (!sensor) throw new RangeError(`no sensor '${id}'`);
  return sensor;
}
export const diagonalOf = (sensor: { readonly width: number; readonly height: number }): number =>
  Math.hypot(sensor.width, sensor.height);
/** Diagonal of 36 × 24 mm over the sensor's own. */
export const cropFactor = (sensor: { readonly width: number; readonly height: number }): number =>
  Math.hypot(36, 24) / diagonalOf(sensor);

/** The part of a sensor that a picture of another shape uses: all of its width or all of its height. */
export function cropTo(
  sensor: { readonly width: number; readonly height: number },
  aspect: number,
): { readonly width: number; readonly height: number } {
  return sensor.width / sensor.height < aspect
    ? { width: sensor.width, height: sensor.width / aspect }
    : { width: sensor.height * aspect, height: sensor.height };
}

const degrees = (radians: number): number => (radians * 180) / Math.PI;
const radians = (angle: number): number => (angle * Math.PI) / 180;

/** 2 atan(s/2f). */
export const angleOfView = (side: number, focal: number): number => degrees(2 * Math.atan(side / (2 * focal)));
/** The focal length whose view across a side is an angle. */
export const focalFor = (side: number, angle: number): number => side / (2 * Math.tan(radians(angle) / 2));

/** Width of what fills a side of the sensor at a distance: s D / f (pinhole: D from the lens's entrance). */
export const frameAt = (side: number, focal: number, distance: number): number => (side * distance) / focal;
/** Distance from which a width fills a side of the sensor: W f / s. */
export const distanceFor = (width: number, focal: number, side: number): number => (width * focal) / side;

/** Width that so many people beside one another take. */
export const rowWidth = (people: number, shoulder: number, gap: number): number =>
  people * shoulder + (people - 1) * gap;

/** H = f²/(N c) + f: focus there and everything from half of it to infinity is sharp enough. Source: A. R. Greenleaf, Photographic Optics (1950). */
export const hyperfocal = (focal: number, stop: number, circle: number): number =>
  (focal * focal) / (stop * circle) + focal;
/** Nearest sharp distance: s (H − f)/(H + s − 2f). */
export const nearLimit = (H: number, focal: number, distance: number): number =>
  (distance * (H - focal)) / (H + distance - 2 * focal);
/** Farthest sharp distance: s (H − f)/(H − s), or infinity from the hyperfocal distance on. */
export const farLimit = (H: number, focal: number, distance: number): number =>
  distance >= H ? Number.POSITIVE_INFINITY : (distance * (H - focal)) / (H - distance);

/** Diameter of the blurred image of a point at d when focused at s: f²/(N (s − f)) · |d − s|/d. The limits above are where it is c. */
export const blurDiameter = (focal: number, stop: number, focus: number, distance: number): number =>
  (((focal * focal) / (stop * (focus - focal))) * Math.abs(distance - focus)) / distance;

/** Circle of confusion by the diagonal: d/1500. Common practice. */
export const circleOfConfusion = (diagonal: number, share = 1500): number => diagonal / share;
