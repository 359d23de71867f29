import { add, type Box, cornersOf, cross, dot, magnitude, scale, subtract, type Vec3, vec } from '../geometry/index.ts';

/**
 * What a camera sees of a room: points, lines and boxes thrown onto its picture, and what hides what.
 * A pinhole at the lens's entrance; the picture's middle is the origin, x to the right, y up, in mm on the sensor as the viewer
 * sees it (upright). Room lengths mm.
 */
export interface Camera {
  readonly at: Vec3;
  readonly towards: Vec3;
  readonly focal: number;
  /** The part of the sensor that makes the picture. */
  readonly width: number;
  readonly height: number;
  /** Clockwise turn of the camera about its axis, degrees. */
  readonly roll?: number;
}
export interface Sight {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly ahead: Vec3;
}
export interface ImagePoint {
  readonly x: number;
  readonly y: number;
  /** Distance ahead along the axis, mm. */
  readonly depth: number;
}

/** @throws RangeError when the camera looks nowhere. Straight up or down, the picture's top is north. */
export function sightOf({ at, towards, roll = 0 }: Camera): Sight {
  const way = subtract(towards, at);
  const length = magnitude(way);
  if (length === 0) throw new RangeError('the camera looks at the place where it stands');
  const ahead = scale(way, 1 / length);
  const level = Math.hypot(ahead.x, ahead.z);
  const flat = level < 1e-12 ? vec(1, 0, 0) : scale(cross(ahead, vec(0, 1, 0)), 1 / level);
  const top = cross(flat, ahead);
  const [c, s] = [Math.cos((roll * Math.PI) / 180), Math.sin((roll * Math.PI) / 180)];
  return {
    ahead,
    right: add(scale(flat, c), scale(top, -s)),
    up: add(scale(top, c), scale(flat, s)),
  };
}

const NEAR = 1; // mm: nothing nearer is drawn

/** A point's place in the picture; undefined behind the lens. */
export function project(camera: Camera, p: Vec3, sight = sightOf(camera)): ImagePoint | undefined {
  const way = subtract(p, camera.at);
  const depth = dot(way, sight.ahead);
  if (depth < NEAR) return undefined;
  return { x: (camera.focal * dot(way, sight.right)) / depth, y: (camera.focal * dot(way, sight.up)) / depth, depth };
}

export const isInFrame = (camera: Camera, p: { readonly x: number; readonly y: number }): boolean =>
  Math.abs(p.x) <= camera.width / 2 && Math.abs(p.y) <= camera.height / 2;

/** Whether a point before the lens lies within the picture. */
export function isPictured(camera: Camera, p: Vec3, sight = sightOf(camera)): boolean {
  const there = project(camera, p, sight);
  return there !== undefined && isInFrame(camera, there);
}

/** Side planes of what the camera sees: a point is seen while every one of these is at least 0. */
function planes(camera: Camera, { right, up, ahead }: Sight): readonly Vec3[] {
  const [w, h] = [camera.width / (2 * camera.focal), camera.height / (2 * camera.focal)];
  return [
    add(scale(ahead, w), right),
    subtract(scale(ahead, w), right),
    add(scale(ahead, h), up),
    subtract(scale(ahead, h), up),
  ];
}

/** The part of a straight line that lies within the frame, as fractions of it; undefined when none does. */
export function clipToFrame(
  camera: Camera,
  a: Vec3,
  b: Vec3,
  sight = sightOf(camera),
): readonly [number, number] | undefined {
  const [pa, pb] = [subtract(a, camera.at), subtract(b, camera.at)];
  let [from, to] = [0, 1];
  const keep = (fa: number, fb: number): void => {
    if (fa >= 0 && fb >= 0) return;
    if (fa < 0 && fb < 0) [from, to] = [1, 0];
    else if (fa < 0) from = Math.max(from, fa / (fa - fb));
    else to = Math.min(to, fa / (fa - fb));
  };
  for (const n of planes(camera, sight)) keep(dot(pa, n), dot(pb, n));
  keep(dot(pa, sight.ahead) - NEAR, dot(pb, sight.ahead) - NEAR);
  return from < to ? [from, to] : undefined;
}

export interface Headroom {
  /** From the top of the head to the top of the picture, as a share of its height; negative when the head is cut off. */
  readonly above: number;
  readonly left: number;
  readonly right: number;
}
/** Room round a person of a width at the shoulders, the top of whose head is at a point. */
export function roomRound(camera: Camera, head: Vec3, shoulder: number): Headroom | undefined {
  const sight = sightOf(camera);
  const top = project(camera, head, sight);
  if (!top) return undefined;
  const half = (camera.focal * shoulder) / 2 / top.depth;
  return {
    above: (camera.height / 2 - top.y) / camera.height,
    left: (top.x - half + camera.width / 2) / camera.width,
    right: (camera.width / 2 - top.x - half) / camera.width,
  };
}

