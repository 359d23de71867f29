import { add, cross, dot, magnitude, scale, subtract, type Vec3 } from '../geometry/index.ts';

/**
 * Form (view) factors: the share of what one surface sends out, evenly and diffusely, that reaches another. Lengths in any one unit.
 */

/** Identical parallel rectangles a × b, directly opposed, c apart. Source: J. R. Howell, A Catalog of Radiation Configuration Factors, C-11. */
export function parallelFactor(a: number, b: number, c: number): number {
  const [X, Y] = [a / c, b / c];
  const [X1, Y1] = [1 + X * X, 1 + Y * Y];
  return (
    (2 / (Math.PI * X * Y)) *
    (Math.log(Math.sqrt((X1 * Y1) / (1 + X * X + Y * Y))) +
      X * Math.sqrt(Y1) * Math.atan(X / Math.sqrt(Y1)) +
      Y * Math.sqrt(X1) * Math.atan(Y / Math.sqrt(X1)) -
      X * Math.atan(X) -
      Y * Math.atan(Y))
  );
}

/** From a rectangle w × l to one h × l at right angles that shares its edge l. Source: Howell, C-14. */
export function perpendicularFactor(w: number, h: number, l: number): number {
  const [H, W] = [h / l, w / l];
  const [H2, W2] = [H * H, W * W];
  return (
    (1 / (Math.PI * W)) *
    (W * Math.atan(1 / W) +
      H * Math.atan(1 / H) -
      Math.sqrt(H2 + W2) * Math.atan(1 / Math.sqrt(H2 + W2)) +
      0.25 *
        Math.log(
          (((1 + W2) * (1 + H2)) / (1 + W2 + H2)) *
            ((W2 * (1 + W2 + H2)) / ((1 + W2) * (W2 + H2))) ** W2 *
            ((H2 * (1 + H2 + W2)) / ((1 + H2) * (H2 + W2))) ** H2,
        ))
  );
}

type Span = readonly [number, number];
const SIGNS = [-1, 1] as const; // lower ends count negative, upper positive
function fourfold(
  [a, b, c, d]: readonly [Span, Span, Span, Span],
  g: (p: number, q: number, r: number, s: number) => number,
): number {
  let sum = 0;
  for (let i = 0; i < 2; i++)
    for (let j = 0; j < 2; j++)
      for (let k = 0; k < 2; k++)
        for (let l = 0; l < 2; l++)
          sum += SIGNS[i]! * SIGNS[j]! * SIGNS[k]! * SIGNS[l]! * g(a[i]!, b[j]!, c[k]!, d[l]!);
  return sum;
}
const arm = (p: number, q: number): number => (q === 0 ? (Math.abs(p) * Math.PI) / 2 : p * Math.atan(p / q));

/**
 * From a rectangle x × y to another x2 × y2 in a parallel plane z away, edges parallel, anywhere.
 * Source: Howell, C-13 (J. R. Ehlert & T. F. Smith, J. Thermophysics 7, 1993).
 */
export function offsetParallelFactor(x: Span, y: Span, x2: Span, y2: Span, z: number): number {
  const G = (a: number, b: number, eta: number, xi: number): number => {
    const [p, q] = [b - eta, a - xi];
    const [sq, sp] = [Math.sqrt(q * q + z * z), Math.sqrt(p * p + z * z)];
    return (
      (1 / (2 * Math.PI)) *
      (p * sq * Math.atan(p / sq) + q * sp * Math.atan(q / sp) - ((z * z) / 2) * Math.log(q * q + p * p + z * z))
    );
  };
  return fourfold([x, y, y2, x2], G) / ((x[1] - x[0]) * (y[1] - y[0]));
}

/**
 * From a rectangle to another in a plane at right angles: y runs along both, x is the first one's distance from the line where the
 * planes meet, h the second one's. Source: Howell, C-15 (Ehlert & Smith 1993).
 */
export function offsetPerpendicularFactor(x: Span, y: Span, y2: Span, h: Span): number {
  const G = (a: number, b: number, eta: number, xi: number): number => {
    const p = b - eta;
    const q2 = a * a + xi * xi;
    const q = Math.sqrt(q2);
    const r2 = q2 + p * p;
    return (1 / (2 * Math.PI)) * (q * arm(p, q) - (r2 === 0 ? 0 : ((q2 - p * p) / 4) * Math.log(r2)));
  };
  return fourfold([x, y, y2, h], G) / ((x[1] - x[0]) * (y[1] - y[0]));
}

/**
 * From a point of a surface with a normal to a flat polygon, the part below its horizon cut off:
 *     F = −(1/2π) Σ θ_k (n · γ_k),   θ_k the angle an edge takes, γ_k the unit normal r_k × r_k+1 of the plane through the point and it.
 * Positive when the polygon's corners run counterclockwise as the point sees it, 0 when the point sees its back.
 * Source: J. H. Lambert, Photometria (1760); D. R. Baum et al., SIGGRAPH 1989.
 */
