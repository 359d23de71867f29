import { type Vec3, vec } from '../../geometry/index.ts';
import { bodyOf } from '../../surroundings/index.ts';
import { type Area, area, LETTER, polygon, text, textArea } from '../draw.ts';
import { type Places, placesIn, takeFirst } from '../layout/place.ts';
import { type Column, layTable } from '../layout/table.ts';
import type { Mark, Point } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { onPaper } from '../view/view.ts';
import type { Desk } from './desk.ts';

/** The bare plan that the pages of light, sound and wiring are drawn on: walls, and what stands in the room in thin lines. */
export function setPlan(desk: Desk, into: Area) {
  const { outline } = desk.input.room;
  const [xs, zs] = [outline.map((p) => p.x), outline.map((p) => p.z)];
  const { place, scale } = layView({
    u: [Math.min(...xs), Math.max(...xs)],
    v: [Math.min(...zs), Math.max(...zs)],
    into,
    letter: desk.letter,
    stand: 'top',
  });
  const at = (p: Vec3): Point => onPaper(place, p.x, p.z);
  const boxes = desk.input.pieces
    .filter((p) => !['lamp', 'strip', 'camera', 'seat'].includes(p.kind))
    .map((p): Mark => {
      const { min, max } = bodyOf(p);
      return polygon([vec(min.x, 0, min.z), vec(max.x, 0, min.z), vec(max.x, 0, max.z), vec(min.x, 0, max.z)].map(at), {
        pen: 'thin',
        tone: 'faint',
      });
    });
  const places: Places = placesIn(into);
  return { marks: [...boxes, polygon(outline.map(at), { pen: 'wall' })], at, place, scale, places };
}

/** Words near a point, where nothing else is written; nothing when there is no room. */
export function wordsAt(places: Places, at: Point, words: string, bold = false): readonly Mark[] {
  const spots = [4, 6, 9, 12, 16].flatMap((far) =>
    [
      [0, -1],
      [0, 1],
      [1, 0],
      [-1, 0],
    ].map(([dx, dy]) =>
      text(at.x + dx! * far * 2, at.y + dy! * far, words, { align: 'centre', anchor: 'middle', bold }),
    ),
  );
  const found = takeFirst(
    places,
    spots.map((mark) => ({ mark, area: textArea(mark) })),
  );
  return found ? [found.mark] : [];
}

/** Tables under one another with their headings; what has no room is left out and said so by the caller's own count. */
export function tables(
  into: Area,
  all: readonly {
    readonly head: string;
    readonly draw: (place: Area) => { readonly marks: readonly Mark[]; readonly end: number };
  }[],
): readonly Mark[] {
  const marks: Mark[] = [];
  let y = into.y;
  for (const { head, draw } of all) {
    const place = area(into.x, y + 7, into.width, into.y + into.height - y - 7);
    const drawn = draw(place);
    if (drawn.end > into.y + into.height) break;
    marks.push(text(into.x, y + 4, head, { height: LETTER.head, bold: true }), ...drawn.marks);
    y = drawn.end + 5;
  }
  return marks;
}

export const tableOf =
  <R>(columns: readonly Column<R>[], rows: readonly R[]) =>
  (place: Area): { readonly marks: readonly Mark[]; readonly end: number } => {
    const { pieces, end } = layTable(
      columns,
      rows.map((row) => ({ row })),
      () => ({ ...place, height: 1000 }),
    );
    return { marks: pieces.flat(), end };
  };
