import { subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { SeatPiece } from '../plan/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { personSize } from './people.ts';

/** Somebody on a seat, by the published sizes of their like. Points of the room, mm. */
export interface Sitter {
  readonly id: string;
  readonly title: string;
  readonly seat: SeatPiece;
  /** Top of the head, the eyes and the mouth. */
  readonly head: Vec3;
  readonly eyes: Vec3;
  readonly mouth: Vec3;
  /** Where they face, of length 1. */
  readonly ahead: Vec3;
  readonly shoulder: number;
}

/** From the top of the head to the eyes: 857 − 748 mm, the women's medians of the survey; men's eye heights are not in the table. */
export const CROWN_TO_EYES = personSize('sitting height', 'women', 50) - personSize('eye height sitting', 'women', 50);
/** From the eyes to the mouth, mm. Common practice in drawing a head: a third of it. */
const EYES_TO_MOUTH = 75;

/** Everybody seated, upright in the middle of their seat. */
export function sittersOf({ option, pieces }: Staged): readonly Sitter[] {
  const placed = new Map(pieces.map((p) => [p.id, p]));
  return option.pieces.flatMap((seat): readonly Sitter[] => {
    if (!('seat' in seat)) return [];
    const own = placed.get(seat.seat);
    if (!own) return [];
    const { width, height, depth } = seat.size;
    const crown = height + personSize('sitting height', seat.sex, seat.percentile);
    const point = (y: number, forward: number): Vec3 => toRoom(own.frame, vec(width / 2, y, depth / 2 + forward));
    return [
      {
        id: seat.seat,
        title: seat.title ?? seat.seat,
        seat,
        head: point(crown, 0),
        eyes: point(crown - CROWN_TO_EYES, 80),
        mouth: point(crown - CROWN_TO_EYES - EYES_TO_MOUTH, 90),
        ahead: subtract(point(0, 1), point(0, 0)),
        shoulder: personSize('shoulder breadth', seat.sex, seat.percentile),
      },
    ];
  });
}
