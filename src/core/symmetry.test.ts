import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Answer, unlike, workedOut } from './answers.testing.ts';
import type { Length, Unspelt } from './casework/random.testing.ts';
import { anyHouse, type Fields, type House, less, planOfHouse, plus } from './houses.testing.ts';
import { PIECE_KINDS, type Plan } from './plan/index.ts';

/** Of the calendar, which of several good ones is found first is nobody's promise: its end is held to where none can be better. */
const ARRANGED: ReadonlySet<string> = new Set(['deadline', 'helper-days']);

/** Two that meet are told in the order of their names. */
const pairOf = (id: string): string =>
  id.startsWith('meets:') ? `meets:${id.slice(6).split('/').sort().join('/')}` : id;

/** What is found out about a plan, by what it is about. */
function found({ parts, notes, bill, tally, cuts, calendar, issues }: Answer) {
  const proven = cuts.every(({ answer }) => answer.status === 'optimal');
  return {
    issues: issues.length,
    parts: new Map(parts.map(({ id, size, cut, role, stock }) => [id, { size, cut, role, stock }])),
    notes: new Map(
      notes
        .filter(({ id }) => !ARRANGED.has(id))
        .map(({ id, verdict, working }) => [pairOf(id), { verdict, figure: working?.result.value }]),
    ),
    // which of two cutting plans is found first is nobody's promise, unless none can be better
    money: proven ? { net: bill.net, known: bill.known, panels: tally.panels, boards: tally.boards } : undefined,
    bounds: cuts.map(({ answer }) => ('bound' in answer ? answer.bound : -1)).sort((a, b) => a - b),
    packs: bill.lines
      .filter((l) => l.kind === 'pack')
      .map((l) => `${l.count} × ${l.id}`)
      .sort(),
    mass: tally.mass,
    heaviest: tally.heaviest,
    end: proven && calendar.status === 'optimal' ? calendar.finish : undefined,
  };
}

const shuffled = <T>(list: readonly T[], turns: readonly number[]): readonly T[] =>
  list
    .map((item, i) => [turns[i % turns.length]!, item] as const)
    .toSorted((a, b) => a[0] - b[0])
    .map(([, item]) => item);

/** A plan with other names for its pieces, walls and services, and for all that leads to them. */
function renamed<T>(value: T, names: ReadonlyMap<string, string>, key = ''): T {
  if (typeof value === 'string') return (NAMED.has(key) ? (names.get(value) ?? value) : value) as T;
  if (Array.isArray(value)) return value.map((v) => renamed(v, names, key)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, renamed(v, names, k)])) as T;
}
const NAMED = new Set(['id', 'wall', 'along', 'supply', 'after', 'on', ...PIECE_KINDS]);

/** Light goes round the room until a thousandth is left to share out, and which surface has its turn first goes by their order. */
const ROUNDS = 1e-3;
const LIT = /^\/notes\/(colour-cast|exposure|dark-face|glare)/;

describe('a plan', () => {
  it('with its pieces in another order is answered alike', () =>
    fc.assert(
      fc.property(anyHouse, fc.array(fc.nat(99), { minLength: 9, maxLength: 9 }), (house, turns) => {
        const plain = found(workedOut(planOfHouse(house), 20));
        const other = found(workedOut(planOfHouse({ ...house, pieces: shuffled(house.pieces, turns) }), 20));
        expect(unlike(other, plain, 1e-9).filter((line) => !LIT.test(line))).toEqual([]);
        expect(unlike(other, plain, ROUNDS)).toEqual([]);
      }),
      { numRuns: 5, endOnFailure: true },
    ));

  it('with its pieces and walls called otherwise is answered alike', () =>
    fc.assert(
      fc.property(anyHouse, (house) => {
        const plan = planOfHouse(house);
        const names = [
          ...house.pieces.map((p) => `${Object.values(p)[0]}`),
          'north',
          'east',
          'south',
          'west',
          'outlet',
        ];
        const other = renamed(plan, new Map(names.map((name, i) => [name, `${names.length - i} Ø`])));
        const back = (text: string) =>
          names.reduce((said, name, i) => said.replaceAll(`${names.length - i} Ø`, name), text);
        const listed = (answer: Answer) => {
          const { parts, notes, ...rest } = found(answer);
          return { ...rest, parts: [...parts], notes: [...notes] };
        };
        const again = (text: string): ReturnType<typeof listed> => {
          const read: ReturnType<typeof listed> = JSON.parse(text);
          return { ...read, notes: read.notes.map(([id, note]) => [pairOf(id), note]) };
        };
        const told = (of: Plan) => JSON.stringify(listed(workedOut(of)));
        expect(unlike(again(back(told(other))), again(told(plan)))).toEqual([]);
      }),
      { numRuns: 5, endOnFailure: true },
    ));
});

