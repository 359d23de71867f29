import { isMade, type Part, type PlacedPiece } from '../../scene/index.ts';
import { panelItem } from '../../stock/index.ts';
import type { Errands } from './errands.ts';
import { type Job, SHOP_COATS } from './job.ts';
import { type After, after } from './list.ts';
import type { MadePiece } from './making.ts';

interface Front {
  readonly piece: PlacedPiece;
  readonly part: Part;
}
const faceOf = ({ part }: Front): number => part.size.length * part.size.width;

/** Doors and drawer fronts are coated lying down: what the hanging of each piece's own waits for. */
export function frontTasks(
  job: Job,
  { fetched }: Errands,
  made: ReadonlyMap<string, MadePiece>,
): ReadonlyMap<string, readonly After[]> {
  const { input, add, next, touch, shopFloor } = job;
  const done = new Map<string, readonly After[]>();
  const batches = batchesOf(frontsOf(input.pieces), shopFloor);
  batches.forEach((batch, k) => {
    const of = batches.length === 1 ? '' : ` (batch ${k + 1} of ${batches.length})`;
    const id = batches.length === 1 ? 'fronts' : `fronts ${k + 1}`;
    const area = batch.reduce((sum, front) => sum + faceOf(front), 0);
    const bare = batch.some((f) => panelItem(input.plan.stock, f.part.stock)?.kind?.toLowerCase().includes('mdf'));
    let last: readonly (After | undefined)[] = [
      ...[...new Set(batch.map((f) => f.piece.id))].map((piece) => after(made.get(piece)?.parts)),
      ...fetched('primer', 'trim paint'),
    ];
    for (const coat of [...(bare ? (['primer'] as const) : []), ...SHOP_COATS]) {
      const isPrimer = coat === 'primer';
      const coated = add({
        id: isPrimer ? `prime ${id}` : `${coat} coat ${id}`,
        title: isPrimer ? `Prime the fronts${of}` : `Paint the fronts${of}, ${coat} coat`,
        noun: isPrimer ? `primer on the fronts${of}` : `${coat} coat on the fronts${of}`,
        phase: 'finish',
        counts: [['coat m²', (2 * area) / 1e6]],
        whole: true,
        place: 'shop',
        air: { wet: touch },
        holds: [{ tool: 'floor', amount: Math.min(area, shopFloor), beyond: next }],
        after: last,
      });
      last = [after(coated, next, isPrimer ? 'the primer on the fronts dries' : 'the coat before it dries')];
    }
    const dry = last.flatMap((one) => (one ? [{ ...one, why: 'the last coat on the fronts dries' }] : []));
    for (const { piece } of batch) done.set(piece.id, [...(done.get(piece.id) ?? []), ...dry]);
  });
  return done;
}

const frontsOf = (pieces: readonly PlacedPiece[]): readonly Front[] =>
  pieces
    .filter(isMade)
    .flatMap((piece) =>
      piece.parts.filter((p) => p.role === 'door' || p.role === 'drawer front').map((part) => ({ piece, part })),
    );

/** As many at a time, in their order, as the floor allows; one that is larger has it to itself. */
function batchesOf(fronts: readonly Front[], floor: number): readonly (readonly Front[])[] {
  const batches: Front[][] = [];
  let laid = 0;
  for (const front of fronts) {
    if (batches.length === 0 || laid + faceOf(front) > floor) {
      batches.push([]);
      laid = 0;
    }
    batches.at(-1)!.push(front);
    laid += faceOf(front);
  }
  return batches;
}
