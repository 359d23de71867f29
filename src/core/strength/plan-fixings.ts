import type { Note, Working } from '../notes/index.ts';
import type { DisplayPiece, Edit, Piece, ShelfPiece, Wall } from '../plan/index.ts';
import { inch, mm, STANDARD_GRAVITY } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom, PlacedWall } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { fixingLength, SPECIES_NAMES, type SpeciesName, speciesOf } from '../stock/index.ts';
import { bracketTensions, DISPLAY_PATTERNS, type DisplayPattern } from './hanging.ts';
import { fixingUse, screwUse } from './interaction.ts';
import { type Hung, isHungPanel, liningHoles, screwedParts } from './lining-holes.ts';
import {
  exact,
  imperial,
  ownMass,
  type Subject,
  saying,
  set,
  subjectsOf,
  titleOf,
  type WallInput,
} from './plan-input.ts';
import { SCREW_SIZES, type Screw, type ScrewSizes } from './screw-sizes.ts';
import { DESIGN_LOADS, SHELF_LOAD_CAP, WALL_CABINET_PROOF } from './standards.ts';
import {
  pulloutSteel,
  SCREW_SAFETY,
  STUD_MILS,
  STUD_STEEL,
  type StudMils,
  screwShearSteel,
  studThickness,
} from './steel-fixing.ts';
import { lagWithdrawal, lateralValue, woodScrewWithdrawal } from './timber-fixing.ts';
import { work } from './work.ts';

export type FixKind = NonNullable<Piece['fix']>['kind'];
export type Lands = 'stud' | 'edge of a stud' | 'blocking' | 'masonry' | 'edge of masonry' | 'board only' | 'unknown';

/** One hole in a wall: where it is, what goes into it, what is behind it, and what it carries. */
export interface FixingPoint {
  readonly id: string;
  readonly piece: string;
  readonly wall: string;
  /** From the left end of the wall, and above the floor, mm. */
  readonly x: number;
  readonly y: number;
  readonly fixing: string;
  readonly kind: FixKind;
  /** mm: what to drill first, where it is known. */
  readonly pilot?: number;
  readonly lands: Lands;
  /** The stud behind it: number from the left end of the wall, and its centre. */
  readonly stud?: { readonly number: number; readonly at: number };
  /** N, of this fixing: pulled out of the wall, loaded along it. */
  readonly tension: number;
  readonly shear: number;
  /** Load over what it may take; undefined where that is not known. 1 is all of it. */
  readonly use?: number;
}

/** How one piece is held to its wall. */
export interface PieceFixing {
  readonly piece: string;
  readonly title: string;
  readonly wall: string;
  readonly points: readonly FixingPoint[];
  /** Of the most used fixing. */
  readonly working?: Working;
  readonly use?: number;
  /** Why there is no figure. */
  readonly unknown?: string;
  /** Of a display: how far its wall plate sits to the right of its centre, mm, to reach more studs; undefined where it sits in the middle. */
  readonly shift?: number;
  /** The lining its fixings go through, and the hollow behind that, which wants packing at every hole, mm. */
  readonly behind?: { readonly title: string; readonly hollow: number };
}
export interface FixingPlan {
  readonly pieces: readonly PieceFixing[];
  readonly points: readonly FixingPoint[];
}

/** Share of its load for good: NDS-2018, table 2.3.2, permanent. */
const PERMANENT = 0.9;
/** Dressed depth of a nominal 2×4, mm (NIST PS 20), and spruce-pine-fir, NDS-2018 table 12.3.3A. */
const STUD_DEPTH = inch(3.5);
const FRAMING_GRAVITY = 0.42;
/** Steel of a bracket or wall plate under the head, mm. Common practice. */
const PLATE = 3;
/** What a fixing goes through before it reaches the framing or the masonry, mm. */
interface Through {
  /** Board or plaster, and a lining between it and the plate. */
  readonly board: number;
  /** Wood under the head, a batten or a panel, with its specific gravity; left out: the steel of a plate. */
  readonly wood?: { readonly thickness: number; readonly gravity: number };
}
const throughAll = ({ board, wood }: Through): number => board + (wood?.thickness ?? PLATE);
/** A plug sits at least so many diameters deep in the masonry, plaster not counted. Common practice; the packet decides. */
const PLUG_DEPTH = 5;
/** A self-drilling screw shows three threads behind the sheet and its drill point is no thread: mm behind it. Common practice. */
const BEHIND_SHEET = 10;
/** Wood to leave beside a screw in the edge of a stud, mm; lip of a steel flange. Common practice. */
const EDGE = { 'timber stud': 6, 'steel stud': 4 } as const;
interface Ground {
  readonly lands: Lands;
  readonly stud?: { readonly number: number; readonly at: number };
  /** Timber: how deep, and its specific gravity. */
  readonly timber?: { readonly depth: number; readonly gravity: number };
  readonly steel?: StudMils;
}

/** Masonry to leave between a plug and the edge of an opening or an outer corner, mm. Common practice; the packet decides. */
const MASONRY_EDGE = 100;

/** How far a point lies from the nearest edge where masonry ends: an opening of the wall, or its outer corners. */
function fromEdge(room: PlacedRoom, wall: PlacedWall, x: number, y: number): number {
  const openings = room.openings
    .filter((o) => o.wall === wall.id)
    .map((o) => Math.hypot(Math.max(o.x[0] - x, 0, x - o.x[1]), Math.max(o.y[0] - y, 0, y - o.y[1])));
  const index = room.walls.indexOf(wall);
  const before = room.walls[(index + room.walls.length - 1) % room.walls.length]!.corner;
  return Math.min(
    ...openings,
    ...(before > 180 ? [x] : []),
    ...(wall.corner > 180 ? [wall.length - x] : []),
    Number.POSITIVE_INFINITY,
  );
}

/** What is behind a point of a wall. */
function groundAt(room: PlacedRoom, wall: PlacedWall, said: Wall, x: number, y: number): Ground {
  const framing = said.framing;
  if (!framing || framing.kind === 'unknown') return { lands: 'unknown' };
  if (framing.kind === 'masonry')
    return { lands: fromEdge(room, wall, x, y) < MASONRY_EDGE ? 'edge of masonry' : 'masonry' };
  const blocking = framing.blocking?.find(
    (b) => x >= b.from + 10 && x <= b.to - 10 && y >= b.above + 10 && y <= b.above + b.height - 10,
  );
  if (blocking)
    return { lands: 'blocking', timber: { depth: blocking.thickness, gravity: gravityOf(blocking.species) } };
  const i = wall.studs.findIndex((stud) => Math.abs(stud.at - x) <= stud.width / 2);
  const stud = wall.studs[i];
  if (!stud) return { lands: wall.studs.length === 0 ? 'unknown' : 'board only' };
  const inside = Math.abs(stud.at - x) <= stud.width / 2 - EDGE[framing.kind];
  return {
    lands: inside ? 'stud' : 'edge of a stud',
    stud: { number: i + 1, at: stud.at },
    ...(framing.kind === 'timber stud'
      ? { timber: { depth: framing.depth ?? STUD_DEPTH, gravity: gravityOf(framing.species) } }
      : { steel: milsOf(framing.mils) }),
  };
}

