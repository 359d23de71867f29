import { AXES, add, type Box, side, type Vec3 } from '../../geometry/index.ts';
import { remember } from '../../remember.ts';
import type { Direction } from '../../scene/index.ts';

/**
 * Exploded views: isometric representation (ISO 5456-3:1996, 5.2: three axes at 120°, one scale along all), with hidden lines removed
 * exactly. A point is hidden when the line of sight from it meets a face; along an edge every condition of that is linear, so each
 * face hides one stretch of it.
 */
export interface Standing {
  /** Which side of the piece is at the bottom of the picture, and which looks to the lower left. */
  readonly down: Direction;
  readonly front: Direction;
}
type P3 = readonly [number, number, number];
export type P2 = readonly [number, number];

const AT: Readonly<Record<Direction, P3>> = {
  right: [1, 0, 0],
  left: [-1, 0, 0],
  up: [0, 1, 0],
  down: [0, -1, 0],
  front: [0, 0, 1],
  back: [0, 0, -1],
};
const cross = (a: P3, b: P3): P3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const flip = (a: P3): P3 => [-a[0], -a[1], -a[2]];

/** Turns the piece so that what is down is down. Right-handed, like the piece's own frame. */
export function turner({ down, front }: Standing): (p: Vec3) => P3 {
  const y = flip(AT[down]);
  const z = AT[front];
  const x = cross(y, z);
  return (p) => {
    const v: P3 = [p.x, p.y, p.z];
    return [dot(x, v), dot(y, v), dot(z, v)];
  };
}
const [COS, SIN] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
/** On the paper: x to the right, y down, in real millimetres. */
export const project = ([x, y, z]: P3): P2 => [(x - z) * COS, (x + z) * SIN - y];

/** Something to be seen: a part, a gauge. */
export interface Thing {
  readonly id: string;
  readonly boxes: readonly Box[];
  /** How far it is drawn out of its place; its boxes and edges lie where it belongs. */
  readonly away?: Vec3;
  /** Distance of its hatch lines in real mm; left out, it is not hatched. */
  readonly hatch?: number;
  readonly hatchOver?: boolean;
}
export interface Stroke {
  readonly id: string;
  readonly kind: 'edge' | 'hatch';
  readonly from: P2;
  readonly to: P2;
}
type Cuboid = readonly [P3, P3];
/** A box with where it is on the paper. */
interface Veil {
  readonly cuboid: Cuboid;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
}
const TINY = 0.02;

/** All that is seen of the things, as strokes; or only the hatching. */
export function strokesOf(things: readonly Thing[], standing: Standing, only?: 'hatch'): readonly Stroke[] {
  const turn = turner(standing);
  const turned = things.map((thing) => {
    const { away } = thing;
    const put = away ? (p: Vec3) => turn(add(p, away)) : turn;
    return { ...thing, put, cuboids: thing.boxes.map((b) => cuboidOf(b, put)) };
  });
  const all = turned.flatMap((t) => t.cuboids.map(veilOf));
  const strokes: Stroke[] = [];
  const draw = (id: string, kind: Stroke['kind'], a: P3, b: P3): void => {
    for (const [from, to] of shownOf(a, b, all))
      strokes.push({ id, kind, from: project(between(a, b, from)), to: project(between(a, b, to)) });
  };
  for (const { id, boxes, put, cuboids, hatch, hatchOver } of turned) {
    if (only === undefined) for (const [a, b] of edgesOf(boxes)) draw(id, 'edge', put(a), put(b));
    if (hatch === undefined) continue;
    for (const cuboid of cuboids)
      for (const [a, b] of hatchesOf(cuboid, hatch, hatchOver ?? false)) draw(id, 'hatch', a, b);
  }
  return strokes;
}

/** Is all of the outline seen: no other thing before any of its edges? */
export function isSeen(outline: readonly Vec3[], things: readonly Thing[], standing: Standing): boolean {
  const turn = turner(standing);
  const veils = things.flatMap(({ boxes, away }) =>
    boxes.map((b) => veilOf(cuboidOf(b, away ? (p) => turn(add(p, away)) : turn))),
  );
  const corners = outline.map(turn);
  return corners.every((a, i) => {
    const b = corners[(i + 1) % corners.length]!;
    const shown = shownOf(a, b, veils);
    return shown.length === 1 && shown[0]![0] === 0 && shown[0]![1] === 1;
  });
}

