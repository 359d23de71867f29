import { grouped } from '../../grouped.ts';
import { isMade, type PartId, type PlacedPiece } from '../../scene/index.ts';
import type { Errands } from './errands.ts';
import { type Job, SHOP_COATS } from './job.ts';
import { type After, after, afterAll, type Draft } from './list.ts';

/** What of a piece is done in the shop. */
export interface MadePiece {
  /** Its parts are labelled, edged and sanded. */
  readonly parts: number | undefined;
  /** It may be carried into the room. */
  readonly finished: readonly (After | undefined)[];
}

const GLUE_SETS = 'the glue sets in the clamps';

/** Piece by piece in the shop, from its cut parts to its last coat. */
export function makingTasks(
  job: Job,
  errands: Errands,
  cutOf: ReadonlyMap<PartId, readonly number[]>,
): ReadonlyMap<string, MadePiece> {
  const made = new Map<string, MadePiece>();
  for (const batch of batchesOf(job.input.pieces.filter(isMade), cutOf)) {
    const parts = sandParts(job, batch);
    for (const piece of batch.pieces) made.set(piece.id, makePiece(job, errands, piece, parts));
  }
  return made;
}

function makePiece(job: Job, errands: Errands, piece: PlacedPiece, parts: number | undefined): MadePiece {
  const glued = assemble(job, errands, piece, parts);
  const last = finish(job, errands, piece, parts, glued);
  const finished = [
    last && { ...last, ...(last.why && { why: 'its last coat dries' }) },
    after(glued, job.wait('PVA glue, full strength'), 'the glue reaches its strength'),
    after(parts),
  ];
  return { parts, finished };
}

/** Pieces whose parts are labelled, edged and sanded in one go. */
interface Batch {
  readonly pieces: readonly PlacedPiece[];
  /** What cuts their parts. */
  readonly cuts: readonly number[];
}

/** Every piece by itself, but for the lengths of one moulding: all trim is painted together, so nothing waits longer for the batch. */
function batchesOf(pieces: readonly PlacedPiece[], cutOf: ReadonlyMap<PartId, readonly number[]>): readonly Batch[] {
  const cutsOf = ({ parts }: PlacedPiece) => [...new Set(parts.flatMap((part) => cutOf.get(part.id) ?? []))];
  const batches = grouped(pieces, (piece) =>
    piece.kind === 'trim' ? `${mouldingOf(piece)} ${cutsOf(piece).join()}` : `piece ${piece.id}`,
  );
  return [...batches.values()].map((batch) => ({ pieces: batch, cuts: cutsOf(batch[0]!) }));
}
/** `skirting`, `scribe moulding`. */
const mouldingOf = ({ parts }: PlacedPiece): string => parts[0]!.role;

function sandParts({ add }: Job, { pieces, cuts }: Batch): number | undefined {
  const first = pieces[0]!;
  const [id, called] =
    pieces.length === 1
      ? [first.id, titleOf(first)]
      : // the id of no piece
        [`· ${mouldingOf(first)}`, `the ${mouldingOf(first)} of ${pieces.length} walls`];
  return add({
    id: `sand parts ${id}`,
    title: `Label, edge and sand the parts of ${called}`,
    noun: `sanding of the parts of ${called}`,
    phase: 'cutting',
    pieces: pieces.map((piece) => piece.id),
    counts: [['parts', pieces.reduce((sum, { parts }) => sum + parts.length, 0)]],
    ...(pieces.length > 1 && { list: pieces.map(titleOf) }),
    place: 'shop',
    air: 'dust',
    after: afterAll(cuts),
  });
}

