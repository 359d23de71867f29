import type { Bay, SizeOrShare } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally, halves, type Ticks } from './divide.ts';
import { addPart, beside, cuboid, join, letInto, long, type Span, take } from './draft.ts';
import { type Job, partOf, type Space, shareOut } from './space.ts';

/**
 * The shelves of a bay that is not divided: fixed ones evenly or at their heights, adjustable ones shared out among the
 * compartments between them, each where it leaves the openings widest.
 */
export function fillShelves(job: Job, bay: Bay, space: Space): void {
  const compartments = fixShelves(job, bay, space);
  const counts = compartments.map(() => 0);
  for (let n = 0; n < (bay.shelves ?? 0); n++) {
    let best = 0;
    const room = (i: number) => long(compartments[i]!) / (counts[i]! + 1);
    for (let i = 1; i < compartments.length; i++) if (room(i) > room(best)) best = i;
    counts[best]! += 1;
  }
  let number = 1;
  for (const [i, compartment] of compartments.entries()) {
    if (counts[i]! > 0) number = hangOnPins(job, space, compartment, counts[i]!, number);
  }
}

const frontEdge = ({ habits, carcassFront }: Job, space: Space): Ticks =>
  Math.min(space.z[1], carcassFront - habits.setback);
const band = ({ habits }: Job) => habits.band && { ...habits.band, towards: ['front'] as const };

/** Makes the fixed shelves and returns the clear heights between them, from the top down. */
function fixShelves(job: Job, bay: Bay, space: Space): readonly Span[] {
  const { draft, habits } = job;
  if (bay.fixed === undefined || bay.fixed === 0) return [space.y];
  const t = habits.panel.thickness;
  const path = [...space.path, 'fixed'];
  let tops: Ticks[];
  if (typeof bay.fixed === 'number') {
    const clear = shareOut(job, long(space.y) - bay.fixed * t, equally(bay.fixed + 1), false, path, 'fixed shelves');
    if (!clear) return [space.y];
    let at = space.y[1];
    tops = clear.slice(0, -1).map((height) => {
      const top = at - height;
      at = top - t;
      return top;
    });
  } else {
    tops = bay.fixed.map((height) => space.y[0] + toTicks(height)).sort((a, b) => b - a);
    const edges = [space.y[1], ...tops.map((top) => top - t)];
    const low = tops.findIndex((top, i) => top > edges[i]! || top - t < space.y[0]);
    if (low >= 0) {
      draft.issues.push({
        path,
        message: 'a fixed shelf does not fit between the floor of the bay, its ceiling and the next shelf',
        found: `its top at ${beside(draft, tops[low]! - space.y[0], edges[low]! - space.y[0])}`,
        expected: draft.range([t, edges[low]! - space.y[0]]),
      });
      return [space.y];
    }
  }
  const e = habits.joint === 'dado' ? habits.let : 0;
  const compartments: Span[] = [];
  let ceiling = space.y[1];
  for (const [i, top] of tops.entries()) {
    const shelf = addPart(draft, {
      ...partOf(space, `fixed-shelf-${i + 1}`),
      role: 'fixed shelf',
      material: habits.panel,
      box: cuboid([space.x[0] - e, space.x[1] + e], [top - t, top], [space.z[0], frontEdge(job, space)]),
      length: 'x',
      thickness: 'y',
      band: band(job),
      path: job.said('setback'),
    });
    for (const end of [space.panels.left, space.panels.right])
      letInto(draft, 'dado', shelf, end, e > 0 ? ['glue', 'brads'] : ['glue', 'screws']);
    join(draft, 'butt', shelf, space.back, ['brads']);
    if (top < ceiling) compartments.push([top, ceiling]);
    ceiling = top - t;
  }
  if (ceiling > space.y[0]) compartments.push([space.y[0], ceiling]);
  return compartments;
}

/**
 * Adjustable shelves, evenly but on the grid of their pin holes: four pins each, holes at the pitch from the floor of the
 * compartment, two to either side of each shelf's own. Returns the number the next shelf takes.
 */
