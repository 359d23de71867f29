import fc from 'fast-check';
import {
  anyMake,
  bayOf,
  between,
  type Length,
  maybe,
  type System,
  spelt,
  type Unspelt,
} from './casework/random.testing.ts';
import { type Plan, planOf } from './plan/index.ts';

/** Whole rooms of random pieces with all that can be asked of them, no length spelt yet. */
export type Fields = { readonly [key: string]: Unspelt | undefined };
export interface House {
  readonly width: Length;
  readonly depth: Length;
  readonly framing: Fields;
  readonly openings: readonly Fields[];
  readonly services: readonly Fields[];
  readonly make: Fields;
  readonly finish: Fields | undefined;
  readonly pieces: readonly Fields[];
  /** Its studs are measured from the other end of each wall. */
  readonly mirrored?: boolean;
}

export const length = (inches: number): Length => ({ eighths: Math.round(inches * 128) });
const pounds = (low: number, high: number) => fc.integer({ min: low, max: high }).map((n) => ({ pounds: n }));
export const plus = (a: Length, b: Length): Length => ({ eighths: a.eighths + b.eighths });
export const less = (a: Length, b: Length): Length => ({ eighths: a.eighths - b.eighths });

const size = (w: [number, number], h: [number, number], d: [number, number]) =>
  fc.record({ width: between(...w), height: between(...h), depth: between(...d) });
const COLOURS = ['#d9c79b', '#33463d', '#9c7a55'];

const anyCase = fc.record({
  size: size([16, 44], [20, 84], [12, 20]),
  inside: bayOf(1),
  toe: maybe(fc.record({ height: between(3, 4), setback: between(1, 3) })),
});
const anyShelf = fc.record({
  size: size([24, 46], [1.75, 3], [7, 11]),
  above: between(54, 74),
  from: between(0, 50),
  load: pounds(4, 30),
});
const anyDisplay = fc.record({
  size: size([20, 48], [14, 28], [1, 3]),
  from: between(0, 50),
  above: between(30, 50),
  out: between(2, 4),
  mass: pounds(8, 50),
});
/** A case that hangs, and what stands on shelves and on the tops of cases: sometimes more than they are reckoned with. */
const anyHung = fc.record({
  size: size([16, 40], [14, 28], [9, 14]),
  from: between(0, 60),
  above: between(46, 64),
  inside: bayOf(1),
});
const CARRIES = ['books', 'gear', 'light things'] as const;
const anyStood = fc.record({
  on: fc.constantFrom('shelf', 'hung', 'case 1'),
  size: size([6, 16], [4, 12], [5, 9]),
  mass: fc.oneof(pounds(2, 40), pounds(40, 220)),
  upon: maybe(pounds(2, 60)),
});
const anyLining = fc.record({
  size: fc.record({ width: between(20, 60), height: between(20, 60) }),
  from: between(0, 40),
  above: between(10, 40),
});
const anyAbsorber = fc.record({
  wall: fc.constantFrom('east', 'west'),
  from: between(4, 20),
  above: between(30, 40),
  across: fc.integer({ min: 1, max: 4 }),
  up: fc.integer({ min: 1, max: 3 }),
});
const spot = { x: between(36, 80), y: between(40, 80) };
const anyThing = fc.record({ ...spot, size: size([10, 30], [10, 50], [10, 30]), mass: pounds(5, 80) });
const anySeat = fc.record({ ...spot, turn: fc.constantFrom(0, 90, 180, 270) });
const anyLamp = fc.record({ ...spot, lumens: fc.integer({ min: 800, max: 6000 }) });
const anyStrip = fc.record({
  over: fc.boolean(),
  level: fc.constantFrom(0.3, 0.6, 1),
  lumens: fc.constantFrom(300, 500),
});

const screws = { 'timber stud': 'wood screw', 'steel stud': 'self-drilling screw', masonry: 'plug' } as const;
/** What a plan leaves out is filled with what is sold, and measured, where its units are used; so these say it. */
const fixed = (kind: keyof typeof screws): Fields => ({
  kind: screws[kind],
  diameter: length(kind === 'masonry' ? 3 / 8 : 3 / 16),
  length: length(3),
  ...(kind === 'masonry' && { rated: { pull: { pounds: 600 }, shear: { pounds: 700 } } }),
});