/** The stud a number of mils names: the next thinner one listed, the thinnest where the plan says nothing. */
function milsOf(mils: number | undefined): StudMils {
  const known = (Object.keys(STUD_MILS) as StudMils[]).map(Number).sort((a, b) => a - b);
  const found = known.filter((m) => m <= (mils ?? 0) + 0.5).at(-1) ?? known[0]!;
  return String(found) as StudMils;
}
function gravityOf(species: string | undefined): number {
  const known = SPECIES_NAMES.find((name) => name === species) as SpeciesName | undefined;
  return known ? speciesOf(known).gravity : FRAMING_GRAVITY;
}

/** One kind of fixing in one ground: what it may take. */
interface Capacity {
  readonly pull: number;
  readonly lateral: number;
  readonly interaction: 'wood' | 'line';
  readonly inputs: Working['inputs'];
  readonly assumes: readonly string[];
}
interface Fixing {
  readonly kind: FixKind;
  readonly name: string;
  readonly diameter: number;
  readonly length: number;
  readonly pilot?: number;
  /** Of a plug, where the plan says how long it is. */
  readonly plugLength?: number;
  readonly rated?: { readonly pull: number; readonly shear: number };
  readonly safety: number;
}

/** The fixing a piece asks for, or the usual one for what is behind its wall. */
function fixingOf(said: Piece, wall: Wall, heavy: boolean, input: WallInput, through: Through): Fixing {
  const framing = wall.framing?.kind ?? 'unknown';
  const usual: FixKind =
    framing === 'steel stud'
      ? 'self-drilling screw'
      : framing === 'masonry'
        ? 'plug'
        : heavy
          ? 'lag screw'
          : 'wood screw';
  const kind = said.fix?.kind ?? usual;
  const usualScrew = usualOf(input, kind, through);
  const diameter = said.fix?.diameter ?? usualScrew?.diameter ?? 8;
  const length =
    said.fix?.length ?? (usualScrew ? longEnough(input, kind, { ...usualScrew, diameter }, through) : inch(1.5));
  const { length: show } = saying(input);
  const screw = kind === 'lag screw' || kind === 'wood screw' || kind === 'self-drilling screw';
  return {
    kind,
    name: screw
      ? `${kind} ${show(diameter)} × ${show(length)}`
      : [
          kind,
          ...(said.fix?.diameter ? [show(said.fix.diameter)] : []),
          ...(said.fix?.length ? ['×', show(said.fix.length)] : []),
        ].join(' '),
    diameter,
    length,
    // Lead holes in softwood: 40 to 70 % of a lag’s shank by NDS 12.1.4.2, 70 % of a wood screw’s root in middling wood (12.1.5.2)
    ...(kind === 'lag screw' && { pilot: 0.65 * diameter }),
    ...(kind === 'wood screw' && { pilot: 0.5 * diameter }),
    // the hole of a plug, an anchor or a toggle is as the packet says: its own diameter unless the plan says none
    ...(!screw && said.fix?.diameter && { pilot: said.fix.diameter }),
    ...(kind === 'plug' && said.fix?.length && { plugLength: said.fix.length }),
    ...(said.fix?.rated && { rated: said.fix.rated }),
    safety: said.fix?.safety ?? 4,
  };
}

const sizesFor = (input: Pick<WallInput, 'plan'>): ScrewSizes => SCREW_SIZES[imperial(input) ? 'inch' : 'metric'];

/** The usual screw of a kind; undefined for what is no screw. */
function usualOf(input: WallInput, kind: FixKind, { wood }: Through): Screw | undefined {
  const { usual, panel } = sizesFor(input);
  if (kind === 'wood screw' && wood) return panel;
  return kind === 'lag screw' || kind === 'wood screw' || kind === 'self-drilling screw' ? usual[kind] : undefined;
}

/** Of screws of a kind, the usual length, or the next one that is long enough for what they go through. */
function longEnough(input: WallInput, kind: FixKind, { diameter, length: usual }: Screw, through: Through): number {
  // six diameters of thread in the framing, and the point
  const wanted = Math.max(
    through.wood ? 0 : usual,
    throughAll(through) + (kind === 'self-drilling screw' ? BEHIND_SHEET : 8 * diameter),
  );
  // what the shop sells comes before what is usual
  const sold = input.plan.stock.packs
    .flatMap((p) => (p.use.toLowerCase() === kind ? (fixingLength(p.name ?? p.id) ?? []) : []))
    .sort((a, b) => a - b);
  const own = sold.find((length) => length >= wanted - 1e-6);
  if (own !== undefined) return own;
  const { lengths } = sizesFor(input);
  return [usual, ...lengths].find((length) => length >= wanted - 1e-6) ?? lengths.at(-1)!;
}

/** What a fixing may take where it lands; undefined with the reason when it holds nothing or nobody can say. */
function capacityOf(
  fixing: Fixing,
  ground: Ground,
  through: Through,
): Capacity | { readonly why: string; readonly none: boolean } {
  const { kind, rated, safety } = fixing;
  const hollow = kind === 'toggle' || kind === 'hollow-wall anchor' || kind === 'plug';
  if (hollow) {
    if (ground.lands === 'edge of masonry')
      return { why: `it sits nearer than ${MASONRY_EDGE} mm to an edge of the masonry, which breaks out`, none: true };
    if (kind === 'plug' && ground.lands !== 'masonry' && ground.lands !== 'unknown')
      return { why: 'a plug holds in masonry only', none: true };
    const into = fixing.plugLength === undefined ? undefined : fixing.plugLength - throughAll(through);
    if (into !== undefined && into < PLUG_DEPTH * fixing.diameter - 1e-6)
      return { why: `it reaches only ${Math.max(0, Math.round(into))} mm into the masonry`, none: true };
    if (!rated) return { why: `the maker's figures of the ${kind} are not in the plan`, none: false };
    return {
      pull: (rated.pull * STANDARD_GRAVITY) / safety,
      lateral: (rated.shear * STANDARD_GRAVITY) / safety,
      interaction: 'line',
      inputs: [
        { symbol: 'R_T', name: "maker's ultimate pull", value: rated.pull * STANDARD_GRAVITY, unit: 'N' },
        { symbol: 'R_V', name: "maker's ultimate shear", value: rated.shear * STANDARD_GRAVITY, unit: 'N' },
        { symbol: 'γ', name: 'safety factor', value: safety, unit: '' },
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
      return { why: `it is too short to hold behind ${Math.round(depthBefore)} mm of board and plate`, none: true };
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
      ],
    };
  }
  const { depth, gravity } = ground.timber!;
  const point = 2 * fixing.diameter;
  const thread = Math.min(fixing.length - depthBefore, depth) - point;
  const least = (kind === 'lag screw' ? 4 : 6) * fixing.diameter;
  if (thread < least)
    return { why: `it is too short to hold behind ${Math.round(depthBefore)} mm of board`, none: true };
  const perLength =
    kind === 'lag screw' ? lagWithdrawal(gravity, fixing.diameter) : woodScrewWithdrawal(gravity, fixing.diameter);
  const lateral =
    PERMANENT *
    lateralValue({
      fastener: kind === 'lag screw' ? 'lag screw' : 'wood screw',
      diameter: fixing.diameter,
      sideThickness: wood?.thickness ?? PLATE,
      penetration: thread,
      mainGravity: gravity,
      side: wood ? { gravity: wood.gravity } : { steel: 'sheet steel' },
    }).value;
  return {
    pull: PERMANENT * perLength * thread,
    lateral,
    interaction: 'wood',
    inputs: [
      { symbol: 'G', name: 'specific gravity of the framing', value: gravity, unit: '' },
      { symbol: 'D', name: 'shank', value: fixing.diameter, unit: 'mm' },
      { symbol: 'p', name: 'thread in the wood, tip left out', value: thread, unit: 'mm' },
      { symbol: 'C_D', name: 'load for good, NDS table 2.3.2', value: PERMANENT, unit: '' },
    ],
    assumes: [
      `W = ${kind === 'lag screw' ? '1800 G^1.5 D^0.75' : '2850 G² D'} p C_D (lb, in), Z the least yield mode: NDS-2018, 12.2 and 12.3`,
      'nor is it used more than pull alone and shear alone allow',
      'the bracket is drawn tight on the board; a gap of crushed board takes away from the shear',
    ],
  };
}

