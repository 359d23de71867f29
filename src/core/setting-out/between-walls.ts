import { wallCalled } from '../called.ts';
import type { Note } from '../notes/index.ts';
import { type Bay, type CasePiece, type Edit, type Path, printersFor } from '../plan/index.ts';
import { inch, isInches } from '../quantity/index.ts';
import { type PlacedWall, pointOnWall } from '../room/index.ts';
import { type Subject, subjectsOf, type WallInput } from '../strength/index.ts';

/** What is to be left in all between two walls and what is pushed in between them; and a filler that is scribed. Common practice. */
const PLAY = { metric: 10, imperial: inch(3 / 8) } as const;
const FILLER = { metric: 25, imperial: inch(1) } as const;
/** Further apart than this along the wall and cases are set by themselves, mm: a filler's width. Common practice. */
export const APART = 60;
/** Nearer than this two edges touch, mm. */
const TOUCH = 0.01;

/** A case without its fillers, which are cut to what is left: along its wall and up, mm. */
interface Body {
  readonly subject: Subject;
  readonly said: CasePiece;
  readonly x: readonly [from: number, to: number];
  readonly y: readonly [from: number, to: number];
}
/** Bodies one beside the other from the left corner on, and how much is free among them. */
interface Chain {
  readonly bodies: readonly Body[];
  readonly play: number;
}

/** Cases that fill a wall from corner to corner, so that nothing is left by which they could be got in. */
export function betweenWallsNotes(input: WallInput): readonly Note[] {
  const { walls } = input.room;
  return walls.flatMap((wall, i): readonly Note[] => {
    // at a corner that points into the room nothing is in the way
    if (wall.corner >= 180 || walls.at(i - 1)!.corner >= 180) return [];
    const bodies = bodiesOn(input, wall);
    // what reaches past an end is told as that
    if (bodies.some(({ x }) => x[0] < -TOUCH || x[1] > wall.length + TOUCH)) return [];
    const chain = tightest(bodies, wall.length);
    const least = isInches(input.plan.units.length) ? PLAY.imperial : PLAY.metric;
    return chain && chain.play < least - TOUCH ? [noteOn(input, wall, chain, least)] : [];
  });
}

const bodiesOn = (input: WallInput, wall: PlacedWall): readonly Body[] =>
  subjectsOf(input)
    .flatMap((subject): readonly Body[] => {
      const { placed, said } = subject;
      if (!('case' in said) || placed.wall?.id !== wall.id) return [];
      const { min, max } = placed.outside;
      const { left = 0, right = 0 } = said.fillers ?? {};
      const at = placed.wall.from;
      const up = placed.frame.origin.y;
      return [{ subject, said, x: [at + min.x + left, at + max.x - right], y: [up + min.y, up + max.y] }];
    })
    .sort((a, b) => a.x[0] - b.x[0]);

/** Of the rows of bodies that reach from one end of a wall to the other the one with the least free. */
function tightest(bodies: readonly Body[], length: number): Chain | undefined {
  const up: Chain[] = [];
  let best: Chain | undefined;
  for (const body of bodies) {
    const before = up.reduce<Chain>(
      (least, chain) => {
        const last = chain.bodies.at(-1)!;
        const gap = body.x[0] - last.x[1];
        const beside = Math.min(last.y[1], body.y[1]) - Math.max(last.y[0], body.y[0]) > TOUCH;
        const play = chain.play + Math.max(0, gap);
        return beside && gap > -TOUCH && gap <= APART && play < least.play ? { bodies: chain.bodies, play } : least;
      },
      { bodies: [], play: Math.max(0, body.x[0]) },
    );
    const chain = { bodies: [...before.bodies, body], play: before.play };
    up.push(chain);
    const play = chain.play + Math.max(0, length - body.x[1]);
    if (!best || play < best.play) best = { bodies: chain.bodies, play };
  }
  return best;
}

function noteOn(input: WallInput, wall: PlacedWall, { bodies, play }: Chain, least: number): Note {
  const print = printersFor(input.plan.units);
  const [first, last] = [bodies[0]!, bodies.at(-1)!];
  const called = ({ subject: { placed } }: Body): string => placed.title || placed.id;
  const who = first === last ? `${called(first)} fills` : `${called(first)} to ${called(last)} fill`;
  return {
    id: `wall-to-wall:${first.subject.placed.id}`,
    about: first.subject.placed.id,
    at: pointOnWall(wall, (first.x[0] + last.x[1]) / 2, (first.y[0] + first.y[1]) / 2),
    verdict: 'caution',
    title: `${who} the ${wallCalled(wall.id)} from corner to corner, with ${play < TOUCH ? 'nothing' : `only ${print.notMore(play)}`} to spare`,
    advice: `Measure from corner to corner at the floor, at half height and at the top of the cases, at the wall and where their fronts will be: the least counts, and corners are seldom square. Leave ${print.notLess(least)} at least, or build them narrower and close the ends with fillers that are scribed to the walls.`,
    working: {
      what: 'Play between two walls',
      formula: 'p = L − Σw',
      inputs: [
        { symbol: 'L', name: 'length of the wall', value: wall.length, unit: 'mm' },
        {
          symbol: 'w',
          name: 'widths of what stands between, without fillers',
          value: bodies.map(({ x }) => x[1] - x[0]),
          unit: 'mm',
        },
      ],
      result: { value: play, unit: 'mm' },
      limit: { value: least, unit: 'mm', why: 'what is left to get them in', source: 'common practice' },
      source: 'common practice',
      assumes: ['corners that are square, and walls that are plumb'],
    },
    ...fillersCure(input, first, last),
  };
}

/** Fillers at both ends, which the outer cases take out of their widths. */
function fillersCure(input: WallInput, first: Body, last: Body): Pick<Note, 'cure'> {
  const inches = isInches(input.plan.units.length);
  const wide = inches ? FILLER.imperial : FILLER.metric;
  const ends = [
    { body: first, side: 'left' },
    { body: last, side: 'right' },
  ] as const;
  // what its bays are to have is not taken from them
  const giving = ends.filter(({ body: { said } }) => yields(said.inside) && said.fillers === undefined);
  if (giving.length === 0) return {};
  const value = inches ? '1"' : `${wide} mm`;
  const paths = new Map<Path, Record<string, string>>();
  for (const { body, side } of giving) paths.set(body.subject.path, { ...paths.get(body.subject.path), [side]: value });
  const edits = [...paths].map(([path, fillers]): Edit => ({ op: 'set', path: [...path, 'fillers'], value: fillers }));
  const where = giving.length === 2 ? 'at both ends' : `at the ${giving[0]!.side} end`;
  return { cure: { title: `Put a filler of ${printersFor(input.plan.units).length(wide)} ${where}`, edits } };
}

/** Whether a bay can become narrower. */
const yields = (bay: Bay | undefined): boolean =>
  bay?.columns
    ? bay.columns.some((column) => typeof column.width !== 'number' && yields(column))
    : (bay?.rows ?? []).every(yields);
