import { wallCalled } from '../../called.ts';
import { formula, type Note, type Source, type Working, work } from '../../notes/index.ts';
import { STANDARD_GRAVITY } from '../../quantity/index.ts';
import { type PlacedWall, pointOnWall } from '../../room/index.ts';
import { OVERHEAD } from '../cited.ts';
import { imperial, saying, subjectsOf, titleOf, type WallInput } from '../plan-input.ts';
import { studThickness } from '../steel-fixing.ts';
import { usedWords } from '../used.ts';
import { highest, isHung, lowest } from './carried.ts';
import { milsOf } from './ground.ts';
import { keptFixing } from './held.ts';
import { isHungPanel } from './hung-panel.ts';
import { isHeld } from './point.ts';

/**
 * What hangs on a metre of a partition of steel studs and plasterboard, by the thickness of its boards on one side, mm: N/m, up to 300 mm out.
 * Source: DIN 4103-1 (0.4 kN/m anywhere) and DIN 18183-1, both at second hand.
 */
const BEARS = [
  { board: 25, load: 1500 },
  { board: 18, load: 700 },
  { board: 0, load: 400 },
] as const;
/** Out from the wall, mm; and the sheet that studs of those standards are rolled from, mm. */
const [REACH, SHEET] = [300, 0.6];
/** What hangs on the board alone has less of the thickest. */
const loadAt = (board: number, into: Into): number =>
  BEARS.find((row) => board >= row.board - 0.5 && (into === 'studs' || row !== BEARS[0]))!.load;
const INTO = ['studs', 'board'] as const;
type Into = (typeof INTO)[number];
const shareOf = (load: number, reach: number, board: number, into: Into, sheet: number): number =>
  (load * Math.max(1, reach / REACH)) / (loadAt(board, into) * Math.min(1, sheet / SHEET) ** 2);
const DIN: Source = { title: 'DIN 4103-1 and DIN 18183-1', place: 'bracket loads, at second hand' };

