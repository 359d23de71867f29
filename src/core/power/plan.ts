import { add, magnitude, scale, subtract, type Vec3, vec } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import { pointOnWall } from '../room/index.ts';
import { type Staged, type StripStretch, stripRuns, wallIndex } from '../surroundings/index.ts';
import { railResistance } from './conductor.ts';
import { chooseWire, type WireChoice, type WireCut, wireCuts, wireSizes } from './design.ts';
import { cutToFit, frameTime, PIXEL_KINDS, type PixelKind, pitch, pixelCurrent, pixelKind } from './pixel.ts';
import { CLASS_2_VOLTS, class2Limit, deviceFor, ELECTRICAL_CAUTION } from './rules.ts';
import { chooseFeeds, type FeedPlan } from './strip.ts';

/** One stretch of a strip as it is cut, fed and protected. Lengths mm, currents A. */
export interface WiredStrip {
  readonly run: StripStretch;
  readonly kind: PixelKind;
  readonly pixels: number;
  readonly length: number;
  readonly current: number;
  readonly feeds: FeedPlan & { readonly enough: boolean };
  readonly lead: number;
  readonly wire: WireChoice | undefined;
  readonly supply: string;
}
export interface PowerPlan {
  readonly strips: readonly WiredStrip[];
  /** One supply for all strips that start at one outlet. */
  readonly supplies: readonly {
    readonly id: string;
    readonly volts: number;
    readonly current: number;
    /** What its plate should say: the load over 80 %. */
    readonly rating: number;
    readonly class2: boolean;
    readonly watts: number;
    readonly pixels: number;
    /** Frames a second on one data line. */
    readonly frames: number;
  }[];
  readonly cuts: readonly WireCut[];
  readonly total: ReadonlyMap<string, number>;
  readonly unknown: readonly string[];
  readonly workings: readonly Working[];
}

/** 1 oz copper (35 µm), 2.5 mm wide for each rail. Common practice; the reel's data sheet decides. */
const RAIL = { width: 2.5, copper: 35 } as const;
/** Slack at each end for stripping and bends, mm. Common practice. */
const ENDS = 150;
/** Share of the supply's voltage that a lead may lose. Common practice. */
const LEAD_DROP = 0.03;

const kept = new WeakMap<object, PowerPlan | undefined>();
/** Undefined where the option has no strips. */
export function powerOf(staged: Staged): PowerPlan | undefined {
  if (!kept.has(staged.pieces)) kept.set(staged.pieces, reckon(staged));
  return kept.get(staged.pieces);
}

