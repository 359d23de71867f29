import type { Outcome } from '../core/outcome.ts';
import { firstPage, firstPages } from './first-pages.ts';

export type Standpoint = 'corner' | 'front' | 'above' | 'eye';
type Point = readonly [x: number, y: number, z: number];
export interface Stand {
  readonly at: Point;
  readonly towards: Point;
  readonly light: Point;
}

/** Metres, y up, as the solids have it. */
export const METRES = 1 / 1000;
/** Height of the eyes of a person who sits, mm. Common practice: about 4 ft. */
const SEATED_EYE = 1200;

/** Where one stands to look at the set, which faces whoever looks: at the wall on which most is built. From above north stays up. */
export function standAt(outcome: Outcome, from: Standpoint): Stand {
  const { walls, outline, ceiling } = outcome.room;
  const page = firstPage(outcome, firstPages(outcome));
  const wall = from === 'above' ? undefined : walls.find(({ id }) => page === `elevation-${id}`);
  const turn = ((wall?.frame.turn ?? 0) * Math.PI) / 180;
  // along the wall to the right, and out of it into the room
  const [alongX, alongZ] = [Math.cos(turn), Math.sin(turn)];
  const us = outline.map((p) => (p.x * alongX + p.z * alongZ) * METRES);
  const ws = outline.map((p) => (p.z * alongX - p.x * alongZ) * METRES);
  const [u0, u1, w0, w1] = [Math.min(...us), Math.max(...us), Math.min(...ws), Math.max(...ws)];
  const [u, w, y] = [(u0 + u1) / 2, (w0 + w1) / 2, ceiling * METRES];
  const size = Math.max(u1 - u0, w1 - w0, y);
  const place = (along: number, height: number, out: number): Point => [
    along * alongX - out * alongZ,
    height,
    along * alongZ + out * alongX,
  ];
  // a chimney breast or a corner that is cut out stands before the set: on which side there is one
  const [left, right] = [us.some((v) => v > u0 + 0.001 && v < u), us.some((v) => v > u && v < u1 - 0.001)];
  const beside = right && !left ? u0 - size * 0.15 : u1 + size * 0.15;
  const at = {
    corner: place(beside, y * 1.25, w1 + size * 0.55),
    front: place(u, y / 2, w0 + size * 1.35),
    above: place(u, size * 1.7, w + 0.01),
    eye: place(u, SEATED_EYE * METRES, w1 - 0.3),
  }[from];
  const towards = from === 'above' ? place(u, 0, w) : place(u, y * 0.42, w0 + 0.2);
  return { at, towards, light: place(u + size, y * 3, w1 + size) };
}
