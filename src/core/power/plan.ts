import { type Vec3, vec } from '../geometry/index.ts';
import { grouped } from '../grouped.ts';
import { type PlacedRoom, pointOnWall } from '../room/index.ts';
import { type Staged, type StripStretch, stripRuns, wallIndex } from '../surroundings/index.ts';
import { railResistance } from './conductor.ts';
import { dataLine } from './data-line.ts';
import { chooseWire, type Run, type WireSize, wireCuts, wireSizes } from './design.ts';
import { joiningsOf } from './joinings.ts';
import { pixelCurrent } from './pixel.ts';
import { channelRise, chooseFeeds } from './strip.ts';
import { suppliesFor } from './supplies.ts';
import { apart, cutOf, type DataLine, NO_WIRE, type PowerPlan, RAIL, RAIL_LIMIT, type WiredStrip } from './wired.ts';
import { HEAT_SHARE, SURFACE_RESISTANCE, stripWorking } from './workings.ts';

/** Slack at each end for stripping and bends, mm. Common practice. */
const ENDS = 150;
/** Share of the supply's voltage that a lead may lose. Common practice. */
const LEAD_DROP = 0.03;
/** Places a strip is fed at, at most: beyond that a strip of a higher voltage is less work. Common practice. */
const MOST_FEEDS = 4;
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

function reckon(staged: Staged): PowerPlan | undefined {
  const runs = stripRuns(staged);
  if (runs.length === 0) return undefined;
  const { room, plan } = staged;
  const metric = soldByArea(plan);
  const sizes = wireSizes(metric ? 'metric' : 'gauge').filter((w) => metric || w.limit !== undefined);
  const outlets = outletsOf(room);
  const strips = runs.flatMap((run) => wired(run, outlets, sizes) ?? []);
  if (strips.length === 0) return undefined;
  const groups = [...grouped(strips, (s) => `${s.supply} · ${s.kind.volts} V`).values()];
  const supplies = groups.flatMap(suppliesFor);
  const data = groups.map(dataLine);
  const { cuts, total } = wireCuts(
    [...strips.flatMap(leadsOf), ...data.flatMap((line) => dataWires(line, metric ? 'metric' : 'gauge'))],
    ENDS,
  );
  return {
    strips,
    supplies,
    data,
    joinings: joiningsOf(strips, supplies, data),
    cuts,
    total,
    workings: strips.map(stripWorking),
  };
}

interface Outlet {
  readonly id: string;
  readonly at: Vec3;
}
const outletsOf = (room: PlacedRoom): readonly Outlet[] =>
  room.services
    .filter((s) => s.kind === 'outlet')
    .map((s) => {
      const wall = room.walls[wallIndex(room, s.wall)]!;
      return { id: s.id, at: pointOnWall(wall, (s.x[0] + s.x[1]) / 2, (s.y[0] + s.y[1]) / 2, 0) };
    });

/** Undefined where not one light fits. */
function wired(said: StripStretch, outlets: readonly Outlet[], sizes: readonly WireSize[]): WiredStrip | undefined {
  const { kind, step, groups, length } = cutOf(said);
  if (groups === 0) return undefined;
  const amps = pixelCurrent(
    kind.channels,
    kind.quiescent,
    kind.channels.map(() => said.strip.level),
  );
  const current = amps * groups;
  const { run, supply } = begunAt(said, outlets);
  const lead = apart(supply?.at ?? vec(run.from.x, 0, run.from.z), run.from);
  const wire = chooseWire(sizes, lead + 2 * ENDS, current, LEAD_DROP * kind.volts);
  const ohm = railResistance(RAIL.width, RAIL.copper);
  const feeds = chooseFeeds(
    {
      id: run.id,
      groups,
      groupLength: step * kind.perGroup,
      rail: { plus: ohm, minus: ohm },
      demand: { kind: 'current', amps },
    },
    { id: 'supply', volts: kind.volts, ohm: 0 },
    { length: lead + 2 * ENDS, ohmPerKm: (wire?.wire ?? sizes.at(-1)!).ohmPerKm },
    kind.supply[0],
    MOST_FEEDS,
    RAIL_LIMIT,
  );
  const wattsPerMetre = (1000 * current * kind.volts) / length;
  // the back lies on wood: the front and the two sides give it off
  const open = run.strip.size.depth + 2 * run.strip.size.height;
  return {
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
    wattsPerMetre,
    rise: channelRise(wattsPerMetre, HEAT_SHARE, open, SURFACE_RESISTANCE),
  };
}

/** A reel has its plug at either end: it begins at the one nearer to its outlet, or to any where it names none. */
function begunAt(
  said: StripStretch,
  outlets: readonly Outlet[],
): { readonly run: StripStretch; readonly supply?: Outlet } {
  const named = outlets.filter((o) => o.id === said.strip.supply);
  const turned = { ...said, from: said.to, to: said.from };
  const ways = [said, turned].flatMap((run) =>
    (named.length > 0 ? named : outlets).map((supply) => ({ run, supply, away: apart(supply.at, run.from) })),
  );
  const [first, ...others] = ways;
  return first ? others.reduce((a, b) => (a.away <= b.away ? a : b), first) : { run: said };
}

const leadsOf = (s: WiredStrip): readonly Run[] =>
  s.feeds.boundaries.map((b) => ({
    from: s.supply,
    to: `${s.run.title}${b === 0 ? '' : `, light ${b}`}`,
    length: s.lead + (b * s.length) / Math.max(1, s.pixels),
    wire: s.wire?.wire.name ?? NO_WIRE,
  }));

const dataWires = ({ links }: DataLine, sold: keyof typeof DATA_WIRE): readonly Run[] =>
  links.map((link, k) => ({
    from: k === 0 ? 'controller' : links[k - 1]!.title,
    to: `${link.title}, data`,
    kind: 'data',
    length: link.wire,
    wire: DATA_WIRE[sold],
  }));
