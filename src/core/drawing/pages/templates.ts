import { wallCalled } from '../../called.ts';
import { isInches } from '../../quantity/index.ts';
import { type HoleMark, settingOut, type WallSettingOut } from '../../setting-out/index.ts';
import { type Area, area, LETTER, line, overlaps, point, polygon, rectangle, text, textArea } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { headingAt } from '../layout/standing.ts';
import { LEADING } from '../layout/table.ts';
import { type Mark, PAPERS } from '../marks.ts';
import type { Desk } from './desk.ts';
import { wallInputOf } from './setting-out.ts';
import type { Draft } from './sheet.ts';

const EDGE = 10;
const TOP = 27;
const OVERLAP = 12;
/** Paper round the outermost holes, mm. */
const MARGIN = 9;
/** Paper along the wall that the words beside the first hole take, mm. */
const WORDS = 80;
/** Holes further apart than this along the wall are measured from the lines: paper creeps, and nobody tapes so many sheets. Common practice. */
const LONGEST = 1300;

/** Full-size drilling templates for what has its holes close together: displays and wall plates of shelves, over as many sheets as it takes. */
export const templatePages = (desk: Desk): readonly Draft[] =>
  settingOut(wallInputOf(desk)).flatMap((wall) =>
    wall.pieces.flatMap((piece) => {
      const holes = wall.holes.filter((h) => h.point.piece === piece.piece);
      const kind = desk.input.pieces.find((p) => p.id === piece.piece)?.kind;
      if (holes.length < 2 || (kind !== 'display' && kind !== 'shelf')) return [];
      const across = holes.map((h) => h.across);
      return Math.max(...across) - Math.min(...across) > LONGEST ? [] : template(desk, wall, piece.title, holes);
    }),
  );

function template(
  desk: Desk,
  { wall, plumb, level }: WallSettingOut,
  title: string,
  holes: readonly HoleMark[],
): readonly Draft[] {
  const { letter, paper } = desk;
  const { width, height } = PAPERS[paper];
  const inches = isInches(letter.unit);
  const xs = holes.map((h) => h.point.x);
  const ys = holes.map((h) => h.point.y);
  const box = {
    x: [Math.min(...xs) - MARGIN, Math.max(Math.max(...xs) + MARGIN, Math.min(...xs) + WORDS)] as const,
    y: [Math.min(...ys) - MARGIN, Math.max(...ys) + MARGIN] as const,
  };
  // along the wall runs down the sheet, so that a long low template takes few of them
  const long = height - TOP - 2 * EDGE;
  const short = width - 2 * EDGE;
  const low = box.y[1] - box.y[0];
  const lanes = low <= short ? Math.max(1, Math.floor((short + 4) / (low + 4))) : 1;
  const columns = Math.max(1, Math.ceil((box.x[1] - box.x[0] - OVERLAP) / (long - OVERLAP)));
  const rows = low <= short ? 1 : Math.ceil((low - OVERLAP) / (short - OVERLAP));
  const tiles = Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c) => ({
      r,
      c,
      x: box.x[0] + c * (long - OVERLAP),
      y: rows === 1 ? box.y[0] : box.y[0] + r * (short - OVERLAP),
    })),
  ).flat();
  const sheets = Math.ceil(tiles.length / (rows === 1 ? lanes : 1));
  const each = rows === 1 ? lanes : 1;
  const check = inches ? 4 * 25.4 : 100;
  return Array.from({ length: sheets }, (_, s): Draft => {
    const words = wrapText(
      `Full size: print at 100 %, without fitting to the page. Turn the sheet so that the arrow points up. Tape the sheets at their letters, level the long line on the wall at its height, put the cross line at its distance from the left end of the wall, tape it up and prick every centre through. Check two holes against the drilling table before drilling.`,
      LETTER.small,
      width - 2 * EDGE,
    );
    const marks: Mark[] = [
      ...headingAt(EDGE, EDGE + 4, `Template for ${title}, ${wallCalled(wall.id)}`, width - 2 * EDGE - check - 6),
      ...words.map((w, i) => text(EDGE, EDGE + 13 + i * LEADING, w)),
      line(width - EDGE - check, EDGE + 4, width - EDGE, EDGE + 4, 'visible'),
      line(width - EDGE - check, EDGE + 2.5, width - EDGE - check, EDGE + 5.5, 'visible'),
      line(width - EDGE, EDGE + 2.5, width - EDGE, EDGE + 5.5, 'visible'),
      text(width - EDGE - check / 2, EDGE + 7.8, `check with a tape: ${letter.length(check)}`, { align: 'centre' }),
    ];
    for (const [lane, tile] of tiles.slice(s * each, (s + 1) * each).entries()) {
      const wide = rows === 1 ? low : short;
      const left = EDGE + lane * (wide + 4);
      const top = EDGE + TOP;
      const end = Math.min(box.x[1], tile.x + long);
      const high = rows === 1 ? box.y[1] : Math.min(box.y[1], tile.y + short);
      // turned a quarter anticlockwise onto the wall: up lies to the right on the sheet, to the right lies down it
      const at = (x: number, y: number) => point(left + (y - tile.y), top + (x - tile.x));
      const frame = area(left, top, high - tile.y, end - tile.x);
      marks.push(rectangle(frame, { pen: 'thin', tone: 'faint' }));
      marks.push(...upArrow(frame.x + frame.width - 2, top + 4));
      const levelY = nearestRow(ys);
      const free = freeFrom(
        xs.map((x) => at(x, 0).y),
        frame.y + 14,
        frame.y + frame.height,
      );
      if (levelY >= tile.y && levelY <= high) {
        const { x } = at(tile.x, levelY);
        marks.push(line(x, frame.y, x, frame.y + frame.height, 'centre'));
        if (tile.c === 0) marks.push(along(`level, ${letter.length(levelY)} above the floor`, x + 1.2, free));
      }
      const first = Math.min(...xs);
      const drawn: Area[] = [];
      for (const hole of holes) {
        const { x, y } = hole.point;
        if (x < tile.x - 0.01 || x > end + 0.01 || y < tile.y - 0.01 || y > high + 0.01) continue;
        const p = at(x, y);
        const r = Math.max(1.5, (hole.point.pilot ?? 5) / 2);
        const number = text(p.x + 2, p.y - 2, `${hole.number}`, { bold: true, height: LETTER.head, turn: 90 });
        drawn.push(area(p.x - r, p.y - r, 2 * r, 2 * r), textArea(number));
        marks.push(
          line(p.x - 8, p.y, p.x + 8, p.y, 'thin'),
          line(p.x, p.y - 8, p.x, p.y + 8, 'thin'),
          { kind: 'circle', centre: p, radius: r, pen: 'visible' },
          backed(number),
        );
        if (x === first) marks.push(line(frame.x, p.y, frame.x + frame.width, p.y, 'centre'));
        if (x === first && (y === levelY || rows > 1))
          marks.push(
            along(`${letter.length(x)} from the left end of the wall,`, frame.x + 6.6, free),
            along(beside(letter.length, x - plumb), frame.x + 2.6, free),
          );
      }
      marks.push(...joints(tile, columns, rows, frame, drawn));
    }
    return {
      id: `template-${holes[0]!.point.piece}-${s + 1}`,
      chapter: 'Setting-out',
      title: `Template for ${title}${sheets > 1 ? `, ${s + 1} of ${sheets}` : ''}`,
      scale: inches ? 'full size' : '1:1',
      marks,
      bare: { width, height },
    };
  });

  /** The row nearest to the level line of the wall. */
  function nearestRow(all: readonly number[]): number {
    return all.reduce((a, b) => (Math.abs(b - level) < Math.abs(a - level) ? b : a));
  }
}