const byRow =
  <T>(rowOf: (item: T) => readonly (string | number)[]) =>
  (a: T, b: T): number => {
    const [row, other] = [rowOf(a), rowOf(b)];
    const i = row.findIndex((value, k) => value !== other[k]);
    return i < 0 ? 0 : row[i]! < other[i]! ? -1 : 1;
  };

const OTHER: Readonly<Record<string, string>> = { left: 'right', right: 'left', east: 'west', west: 'east' };
const swapped = (name: Unspelt | undefined) => OTHER[`${name}`] ?? name;
function mirroredBay(bay: Fields): Fields {
  const each = (bays: Unspelt | undefined) => (bays as readonly Fields[] | undefined)?.map(mirroredBay);
  return { ...bay, columns: each(bay.columns)?.toReversed(), rows: each(bay.rows), door: swapped(bay.door) };
}
/** The house as it is seen in a mirror: west for east, left for right. */
function mirroredHouse(house: House): House {
  const { width, depth } = house;
  const alongOf = (wall: Unspelt | undefined) => (wall === 'east' || wall === 'west' ? depth : width);
  const turned = (piece: Fields): Fields => {
    const { wall, from, at, size, inside } = piece;
    const wide = (size as { width?: Length } | undefined)?.width;
    return {
      ...piece,
      ...(wall !== undefined && wide && { wall: swapped(wall), from: less(less(alongOf(wall), from as Length), wide) }),
      ...(at !== undefined && wide && { at: standing(at as Fields, wide) }),
      ...(inside !== undefined && { inside: mirroredBay(inside as Fields) }),
    };
  };
  // its rear left corner is where the rear right one was
  const standing = ({ x, y, turn = 0 }: Fields, wide: Length): Fields => {
    const quarter = Number(turn) / 90;
    const by = (n: number): Length => ({ eighths: n * wide.eighths });
    return {
      x: less(less(width, x as Length), by([1, 0, -1, 0][quarter]!)),
      y: plus(y as Length, by([0, 1, 0, -1][quarter]!)),
      turn: -Number(turn),
    };
  };
  return {
    ...house,
    mirrored: true,
    pieces: house.pieces.map(turned),
    openings: house.openings.map((o) => ({
      ...o,
      wall: swapped(o.wall),
      from: less(less(alongOf(o.wall), o.from as Length), o.width as Length),
      hinge: swapped(o.hinge),
    })),
    services: house.services.map((s) => ({ ...s, at: less(alongOf(s.wall), s.at as Length) })),
  };
}

/** A lining of several panels is laid from its left, so that what is left over stands at its right in the mirror as well. */
const isOnePanel = ({ pieces }: House): boolean =>
  pieces.every(({ lining, size }) => lining === undefined || (size as { width: Length }).width.eighths <= 48 * 128);

/** What shares leave over goes to the first column, and faces are cut into patches from their left: ticks of a part, and a hundredth of what is reckoned in patches. */
const MIRRORED = 0.01;

describe('a room seen in a mirror', () => {
  it('asks for the same money, parts, strength, time, sound and light', () =>
    fc.assert(
      fc.property(anyHouse.filter(isOnePanel), (house) => {
        const seen = ({ parts, notes, ...rest }: ReturnType<typeof found>) => ({
          ...rest,
          parts: [...parts.values()].toSorted(byRow((p) => [p.role, p.stock, p.size.length, p.size.width])),
          notes: [...notes]
            .map(([id, note]) => ({ kind: id.split(':')[0]!, ...note }))
            .toSorted(byRow((n) => [n.kind, n.verdict, n.figure ?? 0])),
        });
        const plain = found(workedOut(planOfHouse(house), 20));
        const mirror = found(workedOut(planOfHouse(mirroredHouse(house)), 20));
        expect(unlike(seen(mirror), seen(plain), MIRRORED)).toEqual([]);
      }),
      { numRuns: 5, endOnFailure: true },
    ));
});
