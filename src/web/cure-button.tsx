import type { Note } from '../core/notes/index.ts';
import type { Edit } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { change } from './bench.ts';

/** Settles a note. */
export const CureButton = ({ cure: { title, edits } }: { readonly cure: NonNullable<Note['cure']> }) => (
  <button type="button" onClick={() => change(title, edits as readonly Edit[])}>
    {unbroken(title)}
  </button>
);