/** Put together, first what one does alone, then what wants two: the last of them. */
function assemble(job: Job, { packs }: Errands, piece: PlacedPiece, parts: number | undefined): number | undefined {
  const { input, add, wait } = job;
  const title = titleOf(piece);
  const helped = input.helpedShare?.(piece.id) ?? 0;
  const glue = wait('PVA glue, in clamps');
  const before = [...packs, after(parts)];
  const joints: Draft = {
    id: `assemble ${piece.id}`,
    title: `Put ${title} together`,
    noun: `assembly of ${title}`,
    phase: 'assembly',
    pieces: [piece.id],
    counts: [['joints', piece.joints.length]],
    share: 1 - helped,
    place: 'shop',
    holds: [
      { tool: 'benches', amount: 1, beyond: glue },
      { tool: 'clamps', amount: 1, beyond: glue },
      { tool: 'floor', amount: footOf(job, piece), beyond: glue },
    ],
    after: before,
  };
  const alone = add(joints);
  if (helped <= 0) return alone;
  const together = add({
    ...joints,
    id: `turn ${piece.id}`,
    title: `Put ${title} together: the steps for two`,
    noun: `steps for two of ${title}`,
    share: helped,
    helper: 'some steps of the assembly want a second pair of hands',
    after: alone === undefined ? before : [after(alone, glue, GLUE_SETS)],
  });
  return together ?? alone;
}

/** Nail holes, sanding and coats: what the last of its coats is waited for by; undefined where it gets none. */
function finish(
  job: Job,
  { packs }: Errands,
  piece: PlacedPiece,
  parts: number | undefined,
  glued: number | undefined,
): After | undefined {
  const { add, wait, next, touch } = job;
  const title = titleOf(piece);
  const set = after(glued, wait('PVA glue, in clamps'), GLUE_SETS);
  const fill = add({
    id: `fill ${piece.id}`,
    title: `Fill the nail holes of ${title}`,
    noun: `filling of ${title}`,
    phase: 'finish',
    pieces: [piece.id],
    counts: [['brad', piece.fittings.filter((f) => f.use === 'brad').reduce((sum, f) => sum + f.count, 0)]],
    place: 'shop',
    after: [set],
  });
  if (piece.kind !== 'case' && piece.kind !== 'shelf' && piece.kind !== 'lining') return undefined;
  const skin = skinOf(piece);
  const sand = add({
    id: `sand ${piece.id}`,
    title: `Sand ${title}`,
    noun: `sanding of ${title}`,
    phase: 'finish',
    pieces: [piece.id],
    counts: [['sand m²', skin]],
    place: 'shop',
    air: 'dust',
    after: [after(fill, wait('light filler'), 'the filler dries') ?? set ?? after(parts)],
  });
  let last = after(sand);
  for (const coat of SHOP_COATS) {
    const coated = add({
      id: `${coat} coat ${piece.id}`,
      title: `Coat ${title}, ${coat} time`,
      noun: `${coat} coat on ${title}`,
      phase: 'finish',
      pieces: [piece.id],
      counts: [['coat m²', skin]],
      whole: true,
      place: 'shop',
      air: { wet: touch },
      holds: [{ tool: 'floor', amount: footOf(job, piece), beyond: next }],
      // what is put together has waited for the packs already
      after: coat === SHOP_COATS[0] && glued === undefined ? [last, ...packs] : [last],
    });
    last = after(coated, next, 'the coat before it dries') ?? last;
  }
  return last;
}

export const titleOf = ({ title, id }: PlacedPiece): string => title || id;

const sidesOf = ({ outside: { min, max } }: PlacedPiece): readonly [number, number, number] => [
  max.x - min.x,
  max.y - min.y,
  max.z - min.z,
];
/** m² of its outside. */
function skinOf(piece: PlacedPiece): number {
  const [w, h, d] = sidesOf(piece);
  return (2 * (w * h + w * d + h * d)) / 1e6;
}
/** mm² that it stands on, of a shop that is no smaller. */
function footOf({ shopFloor }: Job, piece: PlacedPiece): number {
  const [w, , d] = sidesOf(piece);
  return Math.min(w * d, shopFloor);
}
