import type { Origin } from '../notes/index.ts';

/** What a room for speech or music should come to. Volumes m³, times s. */
export interface Target {
  readonly time: number;
  readonly source: Origin;
  readonly note?: string;
}

/** Mid-band time of a listening or recording room: 0.25 (V/100)^⅓, kept within 0.2 to 0.4 s. Source: EBU Tech 3276 2nd ed. (1998) 2.3. */
export const listeningRoomTime = (volume: number): Target => ({
  time: Math.min(0.4, Math.max(0.2, 0.25 * Math.cbrt(volume / 100))),
  source: { title: 'EBU Tech 3276', edition: '2nd (1998)', place: '2.3' },
  note: '200 Hz to 4 kHz within ±0.05 s',
});

/** Most time of an unoccupied furnished core learning space at 500, 1000 and 2000 Hz. Source: ANSI/ASA S12.60 part 1. */
export function classroomTime(volume: number): Target {
  const source = { title: 'ANSI/ASA S12.60', edition: '2010', place: 'part 1, core learning spaces' };
  if (volume <= 283) return { time: 0.6, source };
  if (volume <= 566) return { time: 0.7, source };
  throw new RangeError(`the standard gives no time for more than 566 m³ (20,000 ft³), got ${volume} m³`);
}
export const CLASSROOM_BACKGROUND = {
  dBA: 35,
  source: { title: 'ANSI/ASA S12.60', edition: '2010', place: 'part 1' },
} as const;

/** Teaching and communication (group A3): 0.32 lg V − 0.17. From memory of DIN 18041:2016-03. */
export const teachingTime = (volume: number): Target => ({
  time: 0.32 * Math.log10(volume) - 0.17,
  source: 'from memory',
});

/** Tolerance about the mid-band time, s, by frequency. From memory of ITU-R BS.1116-3: verify before use. */
export function toleranceAbout(frequency: number): { readonly above: number; readonly below: number } {
  if (frequency < 200) {
    // the upper line rises evenly over the octaves from 200 down to 63 Hz
    const share = Math.min(1, Math.log(200 / frequency) / Math.log(200 / 63));
    return { above: 0.05 + 0.25 * share, below: 0.05 };
  }
  return frequency <= 4000 ? { above: 0.05, below: 0.05 } : { above: 0.1, below: 0.1 };
}
