import {
  type NewPrice,
  type Price,
  type PriceBook,
  type PriceImport,
  type PriceImported,
  priceFaults,
  readPrices,
  type Supplier,
} from '../core/workspace/index.ts';
import { type Db, exclusively } from './database.ts';
import type { Announce } from './events.ts';
import type { Who } from './plan-changes.ts';
import { Refused } from './refusal.ts';

/** Who sells what, and what it cost when. Prices are only added. */
export interface KeptPrices {
  readonly prices: () => Promise<PriceBook>;
  readonly addPrices: (prices: readonly NewPrice[], who: Who) => Promise<PriceBook>;
  readonly importPrices: (request: PriceImport, who: Who) => Promise<PriceImported>;
  readonly putSupplier: (supplier: Supplier, who: Who) => Promise<PriceBook>;
  /** Tells what another server of this folder has written down. */
  readonly lookAround: () => Promise<void>;
}

export function keptPricesOf(db: Db, announce: Announce): KeptPrices {
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
  /** What tells one state of the book from another: prices are only added, suppliers may be changed. */
  const bookNow = async (): Promise<string> => {
    const suppliers = await db.selectFrom('suppliers').selectAll().orderBy('id').execute();
    const { last } = await db
      .selectFrom('prices')
      .select((e) => e.fn.max('number').as('last'))
      .executeTakeFirstOrThrow();
    return JSON.stringify([suppliers, last]);
  };
  /** The state that the pages of this server know; at first, the one that is found. */
  let told: string | undefined;
  const toldBy = async (who: Who) => {
    if (told !== undefined) told = await bookNow();
    announce({ type: 'prices' }, who.page);
  };

  const kept: KeptPrices = {
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
      return kept.prices();
    },

    async importPrices({ csv, currency, date, dryRun }, who) {
      const read = readPrices(csv, { currency, date });
      if (!read.ok)
        throw new Refused('bad-csv', 'The table was not read; nothing was recorded.', { issues: read.issues });
      const before = await kept.prices();
      const ids = new Set(before.prices.map((price) => price.id));
      const known = read.value.filter((price) => ids.has(price.id)).length;
      if (dryRun) return { read: read.value, known, book: before };
      const added = await exclusively(db, (trx) => insertPrices(trx, read.value, who));
      if (added > 0) await toldBy(who);
      return { read: read.value, known, book: await kept.prices() };
    },

    async putSupplier({ id, name, remark = '' }, who) {
      await db
        .insertInto('suppliers')
        .values({ id, name, remark })
        .onConflict((c) => c.column('id').doUpdateSet({ name, remark }))
        .execute();
      await toldBy(who);
      return kept.prices();
    },

    async lookAround() {
      const before = told;
      told = await bookNow();
      if (before !== undefined && told !== before) announce({ type: 'prices' });
    },
  };
  return kept;
}
