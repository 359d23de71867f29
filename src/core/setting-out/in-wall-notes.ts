import type { Note } from '../notes/index.ts';
import { fixings, type WallInput } from '../strength/index.ts';
import { boxNotes } from './box-notes.ts';
import { cableNotes } from './cable-notes.ts';
import { wallBoxes } from './in-wall.ts';

/** Notes on boxes and cables in the walls: what stands in their way, what may not share a space, what may not run there, how long. */
export function inWallNotes(input: WallInput): readonly Note[] {
  if (!input.option.boxes && !input.option.cables) return [];
  const { points } = fixings(input);
  const boxes = wallBoxes(input);
  return [...boxes.flatMap((box) => boxNotes(input, box, boxes, points)), ...cableNotes(input, points)];
}
