import type { Origin } from '../notes/index.ts';

/**
 * Strips of lights: what one pixel takes, how long its data lasts, how far they lie apart.
 * Currents A, times s, lengths mm.
 */

/** One kind of addressable pixel. Currents of chips sold under one name differ: every field is a starting value, to be overwritten from the data sheet. */
export interface PixelKind {
  readonly id: string;
  readonly volts: number;
  readonly supply: readonly [least: number, most: number];
  /** Full-scale current of each channel, A, and what it takes when dark. */
  readonly channels: readonly number[];
  readonly quiescent: number;
  readonly bits: number;
  /** Least pause that ends a frame, s. */
  readonly reset: number;
  /** One supply carries several pixels in series: the current is shared by so many. */
  readonly perGroup: number;
  readonly source: Origin;
  readonly currentSource: Origin;
}

/** High and low times of a zero and a one, s. The RGBW row was read as quoted in a driver's source; ±0.15 µs. */
export const BIT_SHAPE = {
  zero: [0.3e-6, 0.9e-6],
  one: [0.6e-6, 0.6e-6],
  source: { title: 'SK6812RGBW data sheet', edition: 'rev. 01', place: 'timing' },
} as const;

/** One bit of the 800 kbit/s one-wire protocol, s. Source: Worldsemi WS2812B data sheet, "data transfer time". */
export const BIT_TIME = 1.25e-6;

export const PIXEL_KINDS: readonly PixelKind[] = [
  {
    id: '5 V RGB, typical',
    volts: 5,
    supply: [3.7, 5.3],
    channels: [0.016, 0.011, 0.015],
    quiescent: 0.001,
    bits: 24,
    reset: 280e-6,
    perGroup: 1,
    source: { title: 'Worldsemi WS2812B data sheet', edition: 'later revision', place: 'reset > 280 µs' },
    currentSource: { title: 'FastLED library', place: 'power_mgt.cpp, currents of one 5 V pixel' },
  },
  {
    id: '5 V RGB, first edition',
    volts: 5,
    supply: [3.5, 5.3],
    channels: [0.02, 0.02, 0.02],
    quiescent: 0.001,
    bits: 24,
    reset: 50e-6,
    perGroup: 1,
    source: { title: 'Worldsemi WS2812B data sheet', edition: 'first editions', place: 'reset ≥ 50 µs' },
    currentSource: 'from memory',
  },
  {
    id: '5 V RGB, measured',
    volts: 5,
    supply: [3.7, 5.3],
    // only the sum at full white was measured; shared out evenly
    channels: [0.03325 / 3, 0.03325 / 3, 0.03325 / 3],
    quiescent: 0,
    bits: 24,
    reset: 280e-6,
    perGroup: 1,
    source: { title: 'Worldsemi WS2812B data sheet', edition: 'later revision', place: 'reset > 280 µs' },
    currentSource: {
      title: 'Published regression of measured WS2812B currents (12 mA class)',
      place: 'slope, 33.25 mA a pixel',
    },
  },
  {
    id: '5 V RGBW',
    volts: 5,
    supply: [4.5, 5.5],
    channels: [0.02, 0.02, 0.02, 0.02],
    quiescent: 0.001,
    bits: 32,
    reset: 80e-6,
    perGroup: 1,
    source: { title: 'SK6812RGBW data sheet', edition: 'rev. 01', place: 'timing' },
    currentSource: { title: 'Community list of addressable LED chips', place: 'SK6812 (not a data sheet)' },
  },
  {
    id: '12 V RGB',
    volts: 12,
    supply: [9, 13],
    channels: [0.01, 0.01, 0.01],
    quiescent: 0.0021,
    bits: 24,
    reset: 300e-6,
    perGroup: 1,
    source: { title: 'Worldsemi WS2815 data sheet', place: 'summary: 9-13 V, reset ≥ 300 µs' },
    currentSource: { title: 'Community list of addressable LED chips', place: 'WS2815 (not a data sheet)' },
  },
];

export function pixelKind(id: string): PixelKind {
  const kind = PIXEL_KINDS.find((k) => k.id === id);
  if (!kind) throw new RangeError(`no pixel kind '${id}'`);
  return kind;
}

/** Time of one pixel's data, s. */
export const pixelTime = (bits: number, bitTime = BIT_TIME): number => bits * bitTime;

/** Time of one frame on one data line, s: n · bits · bit time + reset. */
export const frameTime = (pixels: number, bits: number, reset: number, bitTime = BIT_TIME): number =>
  pixels * pixelTime(bits, bitTime) + reset;

/** Most pixels on one data line at a frame rate. */
export function pixelsForRate(rate: number, bits: number, reset: number, bitTime = BIT_TIME): number {
  const free = 1 / rate - reset;
  // A whole count that comes out a hair short by rounding is still that count.
  return free <= 0 ? 0 : Math.floor(free / pixelTime(bits, bitTime) + 1e-9);
}

/**
 * What one pixel takes, A: quiescent + Σ channel · level. Levels 0 … 1, one per channel; the light of a channel follows its level
 * in time (pulse width), so its mean current does too.
 */
export function pixelCurrent(channels: readonly number[], quiescent: number, levels: readonly number[]): number {
  return quiescent + channels.reduce((sum, amps, k) => sum + amps * (levels[k] ?? levels.at(-1) ?? 1), 0);
}

/** Distance from one pixel to the next, mm. */
export const pitch = (perMetre: number): number => 1000 / perMetre;

/**
 * Longest strip that fits and can be cut: strips part only between groups (one pixel, or as many lights as run in series).
 * @returns whole groups, the strip's length and what is left over, mm
 */
export function cutToFit(
  space: number,
  groupLength: number,
  ends = 0,
): { readonly groups: number; readonly length: number; readonly left: number } {
  const groups = Math.max(0, Math.floor((space - ends) / groupLength + 1e-9));
  const length = groups * groupLength;
  return { groups, length, left: Math.max(0, space - ends - length) };
}
