import type { Bay } from '../plan/index.ts';
import { fromTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import { equally, type Ticks } from './divide.ts';
import { addPart, cuboid, join, letInto, long, type Path, type Span } from './draft.ts';
import { frontArea, frontBand, styleOf } from './fronts.ts';
import { type Job, partOf, type Space, shareOut } from './space.ts';

/**
 * A bay of drawers. The heights asked are those of the fronts, a gap between each two. A box stands behind each front, between the
 * slides: sides front to back, front and back between the sides, the bottom in a groove all round. It is as long as the longest
 * slide that fits, and lies within both its front and the opening by the clearances above and below.
 */
export function fillDrawers(job: Job, bay: Bay, space: Space): void {
  const { draft, habits } = job;
  const style = styleOf(job, bay, space);
  const area = frontArea(job, space, style);
  if (!area) return;
  const path: Path = [...space.path, 'drawers'];
  const wanted = typeof bay.drawers === 'number' ? equally(bay.drawers) : bay.drawers!;
  const heights = shareOut(job, long(area.y) - (wanted.length - 1) * habits.gap, wanted, false, path, 'drawer fronts');
  if (!heights) return;

  const run = area.z[0] - space.z[0] - habits.drawer.rear;
  const slide = habits.drawer.slides.reduce<Ticks | undefined>(
    (best, length) => (length <= run && (best === undefined || length > best) ? length : best),
    undefined,
  );
  if (slide === undefined) {
    draft.issues.push({
      path: job.said('drawer', 'slides'),
      message: `no slide is short enough for the depth of '${draft.piece}'`,
      found: habits.drawer.slides.map(draft.notLess).join(', '),
      expected: `${draft.notMore(Math.max(0, run))} or shorter`,
    });
  }
  let at = area.y[1];
  for (const [i, height] of heights.entries()) {
    const y: Span = [at - height, at];
    at -= height + habits.gap;
    const named = (what: string) => {
      const { id, name, bay: place } = partOf(space, `drawer-${i + 1}`);
      return { id: `${id}/${what}`, name: `${what.replaceAll('-', ' ')} of ${name}`, bay: place, path };
    };
    const front = addPart(draft, {
      ...named('front'),
      role: 'drawer front',
      material: habits.front,
      box: cuboid(area.x, y, area.z),
      length: 'x',
      thickness: 'z',
      band: frontBand(job),
    });
    if (front && slide !== undefined) buildBox(job, space, front, y, [area.z[0] - slide, area.z[0]], named, path);
  }
}

function buildBox(
  job: Job,
  space: Space,
  front: NonNullable<ReturnType<typeof addPart>>,
  frontY: Span,
  z: Span,
  named: (what: string) => { id: string; name: string; bay: string | undefined; path: Path },
  path: Path,
): void {
  const { draft, habits } = job;
  const { drawer } = habits;
  const t = drawer.panel.thickness;
  const bottomThickness = drawer.bottom.thickness;
  const y: Span = [
    Math.max(frontY[0], space.open.y[0]) + drawer.below,
    Math.min(frontY[1], space.open.y[1]) - drawer.above,
  ];
  const x: Span = [space.open.x[0] + drawer.side, space.open.x[1] - drawer.side];
  const inner: Span = [x[0] + t, x[1] - t];
  if (long(y) <= drawer.groove + bottomThickness) {
    draft.issues.push({
      path,
      message: `${front.name}: the drawer is too low for a box`,
      found: `${draft.notMore(Math.max(0, long(y)))} left for its sides`,
      expected: `more than ${draft.notLess(drawer.groove + bottomThickness)}, the groove and the bottom in it`,
    });
    return;
  }
  if (long(inner) <= 0 || long(z) <= 2 * t) {
    draft.issues.push({
      path,
      message: `${front.name}: the drawer is too small for a box`,
      found: `${draft.notMore(long(space.open.x))} wide and ${draft.notMore(long(z))} deep`,
      expected: `more than ${draft.notLess(2 * (t + drawer.side))} wide and ${draft.notLess(2 * t)} deep`,
    });
    return;
  }
  const panel = drawer.panel;
  const part = (
    what: string,
    role: string,
    box: ReturnType<typeof cuboid>,
    length: 'x' | 'z',
    thickness: 'x' | 'y' | 'z',
    material = panel,
  ) =>
    addPart(draft, {
      ...named(what),
      role,
      material,
      box,
      length,
      thickness,
      grainMatters: role !== 'drawer bottom',
      show: what === 'left-side' ? 'left' : what === 'right-side' ? 'right' : 'front',
    });
  const left = part('left-side', 'drawer side', cuboid([x[0], inner[0]], y, z), 'z', 'x');
  const right = part('right-side', 'drawer side', cuboid([inner[1], x[1]], y, z), 'z', 'x');
  const boxFront = part('box-front', 'drawer box front', cuboid(inner, y, [z[1] - t, z[1]]), 'x', 'z');
  const boxBack = part('box-back', 'drawer box back', cuboid(inner, y, [z[0], z[0] + t]), 'x', 'z');
  const e = Math.floor(t * DEFAULTS.letFraction);
  const floor = y[0] + drawer.groove;
  const bottom = part(
    'bottom',
    'drawer bottom',
    cuboid([inner[0] - e, inner[1] + e], [floor, floor + bottomThickness], [z[0] + t - e, z[1] - t + e]),
    'x',
    'y',
    drawer.bottom,
  );
  for (const end of [boxFront, boxBack])
    for (const side of [left, right]) join(draft, 'butt', end, side, ['glue', 'brads']);
  for (const wall of [left, right, boxFront, boxBack]) letInto(draft, 'groove', bottom, wall, ['nothing']);
  join(draft, 'applied', front, boxFront, ['screws']);
  join(draft, 'slid', left, space.panels.left, ['slides']);
  join(draft, 'slid', right, space.panels.right, ['slides']);
  const id = front.id.replace(/\/front$/, '');
  draft.fittings.push({
    id: `${id}/slides`,
    piece: draft.piece,
    use: 'drawer slide',
    name: `pair of ${draft.showAsSold(long(z))} slides of ${front.name.replace(/^front of /, '')}`,
    count: 1,
    length: fromTicks(long(z)),
  });
  const { min, max } = front.box;
  draft.needs.push({
    what: `${front.name.replace(/^front of /, '')} pulled out`,
    box: cuboid([min.x, max.x], [min.y, max.y], [max.z, max.z + long(z)]),
    part: front.id,
  });
}
