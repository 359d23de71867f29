import fc from 'fast-check';
import { expect, it } from 'vitest';
import { calendarOf } from '../calendar/index.ts';
import { anyHouse, planOfHouse } from '../houses.testing.ts';
import { calendarInput, sceneOf, workOut } from '../outcome.ts';
import { type FinishingInput, finishingOf, type Surfaces } from './index.ts';

/** m² that wall paint is bought for, one coat: as its working has it. */
const bought = (scene: FinishingInput): number =>
  Number(
    finishingOf(scene)
      .items.find((i) => i.id === 'wall-paint')!
      .working!.inputs.find((i) => i.symbol === 'A')!.value,
  );
/** m² of the walls less their openings, which do not touch in these houses. */
function byHand({ room }: Pick<Surfaces, 'room'>): number {
  const walls = room.walls.reduce((sum, w) => sum + w.length * w.height, 0);
  return (walls - room.openings.reduce((sum, { x, y }) => sum + (x[1] - x[0]) * (y[1] - y[0]), 0)) / 1e6;
}

it('paint is bought for what the calendar rolls: whole walls, whatever will stand before them', () =>
  fc.assert(
    fc.property(anyHouse, (house) => {
      const plan = planOfHouse(house);
      const option = plan.options[0]!;
      const holes = { holes: [], floorShims: 0, bolts: [] };
      const scene = { ...sceneOf(plan, option), ...holes };
      const area = bought(scene);
      expect(area).toBeCloseTo(byHand(scene), 6);
      expect(area).toBeCloseTo(bought({ ...scene, pieces: [] }), 9);
      const today = '2026-11-25';
      const input = calendarInput(workOut(plan, option, { today, effort: { steps: 0 } }), today);
      const { tasks } = calendarOf({ ...input, steps: 1, brief: true });
      // a coat that is longer than a stretch of work is told in parts, each with the whole count
      const coats = tasks.filter(({ task }) => /^\w+ coat walls(?: 1)?$/.test(task.id));
      expect(coats).toHaveLength(option.finish?.coats ?? 2);
      for (const { task } of coats)
        expect(task.counts).toEqual([{ counted: 'paint m²', count: expect.closeTo(area, 6) }]);
    }),
    { numRuns: 10 },
  ));
