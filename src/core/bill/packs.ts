import { nearest } from '../issue/index.ts';
import { FEW, type Note } from '../notes/index.ts';
import { type PackItem, type Plan, printersFor } from '../plan/index.ts';
import { type Dimension, parseQuantity } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import { type Fitting, WALL_FIXING } from '../scene/index.ts';
import { fixingLength, isAsThick } from '../stock/index.ts';

/** So many packs of one kind, and what for. */
export interface PackNeed {
  readonly pack: PackItem;
  readonly packs: number;
  /** How much is needed and how much one holds, in the same unit ('' for pieces). */
  readonly need: number;
  readonly holds: number;
  readonly unit: string;
  /** What each piece of the plan needs of it. */
  readonly byPiece: ReadonlyMap<string, number>;
}

/** How much is needed, in the unit that the pack is sold in: `37.4 m` of what comes in rings of 20 m. Never less than is needed. */
export function amountAsSold(
  { pack, need, holds, unit }: Pick<PackNeed, 'pack' | 'need' | 'holds' | 'unit'>,
  plan: Pick<Plan, 'units'>,
): string {
  if (unit === '') return `${Math.ceil(need - SAME)}`;
  const sold = /^\s*(\d+(?:[.,]\d+)?)\s*([^\d\s][^\d]*?)\s*$/.exec(`${pack.holds}`);
  const count = sold ? Number(sold[1]!.replace(',', '.')) : 0;
  if (sold && count > 0) return `${roundedUp((need * count) / holds)} ${sold[2]}`;
  const print = printersFor(plan.units);
  return unit === 'mm'
    ? print.length(Math.ceil(need))
    : unit === 'mm²'
      ? print.area(need)
      : `${roundedUp(need)} ${unit}`;
}
/** To three figures, and no finer than hundredths: nobody buys by less. */
export function roundedUp(amount: number): string {
  const places = amount >= 100 ? 0 : amount >= 1 ? 1 : 2;
  return `${Number((Math.ceil(amount * 10 ** places - SAME) / 10 ** places).toFixed(places))}`;
}
/** Differences less than this are rounding. */
const SAME = 1e-6;

/**
 * Wood glue for a glued face: a wet film of 0.2 mm, squeeze-out included. Common practice (about 200 g/m²); end grain drinks more.
 */
export const GLUE_FILM = 0.2;
const MM3_PER_LITRE = 1e6;

interface Group {
  readonly key: string;
  readonly use: string;
  readonly packs: readonly PackItem[];
  readonly fittings: Fitting[];
}

