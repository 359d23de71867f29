import { type Box, intersect, isEmpty, vec } from '../geometry/index.ts';
import { grouped } from '../grouped.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Path } from '../plan/index.ts';
import { convert } from '../quantity/index.ts';
import type { Part } from '../scene/index.ts';
import { FEET, highest, isBorne, isHung, lowest, SAME, seenBy } from './fixing/carried.ts';
import { loadIn } from './fixing/case-back.ts';
import { isGear, standsOf } from './fixing/gear.ts';
import { exact, imperial, type Subject, saying, set, subjectsOf, titleOf, type WallInput } from './plan-input.ts';
import { standingOn } from './plan-shelf-box.ts';
import { designLoadOf, LOAD_OF, type Span, sagOf, shelfSpans } from './plan-shelves.ts';
import { DESIGN_LOADS } from './standards.ts';

/** Something of which all or a part stands on a surface. */
interface Stood {
  readonly name: string;
  /** kg of it that rest here; undefined where the plan does not say what it weighs. */
  readonly mass: number | undefined;
}

/** What can be stood on: the top of a floating shelf or of a thing, a board of a case, one clear run of a shelf. */
interface Surface {
  readonly owner: Subject;
  /** In the owner's frame. */
  readonly box: Box;
  /** Above the floor, mm: where it bears, and the lowest that something sunk into its board may begin and still be on it. */
  readonly top: number;
  readonly from: number;
  readonly shelf?: Span;
  readonly stood: Stood[];
}

/**
 * Notes on shelves, and cases that hang, on which more stands than they are reckoned with. Things, lamps and cameras are weighed; a case or a
 * display is held to the wall by fixings of its own. What stands on several surfaces, or on a thing, is shared by how much of it lies on each.
 */
export function stoodOnNotes(input: WallInput): readonly Note[] {
  const all = subjectsOf(input);
  const gear = all
    .filter((s) => isGear(s.said) && lowest(s.placed) > SAME && standsOf(input, s) === 'on something')
    .toSorted((a, b) => lowest(b.placed) - lowest(a.placed));
  if (gear.length === 0) return [];
  const surfaces = all.flatMap((owner) => (gear.some((g) => isOver(g, owner)) ? surfacesOf(owner) : []));
  const afloat = gear.flatMap((one) => {
    const under = putDown(one, surfaces);
    return under && lowest(one.placed) > FEET && !isBorne(input, one) ? afloatNote(input, one, under) : [];
  });
  const stood = [...grouped(surfaces, ({ owner }) => owner)].flatMap(([owner, own]) =>
    'shelf' in owner.said
      ? floatingNote(input, owner, own)
      : 'case' in owner.said
        ? [...own.flatMap((s) => shelfNote(input, s)), ...hungNote(input, owner, own)]
        : [],
  );
  return [...stood, ...afloat];
}

/** A thing at no wall that stands on nothing and does not reach the ceiling. What is part of the house, the house holds; a camera has its tripod. */
function afloatNote(input: WallInput, { placed, said, path }: Subject, under: Surface | 'floor'): readonly Note[] {
  if (!('thing' in said) || said.fixed) return [];
  const { length } = saying(input);
  const bottom = lowest(placed);
  const [what, top] = under === 'floor' ? ['the floor', 0] : [titleOf(under.owner.placed), under.top];
  const { x, z } = placed.frame.origin;
  return [
    {
      id: `mid-air:${placed.id}`,
      about: placed.id,
      at: vec(x, bottom, z),
      verdict: 'caution',
      title: `${titleOf(placed)} stands on nothing: its foot is ${length(bottom)} above the floor, ${length(bottom - top)} above ${what}`,
      advice: `A thing stands on the floor or on a piece, hangs at a wall or reaches the ceiling. Nearest under it: ${what}${under === 'floor' ? '' : `, ${length(top)} above the floor`}. ${said.on === undefined ? '' : `'${said.on}', which it is said to stand on, is not under it: move it over that. `}Or put what carries it into the plan, so that it is seen and weighed.`,
      working: {
        what: 'How far it stands above what is under it',
        formula: 'h = above − top',
        inputs: [
          { symbol: 'above', name: 'its lowest point above the floor', value: bottom, unit: 'mm' },
          { symbol: 'top', name: `top of ${what}`, value: top, unit: 'mm' },
        ],
        result: { value: bottom - top, unit: 'mm' },
        limit: { value: SAME, unit: 'mm', why: 'what counts as touching' },
        source: 'common practice',
        assumes: ['a thing counts as its whole outside box'],
      },
      ...(said.on === undefined && {
        cure: { title: `Stand it on ${what}`, edits: [set([...path, 'above'], exact(input, top))] },
      }),
    },
  ];
}

