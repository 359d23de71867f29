import { type Box, type Frame, fromRoom, isEmpty, move, vec, withoutAll } from '../../geometry/index.ts';
import { remember } from '../../remember.ts';
import type { Part, PlacedPiece, Solid } from '../../scene/index.ts';
import type { Face } from './hidden-lines.ts';

/**
 * From where a piece is looked at. front: at the wall; back: out of it; top: from above, the wall at the top of the paper;
 * right: from the left end along x, the wall at the left of the paper (a section seen towards the right).
 */
export type Look = 'front' | 'top' | 'right' | 'back';

/** A box as its face towards whoever looks: u to the right, v down, near towards the eye. */
export function faceOf(box: Box, look: Look): Pick<Face, 'u' | 'v' | 'near'> & { readonly far: number } {
  const { min, max } = box;
  if (look === 'front') return { u: [min.x, max.x], v: [-max.y, -min.y], near: max.z, far: min.z };
  if (look === 'back') return { u: [-max.x, -min.x], v: [-max.y, -min.y], near: -min.z, far: -max.z };
  if (look === 'top') return { u: [min.x, max.x], v: [min.z, max.z], near: max.y, far: min.y };
  return { u: [min.z, max.z], v: [-max.y, -min.y], near: -min.x, far: -max.x };
}

const whole = remember<Solid, readonly Box[]>();
/** What is left of a solid as boxes; the same ones each time, so that what is found out of them can be kept too. Round holes are left in: they are drawn as circles. */
export const boxesOf = (solid: Solid): readonly Box[] =>
  whole(solid, [], () => {
    const flat = solid.taken.filter((m) => !m.round).map((m) => m.box);
    if (flat.length > 0) return withoutAll(solid.box, flat);
    return isEmpty(solid.box) ? [] : [solid.box];
  });

/** A piece's parts with the boxes they consist of, moved by the piece's place in another frame of the same turn. */
export interface Body {
  readonly part: Part;
  readonly boxes: readonly Box[];
}
export function bodiesOf(piece: PlacedPiece, offset = vec(0, 0, 0)): readonly Body[] {
  return piece.parts.map((part) => ({ part, boxes: boxesOf(part.solid).map((b) => move(b, offset)) }));
}

/** Where a piece's origin lies in a wall's frame, when both are turned alike; undefined when the piece stands askew to it. */
export function offsetIn(wall: Frame, piece: Frame): ReturnType<typeof vec> | undefined {
  const turn = (((piece.turn - wall.turn) % 360) + 360) % 360;
  return turn < 1e-9 || turn > 360 - 1e-9 ? fromRoom(wall, piece.origin) : undefined;
}

/** Faces of bodies, whole: as seen from outside. */
export function facesOf(bodies: readonly Body[], look: Look): readonly Face[] {
  return bodies.flatMap(({ part, boxes }) =>
    boxes.map((b): Face => {
      const { u, v, near } = faceOf(b, look);
      return { u, v, near, owner: part.id, body: part.piece };
    }),
  );
}

/** Faces of bodies cut by a plane at depth `at` (of the look): what is nearer is taken away, what is cut shows its section. */
export function sectionFaces(bodies: readonly Body[], look: Look, at: number): readonly Face[] {
  return bodies.flatMap(({ part, boxes }) =>
    boxes.flatMap((b): readonly Face[] => {
      const { u, v, near, far } = faceOf(b, look);
      if (far >= at) return [];
      const cut = near > at;
      return [{ u, v, near: Math.min(near, at), owner: part.id, body: part.piece, ...(cut && { cut }) }];
    }),
  );
}
