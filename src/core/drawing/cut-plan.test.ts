import { describe, expect, it } from 'vitest';
import { cutUp } from '../bill/index.ts';
import type { RealLayout } from '../stock/index.ts';
import { realLayouts } from '../stock/index.ts';
import { type CutWords, cutPlan, letterOf } from './cut-plan.ts';
import { EXAMPLES, exampleInput } from './packet.testing.ts';

const words: CutWords = {
  length: (mm) => mm.toFixed(1),
  called: (i) => `p${i}`,
  together: (names) => names.join(', '),
  keep: 150,
};

interface Piece {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}
const EPS = 1e-6;

/** Plays the cuts back with nothing but their lines: each must run from edge to edge of one piece; gives back what lies there in the end. */
function replay(
  layout: RealLayout,
  lines: readonly { from: { x: number; y: number }; to: { x: number; y: number } }[],
): readonly Piece[] {
  const { trim, kerf } = layout;
  let pieces: Piece[] = [{ x0: trim, y0: trim, x1: layout.length - trim, y1: layout.width - trim }];
  for (const { from, to } of lines) {
    const upright = from.x === to.x;
    const hit = pieces.filter((p) =>
      upright
        ? from.x > p.x0 - kerf && from.x < p.x1 + kerf && Math.abs(from.y - p.y0) < EPS && Math.abs(to.y - p.y1) < EPS
        : from.y > p.y0 - kerf && from.y < p.y1 + kerf && Math.abs(from.x - p.x0) < EPS && Math.abs(to.x - p.x1) < EPS,
    );
    expect(hit.length, 'a cut runs through one piece, edge to edge').toBe(1);
    const [p] = hit as [Piece];
    const halves = upright
      ? [
          { ...p, x1: from.x - kerf / 2 },
          { ...p, x0: from.x + kerf / 2 },
        ]
      : [
          { ...p, y1: from.y - kerf / 2 },
          { ...p, y0: from.y + kerf / 2 },
        ];
    pieces = [...pieces.filter((q) => q !== p), ...halves.filter((h) => h.x1 - h.x0 > EPS && h.y1 - h.y0 > EPS)];
  }
  return pieces;
}

describe.each(EXAMPLES)('cut plans of %s', (name) => {
  const layouts = exampleInput(name).cuts.flatMap(({ job, answer }) =>
    job.from === 'panel' ? realLayouts(job, answer) : [],
  );

  it('cutting along its lines gives exactly the parts and what it says is left', () => {
    for (const layout of layouts) {
      const { steps, left } = cutPlan(layout, words);
      const lines = steps.flatMap((s) => (s.line ? [s.line] : []));
      const shape = (x: number, y: number, length: number, width: number): string =>
        [x, y, x + length, y + width].map((v) => Math.round(v * 640)).join(' ');
      const wanted = [...layout.placed, ...left].map((p) => shape(p.x, p.y, p.length, p.width));
      const got = replay(layout, lines).map((p) => shape(p.x0, p.y0, p.x1 - p.x0, p.y1 - p.y0));
      expect(got.sort()).toEqual(wanted.sort());
    }
  });

  it('leaves what the bill says goes to the rack', () => {
    for (const layout of layouts) {
      const areas = (list: readonly { length: number; width: number }[]) =>
        list.map((r) => `${r.length.toFixed(3)} × ${r.width.toFixed(3)}`).sort();
      expect(areas(cutPlan(layout, words).left)).toEqual(areas(cutUp(layout).rests));
    }
  });
});

it('letters go on after Z', () => {
  expect([0, 25, 26, 51, 52].map(letterOf)).toEqual(['A', 'Z', 'AA', 'AZ', 'BA']);
});
