import fc from 'fast-check';
import type { CasePiece, Plan } from '../plan/index.ts';
import { buildCase } from './case.ts';
import { AT_ORIGIN, firstOf, planOf } from './plan.testing.ts';

/** A length not yet spelt, in 1/128 in: exact in inches and in millimetres alike (0.1984375 mm). */
export interface Length {
  readonly eighths: number;
}
/** A mass not yet spelt, in whole pounds: 0.45359237 kg exactly. */
interface Mass {
  readonly pounds: number;
}
export type System = 'mm' | 'in';
export type Unspelt =
  | Length
  | Mass
  | string
  | number
  | boolean
  | readonly Unspelt[]
  | { readonly [key: string]: Unspelt | undefined };

export interface UnspeltPlan {
  readonly piece: { readonly [key: string]: Unspelt | undefined };
  readonly make: Unspelt;
  readonly panels: readonly Unspelt[];
  readonly boards: readonly Unspelt[];
  readonly packs: readonly Unspelt[];
}

const isMass = (value: object): value is Mass => 'pounds' in value;
const isLength = (value: object): value is Length => 'eighths' in value;
const decimal = (n: number, perUnit: bigint, digits: number) => {
  const whole = `${BigInt(n) * perUnit}`.padStart(digits + 1, '0');
  return `${whole.slice(0, -digits)}.${whole.slice(-digits)}`;
};
/** The same length or mass as a maker in either system would write it, exactly. */
export function spelt(value: Unspelt | undefined, unit: System): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((v) => spelt(v, unit));
  if (isMass(value)) return unit === 'mm' ? `${decimal(value.pounds, 45_359_237n, 8)} kg` : `${value.pounds} lb`;
  if (isLength(value)) {
    if (unit === 'mm') return `${decimal(value.eighths, 1_984_375n, 7)} mm`;
    const [inches, over] = [Math.floor(value.eighths / 128), value.eighths % 128];
    return over === 0 ? `${inches}"` : inches === 0 ? `${over}/128"` : `${inches}-${over}/128"`;
  }
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, v]) => v !== undefined)
      .map(([k, v]) => [k, spelt(v, unit)]),
  );
}

export function readUnspelt(
  unspelt: UnspeltPlan,
  unit: 'mm' | 'in' = 'mm',
): { readonly plan: Plan; readonly piece: CasePiece } {
  const plan = planOf(
    {
      pieces: [spelt(unspelt.piece, unit)],
      make: spelt(unspelt.make, unit),
      panels: unspelt.panels.map((p) => spelt(p, unit)),
      boards: unspelt.boards.map((p) => spelt(p, unit)),
      packs: unspelt.packs.map((p) => spelt(p, unit)),
    },
    unit,
  );
  return { plan, piece: firstOf(plan, 'case') };
}

export const between = (low: number, high: number): fc.Arbitrary<Length> =>
  fc.integer({ min: Math.round(low * 128), max: Math.round(high * 128) }).map((eighths) => ({ eighths }));
/** Left out once in so many times; once in one would be always. */
export const maybe = <T>(arb: fc.Arbitrary<T>, leftOutOnceIn: 2 | 5 | 6 | 9 = 2) =>
  fc.option(arb, { nil: undefined, freq: leftOutOnceIn });
const share = fc.constantFrom('1*', '2*', '*', '0.5*', '3*', '1.25*');

/** Sizes along a division: shares, with here and there a fixed size; at least one share, so that they always add up. */
const along = (count: number, low: number, high: number): fc.Arbitrary<readonly Unspelt[]> =>
  fc
    .tuple(
      fc.array(fc.oneof({ weight: 3, arbitrary: share }, { weight: 1, arbitrary: between(low, high) }), {
        minLength: count,
        maxLength: count,
      }),
      fc.nat({ max: count - 1 }),
    )
    .map(([sizes, shareAt]) => sizes.map((size, i) => (i === shareAt && typeof size !== 'string' ? '1*' : size)));

export type BayUnspelt = { readonly [key: string]: Unspelt | undefined };
const door = fc.constantFrom('left', 'right', 'pair', 'up', 'down');
const style = maybe(fc.constantFrom('inset', 'overlay'));

