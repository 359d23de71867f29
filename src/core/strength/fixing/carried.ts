import { type Box, cornersOf, enclose, fromRoom, intersect, isEmpty, toRoom, vec } from '../../geometry/index.ts';
import { grouped } from '../../grouped.ts';
import { remember } from '../../remember.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { type Subject, subjectsOf, type WallInput } from '../plan-input.ts';

/** As high above the floor levellers and feet lift what stands on it, mm. Common practice. */
export const FEET = 100;
/** Two lengths written to 1/32 in, or in millimetres, that are meant to be the same are no further apart, mm. */
export const SAME = 1;

/**
 * Nothing carries it but its wall: it stands neither on the floor nor, with its middle over what is under it, on a piece that stands. What
 * lies on a piece that hangs must be held itself: the screws of that piece are reckoned with its own load.
 */
export function isHung(input: WallInput, subject: Subject): boolean {
  // several ask it of every piece of one input; what a cure tries out is a subject of its own
  return hung(subject, [input], () => hangs(input, subject));
}
const hung = remember<Subject, boolean>();

function hangs(input: WallInput, subject: Subject): boolean {
  const bottom = lowest(subject.placed);
  if (bottom <= FEET) return false;
  const under = endingAt(input, bottom).filter((other) => mayCarry(other, subject) && !isHung(input, other));
  return !isUnderMiddle(subject.placed, under);
}

/** The pieces whose tops lie at a height. */
function endingAt(input: WallInput, height: number): readonly Subject[] {
  const byTop = tops(input, [], () => grouped(subjectsOf(input), ({ placed }) => Math.floor(highest(placed) / SAME)));
  const near = Math.floor(height / SAME);
  return [near - 1, near, near + 1]
    .flatMap((step) => byTop.get(step) ?? [])
    .filter(({ placed }) => Math.abs(highest(placed) - height) <= SAME);
}
/** By steps of what counts as the same: each piece that hangs asks what ends where it begins. */
const tops = remember<WallInput, ReadonlyMap<number, readonly Subject[]>>();

/** It rests on what is under its middle, or on both sides of it, or inside what it stands in: nothing has to hold what is carried there to the wall. */
export function isBorne(input: WallInput, { placed }: Subject): boolean {
  const bottom = lowest(placed);
  const bears = (other: Subject) => other.placed !== placed && BEARS.some((kind) => kind in other.said);
  return (
    isUnderMiddle(placed, endingAt(input, bottom).filter(bears)) ||
    subjectsOf(input).some(
      (other) =>
        bears(other) &&
        bottom <= highest(other.placed) + SAME &&
        bottom >= lowest(other.placed) - SAME &&
        isUnderMiddle(placed, [other]),
    )
  );
}
const BEARS = ['case', 'shelf', 'thing'];

export const lowest = ({ frame, outside }: PlacedPiece): number => frame.origin.y + outside.min.y;
export const highest = ({ frame, outside }: PlacedPiece): number => frame.origin.y + outside.max.y;

/** A case stays where it is; of what can be carried off, only what the plan says it stands on. */
const mayCarry = ({ placed, said }: Subject, on: Subject): boolean =>
  'case' in said || ('thing' in said && on.said.on === placed.id);

/** Whether what is under a piece reaches on both sides of its middle, along it and out from its wall. */
function isUnderMiddle(placed: PlacedPiece, under: readonly Subject[]): boolean {
  const base = flat(placed.outside);
  const borne = under.map(({ placed: other }) => intersect(base, seenBy(placed, other))).filter((b) => !isEmpty(b));
  if (borne.length === 0) return false;
  const { min, max } = enclose(borne);
  const x = (base.min.x + base.max.x) / 2;
  const z = (base.min.z + base.max.z) / 2;
  return min.x < x && x < max.x && min.z < z && z < max.z;
}

/** Its outline in plan from another piece's frame, as a slab; turned askew, the square that surely lies within it. */
export function seenBy({ frame }: PlacedPiece, other: PlacedPiece): Box {
  const corners = cornersOf(other.outside).map((p) => fromRoom(frame, toRoom(other.frame, p)));
  if ((other.frame.turn - frame.turn) % 90 === 0) return flat(enclose(corners.map((p) => ({ min: p, max: p }))));
  const { min, max } = other.outside;
  const middle = fromRoom(frame, toRoom(other.frame, vec((min.x + max.x) / 2, 0, (min.z + max.z) / 2)));
  const half = Math.min(max.x - min.x, max.z - min.z) / 2 / Math.SQRT2;
  return {
    min: vec(middle.x - half, 0, middle.z - half),
    max: vec(middle.x + half, 1, middle.z + half),
  };
}

const flat = ({ min, max }: Box): Box => ({ min: vec(min.x, 0, min.z), max: vec(max.x, 1, max.z) });
