import { fastenerCount } from '../../casework/index.ts';
import { formula, type Note, type Working, work } from '../../notes/index.ts';
import { mm } from '../../quantity/index.ts';
import type { Part, PlacedPiece } from '../../scene/index.ts';
import { NDS, OVERHEAD } from '../cited.ts';
import { DURATION_FACTOR, durationInput } from '../fixings.ts';
import { imperial, type Subject, titleOf, type WallInput } from '../plan-input.ts';
import { SCREW_SIZES } from '../screw-sizes.ts';
import { lateralValue, rootOf } from '../timber-fixing.ts';
import { usedWords } from '../used.ts';
import { gravityOfStock } from './ground.ts';
import type { PieceFixing } from './point.ts';

/** The hanging rails of a case, behind its back. */
export const railsOf = ({ parts }: PlacedPiece): readonly Part[] => parts.filter((p) => p.role === 'hanging rail');

/** Of screws that cross a joint into end grain, the share of their shear that counts. Source: NDS-2018, 12.5.2.2. */
const END_GRAIN = 0.67;

export const railScrews = formula({
  name: 'rail-screws',
  title: 'Screws of a hanging rail',
  topic: 'strength',
  about:
    'How much of the screws is used that hold a rail to its case, in its ends and its edge: 1 is all they may take.',
  formula: 'u = √(V² + T²) / (n C_eg C_D Z),  C_eg = 0.67',
  inputs: {
    shear: { dimension: 'force', about: 'weight that hangs on the rail', symbol: 'V', min: 0 },
    pull: { dimension: 'force', about: 'pull of the wall on the rail', symbol: 'T', min: 0 },
    lateral: { dimension: 'force', about: 'reference lateral value of one screw in side grain', symbol: 'Z', above: 0 },
    count: { dimension: 'count', about: 'screws that share them', symbol: 'n', min: 1 },
    'load-duration': durationInput,
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: NDS('12.5.2.2, end grain factor; table 2.3.2'),
  caution: OVERHEAD,
  assumes: [
    'both forces run across the screws; in the edge of a panel they hold as in end grain; glue counts for nothing',
  ],
  compute: (v) => ({
    value: Math.hypot(v.shear, v.pull) / (v.count * END_GRAIN * DURATION_FACTOR[v['load-duration']] * v.lateral),
    limit: { value: 1, unit: '', why: 'all they may take' },
  }),
});

/** Whether the rails of a case hold to it what its fixings hold to the wall. */
export function railNotes(input: WallInput, { placed, said }: Subject, held: PieceFixing): readonly Note[] {
  const rails = railsOf(placed);
  if (rails.length === 0 || !('case' in said)) return [];
  const working = rails
    .flatMap((rail) => workingOf(input, placed, rail, held))
    .reduce<Working | undefined>((a, b) => (a && a.result.value >= b.result.value ? a : b), undefined);
  if (!working) return [];
  const use = working.result.value;
  const name = titleOf(placed);
  return [
    {
      id: `rails:${placed.id}`,
      about: placed.id,
      verdict: use > 1 ? 'stop' : 'fine',
      title:
        use > 1
          ? `The screws of the hanging rails of ${name} do not hold: ${usedWords(use)} of what they may take`
          : `The hanging rails hold ${name}: ${usedWords(use)} of their screws used`,
      advice:
        use > 1
          ? 'Make the rails higher, so that more screws go into their ends, or part the case in two.'
          : 'Working: the pull of the fixings, and the weight that hangs on the bottom rail; the top lies on its own. Glue the rails in besides. Not checked: screws other than those in the working.',
      working,
    },
  ];
}

/** Of one rail: what hangs on the fixings that go through it, on the screws at its ends. */
function workingOf(input: WallInput, placed: PlacedPiece, rail: Part, held: PieceFixing): readonly Working[] {
  const { min, max } = rail.solid.box;
  const bottom = placed.frame.origin.y;
  const mine = held.points.filter((p) => p.y >= bottom + min.y - 1e-6 && p.y <= bottom + max.y + 1e-6);
  const side = placed.parts.find((p) => p.role === 'side');
  const roleOf = new Map(placed.parts.map((p) => [p.id, p.role]));
  const joints = placed.joints.filter((j) => j.a === rail.id && j.fasten.includes('screws'));
  const ends = joints.filter((j) => roleOf.get(j.b) === 'side');
  if (mine.length === 0 || !side || ends.length === 0) return [];
  // the top lies on its rail, which bears the weight; a bottom hangs from its rail by the sides
  const borne = joints.some((j) => roleOf.get(j.b) === 'top');
  const count = (borne ? joints : ends).reduce((sum, { contact: { min: low, max: high } }) => {
    return sum + fastenerCount(mm(Math.max(high.x - low.x, high.y - low.y, high.z - low.z)), 'screws');
  }, 0);
  const { panel } = SCREW_SIZES[imperial(input) ? 'inch' : 'metric'];
  const into = 8 * panel.diameter;
  const { value: lateral } = lateralValue({
    fastener: 'wood screw',
    diameter: rootOf('wood screw', panel.diameter),
    nominal: panel.diameter,
    sideThickness: side.size.thickness,
    penetration: into,
    mainGravity: gravityOfStock(input.plan, rail.stock),
    side: { gravity: gravityOfStock(input.plan, side.stock) },
  });
  const sum = (of: 'shear' | 'tension') => mine.reduce((total, p) => total + p[of], 0);
  const reckoned = work(railScrews, {
    shear: borne ? 0 : sum('shear'),
    pull: sum('tension'),
    lateral,
    count,
    'load-duration': 'permanent',
  });
  return [
    {
      ...reckoned,
      inputs: [
        ...reckoned.inputs,
        { symbol: 'D', name: 'screw', value: panel.diameter, unit: 'mm' },
        { symbol: 'p', name: 'of it in the rail, eight diameters', value: into, unit: 'mm' },
        { symbol: 't_s', name: 'side under its head', value: side.size.thickness, unit: 'mm' },
      ],
    },
  ];
}
