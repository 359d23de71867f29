import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxAt } from '../geometry/index.ts';
import { placeRoom } from '../room/index.ts';
import { rectangle, roomOf } from '../room/room.testing.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { conflictNotes } from './conflicts.ts';
import { boxCase, mirrorPiece, mirrorRoom, moved, plainPiece } from './fit.testing.ts';

const { room } = placeRoom(
  rectangle(4000, 3000, {
    openings: [
      { id: 'window', wall: 'north', kind: 'window', from: 2600, width: 800, height: 1000, sill: 900, trim: 60 },
      { id: 'door', wall: 'south', kind: 'door', from: 300, width: 800, height: 2000, hinge: 'right', trim: 60 },
      { id: 'hatch', wall: 'east', kind: 'opening', from: 1000, width: 900, height: 2000 },
    ],
    services: [
      { id: 'outlet', wall: 'north', kind: 'outlet', at: 500, height: 300 },
      { id: 'switch', wall: 'north', kind: 'switch', at: 2000, height: 1100 },
      { id: 'vent', wall: 'west', kind: 'vent', at: 2000, height: 150 },
      { id: 'heater', wall: 'west', kind: 'radiator', at: 800, height: 450 },
    ],
  }),
);
const brief = (pieces: readonly PlacedPiece[], where = room) =>
  conflictNotes(where, pieces)
    .map((n) => `${n.verdict} ${n.id}`)
    .toSorted();
const at = (wall: string, from: number, more: object = {}) => ({ wall, from, ...more });

describe('pieces that meet', () => {
  const left = boxCase(room, 'left', [800, 700, 400], at('north', 900));
  it.each([
    ['side by side', boxCase(room, 'right', [800, 700, 400], at('north', 1700)), []],
    ['a millimetre too near', boxCase(room, 'right', [800, 700, 400], at('north', 1699)), ['stop meets:left/right']],
    ['on top', plainPiece(room, 'box', [300, 200, 300], at('north', 1000, { above: 700 })), []],
    [
      'a thing in an open bay',
      plainPiece(room, 'lamp', [100, 300, 100], at('north', 950, { above: 18, out: 100 })),
      [],
    ],
    [
      'a thing through the divider',
      plainPiece(room, 'lamp', [100, 300, 100], at('north', 1250, { above: 18, out: 100 })),
      ['caution meets:lamp/left'],
    ],
    [
      'a turned one beside the corner',
      boxCase(room, 'right', [400, 700, 400], { at: { x: 1950, y: 300, turn: 45 } }),
      [],
    ],
    [
      'a turned one with its corner in',
      boxCase(room, 'right', [400, 700, 400], { at: { x: 1750, y: 200, turn: 30 } }),
      ['stop meets:left/right'],
    ],
  ])('%s', (_, other, expected) => {
    expect(brief([left, other]).filter((n) => n.includes('meets'))).toEqual(expected);
  });
  it('says how deep', () => {
    const [note] = conflictNotes(room, [left, boxCase(room, 'right', [800, 700, 400], at('north', 1690))]);
    expect(note!.title).toBe('right runs 10 mm into left');
    expect(note!.working!.result.value).toBeCloseTo(10, 9);
    expect(note!.at!.x).toBeCloseTo(1695, 9);
  });
});

