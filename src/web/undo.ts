import { say, step, useBench } from './bench.ts';
import { insist } from './insist.ts';

let under = false;

/**
 * Takes the last change back. What was made elsewhere since stays. What this browser does not know any more is gone back by the server's
 * revisions: undo has no end but the plan's first text.
 */
export const undo = (): Promise<void> => go('done');
export const redo = (): Promise<void> => go('undone');

async function go(from: 'done' | 'undone'): Promise<void> {
  const last = useBench.getState()[from].at(-1);
  if (last ? !last.elsewhere : from === 'undone') return step(from);
  if (under) return;
  under = true;
  try {
    const { past } = await insist(
      () => import('./undo-further.ts'),
      () => say('The workbench is not reached: undo goes on when it is.'),
    );
    await past(from);
  } finally {
    under = false;
  }
}

/** Whether there is anything to undo, as far as is known without asking. */
export const canUndo = ({ done, below }: { readonly done: readonly unknown[]; readonly below: number }): boolean =>
  done.length > 0 || below > 1;
