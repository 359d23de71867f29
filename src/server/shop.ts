import { grouped } from '../core/grouped.ts';
import {
  isLater,
  type NewPrice,
  type Price,
  type PriceBook,
  type PriceImport,
  type PriceImported,
  priceFaults,
  readPrices,
  type Supplier,
  type Tick,
  type TickRequest,
  type Ticks,
} from '../core/workspace/index.ts';
import { type Db, exclusively } from './database.ts';
import type { Announce } from './events.ts';
import type { Who } from './plan-changes.ts';
import type { Plans } from './plans.ts';
import { Refused } from './refusal.ts';

const MOST_TICKS_AT_ONCE = 5_000;

export interface Shop {
  readonly ticks: (plan: string, after: number) => Promise<Ticks>;
  readonly tick: (plan: string, request: TickRequest, who: Who) => Promise<Ticks>;
  readonly prices: () => Promise<PriceBook>;
  readonly addPrices: (prices: readonly NewPrice[], who: Who) => Promise<PriceBook>;
  readonly importPrices: (request: PriceImport, who: Who) => Promise<PriceImported>;
  readonly putSupplier: (supplier: Supplier, who: Who) => Promise<PriceBook>;
  /** Tells what another server of this folder has written down. */
  readonly lookAround: () => Promise<void>;
}

