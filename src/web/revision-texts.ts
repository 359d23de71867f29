import type { Revisions, RevisionText } from '../core/workspace/index.ts';
import { type Answer, ask, planPath } from './workspace.ts';

/** How many revisions are asked for at a time. */
const PAGE = 20;

/**
 * What the plan said, newest first, before a revision or from its last on; in its place a sentence where that cannot be had. A text that
 * was put aside never stood in the plan.
 */
export async function* earlierTexts(name: string, from?: number): AsyncGenerator<RevisionText | string> {
  for (let before = from; ; ) {
    const since = before === undefined ? '' : `before=${before}&`;
    const page: Answer<Revisions> = await ask('GET', `${planPath(name)}/revisions?${since}most=${PAGE}`);
    if (!page.ok) return yield page.refusal.error.message;
    for (const entry of page.value.revisions.filter(({ kind }) => kind !== 'aside')) {
      const old = await ask<RevisionText>('GET', `${planPath(name)}/revisions/${entry.revision}`);
      if (!old.ok) return yield old.refusal.error.message;
      yield old.value;
    }
    before = page.value.older;
    if (before === undefined) return;
  }
}