/** What hangs on a group of fixings: kg, mm out from the wall, on a plate that turns about its lower edge. */
interface Hanging {
  readonly mass: number;
  readonly reach: number;
  /** Height of the plate's lower edge above the floor: fixings pull in proportion to their height above it. */
  readonly edge: number;
}
interface Hole {
  readonly x: number;
  readonly y: number;
}

/** A group of fixings under a load: what each carries, and the worst of them with its working. */
function hold(
  room: PlacedRoom,
  { placed }: Subject,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  holes: readonly Hole[],
  hanging: Hanging,
  through: Through,
): PieceFixing {
  const grounds = holes.map((hole) => groundAt(room, wall, saidWall, hole.x, hole.y));
  const capacities = grounds.map((ground) => capacityOf(fixing, ground, through));
  // a hole that holds nothing takes no share, and leaves its share to the others
  const holding = holes.flatMap((hole, i) => ('none' in capacities[i]! && capacities[i]!.none ? [] : [{ hole, i }]));
  const weight = hanging.mass * STANDARD_GRAVITY;
  const moment = weight * hanging.reach;
  const heights = holding.map(({ hole }) => Math.max(0, hole.y - hanging.edge));
  const tensions = heights.some((h) => h > 0)
    ? bracketTensions(
        moment,
        heights.map((height) => ({ height })),
      )
    : heights.map(() => (moment > 0 ? Number.POSITIVE_INFINITY : 0));
  const loads = new Map(
    holding.map(({ i }, k) => [i, { tension: tensions[k]!, shear: weight / holding.length }] as const),
  );
  let worst: { use: number; capacity: Capacity; tension: number; shear: number } | undefined;
  const points = holes.map((hole, i): FixingPoint => {
    const load = loads.get(i) ?? { tension: 0, shear: 0 };
    const capacity = capacities[i]!;
    const known = 'pull' in capacity ? capacity : undefined;
    const use =
      known &&
      (known.interaction === 'wood' ? screwUse : fixingUse)(load.tension, load.shear, known.pull, known.lateral);
    if (known && use !== undefined && (!worst || use > worst.use)) worst = { use, capacity: known, ...load };
    const { lands, stud } = grounds[i]!;
    return {
      id: `${placed.id}/fixing-${i + 1}`,
      piece: placed.id,
      wall: wall.id,
      x: hole.x,
      y: hole.y,
      fixing: fixing.name,
      kind: fixing.kind,
      ...(fixing.pilot !== undefined && { pilot: fixing.pilot }),
      lands,
      ...(stud && { stud }),
      ...load,
      ...(use !== undefined && { use }),
    };
  });
  const base = { piece: placed.id, title: titleOf(placed), wall: wall.id, points };
  const reasons = capacities.flatMap((c) => ('why' in c ? [c] : []));
  if (holding.length === 0)
    return { ...base, use: Number.POSITIVE_INFINITY, unknown: reasons[0]?.why ?? 'nothing holds it' };
  if (!worst) return { ...base, unknown: reasons.find((r) => !r.none)?.why ?? 'nothing is known of it' };
  const { capacity, tension, shear, use } = worst;
  const finite = Number.isFinite(tension) ? tension : moment;
  const reckoned =
    capacity.interaction === 'wood'
      ? work('combined-loading', { withdrawal: capacity.pull, lateral: capacity.lateral, tension: finite, shear })
      : work('fixing-use', { tension: finite, shear, pull: capacity.pull, lateral: capacity.lateral });
  const working: Working = {
    ...reckoned,
    inputs: [
      { symbol: 'm', name: 'mass that hangs', value: hanging.mass, unit: 'kg' },
      { symbol: 'e', name: 'wall to centre of gravity', value: hanging.reach, unit: 'mm' },
      { symbol: 'h', name: 'highest fixing above the lower edge', value: Math.max(...heights), unit: 'mm' },
      { symbol: 'n', name: 'fixings that hold', value: holding.length, unit: '' },
      ...capacity.inputs,
      ...reckoned.inputs,
    ],
    ...(capacity.interaction === 'wood' && {
      limit: { value: Math.hypot(finite, shear), unit: 'N', why: 'the load on it, which it must reach' },
    }),
    assumes: [
      ...reckoned.assumes,
      ...capacity.assumes,
      'T_i = m g e y_i/Σ y², V shared evenly: a stiff plate on its lower edge',
    ],
  };
  return { ...base, working, use };
}

/** Two fixings in one stud stand this far from the ends of a plate, mm. */
const FROM_END = 15;
/** Slots of a plate end this far from its ends, mm. Common practice. */
const SLOT_END = 10;
/** A plate where the plan gives none, mm. Common practice; the maker's own drawing is better. */
const PLATES = { arm: { width: 90, height: 240 }, other: { width: 450, height: 200 } } as const;

/** A display's wall plate, as the plan gives it or as is usual. */
function plateOf({ mount }: DisplayPiece): { readonly width: number; readonly height: number } {
  const arm = mount?.kind === 'arm';
  const usual = PLATES[arm ? 'arm' : 'other'];
  return {
    width: mount?.plate?.width ?? Math.max(usual.width, arm ? 0 : (mount?.holes?.width ?? 0)),
    height: mount?.plate?.height ?? usual.height,
  };
}

interface DisplayGroup {
  readonly holes: readonly Hole[];
  readonly hanging: Hanging;
}
function displayGroup(
  subject: Subject,
  said: DisplayPiece,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  shift = 0,
): DisplayGroup {
  const { placed } = subject;
  const { mount } = said;
  const arm = mount?.kind === 'arm';
  const { width, height } = plateOf(said);
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const centre = { x: left + said.size.width / 2 + shift, y: bottom + said.size.height / 2 };
  const out = arm ? (mount.reach ?? 0) : (said.out ?? 0);
  const hanging = {
    mass: said.mass + (mount?.mass ?? 0),
    reach: out + said.size.depth / 2,
    edge: centre.y - height / 2,
  };
  const rows = said.fix?.heights?.map((h) => bottom + h) ?? [
    centre.y + height / 2 - FROM_END,
    centre.y - height / 2 + FROM_END,
  ];
  const columns = columnsOf(said, left, [centre.x - width / 2, centre.x + width / 2], wall, saidWall, fixing, centre.x);
  const holes = columns.flatMap((x) => rows.map((y) => ({ x, y })));
  const count = said.fix?.count;
  return { holes: count === undefined ? holes : holesOf(columns, rows, count, centre), hanging };
}

