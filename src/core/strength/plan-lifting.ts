import { alsoOf, type Note, type Working, work } from '../notes/index.ts';
import type { Part } from '../scene/index.ts';
import { indexOfLift, liftAtOneEnd, teamLift } from './lifting.ts';
import { ownMass, type Subject, saying, titleOf, type WallInput } from './plan-input.ts';
import { carriedSize } from './plan-moving.ts';
import { splitFor } from './split.ts';

/** Hands under a case on the floor, and at the hip as it is carried, mm; at the handles of straps under it. Common practice. */
const FLOOR = 200;
const HIP = 750;
const STRAP = 650;
/** From the ankles to the hands of someone who takes one end of a case, mm: its width does not stand between. Common practice. */
const AT_END = 300;
/** One end is tipped up this far to push a trolley or rollers under it, mm. Common practice. */
const TIPPED = 60;
/** Wider than this a load is bulky: no good grip. NIOSH 94-110, table 6. */
const BULKY = 400;

interface Way {
  /** What it may weigh, kg. */
  readonly limit: number;
  /** The worse end of one person's lift. */
  readonly working: (load: number) => Working;
}

interface Hands {
  readonly reach: number;
  readonly from: number;
  readonly to: number;
  readonly coupling: 'good' | 'fair' | 'poor';
}

/** A lift by the lifting equation at its worse end; a pair may lift two thirds of what both may alone. */
function way(input: WallInput, { reach, from, to, coupling }: Hands, people: 1 | 2): Way {
  const own = input.plan.shop.lift ?? Number.POSITIVE_INFINITY;
  const reckon = (load: number): Working =>
    [from, to]
      .map((height) => work(indexOfLift, { load, reach, height, travel: Math.abs(to - from), coupling }))
      .reduce((a, b) => (b.result.value > a.result.value ? b : a));
  const each = Math.min(alsoOf(reckon(1), 'RWL'), own);
  const limit = people === 1 ? each : work(teamLift, { each: [each, each] }).result.value;
  return { limit, working: (load) => (people === 1 ? reckon(load) : shared(reckon(load / 2), load, limit)) };
}

/** One person's half of a lift, with what the team may lift beside it. */
const shared = (working: Working, load: number, limit: number): Working => ({
  ...working,
  inputs: [{ symbol: 'm', name: 'lifted by two, half by each', value: load, unit: 'kg' }, ...working.inputs],
  also: [
    ...(working.also ?? []),
    { symbol: 'm₂', name: 'two together: 2/3 of what both may alone (HSE L23)', value: limit, unit: 'kg' },
  ],
  assumes: [...working.assumes, 'one at each end, hands at its ends'],
});

/** What comes off a case before it is carried, by what it is called. */
function looseKind({ id, role }: Part): string | undefined {
  if (role === 'door') return 'doors';
  if (role === 'adjustable shelf') return 'loose shelves';
  if (role === 'separate top') return 'top';
  return role === 'drawer front' || /\/drawer-[\d-]+\//.test(`${id}/`) ? 'drawers' : undefined;
}

export interface Weights {
  /** As it is built, and with doors, drawers, loose shelves and a separate top taken out, kg. */
  readonly whole: number;
  readonly emptied: number;
  /** What was taken out, in words. */
  readonly out: readonly string[];
  /** Its centre of gravity as emptied, from the left end of what is carried, mm. */
  readonly centre: number;
}

/** Mass and centre of gravity of a piece as it is moved. */
export function weights(input: WallInput, { placed }: Subject): Weights {
  const whole = ownMass(input, placed);
  const { min, max } = placed.outside;
  const stays = placed.parts.filter((part) => looseKind(part) === undefined);
  const out = [...new Set(placed.parts.flatMap((part) => looseKind(part) ?? []))];
  const masses = stays.map((part) => ({
    kg: input.massOf(part.id) ?? 0,
    x: (part.solid.box.min.x + part.solid.box.max.x) / 2,
  }));
  const sum = masses.reduce((total, m) => total + m.kg, 0);
  const moment = masses.reduce((total, m) => total + m.kg * (m.x - min.x), 0);
  return {
    whole,
    out,
    emptied: placed.parts.length === 0 ? whole : sum + (placed.mass ?? 0),
    centre: sum > 0 ? moment / sum : (max.x - min.x) / 2,
  };
}

/** What one person or two may lift of each piece, and how the maker gets it in where that is too little. */
export function liftNotes(input: WallInput, subject: Subject): readonly Note[] {
  if (!('case' in subject.said || 'shelf' in subject.said || 'display' in subject.said)) return [];
  const masses = weights(input, subject);
  if (!(masses.whole > 0)) return [];
  return isRaised(subject) ? raised(input, subject, masses, baseOf(subject)) : standing(input, subject, masses);
}

const baseOf = ({ placed: { frame, outside } }: Subject): number => frame.origin.y + outside.min.y;
const isRaised = (subject: Subject): boolean => subject.placed.kind !== 'case' || baseOf(subject) > 100;

/** Whether something that goes up to its place is more than one person may lift there. */
export const raisedByTwo = (input: WallInput, subject: Subject): boolean =>
  isRaised(subject) && liftNotes(input, subject).some(({ verdict }) => verdict === 'caution');

