import type { Bay, SizeOrShare } from '../plan/index.ts';
import type { BayOpening } from '../scene/index.ts';
import { halves } from './divide.ts';
import { addPart, cuboid, type DraftPart, join, letInto, long, type PartWanted, type Span } from './draft.ts';
import { fillDrawers } from './drawers.ts';
import { hangDoors } from './fronts.ts';
import { fillShelves } from './shelves.ts';
import { type Job, partOf, type Space, shareOut } from './space.ts';
import { cutVents } from './vents.ts';

/** Puts into a bay what the plan says of it: its doors, then what lies behind them, down through every division. */
export function fillBay(job: Job, bay: Bay, space: Space): void {
  const divided = bay.columns ?? bay.rows;
  // a case that is one bay calls it bay 1, so that its parts keep their names when it is divided later
  const named = space.level === 0 && bay.name !== undefined ? { ...space, title: bay.name } : space;
  const here: Space = space.level === 0 && !divided ? { ...named, id: 'bay-1', number: '1' } : named;
  refuseContradictions(job, bay, here);
  const inner = bay.door === undefined ? here : hangDoors(job, bay, here);
  record(
    job,
    here,
    inner,
    bay.door !== undefined ? 'door' : bay.drawers !== undefined ? 'drawers' : divided ? 'divided' : 'open',
  );
  if (bay.columns) divideIntoColumns(job, bay.columns, inner);
  else if (bay.rows) divideIntoRows(job, bay.rows, inner, 'rows');
  else if (bay.drawers !== undefined) fillDrawers(job, bay, inner);
  else if (Array.isArray(bay.open)) {
    const heights: readonly SizeOrShare[] = bay.open;
    divideIntoRows(
      job,
      heights.map((height) => ({ height, open: true as const })),
      inner,
      'open',
    );
  } else fillShelves(job, bay, inner);
  // what divides the bay stands by now, and no vent is cut across it
  cutVents(job, bay, here);
}

/** Nothing that is said of a bay is passed over in silence. */
function refuseContradictions({ draft }: Job, bay: Bay, space: Space): void {
  const say = (key: keyof Bay, message: string, expected?: string) =>
    draft.issues.push({ path: [...space.path, key], message, ...(expected && { expected }) });
  const held = (['open', 'fixed', 'shelves'] as const).find((key) => bay[key] !== undefined);
  const shelved = (['fixed', 'shelves'] as const).find((key) => bay[key] !== undefined);
  const other = space.sized === 'width' ? 'height' : 'width';
  if (bay.columns || bay.rows) {
    if (held) say(held, 'a bay that is divided holds nothing itself', 'this in one of its columns or rows');
  } else if (Array.isArray(bay.open) && shelved) {
    say(shelved, 'a bay open in rows is divided by its own shelves already', 'rows, with the shelves in one of them');
  }
  if (bay.open === true && bay.door !== undefined) say('open', 'a bay with a door is not open', 'one or the other');
  if (bay.style !== undefined && bay.door === undefined && bay.drawers === undefined)
    say('style', 'this bay has neither a door nor drawers that could have a style', 'style beside door or drawers');
  for (const key of ['width', 'height'] as const) {
    if (bay[key] === undefined || key === space.sized) continue;
    if (space.sized === undefined) say(key, 'the inside of a case takes its size from the case', `${key} under size`);
    else
      say(
        key,
        `a ${space.sized === 'width' ? 'column' : 'row'} has no ${other} of its own`,
        `${space.sized}, or ${space.sized === 'width' ? 'rows' : 'columns'} inside it`,
      );
  }
}

function record({ draft }: Job, space: Space, inner: Space, kind: BayOpening['kind']): void {
  draft.bays.push({
    id: `${draft.piece}/${space.id || 'inside'}`,
    kind,
    ...(space.title !== undefined && { title: space.title }),
    clear: cuboid(space.open.x, space.open.y, inner.z),
    level: space.level,
  });
}

const child = (
  space: Space,
  i: number,
  bay: Bay,
  kind: 'columns' | 'rows' | 'open',
): Pick<Space, 'id' | 'number' | 'level' | 'path' | 'title' | 'sized'> => {
  const number = space.number ? `${space.number}.${i + 1}` : `${i + 1}`;
  return {
    id: `bay-${number.replaceAll('.', '-')}`,
    number,
    level: space.level + 1,
    path: [...space.path, kind, i],
    title: bay.name,
    sized: kind === 'columns' ? 'width' : 'height',
  };
};

