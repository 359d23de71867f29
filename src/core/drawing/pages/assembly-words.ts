import type { AssemblyStep, Fasten, Gauge, SetBy } from '../../assembly/index.ts';
import { WAITING } from '../../finish/index.ts';
import type { Box } from '../../geometry/index.ts';
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
  sideByLabel,
  stickingOf,
  TOWARDS,
} from '../../scene/index.ts';
import { type Desk, numberRuns } from './desk.ts';
import { cuttingOf } from './spacers.ts';

/** What the spacers of a length are called on the layout they are cut from. */
export const markOfSpacer = (desk: Desk, distance: number): string =>
  cuttingOf(desk).spacers.find((s) => desk.letter.length(s.distance) === desk.letter.length(distance))!.mark;

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
const WAYS = [
  ['left', 'right'],
  ['down', 'up'],
  ['back', 'front'],
] as const;
/** What a part is set back from: the side of the other that looks the way the gauge stands off the new part. */
export function setBackWords(desk: Desk, { axis, cell, between }: Gauge): string {
  const [other, own] = between.map((id) => desk.numbered().partOf.get(id)!.part) as [Part, Part];
  const along = (['x', 'y', 'z'] as const)[axis]!;
  const middle = (own.solid.box.min[along] + own.solid.box.max[along]) / 2;
  const way = WAYS[axis]![fromTicks(cell[axis * 2]!) > middle ? 1 : 0];
  const { min, max } = gaugeSides(cell, axis);
  const reached = TOWARDS[way][along] > 0 ? max : min;
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
export const capital = (words: string): string => words.replace(/^./, (c) => c.toUpperCase());
