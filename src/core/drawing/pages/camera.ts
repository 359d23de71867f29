import {
  clipToFrame,
  drawBoxes,
  type Framed,
  framesOf,
  project,
  sightOf,
  viewBoxes,
  visibleParts,
} from '../../camera/index.ts';
import { add, scale, subtract, type Vec3, vec } from '../../geometry/index.ts';
import { type Area, area, group, line, point, polygon, rectangle } from '../draw.ts';
import type { Mark, Point } from '../marks.ts';
import type { Desk } from './desk.ts';
import { tableOf, tables } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** One page for each camera: its picture as a line drawing, and the figures of the lens. */
export function cameraPages(desk: Desk): readonly Draft[] {
  return framesOf(desk.input).map((framed): Draft => {
    const { body } = desk.sheet;
    const aspect = framed.camera.width / framed.camera.height;
    const width = Math.min(body.width * 0.62, body.height * 0.95 * aspect);
    const picture = area(body.x, body.y, width, width / aspect);
    const rest = area(picture.x + width + 7, body.y, body.width - width - 7, body.height);
    const { letter } = desk;
    const figures = [
      ['sensor', framed.piece.sensor],
      ['focal length', `${framed.piece.focal} mm`],
      ['angle of view', `${framed.angle.across.toFixed(1)}° × ${framed.angle.high.toFixed(1)}°`],
      ['focused at', letter.length(framed.focus)],
      ['frame there', `${letter.length(framed.frame.width)} × ${letter.length(framed.frame.height)}`],
      ['sharp from', letter.length(framed.near)],
      ['to', Number.isFinite(framed.far) ? letter.length(framed.far) : 'everything beyond'],
      ['stop, shutter', `f/${framed.piece.stop}, 1/${framed.piece.shutter} s`],
    ] as const;
    const people = framed.sitters.flatMap(({ sitter, round }) => (round ? [{ sitter, round }] : []));
    const seen = framed.seen.filter((s) => s.seen > 0.005).toSorted((a, b) => b.seen - a.seen);
    const percent = (v: number): string => `${Math.round(100 * v)} %`.replace('-', '−');
    return {
      id: `camera-${framed.id}`,
      chapter: 'Camera',
      title: `Picture of ${framed.title}`,
      marks: [
        ...pictureMarks(desk, framed, picture),
        ...tables(rest, [
          {
            head: 'Lens',
            draw: tableOf<(typeof figures)[number]>(
              [
                { head: 'figure', cell: (r) => r[0] },
                { head: 'value', cell: (r) => r[1], share: 1 },
              ],
              figures,
            ),
          },
          {
            head: 'Room round the people',
            draw: tableOf<(typeof people)[number]>(
              [
                { head: 'who', cell: (r) => r.sitter.title, share: 1 },
                { head: 'above', cell: (r) => percent(r.round.above), align: 'right' },
                { head: 'left', cell: (r) => percent(r.round.left), align: 'right' },
                { head: 'right', cell: (r) => percent(r.round.right), align: 'right' },
              ],
              people,
            ),
          },
          {
            head: 'What is seen',
            draw: tableOf<(typeof seen)[number]>(
              [
                { head: 'piece', cell: (r) => r.title, share: 1 },
                { head: 'seen', cell: (r) => percent(r.seen), align: 'right' },
                { head: 'blur, px', cell: (r) => r.blur.toFixed(0), align: 'right' },
              ],
              seen.slice(0, 7),
            ),
          },
        ]),
      ],
    };
  });
}

function pictureMarks(desk: Desk, { camera, sitters }: Framed, into: Area): readonly Mark[] {
  const sight = sightOf(camera);
  const k = into.width / camera.width;
  const on = (p: { readonly x: number; readonly y: number }): Point =>
    point(into.x + into.width / 2 + p.x * k, into.y + into.height / 2 - p.y * k);
  const inside = (p: Point): Point =>
    point(Math.min(Math.max(p.x, into.x), into.x + into.width), Math.min(Math.max(p.y, into.y), into.y + into.height));
  const all = viewBoxes(desk.input);
  const boxes = all.map((b) => b.box);
  const draw = (a: Vec3, b: Vec3): readonly Mark[] => {
    const window = clipToFrame(camera, a, b, sight);
    if (!window) return [];
    const along = (t: number): Vec3 => add(a, scale(subtract(b, a), t));
    const [start, end] = [along(window[0]), along(window[1])];
    return visibleParts(camera.at, start, end, boxes).flatMap(([t0, t1]) => {
      const way = subtract(end, start);
      const p = project(camera, add(start, scale(way, t0)), sight);
      const q = project(camera, add(start, scale(way, t1)), sight);
      if (!p || !q) return [];
      const [f, t] = [inside(on(p)), inside(on(q))];
      return [line(f.x, f.y, t.x, t.y, 'visible')];
    });
  };
  const { outline, ceiling } = desk.input.room;
  const room = outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    return [
      ...draw(vec(a.x, 0, a.z), vec(b.x, 0, b.z)),
      ...draw(vec(a.x, ceiling, a.z), vec(b.x, ceiling, b.z)),
      ...draw(vec(a.x, 0, a.z), vec(a.x, ceiling, a.z)),
    ];
  });
  const edges = drawBoxes(camera, boxes).map((l): Mark => {
    const [f, t] = [inside(on(l.from)), inside(on(l.to))];
    return line(f.x, f.y, t.x, t.y, 'thin');
  });
  // Farthest first: a nearer sitter covers a farther one.
  const people = sitters
    .toSorted((a, b) => b.depth - a.depth)
    .flatMap(({ sitter, depth }): readonly Mark[] => {
      const top = project(camera, sitter.head, sight);
      if (!top || depth <= 0) return [];
      const real = (mm: number): number => (camera.focal * mm) / top.depth;
      const body = (points: readonly (readonly [number, number])[]): Mark =>
        polygon(
          points.map(([x, y]) => inside(on({ x: top.x + real(x), y: top.y + real(y) }))),
          { pen: 'outline', fill: 'paper' },
        );
      const half = sitter.shoulder / 2;
      const ring = Array.from({ length: 24 }, (_, i): readonly [number, number] => {
        const a = (i * Math.PI) / 12;
        return [80 * Math.sin(a), -115 + 115 * Math.cos(a)];
      });
      return [
        group(
          sitter.id,
          [
            body([
              [-half, -900],
              [-half, -420],
              [-half * 0.8, -330],
              [-60, -270],
              [60, -270],
              [half * 0.8, -330],
              [half, -420],
              [half, -900],
            ]),
            body(ring),
          ],
          sitter.title,
        ),
      ];
    });
  const third = (n: number): readonly Mark[] => [
    line(into.x + (into.width * n) / 3, into.y, into.x + (into.width * n) / 3, into.y + into.height, 'ghost', 'faint'),
    line(into.x, into.y + (into.height * n) / 3, into.x + into.width, into.y + (into.height * n) / 3, 'ghost', 'faint'),
  ];
  return [...room, ...edges, ...people, ...third(1), ...third(2), rectangle(into, { pen: 'outline' })];
}