function hangOnPins(job: Job, space: Space, compartment: Span, count: number, firstNumber: number): number {
  const { draft, habits, oddAtEnd } = job;
  const t = habits.panel.thickness;
  const [diameter, pitch] = [toTicks(DEFAULTS.pin.diameter), toTicks(DEFAULTS.pin.pitch)];
  const radius = diameter / 2;
  const [floor, ceiling] = compartment;
  const wanted: readonly SizeOrShare[] = equally(count + 1);
  const clear = divide(ceiling - floor - count * t, wanted);
  const path = [...space.path, 'shelves'];
  const rows: number[] = [];
  if (clear.fits) {
    let under = ceiling;
    for (let i = 0; i < count; i++) {
      under -= clear.sizes[i]! + t;
      rows.push(Math.max(1, Math.round((under - radius - floor) / pitch)));
    }
  }
  const underside = (row: number) => floor + row * pitch + radius;
  const clash = rows.some((row, i) => underside(row) + t > (i === 0 ? ceiling : underside(rows[i - 1]!)));
  if (!clear.fits || clash) {
    draft.issues.push({
      path,
      message: 'the bay is too low for so many adjustable shelves',
      found: `${count} in ${draft.notMore(ceiling - floor)}`,
      expected: `at least ${draft.notLess(pitch)} for each, and the shelf itself`,
    });
    return firstNumber + count;
  }
  const [left, right] = halves(habits.play, oddAtEnd);
  const z: Span = [space.z[0], frontEdge(job, space)];
  const holeRows = new Set<number>();
  rows.forEach((row, i) => {
    const number = firstNumber + i;
    const shelf = addPart(draft, {
      ...partOf(space, `shelf-${number}`),
      role: 'adjustable shelf',
      material: habits.panel,
      box: cuboid([space.x[0] + left, space.x[1] - right], [underside(row), underside(row) + t], z),
      length: 'x',
      thickness: 'y',
      band: band(job),
      path: job.said('setback'),
    });
    if (!shelf) return;
    for (const end of [space.panels.left, space.panels.right]) join(draft, 'pinned', shelf, end, ['pins']);
    draft.fittings.push({
      id: `${shelf.id}/pins`,
      piece: draft.piece,
      use: 'shelf pin',
      // a hole bored in millimetres takes a pin sold in millimetres, whatever the plan is drawn in
      name: `pins of ${shelf.name}, ${DEFAULTS.pin.diameter} mm`,
      count: 4,
      diameter: DEFAULTS.pin.diameter,
    });
    for (let step = -DEFAULTS.pin.eitherWay; step <= DEFAULTS.pin.eitherWay; step++) {
      const at = row + step;
      if (at >= 1 && underside(at) + t <= ceiling) holeRows.add(at);
    }
  });
  boreRows(
    space,
    [...holeRows].sort((a, b) => a - b).map((row) => floor + row * pitch),
    z,
    diameter,
    t,
  );
  return firstNumber + count;
}

/** Two columns of blind holes in each panel beside the bay, never more than half its thickness deep. */
function boreRows(space: Space, heights: readonly Ticks[], z: Span, diameter: Ticks, thickness: Ticks): void {
  const radius = diameter / 2;
  const depth = Math.min(toTicks(DEFAULTS.pin.depth), Math.floor(thickness / 2) - toTicks(1));
  const inset = Math.min(toTicks(DEFAULTS.pin.inset), Math.floor(long(z) / 4));
  if (depth <= 0 || inset <= radius) return;
  for (const [panel, x] of [
    [space.panels.left, [space.x[0] - depth, space.x[0]]],
    [space.panels.right, [space.x[1], space.x[1] + depth]],
  ] as const) {
    for (const y of heights) {
      for (const at of [z[0] + inset, z[1] - inset]) {
        take(panel, {
          kind: 'bore',
          box: cuboid(x, [y - radius, y + radius], [at - radius, at + radius]),
          why: 'shelf pins',
          round: { diameter, axis: 'x' },
        });
      }
    }
  }
}
