import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answersIn, workedOut } from './answers.testing.ts';
import { anyHouse, planOfHouse } from './houses.testing.ts';
import { findOption } from './outcome.ts';
import { type Piece, type Plan, readPlan } from './plan/index.ts';
import { LENGTH_UNITS, type LengthUnit, type Mm, mm } from './quantity/index.ts';

/**
 * What a plan leaves to the trade is as it is sold and measured where its units are used: a #10 screw or one of 4.8 mm, 2 in or 50 mm from
 * the top of a case. So that nothing is left out, every piece says what holds it; hanging rails, whose own screws no plan names, are left away.
 */
function fixedSaid(plan: Plan): Plan {
  const screw = { 'steel stud': 'self-drilling screw', masonry: 'plug' } as const;
  const said = (piece: Piece): Piece => {
    const behind = plan.room.walls.find((w) => w.id === piece.wall)?.framing?.kind ?? 'unknown';
    const heights = 'case' in piece ? { heights: [(piece.size.height - 45) as Mm] } : {};
    const kind = behind in screw ? screw[behind as keyof typeof screw] : ('wood screw' as const);
    return { ...withoutRails(piece), fix: { kind, diameter: mm(5), length: mm(60), ...heights, ...piece.fix } };
  };
  return { ...plan, options: plan.options.map((option) => ({ ...option, pieces: option.pieces.map(said) })) };
}

function withoutRails(piece: Piece): Piece {
  if (!('case' in piece)) return piece;
  const { rails: _, ...rest } = piece;
  return rest;
}

describe('a plan in inches', () => {
  it('is answered as the same plan in millimetres: every solid, part, price, use, cut and date, to the last digit', () => {
    let built = 0;
    fc.assert(
      fc.property(anyHouse, fc.constantFrom(...LENGTH_UNITS), (house, length) => {
        const metric = workedOut(planOfHouse(house, 'mm'));
        const inches = workedOut(planOfHouse(house, 'in', { length }));
        expect(answersIn(inches)).toEqual(answersIn(metric));
        if (inches.issues.length === 0) built++;
      }),
      { numRuns: 8 },
    );
    expect(built).toBeGreaterThan(4);
  });

  it.each(['lesson-room', 'radio-corner'])('so is the %s, whichever unit it is shown in', (name) => {
    const text = readFileSync(new URL(`../../examples/${name}.plan.yaml`, import.meta.url), 'utf8');
    const plan = fixedSaid(readPlan(text).plan!);
    const [built, other] = [findOption(plan), plan.options.at(-1)];
    const answers = (length: LengthUnit, option = built) =>
      answersIn(workedOut({ ...plan, units: { ...plan.units, length } }, 0, option));
    expect(answers('ft-in')).toEqual(answers('mm'));
    const inMetres = answers('m', other);
    for (const unit of ['in', 'cm'] as const) expect(answers(unit, other)).toEqual(inMetres);
  });
});
