import { printersFor } from '../plan/index.ts';
import type { Fitting } from '../scene/index.ts';
import { endScrew, fixings, letIn, type Timber, type WallInput } from '../strength/index.ts';

/** How thick and how high it is. */
export function sectionOf({ plan }: Pick<WallInput, 'plan'>, { block }: Timber): string {
  const print = printersFor(plan.units);
  return `${print.length(block.thickness)} × ${print.length(block.height)}`;
}

/** The lengths of timber that are let in for this job, on every wall. */
export const newTimbers = (input: WallInput): readonly Timber[] =>
  input.room.walls.flatMap((wall) => letIn(input, wall, fixings(input).points)).filter(({ block }) => block.new);

/** Timber let in for this job as it is bought, each length in one, and the screws of its ends. */
export function timberFittings(input: WallInput): readonly Fitting[] {
  const timbers = newTimbers(input);
  if (timbers.length === 0) return [];
  const { diameter, length } = endScrew(input);
  return [
    ...timbers.map(
      (timber, i): Fitting => ({
        id: `stud timber/${i + 1}`,
        piece: 'finish',
        use: 'stud timber',
        name: `timber ${sectionOf(input, timber)} between the studs`,
        count: 1,
        diameter: timber.block.height,
        amount: { value: timber.to - timber.from, unit: 'mm' },
      }),
    ),
    {
      id: 'stud timber/screws',
      piece: 'finish',
      use: 'wood screw',
      name: 'screws of the timber between the studs',
      count: timbers.reduce((sum, { count }) => sum + 2 * count, 0),
      diameter,
      length,
    },
  ];
}
