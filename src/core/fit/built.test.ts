import { describe, expect, it } from 'vitest';
import { buildPiece, wallBehindPiece } from '../casework/index.ts';
import type { Note } from '../notes/index.ts';
import { nameOf, type Plan } from '../plan/index.ts';
import { placePieces, placeRoom } from '../room/index.ts';
import { stockPlan } from '../stock/stock.testing.ts';
import { conflictNotes } from './conflicts.ts';

/** Pieces as they are really built, in a room 4 m square with one outlet on its north wall, 900 mm from the left. */
const notesOf = (pieces: readonly unknown[], room?: Partial<Plan['room']>): readonly string[] =>
  wholeNotesOf(pieces, room).map((n) => `${n.verdict} ${n.id}`);
function wholeNotesOf(pieces: readonly unknown[], room: Partial<Plan['room']> = {}): readonly Note[] {
  const plan = stockPlan({
    stock: {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'thin', thickness: 6, sizes: [{ length: 2440, width: 1220 }] },
      ],
      boards: [{ id: 'batten', thickness: 20, width: 60 }],
    },
    pieces,
  });
  const services = [{ id: 'outlet', wall: 'north', kind: 'outlet', at: 900, height: 300 }];
  const placed = placeRoom({ ...plan.room, services, ...room } as Plan['room']).room;
  const option = plan.options[0]!;
  const { places, issues } = placePieces(option, placed);
  expect(issues).toEqual([]);
  const built = option.pieces.map((piece) => {
    const placing = places.get(nameOf(piece))!;
    return buildPiece(piece, plan, placing, wallBehindPiece(placed, placing));
  });
  expect(built.flatMap((b) => b.issues)).toEqual([]);
  return conflictNotes(
    placed,
    built.map((b) => b.placed),
  );
}
const make = { panel: 'ply', back: { kind: 'rabbeted', panel: 'thin' }, style: 'inset' };
const box = (inside: object, more: object = {}) => ({
  case: 'c',
  wall: 'north',
  from: 500,
  size: { width: 800, height: 700, depth: 400 },
  make,
  inside,
  ...more,
});

describe('pieces as they are built', () => {
  it.each([
    ['an open case with a back', [box({ open: true })], ['caution blocks-outlet:c/outlet']],
    [
      'without a back',
      [box({ open: true }, { make: { ...make, back: { kind: 'none' } } })],
      ['fine blocks-outlet:c/outlet'],
    ],
    ['behind doors', [box({ door: 'pair' })], ['caution blocks-outlet:c/outlet']],
    ['behind an upright', [box({ columns: [{ open: true }, { open: true }] })], ['stop blocks-outlet:c/outlet']],
    [
      'behind a fixed shelf',
      [box({ rows: [{ open: true }, { height: 273, open: true }] })],
      ['stop blocks-outlet:c/outlet'],
    ],
    ['behind drawers', [box({ drawers: 2 })], ['stop blocks-outlet:c/outlet']],
    [
      'behind a lining that is cut out round it',
      [{ lining: 'l', wall: 'north', from: 500, size: { width: 1000, height: 900 }, panel: 'thin' }],
      ['caution blocks-outlet:l/outlet'],
    ],
    [
      'two cases side by side',
      [box({ open: true }, { from: 1000 }), { ...box({ open: true }), case: 'd', from: undefined, after: 'c' }],
      [],
    ],
    [
      'two cases that overlap',
      [box({ open: true }, { from: 1000 }), box({ open: true }, { case: 'd', from: 1799 })],
      ['stop meets:c/d'],
    ],
    [
      'a shelf above',
      [
        {
          shelf: 's',
          wall: 'north',
          from: 500,
          above: 1200,
          size: { width: 800, height: 50, depth: 220 },
          skin: 'thin',
          core: 'ply',
        },
      ],
      [],
    ],
  ])('%s', (_, pieces, expected) => {
    expect(notesOf(pieces)).toEqual(expected);
  });
  it('an L of two runs: drawers in the corner meet the other run', () => {
    const east = { ...box({ drawers: 2 }), case: 'e', wall: 'east', from: 0 };
    const north = { ...box({ door: 'right' }), from: 2790 };
    // The drawers of the east run come out to x = 3200 … 3600, where the north run stands up to 3590 and its door swings.
    expect(notesOf([north, east]).filter((n) => !n.includes('outlet'))).toEqual([
      'stop cannot-open:e/bay-1/drawer-1/front/c',
      'stop cannot-open:e/bay-1/drawer-2/front/c',
      'caution one-at-a-time:c/bay-1/door|e/bay-1/drawer-1/front',
      'caution one-at-a-time:c/bay-1/door|e/bay-1/drawer-2/front',
    ]);
  });
  it('drawers behind a face frame: their slides are packed out to its opening', () => {
    const frame = { ...make, frame: { board: 'batten', stile: 45, rail: 45 } };
    const free = { room: { services: [] } };
    const packed = (inside: object, how: object = frame) =>
      wholeNotesOf([box(inside, { make: how, from: 1500 })], free.room)
        .filter((n) => n.id.startsWith('pack-slides'))
        .map((n) => [n.verdict, n.title, n.working?.result.value]);
    // panel 18, stile 45: the sides stand 27 behind it; an upright in the middle of its stile (45 − 18) / 2 at either hand
    expect(packed({ drawers: 1 })).toEqual([['caution', 'c: 2 drawer slides stand off the panel by 27 mm', 27]]);
    expect(packed({ columns: [{ drawers: 2 }, { open: true }] })).toEqual([
      ['caution', 'c: 4 drawer slides stand off the panel by 27 mm or 13.5 mm', 27],
    ]);
    expect(packed({ columns: [{ drawers: 2 }, { open: true }] }, make)).toEqual([]);
    expect(packed({ door: 'left' })).toEqual([]);
  });
});
