import { originText, type Working, work } from '../../notes/index.ts';
import { USUAL_SAFETY } from '../../plan/index.ts';
import { STANDARD_GRAVITY } from '../../quantity/index.ts';
import { headOf, headPullThrough, isBelowTable, underHead } from '../pull-through.ts';
import { pulloutSteel, SCREW_SAFETY, STUD_STEEL, screwShearSteel, studThickness } from '../steel-fixing.ts';
import { lagWithdrawal, lateralValue, rootOf, woodScrewWithdrawal } from '../timber-fixing.ts';
import { BEHIND_SHEET, type Fixing } from './fastener.ts';
import { type Ground, MASONRY_EDGE } from './ground.ts';
import { cannotOpen, isScrew } from './point.ts';
import { PLATE, type Through, throughAll } from './through.ts';

/** Share of its load for good: NDS-2018, table 2.3.2, permanent. */
const PERMANENT = 0.9;

/** A plug sits at least so many diameters deep in the masonry, plaster not counted. Common practice; the packet decides. */
const PLUG_DEPTH = 5;

/** The thinnest screw a plug takes, over its diameter. Common practice; the packet decides. */
const SCREW_IN_PLUG = 0.6;

/** One kind of fixing in one ground: what it may take. */
export interface Capacity {
  readonly pull: number;
  /** The wood under its head gives way before what is behind it does. */
  readonly head?: true;
  readonly lateral: number;
  /** What lies before the framing and bears nothing, mm; left out where nothing does. */
  readonly gap?: number;
  readonly interaction: 'wood' | 'line';
  readonly inputs: Working['inputs'];
  readonly assumes: readonly string[];
}

/** What is under the head of a fixing, whatever lies behind it: what it may be pulled with before it goes through. */
export type Head = Pick<Capacity, 'pull' | 'inputs' | 'assumes'>;

/** The head of a screw on wood; undefined on the steel of a plate, and of what has none. */
export function headIn({ kind, diameter }: Fixing, { wood }: Through): Head | undefined {
  if (!wood || kind === 'toggle' || kind === 'hollow-wall anchor') return undefined;
  const [screw, across] = kind === 'plug' ? (['wood screw', SCREW_IN_PLUG * diameter] as const) : [kind, diameter];
  const left = underHead(screw, across, wood.thickness);
  const { formula, source, result, inputs, assumes } = work(headPullThrough, {
    head: headOf(screw, across),
    thickness: left,
    gravity: wood.gravity,
    'load-duration': 'permanent',
  });
  return {
    pull: result.value,
    inputs: inputs.filter(({ symbol }) => symbol.endsWith('_H')),
    assumes: [
      `the head pulls through first, without a washer: ${formula}: ${originText(source)}${isBelowTable(left) ? ', drawn on below the thinnest wood of its table' : ''}`,
      ...assumes,
      ...(kind === 'plug' ? ['the thinnest flat-headed screw the plug takes, 0.6 of it: common practice'] : []),
    ],
  };
}

/** Of a fixing, the less of what is behind it and what is under its head. */
function underItsHead(capacity: Capacity, head: Head | undefined): Capacity {
  if (!head || head.pull >= capacity.pull) return capacity;
  return {
    ...capacity,
    pull: head.pull,
    head: true,
    inputs: [...capacity.inputs, ...head.inputs],
    assumes: [...capacity.assumes, ...head.assumes],
  };
}

/** What a fixing may take where it lands; undefined with the reason when it holds nothing or nobody can say. */
export function capacityOf(
  fixing: Fixing,
  ground: Ground,
  through: Through,
  head: Head | undefined,
  hangs: boolean,
): Capacity | { readonly why: string; readonly none: boolean } {
  const behind = behindHead(fixing, ground, through, hangs);
  return 'pull' in behind ? underItsHead(behind, head) : behind;
}

