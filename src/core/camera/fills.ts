import { wallCalled } from '../called.ts';
import { add, type Box, dot, scale, subtract, type Vec3, vec } from '../geometry/index.ts';
import { bodiesOf, lampsOf, type Staged } from '../surroundings/index.ts';
import type { Sitter } from './sitters.ts';
import { type Camera, hidesPoint, type ImagePoint, isInFrame, project, sightOf } from './view.ts';

/** Somebody as the camera sees them: two flat convex outlines, head and body, turned to the lens. */
export interface Silhouette {
  readonly sitter: Sitter;
  readonly depth: number;
  readonly outlines: readonly (readonly Vec3[])[];
}

/** Half the width and the height of a head, mm: 152 wide, 232 high, the survey's medians of breadth and of chin to crown rounded. */
export const HEAD = { half: 76, high: 230 } as const;
/** From the crown down to the seat. */
const TORSO = 880;

export function silhouetteOf(camera: Camera, sitter: Sitter, sight = sightOf(camera)): Silhouette | undefined {
  const depth = dot(subtract(sitter.head, camera.at), sight.ahead);
  if (depth <= 1) return undefined;
  const level = Math.hypot(sight.right.x, sight.right.z) || 1;
  const across = vec(sight.right.x / level, 0, sight.right.z / level);
  const at = ([x, y]: readonly [number, number]): Vec3 => add(sitter.head, add(scale(across, x), vec(0, y, 0)));
  const half = sitter.shoulder / 2;
  const low = -TORSO;
  const body: readonly (readonly [number, number])[] = [
    [-half * 0.85, low],
    [-half, -430],
    [-half * 0.8, -330],
    [-60, -270],
    [60, -270],
    [half * 0.8, -330],
    [half, -430],
    [half * 0.85, low],
  ];
  const ring = Array.from({ length: 24 }, (_, i): readonly [number, number] => {
    const a = (i * Math.PI) / 12;
    return [HEAD.half * Math.sin(a), -HEAD.high / 2 + (HEAD.high / 2) * Math.cos(a)];
  });
  const neck: readonly (readonly [number, number])[] = [
    [-50, -280],
    [-50, -200],
    [50, -200],
    [50, -280],
  ];
  return { sitter, depth, outlines: [ring.map(at), body.map(at), neck.map(at)] };
}

/** A piece of a line in the picture, its ends with their depths. */
export interface ImageLine {
  readonly from: ImagePoint;
  readonly to: ImagePoint;
}
/** A flat convex outline in the picture that hides what lies deeper. */
export interface Cover {
  readonly polygon: readonly { readonly x: number; readonly y: number }[];
  readonly depth: number;
}

/** Cuts out of a line what covers hide: an interval each, by its middle's depth. */
export function uncovered(line: ImageLine, covers: readonly Cover[]): readonly ImageLine[] {
  const at = (t: number): ImagePoint => {
    const [a, b] = [line.from, line.to];
    // depth along a straight line of the picture goes by its inverse
    const depth = 1 / ((1 - t) / a.depth + t / b.depth);
    return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t, depth };
  };
  const hidden = covers.flatMap(({ polygon, depth }): (readonly [number, number])[] => {
    const inside = withinConvex(line.from, line.to, polygon);
    if (!inside || at((inside[0] + inside[1]) / 2).depth <= depth + 1) return [];
    return [inside];
  });
  hidden.sort((p, q) => p[0] - q[0]);
  const seen: ImageLine[] = [];
  let from = 0;
  const keep = (to: number): void => {
    if (to - from > 1e-6) seen.push({ from: at(from), to: at(to) });
  };
  for (const [a, b] of hidden) {
    if (a > from) keep(a);
    from = Math.max(from, b);
  }
  keep(1);
  return seen;
}

