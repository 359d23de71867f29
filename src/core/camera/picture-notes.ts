import type { Vec3 } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { arrangementsOf } from './arrangements.ts';
import { fillsOf, strayThings } from './fills.ts';
import { type Framed, framesOf } from './plan.ts';

/** What a picture should not show, or not like this: in words for the maker. */
export function pictureNotes(framed: Framed, staged: Staged): readonly Note[] {
  const show = printersFor(staged.plan.units).length;
  const { camera } = framed;
  const notes: Note[] = [];
  const note = (id: string, title: string, advice: string, at: Vec3 = camera.at, about = framed.id): void => {
    notes.push({ id: `${id}:${framed.id}`, about, at, verdict: 'caution', title, advice });
  };
  const { services, lamps } = strayThings(staged, camera, framed.silhouettes);
  if (services.length > 0)
    note(
      'services-seen',
      `${framed.title} sees ${services.map((s) => s.title).join(', ')}: plugs and cords hang there in the picture`,
      'Bring the cords down behind a case, or stand something before them; a box itself stays reachable.',
      services[0]!.at,
    );
  if (lamps.length > 0)
    note(
      'lamp-seen',
      `${framed.title} sees ${lamps.map((l) => l.title).join(', ')} themselves`,
      'A lamp in the picture burns out and pulls the exposure down: aim the camera lower, take a longer lens, or move the lamp.',
      lamps[0]!.at,
    );
  const fills = fillsOf(staged, camera, framed.silhouettes);
  const ceiling = fills.find((f) => f.kind === 'ceiling');
  if (ceiling && ceiling.share > 0.05)
    note(
      'ceiling-seen',
      `The ceiling takes ${Math.round(100 * ceiling.share)} % of the picture of ${framed.title}`,
      'Lower the camera’s aim or raise it and look level; what is seen of the ceiling must be finished like the set.',
    );
  const cut = framed.seen.filter((s) => {
    const body = staged.pieces.find((p) => p.id === s.id);
    return body?.kind === 'absorber' && s.seen > 0.03 && s.inFrame < 0.97;
  });
  if (cut.length > 0)
    note(
      'absorber-edge',
      `The edge of the picture of ${framed.title} cuts through ${cut.map((s) => s.title).join(', ')}`,
      'Foam that ends in the picture looks like a mistake: let it run out of the frame on a whole tile, or trim its edge.',
    );
  if (Math.abs(framed.tilt) > 5)
    note(
      'tilt',
      `${framed.title} looks ${framed.tilt < 0 ? 'down' : 'up'} by ${Math.abs(framed.tilt).toFixed(0)}°: upright edges of cases lean in its picture`,
      'Set the lens at the height of the eyes and level it, and crop; or straighten the picture afterwards and leave room for that.',
    );
  const hides = framed.fronts.filter(
    (f) => f.hidden > 25 && (framed.seen.find((s) => s.id === f.id)?.seen ?? 0) > 0.05,
  );
  if (hides.length > 0)
    note(
      'shelf-front',
      `${hides.map((f) => f.title).join(' and ')} ${hides.length === 1 ? 'hides' : 'hide'} up to ${show(Math.max(...hides.map((f) => f.hidden)))} of what stands at the back`,
      'Stand low things at the front edge, or on a step behind it.',
    );
  const arrangements = arrangementsOf(staged).slice(1);
  for (const { name, staged: moved } of arrangements) {
    const other = framesOf(moved).find((f) => f.id === framed.id);
    const lost =
      other?.sitters.filter(({ round }) => !round || Math.min(round.left, round.right, round.above) < 0) ?? [];
    const behind = (other ? framed.sitters.length - other.sitters.length : 0) > 0;
    if (lost.length > 0 || behind)
      note(
        `place-${name}`,
        `With the desk ${name}, ${lost.length > 0 ? `${lost.map((l) => l.sitter.title).join(' and ')} are not whole in the picture` : 'somebody sits behind the lens'} of ${framed.title}`,
        'Give that arrangement a place of its own for the camera.',
      );
  }
  return notes;
}
