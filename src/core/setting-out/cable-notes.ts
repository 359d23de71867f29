import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import { type FixingPoint, STUD_CUTS, type WallInput } from '../strength/index.ts';
import { CAUTION, type CableRun, cableRuns, gap, gapTo } from './in-wall.ts';

/** A cable in a bored stud keeps this from its edges, or a steel plate covers it. Source: NEC 300.4(A)(1). */
const FROM_EDGE = inch(1.25);

interface Finding extends Pick<Note, 'verdict' | 'title' | 'advice' | 'cure'> {
  readonly what: string;
}
/** A cable, and what is asked of it. */
interface Asked {
  readonly input: WallInput;
  readonly points: readonly FixingPoint[];
  readonly run: CableRun;
  readonly inside: boolean;
  /** How the walls along its way are framed. */
  readonly framings: readonly (WallInput['plan']['room']['walls'][number]['framing'] | undefined)[];
  readonly path: readonly (string | number)[];
  /** What settles most of it. */
  readonly outside: NonNullable<Note['cure']>;
  readonly length: (mm: number) => string;
}

/** What stands against each cable where it is to run; how long it is, where nothing does. */
export function cableNotes(input: WallInput, points: readonly FixingPoint[]): readonly Note[] {
  const { length } = printersFor(input.plan.units);
  const index = input.plan.options.indexOf(input.option);
  return cableRuns(input).flatMap((run): readonly Note[] => {
    const { said, legs, working } = run;
    const path = ['options', index, 'cables', input.option.cables!.indexOf(said)];
    const asked: Asked = {
      ...{ input, points, run, path, length },
      inside: said.route === 'in the wall',
      framings: legs.map((leg) => input.plan.room.walls.find((w) => w.id === leg.wall)?.framing),
      outside: {
        title: 'Run it on the wall',
        edits: [{ op: 'set', path: [...path, 'route'], value: 'on the wall' }],
      },
    };
    const against = FAULTS.flatMap((fault) => fault(asked) ?? []);
    const found = against.length > 0 ? against : [runs(asked)];
    return found.map(({ what, verdict, title, advice, cure }) => ({
      id: `cable:${said.id}${what && `:${what}`}`,
      about: said.id,
      verdict,
      title,
      advice: `${advice} ${CAUTION}`,
      working,
      ...(cure && { cure }),
    }));
  });
}

type Fault = (asked: Asked) => Finding | undefined;

const asCord: Fault = ({ run: { said }, inside, outside }) =>
  inside && said.carries === 'plug cord'
    ? {
        what: 'cord',
        verdict: 'stop',
        title: `${said.id} is a plug cord: it may not run inside a wall`,
        advice: 'Have a socket put where it is needed, or lead the cord over the wall in a duct, in reach all along.',
        cure: outside,
      }
    : undefined;

const unmarked: Fault = ({ run: { said }, inside, path }) =>
  inside && said.carries === 'signal' && !said.rated
    ? {
        what: 'rating',
        verdict: 'stop',
        title: `${said.id} carries no marking for use inside a wall`,
        advice:
          'Take a cable marked CL2, CL3 or CM (or what your code names), or a conduit that it can be drawn through; else keep it on the wall.',
        cure: {
          title: 'Take a cable marked for walls',
          edits: [{ op: 'set', path: [...path, 'rated'], value: true }],
        },
      }
    : undefined;

const inMasonry: Fault = ({ run, inside, framings, outside, length }) => {
  // where its way goes on behind board, nothing is chased
  const chased = run.legs.reduce(
    (sum, { from, to }, i) =>
      framings[i]?.kind === 'masonry' ? sum + Math.abs(to.x - from.x) + Math.abs(to.y - from.y) : sum,
    0,
  );
  return inside && chased > 0
    ? {
        what: 'masonry',
        verdict: 'caution',
        title: `${run.said.id} would be chased into masonry over ${length(chased)}`,
        advice: 'A duct on the wall or behind the cases costs no dust.',
        cure: outside,
      }
    : undefined;
};