/** Columns from left to right, an upright between each two, behind a stile of the face frame where there is one. */
function divideIntoColumns(job: Job, columns: readonly Bay[], space: Space): void {
  const { draft, habits, oddAtEnd } = job;
  const frame = space.behind ? undefined : habits.frame;
  const t = habits.panel.thickness;
  const m = frame?.stile ?? t;
  const [first, last] = space.open.x;
  const widths = shareOut(
    job,
    last - first - (columns.length - 1) * m,
    columns.map((c) => c.width ?? { share: 1 }),
    oddAtEnd,
    [...space.path, 'columns'],
    'columns',
  );
  if (!widths) return;
  const e = habits.joint === 'dado' ? habits.let : 0;
  const [leftCover, rightCover] = halves(m - habits.gap, oddAtEnd);
  const [shift] = halves(m - t, oddAtEnd);
  let at = first;
  let leftPanel = space.panels.left;
  let leftMember = space.members.left;
  let from = space.x[0];
  for (const [i, column] of columns.entries()) {
    const to = at + widths[i]!;
    const isLast = i === columns.length - 1;
    let upright: DraftPart | undefined;
    let stile: DraftPart | undefined;
    const stands: Span = isLast ? [space.x[1], space.x[1]] : [to + shift, to + shift + t];
    if (!isLast) {
      upright = addPart(draft, {
        ...partOf(space, `upright-${i + 1}`),
        role: 'upright',
        material: habits.panel,
        box: cuboid(stands, [space.y[0] - e, space.y[1] + e], space.z),
        length: 'y',
        thickness: 'x',
        band: frame || !habits.band ? undefined : { ...habits.band, towards: ['front'] },
        path: space.path,
      });
      for (const end of [space.panels.bottom, space.panels.top])
        letInto(draft, 'dado', upright, end, e > 0 ? ['glue', 'brads'] : ['glue', 'screws']);
      join(draft, 'butt', upright, space.back, ['brads']);
      if (frame) {
        stile = addPart(draft, {
          ...partOf(space, `stile-${i + 1}`),
          role: 'stile',
          material: frame.board,
          box: cuboid([to, to + m], space.open.y, [job.carcassFront, space.face]),
          length: 'y',
          thickness: 'z',
          path: space.path,
        });
        for (const end of [space.members.bottom, space.members.top])
          join(draft, 'butt', stile, end, ['glue', 'screws']);
        join(draft, 'applied', stile, upright, ['glue', 'brads']);
      }
    }
    fillBay(job, column, {
      ...space,
      ...child(space, i, column, 'columns'),
      x: [from, stands[0]],
      open: { x: [at, to], y: space.open.y },
      panels: { ...space.panels, left: leftPanel, right: isLast ? space.panels.right : upright },
      members: { ...space.members, left: leftMember, right: isLast ? space.members.right : (stile ?? upright) },
      cover: {
        ...space.cover,
        left: i === 0 ? space.cover.left : rightCover,
        right: isLast ? space.cover.right : leftCover,
      },
    });
    [from, at, leftPanel, leftMember] = [stands[1], to + m, upright, stile ?? upright];
  }
}

/**
 * Rows from the top down, a fixed shelf between each two, its upper face flush with the upper edge of the rail before it where
 * there is a face frame. The shelves of a bay open in rows have no rail and are set back like any other shelf.
 */
function divideIntoRows(job: Job, rows: readonly Bay[], space: Space, kind: 'rows' | 'open'): void {
  const { draft, habits } = job;
  const frame = space.behind || kind === 'open' ? undefined : habits.frame;
  const t = habits.panel.thickness;
  const m = frame?.rail ?? t;
  const heights = shareOut(
    job,
    long(space.open.y) - (rows.length - 1) * m,
    rows.map((r) => r.height ?? { share: 1 }),
    false,
    [...space.path, kind],
    kind === 'open' ? 'open rows' : 'rows',
  );
  if (!heights) return;
  const e = habits.joint === 'dado' ? habits.let : 0;
  const [upperCover, lowerCover] = halves(m - habits.gap);
  const front = kind === 'open' ? Math.min(space.z[1], job.carcassFront - habits.setback) : space.z[1];
  let at = space.open.y[1];
  let topPanel = space.panels.top;
  let topMember = space.members.top;
  let from = space.y[1];
  for (const [i, row] of rows.entries()) {
    const to = at - heights[i]!;
    const isLast = i === rows.length - 1;
    let shelf: DraftPart | undefined;
    let rail: DraftPart | undefined;
    if (!isLast) {
      const wanted: Omit<PartWanted, 'band'> = {
        ...partOf(space, `fixed-shelf-${i + 1}`),
        role: 'fixed shelf',
        material: habits.panel,
        box: cuboid([space.x[0] - e, space.x[1] + e], [to - t, to], [space.z[0], front]),
        length: 'x',
        thickness: 'y',
        path: kind === 'open' ? job.said('setback') : space.path,
      };
      shelf = addPart(draft, {
        ...wanted,
        band: frame || !habits.band ? undefined : { ...habits.band, towards: ['front'] },
      });
      for (const end of [space.panels.left, space.panels.right])
        letInto(draft, 'dado', shelf, end, e > 0 ? ['glue', 'brads'] : ['glue', 'screws']);
      join(draft, 'butt', shelf, space.back, ['brads']);
      if (frame) {
        rail = addPart(draft, {
          ...partOf(space, `rail-${i + 1}`),
          role: 'rail',
          material: frame.board,
          box: cuboid(space.open.x, [to - m, to], [job.carcassFront, space.face]),
          length: 'x',
          thickness: 'z',
          path: space.path,
        });
        for (const end of [space.members.left, space.members.right]) join(draft, 'butt', rail, end, ['glue', 'screws']);
        join(draft, 'applied', rail, shelf, ['glue', 'brads']);
      }
    }
    const below = isLast ? space.y[0] : to;
    fillBay(job, row, {
      ...space,
      ...child(space, i, row, kind),
      y: [below, from],
      open: { x: space.open.x, y: [to, at] },
      panels: { ...space.panels, top: topPanel, bottom: isLast ? space.panels.bottom : shelf },
      members: { ...space.members, top: topMember, bottom: isLast ? space.members.bottom : (rail ?? shelf) },
      cover: {
        ...space.cover,
        top: i === 0 ? space.cover.top : lowerCover,
        bottom: isLast ? space.cover.bottom : upperCover,
      },
    });
    [from, at, topPanel, topMember] = [to - t, to - m, shelf, rail ?? shelf];
  }
}
