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

/** Why a fixing holds nothing where it lands (`none`), or why nobody can say. */
interface NoCapacity {
  readonly why: string;
  readonly none: boolean;
}
const holdsNothing = (why: string): NoCapacity => ({ why, none: true });
const isUnknown = (why: string): NoCapacity => ({ why, none: false });

/** What a fixing may take where it lands, or why it holds nothing or nobody can say. */
export function capacityOf(
  fixing: Fixing,
  ground: Ground,
  through: Through,
  head: Head | undefined,
  hangs: boolean,
): Capacity | NoCapacity {
  const behind = behindHead(fixing, ground, through, hangs);
  return 'pull' in behind ? underItsHead(behind, head) : behind;
}

/** The same, whatever is under its head. */
function behindHead(fixing: Fixing, ground: Ground, through: Through, hangs: boolean): Capacity | NoCapacity {
  if (!isScrew(fixing.kind)) return ofItsMaker(fixing, ground, through);
  const { lands, steel, timber } = ground;
  if (lands === 'unknown') return isUnknown('what is behind the wall is not known');
  if (lands === 'masonry' || lands === 'edge of masonry') return holdsNothing('a screw alone does not hold in masonry');
  if (lands === 'board only') return holdsNothing('it misses every stud');
  if (lands === 'edge of a stud') return holdsNothing('it runs out at the edge of a stud');
  return steel === undefined
    ? inTimber(fixing, timber!, lands === 'blocking', through, hangs)
    : inSteel(fixing, steel, through);
}

/** Plugs, toggles and anchors: the figures of the packet, where it can do there what it is made for. */
function ofItsMaker(fixing: Fixing, { lands }: Ground, through: Through): Capacity | NoCapacity {
  const { kind, rated, safety, print } = fixing;
  if (lands === 'edge of masonry')
    return holdsNothing(
      `it sits nearer than ${print.notLess(MASONRY_EDGE)} to an edge of the masonry, which breaks out`,
    );
  if (kind === 'plug' && lands !== 'masonry' && lands !== 'unknown')
    return holdsNothing('a plug holds in masonry only');
  if (cannotOpen(kind, lands)) return holdsNothing(`a ${kind} cannot open in the framing it lands on`);
  const into = fixing.plugLength === undefined ? undefined : fixing.plugLength - throughAll(through);
  if (into !== undefined && into < PLUG_DEPTH * fixing.diameter - 1e-6)
    return holdsNothing(`it reaches only ${print.notMore(Math.max(0, into))} into the masonry`);
  if (!rated) return isUnknown(`the maker's figures of the ${kind} are not in the plan`);
  const [pull, shear] = [rated.pull * STANDARD_GRAVITY, rated.shear * STANDARD_GRAVITY];
  const source = safety === USUAL_SAFETY ? ({ source: 'common practice' } as const) : {};
  return {
    pull: pull / safety,
    lateral: shear / safety,
    interaction: 'line',
    inputs: [
      { symbol: 'R_T', name: "maker's ultimate pull", value: pull, unit: 'N' },
      { symbol: 'R_V', name: "maker's ultimate shear", value: shear, unit: 'N' },
      { symbol: 'γ', name: 'safety factor', value: safety, unit: '', ...source },
    ],
    assumes: [`the maker's figures hold for this ${lands === 'masonry' ? 'masonry' : 'board'}, sound and dry`],
  };
}

