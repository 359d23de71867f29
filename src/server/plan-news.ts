import type { LiveEvent } from '../core/workspace/index.ts';
import { type Db, exclusively } from './database.ts';
import type { Announce } from './events.ts';
import { Overtaken, type Replaced } from './files.ts';
import { lastOf } from './history.ts';
import { Refused } from './refusal.ts';

/** A change to be announced once it is certain. */
export type News = Omit<Extract<LiveEvent, { readonly type: 'plan' }>, 'type'>;

/** Work on plans that is done one at a time, and told to the pages when it is certain. */
export interface PlanNews {
  /** One piece of work inside the lock; what it has to tell is told after it is certain, or when it refuses. */
  readonly inside: <T>(work: (trx: Db, news: News[], files: Replaced[]) => Promise<T | Refused>) => Promise<T>;
  /** What another server of this folder has recorded, its pages know and ours do not. */
  readonly tellOf: (name: string) => Promise<void>;
}

export function planNews(db: Db, announce: Announce): PlanNews {
  /** The last revision of each plan that was announced. */
  const told = new Map<string, number>();

  async function tellOf(name: string): Promise<void> {
    const last = await lastOf(db, name);
    if (!last || told.get(name) === last.number) return;
    const { number: revision, hash, kind, author } = last;
    told.set(name, revision);
    announce({ type: 'plan', name, revision, hash, kind, author });
  }

  async function inside<T>(work: (trx: Db, news: News[], files: Replaced[]) => Promise<T | Refused>): Promise<T> {
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
  }

  return { inside, tellOf };
}
