/** Light that flickers and shutters that sample it. Times s, frequencies Hz. */

/** Shutter times over which mains light averages out: k / (2 f). */
export const safeShutter = (mains: number, k = 1): number => k / (2 * mains);

/** What an exposure of t leaves of a sinusoidal ripple of frequency f: |sin(π f t)/(π f t)|; of whole waves nothing, whatever the sine of a rounded π says. */
export function rippleLeft(frequency: number, exposure: number): number {
  const x = Math.PI * frequency * exposure;
  if (x === 0) return 1;
  const left = Math.abs(Math.sin(x) / x);
  return left < 1e-12 ? 0 : left;
}

/** Shutter angle: 360° · frames a second · exposure. */
export const shutterAngle = (rate: number, exposure: number): number => 360 * rate * exposure;

/** Bright and dark bars across a picture read out line by line under a lamp that pulses: frequency · read-out time. */
export const barsAcross = (frequency: number, readout: number): number => frequency * readout;

/**
 * How much the brightness of a frame (or a line of it) swings under a lamp that is switched on and off (pulse width): the
 * difference between the most and the least light an exposure may catch, as a share of the mean.
 * Exact for a square wave: with n = f t = whole + part, duty d, the swing is min(part, d, 1−d, 1−part) …/(n d).
 */
export function pulseSwing(frequency: number, duty: number, exposure: number): number {
  const n = frequency * exposure;
  const part = n - Math.floor(n);
  // In one period a window of length `part` catches at most min(part, d) and at least max(0, part + d − 1) of the on time.
  const most = Math.min(part, duty);
  const least = Math.max(0, part + duty - 1);
  return (most - least) / (n * duty);
}

/** Pictures of a display or strip: sensor pixels that one pitch of it covers, p f/D / sensor pitch (pinhole). */
export const pitchInPixels = (pitch: number, focal: number, distance: number, sensorPitch: number): number =>
  (pitch * focal) / distance / sensorPitch;

/** Patterns appear when a display's pixel covers fewer than two pixels of the sensor (Nyquist); blur of the lens hides them. */
export const MOIRE_LIMIT = 2;

/** Multiple of the picture's height from which one of n lines spans one minute of arc: 1/(n tan 1′). */
export const oneMinuteDistance = (lines: number): number => 1 / (lines * Math.tan(Math.PI / 180 / 60));
/** Width and height of a display by its diagonal and shape. */
export function displaySize(diagonal: number, aspect = 16 / 9): { readonly width: number; readonly height: number } {
  const height = diagonal / Math.hypot(aspect, 1);
  return { width: height * aspect, height };
}
/** Angle that a width takes from a distance, degrees. */
export const viewingAngle = (width: number, distance: number): number =>
  (2 * Math.atan(width / (2 * distance)) * 180) / Math.PI;
/** Distance from which a width takes an angle. */
export const distanceForAngle = (width: number, angle: number): number =>
  width / (2 * Math.tan((angle * Math.PI) / 360));
