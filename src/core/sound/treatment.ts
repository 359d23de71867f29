import { type Enclosed, eyring, type Patch, sabine } from './reverberation.ts';

/** Absorbers: how many, where they fit, and what sticks them on. Areas m², lengths mm, volumes of adhesive mL. */

/** One absorber: its face and its coefficient by band. */
export interface Absorber {
  readonly area: number;
  readonly coefficients: readonly number[];
}

/** A room by bands: each patch has a coefficient for each band. */
export interface BandedRoom {
  readonly volume: number;
  readonly patches: readonly { readonly area: number; readonly coefficients: readonly number[] }[];
  /** By band, m². */
  readonly objects?: readonly number[];
  /** By band, dB/km. */
  readonly air?: readonly number[];
  readonly constant?: number;
}

const inBand = (room: BandedRoom, band: number, patches: readonly Patch[]): Enclosed => ({
  volume: room.volume,
  patches,
  ...(room.objects && { objects: room.objects[band] ?? 0 }),
  ...(room.air && { air: room.air[band] ?? 0 }),
  ...(room.constant !== undefined && { constant: room.constant }),
});
const METHODS = { sabine, eyring } as const;
export type Method = keyof typeof METHODS;

/** Reverberation time in each band. */
export const timesByBand = (room: BandedRoom, method: Method = 'eyring'): readonly number[] =>
  (room.patches[0]?.coefficients ?? []).map((_, band) =>
    METHODS[method](
      inBand(
        room,
        band,
        room.patches.map((p) => ({ area: p.area, coefficient: Math.min(1, p.coefficients[band]!) })),
      ),
    ),
  );

/** The room with so many absorbers on one of its patches: they cover it, so its own absorption is lost there. */
export function withAbsorbers(room: BandedRoom, patch: number, absorber: Absorber, count: number): BandedRoom {
  const covered = room.patches[patch];
  if (!covered) throw new RangeError(`there is no patch ${patch}`);
  const area = absorber.area * count;
  if (area > covered.area * (1 + 1e-9))
    throw new RangeError(`${count} absorbers cover ${area} m², the patch has ${covered.area} m²`);
  return {
    ...room,
    patches: [
      ...room.patches.map((p, k) => (k === patch ? { ...p, area: p.area - area } : p)),
      { area, coefficients: absorber.coefficients },
    ],
  };
}

/** Sabine's count: ⌈k V (1/T2 − 1/T1) / ((α_t − α_w) s)⌉. */
export function absorberCount(
  volume: number,
  from: number,
  to: number,
  gain: number,
  each: number,
  constant: number,
): { readonly absorption: number; readonly area: number; readonly count: number } {
  if (!(gain > 0)) throw new RangeError('an absorber must absorb more than what it covers');
  const added = constant * volume * (1 / to - 1 / from);
  const area = added / gain;
  return { absorption: added, area, count: Math.max(0, Math.ceil(area / each - 1e-9)) };
}

/** Whole tiles along a length, and the equal margins left: n = ⌊(W + g)/(t + g)⌋. */
export function tilesAlong(
  length: number,
  tile: number,
  gap: number,
): { readonly count: number; readonly margin: number } {
  const count = Math.max(0, Math.floor((length + gap) / (tile + gap) + 1e-9));
  return { count, margin: count === 0 ? length / 2 : (length - (count * tile + (count - 1) * gap)) / 2 };
}

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export interface LaidTile extends Rectangle {
  readonly cut: boolean;
}

/**
 * Tiles on a wall on one grid, round whatever is on it. The grid is shifted so that the most whole tiles fit (ties: the most
 * even margins); a tile that a rectangle eats into is cut to the largest rectangle left of it, when that is at least `least`
 * of a side, or left out.
 */
