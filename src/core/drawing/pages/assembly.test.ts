import { expect, it } from 'vitest';
import { assembliesOf } from '../../assembly/index.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { atOnce, wordsOf } from './assembly.ts';
import { deskOf } from './desk.ts';

it.each(EXAMPLES)('steps of %s that share one picture are told in the same words', (name) => {
  const desk = deskOf(exampleInput(name), 'A4');
  const runs = assembliesOf(desk.input).flatMap(({ plan }) =>
    atOnce(plan.steps, (id) => desk.partOf.get(id)!.part).filter((run) => run.length > 1),
  );
  expect(runs.length).toBeGreaterThan(0);
  for (const run of runs) {
    // the turn before the first is told with it
    const [first, ...more] = run.map((step) => wordsOf(desk, { ...step, turned: false }).join(' '));
    for (const words of more) expect(words).toBe(first);
  }
});
