import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { flickerNotes } from './flicker.ts';
import { glaresOf } from './glare.ts';
import { moireNotes } from './moire.ts';
import { awayNotes, cutNotes } from './people-notes.ts';
import { pictureNotes } from './picture-notes.ts';
import { type Framed, framesOf } from './plan.ts';

/** Notes on every camera: heads cut off, people out of the picture, flicker, patterns and glare of displays. */
export const cameraNotes = (staged: Staged): readonly Note[] =>
  framesOf(staged).flatMap((framed): readonly Note[] => {
    const wanting = [...cutNotes(framed), ...awayNotes(framed, staged)];
    return [
      ...wanting,
      ...(framed.sitters.length > 0 && wanting.length === 0 ? [wholeNote(framed, staged)] : []),
      ...flickerNotes(framed, staged),
      ...moireNotes(framed, staged),
      ...glareNotes(framed, staged),
      ...pictureNotes(framed, staged),
    ];
  });

function wholeNote({ id, title, sitters, camera, near, far, workings }: Framed, { plan }: Staged): Note {
  const { notLess, notMore } = printersFor(plan.units);
  return {
    id: `framed:${id}`,
    about: id,
    at: camera.at,
    verdict: 'fine',
    title: `${title} has ${sitters.length === 1 ? 'the sitter' : `all ${sitters.length} sitters`} whole in the picture`,
    advice: `Sharp from ${notLess(near)} ${Number.isFinite(far) ? `to ${notMore(far)}` : 'on'}. Not checked: leaning, raised hands, instruments.`,
    ...(workings[0] && { working: workings[0] }),
  };
}

function glareNotes(framed: Framed, staged: Staged): readonly Note[] {
  const glares = glaresOf(framed, staged);
  return [...new Set(glares.map((g) => g.display))].map((display): Note => {
    const own = glares.filter((g) => g.display === display);
    return {
      id: `glare:${framed.id}/${display}`,
      about: framed.id,
      at: own[0]!.point,
      verdict: 'caution',
      title: `${framed.title} sees ${own.map((g) => g.source).join(' and ')} mirrored in ${display}`,
      advice: own.every((g) => g.by === 'window')
        ? 'By day: draw a blind, tilt the display forwards, or move the camera aside.'
        : 'Tilt the display, move the lamp out of the mirror angle, or shade it with a louvre.',
    };
  });
}
