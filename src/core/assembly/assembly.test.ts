import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildCase } from '../casework/index.ts';
import { AT_ORIGIN } from '../casework/plan.testing.ts';
import { anyCase, readUnspelt } from '../casework/random.testing.ts';
import { assemblySteps } from './index.ts';
import { judge } from './laws.testing.ts';

const RUNS = 150;

describe('the order of assembly of any case', () => {
  it('adds each part once, in a straight free move, with reachable fasteners and true gauges', () => {
    let [built, gauges, fasteners] = [0, 0, 0];
    fc.assert(
      fc.property(anyCase, (unspelt) => {
        const { plan, piece } = readUnspelt(unspelt);
        const { placed, issues } = buildCase(piece, plan, AT_ORIGIN);
        if (issues.length > 0) return;
        const assembly = assemblySteps(placed, { effort: 8 });
        const judged = judge(placed, assembly);
        expect(judged.faults).toEqual([]);
        built += 1;
        gauges += judged.gauges;
        fasteners += judged.fasteners;
      }),
      { numRuns: RUNS },
    );
    // a law that most cases escape would show little
    expect(built).toBeGreaterThan(RUNS / 2);
    expect(gauges).toBeGreaterThan(built);
    expect(fasteners).toBeGreaterThan(5 * built);
  });
});