export const partitionLoad = formula({
  name: 'partition-load',
  title: 'Load that hangs on a partition',
  topic: 'strength',
  about:
    'How much is used of what a partition of steel studs and plasterboard bears to the metre, by the thickness of its boards: 1 is all of it.',
  formula: 'u = q max(1, e/e₀) / (Q min(1, t/t₀)²)',
  inputs: {
    load: { dimension: 'line load', about: 'weight that hangs on the wall, by its length', symbol: 'q', min: 0 },
    reach: { dimension: 'length', about: 'wall to its centre of gravity', symbol: 'e', min: 0 },
    board: { dimension: 'length', about: 'boards on the side it hangs on, all layers', symbol: 'b', min: 0 },
    into: { choices: INTO, about: 'what all of it is screwed into', default: 'studs' },
    sheet: { dimension: 'length', about: 'thickness of the sheet of the studs', symbol: 't', above: 0, default: SHEET },
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: DIN,
  caution: OVERHEAD,
  assumes: [
    'a wall that is built as those standards have it, no higher than its studs allow; the more there is on it, the more it was proven for',
    'further out than e₀ by its moment, and in thinner studs by the square of their thickness: common practice',
  ],
  compute: ({ load, reach, board, into, sheet }) => ({
    value: shareOf(load, reach, board, into, sheet),
    also: [
      { symbol: 'Q', name: 'what a wall with so much board was proven for', value: loadAt(board, into), unit: 'N/m' },
      { symbol: 'e₀', name: 'so far out', value: REACH, unit: 'mm' },
      { symbol: 't₀', name: 'with studs of such sheet', value: SHEET, unit: 'mm' },
    ],
    limit: { value: 1, unit: '', why: 'all that such a wall was proven for' },
  }),
});

/** What hangs on a wall from one end of a piece to the other, mm from its left end: N, and mm out. */
interface Hanging {
  readonly id: string;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly middle: number;
  readonly weight: number;
  readonly reach: number;
  /** All that holds it lands in studs or timber. */
  readonly framed: boolean;
}

/** A stretch of wall with what hangs on it: N/m, its centre of gravity mm out. */
interface Stretch {
  readonly load: number;
  readonly reach: number;
  readonly into: Into;
  readonly on: readonly Hanging[];
}

/** What is told of a stretch, mm: a metre of it, less of what is narrower, but one stud carries at least. */
const METRE = 1000;
const USUAL_SPACING = 600;

/** Whether walls of steel studs bear what hangs on them: of each the stretch that is used most. */
export const partitionNotes = (input: WallInput): readonly Note[] =>
  input.plan.room.walls.flatMap(({ id, framing }): readonly Note[] => {
    if (framing?.kind !== 'steel stud') return [];
    const wall = input.room.walls.find((w) => w.id === id);
    const all = wall ? hangingOn(input, wall) : [];
    const board = framing.board ?? 0;
    const { design: sheet } = studThickness(milsOf(framing.mils));
    let worst: { readonly piece: Hanging; readonly stretch: Stretch; readonly use: number } | undefined;
    for (const piece of all)
      for (const stretch of stretches(piece, all, framing.spacing ?? USUAL_SPACING)) {
        const use = shareOf(stretch.load, stretch.reach, board, stretch.into, sheet);
        if (!worst || use > worst.use + 1e-9) worst = { piece, stretch, use };
      }
    if (!worst || !wall) return [];
    const { piece, stretch } = worst;
    const { load, reach, into } = stretch;
    const working = work(partitionLoad, { load, reach, board, into, sheet });
    return [noteOn(input, wall, piece, stretch, working)];
  });

/** All that hangs on a wall and is no panel flat against it, with what is known of its weight. */
const hangingOn = (input: WallInput, wall: PlacedWall): readonly Hanging[] =>
  subjectsOf(input).flatMap((subject): readonly Hanging[] => {
    const { placed, said } = subject;
    if (placed.wall?.id !== wall.id || isHungPanel(said) || !isHung(input, subject)) return [];
    const held = keptFixing(input, subject);
    const given = (symbol: string) => held?.working?.inputs.find((i) => i.symbol === symbol)?.value;
    const [mass, reach] = [given('m'), given('e')];
    if (typeof mass !== 'number' || typeof reach !== 'number') return [];
    const { min, max } = placed.outside;
    const from = placed.wall.from + min.x;
    return [
      {
        id: placed.id,
        title: titleOf(placed),
        from,
        to: from + max.x - min.x,
        middle: (lowest(placed) + highest(placed)) / 2,
        weight: mass * STANDARD_GRAVITY,
        reach,
        framed: held!.points.every(isHeld),
      },
    ];
  });

/** The stretches that a piece is looked at in, as they begin or end with what hangs there. */
function stretches(piece: Hanging, all: readonly Hanging[], spacing: number): readonly Stretch[] {
  const wide = Math.min(METRE, Math.max(spacing, piece.to - piece.from));
  return all
    .flatMap(({ from, to }) => [from, to - wide])
    .filter((from) => from < piece.to && from + wide > piece.from)
    .map((from): Stretch => {
      const shares = all.flatMap((on) => {
        const across = Math.min(on.to, from + wide) - Math.max(on.from, from);
        return across > 0 ? [{ on, weight: (on.weight * across) / (on.to - on.from) }] : [];
      });
      const weight = shares.reduce((sum, one) => sum + one.weight, 0);
      return {
        load: (weight * 1000) / wide,
        reach: shares.reduce((sum, one) => sum + one.weight * one.on.reach, 0) / weight,
        into: shares.every((one) => one.on.framed) ? 'studs' : 'board',
        on: shares.map((one) => one.on),
      };
    });
}

function noteOn(input: WallInput, wall: PlacedWall, piece: Hanging, { on, load }: Stretch, working: Working): Note {
  const inches = imperial(input);
  // a foot where the plan is in inches, and the boards and sheets that are sold there
  const said = inches
    ? { per: 'foot', of: 0.3048, reach: '12"', some: '3/4"', more: '1"', sheet: '24 mil' }
    : { per: 'metre', of: 1, reach: '300 mm', some: '18 mm', more: '25 mm', sheet: '0.6 mm' };
  const hangs = (perMetre: number) => saying(input).mass((perMetre * said.of) / STANDARD_GRAVITY);
  const use = working.result.value;
  const others = on.filter(({ id }) => id !== piece.id).map(({ title }) => title);
  const who = [piece.title, ...others].slice(0, 3).join(', ');
  const base = {
    id: `partition:${wall.id}`,
    about: piece.id,
    at: pointOnWall(wall, (piece.from + piece.to) / 2, piece.middle),
    working,
  };
  const what = `${hangs(load)} to the ${said.per} at ${who}, ${usedWords(use)} of what such a wall bears`;
  const [most, more, any] = BEARS.map((row) => hangs(row.load));
  const table = `A wall of steel studs is proven for ${any} to the ${said.per} up to ${said.reach} out, for ${more} with ${said.some} of board on it and for ${most} with ${said.more} where it is screwed into the studs (DIN 4103-1, DIN 18183-1), for less in studs of sheet under ${said.sheet}.`;
  if (use > 1)
    return {
      ...base,
      verdict: 'caution',
      title: `The steel studs of the ${wallCalled(wall.id)} may not bear what hangs there: ${what}`,
      advice: `${table} Hang up less, spread it along the wall, stand it on something, or ask who knows how the wall is built: stronger studs, or a frame from floor to ceiling, bear more.`,
    };
  return {
    ...base,
    verdict: 'fine',
    title: `The steel studs of the ${wallCalled(wall.id)} bear what hangs there: ${what}`,
    advice: `${table} Not checked: what holds the wall at floor and ceiling, how high it is, and whether it is built like that.`,
  };
}
