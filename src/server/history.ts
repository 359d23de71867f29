import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { RevisionEntry, RevisionKind, Revisions } from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import { planNames, sha256 } from './files.ts';

/** The revisions of plans as the database keeps them. Each function works inside the transaction that it is given, or outside of any. */
export interface RevisionRow {
  readonly number: number;
  readonly at: string;
  readonly author: string;
  readonly kind: RevisionKind;
  readonly base: number | null;
  readonly hash: string;
  readonly bytes: number;
}
export const entryOf = ({ number, at, author, kind, base, hash, bytes }: RevisionRow): RevisionEntry => ({
  revision: number,
  at,
  author,
  kind,
  ...(base !== null && { base }),
  hash,
  bytes,
});

/** The number of a plan that has a history; undefined where it has none. */
export const idNow = async (trx: Db, name: string): Promise<number | undefined> =>
  (await trx.selectFrom('plans').select('id').where('name', '=', name).executeTakeFirst())?.id;

/** The number of a plan, made when it is new. `hash` is that of its text where its file was found in the folder. */
export async function planId(trx: Db, folder: string, name: string, hash?: string): Promise<number> {
  const found = await idNow(trx, name);
  if (found !== undefined) return found;
  await trx.deleteFrom('moves').where('name', '=', name).execute();
  const former = hash === undefined ? undefined : await formerOf(trx, folder, hash);
  if (former) {
    await trx.updateTable('plans').set({ name }).where('id', '=', former.id).execute();
    await trx.insertInto('moves').values({ name: former.name, plan: former.id }).execute();
    return former.id;
  }
  const made = await trx.insertInto('plans').values({ name }).returning('id').executeTakeFirstOrThrow();
  return made.id;
}

/**
 * The plan that was moved here by another program: one that said the same once, and whose own name has no file any more. Of one that was
 * copied the name still has. Whether it is the same file tells nothing: the system gives the number of a file that is gone to the next.
 */
export async function formerOf(trx: Db, folder: string, hash: string) {
  const names = new Set(planNames(folder));
  const all = await trx
    .selectFrom('plans')
    .innerJoin('revisions', 'revisions.plan', 'plans.id')
    .select(['plans.id', 'plans.name'])
    .where('hash', '=', hash)
    .where('kind', '!=', 'aside')
    .orderBy('at', 'desc')
    .execute();
  return all.find((one) => !names.has(one.name));
}

/** What a plan is called now that had this name before. */
export async function nameNow(trx: Db, name: string): Promise<string | undefined> {
  const found = await trx
    .selectFrom('moves')
    .innerJoin('plans', 'plans.id', 'moves.plan')
    .select('plans.name')
    .where('moves.name', '=', name)
    .executeTakeFirst();
  return found?.name;
}

/** A revision as it is to be written down; the time is now where none is given. */
export interface NewRevision {
  readonly text: string;
  readonly kind: RevisionKind;
  readonly author: string;
  readonly base: number | null;
  readonly at?: Date;
}

export async function record(trx: Db, plan: number, { text, at = new Date(), ...made }: NewRevision) {
  const body = Buffer.from(text, 'utf8');
  const hash = sha256(body);
  await trx
    .insertInto('texts')
    .values({ hash, bytes: body.length, body: deflateRawSync(body) })
    .onConflict((c) => c.doNothing())
    .execute();
  const { last } = await trx
    .selectFrom('revisions')
    .select((e) => e.fn.max('number').as('last'))
    .where('plan', '=', plan)
    .executeTakeFirstOrThrow();
  const row = { plan, number: Number(last ?? 0) + 1, at: at.toISOString(), ...made, hash };
  await trx.insertInto('revisions').values(row).execute();
  return entryOf({ ...row, bytes: body.length });
}

export async function textOf(trx: Db, hash: string): Promise<string> {
  const row = await trx.selectFrom('texts').select('body').where('hash', '=', hash).executeTakeFirstOrThrow();
  return inflateRawSync(row.body).toString('utf8');
}

const rowsOf = (trx: Db, plan: number) =>
  trx
    .selectFrom('revisions')
    .innerJoin('texts', 'texts.hash', 'revisions.hash')
    .select(['number', 'at', 'author', 'kind', 'base', 'revisions.hash', 'bytes'])
    .where('plan', '=', plan);

export const rowOf = (trx: Db, plan: number, number: number): Promise<RevisionRow | undefined> =>
  rowsOf(trx, plan).where('number', '=', number).executeTakeFirst();

/** The newest revision that is or was the file. */
export const lastOf = (trx: Db, name: string) =>
  trx
    .selectFrom('plans')
    .innerJoin('revisions', 'revisions.plan', 'plans.id')
    .select(['number', 'hash', 'at', 'author', 'kind'])
    .where('name', '=', name)
    .where('kind', '!=', 'aside')
    .orderBy('number', 'desc')
    .limit(1)
    .executeTakeFirst();

/** The newest `most` revisions before one, the newest first. */
export async function listed(trx: Db, plan: number, before: number | undefined, most: number): Promise<Revisions> {
  const newest = rowsOf(trx, plan)
    .orderBy('number', 'desc')
    .limit(most + 1);
  const rows = await (before === undefined ? newest : newest.where('number', '<', before)).execute();
  const revisions = rows.slice(0, most).map(entryOf);
  return { revisions, ...(rows.length > most && { older: revisions.at(-1)!.revision }) };
}
