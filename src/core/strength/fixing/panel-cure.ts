import type { Note } from '../../notes/index.ts';
import { marked, type Subject, type WallInput } from '../plan-input.ts';
import { type Fixing, sizesFor } from './fastener.ts';
import type { Hung } from './hung-panel.ts';
import { jointsOf, studsBehind } from './lining-holes.ts';
import { type More, moreCure } from './more-cure.ts';
import { isScrew } from './point.ts';

/** A panel under tiles: screws through every level joint between them, longer ones if need be; then two at each stud beside one another. */
export function tilesCure(
  input: WallInput,
  subject: Subject,
  said: Hung,
  { kind, diameter, length }: Fixing,
): Note['cure'] {
  if (!('absorber' in said) || !isScrew(kind)) return undefined;
  const { placed } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const heights = jointsOf(placed, said).map((up) => marked(input, up));
  const at = studsBehind(placed, wall).flatMap((x) => [marked(input, x - BESIDE / 2), marked(input, x + BESIDE / 2)]);
  const every = heights.length > 2 && said.fix?.heights === undefined;
  const ways: readonly More[] = [
    ...(every ? [{ heights, words: 'through every level joint between the tiles' }] : []),
    ...(said.fix?.at ? [] : [{ at, words: 'two at each stud' }]),
    ...(every && !said.fix?.at
      ? [{ heights, at, words: 'through every level joint between the tiles, two at each stud' }]
      : []),
  ];
  const longer = sizesFor(input).lengths.filter((long) => long > length);
  return moreCure(
    input,
    subject,
    ways,
    [{ kind }, ...longer.map((long) => ({ kind, diameter, length: long }))],
    'Screw it up',
  );
}

/** From one to the other of two screws beside one another in a stud, mm: four diameters of 5, and nine of wood beyond them in the edge of a stud of 38. Common practice. */
const BESIDE = 20;