/** Whether any of it lies over a piece, from the floor of that up. */
function isOver(one: Subject, { placed }: Subject): boolean {
  if (one.placed === placed || lowest(one.placed) < lowest(placed)) return false;
  return areaOver(seenBy(placed, one.placed), placed.outside) > 0;
}

const flat = ({ min, max }: Box): Box => ({ min: vec(min.x, 0, min.z), max: vec(max.x, 1, max.z) });

function areaOver(outline: Box, box: Box): number {
  const shared = intersect(outline, flat(box));
  return isEmpty(shared) ? 0 : (shared.max.x - shared.min.x) * (shared.max.z - shared.min.z);
}

function surfacesOf(owner: Subject): readonly Surface[] {
  const { placed, said } = owner;
  const surface = (box: Box, shelf?: Span): Surface => ({
    owner,
    box,
    top: placed.frame.origin.y + box.max.y,
    from: placed.frame.origin.y + ('thing' in said ? box.max.y : box.min.y),
    ...(shelf && { shelf }),
    stood: [],
  });
  if ('shelf' in said || 'thing' in said) return [surface(placed.outside)];
  if (!('case' in said)) return [];
  const shelves = shelfSpans(placed);
  const isShelf = new Set<Part>(shelves.map(({ part }) => part));
  return [
    ...placed.parts
      .filter((part) => part.axes.thickness === 'y' && !isShelf.has(part))
      .map(({ solid }) => surface(solid.box)),
    ...shelves.flatMap((shelf) => {
      const { min, max } = shelf.part.solid.box;
      return shelf.runs.map(({ from, to }) =>
        surface({ min: vec(from, min.y, min.z), max: vec(to, max.y, max.z) }, shelf),
      );
    }),
  ];
}

/**
 * Puts something on the highest of what is under it, which it touches, or which the case that it stands in leaves it to come down on. What it
 * would fall on, where it stands on nothing.
 */
function putDown({ placed, said }: Subject, surfaces: readonly Surface[]): Surface | 'floor' | undefined {
  const bottom = lowest(placed);
  const under = surfaces.flatMap((surface) => {
    const { owner, box, top, from } = surface;
    if (owner.placed === placed || from > bottom + SAME) return [];
    const area = areaOver(seenBy(owner.placed, placed), box);
    return area > 0 ? [{ surface, top, area }] : [];
  });
  const top = Math.max(...under.map((u) => u.top));
  const bearing = under.filter((u) => u.top >= top - SAME);
  if (!bearing.some(({ surface: { owner } }) => bottom <= top + SAME || bottom < highest(owner.placed)))
    return bearing[0]?.surface ?? 'floor';
  // what stands on it comes down with it
  const carried = surfaces.find(({ owner }) => owner.placed === placed)?.stood ?? [];
  const all = bearing.reduce((sum, { area }) => sum + area, 0);
  const own: Stood = { name: titleOf(placed), mass: 'thing' in said || placed.mass ? placed.mass : 0 };
  for (const { surface, area } of bearing)
    surface.stood.push(
      ...[own, ...carried].map(({ name, mass }) => ({ name, mass: mass === undefined ? mass : (mass * area) / all })),
    );
  return undefined;
}

