import { addsFault, buildPiece, wallBehindPiece } from '../../casework/index.ts';
import type { Note } from '../../notes/index.ts';
import type { Edit, Piece, ShelfPiece } from '../../plan/index.ts';
import { inch, mm } from '../../quantity/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { exact, imperial, massesLike, type Subject, saying, set, type WallInput, written } from '../plan-input.ts';
import { blocked, blockOf, twoBy } from './blocking.ts';
import { sizesFor } from './fastener.ts';
import { holdsWithTimber, othersThan } from './timber-holds.ts';
import { changed, holds } from './trial.ts';

/** Rods at the studs, a taller plate where the hollow allows, timber behind the board, a higher shelf: the first of these that holds. */
export function shelfCure(input: WallInput, subject: Subject, said: ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')?.solid?.box;
  const skins = placed.parts.filter((p) => p.role === 'skin').map((p) => p.solid.box);
  const left = placed.wall!.from;
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
  return timberCure(input, subject) ?? higherCure(input, subject, said);
}

const hasStuds = ({ plan }: WallInput, { placed }: Subject): boolean =>
  /stud$/.test(plan.room.walls.find(({ id }) => id === placed.wall!.id)!.framing?.kind ?? '');

/** Timber let in behind the board at the height of its wall plate, as high as it takes, and screws into that. */
function timberCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  if (!hasStuds(input, subject)) return undefined;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')!.solid!.box;
  const left = placed.wall!.from;
  const middle = placed.frame.origin.y - wall.frame.origin.y + (plate.min.y + plate.max.y) / 2;
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
        ...(said.fix === undefined ? [] : [{ op: 'remove' as const, path: [...path, 'fix'] }]),
        ...found!.edits,
        set([...path, 'fix'], { kind: 'wood screw', diameter: `${screw} mm`, length: `${length} mm` }),
      ],
    };
  }
  return undefined;
}

/**
 * A wall plate as high as the hollow, in the shelf as it is or in a higher one: its screws stand further above the edge that it turns about.
 * Into timber let in, where the studs alone do not do.
 */
function higherCure(input: WallInput, subject: Subject, said: ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const placing = { frame: placed.frame, wall: placed.wall! };
  const build = (piece: ShelfPiece) => buildPiece(piece, input.plan, placing, wallBehindPiece(input.room, placing));
  const asIs = build(said);
  const step = imperial(input) ? inch(0.5) : 10;
  const { heights, ...own } = said.fix ?? { heights: undefined };
  const plain = said.fix ? { ...said, fix: own as NonNullable<ShelfPiece['fix']> } : said;
  const first = said.size.height;
  const next = step * (Math.floor(first / step + 1e-6) + 1);
  for (let height: number = first; height <= HIGHEST; height = height === first ? next : height + step) {
    const taller = { ...plain, size: { ...said.size, height: mm(height) } };
    const hollow = clearOf(build(taller).placed);
    const made: ShelfPiece = { ...taller, rods: { ...said.rods, plate: mm(hollow) } };
    const otherwise = build(made);
    if (hollow <= 0 || addsFault(asIs, otherwise)) continue;
    const tried: Subject = { placed: otherwise.placed, path, said: made };
    const weighed = { ...input, massOf: massesLike(input, placed, [otherwise.placed]) };
    const alone = holds(weighed, tried);
    const timber = alone ? undefined : timberCure(weighed, tried);
    if (!alone && !timber) continue;
    const plate = written(input, hollow, 'down');
    return {
      title: `Make ${height === first ? 'its wall plate' : `it ${saying(input).length(height)} high, with a wall plate`} as high as its hollow${timber ? ', and let timber in behind the board to screw it to' : ''}`,
      edits: [
        ...(height === first ? [] : [set([...path, 'size', 'height'], exact(input, height))]),
        said.rods ? set([...path, 'rods', 'plate'], plate) : set([...path, 'rods'], { plate }),
        ...(heights ? [{ op: 'remove' as const, path: [...path, 'fix', 'heights'] }] : []),
        ...((timber?.edits ?? []) as readonly Edit[]),
      ],
    };
  }
  return undefined;
}
/** A floating shelf is no beam, mm. Common practice. */
const HIGHEST = 130;

/** mm of hollow between the skins of a shelf. */
const clearOf = ({ parts }: PlacedPiece): number =>
  Math.floor(clearBetween(parts.filter((p) => p.role === 'skin').map((p) => p.solid.box)));

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
