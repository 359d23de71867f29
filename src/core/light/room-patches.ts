import {
  add,
  type Box,
  flatArea,
  isInside,
  type Prism,
  scale,
  signedArea,
  subtract,
  type Vec3,
  vec,
} from '../geometry/index.ts';
import { type Patch, patch } from './form-factor.ts';

/** Pieces of a room's faces and of the boxes in it. Lengths mm; a patch's area mm². */

type Flat = { readonly x: number; readonly y: number };

/** A rectangle of a wall that is something else: a window, a display, a painted field, an absorber. */
export interface Inset {
  readonly name: string;
  /** Its wall runs from corner k of the outline to the next; `from` is measured along it from there. */
  readonly wall: number;
  readonly from: number;
  readonly width: number;
  readonly bottom: number;
  readonly height: number;
}

/**
 * The inside faces of a prism and the outside faces of boxes, in pieces no longer than `size` a side. Pieces that lie inside a box
 * or against a wall are left out: they see nothing. Walls are cut along their insets, whose pieces carry the inset's name.
 */
export function roomPatches(
  room: Prism,
  boxes: readonly Box[],
  size: number,
  insets: readonly Inset[] = [],
): readonly Patch[] {
  const patches: Patch[] = [];
  const keep = (p: Patch, own?: Box): void => {
    // A point a hair before the piece must be in the room's air.
    const before = add(p.centre, scale(p.normal, 0.01));
    if (isInside(room, before) && !boxes.some((b) => b !== own && holds(b, before))) patches.push(p);
  };
  const { outline, height } = room;
  const backwards = signedArea(outline) < 0;
  // Floor and ceiling: a grid over the bounding box, each cell cut to the outline.
  const [x0, x1] = [Math.min(...outline.map((p) => p.x)), Math.max(...outline.map((p) => p.x))];
  const [z0, z1] = [Math.min(...outline.map((p) => p.z)), Math.max(...outline.map((p) => p.z))];
  const xs = cuts(x0, x1, size, [
    ...outline.map((p) => p.x),
    ...boxes.flatMap((b) => (b.min.y <= 1 ? [b.min.x, b.max.x] : [])),
  ]);
  const zs = cuts(z0, z1, size, [
    ...outline.map((p) => p.z),
    ...boxes.flatMap((b) => (b.min.y <= 1 ? [b.min.z, b.max.z] : [])),
  ]);
  for (let i = 0; i + 1 < xs.length; i++)
    for (let j = 0; j + 1 < zs.length; j++)
      for (const piece of cellInOutline(xs[i]!, xs[i + 1]!, zs[j]!, zs[j + 1]!, outline)) {
        // Counterclockwise in (x, z) with y up has its normal downwards: x × z = −y.
        keep(
          patch(
            [...piece].reverse().map((q) => vec(q.x, 0, q.y)),
            'floor',
          ),
        );
        keep(
          patch(
            piece.map((q) => vec(q.x, height, q.y)),
            'ceiling',
          ),
        );
      }
  outline.forEach((a, k) => {
    const b = outline[(k + 1) % outline.length]!;
    const own = insets.filter((inset) => inset.wall === k);
    const run = Math.hypot(b.x - a.x, b.z - a.z);
    const along = cuts(
      0,
      run,
      size,
      own.flatMap((i) => [i.from, i.from + i.width]),
    );
    const upward = cuts(
      0,
      height,
      size,
      own.flatMap((i) => [i.bottom, i.bottom + i.height]),
    );
    const at = (u: number, v: number): Vec3 => vec(a.x + ((b.x - a.x) * u) / run, v, a.z + ((b.z - a.z) * u) / run);
    for (let i = 0; i + 1 < along.length; i++)
      for (let j = 0; j + 1 < upward.length; j++) {
        const [u0, u1, v0, v1] = [along[i]!, along[i + 1]!, upward[j]!, upward[j + 1]!];
        const [u, v] = [(u0 + u1) / 2, (v0 + v1) / 2];
        const inset = own.find((n) => u > n.from && u < n.from + n.width && v > n.bottom && v < n.bottom + n.height);
        const piece = [at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)];
        // Where the area in (x, z) is positive the inside lies to the left of a → b in (x, z), and along × up points there.
        keep(patch(backwards ? piece.reverse() : piece, inset?.name ?? `wall ${k}`));
      }
  });
  boxes.forEach((box, index) => {
    for (const face of facesOfBox(box))
      for (const piece of gridOf(...face, size)) keep(patch(piece, `box ${index}`), box);
  });
  return patches;
}

const holds = ({ min, max }: Box, p: Vec3): boolean =>
  p.x > min.x && p.x < max.x && p.y > min.y && p.y < max.y && p.z > min.z && p.z < max.z;

/** From a to b in equal steps no longer than `size` between the marks that lie inside. */
function cuts(a: number, b: number, size: number, marks: readonly number[]): readonly number[] {
  const stops = [...new Set([a, b, ...marks.filter((m) => m > a + 1 && m < b - 1)])].sort((p, q) => p - q);
  // Marks nearer than a tenth of a piece would make slivers.
  const kept = stops.filter((s, k) => k === 0 || k === stops.length - 1 || s - stops[k - 1]! > size / 10);
  return kept.flatMap((s, k) => {
    const next = kept[k + 1];
    if (next === undefined) return [s];
    const n = Math.max(1, Math.ceil((next - s) / size - 1e-9));
    return Array.from({ length: n }, (_, i) => s + ((next - s) * i) / n);
  });
}

