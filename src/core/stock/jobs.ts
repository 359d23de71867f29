import type {
  LengthAnswer,
  LengthPart,
  LengthProblem,
  LengthStock,
  PanelAnswer,
  PanelPart,
  PanelProblem,
  PanelStock,
} from '../cutting/index.ts';
import type { Note } from '../notes/index.ts';
import { type Plan, printersFor } from '../plan/index.ts';
import { inch, isInches, type Mm, mm, snap, toTicks } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { Part, PartId } from '../scene/index.ts';
import { boardItem, boardSection, panelItem, stockName } from './items.ts';
import { type Offer, offersOf } from './prices.ts';

/** Where one stock entry of a problem comes from. */
export type Source =
  | { readonly kind: 'buy'; readonly offer: Offer }
  | { readonly kind: 'rack'; readonly id: string; readonly where?: string };

/** The real size of a stock entry, and how far a layout's coordinates lie from the real corner. */
export interface SourceEntry {
  readonly source: Source;
  readonly length: number;
  readonly width: number;
  /**
   * Nothing is trimmed off an offcut, but a problem has one trim for all its stock: an offcut is stated larger by it on every side,
   * and what the answer says lies this much too far from its corner.
   */
  readonly offset: number;
}

interface JobOf<P> {
  readonly stock: string;
  readonly problem: P;
  readonly sources: ReadonlyMap<string, SourceEntry>;
  /** Parts of one size are one demand; here is which they are, in the order of the part list. */
  readonly members: ReadonlyMap<string, readonly PartId[]>;
  /** Parts that no stock can give: left out of the problem, so that the rest can still be planned. */
  readonly left: readonly PartId[];
  readonly notes: readonly Note[];
}
export interface PanelJob extends JobOf<PanelProblem> {
  readonly from: 'panel';
  /** The panel's grain runs along its width: length and width are exchanged in the problem, so that grain runs along x. */
  readonly exchanged: boolean;
}
export interface LengthJob extends JobOf<LengthProblem> {
  readonly from: 'board';
}
export type CutJob = PanelJob | LengthJob;

/** A saw blade's usual kerf where the shop gives none: 1/8 in, or 3.2 mm with metric. Common practice. */
export const kerfOf = (plan: Plan): Mm => plan.shop.kerf ?? (isInches(plan.units.length) ? snap(inch(1 / 8)) : mm(3.2));

/** Every cutting job of some parts, one for each panel or board they are cut from, in the order of the plan's stock. */
export function cutJobs(parts: readonly Part[], plan: Plan): readonly CutJob[] {
  const { stock, shop, units } = plan;
  const byStock = new Map<string, Part[]>();
  for (const part of parts) {
    const own = byStock.get(part.stock);
    if (own) own.push(part);
    else byStock.set(part.stock, [part]);
  }
  return [
    ...stock.panels.flatMap((panel): readonly CutJob[] => {
      const own = byStock.get(panel.id);
      if (!own) return [];
      return [panelJobs(panel, [stock, shop, units, ...own], () => toPanelProblem(own, plan, panel.id))];
    }),
    ...stock.boards.flatMap((board): readonly CutJob[] => {
      const own = byStock.get(board.id);
      if (!own) return [];
      return [lengthJobs(board, [stock, shop, units, ...own], () => toLengthProblem(own, plan, board.id))];
    }),
  ];
}
/** Of a plan under the hand most stock is cut into what it was cut into before. */
const panelJobs = remember<object, PanelJob>();
const lengthJobs = remember<object, LengthJob>();

/** Parts grouped by what the saw sees of them. */
function merge<T>(
  parts: readonly Part[],
  key: (part: Part) => string,
  state: (part: Part, id: string, count: number) => T,
) {
  const groups = new Map<string, Part[]>();
  for (const part of parts) {
    const group = groups.get(key(part));
    if (group) group.push(part);
    else groups.set(key(part), [part]);
  }
  const demands: T[] = [];
  const members = new Map<string, readonly PartId[]>();
  for (const group of groups.values()) {
    const id = group[0]!.id;
    demands.push(state(group[0]!, id, group.length));
    members.set(
      id,
      group.map((p) => p.id),
    );
  }
  return { demands, members };
}

/**
 * Costs as the planner weighs them: the net price in smallest units. What has no price is not planned with while something priced
 * can do the job; where nothing is priced, cost is the size, so that the least material is bought.
 */