export function pointToPolygon(p: Vec3, normal: Vec3, corners: readonly Vec3[]): number {
  // Directions to the corners, those below the horizon cut off.
  const n = corners.length;
  let any = false;
  let all = true;
  const height = new Array<number>(n);
  for (let k = 0; k < n; k++) {
    const c = corners[k]!;
    const h = (c.x - p.x) * normal.x + (c.y - p.y) * normal.y + (c.z - p.z) * normal.z;
    height[k] = h;
    if (h > 0) any = true;
    else all = false;
  }
  if (!any) return 0;
  let polygon = corners;
  if (!all) {
    const cut: Vec3[] = [];
    for (let k = 0; k < n; k++) {
      const [a, b] = [corners[k]!, corners[(k + 1) % n]!];
      const [ha, hb] = [height[k]!, height[(k + 1) % n]!];
      if (ha >= 0) cut.push(a);
      if (ha >= 0 !== hb >= 0) {
        const t = ha / (ha - hb);
        cut.push({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y), z: a.z + t * (b.z - a.z) });
      }
    }
    polygon = cut;
  }
  const m = polygon.length;
  let sum = 0;
  let b = polygon[m - 1]!;
  let [bx, by, bz] = [b.x - p.x, b.y - p.y, b.z - p.z];
  for (let k = 0; k < m; k++) {
    const [ax, ay, az] = [bx, by, bz];
    b = polygon[k]!;
    bx = b.x - p.x;
    by = b.y - p.y;
    bz = b.z - p.z;
    const cx = ay * bz - az * by;
    const cy = az * bx - ax * bz;
    const cz = ax * by - ay * bx;
    const length = Math.sqrt(cx * cx + cy * cy + cz * cz);
    if (length < 1e-300) continue;
    const angle = Math.atan2(length, ax * bx + ay * by + az * bz);
    sum += (angle * (cx * normal.x + cy * normal.y + cz * normal.z)) / length;
  }
  return Math.max(0, -sum / (2 * Math.PI));
}

/** A flat convex piece of a surface; corners counterclockwise as seen from its front. */
export interface Patch {
  readonly corners: readonly Vec3[];
  readonly centre: Vec3;
  readonly normal: Vec3;
  readonly area: number;
  /** What it is a piece of: 'floor', 'wall 2', 'box 0' … */
  readonly of: string;
}

/** A patch from its corners. @throws RangeError when they have no area. */
export function patch(corners: readonly Vec3[], of: string): Patch {
  let sum: Vec3 = { x: 0, y: 0, z: 0 };
  const o = corners[0]!;
  for (let k = 1; k + 1 < corners.length; k++)
    sum = add(sum, cross(subtract(corners[k]!, o), subtract(corners[k + 1]!, o)));
  const twice = magnitude(sum);
  if (!(twice > 0)) throw new RangeError('a patch needs an area');
  const normal = scale(sum, 1 / twice);
  // Centroid by triangles.
  let centre: Vec3 = { x: 0, y: 0, z: 0 };
  for (let k = 1; k + 1 < corners.length; k++) {
    const [a, b] = [corners[k]!, corners[k + 1]!];
    const part = dot(cross(subtract(a, o), subtract(b, o)), normal) / twice;
    centre = add(centre, scale(add(add(o, a), b), part / 3));
  }
  return { corners, centre, normal, area: twice / 2, of };
}

/** Points spread over a patch: its centre, or an n × n grid for a four-cornered one. */
export function samplesOf(p: Patch, n: number): readonly Vec3[] {
  if (n <= 1) return [p.centre];
  if (p.corners.length !== 4) {
    // Midway from the centre to the middle of each edge and to each corner: evenly enough for small pieces of an odd outline.
    return p.corners.map((c, k) => {
      const d = p.corners[(k + 1) % p.corners.length]!;
      return add(scale(p.centre, 1 / 3), scale(add(c, d), 1 / 3));
    });
  }
  const [a, b, c, d] = p.corners as readonly [Vec3, Vec3, Vec3, Vec3];
  return Array.from({ length: n * n }, (_, k) => {
    const s = ((k % n) + 0.5) / n;
    const t = (Math.floor(k / n) + 0.5) / n;
    const low = add(scale(a, 1 - s), scale(b, s));
    const high = add(scale(d, 1 - s), scale(c, s));
    return add(scale(low, 1 - t), scale(high, t));
  });
}

/** From one patch to another, nothing in between: the point's factor averaged over n × n points of the first. */
export function patchFactor(from: Patch, to: Patch, n: number): number {
  const points = samplesOf(from, n);
  return points.reduce((sum, p) => sum + facing(p, from.normal, to), 0) / points.length;
}

/** Point factor to a patch's front. */
export const facing = (p: Vec3, normal: Vec3, to: Patch): number =>
  // The patch must show its front to the point. Its corners run counterclockwise from its own front, so as the point sees them too.
  (p.x - to.centre.x) * to.normal.x + (p.y - to.centre.y) * to.normal.y + (p.z - to.centre.z) * to.normal.z > 0
    ? pointToPolygon(p, normal, to.corners)
    : 0;
