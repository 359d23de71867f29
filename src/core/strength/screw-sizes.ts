import { inch } from '../quantity/index.ts';
import { WOOD_SCREWS } from './timber-fixing.ts';

/**
 * Screws as they are sold, mm: by number and inch, or metric, as the plan is written. Metric sizes and all lengths are common practice.
 */
export interface Screw {
  readonly diameter: number;
  readonly length: number;
}
export interface ScrewSizes {
  readonly usual: Readonly<Record<'lag screw' | 'wood screw' | 'self-drilling screw', Screw>>;
  /** Into the framing through a batten or a panel. */
  readonly panel: Screw;
  readonly lengths: readonly number[];
  /** Tried in this order: longer ones where the board is thick. */
  readonly lags: readonly Screw[];
  /** Into timber let in behind the board: thinner ones hold in less wood, at six diameters. */
  readonly blocking: { readonly diameters: readonly number[]; readonly length: number; readonly longer: number };
  readonly heavyDrilling: Screw;
  /** Plugs with their screws. */
  readonly plugs: readonly number[];
}

const NUMBER = { 8: inch(WOOD_SCREWS[8]), 10: inch(WOOD_SCREWS[10]), 12: inch(WOOD_SCREWS[12]) } as const;

/** The number of a screw of this thickness, mm. */
export const numberOf = (diameter: number): string | undefined =>
  Object.entries(NUMBER).find(([, of]) => Math.abs(of - diameter) < 0.001)?.[0];

export const SCREW_SIZES: Readonly<Record<'inch' | 'metric', ScrewSizes>> = {
  inch: {
    usual: {
      'lag screw': { diameter: inch(0.25), length: inch(3) },
      'wood screw': { diameter: NUMBER[12], length: inch(3) },
      'self-drilling screw': { diameter: NUMBER[10], length: inch(1.5) },
    },
    panel: { diameter: NUMBER[10], length: inch(1.5) },
    lengths: [2, 2.5, 3, 3.5, 4, 5, 6].map(inch),
    lags: [
      { diameter: inch(0.25), length: inch(3) },
      { diameter: inch(5 / 16), length: inch(3.5) },
      { diameter: inch(0.25), length: inch(4) },
      { diameter: inch(5 / 16), length: inch(5) },
      { diameter: inch(5 / 16), length: inch(6) },
    ],
    blocking: { diameters: [NUMBER[12], NUMBER[10], NUMBER[8]], length: inch(2.5), longer: inch(3) },
    heavyDrilling: { diameter: inch(0.25), length: inch(2) },
    plugs: [2.5, 3, 4, 4.75, 5.5, 6.25].map(inch),
  },
  metric: {
    usual: {
      'lag screw': { diameter: 6, length: 80 },
      'wood screw': { diameter: 5, length: 80 },
      'self-drilling screw': { diameter: 4.8, length: 38 },
    },
    panel: { diameter: 5, length: 40 },
    lengths: [50, 60, 70, 80, 90, 100, 120, 140, 160],
    lags: [
      { diameter: 6, length: 80 },
      { diameter: 8, length: 90 },
      { diameter: 6, length: 100 },
      { diameter: 8, length: 120 },
      { diameter: 8, length: 160 },
    ],
    blocking: { diameters: [5, 4.5, 4], length: 60, longer: 80 },
    heavyDrilling: { diameter: 6.3, length: 50 },
    plugs: [60, 80, 100, 120, 140, 160],
  },
};