export function layTiles(
  wall: Rectangle,
  blocked: readonly Rectangle[],
  tile: number,
  gap = 0,
  least = tile / 3,
): readonly LaidTile[] {
  const step = tile + gap;
  const starts = (from: number, length: number, edges: readonly number[]): number[] => {
    const margin = tilesAlong(length, tile, gap).margin;
    // Grid lines that start at an edge of something, or end at one, are the only shifts at which the count can change.
    const shifts = [margin, ...edges.flatMap((e) => [e - from, e - from + gap])].map((s) => ((s % step) + step) % step);
    return [...new Set(shifts.map((s) => Math.round(s * 1e6) / 1e6))];
  };
  const xs = starts(
    wall.x,
    wall.width,
    blocked.flatMap((b) => [b.x, b.x + b.width]),
  );
  const ys = starts(
    wall.y,
    wall.height,
    blocked.flatMap((b) => [b.y, b.y + b.height]),
  );
  let best: { tiles: LaidTile[]; whole: number; area: number } | undefined;
  for (const sx of xs)
    for (const sy of ys) {
      const tiles: LaidTile[] = [];
      for (let x = sx > gap ? sx - step : sx; x < wall.width - 1e-6; x += step)
        for (let y = sy > gap ? sy - step : sy; y < wall.height - 1e-6; y += step) {
          const cell = clip({ x: wall.x + x, y: wall.y + y, width: tile, height: tile }, wall);
          const left = largestFree(cell, blocked);
          if (left.width < least - 1e-6 || left.height < least - 1e-6) continue;
          tiles.push({ ...left, cut: left.width < tile - 1e-6 || left.height < tile - 1e-6 });
        }
      const whole = tiles.filter((t) => !t.cut).length;
      const area = tiles.reduce((sum, t) => sum + t.width * t.height, 0);
      if (!best || whole > best.whole || (whole === best.whole && area > best.area + 1e-6))
        best = { tiles, whole, area };
    }
  return best?.tiles ?? [];
}

const clip = (a: Rectangle, b: Rectangle): Rectangle => {
  const x = Math.max(a.x, b.x);
  const y = Math.max(a.y, b.y);
  return {
    x,
    y,
    width: Math.max(0, Math.min(a.x + a.width, b.x + b.width) - x),
    height: Math.max(0, Math.min(a.y + a.height, b.y + b.height) - y),
  };
};

/** The largest rectangle of a cell that touches none of the blocked ones: its sides lie on edges of the cell or of them. */
function largestFree(cell: Rectangle, blocked: readonly Rectangle[]): Rectangle {
  const hits = blocked.map((b) => clip(cell, b)).filter((b) => b.width > 1e-9 && b.height > 1e-9);
  if (hits.length === 0) return cell;
  const xs = [...new Set([cell.x, cell.x + cell.width, ...hits.flatMap((b) => [b.x, b.x + b.width])])].sort(
    (a, b) => a - b,
  );
  const ys = [...new Set([cell.y, cell.y + cell.height, ...hits.flatMap((b) => [b.y, b.y + b.height])])].sort(
    (a, b) => a - b,
  );
  let best: Rectangle = { x: cell.x, y: cell.y, width: 0, height: 0 };
  for (let i = 0; i < xs.length; i++)
    for (let j = i + 1; j < xs.length; j++)
      for (let k = 0; k < ys.length; k++)
        for (let l = k + 1; l < ys.length; l++) {
          const r = { x: xs[i]!, y: ys[k]!, width: xs[j]! - xs[i]!, height: ys[l]! - ys[k]! };
          if (r.width * r.height <= best.width * best.height) continue;
          const free = hits.every((b) => {
            const common = clip(r, b);
            return common.width <= 1e-9 || common.height <= 1e-9;
          });
          if (free) best = r;
        }
  return best;
}

/** Perimeter over area of a block of tiles, 1/m: the more of it, the more a patch absorbs for its size. Source: ASTM C423, edge effect. */
export const edgeRatio = (width: number, height: number): number => (2 * (width + height)) / (width * height);

/** Length of bead from a cartridge, mm: V / A. Volume mL, area mm². */
export const beadLength = (volume: number, section: number): number => (volume * 1000) / section;
/** Whole tiles from a cartridge at so many dabs of a diameter and pressed thickness each. */
export const dabTiles = (volume: number, dabs: number, diameter: number, thickness: number): number =>
  Math.floor((volume * 1000) / (dabs * (Math.PI / 4) * diameter ** 2 * thickness) + 1e-9);
/** Contact adhesive for tiles glued on both faces, L: 2 n s / coverage (m²/L for one face). */
export const contactAdhesive = (tiles: number, each: number, coverage: number, faces = 2): number =>
  (faces * tiles * each) / coverage;

/** Noise reduction coefficient: mean of 250, 500, 1000, 2000 Hz to the nearest 0.05. Source: ASTM C423. */
export const noiseReduction = (coefficients: readonly [number, number, number, number]): number => {
  const mean = coefficients.reduce((sum, a) => sum + a, 0) / 4;
  return Math.round(mean * 20 + 1e-9) / 20;
};