/** Rooms as they are measured, in 1/128 in. */
export const anyHouse: fc.Arbitrary<House> = fc
  .record({
    width: between(120, 200),
    depth: between(110, 170),
    kind: fc.constantFrom<keyof typeof screws>('timber stud', 'steel stud', 'masonry'),
    first: between(4, 14),
    make: anyMake,
    start: fc.oneof(between(0, 12), between(0, 3)),
    cases: fc.array(anyCase, { minLength: 1, maxLength: 2 }),
    shelf: maybe(anyShelf),
    display: maybe(anyDisplay),
    lining: maybe(anyLining),
    absorber: maybe(anyAbsorber),
    thing: maybe(anyThing),
    hung: maybe(anyHung),
    stood: fc.array(anyStood, { maxLength: 3 }),
    carries: maybe(fc.constantFrom(...CARRIES)),
    lamps: fc.array(anyLamp, { minLength: 1, maxLength: 2 }),
    set: maybe(fc.record({ seat: anySeat, camera: fc.record({ above: between(40, 60), focal: between(0.8, 2) }) })),
    strip: maybe(anyStrip),
    door: between(1, 60),
    casing: fc.constantFrom(0, 2, 3.5),
    outlet: between(6, 90),
    window: maybe(between(1, 40)),
    finish: maybe(fc.record({ coats: fc.integer({ min: 1, max: 3 }), scribe: maybe(fc.constantFrom('cover', 'ash')) })),
    colour: fc.constantFrom(...COLOURS),
  })
  .map((drawn) => {
    const { width, depth, kind, cases, shelf, display, lining, absorber, thing, lamps, set, strip, finish } = drawn;
    const { hung, stood, carries } = drawn;
    const there = { shelf, hung, 'case 1': true };
    const fix = fixed(kind);
    let at = drawn.start;
    const run = cases.map((each, i) => {
      const from = at;
      at = plus(at, each.size.width);
      const heights = [less(each.size.height, length(2))];
      return { case: `case ${i + 1}`, wall: 'north', from, carries, ...each, fix: { ...fix, heights } };
    });
    const pieces: (Fields | undefined)[] = [
      ...run,
      shelf && {
        ...{ shelf: 'shelf', wall: 'north', skin: 'thin', core: 'half', ...shelf, fix },
        ...{ rods: { diameter: length(1 / 2), length: length(6), count: 2 }, play: length(1 / 2) },
      },
      display && { display: 'display', wall: 'south', ...display, fix },
      lining && { lining: 'lining', wall: 'south', panel: 'face', ...lining, fix },
      absorber && {
        ...{
          absorber: 'absorber',
          wall: absorber.wall,
          from: absorber.from,
          above: absorber.above,
          backing: 'thin',
          fix,
        },
        size: { width: length(12 * absorber.across), height: length(12 * absorber.up), depth: length(2) },
      },
      thing && {
        thing: 'thing',
        at: { x: thing.x, y: thing.y },
        size: thing.size,
        mass: thing.mass,
        colour: '#6b4a2f',
      },
      hung && {
        ...{ case: 'hung', wall: 'east', carries, ...hung },
        fix: { ...fix, heights: [length(2), less(hung.size.height, length(2))] },
      },
      ...stood.flatMap((each, i) => {
        if (!there[each.on]) return [];
        const { on, size, mass, upon } = each;
        const colour = '#6b4a2f';
        return [
          { thing: `stood ${i + 1}`, on, size, mass, colour },
          upon && { thing: `upon ${i + 1}`, on: `stood ${i + 1}`, size, mass: upon, colour },
        ];
      }),
      ...lamps.map((lamp, i) => ({
        ...{ lamp: `lamp ${i + 1}`, at: { x: lamp.x, y: lamp.y }, lumens: lamp.lumens },
        size: { width: length(16), height: length(2), depth: length(16) },
      })),
      set && { seat: 'seat', at: { x: set.seat.x, y: set.seat.y, turn: set.seat.turn }, size: SEAT },
      set && {
        ...{ camera: 'camera', at: { x: length(60), y: length(96), turn: 180 }, ...set.camera },
        size: { width: length(5), height: length(4), depth: length(4) },
      },
      strip && {
        ...{ strip: 'strip', along: shelf && strip.over ? 'shelf' : 'case 1', supply: 'outlet' },
        ...{ level: strip.level, lumens: strip.lumens, size: { height: length(3 / 8), depth: length(5 / 8) } },
      },
    ];
    return {
      width,
      depth,
      framing:
        kind === 'masonry'
          ? { kind, masonry: 'solid brick', board: length(1 / 2) }
          : { kind, at: studs(drawn.first, width), board: length(1 / 2), ...(kind === 'steel stud' && { mils: 33 }) },
      openings: [
        {
          id: 'door',
          wall: 'south',
          kind: 'door',
          from: drawn.door,
          width: length(30),
          height: length(78),
          hinge: 'left',
          trim: length(drawn.casing),
        },
        ...(drawn.window
          ? [{ id: 'window', wall: 'west', kind: 'window', from: drawn.window, ...WINDOW, trim: length(2) }]
          : []),
      ],
      services: [{ id: 'outlet', wall: 'north', kind: 'outlet', at: drawn.outlet, height: length(12) }],
      make: drawn.make,
      finish: finish && { skirting: 'one-by-six', walls: 'all', ...finish },
      pieces: pieces.filter((piece) => piece !== undefined),
    };
  });
const SEAT = { width: length(20), height: length(18), depth: length(20) };
const WINDOW = { width: length(30), height: length(40), sill: length(36) };
const studs = (first: Length, along: Length): readonly Length[] =>
  Array.from({ length: 20 }, (_, i) => plus(first, length(16 * i))).filter((at) => at.eighths < along.eighths - 128);

