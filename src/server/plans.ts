import { statSync } from 'node:fs';
import { applyEdits, type PlainValue, readPlan } from '../core/plan/index.ts';
import {
  type Clash,
  mergeTexts,
  type PlanEntry,
  type PlanState,
  type ReadPlan,
  type RestoreRequest,
  type Revisions,
  type RevisionText,
  type Saved,
  type SaveRequest,
} from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import type { Announce } from './events.ts';
import { folderIsThere, Overtaken, pathOf, replaceFile, sha256, withEnding } from './files.ts';
import { entryOf, idNow, listed, planId, record, rowOf, textOf } from './history.ts';
import { ownWrites, type Replace } from './own-writes.ts';
import { type Current, OUTSIDE, planFiles, soundName } from './plan-files.ts';
import { planLooks } from './plan-looks.ts';
import { planNews } from './plan-news.ts';
import { planReads } from './plan-reads.ts';
import { notAPlan, Refused, refusalOf } from './refusal.ts';

/** Who makes a change: the name of the device for the list of revisions, the page for its own events. */
export interface Who {
  readonly device: string;
  readonly page?: string;
}

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

  const change = async (
    name: string,
    request: Pick<SaveRequest, 'base' | 'baseHash' | 'madeOn' | 'id'>,
    who: Who,
    kind: 'saved' | 'restored',
    mineOf: (base: string | undefined, current: Current, trx: Db) => Promise<string | Refused> | string | Refused,
  ): Promise<Saved> => {
    await settled(soundName(name));
    return inside(async (trx, news, files) => {
      const current = await look(trx, name, news);
      const { plan, state } = current;
      if (request.id !== undefined) {
        const before = await trx
          .selectFrom('saves')
          .select(['revision', 'outcome'])
          .where('plan', '=', plan)
          .where('id', '=', request.id)
          .executeTakeFirst();
        if (before) return { ...state, outcome: before.revision === state.revision ? before.outcome : 'merged' };
      }
      const baseRow = await rowOf(trx, plan, request.base);
      const usable = baseRow && (request.baseHash === undefined || request.baseHash === baseRow.hash);
      // a text that could not be recorded when it was read
      const isAsRead = request.baseHash !== undefined && request.baseHash === state.hash;
      const read = usable ? await textOf(trx, baseRow.hash) : isAsRead ? state.text : undefined;
      const base = read === undefined ? undefined : (request.madeOn ?? read);
      const mine = await mineOf(base, current, trx);
      if (mine instanceof Refused) return mine;

      const clashing = async (clashes: readonly Clash[]): Promise<Refused> => {
        const { revision: aside } = await record(trx, plan, {
          text: mine,
          kind: 'aside',
          author: who.device,
          base: usable ? request.base : null,
        });
        return new Refused(
          'conflict',
          usable
            ? 'The same place was changed by somebody else. Nothing was written; both texts are kept.'
            : 'The history has no such revision to start from. Nothing was written; both texts are kept.',
          {},
          { base: { revision: request.base, text: base ?? state.text }, current: state, mine, aside, clashes },
        );
      };
      const finish = async (outcome: Saved['outcome'], after: PlanState): Promise<Saved> => {
        if (request.id !== undefined)
          await trx.insertInto('saves').values({ plan, id: request.id, revision: after.revision, outcome }).execute();
        return { ...after, outcome };
      };
      if (mine === state.text) return finish('same', state);
      if (base === undefined) return clashing([]);
      const merge = mergeTexts(base, mine, state.text);
      if (!merge.clean) return clashing(merge.clashes);
      if (merge.text === state.text) return finish('same', state);
      const outcome = merge.text === mine ? 'saved' : 'merged';
      const recorded = outcome === 'merged' ? 'merged' : kind;
      const made = await record(trx, plan, {
        text: merge.text,
        kind: recorded,
        author: who.device,
        base: state.revision,
      });
      const replaced = put(name, merge.text, state.hash);
      files.push(replaced);
      const { overtaken } = replaced;
      if (overtaken)
        await record(trx, plan, {
          text: overtaken.text,
          kind: 'aside',
          author: OUTSIDE,
          base: state.revision,
          at: overtaken.changed,
        });
      const by = who.page === undefined ? {} : { by: who.page };
      news.push({ name, revision: made.revision, hash: made.hash, kind: recorded, author: who.device, ...by });
      const { issues } = reads.read(made.hash, merge.text);
      const after = { name, text: merge.text, revision: made.revision, hash: made.hash, at: made.at };
      return finish(outcome, { ...after, author: who.device, issues });
    });
  };

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

    save: (name, request, who) =>
      change(name, request, who, 'saved', (base, current) => {
        let mine: string;
        if ('text' in request) mine = request.text;
        else if (base === undefined) mine = current.state.text;
        else {
          const edited = applyEdits(base, request.edits);
          if (!edited.ok) return notAPlan('What the edits make', edited.issues);
          mine = edited.value.text;
        }
        if (base === undefined && !('text' in request))
          return new Refused(
            'conflict',
            'The history has no such revision to edit.',
            {},
            {
              base: { revision: request.base, text: mine },
              current: current.state,
              mine,
              clashes: [],
            },
          );
        if (mine !== current.state.text) {
          const read = reads.read(sha256(mine), mine);
          if (read.document.plain === undefined || (!read.plan && !request.evenIfWrong))
            return notAPlan('The text', read.issues);
        }
        return mine;
      }),

    restore: (name, request, who) =>
      change(name, request, who, 'restored', async (_base, current, trx) => {
        const row = await rowOf(trx, current.plan, request.revision);
        if (!row) return new Refused('not-found', `${name} has no revision ${request.revision}.`);
        if (request.base !== current.state.revision)
          return new Refused(
            'conflict',
            'The plan was changed meanwhile. Nothing was written.',
            {},
            {
              base: { revision: request.base, text: current.state.text },
              current: current.state,
              mine: await textOf(trx, row.hash),
              aside: request.revision,
              clashes: [],
            },
          );
        return textOf(trx, row.hash);
      }),

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