function reckon(staged: Staged): PowerPlan | undefined {
  const runs = stripRuns(staged);
  if (runs.length === 0) return undefined;
  const { room, plan } = staged;
  const metric = !['ft-in', 'in'].includes(plan.units.length);
  const sizes = wireSizes(metric ? 'metric' : 'gauge').filter((w) => metric || w.limit !== undefined);
  const outlets = room.services
    .filter((s) => s.kind === 'outlet')
    .map((s) => {
      const wall = room.walls[wallIndex(room, s.wall)]!;
      return { id: s.id, at: pointOnWall(wall, (s.x[0] + s.x[1]) / 2, (s.y[0] + s.y[1]) / 2, 0) };
    });
  const unknown = new Set<string>();
  const strips = runs.flatMap((run): readonly WiredStrip[] => {
    const known = PIXEL_KINDS.some((k) => k.id === run.strip.pixel);
    if (!known) unknown.add(run.strip.pixel);
    const kind = pixelKind(known ? run.strip.pixel : '5 V RGB, typical');
    const step = pitch(run.strip.perMetre);
    const { groups, length } = cutToFit(run.space, step * kind.perGroup, 20);
    if (groups === 0) return [];
    const each = pixelCurrent(
      kind.channels,
      kind.quiescent,
      kind.channels.map(() => run.strip.level),
    );
    const current = each * groups;
    const near = (p: Vec3): number => magnitude(subtract(p, run.from));
    const supply =
      outlets.find((o) => o.id === run.strip.supply) ?? outlets.toSorted((a, b) => near(a.at) - near(b.at))[0];
    // Down inside the wall or the case and along: not as the crow flies.
    const to = supply?.at ?? vec(run.from.x, 0, run.from.z);
    const lead = Math.abs(to.x - run.from.x) + Math.abs(to.y - run.from.y) + Math.abs(to.z - run.from.z);
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
    );
    return [
      {
        run,
        kind,
        pixels: groups * kind.perGroup,
        length,
        current,
        feeds,
        lead,
        wire,
        supply: supply?.id ?? 'no outlet',
      },
    ];
  });
  const keys = [...new Set(strips.map((s) => `${s.supply} · ${s.kind.volts} V`))];
  const supplies = keys.map((id) => {
    const own = strips.filter((s) => `${s.supply} · ${s.kind.volts} V` === id);
    const volts = own[0]!.kind.volts;
    const current = own.reduce((sum, s) => sum + s.current, 0);
    const pixels = own.reduce((sum, s) => sum + s.pixels, 0);
    const rating = deviceFor(current);
    return {
      id,
      volts,
      current,
      rating,
      watts: current * volts,
      class2: volts <= CLASS_2_VOLTS.dry && rating <= class2Limit(volts).current,
      pixels,
      frames: 1 / frameTime(pixels, own[0]!.kind.bits, Math.max(...own.map((s) => s.kind.reset))),
    };
  });
  const { cuts, total } = wireCuts(
    strips.flatMap((s) =>
      s.feeds.boundaries.map((b) => ({
        from: s.supply,
        to: `${s.run.title}${b === 0 ? '' : `, light ${b}`}`,
        length: s.lead + (b * s.length) / Math.max(1, s.pixels),
        wire: s.wire?.wire.name ?? 'none that is thick enough',
      })),
    ),
    ENDS,
  );
  return { strips, supplies, cuts, total, unknown: [...unknown], workings: strips.map(working) };
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
      source: 'common practice',
    },
    { symbol: 'L', name: 'lead, one way', value: s.lead, unit: 'mm' },
    { symbol: 'f', name: 'feeds', value: s.feeds.boundaries.length, unit: '' },
  ],
  result: { value: s.feeds.lowest, unit: 'V' },
  limit: { value: s.kind.supply[0], unit: 'V', why: 'least supply of the light', source: s.kind.source },
  source: { title: 'G. Kirchhoff, Annalen der Physik 64', edition: '1845', place: 'laws of currents and voltages' },
  assumes: ['lights that take a constant current; rails of 35 µm copper, 2.5 mm wide each: check the reel'],
  caution: ELECTRICAL_CAUTION,
});

/** Notes on the low-voltage lights: voltage, wires, supplies. */
export function powerNotes(staged: Staged): readonly Note[] {
  const power = powerOf(staged);
  if (!power) return [];
  const notes: Note[] = power.strips.map((s, k): Note => {
    const ok = s.feeds.enough && s.wire !== undefined;
    return {
      id: `strip:${s.run.id}`,
      about: s.run.strip.strip,
      at: add(s.run.from, scale(subtract(s.run.to, s.run.from), 0.5)),
      verdict: ok ? 'fine' : 'caution',
      title: ok
        ? `${s.run.title}: ${s.pixels} lights, ${s.current.toFixed(1)} A, at least ${s.feeds.lowest.toFixed(2)} V with ${s.feeds.boundaries.length === 1 ? 'one feed' : `${s.feeds.boundaries.length} feeds`}`
        : `${s.run.title} falls to ${s.feeds.lowest.toFixed(2)} V; its lights need ${s.kind.supply[0]} V`,
      advice: ok
        ? 'Checked as a network of both rails. Not checked: the joints, and what the maker of the reel says.'
        : 'Feed it at more places, bring the supply nearer, run it dimmer, or use a strip of a higher voltage.',
      working: power.workings[k]!,
    };
  });
  for (const supply of power.supplies)
    notes.push({
      id: `supply:${supply.id}`,
      about: power.strips.find((s) => supply.id.startsWith(s.supply))!.run.strip.strip,
      verdict: supply.class2 ? 'fine' : 'caution',
      title: `Supply at ${supply.id}: ${supply.current.toFixed(1)} A, so one of ${Math.ceil(supply.rating)} A or more`,
      advice: `${supply.class2 ? 'A class 2 supply will do.' : 'More than one class 2 supply may give: share the strips out over several, or leave the wiring to an electrician.'} A plugged supply stays where it can be reached, in air; its cord may not run inside a wall. ${ELECTRICAL_CAUTION}`,
    });
  return notes;
}
