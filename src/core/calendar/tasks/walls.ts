import { paintedWalls, wallArea } from '../../finish/index.ts';
import { floorArea } from '../../geometry/index.ts';
import { isMade } from '../../scene/index.ts';
import { newTimbers, oldWallNotes } from '../../setting-out/index.ts';
import { MINUTES_A_DAY } from '../day.ts';
import type { Errands } from './errands.ts';
import { COATS, type Job } from './job.ts';
import { type After, after } from './list.ts';

/** The room is emptied. */
export const clearTask = ({ add }: Job): number | undefined =>
  add({
    id: 'clear room',
    title: 'Clear and cover the room',
    noun: 'clearing of the room',
    phase: 'room',
    counts: [['clear', 1]],
    place: 'room',
    after: [],
  });

/** Until a laboratory has told what samples hold. Common practice: within a week. */
const TESTED = 7 * MINUTES_A_DAY;

/** Where an old house may hold lead or asbestos nothing of its walls is opened, sanded or drilled before samples have been tested. */
function sampleTask({ input, add }: Job, clear: number | undefined): After | undefined {
  const { option, room, pieces } = input;
  const touched =
    paintedWalls(option, room).length > 0 ||
    option.paint?.ceiling !== undefined ||
    pieces.some((piece) => isMade(piece) && piece.wall);
  if (!touched || oldWallNotes(input).length === 0) return undefined;
  const sample = add({
    id: 'test old walls',
    title: 'Have samples of old paint and boards taken and tested',
    noun: 'sampling of old paint and boards',
    phase: 'room',
    counts: [['sample', 1]],
    place: 'room',
    after: [after(clear)],
  });
  return after(sample, TESTED, 'the laboratory tests the samples');
}

/** Timber let in between the studs, before anything is painted. */
function letInTask({ input, add }: Job, { fetched }: Errands, before: After | undefined): number | undefined {
  const { plan, option, room, pieces, massOf = () => undefined } = input;
  const timbers = newTimbers({ plan, option, room, pieces, massOf });
  if (timbers.length === 0) return undefined;
  return add({
    id: 'let in timber',
    title: 'Let timber in between the studs and close the board over it',
    noun: 'letting in of the timber',
    phase: 'room',
    counts: [['let in', timbers.length]],
    place: 'room',
    air: 'dust',
    after: [before, ...fetched('stud timber', 'wood screw')],
  });
}

/** The walls are opened and closed, then painted with the ceiling, where they are: what the room is ready after. */
export function wallTasks(job: Job, errands: Errands, clear: number | undefined): After | undefined {
  const { add, wait, next, touch } = job;
  const { option, room } = job.input;
  const { fetched } = errands;
  const free = sampleTask(job, clear) ?? after(clear);
  const ready = after(letInTask(job, errands, free)) ?? free;
  const painted = paintedWalls(option, room);
  const coats = COATS.slice(0, option.finish?.coats ?? 2);
  const ceiling = option.paint?.ceiling !== undefined;
  if (painted.length === 0 && !ceiling) return ready;
  const patch = add({
    id: 'patch walls',
    title: 'Patch the walls',
    noun: 'patching of the walls',
    phase: 'room',
    counts: [['patch wall', painted.length]],
    whole: true,
    place: 'room',
    air: { wet: 0 },
    after: [ready, ...fetched('filler')],
  });
  const sand = add({
    id: 'sand patches',
    title: 'Sand the patches',
    noun: 'sanding of the patches',
    phase: 'room',
    counts: [['sand wall', painted.length]],
    place: 'room',
    air: 'dust',
    after: [after(patch, wait('ready-mixed joint compound, a coat'), 'the filler on the walls dries')],
  });
  let last = add({
    id: 'prime patches',
    title: 'Prime the patches',
    noun: 'primer on the patches',
    phase: 'room',
    counts: [['prime wall', painted.length]],
    whole: true,
    place: 'room',
    air: { wet: touch },
    after: [after(sand), ...fetched('primer')],
  });
  const surfaces = [
    ...(ceiling ? [['ceiling', 'ceiling paint', floorArea(room)] as const] : []),
    ['walls', 'paint', painted.reduce((sum, wall) => sum + wallArea(room, wall), 0) / 1e6] as const,
  ];
  for (const [surface, paint, area] of surfaces)
    for (const coat of coats)
      last =
        add({
          id: `${coat} coat ${surface}`,
          title: `Paint the ${surface}, ${coat} coat`,
          noun: `${coat} coat on the ${surface}`,
          phase: 'room',
          counts: [['paint m²', area]],
          whole: true,
          place: 'room',
          air: { wet: touch },
          // nothing is patched on a ceiling: its first coat waits for the cleared room
          after: [after(last, next, 'the coat before it dries') ?? ready, ...fetched(paint)],
        }) ?? last;
  return after(last, next, 'the paint in the room dries');
}