const leaf: fc.Arbitrary<BayUnspelt> = fc.oneof(
  fc.record({
    open: maybe(fc.constant(true)),
    shelves: maybe(fc.integer({ min: 0, max: 3 })),
    fixed: maybe(fc.integer({ min: 0, max: 2 })),
  }),
  fc.record({
    fixed: fc.tuple(between(4, 6), between(8, 10)).map((tops) => [...tops]),
    shelves: maybe(fc.integer({ min: 0, max: 2 })),
  }),
  fc
    .integer({ min: 1, max: 3 })
    .chain((n) => along(n, 4, 7))
    .map((open) => ({ open })),
  fc.record({ door, style, shelves: maybe(fc.integer({ min: 0, max: 3 })) }),
  fc.record({ drawers: fc.integer({ min: 1, max: 3 }), style }),
  fc.record({ drawers: fc.integer({ min: 2, max: 3 }).chain((n) => along(n, 5, 8)), style }),
  fc.constant({}),
);

export function bayOf(depth: number): fc.Arbitrary<BayUnspelt> {
  if (depth === 0) return leaf;
  const inner = bayOf(depth - 1);
  const division = (key: 'columns' | 'rows', size: 'width' | 'height', low: number, high: number) =>
    fc.integer({ min: 1, max: 3 }).chain((n) =>
      fc
        .tuple(along(n, low, high), fc.array(inner, { minLength: n, maxLength: n }), maybe(door), style)
        .map(([sizes, bays, doorOf, styleOf]) => ({
          [key]: bays.map((bay, i) => ({ ...bay, [size]: sizes[i] })),
          ...(doorOf && { door: doorOf, style: styleOf }),
        })),
    );
  return fc.oneof(leaf, division('columns', 'width', 6, 14), division('rows', 'height', 6, 10));
}

export const anyMake: fc.Arbitrary<BayUnspelt> = fc.record({
  panel: fc.constantFrom('ply', 'thick'),
  joint: maybe(fc.constantFrom('butt', 'rabbet', 'dado'), 5),
  let: maybe(between(1 / 8, 1 / 4)),
  capped: maybe(fc.boolean(), 5),
  back: maybe(
    fc.record({
      kind: fc.constantFrom('applied', 'rabbeted', 'grooved', 'none'),
      panel: maybe(fc.constantFrom('thin', 'ply'), 5),
      inset: maybe(between(0, 1)),
    }),
    6,
  ),
  style: maybe(fc.constantFrom('inset', 'overlay'), 5),
  gap: maybe(between(1 / 16, 1 / 4)),
  reveal: maybe(between(0, 1 / 4)),
  front: maybe(fc.constantFrom('face', 'thick')),
  frame: maybe(
    fc.oneof(
      fc.constant('none'),
      fc.record({
        board: fc.constantFrom('one-by-two', 'ash'),
        stile: maybe(between(1.25, 1.5)),
        rail: maybe(between(1.25, 1.5)),
      }),
    ),
  ),
  band: maybe(fc.constantFrom('none', 'tape', 'iron')),
  setback: maybe(between(0, 1)),
  play: maybe(between(0, 1 / 4)),
  drawer: maybe(
    fc.record({
      panel: maybe(fc.constant('half')),
      bottom: maybe(fc.constantFrom('thin', 'half')),
      side: maybe(between(1 / 4, 1 / 2)),
      above: maybe(between(0, 1 / 2)),
      below: maybe(between(0, 1 / 2)),
      rear: maybe(between(0, 1)),
      slides: maybe(
        fc.constant([{ eighths: 6 * 128 }, { eighths: 10 * 128 }, { eighths: 14 * 128 }, { eighths: 22 * 128 }]),
      ),
      groove: maybe(between(1 / 4, 1 / 2)),
    }),
  ),
});

/** The back in a groove deep enough for rails behind it. */
const railed = (own: BayUnspelt | undefined): BayUnspelt => ({
  ...own,
  back: { ...(own?.back as BayUnspelt | undefined), kind: 'grooved', inset: { eighths: 128 } },
});

