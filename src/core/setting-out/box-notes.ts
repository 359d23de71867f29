import { wallCalled } from '../called.ts';
import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import type { PlacedWall } from '../room/index.ts';
import { type FixingPoint, isScrew, type WallInput } from '../strength/index.ts';
import { CAUTION, gap, gapTo, type WallBox } from './in-wall.ts';

/** Board and saw cut to leave between a box and a stud's face, and round any fixing, mm. Common practice. */
const CLEAR = 5;
const FROM_FIXING = 25;

interface Finding {
  readonly what: string;
  readonly title: string;
  readonly advice: string;
  readonly verdict: Note['verdict'];
}

/** What stands in the way of a box, and where it would fit; that it fits, where nothing does. */
export function boxNotes(
  input: WallInput,
  box: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): readonly Note[] {
  const { length } = printersFor(input.plan.units);
  const faults = [...faultsOf(input, box, boxes, points)];
  const { said, wall } = box;
  if (faults.length === 0)
    return [
      {
        id: `box:${said.id}`,
        about: said.id,
        verdict: 'fine',
        title: `${said.id} fits between the studs of the ${wallCalled(wall.id)}`,
        advice: `Cut out ${length(box.x[1] - box.x[0])} × ${length(box.y[1] - box.y[0])}, its middle ${length(said.at)} from the left end and ${length(said.height)} up. Checked against studs, fixings, services and other boxes. ${CAUTION}`,
      },
    ];
  const to = faults.some(({ what }) => ANYWHERE.has(what)) ? undefined : placeFor(input, box, boxes, points);
  const index = input.plan.options.indexOf(input.option);
  const path = ['options', index, 'boxes', input.option.boxes!.indexOf(said), 'at'];
  return faults.map((fault) => ({
    id: `box:${said.id}:${fault.what}`,
    about: said.id,
    verdict: fault.verdict,
    title: fault.title,
    advice: `${fault.advice} ${CAUTION}`,
    ...(to !== undefined && {
      cure: {
        title: `Move it to ${length(to)} from the left end`,
        edits: [{ op: 'set', path, value: `${to} mm` }],
      },
    }),
  }));
}

/** Faults of a box that no other place of its wall cures. */
const ANYWHERE: ReadonlySet<string> = new Set(['masonry', 'depth']);
/** The bay of a wall a place lies in: how many studs stand left of it. */
const bayAt = (wall: PlacedWall, x: number): number => wall.studs.filter((s) => s.at < x).length;