/** The part of a line inside a convex polygon of either turn, as fractions (Cyrus–Beck). */
function withinConvex(
  a: { readonly x: number; readonly y: number },
  b: { readonly x: number; readonly y: number },
  polygon: Cover['polygon'],
): readonly [number, number] | undefined {
  const turn = Math.sign(
    polygon.reduce((sum, p, k) => {
      const q = polygon[(k + 1) % polygon.length]!;
      return sum + p.x * q.y - q.x * p.y;
    }, 0),
  );
  let [from, to] = [0, 1];
  for (let k = 0; k < polygon.length; k++) {
    const [p, q] = [polygon[k]!, polygon[(k + 1) % polygon.length]!];
    const side = (r: { readonly x: number; readonly y: number }): number =>
      turn * ((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
    const [fa, fb] = [side(a), side(b)];
    if (fa < 0 && fb < 0) return undefined;
    if (fa < 0) from = Math.max(from, fa / (fa - fb));
    else if (fb < 0) to = Math.min(to, fa / (fa - fb));
  }
  return to - from > 1e-9 ? [from, to] : undefined;
}

/** What one face, piece or person takes of the picture. */
export interface Filling {
  readonly id: string;
  readonly title: string;
  readonly kind: 'floor' | 'ceiling' | 'wall' | 'opening' | 'piece' | 'person';
  readonly share: number;
}

/** Rays across and down the picture: one for each of so many even cells. */
export const FILL_RAYS = { across: 64, down: 36 } as const;

/** How the picture is shared out: the nearest thing along a ray through the middle of each cell. */
export function fillsOf(
  staged: Staged,
  camera: Camera,
  people: readonly Silhouette[],
  rays: { readonly across: number; readonly down: number } = FILL_RAYS,
): readonly Filling[] {
  const sight = sightOf(camera);
  const sitting = people.map((p) => p.sitter);
  const bodies = bodiesOf(staged).filter((b) => !sitting.some((s) => sitsIn(s, b.box)));
  const counts = new Map<string, { filling: Omit<Filling, 'share'>; count: number }>();
  const tally = (filling: Omit<Filling, 'share'>): void => {
    const known = counts.get(filling.id);
    if (known) known.count += 1;
    else counts.set(filling.id, { filling, count: 1 });
  };
  const covers = people.flatMap((p) =>
    p.outlines.flatMap((o) => {
      const polygon = o.flatMap((v) => project(camera, v, sight) ?? []);
      return polygon.length === o.length ? [{ polygon, depth: p.depth, sitter: p.sitter }] : [];
    }),
  );
  for (let j = 0; j < rays.down; j++)
    for (let i = 0; i < rays.across; i++) {
      const x = ((i + 0.5) / rays.across - 0.5) * camera.width;
      const y = (0.5 - (j + 0.5) / rays.down) * camera.height;
      // of depth 1 along the axis: t is the depth
      const way = add(sight.ahead, add(scale(sight.right, x / camera.focal), scale(sight.up, y / camera.focal)));
      let nearest = Number.POSITIVE_INFINITY;
      let found: Omit<Filling, 'share'> | undefined;
      for (const { box, piece } of bodies) {
        const t = enters(camera.at, way, box);
        if (t < nearest) {
          nearest = t;
          found = { id: piece.id, title: piece.title, kind: 'piece' };
        }
      }
      for (const { polygon, depth, sitter } of covers)
        if (depth < nearest && holdsPoint(polygon, x, y)) {
          nearest = depth;
          found = { id: sitter.id, title: sitter.title, kind: 'person' };
        }
      tally(
        found && nearest < 1e9
          ? closer(found, nearest, staged, camera.at, way)
          : faceAt(staged, camera.at, way).filling,
      );
    }
  const all = rays.across * rays.down;
  return [...counts.values()]
    .map(({ filling, count }) => ({ ...filling, share: count / all }))
    .sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1));
}

/** What was found, unless a face of the room (a jutting breast) stands nearer. */
function closer(
  found: Omit<Filling, 'share'>,
  depth: number,
  staged: Staged,
  from: Vec3,
  way: Vec3,
): Omit<Filling, 'share'> {
  const face = faceAt(staged, from, way);
  return face.depth < depth - 2 ? face.filling : found;
}

function faceAt(
  { room }: Staged,
  from: Vec3,
  way: Vec3,
): { readonly depth: number; readonly filling: Omit<Filling, 'share'> } {
  let depth = Number.POSITIVE_INFINITY;
  let filling: Omit<Filling, 'share'> = { id: 'face floor', title: 'floor', kind: 'floor' };
  const meet = (t: number, what: () => Omit<Filling, 'share'>): void => {
    if (t > 1 && t < depth) {
      depth = t;
      filling = what();
    }
  };
  if (way.y < 0) meet(-from.y / way.y, () => ({ id: 'face floor', title: 'floor', kind: 'floor' }));
  if (way.y > 0)
    meet((room.ceiling - from.y) / way.y, () => ({ id: 'face ceiling', title: 'ceiling', kind: 'ceiling' }));
  room.outline.forEach((a, k) => {
    const b = room.outline[(k + 1) % room.outline.length]!;
    const [ex, ez] = [b.x - a.x, b.z - a.z];
    const cross = way.x * ez - way.z * ex;
    if (Math.abs(cross) < 1e-12) return;
    const t = ((a.x - from.x) * ez - (a.z - from.z) * ex) / cross;
    const u = ((a.x - from.x) * way.z - (a.z - from.z) * way.x) / cross;
    if (u < 0 || u > 1) return;
    const wall = room.walls[k]!;
    meet(t, () => {
      const along = u * Math.hypot(ex, ez);
      const high = from.y + t * way.y;
      const opening = room.openings.find(
        (o) => o.wall === wall.id && along >= o.x[0] && along <= o.x[1] && high >= o.y[0] && high <= o.y[1],
      );
      return opening
        ? { id: `opening ${opening.id}`, title: opening.id, kind: 'opening' }
        : { id: `wall ${wall.id}`, title: wallCalled(wall.id), kind: 'wall' };
    });
  });
  return { depth, filling };
}

