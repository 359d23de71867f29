import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { signedArea, toRoom, vec } from '../geometry/index.ts';
import { printersFor } from '../plan/index.ts';
import { crossings, isInside } from './outline.ts';
import { largestMisclosure, placeRoom } from './place-room.ts';
import { rectangle, roomOf } from './room.testing.ts';
import { pointOnWall, wallBefore } from './walls.ts';

describe('the outline', () => {
  it('lays a rectangle clockwise from the left end of its first wall', () => {
    const { room, issues } = placeRoom(rectangle(4000, 3000));
    expect(issues).toEqual([]);
    expect(room.outline).toEqual([vec(0, 0, 0), vec(4000, 0, 0), vec(4000, 0, 3000), vec(0, 0, 3000)]);
    expect(room.walls.map((w) => w.frame.turn)).toEqual([0, 90, 180, 270]);
    expect(room.misclosure).toBe(0);
  });

  it('has the room in front of every wall, also round an outer corner', () => {
    const { room, issues } = placeRoom(
      roomOf([
        { id: 'a', length: 4000 },
        { id: 'b', length: 2000 },
        { id: 'c', length: 2000, corner: 270 },
        { id: 'd', length: 1000 },
        { id: 'e', length: 2000 },
        { id: 'f', length: 3000 },
      ]),
    );
    expect(issues).toEqual([]);
    expect(signedArea(room.outline)).toBe(10e6);
    for (const wall of room.walls) {
      expect(isInside(room.outline, pointOnWall(wall, wall.length / 2, 1000, 10))).toBe(true);
      expect(isInside(room.outline, pointOnWall(wall, wall.length / 2, 1000, -10))).toBe(false);
    }
  });

  it('shares a small misclosure among the walls and says how large it was', () => {
    const { room, issues } = placeRoom(
      roomOf([
        { id: 'n', length: 4004 },
        { id: 'e', length: 3000 },
        { id: 's', length: 4000 },
        { id: 'w', length: 3003 },
      ]),
    );
    expect(issues).toEqual([]);
    expect(room.misclosure).toBeCloseTo(5, 9);
    expect(room.walls[0]!.frame.turn).toBe(0);
    const ends = room.walls.map((w, i) => {
      const next = room.outline[(i + 1) % 4]!;
      const end = toRoom(w.frame, vec(w.length, 0, 0));
      return Math.hypot(end.x - next.x, end.z - next.z);
    });
    // Each wall's share is its length over the perimeter.
    ends.forEach((e, i) => {
      expect(e).toBeLessThanOrEqual((5 * room.walls[i]!.length) / 14007 + 1e-9);
    });
    expect(room.walls.reduce((sum, w) => sum + w.corner, 0)).toBeCloseTo(360, 9);
  });

  it.each([
    { name: 'a gap', walls: [4000, 3000, 3900, 3000], message: /do not close/ },
    { name: 'angles', walls: [3000, 3000, 3000], message: /inside angles/ },
  ])('refuses what does not close: $name', ({ walls, message }) => {
    const { issues } = placeRoom(roomOf(walls.map((length, i) => ({ id: `w${i}`, length }))));
    expect(issues).toHaveLength(1);
    expect(issues[0]!.message).toMatch(message);
  });

  it('refuses walls that run counter-clockwise or cross', () => {
    const backwards = placeRoom(roomOf([4, 3, 4, 3].map((m, i) => ({ id: `w${i}`, length: m * 1000, corner: 270 }))));
    expect(backwards.issues[0]!.message).toMatch(/counter-clockwise/);
    // A niche that is deeper than the room runs out through the far wall.
    const crossed = placeRoom(
      roomOf([
        { id: 'a', length: 1000 },
        { id: 'b', length: 3000, corner: 270 },
        { id: 'c', length: 1000, corner: 270 },
        { id: 'd', length: 3000 },
        { id: 'e', length: 2000 },
        { id: 'f', length: 2000 },
        { id: 'g', length: 4000 },
        { id: 'h', length: 2000 },
      ]),
    );
    expect(crossings(crossed.room.outline).length).toBeGreaterThan(0);
    expect(crossed.issues[0]!.message).toMatch(/crosses/);
  });

  it('gives back any simple outline it was measured from, to the micrometre', () => {
    // Corners on rays in order round a point make an outline that never crosses itself.
    const radii = fc.array(fc.double({ min: 1500, max: 4000, noNaN: true }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(radii, (given) => {
        const n = given.length;
        const corners = given.map((r, i) => ({
          x: r * Math.cos((2 * Math.PI * i) / n),
          z: r * Math.sin((2 * Math.PI * i) / n),
        }));
        const side = (i: number) => {
          const [a, b] = [corners[i % n]!, corners[(i + 1) % n]!];
          return { x: b.x - a.x, z: b.z - a.z };
        };
        const walls = corners.map((_, i) => {
          const [u, v] = [side(i), side(i + 1)];
          const turn = Math.atan2(u.x * v.z - u.z * v.x, u.x * v.x + u.z * v.z);
          return { id: `w${i}`, length: Math.hypot(u.x, u.z), corner: 180 - (turn * 180) / Math.PI };
        });
        const { room, issues } = placeRoom(roomOf(walls));
        expect(issues).toEqual([]);
        expect(room.misclosure).toBeLessThan(1e-6);
        expect(signedArea(room.outline)).toBeCloseTo(signedArea(corners), 3);
        for (let i = 0; i < n; i++) {
          const [a, b] = [room.outline[0]!, room.outline[i]!];
          const [p, q] = [corners[0]!, corners[i]!];
          expect(Math.hypot(b.x - a.x, b.z - a.z)).toBeCloseTo(Math.hypot(q.x - p.x, q.z - p.z), 6);
        }
      }),
    );
  });

  it('allows a tape room 1/400 of its perimeter, at least 10 mm', () => {
    expect(largestMisclosure(2000)).toBe(10);
    expect(largestMisclosure(14000)).toBe(35);
  });
});

describe('studs', () => {
  const studs = (framing: object, length = 2000) =>
    placeRoom(
      roomOf([
        { id: 'a', length, framing: framing as never },
        { id: 'b', length: 1000 },
        { id: 'c', length },
        { id: 'd', length: 1000 },
      ]),
    );
  it.each([
    { framing: { kind: 'timber stud', spacing: 600 }, at: [600, 1200, 1800], width: 38.1, measured: false },
    { framing: { kind: 'steel stud', spacing: 600, first: 250 }, at: [250, 850, 1450], width: 31.75, measured: false },
    {
      framing: { kind: 'steel stud', spacing: 600, at: [900, 310], width: 35 },
      at: [310, 900],
      width: 35,
      measured: true,
    },
    { framing: { kind: 'masonry', spacing: 600 }, at: [], width: 0, measured: false },
    { framing: { kind: 'timber stud' }, at: [], width: 0, measured: false },
  ])('$framing', ({ framing, at, width, measured }) => {
    const wall = studs(framing).room.walls[0]!;
    expect(wall.studs).toEqual(at.map((a) => ({ at: a, width, measured })));
  });
  it('takes studs at every hair, and a wall of a mile, for slips of the unit', () => {
    const { room, issues } = studs({ kind: 'timber stud', spacing: 1.6 });
    expect(issues.map((i) => i.path.join('.'))).toEqual(['room.walls.0.framing.spacing']);
    expect(room.walls[0]!.studs).toEqual([]);
    const mile = placeRoom(rectangle(1_609_344, 3000)).issues;
    expect(mile.map((i) => i.path.join('.'))).toEqual(['room.walls.0.length', 'room.walls.2.length']);
  });
  it('names a measured stud that is past the end of its wall', () => {
    const { issues } = studs({ kind: 'timber stud', at: [500, 2500] });
    expect(issues.map((i) => i.path.join('.'))).toEqual(['room.walls.0.framing.at.1']);
  });
});

describe('openings and services', () => {
  it('names them by kind, swings doors into the room and gives services their usual size', () => {
    const { room, issues } = placeRoom(
      rectangle(4000, 3000, {
        openings: [
          { wall: 'south', kind: 'door', from: 500, width: 800, height: 2000 },
          { wall: 'north', kind: 'window', from: 500, width: 800, height: 1000, sill: 900 },
        ],
        services: [
          { id: 'outlet-1', wall: 'north', kind: 'outlet', at: 300, height: 300 },
          { wall: 'north', kind: 'outlet', at: 2000, height: 300, width: 150 },
        ],
      }),
    );
    expect(issues).toEqual([]);
    expect(room.openings.map((o) => [o.id, o.swing, o.hinge, o.clear])).toEqual([
      ['door-1', 'in', 'left', 800],
      ['window-1', undefined, undefined, 150],
    ]);
    expect(room.services.map((s) => [s.id, ...s.x, ...s.y])).toEqual([
      ['outlet-1', 265, 335, 242.5, 357.5],
      ['outlet-2', 1925, 2075, 242.5, 357.5],
    ]);
  });

  it.each([
    {
      what: { openings: [{ wall: 'north', kind: 'door', from: 3500, width: 800, height: 2000 }] },
      path: 'room.openings.0.from',
    },
    {
      what: { openings: [{ wall: 'north', kind: 'door', from: 0, width: 800, height: 2600 }] },
      path: 'room.openings.0.height',
    },
    {
      what: { openings: [{ wall: 'nort', kind: 'door', from: 0, width: 800, height: 2000 }] },
      path: 'room.openings.0.wall',
    },
    { what: { services: [{ wall: 'north', kind: 'outlet', at: 4100, height: 300 }] }, path: 'room.services.0.at' },
    {
      what: {
        openings: [{ wall: 'north', kind: 'door', from: 0, width: 800, height: 2000 }],
        services: [{ wall: 'north', kind: 'switch', at: 400, height: 1100 }],
      },
      path: 'room.services.0',
    },
    {
      what: {
        openings: [
          { wall: 'north', kind: 'door', from: 0, width: 800, height: 2000 },
          { wall: 'north', kind: 'window', from: 799, width: 800, height: 1000, sill: 900 },
        ],
      },
      path: 'room.openings.1',
    },
    {
      what: {
        services: [1000, 1030].map((at) => ({ wall: 'north', kind: 'outlet', at, height: 300, width: 70, tall: 70 })),
      },
      path: 'room.services.1',
    },
  ] as const)('finds what is off its wall or over another: $path', ({ what, path }) => {
    const { issues } = placeRoom(rectangle(4000, 3000, what as never));
    expect(issues.map((i) => i.path.join('.'))).toEqual([path]);
  });

  it('says lengths as it is told to', () => {
    const shown = placeRoom(
      roomOf([
        { id: 'a', length: 3000 },
        { id: 'b', length: 2000 },
        { id: 'c', length: 2000 },
        { id: 'd', length: 2000 },
      ]),
      printersFor({ length: 'in', fraction: '1/2', currency: 'USD' }),
    ).issues;
    expect(shown[0]?.found).toBe('a gap of 39-1/2" (39-1/2" along the first wall, 0" across it)');
    expect(shown[0]?.expected).toBe('no more than 1/2", which is shared out');
  });

  it('tells places along a wall that are not on it, and a ceiling in the wrong unit', () => {
    const along = (at: number) => [{ at, value: 1 }];
    const of = (survey: number, floor: number, ceiling = 2500) =>
      placeRoom({
        ...rectangle(4000, 3000, { ceiling }),
        survey: [{ wall: 'north', height: 800, offsets: along(survey) }],
        floor: [{ wall: 'east', out: 0, drops: along(floor) }],
      } as never).issues.map(({ path, found }) => [path.join('.'), found]);
    expect(of(4040, 3040)).toEqual([]);
    expect(of(6000, 0)).toEqual([['room.survey.0.offsets', '6000 mm']]);
    expect(of(0, 3660)).toEqual([['room.floor.0.drops', '3660 mm']]);
    expect(of(0, 0, 2_743_200)).toEqual([['room.ceiling', '2743200 mm']]);
  });

  it('lets openings touch, a valve sit on its radiator, and two outlets stand side by side', () => {
    const { issues } = placeRoom(
      rectangle(4000, 3000, {
        openings: [
          { wall: 'north', kind: 'door', from: 0, width: 800, height: 2000 },
          { wall: 'north', kind: 'window', from: 800, width: 800, height: 1000, sill: 900 },
        ],
        services: [
          { wall: 'south', kind: 'radiator', at: 1000, height: 400 },
          { wall: 'south', kind: 'valve', at: 600, height: 200 },
          { wall: 'east', kind: 'outlet', at: 1000, height: 300 },
          { wall: 'east', kind: 'outlet', at: 1060, height: 300 },
        ],
      }),
    );
    expect(issues).toEqual([]);
  });
});

it('knows the wall that ends where one begins', () => {
  const { room } = placeRoom(rectangle(4000, 3000));
  expect(wallBefore(room, 'north')!.id).toBe('west');
  expect(wallBefore(room, 'attic')).toBeUndefined();
});