/** What grows beside the plans: the log of what was done in the shop, and the price book. */
export function shopOf(db: Db, plans: Plans, announce: Announce): Shop {
  const ticksOf = async (plan: number, after: number): Promise<Ticks> => {
    const rows = await db
      .selectFrom('ticks')
      .selectAll()
      .where('plan', '=', plan)
      .where('number', '>', after)
      .orderBy('number')
      .limit(MOST_TICKS_AT_ONCE + 1)
      .execute();
    const ticks = rows.slice(0, MOST_TICKS_AT_ONCE).map(tickOf);
    return { ticks, last: ticks.at(-1)?.number ?? after, ...(rows.length > ticks.length && { more: true }) };
  };

  const insertPrices = async (trx: Db, prices: readonly NewPrice[], who: Who): Promise<number> => {
    const recorded = new Date().toISOString();
    let added = 0;
    for (const price of prices) {
      const { remark = '', withdrawn = false, ...rest } = price;
      const result = await trx
        .insertInto('prices')
        .values({ ...rest, remark, withdrawn: withdrawn ? 1 : 0, recorded, by: who.device })
        .onConflict((c) => c.columns(['id', 'withdrawn']).doNothing())
        .executeTakeFirst();
      added += Number(result.numInsertedOrUpdatedRows ?? 0n);
    }
    return added;
  };
  const toldBy = async (who: Who) => {
    if (told) told = { ...told, book: await bookNow() };
    announce({ type: 'prices' }, who.page);
  };
  /** What tells one state of the book from another: prices are only added, suppliers may be changed. */
  const bookNow = async (): Promise<string> => {
    const suppliers = await db.selectFrom('suppliers').selectAll().orderBy('id').execute();
    const { last } = await db
      .selectFrom('prices')
      .select((e) => e.fn.max('number').as('last'))
      .executeTakeFirstOrThrow();
    return JSON.stringify([suppliers, last]);
  };
  /** What the pages of this server know; at first, what they find. */
  let told: { readonly tick: number; readonly book: string } | undefined;
  /** Ticks that came in here, and were told at once. */
  const own = new Set<number>();

  const shop: Shop = {
    ticks: async (plan, after) => ticksOf(await plans.idOf(plan), after),

    async tick(name, request, who) {
      const plan = await plans.idOf(name);
      const ticks = timed(request, Date.now());
      const recorded = await exclusively(db, async (trx) => {
        const fresh: Tick[] = [];
        for (const { id, about, done, at } of ticks) {
          const row = { plan, id, about, done: done ? 1 : 0, at, device: who.device };
          const made = await trx
            .insertInto('ticks')
            .values(row)
            .onConflict((c) => c.column('id').doNothing())
            .returning('number')
            .executeTakeFirst();
          if (made) fresh.push(tickOf({ ...row, number: made.number }));
        }
        const ids = ticks.map((tick) => tick.id);
        const rows = await trx
          .selectFrom('ticks')
          .selectAll()
          .where('plan', '=', plan)
          .where('id', 'in', ids)
          .orderBy('number')
          .execute();
        return { fresh, all: rows.map(tickOf) };
      });
      for (const { number } of recorded.fresh) own.add(number);
      if (recorded.fresh.length > 0) announce({ type: 'ticks', name, ticks: recorded.fresh }, who.page);
      return { ticks: recorded.all, last: recorded.all.at(-1)?.number ?? 0 };
    },

    async prices() {
      const suppliers = await db.selectFrom('suppliers').selectAll().orderBy('id').execute();
      const prices = await db.selectFrom('prices').selectAll().orderBy('date').orderBy('number').execute();
      return {
        suppliers: suppliers.map(({ id, name, remark }) => ({ id, name, ...(remark !== '' && { remark }) })),
        prices: prices.map(
          ({ withdrawn, remark, ...row }): Price => ({
            ...row,
            ...(remark !== '' && { remark }),
            ...(withdrawn === 1 && { withdrawn: true }),
          }),
        ),
      };
    },

    async addPrices(prices, who) {
      const issues = prices.flatMap((price, i) =>
        priceFaults(price).map((issue) => ({ ...issue, path: ['prices', i, ...issue.path] })),
      );
      if (issues.length > 0)
        throw new Refused('bad-request', 'Some of the prices cannot be read; none was recorded.', { issues });
      const added = await exclusively(db, (trx) => insertPrices(trx, prices, who));
      if (added > 0) await toldBy(who);
      return shop.prices();
    },

    async importPrices({ csv, currency, date, dryRun }, who) {
      const read = readPrices(csv, { currency, date });
      if (!read.ok)
        throw new Refused('bad-csv', 'The table was not read; nothing was recorded.', { issues: read.issues });
      const before = await shop.prices();
      const ids = new Set(before.prices.map((price) => price.id));
      const known = read.value.filter((price) => ids.has(price.id)).length;
      if (dryRun) return { read: read.value, known, book: before };
      const added = await exclusively(db, (trx) => insertPrices(trx, read.value, who));
      if (added > 0) await toldBy(who);
      return { read: read.value, known, book: await shop.prices() };
    },

    async putSupplier({ id, name, remark = '' }, who) {
      await db
        .insertInto('suppliers')
        .values({ id, name, remark })
        .onConflict((c) => c.column('id').doUpdateSet({ name, remark }))
        .execute();
      await toldBy(who);
      return shop.prices();
    },

    async lookAround() {
      const before = told;
      const book = await bookNow();
      if (!before) {
        const { last } = await db
          .selectFrom('ticks')
          .select((e) => e.fn.max('number').as('last'))
          .executeTakeFirstOrThrow();
        told = { tick: Number(last ?? 0), book };
        return;
      }
      const rows = await db
        .selectFrom('ticks')
        .innerJoin('plans', 'plans.id', 'ticks.plan')
        .selectAll('ticks')
        .select('plans.name as name')
        .where('number', '>', before.tick)
        .orderBy('number')
        .execute();
      told = { tick: rows.at(-1)?.number ?? before.tick, book };
      const others = rows.filter(({ number }) => !own.delete(number));
      for (const [name, ticks] of grouped(others, (row) => row.name))
        announce({ type: 'ticks', name, ticks: ticks.map(tickOf) });
      if (book !== before.book) announce({ type: 'prices' });
    },
  };
  return shop;
}

/** A request may take its while to arrive, ms; a clock that is off by more is wrong. */
const MOST_ON_THE_WAY = 60_000;

/** The ticks by this machine's clock, none later than now. Taps on one thing stay in their order, also where they end up at the same time. */
function timed({ ticks, sent }: TickRequest, now: number): TickRequest['ticks'] {
  const off = sent === undefined ? 0 : Date.parse(sent) - now;
  const wrong = Math.abs(off) > MOST_ON_THE_WAY ? off : 0;
  const latest = new Map<string, number>();
  const times = new Map<string, string>();
  for (const { id, about, at } of [...ticks].sort((a, b) => (isLater(a, b) ? -1 : 1))) {
    const time = Math.min(Date.parse(at) - wrong, latest.get(about) ?? now);
    latest.set(about, time - 1);
    times.set(id, new Date(time).toISOString());
  }
  return ticks.map((tick) => ({ ...tick, at: times.get(tick.id)! }));
}

const tickOf = ({ number, id, about, done, at, device }: Omit<Tick, 'done'> & { readonly done: number }): Tick => ({
  number,
  id,
  about,
  done: done === 1,
  at,
  device,
});