/** Plate to leave beside the middle of a rail that hangs on it, mm. Common practice. */
const RAIL = 20;

/**
 * How far the plate may sit beside the display's centre, either way: the display hangs on it by two rails, as far apart as its hole
 * pattern, that hook on anywhere along the plate. An arm stands in the middle of its plate, and where the pattern or the plate is
 * not known nobody can say.
 */
function slideOf({ mount, fix }: DisplayPiece): number {
  if (mount?.kind === 'arm' || !mount?.holes || !mount.plate || fix?.at) return 0;
  return Math.max(0, (mount.plate.width - mount.holes.width) / 2 - RAIL);
}

/** Fixings that share the weight alike may stand this far beside it, mm; further off they would also be twisted. Common practice. */
const ASIDE = 100;

const isHeld = ({ lands }: FixingPoint): boolean => lands === 'stud' || lands === 'blocking';

/** The display's plate where most of its fixings land in wood or steel: in its middle, unless sliding it gains some and costs nothing. */
function slid(
  input: WallInput,
  subject: Subject,
  said: DisplayPiece,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  through: Through,
): PieceFixing {
  const at = (shift: number) => {
    const { holes, hanging } = displayGroup(subject, said, wall, saidWall, fixing, shift);
    const held = hold(input.room, subject, wall, saidWall, fixing, holes, hanging, through);
    const landed = held.points.filter(isHeld).map((p) => p.x);
    return {
      held: shift === 0 ? held : { ...held, shift },
      landed: landed.length,
      use: held.use ?? Number.POSITIVE_INFINITY,
      // the fixings are reckoned as sharing the weight alike: it may not come to hang further beside the stretch they span
      beside: Math.max(0, Math.min(...landed) - centre, centre - Math.max(...landed)),
    };
  };
  const centre = subject.placed.wall!.from + said.size.width / 2;
  const limit = slideOf(said);
  const centred = at(0);
  const screws = !/toggle|anchor|plug/.test(fixing.kind);
  if (limit === 0 || !screws || saidWall.framing?.kind === 'masonry') return centred.held;
  const half = plateOf(said).width / 2 - SLOT_END;
  // a stud comes into the slots at either end of the plate, or under its middle
  const shifts = wall.studs
    .flatMap((stud) => [stud.at - centre - half, stud.at - centre + half, stud.at - centre])
    .filter((shift) => Math.abs(shift) <= limit)
    .sort((a, b) => Math.abs(a) - Math.abs(b) || a - b);
  return shifts
    .map(at)
    .reduce(
      (best, tried) =>
        tried.landed > best.landed && tried.use <= best.use && tried.beside <= Math.min(ASIDE, best.beside) + 1e-6
          ? tried
          : best,
      centred,
    ).held;
}

/** So many of a plate's holes: one over another for two, else round its edge. */
function holesOf(
  columns: readonly number[],
  rows: readonly number[],
  count: number,
  centre: { x: number; y: number },
): readonly Hole[] {
  if (count === 1) return [{ x: centre.x, y: Math.max(...rows) }];
  if (count === 2) return rows.slice(0, 2).map((y) => ({ x: columns.length === 1 ? columns[0]! : centre.x, y }));
  const all = columns.flatMap((x) => rows.map((y) => ({ x, y })));
  return all.slice(0, count);
}

/** Where along the wall a plate is fixed: at the studs its slots reach, or near its ends where there are none to hit. */
function columnsOf(
  said: Piece,
  left: number,
  [from, to]: readonly [number, number],
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  centre: number,
): readonly number[] {
  if (said.fix?.at) return said.fix.at.map((x) => left + x);
  const ends = to - from < 4 * FROM_END + 40 ? [centre] : [from + FROM_END, to - FROM_END];
  const inBoard = fixing.kind === 'toggle' || fixing.kind === 'hollow-wall anchor' || fixing.kind === 'plug';
  if (inBoard || saidWall.framing?.kind === 'masonry') return ends;
  const slots = wall.studs.map((s) => s.at).filter((at) => at >= from + SLOT_END - 1e-6 && at <= to - SLOT_END + 1e-6);
  if (slots.length > 0) return slots.length > 1 ? [slots[0]!, slots.at(-1)!] : slots;
  return ends;
}

/** Rods' wall plate: two screws at each rod that stands at a stud, one beside each rod elsewhere. */
function shelfGroup(input: WallInput, subject: Subject, said: ShelfPiece, wall: PlacedWall): DisplayGroup | undefined {
  const { placed } = subject;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')?.solid?.box;
  const rods = placed.fittings.flatMap((f) => (f.use === 'rod' && f.solid ? [f.solid.box] : []));
  if (!plate || rods.length === 0) return undefined;
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const y = bottom + (plate.min.y + plate.max.y) / 2;
  const holes = said.fix?.at
    ? said.fix.at.flatMap((x) =>
        (said.fix?.heights ?? [(plate.min.y + plate.max.y) / 2]).map((h) => ({ x: left + x, y: bottom + h })),
      )
    : rods.flatMap(({ min, max }) => {
        const centre = (min.x + max.x) / 2;
        const off = (max.x - min.x) / 2 + 5;
        return [
          { x: left + centre - off, y },
          { x: left + centre + off, y },
        ];
      });
  const area = DESIGN_LOADS['casework: all other'].load * 1e-6 * said.size.width * said.size.depth;
  const load = said.load ?? Math.min(area, SHELF_LOAD_CAP) / STANDARD_GRAVITY;
  return {
    holes,
    hanging: { mass: load + ownMass(input, placed), reach: said.size.depth / 2, edge: bottom + plate.min.y },
  };
}

/** From the top of a case down to its fixings, mm: through the rail or the back, clear of the top. Common practice. */
const fromTop = (input: WallInput): number => (imperial(input) ? inch(2) : 50);

/** A case is fixed through its back near the top; one that hangs stands on nothing and is fixed near its lower edge too. */
function caseHoles(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): readonly Hole[] {
  const { placed, said } = subject;
  const left = placed.wall!.from;
  const width = placed.outside.max.x;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const top = bottom + placed.outside.max.y;
  const edge = fromTop(input);
  const rows =
    said.fix?.heights?.map((h) => bottom + h) ?? (isHung(subject) ? [top - edge, bottom + edge] : [top - edge]);
  const studs = wall.studs.map((s) => s.at).filter((at) => at >= left + 30 && at <= left + width - 30);
  const ends = width < 400 ? [left + width / 2] : [left + 100, left + width - 100];
  const columns =
    said.fix?.at?.map((x) => left + x) ?? (studs.length > 0 && saidWall.framing?.kind !== 'masonry' ? studs : ends);
  return columns.flatMap((x) => rows.map((y) => ({ x, y })));
}

/** Nothing is under it: more than a leveller's height above the floor, and not on top of another piece. */
export function isHung({ placed, said }: Subject): boolean {
  return !('on' in said && said.on !== undefined) && placed.frame.origin.y + placed.outside.min.y > 100;
}

/** Its top stands high for its depth, by itself or on another: it falls forward when it is pulled or climbed. Common practice. */
const isTall = ({ placed }: Subject): boolean =>
  placed.frame.origin.y + placed.outside.max.y > Math.max(750, 2 * (placed.outside.max.z - placed.outside.min.z));

