import {
  add,
  type Box,
  crossesBox,
  dot,
  isBlocked,
  magnitude,
  type Prism,
  scale,
  subtract,
  type Vec3,
} from '../geometry/index.ts';
import { facing, type Patch, pointToPolygon, samplesOf } from './form-factor.ts';

/**
 * Interreflected light: every surface diffuse, in as many bands as asked for.
 *     M = M0 + ρ E,   E = F M + E_lamps
 * M leaves a patch, E reaches it, both in lm/m² (or W/m² a band); F_ij is the share of what leaves i that reaches j.
 */
export interface Geometry {
  readonly patches: readonly Patch[];
  /** A_i F_ij, symmetric; rows of n. */
  readonly exchange: Float64Array;
  /** How far the rows were from closing before they were made to, worst and mean: what is left to gain by smaller pieces. */
  readonly closure: { readonly worst: number; readonly mean: number };
}

export interface GeometryOptions {
  /** Rays tried between two patches when something may stand between; 4 when left out. */
  readonly rays?: number;
}

/**
 * Form factors of a closed room: the point's exact factor averaged over the patch (closely where patches are near), times the
 * share of rays that get through. Then symmetry is kept and every row is made to close, so that no light is lost or made.
 */
export function roomGeometry(
  room: Prism,
  boxes: readonly Box[],
  all: readonly Patch[],
  options: GeometryOptions = {},
): Geometry {
  const { rays = 4 } = options;
  const convex = isConvex(room);
  const n = all.length;
  const flats = all.map((p) => flatten(p, rays));
  const whole = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const [p, q] = [flats[i]!, flats[j]!];
      if (p.face === q.face) continue;
      if (!(seesAny(p, q) && seesAny(q, p))) continue;
      const far = Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z) / (p.radius + q.radius);
      // The smaller patch is the better one to stand on: the integrand changes less over it.
      const [from, to] = p.area <= q.area ? [p, q] : [q, p];
      const points = pointsOf(from, far > 3 ? 0 : far > 1.5 ? 1 : far > 0.9 ? 2 : 3);
      let sum = 0;
      for (let k = 0; k < points.length; k += 3)
        sum += flatFactor(points[k]!, points[k + 1]!, points[k + 2]!, from.nx, from.ny, from.nz, to);
      if (sum <= 0) continue;
      const through = convex && boxes.length === 0 ? 1 : visibility(room, convex, boxes, p, q);
      if (through === 0) continue;
      const value = (from.area * sum * through) / (points.length / 3);
      whole[i * n + j] = value;
      whole[j * n + i] = value;
    }
  const rowSum = (k: number): number => {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += whole[k * n + j]!;
    return sum / all[k]!.area;
  };
  // A piece that sees next to nothing (behind a case, under a box) takes no part.
  const lit = all.flatMap((_, k) => (rowSum(k) > 0.05 ? [k] : []));
  const patches = lit.map((k) => all[k]!);
  const exchange = new Float64Array(lit.length ** 2);
  lit.forEach((from, i) => {
    lit.forEach((to, j) => {
      exchange[i * lit.length + j] = whole[from * n + to]!;
    });
  });
  const off = lit.map((k) => Math.abs(rowSum(k) - 1));
  const closure = { worst: Math.max(...off), mean: off.reduce((sum, x) => sum + x, 0) / off.length };
  close(exchange, patches);
  return { patches, exchange, closure };
}

/** A patch laid out for the inner loop: numbers in rows instead of points. */
interface FlatPatch {
  /** Same for the pieces of one flat face, which never see one another. */
  readonly face: string;
  readonly corners: Float64Array;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly area: number;
  readonly radius: number;
  readonly patch: Patch;
  /** 1, 4, 9 and 25 points of it, laid out when they are first wanted: most patches are only ever seen from afar. */
  readonly samples: (Float64Array | undefined)[];
  /** Points a hair before it, for rays. */
  readonly spots: Float64Array;
}

const rowOf = (points: readonly Vec3[]): Float64Array => Float64Array.from(points.flatMap((v) => [v.x, v.y, v.z]));

