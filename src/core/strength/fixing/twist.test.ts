import { describe, expect, it } from 'vitest';
import { type Source, work } from '../../notes/index.ts';
import { calculators } from '../calculators.ts';
import { noteOn, notesOf, read, roomOf, sceneIn } from '../plan.testing.ts';
import { fixings } from './held.ts';
import { fixingTwist, twisted } from './twist.ts';

const hungCase = (more: string, width = 800) =>
  read(
    roomOf(
      `      - {case: hung, wall: north, from: 500, above: 1400, size: {width: ${width}, height: 700, depth: 300}, inside: {shelves: 1}${more}}`,
    ),
  ).plan;
const heldIn = (more: string, width?: number) => {
  const scene = sceneIn(hungCase(more, width));
  return fixings({ ...scene, massOf: () => 2 }).pieces[0]!;
};

describe('a weight that hangs beside its fixings', () => {
  it('four bolts by hand: 10 kN at 300 from the middle of a square of 200', () => {
    // r² = 4 × 20 000; M/Σr² = 37.5; of the nearer pair V = 2500 + 37.5 × 100 = 6250 down, 3750 across: 7289 N
    const corners = [0, 200].flatMap((x) => [0, 200].map((y) => ({ x, y })));
    const { offset, polar, shears } = twisted(10_000, 400, corners);
    expect([offset, polar]).toEqual([300, 80_000]);
    expect(shears.map(Math.round)).toEqual([3953, 3953, 7289, 7289]);
    expect(twisted(10_000, 100, corners).shears).toEqual([2500, 2500, 2500, 2500]);
  });

  it('two lags one over the other, 300 from the middle of a case: 1.4 times the shear, and the working says so', () => {
    const held = heldIn(', fix: {kind: lag screw, at: [100]}');
    const weight = held.points.reduce((sum, p) => sum + p.shear, 0);
    // 600 apart up the wall: W/2 down and W 300/600 across
    const shown = (symbol: string) => held.working!.inputs.find((i) => i.symbol === symbol)!.value as number;
    expect(shown('a')).toBeCloseTo(300, 6);
    expect(shown('V') / (weight / 2)).toBeCloseTo(Math.SQRT2, 6);
    expect(held.working!.assumes.join(' ')).toContain('elastic method');
    // the figure is the calculator's own, with where it was published
    const { title, place } = fixingTwist.source as Source;
    expect(held.working!.inputs.find((i) => i.symbol === 'V')!.source).toEqual({ title, place });
    const x = held.points.map((p) => p.x);
    const given = { load: shown('m'), at: x[0]! + 300, across: x, up: held.points.map((p) => p.y) };
    expect(shown('V')).toBeCloseTo(work(fixingTwist, given).result.value, 9);
    expect(calculators).toContain(fixingTwist);
    const even = heldIn(', fix: {kind: lag screw, at: [100, 500]}', 600);
    expect(even.working!.inputs.some((i) => i.symbol === 'a')).toBe(false);
  });

  it('one fixing beside the middle holds nothing, and says why', () => {
    const plan = hungCase(', fix: {kind: lag screw, at: [100], heights: [650]}');
    const note = noteOn(notesOf(plan), 'fixing:hung')!;
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('hangs beside its one fixing');
  });
});
