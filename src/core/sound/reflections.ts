import {
  add,
  type Box,
  dot,
  type Face,
  facesOf,
  insideOutline,
  isBlocked,
  isInside,
  magnitude,
  type Prism,
  scale,
  subtract,
  type Vec3,
  vec,
} from '../geometry/index.ts';

/**
 * Reflections in a room that is a prism: any plan outline, upright walls, level floor and ceiling, with boxes standing in it.
 *
 * Image sources (J. B. Allen & D. A. Berkley, J. Acoust. Soc. Am. 65, 1979, for the box; J. Borish, J. Acoust. Soc. Am. 75, 1984,
 * for any polyhedron): the source is mirrored in face after face; each image is kept only when the way back from the receiver
 * meets the faces in their order, inside their edges, with nothing in between. Geometrical acoustics: faces large against the
 * wavelength, mirror-like; no diffraction round edges.
 *
 * Lengths mm, times s, levels dB.
 */
export interface Reflection {
  /** The faces met, from the source on. */
  readonly faces: readonly string[];
  /** Where they are met. */
  readonly points: readonly Vec3[];
  /** Of the whole way, mm. */
  readonly length: number;
  /** After the direct sound, s. */
  readonly delay: number;
  /** Below the direct sound by distance alone: 20 lg(d/L). */
  readonly spreading: number;
  /** Cosine of the angle to the normal at each face. */
  readonly cosines: readonly number[];
}
export interface Reflections {
  readonly direct: number;
  /** Whether nothing stands between source and receiver. */
  readonly seen: boolean;
  /** In order of arrival. */
  readonly paths: readonly Reflection[];
}

const EDGE = 1e-9;

export const mirror = (p: Vec3, face: Face): Vec3 =>
  add(p, scale(face.normal, -2 * dot(subtract(p, face.point), face.normal)));

export interface ReflectionOptions {
  /** Most faces a path may meet; 1 when left out. */
  readonly order?: number;
  /** m/s; 343 when left out. */
  readonly speed?: number;
  readonly boxes?: readonly Box[];
}

/** Every specular path from source to receiver up to an order. @throws RangeError when either is not inside the room. */
export function findReflections(
  room: Prism,
  source: Vec3,
  receiver: Vec3,
  options: ReflectionOptions = {},
): Reflections {
  const { order = 1, speed = 343, boxes = [] } = options;
  for (const [name, p] of [
    ['source', source],
    ['receiver', receiver],
  ] as const)
    if (!isInside(room, p)) throw new RangeError(`the ${name} is not inside the room`);
  const faces = facesOf(room);
  const direct = magnitude(subtract(receiver, source));
  const paths: Reflection[] = [];

  // In a room as square as ours paths often run exactly into an edge, where it is a toss-up which face they meet first. What is
  // seen is decided from a thousandth of a millimetre beside the receiver, where there is no such doubt; the figures are its own.
  const beside = add(receiver, vec(1.13e-3, 0.71e-3, -0.87e-3));
  const trace = (chain: readonly Face[], images: readonly Vec3[]): void => {
    // Back from the receiver: to the last image, which gives the last point, from there to the image before it, and so on.
    const points: Vec3[] = [];
    const cosines: number[] = [];
    let at = receiver;
    let near = beside;
    for (let k = chain.length - 1; k >= 0; k--) {
      const face = chain[k]!;
      const image = images[k]!;
      const way = subtract(image, near);
      const fall = dot(way, face.normal);
      if (!(fall < 0)) return;
      const t = dot(subtract(face.point, near), face.normal) / fall;
      if (!(t > EDGE && t < 1 - EDGE)) return;
      const p = add(near, scale(way, t));
      if (!onFace(room, face, p)) return;
      if (isBlocked(room, near, p, boxes)) return;
      near = p;
      const exact = subtract(image, at);
      const drop = dot(exact, face.normal);
      at = add(at, scale(exact, dot(subtract(face.point, at), face.normal) / drop));
      points.unshift(at);
      cosines.unshift(-drop / magnitude(exact));
    }
    if (isBlocked(room, near, source, boxes)) return;
    const length = magnitude(subtract(receiver, images.at(-1)!));
    paths.push({
      faces: chain.map((f) => f.id),
      points,
      length,
      delay: (length - direct) / 1000 / speed,
      spreading: 20 * Math.log10(direct / length),
      cosines,
    });
  };
  const grow = (chain: readonly Face[], images: readonly Vec3[]): void => {
    const from = images.at(-1) ?? source;
    for (const face of faces) {
      if (face === chain.at(-1)) continue;
      // An image behind the face throws nothing forward through it.
      if (dot(subtract(from, face.point), face.normal) <= EDGE) continue;
      const nextChain = [...chain, face];
      const nextImages = [...images, mirror(from, face)];
      trace(nextChain, nextImages);
      if (nextChain.length < order) grow(nextChain, nextImages);
    }
  };
  if (order > 0) grow([], []);
  paths.sort((a, b) => a.length - b.length || (a.faces.join() < b.faces.join() ? -1 : 1));
  return { direct, seen: !isBlocked(room, source, receiver, boxes), paths };
}

