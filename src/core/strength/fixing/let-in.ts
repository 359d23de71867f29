import { formula, type Note, type Working, work } from '../../notes/index.ts';
import type { Plan, Wall } from '../../plan/index.ts';
import { remember } from '../../remember.ts';
import type { PlacedWall } from '../../room/index.ts';
import { NDS, OVERHEAD } from '../cited.ts';
import { DURATION_FACTOR, durationInput } from '../fixings.ts';
import { type Subject, titleOf, type WallInput } from '../plan-input.ts';
import type { Screw } from '../screw-sizes.ts';
import { studThickness } from '../steel-fixing.ts';
import { lateralValue, rootOf } from '../timber-fixing.ts';
import { usedWords } from '../used.ts';
import { twoBy } from './blocking.ts';
import { sizesFor } from './fastener.ts';
import { gravityOf, milsOf } from './ground.ts';
import { bendingOf } from './let-in-bends.ts';
import { type FixingPoint, isScrew, type PieceFixing, WITH_ROOM } from './point.ts';

/**
 * Of screws at the ends of timber between studs, the share of their shear that counts: driven at a slant into a timber stud as toe-nails are, or
 * through the web of a steel stud into end grain. Source: NDS-2018, 12.5.4.1 and 12.5.2.2; that what it says of toe-nails goes for screws too, common practice.
 */
const ENDS = { 'at a slant': 0.83, 'end grain': 0.67 } as const;

