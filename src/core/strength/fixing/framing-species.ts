import { wallCalled } from '../../called.ts';
import { nearest } from '../../issue/index.ts';
import type { Note } from '../../notes/index.ts';
import { SPECIES_NAMES } from '../../stock/index.ts';
import type { WallInput } from '../plan-input.ts';
import { FRAMING_GRAVITY, listedSpecies } from './ground.ts';

/** What is reckoned with where nothing is said, by its own names. */
const USUAL = /^(spf|spruce[- ]pine[- ]fir)$/i;

/** Studs and timber let in of a wood that no table lists: how firmly screws hold in them is then that of usual framing. */
export const framingNotes = ({ plan }: Pick<WallInput, 'plan'>): readonly Note[] =>
  plan.room.walls.flatMap(({ id, framing }, i): readonly Note[] => {
    const path = ['room', 'walls', i, 'framing'];
    const said = [
      { species: framing?.species, what: 'the studs', path },
      ...(framing?.blocking ?? []).map(({ species }, k) => ({
        species,
        what: 'timber let in',
        path: [...path, 'blocking', k],
      })),
    ];
    return said.flatMap(({ species, what, path: at }): readonly Note[] => {
      if (species === undefined || listedSpecies(species) || USUAL.test(species.trim())) return [];
      const near = nearest(species, SPECIES_NAMES);
      return [
        {
          id: `species:${id}/${at.slice(4).join('-') || 'studs'}`,
          about: 'room',
          verdict: 'caution',
          title: `No table lists '${species}': ${what} ${what === 'the studs' ? 'of' : 'behind'} ${wallCalled(id)} ${what === 'the studs' ? 'are' : 'is'} reckoned as spruce-pine-fir`,
          advice: `${near ? `Did you mean '${near}'? ` : ''}Screws are held as by wood of a specific gravity of ${FRAMING_GRAVITY} (NDS-2018). Listed are: ${SPECIES_NAMES.join(', ')}.`,
          ...(near && {
            cure: { title: `Call it ${near}`, edits: [{ op: 'set', path: [...at, 'species'], value: near }] },
          }),
        },
      ];
    });
  });
