import { cureOf } from '../core/cures.ts';
import type { Note } from '../core/notes/index.ts';
import { solidsOf } from '../core/outcome.ts';
import { remember } from '../core/remember.ts';
import { optionOf, useBench } from './bench.ts';
import { CureButton } from './cure-button.tsx';

const tried = remember<Note, Note['cure']>();

/** What settles a note whose cure has to be tried out; not while something is under the hand, with which it would change at every step. */
export default function TriedCure({ note }: { readonly note: Note }) {
  const plan = useBench((b) => b.plan);
  const id = useBench((b) => b.option);
  const dragging = useBench((b) => b.dragging);
  if (!plan || dragging) return null;
  const option = optionOf(plan, id);
  const cure = tried(note, [plan, option], () => cureOf(solidsOf(plan, option), note));
  return cure ? <CureButton cure={cure} /> : null;
}
