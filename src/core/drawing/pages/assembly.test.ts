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

it('says which of two parts has the groove: the one that goes in, or the one that is there', () => {
  const desk = deskOf(exampleInput('lesson-room'), 'A4');
  const { plan, piece } = assembliesOf(desk.input).find((a) => a.piece.id === 'scores')!;
  const words = (part: string): string =>
    wordsOf(desk, plan.steps.find((s) => s.adds.includes(`scores/${part}` as never))!).join(' ');
  const shelf = desk.numberOf.get(piece.parts.find((p) => p.role === 'fixed shelf')!.id);
  // the first upright is housed over the end of the fixed shelf that lies there; the second goes up into the top
  expect(words('upright-1')).toContain(`Its groove over ${shelf}`);
  expect(words('upright-2')).toContain(`Let into ${desk.numberOf.get('scores/top' as never)}`);
});

it('screws the front of a drawer from inside the drawer, which is drawn out for it, with screws that stay in the wood', () => {
  const desk = deskOf(exampleInput('lesson-room'), 'A4');
  const { plan, piece } = assembliesOf(desk.input).find((a) => a.piece.id === 'scores')!;
  const fronts = piece.parts.filter((p) => p.role === 'drawer front');
  expect(fronts.length).toBeGreaterThan(0);
  for (const front of fronts) {
    const step = plan.steps.find((s) => s.adds.includes(front.id))!;
    const box = piece.parts.find((p) => p.id === front.id.replace(/front$/, 'box-front'))!;
    expect(step.fasteners.map(({ through, from }) => [through, from])).toEqual([[box.id, 'back']]);
    const words = wordsOf(desk, step).join(' ');
    expect(words).toContain('draw the drawer out');
    const [, most] = /none longer than ([^.]+)\./.exec(words)!;
    expect(most).toBe(desk.letter.length(front.size.thickness + box.size.thickness - 3));
  }
});

it.each(EXAMPLES)('brings the doors and drawer fronts of %s straight on, from the front', (name) => {
  let all = 0;
  for (const { plan, piece } of assembliesOf(deskOf(exampleInput(name), 'A4').input))
    for (const front of piece.parts.filter((p) => p.role === 'door' || p.role === 'drawer front')) {
      const step = plan.steps.find((s) => s.adds.includes(front.id));
      if (step?.moves === undefined) continue;
      all++;
      expect(step.moves, front.id).toBe('back');
    }
  expect(all).toBeGreaterThan(2);
});
