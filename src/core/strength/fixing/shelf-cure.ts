import type { Note } from '../../notes/index.ts';
import type { Edit, Piece, ShelfPiece } from '../../plan/index.ts';
import { type Subject, saying, set, type WallInput } from '../plan-input.ts';
import { blocked, blockOf, twoBy } from './blocking.ts';
import { sizesFor } from './fastener.ts';
import { holdsWithTimber, othersThan } from './timber-holds.ts';
import { changed, holds } from './trial.ts';

/** Blocking behind the shelf, wide enough for every hole and deep enough for the screws; a taller plate where the hollow allows. */
export function shelfCure(input: WallInput, subject: Subject, said: ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const { framing } = input.plan.room.walls.find((w) => w.id === wall.id)!;
  if (framing?.kind !== 'timber stud' && framing?.kind !== 'steel stud') return undefined;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')?.solid?.box;
  const skins = placed.parts.filter((p) => p.role === 'skin').map((p) => p.solid.box);
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  if (!plate || skins.length < 2) return undefined;
  const studs = wall.studs.map((s) => s.at - left).filter((at) => at > 40 && at < said.size.width - 40);
  const edits: Edit[] = [];
  const where = said.rods?.at !== undefined && studs.length >= 2;
  if (where) edits.push({ op: 'remove', path: [...path, 'rods', 'at'] });
  if (said.fix !== undefined) edits.push({ op: 'remove', path: [...path, 'fix'] });
  if (where && holds(input, atStuds(subject, said, studs, 1))) return { title: 'Put the rods at the studs', edits };
  const hollow = Math.floor(clearBetween(skins));
  if (hollow > plate.max.y - plate.min.y + 2 && (where || said.rods?.at === undefined)) {
    const tall = atStuds(subject, said, where ? studs : undefined, hollow / (plate.max.y - plate.min.y));
    if (holds(input, tall))
      return {
        title: `Make the wall plate ${saying(input).length(hollow)} high`,
        edits: [
          ...edits,
          said.rods
            ? set([...path, 'rods', 'plate'], `${hollow} mm`)
            : set([...path, 'rods'], { plate: `${hollow} mm` }),
        ],
      };
  }
  const middle = bottom + (plate.min.y + plate.max.y) / 2;
  const { at: _, ...rest } = said.fix ?? { at: undefined };
  const { diameters, length } = sizesFor(input).blocking;
  const others = othersThan(input, subject);
  // a higher one takes more screws in its ends
  for (const height of twoBy(input).widths) {
    const block = blockOf(input, wall, [left + plate.min.x, left + plate.max.x], middle, height);
    const found = blocked(input, wall, block);
    const screw =
      found &&
      diameters.find((diameter) => {
        const fix = { ...rest, kind: 'wood screw', diameter, length } as NonNullable<ShelfPiece['fix']>;
        return holdsWithTimber(found.input, changed(subject, { fix }), wall, others);
      });
    if (screw === undefined) continue;
    return {
      title: 'Let timber in behind the board and screw into it',
      edits: [
        ...found!.edits,
        set([...path, 'fix'], { kind: 'wood screw', diameter: `${screw} mm`, length: `${length} mm` }),
      ],
    };
  }
  return undefined;
}

const clearBetween = (
  skins: readonly { readonly min: { readonly y: number }; readonly max: { readonly y: number } }[],
): number => {
  const [lower, upper] = [...skins].sort((a, b) => a.min.y - b.min.y);
  return upper === undefined ? 0 : upper.min.y - lower!.max.y;
};

/** The shelf with its rods at the studs, or where they are, on a plate so many times as high. */
function atStuds(subject: Subject, said: ShelfPiece, studs: readonly number[] | undefined, taller: number): Subject {
  const rods = subject.placed.fittings.filter((f) => f.use === 'rod');
  const centres = studs ?? rods.map((r) => (r.solid!.box.min.x + r.solid!.box.max.x) / 2);
  const model = rods[0]!;
  const half = (model.solid!.box.max.x - model.solid!.box.min.x) / 2;
  const fittings = subject.placed.fittings.flatMap((f) => {
    if (f.use === 'rod') return [];
    if (f.use !== 'wall plate' || !f.solid) return [f];
    const { min, max } = f.solid.box;
    const [middle, high] = [(min.y + max.y) / 2, ((max.y - min.y) / 2) * taller];
    return [
      { ...f, solid: { ...f.solid, box: { min: { ...min, y: middle - high }, max: { ...max, y: middle + high } } } },
    ];
  });
  const moved = centres.map((x) => ({
    ...model,
    solid: {
      ...model.solid!,
      box: { min: { ...model.solid!.box.min, x: x - half }, max: { ...model.solid!.box.max, x: x + half } },
    },
  }));
  const { fix: _, ...plain } = said;
  return { ...subject, said: plain as Piece, placed: { ...subject.placed, fittings: [...fittings, ...moved] } };
}
