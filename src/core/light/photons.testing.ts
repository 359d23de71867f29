import type { Box, Vec3 } from '../geometry/index.ts';
import type { Lamp } from './radiosity.ts';

/**
 * Light by random photons in a rectangular room with boxes: no patches, no form factors, no matrix. Shares no code with the
 * radiosity solver. Counts the flux that lands on each face and on a grid of the floor.
 */
export interface PhotonRoom {
  readonly size: readonly [x: number, y: number, z: number];
  readonly boxes: readonly Box[];
  /** By 'floor', 'ceiling', 'wall 0' (z = 0), 'wall 1' (x = X), 'wall 2' (z = Z), 'wall 3' (x = 0), 'box 0' … */
  readonly reflectance: (face: string) => number;
}
export interface PhotonCount {
  /** lm that reached each face, for the lamps' flux in the first band. */
  readonly reached: ReadonlyMap<string, number>;
  /** lm that reached each cell of an n × n grid of the floor. */
  readonly floor: Float64Array;
}

export function countPhotons(
  room: PhotonRoom,
  lamps: readonly Lamp[],
  photons: number,
  grid: number,
  random: () => number,
): PhotonCount {
  const [X, Y, Z] = room.size;
  const reached = new Map<string, number>();
  const floor = new Float64Array(grid * grid);
  for (const lamp of lamps)
    for (let k = 0; k < photons; k++) {
      let [px, py, pz] = [lamp.at.x, lamp.at.y, lamp.at.z];
      let d = lampWay(lamp, random);
      const energy = lamp.flux[0]! / photons;
      for (;;) {
        const hit = next(room, px, py, pz, d);
        px += hit.t * d.x;
        py += hit.t * d.y;
        pz += hit.t * d.z;
        reached.set(hit.face, (reached.get(hit.face) ?? 0) + energy);
        if (hit.face === 'floor') {
          const i = Math.min(grid - 1, Math.max(0, Math.floor((px / X) * grid)));
          const j = Math.min(grid - 1, Math.max(0, Math.floor((pz / Z) * grid)));
          floor[i * grid + j]! += energy;
        }
        if (random() >= room.reflectance(hit.face)) break;
        d = cosineWay(hit.normal, random);
        px += hit.normal.x * 1e-6;
        py += hit.normal.y * 1e-6;
        pz += hit.normal.z * 1e-6;
      }
    }
  return { reached, floor };

  function next(r: PhotonRoom, x: number, y: number, z: number, w: Vec3): { t: number; face: string; normal: Vec3 } {
    let best = { t: Number.POSITIVE_INFINITY, face: '', normal: { x: 0, y: 1, z: 0 } };
    const offer = (t: number, face: string, nx: number, ny: number, nz: number): void => {
      if (t > 1e-9 && t < best.t) best = { t, face, normal: { x: nx, y: ny, z: nz } };
    };
    if (w.y < 0) offer(-y / w.y, 'floor', 0, 1, 0);
    if (w.y > 0) offer((Y - y) / w.y, 'ceiling', 0, -1, 0);
    if (w.z < 0) offer(-z / w.z, 'wall 0', 0, 0, 1);
    if (w.x > 0) offer((X - x) / w.x, 'wall 1', -1, 0, 0);
    if (w.z > 0) offer((Z - z) / w.z, 'wall 2', 0, 0, -1);
    if (w.x < 0) offer(-x / w.x, 'wall 3', 1, 0, 0);
    r.boxes.forEach((b, i) => {
      // Entry into the box: the last of the three near planes.
      let [from, to] = [0, Number.POSITIVE_INFINITY];
      let normal: Vec3 = { x: 0, y: 0, z: 0 };
      const slab = (p: number, v: number, lo: number, hi: number, n: Vec3): boolean => {
        if (v === 0) return p > lo && p < hi;
        const [t0, t1] = v > 0 ? [(lo - p) / v, (hi - p) / v] : [(hi - p) / v, (lo - p) / v];
        if (t0 > from) {
          from = t0;
          normal = n;
        }
        to = Math.min(to, t1);
        return from < to;
      };
      if (
        slab(x, w.x, b.min.x, b.max.x, { x: -Math.sign(w.x), y: 0, z: 0 }) &&
        slab(y, w.y, b.min.y, b.max.y, { x: 0, y: -Math.sign(w.y), z: 0 }) &&
        slab(z, w.z, b.min.z, b.max.z, { x: 0, y: 0, z: -Math.sign(w.z) }) &&
        from > 1e-9
      )
        offer(from, `box ${i}`, normal.x, normal.y, normal.z);
    });
    return best;
  }
}

function lampWay(lamp: Lamp, random: () => number): Vec3 {
  if (lamp.shape.kind === 'all round') {
    const y = 1 - 2 * random();
    const [r, a] = [Math.sqrt(1 - y * y), 2 * Math.PI * random()];
    return { x: r * Math.cos(a), y, z: r * Math.sin(a) };
  }
  // Cosine to a power about straight down, by inverting its share.
  const m = lamp.shape.kind === 'diffuse' ? 1 : Math.LN2 / -Math.log(Math.cos((lamp.shape.angle * Math.PI) / 360));
  const c = random() ** (1 / (m + 1));
  const [r, a] = [Math.sqrt(1 - c * c), 2 * Math.PI * random()];
  return { x: r * Math.cos(a), y: -c, z: r * Math.sin(a) };
}

function cosineWay(n: Vec3, random: () => number): Vec3 {
  const c = Math.sqrt(random());
  const [r, a] = [Math.sqrt(1 - c * c), 2 * Math.PI * random()];
  const [u, v] =
    Math.abs(n.y) > 0.5
      ? [
          { x: 1, y: 0, z: 0 },
          { x: 0, y: 0, z: 1 },
        ]
      : [
          { x: 0, y: 1, z: 0 },
          { x: n.z, y: 0, z: -n.x },
        ];
  const [p, q] = [r * Math.cos(a), r * Math.sin(a)];
  return { x: c * n.x + p * u.x + q * v.x, y: c * n.y + p * u.y + q * v.y, z: c * n.z + p * u.z + q * v.z };
}

/** A small generator with a seed, so that a test is the same on every machine. */
export function seeded(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