/** Cases of every kind the plan can say, sized so that most can be built. */
export const anyCase: fc.Arbitrary<UnspeltPlan> = fc
  .record({
    width: between(24, 96),
    height: between(24, 96),
    depth: between(14, 26),
    inside: maybe(bayOf(2), 9),
    usual: anyMake,
    own: maybe(anyMake.map(({ panel: _, ...rest }) => rest)),
    toe: maybe(
      fc.record({
        height: between(2, 5),
        setback: maybe(between(1, 4)),
        kind: maybe(fc.constantFrom('notch', 'plinth')),
        board: maybe(fc.constantFrom('one-by-six', 'ply')),
      }),
    ),
    top: maybe(
      fc.record({
        stock: fc.constantFrom('thick', 'ply'),
        front: maybe(between(0, 2)),
        left: maybe(between(0, 2)),
        right: maybe(between(0, 2)),
      }),
    ),
    ends: maybe(
      fc.record({ left: maybe(fc.constantFrom('face', 'thin')), right: maybe(fc.constantFrom('face', 'thin')) }),
    ),
    // only of a back in a groove deep enough for them
    rails: maybe(
      fc.record({
        stock: fc.constantFrom('one-by-two', 'ply', 'thin'),
        height: maybe(between(1, 1.5)),
        at: maybe(fc.constantFrom('both', 'top')),
      }),
    ),
    fillers: maybe(fc.record({ left: maybe(between(1 / 2, 3)), right: maybe(between(1 / 2, 3)) })),
    // 23/32 performance category, recommended label thickness 0.703 in (US PS 1): never the nominal 3/4
    ply: fc.constantFrom<Length>({ eighths: 90 }, { eighths: 96 }, { eighths: 91 }),
    thin: between(1 / 8, 3 / 8),
    half: between(3 / 8, 5 / 8),
    tape: fc.constantFrom<Length>({ eighths: 2 }, { eighths: 10 }, { eighths: 5 }),
  })
  .map(({ width, height, depth, inside, usual, own, toe, top, ends, rails, fillers, ply, thin, half, tape }) => ({
    piece: {
      case: 'case',
      size: { width, height, depth },
      toe,
      top,
      ends,
      rails,
      fillers,
      inside,
      make: rails ? railed(own) : own,
    },
    make: usual,
    panels: [
      { id: 'ply', thickness: ply },
      { id: 'thick', thickness: { eighths: 125 } },
      { id: 'face', thickness: { eighths: 80 }, grain: 'none' },
      { id: 'half', thickness: half },
      { id: 'thin', thickness: thin },
    ],
    boards: [
      { id: 'one-by-two', nominal: '1x2' },
      { id: 'one-by-six', nominal: '1x6' },
      { id: 'ash', thickness: { eighths: 104 }, width: { eighths: 384 } },
    ],
    packs: [
      { id: 'tape', use: 'edge band', thickness: tape },
      { id: 'iron', use: 'edge band' },
    ],
  }));

export const thicknesses = (plan: Plan): ReadonlyMap<string, number> =>
  new Map([
    ...plan.stock.panels.map((p) => [p.id, p.thickness as number] as const),
    ['one-by-two', 19.05] as const,
    ['one-by-six', 19.05] as const,
    ['ash', (104 / 128) * 25.4] as const,
  ]);

/** Cases with some lengths blown up or shrunk, some names of stock wrong: most of them cannot be built. */
export const anyWildCase: fc.Arbitrary<() => { readonly plan: Plan; readonly piece: CasePiece }> = fc
  .tuple(
    anyCase,
    fc.array(fc.constantFrom(1, 1, 1, 1, 1, 1, 1, 1, 0.02, 0.3, 0.6, 2, 7, 40), { minLength: 5, maxLength: 23 }),
    fc.array(fc.constantFrom(true, true, true, true, true, true, true, false), { minLength: 3, maxLength: 11 }),
    fc.boolean(),
  )
  .map(([unspelt, factors, known, stockToo]) => () => {
    let [lengths, names] = [0, 0];
    const scramble = (value: Unspelt | undefined): Unspelt | undefined => {
      if (value === 'ply' || value === 'face' || value === 'ash') return known[names++ % known.length] ? value : 'plie';
      if (typeof value !== 'object' || value === null) return value;
      if (Array.isArray(value)) return value.map((v) => scramble(v)!);
      if (isLength(value))
        return { eighths: Math.max(1, Math.round(value.eighths * factors[lengths++ % factors.length]!)) };
      return Object.fromEntries(
        Object.entries(value).map(([k, v]) => [k, k === 'case' || k === 'id' ? v : scramble(v)]),
      );
    };
    const wild = { ...unspelt, piece: scramble(unspelt.piece) as UnspeltPlan['piece'], make: scramble(unspelt.make)! };
    return readUnspelt(stockToo ? { ...wild, panels: wild.panels.map((p) => scramble(p)!) } : wild);
  });

/** A random case as it is built; undefined when it cannot be built as asked. */
export function builtOf(unspelt: UnspeltPlan) {
  const { plan, piece } = readUnspelt(unspelt);
  const { placed, issues } = buildCase(piece, plan, AT_ORIGIN);
  return issues.length > 0 ? undefined : { plan, piece, placed };
}
