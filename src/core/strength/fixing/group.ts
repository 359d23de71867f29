import { originText, type Working, work } from '../../notes/index.ts';
import type { Wall } from '../../plan/index.ts';
import { STANDARD_GRAVITY } from '../../quantity/index.ts';
import type { PlacedRoom, PlacedWall } from '../../room/index.ts';
import { bracketTensions } from '../hanging.ts';
import { fixingUse, screwUse, shareOfFixing, shareOfScrew } from '../interaction.ts';
import { type Subject, titleOf } from '../plan-input.ts';
import { type Capacity, capacityOf, headIn } from './capacity.ts';
import { apartOf, uncrowded } from './crowd.ts';
import type { Fixing } from './fastener.ts';
import { groundAt } from './ground.ts';
import type { FixingPoint, Hole, PieceFixing } from './point.ts';
import { type Through, takesWasher } from './through.ts';
import { fixingTwist, twisted } from './twist.ts';

/** What hangs on a group of fixings: kg, mm out from the wall, on a plate that turns about its lower edge. */
interface Hanging {
  readonly mass: number;
  /** Parts are left out of it, of which nobody knows what they weigh: it may be more. */
  readonly partly?: boolean;
  /** Where along the wall its weight hangs, mm from the left end; left out of what stands on the floor. */
  readonly at?: number;
  readonly reach: number;
  /** What its mass and reach are, in words, of what is no weight that hangs at its centre of gravity. */
  readonly asked?: { readonly mass: string; readonly reach: string };
  /** Height of the plate's lower edge above the floor: fixings pull in proportion to their height above it. */
  readonly edge: number;
}

/** Why nothing can be said of what hangs on fixings when the stock of a part has no known density. */
export const WEIGHTLESS = 'what it weighs is not known';

/** Why a group holds nothing, whatever goes into its holes. */
const TURNS = 'it hangs beside its one fixing, and turns about it';
const UNDER = 'no fixing stands above its lower edge';

/** The holes of one piece and what hangs on them. */
export interface Group {
  readonly holes: readonly Hole[];
  readonly hanging: Hanging;
}

