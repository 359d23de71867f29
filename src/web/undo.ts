import type { Revisions, RevisionText } from '../core/workspace/index.ts';
import { backTo, say, undoHere, useBench } from './bench.ts';
import { type Answer, ask, planPath } from './workspace.ts';

/** How many revisions are asked for at a time. */
const PAGE = 20;
let under = false;

/**
 * Takes the last change back. What this browser does not know any more, or what another made, is gone back by the server's revisions:
 * undo has no end but the plan's first text.
 */
export async function undo(): Promise<void> {
  const { done } = useBench.getState();
  if (done.length > 0) return undoHere();
  if (under) return;
  under = true;
  try {
    await further();
  } finally {
    under = false;
  }
}

async function further(): Promise<void> {
  const { name, text, below } = useBench.getState();
  for (let before: number | undefined = below + 1; before !== undefined; ) {
    const page: Answer<Revisions> = await ask<Revisions>(
      'GET',
      `${planPath(name)}/revisions?before=${before}&most=${PAGE}`,
    );
    if (!page.ok) return say(page.refusal.error.message);
    // a text that was put aside never stood in the plan
    for (const entry of page.value.revisions.filter(({ kind }) => kind !== 'aside')) {
      const old = await ask<RevisionText>('GET', `${planPath(name)}/revisions/${entry.revision}`);
      if (!old.ok) return say(old.refusal.error.message);
      const now = useBench.getState();
      if (now.name !== name || now.text !== text) return; // something else was done meanwhile
      if (old.value.text !== text) return backTo(old.value.text, entry.revision);
    }
    before = page.value.older;
  }
  useBench.setState({ below: 0, message: 'This is the first text of the plan.' });
}

/** Whether there is anything to undo, as far as is known without asking. */
export const canUndo = ({ done, below }: { readonly done: readonly unknown[]; readonly below: number }): boolean =>
  done.length > 0 || below > 1;
