import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { partNumbers } from '../core/drawing/index.ts';
import { cutJob, sceneOf, settle } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import { numberPlaces } from './layout-numbers.ts';
import { shopDay } from './shop-day.ts';

const layoutsOf = (example: string) => {
  const plan = readPlan(readFileSync(new URL(`../../examples/${example}.plan.yaml`, import.meta.url), 'utf8')).plan!;
  return plan.options.flatMap((option) => {
    const scene = sceneOf(plan, option);
    const cuts = cutJobs(scene.parts, plan).map((job) => cutJob(job, { steps: 0 }));
    const outcome = settle(scene, cuts, '2026-10-30');
    const numbers = new Map(partNumbers(outcome.pieces).map(({ part, number }) => [part.id, `${number}`]));
    return shopDay(outcome, true).map(({ title, layout: { placed, length, width } }) => ({
      title,
      size: Math.max(length, width) / 22,
      parts: placed.map((p) => ({ ...p, number: numbers.get(p.part)! })),
    }));
  });
};

describe.each(['lesson-room', 'radio-corner'])('numbers of parts on the panels of %s', (example) => {
  const layouts = layoutsOf(example);

  it('stand apart: no two of them are read as one', () => {
    expect(layouts.some(({ parts }) => parts.length > 12)).toBe(true);
    for (const { title, size, parts } of layouts) {
      // half of what a number covers, a digit being half as wide as its letter is large and three quarters as high
      const boxes = numberPlaces(parts, size).map((at, i) => ({
        ...at,
        half: (parts[i]!.number.length * at.size) / 4,
        up: (at.size * 3) / 8,
      }));
      const run = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => Math.abs(a.x - b.x) < a.half + b.half && Math.abs(a.y - b.y) < 0.95 * (a.up + b.up))
          .map((b) => `${title}: ${parts[i]!.number} and ${parts[boxes.indexOf(b)]!.number}`),
      );
      expect(run).toEqual([]);
    }
  });

  it('have their middle on their part, and are at least half as large as the others', () => {
    for (const { size, parts } of layouts)
      for (const [i, at] of numberPlaces(parts, size).entries()) {
        const { x, y, length, width } = parts[i]!;
        expect(at.x >= x && at.x <= x + length && at.y >= y && at.y <= y + width).toBe(true);
        expect(at.size).toBeGreaterThanOrEqual(size / 2);
      }
  });
});
