import type { Revisions, RevisionText } from '../core/workspace/index.ts';
import { backTo, say, useBench } from './bench.ts';
import { type Answer, ask, planPath } from './workspace.ts';

/** How many revisions are asked for at a time. */
const PAGE = 20;

/** Goes back to the last text that the server knows and that is another one than stands on the bench. */
export async function further(): Promise<void> {
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