/** A rectangle from a corner along two sides, in pieces. */
function gridOf(corner: Vec3, along: Vec3, up: Vec3, size: number): readonly (readonly Vec3[])[] {
  const [u, v] = [subtract(along, corner), subtract(up, corner)];
  const nu = Math.max(1, Math.ceil(Math.hypot(u.x, u.y, u.z) / size - 1e-9));
  const nv = Math.max(1, Math.ceil(Math.hypot(v.x, v.y, v.z) / size - 1e-9));
  const at = (i: number, j: number): Vec3 => add(corner, add(scale(u, i / nu), scale(v, j / nv)));
  const pieces: Vec3[][] = [];
  for (let i = 0; i < nu; i++)
    for (let j = 0; j < nv; j++) pieces.push([at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)]);
  return pieces;
}

/** Corner, end of one side, end of the other, so that (along − corner) × (up − corner) points outwards. */
function facesOfBox({ min, max }: Box): readonly (readonly [Vec3, Vec3, Vec3])[] {
  const p = (x: 0 | 1, y: 0 | 1, z: 0 | 1): Vec3 => vec(x ? max.x : min.x, y ? max.y : min.y, z ? max.z : min.z);
  return [
    [p(1, 0, 0), p(1, 1, 0), p(1, 0, 1)], // +x
    [p(0, 0, 0), p(0, 0, 1), p(0, 1, 0)], // −x
    [p(0, 1, 0), p(0, 1, 1), p(1, 1, 0)], // +y
    [p(0, 0, 0), p(1, 0, 0), p(0, 0, 1)], // −y
    [p(0, 0, 1), p(1, 0, 1), p(0, 1, 1)], // +z
    [p(0, 0, 0), p(0, 1, 0), p(1, 0, 0)], // −z
  ];
}

/** A cell cut to the outline: whole inside, nothing outside, else convex pieces of it (by the outline's own triangles). */
function cellInOutline(
  x0: number,
  x1: number,
  z0: number,
  z1: number,
  outline: Prism['outline'],
): readonly (readonly Flat[])[] {
  const cell: readonly Flat[] = [
    { x: x0, y: z0 },
    { x: x1, y: z0 },
    { x: x1, y: z1 },
    { x: x0, y: z1 },
  ];
  const rectangle =
    outline.length === 4 &&
    outline.every((p, k) => {
      const q = outline[(k + 1) % 4]!;
      return p.x === q.x || p.z === q.z;
    });
  if (rectangle) return [cell];
  const inside = (x: number, y: number): boolean => isInside({ outline, height: 2 }, vec(x, 1, y));
  const crossed = outline.some((a, k) => {
    const b = outline[(k + 1) % outline.length]!;
    return segmentMeetsCell(a, b, x0, x1, z0, z1);
  });
  if (!crossed) return inside((x0 + x1) / 2, (z0 + z1) / 2) ? [cell] : [];
  return trianglesOf(outline).flatMap((triangle) => {
    let piece = cell;
    triangle.forEach((p, k) => {
      const q = triangle[(k + 1) % 3]!;
      piece = clipLeft(piece, p, q);
    });
    return piece.length >= 3 && flatArea(piece) > 1 ? [piece] : [];
  });
}

/** Whether a side passes through the inside of a cell (Liang–Barsky). */
function segmentMeetsCell(
  a: { x: number; z: number },
  b: { x: number; z: number },
  x0: number,
  x1: number,
  z0: number,
  z1: number,
): boolean {
  let [from, to] = [0, 1];
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  const slack = 1e-6;
  for (const [d, low, high] of [
    [dx, x0 + slack - a.x, x1 - slack - a.x],
    [dz, z0 + slack - a.z, z1 - slack - a.z],
  ] as const) {
    if (Math.abs(d) < 1e-12) {
      if (low > 0 || high < 0) return false;
      continue;
    }
    from = Math.max(from, Math.min(low / d, high / d));
    to = Math.min(to, Math.max(low / d, high / d));
  }
  return from < to;
}

/** What lies to the left of the line p → q. */
function clipLeft(polygon: readonly Flat[], p: Flat, q: Flat): readonly Flat[] {
  const side = (r: Flat): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  const out: Flat[] = [];
  polygon.forEach((a, k) => {
    const b = polygon[(k + 1) % polygon.length]!;
    const [sa, sb] = [side(a), side(b)];
    if (sa >= 0) out.push(a);
    if (sa >= 0 !== sb >= 0) {
      const t = sa / (sa - sb);
      out.push({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    }
  });
  return out;
}

/** Triangles of a simple outline by cutting ears, counterclockwise in (x, z). */
function trianglesOf(outline: Prism['outline']): readonly (readonly [Flat, Flat, Flat])[] {
  const points: Flat[] = outline.map((p) => ({ x: p.x, y: p.z }));
  if (flatArea(points) < 0) points.reverse();
  const triangles: [Flat, Flat, Flat][] = [];
  while (points.length > 3) {
    const ear = points.findIndex((b, k) => {
      const a = points[(k + points.length - 1) % points.length]!;
      const c = points[(k + 1) % points.length]!;
      const area = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
      if (area <= 0) return false;
      return points.every((p) => p === a || p === b || p === c || !inTriangle(p, a, b, c));
    });
    if (ear < 0) break; // only straight corners are left
    const n = points.length;
    triangles.push([points[(ear + n - 1) % n]!, points[ear]!, points[(ear + 1) % n]!]);
    points.splice(ear, 1);
  }
  if (points.length === 3) triangles.push(points as [Flat, Flat, Flat]);
  return triangles;
}

function inTriangle(p: Flat, a: Flat, b: Flat, c: Flat): boolean {
  const side = (u: Flat, v: Flat): number => (v.x - u.x) * (p.y - u.y) - (v.y - u.y) * (p.x - u.x);
  return side(a, b) >= 0 && side(b, c) >= 0 && side(c, a) >= 0;
}