/**
 * The parts of a straight line from a to b that no box hides from the eye, as fractions of it, ascending.
 *
 * What a convex body hides from a point is convex too, so each box takes out one interval. With u the share of the way from the
 * eye and w = u t, the points e + u (a − e) + w (b − a) inside the box are a polygon in (u, w); its least and greatest w/u bound the
 * hidden interval. A line on the surface of a box is not hidden by that face.
 */
export function visibleParts(
  eye: Vec3,
  a: Vec3,
  b: Vec3,
  boxes: readonly Box[],
): readonly (readonly [number, number])[] {
  const hidden = boxes.flatMap((box) => {
    const interval = hiddenInterval(eye, a, b, box);
    return interval ? [interval] : [];
  });
  hidden.sort((p, q) => p[0] - q[0]);
  const seen: (readonly [number, number])[] = [];
  // Less than a hundredth of a millimetre is what the skin leaves of an edge behind its own box.
  const least = 0.01 / Math.max(0.01, magnitude(subtract(b, a)));
  let from = 0;
  for (const [start, end] of hidden) {
    if (start > from + least) seen.push([from, start]);
    from = Math.max(from, end);
  }
  if (from < 1 - least) seen.push([from, 1]);
  return seen;
}

/**
 * Can a box have no part in the triangle of eye and line? It lies wholly beyond one side of the triangle's own box, or wholly on one
 * side of its plane. Most boxes of a room are told apart so, at a small part of the cost of clipping.
 */
function liesApart(eye: Vec3, a: Vec3, b: Vec3, { min, max }: Box): boolean {
  if (Math.max(eye.x, a.x, b.x) <= min.x || Math.min(eye.x, a.x, b.x) >= max.x) return true;
  if (Math.max(eye.y, a.y, b.y) <= min.y || Math.min(eye.y, a.y, b.y) >= max.y) return true;
  if (Math.max(eye.z, a.z, b.z) <= min.z || Math.min(eye.z, a.z, b.z) >= max.z) return true;
  const [ax, ay, az, bx, by, bz] = [a.x - eye.x, a.y - eye.y, a.z - eye.z, b.x - eye.x, b.y - eye.y, b.z - eye.z];
  const [nx, ny, nz] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
  const middle =
    nx * ((min.x + max.x) / 2 - eye.x) + ny * ((min.y + max.y) / 2 - eye.y) + nz * ((min.z + max.z) / 2 - eye.z);
  const reach = (Math.abs(nx) * (max.x - min.x) + Math.abs(ny) * (max.y - min.y) + Math.abs(nz) * (max.z - min.z)) / 2;
  return Math.abs(middle) > reach * (1 + 1e-9);
}

function hiddenInterval(eye: Vec3, a: Vec3, b: Vec3, box: Box): readonly [number, number] | undefined {
  if (liesApart(eye, a, b, box)) return undefined;
  const { min, max } = box;
  const [pa, d] = [subtract(a, eye), subtract(b, a)];
  // Up to a hair short of the line itself, so that a box does not hide its own surface.
  const last = 1 - 1e-7;
  let polygon: (readonly [number, number])[] = [
    [0, 0],
    [last, 0],
    [last, last],
  ];
  const cut = (side: (u: number, w: number) => number): void => {
    const next: (readonly [number, number])[] = [];
    polygon.forEach((p, k) => {
      const q = polygon[(k + 1) % polygon.length]!;
      const [fp, fq] = [side(...p), side(...q)];
      if (fp >= 0) next.push(p);
      if (fp >= 0 !== fq >= 0) {
        const t = fp / (fp - fq);
        next.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
      }
    });
    polygon = next;
  };
  const skin = 1e-6; // mm: what only touches the box is not hidden
  for (const axis of ['x', 'y', 'z'] as const) {
    cut((u, w) => eye[axis] + u * pa[axis] + w * d[axis] - min[axis] - skin);
    cut((u, w) => max[axis] - skin - eye[axis] - u * pa[axis] - w * d[axis]);
  }
  if (polygon.length < 3) return undefined;
  let [from, to] = [1, 0];
  for (const [u, w] of polygon) {
    if (u < 1e-12) return [0, 1]; // the eye is inside the box
    from = Math.min(from, w / u);
    to = Math.max(to, w / u);
  }
  return to - from > 1e-9 ? [from, to] : undefined;
}

