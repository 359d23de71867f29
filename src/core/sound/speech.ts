/** How well speech comes across. Times s, distances m, volumes m³, levels dB. */

/** R = S ᾱ / (1 − ᾱ), m². Source: Sound System Design Reference Manual (1999), ch. 5. */
export const roomConstant = (area: number, meanCoefficient: number): number =>
  (area * meanCoefficient) / (1 - meanCoefficient);

/** Distance at which direct and reverberant sound are equal, m: 0.141 √(Q R). Same source. */
export const criticalDistance = (directivity: number, constant: number): number =>
  0.141 * Math.sqrt(directivity * constant);
/** The same from volume and reverberation time: 0.057 √(Q V / T). Source: G. Ballou (ed.), Handbook for Sound Engineers (2008). */
export const criticalDistanceByTime = (directivity: number, volume: number, time: number): number =>
  0.057 * Math.sqrt((directivity * volume) / time);
/** Direct over reverberant level at a distance, dB: 20 lg(Dc/r). */
export const directToReverberant = (critical: number, distance: number): number => 20 * Math.log10(critical / distance);

/** Modulation frequencies of the speech transmission index, Hz. Source: IEC 60268-16. */
export const MODULATION_FREQUENCIES = [0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5] as const;

/**
 * How much of a modulation is left by an exponential decay and steady noise:
 * m(F) = [1 + (2πF T/13.8)²]^−½ / (1 + 10^(−SNR/10)). Source: T. Houtgast & H. J. M. Steeneken.
 */
export const modulationTransfer = (F: number, time: number, signalToNoise = Number.POSITIVE_INFINITY): number =>
  1 / Math.sqrt(1 + ((2 * Math.PI * F * time) / 13.8) ** 2) / (1 + 10 ** (-signalToNoise / 10));

/** Transmission index of one m: its apparent signal-to-noise ratio, cut at ±15 dB, on a scale from 0 to 1. Source: IEC 60268-16. */
export function transmissionIndex(m: number): number {
  if (m <= 0) return 0;
  if (m >= 1) return 1;
  const apparent = 10 * Math.log10(m / (1 - m));
  return (Math.min(15, Math.max(-15, apparent)) + 15) / 30;
}

/**
 * Weights of the octave bands 125 Hz … 8 kHz for a male voice, and of the redundancy between neighbours; α and −β sum to 1.
 * Source: IEC 60268-16:2011 (edition 4), from memory.
 */
export const BAND_WEIGHTS = {
  alpha: [0.085, 0.127, 0.23, 0.233, 0.309, 0.224, 0.173],
  beta: [0.085, 0.078, 0.065, 0.011, 0.047, 0.095],
} as const;

/** Mean transmission index of one band over the fourteen modulation frequencies. */
export const bandIndex = (time: number, signalToNoise = Number.POSITIVE_INFINITY): number =>
  MODULATION_FREQUENCIES.reduce((sum, F) => sum + transmissionIndex(modulationTransfer(F, time, signalToNoise)), 0) /
  MODULATION_FREQUENCIES.length;

/**
 * Speech transmission index from reverberation time and signal-to-noise ratio in the seven octave bands.
 * Left out: the direct sound, masking between bands and the threshold of hearing, so it is an estimate for a listener beyond
 * the critical distance.
 */
export function speechTransmission(
  times: readonly number[],
  signalToNoise: readonly number[] = times.map(() => Number.POSITIVE_INFINITY),
): number {
  if (times.length !== 7 || signalToNoise.length !== 7)
    throw new RangeError('the index needs seven octave bands, 125 Hz to 8 kHz');
  const bands = times.map((t, k) => bandIndex(t, signalToNoise[k]!));
  let sti = 0;
  bands.forEach((m, k) => {
    sti += BAND_WEIGHTS.alpha[k]! * m;
  });
  for (let k = 0; k < 6; k++) sti -= BAND_WEIGHTS.beta[k]! * Math.sqrt(bands[k]! * bands[k + 1]!);
  return Math.min(1, Math.max(0, sti));
}

/** Words for an index, from their lower limits. Source: IEC 60268-16, as read in a secondary text. */
export const STI_WORDS = [
  { from: 0.75, word: 'excellent' },
  { from: 0.6, word: 'good' },
  { from: 0.45, word: 'fair' },
  { from: 0.3, word: 'poor' },
  { from: 0, word: 'bad' },
] as const;
export const sayIndex = (sti: number): string => STI_WORDS.find((w) => sti >= w.from)?.word ?? 'bad';

/** Loss of consonants, %: 200 D² T²/(V Q), no more than 9 T (the far field). Source: V. M. A. Peutz, J. Audio Eng. Soc. 19 (1971). */
export const articulationLoss = (distance: number, time: number, volume: number, directivity = 1): number =>
  Math.min((200 * distance ** 2 * time ** 2) / (volume * directivity), 9 * time);

/** STI = 0.9482 − 0.1845 ln(%ALcons). Source: F. Becker's relation, from memory. */
export const indexFromArticulation = (percent: number): number =>
  Math.min(1, Math.max(0, 0.9482 - 0.1845 * Math.log(percent)));

/** Energy of the first 50 ms over the rest, dB, in an exponential decay: 10 lg(e^(13.8·0.05/T) − 1). Source: ISO 3382-1 definition of C50, integrated. */
export const clarity = (time: number, early = 0.05): number =>
  10 * Math.log10(Math.expm1((6 * Math.LN10 * early) / time));

/** Sum of levels that have nothing to do with one another, dB. */
export const sumLevels = (levels: readonly number[]): number =>
  10 * Math.log10(levels.reduce((sum, level) => sum + 10 ** (level / 10), 0));
