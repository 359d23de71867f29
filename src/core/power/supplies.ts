import { shareOut } from './design.ts';
import { CLASS_2_VOLTS, class2Limit, SUPPLY_RATINGS, supplyFor } from './rules.ts';
import type { SuppliedStrips, WiredStrip } from './wired.ts';

/** One supply where one of class 2 carries all; else as many of class 2 as the strips can be shared out over. */
export function suppliesFor(own: readonly WiredStrip[]): readonly SuppliedStrips[] {
  const { volts } = own[0]!.kind;
  const outlet = own[0]!.supply;
  const limit = volts <= CLASS_2_VOLTS.dry ? class2Limit(volts).current : 0;
  const most = SUPPLY_RATINGS.filter((r) => r <= limit).at(-1);
  const whole = own.reduce((sum, s) => sum + s.current, 0);
  const rating = supplyFor(whole);
  const single = rating !== undefined && most !== undefined && rating <= most;
  const shared =
    single || most === undefined
      ? undefined
      : shareOut(
          own.map((s) => s.current),
          most,
        )?.supplies;
  const groups = shared?.map((g) => g.toSorted((a, b) => a - b).map((k) => own[k]!)) ?? [own];
  return groups.map((strips, k): SuppliedStrips => {
    const current = strips.reduce((sum, s) => sum + s.current, 0);
    const plate = supplyFor(current);
    return {
      id: `${outlet} · ${volts} V${groups.length > 1 ? ` · ${k + 1} of ${groups.length}` : ''}`,
      outlet,
      volts,
      current,
      rating: plate,
      watts: current * volts,
      class2: plate !== undefined && most !== undefined && plate <= most,
      strips: strips.map((s) => s.run.id),
    };
  });
}
