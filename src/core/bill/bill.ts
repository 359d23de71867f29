import type { LengthAnswer, PanelAnswer } from '../cutting/index.ts';
import type { Note } from '../notes/index.ts';
import { type Plan, printersFor } from '../plan/index.ts';
import type { Money } from '../quantity/index.ts';
import type { Fitting, Part, PlacedPiece } from '../scene/index.ts';
import {
  type CutJob,
  densityNotes,
  type Offer,
  packOffer,
  priceNotes,
  type RealLayout,
  rackNotes,
  realLayouts,
  sizeOf,
  slipNotes,
  stockName,
  supplierName,
  taxOn,
} from '../stock/index.ts';
import { apportion } from './apportion.ts';
import { bandNotes } from './bands.ts';
import { amountAsSold, type PackNeed, packNeeds } from './packs.ts';
import { type CutUp, cutUp, isKept } from './rests.ts';

export interface BillLine {
  /** The offer's own id. */
  readonly id: string;
  readonly kind: 'panel' | 'board' | 'pack';
  readonly stock: string;
  readonly name: string;
  /** Its size, or what a pack holds, in the plan's own units. */
  readonly detail?: string;
  readonly count: number;
  /** For one, before tax. Undefined is not known. */
  readonly price?: Money;
  /** count × price, before tax. */
  readonly total?: Money;
  readonly tax?: Money;
  /** With tax. */
  readonly cost?: Money;
  readonly supplier?: string;
  readonly date?: string;
  readonly why?: string;
  /** The cost with tax by piece; adds up to it exactly. */
  readonly byPiece: readonly Share[];
}
export interface Share {
  readonly id: string;
  readonly name: string;
  readonly cost: Money;
}

/** What is bought of one material and what becomes of it: mm² of panels, mm of boards. */
export interface Use {
  readonly stock: string;
  readonly name: string;
  readonly unit: 'mm²' | 'mm';
  /** What is taken: bought and from the rack. */
  readonly bought: number;
  readonly fromRack: number;
  readonly inParts: number;
  readonly toRack: number;
  /** Blade, trim and what is too small to keep. */
  readonly waste: number;
}
export interface RackChange {
  readonly taken: readonly {
    readonly stock: string;
    readonly id: string;
    readonly length: number;
    readonly width: number;
    readonly where?: string;
  }[];
  readonly left: readonly {
    readonly stock: string;
    readonly length: number;
    readonly width: number;
    readonly from: number;
  }[];
}

export interface Bill {
  readonly lines: readonly BillLine[];
  /** Of what has a price. */
  readonly net: Money;
  readonly tax: Money;
  readonly known: Money;
  /** Net and tax of everything; left out while anything that must be bought has no price or cannot be had. */
  readonly total?: Money;
  readonly complete: boolean;
  readonly byPiece: readonly Share[];
  readonly byMaterial: readonly Share[];
  readonly bySupplier: readonly Share[];
  /** What to buy where, in the order of the plan's suppliers. */
  readonly shopping: readonly {
    readonly supplier: string;
    readonly name: string;
    readonly lines: readonly BillLine[];
    readonly net: Money;
    readonly tax: Money;
    readonly cost: Money;
  }[];
  readonly uses: readonly Use[];
  readonly rack: RackChange;
  /** Uses of fittings that no pack of the stock serves, or none of which it is known how many; the total is known without them only. */
  readonly unserved: readonly string[];
  readonly notes: readonly Note[];
}

/** A cutting job with its answer. */
export interface Cut {
  readonly job: CutJob;
  readonly answer: PanelAnswer | LengthAnswer;
}
export interface BillInput {
  readonly plan: Plan;
  readonly pieces: readonly PlacedPiece[];
  readonly parts: readonly Part[];
  readonly fittings: readonly Fitting[];
  readonly cuts: readonly Cut[];
  /** How a layout is taken apart, where the order of its cuts is known; left out: by `cutUp`. */
  readonly takeApart?: (layout: RealLayout) => CutUp;
  /** The day it is reckoned, 2026-10-02: prices grow old. */
  readonly today: string;
}