function beside(say: (mm: number) => string, value: number): string {
  const told = say(Math.abs(value));
  return told === say(0) ? 'on the plumb line' : `${told} ${value < 0 ? 'left' : 'right'} of the plumb line`;
}

/** The first place down a sheet where words have room between its holes. */
function freeFrom(holes: readonly number[], from: number, to: number): number {
  const starts = [from, ...holes.filter((y) => y > from - 12 && y < to).map((y) => y + 10)].sort((a, b) => a - b);
  const room = (y: number): number => Math.min(to, ...holes.filter((h) => h > y - 9)) - y;
  return starts.find((y) => room(y) > WORDS - 12) ?? starts.reduce((a, b) => (room(b) > room(a) ? b : a));
}

/** Words on white, so that lines do not run through them. */
const backed = (mark: ReturnType<typeof text>): Mark => ({
  kind: 'group',
  about: 'words',
  marks: [rectangle(textArea(mark), { fill: 'paper' }), mark],
});

/** Words that read upright once the sheet is on the wall. */
const along = (words: string, x: number, y: number): Mark => backed(text(x, y, words, { turn: 90 }));

/** Up on the wall lies to the right on the sheet. */
const upArrow = (x: number, y: number): readonly Mark[] => [
  line(x - 12, y, x, y, 'visible'),
  polygon([point(x, y), point(x - 3, y - 1.4), point(x - 3, y + 1.4)], { pen: 'visible', fill: 'ink' }),
  text(x - 12, y - 1.2, 'up'),
];

interface Tile {
  readonly r: number;
  readonly c: number;
}
function joints({ r, c }: Tile, columns: number, rows: number, frame: Area, holes: readonly Area[]): readonly Mark[] {
  const marks: Mark[] = [];
  const letterOf = (n: number): string => String.fromCharCode(65 + (n % 26));
  const across = (y: number, n: number): void => {
    const base = y + (n < 0 ? 5 : -2.5);
    // the first place along the joint where no hole is drawn
    const own = [3.5, 2.3, frame.width - 2.3].map((x) =>
      text(frame.x + x, base, letterOf(Math.abs(n) - 1), { bold: true, height: LETTER.head, align: 'centre' }),
    );
    const free = own.find((t) => !holes.some((hole) => overlaps(hole, textArea(t)))) ?? own[0]!;
    marks.push(line(frame.x, y, frame.x + frame.width, y, 'hidden'), free);
  };
  if (c > 0) across(frame.y + OVERLAP, -(r * (columns - 1) + c));
  if (c < columns - 1) across(frame.y + frame.height - OVERLAP, r * (columns - 1) + c + 1);
  const upright = (x: number, n: number): void => {
    marks.push(
      line(x, frame.y, x, frame.y + frame.height, 'hidden'),
      text(x, frame.y + frame.height - 3, `${n}`, { bold: true, height: LETTER.head, align: 'centre' }),
    );
  };
  // a higher row lies further right
  if (r > 0) upright(frame.x + OVERLAP, (r - 1) * columns + c + 1);
  if (r < rows - 1) upright(frame.x + frame.width - OVERLAP, r * columns + c + 1);
  return marks;
}
