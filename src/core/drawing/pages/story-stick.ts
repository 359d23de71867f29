import { wallCalled } from '../../called.ts';
import { grouped } from '../../grouped.ts';
import { isInches } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { isMade } from '../../scene/index.ts';
import { type Area, area, below, LETTER, line, rectangle, right, text, textArea } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import { spread } from '../layout/spread.ts';
import { headingAt } from '../layout/standing.ts';
import { type Mark, PAPERS, type PaperName } from '../marks.ts';
import { stopsOf } from '../view/dimensioned.ts';
import type { Desk } from './desk.ts';
import type { Draft } from './sheet.ts';

/** mm of paper: unprintable edge and room for the heading, what two neighbouring strips share, the width of a strip. */
const EDGE = 10;
const HEAD = 22;
const OVERLAP = 10;
const STRIP = 52;
const BETWEEN = 5;
const ROW = LETTER.small + 1.6;
/** Of what is at one height, at most. */
const LINES = 6;

/** What is set to a height with a stick; a wall with nothing else gets none. */
const LEVELLED: ReadonlySet<string> = new Set(['case', 'shelf', 'display', 'lining']);

interface StickLevel {
  readonly y: number;
  /** Everything that is at this height, and what of it. */
  readonly what: string;
}
interface Edge extends StickLevel {
  readonly of: string;
}

/** Heights worth a mark at a wall: upper and lower edges of every piece, centres of what is in the wall. */
function levelsAt({ input }: Desk, wall: PlacedWall): readonly StickLevel[] {
  const named = input.pieces
    .filter((p) => p.wall?.id === wall.id && isMade(p))
    .flatMap((p): Edge[] => {
      const base = p.frame.origin.y - wall.frame.origin.y;
      return [
        { y: base + p.outside.min.y, of: p.title, what: 'lower edge' },
        { y: base + p.outside.max.y, of: p.title, what: 'upper edge' },
      ];
    });
  const services = input.room.services
    .filter((s) => s.wall === wall.id)
    .map((s): Edge => ({ y: (s.y[0] + s.y[1]) / 2, of: s.id, what: 'centre' }));
  const all = [...named, ...services].filter((l) => l.y > 0.1);
  return stopsOf(all.map((l) => l.y)).map((y) => {
    const here = grouped(
      all.filter((l) => Math.abs(l.y - y) <= 0.1),
      (l) => l.what,
    );
    return { y, what: [...here].map(([what, of]) => `${of.map((l) => l.of).join(', ')}: ${what}`).join('; ') };
  });
}

/** A full-size stick of heights for each wall that has a piece, in strips to be cut out and joined end to end. */
export function storyStickPages(desk: Desk): readonly Draft[] {
  return desk.input.room.walls.flatMap((wall) => {
    const built = desk.input.pieces.some((p) => p.wall?.id === wall.id && LEVELLED.has(p.kind));
    const levels = built ? levelsAt(desk, wall) : [];
    return levels.length === 0 ? [] : stick(desk, wall, levels, desk.paper);
  });
}

function stick(desk: Desk, wall: PlacedWall, levels: readonly StickLevel[], paper: PaperName): readonly Draft[] {
  const { width, height } = PAPERS[paper];
  const usable = height - EDGE - HEAD - EDGE;
  const step = usable - OVERLAP;
  const top = Math.max(...levels.map((l) => l.y)) + 6;
  const strips = Math.max(1, Math.ceil((top - OVERLAP) / step));
  const perPage = Math.max(1, Math.floor((width - 2 * EDGE + BETWEEN) / (STRIP + BETWEEN)));
  const wide = (width - 2 * EDGE + BETWEEN) / perPage - BETWEEN;
  const pages = Math.ceil(strips / perPage);
  return Array.from({ length: pages }, (_, i): Draft => {
    const marks: Mark[] = [...head(desk, wall, area(EDGE, EDGE, width - 2 * EDGE, HEAD - 4))];
    for (let k = i * perPage; k < Math.min(strips, (i + 1) * perPage); k++) {
      const x = EDGE + (k - i * perPage) * (wide + BETWEEN);
      marks.push(...strip(desk, levels, k, strips, step, area(x, EDGE + HEAD, wide, usable)));
    }
    return {
      id: `stick-${wall.id}-${i + 1}`,
      chapter: 'Story stick',
      title: `Story stick of heights, ${wallCalled(wall.id)}${pages > 1 ? `, ${i + 1} of ${pages}` : ''}`,
      scale: isInches(desk.letter.unit) ? 'full size' : '1:1',
      marks,
      bare: { width, height },
    };
  });
}