/** Suppliers the plan does not name. */
const NO_SUPPLIER = '';

interface Draft {
  readonly offer: Offer;
  readonly count: number;
  readonly detail?: string;
  readonly why?: string;
  readonly weights: ReadonlyMap<string, number>;
}

/**
 * What to buy in the units it is sold in, what it costs, and where the money goes. Money in the currency's smallest units, tax on each
 * supplier's sum, half a unit upwards. A panel shared by several pieces is split by the area of their parts on it; all splits add up to
 * the total exactly. What has no price is a line without one, a note, and a bill without a total: never nothing.
 */
export function makeBill({ plan, pieces, parts, fittings, cuts, takeApart = cutUp, today }: BillInput): Bill {
  const print = printersFor(plan.units);
  const partOf = new Map(parts.map((p) => [p.id, p]));
  const layouts = cuts.flatMap(({ job, answer }) => realLayouts(job, answer));
  const { needs, notes: packNotes, unserved } = packNeeds(fittings, plan);
  const drafts = [...cutDrafts(layouts, partOf, print.length), ...needs.map((n) => packDraft(n, plan))];

  const unmet = cuts.flatMap(({ job, answer }): readonly Note[] => [
    ...job.notes,
    // what nobody sells is told by the job itself
    ...(answer.status === 'infeasible' && job.notes.every((n) => n.verdict !== 'stop')
      ? [
          {
            id: `cannot-cut:${job.stock}`,
            about: job.stock,
            verdict: 'stop' as const,
            title: `There is not enough ${stockName(plan.stock, job.stock)} for the parts cut from it`,
            advice: answer.issues[0]?.message ?? 'Find more of it, or another size.',
          },
        ]
      : []),
  ]);
  const planned = new Set(cuts.map(({ job }) => job.stock));
  const cutFrom = new Set(parts.map((p) => p.stock));
  const unknown = [...cutFrom].filter((id) => !planned.has(id));
  const unknownNotes = unknown.map(
    (id): Note => ({
      id: `no-stock:${id}`,
      about: id,
      verdict: 'stop',
      title: id === '' ? 'Some parts name no stock' : `'${id}' is cut from, but not planned`,
      advice: 'Add it under stock with the sizes it is sold in.',
    }),
  );

  const lines = pricedLines(drafts, plan, pieces);
  const sum = (of: (l: BillLine) => number | undefined): Money => lines.reduce((s, l) => s + (of(l) ?? 0), 0) as Money;
  const [net, tax, known] = [sum((l) => l.total), sum((l) => l.tax), sum((l) => l.cost)];
  const missing = cuts.some(({ job, answer }) => job.left.length > 0 || answer.status === 'infeasible');
  const short = shortNotes(needs);
  const complete =
    !missing &&
    unknown.length === 0 &&
    packNotes.length === 0 &&
    short.length === 0 &&
    lines.every((l) => l.cost !== undefined);
  const { uses, rack } = usesOf(cuts, layouts, plan, takeApart);
  return {
    lines,
    net,
    tax,
    known,
    ...(complete && { total: known }),
    complete,
    byPiece: gathered(
      lines.flatMap((l) => l.byPiece),
      pieces.map((p) => p.id),
    ),
    byMaterial: gathered(
      lines.flatMap((l) =>
        l.cost === undefined ? [] : [{ id: l.id.slice(0, l.id.lastIndexOf('#')), name: l.name, cost: l.cost }],
      ),
      [],
    ),
    bySupplier: gathered(
      lines.flatMap((l) =>
        l.cost === undefined
          ? []
          : [{ id: l.supplier ?? NO_SUPPLIER, name: sellerName(plan, l.supplier), cost: l.cost }],
      ),
      plan.stock.suppliers.map((s) => s.id),
    ),
    shopping: shoppingOf(lines, plan),
    uses,
    rack,
    unserved,
    notes: [
      ...unmet,
      ...unknownNotes,
      ...packNotes,
      ...short,
      ...bandNotes(parts, plan, print.length),
      ...densityNotes(plan.stock, cutFrom),
      ...slipNotes(plan.stock, cutFrom),
      ...rackNotes(plan.stock, cutFrom, print.length),
      ...priceNotes(
        drafts.map((d) => d.offer),
        plan.stock,
        today,
        print.length,
      ),
    ],
  };
}