/** What stands somewhere, by name: a thing that lies on several boards of one case counts once. */
function weighed(own: readonly Surface[]) {
  const byName = new Map<string, number>();
  const unknown = new Set<string>();
  for (const { name, mass } of own.flatMap(({ stood }) => stood))
    if (mass === undefined) unknown.add(name);
    else if (mass > 0) byName.set(name, (byName.get(name) ?? 0) + mass);
  return {
    each: [...byName].map(([name, mass]) => ({ name, mass })),
    unknown: [...unknown],
    sum: [...byName.values()].reduce((a, b) => a + b, 0),
  };
}
type Weighed = ReturnType<typeof weighed>;

/** More than a sum of masses rounds by. */
const isMore = (sum: number, load: number): boolean => sum > load * (1 + 1e-9);

/** What stands there against what it is reckoned with. */
const workingOf = (
  { each, sum }: Weighed,
  load: number,
  limit: Pick<NonNullable<Working['limit']>, 'why' | 'source'>,
): Working => ({
  what: 'What stands on it',
  formula: 'm = Σ mᵢ',
  inputs: each.map(({ name, mass }, i) => ({ symbol: `m${i + 1}`, name, value: mass, unit: 'kg' })),
  result: { value: sum, unit: 'kg' },
  limit: { value: load, unit: 'kg', ...limit },
  source: 'common practice',
  assumes: ['what lies on several is shared by how much of it lies on each; evenly spread'],
  caution:
    'Checked: the weight, evenly spread. Not checked: what stands near one end or at the front edge, and someone who leans on it.',
});

/** `Amplifier 12 kg, books 20 kg`. */
const listed = (input: WallInput, { each, unknown }: Weighed): string =>
  [
    ...each.map(({ name, mass }) => `${name} ${saying(input).mass(mass)}`),
    ...unknown.map((name) => `${name}, whose mass is not said, so not counted`),
  ].join('; ');

/** Of which the plan does not say what it weighs: not counted as nothing without a word. */
function unweighed(about: string, name: string, { unknown }: Weighed): readonly Note[] {
  if (unknown.length === 0) return [];
  return [
    {
      id: `stood-on:${about}`,
      about,
      verdict: 'caution',
      title: `Whether ${name} is reckoned with enough is not known: ${unknown.join(', ')} on it has no mass`,
      advice: 'Give what it weighs, under mass.',
    },
  ];
}

/** A whole number of the plan's unit that is not less. */
function massWritten(input: WallInput, kg: number): string {
  const unit = imperial(input) ? 'lb' : 'kg';
  return `${Math.ceil(kg / convert(1, unit, 'mass') - 1e-9)} ${unit}`;
}

function floatingNote(input: WallInput, owner: Subject, own: readonly Surface[]): readonly Note[] {
  const { placed, said, path } = owner;
  if (!('shelf' in said)) return [];
  const load = standingOn(owner);
  const stood = weighed(own);
  const name = titleOf(placed);
  if (!isMore(stood.sum, load)) return unweighed(placed.id, name, stood);
  const { mass } = saying(input);
  const enough = massWritten(input, stood.sum);
  return [
    {
      id: `stood-on:${placed.id}`,
      about: placed.id,
      verdict: 'stop',
      title: `${mass(stood.sum)} stands on ${name}, which is reckoned with ${mass(load)}`,
      advice: `On it: ${listed(input, stood)}. ${said.load === undefined ? 'The plan gives it no load: it is reckoned with what open casework is designed for.' : 'Its load in the plan is less.'} Its rods, its box and the screws of its plate are reckoned with too little: raise its load to ${enough}, and their own notes say whether they hold; or stand something elsewhere.`,
      working: workingOf(
        stood,
        load,
        said.load === undefined
          ? { why: 'design load of open casework', source: DESIGN_LOADS['casework: all other'].source }
          : { why: 'its load in the plan' },
      ),
      cure: { title: `Raise its load to ${enough}`, edits: [set([...path, 'load'], enough)] },
    },
  ];
}

