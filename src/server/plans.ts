import { statSync } from 'node:fs';
import { type PlainValue, readPlan } from '../core/plan/index.ts';
import type {
  PlanEntry,
  PlanState,
  ReadPlan,
  RestoreRequest,
  Revisions,
  RevisionText,
  Saved,
  SaveRequest,
} from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import type { Announce } from './events.ts';
import { folderIsThere, Overtaken, pathOf, replaceFile, withEnding } from './files.ts';
import { entryOf, idNow, listed, planId, record, rowOf, textOf } from './history.ts';
import { ownWrites, type Replace } from './own-writes.ts';
import { planChanges, type Who } from './plan-changes.ts';
import { planFiles, soundName } from './plan-files.ts';
import { planLooks } from './plan-looks.ts';
import { planNews } from './plan-news.ts';
import { planReads } from './plan-reads.ts';
import { notAPlan, Refused, refusalOf } from './refusal.ts';

export interface Plans {
  readonly list: () => readonly PlanEntry[];
  readonly read: (name: string) => Promise<PlanState>;
  /** What a text that was read says; undefined where something is wrong with it. */
  readonly soundIn: (state: PlanState) => ReadPlan | undefined;
  readonly create: (name: string, text: string, who: Who) => Promise<PlanState>;
  readonly save: (name: string, request: SaveRequest, who: Who) => Promise<Saved>;
  readonly restore: (name: string, request: RestoreRequest, who: Who) => Promise<Saved>;
  readonly revisions: (name: string, before: number | undefined, most: number) => Promise<Revisions>;
  readonly revision: (name: string, number: number) => Promise<RevisionText>;
  /** Looks whether another program has changed, removed or added plans, and says so. */
  readonly lookAround: () => Promise<void>;
  /** The number of a plan in the database, made when it is new. */
  readonly idOf: (name: string) => Promise<number>;
}

export function plansOf(folder: string, db: Db, announce: Announce, replace: Replace = replaceFile): Plans {
  const reads = planReads();
  const { twinOf, asItLies, look } = planFiles(folder, db, reads);
  const { inside, tellOf } = planNews(db, announce);
  const { put, isOurs, settled } = ownWrites(folder, replace);

  const plans: Plans = {
    list: () => reads.list(folder),

    soundIn({ hash, text }) {
      const { plan, document } = reads.read(hash, text);
      return plan && { plan, plain: document.plain as PlainValue };
    },

    async read(name) {
      await settled(soundName(name));
      const recorded = await asItLies(name, 'recorded');
      if (recorded) return recorded;
      try {
        return await inside(async (trx, news) => (await look(trx, name, news)).state);
      } catch (error) {
        const code = refusalOf(error)?.body.error.code;
        const lies = code === 'disk-full' || code === 'read-only' ? await asItLies(name, 'not recorded') : undefined;
        if (!lies) throw error;
        return lies;
      }
    },

    async create(written, text, who) {
      const name = soundName(withEnding(written));
      const { plan: sound, issues } = readPlan(text);
      if (!sound) throw notAPlan('The text', issues);
      folderIsThere(folder);
      const path = pathOf(folder, name);
      const state = await inside(async (trx, news, files) => {
        const twin = twinOf(name);
        if (twin !== undefined)
          return new Refused(
            'exists',
            `There is a plan ${twin} already; nothing was written. The two names differ only by capital letters or accents: on many disks they are one file.`,
          );
        if (statSync(path, { throwIfNoEntry: false }))
          return new Refused('exists', `There is a plan ${name} already; nothing was written.`);
        const plan = await planId(trx, folder, name);
        const made = await record(trx, plan, { text, kind: 'created', author: who.device, base: null });
        try {
          files.push(put(name, text, undefined));
        } catch (error) {
          if (error instanceof Overtaken)
            return new Refused('exists', `There is a plan ${name} already; nothing was written.`);
          throw error;
        }
        const by = who.page === undefined ? {} : { by: who.page };
        news.push({ name, revision: made.revision, hash: made.hash, kind: 'created', author: who.device, ...by });
        return { name, text, revision: made.revision, hash: made.hash, at: made.at, author: who.device, issues };
      });
      announce({ type: 'plans' });
      return state;
    },

    ...planChanges({ inside, look, settled, put, reads }),

    revisions: async (name, before, most) => listed(db, await idOf(name), before, most),

    async revision(name, number) {
      const row = await rowOf(db, await idOf(name), number);
      if (!row) throw new Refused('not-found', `${name} has no revision ${number}.`);
      return { ...entryOf(row), text: await textOf(db, row.hash) };
    },

    lookAround: () => lookAround(),

    idOf: (name) => idOf(name),
  };
  const lookAround = planLooks({
    folder,
    db,
    announce,
    read: plans.read,
    tellOf,
    isOurs,
  });
  const idOf = async (name: string): Promise<number> => {
    const found = await idNow(db, soundName(name));
    if (found !== undefined) return found;
    await plans.read(name); // refuses what is not there
    return (await idNow(db, name))!;
  };
  return plans;
}