/** Packs of which there are not as many as are needed. */
const shortNotes = (needs: readonly PackNeed[]): readonly Note[] =>
  needs.flatMap(({ pack, packs }): readonly Note[] =>
    pack.count === undefined || packs <= pack.count
      ? []
      : [
          {
            id: `too-few:${pack.id}`,
            about: pack.id,
            verdict: 'caution',
            title: `${packs} of ${pack.name ?? pack.id} are needed and only ${pack.count} can be had`,
            advice: 'Find another seller, or another pack of the same use.',
          },
        ],
  );

const sellerName = (plan: Plan, id: string | undefined): string =>
  id === undefined ? 'supplier not named' : supplierName(plan.stock, id);

/** Bought panels and boards, one line for each size, weighed by what each piece's parts take of it. */
function cutDrafts(
  layouts: readonly RealLayout[],
  partOf: ReadonlyMap<string, Part>,
  length: (mm: number) => string,
): readonly Draft[] {
  const drafts = new Map<string, { offer: Offer; count: number; weights: Map<string, number> }>();
  for (const { source, placed, from } of layouts) {
    if (source.kind !== 'buy') continue;
    const known = drafts.get(source.offer.id);
    const draft = known ?? { offer: source.offer, count: 0, weights: new Map<string, number>() };
    if (!known) drafts.set(source.offer.id, draft);
    draft.count++;
    const size = (p: { length: number; width: number }) => (from === 'panel' ? p.length * p.width : p.length);
    const whole = placed.reduce((s, p) => s + size(p), 0);
    for (const p of placed) {
      const piece = partOf.get(p.part)?.piece ?? '';
      draft.weights.set(piece, (draft.weights.get(piece) ?? 0) + size(p) / whole);
    }
  }
  return [...drafts.values()].map((d) => ({ ...d, detail: sizeOf(d.offer, length)! }));
}

function packDraft({ pack, packs, need, holds, unit, byPiece }: PackNeed, plan: Plan): Draft {
  return {
    offer: packOffer(plan.stock, pack),
    count: packs,
    detail: typeof pack.holds === 'number' ? `pack of ${pack.holds}` : pack.holds,
    why: `${amountAsSold({ pack, need, holds, unit }, plan)} needed`,
    weights: byPiece,
  };
}

/** Prices, tax by supplier, and the split among pieces. */
function pricedLines(drafts: readonly Draft[], plan: Plan, pieces: readonly PlacedPiece[]): readonly BillLine[] {
  const net = (d: Draft): number => (d.offer.price ?? 0) * d.count;
  const taxes = new Map<Draft, number>();
  for (const supplier of new Set(drafts.map((d) => d.offer.supplier))) {
    const theirs = drafts.filter((d) => d.offer.supplier === supplier && d.offer.price !== undefined);
    const tax = taxOn(
      theirs.reduce((s, d) => s + net(d), 0),
      plan.stock.tax,
    );
    apportion(tax, theirs.map(net)).forEach((share, i) => {
      taxes.set(theirs[i]!, share);
    });
  }
  const titles = new Map(pieces.map((p) => [p.id, p.title || p.id]));
  return drafts.map((d): BillLine => {
    const { offer, count, detail, why, weights } = d;
    const { id, kind, stock, name, price, supplier, date } = offer;
    const tax = taxes.get(d);
    const cost = tax === undefined ? undefined : net(d) + tax;
    const ids = [...weights.keys()];
    const shares = cost === undefined ? [] : apportion(cost, [...weights.values()]);
    return {
      id,
      kind,
      stock,
      name,
      ...(detail !== undefined && { detail }),
      count,
      ...(price !== undefined && { price, total: net(d) as Money, tax: tax as Money, cost: cost as Money }),
      ...(supplier !== undefined && { supplier }),
      ...(date !== undefined && { date }),
      ...(why !== undefined && { why }),
      byPiece: shares.map((share, i) => ({ id: ids[i]!, name: titles.get(ids[i]!) ?? ids[i]!, cost: share as Money })),
    };
  });
}