function flatten(p: Patch, rays: number): FlatPatch {
  const { centre: c, normal: n } = p;
  const lift = scale(n, 0.01);
  return {
    face: `${p.of} ${n.x} ${n.y} ${n.z}`,
    corners: rowOf(p.corners),
    x: c.x,
    y: c.y,
    z: c.z,
    nx: n.x,
    ny: n.y,
    nz: n.z,
    area: p.area,
    radius: Math.max(...p.corners.map((v) => magnitude(subtract(v, c)))),
    patch: p,
    samples: [],
    spots: rowOf(samplesOf(p, rays <= 1 ? 1 : 2).map((v) => add(v, lift))),
  };
}

const SAMPLES = [1, 2, 3, 5] as const;
function pointsOf(p: FlatPatch, level: 0 | 1 | 2 | 3): Float64Array {
  p.samples[level] ??= rowOf(samplesOf(p.patch, SAMPLES[level]));
  return p.samples[level];
}

/** Whether any corner of q lies before p. */
function seesAny(p: FlatPatch, q: FlatPatch): boolean {
  const c = q.corners;
  for (let k = 0; k < c.length; k += 3)
    if ((c[k]! - p.x) * p.nx + (c[k + 1]! - p.y) * p.ny + (c[k + 2]! - p.z) * p.nz > 1e-6) return true;
  return false;
}

/** `facing` for the inner loop: the same sum, without a point object in it. Falls back where the horizon cuts the patch. */
function flatFactor(px: number, py: number, pz: number, nx: number, ny: number, nz: number, to: FlatPatch): number {
  if ((px - to.x) * to.nx + (py - to.y) * to.ny + (pz - to.z) * to.nz <= 0) return 0;
  const c = to.corners;
  const m = c.length;
  let [above, below] = [false, false];
  for (let k = 0; k < m; k += 3) {
    const h = (c[k]! - px) * nx + (c[k + 1]! - py) * ny + (c[k + 2]! - pz) * nz;
    if (h > 0) above = true;
    else if (h < 0) below = true;
  }
  if (!above) return 0;
  if (below) {
    const corners: Vec3[] = [];
    for (let k = 0; k < m; k += 3) corners.push({ x: c[k]!, y: c[k + 1]!, z: c[k + 2]! });
    return pointToPolygon({ x: px, y: py, z: pz }, { x: nx, y: ny, z: nz }, corners);
  }
  let bx = c[m - 3]! - px;
  let by = c[m - 2]! - py;
  let bz = c[m - 1]! - pz;
  let sum = 0;
  for (let k = 0; k < m; k += 3) {
    const ax = bx;
    const ay = by;
    const az = bz;
    bx = c[k]! - px;
    by = c[k + 1]! - py;
    bz = c[k + 2]! - pz;
    const cx = ay * bz - az * by;
    const cy = az * bx - ax * bz;
    const cz = ax * by - ay * bx;
    const length = Math.sqrt(cx * cx + cy * cy + cz * cz);
    if (length > 1e-300)
      sum += (Math.atan2(length, ax * bx + ay * by + az * bz) * (cx * nx + cy * ny + cz * nz)) / length;
  }
  return Math.max(0, -sum / (2 * Math.PI));
}

/** Share of the rays between two patches that get through. */
function visibility(room: Prism, convex: boolean, boxes: readonly Box[], p: FlatPatch, q: FlatPatch): number {
  const [a, b] = [p.spots, q.spots];
  const tries = Math.max(a.length, b.length) / 3;
  let through = 0;
  for (let k = 0; k < tries; k++) {
    const i = (k * 3) % a.length;
    const j = ((k * 3 + 1) * 3) % b.length;
    let clear = true;
    for (let m = 0; m < boxes.length && clear; m++)
      clear = !crossesBox(boxes[m]!, a[i]!, a[i + 1]!, a[i + 2]!, b[j]!, b[j + 1]!, b[j + 2]!);
    if (clear && !convex)
      clear = !isBlocked(room, { x: a[i]!, y: a[i + 1]!, z: a[i + 2]! }, { x: b[j]!, y: b[j + 1]!, z: b[j + 2]! });
    if (clear) through++;
  }
  return through / tries;
}