function enters(from: Vec3, way: Vec3, { min, max }: Box): number {
  let [a, b] = [1, Number.POSITIVE_INFINITY];
  for (const axis of ['x', 'y', 'z'] as const) {
    const d = way[axis];
    if (Math.abs(d) < 1e-12) {
      if (from[axis] < min[axis] || from[axis] > max[axis]) return Number.POSITIVE_INFINITY;
      continue;
    }
    const [t0, t1] = [(min[axis] - from[axis]) / d, (max[axis] - from[axis]) / d];
    a = Math.max(a, Math.min(t0, t1));
    b = Math.min(b, Math.max(t0, t1));
  }
  return a < b ? a : Number.POSITIVE_INFINITY;
}

function holdsPoint(polygon: Cover['polygon'], x: number, y: number): boolean {
  let inside = false;
  for (let k = 0, m = polygon.length - 1; k < polygon.length; m = k++) {
    const [p, q] = [polygon[k]!, polygon[m]!];
    if (p.y > y !== q.y > y && x < ((q.x - p.x) * (y - p.y)) / (q.y - p.y) + p.x) inside = !inside;
  }
  return inside;
}

/** A chair counts as a box, but whoever sits in it is not hidden by it. */
export const sitsIn = ({ head }: Sitter, { min, max }: Box): boolean => {
  const [low, high] = [head.y - TORSO - 20, head.y - 300];
  return head.x > min.x && head.x < max.x && head.z > min.z && head.z < max.z && max.y > low && min.y < high;
};

export interface InPicture {
  readonly id: string;
  readonly title: string;
  readonly at: Vec3;
}
/** Sockets and switches, lamps and ends of the ceiling that stand in the picture unhidden: what a viewer's eye goes to. */
export function strayThings(
  staged: Staged,
  camera: Camera,
  people: readonly Silhouette[],
): { readonly services: readonly InPicture[]; readonly lamps: readonly InPicture[] } {
  const sight = sightOf(camera);
  const sitting = people.map((p) => p.sitter);
  const boxes = bodiesOf(staged)
    .map((b) => b.box)
    .filter((b) => !sitting.some((s) => sitsIn(s, b)));
  const covers = people.flatMap((p) =>
    p.outlines.map((o) => ({ polygon: o.flatMap((v) => project(camera, v, sight) ?? []), depth: p.depth })),
  );
  const seen = (p: Vec3): boolean => {
    const image = project(camera, p, sight);
    if (!image || !isInFrame(camera, image)) return false;
    if (boxes.some((b) => hidesPoint(camera.at, p, b))) return false;
    return !covers.some((c) => c.depth < image.depth && holdsPoint(c.polygon, image.x, image.y));
  };
  const { room } = staged;
  const services = room.services.flatMap((s): InPicture[] => {
    const wall = room.walls.find((w) => w.id === s.wall);
    if (!wall) return [];
    const k = room.walls.indexOf(wall);
    const [a, b] = [room.outline[k]!, room.outline[(k + 1) % room.outline.length]!];
    const run = Math.hypot(b.x - a.x, b.z - a.z);
    const u = (s.x[0] + s.x[1]) / 2 / run;
    const inward = { x: -(b.z - a.z) / run, z: (b.x - a.x) / run };
    // a hair before the wall, on the camera's side of it
    const side = Math.sign((camera.at.x - a.x) * inward.x + (camera.at.z - a.z) * inward.z) || 1;
    const at = vec(
      a.x + (b.x - a.x) * u + side * inward.x,
      (s.y[0] + s.y[1]) / 2,
      a.z + (b.z - a.z) * u + side * inward.z,
    );
    return seen(at) ? [{ id: s.id, title: s.id, at }] : [];
  });
  const lamps = lampsOf(staged).flatMap((lamp): InPicture[] => {
    const half = { x: lamp.piece.size.width / 2, z: lamp.piece.size.depth / 2 };
    const spots = [
      [0, 0],
      [-1, -1],
      [1, -1],
      [-1, 1],
      [1, 1],
    ].map(([i, j]) => vec(lamp.at.x + i! * half.x, lamp.at.y, lamp.at.z + j! * half.z));
    return spots.some(seen) ? [{ id: lamp.id, title: lamp.title, at: lamp.at }] : [];
  });
  return { services, lamps };
}
