import { expect, it } from 'vitest';
import { cured, curedPlan, noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const shelf = (height: number, load: number, framing: string) =>
  read(
    roomOf(
      `      - {shelf: s, wall: north, from: 500, above: 1500, size: {width: 1400, height: ${height}, depth: 250}, skin: thin, load: ${load} kg, rods: {diameter: 16}}`,
      { framing },
    ),
  );
const TIMBER = '{kind: timber stud, spacing: 400, first: 200, board: 12.5}';
const THIN = '{kind: steel stud, spacing: 400, first: 200, board: 12.5, mils: 18}';

it.each([
  ['timber studs, by the shelf alone', TIMBER, 30, 120],
  ['thin steel studs, with timber let in', THIN, 30, 60],
])('a shelf too low for a plate that holds it is offered higher: %s', (_, framing, height, load) => {
  const { plan, plain } = shelf(height, load, framing);
  const before = noteOn(notesOf(plan), 'fixing:s')!;
  expect(before.verdict).toBe('stop');
  expect(before.cure!.title).toMatch(/^Make it \d+ mm high/);
  expect(before.cure!.title.includes('let timber in')).toBe(framing === THIN);
  const after = cured(plain, before);
  expect(noteOn(after, 'fixing:s')!.verdict).toBe('fine');
  expect(noteOn(after, 'let-in:s')?.verdict).toBe(framing === THIN ? 'fine' : undefined);
  // no higher than it must be: a step lower does not hold
  const made = curedPlan(plain, before).plan.options[0]!.pieces[0]!;
  const high = 'shelf' in made ? made.size.height : 0;
  const lower = noteOn(notesOf(shelf(high - 10, load, framing).plan), 'fixing:s')!;
  expect(lower.verdict).toBe('stop');
  expect(lower.cure!.title).not.toMatch(/^Make its/);
});

it('on masonry too, on the plugs that the plan has', () => {
  const plugs = 'fix: {kind: plug, diameter: 8, length: 60, rated: {pull: 120 kg, shear: 120 kg}}';
  const { plan, plain } = read(
    roomOf(
      `      - {shelf: s, wall: north, from: 500, above: 1500, size: {width: 1400, height: 30, depth: 250}, skin: thin, load: 60 kg, rods: {diameter: 16}, ${plugs}}`,
      { framing: '{kind: masonry}' },
    ),
  );
  const before = noteOn(notesOf(plan), 'fixing:s')!;
  expect([before.verdict, before.cure?.title]).toEqual(['stop', expect.stringMatching(/^Make it \d+ mm high/)]);
  const after = curedPlan(plain, before).plan;
  expect(noteOn(notesOf(after), 'fixing:s')!.verdict).toBe('fine');
  expect(after.options[0]!.pieces[0]!.fix).toEqual(plan.options[0]!.pieces[0]!.fix);
});

it('is offered nothing where no shelf that is still one would do', () => {
  const { plan } = shelf(30, 900, TIMBER);
  const note = noteOn(notesOf(plan), 'fixing:s')!;
  expect([note.verdict, note.cure]).toEqual(['stop', undefined]);
});