/** What a pull on a standing case asks of its fixings: a child's weight hanging at the front of an open front, kg. Common practice. */
const CLIMBER = 25;

function groupOf(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): DisplayGroup | undefined {
  const { said, placed } = subject;
  if ('shelf' in said) return shelfGroup(input, subject, said, wall);
  if (!('case' in said)) return undefined;
  const depth = placed.outside.max.z;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  if (isHung(subject)) {
    const area = DESIGN_LOADS['casework: all other'].load * 1e-6 * placed.outside.max.x * depth;
    const levels = 1 + placed.parts.filter((p) => p.role === 'adjustable shelf' || p.role === 'fixed shelf').length;
    const load = (levels * Math.min(area, SHELF_LOAD_CAP)) / STANDARD_GRAVITY;
    return {
      holes: caseHoles(input, subject, wall, saidWall),
      hanging: { mass: load + ownMass(input, placed), reach: depth / 2, edge: bottom },
    };
  }
  return {
    holes: caseHoles(input, subject, wall, saidWall),
    hanging: { mass: CLIMBER, reach: depth + 100, edge: bottom },
  };
}

/** How one piece is held to its wall; undefined for what is not fixed. */
export function fixingFor(input: WallInput, subject: Subject): PieceFixing | undefined {
  const { placed, said } = subject;
  const wall = placed.wall && input.room.walls.find((w) => w.id === placed.wall!.id);
  const saidWall = wall && input.plan.room.walls.find((w) => w.id === wall.id);
  if (!wall || !saidWall || 'thing' in said) return undefined;
  const through = throughOf(input, subject, saidWall);
  const fixing = fixingOf(said, saidWall, 'display' in said || (!isHungPanel(said) && isHung(subject)), input, through);
  if ('display' in said) return slid(input, subject, said, wall, saidWall, fixing, through);
  const group = isHungPanel(said)
    ? liningGroup(input, subject, said, wall, saidWall, fixing)
    : groupOf(input, subject, wall, saidWall);
  if (!group || group.holes.length === 0) return undefined;
  return hold(input.room, subject, wall, saidWall, fixing, group.holes, group.hanging, through);
}

/** Of tiles, kg/m³: glass-fibre board of 6 lb/ft³, more than foam or felt weighs. Common practice. */
const TILES = 96;

/** Panels on a wall hang by the screws through their battens, or through themselves. */
function liningGroup(
  input: WallInput,
  subject: Subject,
  said: Hung,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
): DisplayGroup {
  const { placed } = subject;
  const { min, max } = placed.outside;
  const tiles = 'absorber' in said ? TILES * said.size.width * said.size.height * said.size.depth * 1e-9 : 0;
  const inBoard = /toggle|anchor|plug/.test(fixing.kind);
  return {
    holes: liningHoles(placed, said, wall, !inBoard && saidWall.framing?.kind !== 'masonry'),
    hanging: {
      mass: ownMass(input, placed) + tiles,
      reach: (max.z - min.z) / 2,
      edge: placed.frame.origin.y - wall.frame.origin.y + min.y,
    },
  };
}

/** The lining a piece hangs before, where its plate covers some of one: it is screwed through it. */
export function liningBehind({ pieces }: WallInput, { placed, said }: Subject): PlacedPiece | undefined {
  if (!('display' in said || 'shelf' in said) || !placed.wall) return undefined;
  const box = (p: PlacedPiece) => ({
    x: [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x] as const,
    y: [p.frame.origin.y + p.outside.min.y, p.frame.origin.y + p.outside.max.y] as const,
  });
  const own = box(placed);
  const middle = { x: (own.x[0] + own.x[1]) / 2, y: (own.y[0] + own.y[1]) / 2 };
  return pieces.find((p) => {
    if (p.kind !== 'lining' || p.wall?.id !== placed.wall!.id) return false;
    const { x, y } = box(p);
    return middle.x > x[0] && middle.x < x[1] && middle.y > y[0] && middle.y < y[1];
  });
}

/** What the fixings of a piece go through on their way into the wall. */
function throughOf(input: WallInput, subject: Subject, wall: Wall): Through {
  const board = wall.framing?.board ?? inch(0.5);
  const behind = liningBehind(input, subject);
  if (behind) return { board: board + behind.outside.max.z };
  const under = isHungPanel(subject.said) ? screwedParts(subject.placed)[0] : undefined;
  if (!under) return { board };
  return { board, wood: { thickness: under.size.thickness, gravity: gravityOfStock(input, under.stock) } };
}

/** Specific gravity of a board by its species; of a panel that of framing, which NDS table 12.3.3B gives plywood of no named grade. */
const gravityOfStock = ({ plan }: WallInput, id: string): number =>
  gravityOf(plan.stock.boards.find((b) => b.id === id)?.species);

/** Every hole the option asks for in its walls: what goes in, what it lands on, how much of it is used. */
export const fixings = (input: WallInput): FixingPlan =>
  plans(input, [], () => {
    const pieces = subjectsOf(input).flatMap((subject) => keptFixing(input, subject) ?? []);
    return { pieces, points: pieces.flatMap((p) => p.points) };
  });
const plans = remember<WallInput, FixingPlan>();

/** The same as `fixingFor`, kept while nothing it looks at changes: not for what a cure tries out. */
const keptFixing = (input: WallInput, subject: Subject): PieceFixing | undefined => {
  const { room, stock, units } = input.plan;
  const behind = liningBehind(input, subject);
  const from = [subject.said, input.room, room, stock, units, ownMass(input, subject.placed), behind];
  return kept(subject.placed, from, () => {
    const held = fixingFor(input, subject);
    return held && behind ? { ...held, behind: { title: titleOf(behind), hollow: hollowOf(behind) } } : held;
  });
};
const kept = remember<PlacedPiece, PieceFixing | undefined>();

const percent = (use: number): string => (Number.isFinite(use) ? `${Math.round(use * 100)} %` : 'more than all');

/** A display heavier than the screws of its hole pattern are meant for. */
function patternNotes(input: WallInput, { placed, said }: Subject): readonly Note[] {
  const holes = 'display' in said ? said.mount?.holes : undefined;
  if (!holes || !('display' in said)) return [];
  const found = (Object.keys(DISPLAY_PATTERNS) as DisplayPattern[]).find((name) => {
    const { across, up } = DISPLAY_PATTERNS[name];
    return Math.abs(across - holes.width) < 1 && Math.abs(up - holes.height) < 1;
  });
  if (!found || said.mass <= DISPLAY_PATTERNS[found].mass) return [];
  const { mass } = saying(input);
  return [
    {
      id: `display-pattern:${placed.id}`,
      about: placed.id,
      verdict: 'caution',
      title: `${titleOf(placed)} weighs ${mass(said.mass)}; its hole pattern is meant for ${mass(DISPLAY_PATTERNS[found].mass)} at most`,
      advice:
        'Look at the back of the display for a larger pattern and at the mount for what it carries: one of the two is said wrong in the plan, or the mount does not suit.',
      working: work('display-pattern', { pattern: found }),
    },
  ];
}

