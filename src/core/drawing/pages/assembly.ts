import { type AssemblyStep, assembliesOf, type PieceAssembly, repeatsOf } from '../../assembly/index.ts';
import { grouped } from '../../grouped.ts';
import { type Part, type PartId, type PlacedPiece, stickingOf } from '../../scene/index.ts';
import { type Area, area, below, LETTER, line, right, text } from '../draw.ts';
import { fitText, textWidth, wrapText } from '../font/measure.ts';
import { standing, type Way } from '../layout/standing.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import { pictureMarks } from './assembly-picture.ts';
import { capital, markOfSpacer, wordsOf } from './assembly-words.ts';
import { type Desk, numberRuns } from './desk.ts';
import { pagesOf, wordsOf as proseOf, tableOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';
import { cuttingOf, type SpacerPair } from './spacers.ts';

const CELL = { width: 76, height: 78, gap: 5 } as const;

/** Pages once drawn, for as long as nothing they show has changed. */
const drawn = new WeakMap<
  readonly PlacedPiece[],
  { readonly units: unknown; readonly paper: string; readonly pages: readonly Draft[] }
>();

/** How each case, drawer and floating shelf is put together: a picture and a few words for each step; what repeats is told once. */
export function assemblyPages(desk: Desk): readonly Draft[] {
  const { pieces, plan } = desk.input;
  const known = drawn.get(pieces);
  const pages =
    known && known.units === plan.units && known.paper === desk.paper
      ? known.pages
      : assembliesOf(desk.input).flatMap((assembly) => piecePages(desk, assembly));
  drawn.set(pieces, { units: plan.units, paper: desk.paper, pages });
  return [...overviewPages(desk, assembliesOf(desk.input)), ...pages];
}

/** All pieces side by side: what is measured and what is not, the spacers to cut first and from which offcut, what two people do. */
function overviewPages(desk: Desk, all: readonly PieceAssembly[]): readonly Draft[] {
  if (all.length === 0) return [];
  const { body } = desk.sheet;
  const { letter } = desk;
  const titles = ({ piece, alike }: PieceAssembly): string => [piece, ...alike].map((p) => p.title).join(', ');
  const times = ({ alike }: PieceAssembly): number => alike.length + 1;
  const avoided = all.reduce((sum, a) => sum + times(a) * a.plan.measurementsAvoided, 0);
  const marks = all.reduce((sum, a) => sum + times(a) * a.plan.marks, 0);
  const { spacers, layouts } = cuttingOf(desk);
  const shims = [
    ...grouped(
      all.flatMap((a) => a.plan.spacers.filter((s) => s.from === 'shim')),
      (s) => letter.length(s.distance),
    ).keys(),
  ];
  const helped = all.flatMap((a) =>
    a.plan.steps.flatMap((step) => (step.helper ? [{ of: titles(a), step, helper: step.helper }] : [])),
  );
  const half = (body.width - 8) / 2;
  return pagesOf(
    desk,
    { id: 'assembly', chapter: 'Assembly', title: 'Putting it together', marks: [] },
    [area(body.x, body.y, half, body.height), area(body.x + half + 8, body.y, half, body.height)],
    [
      tableOf<PieceAssembly>(
        'Piece by piece',
        [
          { head: 'piece', cell: titles, share: 1 },
          { head: 'steps', cell: (a) => `${a.plan.steps.length}`, align: 'right' },
          { head: 'by gauge', cell: (a) => `${a.plan.measurementsAvoided}`, align: 'right', bold: true },
          { head: 'marked', cell: (a) => `${a.plan.marks}`, align: 'right' },
          { head: 'clamps', cell: (a) => `${Math.max(0, ...a.plan.steps.map((s) => s.clamps))}`, align: 'right' },
          {
            head: 'for two',
            cell: (a) => numberRuns(a.plan.steps.filter((s) => s.helper).map((s) => s.number)) || 'none',
            align: 'right',
          },
        ],
        all,
      ),
      proseOf('What is not measured', [
        `${avoided} ${avoided === 1 ? 'distance is' : 'distances are'} set by a part or a spacer instead of a mark; ${marks === 0 ? 'none is' : `${marks} ${marks === 1 ? 'is' : 'are'}`} measured and marked.${shims.length > 0 ? ` Have packing of ${shims.join(' and ')} at hand: card, laminate or veneer in layers.` : ''}`,
      ]),
      tableOf<SpacerPair>(
        'Spacers to cut first, two of each',
        [
          { head: 'mark', cell: (s) => s.mark, bold: true },
          { head: 'long', cell: (s) => letter.length(s.distance), align: 'right', bold: true },
          {
            head: 'for steps',
            cell: (s) => s.uses.map(({ of, steps }) => `${of.piece.title} ${numberRuns(steps)}`).join('; '),
            share: 1,
          },
          {
            head: 'cut with',
            cell: ({ layout }) =>
              layout === undefined ? 'any scrap' : `${layouts[layout]!.name}, layout ${layout + 1}`,
          },
        ],
        spacers,
      ),
      tableOf<(typeof helped)[number]>(
        'For the day a second person is there',
        [
          { head: 'piece', cell: (h) => h.of, share: 1 },
          { head: 'step', cell: (h) => `${h.step.number}`, align: 'right' },
          {
            head: 'why',
            cell: ({ helper }) =>
              helper.why === 'length'
                ? 'long, nothing carries it'
                : `${helper.why === 'turning' ? 'turning ' : ''}${letter.mass(helper.mass ?? 0)}`,
          },
        ],
        helped,
      ),
      proseOf('Before you begin', [
        'Stick each label on the side of the part that it names: its arrow points to the top of the piece, on what lies flat to the front. All sides of a part follow from that. Check each part against its label.',
        'Where a part is set back from a side of another, hold a straight block to that side and the gauge between block and part.',
        'Lay out glue, clamps, spacers and packing; glue gives about ten minutes.',
        'The large panels are broken down on the day a second person is there. What two people do above belongs on the same day.',
        'Brads hold only until the glue has dried and count for nothing after. Wear eye and hearing protection; keep hands out of a brad’s line; sand and cut with the dust drawn off.',
      ]),
    ],
  );
}

function piecePages(desk: Desk, assembly: PieceAssembly): readonly Draft[] {
  const { piece, plan, alike } = assembly;
  const { body } = desk.sheet;
  const columns = Math.max(1, Math.floor((body.width + CELL.gap) / (CELL.width + CELL.gap)));
  const rows = Math.max(1, Math.floor((body.height + CELL.gap) / (CELL.height + CELL.gap)));
  const [wide, high] = [(body.width + CELL.gap) / columns - CELL.gap, (body.height + CELL.gap) / rows - CELL.gap];
  const roleOf = (id: PartId): string => desk.numbered().partOf.get(id)?.part.role ?? '';
  const repeats = repeatsOf(plan, roleOf);
  const again = new Set([...repeats.values()].flat());
  const told = atOnce(
    squaredOnce(plan.steps.filter((s) => s.builds === undefined || !again.has(s.builds))),
    (id) => desk.numbered().partOf.get(id)!.part,
  );
  const words = summaryLines(desk, assembly);
  const tall = 2 * LEADING + summaryHeight(piece, words, wide) > high && rows > 1;
  // all of one size: where one of them has no room in its line, all are written smaller
  const heads = told.map((steps) => headOf(desk, steps));
  const height = heads.every((head) => textWidth(head, LETTER.head, true) <= wide) ? LETTER.head : LETTER.small;
  const cells: ((at: Area) => readonly Mark[])[] = told.map(
    (steps, k) => (at: Area) => stepMarks(desk, assembly, steps, repeats, { words: heads[k]!, height }, at),
  );
  cells.unshift((at) => summary(piece, words, at));
  // a long summary takes the cell under it as well
  if (tall) cells.splice(columns, 0, () => []);
  const perPage = columns * rows;
  const count = Math.ceil(cells.length / perPage);
  const names = [piece, ...alike].map((p) => p.title).join(', ');
  return Array.from({ length: count }, (_, i): Draft => {
    const marks = cells
      .slice(i * perPage, (i + 1) * perPage)
      .flatMap((draw, k) =>
        draw(
          area(
            body.x + (k % columns) * (wide + CELL.gap),
            body.y + Math.floor(k / columns) * (high + CELL.gap),
            wide,
            high,
          ),
        ),
      );
    return {
      id: count === 1 ? `assembly-${piece.id}` : `assembly-${piece.id}-${i + 1}`,
      chapter: 'Assembly',
      title: `${names}: assembly${count === 1 ? '' : `, ${i + 1} of ${count}`}`,
      marks,
    };
  });
}

/** What has been made square stays so: the same diagonals are not told a second time. */
const squaredOnce = (steps: readonly AssemblyStep[]): readonly AssemblyStep[] =>
  steps.map((step, i) => {
    const { diagonal, ...rest } = step;
    const before = steps.slice(0, i).findLast((s) => s.builds === step.builds && s.diagonal !== undefined);
    return diagonal !== undefined && before?.diagonal === diagonal ? rest : step;
  });

/** Steps in a row that put in equal parts in the same way, one after another: one picture and one set of words for all of them. */
export function atOnce(steps: readonly AssemblyStep[], partOf: (id: PartId) => Part): readonly Told[] {
  const manner = (step: AssemblyStep): string =>
    JSON.stringify([
      step.adds.map(partOf).map((part) => [part.role, part.size, stickingOf(part)]),
      [step.asOne, step.builds, step.moves, step.down, step.before, step.wait, step.clamps, step.helper],
      step.set.map(({ along, by, against, gauge }) => [
        [along, by, against],
        gauge && [gauge.distance, gauge.from, gauge.manner, gauge.between[0], gauge.parts],
      ]),
      step.fasteners.map(({ kind, count, from, manner: way, through }) => [
        [kind, count, from, way],
        step.adds.includes(through) ? 'the new part' : through,
      ]),
      [step.glue.length, step.clamped.length, step.prefinish.length],
    ]);
  const runs: [AssemblyStep, ...AssemblyStep[]][] = [];
  for (const step of steps) {
    const last = runs.at(-1);
    const follows = last && step.number === last.at(-1)!.number + 1 && !step.turned && step.present.length > 0;
    if (follows && manner(last[0]) === manner(step)) last.push(step);
    else runs.push([step]);
  }
  return runs;
}

/** What is needed at hand, and what was saved. */
function summaryLines(desk: Desk, { piece, plan, alike }: PieceAssembly): readonly string[] {
  const { letter } = desk;
  const numbers = (ids: readonly number[]) => numberRuns([...new Set(ids)]);
  const helpers = plan.steps.filter((s) => s.helper);
  const clamps = Math.max(0, ...plan.steps.map((s) => s.clamps));
  const finish = plan.steps.flatMap((s) => s.prefinish.map((id) => desk.numbered().numberOf.get(id)!));
  return [
    alike.length > 0 ? `Built ${alike.length + 1} times: ${[piece, ...alike].map((p) => p.title).join(', ')}.` : '',
    'Numbers are those of the labels. The new part is hatched and drawn out the way it comes. Sides are those of the piece as it will stand; the little arrows show its top and front. A small label with an arrow shows where the part has its own.',
    plan.measurementsAvoided > 0
      ? `${plan.measurementsAvoided} ${plan.measurementsAvoided === 1 ? 'distance is' : 'distances are'} set by gauges: nothing is measured for ${plan.measurementsAvoided === 1 ? 'it' : 'them'}.`
      : 'Joints, faces and the bench set every part: nothing is measured.',
    plan.marks > 0 ? `${plan.marks} must be measured and marked.` : '',
    ...[...grouped(plan.spacers, (s) => `${s.from} ${letter.length(s.distance)}`).values()].map((list) => {
      const steps = numbers(list.flatMap((s) => s.steps));
      const where = /^\d+$/.test(steps) ? `step ${steps}` : `steps ${steps}`;
      const long = letter.length(list[0]!.distance);
      return list[0]!.from === 'shim'
        ? `Pack ${long}: card, laminate or veneer (${where}).`
        : `Spacers ${markOfSpacer(desk, list[0]!.distance)}, two ${long} long (${where}).`;
    }),
    clamps > 0 ? `Clamps: ${clamps} at once.` : '',
    finish.length > 0 ? `Finish before they go in: ${numbers(finish)}.` : '',
    helpers.length > 0 ? `Two people: steps ${numbers(helpers.map((s) => s.number))}.` : 'One person does all of it.',
    'Brads hold only until the glue has dried. Wear eye and hearing protection; keep hands out of a brad’s line.',
    plan.proven
      ? 'Proven: no other order of straight moves is better by our weights.'
      : 'The best order found, not proven.',
    ...plan.warnings.map((w) => `${w[0]!.toUpperCase()}${w.slice(1)}.`),
  ].filter((l) => l !== '');
}
const PARAGRAPH = 1.2;
const titleOf = (piece: PlacedPiece, width: number) => standing(piece.title, TITLE, width, true);
const TITLE: readonly Way[] = [
  { height: LETTER.title, lines: 1 },
  { height: LETTER.head, lines: 2 },
  { height: LETTER.small, lines: 4 },
];
const titleHeight = ({ height, lines }: ReturnType<typeof titleOf>): number =>
  LEADING + 3 + (lines.length - 1) * 1.5 * height;
const summaryHeight = (piece: PlacedPiece, lines: readonly string[], width: number): number =>
  lines.reduce(
    (sum, l) => sum + wrapText(l, LETTER.small, width).length * LEADING + PARAGRAPH,
    titleHeight(titleOf(piece, width)),
  );

function summary(piece: PlacedPiece, lines: readonly string[], at: Area): readonly Mark[] {
  const title = titleOf(piece, at.width);
  let y = at.y + LEADING;
  const marks: Mark[] = title.lines.map((words, i) =>
    text(at.x, y + 1 + i * 1.5 * title.height, words, { height: title.height, bold: true }),
  );
  y += titleHeight(title);
  for (const words of lines) {
    for (const l of wrapText(words, LETTER.small, at.width)) {
      marks.push(text(at.x, y, l));
      y += LEADING;
    }
    y += PARAGRAPH;
  }
  return marks;
}

type Told = readonly [AssemblyStep, ...AssemblyStep[]];
const asOneOf = ([first, ...more]: Told): AssemblyStep =>
  more.length === 0 ? first : { ...first, adds: [first, ...more].flatMap((s) => s.adds) };

function headOf(desk: Desk, steps: Told): string {
  const step = asOneOf(steps);
  const { label, role } = desk.numbered().partOf.get(step.adds[0]!)!.part;
  const numbers = numberRuns(step.adds.map((id) => desk.numbered().numberOf.get(id)!));
  const what =
    step.asOne !== undefined
      ? capital(step.asOne)
      : steps.length > 1
        ? `Parts ${numbers}: ${steps.length} × ${role}`
        : `Part ${numbers}: ${label.name}`;
  return `${numberRuns(steps.map((s) => s.number))}  ${what}`;
}

function stepMarks(
  desk: Desk,
  { piece }: PieceAssembly,
  steps: Told,
  repeats: ReadonlyMap<string, readonly string[]>,
  head: Head,
  at: Area,
): readonly Mark[] {
  const [first] = steps;
  const step = asOneOf(steps);
  const others = step.builds === undefined ? [] : (repeats.get(step.builds) ?? []);
  const lines = [
    ...(others.length > 0 && step.present.length === 0 ? [`Also ${others.join(', ')}: the same.`] : []),
    ...(steps.length > 1 ? ['One after another, each in the same way.'] : []),
    ...wordsOf(desk, first),
  ];
  const wrapped = wrapText(lines.join(' '), LETTER.small, at.width);
  const most = Math.floor((at.height - 34) / LEADING);
  const shown =
    wrapped.length <= most
      ? wrapped
      : [...wrapped.slice(0, most - 1), fitText(`${wrapped[most - 1]!} …`, LETTER.small, at.width)];
  const textHigh = shown.length * LEADING + 1;
  const picture = area(at.x, at.y + 7, at.width, at.height - 7 - textHigh - 1.5);
  return [
    line(at.x, at.y + 5.6, right(at), at.y + 5.6, 'thin'),
    ...headMarks(head, at),
    ...pictureMarks(desk, piece, step, picture),
    ...shown.map((l, i) => text(at.x, below(at) - textHigh + LEADING * (i + 1) - 1, l)),
  ];
}

interface Head {
  readonly words: string;
  readonly height: number;
}
/** The name of a part is not cut off while it has room in two lines. */
function headMarks({ words: head, height }: Head, at: Area): readonly Mark[] {
  if (height > LETTER.small) return [text(at.x, at.y + 4.4, head, { height, bold: true })];
  const lines = wrapText(head, LETTER.small, at.width, true);
  const shown =
    lines.length <= 2 ? lines : [lines[0]!, fitText(lines.slice(1).join(' '), LETTER.small, at.width, true)];
  return shown.map((words, k) => text(at.x, at.y + 4.6 - 3.8 * (shown.length - 1 - k), words, { bold: true }));
}
