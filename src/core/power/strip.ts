import type { Demand, Network, NetworkAnswer, Resistor, Source } from './network.ts';
import { solveNetwork } from './network.ts';

/**
 * Strips, the wires that feed them and their supplies, as one network of both rails.
 * Lengths mm, resistances Ω/m for rails and Ω/km for wires.
 */
export interface StripRun {
  readonly id: string;
  /** Pixels, or groups of lights that share one resistor or driver. */
  readonly groups: number;
  readonly groupLength: number;
  readonly rail: { readonly plus: number; readonly minus: number };
  readonly demand: Demand;
}

/** A two-wire lead from a supply, or from a place on one strip to a place on another. Boundaries run from 0 to the number of groups. */
export interface Lead {
  readonly from: { readonly supply: string } | { readonly strip: string; readonly boundary: number };
  readonly to: { readonly strip: string; readonly boundary: number };
  readonly length: number;
  readonly ohmPerKm: number;
}

export interface Supply {
  readonly id: string;
  readonly volts: number;
  /** Inside resistance, Ω; 0 holds the voltage exactly. */
  readonly ohm: number;
}

export interface Installation {
  readonly strips: readonly StripRun[];
  readonly leads: readonly Lead[];
  readonly supplies: readonly Supply[];
}

export interface StripState {
  readonly id: string;
  /** Voltage across each group, V, from its start. */
  readonly volts: readonly number[];
  readonly lowest: number;
  readonly current: number;
  /** Most current in the plus rail anywhere, A. */
  readonly railCurrent: number;
}
export type InstallationAnswer =
  | {
      readonly status: 'solved';
      readonly strips: readonly StripState[];
      readonly leadCurrents: readonly number[];
      readonly supplyCurrents: readonly number[];
      readonly loss: number;
    }
  | { readonly status: 'collapsed' | 'loose'; readonly why: string };

/**
 * The voltage at every light of an installation. All supplies share their minus, as a common data line demands.
 * @throws RangeError when a lead names a strip, a boundary or a supply that is not there.
 */
export function solveInstallation({ strips, leads, supplies }: Installation): InstallationAnswer {
  const resistors: Resistor[] = [];
  const sources: Source[] = [];
  const loads: { plus: number; minus: number; demand: Demand }[] = [];
  let nodes = 1; // 0: the common minus
  const supplyNode = new Map<string, number>();
  for (const s of supplies) {
    supplyNode.set(s.id, nodes);
    sources.push({ plus: nodes, minus: 0, volts: s.volts, ohm: s.ohm });
    nodes++;
  }
  // A group sits in the middle of its length: half a section, the group, half a section.
  const places = new Map<
    string,
    { run: StripRun; boundary: (k: number) => readonly [number, number]; first: number; load: number }
  >();
  for (const run of strips) {
    const first = nodes;
    const boundary = (k: number): readonly [number, number] => [first + 4 * k, first + 4 * k + 1];
    const middle = (k: number): readonly [number, number] => [first + 4 * k + 2, first + 4 * k + 3];
    nodes += 4 * run.groups + 2;
    places.set(run.id, { run, boundary, first, load: loads.length });
    const half = run.groupLength / 2000;
    for (let k = 0; k < run.groups; k++) {
      const [[p0, m0], [p1, m1], [p2, m2]] = [boundary(k), middle(k), boundary(k + 1)];
      resistors.push(
        { from: p0, to: p1, ohm: run.rail.plus * half },
        { from: p1, to: p2, ohm: run.rail.plus * half },
        { from: m0, to: m1, ohm: run.rail.minus * half },
        { from: m1, to: m2, ohm: run.rail.minus * half },
      );
      loads.push({ plus: p1, minus: m1, demand: run.demand });
    }
  }
  const terminal = (end: Lead['from']): readonly [number, number] => {
    if ('supply' in end) {
      const node = supplyNode.get(end.supply);
      if (node === undefined) throw new RangeError(`no supply '${end.supply}'`);
      return [node, 0];
    }
    const place = places.get(end.strip);
    if (!place) throw new RangeError(`no strip '${end.strip}'`);
    if (!(Number.isInteger(end.boundary) && end.boundary >= 0 && end.boundary <= place.run.groups))
      throw new RangeError(`strip '${end.strip}' has boundaries 0 to ${place.run.groups}, not ${end.boundary}`);
    return place.boundary(end.boundary);
  };
  const leadResistor: number[] = [];
  for (const lead of leads) {
    const [[p0, m0], [p1, m1]] = [terminal(lead.from), terminal(lead.to)];
    // A lead of no length is still a joint; a microohm keeps it from being a short.
    const ohm = Math.max(1e-6, (lead.ohmPerKm * lead.length) / 1e6);
    leadResistor.push(resistors.length);
    resistors.push({ from: p0, to: p1, ohm }, { from: m0, to: m1, ohm });
  }
  const network: Network = { nodes, ground: 0, resistors, sources, loads };
  const answer: NetworkAnswer = solveNetwork(network);
  if (answer.status === 'collapsed')
    return { status: 'collapsed', why: 'the lights ask for more power than these wires can bring at this voltage' };
  if (answer.status === 'loose') {
    const strip = [...places.values()].find(
      ({ first, run }) => answer.node >= first && answer.node < first + 4 * run.groups + 2,
    );
    return {
      status: 'loose',
      why: strip ? `strip '${strip.run.id}' is not fed` : 'a supply is not joined to anything',
    };
  }
  const v = answer.potentials;
  const current = (k: number): number => {
    const r = resistors[k]!;
    return (v[r.from]! - v[r.to]!) / r.ohm;
  };
  let rail = 0;
  const states = strips.map((run): StripState => {
    const { load } = places.get(run.id)!;
    const volts: number[] = [];
    let total = 0;
    let railCurrent = 0;
    for (let k = 0; k < run.groups; k++) {
      const l = loads[load + k]!;
      volts.push(v[l.plus]! - v[l.minus]!);
      total += answer.loadCurrents[load + k]!;
      railCurrent = Math.max(railCurrent, Math.abs(current(rail)), Math.abs(current(rail + 1)));
      rail += 4;
    }
    return { id: run.id, volts, lowest: Math.min(...volts), current: total, railCurrent };
  });
  return {
    status: 'solved',
    strips: states,
    leadCurrents: leadResistor.map(current),
    supplyCurrents: Array.from(answer.sourceCurrents),
    loss: answer.loss,
  };
}

