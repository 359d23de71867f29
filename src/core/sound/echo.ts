/** Echoes between two parallel faces. Lengths m, times s. */

/** Repetitions a second between faces d apart: c/(2d). */
export const flutterRate = (distance: number, speed: number): number => speed / (2 * distance);

/** Time in which such an echo falls by 60 dB when each face keeps its share: 60 / (−10 lg((1−α1)(1−α2))) · 2d/c. */
export const flutterDecay = (distance: number, a1: number, a2: number, speed: number): number =>
  ((60 / (-10 * Math.log10((1 - a1) * (1 - a2)))) * 2 * distance) / speed;

/** What one reflection takes, dB: −10 lg(1 − α). */
export const reflectionLoss = (coefficient: number): number => -10 * Math.log10(1 - coefficient);
