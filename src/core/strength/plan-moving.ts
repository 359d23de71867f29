import { type Note, type Working, work } from '../notes/index.ts';
import type { CasePiece } from '../plan/index.ts';
import { intoVehicle, roundCorner, standUp, tallestToStandUp, throughDoor } from './moving.ts';
import { type Subject, saying, set, titleOf, type WallInput, written } from './plan-input.ts';
import { joinWords, splitFor } from './split.ts';

/** Spare that a case should have under the ceiling while it is stood up, mm: floors and ceilings are not flat. Common practice. */
const HEADROOM = 20;

export interface Carried {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  /** What is carried and set separately: a plinth under it. */
  readonly plinth: number;
}

/** A case as it is carried: without a separate plinth, with its end panels, frame and top. */
export function carriedSize({ placed, said }: Subject): Carried {
  const { min, max } = placed.outside;
  const toe = 'case' in said && said.toe?.kind === 'plinth' ? said.toe.height : 0;
  return { width: max.x - min.x, height: max.y - min.y - toe, depth: max.z - min.z, plinth: toe };
}

/** Can a case that was built lying down be stood up under the ceiling? */
export function standUpNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said, path } = subject;
  if (!('case' in said)) return [];
  const { height, depth } = carriedSize(subject);
  if (height <= depth) return [];
  const { ceiling } = input.room;
  const working = work(standUp, { height, depth, ceiling });
  const needs = working.result.value;
  const spare = ceiling - needs;
  const { length } = saying(input);
  if (height < ceiling * 0.7 && spare >= HEADROOM) return [];
  const verdict = spare < 0 ? 'stop' : spare < HEADROOM ? 'caution' : 'fine';
  const cure = verdict === 'fine' ? undefined : standUpCure(input, said, path, ceiling, depth);
  return [
    {
      id: `stand-up:${placed.id}`,
      about: placed.id,
      verdict,
      title:
        verdict === 'stop'
          ? `${titleOf(placed)} cannot be stood up: its corner swings to ${length(needs)}, the ceiling is at ${length(ceiling)}`
          : verdict === 'caution'
            ? `${titleOf(placed)} has only ${length(spare)} to spare under the ceiling while it is stood up`
            : `${titleOf(placed)} can be stood up under the ceiling with ${length(spare)} to spare`,
      advice:
        verdict === 'fine'
          ? 'Checked on its lower back edge under a level ceiling. Two people; look for lamps and cornices that hang lower.'
          : 'Set a separate plinth under it afterwards, make it lower, or build it standing up in its place. Two people.',
      working,
      ...(cure && { cure }),
    },
  ];
}

function standUpCure(
  input: WallInput,
  said: CasePiece,
  path: Subject['path'],
  ceiling: number,
  depth: number,
): Note['cure'] {
  const room = ceiling - HEADROOM;
  if (depth >= room) return undefined;
  const tallest = tallestToStandUp(room, depth);
  const toe = said.toe;
  if (toe && toe.kind !== 'plinth' && said.size.height - toe.height <= tallest)
    return { title: 'Make the toe a separate plinth', edits: [set([...path, 'toe', 'kind'], 'plinth')] };
  const height = written(input, tallest + (toe?.kind === 'plinth' ? toe.height : 0), 'down');
  return { title: `Make it ${height} high`, edits: [set([...path, 'size', 'height'], height)] };
}

interface Way {
  readonly id: string;
  readonly working: Working;
  /** mm to spare; below `least` it is noted, below 0 it does not go. */
  readonly spare: number;
  readonly least: number;
  readonly blocked: 'stop' | 'caution';
  readonly sticks: (by: string) => string;
  readonly close: (by: string) => string;
  readonly advice: string;
}

/** The ways a case must go: through the door, round the turn of the hall, in the vehicle. */
function waysIn(input: WallInput, subject: Subject): readonly Way[] {
  const { width, height, depth } = carriedSize(subject);
  const sides = { width, height, depth };
  const { door, hall, vehicle } = input.plan.room;
  const name = titleOf(subject.placed);
  const ways: Way[] = [];
  const way = (id: string, working: Working, rest: Omit<Way, 'id' | 'working' | 'spare'>) =>
    ways.push({ id, working, spare: working.result.value, ...rest });
  if (door)
    way('door-pass', work(throughDoor, { ...sides, 'door-width': door.width, 'door-height': door.height }), {
      least: 10,
      blocked: 'stop',
      sticks: (by) => `${name} does not go through the door: ${by} too big`,
      close: (by) => `${name} goes through the door with only ${by} to spare`,
      advice: 'Take the door off its hinges, and handles and doors off the case.',
    });
  if (hall) {
    const [from, to] = [hall.width, hall.turn ?? hall.width];
    const turns = [height, width, depth].some((up) => up <= input.room.ceiling);
    if (turns)
      way('corner-pass', work(roundCorner, { ...sides, from, to, ceiling: input.room.ceiling }), {
        least: 10,
        blocked: 'caution',
        sticks: (by) => `${name} does not turn from the hall carried level: ${by} too long`,
        close: (by) => `${name} turns from the hall with only ${by} to spare`,
        advice:
          'Tilted up on end it may still go where the hall is high enough: try it with a frame of laths that size.',
      });
  }
  if (vehicle)
    way(
      'vehicle-fit',
      work(intoVehicle, {
        ...sides,
        'space-length': vehicle.length,
        'space-width': vehicle.width,
        'space-height': vehicle.height,
      }),
      {
        least: 0,
        blocked: 'caution',
        sticks: (by) => `${name} does not lie in the vehicle: ${by} too long on its tightest side`,
        close: (by) => `${name} lies in the vehicle with only ${by} to spare`,
        advice:
          'Carry it as flat parts and put it together in the room, or borrow a larger vehicle. Tie down what sticks out.',
      },
    );
  return ways;
}

/** Through the door, round the turn of the hall, in the vehicle: what does not go is said with what would. */
export function wayInNotes(input: WallInput, subject: Subject): readonly Note[] {
  if (!('case' in subject.said)) return [];
  const { length } = saying(input);
  return waysIn(input, subject).flatMap((way): readonly Note[] => {
    if (way.spare >= way.least) return [];
    const sticks = way.spare < 0;
    const passes = (half: Subject): boolean =>
      waysIn(input, half).some((own) => own.id === way.id && own.spare >= Math.max(0, way.least));
    const split = splitFor(input, subject, passes);
    return [
      {
        id: `${way.id}:${subject.placed.id}`,
        about: subject.placed.id,
        verdict: sticks ? way.blocked : 'caution',
        title: sticks ? way.sticks(length(-way.spare)) : way.close(length(way.spare)),
        advice: split
          ? `${way.advice} Or ${split.title.replace(/^M/, 'm')}: then ${split.pieces.length === 2 ? 'both halves go' : 'each of them goes'} in. ${joinWords(split)}`
          : `${way.advice} At no upright or fixed shelf can it be parted, in two or in more, so that every piece goes in: make it smaller, or build it in the room.`,
        working: way.working,
        ...(split && { cure: { title: split.title, edits: split.edits } }),
      },
    ];
  });
}
