import { grouped } from '../core/grouped.ts';
import { isLater, type Tick, type TickRequest, type Ticks } from '../core/workspace/index.ts';
import { type Db, exclusively } from './database.ts';
import type { Announce } from './events.ts';
import type { Who } from './plan-changes.ts';
import type { Plans } from './plans.ts';

const MOST_TICKS_AT_ONCE = 5_000;

/** What was done in the shop: ticks, one after another. */
export interface TickLog {
  readonly ticks: (plan: string, after: number) => Promise<Ticks>;
  readonly tick: (plan: string, request: TickRequest, who: Who) => Promise<Ticks>;
  /** Tells what another server of this folder has written down. */
  readonly lookAround: () => Promise<void>;
}

export function tickLogOf(db: Db, plans: Pick<Plans, 'idOf'>, announce: Announce): TickLog {
  /** The last that the pages of this server know; at first, the last there is. */
  let told: number | undefined;
  /** Ticks that came in here, and were told at once. */
  const own = new Set<number>();

  return {
    async ticks(name, after) {
      const rows = await db
        .selectFrom('ticks')
        .selectAll()
        .where('plan', '=', await plans.idOf(name))
        .where('number', '>', after)
        .orderBy('number')
        .limit(MOST_TICKS_AT_ONCE + 1)
        .execute();
      const ticks = rows.slice(0, MOST_TICKS_AT_ONCE).map(tickOf);
      return { ticks, last: ticks.at(-1)?.number ?? after, ...(rows.length > ticks.length && { more: true }) };
    },

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

    async lookAround() {
      if (told === undefined) {
        const { last } = await db
          .selectFrom('ticks')
          .select((e) => e.fn.max('number').as('last'))
          .executeTakeFirstOrThrow();
        told = Number(last ?? 0);
        return;
      }
      const rows = await db
        .selectFrom('ticks')
        .innerJoin('plans', 'plans.id', 'ticks.plan')
        .selectAll('ticks')
        .select('plans.name as name')
        .where('number', '>', told)
        .orderBy('number')
        .execute();
      told = rows.at(-1)?.number ?? told;
      const others = rows.filter(({ number }) => !own.delete(number));
      for (const [name, ticks] of grouped(others, (row) => row.name))
        announce({ type: 'ticks', name, ticks: ticks.map(tickOf) });
    },
  };
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
