import { type Box, intersect, isEmpty, withoutAll } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Plan } from '../plan/index.ts';
import { fromTicks, inch, type Kg, type Money, toTicks } from '../quantity/index.ts';
import { hangsNowhere, isMade, type Part, type PartId, type PlacedPiece } from '../scene/index.ts';
import { densityOf, materialOf, type RealLayout, realLayouts, stockName } from '../stock/index.ts';
import type { Bill, Cut } from './bill.ts';
import { type CutUp, cutUp } from './rests.ts';

/** kg of a part by its own volume, what is machined out of it left out. Undefined when the density of its stock is not known. */
export function partMass(part: Part, plan: Plan): Kg | undefined {
  const density = densityOf(plan.stock, part.stock);
  if (!density) return undefined;
  const { box, taken } = part.solid;
  const out = taken
    .filter((t) => t.round === undefined)
    .map((t) => intersect(t.box, box))
    .filter((hole) => !isEmpty(hole));
  const solid = out.reduce(
    (left, hole, k) => left - withoutAll(hole, out.slice(0, k)).reduce((sum, b) => sum + volumeOf(b), 0),
    volumeOf(box),
  );
  return (solid * 1e-9 * density.value) as Kg;
}

/** mm³. Of sides in whole ticks: what is cut out weighs the same wherever it is, to the last digit. */
const volumeOf = ({ min, max }: Box): number =>
  fromTicks(toTicks(max.x - min.x)) * fromTicks(toTicks(max.y - min.y)) * fromTicks(toTicks(max.z - min.z));

/**
 * Usual minutes of one person for each thing counted, finishing left out. All common practice; a plan's own `shop.pace` scales them.
 */
export const PACES = [
  { key: 'panels', minutes: 15, what: 'panel fetched, laid out and broken down' },
  { key: 'cuts', minutes: 2, what: 'cut at the saw, fence set and marked' },
  { key: 'parts', minutes: 4, what: 'part labelled, edged and sanded' },
  { key: 'joints', minutes: 5, what: 'joint let in, glued and fastened' },
  { key: 'fronts', minutes: 30, what: 'door or drawer hung and set' },
  { key: 'pieces', minutes: 60, what: 'piece carried in, set level and fixed' },
  { key: 'lengths', minutes: 15, what: 'length of moulding carried in, held up and its ends fitted' },
  { key: 'stretches', minutes: 4, what: 'stretch of moulding from stud to stud, laid and nailed' },
] as const;
type Counted = (typeof PACES)[number]['key'];

/** From one stud to the next, mm: a measure of the run that reads the same in every unit. Common practice. */
const STRETCH = inch(16);

/** What the fitting of a piece is counted by: mouldings by the lengths there are and by how far they run, all else as one piece. */
export function fittingCounts(
  piece: Pick<PlacedPiece, 'kind' | 'wall' | 'parts'>,
): readonly (readonly ['pieces' | 'lengths' | 'stretches', number])[] {
  const { kind, parts } = piece;
  if (hangsNowhere(piece)) return [];
  if (kind !== 'trim') return [['pieces', 1]];
  return [
    ['lengths', parts.length],
    ['stretches', parts.reduce((sum, { size }) => sum + size.length, 0) / STRETCH],
  ];
}

export interface Tally {
  /** With tax; left out while something has no price. */
  readonly cost?: Money;
  /** What is known of it even so. */
  readonly known: Money;
  /** Bought, and taken from the rack. */
  readonly panels: number;
  readonly boards: number;
  readonly offcuts: number;
  readonly cuts: number;
  readonly parts: number;
  /** kg of everything built; parts of unknown density are left out and counted in `unweighed`. */
  readonly mass: Kg;
  readonly unweighed: number;
  readonly massWorking: Working;
  /** kg, and what it is: a whole piece as it is moved, a display, or a panel as it is bought. */
  readonly heaviest: Kg;
  readonly heaviestIs: string;
  readonly heaviestWorking: Working;
  readonly hours: number;
  readonly hoursWorking: Working;
  readonly stops: number;
  readonly cautions: number;
  readonly fines: number;
}

/** A cost as far as it is known, in words: `EUR 235.20 +` where something in it has no price. Nothing priced yet is not nothing. */
export function costSaid(known: number, isAll: boolean, money: (amount: number) => string): string {
  if (isAll) return money(known);
  return known === 0 ? 'no prices' : `${money(known)} +`;
}

