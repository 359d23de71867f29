/** A part as it lies on a panel or a board, and its number. */
interface Lying {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  readonly number: string;
}
/** Where the middle of a number comes, and how large it is. */
export interface NumberPlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** Of a letter of the size 1: how wide a digit is, and how high it stands. */
const DIGIT = { width: 0.53, height: 0.72 };
const SIZES = [1, 0.8, 0.65, 0.5];
/** Shares of the longer side, from the middle outwards. */
const SHARES = [0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.05, 0.95];

/**
 * Numbers of parts so that no two of them run into one, which would be the number of a third: along its part, and smaller where it must
 * be. The largest part has its number first.
 */
export function numberPlaces(parts: readonly Lying[], size: number): readonly NumberPlace[] {
  const taken: NumberPlace[] = [];
  const wide = (number: string, at: NumberPlace): number => (number.length * DIGIT.width + 0.15) * at.size;
  const words: string[] = [];
  const free = (number: string, at: NumberPlace): boolean =>
    taken.every(
      (other, i) =>
        Math.abs(at.x - other.x) * 2 >= wide(number, at) + wide(words[i]!, other) ||
        Math.abs(at.y - other.y) * 2 >= DIGIT.height * (at.size + other.size),
    );
  const found = new Map<Lying, NumberPlace>();
  for (const part of [...parts].sort((a, b) => b.length * b.width - a.length * a.width)) {
    const { x, y, length, width, number } = part;
    const places = SIZES.flatMap((share) =>
      SHARES.map((along) => ({
        x: x + length * (length >= width ? along : 0.5),
        y: y + width * (length >= width ? 0.5 : along),
        size: size * share,
      })),
    );
    // no higher than its part, nor far over the sides of an upright one, as far as it can be read then
    const within = length < width ? (1.7 * length) / (number.length * DIGIT.width) : 0.9 * width;
    const fit = Math.max(size * SIZES.at(-1)!, within);
    const place = places.find((at) => at.size <= fit + 1e-9 && free(number, at)) ?? places.at(-SHARES.length)!;
    taken.push(place);
    words.push(number);
    found.set(part, place);
  }
  return parts.map((part) => found.get(part)!);
}
