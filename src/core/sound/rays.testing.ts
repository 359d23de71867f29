import type { Prism, Vec3 } from '../geometry/index.ts';

/**
 * Straight rays in a prism, shot evenly over the sphere: shares no code with the image sources. Walls are met by stepping along
 * the ray in plan, floor and ceiling by height.
 */
export interface Shot {
  readonly faces: string;
  /** Rays that passed within `radius` of the receiver after exactly these faces. */
  readonly hits: number;
  /** Mean length of way to the point nearest the receiver. */
  readonly length: number;
}

export function shootRays(
  room: Prism,
  source: Vec3,
  receiver: Vec3,
  rays: number,
  order: number,
  radius: number,
): readonly Shot[] {
  const found = new Map<string, { hits: number; way: number }>();
  const golden = Math.PI * (3 - Math.sqrt(5));
  for (let k = 0; k < rays; k++) {
    let dy = 1 - (2 * k + 1) / rays;
    const r = Math.sqrt(1 - dy * dy);
    let [dx, dz] = [r * Math.cos(golden * k), r * Math.sin(golden * k)];
    let [x, y, z] = [source.x, source.y, source.z];
    let way = 0;
    const faces: string[] = [];
    for (let n = 0; n <= order; n++) {
      const { t, face, nx, ny, nz } = nextFace(room, x, y, z, dx, dy, dz);
      const along = (receiver.x - x) * dx + (receiver.y - y) * dy + (receiver.z - z) * dz;
      if (along > 0 && along < t) {
        const off = Math.hypot(receiver.x - x - along * dx, receiver.y - y - along * dy, receiver.z - z - along * dz);
        if (off < radius) {
          const key = faces.join(' > ');
          const entry = found.get(key) ?? { hits: 0, way: 0 };
          found.set(key, { hits: entry.hits + 1, way: entry.way + way + along });
        }
      }
      x += t * dx;
      y += t * dy;
      z += t * dz;
      way += t;
      faces.push(face);
      const into = dx * nx + dy * ny + dz * nz;
      dx -= 2 * into * nx;
      dy -= 2 * into * ny;
      dz -= 2 * into * nz;
    }
  }
  return [...found].map(([faces, { hits, way }]) => ({ faces, hits, length: way / hits }));
}

function nextFace(room: Prism, x: number, y: number, z: number, dx: number, dy: number, dz: number) {
  let best = { t: Number.POSITIVE_INFINITY, face: '', nx: 0, ny: 0, nz: 0 };
  if (dy < 0) best = { t: -y / dy, face: 'floor', nx: 0, ny: 1, nz: 0 };
  if (dy > 0) best = { t: (room.height - y) / dy, face: 'ceiling', nx: 0, ny: -1, nz: 0 };
  room.outline.forEach((a, k) => {
    const b = room.outline[(k + 1) % room.outline.length]!;
    const [ex, ez] = [b.x - a.x, b.z - a.z];
    const cross = dx * ez - dz * ex;
    if (cross === 0) return;
    const t = ((a.x - x) * ez - (a.z - z) * ex) / cross;
    const s = ((a.x - x) * dz - (a.z - z) * dx) / cross;
    if (t > 1e-6 && t < best.t && s >= 0 && s <= 1) {
      const length = Math.hypot(ex, ez);
      best = { t, face: `wall ${k}`, nx: -ez / length, ny: 0, nz: ex / length };
    }
  });
  return best;
}

/**
 * Energy left in a room after each reflection, by particles that leave every face in a random direction (Lambert's law): the
 * decay of a diffuse room, with nothing of Sabine or Eyring in it. Gives the time for 60 dB from a straight line through the
 * fall between −5 and −35 dB, and the mean free path.
 */
export function diffuseDecay(
  room: Prism,
  coefficient: (face: string) => number,
  particles: number,
  speed: number,
  random: () => number,
): { readonly time: number; readonly freePath: number } {
  const bin = 0.001;
  const energy = new Float64Array(4000);
  let [ways, total] = [0, 0];
  for (let k = 0; k < particles; k++) {
    let [x, y, z] = [room.outline[0]!.x, 0, room.outline[0]!.z];
    // Somewhere inside: rejection over the bounding box.
    const xs = room.outline.map((p) => p.x);
    const zs = room.outline.map((p) => p.z);
    do {
      x = Math.min(...xs) + random() * (Math.max(...xs) - Math.min(...xs));
      z = Math.min(...zs) + random() * (Math.max(...zs) - Math.min(...zs));
      y = random() * room.height;
    } while (!inside(room, x, z));
    let dy = 1 - 2 * random();
    const phi = 2 * Math.PI * random();
    let [dx, dz] = [Math.sqrt(1 - dy * dy) * Math.cos(phi), Math.sqrt(1 - dy * dy) * Math.sin(phi)];
    let [e, way] = [1, 0];
    for (let bounce = 0; e > 1e-5; bounce++) {
      const { t, face, nx, ny, nz } = nextFace(room, x, y, z, dx, dy, dz);
      // The particle's energy counts in each millisecond it is under way.
      const [from, to] = [way / 1000 / speed / bin, (way + t) / 1000 / speed / bin];
      for (let b = Math.floor(from); b <= to && b < energy.length; b++)
        energy[b]! += e * (Math.min(to, b + 1) - Math.max(from, b));
      if (bounce > 0) {
        ways++;
        total += t;
      }
      way += t;
      x += t * dx + nx * 1e-6;
      y += t * dy + ny * 1e-6;
      z += t * dz + nz * 1e-6;
      e *= 1 - coefficient(face);
      // Cosine-weighted about the inward normal.
      const out = Math.sqrt(random());
      const flat = Math.sqrt(1 - out * out);
      const a = 2 * Math.PI * random();
      const [ux, uy, uz] = Math.abs(ny) > 0.5 ? [1, 0, 0] : [nz, 0, -nx];
      const [vx, vy, vz] = [ny * uz - nz * uy, nz * ux - nx * uz, nx * uy - ny * ux];
      const [c, s] = [flat * Math.cos(a), flat * Math.sin(a)];
      dx = out * nx + c * ux + s * vx;
      dy = out * ny + c * uy + s * vy;
      dz = out * nz + c * uz + s * vz;
    }
  }
  const level = Array.from(energy, (v) => 10 * Math.log10(v / energy[0]!));
  const points = level.flatMap((dB, b) => (dB <= -5 && dB >= -35 ? [[(b + 0.5) * bin, dB] as const] : []));
  const n = points.length;
  const mt = points.reduce((sum, [t]) => sum + t, 0) / n;
  const ml = points.reduce((sum, [, l]) => sum + l, 0) / n;
  const slope =
    points.reduce((sum, [t, l]) => sum + (t - mt) * (l - ml), 0) / points.reduce((sum, [t]) => sum + (t - mt) ** 2, 0);
  return { time: -60 / slope, freePath: total / ways };
}

function inside(room: Prism, x: number, z: number): boolean {
  let within = false;
  room.outline.forEach((a, k) => {
    const b = room.outline[(k + 1) % room.outline.length]!;
    if (a.z > z !== b.z > z && x < a.x + ((b.x - a.x) * (z - a.z)) / (b.z - a.z)) within = !within;
  });
  return within;
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