/** Scales a symmetric exchange so that every row sums to its patch's area and it stays symmetric (d_i G_ij d_j). */
function close(exchange: Float64Array, patches: readonly Patch[]): void {
  const n = patches.length;
  const d = new Float64Array(n).fill(1);
  for (let round = 0; round < 100; round++) {
    let off = 0;
    const next = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += exchange[i * n + j]! * d[j]!;
      const ratio = patches[i]!.area / (sum * d[i]!);
      off = Math.max(off, Math.abs(ratio - 1));
      next[i] = d[i]! * Math.sqrt(ratio);
    }
    d.set(next);
    if (off < 1e-10) break;
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) exchange[i * n + j]! *= d[i]! * d[j]!;
}

function isConvex({ outline }: Prism): boolean {
  let sign = 0;
  return outline.every((a, k) => {
    const b = outline[(k + 1) % outline.length]!;
    const c = outline[(k + 2) % outline.length]!;
    const turn = Math.sign((b.x - a.x) * (c.z - b.z) - (b.z - a.z) * (c.x - b.x));
    if (turn === 0) return true;
    if (sign === 0) sign = turn;
    return turn === sign;
  });
}

export interface Lamp {
  readonly at: Vec3;
  /** Where its beam points; downwards when left out. */
  readonly towards?: Vec3;
  /** lm, or W in each band. */
  readonly flux: readonly number[];
  /**
   * all round: the same every way. diffuse: as a flat diffuse panel, I = I0 cos θ. beam: I = I0 cosᵐ θ with half of I0 at half
   * of `angle` (the beam angle, degrees).
   */
  readonly shape:
    | { readonly kind: 'all round' }
    | { readonly kind: 'diffuse' }
    | { readonly kind: 'beam'; readonly angle: number };
}

/** Share of a lamp's flux a steradian that goes a way with this cosine to its axis, 1/sr. Sums to 1 over all ways. */
export function distribution(shape: Lamp['shape'], cosine: number): number {
  if (shape.kind === 'all round') return 1 / (4 * Math.PI);
  if (cosine <= 0) return 0;
  if (shape.kind === 'diffuse') return cosine / Math.PI;
  const m = Math.LN2 / -Math.log(Math.cos((shape.angle * Math.PI) / 360));
  return ((m + 1) / (2 * Math.PI)) * cosine ** m;
}

/** Direct light of a lamp at a point with a normal, in each band, mm taken to metres; shadows by the boxes and walls. */
export function directAt(room: Prism, boxes: readonly Box[], lamp: Lamp, p: Vec3, normal: Vec3): number {
  const way = subtract(p, lamp.at);
  const d = magnitude(way);
  if (d === 0) return 0;
  const fall = -dot(way, normal) / d;
  if (fall <= 0) return 0;
  const axis = lamp.towards ? subtract(lamp.towards, lamp.at) : { x: 0, y: -1, z: 0 };
  const out = dot(way, axis) / (d * magnitude(axis));
  const share = distribution(lamp.shape, out);
  if (share === 0 || isBlocked(room, lamp.at, add(p, scale(normal, 0.01)), boxes)) return 0;
  return (share * fall * 1e6) / (d * d);
}

export interface Scene {
  /** Fewer points of each patch for the lamps' own light: under the hand, where a few parts in a hundred do not matter. */
  readonly quick?: boolean;
  readonly room: Prism;
  readonly boxes: readonly Box[];
  readonly geometry: Geometry;
  /** Reflectance of each patch in each band. */
  readonly reflectance: (patch: Patch) => readonly number[];
  /** What a patch gives off by itself (a screen, a window, a lit panel), lm/m² in each band. */
  readonly emission?: (patch: Patch) => readonly number[] | undefined;
  readonly lamps: readonly Lamp[];
  readonly bands: number;
}

export interface Solution {
  readonly scene: Scene;
  /** What leaves each patch, lm/m²: [patch · bands + band]. */
  readonly exitance: Float64Array;
  /** What reaches it, lm/m². */
  readonly illuminance: Float64Array;
  /** What reaches it straight from lamps. */
  readonly direct: Float64Array;
  /** Times every patch gathered from all others. */
  readonly rounds: number;
  /** What the last round still changed, as a share of all that came from lamps and emitters. */
  readonly unsettled: number;
  /** Largest correction that made a lamp's flux land whole on the patches: how coarse they are for it. */
  readonly lampCorrection: number;
}