function costed<R extends { readonly count: number }>(
  offers: readonly Offer[],
  offcuts: readonly R[],
  parts: number,
  sizeOf: (offer: Offer) => number,
  enough: (offers: readonly Offer[], offcuts: readonly R[]) => boolean,
): readonly { readonly offer: Offer; readonly cost: number }[] {
  const priced = offers.filter((o) => o.price !== undefined);
  const dearest = Math.max(0, ...priced.map((o) => o.price! / sizeOf(o)));
  const perSize = dearest > 0 ? dearest : 1;
  const weighed = (offer: Offer): number => Math.ceil(perSize * sizeOf(offer));
  if (priced.length === 0 || !enough(priced, offcuts))
    return offers.map((offer) => ({ offer, cost: offer.price ?? weighed(offer) }));
  const plenty = ({ count }: { readonly count?: number }): boolean => count === undefined || count >= parts;
  if (priced.length === offers.length || enough(priced.filter(plenty), offcuts.filter(plenty)))
    return priced.map((offer) => ({ offer, cost: offer.price! }));
  // there may be too few of what has a price: one of the others comes dearer than all of it together
  const all = priced.reduce((sum, o) => sum + o.price! * Math.min(o.count ?? parts, parts), 0);
  return offers.map((offer) => ({ offer, cost: offer.price ?? all + weighed(offer) }));
}

/** What the rack holds of one stock, each by a name of its own: its id, else its place on the rack where no other has that for a name. */
function offcutsOf({ rack }: Plan['stock'], stockId: string) {
  const named = new Set(rack.map((o) => o.id));
  return rack.flatMap((offcut, i) => {
    if (offcut.stock !== stockId) return [];
    let place = i + 1;
    while (named.has(`offcut ${place}`)) place += rack.length;
    return [{ ...offcut, id: offcut.id ?? `offcut ${place}` }];
  });
}

/**
 * The neutral problem of everything cut from one panel stock, offcuts of the rack included as stock that costs nothing. Lengths in mm,
 * costs in smallest units before tax. A part may turn where its panel has no grain or its own does not matter.
 * @throws RangeError when the plan has no such panel
 */
export function toPanelProblem(parts: readonly Part[], plan: Plan, stockId: string): PanelJob {
  const panel = panelItem(plan.stock, stockId);
  if (!panel) throw new RangeError(`the plan has no panel '${stockId}'`);
  const [kerf, trim] = [kerfOf(plan), plan.shop.trim ?? mm(0)];
  const exchanged = panel.grain === 'width';
  const lie = (length: number, width: number) => (exchanged ? { length: width, width: length } : { length, width });
  const offers = offersOf(plan.stock, stockId);
  const rack = offcutsOf(plan.stock, stockId);
  const offcuts = rack.flatMap((o) => (o.width === undefined ? [] : [{ ...o, width: o.width }]));
  const mayTurn = (part: Part): boolean => panel.grain === 'none' || part.grain === 'free';
  const sheetsOf = (some: readonly Offer[], those: readonly (typeof offcuts)[number][]) => [
    ...some.map((o) => lie(o.length! - 2 * trim, o.width! - 2 * trim)),
    ...those.map((o) => lie(o.length, o.width)),
  ];
  const sheets = sheetsOf(offers, offcuts);
  const within = (a: number, b: number): boolean => toTicks(a) <= toTicks(b);
  const fits = (part: Part, on: readonly { readonly length: number; readonly width: number }[]): boolean => {
    const { length, width } = part.cut;
    return on.some(
      (s) =>
        (within(length, s.length) && within(width, s.width)) ||
        (mayTurn(part) && within(width, s.length) && within(length, s.width)),
    );
  };

  const wanted = parts.filter((p) => p.stock === stockId);
  const placeable = wanted.filter((p) => fits(p, sheets));
  const left = wanted.filter((p) => !placeable.includes(p));
  const { demands, members } = merge(
    placeable,
    (p) => `${p.cut.length}|${p.cut.width}|${mayTurn(p)}`,
    (p, id, count): PanelPart => ({
      id,
      length: p.cut.length,
      width: p.cut.width,
      count,
      ...(mayTurn(p) && { turn: true }),
    }),
  );
  const usable = costed(
    offers,
    offcuts,
    placeable.length,
    (o) => (o.length! * o.width!) / 100,
    (some, those) => placeable.every((p) => fits(p, sheetsOf(some, those))),
  );
  const sources = new Map<string, SourceEntry>();
  const stock: PanelStock[] = [];
  for (const { id, length, width, count, where } of offcuts) {
    const entry = `rack ${id}`;
    stock.push({ id: entry, ...lie(length + 2 * trim, width + 2 * trim), cost: 0, count });
    sources.set(entry, {
      source: { kind: 'rack', id, ...(where !== undefined && { where }) },
      ...lie(length, width),
      offset: trim,
    });
  }
  for (const { offer, cost } of usable) {
    stock.push({ id: offer.id, ...lie(offer.length!, offer.width!), cost, count: offer.count ?? null });
    sources.set(offer.id, { source: { kind: 'buy', offer }, ...lie(offer.length!, offer.width!), offset: 0 });
  }
  return {
    from: 'panel',
    stock: stockId,
    exchanged,
    problem: { name: stockId, kind: 'panels', kerf, trim, stock, parts: demands },
    sources,
    members,
    left: left.map((p) => p.id),
    notes: [
      ...leftNotes(plan, stockId, left, sheets.length > 0, 'panel', (p) =>
        sheets.some((s) => within(p.cut.width, s.length) && within(p.cut.length, s.width)),
      ),
      ...rackNotes(plan, stockId, rack),
    ],
  };
}

