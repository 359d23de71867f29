import type { Note, Working } from '../../notes/index.ts';
import type { Path } from '../../plan/index.ts';
import { convert } from '../../quantity/index.ts';
import { isHung } from '../fixing/carried.ts';
import { loadIn } from '../fixing/case-back.ts';
import { imperial, type Subject, saying, set, titleOf, type WallInput } from '../plan-input.ts';
import { standingOn } from '../plan-shelf-box.ts';
import { designLoadOf, endsUnder, LOAD_OF, sagOf } from '../plan-shelves.ts';
import { DESIGN_LOADS } from '../standards.ts';
import type { Surface } from './surface.ts';

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

/**
 * kg that, evenly spread over a run, bend its middle as far as what stands on it where it stands: of a load W at x from the nearer end
 * δ = W x (3L² − 4x²)/48EI, over what it rests on, against 5WL³/384EI. Source: standard beam tables (AISC Manual table 3-23, cases 1 and 8).
 */
export function asUniform(stood: Surface['stood'], run: { readonly from: number; readonly to: number }): number {
  const L = run.to - run.from;
  // ∫ x (3L² − 4x²) dx from one end; beyond the middle the same from the other
  const half = (x: number): number => 1.5 * L ** 2 * x ** 2 - x ** 4;
  const area = (x: number): number => (x <= L / 2 ? half(x) : 2 * half(L / 2) - half(L - x));
  return stood.reduce((sum, { mass = 0, from, to }) => {
    const [a, b] = [from, to].map((x) => Math.min(L, Math.max(0, x - run.from)));
    if (b! - a! < 1e-6) return sum;
    // of what reaches past the run, what lies on its end bends nothing
    const on = (b! - a!) / (to - from);
    return sum + (8 * mass * on * (area(b!) - area(a!))) / (b! - a!) / (5 * L ** 3);
  }, 0);
}

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

export function floatingNote(input: WallInput, owner: Subject, own: readonly Surface[]): readonly Note[] {
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

/** How far a board bends under what stands on it where it stands. */
const bendsBy = (input: WallInput, sag: NonNullable<ReturnType<typeof sagOf>>): string => {
  const { notLess, notMore } = saying(input);
  return `As it stands there, its middle sags ${notLess(sag.working.result.value)} at once, ${notLess(sag.later)} in time; ${notMore(sag.limit)} is allowed.`;
};
const UNKNOWN = 'How far it sags is not known: its stock has no kind or species that the handbook has.';
const ASIDE = 'Stand something elsewhere, or put a support under it.';

/**
 * One run of a shelf of a case: bent by its longest run under the design load, which a shorter one may carry as well. Told where more stands
 * on it than that, and where less does but in its middle, and bends it further than is allowed.
 */
export function shelfNote(input: WallInput, { owner, shelf, ...on }: Surface): readonly Note[] {
  const { placed, said, path } = owner;
  if (!shelf || !('case' in said)) return [];
  const { part, span, runs } = shelf;
  const design = LOAD_OF[said.carries ?? 'gear'];
  const load = designLoadOf(part, span, design);
  const stood = weighed([{ owner, ...on }]);
  const index = runs.findIndex(({ from }) => from === on.box.min.x);
  const run = runs[index]!;
  const id = runs.length > 1 ? `${part.id}/${index + 1}` : part.id;
  const name = `the ${part.label.name} of ${titleOf(placed)}`;
  const { mass } = saying(input);
  const bent = asUniform(on.stood, run);
  const sag = stood.sum > 0 ? sagOf(input, shelf, run.to - run.from, design, bent) : undefined;
  const now = sag ? sag.working.result.value : 0;
  const over = isMore(stood.sum, load);
  if (!over && !(sag && sag.later > sag.limit && isMore(bent, load)))
    return unweighed(part.id, name, stood).map((note) => ({ ...note, id: `stood-on:${id}` }));
  const verdict = over ? (sag && now <= sag.limit ? 'caution' : 'stop') : now <= sag!.limit ? 'caution' : 'stop';
  const ends = endsUnder(input, placed, shelf, stood.sum);
  return [
    {
      id: `stood-on:${id}`,
      about: part.id,
      verdict,
      title: over
        ? `${mass(stood.sum)} stands on ${name}, which is reckoned with ${mass(load)}`
        : `${mass(stood.sum)} stands so near the middle of ${name} that it bends like ${mass(bent)} spread over it`,
      advice: `On it: ${listed(input, stood)}. ${sag ? bendsBy(input, sag) : UNKNOWN} ${ends} ${ASIDE}`,
      working: over ? workingOf(stood, load, { why: design, source: DESIGN_LOADS[design].source }) : sag!.working,
      ...(over && booksCure(said, path, !isMore(stood.sum, designLoadOf(part, span, LOAD_OF.books)))),
    },
  ];
}

/** One clear run of the top of a case. No load is designed for it: it is reckoned with what the plan stands on it, and nothing else. */
export function lidNote(input: WallInput, { owner, lid, ...on }: Surface): readonly Note[] {
  const { placed } = owner;
  if (!lid) return [];
  const stood = weighed([{ owner, ...on }]);
  const { boards, run, number } = lid;
  const about = boards[0]!.id;
  const id = `stood-on:${about}${number === undefined ? '' : `/${number}`}`;
  const name = `the top of ${titleOf(placed)}`;
  if (!(stood.sum > 0)) return unweighed(about, name, stood).map((note) => ({ ...note, id }));
  const bent = asUniform(on.stood, run);
  const span = run.to - run.from;
  // as if the stiffer of two boards bore all of it
  const sags = boards.flatMap((part) => sagOf(input, { part, span, runs: [run] }, span, LOAD_OF.gear, bent) ?? []);
  const sag = sags.reduce<(typeof sags)[number] | undefined>((a, b) => (a && a.later <= b.later ? a : b), undefined);
  const { mass, length } = saying(input);
  const base = { id, about, advice: `On it: ${listed(input, stood)}. ${sag ? bendsBy(input, sag) : UNKNOWN} ${ASIDE}` };
  if (!sag)
    return [
      { ...base, verdict: 'caution', title: `How far ${name} sags under the ${mass(stood.sum)} on it is not known` },
    ];
  const now = sag.working.result.value;
  if (sag.later <= sag.limit) return unweighed(about, name, stood).map((note) => ({ ...note, id }));
  return [
    {
      ...base,
      verdict: now > sag.limit ? 'stop' : 'caution',
      title: `${mass(stood.sum)} stands on ${name}, which bends too far under it over its ${length(span)}`,
      working: {
        ...sag.working,
        assumes: [
          ...sag.working.assumes,
          'what stands there bears evenly over its foot; its load is put as the evenly spread one that bends the middle as far',
          ...(boards.length > 1 ? ['the stiffer of the two boards of the top bears all of it'] : []),
        ],
      },
    },
  ];
}

/** A case that hangs: its screws are reckoned with the design load of its bottom and its shelves, whatever stands on its top. */
export function hungNote(input: WallInput, owner: Subject, own: readonly Surface[]): readonly Note[] {
  const { placed, said, path } = owner;
  if (!('case' in said) || !isHung(input, owner)) return [];
  const load = loadIn(owner);
  const stood = weighed(own);
  const name = titleOf(placed);
  // of what stands on its shelves, those tell it
  if (!isMore(stood.sum, load)) return unweighed(placed.id, name, weighed(own.filter(({ shelf }) => !shelf)));
  const { mass } = saying(input);
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
