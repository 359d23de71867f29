import type { Note } from '../../notes/index.ts';
import type { Edit, Piece } from '../../plan/index.ts';
import { type Subject, set, type WallInput } from '../plan-input.ts';
import { blocked, blockOf } from './blocking.ts';
import { isHung } from './carried.ts';
import { fromTop } from './case-back.ts';
import { sizesFor } from './fastener.ts';
import { holds } from './trial.ts';

/** Holes at the studs behind it, in place of those that miss; where no stud is behind it, timber let in behind its top. */
export function caseCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  const { fix: _, ...plain } = said;
  const without: readonly Edit[] = said.fix === undefined ? [] : [{ op: 'remove', path: [...path, 'fix'] }];
  if (said.fix !== undefined && holds(input, { ...subject, said: plain as Piece }))
    return { title: 'Screw it into the studs behind it', edits: without };
  const left = placed.wall!.from;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const top = placed.frame.origin.y - wall.frame.origin.y + placed.outside.max.y - fromTop(input);
  const block = blockOf(wall, [left + placed.outside.min.x, left + placed.outside.max.x], top);
  const found = blocked(input, wall, block);
  if (!found || isHung(input, subject)) return undefined;
  const { diameters, longer } = sizesFor(input).blocking;
  const screw = diameters
    .map((diameter) => ({ kind: 'wood screw', diameter, length: longer }) as const)
    .find((fix) => holds(found.input, { ...subject, said: { ...plain, fix } as unknown as Piece }));
  if (!screw) return undefined;
  return {
    title: 'Let timber in behind the board at its top and screw into it',
    edits: [
      ...found.edits,
      set([...path, 'fix'], { kind: screw.kind, diameter: `${screw.diameter} mm`, length: `${screw.length} mm` }),
    ],
  };
}