/** Something lifted to its place on the wall or on another piece, held in front of the body. */
function raised(input: WallInput, { placed, said }: Subject, { whole }: Weights, base: number): readonly Note[] {
  const { mass: say } = saying(input);
  const reach = reachTo(placed.outside.max.z - placed.outside.min.z);
  const hands = { reach, from: FLOOR, to: Math.min(base, 1750), coupling: 'fair' } as const;
  const alone = way(input, hands, 1);
  const pair = way(input, hands, 2);
  if (whole <= alone.limit * 0.8) return [];
  const name = titleOf(placed);
  const stand = way(input, { ...hands, from: Math.min(HIP, hands.to) }, 2);
  const base_ = { id: `lift:${placed.id}`, about: placed.id };
  if (whole <= alone.limit)
    return [
      {
        ...base_,
        verdict: 'fine',
        title: `${name} weighs ${say(whole)}: one person may lift it`,
        advice: `The lifting equation allows ${say(alone.limit)} from the floor to where it goes.`,
        working: alone.working(whole),
      },
    ];
  const both = whole <= pair.limit;
  // what it stands on is not asked: a piece is weighed by itself
  const onto = placed.kind === 'case' && said.on !== undefined;
  return [
    {
      ...base_,
      verdict: 'caution',
      title: both
        ? `${name} weighs ${say(whole)}: lift it with two`
        : `${name} weighs ${say(whole)}: too much for two from the floor ${onto ? 'onto what it stands on' : 'to the wall'}`,
      advice: `The lifting equation allows one person ${say(alone.limit)} from the floor to where it goes, two together ${say(pair.limit)}; from a stand at hip height two may lift ${say(stand.limit)}. ${both ? '' : `${onto ? 'Set it up' : 'Hang it'} empty and in parts, or raise it on a hoist or on blocks, step by step. `}${
        onto
          ? 'Hold it there until its fixings are driven: till then it may fall forward.'
          : 'Prop it on a cleat or a stand at its height before any fixing is driven.'
      }`,
      working: both ? pair.working(whole) : stand.working(whole),
    },
  ];
}

/** NIOSH 94-110, page 8: 20 cm and half the depth of the box, 25 cm and half of it from near the floor; at least 25 cm. */
const reachTo = (depth: number): number => Math.min(Math.max(250, 250 + depth / 2), 630);

/** A case that stands on the floor: carried by one or two, as it is or emptied, or moved on a trolley. */
function standing(input: WallInput, subject: Subject, masses: Weights): readonly Note[] {
  const { placed } = subject;
  const { width, depth } = carriedSize(subject);
  const { mass: say } = saying(input);
  const { whole, emptied, centre, out } = masses;
  const bulky = Math.max(width, depth) > BULKY;
  const alone = way(
    input,
    { reach: reachTo(Math.min(width, depth)), from: FLOOR, to: HIP, coupling: bulky ? 'poor' : 'fair' },
    1,
  );
  if (whole <= alone.limit * 0.8) return [];
  const name = titleOf(placed);
  const base = { id: `lift:${placed.id}`, about: placed.id };
  if (whole <= alone.limit)
    return [
      {
        ...base,
        verdict: 'fine',
        title: `${name} weighs ${say(whole)}: one person may lift it`,
        advice: `The lifting equation allows ${say(alone.limit)}, held in front of the body from the floor to the hip.`,
        working: alone.working(whole),
      },
    ];
  const pair = way(input, { reach: AT_END, from: FLOOR, to: HIP, coupling: 'fair' }, 2);
  const straps = way(input, { reach: AT_END, from: STRAP, to: HIP, coupling: 'good' }, 2);
  const tip = way(input, { reach: AT_END, from: FLOOR, to: FLOOR + TIPPED, coupling: 'fair' }, 1);
  const heavier = Math.max(centre, width - centre);
  const tipped = work(liftAtOneEnd, { mass: emptied, length: width, centre: Math.min(centre, width - centre) });
  const lifted = tipped.result.value;
  const without = out.length > 0 ? ` with its ${listed(out)} out (${say(emptied)})` : '';
  const ways = [
    { load: whole, way: pair, title: 'two may lift it, one at each end' },
    { load: emptied, way: pair, title: `two may lift it${without}, one at each end` },
    { load: emptied, way: straps, title: `two may lift it${without} in carrying straps` },
  ];
  const found = ways.find(({ load, way: { limit } }) => load <= limit);
  const trolley =
    lifted <= tip.limit
      ? `Alone: tip up its lighter end, ${say(lifted)}${without && ' when emptied'} (one may tip ${say(tip.limit)}), push a trolley or rollers under it and roll it in.`
      : `To get a trolley under it one end is tipped up, ${say(lifted)}${without && ' when emptied'}; one may tip ${say(tip.limit)}, so lever it up with a long bar or tip it with two.`;
  const split = found
    ? undefined
    : splitFor(input, subject, (half, its) => weights(its, half).emptied <= Math.min(straps.limit, 2 * tip.limit));
  return [
    {
      ...base,
      verdict: 'caution',
      title: found
        ? `${name} weighs ${say(whole)}: ${found.title}`
        : `${name} weighs ${say(whole)}${without && `, ${say(emptied)} with its ${listed(out)} out`}: roll it in, it is too heavy to carry`,
      advice: `From the floor one person may lift ${say(alone.limit)} of it, two ${say(pair.limit)} with their hands under its ends and ${say(straps.limit)} in straps. ${trolley} Its centre of gravity lies ${saying(input).length(centre)} from its left end${heavier > width * 0.55 ? `: the ${centre > width / 2 ? 'right' : 'left'} end is the heavier` : ''}.${split ? ` Or ${split.title.replace(/^M/, 'm')}, which two can carry in straps.` : ''}`,
      working: found ? found.way.working(found.load) : tipped,
      ...(split && { cure: { title: split.title, edits: split.edits } }),
    },
  ];
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