/** Fittings gathered into packs as they are sold, whole packs only. What no pack serves for is noted. */
export function packNeeds(
  fittings: readonly Fitting[],
  plan: Plan,
): {
  readonly needs: readonly PackNeed[];
  readonly notes: readonly Note[];
  /** Uses that no pack of the stock serves, or none of which it is known how many. */
  readonly unserved: readonly string[];
} {
  const groups = new Map<string, Group>();
  for (const fitting of fittings) {
    const packs = serving(fitting, [plan.stock], () => servingPacks(fitting, plan));
    const key = [
      fitting.use,
      ...packs.map((p) => p.id),
      ...(fitting.lights || fitting.tiles ? [fitting.name] : []),
    ].join('|');
    const group = groups.get(key);
    if (group) group.fittings.push(fitting);
    else groups.set(key, { key, use: fitting.use, packs, fittings: [fitting] });
  }
  const needs: PackNeed[] = [];
  const notes: Note[] = [];
  const unserved: Group[] = [];
  const uncounted: string[] = [];
  for (const group of groups.values()) {
    const { packs, fittings: all } = group;
    if (packs.length === 0) {
      unserved.push(group);
      continue;
    }
    const ways = packs.map((pack) => needOf(pack, all));
    const sound = ways.filter((w) => w !== undefined);
    if (sound.length === 0) {
      uncounted.push(group.use);
      const [id, name] = [packs[0]!.id, packs[0]!.name ?? packs[0]!.id];
      const longest = Math.max(...all.map((f) => f.amount?.value ?? 0));
      const short = IN_ONE.has(group.use) && packs.some((p) => parseQuantity(`${p.holds}`, 'length').ok);
      notes.push({
        id: `pack-holds:${id}`,
        about: id,
        verdict: 'caution',
        ...(short
          ? {
              title: `${name} is shorter than what is needed in one length, ${printersFor(plan.units).notLess(longest)}`,
              advice: 'Add a pack that is long enough. Until then the total leaves it out and says so.',
            }
          : {
              title: `How much one ${name} holds cannot be compared with what is needed`,
              advice: `Write 'holds' as ${expected(all[0]!)}. Until then the total leaves it out and says so.`,
            }),
      });
      continue;
    }
    // The least money of those of which there are enough; what has no price comes last.
    const cost = (n: PackNeed): number =>
      n.pack.price === undefined ? Number.POSITIVE_INFINITY : n.packs * n.pack.price;
    const enough = sound.filter((n) => n.pack.count === undefined || n.packs <= n.pack.count);
    needs.push((enough.length > 0 ? enough : sound).reduce((best, n) => (cost(n) < cost(best) ? n : best)));
  }
  return {
    needs: joined(needs),
    notes: [
      ...unservedNotes(unserved, plan.stock.packs, new Set([...groups.values()].map(({ use }) => use.toLowerCase()))),
      ...notes,
    ],
    unserved: [...unserved.map(({ use }) => use), ...uncounted],
  };
}

function unservedNotes(
  unserved: readonly Group[],
  stock: readonly PackItem[],
  asked: ReadonlySet<string>,
): readonly Note[] {
  const open = unserved.filter(({ use }) => use === WALL_FIXING).map(openNote);
  const missing = unserved.filter(({ use }) => use !== WALL_FIXING);
  const forWhat = ({ fittings: [first, ...more] }: Group): string =>
    `${first!.name}${more.length > 0 ? ` and ${more.length} more` : ''}`;
  /** Packs of that use which do not serve: who has one wonders why it is not counted. */
  const unfit = ({ use }: Group): string => {
    const own = stock.filter((p) => p.use.toLowerCase() === use.toLowerCase()).map((p) => p.name ?? p.id);
    return own.length === 0 ? '' : `not ${own.join(', nor ')}`;
  };
  if (missing.length > FEW)
    return [
      {
        id: 'no-packs',
        about: missing[0]!.use,
        verdict: 'caution',
        title: `No pack of the stock serves for ${missing.length} things that are needed`,
        advice: `${missing.map((group) => `'use: ${group.use}' (${[forWhat(group), unfit(group) || []].flat().join('; ')})`).join(', ')}. Add a pack with its use and its price for each. Until then the total leaves them out and says so.`,
      },
      ...open,
    ];
  const without = missing.map((group): Note => {
    // a pack for what nothing asks for, all but a letter or two as what is asked for
    const slip = stock.findIndex(({ use }) => !asked.has(use.toLowerCase()) && nearest(use, [group.use]) !== undefined);
    const { use, name = stock[slip]?.id } = stock[slip] ?? {};
    return {
      id: `no-pack:${[group.use, group.fittings[0]!.stock ?? group.fittings[0]!.lights?.perMetre ?? group.fittings[0]!.tiles?.material ?? []].flat().join('/')}`,
      about: group.use,
      verdict: 'caution',
      title: `No pack of the stock serves as ${group.use}, for ${forWhat(group)}`,
      advice: `${unfit(group) && `It is of another size or kind: ${unfit(group)}. `}${use === undefined ? 'Add' : `${name} says 'use: ${use}', which nothing asks for: is ${group.use} meant? Else add`} a pack with 'use: ${group.use}' and its price. Until then the total leaves it out and says so.`,
      ...(use !== undefined && {
        cure: {
          title: `Let ${name} serve as ${group.use}`,
          edits: [{ op: 'set', path: ['stock', 'packs', slip, 'use'], value: group.use }],
        },
      }),
    };
  });
  return [...without, ...open];
}