/** A screw in the sheet of a steel stud. */
function inSteel(
  { diameter, length, print }: Fixing,
  mils: NonNullable<Ground['steel']>,
  through: Through,
): Capacity | NoCapacity {
  const before = throughAll(through);
  if (length < before + BEHIND_SHEET - 1e-6)
    return holdsNothing(`it is too short to hold behind ${print.length(before)} of board and plate`);
  const thickness = studThickness(mils).design;
  const { ultimate } = STUD_STEEL['33 ksi'];
  return {
    pull: pulloutSteel(thickness, diameter, ultimate) / SCREW_SAFETY,
    lateral: screwShearSteel({ thickness: PLATE, ultimate }, { thickness, ultimate }, diameter) / SCREW_SAFETY,
    interaction: 'line',
    inputs: [
      { symbol: 't', name: `design thickness of a ${mils} mil stud`, value: thickness, unit: 'mm' },
      { symbol: 'd', name: 'screw', value: diameter, unit: 'mm' },
      { symbol: 'F_u', name: 'ultimate stress of the stud', value: ultimate, unit: 'MPa' },
      { symbol: 'Ω', name: 'safety factor, AISI S100', value: SCREW_SAFETY, unit: '' },
    ],
    assumes: [
      ...(through.wood ? ['the wood under the head bears more than the sheet behind it'] : []),
      'T_a = 0.85 t d F_u/Ω and V_a by tilting and bearing, AISI S100 E4; plasterboard adds nothing',
      ...(through.board > 0
        ? [
            'not counted: with board between the sheets it bears less along the wall, by how much AISI S100 does not say',
          ]
        : []),
    ],
  };
}

/** A wood or lag screw in a timber stud, or in timber between the studs. */
function inTimber(
  { kind, diameter, length, print }: Fixing,
  { depth, gravity }: NonNullable<Ground['timber']>,
  between: boolean,
  through: Through,
  hangs: boolean,
): Capacity | NoCapacity {
  const lag = kind === 'lag screw';
  const before = throughAll(through);
  const thread = Math.min(length - before, depth) - 2 * diameter;
  if (thread < (lag ? 4 : 6) * diameter)
    return holdsNothing(`it is too short to hold behind ${print.length(before)} of board`);
  const { wood } = through;
  const gap = hangs ? through.board : 0;
  const fastener = lag ? 'lag screw' : 'wood screw';
  const root = rootOf(fastener, diameter);
  const { value: lateral } = lateralValue({
    fastener,
    // all of it in the wood is counted as thread, so thread crosses the joint: NDS-2018, 12.3.7.1
    diameter: root,
    nominal: diameter,
    sideThickness: wood?.thickness ?? PLATE,
    penetration: thread,
    mainGravity: gravity,
    side: wood ? { gravity: wood.gravity } : { steel: 'sheet steel' },
    // timber between studs lies level: a weight runs across its grain, along that of a stud
    acrossGrain: between,
    gap,
  });
  return {
    pull: PERMANENT * (lag ? lagWithdrawal : woodScrewWithdrawal)(gravity, diameter) * thread,
    lateral: PERMANENT * lateral,
    ...(gap > 0 && { gap }),
    interaction: 'wood',
    inputs: [
      { symbol: 'G', name: 'specific gravity of the framing', value: gravity, unit: '' },
      { symbol: 'D', name: 'shank', value: diameter, unit: 'mm' },
      { symbol: 'D_r', name: 'root of the thread, which crosses the joint', value: root, unit: 'mm' },
      { symbol: 'L', name: 'length of the screw', value: length, unit: 'mm' },
      { symbol: 't', name: 'before the framing, with what is under the head', value: before, unit: 'mm' },
      ...(gap > 0 ? [{ symbol: 'b', name: 'of it board and hollow, which bear nothing', value: gap, unit: 'mm' }] : []),
      { symbol: 'p', name: 'thread in the wood, tip left out', value: thread, unit: 'mm' },
      { symbol: 'C_D', name: 'load for good, NDS table 2.3.2', value: PERMANENT, unit: '' },
    ],
    assumes: [
      `W = ${lag ? '1800 G^1.5 D^0.75' : '2850 G² D'} p C_D (lb, in), Z the least yield mode at D_r: NDS-2018, 12.2, 12.3.1 and 12.3.7`,
      'nor is it used more than pull alone and shear alone allow',
      gap > 0
        ? 'what lies between it and the framing is crushed and bears nothing: a gap, by the general dowel equations of AWC TR12 (from memory)'
        : 'what stands bears on what it stands on; the shear is reckoned besides, with the board drawn tight',
    ],
  };
}
