import { difference, readPlan } from '../core/plan/index.ts';
import { giveUp, lay, say, step, useBench } from './bench.ts';
import { inTurn } from './elsewhere.ts';
import { type Change, keepHistory } from './history.ts';
import { earlierTexts } from './revision-texts.ts';

/** Takes back, or does again, the last that was made here, past what was made elsewhere since. */
export async function past(from: 'done' | 'undone'): Promise<void> {
  const stack = useBench.getState()[from];
  if (stack.length === 0) return further();
  const at = stack.findLastIndex((change) => !change.elsewhere);
  if (at < 0) {
    // nothing of this page's own is left: what was made elsewhere is next
    const { elsewhere, ...last } = stack.at(-1)!;
    useBench.setState({ [from]: [...stack.slice(0, -1), last] });
    return step(from);
  }
  let own = stack[at]!;
  const over: Change[] = [];
  for (const other of stack.slice(at + 1)) {
    const turned = inTurn(other.inverse, own.inverse);
    if (!turned) return giveUp(own.title);
    own = { ...own, inverse: turned[0] };
    over.push({ ...other, inverse: turned[1] });
  }
  useBench.setState({ [from]: [...stack.slice(0, at), ...over, own] });
  step(from);
  const { undone } = useBench.getState();
  if (undone.every((change) => change.elsewhere)) useBench.setState({ undone: [] });
}

/** Goes back to the last text that the server knows, that can be read, and that is another one than stands on the bench. */
async function further(): Promise<void> {
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

/** Goes back to an older text, of this revision of the server's; what stands on the bench can be done again. */
function backTo(text: string, revision: number): void {
  const before = useBench.getState();
  const title = `everything since revision ${revision}`;
  const again = { title, inverse: difference(text, before.text), base: revision };
  lay(before.name, text);
  useBench.setState({ undone: [...before.undone, again], below: revision, message: `Undone: ${title}` });
  keepHistory(before.name, text, useBench.getState());
}
