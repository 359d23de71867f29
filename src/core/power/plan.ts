import { add, scale, subtract, type Vec3, vec } from '../geometry/index.ts';
import { grouped } from '../grouped.ts';
import type { Note, Working } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import { roundly } from '../quantity/index.ts';
import { pointOnWall } from '../room/index.ts';
import type { Fitting } from '../scene/index.ts';
import { type Staged, type StripStretch, stripRuns, wallIndex } from '../surroundings/index.ts';
import { railResistance, traceCurrent } from './conductor.ts';
import { chooseWire, type Run, shareOut, type WireChoice, type WireCut, wireCuts, wireSizes } from './design.ts';
import { cutToFit, frameTime, PIXEL_KINDS, type PixelKind, pitch, pixelCurrent, pixelKind } from './pixel.ts';
import { CLASS_2_VOLTS, class2Limit, ELECTRICAL_CAUTION, SUPPLY_RATINGS, supplyFor } from './rules.ts';
import { channelRise, chooseFeeds, type FeedPlan } from './strip.ts';

/** One stretch of a strip as it is cut, fed and protected. Lengths mm, currents A. */
export interface WiredStrip {
  /** From the end that is fed first. */
  readonly run: StripStretch;
  /** Which of its ends that is, as one faces it. */
  readonly begins: 'left' | 'right';
  readonly kind: PixelKind;
  readonly pixels: number;
  readonly length: number;
  readonly current: number;
  readonly feeds: FeedPlan & { readonly enough: boolean };
  readonly lead: number;
  readonly wire: WireChoice | undefined;
  /** The outlet its supply is plugged in at. */
  readonly supply: string;
  readonly wattsPerMetre: number;
  /** How much warmer than the room its channel gets, K. */
  readonly rise: number;
}
/** One supply: its strips, its plate, its fuse box. */
export interface SuppliedStrips {
  readonly id: string;
  /** The outlet it is plugged in at. */
  readonly outlet: string;
  readonly volts: number;
  readonly current: number;
  /** What its plate should say: the smallest on sale that is loaded to 80 % at most; undefined where none is large enough. */
  readonly rating: number | undefined;
  readonly class2: boolean;
  readonly watts: number;
  /** Names of its strips' stretches. */
  readonly strips: readonly string[];
}
/** The data of all strips of one voltage that start at one outlet: one controller, one strip handing on to the next. */
export interface DataLine {
  readonly outlet: string;
  readonly pixels: number;
  readonly frames: number;
  /** Stretches in the order the data runs, with the wire to each from the one before it (the first: from the controller), mm. */
  readonly links: readonly { readonly to: string; readonly title: string; readonly wire: number }[];
  /** Farther to the first light than common practice goes without a stronger driver. */
  readonly far: boolean;
}
/** What is joined so that it can be taken apart again. */
export interface Joining {
  readonly what: string;
  readonly count: number;
  readonly use: string;
}
export interface PowerPlan {
  readonly strips: readonly WiredStrip[];
  readonly supplies: readonly SuppliedStrips[];
  readonly data: readonly DataLine[];
  readonly joinings: readonly Joining[];
  readonly cuts: readonly WireCut[];
  readonly total: ReadonlyMap<string, number>;
  readonly unknown: readonly string[];
  readonly workings: readonly Working[];
}

/** 1 oz copper (35 µm), 2.5 mm wide for each rail. Common practice; the reel's data sheet decides. */
const RAIL = { width: 2.5, copper: 35 } as const;
/** How much a rail may warm by its own current, K, beside what its lights give off. Common practice. */
const RAIL_RISE = 10;
/** What a rail may carry then, A: IPC-2221, 6.2, an outer trace. */
const RAIL_LIMIT = traceCurrent(RAIL.width, RAIL.copper, RAIL_RISE);
/** Slack at each end for stripping and bends, mm. Common practice. */
const ENDS = 150;
/** Share of the supply's voltage that a lead may lose. Common practice. */
const LEAD_DROP = 0.03;
/** Share of a light's power that stays in the channel as heat. Common practice: a third leaves as light at best. */
const HEAT_SHARE = 0.75;
/** From a surface to the air of a room, m² K/W: ISO 6946:2017, table 7, heat flow horizontal. */
const SURFACE_RESISTANCE = 0.13;
/** Warmer than the room by this, a strip ages fast. Common practice. */
const RISE_LIMIT = 25;
/** A data line to the first light without a stronger driver, mm. Common practice. */
const DATA_REACH = 3000;
/** The wire of a data line. Common practice. */
const DATA_WIRE = { metric: '0.5 mm²', gauge: '22 AWG' } as const;

