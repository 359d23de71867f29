import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromRoom, vec } from '../geometry/index.ts';
import { nameOf, type Piece } from '../plan/index.ts';
import { placePieces } from './place-pieces.ts';
import { placeRoom } from './place-room.ts';
import { optionOf, rectangle, shelf, thing } from './room.testing.ts';
import { wallOf } from './walls.ts';

const { room } = placeRoom(
  rectangle(4000, 3000, {
    openings: [{ wall: 'north', kind: 'window', from: 2600, width: 800, height: 1000, sill: 900 }],
    services: [{ wall: 'north', kind: 'outlet', at: 500, height: 300 }],
  }),
);
const place = (...pieces: readonly Piece[]) => placePieces(optionOf(...pieces), room, ['options', 0]);
const origins = (...pieces: readonly Piece[]) => {
  const { places, issues } = place(...pieces);
  expect(issues).toEqual([]);
  return pieces.map((p) => places.get(nameOf(p))!.frame.origin);
};
const faults = (...pieces: readonly Piece[]) => place(...pieces).issues.map((i) => [i.path.join('.'), i.message]);
const low: readonly [number, number, number] = [1000, 700, 400];

describe('what the plan says becomes a frame', () => {
  it('from, after with a gap, and on', () => {
    expect(
      origins(
        thing('b', low, { after: 'a', gap: 50 }),
        thing('a', low, { wall: 'north', from: 100 }),
        thing('c', [200, 300, 200], { on: 'b' }),
        thing('d', [200, 300, 200], { on: 'b', from: 1500, out: 30 }),
      ),
    ).toEqual([vec(1150, 0, 0), vec(100, 0, 0), vec(1150, 700, 0), vec(1500, 700, 30)]);
  });
  it('centre, out, above, on a wall that runs south', () => {
    expect(origins(thing('a', low, { wall: 'east', centre: 1500, out: 20, above: 900 }))).toEqual([
      vec(3980, 900, 1000),
    ]);
  });
  it('a second floating shelf hangs level with the one it stands after', () => {
    expect(
      origins(shelf('a', [600, 50, 200], { wall: 'north', above: 1500 }), shelf('b', [600, 50, 200], { after: 'a' })),
    ).toEqual([vec(0, 1500, 0), vec(600, 1500, 0)]);
  });
  it('free in the room, and what stands on or after what is free', () => {
    expect(
      origins(
        thing('desk', [1400, 740, 700], { at: { x: 1000, y: 2000, turn: 90 } }),
        thing('lamp', [200, 400, 200], { on: 'desk', from: 100 }),
        thing('stool', [400, 450, 400], { after: 'desk', gap: 10 }),
      ),
    ).toEqual([vec(1000, 0, 2000), vec(1000, 740, 2100), vec(1000, 0, 3410)]);
  });
  it('puts a display on an arm as far out as the arm reaches', () => {
    const display = {
      display: 'screen',
      size: { width: 1000, height: 600, depth: 60 },
      mass: 15,
      wall: 'north',
      above: 1000,
      mount: { kind: 'arm', reach: 400 },
    } as unknown as Piece;
    expect(origins(display)).toEqual([vec(0, 1000, 400)]);
  });
});

describe('what cannot be placed is said, and nothing else is lost', () => {
  it.each([
    [
      'a circle',
      [thing('a', low, { after: 'b' }), thing('b', low, { after: 'c' }), thing('c', low, { on: 'a' })],
      'options.0.pieces.2.on',
      /circle: 'a' → 'b' → 'c' → 'a'/,
    ],
    ['itself', [thing('a', low, { after: 'a' })], 'options.0.pieces.0.after', /circle/],
    [
      'a stranger',
      [thing('a', low, { on: 'desc' }), thing('desk', low, { wall: 'north' })],
      'options.0.pieces.0.on',
      /no piece/,
    ],
    ['two ways', [thing('a', low, { wall: 'north', from: 0, centre: 900 })], 'options.0.pieces.0.centre', /keep one/],
    ['no place', [thing('a', low)], 'options.0.pieces.0', /nothing says/],
    ['no wall of that name', [thing('a', low, { wall: 'nroth' })], 'options.0.pieces.0.wall', /no such wall/],
    [
      'two walls',
      [thing('a', low, { wall: 'north' }), thing('b', low, { wall: 'east', after: 'a' })],
      'options.0.pieces.1.wall',
      /not at this wall/,
    ],
    ['no height', [shelf('a', [600, 50, 200], { wall: 'north' })], 'options.0.pieces.0.above', /height/],
    ['a gap from nothing', [thing('a', low, { wall: 'north', gap: 20 })], 'options.0.pieces.0.gap', /needs 'after'/],
  ] as const)('%s', (_, pieces, path, message) => {
    const found = faults(...pieces);
    expect(found).toHaveLength(1);
    expect(found[0]![0]).toBe(path);
    expect(found[0]![1]).toMatch(message);
  });
  it('suggests the nearest name, and places the rest', () => {
    const { places, issues } = place(thing('a', low, { on: 'desc' }), thing('desk', low, { wall: 'north' }));
    expect(issues[0]!.nearest).toBe('desk');
    expect([...places.keys()]).toEqual(['desk']);
  });
});

it('puts a chain at the running sum of widths and gaps, in whatever order it is written', () => {
  const width = fc.integer({ min: 64, max: 640_000 }).map((ticks) => ticks / 640);
  fc.assert(
    fc.property(
      fc.array(fc.tuple(width, width), { minLength: 1, maxLength: 12 }),
      fc.infiniteStream(fc.nat()),
      (chain, order) => {
        const pieces = chain.map(([w, gap], i) =>
          thing(`p${i}`, [w, 700, 400], i === 0 ? { wall: 'west', from: gap } : { after: `p${i - 1}`, gap }),
        );
        const shuffled = pieces
          .map((p) => ({ p, key: order.next().value as number }))
          .toSorted((a, b) => a.key - b.key);
        const { places, issues } = place(...shuffled.map(({ p }) => p));
        expect(issues).toEqual([]);
        const west = wallOf(room, 'west')!;
        let x = 0;
        for (const [i, [w, gap]] of chain.entries()) {
          x += gap;
          const { frame, wall } = places.get(`p${i}`)!;
          expect(wall!.from).toBeCloseTo(x, 6);
          expect(fromRoom(west.frame, frame.origin).x).toBeCloseTo(x, 6);
          x += w;
        }
      },
    ),
  );
});

it('places a thing wherever else it may stand', () => {
  const desk = thing('desk', [1400, 740, 700], {
    at: { x: 0, y: 0 },
    places: [{ name: 'recording', at: { x: 900, y: 1200, turn: 180 } }],
  });
  expect(place(desk).alternatives.get('desk')).toEqual([
    { name: 'recording', placing: { frame: { origin: vec(900, 0, 1200), turn: 180 } } },
  ]);
});
