import type { LengthProblem, PanelProblem } from '../src/core/cutting/index.ts';

/** The plain ways to beat: each part, largest first, into the first or the tightest place open (Johnson 1973; Coffman et al. 1980 for levels). */
export type Fit = (rooms: readonly number[], size: number) => number;
export const firstFit: Fit = (rooms, size) => rooms.findIndex((room) => room >= size);
export const bestFit: Fit = (rooms, size) => {
  let best = -1;
  rooms.forEach((room, i) => {
    if (room >= size && (best < 0 || room < rooms[best]!)) best = i;
  });
  return best;
};

export type AnyFit = (problem: LengthProblem) => number;
const boards =
  (fit: Fit): AnyFit =>
  ({ kerf, trim, stock, parts }) => {
    const full = stock[0]!.length - 2 * trim + kerf;
    const sizes = parts.flatMap((part) => Array.from({ length: part.count }, () => part.length + kerf));
    return pack(sizes, full, fit).length;
  };
export const ANY_FIT: readonly (readonly [string, AnyFit])[] = [
  ['first fit', boards(firstFit)],
  ['best fit', boards(bestFit)],
];

/** Rooms left in the bins used. */
function pack(sizes: readonly number[], full: number, fit: Fit): readonly number[] {
  const rooms: number[] = [];
  for (const size of [...sizes].sort((a, b) => b - a)) {
    // A hair for sums of decimal fractions.
    const at = fit(rooms, size - 1e-6);
    if (at >= 0) rooms[at]! -= size;
    else rooms.push(full - size);
  }
  return rooms;
}

/** Levels along the sheet: parts by falling width, side by side in levels; levels, again as lengths, onto sheets. Sheets used. */
export function levelFit({ kerf, trim, stock, parts }: PanelProblem, fit: Fit): number {
  const long = stock[0]!.length - 2 * trim + kerf;
  const wide = stock[0]!.width - 2 * trim + kerf;
  const sizes = parts
    .flatMap((part) => Array.from({ length: part.count }, () => part))
    .map((part) => {
      const lies = { length: part.length + kerf, width: part.width + kerf };
      const stands = { length: part.width + kerf, width: part.length + kerf };
      // Lying flat where it may and fits: low levels waste least.
      const fitsTurned = part.turn === true && stands.length <= long + 1e-6 && stands.width <= wide + 1e-6;
      return fitsTurned && (stands.width < lies.width || lies.length > long + 1e-6 || lies.width > wide + 1e-6)
        ? stands
        : lies;
    })
    .sort((a, b) => b.width - a.width || b.length - a.length);
  const rooms: number[] = [];
  const heights: number[] = [];
  for (const { length, width } of sizes) {
    const at = fit(rooms, length - 1e-6);
    if (at >= 0) rooms[at]! -= length;
    else {
      rooms.push(long - length);
      heights.push(width);
    }
  }
  return pack(heights, wide, fit).length;
}
