export {
  bodiesOf,
  bodyOf,
  colourOf,
  faceColours,
  type Lit,
  lampsOf,
  prismOf,
  type Staged,
  type StripStretch,
  stripRuns,
  wallIndex,
} from './surroundings.ts';
