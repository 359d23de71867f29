import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findOption, sceneOf, settle } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { type From, METRES, sectionOf, standAt } from './round-stand.ts';

// the set of one stands at the north wall, that of the other at the west wall
describe.each(['lesson-room', 'radio-corner'])('who looks at the set of %s', (example) => {
  const plan = readPlan(readFileSync(new URL(`../../examples/${example}.plan.yaml`, import.meta.url), 'utf8')).plan!;
  const outcome = settle(sceneOf(plan, findOption(plan)!), [], '2026-10-30');
  const cases = outcome.pieces.filter(({ kind }) => kind === 'case');

  it.each(['corner', 'front', 'eye'] as const)('from %s has its cases near the middle of the picture', (from) => {
    const { at, towards } = standAt(outcome, from);
    expect(cases.length).toBeGreaterThan(2);
    const middle = cases
      .map(({ frame: { origin } }) => [origin.x * METRES, origin.z * METRES] as const)
      .reduce(([x, z], p) => [x + p[0] / cases.length, z + p[1] / cases.length], [0, 0]);
    const angle = (x: number, z: number): number => Math.atan2(z - at[2], x - at[0]);
    const off = angle(middle[0], middle[1]) - angle(towards[0], towards[2]);
    expect(Math.abs(Math.atan2(Math.sin(off), Math.cos(off)))).toBeLessThan(Math.PI / 9);
  });

  it('from a corner stands on the side where no chimney breast is', () => {
    const { at } = standAt(outcome, 'corner');
    const all = outcome.room.outline.map((p) => p.z * METRES);
    const [near, far] = [Math.min(...all), Math.max(...all)];
    const breast = all.filter((z) => z > near + 0.01 && z < far - 0.01);
    expect(breast.length > 0).toBe(example === 'radio-corner');
    const middle = (near + far) / 2;
    for (const z of breast) expect(Math.sign(z - middle)).toBe(-Math.sign(at[2] - middle));
  });

  it('facing it stands square before it, within the picture from wall to wall', () => {
    const { at, towards } = standAt(outcome, 'front');
    const turn = (cases[0]!.frame.turn * Math.PI) / 180;
    const [x, z] = [at[0] - towards[0], at[2] - towards[2]];
    expect(x * Math.cos(turn) + z * Math.sin(turn)).toBeCloseTo(0);
    expect(z * Math.cos(turn) - x * Math.sin(turn)).toBeGreaterThan(2);
  });

  it('loses to a cut from the front what stands nearest, and to one from the left what is on the left hand', () => {
    const { at, towards } = standAt(outcome, 'front');
    const corners = outcome.room.outline.map(({ x, z }) => [x * METRES, z * METRES] as const);
    const out = [at[0] - towards[0], at[2] - towards[2]] as const;
    const ways = { front: out, left: [-out[1], out[0]], right: [out[1], -out[0]] } as const;
    for (const [from, way] of Object.entries(ways)) {
      const far = (of: readonly number[]): number => of[0]! * way[0] + of[1]! * way[1];
      const { normal, constant } = sectionOf(outcome, 0.1, from as From);
      const gone = corners.filter(([x, z]) => normal[0] * x + normal[2] * z + constant < 0);
      const kept = corners.filter((corner) => !gone.includes(corner));
      expect(gone.length).toBeGreaterThan(0);
      expect(Math.min(...gone.map(far))).toBeGreaterThan(Math.max(...kept.map(far)));
      const whole = sectionOf(outcome, 0, from as From);
      for (const [x, z] of corners)
        expect(whole.normal[0] * x + whole.normal[2] * z + whole.constant).toBeGreaterThan(1);
    }
  });

  it('loses to a cut from above what is high, all over the room alike', () => {
    const { ceiling } = outcome.room;
    for (const share of [0.1, 0.6]) {
      const { normal, constant } = sectionOf(outcome, share, 'above');
      expect([normal[0], normal[2]]).toEqual([expect.closeTo(0), expect.closeTo(0)]);
      const at = (share: number): number => normal[1] * ceiling * METRES * share + constant;
      expect(at(1 - share - 0.01)).toBeGreaterThan(0);
      expect(at(1 - share + 0.01)).toBeLessThan(0);
    }
  });
});
