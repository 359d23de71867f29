import { vec } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import { bodiesOf, type Staged } from '../surroundings/index.ts';
import { HEAD, sitsIn } from './fills.ts';
import type { Framed } from './plan.ts';
import { type Sitter, sittersOf } from './sitters.ts';
import { type Headroom, hidesPoint, isPictured, project } from './view.ts';

/** People the picture has not, or not as they should be: behind the lens, under its lower edge, behind something, out of focus. */
export function awayNotes(framed: Framed, staged: Staged): readonly Note[] {
  const { camera, near, far, stopped, silhouettes } = framed;
  const show = printersFor(staged.plan.units).length;
  const note = (what: string, sitter: Sitter, title: string, advice: string): Note => ({
    id: `${what}:${framed.id}/${sitter.id}`,
    about: sitter.id,
    at: sitter.head,
    verdict: 'caution',
    title,
    advice,
  });
  const before = new Map(framed.sitters.map((s) => [s.sitter.id, s]));
  const sitting = silhouettes.map((p) => p.sitter);
  const bodies = bodiesOf(staged).filter((b) => !sitting.some((s) => sitsIn(s, b.box)));
  return sittersOf(staged).flatMap((sitter): readonly Note[] => {
    const own = before.get(sitter.id);
    if (!own?.round)
      return [
        note(
          'behind-lens',
          sitter,
          `${sitter.title} sits behind the lens of ${framed.title}`,
          'Turn the camera round or set it elsewhere; or let somebody else have that seat.',
        ),
      ];
    const chin = project(camera, vec(sitter.head.x, sitter.head.y - HEAD.high, sitter.head.z));
    if (chin && chin.y < -camera.height / 2)
      return [
        note(
          'below-frame',
          sitter,
          `The face of ${sitter.title} is cut by the lower edge of ${framed.title}`,
          'Aim the camera lower, move it back, or take a shorter lens.',
        ),
      ];
    const hides = bodies.find((b) => hidesPoint(camera.at, sitter.eyes, b.box));
    if (hides)
      return [
        note(
          'hidden-face',
          sitter,
          `${hides.piece.title || hides.piece.id} hides the face of ${sitter.title} from ${framed.title}`,
          'Move the camera or what stands before it; a piece counts as closed and as large as it is outside.',
        ),
      ];
    if (!isPictured(camera, sitter.eyes) || (own.depth >= near - 1 && own.depth <= far + 1)) return [];
    return [
      note(
        'soft-face',
        sitter,
        `${sitter.title} is not sharp in ${framed.title}: ${show(own.depth)} away, where it is sharp from ${show(near)} ${Number.isFinite(far) ? `to ${show(far)}` : 'on'}`,
        `${stopped ? `Stop the lens down to f/${stopped.stop} and focus ${show(stopped.focus)} away` : 'Stop the lens down'}, seat people at one distance, move the camera back, or take a shorter lens.`,
      ),
    ];
  });
}

/** Least room above a head, as a share of the picture. Common practice. */
const ABOVE = 0.03;

/** Heads and shoulders that an edge of the picture cuts, and heads that it all but cuts. */
export const cutNotes = (framed: Framed): readonly Note[] =>
  framed.sitters.flatMap(({ sitter, round }): readonly Note[] => {
    if (!round) return [];
    const { edge, room } = tightestOf(round);
    const out = room < 0;
    if (!out && round.above >= ABOVE) return [];
    return [
      {
        id: `in-frame:${framed.id}/${sitter.id}`,
        about: sitter.id,
        at: sitter.head,
        verdict: 'caution',
        title: out
          ? `${sitter.title} is cut by the ${edge} of ${framed.title}`
          : `${sitter.title} has only ${Math.round(100 * round.above)} % of the picture above the head in ${framed.title}`,
        advice: 'Move the camera back or aim it anew, take a shorter lens, or bring the seats together.',
        working:
          out && edge !== UPPER ? besideWorking(framed, sitter, edge, room) : aboveWorking(framed, sitter, round),
      },
    ];
  });

const UPPER = 'upper edge';
/** The edge that cuts off most, or that is nearest; as shares of the height and of the width of the picture. */
const tightestOf = ({ above, left, right }: Headroom): { readonly edge: string; readonly room: number } =>
  [
    { edge: UPPER, room: above },
    { edge: 'left edge', room: left },
    { edge: 'right edge', room: right },
  ].reduce((a, b) => (b.room < a.room ? b : a));

const SURVEY = '2012 Anthropometric Survey of U.S. Army Personnel (Gordon et al., NATICK/TR-15/007)';
const PINHOLE = {
  source: { title: 'pinhole projection' },
  assumes: ['upright in the middle of the seat, no shoes, no hair'],
};

const aboveWorking = ({ camera }: Framed, { head }: Sitter, { above }: Headroom): Working => ({
  what: 'Room from the top of the head to the upper edge',
  formula: '(h/2 − y)/h, y = f Y/D',
  inputs: [
    { symbol: 'h', name: 'height of the picture on the sensor', value: camera.height, unit: 'mm' },
    { symbol: 'f', name: 'focal length', value: camera.focal, unit: 'mm' },
    {
      symbol: '',
      name: 'top of the head above the floor',
      value: head.y,
      unit: 'mm',
      source: { title: SURVEY, place: 'sitting height' },
    },
  ],
  result: { value: above, unit: '' },
  limit: { value: ABOVE, unit: '', why: 'some air above the head (common practice)' },
  ...PINHOLE,
});

const besideWorking = ({ camera }: Framed, { shoulder }: Sitter, edge: string, room: number): Working => ({
  what: `Room from the shoulder to the ${edge}`,
  formula: '(w/2 − x)/w, x = f (X + b/2)/D',
  inputs: [
    { symbol: 'w', name: 'width of the picture on the sensor', value: camera.width, unit: 'mm' },
    { symbol: 'f', name: 'focal length', value: camera.focal, unit: 'mm' },
    {
      symbol: 'b',
      name: 'breadth of the shoulders',
      value: shoulder,
      unit: 'mm',
      source: { title: SURVEY, place: 'shoulder breadth' },
    },
  ],
  result: { value: room, unit: '' },
  limit: { value: 0, unit: '', why: 'the shoulders are whole' },
  ...PINHOLE,
});