/** What lamps give each patch, lm/m² by band, and how much of the flux there was to give, in each band. */
function lampLight({ geometry: { patches }, room, boxes, lamps, bands, quick }: Scene) {
  const n = patches.length;
  const direct = new Float64Array(n * bands);
  const given = new Float64Array(bands);
  let lampCorrection = 0;
  for (const lamp of lamps) {
    // Averaged over four points of each patch, then made to carry exactly the lamp's flux: the room is closed.
    const share = Float64Array.from(patches, (p) => {
      const near = magnitude(subtract(p.centre, lamp.at)) < 4 * Math.sqrt(p.area);
      const spots = samplesOf(p, quick ? (near ? 2 : 1) : near ? 4 : 2);
      return spots.reduce((sum, s) => sum + directAt(room, boxes, lamp, s, p.normal), 0) / spots.length;
    });
    let landed = 0;
    for (let i = 0; i < n; i++) landed += (share[i]! * patches[i]!.area) / 1e6;
    const factor = landed > 0 ? 1 / landed : 0;
    lampCorrection = Math.max(lampCorrection, Math.abs(factor - 1));
    for (let i = 0; i < n; i++)
      for (let b = 0; b < bands; b++) direct[i * bands + b]! += share[i]! * factor * (lamp.flux[b] ?? 0);
    for (let b = 0; b < bands; b++) given[b]! += lamp.flux[b] ?? 0;
  }
  return { direct, given, lampCorrection };
}

/** What reaches patch i from all others by now, lm/m² by band, into `sum`: from four of them at a time, so that it is fetched once for the four. */
function gather({ patches, exchange }: Geometry, i: number, exitance: Float64Array, bands: number, sum: Float64Array) {
  const n = patches.length;
  const { area } = patches[i]!;
  const seen: number[] = [];
  for (let j = 0; j < n; j++) if (exchange[i * n + j]! !== 0) seen.push(j);
  const share = (k: number): number => (k < seen.length ? exchange[i * n + seen[k]!]! / area : 0);
  const start = (k: number): number => (k < seen.length ? seen[k]! * bands : 0);
  sum.fill(0);
  for (let k = 0; k < seen.length; k += 4) {
    const [f, g, h, l] = [share(k), share(k + 1), share(k + 2), share(k + 3)];
    const [p, q, r, s] = [start(k), start(k + 1), start(k + 2), start(k + 3)];
    for (let b = 0; b < bands; b++)
      sum[b]! += f * exitance[p + b]! + g * exitance[q + b]! + h * exitance[r + b]! + l * exitance[s + b]!;
  }
}

/**
 * The balance of all patches by Gauss–Seidel: each in turn gathers what the others send it by now. After every round what has been
 * gathered is scaled so that, in each band, all that is given off is absorbed: the slow part of the method, how bright the whole room
 * is, is right from the first round on, and no light is lost or made whenever it ends: when a round changes less than `least` of it.
 * Source: M. F. Cohen, D. P. Greenberg, "The hemi-cube", SIGGRAPH 1985 (Gauss–Seidel); the scaling is the flux balance of a closed room.
 */
