import type { Fitting } from '../scene/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { powerOf } from './plan.ts';
import { NO_WIRE } from './wired.ts';

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
  return [
    // each length by itself: it comes off one reel
    ...power.strips.map(
      ({ kind, length, run: { strip } }, i): Fitting => ({
        id: `${strip.strip}/strip-${i + 1}`,
        piece: strip.strip,
        use: 'strip light',
        name: `${kind.id}, ${strip.perMetre} lights to the metre`,
        count: 1,
        amount: { value: length, unit: 'mm' },
        lights: { perMetre: strip.perMetre, volts: kind.volts },
      }),
    ),
    ...[...power.total].flatMap(([wire, length]): readonly Fitting[] =>
      wire === NO_WIRE
        ? []
        : [
            {
              id: `${first}/wire-${wire}`,
              piece: first,
              use: `wire ${wire}`,
              name: `wire ${wire}, single conductors`,
              count: 1,
              amount: { value: length, unit: 'mm' },
            },
          ],
    ),
    ...power.joinings.map(
      (j): Fitting => ({ id: `${first}/${j.what}`, piece: first, use: j.use, name: j.what, count: j.count }),
    ),
  ];
}
