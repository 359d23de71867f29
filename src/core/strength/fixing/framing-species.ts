import { wallCalled } from '../../called.ts';
import { nearest } from '../../issue/index.ts';
import type { Note } from '../../notes/index.ts';
import { gravityOfWood, woodNames } from '../../stock/index.ts';
import type { WallInput } from '../plan-input.ts';
import { FRAMING_GRAVITY } from './ground.ts';

/** Studs and timber let in of a wood that no table lists: how firmly screws hold in them is then that of usual framing. */
export const framingNotes = ({ plan }: Pick<WallInput, 'plan'>): readonly Note[] =>
  plan.room.walls.flatMap(({ id, framing }, i): readonly Note[] => {
    const path = ['room', 'walls', i, 'framing'];
    const said = [
      ...(framing?.kind === 'timber stud' ? [{ species: framing.species, what: 'the studs', path }] : []),
      ...(framing?.blocking ?? []).map(({ species }, k) => ({
        species,
        what: 'timber let in',
        path: [...path, 'blocking', k],
      })),
    ];
    return said.flatMap(({ species, what, path: at }): readonly Note[] => {
      if (species === undefined || gravityOfWood(species) !== undefined) return [];
      const near = nearest(species, woodNames());
      return [
        {
          id: `species:${id}/${at.slice(4).join('-') || 'studs'}`,
          about: 'room',
          verdict: 'caution',
          title: `No table lists '${species}': ${what} ${what === 'the studs' ? 'of' : 'behind'} ${wallCalled(id)} ${what === 'the studs' ? 'are' : 'is'} reckoned as spruce-pine-fir`,
          advice: `${near ? `Did you mean '${near}'? ` : ''}Screws are held as by wood of a specific gravity of ${FRAMING_GRAVITY} (NDS-2018), and less firmly by a lighter one. Write it as a table has it, such as Spruce-Pine-Fir, C24 or white oak.`,
          ...(near && {
            cure: { title: `Call it ${near}`, edits: [{ op: 'set', path: [...at, 'species'], value: near }] },
          }),
        },
      ];
    });
  });
