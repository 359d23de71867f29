import { say, undoHere, useBench } from './bench.ts';
import { insist } from './insist.ts';

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
    const { further } = await insist(
      () => import('./undo-further.ts'),
      () => say('The workbench is not reached: undo goes on when it is.'),
    );
    await further();
  } finally {
    under = false;
  }
}

/** Whether there is anything to undo, as far as is known without asking. */
export const canUndo = ({ done, below }: { readonly done: readonly unknown[]; readonly below: number }): boolean =>
  done.length > 0 || below > 1;
