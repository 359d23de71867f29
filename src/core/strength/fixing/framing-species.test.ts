import { expect, it } from 'vitest';
import { cured, noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const framed = (species: string, blocking = '') =>
  read(roomOf('      []', { framing: `{kind: timber stud, spacing: 400, species: ${species}${blocking}}` }));

it('a wood of studs that no table lists is told, with the nearest and what is reckoned with', () => {
  const { plan, plain } = framed('hem fur');
  const note = noteOn(notesOf(plan), 'species:north/studs')!;
  expect(note.title).toBe("No table lists 'hem fur': the studs of north wall are reckoned as spruce-pine-fir");
  expect(note.advice).toContain("Did you mean 'Hem-Fir'?");
  expect(noteOn(cured(plain, note), 'species:')).toBeUndefined();
  for (const known of ['Northern red oak', 'SPF', 'spruce-pine-fir', 'C24', 'cedar'])
    expect(noteOn(notesOf(framed(known).plan), 'species:')).toBeUndefined();
});

it('of steel studs no wood is told', () => {
  const framing = '{kind: steel stud, mils: 33, spacing: 400, species: hem fur}';
  expect(noteOn(notesOf(read(roomOf('      []', { framing })).plan), 'species:')).toBeUndefined();
});

it('and of timber let in between them', () => {
  const letIn = ', blocking: [{from: 230, to: 570, above: 1000, height: 140, thickness: 38, species: oke}]';
  const note = noteOn(notesOf(framed('white oak', letIn).plan), 'species:')!;
  expect(note.id).toBe('species:north/blocking-0');
  expect(note.title).toContain('timber let in behind north wall is reckoned');
});

const HUNG = '      - {case: c, wall: north, from: 400, above: 1300, size: {width: 800, height: 600, depth: 300}}';
const usedIn = (species: string): number => {
  const framing = `{kind: timber stud, spacing: 400, first: 200, board: 12.5, species: ${species}}`;
  const { working } = noteOn(notesOf(read(roomOf(HUNG, { framing })).plan), 'fixing:')!;
  return (working as { result: { value: number } }).result.value;
};

it('screws into a lighter wood are used more', () => {
  const [heavy, usual, light] = ['Southern Pine', 'SPF', 'cedar'].map(usedIn);
  expect(heavy).toBeLessThan(usual!);
  expect(usual).toBeLessThan(light!);
});
