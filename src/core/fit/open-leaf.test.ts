import { expect, it } from 'vitest';
import { buildPiece } from '../casework/index.ts';
import { stockPlan } from '../stock/stock.testing.ts';
import { leafNotes } from './open-leaf.ts';
import { plainMm } from './said.ts';

const make = { panel: 'ply', front: 'ply', gap: 3, back: { kind: 'rabbeted', panel: 'thin' } };
const notesOf = (inside: object, style: 'inset' | 'overlay' = 'inset') => {
  const plan = stockPlan({
    stock: {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'thin', thickness: 6 },
      ],
    },
    pieces: [{ case: 'c', size: { width: 800, height: 700, depth: 500 }, make: { ...make, style }, inside }],
  });
  const { placed, issues } = buildPiece(plan.options[0]!.pieces[0]!, plan, {
    frame: { origin: { x: 0, y: 0, z: 0 }, turn: 0 },
  });
  expect(issues).toEqual([]);
  return leafNotes(placed, plainMm);
};

// leaf and front each keep 3 mm within the same opening: all 18 mm of the leaf stand before the front
it.each([
  ['a door at the left', { door: 'left', rows: [{ drawers: 2 }] }, ['door'], 18],
  ['a door at the right', { door: 'right', rows: [{ drawers: 1 }] }, ['door'], 18],
  ['a pair, each leaf at its side', { door: 'pair', rows: [{ drawers: 2 }] }, ['left-door', 'right-door'], 18],
  ['a flap, before the uppermost', { door: 'up', rows: [{ drawers: 2 }] }, ['door'], 18],
  [
    'drawers in a column of their own, clear of the hinges by an upright',
    { door: 'left', columns: [{ width: 100, open: true }, { drawers: 2 }] },
    [],
    0,
  ],
  ['the column at the hinges', { door: 'left', columns: [{ width: 300, drawers: 2 }, { open: true }] }, ['door'], 18],
  ['shelves behind a door', { door: 'left', shelves: 2 }, [], 0],
])('%s', (_, inside, doors, deep) => {
  const notes = notesOf(inside);
  expect(notes.map(({ id }) => id.split('/').at(-1))).toEqual(doors);
  for (const note of notes) expect(note.working!.result.value).toBeCloseTo(deep, 6);
});

it('is told of how many drawers, and not of a door that lies over the edges', () => {
  expect(notesOf({ door: 'left', rows: [{ drawers: 3 }] })[0]!.title).toContain('3 drawers by 18 mm');
  expect(notesOf({ door: 'up', rows: [{ drawers: 2 }] })[0]!.title).toContain('drawer 1');
  expect(notesOf({ door: 'left', rows: [{ drawers: 3 }] }, 'overlay')).toEqual([]);
});
