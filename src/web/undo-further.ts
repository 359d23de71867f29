import { readPlan } from '../core/plan/index.ts';
import { backTo, say, useBench } from './bench.ts';
import { earlierTexts } from './revision-texts.ts';

/** Goes back to the last text that the server knows, that can be read, and that is another one than stands on the bench. */
export async function further(): Promise<void> {
  const { name, text, below } = useBench.getState();
  for await (const old of earlierTexts(name, below + 1)) {
    if (typeof old === 'string') return say(old);
    const now = useBench.getState();
    if (now.name !== name || now.text !== text) return; // something else was done meanwhile
    // a text that another program broke could not be kept again
    if (old.text !== text && readPlan(old.text).plan) return backTo(old.text, old.revision);
  }
  useBench.setState({ below: 0, message: 'This is the first text of the plan.' });
}