describe('what is on the wall', () => {
  it.each([
    [
      'behind an open bay with a back',
      boxCase(room, 'c', [900, 700, 400], at('north', 400)),
      ['caution blocks-outlet:c/outlet'],
    ],
    [
      'behind an open bay without one',
      boxCase(room, 'c', [900, 700, 400], at('north', 400), { back: false }),
      ['fine blocks-outlet:c/outlet'],
    ],
    [
      'behind a door',
      boxCase(room, 'c', [900, 700, 400], at('north', 400), { kinds: ['door'] }),
      ['caution blocks-outlet:c/outlet'],
    ],
    [
      'behind drawers',
      boxCase(room, 'c', [900, 700, 400], at('north', 400), { kinds: ['drawers'] }),
      ['stop blocks-outlet:c/outlet'],
    ],
    ['behind the divider', boxCase(room, 'c', [900, 700, 400], at('north', 50)), ['stop blocks-outlet:c/outlet']],
    [
      'behind a plain box',
      plainPiece(room, 'c', [900, 700, 400], at('north', 400), { kind: 'case' }),
      ['stop blocks-outlet:c/outlet'],
    ],
    ['behind a thing', plainPiece(room, 'c', [900, 700, 400], at('north', 400)), ['caution blocks-outlet:c/outlet']],
    ['behind a thing that leaves it room', plainPiece(room, 'c', [900, 700, 400], at('north', 400, { out: 60 })), []],
    ['below a shelf', plainPiece(room, 'c', [900, 50, 250], at('north', 100, { above: 400 }), { kind: 'shelf' }), []],
    [
      'behind a lining',
      plainPiece(room, 'c', [900, 700, 12], at('north', 100), { kind: 'lining' }),
      ['caution blocks-outlet:c/outlet'],
    ],
    [
      'a switch behind a case',
      plainPiece(room, 'c', [900, 1500, 300], at('north', 1600), { kind: 'case' }),
      ['stop blocks-switch:c/switch'],
    ],
    ['a vent', plainPiece(room, 'c', [900, 500, 300], at('west', 1800), { kind: 'case' }), ['stop blocks-vent:c/vent']],
    [
      'a radiator',
      plainPiece(room, 'c', [900, 500, 300], at('west', 600), { kind: 'case' }),
      ['stop blocks-radiator:c/heater'],
    ],
    [
      'before a radiator',
      plainPiece(room, 'c', [900, 500, 300], at('west', 600, { out: 150 }), { kind: 'case' }),
      ['caution blocks-radiator:c/heater'],
    ],
    [
      'a window',
      plainPiece(room, 'c', [900, 1100, 300], at('north', 2600), { kind: 'case' }),
      ['caution blocks-window:c/window'],
    ],
    ['under a window', plainPiece(room, 'c', [900, 840, 300], at('north', 2600), { kind: 'case' }), []],
    [
      'over the casing of a window',
      plainPiece(room, 'c', [900, 870, 300], at('north', 2600), { kind: 'case' }),
      ['caution laps-casing:c/window'],
    ],
    [
      'in a passage',
      plainPiece(room, 'c', [300, 700, 300], at('east', 1000), { kind: 'case' }),
      ['stop blocks-opening:c/hatch'],
    ],
    ['beside a passage', plainPiece(room, 'c', [300, 700, 300], at('east', 700), { kind: 'case' }), []],
  ])('%s', (_, piece, expected) => {
    expect(brief([piece])).toEqual(expected);
  });
  it('shows the electrician to the maker, and the share of a window', () => {
    const outlet = conflictNotes(room, [boxCase(room, 'c', [900, 700, 400], at('north', 400))])[0]!;
    expect(outlet.advice).toMatch(/back out/);
    expect(outlet.advice).toMatch(/electrician/i);
    expect(outlet.advice).toMatch(/local code/);
    expect(outlet.working!.result.value).toBe(0);
    const window = conflictNotes(room, [
      plainPiece(room, 'c', [900, 1400, 300], at('north', 3000), { kind: 'case' }),
    ])[0]!;
    expect(window.working!.result.value).toBeCloseTo((400 * 500) / (800 * 1000), 12);
    expect(window.title).toMatch(/25%/);
  });
});