const sold = { supplier: 'mill', date: '2026-11-03' };
const panel = (id: string, thickness: Length, kind: string, price: number): Fields => ({
  ...{ id, thickness, kind, grain: kind === 'MDF' ? 'none' : 'length' },
  sizes: [
    { length: length(96), width: length(48), price, ...sold },
    { length: length(48), width: length(48), price: price * 0.6, ...sold },
  ],
});
const board = (id: string, price: number, more: Fields): Fields => ({
  ...{ id, species: 'yellow-poplar', ...more },
  lengths: [
    { length: length(96), price, ...sold },
    { length: length(144), price: price * 1.4, ...sold },
  ],
});
const pack = (id: string, use: string, holds: string | number, price: number, more: Fields = {}): Fields => ({
  ...{ id, use, holds, price, ...sold, ...more },
});
const STOCK: Fields = {
  suppliers: [{ id: 'mill', name: 'The mill' }],
  panels: [
    panel('ply', length(0.703125), 'birch plywood', 84),
    panel('thick', length(125 / 128), 'birch plywood', 110),
    panel('face', length(5 / 8), 'MDF', 52),
    panel('half', length(0.46875), 'birch plywood', 66),
    panel('thin', length(13 / 64), 'birch plywood', 38),
  ],
  boards: [
    board('one-by-two', 8, { nominal: '1x2' }),
    board('one-by-six', 20, { nominal: '1x6' }),
    board('ash', 30, { thickness: length(13 / 16), width: length(3) }),
    board('cover', 5, { thickness: length(1 / 4), width: length(3 / 4) }),
  ],
  packs: [
    pack('tape', 'edge band', '25 ft', 9.75, { thickness: length(1 / 32) }),
    pack('iron', 'edge band', '25 ft', 8.5),
    pack('screws', 'screw', 200, 11.5),
    pack('glue', 'glue', '16 fl oz', 8.5),
    pack('brads', 'brad', 1000, 9),
    pack('hinges', 'hinge', 2, 7.8),
    ...[6, 10, 14, 22].map((inches) => pack(`slides ${inches} in`, 'drawer slide', 1, 12 + inches / 2)),
    pack('pins', 'shelf pin', 24, 5.25),
    pack('rod 1/2 in', 'rod', '36 in', 8.6),
    pack('rod 12 mm', 'rod', '1 m', 5.6),
    pack('plates', 'wall plate', 1, 21),
    pack('self-drilling screws #10 × 3 in', 'self-drilling screw', 25, 8.9),
    pack('self-drilling screws #10 × 2 in', 'self-drilling screw', 25, 6.9),
    pack('wood screws #10 × 3 in', 'wood screw', 25, 7.9),
    pack('plugs 10 × 80 mm', 'plug', 25, 13.4),
    pack('wire 18', 'wire 18 AWG', '25 ft', 7.8),
    pack('wire 14', 'wire 14 AWG', '25 ft', 12.6),
    pack('foam', 'absorber tile', 12, 38.4),
    pack('primer', 'primer', '1 qt', 17.9),
    pack('paint', 'paint', '1 gal', 46.5),
  ],
};

function framingOn({ framing, mirrored }: House, along: Length): Fields {
  if (framing.at === undefined) return framing;
  const at = (framing.at as readonly Length[]).filter((stud) => stud.eighths < along.eighths);
  return { ...framing, at: mirrored ? at.map((stud) => less(along, stud)).reverse() : at };
}

/** The plan of a house in a system of units, every length and mass of it exactly the same. */
export function plainOf(house: House, system: System, units: Fields = {}): Record<string, unknown> {
  const { width, depth, openings, services, make, finish, pieces } = house;
  const sides: readonly (readonly [string, Length])[] = [
    ['north', width],
    ['east', depth],
    ['south', width],
    ['west', depth],
  ];
  return spelt(
    {
      setwright: 1,
      units: { length: system === 'in' ? 'ft-in' : 'mm', ...units },
      room: {
        ceiling: length(97),
        walls: sides.map(([id, along]) => ({
          ...{ id, length: along, colour: '#d9c79b' },
          framing: framingOn(house, along),
        })),
        openings,
        services,
        door: { width: length(30), height: length(78) },
        hall: { width: length(36), turn: length(36) },
        vehicle: { length: length(75), width: length(41), height: length(30) },
      },
      stock: STOCK,
      shop: { kerf: length(1 / 8), keep: length(6), lift: { pounds: 50 } },
      make,
      dates: { start: '2026-11-28', deadline: '2027-01-16' },
      options: [{ id: 'one', pieces, finish, paint: { walls: '#cfcfcb' } }],
    },
    system,
  ) as Record<string, unknown>;
}

export function readHouse(plain: unknown): Plan {
  const { plan, issues } = planOf(plain);
  if (!plan) throw new Error(JSON.stringify(issues.slice(0, 3)));
  return plan;
}
export const planOfHouse = (house: House, system: System = 'mm', units: Fields = {}): Plan =>
  readHouse(plainOf(house, system, units));
