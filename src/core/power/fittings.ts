import { grouped } from '../grouped.ts';
import type { Fitting } from '../scene/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { powerOf } from './plan.ts';

/** Strips, wires and what joins them, as they are bought; nothing where the stock has no pack for any of it, which a note says. */
export function powerFittings(staged: Staged): readonly Fitting[] {
  const all = neededFittings(staged);
  return isPriced(staged, all) ? all : [];
}
export const isPriced = ({ plan }: Staged, fittings: readonly Fitting[]): boolean => {
  const uses = new Set(plan.stock.packs.map((p) => p.use.toLowerCase()));
  return fittings.some((f) => uses.has(f.use.toLowerCase()));
};

export function neededFittings(staged: Staged): readonly Fitting[] {
  const power = powerOf(staged);
  if (!power) return [];
  const first = power.strips[0]!.run.strip.strip;
  const byStrip = grouped(power.strips, (s) => s.run.strip.strip);
  return [
    ...[...byStrip].map(
      ([piece, own]): Fitting => ({
        id: `${piece}/strip`,
        piece,
        use: 'strip light',
        name: `${own[0]!.kind.id}, ${own[0]!.run.strip.perMetre} lights to the metre`,
        count: 1,
        amount: { value: own.reduce((sum, s) => sum + s.length, 0), unit: 'mm' },
      }),
    ),
    ...[...power.total].map(
      ([wire, length]): Fitting => ({
        id: `${first}/wire-${wire}`,
        piece: first,
        use: `wire ${wire}`,
        name: `wire ${wire}, single conductors`,
        count: 1,
        amount: { value: length, unit: 'mm' },
      }),
    ),
    ...power.joinings.map(
      (j): Fitting => ({ id: `${first}/${j.what}`, piece: first, use: j.use, name: j.what, count: j.count }),
    ),
  ];
}
