import { existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { type Generated, Kysely, SqliteDialect } from 'kysely';
import type { RevisionKind, Saved } from '../core/workspace/index.ts';

/** Beside the plans, hidden: what a plain file cannot hold. */
export const HISTORY_FOLDER = '.setwright';

export interface Tables {
  readonly lock: { id: number; touched: number };
  readonly plans: { id: Generated<number>; name: string };
  /** Names that plans had before their files were given others. */
  readonly moves: { name: string; plan: number };
  readonly texts: { hash: string; bytes: number; body: Uint8Array };
  readonly revisions: {
    plan: number;
    number: number;
    at: string;
    author: string;
    kind: RevisionKind;
    base: number | null;
    hash: string;
  };
  readonly saves: { plan: number; id: string; revision: number; outcome: Saved['outcome'] };
  readonly ticks: {
    number: Generated<number>;
    plan: number;
    id: string;
    about: string;
    done: number;
    at: string;
    device: string;
  };
  readonly prices: {
    number: Generated<number>;
    id: string;
    stock: string;
    size: string;
    supplier: string;
    price: string;
    currency: string;
    date: string;
    remark: string;
    withdrawn: number;
    recorded: string;
    by: string;
  };
  readonly suppliers: { id: string; name: string; remark: string };
  readonly devices: {
    id: Generated<number>;
    name: string;
    token: string;
    paired: string;
    seen: string;
    expires: string;
  };
}
export type Db = Kysely<Tables>;

/** One step a version, never changed once released. */
const VERSIONS: readonly string[] = [
  `create table lock (id integer primary key, touched integer not null) strict;
   insert into lock values (1, 0);
   create table plans (id integer primary key, name text not null unique) strict;
   create table texts (hash text primary key, bytes integer not null, body blob not null) strict;
   create table revisions (
     plan integer not null references plans, number integer not null, at text not null, author text not null, kind text not null,
     base integer, hash text not null references texts, primary key (plan, number)) strict, without rowid;
   create table saves (
     plan integer not null references plans, id text not null, revision integer not null, outcome text not null,
     primary key (plan, id)) strict, without rowid;
   create table ticks (
     number integer primary key autoincrement, plan integer not null references plans, id text not null unique, about text not null,
     done integer not null, at text not null, device text not null) strict;
   create index ticks_of_plan on ticks (plan, number);
   create table prices (
     number integer primary key autoincrement, id text not null, stock text not null, size text not null, supplier text not null,
     price text not null, currency text not null, date text not null, remark text not null, withdrawn integer not null,
     recorded text not null, by text not null, unique (id, withdrawn)) strict;
   create table suppliers (id text primary key, name text not null, remark text not null) strict;
   create table devices (
     id integer primary key autoincrement, name text not null, token text not null unique, paired text not null,
     seen text not null, expires text not null) strict;`,
  // tokens are stored under a key of the machine from here on: those stored before fit none, and are paired anew
  'delete from devices',
  'create table moves (name text primary key, plan integer not null references plans) strict',
];

export interface Opened {
  readonly db: Db;
  readonly close: () => void;
  /** A plain sentence where something is not as it should be. */
  readonly forgetful?: string;
  readonly remark?: string;
}

/**
 * The database of a workspace. Where none can be written there is one in memory, and `forgetful` says so; one that is no database any
 * more is moved aside and never deleted.
 */
export function openDatabase(folder: string): Opened {
  const home = join(folder, HISTORY_FOLDER);
  const file = join(home, 'workbench.db');
  try {
    mkdirSync(home, { recursive: true, mode: 0o700 });
    return connect(file);
  } catch (error) {
    if (error instanceof NewerDatabase) throw error;
    if (existsSync(file) && isBroken(error)) {
      const aside = `${file}.broken-${new Date().toISOString().replace(/[:.]/g, '-')}`;
      for (const end of ['', '-wal', '-shm']) if (existsSync(file + end)) renameSync(file + end, aside + end);
      return { ...connect(file), remark: `The history of this workspace could not be read. It was moved to ${aside}.` };
    }
    const why = error instanceof Error ? error.message : String(error);
    return {
      ...connect(':memory:'),
      forgetful: `Nothing can be kept in ${HISTORY_FOLDER} (${why}): revisions, ticks and prices last until the workbench stops.`,
    };
  }
}

export class NewerDatabase extends Error {}
const isBroken = (error: unknown): boolean => /not a database|malformed|corrupt/i.test(String(error));

/** Opens the file, or makes it, and brings it up to this version. */
function openFile(file: string) {
  const raw = new DatabaseSync(file, { timeout: 5000 });
  try {
    raw.exec('pragma journal_mode = wal; pragma synchronous = full; pragma foreign_keys = on;');
    raw.exec('begin immediate');
    const { user_version: version } = raw.prepare('pragma user_version').get() as { user_version: number };
    if (version > VERSIONS.length)
      throw new NewerDatabase(
        `${file} was written by a newer version of Setwright; it is left untouched. Use that version, or another folder.`,
      );
    for (const step of VERSIONS.slice(version)) raw.exec(step);
    raw.exec(`pragma user_version = ${VERSIONS.length}`);
    raw.exec('commit');
    return raw;
  } catch (error) {
    raw.close();
    throw error;
  }
}

/** Which file stands under a name; undefined where there is none. */
const standingAt = (file: string): string | undefined => {
  const stat = statSync(file, { throwIfNoEntry: false });
  return stat && `${stat.dev} ${stat.ino}`;
};

function connect(file: string): Opened {
  let raw = openFile(file);
  let ours = standingAt(file);
  /**
   * A history that somebody cleared away, or put another in the place of, while we have it open would go on under no name, and what it
   * takes in would end with the program: it is written down again, or set aside, before anything is added.
   */
  const keepInPlace = (): void => {
    if (ours === undefined || raw.isTransaction) return;
    const there = standingAt(file);
    if (there === ours || !existsSync(dirname(dirname(file)))) return;
    mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
    const aside = `${file}.before-${new Date().toISOString().replace(/[:.]/g, '-')}`;
    try {
      raw.prepare('vacuum into ?').run(aside);
    } catch (error) {
      rmSync(aside, { force: true });
      throw error;
    }
    if (there === undefined) {
      // a log of changes that was left lying belongs to the file that is gone
      for (const end of ['-wal', '-shm']) rmSync(file + end, { force: true });
      renameSync(aside, file);
    }
    const next = openFile(file);
    prepared.clear();
    raw.close();
    raw = next;
    ours = standingAt(file);
  };
  const prepare = (sql: string) => {
    const statement = raw.prepare(sql);
    // a full disk has rolled back already, and a second time would be a fault that hides the first
    if (/^rollback$/i.test(sql))
      return {
        reader: false,
        all: () => [],
        run: () => {
          if (raw.isTransaction) statement.run();
          return { changes: 0, lastInsertRowid: 0 };
        },
        iterate: () => [][Symbol.iterator](),
      };
    return {
      reader: statement.columns().length > 0,
      all: (parameters: readonly unknown[]) => statement.all(...(parameters as never[])) as unknown[],
      run: (parameters: readonly unknown[]) =>
        statement.run(...(parameters as never[])) as { changes: number; lastInsertRowid: number },
      iterate: (parameters: readonly unknown[]) =>
        statement.iterate(...(parameters as never[])) as IterableIterator<unknown>,
    };
  };
  // the driver lets go of a statement only when it is collected, so each is prepared once
  const prepared = new Map<string, ReturnType<typeof prepare>>();
  const database = {
    close: () => raw.close(),
    prepare(sql: string) {
      if (/^(?:begin|insert|update|delete)/i.test(sql)) keepInPlace();
      const known = prepared.get(sql);
      if (known) return known;
      const statement = prepare(sql);
      if (prepared.size < 200) prepared.set(sql, statement);
      return statement;
    },
  };
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });
  const close = (): void => {
    keepInPlace();
    prepared.clear();
    // everything into the one file, where whoever copies the folder finds it
    raw.exec('pragma wal_checkpoint(truncate)');
    raw.close();
  };
  return { db, close };
}

/** A transaction that holds the write lock from its first statement: of two servers on one folder only one is inside at a time. */
export const exclusively = <T>(db: Db, work: (trx: Db) => Promise<T>): Promise<T> =>
  db.transaction().execute(async (trx) => {
    await trx
      .updateTable('lock')
      .set((e) => ({ touched: e('touched', '+', 1) }))
      .execute();
    return work(trx);
  });
