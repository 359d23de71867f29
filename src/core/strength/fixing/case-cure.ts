import type { Note } from '../../notes/index.ts';
import type { Piece } from '../../plan/index.ts';
import { formatSold } from '../../quantity/index.ts';
import { exact, imperial, type Subject, set, type WallInput } from '../plan-input.ts';
import { blocked, blockOf } from './blocking.ts';
import { isHung } from './carried.ts';
import { fromTop } from './case-back.ts';
import { sizesFor, strongerScrews } from './fastener.ts';
import { fixingFor } from './held.ts';
import { railsCure } from './rails-cure.ts';
import { changed, holds } from './trial.ts';

type Fix = NonNullable<Piece['fix']>;

/** Holes at the studs behind it, in place of those that miss; stronger screws, or more; where no stud is behind it, timber let in behind its top. */
export function caseCure(input: WallInput, subject: Subject): Note['cure'] {
  const { path, said } = subject;
  const { fix: _, ...plain } = said;
  if (said.fix !== undefined && holds(input, { ...subject, said: plain as Piece }))
    return { title: 'Screw it into the studs behind it', edits: [{ op: 'remove', path: [...path, 'fix'] }] };
  // a thin back is what its heads pull through: stronger screws would hardly help
  const railed = fixingFor(input, subject)?.head && railsCure(input, subject);
  if (railed) return railed;
  const stronger = strongerCure(input, subject);
  return stronger || isHung(input, subject) ? stronger : timberCure(input, subject);
}

/** On the next stronger screws of those that are sold; then with a row more between the upper and the lower. */
function strongerCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  const screws = strongerScrews(input, subject);
  const [edge, high] = [fromTop(input), placed.outside.max.y];
  const rows = [edge, high / 2, high - edge];
  const show = (size: number) => formatSold(size, imperial(input));
  for (const heights of [said.fix?.heights, rows])
    for (const { kind, diameter, length } of screws) {
      const fix = { ...said.fix, kind, diameter, length, ...(heights && { heights }) } as Fix;
      if (!holds(input, changed(subject, { fix }))) continue;
      const more = heights === rows;
      const words = { kind, diameter: exact(input, diameter), length: exact(input, length) };
      return {
        title: `Fix it with ${kind}s ${show(diameter)} × ${show(length)}${more ? ', in three rows' : ''}`,
        edits: [
          ...(said.fix
            ? Object.entries(words).map(([key, value]) => set([...path, 'fix', key], value))
            : [set([...path, 'fix'], words)]),
          ...(more
            ? [
                set(
                  [...path, 'fix', 'heights'],
                  rows.map((h) => exact(input, h)),
                ),
              ]
            : []),
        ],
      };
    }
  return undefined;
}

/** What stands, held to timber let in behind its top: by one screw in the middle of a narrow one, or by two to four. */
function timberCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  const { fix: _, ...plain } = said;
  const left = placed.wall!.from;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const top = placed.frame.origin.y - wall.frame.origin.y + placed.outside.max.y - fromTop(input);
  const block = blockOf(wall, [left + placed.outside.min.x, left + placed.outside.max.x], top);
  const found = blocked(input, wall, block);
  if (!found) return undefined;
  const { diameters, longer } = sizesFor(input).blocking;
  const width = placed.outside.max.x;
  for (const at of [
    undefined,
    ...[2, 3, 4].map((n) => Array.from({ length: n }, (_, i) => (width * (2 * i + 1)) / (2 * n))),
  ])
    for (const diameter of diameters) {
      const fix = { kind: 'wood screw', diameter, length: longer, ...(at && { at }) } as Fix;
      if (!holds(found.input, { ...subject, said: { ...plain, fix } as Piece })) continue;
      return {
        title: 'Let timber in behind the board at its top and screw into it',
        edits: [
          ...found.edits,
          set([...path, 'fix'], {
            kind: fix.kind,
            diameter: `${diameter} mm`,
            length: `${longer} mm`,
            ...(at && { at: at.map((x) => exact(input, x)) }),
          }),
        ],
      };
    }
  return undefined;
}