function onFace(room: Prism, face: Face, p: Vec3): boolean {
  if (face.id === 'floor' || face.id === 'ceiling') return insideOutline(room.outline, p.x, p.z);
  if (!(p.y >= 0 && p.y <= room.height)) return false;
  const k = Number(face.id.slice(5));
  const a = room.outline[k]!;
  const b = room.outline[(k + 1) % room.outline.length]!;
  const along = (p.x - a.x) * (b.x - a.x) + (p.z - a.z) * (b.z - a.z);
  return along >= 0 && along <= (b.x - a.x) ** 2 + (b.z - a.z) ** 2;
}

/** Level of a path against the direct sound, dB: spreading, what each face takes, and the air on the longer way. */
export function levelOf(
  path: Reflection,
  coefficient: (face: string, point: Vec3) => number,
  airDbPerKm = 0,
  direct = path.length * 10 ** (path.spreading / 20),
): number {
  let level = path.spreading - (airDbPerKm * (path.length - direct)) / 1e6;
  path.faces.forEach((face, k) => {
    level += 10 * Math.log10(1 - Math.min(1, coefficient(face, path.points[k]!)));
  });
  return level;
}

/** Pairs of walls that face one another and are near enough to parallel to flutter, with the distance between them, mm. */
export function parallelPairs(
  room: Prism,
  within = 2,
): readonly { readonly faces: readonly [string, string]; readonly distance: number }[] {
  const faces = facesOf(room);
  const pairs: { faces: readonly [string, string]; distance: number }[] = [];
  const least = Math.cos((within * Math.PI) / 180);
  const middle = (f: Face): Vec3 => {
    if (f.id === 'floor' || f.id === 'ceiling') return f.point;
    const k = Number(f.id.slice(5));
    const [a, b] = [room.outline[k]!, room.outline[(k + 1) % room.outline.length]!];
    return vec((a.x + b.x) / 2, room.height / 2, (a.z + b.z) / 2);
  };
  faces.forEach((f, i) => {
    for (const g of faces.slice(i + 1)) {
      if (-dot(f.normal, g.normal) < least) continue;
      const distance = dot(subtract(middle(g), middle(f)), f.normal);
      if (distance <= 0) continue;
      if (f.id.startsWith('wall') && !overlap(room, f, g)) continue;
      pairs.push({ faces: [f.id, g.id], distance });
    }
  });
  return pairs;
}

/** Whether two facing walls lie opposite one another along some of their length. */
function overlap(room: Prism, f: Face, g: Face): boolean {
  const along = vec(-f.normal.z, 0, f.normal.x);
  const span = (face: Face): readonly [number, number] => {
    const k = Number(face.id.slice(5));
    const [a, b] = [room.outline[k]!, room.outline[(k + 1) % room.outline.length]!];
    const [s, t] = [a.x * along.x + a.z * along.z, b.x * along.x + b.z * along.z];
    return [Math.min(s, t), Math.max(s, t)];
  };
  const [[a0, a1], [b0, b1]] = [span(f), span(g)];
  return Math.min(a1, b1) - Math.max(a0, b0) > 1e-6;
}