/** Notes on what holds the pieces to the walls, with a cure where one was found that holds. */
export const fixingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => {
    const { placed, said, path } = subject;
    const { room, stock, units } = input.plan;
    const held = keptFixing(input, subject);
    // of what stands round it only the one that may hold it counts
    const beside = held && !isHung(subject) && missingOf(held).all ? heldBeside(input, subject) : undefined;
    const leans = beside && [beside.placed, beside.said, keptFixing(input, beside)];
    const from = [said, path.join(), input.room, room, stock, units, ownMass(input, placed), held, ...(leans ?? [])];
    return told(placed, from, () => [
      ...patternNotes(input, subject),
      ...(held ? heldNotes(input, subject, held, beside) : []),
    ]);
  });
const told = remember<PlacedPiece, readonly Note[]>();

/** The holes of a piece that hit nothing that holds what goes into them. */
function missingOf({ points }: PieceFixing) {
  const screws = !/toggle|anchor|plug/.test(points[0]!.kind);
  const missing = points.filter(
    (p) => p.lands === 'edge of masonry' || (screws && (p.lands === 'board only' || p.lands === 'edge of a stud')),
  );
  return { missing, all: missing.length === points.length };
}

function heldNotes(
  input: WallInput,
  subject: Subject,
  held: PieceFixing,
  neighbour: Subject | undefined,
): readonly Note[] {
  const { placed, said } = subject;
  const name = titleOf(placed);
  const panels = isHungPanel(said);
  const kind = 'case' in said && !isHung(subject) ? 'tall' : 'hung';
  if (kind === 'tall' && !isTall(subject) && said.fix === undefined) return [];
  const { missing, all: misses } = missingOf(held);
  const broken = missing.some((p) => p.lands === 'edge of masonry');
  const id = `fixing:${placed.id}`;
  const base = { id, about: placed.id, ...(held.working && { working: held.working }) };
  if (held.use === undefined)
    return [
      {
        ...base,
        verdict: 'caution',
        title: `Whether the fixings of ${name} hold is not known: ${held.unknown}`,
        advice: `${behindOf(input, subject)}Look what is behind the wall, and give the figures from the packet under fix: rated.`,
      },
    ];
  const beside = kind === 'tall' ? neighbour : undefined;
  if (beside)
    return [
      {
        ...base,
        verdict: 'caution',
        title: `No stud stands behind ${name}: ${titleOf(beside.placed)} beside it must hold it`,
        advice: `Join the two with connector bolts through their sides before ${titleOf(beside.placed)} is screwed to the wall. Reckoned with one child hanging on one of them, not on both.`,
        ...(fixingFor(input, beside)?.working && { working: fixingFor(input, beside)!.working! }),
      },
    ];
  if (held.use > 1) {
    const cure = cureOf(input, subject);
    return [
      {
        ...base,
        verdict: kind === 'tall' && !misses ? 'caution' : 'stop',
        title: misses
          ? broken
            ? `Every fixing of ${name} sits too near an edge of the masonry`
            : `Every fixing of ${name} misses the studs`
          : Number.isFinite(held.use)
            ? `The fixings of ${name} do not hold: ${percent(held.use)} of what they may take`
            : `The fixings of ${name} do not hold: ${held.unknown}`,
        advice:
          kind === 'tall'
            ? 'Reckoned with a child hanging on its front. Fix it near its top through the back into the framing.'
            : panels
              ? 'Turn the battens so that they lie across the studs, add timber behind the board, or name toggles or anchors with their figures under fix.'
              : `${behindOf(input, subject)}${besideOf(input, held)}Fix into the framing, nearer to the wall or on a taller plate, with more or stronger fixings; or let timber in behind the board.`,
        ...(cure && { cure }),
      },
    ];
  }
  const off =
    missing.length > 0
      ? `; ${missing.length} of ${held.points.length} holes ${broken ? 'sit too near an edge' : 'miss'} and count for nothing`
      : '';
  return [
    {
      ...base,
      verdict: off ? 'caution' : 'fine',
      title: `The fixings of ${name} hold: ${percent(held.use)} used${off}`,
      advice:
        kind === 'tall'
          ? 'Checked with a child hanging on its front edge. Not checked: the back and the joint to it. Fix every tall case.'
          : kind === 'hung' && 'case' in said
            ? proofWords(input, subject, held)
            : panels
              ? `${'absorber' in said ? 'Its screws go through the level joints between the tiles. ' : ''}Checked with its own weight, at rest. Not checked: someone leaning or hanging on it, and whether the framing is where the plan says.`
              : `${behindOf(input, subject)}${besideOf(input, held)}Checked at rest with its full load. Not checked: someone hanging on it, and whether the framing is where the plan says.`,
    },
  ];
}

/** Of a hung case, what its fixings would be used by the load that wall cabinets are tested with. */
function proofWords(input: WallInput, { placed }: Subject, { use, working }: PieceFixing): string {
  const hangs = working?.inputs.find((i) => i.symbol === 'm')?.value;
  const proof = WALL_CABINET_PROOF / STANDARD_GRAVITY + ownMass(input, placed);
  const rest =
    'Checked at rest with its full load. Not checked: the back and the joint to it, someone hanging on it, and whether the framing is where the plan says.';
  if (typeof hangs !== 'number' || use === undefined) return rest;
  // pull and shear both grow with the mass
  return `${rest} Under the ${saying(input).mass(WALL_CABINET_PROOF / STANDARD_GRAVITY)} that wall cabinets are tested with (ANSI/KCMA A161.1) they would be used ${percent((use * proof) / hangs)}.`;
}

/** Between a lining and its wall, as deep as its battens. */
const hollowOf = ({ parts }: PlacedPiece): number => parts.find((p) => p.role === 'batten')?.size.thickness ?? 0;

/** In words, the lining that the fixings go through. */
function behindOf(input: WallInput, subject: Subject): string {
  const behind = liningBehind(input, subject);
  if (!behind) return '';
  const { length } = saying(input);
  const hollow = hollowOf(behind);
  const pack =
    hollow > 0 ? ` Pack the hollow of ${length(hollow)} behind it at every hole, or the screws pull the panel in.` : '';
  return `Its fixings go through ${titleOf(behind)}: longer by ${length(behind.outside.max.z)}.${pack} `;
}

/** In words, where a wall plate is to sit when it is not behind the middle of its display. */
function besideOf(input: WallInput, { shift, points }: PieceFixing): string {
  if (shift === undefined) return '';
  const { length } = saying(input);
  return `The wall plate sits ${length(Math.abs(shift))} to the ${shift < 0 ? 'left' : 'right'} of the display's centre: there ${points.filter(isHeld).length} of its ${points.length} fixings land in the framing, more than behind the middle. The rails of the display still hang on it. `;
}

/** A case that touches this one along the wall and stands as high, and is itself held. */
function heldBeside(input: WallInput, subject: Subject): Subject | undefined {
  const stretch = ({ placed }: Subject) =>
    [placed.wall!.from + placed.outside.min.x, placed.wall!.from + placed.outside.max.x] as const;
  const top = ({ placed }: Subject) => placed.frame.origin.y + placed.outside.max.y;
  const [from, to] = stretch(subject);
  return subjectsOf(input).find((other) => {
    if (other.placed.id === subject.placed.id || !('case' in other.said) || isHung(other)) return false;
    if (other.placed.wall?.id !== subject.placed.wall?.id) return false;
    const [a, b] = stretch(other);
    const touches = Math.abs(a - to) < 1 || Math.abs(b - from) < 1;
    return touches && top(other) > top(subject) - 100 && (keptFixing(input, other)?.use ?? 2) <= 1;
  });
}