describe('the swing of the room door', () => {
  // South wall seen from inside runs from x = 4000 to 0: the door lies between x = 3700 and 2900, hinge (right) at x = 2900.
  const stool = (x: number, y: number) =>
    plainPiece(room, 'stool', [100, 450, 100], { at: { x, y } }, { kind: 'case' });
  it.each([
    ['within the quarter circle', stool(3300, 2500), ['stop blocks-door:stool/door']],
    ['in the square but outside the circle', stool(3600, 2210), []],
    ['beyond the hinge', stool(2799, 2700), []],
    ['as far out as the leaf', stool(3000, 2090), []],
    ['a whisker nearer', stool(2900, 2101), ['stop blocks-door:stool/door']],
  ])('%s', (_, piece, expected) => {
    expect(brief([piece])).toEqual(expected);
  });
  it('agrees with a leaf of many points turned in small steps', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2000, max: 3900 }),
        fc.integer({ min: 1900, max: 2900 }),
        fc.integer({ min: 0, max: 89 }),
        (x, y, turn) => {
          const angle = (turn * Math.PI) / 180;
          const [c, sin] = [Math.cos(angle), Math.sin(angle)];
          /** The stool, smaller by so much on every side. */
          const stands = (less: number) => {
            const at = { x: x + (c - sin) * less, y: y + (sin + c) * less, turn };
            const side = 160 - 2 * less;
            return brief([plainPiece(room, 'stool', [side, 450, side], { at }, { kind: 'case' })]).includes(
              'stop blocks-door:stool/door',
            );
          };
          let struck = false;
          for (let i = 0; i <= 180; i++)
            for (let r = 0; r <= 800; r += 5) {
              const a = (i * Math.PI) / 360;
              const [dx, dz] = [2900 + r * Math.cos(a) - x, 3000 - r * Math.sin(a) - y];
              const [u, v] = [c * dx + sin * dz, -sin * dx + c * dz];
              if (u > 0 && u < 160 && v > 0 && v < 160) struck = true;
            }
          if (struck) expect(stands(0)).toBe(true);
          // Points of the leaf lie within 6 mm of each other, so a hit 12 mm deep cannot slip between them.
          if (stands(12)) expect(struck).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('what sticks out', () => {
  it.each([
    [
      'through the ceiling',
      plainPiece(room, 'c', [500, 2000, 300], at('south', 2000, { above: 600 }), { kind: 'case' }),
      ['stop through-ceiling:c'],
    ],
    [
      'up to the ceiling',
      plainPiece(room, 'c', [500, 1900, 300], at('south', 2000, { above: 600 }), { kind: 'case' }),
      [],
    ],
    [
      'below the floor',
      plainPiece(room, 'c', [500, 900, 300], at('south', 2000, { above: -1 }), { kind: 'case' }),
      ['stop below-floor:c'],
    ],
    [
      'past the right end',
      plainPiece(room, 'c', [500, 700, 300], at('south', 3501), { kind: 'case' }),
      ['stop past-end:c/right'],
    ],
    [
      'past the left end',
      plainPiece(room, 'c', [400, 700, 300], at('north', -3), { kind: 'case' }),
      ['stop past-end:c/left'],
    ],
    ['wall to wall', plainPiece(room, 'c', [4000, 200, 300], at('north', 0, { above: 2200 }), { kind: 'case' }), []],
    [
      'through the wall behind',
      plainPiece(room, 'c', [500, 700, 300], { at: { x: 2500, y: -20 } }, { kind: 'case' }),
      ['stop out-of-room:c'],
    ],
    [
      'a chair through the wall',
      plainPiece(room, 'c', [500, 700, 300], { at: { x: 2500, y: -20 } }),
      ['caution out-of-room:c'],
    ],
  ])('%s', (_, piece, expected) => {
    expect(brief([piece])).toEqual(expected);
  });
  it('stands above a wall that is lower than the room', () => {
    const walls = ['a', 'b', 'c', 'd'].map((id, i) => ({
      id,
      length: i % 2 ? 3000 : 4000,
      ...(id === 'a' && { height: 1100 }),
    }));
    const { room: low } = placeRoom(roomOf(walls));
    const piece = (h: number) => plainPiece(low, 'x', [600, h, 300], { wall: 'a', from: 0 }, { kind: 'case' });
    expect(brief([piece(1101)], low)).toEqual(['caution above-wall:x']);
    expect(brief([piece(1100)], low)).toEqual([]);
  });
  it('finds the corner of the room that runs into a piece, and what stands past an outer corner', () => {
    const { room: ell } = placeRoom(
      roomOf([
        { id: 'a', length: 4000 },
        { id: 'b', length: 2000 },
        { id: 'c', length: 2000, corner: 270 },
        { id: 'd', length: 1000 },
        { id: 'e', length: 2000 },
        { id: 'f', length: 3000 },
      ]),
    );
    // Its corners are all in the room, the outer corner of the walls at (2000, 2000) is not outside it.
    expect(
      brief([plainPiece(ell, 'x', [1200, 700, 1200], { at: { x: 2020, y: 1080, turn: 45 } }, { kind: 'case' })], ell),
    ).toEqual(['stop out-of-room:x']);
    expect(brief([plainPiece(ell, 'y', [600, 700, 300], { wall: 'c', from: 1700 }, { kind: 'case' })], ell)).toEqual([
      'caution past-end:y/right',
    ]);
  });
  it('a lining thinner than what was shared out of the walls is crossed by none of them', () => {
    const { room: open } = placeRoom(
      roomOf([
        { id: 'a', length: 5120 },
        { id: 'b', length: 3665 },
        { id: 'c', length: 2330, corner: 270 },
        { id: 'd', length: 1200 },
        { id: 'e', length: 2805 },
        { id: 'f', length: 4850 },
      ]),
    );
    expect(open.misclosure).toBeGreaterThan(12);
    for (const wall of ['a', 'b', 'c', 'd', 'e', 'f'])
      expect(brief([plainPiece(open, 'l', [900, 1200, 12], { wall, from: 150 }, { kind: 'lining' })], open)).toEqual(
        [],
      );
  });
});

describe('fronts that cannot open', () => {
  const corner = boxCase(room, 'c', [900, 700, 400], at('south', 1300), { kinds: ['door', 'drawers'] });
  it.each([
    ['free', [], []],
    [
      'against a case',
      [boxCase(room, 'island', [900, 700, 400], { at: { x: 1830, y: 1900 } })],
      ['stop cannot-open:c/bay-1/front/island', 'stop cannot-open:c/bay-2/front/island'],
    ],
    [
      'against a chair',
      [plainPiece(room, 'chair', [300, 700, 400], { at: { x: 1850, y: 2150 } })],
      ['caution cannot-open:c/bay-2/front/chair'],
    ],
    [
      'against another front',
      [boxCase(room, 'island', [420, 700, 400], { at: { x: 2240, y: 1400 } }, { kinds: ['door', 'open'], reach: 420 })],
      ['caution one-at-a-time:c/bay-1/front|island/bay-1/front'],
    ],
  ])('%s', (_, others, expected) => {
    expect(brief([corner, ...others]).filter((n) => /cannot|one-at/.test(n))).toEqual(expected);
  });
  it('against a wall beside it, and the swing of the room door', () => {
    const turned = boxCase(
      room,
      'c',
      [900, 700, 400],
      { at: { x: 500, y: 900, turn: 90 } },
      { kinds: ['door', 'open'], reach: 450 },
    );
    expect(brief([turned]).filter((n) => n.includes('/wall'))).toEqual(['stop cannot-open:c/bay-1/front/wall']);
    const near = boxCase(room, 'c', [900, 700, 400], at('south', 1150), { kinds: ['open', 'door'] });
    const beside = plainPiece(room, 'd', [300, 700, 300], at('south', 1110), {
      kind: 'case',
      needs: [{ what: 'door', part: 'd/door', box: boxAt(-250, 0, 300, 550, 700, 300) }],
    });
    expect(brief([near]).filter((n) => /one-at/.test(n))).toEqual([]);
    expect(brief([beside]).filter((n) => /one-at/.test(n))).toEqual(['caution one-at-a-time:d/door/door']);
  });
});

it('judges every place where a thing may stand, and says which one it is', () => {
  const desk = plainPiece(room, 'desk', [300, 740, 300], { at: { x: 1500, y: 1500 } });
  const case_ = boxCase(room, 'c', [900, 700, 400], at('north', 600));
  const places = [
    { name: 'in the way', placing: { frame: { origin: { x: 800, y: 0, z: 100 }, turn: 0 } } },
    { name: 'at the window', placing: { frame: { origin: { x: 2700, y: 0, z: 800 }, turn: 0 } } },
  ];
  const notes = conflictNotes(room, [desk, case_], { alternatives: new Map([['desk', places]]) });
  expect(notes.map((n) => n.id)).toEqual(['meets:c/desk@in the way']);
  expect(notes[0]!.title).toMatch(/^desk at “in the way”: /);
});

/** Random scenes: cases and boxes at walls and free, some of them in each other's way. */
const anyScene: fc.Arbitrary<readonly PlacedPiece[]> = fc
  .array(
    fc.record({
      free: fc.boolean(),
      loose: fc.boolean(),
      wall: fc.constantFrom('north', 'east', 'south', 'west'),
      from: fc.integer({ min: -100, max: 3500 }),
      x: fc.integer({ min: 0, max: 3800 }),
      y: fc.integer({ min: 0, max: 2800 }),
      turn: fc.integer({ min: 0, max: 359 }),
      above: fc.integer({ min: -20, max: 1500 }),
      out: fc.integer({ min: 0, max: 300 }),
      size: fc.tuple(
        fc.integer({ min: 120, max: 1200 }),
        fc.integer({ min: 100, max: 1500 }),
        fc.integer({ min: 60, max: 600 }),
      ),
      kinds: fc.array(fc.constantFrom('open' as const, 'door' as const, 'drawers' as const), {
        minLength: 2,
        maxLength: 2,
      }),
    }),
    { minLength: 1, maxLength: 7 },
  )
  .map((given) =>
    given.map(({ free, loose, wall, from, x, y, turn, above, out, size, kinds }, i) => {
      const place = free ? { at: { x, y, turn }, above } : { wall, from, above, out };
      return loose ? plainPiece(room, `p${i}`, size, place) : boxCase(room, `p${i}`, size, place, { kinds });
    }),
  );

describe('laws', () => {
  it('notes are the same in the looking glass', () => {
    const glass = mirrorRoom(room);
    const swapEnds = (notes: readonly string[]) =>
      notes
        .map((n) =>
          n.includes('past-end')
            ? n.endsWith('/left')
              ? n.replace(/left$/, 'right')
              : n.replace(/right$/, 'left')
            : n,
        )
        .toSorted();
    fc.assert(
      fc.property(anyScene, (pieces) => {
        const mirrored = pieces.map((p) => mirrorPiece(p, room));
        expect(swapEnds(brief(mirrored, glass))).toEqual(brief(pieces));
      }),
      { numRuns: 400 },
    );
  });
  it('notes are the same wherever the room stands', () => {
    fc.assert(
      fc.property(
        anyScene,
        fc.integer({ min: -9000, max: 9000 }),
        fc.integer({ min: -9000, max: 9000 }),
        (pieces, x, z) => {
          const there = moved(room, pieces, { x, z });
          expect(brief(there.pieces, there.room)).toEqual(brief(pieces));
        },
      ),
      { numRuns: 200 },
    );
  });
  it('ids are unique, and the order of the pieces changes none', () => {
    fc.assert(
      fc.property(anyScene, (pieces) => {
        const notes = brief(pieces);
        expect(new Set(notes.map((n) => n.split(' ').slice(1).join(' '))).size).toBe(notes.length);
        expect(brief(pieces.toReversed())).toEqual(notes);
      }),
      { numRuns: 200 },
    );
  });
  it('of another place where a piece may stand, all is said that would be if it stood there', () => {
    let told = 0;
    const place = fc.record({
      x: fc.integer({ min: 0, max: 3800 }),
      z: fc.integer({ min: 0, max: 2800 }),
      turn: fc.nat(359),
    });
    fc.assert(
      fc.property(anyScene, fc.nat(), fc.array(place, { minLength: 1, maxLength: 2 }), (pieces, which, places) => {
        const i = which % pieces.length;
        const there = places.map(({ x, z, turn }, n) => ({
          name: `place ${n}`,
          placing: { frame: { origin: { x, y: 0, z }, turn } },
        }));
        const notes = conflictNotes(room, pieces, { alternatives: new Map([[pieces[i]!.id, there]]) });
        const usual = conflictNotes(room, structuredClone(pieces));
        const taken = new Set(usual.map((n) => n.id));
        const elsewhere = there.flatMap(({ name, placing }) => {
          const { wall: _, ...rest } = structuredClone(pieces[i]!);
          const { title, id } = pieces[i]!;
          return conflictNotes(room, structuredClone(pieces).with(i, { ...rest, frame: placing.frame }))
            .filter((n) => !taken.has(n.id))
            .map((n) => ({ ...n, id: `${n.id}@${name}`, title: `${title || id} at “${name}”: ${n.title}` }));
        });
        told += elsewhere.length;
        expect(notes).toEqual([...usual, ...elsewhere]);
      }),
      { numRuns: 200 },
    );
    expect(told).toBeGreaterThan(200);
  });
  it('what is kept of pieces that stay is what is found when everything is new', () => {
    let changed = 0;
    const places = [{ name: 'there', placing: { frame: { origin: { x: 1500, y: 0, z: 1200 }, turn: 30 } } }];
    fc.assert(
      fc.property(anyScene, fc.nat(), fc.integer({ min: -900, max: 900 }), fc.boolean(), (pieces, which, by, goes) => {
        const i = which % pieces.length;
        const { wall: _, frame, ...rest } = pieces[i]!;
        const there = { ...rest, frame: { ...frame, origin: { ...frame.origin, x: frame.origin.x + by } } };
        const after = goes ? pieces.toSpliced(i, 1) : pieces.with(i, there);
        const options = { alternatives: new Map([[pieces[0]!.id, places]]) };
        const before = conflictNotes(room, pieces, options);
        const stepped = conflictNotes(room, after, options);
        expect(stepped).toEqual(conflictNotes(room, structuredClone(after), options));
        if (JSON.stringify(before) !== JSON.stringify(stepped)) changed++;
      }),
      { numRuns: 200 },
    );
    expect(changed).toBeGreaterThan(100);
  });
});
