import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { lightOf } from '../core/light/index.ts';
import { findOption, solidsOf } from '../core/outcome.ts';
import { type Edit, type PlainValue, planOf, readPlan } from '../core/plan/index.ts';
import { soundOf } from '../core/sound/index.ts';
import { serveGlance } from './glance-serve.ts';

const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plain = readPlan(text).document.plain as PlainValue;
const plan = planOf(plain).plan!;
const option = findOption(plan)!;
const pieceAt = (kind: string): number => option.pieces.findIndex((piece) => kind in piece);
const path = (kind: string, ...rest: string[]) => [
  'options',
  plan.options.indexOf(option),
  'pieces',
  pieceAt(kind),
  ...rest,
];
const hand = (edits: readonly Edit[], revision = 2) => ({ type: 'hand', revision, option: option.id, edits }) as const;
const begun = () => {
  const serve = serveGlance();
  return { serve, first: serve({ type: 'plan', revision: 1, option: option.id, plain }).glance! };
};

describe('a glance at light and sound', () => {
  it('tells what the pages tell: the light within a few parts in a hundred, the sound the same', () => {
    const { first } = begun();
    const solids = solidsOf(plan, option);
    const fine = lightOf(solids)!.faces[0]!;
    expect(first.face?.title).toBe(fine.title);
    // as `quickLight` promises
    expect(Math.abs(first.face!.lux / fine.lux - 1)).toBeLessThan(0.1);
    expect(first.rings).toBeCloseTo(soundOf(solids).worst.after, 9);
  });
  it('is darker without a lamp, and rings longer without an absorber', () => {
    const { serve, first } = begun();
    const dark = serve(hand([{ op: 'remove', path: path('lamp') }])).glance!;
    expect(dark.face!.lux).toBeLessThan(first.face!.lux);
    const live = serve(hand([{ op: 'remove', path: path('absorber') }])).glance!;
    expect(live.rings).toBeGreaterThan(first.rings);
  });
  it('does not depend on what was under the hand before', () => {
    const { serve, first } = begun();
    const edit = (width: string): Edit => ({ op: 'set', path: path('case', 'size', 'width'), value: width });
    const there = serve(hand([edit('1 m')], 5));
    expect(there).toEqual({ revision: 5, glance: begun().serve(hand([edit('1 m')])).glance });
    serve(hand([edit('900 mm')]));
    expect(serve(hand([])).glance).toEqual(first);
  });
  it('says nothing of a plan that cannot be read, and nothing before it has one', () => {
    const { serve } = begun();
    expect(serve(hand([{ op: 'set', path: path('case', 'size', 'width'), value: 'wide' }])).glance).toBeUndefined();
    expect(serveGlance()(hand([])).glance).toBeUndefined();
  });
  it('looks at the option that is shown', () => {
    const { serve } = begun();
    const other = plan.options.find((one) => one !== option)!;
    const { glance } = serve({ ...hand([]), option: other.id });
    expect(glance!.rings).toBeCloseTo(soundOf(solidsOf(plan, other)).worst.after, 9);
  });
});
