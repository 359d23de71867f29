import { copperResistance, gaugeArea, STANDARD_AREAS, twoWireDrop } from './conductor.ts';
import { deviceFor, fuseFor, PROTECTION_BY_AREA, protectionFor } from './rules.ts';

/** Choosing wires, supplies and fuses, and the list of wires to cut. Lengths mm, currents A, voltages V. */

export interface WireSize {
  /** As it is bought: '18 AWG', '0.75 mm²'. */
  readonly name: string;
  readonly area: number;
  readonly ohmPerKm: number;
  /** Largest fuse that guards it, where a source is at hand. */
  readonly limit: number | undefined;
}

/** Sizes a low-voltage lead comes in, thin to thick. Resistances warm (50 °C) for gauges, the standard's maximum at 20 °C for areas. */
export function wireSizes(system: 'gauge' | 'metric'): readonly WireSize[] {
  if (system === 'metric')
    return STANDARD_AREAS.rows.map((r) => ({
      name: `${r.area} mm²`,
      area: r.area,
      ohmPerKm: r.flexible,
      limit: PROTECTION_BY_AREA.find((p) => p.area === r.area)?.amps,
    }));
  return [22, 20, 18, 16, 14, 12, 10].map((gauge) => ({
    name: `${gauge} AWG`,
    area: gaugeArea(gauge),
    ohmPerKm: copperResistance(gaugeArea(gauge), 50, '7 strands'),
    limit: gauge >= 20 ? undefined : protectionFor(gauge).amps,
  }));
}

export interface WireChoice {
  readonly wire: WireSize;
  readonly drop: number;
  /** The smallest common fuse that fits the load and the wire; undefined when the wire's limit is not known here. */
  readonly fuse: number | undefined;
}
/** The thinnest wire that keeps the drop and, where its limit is known, leaves room for a fuse. Undefined when none does. */
export function chooseWire(
  sizes: readonly WireSize[],
  length: number,
  current: number,
  drop: number,
): WireChoice | undefined {
  for (const wire of sizes) {
    const falls = twoWireDrop(length, current, wire.ohmPerKm);
    if (falls > drop * (1 + 1e-12)) continue;
    const fuse = wire.limit === undefined ? undefined : fuseFor(current, wire.limit);
    if (wire.limit !== undefined && fuse === undefined) continue;
    return { wire, drop: falls, fuse };
  }
  return undefined;
}

export interface SharedOut {
  /** Which loads each supply carries, by their place in the list. */
  readonly supplies: readonly (readonly number[])[];
  /** No fewer can do: the sum of the loads over what one may carry. */
  readonly bound: number;
}
/**
 * Loads shared out over supplies of one rating, each loaded to 80 % at most: largest first into the first that has room.
 * A load larger than one supply may carry makes it impossible: it has to be split first.
 */
export function shareOut(loads: readonly number[], rating: number): SharedOut | undefined {
  const room = rating / deviceFor(1);
  if (loads.some((l) => l > room * (1 + 1e-9))) return undefined;
  const supplies: { left: number; loads: number[] }[] = [];
  const order = loads.map((_, k) => k).sort((a, b) => loads[b]! - loads[a]! || a - b);
  for (const k of order) {
    const place = supplies.find((s) => s.left >= loads[k]! * (1 - 1e-9));
    if (place) {
      place.left -= loads[k]!;
      place.loads.push(k);
    } else supplies.push({ left: room - loads[k]!, loads: [k] });
  }
  return {
    supplies: supplies.map((s) => s.loads),
    bound: Math.ceil(loads.reduce((sum, l) => sum + l, 0) / room - 1e-9),
  };
}

export interface Run {
  readonly from: string;
  readonly to: string;
  /** What is drawn: a red and a black conductor, or the white one of a data line. Left out: the pair. */
  readonly kind?: 'pair' | 'data';
  /** The way the pair takes, mm. */
  readonly length: number;
  readonly wire: string;
}
export interface WireCut {
  readonly wire: string;
  readonly label: string;
  /** Of each conductor. */
  readonly length: number;
  readonly colour: 'red' | 'black' | 'white';
}
/** Pieces to cut: a red and a black conductor for each run, a white one for data, each longer by what its ends take. Longest first, by wire. */
export function wireCuts(
  runs: readonly Run[],
  ends = 150,
): { readonly cuts: readonly WireCut[]; readonly total: ReadonlyMap<string, number> } {
  const cuts = runs.flatMap((run): WireCut[] =>
    (run.kind === 'data' ? (['white'] as const) : (['red', 'black'] as const)).map((colour) => ({
      wire: run.wire,
      label: `${run.from} → ${run.to}`,
      length: run.length + 2 * ends,
      colour,
    })),
  );
  cuts.sort((a, b) =>
    a.wire < b.wire ? -1 : a.wire > b.wire ? 1 : b.length - a.length || (a.label < b.label ? -1 : 1),
  );
  const total = new Map<string, number>();
  for (const c of cuts) total.set(c.wire, (total.get(c.wire) ?? 0) + c.length);
  return { cuts, total };
}
