import fc from 'fast-check';
import { expect, it } from 'vitest';
import { explain } from '../issue/index.ts';
import { workOut } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { formatLength, inch, type LengthUnit, mm } from '../quantity/index.ts';
import { type Answers, leastOf, mostOf, NEEDS, starterPlan } from './index.ts';

const LEAST = leastOf('mm');

/** All that `setwright new` lets through. */
const anyAnswers: fc.Arbitrary<Answers> = fc.record({
  title: fc.string({ maxLength: 60, unit: 'grapheme' }),
  length: fc.constantFrom('ft-in', 'in', 'mm', 'cm', 'm'),
  currency: fc.constantFrom('USD', 'EUR', 'JPY', 'KWD', 'XXX'),
  wall: fc.integer({ min: LEAST.wall, max: 12_000 }).map(mm),
  ceiling: fc.integer({ min: LEAST.ceiling, max: 12_000 }).map(mm),
  room: fc.integer({ min: LEAST.room, max: 50_000 }).map(mm),
  framing: fc.constantFrom('timber stud', 'steel stud', 'masonry', 'unknown'),
  fits: fc.uniqueArray(fc.constantFrom(...NEEDS)),
});

it('checks clean, whatever is answered', () =>
  fc.assert(
    fc.property(anyAnswers, (answers) => {
      const { plan, issues } = readPlan(starterPlan(answers));
      expect(issues.map(explain)).toEqual([]);
      // panels as a gauge shows them, and the wall as it was measured
      const gauge = answers.length.endsWith('in') ? [0.703, 0.472, 0.205].map((t) => inch(t)) : [18, 12, 6];
      plan!.stock.panels.forEach((panel, i) => {
        expect(panel.thickness).toBeCloseTo(gauge[i]!, 2);
      });
      expect([plan!.room.walls[0]!.length, plan!.room.ceiling]).toEqual([answers.wall, answers.ceiling]);
      // and what is on no grid: the blade, and the board on the studs
      const { framing } = plan!.room.walls[0]!;
      const [kerf, board] = answers.length.endsWith('in') ? [3.175, 12.7] : [3.2, 12.5];
      expect(plan!.shop.kerf).toBeCloseTo(kerf, 3);
      if (answers.framing.endsWith('stud')) expect(framing!.board).toBeCloseTo(board, 3);
      const outcome = workOut(plan!, plan!.options[0]!, { today: '2026-10-02', effort: { steps: 0 } });
      expect(outcome.issues.map(explain)).toEqual([]);
      expect(outcome.notes.filter((n) => n.verdict === 'stop').map((n) => n.title)).toEqual([]);
      // all that is needed can be bought, but for what nobody can choose before the wall is looked at
      const missing = outcome.notes.filter((n) => n.id.startsWith('no-pack')).map((n) => n.title);
      expect(missing.filter((title) => answers.framing !== 'unknown' || !/ into the wall /.test(title))).toEqual([]);
    }),
    { numRuns: 60 },
  ));

it.each<[LengthUnit, ...string[]]>([
  ['ft-in', `2' 0"`, `5' 0"`, `4' 0"`],
  ['in', '24"', '60"', '48"'],
  ['mm', '600 mm', '1500 mm', '1200 mm'],
  ['m', '0.6 m', '1.5 m', '1.2 m'],
])('asks in %s for at least %s of wall, %s of ceiling and %s of room', (unit, ...said) =>
  expect(Object.values(leastOf(unit)).map((length) => formatLength(length, { unit }))).toEqual(said),
);

it.each<[LengthUnit, ...string[]]>([
  ['ft-in', `160' 0"`, `40' 0"`, `160' 0"`],
  ['in', '1920"', '480"', '1920"'],
  ['mm', '50000 mm', '12000 mm', '50000 mm'],
  ['m', '50 m', '12 m', '50 m'],
])('asks in %s for at most %s of wall, %s of ceiling and %s of room', (unit, ...said) =>
  expect(Object.values(mostOf(unit)).map((length) => formatLength(length, { unit }))).toEqual(said),
);