/** No pack is missing, but what must be known before one is chosen. */
function openNote({ use, fittings }: Group): Note {
  const count = fittings.reduce((sum, fitting) => sum + fitting.count, 0);
  return {
    id: `no-pack:${use}`,
    about: use,
    verdict: 'caution',
    title: `${count === 1 ? 'A fixing' : `${count} fixings`} into the wall ${count === 1 ? 'is' : 'are'} not in the bill: what is behind it is not known`,
    advice:
      'Look what is behind it and write the framing of the wall: they are chosen and counted by it. Until then the total leaves them out and says so.',
  };
}

/** Two groups may end with the same pack: bought together, they share its last one. */
function joined(needs: readonly PackNeed[]): readonly PackNeed[] {
  const byPack = new Map<string, PackNeed>();
  for (const n of needs) {
    const known = byPack.get(n.pack.id);
    if (!known) byPack.set(n.pack.id, n);
    else {
      const byPiece = new Map(known.byPiece);
      for (const [piece, amount] of n.byPiece) byPiece.set(piece, (byPiece.get(piece) ?? 0) + amount);
      const need = known.need + n.need;
      // lengths of one kind are not cut from the rest of another
      const packs = IN_ONE.has(known.pack.use.toLowerCase()) ? known.packs + n.packs : packsFor(need, known.holds);
      byPack.set(n.pack.id, { ...known, need, packs, byPiece });
    }
  }
  return [...byPack.values()];
}

const serving = remember<Fitting, readonly PackItem[]>();
function servingPacks(fitting: Fitting, plan: Plan): readonly PackItem[] {
  const named = plan.stock.packs.filter((p) => p.id === fitting.stock);
  if (named.length > 0) return named;
  const use = fitting.use.toLowerCase();
  const all = plan.stock.packs.filter((p) => p.use.toLowerCase() === use);
  if (WALL_FIXINGS.has(use)) {
    const wanted = fitting.length;
    return all.filter((p) => {
      const has = fixingLength(p.name ?? p.id);
      const asLong = wanted === undefined || has === undefined || (has > wanted - 1 && has < wanted + LONGER);
      return asLong && isAsThick(p.name ?? p.id, fitting.diameter);
    });
  }
  if (fitting.longest !== undefined) {
    // Any screw serves, if it is short enough; the longest of those holds best. One that does not tell its length is left to the maker.
    const screws = [...all, ...plan.stock.packs.filter((p) => p.use.toLowerCase() === 'screw')];
    const lengths = new Map(screws.map((p) => [p, fixingLength(p.name ?? p.id)]));
    const fits = screws.filter((p) => (lengths.get(p) ?? 0) <= fitting.longest! + CLOSE);
    const best = Math.max(...fits.map((p) => lengths.get(p) ?? 0));
    return fits.filter((p) => (lengths.get(p) ?? best) >= best - CLOSE);
  }
  const near = AS_THICK[use];
  if (near !== undefined) {
    const wanted = fitting.diameter;
    return all.filter((p) => {
      const has = lengthsIn(p.name ?? p.id);
      return wanted === undefined || has.length === 0 || has.some((d) => Math.abs(d - wanted) <= near);
    });
  }
  const { lights } = fitting;
  if (lights)
    return all.filter((p) => {
      const told = (pattern: RegExp): number | undefined => {
        const [, number] = pattern.exec(p.name ?? p.id) ?? [];
        return number === undefined ? undefined : Number(number);
      };
      const [dense, volts] = [told(PER_METRE), told(VOLTS)];
      return (dense ?? lights.perMetre) === lights.perMetre && (volts ?? lights.volts) === lights.volts;
    });
  const { tiles } = fitting;
  if (tiles)
    return all.filter((p) => {
      const told = p.name ?? p.id;
      const sides = lengthsIn(spelt(told));
      const made = wordsOf(told);
      const asLarge = sides.length === 0 || sides.some((side) => Math.abs(side - tiles.side) <= TILE_CLOSE);
      return asLarge && (made.length === 0 || wordsOf(tiles.material).some((word) => made.includes(word)));
    });
  if (use !== 'drawer slide') return all;
  // Slides come by their length: where the pack names one, it must agree to 6 mm, since 14 in is sold as 350 mm.
  const wanted = fitting.length;
  return all.filter((p) => {
    const has = lengthIn(p.name ?? p.id);
    return wanted === undefined || has === undefined || Math.abs(has - wanted) <= 6;
  });
}
/**
 * What is sold by diameter × length: a shorter or a thinner one does not hold what was reckoned, one much longer meets what is in
 * the wall, a thicker one splits it.
 */