export interface DrawnLine {
  readonly from: ImagePoint;
  readonly to: ImagePoint;
  /** Index of the box it belongs to. */
  readonly box: number;
}

/** The picture as a line drawing: every box edge that is in frame and not hidden, in sensor millimetres. */
export function drawBoxes(camera: Camera, boxes: readonly Box[]): readonly DrawnLine[] {
  const sight = sightOf(camera);
  const lines: DrawnLine[] = [];
  boxes.forEach((box, index) => {
    for (const [a, b] of edgesOf(box)) {
      const window = clipToFrame(camera, a, b, sight);
      if (!window) continue;
      const along = (t: number): Vec3 => add(a, scale(subtract(b, a), t));
      const [start, end] = [along(window[0]), along(window[1])];
      for (const [t0, t1] of visibleParts(camera.at, start, end, boxes)) {
        const from = project(camera, add(start, scale(subtract(end, start), t0)), sight);
        const to = project(camera, add(start, scale(subtract(end, start), t1)), sight);
        if (from && to) lines.push({ from, to, box: index });
      }
    }
  });
  return lines;
}

export function edgesOf(box: Box): readonly (readonly [Vec3, Vec3])[] {
  const corners = cornersOf(box);
  return [1, 2, 4].flatMap((bit) => corners.flatMap((p, k) => (k & bit ? [] : [[p, corners[k | bit]!] as const])));
}

/** How much of a box the camera sees: a grid of points over the faces turned to it, in frame and not hidden by the others. */
export function seenShare(
  camera: Camera,
  box: Box,
  others: readonly Box[],
  grid = 6,
): { readonly inFrame: number; readonly seen: number } {
  const sight = sightOf(camera);
  let [all, framed, seen] = [0, 0, 0];
  for (const [axis, u, v] of [
    ['x', 'y', 'z'],
    ['y', 'z', 'x'],
    ['z', 'x', 'y'],
  ] as const)
    for (const end of ['min', 'max'] as const) {
      const level = box[end][axis];
      const faces = end === 'min' ? camera.at[axis] < level : camera.at[axis] > level;
      if (!faces) continue;
      for (let i = 0; i < grid; i++)
        for (let j = 0; j < grid; j++) {
          const p: Vec3 = {
            ...box.min,
            [axis]: level,
            [u]: box.min[u] + ((i + 0.5) / grid) * (box.max[u] - box.min[u]),
            [v]: box.min[v] + ((j + 0.5) / grid) * (box.max[v] - box.min[v]),
          };
          all++;
          const image = project(camera, p, sight);
          if (!image || !isInFrame(camera, image)) continue;
          framed++;
          if (!others.some((other) => hidesPoint(camera.at, p, other))) seen++;
        }
    }
  return all === 0 ? { inFrame: 0, seen: 0 } : { inFrame: framed / all, seen: seen / all };
}

/** Whether a box stands between the eye and a point. */
export function hidesPoint(eye: Vec3, p: Vec3, { min, max }: Box): boolean {
  let [from, to] = [0, 1 - 1e-7];
  for (const axis of ['x', 'y', 'z'] as const) {
    const d = p[axis] - eye[axis];
    if (Math.abs(d) < 1e-12) {
      if (eye[axis] <= min[axis] || eye[axis] >= max[axis]) return false;
      continue;
    }
    const [t0, t1] = [(min[axis] - eye[axis]) / d, (max[axis] - eye[axis]) / d];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
    if (from >= to) return false;
  }
  return true;
}

/**
 * Where the mirror image of a lamp lies in a flat glass (a display, a picture): the point of the glass at which the camera sees
 * it; undefined when it falls outside the glass or either is behind it.
 */
export function glareAt(
  eye: Vec3,
  lamp: Vec3,
  glass: { readonly corner: Vec3; readonly across: Vec3; readonly up: Vec3 },
): { readonly point: Vec3; readonly across: number; readonly up: number } | undefined {
  const normal = cross(glass.across, glass.up);
  const n = scale(normal, 1 / magnitude(normal));
  const [e, l] = [dot(subtract(eye, glass.corner), n), dot(subtract(lamp, glass.corner), n)];
  if (e * l <= 0) return undefined;
  const point = add(eye, scale(subtract(add(lamp, scale(n, -2 * l)), eye), e / (e + l)));
  const way = subtract(point, glass.corner);
  const across = dot(way, glass.across) / dot(glass.across, glass.across);
  const up = dot(way, glass.up) / dot(glass.up, glass.up);
  return across >= 0 && across <= 1 && up >= 0 && up <= 1 ? { point, across, up } : undefined;
}