const kept = new WeakMap<object, PowerPlan | undefined>();
/** Undefined where the option has no strips, or none that is long enough for a light. */
export function powerOf(staged: Staged): PowerPlan | undefined {
  if (!kept.has(staged.pieces)) kept.set(staged.pieces, reckon(staged));
  return kept.get(staged.pieces);
}

/** Wire is taken in the sizes the stock sells; where it sells none, or both, in those that go with the plan's lengths. */
function soldByArea({ stock, units }: Staged['plan']): boolean {
  const sold = (unit: string): boolean => stock.packs.some(({ use }) => use.startsWith('wire ') && use.endsWith(unit));
  const [area, gauge] = [sold(' mm²'), sold(' AWG')];
  return area === gauge ? units.length !== 'ft-in' && units.length !== 'in' : area;
}

/** Free of lights at the ends of a channel, both together, mm: solder and plug. Common practice. */
const STRIP_ENDS = 20;

/** What of a strip fits into a stretch. */
function cutOf(run: StripStretch) {
  const known = PIXEL_KINDS.some((k) => k.id === run.strip.pixel);
  const kind = pixelKind(known ? run.strip.pixel : '5 V RGB, typical');
  const step = pitch(run.strip.perMetre);
  return { kind, known, step, ...cutToFit(run.space, step * kind.perGroup, STRIP_ENDS) };
}

/** Down inside the wall or the case and along: not as the crow flies. */
const apart = (a: Vec3, b: Vec3): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) + Math.abs(a.z - b.z);
const turnedRound = (run: StripStretch): StripStretch => ({ ...run, from: run.to, to: run.from });

function reckon(staged: Staged): PowerPlan | undefined {
  const runs = stripRuns(staged);
  if (runs.length === 0) return undefined;
  const { room, plan } = staged;
  const metric = soldByArea(plan);
  const sizes = wireSizes(metric ? 'metric' : 'gauge').filter((w) => metric || w.limit !== undefined);
  const outlets = room.services
    .filter((s) => s.kind === 'outlet')
    .map((s) => {
      const wall = room.walls[wallIndex(room, s.wall)]!;
      return { id: s.id, at: pointOnWall(wall, (s.x[0] + s.x[1]) / 2, (s.y[0] + s.y[1]) / 2, 0) };
    });
  const unknown = new Set<string>();
  const strips = runs.flatMap((said): readonly WiredStrip[] => {
    const { kind, known, step, groups, length } = cutOf(said);
    if (!known) unknown.add(said.strip.pixel);
    if (groups === 0) return [];
    const each = pixelCurrent(
      kind.channels,
      kind.quiescent,
      kind.channels.map(() => said.strip.level),
    );
    const current = each * groups;
    const named = outlets.filter((o) => o.id === said.strip.supply);
    const ways = [said, turnedRound(said)].flatMap((run) =>
      (named.length > 0 ? named : outlets).map((supply) => ({ run, supply, away: apart(supply.at, run.from) })),
    );
    // a reel has its plug at either end: it begins at the one nearer to an outlet
    const nearest = ways.reduce<(typeof ways)[number] | undefined>(
      (a, b) => (a && a.away <= b.away ? a : b),
      undefined,
    );
    const { run, supply } = nearest ?? { run: said, supply: undefined };
    const to = supply?.at ?? vec(run.from.x, 0, run.from.z);
    const lead = apart(to, run.from);
    const ohm = railResistance(RAIL.width, RAIL.copper);
    const wire = chooseWire(sizes, lead + 2 * ENDS, current, LEAD_DROP * kind.volts);
    const feeds = chooseFeeds(
      {
        id: run.id,
        groups,
        groupLength: step * kind.perGroup,
        rail: { plus: ohm, minus: ohm },
        demand: { kind: 'current', amps: each },
      },
      { id: 'supply', volts: kind.volts, ohm: 0 },
      { length: lead + 2 * ENDS, ohmPerKm: (wire?.wire ?? sizes.at(-1)!).ohmPerKm },
      kind.supply[0],
      4,
      RAIL_LIMIT,
    );
    return [
      {
        run,
        begins: run === said ? 'left' : 'right',
        kind,
        pixels: groups * kind.perGroup,
        length,
        current,
        feeds,
        lead,
        wire,
        supply: supply?.id ?? 'no outlet',
        wattsPerMetre: (1000 * current * kind.volts) / length,
        rise: channelRise(
          (1000 * current * kind.volts) / length,
          HEAT_SHARE,
          // the back lies on wood: the front and the two sides give it off
          run.strip.size.depth + 2 * run.strip.size.height,
          SURFACE_RESISTANCE,
        ),
      },
    ];
  });
  if (strips.length === 0) return undefined;
  const groups = grouped(strips, (s) => `${s.supply} · ${s.kind.volts} V`);
  const supplies = [...groups.values()].flatMap(suppliesFor);
  const data = [...groups.values()].map(dataLine);
  const runs_ = [
    ...strips.flatMap((s) =>
      s.feeds.boundaries.map(
        (b): Run => ({
          from: s.supply,
          to: `${s.run.title}${b === 0 ? '' : `, light ${b}`}`,
          length: s.lead + (b * s.length) / Math.max(1, s.pixels),
          wire: s.wire?.wire.name ?? 'none that is thick enough',
        }),
      ),
    ),
    ...data.flatMap((line) =>
      line.links.map(
        (link, k): Run => ({
          from: k === 0 ? 'controller' : line.links[k - 1]!.title,
          to: `${link.title}, data`,
          kind: 'data',
          length: link.wire,
          wire: metric ? DATA_WIRE.metric : DATA_WIRE.gauge,
        }),
      ),
    ),
  ];
  const { cuts, total } = wireCuts(runs_, ENDS);
  return {
    strips,
    supplies,
    data,
    joinings: joiningsOf(strips, supplies, data),
    cuts,
    total,
    unknown: [...unknown],
    workings: strips.map(working),
  };
}

