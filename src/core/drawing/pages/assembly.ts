import {
  type AssemblyStep,
  assembliesOf,
  type Fasten,
  type Gauge,
  type PieceAssembly,
  repeatsOf,
  type SetBy,
} from '../../assembly/index.ts';
import { WAITING } from '../../finish/index.ts';
import { add, type Box, centre, cornersOf, enclose, move, scale, side, type Vec3 } from '../../geometry/index.ts';
import { grouped } from '../../grouped.ts';
import { fromTicks } from '../../quantity/index.ts';
import {
  AXIS_OF,
  type ByLabel,
  type Direction,
  type Joint,
  longestScrew,
  OPPOSITE,
  type Part,
  type PartId,
  type PlacedPiece,
  sideByLabel,
  stickingOf,
} from '../../scene/index.ts';
import {
  type Area,
  area,
  below,
  extentOf,
  LETTER,
  line,
  moved,
  point,
  polygon,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { fitText, textWidth, wrapText } from '../font/measure.ts';
import { type InTurn, placeInTurn, placesIn } from '../layout/place.ts';
import { crosses } from '../layout/squares.ts';
import { LEADING } from '../layout/table.ts';
import { tag } from '../layout/words-in.ts';
import type { Mark } from '../marks.ts';
import {
  isSeen,
  longest,
  type P2,
  project,
  type Standing,
  type Stroke,
  strokesOf,
  type Thing,
  turner,
} from '../view/isometric.ts';
import { boxesOf } from '../view/project.ts';
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
  const tall = 2 * LEADING + summaryHeight(words, wide) > high && rows > 1;
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

/** What the spacers of a length are called on the layout they are cut from. */
const markOfSpacer = (desk: Desk, distance: number): string =>
  cuttingOf(desk).spacers.find((s) => desk.letter.length(s.distance) === desk.letter.length(distance))!.mark;

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
const summaryHeight = (lines: readonly string[], width: number): number =>
  lines.reduce((sum, l) => sum + wrapText(l, LETTER.small, width).length * LEADING + PARAGRAPH, LEADING + 3);

function summary(piece: PlacedPiece, lines: readonly string[], at: Area): readonly Mark[] {
  let y = at.y + LEADING;
  const marks: Mark[] = [
    text(at.x, y + 1, fitText(piece.title, LETTER.title, at.width, true), { height: LETTER.title, bold: true }),
  ];
  y += LEADING + 3;
  for (const words of lines) {
    for (const l of wrapText(words, LETTER.small, at.width)) {
      marks.push(text(at.x, y, l));
      y += LEADING;
    }
    y += PARAGRAPH;
  }
  return marks;
}

const LIES: Readonly<Record<Direction, string>> = {
  front: 'its front down',
  back: 'on its back',
  left: 'on its left side',
  right: 'on its right side',
  down: 'upright',
  up: 'upside down',
};
const SIDE: Readonly<Record<Direction, string>> = {
  left: 'the left',
  right: 'the right',
  up: 'the top',
  down: 'the underside',
  front: 'the front',
  back: 'the back',
};
/** The side of a part that looks that way, as one finds it on the part. */
const FOUND: Readonly<Record<ByLabel, string>> = {
  face: 'label down',
  behind: 'label up',
  arrow: 'the one the arrow of its label points to',
  foot: 'the one the arrow of its label points away from',
  left: 'the one to the left of its label as you read it',
  right: 'the one to the right of its label as you read it',
};
const EDGE: Readonly<Record<Direction, string>> = {
  left: 'left',
  right: 'right',
  up: 'top',
  down: 'bottom',
  front: 'front',
  back: 'back',
};

/** How the first part is laid on the bench. It has no top and front of its own that a stranger could see: its label has. */
export function layingWords(part: Part, down: Direction): string {
  const side = sideByLabel(part, down);
  if (side === 'face' || side === 'behind') return `Lay it flat, ${FOUND[side]}: the piece’s ${EDGE[down]} is down.`;
  const end = AXIS_OF[down] === part.axes.length ? 'end' : 'edge';
  const band = part.edges.some(({ towards }) => towards === down) ? `, banded` : '';
  return `Stand it on its ${EDGE[down]} ${end}, ${FOUND[side]}${band}.`;
}

/** Which way a part looks when it comes in: `label to the left, arrow up`. */
export function labelWords(desk: Desk, step: AssemblyStep): string {
  const { face, arrow } = stickingOf(desk.numbered().partOf.get(step.adds[0]!)!.part);
  const whose = step.asOne === undefined ? 'label' : `label of ${desk.numbered().numberOf.get(step.adds[0]!)}`;
  return `${whose} to ${face === 'down' ? 'the bottom' : SIDE[face]}, arrow to ${SIDE[arrow]}`;
}

const LINE: Readonly<Record<string, string>> = { right: 'sideways', up: 'in height', front: 'in depth' };

/** The words of a step, one sentence or two for each thing to do. Sides are those of the piece as it will stand. */
export function wordsOf(desk: Desk, step: AssemblyStep): readonly string[] {
  const { letter } = desk;
  const n = (id: PartId): string => `${desk.numbered().numberOf.get(id) ?? '?'}`;
  const list = (ids: readonly PartId[]): string =>
    numberRuns([...new Set(ids)].map((id) => desk.numbered().numberOf.get(id)!));
  const lines: string[] = [];
  if (step.present.length === 0) lines.push(layingWords(desk.numbered().partOf.get(step.adds[0]!)!.part, step.down));
  else {
    if (step.turned) lines.push(`First turn the work: ${LIES[step.down]}.`);
    lines.push(`Bring it in from the piece’s ${EDGE[OPPOSITE[step.moves!]]}, ${labelWords(desk, step)}.`);
  }
  const by = (what: SetBy['by']) => step.set.filter((s) => s.by === what);
  const against = (what: SetBy['by']) => list(by(what).flatMap((s) => (s.against ? [s.against] : [])));
  const sets = [
    ...jointWords(desk, step, by('joint'), list),
    by('surface').length > 0 && `against ${against('surface')}`,
    by('flush').length > 0 && evenWords(desk, step, by('flush'), list),
    by('bench').length > 0 && 'down to the bench',
    by('pins').length > 0 && 'on its pins',
    by('slides').length > 0 && 'on its slides',
  ].filter(Boolean);
  if (sets.length > 0) lines.push(`${capital(sets.join(', '))}.`);
  for (const { gauge, along } of step.set) {
    if (!gauge) continue;
    const distance = letter.length(gauge.distance);
    const from = gauge.manner === 'set back' ? setBackWords(desk, gauge) : `from ${n(gauge.between[0])}`;
    const what =
      gauge.from === 'parts'
        ? gauge.parts.map((g) => `part ${n(g.part)} by its ${g.by}`).join(' and ')
        : gauge.from === 'shim'
          ? 'packing'
          : `spacers ${markOfSpacer(desk, gauge.distance)}`;
    lines.push(`Gauge ${LINE[along]!}: ${what}, ${distance} ${from}.`);
  }
  for (const { by: how, along } of step.set) if (how === 'mark') lines.push(`Measure and mark it ${LINE[along]!}.`);
  lines.push(...hardwareWords(desk, step, list));
  if (step.glue.length > 0) lines.push('Glue.');
  if (step.fasteners.some((f) => fromWithinDrawer(desk, step, f)))
    lines.push('Hold it there with tape or clamps and draw the drawer out.');
  const groups = new Map<string, { count: number; text: string }>();
  for (const f of step.fasteners) {
    const how = f.manner === 'straight' ? '' : f.manner === 'pocket' ? ' in pockets' : ' at an angle';
    const longest = longestBehind(desk, step, f);
    const most = longest === undefined ? '' : `, none longer than ${letter.length(longest)}`;
    const words = `${f.kind}${how} through ${n(f.through)} from ${SIDE[f.from]}${most}`;
    const there = groups.get(words);
    groups.set(words, { text: words, count: (there?.count ?? 0) + f.count });
  }
  for (const { count, text: words } of groups.values()) lines.push(`${count} ${words}.`);
  if (step.clamped.length > 0) lines.push('No tool reaches the rest: clamp it until the glue holds.');
  if (step.clamps > 0) lines.push(`${step.clamps} ${step.clamps === 1 ? 'clamp' : 'clamps'}.`);
  if (step.diagonal !== undefined) lines.push(`Square: diagonals equal, ${letter.length(step.diagonal)}.`);
  if (step.wait) {
    const { from, to } = WAITING['PVA glue, in clamps'];
    lines.push(`Leave it ${from}–${to} h in clamps; the bottle governs.`);
  }
  if (step.helper)
    lines.push(
      step.helper.why === 'mass'
        ? `Two people: it weighs ${letter.mass(step.helper.mass ?? 0)}.`
        : step.helper.why === 'turning'
          ? `Two people to turn it: ${letter.mass(step.helper.mass ?? 0)}.`
          : 'Two people: long, and nothing carries it.',
    );
  if (step.before) lines.push(`It goes in before ${n(step.before)}, which would shut it out.`);
  return lines;
}
const TOWARDS = [
  ['left', 'right'],
  ['down', 'up'],
  ['back', 'front'],
] as const;
/** What a part is set back from: the side of the other that looks the way the gauge stands off the new part. */
export function setBackWords(desk: Desk, { axis, cell, between }: Gauge): string {
  const [other, own] = between.map((id) => desk.numbered().partOf.get(id)!.part) as [Part, Part];
  const along = (['x', 'y', 'z'] as const)[axis]!;
  const middle = (own.solid.box.min[along] + own.solid.box.max[along]) / 2;
  const way = TOWARDS[axis]![fromTicks(cell[axis * 2]!) > middle ? 1 : 0];
  const { min, max } = gaugeSides(cell, axis);
  const reached = UNIT[way][along] > 0 ? max : min;
  const meets = ({ min: low, max: high }: Box): boolean =>
    [low, high].some((p) => Math.abs(p[along] - reached) < SAME_PLACE);
  const number = desk.numbered().numberOf.get(other.id);
  // not its outermost: what is cut out of it ends there
  const cut = meets(other.solid.box) ? undefined : other.solid.taken.find(({ box }) => meets(box));
  if (cut) return `set back from the ${EDGE[OPPOSITE[way]]} edge of the ${cut.kind} in ${number}`;
  const side = { [other.axes.thickness]: 'face', [other.axes.length]: 'end', [other.axes.width]: 'edge' }[along]!;
  return `set back from the ${EDGE[way]} ${side} of ${number}`;
}
const gaugeSides = (cell: Gauge['cell'], axis: number) => ({
  min: fromTicks(cell[axis * 2]!),
  max: fromTicks(cell[axis * 2 + 1]!),
});
/** mm: places that are the same but for rounding. */
const SAME_PLACE = 0.01;

/** A front that is screwed from inside its drawer: with the drawer shut nobody gets there. */
const fromWithinDrawer = (desk: Desk, step: AssemblyStep, { kind, into, through }: Fasten): boolean =>
  kind === 'screws' &&
  step.adds.includes(into) &&
  desk.numbered().partOf.get(into)?.part.role === 'drawer front' &&
  desk.numbered().partOf.get(through)?.part.role === 'drawer box front';

/** Screws that come from behind into the flat of the new part may not come out of its face. */
function longestBehind(
  desk: Desk,
  step: AssemblyStep,
  { kind, manner, into, through, from }: Fasten,
): number | undefined {
  const [front, behind] = [desk.numbered().partOf.get(into)?.part, desk.numbered().partOf.get(through)?.part];
  if (kind !== 'screws' || manner !== 'straight' || !front || !behind || !step.adds.includes(into)) return undefined;
  return longestScrew(behind, front, AXIS_OF[from]);
}

/** Which of the two is let into the other: the new part, or what is there already into a groove or a rabbet of the new one. */
function jointWords(
  desk: Desk,
  step: AssemblyStep,
  joined: readonly SetBy[],
  list: (ids: readonly PartId[]) => string,
): readonly string[] {
  const joints = step.adds.flatMap((id) => desk.numbered().partOf.get(id)?.piece.joints ?? []);
  const met = [...new Set(joined.flatMap((s) => (s.against ? [s.against] : [])))];
  const cut = (kinds: readonly Joint['kind'][]): readonly PartId[] =>
    met.filter((id) => joints.some((j) => kinds.includes(j.kind) && j.a === id && step.adds.includes(j.b)));
  const [grooves, rabbets] = [cut(['dado', 'groove']), cut(['rabbet'])];
  const into = met.filter((id) => !grooves.includes(id) && !rabbets.includes(id));
  return [
    ...(into.length > 0 ? [`let into ${list(into)}`] : []),
    ...(grooves.length > 0 ? [`its ${grooves.length > 1 ? 'grooves' : 'groove'} over ${list(grooves)}`] : []),
    ...(rabbets.length > 0 ? [`its ${rabbets.length > 1 ? 'rabbets' : 'rabbet'} over ${list(rabbets)}`] : []),
  ];
}
/** What the new part is even with: the outside of another, or the edge of what is cut out of it. */
function evenWords(
  desk: Desk,
  step: AssemblyStep,
  flush: readonly SetBy[],
  list: (ids: readonly PartId[]) => string,
): string {
  const own = step.adds.map((id) => desk.numbered().partOf.get(id)!.part.solid.box);
  const meets = ({ along }: SetBy, box: Box): boolean =>
    own.some((o) =>
      [o.min, o.max].some((p) => [box.min, box.max].some((q) => p[AXIS_OF[along]] === q[AXIS_OF[along]])),
    );
  const ids = (at: readonly SetBy[]): readonly PartId[] => at.flatMap((s) => (s.against ? [s.against] : []));
  const cut = flush.filter((s) => {
    if (s.against === undefined) return false;
    const { box, taken } = desk.numbered().partOf.get(s.against)!.part.solid;
    return !meets(s, box) && taken.some((t) => meets(s, t.box));
  });
  const plain = flush.filter((s) => !cut.includes(s));
  return [
    ...(plain.length > 0 ? [`even with ${list(ids(plain))}`] : []),
    ...(cut.length > 0 ? [`its face even with the edge of the notch in ${list(ids(cut))}`] : []),
  ].join(', ');
}
/** Hinges, slides and pins that come with this step: what is screwed or put in beforehand, and where. */
function hardwareWords(desk: Desk, step: AssemblyStep, list: (ids: readonly PartId[]) => string): readonly string[] {
  const adds = new Set(step.adds);
  const there = new Set(step.present);
  const piece = desk.numbered().partOf.get(step.adds[0]!)?.piece;
  const met = (kind: string): { readonly mine: PartId[]; readonly other: PartId[] } => {
    const joints = (piece?.joints ?? []).filter(
      (j) => j.kind === kind && ((adds.has(j.a) && there.has(j.b)) || (adds.has(j.b) && there.has(j.a))),
    );
    return {
      mine: joints.map((j) => (adds.has(j.a) ? j.a : j.b)),
      other: joints.map((j) => (adds.has(j.a) ? j.b : j.a)),
    };
  };
  const [hung, slid, pinned] = [met('hung'), met('slid'), met('pinned')];
  return [
    ...(hung.other.length > 0 ? [`Hinges: cups in ${list(hung.mine)}, plates on ${list(hung.other)}.`] : []),
    ...(slid.other.length > 0
      ? [`Slides: one half of each on ${list(slid.mine)}, the other level on ${list(slid.other)}, before it goes in.`]
      : []),
    ...(pinned.other.length > 0 ? [`Pins first, four, all at one height in ${list(pinned.other)}.`] : []),
  ];
}
const capital = (words: string): string => words.replace(/^./, (c) => c.toUpperCase());

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

const UNIT: Readonly<Record<Direction, Vec3>> = {
  right: { x: 1, y: 0, z: 0 },
  left: { x: -1, y: 0, z: 0 },
  up: { x: 0, y: 1, z: 0 },
  down: { x: 0, y: -1, z: 0 },
  front: { x: 0, y: 0, z: 1 },
  back: { x: 0, y: 0, z: -1 },
};
const AROUND: readonly Direction[] = ['front', 'right', 'left', 'back', 'up', 'down'];

/** The step as it lies on the bench, from the side that shows most of what is new; the new part drawn out along its way. */
function pictureMarks(desk: Desk, piece: PlacedPiece, step: AssemblyStep, at: Area): readonly Mark[] {
  const parts = new Map(piece.parts.map((p) => [p.id, p]));
  const boxes = (id: PartId): readonly Box[] => boxesOf(parts.get(id)!.solid);
  const fresh = enclose(step.adds.map((id) => parts.get(id)!.solid.box));
  const stands = step.present.map((id) => parts.get(id)!.solid.box);
  const out = step.moves && stands.length > 0 ? drawnOut(fresh, enclose(stands), step.moves) : 0;
  const away: Vec3 = step.moves ? scale(UNIT[OPPOSITE[step.moves]], out) : { x: 0, y: 0, z: 0 };
  const there: Thing[] = step.present.map((id) => ({ id, boxes: boxes(id) }));
  const gauges: Thing[] = step.set.flatMap(({ gauge }, i) =>
    gauge ? [{ id: `gauge ${i}`, boxes: [boxOfCell(gauge.cell)] }] : [],
  );
  const added: Thing[] = step.adds.map((id) => ({ id, boxes: boxes(id), away }));
  const everything = [...there, ...gauges, ...added];
  const isNew = new Set(added.map((t) => t.id));
  const coarse = Math.max(20, longest(fresh) / 10);
  let best: { standing: Standing; score: number } | undefined;
  for (const front of AROUND) {
    if (front === step.down || front === OPPOSITE[step.down]) continue;
    const standing: Standing = { down: step.down, front };
    const seen = strokesOf(
      everything.map((t) => (isNew.has(t.id) ? { ...t, hatch: coarse } : t)),
      standing,
      'hatch',
    );
    const bare = seen.reduce((sum, s) => sum + length(s), 0);
    // the joint it goes to should be seen too: from the side it comes from
    const score = bare * (step.moves && turner(standing)(UNIT[OPPOSITE[step.moves]]).some((c) => c > 0.5) ? 1.15 : 1);
    if (!best || score > best.score * 1.0001) best = { standing, score };
  }
  const { standing } = best!;
  const turn = turner(standing);
  const corners = everything.flatMap(({ boxes: own, away: by }) =>
    own.flatMap((b) => cornersOf(by ? move(b, by) : b).map((p) => project(turn(p)))),
  );
  const [u0, u1] = [Math.min(...corners.map((c) => c[0])), Math.max(...corners.map((c) => c[0]))];
  const [v0, v1] = [Math.min(...corners.map((c) => c[1])), Math.max(...corners.map((c) => c[1]))];
  const margin = 4;
  const ratio = Math.max((u1 - u0) / (at.width - 2 * margin), (v1 - v0) / (at.height - 2 * margin));
  const onPaper = ([u, v]: P2) =>
    point(at.x + at.width / 2 + (u - (u0 + u1) / 2) / ratio, at.y + at.height / 2 + (v - (v0 + v1) / 2) / ratio);
  const strokes = strokesOf(
    [
      ...there,
      ...gauges.map((t) => ({ ...t, hatch: 0.9 * ratio, hatchOver: true })),
      ...added.map((t) => ({ ...t, hatch: 1.7 * ratio })),
    ],
    standing,
  );
  const marks = strokes.map((s): Mark => {
    const [a, b] = [onPaper(s.from), onPaper(s.to)];
    const pen = s.kind === 'hatch' ? 'thin' : isNew.has(s.id) ? 'outline' : 'visible';
    return line(
      a.x,
      a.y,
      b.x,
      b.y,
      pen,
      s.kind === 'edge' && !isNew.has(s.id) && !s.id.startsWith('gauge') ? 'ink' : undefined,
    );
  });
  if (step.moves && out > 0) {
    const middle = centre(fresh);
    const face = facing(fresh, step.moves, middle);
    const [tail, tip] = [
      onPaper(project(turn(add(middle, away)))),
      onPaper(project(turn(add(face, scale(away, 0.15))))),
    ];
    marks.push(...arrow(tail, tip));
  }
  const stuck = labelled(step).flatMap((id) => {
    const own = added.find((t) => t.id === id)!;
    const mark = labelMark(parts.get(id)!, own, everything, standing, ratio, onPaper);
    return mark ? [mark] : [];
  });
  marks.push(...stuck.flat());
  // which way is up in the finished piece, for a reader who has lost it
  const compass = upMark(turn, at, marks);
  const places = placesIn(at, [...textsOf(compass).map(textArea), ...stuck.map((m) => extentOf(m)!)]);
  const partners = [
    ...new Set(step.set.flatMap((s) => (s.against ? [s.against] : s.gauge ? [s.gauge.between[0]] : []))),
  ];
  const names: (readonly [string, string])[] = [
    ...labelled(step).map((id) => [id, `${desk.numbered().numberOf.get(id)}`] as const),
    ...gauges.map((g) => {
      const { gauge } = step.set[Number(g.id.slice(6))]!;
      const what =
        gauge!.from === 'parts'
          ? `gauge ${gauge!.parts.map((p) => desk.numbered().numberOf.get(p.part)).join('+')}`
          : gauge!.from === 'shim'
            ? 'packing'
            : markOfSpacer(desk, gauge!.distance);
      return [g.id, what] as const;
    }),
    ...partners.map((id) => [id, `${desk.numbered().numberOf.get(id)}`] as const),
  ];
  const told = names.flatMap(([id, words]) => {
    const on = anchor(strokes, id);
    return on ? [{ ...onPaper(on), words }] : [];
  });
  // no name stands where another points
  places.taken.push(...told.map(({ x, y }) => area(x - 0.8, y - 0.8, 1.6, 1.6)));
  const tags = told.map(
    ({ x, y, words }): InTurn =>
      (on) =>
        tag(on, area(x - 0.1, y - 0.1, 0.2, 0.2), words),
  );
  marks.push(...placeInTurn(places, tags).flat());
  marks.push(...compass);
  return marks;
}

/** How large a label is drawn, mm on paper; smaller on a narrow part, and not at all below the least. */
const LABEL_MARK = { length: 6, least: 2 } as const;
/** Off the middle, where the way it comes is drawn. */
const ALONG = [0.3, 0.7, 0.2, 0.8, 0.5] as const;

/** The part's label on the face it is stuck on, with its arrow, where all of it is seen. */
function labelMark(
  part: Part,
  own: Thing,
  all: readonly Thing[],
  standing: Standing,
  ratio: number,
  onPaper: (p: P2) => { readonly x: number; readonly y: number },
): readonly Mark[] | undefined {
  const { face, arrow: points } = stickingOf(part);
  const turn = turner(standing);
  if (!turn(UNIT[face]).some((c) => c > 0.5)) return undefined;
  const { box } = part.solid;
  const [out, along] = [AXIS_OF[face], AXIS_OF[points]];
  const across = (['x', 'y', 'z'] as const).find((a) => a !== out && a !== along)!;
  const most = Math.min(LABEL_MARK.length * ratio, 0.5 * side(box, along), 0.5 * side(box, across));
  if (most < LABEL_MARK.least * ratio) return undefined;
  const up = UNIT[points][along];
  const away = own.away ?? { x: 0, y: 0, z: 0 };
  const at = (a: number, b: number, u: number, v: number): Vec3 => ({
    ...add(away, {
      ...box.min,
      [out]: UNIT[face][out] > 0 ? box.max[out] : box.min[out],
      [along]: box.min[along] + side(box, along) * a + up * u * most,
      [across]: box.min[across] + side(box, across) * b + v * most,
    }),
  });
  for (const a of ALONG)
    for (const b of ALONG) {
      const inside = (share: number, size: number): boolean => most / 2 <= Math.min(share, 1 - share) * size;
      if (!inside(a, side(box, along)) || !inside(b, side(box, across))) continue;
      const corners = [at(a, b, 0.5, -0.5), at(a, b, 0.5, 0.5), at(a, b, -0.5, 0.5), at(a, b, -0.5, -0.5)];
      if (!isSeen(corners, all, standing)) continue;
      const paper = (list: readonly Vec3[]) =>
        list.map((p) => onPaper(project(turn(p)))).map(({ x, y }) => point(x, y));
      return [
        polygon(paper(corners), { pen: 'thin', fill: 'paper' }),
        polygon(paper([at(a, b, 0.36, 0), at(a, b, -0.3, 0.26), at(a, b, -0.3, -0.26)]), { fill: 'ink' }),
      ];
    }
  return undefined;
}

/** Of many parts that go in alike only the first and the last carry their number. */
const labelled = ({ adds, asOne }: AssemblyStep): readonly PartId[] =>
  asOne !== undefined ? adds.slice(0, 1) : adds.length > 6 ? [adds[0]!, adds.at(-1)!] : adds;

const length = (s: Stroke): number => Math.hypot(s.to[0] - s.from[0], s.to[1] - s.from[1]);
/** A place on what is seen of a thing: the middle of its longest hatch line, else of its longest edge. */
function anchor(strokes: readonly Stroke[], id: string): P2 | undefined {
  const own = strokes.filter((s) => s.id === id);
  const hatches = own.filter((s) => s.kind === 'hatch');
  const pick = (hatches.length > 0 ? hatches : own).reduce<Stroke | undefined>(
    (a, b) => (a && length(a) >= length(b) ? a : b),
    undefined,
  );
  return pick && [(pick.from[0] + pick.to[0]) / 2, (pick.from[1] + pick.to[1]) / 2];
}

/** How far the new part is drawn out: clear of the rest where that is not too far. */
function drawnOut(fresh: Box, rest: Box, moves: Direction): number {
  const axis = AXIS_OF[moves];
  const clear = UNIT[moves][axis] > 0 ? fresh.max[axis] - rest.min[axis] : rest.max[axis] - fresh.min[axis];
  const size = Math.max(longest(rest), longest(fresh));
  return Math.min(Math.max(clear, 0) + 0.14 * size + 30, 0.3 * size + 0.6 * side(fresh, axis) + 40);
}

function facing(b: Box, way: Direction, middle: Vec3): Vec3 {
  const axis = AXIS_OF[way];
  return { ...middle, [axis]: UNIT[way][axis] > 0 ? b.max[axis] : b.min[axis] };
}
const boxOfCell = (c: readonly number[]): Box => ({
  min: { x: fromTicks(c[0]!), y: fromTicks(c[2]!), z: fromTicks(c[4]!) },
  max: { x: fromTicks(c[1]!), y: fromTicks(c[3]!), z: fromTicks(c[5]!) },
});

function arrow(tail: { x: number; y: number }, tip: { x: number; y: number }): readonly Mark[] {
  const far = Math.hypot(tip.x - tail.x, tip.y - tail.y);
  if (far < 1) return [];
  const [dx, dy] = [(tip.x - tail.x) / far, (tip.y - tail.y) / far];
  const neck = point(tip.x - dx * 2.6, tip.y - dy * 2.6);
  return [
    line(tail.x, tail.y, neck.x, neck.y, 'outline', 'accent'),
    polygon(
      [point(tip.x, tip.y), point(neck.x - dy * 1.1, neck.y + dx * 1.1), point(neck.x + dy * 1.1, neck.y - dx * 1.1)],
      {
        fill: 'accent',
      },
    ),
  ];
}

/** Little arrows to the piece's own top and front, in that corner of the picture where they cross least of it. */
function upMark(turn: ReturnType<typeof turner>, at: Area, drawn: readonly Mark[]): readonly Mark[] {
  const own = (['up', 'front'] as const).flatMap((way): readonly Mark[] => {
    const [u, v] = project(turn(UNIT[way]));
    const [tx, ty] = [u * 5, v * 5];
    const word = way === 'up' ? 'top' : 'front';
    const wide = textWidth(word, LETTER.small);
    return [
      line(0, 0, tx, ty, 'thin', 'faint'),
      text(tx + (u < -0.1 ? -wide - 0.5 : u > 0.1 ? 0.5 : -wide / 2), ty + (v > 0.1 ? 3.2 : -0.6), word, {
        tone: 'faint',
      }),
    ];
  });
  const reach = extentOf(own)!;
  const corners = [below(at) - reach.height, at.y].flatMap((y) =>
    [at.x, right(at) - reach.width].map((x) => area(x, y, reach.width, reach.height)),
  );
  const crossed = (a: Area): number => drawn.filter((m) => m.kind === 'line' && crosses(m.from, m.to, a)).length;
  const best = corners.map((a) => ({ a, n: crossed(a) })).reduce((x, y) => (y.n < x.n ? y : x)).a;
  return moved(own, best.x - reach.x, best.y - reach.y);
}
