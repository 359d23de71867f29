import { parse, stringify } from 'yaml';
import { findOption, sceneOf } from '../src/core/outcome.ts';
import { readersFor, readPlan } from '../src/core/plan/index.ts';

type Plain = { [key: string]: unknown };
const names = ['case', 'shelf', 'display', 'lining', 'thing', 'strip', 'lamp', 'absorber', 'seat', 'camera'];
const WALLS = ['north', 'east', 'south', 'west'];

/**
 * The lesson room's first option so many times over, in a room with walls as much longer: the first copy stands on the north wall as it
 * was, the others on all four in turn, each behind the one before.
 */
export function multiplied(text: string, times: number): string {
  const { document, plan } = readPlan(text);
  const plain = structuredClone(document.plain) as Plain;
  const { length } = readersFor(plan!.units);
  const mm = (written: unknown): number => {
    const read = length(String(written));
    if (!read.ok) throw new Error(`no length: ${String(written)}`);
    return read.value;
  };
  const room = plain.room as { walls: Plain[]; openings: Plain[] };
  const pitch = Math.max(...room.walls.map((wall) => mm(wall.length)));
  const turns = Math.ceil(times / WALLS.length);
  // what stands in front of one wall is not to meet what stands in front of the next
  const corner = turns > 1 || times > 2 ? 3000 : 0;
  for (const wall of room.walls) {
    const long = times > 2 ? turns * pitch + 2 * corner : mm(wall.length) * times;
    wall.length = `${Math.round(long)} mm`;
    const { framing } = wall as { framing?: Plain };
    if (framing) delete framing.at;
  }
  const [first] = plain.options as { pieces: Plain[] }[];
  const door = room.openings.find((opening) => opening.wall === 'south')!;
  door.from = '100 mm';
  const copy = (piece: Plain, i: number): Plain => {
    if (i === 0) return piece;
    const made = structuredClone(piece);
    for (const key of [...names, 'after', 'on', 'along'])
      if (made[key] !== undefined) made[key] = `${String(made[key])} ${i + 1}`;
    if (made.title !== undefined) made.title = `${String(made.title)} ${i + 1}`;
    const [wall, by] =
      times > 2 ? [WALLS[i % WALLS.length]!, Math.floor(i / WALLS.length) * pitch + corner] : [undefined, i * pitch];
    if (made.wall !== undefined) made.wall = wall ?? made.wall;
    for (const key of ['from', 'centre'])
      if (made[key] !== undefined) made[key] = `${Math.round(mm(made[key]) + by)} mm`;
    const at = made.at as Plain | undefined;
    if (at) made.at = { ...at, x: `${Math.round(mm(at.x) + i * pitch * (times > 2 ? 0.25 : 1))} mm` };
    return made;
  };
  // one camera and the two who sit are enough for any room
  const once = (piece: Plain) => piece.camera !== undefined || piece.seat !== undefined;
  const { pieces } = first!;
  first!.pieces = Array.from({ length: times }, (_, i) =>
    pieces.filter((piece) => i === 0 || !once(piece)).map((piece) => copy(piece, i)),
  ).flat();
  return stringify(plain, { lineWidth: 0 });
}

/** A plan of at least so many parts: as many copies as it takes, and of the last one only the pieces that are wanted for it. */
export function ofParts(text: string, count: number): string {
  const partsOf = (written: string): number => {
    const { plan } = readPlan(written);
    return plan ? sceneOf(plan, findOption(plan)!).parts.length : 0;
  };
  // about so many copies; the walls' mouldings are few
  let times = Math.max(2, Math.floor((0.9 * count) / partsOf(text)));
  while (partsOf(multiplied(text, times)) < count) times++;
  const most = multiplied(text, times);
  const plain = parse(most) as { options: { pieces: Plain[] }[] };
  const [first] = plain.options;
  const ofLast = new RegExp(` ${times}$`);
  for (let i = first!.pieces.length - 1; i >= 0; i--) {
    const { pieces } = first!;
    if (!names.some((kind) => ofLast.test(String(pieces[i]![kind])))) break;
    first!.pieces = pieces.toSpliced(i, 1);
    if (partsOf(stringify(plain)) < count) first!.pieces = pieces;
  }
  return stringify(plain, { lineWidth: 0 });
}