function head({ letter }: Desk, wall: PlacedWall, at: Area): readonly Mark[] {
  const inches = isInches(letter.unit);
  const long = inches ? 4 * 25.4 : 100;
  const y = at.y + 4;
  const x = right(at) - long;
  return [
    ...headingAt(at.x, at.y + 4, `Story stick, ${wallCalled(wall.id)}`, at.width - long - 6),
    text(at.x, at.y + 9.5, 'Full size: print at 100 %, without fitting to the page.'),
    text(
      at.x,
      at.y + 13.7,
      'Cut out the strips, lay each over the last at its letter, and tape them to a straight stick. Heights are from the floor.',
    ),
    line(x, y, right(at), y, 'visible'),
    line(x, y - 1.5, x, y + 1.5, 'visible'),
    line(right(at), y - 1.5, right(at), y + 1.5, 'visible'),
    text(x + long / 2, y + 4, `check with a tape: ${letter.length(long)}`, { align: 'centre' }),
  ];
}

/** One strip: levels between k·step and k·step + its length, the letter of each joint on the piece both strips share. */
function strip(
  { letter }: Desk,
  levels: readonly StickLevel[],
  k: number,
  strips: number,
  step: number,
  at: Area,
): readonly Mark[] {
  const from = k * step;
  const to = from + at.height;
  const toY = (level: number): number => below(at) - (level - from);
  const marks: Mark[] = [rectangle(at, { pen: 'thin' })];
  const joint = (n: number, y: number): void => {
    marks.push(line(at.x, y, right(at), y, 'cut'));
    marks.push(
      text(right(at) - 5, y + (n === k ? OVERLAP / 2 : -OVERLAP / 2), jointLetter(n), {
        anchor: 'middle',
        align: 'centre',
        height: LETTER.head,
        bold: true,
      }),
    );
  };
  // The lower end of this strip covers the upper end of the one before it.
  if (k > 0) joint(k, toY(from + OVERLAP));
  if (k < strips - 1) joint(k + 1, toY(to - OVERLAP));
  if (k === 0) {
    marks.push(line(at.x, toY(0), right(at), toY(0), 'wall'));
    marks.push(text(right(at) - 1.5, toY(0) - 1.5, 'floor', { align: 'right' }));
  }
  const own = levels.filter((l) => l.y >= from && l.y <= to);
  const told = own.map((l) => wrapText(l.what, LETTER.small, at.width - 22));
  // all of it where the strip has room, else so many lines of each
  const high = (lines: number): number =>
    told.reduce((sum, { length }) => sum + (Math.min(length, lines) + 1) * ROW, 0);
  const most = [LINES, 3].find((lines) => high(lines) <= at.height - 4) ?? 2;
  const laid = told.map((lines) =>
    lines.length <= most
      ? lines
      : [...lines.slice(0, most - 1), fitText(lines.slice(most - 1).join(' '), LETTER.small, at.width - 22)],
  );
  const centres = spread(
    own.map((l, i) => ({ centre: -l.y, width: (laid[i]!.length + 1) * ROW })).toReversed(),
    0,
    -to + 1,
    -from - 1,
  ).toReversed();
  own.forEach((level, i) => {
    const y = toY(level.y);
    const words = laid[i]!;
    const top = toY(-centres[i]!) - ((words.length + 1) * ROW) / 2;
    const texts = [
      text(at.x + 12.8, top + ROW - 0.9, letter.figure(level.y), { bold: true }),
      ...words.map((w, k) => text(at.x + 12.8, top + ROW * (k + 2) - 0.9, w)),
    ];
    marks.push(line(at.x, y, at.x + 9, y, 'outline'), line(at.x + 9, y, at.x + 12, top + ROW * 0.6, 'thin'));
    marks.push(...texts.map((t) => rectangle(textArea(t), { fill: 'paper' })), ...texts);
  });
  return marks;
}
const jointLetter = (n: number): string => String.fromCharCode(65 + ((n - 1) % 26));