export const letInScrews = formula({
  name: 'let-in-screws',
  title: 'Screws of timber between studs',
  topic: 'strength',
  about:
    'How much of the screws is used that hold one end of a timber let in between two studs to its stud: 1 is all they may take.',
  formula: 'u = √(V² + T²) / (n C C_D Z),  C = C_tn = 0.83 at a slant, C_eg = 0.67 into end grain',
  inputs: {
    shear: { dimension: 'force', about: 'weight on this end', symbol: 'V', min: 0 },
    pull: { dimension: 'force', about: 'pull out of the wall on this end', symbol: 'T', min: 0 },
    lateral: { dimension: 'force', about: 'reference lateral value of one screw in side grain', symbol: 'Z', above: 0 },
    count: { dimension: 'count', about: 'screws in this end', symbol: 'n', min: 1 },
    end: {
      choices: Object.keys(ENDS) as (keyof typeof ENDS)[],
      about: 'driven at a slant through the end into a timber stud, or through a steel stud into the end grain',
      default: 'at a slant',
    },
    'load-duration': durationInput,
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: NDS('12.5.4.1, toe-nail factor; 12.5.2.2, end grain factor; table 2.3.2'),
  caution: OVERHEAD,
  assumes: [
    'both forces run across the screws; what C_tn says of toe-nails is taken for screws: common practice',
    'the stud itself, and what holds it at floor and ceiling, are not reckoned',
  ],
  compute: (v) => ({
    value: Math.hypot(v.shear, v.pull) / (v.count * ENDS[v.end] * DURATION_FACTOR[v['load-duration']] * v.lateral),
    limit: { value: 1, unit: '', why: 'all they may take' },
  }),
});

type Framing = NonNullable<Wall['framing']>;
type Block = NonNullable<Framing['blocking']>[number];

/** One length of timber between two studs of a wall, mm from its left end and above the floor. */
export interface Stretch {
  readonly block: Block;
  readonly from: number;
  readonly to: number;
}

/** Shorter than so much beside a stud, a stretch is only its bearing there, mm. Common practice. */
const STUB = 60;

/** The lengths that timber behind a wall is let in as: from stud to stud, as far as it reaches. */
export function lengthsOf({ studs, length }: PlacedWall, block: Block): readonly Stretch[] {
  if (studs.length === 0) return [{ block, from: block.from, to: block.to }];
  // at the ends of a wall stands one more
  const faces = [0, ...studs.flatMap(({ at, width }) => [at - width / 2, at + width / 2]), length];
  return Array.from({ length: studs.length + 1 }, (_, i) => ({ from: faces[2 * i]!, to: faces[2 * i + 1]! }))
    .filter(
      ({ from, to }) =>
        to > from && Math.min(to, block.to) - Math.max(from, block.from) > Math.min(STUB, to - from - 1),
    )
    .map((stretch) => ({ block, ...stretch }));
}

/** The fixings that land in a length of timber. */
const landingIn = ({ block, from, to }: Stretch, points: readonly FixingPoint[]): readonly FixingPoint[] =>
  points.filter(
    ({ lands, x, y }) =>
      lands === 'blocking' && y >= block.above && y <= block.above + block.height && x > from - EDGE && x < to + EDGE,
  );

/** What fixings that land in a length of timber ask of the end that is asked more, N. */
function endLoad({ from, to }: Stretch, near: readonly FixingPoint[]) {
  const shareAt = (x: number) => Math.min(1, Math.max(0, (x - from) / (to - from)));
  const at = (share: (x: number) => number) => ({
    shear: near.reduce((sum, p) => sum + p.shear * share(p.x), 0),
    pull: near.reduce((sum, p) => sum + p.tension * share(p.x), 0),
  });
  const [left, right] = [at((x) => 1 - shareAt(x)), at(shareAt)];
  return Math.hypot(left.shear, left.pull) > Math.hypot(right.shear, right.pull) ? left : right;
}
/** Half a stud: what is screwed into the timber there bears on its end, mm. */
const EDGE = 25;

/** The screw for the ends: as thick as is usual, and long enough to go six diameters into the stud when it is driven at a slant. */
export function endScrew(input: Pick<WallInput, 'plan'>): Screw {
  const { usual, lengths } = sizesFor(input);
  const { diameter } = usual['wood screw'];
  const length = lengths.find((long) => slant(long, diameter).into >= 6 * diameter) ?? lengths.at(-1)!;
  return { diameter, length };
}

/** Of a screw driven at a slant of 30°, a third of its length from the end: how much of it is in the end, and in the stud without its tip, mm. NDS-2018, 12.1.6.3 and figure 12A, from memory. */
const slant = (length: number, diameter: number) => ({
  before: length / 3,
  into: length * Math.cos(Math.PI / 6) - length / 3 - 2 * diameter,
});

/** From the edges of a timber to its end screws, and from one to the next, mm. Common practice. */
const [FROM_EDGE, APART] = [25, 25];

/** One length, the screws that each of its ends takes, and how much of them is used, or of what it bears in bending where that is more. */
export interface Timber extends Stretch {
  readonly count: number;
  readonly working: Working;
  readonly use: number;
  readonly bends?: true;
}

/** How many timbers lie one behind the other in it, screwed to one another. */
export const layersOf = (input: Pick<WallInput, 'plan'>, block: Pick<Block, 'thickness'>): number =>
  Math.max(1, Math.floor(block.thickness / twoBy(input).thick + 1e-6));

/** How a length of timber is held in the studs under what these fixings ask of it. */
function heldBy(input: WallInput, framing: Framing, stretch: Stretch, points: readonly FixingPoint[]): Timber {
  const { block } = stretch;
  const { diameter, length } = endScrew(input);
  const gravity = gravityOf(block.species);
  const steel = framing.kind === 'steel stud' ? studThickness(milsOf(framing.mils)).design : undefined;
  const { before, into } =
    steel === undefined ? slant(length, diameter) : { before: steel, into: length - steel - 2 * diameter };
  const { value: lateral } = lateralValue({
    fastener: 'wood screw',
    diameter: rootOf('wood screw', diameter),
    nominal: diameter,
    sideThickness: before,
    penetration: into,
    mainGravity: steel === undefined ? gravityOf(framing.species) : gravity,
    side: steel === undefined ? { gravity } : { steel: 'sheet steel' },
  });
  const near = landingIn(stretch, points);
  const load = endLoad(stretch, near);
  const used = (count: number) =>
    work(letInScrews, {
      ...load,
      lateral,
      count,
      end: steel === undefined ? 'at a slant' : 'end grain',
      'load-duration': 'permanent',
    });
  const layers = layersOf(input, block);
  const most = Math.max(2, layers * (Math.floor((block.height - 2 * FROM_EDGE) / APART) + 1));
  const needed = Math.ceil(used(1).result.value / WITH_ROOM - 1e-9);
  const count = Math.min(most, Math.max(2, needed));
  const reckoned = used(count);
  const { from, to } = stretch;
  const { height, thickness } = block;
  const bent = bendingOf({ from, to, height, thickness: thickness / layers, count: layers, gravity }, near);
  if (bent && bent.result.value > reckoned.result.value)
    return { ...stretch, count, use: bent.result.value, working: bent, bends: true };
  return {
    ...stretch,
    count,
    use: reckoned.result.value,
    working: {
      ...reckoned,
      inputs: [
        ...reckoned.inputs,
        { symbol: 'D', name: 'screw', value: diameter, unit: 'mm' },
        { symbol: 'L', name: 'length of the screw', value: length, unit: 'mm' },
        { symbol: 'p', name: 'of it behind the joint, tip left out', value: into, unit: 'mm' },
        { symbol: 't_s', name: 'of it before the joint', value: before, unit: 'mm' },
      ],
    },
  };
}

const framingOf = (plan: Plan, id: string) => {
  const framing = plan.room.walls.find((w) => w.id === id)?.framing;
  return framing?.kind === 'timber stud' || framing?.kind === 'steel stud' ? framing : undefined;
};

/** Every length of timber behind a wall, with what all these fixings together ask of its ends. */
export const letIn = (input: WallInput, wall: PlacedWall, points: readonly FixingPoint[]): readonly Timber[] =>
  // setting-out, bill and each piece on them ask it of one input
  kept(wall, [input, points], () => timbersOf(input, wall, points));
const kept = remember<PlacedWall, readonly Timber[]>();

function timbersOf(input: WallInput, wall: PlacedWall, points: readonly FixingPoint[]): readonly Timber[] {
  const framing = framingOf(input.plan, wall.id);
  const own = points.filter((p) => p.wall === wall.id && isScrew(p.kind));
  return (framing?.blocking ?? [])
    .flatMap((block) => lengthsOf(wall, block))
    .map((stretch) => heldBy(input, framing!, stretch, own));
}

/** Whether the timber that a piece is screwed to holds in the studs, under all that is screwed to it. */
export function letInNotes(
  input: WallInput,
  subject: Subject,
  { points, wall: id }: PieceFixing,
  all: readonly FixingPoint[],
): readonly Note[] {
  const { placed } = subject;
  const own = points.filter((p) => p.lands === 'blocking' && isScrew(p.kind));
  const wall = input.room.walls.find((w) => w.id === id);
  if (own.length === 0 || !wall) return [];
  const under = letIn(input, wall, all).filter(
    (one) => Math.hypot(...Object.values(endLoad(one, landingIn(one, own)))) > 0,
  );
  const worst = under.reduce<Timber | undefined>((a, b) => (a && a.use >= b.use ? a : b), undefined);
  if (!worst) return [];
  const name = titleOf(placed);
  const { use, working, count, bends } = worst;
  const of = bends ? 'what it bears in bending' : 'its screws';
  const base = { id: `let-in:${placed.id}`, about: placed.id, working };
  const screws = `With ${count} screws in each of its ends at the most; the setting-out says how many each length takes.`;
  if (use > 1)
    return [
      {
        ...base,
        verdict: 'stop',
        title: `The timber behind the board does not hold ${name} in the studs: ${usedWords(use)} of ${of} used`,
        advice: `Let in higher or thicker timber${bends ? '' : ', whose ends take more screws'}, or part the piece in two.`,
      },
    ];
  return [
    {
      ...base,
      verdict: 'fine',
      title: `The timber behind the board holds ${name} in the studs: ${usedWords(use)} of ${of} used`,
      advice: `${screws} Not checked: the studs, and what holds them at floor and ceiling.`,
    },
  ];
}