/** The same, whatever is under its head. */
function behindHead(
  fixing: Fixing,
  ground: Ground,
  through: Through,
  hangs: boolean,
): Capacity | { readonly why: string; readonly none: boolean } {
  const { kind, rated, safety, print } = fixing;
  if (!isScrew(kind)) {
    if (ground.lands === 'edge of masonry')
      return {
        why: `it sits nearer than ${print.notLess(MASONRY_EDGE)} to an edge of the masonry, which breaks out`,
        none: true,
      };
    if (kind === 'plug' && ground.lands !== 'masonry' && ground.lands !== 'unknown')
      return { why: 'a plug holds in masonry only', none: true };
    if (cannotOpen(kind, ground.lands)) return { why: `a ${kind} cannot open in the framing it lands on`, none: true };
    const into = fixing.plugLength === undefined ? undefined : fixing.plugLength - throughAll(through);
    if (into !== undefined && into < PLUG_DEPTH * fixing.diameter - 1e-6)
      return { why: `it reaches only ${print.notMore(Math.max(0, into))} into the masonry`, none: true };
    if (!rated) return { why: `the maker's figures of the ${kind} are not in the plan`, none: false };
    return {
      pull: (rated.pull * STANDARD_GRAVITY) / safety,
      lateral: (rated.shear * STANDARD_GRAVITY) / safety,
      interaction: 'line',
      inputs: [
        { symbol: 'R_T', name: "maker's ultimate pull", value: rated.pull * STANDARD_GRAVITY, unit: 'N' },
        { symbol: 'R_V', name: "maker's ultimate shear", value: rated.shear * STANDARD_GRAVITY, unit: 'N' },
        {
          symbol: 'γ',
          name: 'safety factor',
          value: safety,
          unit: '',
          ...(safety === USUAL_SAFETY && { source: 'common practice' as const }),
        },
      ],
      assumes: [`the maker's figures hold for this ${ground.lands === 'masonry' ? 'masonry' : 'board'}, sound and dry`],
    };
  }
  if (ground.lands === 'unknown') return { why: 'what is behind the wall is not known', none: false };
  if (ground.lands === 'masonry' || ground.lands === 'edge of masonry')
    return { why: 'a screw alone does not hold in masonry', none: true };
  if (ground.lands === 'board only') return { why: 'it misses every stud', none: true };
  if (ground.lands === 'edge of a stud') return { why: 'it runs out at the edge of a stud', none: true };
  const { wood } = through;
  const depthBefore = throughAll(through);
  if (ground.steel !== undefined) {
    if (fixing.length < depthBefore + BEHIND_SHEET - 1e-6)
      return { why: `it is too short to hold behind ${print.length(depthBefore)} of board and plate`, none: true };
    const thickness = studThickness(ground.steel).design;
    const ultimate = STUD_STEEL['33 ksi'].ultimate;
    const pull = pulloutSteel(thickness, fixing.diameter, ultimate) / SCREW_SAFETY;
    const lateral =
      screwShearSteel({ thickness: PLATE, ultimate }, { thickness, ultimate }, fixing.diameter) / SCREW_SAFETY;
    return {
      pull,
      lateral,
      interaction: 'line',
      inputs: [
        { symbol: 't', name: `design thickness of a ${ground.steel} mil stud`, value: thickness, unit: 'mm' },
        { symbol: 'd', name: 'screw', value: fixing.diameter, unit: 'mm' },
        { symbol: 'F_u', name: 'ultimate stress of the stud', value: ultimate, unit: 'MPa' },
        { symbol: 'Ω', name: 'safety factor, AISI S100', value: SCREW_SAFETY, unit: '' },
      ],
      assumes: [
        ...(wood ? ['the wood under the head bears more than the sheet behind it'] : []),
        'T_a = 0.85 t d F_u/Ω and V_a by tilting and bearing, AISI S100 E4; plasterboard adds nothing',
        ...(through.board > 0
          ? [
              'not counted: with board between the sheets it bears less along the wall, by how much AISI S100 does not say',
            ]
          : []),
      ],
    };
  }
  const { depth, gravity } = ground.timber!;
  const point = 2 * fixing.diameter;
  const thread = Math.min(fixing.length - depthBefore, depth) - point;
  const least = (kind === 'lag screw' ? 4 : 6) * fixing.diameter;
  if (thread < least)
    return { why: `it is too short to hold behind ${print.length(depthBefore)} of board`, none: true };
  const perLength =
    kind === 'lag screw' ? lagWithdrawal(gravity, fixing.diameter) : woodScrewWithdrawal(gravity, fixing.diameter);
  const gap = hangs ? through.board : 0;
  const root = rootOf(kind === 'lag screw' ? 'lag screw' : 'wood screw', fixing.diameter);
  const lateral =
    PERMANENT *
    lateralValue({
      fastener: kind === 'lag screw' ? 'lag screw' : 'wood screw',
      // all of it in the wood is counted as thread, so thread crosses the joint: NDS-2018, 12.3.7.1
      diameter: root,
      nominal: fixing.diameter,
      sideThickness: wood?.thickness ?? PLATE,
      penetration: thread,
      mainGravity: gravity,
      side: wood ? { gravity: wood.gravity } : { steel: 'sheet steel' },
      // timber between studs lies level: a weight runs across its grain, along that of a stud
      acrossGrain: ground.lands === 'blocking',
      gap,
    }).value;
  return {
    pull: PERMANENT * perLength * thread,
    lateral,
    ...(gap > 0 && { gap }),
    interaction: 'wood',
    inputs: [
      { symbol: 'G', name: 'specific gravity of the framing', value: gravity, unit: '' },
      { symbol: 'D', name: 'shank', value: fixing.diameter, unit: 'mm' },
      { symbol: 'D_r', name: 'root of the thread, which crosses the joint', value: root, unit: 'mm' },
      { symbol: 'L', name: 'length of the screw', value: fixing.length, unit: 'mm' },
      { symbol: 't', name: 'before the framing, with what is under the head', value: depthBefore, unit: 'mm' },
      ...(gap > 0 ? [{ symbol: 'b', name: 'of it board and hollow, which bear nothing', value: gap, unit: 'mm' }] : []),
      { symbol: 'p', name: 'thread in the wood, tip left out', value: thread, unit: 'mm' },
      { symbol: 'C_D', name: 'load for good, NDS table 2.3.2', value: PERMANENT, unit: '' },
    ],
    assumes: [
      `W = ${kind === 'lag screw' ? '1800 G^1.5 D^0.75' : '2850 G² D'} p C_D (lb, in), Z the least yield mode at D_r: NDS-2018, 12.2, 12.3.1 and 12.3.7`,
      'nor is it used more than pull alone and shear alone allow',
      gap > 0
        ? 'what lies between it and the framing is crushed and bears nothing: a gap, by the general dowel equations of AWC TR12 (from memory)'
        : 'what stands bears on what it stands on; the shear is reckoned besides, with the board drawn tight',
    ],
  };
}
