import type { Note } from '../notes/index.ts';
import type { CasePiece } from '../plan/index.ts';
import { tallestToStandUp } from './moving.ts';
import { ownMass, type Subject, saying, set, titleOf, type WallInput, written } from './plan-input.ts';
import { alsoOf, work } from './work.ts';

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
  const working = work('stand-up-height', { height, depth, ceiling });
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

/** Through the door, round the turn of the hall, in the vehicle: what does not go is said with what would. */
export function wayInNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said } = subject;
  if (!('case' in said)) return [];
  const box = carriedSize(subject);
  const sides = { width: box.width, height: box.height, depth: box.depth };
  const { door, hall, vehicle } = input.plan.room;
  const { length } = saying(input);
  const notes: Note[] = [];
  const name = titleOf(placed);
  if (door) {
    const working = work('door-pass', { ...sides, 'door-width': door.width, 'door-height': door.height });
    const spare = working.result.value;
    if (spare < 10)
      notes.push({
        id: `door-pass:${placed.id}`,
        about: placed.id,
        verdict: spare < 0 ? 'stop' : 'caution',
        title:
          spare < 0
            ? `${name} does not go through the door: ${length(-spare)} too big`
            : `${name} goes through the door with only ${length(spare)} to spare`,
        advice:
          'Split it where an upright stands, carry the parts in and join them in the room with bolts through doubled uprights.',
        working,
      });
  }
  if (hall) {
    const [from, to] = [hall.width, hall.turn ?? hall.width];
    const narrow = Math.min(from, to);
    const smallest = Math.min(sides.width, sides.height, sides.depth);
    if (smallest < narrow) {
      const working = work('corner-pass', { ...sides, from, to, ceiling: input.room.ceiling });
      const spare = working.result.value;
      if (spare < 10)
        notes.push({
          id: `corner-pass:${placed.id}`,
          about: placed.id,
          verdict: 'caution',
          title:
            spare < 0
              ? `${name} does not turn from the hall carried level: ${length(-spare)} too long`
              : `${name} turns from the hall with only ${length(spare)} to spare`,
          advice: 'Tilt it up on end where the hall is high enough, or carry it in two and join it in the room.',
          working,
        });
    }
  }
  if (vehicle) {
    const working = work('vehicle-fit', {
      ...sides,
      'space-length': vehicle.length,
      'space-width': vehicle.width,
      'space-height': vehicle.height,
    });
    const spare = working.result.value;
    if (spare < 0)
      notes.push({
        id: `vehicle-fit:${placed.id}`,
        about: placed.id,
        verdict: 'caution',
        title: `${name} does not lie in the vehicle: ${length(-spare)} too long on its tightest side`,
        advice:
          'Carry it as flat parts and put it together in the room, or borrow a larger vehicle. Tie down what sticks out.',
        working,
      });
  }
  return notes;
}

/** Hands under a case lying on the floor, and where it is set down: low, and hip-high on its stand. mm. Common practice. */
const LIFT_FROM = 200;
const LIFT_TO = 750;

/** What one person or two may lift of each case, by the lifting equation at the worse end of the lift. */
export function liftNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed } = subject;
  if (!('case' in subject.said || 'shelf' in subject.said || 'display' in subject.said)) return [];
  const mass = ownMass(input, placed);
  if (!(mass > 0)) return [];
  const { depth } = carriedSize(subject);
  const base = placed.frame.origin.y + placed.outside.min.y;
  const hung = placed.kind !== 'case' || base > 100;
  const to = hung ? Math.min(base, 1750) : LIFT_TO;
  const ends = [LIFT_FROM, to];
  const workings = ends.map((height) =>
    work('lifting-index', {
      load: mass,
      reach: Math.min(Math.max(250, 200 + depth / 2 + (height < 250 ? 50 : 0)), 630),
      height,
      travel: Math.abs(to - LIFT_FROM),
    }),
  );
  const working = workings.reduce((a, b) => (b.result.value > a.result.value ? b : a));
  const alone = Math.min(alsoOf(working, 'RWL'), input.plan.shop.lift ?? Number.POSITIVE_INFINITY);
  const two = (4 / 3) * alone;
  const { mass: say } = saying(input);
  if (mass <= alone * 0.8) return [];
  const name = titleOf(placed);
  const verdict = mass > two ? 'stop' : mass > alone ? 'caution' : 'fine';
  return [
    {
      id: `lift:${placed.id}`,
      about: placed.id,
      verdict: verdict === 'stop' ? 'caution' : verdict,
      title:
        verdict === 'fine'
          ? `${name} weighs ${say(mass)}: one person may lift it`
          : verdict === 'caution'
            ? `${name} weighs ${say(mass)}: lift it with two`
            : `${name} weighs ${say(mass)}: too much even for two to lift like this`,
      advice:
        verdict === 'fine'
          ? `The lifting equation allows ${say(alone)} from the floor to where it goes.`
          : verdict === 'caution'
            ? `The lifting equation allows one person ${say(alone)} here, two together ${say(two)}.`
            : `One person may lift ${say(alone)} here, two ${say(two)}. Slide it, walk it on its corners or use a trolley; take doors, drawers and shelves out first, or carry it in two and join it in the room.`,
      working,
    },
  ];
}