/** The same piece said otherwise, in place of its own words: what a cure would make of it. */
function changed(subject: Subject, change: Partial<DisplayPiece> | Partial<ShelfPiece>): Subject {
  return { ...subject, said: { ...subject.said, ...change } as Piece };
}

/** The same screws, long enough for the board they go through. */
function longerCure(input: WallInput, subject: Subject): Note['cure'] {
  const { said, path, placed } = subject;
  const wall = input.plan.room.walls.find((w) => w.id === placed.wall!.id)!;
  const through = throughOf(input, subject, wall);
  const fixing = fixingOf(said, wall, 'display' in said || isHung(subject), input, through);
  const { kind, diameter } = fixing;
  if (kind === 'toggle' || kind === 'hollow-wall anchor') return undefined;
  const sizes = sizesFor(input);
  const length = (kind === 'plug' ? sizes.plugs : sizes.lengths).find(
    (long) =>
      long > fixing.length &&
      holds(input, changed(subject, { fix: { ...said.fix, kind, diameter: mm(diameter), length: mm(long) } })),
  );
  if (length === undefined) return undefined;
  const { length: show } = saying(input);
  return {
    title: `Take ${kind}s ${show(length)} long`,
    edits: said.fix
      ? [set([...path, 'fix', 'length'], exact(input, length))]
      : [set([...path, 'fix'], { kind, diameter: exact(input, diameter), length: exact(input, length) })],
  };
}

/** Moved along its wall until its plugs sit in whole masonry. */
function awayCure(input: WallInput, subject: Subject, said: DisplayPiece | ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const centre = placed.wall!.from + said.size.width / 2;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  for (let step = 10; step <= 1000; step += 10)
    for (const to of [centre - step, centre + step]) {
      const from = to - said.size.width / 2;
      if (from < 0 || from + said.size.width > wall.length) continue;
      const moved = { ...subject, placed: { ...placed, wall: { ...placed.wall!, from: mm(from) } } };
      const found = fixingFor(input, moved);
      if (!found || found.points.some((p) => p.lands === 'edge of masonry') || (found.use ?? 2) > 0.95) continue;
      return {
        title: `Move it ${saying(input).length(step)} away from the edge`,
        edits: moveTo(said, path, to, said.size.width),
      };
    }
  return undefined;
}

/** Battens that stand between the studs turned across them: they run across the panels, so these are turned. */
function turnedCure(input: WallInput, { placed, said, path }: Subject, lining: Hung): Note['cure'] {
  if (!('lining' in said) || !('lining' in lining) || !lining.battens || lining.board !== 'horizontal')
    return undefined;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const { from } = placed.wall!;
  const crossed = wall.studs.some((s) => s.at > from + 30 && s.at < from + lining.size.width - 30);
  return crossed
    ? { title: 'Turn the battens across the studs', edits: [set([...path, 'board'], 'vertical')] }
    : undefined;
}

/** The first of some changes after which the fixings hold. */
function cureOf(input: WallInput, subject: Subject): Note['cure'] {
  const { said } = subject;
  const longer = longerCure(input, subject);
  if (longer) return longer;
  const edge = fixingFor(input, subject)?.points.some((p) => p.lands === 'edge of masonry');
  if (edge && ('display' in said || 'shelf' in said)) return awayCure(input, subject, said);
  if (isHungPanel(said)) return turnedCure(input, subject, said);
  if ('display' in said) return displayCure(input, subject, said);
  if ('shelf' in said) return shelfCure(input, subject, said);
  return caseCure(input, subject);
}

const holds = (input: WallInput, subject: Subject): boolean =>
  (fixingFor(input, subject)?.use ?? Number.POSITIVE_INFINITY) <= 0.95;

function displayCure(input: WallInput, subject: Subject, said: DisplayPiece): Note['cure'] {
  const { path, placed } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const saidWall = input.plan.room.walls.find((w) => w.id === wall.id)!;
  if (saidWall.framing?.kind !== 'timber stud' && saidWall.framing?.kind !== 'steel stud') return undefined;
  const centre = placed.wall!.from + said.size.width / 2;
  const steel = saidWall.framing.kind === 'steel stud';
  const sizes = sizesFor(input);
  const fixes = steel
    ? [{ kind: 'self-drilling screw', ...sizes.heavyDrilling } as const]
    : sizes.lags.map((lag) => ({ kind: 'lag screw', ...lag }) as const);
  const plates = [undefined, { width: 450, height: 450 }, { width: 900, height: 450 }, { width: 900, height: 600 }];
  const mounts = said.mount?.kind === 'arm' ? (['arm', 'tilt'] as const) : [said.mount?.kind ?? 'fixed'];
  for (const kind of mounts)
    for (const plate of plates)
      for (const fix of fixes) {
        // where it hangs, or pulled along to the nearest stud
        const nearest = wall.studs.map((s) => s.at).sort((a, b) => Math.abs(a - centre) - Math.abs(b - centre))[0];
        for (const to of nearest === undefined ? [centre] : [centre, nearest]) {
          const mount = { ...(said.mount ?? {}), kind, ...(plate && { plate }) } as NonNullable<DisplayPiece['mount']>;
          const moved = {
            ...placed,
            wall: { ...placed.wall!, from: (to - said.size.width / 2) as NonNullable<typeof placed.wall>['from'] },
          };
          const tried = changed({ ...subject, placed: moved }, { mount, fix: fix as NonNullable<DisplayPiece['fix']> });
          if (!holds(input, tried)) continue;
          const edits: Edit[] = [
            set([...path, 'fix'], { kind: fix.kind, diameter: `${fix.diameter} mm`, length: `${fix.length} mm` }),
          ];
          if (plate)
            edits.push(set([...path, 'mount', 'plate'], { width: `${plate.width} mm`, height: `${plate.height} mm` }));
          if (kind !== (said.mount?.kind ?? 'fixed')) edits.push(set([...path, 'mount', 'kind'], kind));
          if (to !== centre) edits.push(...moveTo(said, path, to, said.size.width));
          const what = [
            `Fix it with ${fix.kind}s into the studs`,
            ...(plate ? ['on a plate that reaches them'] : []),
            ...(kind !== (said.mount?.kind ?? 'fixed') ? ['without the arm'] : []),
          ];
          return { title: what.join(', '), edits };
        }
      }
  return undefined;
}

/** Puts a piece's middle at a place along its wall, whichever way the plan says where it is. */
function moveTo(
  said: DisplayPiece | ShelfPiece,
  path: Subject['path'],
  centre: number,
  width: number,
): readonly Edit[] {
  if (said.centre !== undefined) return [set([...path, 'centre'], `${centre} mm`)];
  if (said.from !== undefined) return [set([...path, 'from'], `${centre - width / 2} mm`)];
  const edits: Edit[] = [set([...path, 'centre'], `${centre} mm`)];
  if (said.after !== undefined) edits.push({ op: 'remove', path: [...path, 'after'] });
  if (said.gap !== undefined) edits.push({ op: 'remove', path: [...path, 'gap'] });
  return edits;
}

