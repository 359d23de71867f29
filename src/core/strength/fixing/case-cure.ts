import type { Note } from '../../notes/index.ts';
import type { Piece } from '../../plan/index.ts';
import { exact, type Subject, set, type WallInput } from '../plan-input.ts';
import { blocked, blockOf } from './blocking.ts';
import { isHung } from './carried.ts';
import { fromTop } from './case-back.ts';
import { sizesFor, strongerScrews } from './fastener.ts';
import { fixingFor } from './held.ts';
import { letInCure } from './let-in-cure.ts';
import { AS_THEY_ARE, moreCure, rowsBetween, rowsInRails } from './more-cure.ts';
import { railsOf } from './rails.ts';
import { railsCure } from './rails-cure.ts';
import { holdsWithTimber, othersThan } from './timber-holds.ts';
import { holds } from './trial.ts';

type Fix = NonNullable<Piece['fix']>;

/** Holes at the studs behind it, in place of those that miss; stronger screws, or more; where the studs do not do, timber let in between them. */
export function caseCure(input: WallInput, subject: Subject): Note['cure'] {
  const { path, placed, said } = subject;
  const { fix: _, ...plain } = said;
  if (said.fix !== undefined && holds(input, { ...subject, said: plain as Piece }))
    return { title: 'Screw it into the studs behind it', edits: [{ op: 'remove', path: [...path, 'fix'] }] };
  const railed = () => (fixingFor(input, subject)?.head ? railsCure(input, subject) : undefined);
  const stronger = () => strongerCure(input, subject);
  const back = placed.parts.find((p) => p.role === 'back');
  const thin = back !== undefined && back.size.thickness < THICK;
  // a thin back is what its heads pull through, and bends the screws where it sits on nothing but crushed board: rails first
  const found = thin ? (railed() ?? stronger()) : (stronger() ?? railed());
  return found ?? (isHung(input, subject) ? letInCure(input, subject) : timberCure(input, subject));
}
/** A back from so many mm on is fixed through without rails. Common practice. */
const THICK = 12;

/** On the next stronger screws of those that are sold; then with more rows of them, in its rails where it has any. */
function strongerCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed } = subject;
  const [edge, high] = [fromTop(input), placed.outside.max.y];
  const more = railsOf(placed).length > 0 ? rowsInRails(input, placed) : rowsBetween(input, edge, high - edge, 3);
  return moreCure(input, subject, [AS_THEY_ARE, ...more], strongerScrews(input, subject));
}

/** What stands, held to timber let in behind its top: by one screw in the middle of a narrow one, or by two to four. */
function timberCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  const { fix: _, ...plain } = said;
  const left = placed.wall!.from;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const top = placed.frame.origin.y - wall.frame.origin.y + placed.outside.max.y - fromTop(input);
  const block = blockOf(input, wall, [left + placed.outside.min.x, left + placed.outside.max.x], top);
  const found = blocked(input, wall, block);
  if (!found) return undefined;
  const { diameters, longer } = sizesFor(input).blocking;
  const width = placed.outside.max.x;
  const others = othersThan(input, subject);
  for (const at of [
    undefined,
    ...[2, 3, 4].map((n) => Array.from({ length: n }, (_, i) => (width * (2 * i + 1)) / (2 * n))),
  ])
    for (const diameter of diameters) {
      const fix = { kind: 'wood screw', diameter, length: longer, ...(at && { at }) } as Fix;
      if (!holdsWithTimber(found.input, { ...subject, said: { ...plain, fix } as Piece }, wall, others)) continue;
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
