import { readdirSync, statSync } from 'node:fs';
import type { Db } from './database.ts';
import type { Announce } from './events.ts';
import { folderIsThere, pathOf, planName, readTextFile } from './files.ts';
import { formerOf, nameNow } from './history.ts';
import { stampOf } from './plan-reads.ts';
import { refusalOf } from './refusal.ts';

export interface PlanLooks {
  readonly folder: string;
  readonly db: Db;
  readonly announce: Announce;
  /** Records what another program has written. */
  readonly read: (name: string) => Promise<unknown>;
  /** Tells of a revision that another server of this folder has recorded. */
  readonly tellOf: (name: string) => Promise<void>;
  /** Whether a file is as we have written it ourselves. */
  readonly isOurs: (name: string, stamp: string) => boolean;
}

/** A look, to be taken again and again, whether another program has changed, removed or added plans; the first one only sees what is there. */
export function planLooks({ folder, db, announce, read, tellOf, isOurs }: PlanLooks): () => Promise<void> {
  let seen: ReadonlyMap<string, string> | undefined;
  /** Plans whose files are gone, and not found under another name yet. */
  const missing = new Set<string>();

  /** Takes in one file that is new or changed. A plan that nobody has opened has no history to keep up to date, unless it was moved here. */
  async function takeIn(name: string, hasHistory: boolean, isMissing: boolean): Promise<void> {
    const was = hasHistory
      ? seen !== undefined
      : isMissing && (await formerOf(db, folder, readTextFile(pathOf(folder, name))?.hash ?? ''));
    if (was) await read(name);
  }

  async function tellGone(gone: readonly string[], now: ReadonlyMap<string, string>): Promise<void> {
    for (const name of new Set([...missing, ...gone])) {
      const to = now.has(name) ? undefined : await nameNow(db, name);
      if (gone.includes(name) || to !== undefined)
        announce({ type: 'plan-gone', name, ...(to !== undefined && { to }) });
      // one that is on its way over from elsewhere comes a little later
      if (to !== undefined || now.has(name)) missing.delete(name);
      else missing.add(name);
    }
  }

  return async () => {
    folderIsThere(folder);
    const before = seen;
    const now = stampsIn(folder);
    const known = new Set((await db.selectFrom('plans').select('name').execute()).map((plan) => plan.name));
    const isMissing = [...known].some((name) => !now.has(name));
    let failure: unknown;
    for (const [name, stamp] of now) {
      if (before?.get(name) === stamp || isOurs(name, stamp)) continue;
      try {
        await takeIn(name, known.has(name), isMissing);
      } catch (error) {
        // what is no plan is told to who opens it; of anything else (another server is at the history) the next look tries again
        if (!refusalOf(error)) {
          now.set(name, '');
          failure ??= error;
        }
      }
      if (before && known.has(name)) await tellOf(name);
    }
    seen = now;
    if (!before) return;
    const gone = [...before.keys()].filter((name) => !now.has(name));
    await tellGone(gone, now);
    if (gone.length > 0 || [...now.keys()].some((name) => !before.has(name))) announce({ type: 'plans' });
    if (failure) throw failure;
  };
}

function stampsIn(folder: string): Map<string, string> {
  const stamps = new Map<string, string>();
  for (const name of readdirSync(folder).filter((one) => planName(one) === one))
    try {
      stamps.set(name, stampOf(statSync(pathOf(folder, name))));
    } catch {
      // a link out of the folder, or gone meanwhile
    }
  return stamps;
}