const onFixing: Fault = ({ points, run: { said, legs }, inside, outside, length }) => {
  const hit = inside
    ? points.find((p) =>
        legs.some(
          (leg) =>
            leg.wall === p.wall &&
            gapTo([Math.min(leg.from.x, leg.to.x), Math.max(leg.from.x, leg.to.x)], p.x) < FROM_EDGE &&
            gapTo([Math.min(leg.from.y, leg.to.y), Math.max(leg.from.y, leg.to.y)], p.y) < FROM_EDGE,
        ),
      )
    : undefined;
  return (
    hit && {
      what: 'fixing',
      verdict: 'stop',
      title: `A fixing of ${hit.piece} stands in the way of ${said.id} at ${length(hit.x)}, ${length(hit.y)} up`,
      advice: `Lead the cable ${length(FROM_EDGE)} or more beside it, or cover it with a steel plate.`,
      cure: outside,
    }
  );
};

/** The opening of a wall that the way of a cable leads into. */
const openingIn = ({ openings }: PlacedRoom, legs: CableRun['legs']) =>
  openings.find((o) =>
    legs.some(
      ({ wall, from, to }) =>
        wall === o.wall &&
        gap([Math.min(from.x, to.x), Math.max(from.x, to.x)], o.x) < 0 &&
        gap([Math.min(from.y, to.y), Math.max(from.y, to.y)], o.y) <= 0,
    ),
  );
const intoOpening: Fault = ({ input, run: { said, legs }, length }) => {
  const barred = openingIn(input.room, legs);
  return (
    barred && {
      what: 'opening',
      verdict: 'stop',
      title: `${said.id} runs into ${barred.id}, ${length(Math.min(...legs.map((leg) => Math.min(leg.from.y, leg.to.y))))} up`,
      advice: `Nothing carries a cable across an opening. Lead it under the floor, over the ceiling, or on the wall round the casing${barred.kind === 'window' ? ', or end it lower than the sill' : ''}: longer than is reckoned here, so measure that way before it is bought.`,
    }
  );
};

const boreTooWide: Fault = ({ run: { said, crosses }, inside, framings, outside, length }) => {
  const timber = framings.find((f) => f?.kind === 'timber stud');
  if (!inside || crosses === 0 || !timber) return undefined;
  const hole = said.diameter ?? 8;
  const depth = timber.depth ?? inch(3.5);
  const most = Math.min(STUD_CUTS['hole, bearing wall'] * depth, depth - 2 * FROM_EDGE);
  if (hole <= most) return undefined;
  return {
    what: 'bore',
    verdict: 'stop',
    title: `${said.id} needs a hole of ${length(hole)} through ${counted(crosses, 'stud')}; ${length(most)} is allowed`,
    advice: 'Share the cables out over several holes, or run it on the wall.',
    cure: outside,
  };
};

const FAULTS: readonly Fault[] = [asCord, unmarked, inMasonry, onFixing, intoOpening, boreTooWide];

const counted = (count: number, what: string): string => (count === 1 ? `one ${what}` : `${count} ${what}s`);

function runs({ run, framings, length }: Asked): Finding {
  const { said, crosses } = run;
  const through =
    crosses === 0
      ? ''
      : framings.some((f) => f?.kind === 'steel stud')
        ? ` It crosses ${counted(crosses, 'steel stud')}: through punched holes, each with a grommet.`
        : ` It crosses ${counted(crosses, 'stud')}: bore in the middle of each, ${length(FROM_EDGE)} or more from either edge, or cover the hole with a steel plate.`;
  return {
    what: '',
    verdict: 'fine',
    title: `${said.id} runs ${length(run.way)} ${said.route}: ${length(run.length)} with slack`,
    advice: `Buy the next length up, and draw a string in beside it for the cable that comes after.${through}`,
  };
}
