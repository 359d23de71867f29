import type { Hatch, Point } from './marks.ts';

export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

/** One family of parallel lines: degrees clockwise from the x axis, their distance in mm, and the shift of the first. */
interface Family {
  readonly angle: number;
  readonly spacing: number;
  readonly shift?: number;
}

/** Our own set, after ISO 128-3:2022 (hatching at 45°, told apart by direction and distance). */
const HATCHES: Readonly<Record<Hatch, readonly Family[]>> = {
  panel: [{ angle: -45, spacing: 1.1 }],
  'solid wood': [
    { angle: -45, spacing: 2.2 },
    { angle: -45, spacing: 2.2, shift: 0.55 },
  ],
  'end grain': [
    { angle: -45, spacing: 1.6 },
    { angle: 45, spacing: 1.6 },
  ],
  masonry: [
    { angle: -45, spacing: 3 },
    { angle: -45, spacing: 3, shift: 0.8 },
  ],
  board: [{ angle: -60, spacing: 1.4 }],
  waste: [{ angle: -45, spacing: 2.5 }],
  offcut: [{ angle: 45, spacing: 6 }],
  selected: [{ angle: 0, spacing: 1.2 }],
};

/**
 * The lines of a hatch, clipped to a polygon (even-odd). Lines of one hatch lie on one grid over the whole sheet, so that
 * two shapes that share an edge are hatched as one. `over` mirrors the hatch left to right.
 */
export function hatchLines(points: readonly Point[], hatch: Hatch, over = false): readonly Segment[] {
  return HATCHES[hatch].flatMap(({ angle, spacing, shift = 0 }) =>
    clipped(points, over ? -angle : angle, spacing, shift),
  );
}

function clipped(points: readonly Point[], degrees: number, spacing: number, shift: number): readonly Segment[] {
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // u runs along the hatch lines, v across them.
  const turned = points.map((p) => ({ u: c * p.x + s * p.y, v: -s * p.x + c * p.y }));
  const least = Math.min(...turned.map((p) => p.v));
  const most = Math.max(...turned.map((p) => p.v));
  const segments: Segment[] = [];
  for (let k = Math.ceil((least - shift) / spacing); k * spacing + shift < most; k++) {
    const v = k * spacing + shift;
    const crossings: number[] = [];
    turned.forEach((a, i) => {
      const b = turned[(i + 1) % turned.length]!;
      // Half open, so that a corner on the line counts once.
      if (a.v <= v !== b.v <= v) crossings.push(a.u + ((v - a.v) / (b.v - a.v)) * (b.u - a.u));
    });
    crossings.sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const [u0, u1] = [crossings[i]!, crossings[i + 1]!];
      if (u1 - u0 < 0.05) continue; // shorter than a line is wide: a blot
      segments.push({ from: { x: c * u0 - s * v, y: s * u0 + c * v }, to: { x: c * u1 - s * v, y: s * u1 + c * v } });
    }
  }
  return segments;
}