/** What a case of books is reckoned with, where that is more and enough. */
const booksCure = (said: Subject['said'], path: Path, enough: boolean): Pick<Note, 'cure'> =>
  enough && 'case' in said && said.carries !== 'books'
    ? { cure: { title: 'Reckon it as a case of books', edits: [set([...path, 'carries'], 'books')] } }
    : {};

/** One run of a shelf of a case: bent by its longest run under the design load, which a shorter one may carry as well. */
function shelfNote(input: WallInput, { owner, shelf, ...on }: Surface): readonly Note[] {
  const { placed, said, path } = owner;
  if (!shelf || !('case' in said)) return [];
  const { part, span, runs } = shelf;
  const design = LOAD_OF[said.carries ?? 'gear'];
  const load = designLoadOf(part, span, design);
  const stood = weighed([{ owner, ...on }]);
  const run = runs.findIndex(({ from }) => from === on.box.min.x);
  const id = runs.length > 1 ? `${part.id}/${run + 1}` : part.id;
  const name = `the ${part.label.name} of ${titleOf(placed)}`;
  if (!isMore(stood.sum, load))
    return unweighed(part.id, name, stood).map((note) => ({ ...note, id: `stood-on:${id}` }));
  const { mass, notLess, notMore } = saying(input);
  const sag = sagOf(input, shelf, on.box.max.x - on.box.min.x, design, stood.sum);
  const bends = sag
    ? `Under that, evenly spread, it sags ${notLess(sag.working.result.value)} at once, ${notLess(sag.later)} in time; ${notMore(sag.limit)} is allowed.`
    : 'How far it sags is not known: its stock has no kind or species that the handbook has.';
  return [
    {
      id: `stood-on:${id}`,
      about: part.id,
      verdict: sag && sag.working.result.value <= sag.limit ? 'caution' : 'stop',
      title: `${mass(stood.sum)} stands on ${name}, which is reckoned with ${mass(load)}`,
      advice: `On it: ${listed(input, stood)}. ${bends} All of it in the middle bends it 1.6 times as far (WL³/48EI for 5WL³/384EI). What carries its ends is not checked. Stand something elsewhere, or put a support under it.`,
      working: workingOf(stood, load, { why: design, source: DESIGN_LOADS[design].source }),
      ...booksCure(said, path, !isMore(stood.sum, designLoadOf(part, span, LOAD_OF.books))),
    },
  ];
}

/** A case that hangs: its screws are reckoned with the design load of its bottom and its shelves, whatever stands on its top. */
function hungNote(input: WallInput, owner: Subject, own: readonly Surface[]): readonly Note[] {
  const { placed, said, path } = owner;
  if (!('case' in said) || !isHung(input, owner)) return [];
  const load = loadIn(owner);
  const stood = weighed(own);
  if (!isMore(stood.sum, load)) return [];
  const { mass } = saying(input);
  const name = titleOf(placed);
  return [
    {
      id: `stood-on:${placed.id}`,
      about: placed.id,
      verdict: 'stop',
      title: `${mass(stood.sum)} stands in and on ${name}, whose fixings are reckoned with ${mass(load)}`,
      advice: `In it: ${listed(input, stood)}. It hangs: its screws hold less than they must, as far as anybody has reckoned. Stand something elsewhere, or let the case stand on the floor or on another.`,
      working: workingOf(stood, load, {
        why: 'design load of its bottom and its shelves',
        source: DESIGN_LOADS[said.carries === 'books' ? LOAD_OF.books : LOAD_OF.gear].source,
      }),
      ...booksCure(said, path, !isMore(stood.sum, loadIn({ ...owner, said: { ...said, carries: 'books' } }))),
    },
  ];
}
