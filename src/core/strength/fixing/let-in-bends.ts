import { formula, type Working, work } from '../../notes/index.ts';
import { convert } from '../../quantity/index.ts';
import { NDS, OVERHEAD } from '../cited.ts';
import { DURATION_FACTOR, durationInput } from '../fixings.ts';
import { FRAMING_GRAVITY } from './ground.ts';
import type { FixingPoint } from './point.ts';

/** Bending design value of spruce-pine-fir of stud grade, which framing may be no better than, MPa. Source: NDS Supplement 2018, table 4A, from memory. */
const STUD_GRADE = convert(675, 'psi', 'stress');

export const letInBending = formula({
  name: 'let-in-bending',
  title: 'Bending of timber between studs',
  topic: 'strength',
  about:
    'How much is used of what timber let in flat between two studs bears in bending, out of the wall and down at once: 1 is all of it.',
  formula: 'u = (6 M_T / (n h t²) + 6 M_V / (n t h²)) / (F_b min(1, G/G₀) C_D)',
  inputs: {
    pull: { dimension: 'moment', about: 'largest moment of what pulls out of the wall', symbol: 'M_T', min: 0 },
    weight: { dimension: 'moment', about: 'moment of the weights at the same place', symbol: 'M_V', min: 0 },
    height: { dimension: 'length', about: 'height of the timber along the wall', symbol: 'h', above: 0 },
    thickness: { dimension: 'length', about: 'thickness of one timber', symbol: 't', above: 0 },
    count: { dimension: 'count', about: 'timbers one behind the other', symbol: 'n', min: 1, default: 1 },
    gravity: {
      dimension: 'ratio',
      about: 'specific gravity of the wood',
      symbol: 'G',
      above: 0,
      default: FRAMING_GRAVITY,
    },
    'load-duration': durationInput,
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: NDS('3.3.1 and 3.9; bending of stud grade from Supplement table 4A, from memory'),
  caution: OVERHEAD,
  assumes: [
    'straight timber without large knots, as strong as spruce-pine-fir of stud grade; a lighter wood less by its specific gravity: common practice',
    'it turns freely on its ends, and timbers one behind the other share the load without their joint counting',
  ],
  compute: (v) => ({
    value:
      ((6000 * v.pull) / (v.count * v.height * v.thickness ** 2) +
        (6000 * v.weight) / (v.count * v.thickness * v.height ** 2)) /
      (STUD_GRADE * Math.min(1, v.gravity / FRAMING_GRAVITY) * DURATION_FACTOR[v['load-duration']]),
    also: [
      { symbol: 'F_b', name: 'bending of stud grade', value: STUD_GRADE, unit: 'MPa' },
      { symbol: 'G₀', name: 'specific gravity of spruce-pine-fir', value: FRAMING_GRAVITY, unit: '' },
    ],
    limit: { value: 1, unit: '', why: 'all that it may bear' },
  }),
});

/** A timber between two studs: mm along the wall, its height and thickness, and of what it is. */
interface Beam {
  readonly from: number;
  readonly to: number;
  readonly height: number;
  /** Of each, and how many lie one behind the other. */
  readonly thickness: number;
  readonly count: number;
  readonly gravity: number;
}

/** How far fixings that land in a timber bend it, where they bend it most; undefined where none bends it. */
export function bendingOf(
  { from, to, ...beam }: Beam,
  points: readonly Pick<FixingPoint, 'x' | 'tension' | 'shear'>[],
): Working | undefined {
  const span = to - from;
  const loads = points.map(({ x, ...load }) => ({ ...load, at: Math.min(span, Math.max(0, x - from)) }));
  // N·m, of loads on a beam that turns freely on its ends
  const moment = (of: 'tension' | 'shear', at: number): number =>
    loads.reduce((sum, load) => sum + (load[of] * Math.min(at, load.at) * (span - Math.max(at, load.at))) / span, 0) /
    1000;
  const { height, thickness } = beam;
  const bent = loads
    .filter(({ at }) => at > 0 && at < span)
    .map(({ at }) => ({ pull: moment('tension', at), weight: moment('shear', at) }));
  if (bent.length === 0) return undefined;
  const stress = ({ pull, weight }: (typeof bent)[number]): number => pull / thickness + weight / height;
  const worst = bent.reduce((a, b) => (stress(b) > stress(a) ? b : a));
  return work(letInBending, { ...worst, ...beam, 'load-duration': 'permanent' });
}