const WALL_FIXINGS: ReadonlySet<string> = new Set(['wood screw', 'lag screw', 'self-drilling screw', 'plug']);
/** mm. Common practice. */
const LONGER = 12;
/**
 * What comes by its thickness, and how near that must be, mm: the inch and the millimetre size of one rod, of which the next is further off;
 * a pin of 3/16 in is loose in a hole of 5 mm and still holds, one of 1/4 in does not go in; a washer for 1/4 in fits 6 mm. Timber comes by its
 * width, planed to within a few. Common practice.
 */
const AS_THICK: Readonly<Record<string, number>> = { rod: 1, 'shelf pin': 0.3, washer: 0.7, 'stud timber': 5 };
/** What the name of a reel tells of its lights: 60 to the metre, 144 LEDs/m, 5 V. One that tells nothing serves for any. */
const PER_METRE = /(\d+)\s*(?:lights|leds|pixels)?\s*(?:\/|per|to the|to a)\s*(?:m|metre|meter)\b/i;
const VOLTS = /(\d+)\s*V\b/;
/** What tiles are made of, told by a word of their name; one that tells none serves for any. */
const MADE_OF: readonly (readonly [of: string, word: RegExp])[] = [
  ['foam', /foam/i],
  ['wool', /glass|fibre|fiber|wool|mineral/i],
  ['cloth', /velour|cloth|curtain|drape/i],
  ['wood', /plywood|wood/i],
];
const wordsOf = (text: string): readonly string[] => MADE_OF.flatMap(([of, word]) => (word.test(text) ? [of] : []));
/** With the unit of the last beside each: 12 × 12 × 2 in. */
const spelt = (text: string): string =>
  text.replace(/(?:[\d.,/ -]+[×x*])+[\d.,/ -]+(mm|cm|in|")/g, (sizes, unit: string) =>
    sizes.replace(/\s*[×x*]/g, ` ${unit} ×`),
  );
/** Tiles of 12 in are sold as 300 mm, and of 2 ft as 600: mm. Common practice. */
const TILE_CLOSE = 10;
/** mm: lengths that are the same but for rounding. */
const CLOSE = 0.01;
function lengthIn(text: string): number | undefined {
  const match = /(\d+(?:[.,]\d+)?(?:[ -]\d+\/\d+)?)\s*(mm|cm|in|")/.exec(text);
  if (!match) return undefined;
  const read = parseQuantity(`${match[1]} ${match[2]}`, 'length');
  return read.ok ? read.value : undefined;
}

/** Every length that a name tells, mm: the thickness of a rod, and how long it is sold. */
const lengthsIn = (text: string): readonly number[] =>
  [...text.matchAll(/(\d+[ -]\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?)\s*(mm|cm|in|")/g)].flatMap(([, number, unit]) => {
    const read = parseQuantity(`${number} ${unit}`, 'length');
    return read.ok ? [read.value] : [];
  });

const DIMENSION: Readonly<Record<NonNullable<Fitting['amount']>['unit'], Dimension>> = {
  mm: 'length',
  'mm²': 'area',
  L: 'liquid volume',
  kg: 'mass',
};
const expected = (fitting: Fitting): string =>
  fitting.amount === undefined
    ? 'a count'
    : {
        mm: 'a length, such as 20 m',
        'mm²': 'an area or a volume, such as 750 ml',
        L: 'a volume, such as 750 ml',
        kg: 'a mass, such as 1 kg',
      }[fitting.amount.unit];

const packsFor = (need: number, holds: number): number => Math.max(1, Math.ceil(need / holds - 1e-9));

/** How many of one pack serve for some fittings of one use; undefined when what it holds cannot be compared with what they need. */
function needOf(pack: PackItem, fittings: readonly Fitting[]): PackNeed | undefined {
  const unit = fittings.find((f) => f.amount)?.amount?.unit;
  const byPiece = new Map<string, number>();
  const count = (amountOf: (f: Fitting) => number): number => {
    for (const f of fittings) byPiece.set(f.piece, (byPiece.get(f.piece) ?? 0) + amountOf(f));
    return [...byPiece.values()].reduce((a, b) => a + b, 0);
  };
  // so many rolls for so many pieces would say nothing of how long they are
  if (typeof pack.holds === 'number' && fittings[0]!.use === 'edge band') return undefined;
  if (unit === undefined || typeof pack.holds === 'number') {
    const holds = typeof pack.holds === 'number' ? pack.holds : 1;
    if (!(holds > 0)) return undefined;
    const need = count((f) => f.count);
    return { pack, packs: packsFor(need, holds), need, holds, unit: '', byPiece };
  }
  const amount = (f: Fitting): number => f.count * (f.amount?.value ?? 0);
  const held = parseQuantity(pack.holds, DIMENSION[unit]);
  if (unit === 'mm²' && !held.ok) {
    const volume = parseQuantity(pack.holds, 'liquid volume');
    if (!volume.ok || !(volume.value > 0)) return undefined;
    const need = count((f) => (amount(f) * GLUE_FILM) / MM3_PER_LITRE);
    return { pack, packs: packsFor(need, volume.value), need, holds: volume.value, unit: 'L', byPiece };
  }
  if (!held.ok || !(held.value > 0)) return undefined;
  // A canonical area is in m².
  const holds = unit === 'mm²' ? held.value * 1e6 : held.value;
  const need = count(amount);
  if (IN_ONE.has(fittings[0]!.use)) {
    const lengths = fittings.flatMap((f) => Array.from({ length: f.count }, () => f.amount?.value ?? 0));
    // a strip longer than its reel goes on with the next one; it is cut with scissors, at its marks
    const bars = fittings[0]!.lights
      ? barsFor(
          lengths.flatMap((length) => cutAt(length, holds)),
          holds,
          0,
        )
      : barsFor(lengths, holds);
    return bars === undefined ? undefined : { pack, packs: bars, need, holds, unit, byPiece };
  }
  return { pack, packs: packsFor(need, holds), need, holds, unit, byPiece };
}

/** What is not pieced together: each length out of one bar or ring. */
const IN_ONE: ReadonlySet<string> = new Set([
  'rod',
  'wall plate',
  'stud timber',
  'signal cable',
  'mains cable',
  'plug cord',
  'strip light',
]);
/** A hacksaw takes about this, mm. Common practice. */
const HACKSAW = 1.5;
/** Whole bars or rings for lengths that may not be pieced together, each put into the first bar with room, longest first. */
function barsFor(lengths: readonly number[], bar: number, cut = HACKSAW): number | undefined {
  const room: number[] = [];
  for (const length of lengths.toSorted((a, b) => b - a)) {
    if (length > bar) return undefined;
    const i = room.findIndex((r) => r >= length);
    if (i >= 0) room[i] = room[i]! - length - cut;
    else room.push(bar - length - cut);
  }
  return room.length;
}

/** A length in whole reels, and what is left of it. */
const cutAt = (length: number, reel: number): readonly number[] => {
  const whole = Math.floor(length / reel + SAME);
  const rest = length - whole * reel;
  return [...Array.from({ length: whole }, () => reel), ...(rest > SAME ? [rest] : [])];
};
