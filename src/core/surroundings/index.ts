export {
  bodiesOf,
  bodyOf,
  faceColours,
  lampsOf,
  prismOf,
  type Staged,
  type StripStretch,
  stripRuns,
  wallIndex,
} from './surroundings.ts';