export function solveLight(scene: Scene, least = 1e-4, most = 1000): Solution {
  const { geometry, bands } = scene;
  const { patches } = geometry;
  const n = patches.length;
  const { direct, given, lampCorrection } = lampLight(scene);
  const own = new Float64Array(n * bands);
  const reflectance = new Float64Array(n * bands);
  const exitance = new Float64Array(n * bands);
  patches.forEach((p, i) => {
    const rho = scene.reflectance(p);
    const emitted = scene.emission?.(p);
    for (let b = 0; b < bands; b++) {
      const k = i * bands + b;
      const r = rho[b] ?? 0;
      if (!(r >= 0 && r < 1)) throw new RangeError(`a reflectance lies from 0 to less than 1, got ${r} for ${p.of}`);
      reflectance[k] = r;
      own[k] = emitted?.[b] ?? 0;
      given[b]! += (own[k]! * p.area) / 1e6;
      exitance[k] = own[k]! + r * direct[k]!;
    }
  });
  const all = given.reduce((sum, flux) => sum + flux, 0);
  const indirect = new Float64Array(n * bands);
  const reached = new Float64Array(bands);
  const scaled = new Float64Array(bands);
  const absorbed = (light: Float64Array, b: number): number => {
    let sum = 0;
    for (let i = 0, k = b; i < n; i++, k += bands) sum += ((1 - reflectance[k]!) * light[k]! * patches[i]!.area) / 1e6;
    return sum;
  };
  // what interreflection has to bring in, in each band
  const due = Float64Array.from(given, (flux, b) => flux - absorbed(direct, b));
  let rounds = 0;
  let unsettled = all > 0 ? 1 : 0;
  while (rounds < most && unsettled > least) {
    const before = exitance.slice();
    for (let i = 0; i < n; i++) {
      gather(geometry, i, exitance, bands, reached);
      for (let b = 0, k = i * bands; b < bands; b++, k++) {
        indirect[k] = reached[b]!;
        exitance[k] = own[k]! + reflectance[k]! * (direct[k]! + reached[b]!);
      }
    }
    for (let b = 0; b < bands; b++) {
      const brought = absorbed(indirect, b);
      scaled[b] = brought > 0 ? Math.max(0, due[b]!) / brought : 1;
    }
    let changed = 0;
    for (let i = 0; i < n; i++) {
      let here = 0;
      for (let b = 0, k = i * bands; b < bands; b++, k++) {
        indirect[k]! *= scaled[b]!;
        exitance[k] = own[k]! + reflectance[k]! * (direct[k]! + indirect[k]!);
        here += Math.abs(exitance[k]! - before[k]!);
      }
      changed += (here * patches[i]!.area) / 1e6;
    }
    unsettled = changed / all;
    rounds++;
  }
  const illuminance = direct.map((light, k) => light + indirect[k]!);
  return { scene, exitance, illuminance, direct, rounds, unsettled, lampCorrection };
}

export interface Reading {
  /** In each band. */
  readonly total: readonly number[];
  readonly direct: readonly number[];
}

/**
 * Light on a small flat thing anywhere in the room (a face, a hand, a page): lamps, and every patch by the point's exact factor.
 * `detail` above 1 looks at each patch in so many pieces a side for shadows; only the first `bands` are asked for.
 */
export function lightAt(
  solution: Solution,
  p: Vec3,
  normal: Vec3,
  detail = 2,
  bands: number = solution.scene.bands,
): Reading {
  const { scene, exitance } = solution;
  const { room, boxes } = scene;
  const { patches } = scene.geometry;
  const indirect = new Array<number>(bands).fill(0);
  let seen = 0;
  const open = boxes.length === 0 && isConvex(room);
  patches.forEach((q, j) => {
    const factor = facing(p, normal, q);
    if (factor <= 0) return;
    const spots = samplesOf(q, open ? 1 : detail);
    const lift = scale(q.normal, 0.01);
    const clear = open ? 1 : spots.filter((s) => !isBlocked(room, p, add(s, lift), boxes)).length / spots.length;
    const through = factor * clear;
    seen += through;
    for (let b = 0; b < bands; b++) indirect[b]! += through * exitance[j * scene.bands + b]!;
  });
  const direct = new Array<number>(bands).fill(0);
  for (const lamp of scene.lamps) {
    const share = directAt(room, boxes, lamp, p, normal);
    for (let b = 0; b < bands; b++) direct[b]! += share * (lamp.flux[b] ?? 0);
  }
  // Everything in front of the point is some patch: what the shadows' rays missed or counted twice is made up.
  const factor = seen > 0.2 ? 1 / seen : 1;
  return { total: indirect.map((v, b) => v * factor + direct[b]!), direct };
}

/** Mean over the area and evenness (least over mean) of the patches that are part of something. */
export function meanOver(
  solution: Solution,
  of: (patch: Patch) => boolean,
  band = 0,
): { readonly mean: number; readonly least: number; readonly evenness: number } {
  const { patches } = solution.scene.geometry;
  let [flux, area, least] = [0, 0, Number.POSITIVE_INFINITY];
  patches.forEach((p, i) => {
    if (!of(p)) return;
    const E = solution.illuminance[i * solution.scene.bands + band]!;
    flux += E * p.area;
    area += p.area;
    least = Math.min(least, E);
  });
  const mean = area > 0 ? flux / area : 0;
  return { mean, least: area > 0 ? least : 0, evenness: mean > 0 ? least / mean : 0 };
}
