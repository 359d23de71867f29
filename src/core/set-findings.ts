import { cameraNotes } from './camera/index.ts';
import { lightNotes } from './light/index.ts';
import type { Note } from './notes/index.ts';
import { powerFittings, powerNotes } from './power/index.ts';
import type { Fitting } from './scene/index.ts';
import type { Solids } from './solids.ts';
import { absorberFittings, soundNotes } from './sound/index.ts';

/** What the finished set comes to in its room: too slow for every frame of a drag, so `settle` is given it. */
export interface SetFindings {
  readonly notes: readonly Note[];
  /** Tiles, adhesive, strips and wires: what is bought for all pieces together. */
  readonly fittings: readonly Fitting[];
}

/** Light, power, sound and camera. */
export const setNotes = (solids: Solids): readonly Note[] => [
  ...powerNotes(solids),
  ...lightNotes(solids),
  ...soundNotes(solids),
  ...cameraNotes(solids),
];
export const setFittings = (solids: Solids): readonly Fitting[] => [
  ...absorberFittings(solids),
  ...powerFittings(solids),
];
export const setFindings = (solids: Solids): SetFindings => ({
  notes: setNotes(solids),
  fittings: setFittings(solids),
});
