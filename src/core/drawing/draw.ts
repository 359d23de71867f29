import { textWidth } from './font/measure.ts';
import type { Hatch, Mark, Pen, Point, Tone } from './marks.ts';

/** Short ways of writing marks, and what can be known of them: their extent, and themselves moved. */
export type TextMark = Extract<Mark, { kind: 'text' }>;
export type ShapeMark = Extract<Mark, { kind: 'shape' }>;
export type LineMark = Extract<Mark, { kind: 'line' }>;

/** A rectangle of the paper. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export const area = (x: number, y: number, width: number, height: number): Area => ({ x, y, width, height });
export const right = (a: Area): number => a.x + a.width;
export const below = (a: Area): number => a.y + a.height;
export const overlaps = (a: Area, b: Area, slack = 0): boolean =>
  a.x + slack < right(b) && b.x + slack < right(a) && a.y + slack < below(b) && b.y + slack < below(a);
export const holds = (outer: Area, inner: Area, slack = 1e-6): boolean =>
  inner.x >= outer.x - slack &&
  inner.y >= outer.y - slack &&
  right(inner) <= right(outer) + slack &&
  below(inner) <= below(outer) + slack;

/** With so much more on every side. */
export const padded = ({ x, y, width, height }: Area, by: number): Area =>
  area(x - by, y - by, width + 2 * by, height + 2 * by);

/** The four sides of an area, as flat areas. */
export const edgesOfArea = ({ x, y, width, height }: Area): readonly Area[] => [
  area(x, y, width, 0),
  area(x, y + height, width, 0),
  area(x, y, 0, height),
  area(x + width, y, 0, height),
];

export const point = (x: number, y: number): Point => ({ x, y });

/** Sizes of lettering in mm of capital height. Source: ISO 3098-1:2015, nominal sizes h. Nothing is smaller than the first. */
export const LETTER = { small: 2.5, head: 3.5, title: 5, cover: 7 } as const;

export const line = (x1: number, y1: number, x2: number, y2: number, pen: Pen = 'thin', tone?: Tone): LineMark => ({
  kind: 'line',
  from: { x: x1, y: y1 },
  to: { x: x2, y: y2 },
  pen,
  ...(tone && { tone }),
});

export interface ShapeStyle {
  readonly pen?: Pen;
  readonly fill?: Tone;
  readonly swatch?: string;
  readonly hatch?: Hatch;
  readonly hatchOver?: boolean;
  readonly tone?: Tone;
}
export const rectangle = (a: Area, style: ShapeStyle): ShapeMark =>
  polygon([point(a.x, a.y), point(right(a), a.y), point(right(a), below(a)), point(a.x, below(a))], style);
export const polygon = (points: readonly Point[], style: ShapeStyle): ShapeMark => ({
  kind: 'shape',
  points,
  closed: true,
  ...style,
});
export const polyline = (points: readonly Point[], pen: Pen, tone?: Tone): ShapeMark => ({
  kind: 'shape',
  points,
  closed: false,
  pen,
  ...(tone && { tone }),
});

export type TextStyle = Partial<Omit<TextMark, 'kind' | 'at' | 'text'>>;
export const text = (x: number, y: number, words: string, style: TextStyle = {}): TextMark => ({
  kind: 'text',
  at: { x, y },
  text: words,
  height: LETTER.small,
  ...style,
});

export const group = (about: string, marks: readonly Mark[], title?: string): Mark => ({
  kind: 'group',
  about,
  marks,
  ...(title !== undefined && { title }),
});

/** How far a letter reaches below its line, as a share of the capital height (Source Sans 3: g, j, p, q, y). */
const DESCENT = 0.32;
/** Accents and quotes reach above the capitals. */
const ASCENT = 1.18;

/** The four corners of a line of text on the paper, turned as it is. */
function textCorners(mark: TextMark): readonly Point[] {
  const width = textWidth(mark.text, mark.height, mark.bold);
  const left = mark.align === 'right' ? -width : mark.align === 'centre' ? -width / 2 : 0;
  const base = mark.anchor === 'middle' ? mark.height / 2 : 0;
  const [top, bottom] = [base - mark.height * ASCENT, base + mark.height * DESCENT];
  const angle = ((mark.turn ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [left, top],
    [left + width, top],
    [left + width, bottom],
    [left, bottom],
  ].map(([x, y]) => point(mark.at.x + c * x! - s * y!, mark.at.y + s * x! + c * y!));
}

/** Every point that matters to where a mark reaches. Pens are thin and left out. */
function* corners(marks: readonly Mark[]): Generator<Point> {
  for (const mark of marks) {
    if (mark.kind === 'group') yield* corners(mark.marks);
    else if (mark.kind === 'line') yield* [mark.from, mark.to];
    else if (mark.kind === 'shape') yield* mark.points;
    else if (mark.kind === 'text') yield* textCorners(mark);
    else if (mark.kind === 'code') yield* [mark.at, point(mark.at.x + mark.size, mark.at.y + mark.size)];
    else {
      const { centre, radius } = mark;
      yield* [point(centre.x - radius, centre.y - radius), point(centre.x + radius, centre.y + radius)];
    }
  }
}

/** The least area that holds all marks; undefined when there are none. */
export function extentOf(marks: readonly Mark[]): Area | undefined {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of corners(marks)) {
    [x0, y0] = [Math.min(x0, x), Math.min(y0, y)];
    [x1, y1] = [Math.max(x1, x), Math.max(y1, y)];
  }
  return x0 > x1 ? undefined : area(x0, y0, x1 - x0, y1 - y0);
}
export const textArea = (mark: TextMark): Area => extentOf([mark])!;

/** Every text mark, out of its groups. */
export function textsOf(marks: readonly Mark[]): readonly TextMark[] {
  return marks.flatMap((m) => (m.kind === 'group' ? textsOf(m.marks) : m.kind === 'text' ? [m] : []));
}

/** The same marks elsewhere on the paper. */
export function moved(marks: readonly Mark[], dx: number, dy: number): readonly Mark[] {
  const by = (p: Point): Point => point(p.x + dx, p.y + dy);
  return marks.map((mark): Mark => {
    if (mark.kind === 'line') return { ...mark, from: by(mark.from), to: by(mark.to) };
    if (mark.kind === 'shape') return { ...mark, points: mark.points.map(by) };
    if (mark.kind === 'circle' || mark.kind === 'arc') return { ...mark, centre: by(mark.centre) };
    if (mark.kind === 'group') return { ...mark, marks: moved(mark.marks, dx, dy) };
    return { ...mark, at: by(mark.at) };
  });
}