/** Shares of one id added up; first in the order given, then as they come. */
function gathered(shares: readonly Share[], order: readonly string[]): readonly Share[] {
  const sums = new Map<string, Share>();
  for (const { id, name, cost } of shares)
    sums.set(id, { id, name, cost: ((sums.get(id)?.cost ?? 0) + cost) as Money });
  const places = new Map<string, number>();
  for (const [i, id] of order.entries()) if (!places.has(id)) places.set(id, i);
  const place = (id: string): number => places.get(id) ?? order.length;
  return [...sums.values()].toSorted((a, b) => place(a.id) - place(b.id));
}

function shoppingOf(lines: readonly BillLine[], plan: Plan): Bill['shopping'] {
  const order = [...plan.stock.suppliers.map((s) => s.id), ...lines.map((l) => l.supplier ?? NO_SUPPLIER)];
  return [...new Set(order)].flatMap((supplier) => {
    const theirs = lines.filter((l) => (l.supplier ?? NO_SUPPLIER) === supplier);
    if (theirs.length === 0) return [];
    const sum = (of: (l: BillLine) => number | undefined): Money =>
      theirs.reduce((s, l) => s + (of(l) ?? 0), 0) as Money;
    return [
      {
        supplier,
        name: sellerName(plan, supplier === NO_SUPPLIER ? undefined : supplier),
        lines: theirs,
        net: sum((l) => l.total),
        tax: sum((l) => l.tax),
        cost: sum((l) => l.cost),
      },
    ];
  });
}

/** Offcuts with both sides shorter than this are waste where the shop does not say, mm. */
export const KEEP = 150;

function usesOf(
  cuts: readonly Cut[],
  layouts: readonly RealLayout[],
  plan: Plan,
  takeApart: (layout: RealLayout) => CutUp,
): { readonly uses: readonly Use[]; readonly rack: RackChange } {
  const keep = plan.shop.keep ?? KEEP;
  const taken: RackChange['taken'][number][] = [];
  const left: RackChange['left'][number][] = [];
  const uses = cuts.map(({ job }): Use => {
    const mine = layouts.filter((l) => l.stock === job.stock);
    const panel = job.from === 'panel';
    const size = (r: { length: number; width: number }): number => (panel ? r.length * r.width : r.length);
    const totals = { bought: 0, fromRack: 0, inParts: 0, toRack: 0 };
    mine.forEach((layout, from) => {
      totals[layout.source.kind === 'buy' ? 'bought' : 'fromRack'] += size(layout);
      for (const p of layout.placed) totals.inParts += size(p);
      // Back to the panel's own length and width, where the problem had them exchanged.
      const real = (r: { length: number; width: number }) =>
        job.from === 'panel' && job.exchanged
          ? { length: r.width, width: r.length }
          : { length: r.length, width: r.width };
      if (layout.source.kind === 'rack') {
        const { id, where } = layout.source;
        taken.push({ stock: job.stock, id, ...real(layout), ...(where !== undefined && { where }) });
      }
      for (const rest of takeApart(layout).rests) {
        if (!isKept(rest, job.from, keep)) continue;
        totals.toRack += size(rest);
        left.push({ stock: job.stock, ...real(rest), from });
      }
    });
    const waste = totals.bought + totals.fromRack - totals.inParts - totals.toRack;
    return { stock: job.stock, name: stockName(plan.stock, job.stock), unit: panel ? 'mm²' : 'mm', ...totals, waste };
  });
  return { uses, rack: { taken, left } };
}