/** One supply where one of class 2 carries all; else as many of class 2 as the strips can be shared out over. */
function suppliesFor(own: readonly WiredStrip[]): readonly SuppliedStrips[] {
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

/** Along the room: from the controller at the outlet to the nearest strip, then always to the nearest that is left. */
function dataLine(own: readonly WiredStrip[]): DataLine {
  const left = [...own].sort((a, b) => a.lead - b.lead);
  const links: { to: string; title: string; wire: number }[] = [];
  let end: Vec3 | undefined;
  while (left.length > 0) {
    const from = end;
    const next =
      from === undefined
        ? left[0]!
        : left.reduce((best, s) => (apart(from, s.run.from) < apart(from, best.run.from) ? s : best));
    left.splice(left.indexOf(next), 1);
    links.push({
      to: next.run.id,
      title: next.run.title,
      wire: from === undefined ? next.lead : apart(from, next.run.from),
    });
    end = next.run.to;
  }
  const pixels = own.reduce((sum, s) => sum + s.pixels, 0);
  return {
    outlet: own[0]!.supply,
    pixels,
    frames: 1 / frameTime(pixels, own[0]!.kind.bits, Math.max(...own.map((s) => s.kind.reset))),
    links,
    far: links.some((link) => link.wire > DATA_REACH),
  };
}

/** Plugs at both ends of every strip, so that any of them comes out without a knife; a fuse for every lead, at the supply. */
function joiningsOf(
  strips: readonly WiredStrip[],
  supplies: readonly SuppliedStrips[],
  data: readonly DataLine[],
): readonly Joining[] {
  const fuses = grouped(
    strips.flatMap((s) => s.feeds.boundaries.map(() => s.wire?.fuse)),
    (f) => f,
  );
  const extra = strips.reduce((sum, s) => sum + s.feeds.boundaries.length - 1, 0);
  const handed = data.reduce((sum, d) => sum + d.links.length - 1, 0);
  const rows: Joining[] = [
    { what: 'plug and socket, 3 poles: +, −, data in', count: strips.length, use: 'connector 3 poles' },
    {
      what: 'plug and socket, 2 poles: further feeds, data out with its −',
      count: extra + handed,
      use: 'connector 2 poles',
    },
    ...[...fuses].map(
      ([amps, all]): Joining => ({
        what:
          amps === undefined
            ? 'fuse: take it from the wire’s data sheet'
            : `fuse ${amps} A in its holder, at the supply`,
        count: all.length,
        use: amps === undefined ? 'fuse' : `fuse ${amps} A`,
      }),
    ),
    ...supplies.map(
      (s): Joining => ({
        what: `supply ${s.volts} V, ${s.rating === undefined ? 'larger than any on the list' : `${s.rating} A`}${s.class2 ? ', class 2' : ''}`,
        count: 1,
        use: `power supply ${s.volts} V ${s.rating ?? Math.ceil(s.current / 0.8)} A`,
      }),
    ),
    { what: 'controller, with a resistor of 330 Ω in each data line', count: data.length, use: 'light controller' },
  ];
  // the same line twice is one line of twice as many
  const merged = new Map<string, Joining>();
  for (const row of rows) {
    const known = merged.get(row.what);
    merged.set(row.what, known ? { ...known, count: known.count + row.count } : row);
  }
  return [...merged.values()].filter((row) => row.count > 0);
}

/** Strips, wires and what joins them, as they are bought; nothing where the stock has no pack for any of it, which a note says. */
export function powerFittings(staged: Staged): readonly Fitting[] {
  const all = neededFittings(staged);
  return isPriced(staged, all) ? all : [];
}
const isPriced = ({ plan }: Staged, fittings: readonly Fitting[]): boolean => {
  const uses = new Set(plan.stock.packs.map((p) => p.use.toLowerCase()));
  return fittings.some((f) => uses.has(f.use.toLowerCase()));
};

function neededFittings(staged: Staged): readonly Fitting[] {
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

const working = (s: WiredStrip): Working => ({
  what: `Voltage at the darkest light of ${s.run.title}`,
  formula: 'G v = i, both rails as a network of sections and lights',
  inputs: [
    { symbol: 'V', name: 'supply', value: s.kind.volts, unit: 'V' },
    { symbol: 'n', name: 'lights', value: s.pixels, unit: '' },
    { symbol: 'I', name: 'current of the whole strip', value: s.current, unit: 'A', source: s.kind.currentSource },
    {
      symbol: 'r',
      name: 'each rail',
      value: railResistance(RAIL.width, RAIL.copper),
      unit: 'Ω/m',
    },
    { symbol: 'w', name: 'width of a rail', value: RAIL.width, unit: 'mm', source: 'common practice' },
    { symbol: 't', name: 'its copper', value: RAIL.copper / 1000, unit: 'mm', source: 'common practice' },
    { symbol: 'L', name: 'lead, one way', value: s.lead, unit: 'mm' },
    { symbol: 'f', name: 'feeds', value: s.feeds.boundaries.length, unit: '' },
  ],
  result: { value: s.feeds.lowest, unit: 'V' },
  limit: { value: s.kind.supply[0], unit: 'V', why: 'least supply of the light', source: s.kind.source },
  source: { title: 'G. Kirchhoff, Annalen der Physik 64', edition: '1845', place: 'laws of currents and voltages' },
  assumes: ['lights that take a constant current; rails as most reels have them: check the reel'],
  caution: ELECTRICAL_CAUTION,
});

/** Notes on the low-voltage lights: voltage, wires, supplies, data, heat, and how they meet the mains and the wall. */
export function powerNotes(staged: Staged): readonly Note[] {
  const show = printersFor(staged.plan.units).length;
  const short = stripRuns(staged).flatMap((run): readonly Note[] => {
    const { kind, step, groups } = cutOf(run);
    if (groups > 0) return [];
    const least = step * kind.perGroup + STRIP_ENDS;
    return [
      {
        id: `strip-short:${run.id}`,
        about: run.strip.strip,
        at: scale(add(run.from, run.to), 0.5),
        verdict: 'caution',
        title: `${run.title} stays dark: ${show(run.space)} is too short for one light, which takes ${show(least)}`,
        advice: 'Take a strip with more lights to the metre, or leave this stretch without.',
      },
    ];
  });
  const power = powerOf(staged);
  if (!power) return short;
  const about = (id: string): string => power.strips.find((s) => s.run.id === id)!.run.strip.strip;
  const notes: Note[] = [...short];
  // Stretches of one strip that are well are told together: nobody reads the same line seven times.
  for (const [strip, own] of grouped(power.strips, (s) => s.run.strip.strip)) {
    for (const s of own.filter((w) => !(w.feeds.enough && w.wire)))
      notes.push({
        id: `strip:${s.run.id}`,
        about: strip,
        at: middleOf(s),
        verdict: 'caution',
        title: s.wire
          ? s.feeds.lowest >= s.kind.supply[0]
            ? `${s.run.title} carries ${s.feeds.railCurrent.toFixed(1)} A in its own copper; about ${RAIL_LIMIT.toFixed(1)} A warm that by ${RAIL_RISE} K (IPC-2221)`
            : `${s.run.title} falls to ${s.feeds.lowest.toFixed(2)} V; its lights need ${s.kind.supply[0]} V`
          : `No wire of the list carries ${s.current.toFixed(1)} A to ${s.run.title} over ${show(s.lead)}`,
        advice: 'Feed it at more places, bring the supply nearer, run it dimmer, or use a strip of a higher voltage.',
        working: power.workings[power.strips.indexOf(s)]!,
      });
    const well = own.filter((w) => w.feeds.enough && w.wire);
    if (well.length === 0) continue;
    const worst = well.reduce((a, b) => (b.feeds.lowest < a.feeds.lowest ? b : a));
    const title = worst.run.strip.title ?? strip;
    const sum = (of: (s: WiredStrip) => number): number => well.reduce((total, s) => total + of(s), 0);
    notes.push({
      id: `strip:${strip}`,
      about: strip,
      at: middleOf(worst),
      verdict: 'fine',
      title: `${title}: ${sum((s) => s.pixels)} lights in ${well.length === 1 ? 'one length' : `${well.length} lengths`}, ${sum((s) => s.current).toFixed(1)} A, at least ${worst.feeds.lowest.toFixed(2)} V of ${worst.kind.volts} V`,
      advice: 'Checked as a network of both rails. Not checked: the joints, and what the maker of the reel says.',
      working: power.workings[power.strips.indexOf(worst)]!,
    });
    const hot = well.reduce((a, b) => (b.rise > a.rise ? b : a));
    if (hot.rise > RISE_LIMIT)
      notes.push({
        id: `channel-heat:${strip}`,
        about: strip,
        at: middleOf(hot),
        verdict: 'caution',
        title: `The channel of ${title} gets about ${Math.round(hot.rise)} K warmer than the room`,
        advice:
          'Lay it in an aluminium channel as wide as it may be, run it dimmer, or leave air behind it; keep foam and cloth away.',
        working: heatWorking(hot),
      });
  }
  for (const supply of power.supplies)
    notes.push({
      id: `supply:${supply.id}`,
      about: about(supply.strips[0]!),
      verdict: supply.class2 ? 'fine' : 'caution',
      title:
        supply.rating === undefined
          ? `Supply at ${supply.id}: ${supply.current.toFixed(1)} A is more than any supply on the list`
          : `Supply at ${supply.id}: ${supply.current.toFixed(1)} A, so one of ${supply.rating} A`,
      advice: `${supply.class2 ? 'A class 2 supply will do.' : 'More than one class 2 supply may give: divide the strip, run it dimmer, use a higher voltage, or leave the wiring to an electrician.'} A plugged supply stays where it can be reached, in air; its cord may not run inside a wall. ${ELECTRICAL_CAUTION}`,
    });
  const needed = neededFittings(staged);
  if (!isPriced(staged, needed))
    notes.push({
      id: 'wiring-unpriced:stock',
      about: power.strips[0]!.run.strip.strip,
      verdict: 'caution',
      title: 'The strips and their wiring are not in the bill: the stock has no packs for them',
      advice: `Add packs with their prices and 'use' of: ${[...new Set(needed.map((f) => f.use))].join(', ')}.`,
    });
  for (const line of power.data) {
    const slow = line.frames < 30;
    if (!slow && !line.far) continue;
    const far = line.links.reduce((a, b) => (b.wire > a.wire ? b : a));
    notes.push({
      id: `data:${line.outlet}`,
      about: about(far.to),
      verdict: 'caution',
      title: slow
        ? `The data line at ${line.outlet} carries ${line.pixels} lights: only ${line.frames.toFixed(0)} pictures a second`
        : `The data wire to ${far.title} is ${show(far.wire)} long; ${show(roundly(DATA_REACH, 'at most', staged.plan.units.length))} is what common practice trusts`,
      advice: slow
        ? 'Share the strips out over two data lines.'
        : 'Put the controller nearer, or a driver of 5 V level with a resistor at its output before the long wire. A controller of 3.3 V wants such a driver in any case.',
    });
  }
  return notes;
}

const middleOf = (s: WiredStrip): Vec3 => add(s.run.from, scale(subtract(s.run.to, s.run.from), 0.5));

const heatWorking = (s: WiredStrip): Working => ({
  what: `Rise of the channel of ${s.run.title} above the room`,
  formula: 'ΔT = P h R / b',
  reckonedIn: 'metric',
  inputs: [
    { symbol: 'P', name: 'power of a metre', value: s.wattsPerMetre, unit: 'W/m' },
    { symbol: 'h', name: 'share that stays as heat', value: HEAT_SHARE, unit: '', source: 'common practice' },
    {
      symbol: 'R',
      name: 'surface resistance',
      value: SURFACE_RESISTANCE,
      unit: 'm² K/W',
      source: { title: 'ISO 6946', edition: '2017', place: 'table 7' },
    },
    {
      symbol: 'b',
      name: 'front and sides of the channel',
      value: s.run.strip.size.depth + 2 * s.run.strip.size.height,
      unit: 'mm',
    },
  ],
  result: { value: s.rise, unit: 'K' },
  limit: { value: RISE_LIMIT, unit: 'K', why: 'lights age fast beyond it (common practice)' },
  source: { title: 'heat balance of a metre of channel' },
  assumes: ['steady, free air before it, its back on wood gives nothing off'],
});
