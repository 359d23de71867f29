import type { SizeOrShare } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';

/** Lengths inside this folder are whole ticks (1/640 mm) held in plain numbers, so that every sum and difference is exact. */
export type Ticks = number;

export type Division =
  | { readonly fits: true; readonly sizes: readonly Ticks[] }
  /** `over`: how much the fixed sizes ask beyond what there is; negative when they leave some and no share takes it. */
  | { readonly fits: false; readonly over: Ticks };

const isShare = (wanted: SizeOrShare): wanted is { readonly share: number } => typeof wanted !== 'number';

/**
 * Divides a length among sizes and shares. Fixed sizes are taken first; what is left is divided in proportion to the shares, each
 * rounded down to a whole tick, and the ticks that remain go one each to the first shares: leftmost, topmost. With `fromEnd`
 * they go to the last, so that the mirror image of a division is its exact mirror image. The sizes always add up to `total`.
 */
export function divide(total: Ticks, wanted: readonly SizeOrShare[], fromEnd = false): Division {
  if (fromEnd) {
    const turned = divide(total, [...wanted].reverse());
    return turned.fits ? { fits: true, sizes: [...turned.sizes].reverse() } : turned;
  }
  const fixed = wanted.reduce<number>((sum, w) => sum + (isShare(w) ? 0 : toTicks(w)), 0);
  const shares = wanted.reduce<number>((sum, w) => sum + (isShare(w) ? w.share : 0), 0);
  const left = total - fixed;
  if (shares === 0)
    return left === 0 ? { fits: true, sizes: wanted.map((w) => toTicks(w as number)) } : { fits: false, over: -left };
  if (left <= 0) return { fits: false, over: -left };
  const sizes = wanted.map((w) => (isShare(w) ? Math.floor((left * w.share) / shares) : toTicks(w)));
  let spare = total - sizes.reduce((sum, size) => sum + size, 0);
  for (let i = 0; i < sizes.length && spare > 0; i++) {
    if (isShare(wanted[i]!)) {
      sizes[i]! += 1;
      spare -= 1;
    }
  }
  return sizes.every((size) => size > 0) ? { fits: true, sizes } : { fits: false, over: 0 };
}

/** `count` equal shares. */
export const equally = (count: number): readonly SizeOrShare[] => Array.from({ length: count }, () => ({ share: 1 }));

/** Two halves of a whole; the odd tick goes to the first, or to the second with `fromEnd`. */
export function halves(whole: Ticks, fromEnd = false): readonly [Ticks, Ticks] {
  const less = Math.floor(whole / 2);
  return fromEnd ? [less, whole - less] : [whole - less, less];
}
