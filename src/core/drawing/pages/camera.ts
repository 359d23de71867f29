import {
  arrangementsOf,
  clipToFrame,
  drawBoxes,
  type Filling,
  type Framed,
  fillsOf,
  framesOf,
  type ImagePoint,
  project,
  sightOf,
  sitsIn,
  uncovered,
  viewBoxes,
  visibleParts,
} from '../../camera/index.ts';
import { add, scale, subtract, type Vec3, vec } from '../../geometry/index.ts';
import { pointOnWall } from '../../room/index.ts';
import { tiledWalls } from '../../sound/index.ts';
import { type Area, area, below, extentOf, group, line, point, rectangle } from '../draw.ts';
import type { Mark, Pen, Point } from '../marks.ts';
import type { Desk } from './desk.ts';
import { flow, pagesOf, tableOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** Less room than this is not begun, mm: the columns of a table, its head and a few rows. */
const LEAST_FREE = { width: 68, height: 24 } as const;

/** One page for each camera: its picture as a line drawing, and the figures of the lens. */
export function cameraPages(desk: Desk): readonly Draft[] {
  return framesOf(desk.input).flatMap((framed) => cameraPage(desk, framed));
}

function cameraPage(desk: Desk, framed: Framed): readonly Draft[] {
  const { body } = desk.sheet;
  const aspect = framed.camera.width / framed.camera.height;
  const width = Math.min(body.width * 0.62, body.height * 0.62 * aspect);
  const picture = area(body.x, body.y, width, width / aspect);
  const rest = area(picture.x + width + 7, body.y, body.width - width - 7, body.height);
  const under = area(body.x, picture.y + picture.height + 5, width, body.height - picture.height - 5);
  const half = (under.width - 7) / 2;
  const low = flow(tablesUnder(desk, framed), (k) =>
    k < 2 ? area(under.x + k * (half + 7), under.y, half, under.height) : area(under.x, under.y + 1e4 * k, half, 1e4),
  ).slice(0, 2);
  // what finds no room beside the picture goes on under it
  const second = extentOf(low[1] ?? []);
  const top = second ? below(second) + 5 : under.y;
  const free = area(under.x + half + 7, top, half, below(under) - top);
  return pagesOf(
    desk,
    {
      id: `camera-${framed.id}`,
      chapter: 'Camera',
      title: `Picture of ${framed.title}`,
      marks: [...pictureMarks(desk, framed, picture), ...low.flat()],
    },
    free.width < LEAST_FREE.width || free.height < LEAST_FREE.height ? [rest] : [rest, free],
    [lensTable(desk, framed), peopleTable(desk, framed), seenTable(desk, framed)],
  );
}

const percent = (v: number): string => `${Math.round(100 * v)} %`.replace('-', '−');

const tablesUnder = ({ input, letter }: Desk, { camera, silhouettes, rows }: Framed) => [
  tableOf<Filling>(
    'What fills the picture',
    [
      { head: 'of it', cell: (f) => percent(f.share), align: 'right' },
      { head: 'what', cell: (f) => f.title, share: 1 },
    ],
    fillsOf(input, camera, silhouettes)
      .filter((f) => f.share >= 0.005)
      .slice(0, 9),
  ),
  tableOf<Framed['rows'][number]>(
    'People side by side',
    [
      { head: 'people', cell: (r) => `${r.people}`, align: 'right' },
      { head: 'take', cell: (r) => letter.length(r.width), align: 'right' },
      { head: 'fill the picture from', cell: (r) => letter.length(r.distance), align: 'right' },
      { head: '', cell: () => '', share: 1 },
    ],
    rows,
  ),
];

function lensTable({ letter }: Desk, { piece, camera, angle, tilt, focus, frame, near, far }: Framed) {
  const looks = Math.abs(tilt) < 0.5 ? 'level' : `${Math.abs(tilt).toFixed(1)}° ${tilt < 0 ? 'down' : 'up'}`;
  const figures = [
    ['sensor, lens', `${piece.sensor}, ${piece.focal} mm`],
    ['angle of view', `${angle.across.toFixed(1)}° × ${angle.high.toFixed(1)}°`],
    ['lens stands', `${letter.length(camera.at.y)} above the floor`],
    ['looks', looks],
    ['focused at', letter.length(focus)],
    ['frame there', `${letter.length(frame.width)} × ${letter.length(frame.height)}`],
    ['sharp from', `${letter.length(near)} ${Number.isFinite(far) ? `to ${letter.length(far)}` : 'on'}`],
    ['stop, shutter', `f/${piece.stop}, 1/${piece.shutter} s`],
  ] as const;
  return tableOf<(typeof figures)[number]>(
    'Lens',
    [
      { head: 'figure', cell: (r) => r[0] },
      { head: 'value', cell: (r) => r[1], share: 1 },
    ],
    figures,
  );
}

function peopleTable({ input }: Desk, { id }: Framed) {
  const people = arrangementsOf(input).flatMap(({ name, staged }) =>
    (framesOf(staged).find((f) => f.id === id)?.sitters ?? []).flatMap(({ sitter, round, depth }) =>
      round ? [{ name, sitter, round, depth }] : [],
    ),
  );
  const several = new Set(people.map((p) => p.name)).size > 1;
  return tableOf<(typeof people)[number]>(
    'Room round the people',
    [
      ...(several ? [{ head: 'desk', cell: (r: (typeof people)[number]) => r.name, most: 22 }] : []),
      { head: 'who', cell: (r) => r.sitter.title, share: 1 },
      { head: 'above', cell: (r) => percent(r.round.above), align: 'right' },
      { head: 'left', cell: (r) => percent(r.round.left), align: 'right' },
      { head: 'right', cell: (r) => percent(r.round.right), align: 'right' },
    ],
    people,
  );
}

function seenTable({ letter }: Desk, { seen, fronts }: Framed) {
  const most = seen.filter((s) => s.seen > 0.005).toSorted((a, b) => b.seen - a.seen);
  const hidden = new Map(fronts.map((f) => [f.id, f.hidden]));
  return tableOf<(typeof most)[number]>(
    'What is seen of the set',
    [
      { head: 'piece', cell: (r) => r.title, share: 1 },
      { head: 'seen', cell: (r) => percent(r.seen), align: 'right' },
      { head: 'focus', cell: (r) => (r.blur < 2 ? 'sharp' : `soft, ${r.blur.toFixed(0)} px`) },
      {
        head: 'front hides',
        cell: (r) => {
          const h = hidden.get(r.id);
          return h === undefined ? '' : h > 0 ? letter.length(h) : 'nothing';
        },
        align: 'right',
      },
    ],
    most.slice(0, 10),
  );
}

/** The view itself: edges of what stands there, the room, openings, tiles and people, what is hidden left out. */
function pictureMarks(desk: Desk, { camera, silhouettes }: Framed, into: Area): readonly Mark[] {
  const sight = sightOf(camera);
  const k = into.width / camera.width;
  const on = (p: { readonly x: number; readonly y: number }): Point =>
    point(into.x + into.width / 2 + p.x * k, into.y + into.height / 2 - p.y * k);
  const inside = (p: Point): Point =>
    point(Math.min(Math.max(p.x, into.x), into.x + into.width), Math.min(Math.max(p.y, into.y), into.y + into.height));
  const boxes = viewBoxes(desk.input)
    .map((b) => b.box)
    .filter((b) => !silhouettes.some(({ sitter }) => sitsIn(sitter, b)));
  const covers = silhouettes.flatMap((s) =>
    s.outlines.flatMap((o) => {
      const polygon = o.flatMap((v) => project(camera, v, sight) ?? []);
      return polygon.length === o.length ? [{ polygon, depth: s.depth }] : [];
    }),
  );
  const put = (from: ImagePoint, to: ImagePoint, pen: Pen, own?: number): readonly Mark[] =>
    uncovered({ from, to }, own === undefined ? covers : covers.filter((c) => c.depth < own - 1)).map((l) => {
      const [f, t] = [inside(on(l.from)), inside(on(l.to))];
      return line(f.x, f.y, t.x, t.y, pen);
    });
  const draw = (a: Vec3, b: Vec3, pen: Pen, own?: number): readonly Mark[] => {
    const window = clipToFrame(camera, a, b, sight);
    if (!window) return [];
    const along = (t: number): Vec3 => add(a, scale(subtract(b, a), t));
    const [start, end] = [along(window[0]), along(window[1])];
    return visibleParts(camera.at, start, end, boxes).flatMap(([t0, t1]) => {
      const way = subtract(end, start);
      const p = project(camera, add(start, scale(way, t0)), sight);
      const q = project(camera, add(start, scale(way, t1)), sight);
      return p && q ? put(p, q, pen, own) : [];
    });
  };
  const closed = (corners: readonly Vec3[], pen: Pen, own?: number): readonly Mark[] =>
    corners.flatMap((a, i) => draw(a, corners[(i + 1) % corners.length]!, pen, own));
  const { outline, ceiling, walls, openings, services } = desk.input.room;
  const faces = outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    return [
      ...draw(vec(a.x, 0, a.z), vec(b.x, 0, b.z), 'visible'),
      ...draw(vec(a.x, ceiling, a.z), vec(b.x, ceiling, b.z), 'visible'),
      ...draw(vec(a.x, 0, a.z), vec(a.x, ceiling, a.z), 'visible'),
    ];
  });
  // A rectangle on a wall, a hair before it.
  const onWall = (
    id: string,
    r: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
    out: number,
    pen: Pen,
  ): readonly Mark[] => {
    const wall = walls.find((w) => w.id === id);
    if (!wall) return [];
    const at = (x: number, y: number): Vec3 => pointOnWall(wall, x, y, out);
    return closed(
      [at(r.x, r.y), at(r.x + r.width, r.y), at(r.x + r.width, r.y + r.height), at(r.x, r.y + r.height)],
      pen,
    );
  };
  const holes = [...openings, ...services].flatMap((o) =>
    onWall(o.wall, { x: o.x[0], y: o.y[0], width: o.x[1] - o.x[0], height: o.y[1] - o.y[0] }, 1, 'visible'),
  );
  const tiles = tiledWalls(desk.input).flatMap((t) => {
    const body = desk.input.pieces.find((p) => p.id === t.piece.absorber);
    const out = (body?.outside.max.z ?? t.piece.size.depth) + 0.5;
    return t.laid.flatMap((tile) => onWall(t.wall, tile, out, 'thin'));
  });
  const edges = drawBoxes(camera, boxes).flatMap((l) => put(l.from, l.to, 'thin'));
  const people = silhouettes.map((s) =>
    group(
      s.sitter.id,
      s.outlines.flatMap((o, i) => (i === 2 ? neckLines(o, draw, s.depth) : closed(o, 'outline', s.depth))),
      s.sitter.title,
    ),
  );
  const third = (n: number): readonly Mark[] => [
    line(into.x + (into.width * n) / 3, into.y, into.x + (into.width * n) / 3, into.y + into.height, 'ghost', 'faint'),
    line(into.x, into.y + (into.height * n) / 3, into.x + into.width, into.y + (into.height * n) / 3, 'ghost', 'faint'),
  ];
  return [
    ...third(1),
    ...third(2),
    ...faces,
    ...holes,
    ...tiles,
    ...edges,
    ...people,
    rectangle(into, { pen: 'outline' }),
  ];
}

/** The two sides of the neck, between chin and collar. */
function neckLines(
  [a, b, c, d]: readonly Vec3[],
  draw: (from: Vec3, to: Vec3, pen: Pen, own?: number) => readonly Mark[],
  depth: number,
): readonly Mark[] {
  const low = (from: Vec3, to: Vec3): readonly Mark[] =>
    draw(add(from, vec(0, 10, 0)), add(to, vec(0, -14, 0)), 'outline', depth);
  return [...low(a!, b!), ...low(d!, c!)];
}
