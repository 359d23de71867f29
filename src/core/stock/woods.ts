import { FRAMING_LUMBER, FRAMING_NAMES, framingLumber } from './data/framing.ts';
import { SPECIES_NAMES, type SpeciesName, speciesOf } from './data/species.ts';
import { byWord, handbookName } from './items.ts';

/** Specific gravity of what screws and lags go into, by the word of the plan; undefined where neither the handbook nor framing lumber has it. */
export const gravityOfWood = byWord((words): number | undefined => {
  const group = framingLumber(words);
  if (group) return FRAMING_LUMBER[group].gravity;
  const name = handbookName(words)?.name;
  return SPECIES_NAMES.some((one) => one === name) ? speciesOf(name as SpeciesName).gravity : undefined;
});

/** What a wood that screws go into may be called. */
export const woodNames = (): readonly string[] => [...FRAMING_NAMES, ...SPECIES_NAMES];