/**
 * The neutral problem of everything cut from one board or moulding. Each part takes a length of the whole board, however narrow it
 * is ripped. @throws RangeError when the plan has no such board
 */
export function toLengthProblem(parts: readonly Part[], plan: Plan, stockId: string): LengthJob {
  const board = boardItem(plan.stock, stockId);
  if (!board) throw new RangeError(`the plan has no board '${stockId}'`);
  const [kerf, trim] = [kerfOf(plan), plan.shop.ends ?? mm(0)];
  const offers = offersOf(plan.stock, stockId);
  const wanted = parts.filter((p) => p.stock === stockId);
  // the problem knows lengths only: an offcut serves where each of the parts is as narrow as it is
  const widest = Math.max(0, ...wanted.map((p) => toTicks(p.cut.width)));
  const rack = offcutsOf(plan.stock, stockId);
  const narrow = rack.filter((o) => o.width !== undefined && toTicks(o.width) < widest);
  const offcuts = rack.filter((o) => !narrow.includes(o));
  const longest = (some: readonly Offer[], those: readonly (typeof offcuts)[number][] = offcuts): number =>
    Math.max(0, ...some.map((o) => o.length! - 2 * trim), ...those.map((o) => o.length));
  const placeable = wanted.filter((p) => toTicks(p.cut.length) <= toTicks(longest(offers)));
  const left = wanted.filter((p) => !placeable.includes(p));
  const { demands, members } = merge(
    placeable,
    (p) => `${p.cut.length}`,
    (p, id, count): LengthPart => ({ id, length: p.cut.length, count }),
  );
  const usable = costed(
    offers,
    offcuts,
    placeable.length,
    (o) => o.length!,
    (some, those) => placeable.every((p) => toTicks(p.cut.length) <= toTicks(longest(some, those))),
  );
  const whole = boardSection(board)?.width ?? 0;
  const sources = new Map<string, SourceEntry>();
  const stock: LengthStock[] = [];
  for (const { id, length, width = whole, count, where } of offcuts) {
    const entry = `rack ${id}`;
    stock.push({ id: entry, length: length + 2 * trim, cost: 0, count });
    sources.set(entry, {
      source: { kind: 'rack', id, ...(where !== undefined && { where }) },
      length,
      width,
      offset: trim,
    });
  }
  for (const { offer, cost } of usable) {
    stock.push({ id: offer.id, length: offer.length!, cost, count: offer.count ?? null });
    sources.set(offer.id, { source: { kind: 'buy', offer }, length: offer.length!, width: whole, offset: 0 });
  }
  return {
    from: 'board',
    stock: stockId,
    problem: { name: stockId, kind: 'lengths', kerf, trim, stock, parts: demands },
    sources,
    members,
    left: left.map((p) => p.id),
    notes: [
      ...leftNotes(plan, stockId, left, offers.length + offcuts.length > 0, 'board', () => false),
      ...narrowNotes(plan, stockId, narrow, wanted),
    ],
  };
}

/** An offcut of a board that was ripped narrower than a part is not planned with. */
function narrowNotes(
  { stock, units }: Plan,
  stockId: string,
  narrow: ReturnType<typeof offcutsOf>,
  parts: readonly Part[],
): readonly Note[] {
  const { notLess, notMore } = printersFor(units);
  const widest = parts.reduce<Part | undefined>((a, b) => (a && a.cut.width >= b.cut.width ? a : b), undefined);
  return narrow.map(({ id, width }) => ({
    id: `rack-narrow:${id}`,
    about: stockId,
    verdict: 'caution',
    title: `An offcut of ${stockName(stock, stockId)} on the rack is ${notMore(width!)} wide, narrower than a part of ${notLess(widest!.cut.width)}, so it is not used`,
    advice: `${widest!.label.name} of ${widest!.label.place} needs more. Rip what is narrow enough from the offcut by hand, or leave its width out if it is as wide as the board.`,
  }));
}

