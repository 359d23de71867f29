import type { Joint, Part, PartId } from '../scene/index.ts';
import { type Distance, distancesBetween, type Gauge, gaugeFor, type Rack, shortest } from './gauge.ts';
import { type Body, boundsOf, type Cell, isLetIn, reach, stops, WAYS, type Way } from './solids.ts';

/** What sets a part along one axis when it is put in place. */
export type Location =
  | {
      readonly axis: 0 | 1 | 2;
      readonly by: 'joint' | 'surface' | 'flush' | 'pins' | 'slides';
      readonly against: PartId;
    }
  | { readonly axis: 0 | 1 | 2; readonly by: 'bench' }
  | { readonly axis: 0 | 1 | 2; readonly by: 'gauge'; readonly gauge: Gauge }
  /** Nothing real was found: a mark must be measured. */
  | { readonly axis: 0 | 1 | 2; readonly by: 'mark' };

/** What one body can be set by when another is there, along each axis. Does not depend on what else is there. */
interface Pair {
  readonly hardware?: { readonly by: 'pins' | 'slides'; readonly against: PartId };
  readonly joint: (PartId | undefined)[];
  readonly surface: (PartId | undefined)[];
  readonly flush: (PartId | undefined)[];
  /** From what it touches, along an axis. */
  readonly distances: (axis: 0 | 1 | 2) => readonly Distance[];
  /** From any face of it: where nothing nearer gives a hold. */
  readonly afar: (axis: 0 | 1 | 2) => readonly Distance[];
  /** Directions in which it stops the body. */
  readonly under: (PartId | undefined)[];
}

/** How bodies can be set by each other, worked out once for each pair that is asked for. */
export interface Surroundings {
  readonly bodies: readonly Body[];
  readonly pair: (moving: number, still: number) => Pair;
}

export function surroundings(
  bodies: readonly Body[],
  joints: readonly { readonly joint: Joint; readonly a: number; readonly b: number }[],
): Surroundings {
  const known: (Pair | undefined)[] = [];
  const pair = (moving: number, still: number): Pair => {
    const index = moving * bodies.length + still;
    known[index] ??= pairOf(
      bodies[moving]!,
      bodies[still]!,
      joints.filter((j) => (j.a === moving && j.b === still) || (j.b === moving && j.a === still)).map((j) => j.joint),
    );
    return known[index];
  };
  return { bodies, pair };
}

function pairOf(moving: Body, still: Body, joints: readonly Joint[]): Pair {
  const mine = new Set(moving.parts.map((p) => p.id));
  const other = (joint: Joint): PartId => (mine.has(joint.a) ? joint.b : joint.a);
  const letIn = new Set(joints.filter(isLetIn).map(other));
  const joined = new Set(joints.map(other));
  const none = (): (PartId | undefined)[] => [undefined, undefined, undefined];
  const [joint, surface, flush] = [none(), none(), none()];
  const under: (PartId | undefined)[] = WAYS.map(() => undefined);
  const touched = new Set(joined);
  for (const way of WAYS) {
    if (reach(still.bounds, (way ^ 1) as Way) < -reach(moving.bounds, way)) continue;
    still.cells.forEach((cell, i) => {
      if (!moving.cells.some((c) => stops(c, cell, way))) return;
      const part = still.owners[i]!;
      touched.add(part);
      under[way] ??= part;
      if (letIn.has(part)) joint[way >> 1] ??= part;
      else surface[way >> 1] ??= part;
    });
  }
  if (joints.length > 0)
    for (const way of WAYS)
      still.cells.forEach((cell, i) => {
        if (reach(cell, way) === reach(moving.bounds, way)) flush[way >> 1] ??= still.owners[i]!;
      });
  const pins = joints.find((j) => j.kind === 'pinned');
  const slides = joints.find((j) => j.kind === 'slid');
  // few parts need a gauge, and measuring all that could give one takes longer than the rest
  const measured = (held: ReadonlySet<PartId>) => {
    const known: (readonly Distance[] | undefined)[] = [];
    return (axis: 0 | 1 | 2) => (known[axis] ??= distancesBetween(moving, still, axis, held));
  };
  return {
    ...(pins
      ? { hardware: { by: 'pins', against: other(pins) } as const }
      : slides && { hardware: { by: 'slides', against: other(slides) } as const }),
    joint,
    surface,
    flush,
    under,
    distances: measured(touched),
    afar: measured(new Set(still.owners)),
  };
}

/** A body that comes, and what is there. */
export interface Place {
  readonly around: Surroundings;
  readonly moving: number;
  readonly present: readonly number[];
  /** How the body can be set by each of those present, and how far they reach together. */
  readonly pairs: readonly Pair[];
  readonly bounds: Cell;
  readonly rack: Rack;
  readonly isLoose: (part: Part) => boolean;
}
export function placeAmong(
  around: Surroundings,
  moving: number,
  present: readonly number[],
  rack: Rack,
  isLoose: Place['isLoose'],
): Place {
  const pairs = present.map((i) => around.pair(moving, i));
  const bounds = boundsOf(present.map((i) => around.bodies[i]!.bounds));
  return { around, moving, present, pairs, bounds, rack, isLoose };
}

/** How a body is set along x, y and z by what is there, whichever way up: a joint or surface that stops it, an even face, else a gauge. */
export const locate = (place: Place): readonly Location[] => [
  locateAlong(place, 0),
  locateAlong(place, 1),
  locateAlong(place, 2),
];

/** The bench sets what stands on it as low as the rest does, where nothing firmer does. */
export function onBench(locations: readonly Location[], place: Place, down: Way): readonly Location[] {
  const axis = down >> 1;
  const at = locations[axis]!;
  if (at.by === 'joint' || at.by === 'surface' || at.by === 'pins' || at.by === 'slides') return locations;
  if (reach(place.bounds, down) !== reach(place.around.bodies[place.moving]!.bounds, down)) return locations;
  return locations.map((l) => (l === at ? { axis: l.axis, by: 'bench' } : l));
}

function locateAlong({ around, moving, present, pairs, rack, isLoose }: Place, axis: 0 | 1 | 2): Location {
  // slides leave the height open, pins nothing
  for (const { hardware } of pairs)
    if (hardware && (hardware.by === 'pins' || axis !== 1)) return { axis, ...hardware };
  for (const by of ['joint', 'surface', 'flush'] as const)
    for (const pair of pairs) {
      const against = pair[by][axis];
      if (against !== undefined) return { axis, by, against };
    }
  const bodies = present.map((i) => around.bodies[i]!);
  const body = around.bodies[moving]!;
  const near = shortest(pairs.flatMap((p) => p.distances(axis)));
  const gauge =
    gaugeFor(body, bodies, near, axis, rack, isLoose) ??
    gaugeFor(body, bodies, shortest(pairs.flatMap((p) => p.afar(axis))), axis, rack, isLoose);
  return gauge ? { axis, by: 'gauge', gauge } : { axis, by: 'mark' };
}

/** What a body stands on: the bench, a part under it, a gauge under it; nothing when it must be held. */
export function restsOn(
  place: Place,
  locations: readonly Location[],
  down: Way,
): 'bench' | 'part' | 'gauge' | undefined {
  const own = place.around.bodies[place.moving]!;
  if (reach(own.bounds, down) >= reach(place.bounds, down)) return 'bench';
  if (place.pairs.some((p) => p.under[down] !== undefined || p.hardware)) return 'part';
  const at = locations[down >> 1]!;
  if (at.by === 'gauge' && at.gauge.manner === 'between' && reach(at.gauge.cell, down) > reach(own.bounds, down) - 1)
    return 'gauge';
  return undefined;
}
