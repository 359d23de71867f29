import type { Note } from '../../notes/index.ts';
import type { Edit, Piece } from '../../plan/index.ts';
import { formatSold } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { exact, imperial, marked, type Subject, set, type WallInput } from '../plan-input.ts';
import { numberOf, type Screw } from '../screw-sizes.ts';
import { type Block, blocked, twoBy } from './blocking.ts';
import { fromTop } from './case-back.ts';
import { sizesFor } from './fastener.ts';
import { STUD_DEPTH } from './ground.ts';
import { AS_THEY_ARE, type More, numberWord, rowsInRails } from './more-cure.ts';
import { railsOf } from './rails.ts';
import { railed } from './rails-cure.ts';
import { throughAll, throughOf } from './through.ts';
import { holdsWithTimber, othersThan } from './timber-holds.ts';

type Fix = NonNullable<Piece['fix']>;

/** A case that hangs as it is tried, and the edits that make it so. */
interface Made {
  readonly input: WallInput;
  readonly subject: Subject;
  /** What the plan would say of it besides its fixings. */
  readonly said: Partial<Piece>;
  readonly edits: readonly Edit[];
  readonly words: string;
}

/**
 * Of what hangs where the studs are too few: timber let in between them behind each row of its fixings, and screws all along it. Timber as
 * thick as one layer first, then two where the wall is deep enough; few rows first, then few in each.
 */
export function letInCure(input: WallInput, subject: Subject): Note['cure'] {
  const wall = input.room.walls.find((w) => w.id === subject.placed.wall!.id)!;
  const { framing } = input.plan.room.walls.find((w) => w.id === wall.id)!;
  if (framing?.kind !== 'timber stud' && framing?.kind !== 'steel stud') return undefined;
  const { thick } = twoBy(input);
  const layers = (framing.depth ?? STUD_DEPTH) >= 2 * thick ? [1, 2] : [1];
  const ways = madeFor(input, subject);
  const others = othersThan(input, subject);
  const { fix: _, ...plain } = subject.said;
  for (const layer of layers)
    for (const made of ways)
      for (const { words, ...where } of rowsFor(input, made.subject.placed)) {
        const tried = (at: readonly number[], screw: Screw) => ({
          ...made.subject,
          said: { ...plain, ...made.said, fix: { ...screw, ...where, at } as Fix } as Piece,
        });
        const behindAll = (at: readonly number[]) => {
          const blocks = blocksBehind(input, wall, made.subject.placed, where.heights, at, layer * thick);
          return blocks && letInAll(made.input, wall, blocks);
        };
        const columns = columnsFor(input, wall, made.subject.placed);
        const most = columns.at(-1);
        const behindMost = most && behindAll(most);
        if (!behindMost) continue;
        // what does not hold in the most places does not in fewer
        const able = screwsFor(input, made.subject, layer * thick).filter((one) =>
          holdsWithTimber(behindMost.input, tried(most, one), wall, others),
        );
        if (able.length === 0) continue;
        for (const at of columns) {
          const behind = behindAll(at);
          const screw = behind && able.find((one) => holdsWithTimber(behind.input, tried(at, one), wall, others));
          if (!screw) continue;
          const size = (mm: number) => formatSold(mm, imperial(input));
          const number = imperial(input) && screw.kind === 'wood screw' ? numberOf(screw.diameter) : undefined;
          return {
            title: `Let timber in between the studs behind ${made.words}, and screw it there with ${screw.kind}s ${number === undefined ? size(screw.diameter) : `#${number}`} × ${size(screw.length)} in ${numberWord(at.length)} places, ${words}`,
            edits: [
              ...behind.edits,
              ...made.edits,
              set([...subject.path, 'fix'], {
                kind: screw.kind,
                diameter: exact(input, screw.diameter),
                length: exact(input, screw.length),
                ...(where.heights && { heights: where.heights.map((h) => exact(input, h)) }),
                at: at.map((x) => exact(input, x)),
              }),
            ],
          };
        }
      }
  return undefined;
}

/** As it is, where its rails or its back bear; else with rails. */
function madeFor(input: WallInput, subject: Subject): readonly Made[] {
  const { placed } = subject;
  const rails = [...railed(input, subject)].map(
    ({ built, said, weighed, edits }): Made => ({
      input: weighed,
      subject: { ...subject, placed: built, said },
      said,
      edits,
      words: 'hanging rails in its back',
    }),
  );
  const asIs = { input, subject, said: {}, edits: [], words: railsOf(placed).length > 0 ? 'its rails' : 'its back' };
  return rails.length > 0 ? rails : [asIs];
}

/** Where its rows are without a word of the plan, above its lower edge, mm. */
function rowsOf(input: WallInput, placed: PlacedPiece): readonly number[] {
  const rails = railsOf(placed).map(({ solid: { box } }) => (box.min.y + box.max.y) / 2);
  const edge = fromTop(input);
  return rails.length > 0 ? rails : [placed.outside.max.y - edge, edge];
}

/** One row in each rail, or as many as it takes; one near the top and one near the lower edge where there are none. */
function rowsFor(input: WallInput, placed: PlacedPiece): readonly More[] {
  const rails = railsOf(placed).length > 0;
  const each = { ...AS_THEY_ARE, words: rails ? 'one in each rail' : 'one near the top and one near the lower edge' };
  return [each, ...(rails ? rowsInRails(input, placed, '') : [])];
}

