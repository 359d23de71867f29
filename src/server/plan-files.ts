import { foldedName, type PlanState } from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import { folderIsThere, pathOf, planName, planNames, readTextFile } from './files.ts';
import { lastOf, nameNow, planId, record } from './history.ts';
import type { News } from './plan-news.ts';
import type { PlanReads } from './plan-reads.ts';
import { Refused } from './refusal.ts';

/** Who wrote what this server did not. */
export const OUTSIDE = 'another program';

/** A plan as it is now, in the folder and in the history alike. */
export interface Current {
  readonly plan: number;
  readonly state: PlanState;
}

/** A name that a plan can have; any other is refused. */
export function soundName(name: string): string {
  const sound = planName(name);
  if (!sound)
    throw new Refused(
      'bad-name',
      'That cannot be the name of a plan: a file name ending in .yaml, without folders and without signs that some system keeps for itself.',
    );
  return sound;
}

/** The plans of a folder as they lie there, held against what the history has of them. */
export interface PlanFiles {
  /** The name of a plan in the folder that differs from this one only by capital letters or accents, where this one is not there. */
  readonly twinOf: (name: string) => string | undefined;
  /**
   * The file where the history has it already, or where that cannot be written: to look at a plan nothing has to be. A text that was not
   * recorded goes by the revision before it; its hash tells them apart.
   */
  readonly asItLies: (name: string, even: 'recorded' | 'not recorded') => Promise<PlanState | undefined>;
  /** The file as it is now. One that another program has written becomes a revision first. */
  readonly look: (trx: Db, name: string, news: News[]) => Promise<Current>;
}

export function planFiles(folder: string, db: Db, reads: PlanReads): PlanFiles {
  function twinOf(name: string): string | undefined {
    const names = planNames(folder);
    return names.includes(name) ? undefined : names.find((one) => foldedName(one) === foldedName(name));
  }

  async function fileOf(trx: Db, name: string) {
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
  }

  async function asItLies(name: string, even: 'recorded' | 'not recorded'): Promise<PlanState | undefined> {
    const file = await fileOf(db, name);
    const last = await lastOf(db, name);
    const isRecorded = last?.hash === file.hash;
    if (!isRecorded && even === 'recorded') return undefined;
    const { issues } = reads.read(file.hash, file.text);
    const { at, author } = isRecorded ? last : { at: file.changed.toISOString(), author: OUTSIDE };
    return { name, text: file.text, revision: last?.number ?? 0, hash: file.hash, at, author, issues };
  }

  async function look(trx: Db, name: string, news: News[]): Promise<Current> {
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
    return { plan, state: { name, text: file.text, revision: number, hash: file.hash, at, author, issues } };
  }

  return { twinOf, asItLies, look };
}
