import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Face, seen } from './hidden-lines.ts';

const face = (owner: string, u0: number, v0: number, u1: number, v1: number, near: number, body = owner): Face => ({
  u: [u0, u1],
  v: [v0, v1],
  near,
  owner,
  body,
});

/** Second route: ask every face, one by one, which is foremost at a point. */
function foremost(faces: readonly Face[], u: number, v: number): string | undefined {
  let best: Face | undefined;
  for (const f of faces)
    if (u > f.u[0] && u < f.u[1] && v > f.v[0] && v < f.v[1])
      if (!best || (f.cut ? Infinity : f.near) > (best.cut ? Infinity : best.near)) best = f;
  return best?.owner;
}
const side = (size: number) => fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 1, max: size }));
const anyFace = fc.record({ a: side(14), b: side(14), near: fc.integer({ min: 0, max: 500 }), cut: fc.boolean() });
const anyFaces = fc.uniqueArray(anyFace, { minLength: 1, maxLength: 14, selector: (f) => f.near }).map((list) => {
  let cutOne = false;
  return list.map(({ a, b, near, cut }, i): Face => {
    const first = cut && !cutOne;
    cutOne ||= cut;
    return { ...face(`p${i}`, a[0], b[0], a[0] + a[1], b[0] + b[1], near), ...(first && { cut: true }) };
  });
});

describe('seen', () => {
  it('shows at every point what asking each face finds foremost', () =>
    fc.assert(
      fc.property(anyFaces, (faces) => {
        const { shown } = seen(faces);
        for (let u = 0.5; u < 45; u++)
          for (let v = 0.5; v < 45; v++) {
            const here = shown().filter((s) => u > s.u[0] && u < s.u[1] && v > s.v[0] && v < s.v[1]);
            expect(here.length).toBeLessThanOrEqual(1);
            expect(here[0]?.owner).toBe(foremost(faces, u, v));
          }
      }),
      { numRuns: 60 },
    ));

  it('draws a line where two neighbouring points show different owners, and nowhere else', () =>
    fc.assert(
      fc.property(anyFaces, (faces) => {
        const { edges } = seen(faces);
        const has = (u: number, v: number): boolean =>
          edges.some(({ from, to }) => from[0] === u && to[0] === u && from[1] < v && to[1] > v);
        for (let u = 0; u <= 45; u++)
          for (let v = 0.5; v < 45; v++)
            expect(has(u, v)).toBe(foremost(faces, u - 0.5, v) !== foremost(faces, u + 0.5, v));
      }),
      { numRuns: 60 },
    ));

  it('a board before another: the one behind ends where the other begins', () => {
    const { edges } = seen([face('far', 0, 0, 100, 100, 0), face('near', 50, 20, 150, 80, 10)]);
    const upright = edges.filter((e) => e.from[0] === 100 && e.to[0] === 100);
    expect(upright.map((e) => [e.from[1], e.to[1]])).toEqual([
      [0, 20],
      [80, 100],
    ]);
  });

  it('one part in two boxes of one depth is drawn as one; another part beside it is not', () => {
    const one = seen([face('a', 0, 0, 10, 10, 5), face('a', 10, 0, 20, 10, 5)]);
    expect(one.edges.some((e) => e.from[0] === 10 && e.to[0] === 10)).toBe(false);
    const two = seen([face('a', 0, 0, 10, 10, 5, 'case'), face('b', 10, 0, 20, 10, 5, 'case')]);
    const line = two.edges.find((e) => e.from[0] === 10 && e.to[0] === 10);
    expect(line?.weight).toBe('visible');
    expect(two.edges.filter((e) => e.weight === 'outline').length).toBeGreaterThanOrEqual(4);
  });

  it('what is cut is in front of everything and outlined', () => {
    const { edges, shown } = seen([{ ...face('cut', 4, 4, 6, 6, 0), cut: true }, face('front', 0, 0, 10, 10, 99)]);
    expect(shown().find((s) => s.cut)).toEqual({ owner: 'cut', cut: true, u: [4, 6], v: [4, 6] });
    expect(edges.filter((e) => e.owner === 'cut').every((e) => e.weight === 'outline')).toBe(true);
  });
});
