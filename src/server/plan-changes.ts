import { applyEdits, type Edit } from '../core/plan/index.ts';
import {
  type Clash,
  mergeTexts,
  type PlanState,
  type RestoreRequest,
  type Saved,
  type SaveRequest,
} from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import { sha256 } from './files.ts';
import { record, rowOf, textOf } from './history.ts';
import type { OwnWrites } from './own-writes.ts';
import { type Current, OUTSIDE, type PlanFiles, soundName } from './plan-files.ts';
import type { PlanNews } from './plan-news.ts';
import type { PlanReads } from './plan-reads.ts';
import { notAPlan, Refused } from './refusal.ts';

/** Who makes a change: the name of the device for the list of revisions, the page for its own events. */
export interface Who {
  readonly device: string;
  readonly page?: string;
}

interface Bench {
  readonly inside: PlanNews['inside'];
  readonly look: PlanFiles['look'];
  readonly settled: OwnWrites['settled'];
  readonly put: OwnWrites['put'];
  readonly reads: PlanReads;
}
/** From which text a change was made, and by which request: one that comes twice is answered twice, and made once. */
type Start = Pick<SaveRequest, 'base' | 'baseHash' | 'madeOn' | 'id'>;
/** What the text would be without what came meanwhile, made on a base that the history may have lost. */
type TextMade = (base: string | undefined, current: Current, trx: Db) => Promise<string | Refused> | string | Refused;

/** Changes of a plan that lies there: each is merged with what came meanwhile, or asked about; nothing is written over. */
export function planChanges({ inside, look, settled, put, reads }: Bench): {
  readonly save: (name: string, request: SaveRequest, who: Who) => Promise<Saved>;
  readonly restore: (name: string, request: RestoreRequest, who: Who) => Promise<Saved>;
} {
  const change = async (
    name: string,
    request: Start,
    who: Who,
    kind: 'saved' | 'restored',
    mineOf: TextMade,
  ): Promise<Saved> => {
    await settled(soundName(name));
    return inside(async (trx, news, files) => {
      const current = await look(trx, name, news);
      const { plan, state } = current;
      const answered = await answeredBefore(trx, request, current);
      if (answered) return answered;
      const { isInHistory, base } = await baseOf(trx, request, current);
      const mine = await mineOf(base, current, trx);
      if (mine instanceof Refused) return mine;

      const clashing = async (clashes: readonly Clash[]): Promise<Refused> => {
        const { revision: aside } = await record(trx, plan, {
          text: mine,
          kind: 'aside',
          author: who.device,
          base: isInHistory ? request.base : null,
        });
        return new Refused(
          'conflict',
          isInHistory
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
      const author = who.device;
      const made = await record(trx, plan, { text: merge.text, kind: recorded, author, base: state.revision });
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
      const { revision, hash, at } = made;
      news.push({ name, revision, hash, kind: recorded, author, ...by });
      const { issues } = reads.read(hash, merge.text);
      return finish(outcome, { name, text: merge.text, revision, hash, at, author, issues });
    });
  };

  return {
    save: (name, request, who) =>
      change(name, request, who, 'saved', (base, current) => savedText(request, base, current, reads)),
    restore: (name, request, who) =>
      change(name, request, who, 'restored', (_base, current, trx) => restoredText(request, current, trx)),
  };
}

/** What a request was answered that comes for the second time; what came after it lies there too. */
async function answeredBefore(trx: Db, { id }: Start, { plan, state }: Current): Promise<Saved | undefined> {
  if (id === undefined) return undefined;
  const before = await trx
    .selectFrom('saves')
    .select(['revision', 'outcome'])
    .where('plan', '=', plan)
    .where('id', '=', id)
    .executeTakeFirst();
  return before && { ...state, outcome: before.revision === state.revision ? before.outcome : 'merged' };
}

/** The text that a change was made on; undefined where nothing knows it any more. */
async function baseOf(trx: Db, { base, baseHash, madeOn }: Start, { plan, state }: Current) {
  const row = await rowOf(trx, plan, base);
  const known = row && (baseHash === undefined || baseHash === row.hash) ? row : undefined;
  // a text that could not be recorded when it was read
  const isAsRead = baseHash !== undefined && baseHash === state.hash;
  const read = known ? await textOf(trx, known.hash) : isAsRead ? state.text : undefined;
  return { isInHistory: known !== undefined, base: read === undefined ? undefined : (madeOn ?? read) };
}

/** The text of a save, or what its edits make of the base. */
function savedText(
  request: SaveRequest,
  base: string | undefined,
  { state }: Current,
  reads: PlanReads,
): string | Refused {
  const mine = 'text' in request ? request.text : base === undefined ? undefined : edited(base, request.edits);
  if (mine === undefined)
    return new Refused(
      'conflict',
      'The history has no such revision to edit.',
      {},
      { base: { revision: request.base, text: state.text }, current: state, mine: state.text, clashes: [] },
    );
  if (mine instanceof Refused || mine === state.text) return mine;
  const { document, plan, issues } = reads.read(sha256(mine), mine);
  return document.plain === undefined || (!plan && !request.evenIfWrong) ? notAPlan('The text', issues) : mine;
}
function edited(base: string, edits: readonly Edit[]): string | Refused {
  const made = applyEdits(base, edits);
  return made.ok ? made.value.text : notAPlan('What the edits make', made.issues);
}

/** The text of an earlier revision; not over a change that whoever asks for it has not seen. */
async function restoredText(request: RestoreRequest, { plan, state }: Current, trx: Db): Promise<string | Refused> {
  const row = await rowOf(trx, plan, request.revision);
  if (!row) return new Refused('not-found', `${state.name} has no revision ${request.revision}.`);
  const mine = await textOf(trx, row.hash);
  if (request.base === state.revision) return mine;
  return new Refused(
    'conflict',
    'The plan was changed meanwhile. Nothing was written.',
    {},
    {
      base: { revision: request.base, text: state.text },
      current: state,
      mine,
      aside: request.revision,
      clashes: [],
    },
  );
}