export interface TallyInput {
  readonly plan: Plan;
  readonly pieces: readonly PlacedPiece[];
  readonly parts: readonly Part[];
  readonly cuts: readonly Cut[];
  readonly bill: Bill;
  /** All of the option's notes, the bill's included. */
  readonly notes: readonly Note[];
  /** Of a part, where it is already known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** How a layout is taken apart, where the order of its cuts is known; left out: by `cutUp`. */
  readonly takeApart?: (layout: RealLayout) => CutUp;
}

/** The headline figures of an option. */
export function makeTally({ plan, pieces, parts, cuts, bill, notes, massOf, takeApart = cutUp }: TallyInput): Tally {
  const layouts = cuts.flatMap(({ job, answer }) => realLayouts(job, answer));
  const bought = layouts.filter((l) => l.source.kind === 'buy');
  const sawCuts = layouts.reduce((s, l) => s + takeApart(l).cuts, 0);
  const masses = new Map<PartId, number>();
  let unweighed = 0;
  for (const part of parts) {
    const mass = massOf ? massOf(part.id) : partMass(part, plan);
    if (mass === undefined) unweighed++;
    else masses.set(part.id, mass);
  }
  const lifts: readonly Lift[] = [
    ...pieces.filter(isMade).map((p) => ({
      is: p.title || p.id,
      mass: (p.mass ?? 0) + p.parts.reduce((s, part) => s + (masses.get(part.id) ?? 0), 0),
      of: () => massesByStock(p.parts, masses),
      given: p.mass ?? 0,
    })),
    ...bought.flatMap((l) => {
      const thickness = plan.stock.panels.find((p) => p.id === l.stock)?.thickness;
      const density = densityOf(plan.stock, l.stock);
      if (!thickness || !density) return [];
      const mass = l.length * l.width * thickness * 1e-9 * density.value;
      const name = stockName(plan.stock, l.stock);
      return [{ is: `a whole panel of ${name}`, mass, of: () => new Map([[l.stock, mass]]), given: 0 }];
    }),
  ];
  const nothing: Lift = { is: 'nothing', mass: 0, of: () => new Map(), given: 0 };
  const heaviest = lifts.reduce((a, b) => (b.mass > a.mass ? b : a), nothing);
  const counts: Record<Counted, number> = {
    panels: bought.filter((l) => l.from === 'panel').length,
    cuts: sawCuts,
    parts: parts.length,
    joints: pieces.reduce((s, p) => s + p.joints.length, 0),
    fronts: pieces.reduce((s, p) => s + p.needs.length, 0),
    ...fittingOf(pieces.filter(isMade)),
  };
  const mass = [...masses.values()].reduce((a, b) => a + b, 0);
  const working = hoursWorking(counts, plan.shop.pace);
  const verdict = (v: Note['verdict']): number => notes.filter((n) => n.verdict === v).length;
  return {
    ...(bill.total !== undefined && { cost: bill.total }),
    known: bill.known,
    panels: counts.panels,
    boards: bought.filter((l) => l.from === 'board').length,
    offcuts: layouts.length - bought.length,
    cuts: sawCuts,
    parts: parts.length,
    mass: mass as Kg,
    unweighed,
    massWorking: massWorking('Mass of all parts', mass, massesByStock(parts, masses), plan),
    heaviest: heaviest.mass as Kg,
    heaviestIs: heaviest.is,
    heaviestWorking: massWorking(`Mass of ${heaviest.is}`, heaviest.mass, heaviest.of(), plan, heaviest.given),
    hours: working.result.value,
    hoursWorking: working,
    stops: verdict('stop'),
    cautions: verdict('caution'),
    fines: verdict('fine'),
  };
}

/** What may have to be lifted, and what it is of: the mass of each stock in it, and what the plan says it weighs besides. kg. */
interface Lift {
  readonly is: string;
  readonly mass: number;
  readonly of: () => ReadonlyMap<string, number>;
  readonly given: number;
}
function massesByStock(parts: readonly Part[], masses: ReadonlyMap<PartId, number>): ReadonlyMap<string, number> {
  const all = new Map<string, number>();
  for (const { id, stock } of parts) all.set(stock, (all.get(stock) ?? 0) + (masses.get(id) ?? 0));
  return all;
}