export interface FeedPlan {
  /** Boundaries at which the strip is fed, ascending. */
  readonly boundaries: readonly number[];
  readonly lowest: number;
  readonly railCurrent: number;
}

/**
 * Where to feed a strip in so that no light falls below a voltage, and no rail carries more than it may: at its start, at both ends, then
 * with more feeds evenly between, each by its own pair of wires from the supply. Gives the fewest that will do, or the best that was tried.
 */
export function chooseFeeds(
  run: StripRun,
  supply: Supply,
  wire: { readonly length: number; readonly ohmPerKm: number },
  least: number,
  most = 8,
  railLimit = Number.POSITIVE_INFINITY,
): FeedPlan & { readonly enough: boolean } {
  let best: FeedPlan | undefined;
  for (let feeds = 1; feeds <= most; feeds++) {
    const boundaries =
      feeds === 1 ? [0] : Array.from({ length: feeds }, (_, k) => Math.round((k * run.groups) / (feeds - 1)));
    const answer = solveInstallation({
      strips: [run],
      supplies: [supply],
      leads: boundaries.map((boundary) => ({
        from: { supply: supply.id },
        to: { strip: run.id, boundary },
        // each lead runs on beside the strip to where it feeds in
        length: wire.length + boundary * run.groupLength,
        ohmPerKm: wire.ohmPerKm,
      })),
    });
    if (answer.status !== 'solved') continue;
    const state = answer.strips[0]!;
    const plan = { boundaries, lowest: state.lowest, railCurrent: state.railCurrent };
    if (plan.lowest >= least && plan.railCurrent <= railLimit) return { ...plan, enough: true };
    if (!best || plan.lowest > best.lowest) best = plan;
  }
  return { ...(best ?? { boundaries: [0], lowest: 0, railCurrent: 0 }), enough: false };
}

/**
 * Rise of a strip's channel above the room, K: the heat of each metre through the surface that gives it off,
 * ΔT = P' · Rs / perimeter. `share` is the part of the power that stays as heat in the strip (the rest leaves as light).
 */
export const channelRise = (
  wattsPerMetre: number,
  share: number,
  perimeter: number,
  surfaceResistance: number,
): number => (wattsPerMetre * share * surfaceResistance) / (perimeter / 1000);