/** Blocking behind the shelf, wide enough for every hole and deep enough for the screws; a taller plate where the hollow allows. */
function shelfCure(input: WallInput, subject: Subject, said: ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const { framing } = input.plan.room.walls.find((w) => w.id === wall.id)!;
  if (framing?.kind !== 'timber stud' && framing?.kind !== 'steel stud') return undefined;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')?.solid?.box;
  const skins = placed.parts.filter((p) => p.role === 'skin').map((p) => p.solid.box);
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  if (!plate || skins.length < 2) return undefined;
  const studs = wall.studs.map((s) => s.at - left).filter((at) => at > 40 && at < said.size.width - 40);
  const edits: Edit[] = [];
  const where = said.rods?.at !== undefined && studs.length >= 2;
  if (where) edits.push({ op: 'remove', path: [...path, 'rods', 'at'] });
  if (said.fix !== undefined) edits.push({ op: 'remove', path: [...path, 'fix'] });
  if (where && holds(input, atStuds(subject, said, studs, 1))) return { title: 'Put the rods at the studs', edits };
  const hollow = Math.floor(clearBetween(skins));
  if (hollow > plate.max.y - plate.min.y + 2 && (where || said.rods?.at === undefined)) {
    const tall = atStuds(subject, said, where ? studs : undefined, hollow / (plate.max.y - plate.min.y));
    if (holds(input, tall))
      return {
        title: `Make the wall plate ${saying(input).length(hollow)} high`,
        edits: [
          ...edits,
          said.rods
            ? set([...path, 'rods', 'plate'], `${hollow} mm`)
            : set([...path, 'rods'], { plate: `${hollow} mm` }),
        ],
      };
  }
  const middle = bottom + (plate.min.y + plate.max.y) / 2;
  const found = blocked(input, wall, blockOf(wall, [left + plate.min.x, left + plate.max.x], middle));
  if (!found) return undefined;
  const { at: _, ...rest } = said.fix ?? { at: undefined };
  const { diameters, length } = sizesFor(input).blocking;
  const screw = diameters.find((diameter) =>
    holds(
      found.input,
      changed(subject, {
        fix: { ...rest, kind: 'wood screw', diameter, length } as NonNullable<ShelfPiece['fix']>,
      }),
    ),
  );
  if (screw === undefined) return undefined;
  return {
    title: 'Let timber in behind the board and screw into it',
    edits: [
      ...found.edits,
      set([...path, 'fix'], { kind: 'wood screw', diameter: `${screw} mm`, length: `${length} mm` }),
    ],
  };
}
const clearBetween = (
  skins: readonly { readonly min: { readonly y: number }; readonly max: { readonly y: number } }[],
): number => {
  const [lower, upper] = [...skins].sort((a, b) => a.min.y - b.min.y);
  return upper === undefined ? 0 : upper.min.y - lower!.max.y;
};

/** The shelf with its rods at the studs, or where they are, on a plate so many times as high. */
function atStuds(subject: Subject, said: ShelfPiece, studs: readonly number[] | undefined, taller: number): Subject {
  const rods = subject.placed.fittings.filter((f) => f.use === 'rod');
  const centres = studs ?? rods.map((r) => (r.solid!.box.min.x + r.solid!.box.max.x) / 2);
  const model = rods[0]!;
  const half = (model.solid!.box.max.x - model.solid!.box.min.x) / 2;
  const fittings = subject.placed.fittings.flatMap((f) => {
    if (f.use === 'rod') return [];
    if (f.use !== 'wall plate' || !f.solid) return [f];
    const { min, max } = f.solid.box;
    const [middle, high] = [(min.y + max.y) / 2, ((max.y - min.y) / 2) * taller];
    return [
      { ...f, solid: { ...f.solid, box: { min: { ...min, y: middle - high }, max: { ...max, y: middle + high } } } },
    ];
  });
  const moved = centres.map((x) => ({
    ...model,
    solid: {
      ...model.solid!,
      box: { min: { ...model.solid!.box.min, x: x - half }, max: { ...model.solid!.box.max, x: x + half } },
    },
  }));
  const { fix: _, ...plain } = said;
  return { ...subject, said: plain as Piece, placed: { ...subject.placed, fittings: [...fittings, ...moved] } };
}

/** Holes at the studs behind it, in place of those that miss; where no stud is behind it, timber let in behind its top. */
function caseCure(input: WallInput, subject: Subject): Note['cure'] {
  const { placed, path, said } = subject;
  const { fix: _, ...plain } = said;
  const without: readonly Edit[] = said.fix === undefined ? [] : [{ op: 'remove', path: [...path, 'fix'] }];
  if (said.fix !== undefined && holds(input, { ...subject, said: plain as Piece }))
    return { title: 'Screw it into the studs behind it', edits: without };
  const left = placed.wall!.from;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const top = placed.frame.origin.y - wall.frame.origin.y + placed.outside.max.y - fromTop(input);
  const block = blockOf(wall, [left + placed.outside.min.x, left + placed.outside.max.x], top);
  const found = blocked(input, wall, block);
  if (!found || isHung(subject)) return undefined;
  const { diameters, longer } = sizesFor(input).blocking;
  const screw = diameters
    .map((diameter) => ({ kind: 'wood screw', diameter, length: longer }) as const)
    .find((fix) => holds(found.input, { ...subject, said: { ...plain, fix } as unknown as Piece }));
  if (!screw) return undefined;
  return {
    title: 'Let timber in behind the board at its top and screw into it',
    edits: [
      ...found.edits,
      set([...path, 'fix'], { kind: screw.kind, diameter: `${screw.diameter} mm`, length: `${screw.length} mm` }),
    ],
  };
}

interface Block {
  readonly from: number;
  readonly to: number;
  readonly above: number;
  readonly height: number;
  readonly thickness: number;
}

/** A piece of 38 mm timber 140 high behind a stretch of wall, with its middle at a height. */
const blockOf = (wall: PlacedWall, [from, to]: readonly [number, number], middle: number): Block => ({
  from: Math.max(0, from - 30),
  to: Math.min(wall.length, to + 30),
  above: Math.max(0, middle - 70),
  height: 140,
  thickness: 38,
});

/** The plan with timber let in behind a wall; undefined where nothing can be let in. */
function blocked(
  input: WallInput,
  wall: PlacedWall,
  block: Block,
): { readonly input: WallInput; readonly edits: readonly Edit[] } | undefined {
  const index = input.plan.room.walls.findIndex((w) => w.id === wall.id);
  const saidWall = input.plan.room.walls[index]!;
  const { framing } = saidWall;
  if (framing?.kind !== 'timber stud' && framing?.kind !== 'steel stud') return undefined;
  const path = ['room', 'walls', index, 'framing', 'blocking'];
  const plain = Object.fromEntries(Object.entries(block).map(([key, value]) => [key, `${value} mm`]));
  const walls = input.plan.room.walls.with(index, {
    ...saidWall,
    framing: {
      ...framing,
      blocking: [...(framing.blocking ?? []), block as unknown as NonNullable<typeof framing.blocking>[number]],
    },
  });
  return {
    input: { ...input, plan: { ...input.plan, room: { ...input.plan.room, walls } } },
    edits: [
      framing.blocking ? { op: 'insert', path: [...path, framing.blocking.length], value: plain } : set(path, [plain]),
    ],
  };
}