function cuboidOf({ min, max }: Box, turn: (p: Vec3) => P3): Cuboid {
  const [a, b] = [turn(min), turn(max)];
  return [
    [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])],
    [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])],
  ];
}
function veilOf(cuboid: Cuboid): Veil {
  const [min, max] = cuboid;
  // the corners of the outline of a box in this view
  return {
    cuboid,
    u: [(min[0] - max[2]) * COS - TINY, (max[0] - min[2]) * COS + TINY],
    v: [(min[0] + min[2]) * SIN - max[1] - TINY, (max[0] + max[2]) * SIN - min[1] + TINY],
  };
}
const between = (a: P3, b: P3, t: number): P3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** The stretches of a line that nothing hides, as shares of its length. The eye is far off towards (1, 1, 1). */
function shownOf(a: P3, b: P3, veils: readonly Veil[]): readonly (readonly [number, number])[] {
  const hidden: [number, number][] = [];
  const [p, q] = [project(a), project(b)];
  const [u0, u1] = [Math.min(p[0], q[0]), Math.max(p[0], q[0])];
  const [v0, v1] = [Math.min(p[1], q[1]), Math.max(p[1], q[1])];
  for (const { cuboid, u, v } of veils) {
    if (u0 > u[1] || u1 < u[0] || v0 > v[1] || v1 < v[0]) continue;
    const [min, max] = cuboid;
    // behind no face of it when it lies wholly before all three
    if (a[0] >= max[0] && b[0] >= max[0] && a[1] >= max[1] && b[1] >= max[1] && a[2] >= max[2] && b[2] >= max[2])
      continue;
    for (let axis = 0; axis < 3; axis++) {
      let [from, to] = [0, 1];
      /** Keeps the stretch where g + λ (h − g) > 0. */
      const positive = (g: number, h: number): void => {
        if (g > 0 && h > 0) return;
        if (g <= 0 && h <= 0) {
          to = -1;
          return;
        }
        const at = g / (g - h);
        if (g > 0) to = Math.min(to, at);
        else from = Math.max(from, at);
      };
      const [ta, tb] = [max[axis]! - a[axis]!, max[axis]! - b[axis]!];
      positive(ta - TINY, tb - TINY);
      for (let other = 0; other < 3 && from < to; other++) {
        if (other === axis) continue;
        positive(a[other]! + ta - min[other]! + TINY, b[other]! + tb - min[other]! + TINY);
        positive(max[other]! - a[other]! - ta + TINY, max[other]! - b[other]! - tb + TINY);
      }
      if (from < to) hidden.push([from, to]);
    }
  }
  if (hidden.length === 0) return [[0, 1]];
  hidden.sort((p, q) => p[0] - q[0]);
  const shown: [number, number][] = [];
  let at = 0;
  for (const [from, to] of hidden) {
    if (from > at + 1e-6) shown.push([at, from]);
    at = Math.max(at, to);
  }
  if (at < 1 - 1e-6) shown.push([at, 1]);
  return shown;
}

type Edge = readonly [Vec3, Vec3];
const known = remember<readonly Box[], readonly Edge[]>();
/**
 * The true edges of a part made of boxes: where its surface bends, not where two of its boxes lie side by side. They are the same from
 * every side and in every step, and of a part with many housings they take longer than all the rest.
 */
const edgesOf = (boxes: readonly Box[]): readonly Edge[] => known(boxes, [], () => findEdges(boxes));

function findEdges(boxes: readonly Box[]): readonly Edge[] {
  const inside = (p: Vec3): boolean =>
    boxes.some(
      ({ min, max }) => p.x > min.x && p.x < max.x && p.y > min.y && p.y < max.y && p.z > min.z && p.z < max.z,
    );
  const edges = new Map<string, Edge>();
  for (const { min, max } of boxes)
    AXES.forEach((axis, k) => {
      const [u, v] = [AXES[(k + 1) % 3]!, AXES[(k + 2) % 3]!];
      const at = (along: number, eu: number, ev: number): Vec3 => ({ ...min, [axis]: along, [u]: eu, [v]: ev });
      const stops = [...new Set(boxes.flatMap((b) => [b.min[axis], b.max[axis]]))]
        .filter((s) => s >= min[axis] && s <= max[axis])
        .sort((p, q) => p - q);
      for (const eu of [min[u], max[u]])
        for (const ev of [min[v], max[v]])
          for (let i = 1; i < stops.length; i++) {
            const middle = (stops[i - 1]! + stops[i]!) / 2;
            const [pp, pm, mp, mm] = [
              inside(at(middle, eu + TINY, ev + TINY)),
              inside(at(middle, eu + TINY, ev - TINY)),
              inside(at(middle, eu - TINY, ev + TINY)),
              inside(at(middle, eu - TINY, ev - TINY)),
            ];
            const count = Number(pp) + Number(pm) + Number(mp) + Number(mm);
            const flat = count === 0 || count === 4 || (count === 2 && pp !== mm);
            if (flat) continue;
            const [a, b] = [at(stops[i - 1]!, eu, ev), at(stops[i]!, eu, ev)];
            edges.set([a, b].map((p) => AXES.map((on) => p[on].toFixed(2)).join(' ')).join(' '), [a, b]);
          }
    });
  return [...edges.values()];
}

/** Slanting lines over the three faces of a box that can be seen, `apart` real mm. */
function hatchesOf([min, max]: Cuboid, apart: number, over: boolean): readonly (readonly [P3, P3])[] {
  const lines: (readonly [P3, P3])[] = [];
  for (let axis = 0; axis < 3; axis++) {
    const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
    const [u0, u1, v0, v1] = [min[u]!, max[u]!, min[v]!, max[v]!];
    const point = (pu: number, pv: number): P3 => {
      const p = [0, 0, 0];
      [p[axis], p[u], p[v]] = [max[axis]!, pu, over ? v0 + v1 - pv : pv];
      return p as unknown as P3;
    };
    // pu + pv = s
    for (let s = u0 + v0 + apart * 0.7; s < u1 + v1; s += apart) {
      const [from, to] = [Math.max(u0, s - v1), Math.min(u1, s - v0)];
      if (to > from) lines.push([point(from, s - from), point(to, s - to)]);
    }
  }
  return lines;
}

export const longest = (b: Box): number => Math.max(...AXES.map((axis) => side(b, axis)));
