import { statSync } from 'node:fs';
import { applyEdits, type PlainValue, readPlan } from '../core/plan/index.ts';
import {
  type Clash,
  foldedName,
  mergeTexts,
  type PlanEntry,
  type PlanState,
  type ReadPlan,
  type RestoreRequest,
  type RevisionKind,
  type Revisions,
  type RevisionText,
  type Saved,
  type SaveRequest,
} from '../core/workspace/index.ts';
import { type Db, exclusively } from './database.ts';
import type { Announce } from './events.ts';
import {
  folderIsThere,
  Overtaken,
  pathOf,
  planName,
  planNames,
  type Replaced,
  readTextFile,
  replaceFile,
  sha256,
  withEnding,
} from './files.ts';
import { entryOf, idNow, lastOf, listed, nameNow, planId, record, rowOf, textOf } from './history.ts';
import { planLooks } from './plan-looks.ts';
import { planReads, stampOf } from './plan-reads.ts';
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

interface Current {
  readonly plan: number;
  readonly path: string;
  readonly state: PlanState;
}
/** A change to be announced once it is certain. */
interface News {
  readonly name: string;
  readonly revision: number;
  readonly hash: string;
  readonly kind: RevisionKind;
  readonly author: string;
  readonly by?: string;
}

/** What the file is put there by, for the tests to stand in for a full disk. */
export type Replace = typeof replaceFile;

const OUTSIDE = 'another program';

export function plansOf(folder: string, db: Db, announce: Announce, replace: Replace = replaceFile): Plans {
  const reads = planReads();

  const known = (name: string): string => {
    const sound = planName(name);
    if (!sound)
      throw new Refused(
        'bad-name',
        'That cannot be the name of a plan: a file name ending in .yaml, without folders and without signs that some system keeps for itself.',
      );
    return sound;
  };

  const fileOf = async (trx: Db, name: string) => {
    const file = readTextFile(pathOf(folder, name));
    const as = twinOf(name);
    // on a disk that tells no capital letters apart one file answers to many names, and has one history
    if (file && as === undefined) return file;
    folderIsThere(folder);
    const to = as ?? (await nameNow(trx, name));
    throw new Refused(
      'not-found',
      `There is no plan ${name} in this workspace${to === undefined ? '' : `; it is called ${to}`}.`,
      to === undefined ? {} : { moved: { name, to } },
    );
  };
  /** The name of a plan in the folder that differs from this one only by capital letters or accents, where this one is not there. */
  const twinOf = (name: string): string | undefined => {
    const names = planNames(folder);
    return names.includes(name) ? undefined : names.find((one) => foldedName(one) === foldedName(name));
  };

  /**
   * The file where the history has it already, or where that cannot be written: to look at a plan nothing has to be. A text that was not
   * recorded goes by the revision before it; its hash tells them apart.
   */
  const asItLies = async (name: string, even: 'recorded' | 'not recorded'): Promise<PlanState | undefined> => {
    const file = await fileOf(db, name);
    const last = await lastOf(db, name);
    const isRecorded = last?.hash === file.hash;
    if (!isRecorded && even === 'recorded') return undefined;
    const { issues } = reads.read(file.hash, file.text);
    const { at, author } = isRecorded ? last : { at: file.changed.toISOString(), author: OUTSIDE };
    return { name, text: file.text, revision: last?.number ?? 0, hash: file.hash, at, author, issues };
  };

  /** The file as it is now. One that another program has written becomes a revision first. */
  const look = async (trx: Db, name: string, news: News[]): Promise<Current> => {
    const path = pathOf(folder, name);
    const file = await fileOf(trx, name);
    const plan = await planId(trx, folder, name, file.hash);
    const last = await lastOf(trx, name);
    let { number, at, author } = last ?? { number: 0, at: '', author: '' };
    if (last?.hash !== file.hash) {
      const kind = last ? 'outside' : 'found';
      const made = await record(trx, plan, {
        text: file.text,
        kind,
        author: OUTSIDE,
        base: last?.number ?? null,
        at: file.changed,
      });
      ({ revision: number, at, author } = made);
      news.push({ name, revision: number, hash: file.hash, kind, author });
    }
    const { issues } = reads.read(file.hash, file.text);
    return {
      plan,
      path,
      state: { name, text: file.text, revision: number, hash: file.hash, at, author, issues },
    };
  };

  /** The last revision of each plan that was announced. */
  const told = new Map<string, number>();
  /** What another server of this folder has recorded, its pages know and ours do not. */
  const tellOf = async (name: string): Promise<void> => {
    const last = await lastOf(db, name);
    if (!last || told.get(name) === last.number) return;
    const { number: revision, hash, kind, author } = last;
    told.set(name, revision);
    announce({ type: 'plan', name, revision, hash, kind, author });
  };

  /** One piece of work inside the lock; what it has to tell is told after it is certain, or when it refuses. */
  const inside = async <T>(work: (trx: Db, news: News[], files: Replaced[]) => Promise<T | Refused>): Promise<T> => {
    for (let attempt = 1; ; attempt++) {
      const news: News[] = [];
      const files: Replaced[] = [];
      try {
        // a refusal is a result here, so that what was noticed on the way to it is kept
        const result = await exclusively(db, (trx) => work(trx, news, files));
        for (const file of files) file.keep();
        for (const one of news) {
          told.set(one.name, one.revision);
          announce({ type: 'plan', ...one }, one.by);
        }
        if (result instanceof Refused) throw result;
        return result;
      } catch (error) {
        // file and history go together: where the one could not be kept the other goes back
        for (const file of files) file.undo();
        if (!(error instanceof Overtaken) || attempt >= 5) throw error;
      }
    }
  };

  /** Waits while another program is still at the file: what it has half written is nobody's wish. */
  const settled = async (name: string): Promise<void> => {
    const path = pathOf(folder, name);
    const stamp = (): string => {
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat ? stampOf(stat) : '';
    };
    let before: string | undefined;
    for (let i = 0; i < 10; i++) {
      const stat = statSync(path, { throwIfNoEntry: false });
      const now = stamp();
      if (!stat || ours.get(name) === now) return;
      const age = Date.now() - stat.mtimeMs;
      // a time to come, of another machine's clock or of before ours was set back, says nothing: then it is seen by two looks
      if (age > 150 || (age < 0 && before === now)) return;
      before = now;
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
  };
  /** How our own last write of each file looks, so that we do not wait for ourselves. */
  const ours = new Map<string, string>();
  const put = (name: string, path: string, text: string, expected: string | undefined) => {
    const replaced = replace(path, text, expected);
    const stat = statSync(path);
    ours.set(name, stampOf(stat));
    return replaced;
  };

  const change = async (
    name: string,
    request: Pick<SaveRequest, 'base' | 'baseHash' | 'madeOn' | 'id'>,
    who: Who,
    kind: 'saved' | 'restored',
    mineOf: (base: string | undefined, current: Current, trx: Db) => Promise<string | Refused> | string | Refused,
  ): Promise<Saved> => {
    await settled(known(name));
    return inside(async (trx, news, files) => {
      const current = await look(trx, name, news);
      const { plan, path, state } = current;
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
      const replaced = put(name, path, merge.text, state.hash);
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
      await settled(known(name));
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
      const name = known(withEnding(written));
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
          files.push(put(name, path, text, undefined));
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
    isOurs: (name, stamp) => ours.get(name) === stamp,
  });
  const idOf = async (name: string): Promise<number> => {
    const found = await idNow(db, known(name));
    if (found !== undefined) return found;
    await plans.read(name); // refuses what is not there
    return (await idNow(db, name))!;
  };
  return plans;
}