/** A group of fixings under a load: what each carries, and the worst of them with its working. */
export function hold(
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
  const head = headIn(fixing, through);
  // most holes land on the same
  const seen = new Map<string, ReturnType<typeof capacityOf>>();
  const capacities = grounds.map((ground) => {
    const { lands, steel, timber } = ground;
    const key = `${lands} ${steel} ${timber?.depth} ${timber?.gravity}`;
    const capacity = seen.get(key) ?? capacityOf(fixing, ground, through, head, hanging.at !== undefined);
    seen.set(key, capacity);
    return capacity;
  });
  // a hole that holds nothing takes no share, and leaves its share to the others
  const able = holes.flatMap((hole, i) => ('none' in capacities[i]! && capacities[i]!.none ? [] : [{ hole, i }]));
  const holding = uncrowded(able, apartOf(fixing.kind, fixing.diameter));
  const crowded = able.length - holding.length;
  const weight = hanging.mass * STANDARD_GRAVITY;
  const moment = weight * hanging.reach;
  const heights = holding.map(({ hole }) => Math.max(0, hole.y - hanging.edge));
  const tensions = heights.some((h) => h > 0)
    ? bracketTensions(
        moment,
        heights.map((height) => ({ height })),
      )
    : heights.map(() => (moment > 0 ? Number.POSITIVE_INFINITY : 0));
  const twist =
    hanging.at === undefined
      ? undefined
      : twisted(
          weight,
          hanging.at,
          holding.map(({ hole }) => hole),
        );
  const even = weight / holding.length;
  const loads = new Map(
    holding.map(({ i }, k) => [i, { tension: tensions[k]!, shear: even, along: twist?.shears[k] ?? even }] as const),
  );
  let worst: { use: number; capacity: Capacity; tension: number; along: number } | undefined;
  const points = holes.map((hole, i): FixingPoint => {
    const { along, ...load } = loads.get(i) ?? { tension: 0, shear: 0, along: 0 };
    const capacity = capacities[i]!;
    const known = 'pull' in capacity ? capacity : undefined;
    const use =
      known && (known.interaction === 'wood' ? screwUse : fixingUse)(load.tension, along, known.pull, known.lateral);
    if (known && use !== undefined && (!worst || use > worst.use))
      worst = { use, capacity: known, tension: load.tension, along };
    const { lands, stud } = grounds[i]!;
    return {
      id: `${placed.id}/fixing-${i + 1}`,
      piece: placed.id,
      wall: wall.id,
      x: hole.x,
      y: hole.y,
      fixing: fixing.name,
      kind: fixing.kind,
      ...fixing.sold,
      ...(fixing.open && { open: fixing.open }),
      ...(fixing.pilot !== undefined && { pilot: fixing.pilot }),
      ...(takesWasher(fixing, through) && { washer: true as const }),
      lands,
      ...(stud && { stud }),
      ...load,
      ...(use !== undefined && { use }),
    };
  });
  const beside = twist !== undefined && twist.offset !== 0;
  const base = { piece: placed.id, title: titleOf(placed), wall: wall.id, points, ...(crowded > 0 && { crowded }) };
  const reasons = capacities.flatMap((c) => ('why' in c ? [c] : []));
  if (holding.length === 0)
    return { ...base, use: Number.POSITIVE_INFINITY, unknown: reasons[0]?.why ?? 'nothing holds it' };
  // not a fixing is asked for anything: the weight is not known
  if (!(hanging.mass > 0)) return { ...base, unknown: WEIGHTLESS };
  // with what is known of it alone they would hold: with the rest nobody can say
  if (hanging.partly && !(worst && worst.use > 1))
    return { ...base, points: points.map(({ use: _, ...point }) => point), unknown: WEIGHTLESS };
  if (!worst) return { ...base, unknown: reasons.find((r) => !r.none)?.why ?? 'nothing is known of it' };
  const { capacity, tension, along: shear, use } = worst;
  // no figure says how far they are from holding
  if (!Number.isFinite(use)) return { ...base, use, unknown: beside ? TURNS : UNDER };
  const reckoned =
    capacity.interaction === 'wood'
      ? work(shareOfScrew, { tension, shear, withdrawal: capacity.pull, lateral: capacity.lateral })
      : work(shareOfFixing, { tension, shear, pull: capacity.pull, lateral: capacity.lateral });
  const turned = beside
    ? work(fixingTwist, {
        load: hanging.mass,
        at: hanging.at!,
        across: holding.map(({ hole }) => hole.x),
        up: holding.map(({ hole }) => hole.y),
      })
    : undefined;
  const working: Working = {
    ...reckoned,
    inputs: [
      { symbol: 'm', name: hanging.asked?.mass ?? 'mass that hangs', value: hanging.mass, unit: 'kg' },
      { symbol: 'e', name: hanging.asked?.reach ?? 'wall to centre of gravity', value: hanging.reach, unit: 'mm' },
      { symbol: 'h', name: 'highest fixing above the lower edge', value: Math.max(...heights), unit: 'mm' },
      { symbol: 'n', name: 'fixings that hold', value: holding.length, unit: '' },
      ...(turned ? turned.also!.filter(({ symbol }) => symbol === 'a' || symbol === 'Σr²') : []),
      ...capacity.inputs,
      ...reckoned.inputs.map((given) => (turned && given.symbol === 'V' ? { ...given, source: turned.source } : given)),
    ],
    assumes: [
      ...reckoned.assumes,
      ...capacity.assumes,
      `T_i = m g e y_i/Σ y², ${beside ? '' : 'V shared evenly: '}a stiff plate on its lower edge`,
      ...(turned ? [`${turned.formula}: ${originText(turned.source)}`, ...turned.assumes] : []),
    ],
  };
  return { ...base, working, use, ...(capacity.head && { head: true }), ...(capacity.gap && { gap: capacity.gap }) };
}
