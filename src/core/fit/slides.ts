import type { Note } from '../notes/index.ts';
import { remember } from '../remember.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { leafNotes } from './open-leaf.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

/**
 * Slides are screwed to the panels, and the drawer is as wide as what the face frame leaves open: where a panel stands back behind
 * its stile, strips must bring the slide out to the edge of the opening, or it reaches nothing. And a drawer must pass the open leaf before it.
 */
export function slideNotes(pieces: readonly PlacedPiece[], show: Show): readonly Note[] {
  return pieces.flatMap((piece) => kept(piece, [show], () => [...packed(piece, show), ...leafNotes(piece, show)]));
}

const kept = remember<PlacedPiece, readonly Note[]>();

function packed(piece: PlacedPiece, show: Show): readonly Note[] {
  const behind = piece.joints
    .filter((joint) => joint.kind === 'slid')
    .flatMap(({ a, contact }) => {
      const bay = piece.bays.find(({ id }) => a.startsWith(`${id}/drawer-`));
      return bay ? [Math.max(bay.clear.min.x - contact.min.x, contact.max.x - bay.clear.max.x)] : [];
    })
    .filter((deep) => deep > TOUCH);
  if (behind.length === 0) return [];
  // sides of one bay differ by the odd tick at most, and are packed alike
  const thick = [...new Set(behind.map(show))];
  return [
    {
      id: `pack-slides:${piece.id}`,
      about: piece.id,
      verdict: 'caution',
      title: `${named(piece)}: ${behind.length === 1 ? 'one drawer slide stands' : `${behind.length} drawer slides stand`} off the panel by ${thick.join(' or ')}`,
      advice: `Screw strips of that thickness to the panels behind the face frame, as long as the slides, flush with the opening: ${behind.length} in all. They are not in the part list.`,
      working: lengthWorking(
        'Deepest packing behind a slide',
        'from the panel to the edge of the opening',
        [],
        Math.max(...behind),
        { value: 0, why: 'a slide that lies against its panel' },
      ),
    },
  ];
}
