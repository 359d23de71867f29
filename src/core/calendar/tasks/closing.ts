import { fittingCounts } from '../../bill/index.ts';
import { isMade, type PlacedPiece } from '../../scene/index.ts';
import type { Errands } from './errands.ts';
import type { Fitted } from './fitting.ts';
import { type Job, SHOP_COATS } from './job.ts';
import { type After, after, afterAll } from './list.ts';
import { type MadePiece, titleOf } from './making.ts';

interface Before {
  readonly errands: Errands;
  readonly made: ReadonlyMap<string, MadePiece>;
  readonly fitted: Fitted;
  /** Walls and ceiling are painted. */
  readonly ready: After | undefined;
}

/** Trim, the last paint, the last look. */
export function closingTasks(job: Job, { errands, made, fitted, ready }: Before): void {
  const { input, add, next, touch } = job;
  const { fetched } = errands;
  const trims = input.pieces.filter(isMade).filter((p) => p.kind === 'trim');
  const metres = trims.reduce((sum, p) => sum + p.parts.reduce((s, part) => s + part.size.length, 0), 0) / 1000;
  const fixed = afterAll([...fitted.fixed.values()]);
  const coated = coatTrim(job, metres, [
    ...trims.map((p) => after(made.get(p.id)?.parts)),
    ...fetched('primer', 'trim paint'),
  ]);
  const fits = trims.map((trim) =>
    fitTrim(job, trim, [...coated, fitted.marked, ...fetched('finish nail', 'grab adhesive'), ...fixed]),
  );
  const caulk = add({
    id: 'caulk',
    title: 'Fill, caulk and touch up the trim',
    noun: 'caulking of the trim',
    phase: 'last',
    counts: [['caulk m', metres]],
    whole: true,
    place: 'room',
    air: { wet: touch },
    after: [...afterAll(fits), ...fixed, ...fetched('caulk', 'filler', 'masking tape')],
  });
  const clean = add({
    id: 'clean room',
    title: 'Clean the room',
    noun: 'cleaning of the room',
    phase: 'last',
    counts: [['clean', 1]],
    place: 'room',
    air: 'dust',
    after: [after(caulk, next, 'the touched-up paint dries'), ready, ...afterAll(fitted.all)],
  });
  const camera = input.option.pieces.some((p) => 'camera' in p);
  add({
    id: camera ? 'check on camera' : 'look over',
    title: camera ? 'Check the set on camera' : 'Look the set over',
    noun: camera ? 'check on camera' : 'last look',
    phase: 'last',
    counts: [[camera ? 'camera' : 'look', 1]],
    place: 'room',
    after: [after(clean)],
  });
}

/** Painted in the shop, before it is fitted: what its last coat is waited for by. */
function coatTrim({ add, next, touch }: Job, metres: number, before: readonly (After | undefined)[]) {
  let last = before;
  for (const coat of SHOP_COATS) {
    const painting = add({
      id: `${coat} coat trim`,
      title: `Paint the trim, ${coat} coat`,
      noun: `${coat} coat on the trim`,
      phase: 'finish',
      counts: [['trim coat m', metres]],
      whole: true,
      place: 'shop',
      air: { wet: touch },
      after: last,
    });
    last = [after(painting, next, 'the coat before it dries')];
  }
  return last;
}

const fitTrim = ({ add }: Job, piece: PlacedPiece, before: readonly (After | undefined)[]): number | undefined =>
  add({
    id: `fit ${piece.id}`,
    title: `Fit ${titleOf(piece)}`,
    noun: `fitting of ${titleOf(piece)}`,
    phase: 'last',
    pieces: [piece.id],
    counts: fittingCounts(piece),
    place: 'room',
    after: before,
  });
