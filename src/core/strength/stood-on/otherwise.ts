import { vec } from '../../geometry/index.ts';
import type { Note } from '../../notes/index.ts';
import { lowest } from '../fixing/carried.ts';
import { type Subject, set, subjectsOf, titleOf, type WallInput } from '../plan-input.ts';
import { isOver, type Surface } from './surface.ts';

/** The plan says that it stands on one thing, and no part of it is over that: it is weighed on what it does stand on. */
export function otherwiseNote(input: WallInput, one: Subject, on: readonly Surface[]): readonly Note[] {
  const { placed, said, path } = one;
  const meant = subjectsOf(input).find((other) => other.placed.id === said.on);
  // over the edge of one of its sides it is on it, though no board bears it there
  if (!meant || isOver(one, meant)) return [];
  const { owner } = on[0]!;
  const { x, z } = placed.frame.origin;
  return [
    {
      id: `on-another:${placed.id}`,
      about: placed.id,
      at: vec(x, lowest(placed), z),
      verdict: 'caution',
      title: `${titleOf(placed)} is said to stand on ${titleOf(meant.placed)}, and stands on ${titleOf(owner.placed)}`,
      advice: `It has the height of the one and the place of the other, and is weighed on what is under it. Move it over '${said.on}', or say what it stands on.`,
      cure: { title: `Say that it stands on ${titleOf(owner.placed)}`, edits: [set([...path, 'on'], owner.placed.id)] },
    },
  ];
}
