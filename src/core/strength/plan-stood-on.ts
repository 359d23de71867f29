import { grouped } from '../grouped.ts';
import type { Note } from '../notes/index.ts';
import { FEET, isBorne, lowest, SAME } from './fixing/carried.ts';
import { isGear, standsOf } from './fixing/gear.ts';
import { subjectsOf, type WallInput } from './plan-input.ts';
import { afloatNote } from './stood-on/afloat.ts';
import { otherwiseNote } from './stood-on/otherwise.ts';
import { isOver, putDown, surfacesOf } from './stood-on/surface.ts';
import { floatingNote, hungNote, lidNote, shelfNote } from './stood-on/weighed.ts';

/**
 * Notes on shelves, tops of cases, and cases that hang, on which more stands than they are reckoned with. Things, lamps and cameras are weighed; a case or a
 * display is held to the wall by fixings of its own. What stands on several surfaces, or on a thing, is shared by how much of it lies on each.
 */
export function stoodOnNotes(input: WallInput): readonly Note[] {
  const all = subjectsOf(input);
  const gear = all
    .filter((s) => isGear(s.said) && lowest(s.placed) > SAME && standsOf(input, s) === 'on something')
    .toSorted((a, b) => lowest(b.placed) - lowest(a.placed));
  if (gear.length === 0) return [];
  const surfaces = all.flatMap((owner) => (gear.some((g) => isOver(g, owner)) ? surfacesOf(owner) : []));
  const placed = gear.flatMap((one) => {
    const down = putDown(one, surfaces);
    if ('on' in down) return otherwiseNote(input, one, down.on);
    return lowest(one.placed) > FEET && !isBorne(input, one) ? afloatNote(input, one, down.over) : [];
  });
  const stood = [...grouped(surfaces, ({ owner }) => owner)].flatMap(([owner, own]) =>
    'shelf' in owner.said
      ? floatingNote(input, owner, own)
      : 'case' in owner.said
        ? [...own.flatMap((s) => [...shelfNote(input, s), ...lidNote(input, s)]), ...hungNote(input, owner, own)]
        : [],
  );
  return [...stood, ...placed];
}