/** One after the other: whoever asks whether there is any needs no more than the first. */
function* faultsOf(
  input: WallInput,
  { said, wall, x, y, depth }: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): Generator<Finding> {
  const { length } = printersFor(input.plan.units);
  const framing = input.plan.room.walls.find((w) => w.id === wall.id)?.framing;
  const fault = (verdict: Note['verdict'], what: string, title: string, advice: string): Finding => ({
    verdict,
    what,
    title,
    advice,
  });
  if (x[0] < 0 || x[1] > wall.length || y[0] < 0 || y[1] > wall.height)
    yield fault('stop', 'wall', `${said.id} reaches past the ${wallCalled(wall.id)}`, 'Set it within the wall.');
  const stud = wall.studs.find((s) => gap(x, [s.at - s.width / 2, s.at + s.width / 2]) < CLEAR);
  if (stud)
    yield fault(
      'stop',
      'stud',
      `${said.id} lands on the stud at ${length(stud.at)}`,
      'A box between studs needs the whole hollow: no stud is notched for it.',
    );
  if (framing?.kind === 'masonry')
    yield fault(
      'caution',
      'masonry',
      `${said.id} is chased into masonry`,
      `A chase ${length(depth)} deep weakens a thin wall and meets what is in it: find cables and pipes first, cut no more than a third of the wall's thickness, and mask against dust. A box on the wall needs none of it.`,
    );
  const hollow =
    framing?.kind === 'masonry'
      ? Number.POSITIVE_INFINITY
      : (framing?.depth ?? inch(3.5)) + (framing?.board ?? inch(0.5));
  if (depth > hollow)
    yield fault(
      'stop',
      'depth',
      `${said.id} is ${length(depth)} deep; the wall has ${length(hollow)}`,
      'Take a shallower box.',
    );
  const block =
    framing && 'blocking' in framing
      ? framing.blocking?.find((b) => gap(x, [b.from, b.to]) < CLEAR && gap(y, [b.above, b.above + b.height]) < CLEAR)
      : undefined;
  if (block)
    yield fault(
      'stop',
      'blocking',
      `${said.id} lands on the timber let in behind the board, ${length(block.above)} up`,
      'A box needs the whole hollow: what was let in to carry is not cut away for it.',
    );
  const fixing = points.find((p) => p.wall === wall.id && gapTo(x, p.x) < FROM_FIXING && gapTo(y, p.y) < FROM_FIXING);
  if (fixing)
    yield fault(
      'stop',
      'fixing',
      `A fixing of ${fixing.piece} goes into ${said.id}`,
      'Move the box or the fixing: a screw into a box can kill.',
    );
  const service = input.room.services.find(
    (s) => s.wall === wall.id && gap(x, s.x) < FROM_FIXING && gap(y, s.y) < FROM_FIXING,
  );
  if (service)
    yield fault('stop', 'service', `${said.id} meets ${service.id}`, 'Leave room for both boxes and their cables.');
  const opening = input.room.openings.find((o) => o.wall === wall.id && gap(x, o.x) < 40 && gap(y, o.y) < 40);
  if (opening)
    yield fault(
      'stop',
      'opening',
      `${said.id} stands in the framing of ${opening.id}`,
      'Studs and a header stand round every opening.',
    );
  const bay = bayAt(wall, said.at);
  const shares = boxes.find(
    (b) => b.said !== said && b.wall === wall && b.said.carries !== said.carries && bayAt(wall, b.said.at) === bay,
  );
  if (shares && wall.studs.length > 0)
    yield fault(
      'caution',
      'shares',
      `${said.id} (${said.carries}) shares a bay with ${shares.said.id} (${shares.said.carries})`,
      'Their cables must keep 2 in apart for good, fixed so, or one goes into the next bay.',
    );
  const hollowFixing = points.find(
    (p) =>
      said.carries === 'mains' &&
      p.wall === wall.id &&
      wall.studs.length > 0 &&
      p.lands === 'board only' &&
      bayAt(wall, p.x) === bay,
  );
  if (hollowFixing)
    yield isScrew(hollowFixing.kind)
      ? fault(
          'caution',
          'anchor',
          `A ${hollowFixing.kind} of ${hollowFixing.piece} comes out behind the board in the bay of ${said.id}`,
          'Its point must not meet a mains cable: set the screw into a stud, lead the cable down the other side of the bay, or put the box into another bay.',
        )
      : fault(
          'caution',
          'anchor',
          `A ${hollowFixing.kind} of ${hollowFixing.piece} opens in the bay of ${said.id}`,
          'What spreads behind the board must not press on a mains cable: the cable would run down the other side of the bay, or the box goes into another bay.',
        );
}

/** The nearest place along its wall where nothing is in the way of a box, in steps of 10 mm. */
function placeFor(
  input: WallInput,
  box: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): number | undefined {
  const half = (box.x[1] - box.x[0]) / 2;
  const others = boxes.filter((b) => b !== box);
  for (let step = 10; step <= 1500; step += 10)
    for (const at of [box.said.at - step, box.said.at + step]) {
      const moved = { ...box, said: { ...box.said, at: at as typeof box.said.at }, x: [at - half, at + half] as const };
      if (faultsOf(input, moved, [...others, moved], points).next().done) return Math.round(at * 10) / 10;
    }
  return undefined;
}
