import { expect, it } from 'vitest';
import { cured, noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const hung = (more: string) =>
  read(
    roomOf(
      `      - {case: c, wall: north, from: 500, above: 1400, size: {width: 800, height: 700, depth: 300}, inside: {shelves: 1}, ${more}}`,
    ),
  );
const LONG = 'fix: {kind: lag screw, diameter: 8, length: 100}';
const fixingNote = (more: string) => noteOn(notesOf(hung(more).plan), 'fixing:c')!;

// 100 long, its point 2 × 8, behind 12.5 of board; the studs are 88.9 deep
it.each([
  ['a back of 18 on the rear edges', 'make: {back: {kind: applied, panel: ply}}', 18],
  ['a back of 6 in a rabbet', 'make: {back: {kind: rabbeted}}', 6],
  ['a back of 6 in a groove, 12.7 from the rear edges', 'make: {back: {kind: grooved}}', 12.7 + 6],
  ['a back of 6 and a hollow of 20 behind the case', 'out: 20', 20 + 6],
  ['no back: a steel plate of 3', 'make: {back: {kind: none}}', 3],
])('the thread in the stud is what is left behind the board and %s', (_, more, passed) => {
  const { working } = fixingNote(`${LONG}, ${more}`);
  const of = (symbol: string) => working!.inputs.find((i) => i.symbol === symbol)!.value;
  expect(of('t')).toBeCloseTo(12.5 + passed, 9);
  expect(of('p')).toBeCloseTo(100 - 12.5 - passed - 16, 9);
});

it.each([
  '',
  'carries: books',
  'make: {back: {kind: applied, panel: ply}}',
  'make: {back: {kind: grooved}}',
  'fix: {kind: lag screw, diameter: 6, length: 80, at: [100, 500]}',
])('a hung case that its back and its screws do not hold is cured by stronger ones or by more: %s', (more) => {
  const { plan, plain } = hung(more);
  const note = noteOn(notesOf(plan), 'fixing:c')!;
  expect(note.verdict).toBe('stop');
  expect(noteOn(cured(plain, note), 'fixing:c')!.verdict).toBe('fine');
});