/** A timber behind each cluster of rows, wide enough to leave four diameters of the thickest, 8 mm, to its edges (NDS-2018, table 12.5.1C, from memory); undefined where two would lie in one another. */
function blocksBehind(
  input: WallInput,
  wall: PlacedWall,
  placed: PlacedPiece,
  heights: readonly number[] | undefined,
  at: readonly number[],
  thickness: number,
): readonly Block[] | undefined {
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const rows = (heights ?? rowsOf(input, placed)).toSorted((a, b) => a - b);
  const middle = placed.outside.max.y / 2;
  const left = placed.wall!.from;
  const blocks = [rows.filter((y) => y < middle), rows.filter((y) => y >= middle)]
    .filter((cluster) => cluster.length > 0)
    .flatMap((cluster) => {
      const [low, high] = [bottom + cluster[0]!, bottom + cluster.at(-1)!];
      const height = twoBy(input).widths.find((wide) => wide >= high - low + 2 * TO_EDGE);
      if (height === undefined) return [];
      const { from, to } = fromStudToStud(wall, left + at[0]!, left + at.at(-1)!);
      return [{ from, to, above: marked(input, (low + high - height) / 2), height, thickness, new: true as const }];
    });
  const [lower, upper] = blocks;
  return blocks.length === 0 || (upper && lower!.above + lower!.height > upper.above) ? undefined : blocks;
}
const TO_EDGE = 32;

/** The studs, or the ends of the wall, between which the holes are. */
const fromStudToStud = ({ studs, length }: PlacedWall, left: number, right: number) => ({
  from: studs.findLast(({ at }) => at <= left)?.at ?? 0,
  to: studs.find(({ at }) => at >= right)?.at ?? length,
});

/** The plan with all of these timbers behind a wall, each only as far as none is there; undefined where something is in the way. */
function letInAll(input: WallInput, wall: PlacedWall, blocks: readonly Block[]) {
  let found: { readonly input: WallInput; readonly edits: readonly Edit[] } = { input, edits: [] };
  for (const block of blocks) {
    if (isInTheWay(input, wall, block)) return undefined;
    const { framing } = input.plan.room.walls.find((w) => w.id === wall.id)!;
    const there = (framing?.blocking ?? []).filter(
      (b) => b.above < block.above + block.height && b.above + b.height > block.above,
    );
    const same = there.every((b) => Math.abs(b.above - block.above) < 1 && Math.abs(b.height - block.height) < 1);
    const from = Math.max(block.from, ...there.filter((b) => b.from <= block.from + 1).map((b) => b.to));
    const to = Math.min(block.to, ...there.filter((b) => b.to >= block.to - 1).map((b) => b.from));
    if (from >= to) continue;
    if (!same || there.some((b) => b.from < to - 1 && b.to > from + 1)) return undefined;
    const next = blocked(found.input, wall, { ...block, from, to });
    if (!next) return undefined;
    found = { input: next.input, edits: [...found.edits, ...next.edits] };
  }
  return found;
}

/** An opening, a box or a socket where the timber is to lie. */
function isInTheWay({ room, option }: WallInput, wall: PlacedWall, block: Block): boolean {
  const [x, y] = [
    [block.from, block.to],
    [block.above, block.above + block.height],
  ] as const;
  const meets = (a: readonly [number, number], b: readonly [number, number]) =>
    a[0] < b[1] + ROUND && a[1] > b[0] - ROUND;
  return (
    y[0] < 0 ||
    y[1] > wall.height ||
    [...room.openings, ...room.services].some((f) => f.wall === wall.id && meets(f.x, x) && meets(f.y, y)) ||
    (option.boxes ?? []).some(
      (b) => b.wall === wall.id && meets([b.at - BOX, b.at + BOX], x) && meets([b.height - BOX, b.height + BOX], y),
    )
  );
}
/** Free round what is in the wall, and half of a wide box in it, mm. Common practice. */
const ROUND = 25;
const BOX = 150;

/** Two to six places along it, evenly; those near a stud at its middle where it is of timber, and clear of it where it is of steel. */
function columnsFor(input: WallInput, wall: PlacedWall, placed: PlacedPiece): readonly (readonly number[])[] {
  const { framing } = input.plan.room.walls.find((w) => w.id === wall.id)!;
  const width = placed.outside.max.x;
  const left = placed.wall!.from;
  const steel = framing?.kind === 'steel stud';
  const clear = (x: number): number => {
    const stud = wall.studs.find(({ at, width: wide }) => Math.abs(at - left - x) < wide / 2 + SEAM);
    if (!stud) return x;
    const middle = stud.at - left;
    if (!steel) return middle;
    const off = stud.width / 2 + SEAM;
    return middle + (x < middle ? -off : off);
  };
  return Array.from({ length: MOST - 1 }, (_, i) => i + 2)
    .filter((n) => width / n >= 100)
    .map((n) => Array.from({ length: n }, (_, i) => marked(input, clear((width * (2 * i + 1)) / (2 * n)))))
    .filter((at) => at.every((x, i) => x >= 30 && x <= width - 30 && (i === 0 || x - at[i - 1]! >= 50)));
}
const MOST = 6;
/** From the face of a stud, where the timber ends, to a hole in it, mm: six diameters of 6 mm. Common practice. */
const SEAM = 36;

/** Lag screws and wood screws that are sold, thin and short ones first. */
function screwsFor(input: WallInput, subject: Subject, thickness: number) {
  const { lags, blocking, lengths } = sizesFor(input);
  const wall = input.room.walls.find((w) => w.id === subject.placed.wall!.id)!;
  const saidWall = input.plan.room.walls.find((w) => w.id === wall.id)!;
  const through = throughAll(throughOf(input, subject, wall, saidWall)) + thickness;
  const long = lengths.find((length) => length >= Math.max(blocking.longer, through) - 1e-6) ?? lengths.at(-1)!;
  return [
    ...blocking.diameters.map((diameter) => ({ kind: 'wood screw' as const, diameter, length: long })),
    ...lags.map((lag) => ({ kind: 'lag screw' as const, ...lag })),
  ];
}