/** Volume by stock, times its density. */
function massWorking(
  what: string,
  result: number,
  byStock: ReadonlyMap<string, number>,
  plan: Plan,
  given = 0,
): Working {
  const inputs = [...byStock].flatMap(([id, mass], i) => {
    const density = densityOf(plan.stock, id);
    if (!density) return [];
    const source = density.from === 'given' ? undefined : materialOf(density.from).densitySource;
    return [
      { symbol: `V${i + 1}`, name: `volume of ${stockName(plan.stock, id)}`, value: mass / density.value, unit: 'm³' },
      {
        symbol: `ρ${i + 1}`,
        name: density.from === 'given' ? 'density, as the plan gives it' : `density of ${density.from}`,
        value: density.value,
        unit: 'kg/m³',
        ...(source && { source }),
      },
    ];
  });
  return {
    what,
    formula: given > 0 ? (inputs.length > 0 ? 'm = m0 + Σ V · ρ' : 'm = m0') : 'm = Σ V · ρ',
    inputs: [
      ...(given > 0 ? [{ symbol: 'm0', name: 'mass, as the plan gives it', value: given, unit: 'kg' }] : []),
      ...inputs,
    ],
    result: { value: result, unit: 'kg' },
    source: { title: 'definition of density' },
    assumes: [
      'a kind or species by the nearest name of the handbook',
      'no hardware, finish or glue',
      'panels at the high end of their range',
    ],
    caution: 'Weigh what is lifted by one person: boards vary by a tenth and more.',
  };
}

function fittingOf(pieces: readonly PlacedPiece[]) {
  const sums = { pieces: 0, lengths: 0, stretches: 0 };
  for (const [key, count] of pieces.flatMap(fittingCounts)) sums[key] += count;
  return sums;
}

function hoursWorking(counts: Readonly<Record<Counted, number>>, pace: number): Working {
  const minutes = PACES.reduce((s, p) => s + counts[p.key] * p.minutes, 0);
  return {
    what: 'Hours of one person to cut, build and fit',
    formula: 't = pace · Σ count · minutes / 60',
    inputs: [
      { symbol: 'pace', name: "this maker's time over the usual time", value: pace, unit: '' },
      ...PACES.flatMap(({ key, minutes: each, what }) => [
        { symbol: `n ${key}`, name: what, value: counts[key], unit: '' },
        { symbol: `t ${key}`, name: `minutes for one`, value: each, unit: 'min', source: 'common practice' as const },
      ]),
    ],
    result: { value: (pace * minutes) / 60, unit: 'h' },
    source: 'common practice',
    assumes: ['finishing, drying and shopping are left out', 'one person; a helper saves less than half'],
  };
}

/** Figures in which options differ, each with its difference from the first. */
export interface Compared {
  readonly id: string;
  readonly title: string;
  readonly tally: Tally;
  /** From the first option; a cost that is not known on either side has none. */
  readonly difference: Partial<Record<(typeof COMPARED)[number], number>>;
}
export const COMPARED = [
  'cost',
  'panels',
  'boards',
  'cuts',
  'parts',
  'mass',
  'heaviest',
  'hours',
  'stops',
  'cautions',
] as const;

/** Options side by side, in the order given; the first is what the others are held against. */
export function compareOptions(
  options: readonly { readonly id: string; readonly title: string; readonly tally: Tally }[],
): readonly Compared[] {
  const first = options[0]?.tally;
  return options.map(({ id, title, tally }) => {
    const difference: Partial<Record<(typeof COMPARED)[number], number>> = {};
    for (const key of COMPARED) {
      const [a, b] = [first?.[key], tally[key]];
      if (a !== undefined && b !== undefined) difference[key] = b - a;
    }
    return { id, title, tally, difference };
  });
}

const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
/** How many notes stand open, in words, the worst first. */
export const openWords = ({ stops, cautions }: Pick<Tally, 'stops' | 'cautions'>): string =>
  [...(stops > 0 ? [counted(stops, 'stop')] : []), ...(cautions > 0 ? [counted(cautions, 'caution')] : [])].join(
    ', ',
  ) || 'none open';
