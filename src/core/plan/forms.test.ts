import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { formsAt, keysOf, piecesOf } from './forms.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { readersFor } from './readers.ts';
import { PIECE_KINDS, planSchema } from './schema/plan.ts';

const schema = planSchema(readersFor({ length: 'in', currency: 'USD' }));
const keys = (path: (string | number)[], plain: unknown = parse(SMALL_PLAN)) =>
  formsAt(schema, plain, path).flatMap(keysOf);

it('finds the keys of a place: of the piece that is meant, and of a bay in a bay', () => {
  expect(keys(['options', 0, 'pieces', 2])).toContain('skin');
  expect(keys(['options', 0, 'pieces', 2])).not.toContain('toe');
  expect(keys(['options', 0, 'pieces', 0, 'inside', 'columns', 1])).toContain('drawers');
  expect(keys(['nowhere'])).toEqual([]);
});

it('goes by the kind that a piece says, not by what else is written there', () => {
  const piece = { shelf: 'a', size: {}, make: {}, toe: {}, ends: {}, fillers: {}, inside: {} };
  const found = keys(['options', 0, 'pieces', 0], { options: [{ pieces: [piece] }] });
  expect(found).toContain('skin');
  expect(found).not.toContain('toe');
});

it('knows every kind of piece, in the order of their names', () => {
  const pieces = piecesOf(schema);
  expect(pieces).toHaveLength(PIECE_KINDS.length);
  PIECE_KINDS.forEach((kind, i) => {
    expect(pieces[i]![0]).toBe(kind);
  });
});
