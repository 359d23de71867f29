import { type Area, area, line, point, rectangle } from '../draw.ts';
import type { Hatch, Mark, Pen, Point } from '../marks.ts';
import type { Seen } from './hidden-lines.ts';

/** A view laid on the paper: where its (u, v) = (0, 0) lies, and how many real mm one mm of paper stands for. */
export interface Placement {
  readonly origin: Point;
  readonly ratio: number;
}
export const onPaper = ({ origin, ratio }: Placement, u: number, v: number): Point =>
  point(origin.x + u / ratio, origin.y + v / ratio);
export const areaOnPaper = (place: Placement, u: readonly [number, number], v: readonly [number, number]): Area => {
  const { x, y } = onPaper(place, u[0], v[0]);
  return area(x, y, (u[1] - u[0]) / place.ratio, (v[1] - v[0]) / place.ratio);
};

/** Puts a view of real extent [u], [v] into an area: in its middle, on its lower edge or at its upper edge. */
export function placed(
  u: readonly [number, number],
  v: readonly [number, number],
  ratio: number,
  into: Area,
  stand: 'middle' | 'floor' | 'top' = 'middle',
): Placement {
  const [width, height] = [(u[1] - u[0]) / ratio, (v[1] - v[0]) / ratio];
  const share = { top: 0, middle: 0.5, floor: 1 }[stand];
  const x = into.x + (into.width - width) / 2 - u[0] / ratio;
  const y = into.y + (into.height - height) * share - v[0] / ratio;
  return { origin: point(x, y), ratio };
}

/** What is seen, as marks: hatched sections first, then lines, outlines last so that they lie on top. */
export function drawSeen(
  view: Seen,
  place: Placement,
  { hatch, over }: { readonly hatch?: (owner: string) => Hatch; readonly over?: (owner: string) => boolean } = {},
): readonly Mark[] {
  const hatches = (view.cut ? view.shown() : [])
    .filter((s) => s.cut)
    .map(
      (cut): Mark =>
        rectangle(areaOnPaper(place, cut.u, cut.v), {
          hatch: hatch?.(cut.owner) ?? 'panel',
          ...(over?.(cut.owner) && { hatchOver: true }),
        }),
    );
  const lines = (weight: 'visible' | 'outline'): readonly Mark[] =>
    view.edges
      .filter((e) => e.weight === weight)
      .map(({ from, to }) => {
        const [a, b] = [onPaper(place, from[0], from[1]), onPaper(place, to[0], to[1])];
        return line(a.x, a.y, b.x, b.y, weight);
      });
  return [...hatches, ...lines('visible'), ...lines('outline')];
}

/** The edges of one view that lie where another shows something in front of them, drawn with another pen. */
export function drawBehind(
  behind: Seen,
  front: readonly { readonly u: readonly [number, number]; readonly v: readonly [number, number] }[],
  place: Placement,
  pen: Pen = 'hidden',
): readonly Mark[] {
  return behind.edges.flatMap(({ from, to }) =>
    front.flatMap(({ u, v }): readonly Mark[] => {
      const upright = from[0] === to[0];
      const across = upright ? from[0] : from[1];
      const [limits, span] = upright ? [u, v] : [v, u];
      if (across <= limits[0] + 1e-6 || across >= limits[1] - 1e-6) return [];
      const start = Math.max(upright ? from[1] : from[0], span[0]);
      const end = Math.min(upright ? to[1] : to[0], span[1]);
      if (end - start < 1e-6) return [];
      const [a, b] = upright
        ? [onPaper(place, across, start), onPaper(place, across, end)]
        : [onPaper(place, start, across), onPaper(place, end, across)];
      return [line(a.x, a.y, b.x, b.y, pen)];
    }),
  );
}