/** An offcut of a panel without a width cannot be planned with. */
const rackNotes = (plan: Plan, stockId: string, rack: ReturnType<typeof offcutsOf>): readonly Note[] =>
  rack.flatMap(({ id, width }): readonly Note[] =>
    width !== undefined
      ? []
      : [
          {
            id: `rack-width:${id}`,
            about: stockId,
            verdict: 'caution',
            title: `An offcut of ${stockName(plan.stock, stockId)} on the rack has no width, so it is not used`,
            advice: 'Measure it and write its width in the plan.',
          },
        ],
  );

function leftNotes(
  plan: Plan,
  stockId: string,
  left: readonly Part[],
  any: boolean,
  kind: string,
  fitsTurned: (part: Part) => boolean,
): readonly Note[] {
  const name = stockName(plan.stock, stockId);
  if (left.length > 0 && !any)
    return [
      {
        id: `not-sold:${stockId}`,
        about: stockId,
        verdict: 'stop',
        title: `Nobody sells ${name}: the plan gives no size of it, and none is on the rack`,
        advice: `Write under stock in which sizes it is sold, or take another ${kind}. ${left.length} parts are cut from it.`,
      },
    ];
  return left.map((part) => ({
    id: `too-large:${part.id}`,
    about: part.id,
    verdict: 'stop',
    title: fitsTurned(part)
      ? `${part.label.name} of ${part.label.place} fits no ${name} with its grain as drawn, but does turned`
      : `${part.label.name} of ${part.label.place} is larger than any ${name} that can be had`,
    advice: fitsTurned(part)
      ? 'Let its grain run the other way, join it of two, or take a panel without grain.'
      : 'Make it of two parts with a joint, make the piece smaller, or find a larger size.',
    working: {
      what: 'Does a part fit the stock',
      formula: 'cut length and width against the sizes sold, less the trim of every edge',
      inputs: [
        { symbol: 'l', name: 'cut length', value: part.cut.length, unit: 'mm' },
        { symbol: 'w', name: 'cut width', value: part.cut.width, unit: 'mm' },
      ],
      result: { value: part.cut.length, unit: 'mm' },
      source: 'common practice',
      assumes: [part.grain === 'fixed' ? 'grain runs along its length and may not be turned' : 'it may be turned'],
    },
  }));
}

/** One stock item as it really is cut, with the parts by name. */
export interface RealLayout {
  readonly stock: string;
  readonly from: 'panel' | 'board';
  readonly source: Source;
  /** As it lies on the drawing: grain along x. */
  readonly length: number;
  readonly width: number;
  readonly trim: number;
  readonly kerf: number;
  /** Width is that of the part for a panel; a board's part takes its whole width. */
  readonly placed: readonly {
    readonly part: PartId;
    readonly x: number;
    readonly y: number;
    readonly length: number;
    readonly width: number;
  }[];
}

/** An answer as single pieces of stock, in its own order: repeats told one by one, each part by its own id. */
export const realLayouts = (job: CutJob, answer: PanelAnswer | LengthAnswer): readonly RealLayout[] =>
  layouts(answer, [job], () => layoutsOf(job, answer));
const layouts = remember<PanelAnswer | LengthAnswer, readonly RealLayout[]>();

function layoutsOf(job: CutJob, answer: PanelAnswer | LengthAnswer): readonly RealLayout[] {
  if (answer.status === 'infeasible') return [];
  const next = new Map<string, number>();
  const name = (group: string): PartId => {
    const i = next.get(group) ?? 0;
    next.set(group, i + 1);
    return job.members.get(group)?.[i] ?? group;
  };
  return answer.layouts.flatMap((layout) => {
    const entry = job.sources.get(layout.stock);
    if (!entry) throw new Error(`an answer names stock '${layout.stock}', which its problem does not have`);
    return Array.from({ length: layout.times }, (): RealLayout => {
      const placed = layout.placed.map((p) => ({
        part: name(p.part),
        x: p.x - entry.offset,
        y: 'y' in p ? p.y - entry.offset : 0,
        length: p.length,
        width: 'width' in p ? p.width : entry.width,
      }));
      const { source, length, width } = entry;
      return {
        stock: job.stock,
        from: job.from,
        source,
        length,
        width,
        trim: source.kind === 'rack' ? 0 : job.problem.trim,
        kerf: job.problem.kerf,
        placed,
      };
    });
  });
}
