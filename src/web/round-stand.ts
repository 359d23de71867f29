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

/** The side of the set that is taken away, as it is for who faces it. */
export type From = 'front' | 'left' | 'right' | 'above';
/** What lies on the side of its normal is kept: normal · p + constant ≥ 0. */
export interface Section {
  readonly normal: Point;
  readonly constant: number;
}

/** The room as who faces its set has it: along the wall on which most is built to the right, and out of that wall. */
function facing(outcome: Outcome, isTurned = true) {
  const { walls, outline, ceiling } = outcome.room;
  const page = firstPage(outcome, firstPages(outcome));
  const wall = isTurned ? walls.find(({ id }) => page === `elevation-${id}`) : undefined;
  const turn = ((wall?.frame.turn ?? 0) * Math.PI) / 180;
  const [alongX, alongZ] = [Math.cos(turn), Math.sin(turn)];
  const us = outline.map((p) => (p.x * alongX + p.z * alongZ) * METRES);
  const ws = outline.map((p) => (p.z * alongX - p.x * alongZ) * METRES);
  const place = (along: number, height: number, out: number): Point => [
    along * alongX - out * alongZ,
    height,
    along * alongZ + out * alongX,
  ];
  const range = (all: readonly number[]) => [Math.min(...all), Math.max(...all)] as const;
  return { us, u: range(us), w: range(ws), y: ceiling * METRES, place };
}

/** Farther than anything in a room, m. */
const NOTHING = 100;
/** A share of the room taken away from one side of the set. */
export function sectionOf(outcome: Outcome, share: number, from: From): Section {
  const { u, w, y, place } = facing(outcome);
  const kept = 1 - share;
  const { normal, at } = {
    front: { normal: place(0, 0, -1), at: w[0] + kept * (w[1] - w[0]) },
    left: { normal: place(1, 0, 0), at: -(u[1] - kept * (u[1] - u[0])) },
    right: { normal: place(-1, 0, 0), at: u[0] + kept * (u[1] - u[0]) },
    above: { normal: place(0, -1, 0), at: kept * y },
  }[from];
  return { normal, constant: share === 0 ? NOTHING : at };
}

/** Where one stands to look at the set, which faces whoever looks: at the wall on which most is built. From above north stays up. */
export function standAt(outcome: Outcome, from: Standpoint): Stand {
  const {
    us,
    u: [u0, u1],
    w: [w0, w1],
    y,
    place,
  } = facing(outcome, from !== 'above');
  const [u, w] = [(u0 + u1) / 2, (w0 + w1) / 2];
  const size = Math.max(u1 - u0, w1 - w0, y);
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
