import { wallCalled } from '../../called.ts';
import { isInches } from '../../quantity/index.ts';
import type { FloorFit, WallFit } from '../../setting-out/index.ts';
import { floorFits, gapAt, wallFits } from '../../setting-out/index.ts';
import { finest } from '../../strength/index.ts';
import {
  type Area,
  area,
  below,
  LETTER,
  line,
  point,
  polygon,
  polyline,
  rectangle,
  right,
  text,
  textArea,
} from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import { spread } from '../layout/spread.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import { type Mark, PAPERS } from '../marks.ts';
import type { Desk } from './desk.ts';
import { wallInputOf } from './setting-out.ts';
import type { Draft } from './sheet.ts';

/** Of a profile, mm: lower where that spares a sheet. */
const HEIGHTS = [44, 37, 30] as const;
const ROW = LETTER.small + 1.5;
const FIGURES = 14;

/** For each run against a wall or on a floor that was surveyed: the unevenness drawn many times too large, with its figures. */
export function wallFitPages(desk: Desk): readonly Draft[] {
  const input = wallInputOf(desk);
  const [walls, floors] = [wallFits(input), floorFits(input).filter((f) => f.largest > finest(input) / 2)];
  const runs = [...new Map([...walls, ...floors].map((f) => [f.run.pieces[0]!.id, f.run])).values()];
  if (runs.length === 0) return [];
  const sheets = HEIGHTS.map((high) =>
    sheetsOf(
      desk,
      runs.flatMap((run) => {
        const first = run.pieces[0]!.id;
        return [
          ...walls.filter((f) => f.run.pieces[0]!.id === first).map((fit) => wallView(desk, fit, high)),
          ...floors
            .filter((f) => f.run.pieces[0]!.id === first)
            .flatMap((fit) => [floorView(desk, fit, high), toeTable(desk, fit)]),
        ];
      }),
    ),
  ).reduce((best, other) => (other.length < best.length ? other : best));
  return [
    ...sheets.map(
      (marks, i): Draft => ({
        id: `wall-fit-${i + 1}`,
        chapter: 'Setting-out',
        title: `Uneven walls and floors${sheets.length > 1 ? `, ${i + 1} of ${sheets.length}` : ''}`,
        marks,
      }),
    ),
    ...scribePages(desk, walls),
  ];
}

function sheetsOf({ sheet: { body } }: Desk, views: readonly View[]): readonly (readonly Mark[])[] {
  const sheets: Mark[][] = [[]];
  let y = body.y;
  for (const view of views) {
    if (y > body.y && y + view.height > below(body)) {
      sheets.push([]);
      y = body.y;
    }
    sheets.at(-1)!.push(...view.draw(area(body.x, y, body.width, view.height)));
    y += view.height + 5;
  }
  return sheets;
}

interface View {
  readonly height: number;
  readonly draw: (at: Area) => readonly Mark[];
}

interface Profile {
  readonly title: string;
  readonly words: string;
  readonly from: number;
  readonly to: number;
  /** mm from the straight line, at places along it; the straight line lies on top. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly straight: string;
  readonly uneven: string;
  readonly stops: readonly number[];
}

/** Times an unevenness is drawn larger than the length beside it. */
const LARGER = [5, 10, 20, 50, 100, 200] as const;

function profileView({ letter, sheet }: Desk, high: number, p: Profile): View {
  const wide = sheet.body.width;
  const ratio = (p.to - p.from) / (wide - 36);
  const most = Math.max(...p.points.map((q) => q.y), 1e-9);
  const larger = LARGER.filter((n) => (most * n) / ratio <= high - 14).at(-1) ?? 1;
  const titles = wrapText(p.title, LETTER.head, wide, true);
  const lines = wrapText(`${p.words} The unevenness is drawn ${larger} times too large.`, LETTER.small, 230);
  const under = titles.length * 5;
  const head = under + 1 + lines.length * LEADING;
  const told = p.points
    .filter((q) => p.stops.some((s) => Math.abs(s - q.x) < 0.1))
    .map((q) => ({ ...q, words: `${letter.figure(q.x)}: ${letter.figure(q.y)}` }));
  // they stand on end: the longest says how far down the view goes
  const height = head + high + Math.max(FIGURES, ...told.map((q) => textWidth(q.words, LETTER.small)));
  return {
    height,
    draw: (at) => {
      const top = at.y + head + 6;
      const left = at.x + 18;
      const toX = (x: number): number => left + (x - p.from) / ratio;
      const toY = (y: number): number => top + (y * larger) / ratio;
      const curve = p.points.map((q) => point(toX(q.x), toY(q.y)));
      const bottom = toY(most) + 4;
      const centres = spread(
        told.map((q) => ({ centre: toX(q.x), width: ROW })),
        0,
        at.x + 2,
        right(at) - 2,
      );
      return [
        ...titles.map((words, i) => text(at.x, at.y + 3.5 + 5 * i, words, { height: LETTER.head, bold: true })),
        ...lines.map((words, i) => text(at.x, at.y + under + 3.5 + i * LEADING, words)),
        polygon([...curve, point(toX(p.to), bottom), point(toX(p.from), bottom)], { hatch: 'board', tone: 'faint' }),
        polyline(curve, 'outline'),
        line(toX(p.from), top, toX(p.to), top, 'visible'),
        text(left - 1.5, top + 0.9, p.straight, { align: 'right' }),
        text(left - 1.5, toY(p.points[0]!.y) + 4.4, p.uneven, { align: 'right', tone: 'faint' }),
        ...told.flatMap((q, i): readonly Mark[] => [
          line(toX(q.x), top, toX(q.x), toY(q.y), 'thin'),
          line(toX(q.x), bottom + 0.6, centres[i]!, bottom + 3, 'thin'),
          text(centres[i]!, bottom + 3.6, q.words, {
            anchor: 'middle',
            align: 'right',
            turn: -90,
          }),
        ]),
      ];
    },
  };
}

function wallView(desk: Desk, { run, height, largestGap, gaps, out }: WallFit, high: number): View {
  const { letter } = desk;
  const turn = out[1] - out[0];
  const ends =
    Math.abs(turn) < finest({ plan: desk.input.plan }) / 2
      ? 'Both ends of its back stand the same distance from the line the wall was measured from.'
      : `Its ${turn > 0 ? 'right' : 'left'} end stands ${letter.length(Math.abs(turn))} further out from the line the wall was measured from than the other.`;
  return profileView(desk, high, {
    title: `Behind ${namesOf(run.pieces)}: ${wallCalled(run.wall)}, ${letter.length(height)} up`,
    words: `Figures: place along the wall from its left end, and the gap there between the back of the run and the wall. Largest gap ${letter.length(largestGap)}; no straight line leaves less. ${ends}`,
    from: run.from,
    to: run.to,
    points: gaps.map((g) => ({ x: g.x, y: g.gap })),
    straight: 'back',
    uneven: 'wall',
    stops: gaps.map((g) => g.x),
  });
}

function floorView(desk: Desk, { run, out, high: top, largest, drops }: FloorFit, high: number): View {
  const { letter } = desk;
  return profileView(desk, high, {
    title: `Under ${namesOf(run.pieces)}: the floor ${letter.length(out)} out from the ${wallCalled(run.wall)}`,
    words: `Figures: place along the wall, and how far the floor lies below the level of its high point, ${letter.length(top)} from the left end of the wall. Set the first case there, level, and shim all others up to it: ${letter.length(largest)} at most.`,
    from: run.from,
    to: run.to,
    points: drops.map((d) => ({ x: d.x, y: d.drop })),
    straight: 'level',
    uneven: 'floor',
    stops: drops.map((d) => d.x),
  });
}

/** What to cut the toe boards and feet to. */
function toeTable(desk: Desk, { toes }: FloorFit): View {
  const f = desk.letter.figure;
  type Row = (typeof toes)[number];
  const columns: Column<Row>[] = [
    { head: 'Under', cell: (t) => t.title, bold: true, share: 1 },
    { head: 'From', cell: (t) => f(t.from), align: 'right' },
    { head: 'To', cell: (t) => f(t.to), align: 'right' },
    { head: 'Toe, left end', cell: (t) => f(t.left), align: 'right' },
    { head: 'Toe, right end', cell: (t) => f(t.right), align: 'right' },
    {
      head: 'Taper',
      cell: (t) => (Math.abs(t.left - t.right) < 0.4 ? 'none' : f(Math.abs(t.left - t.right))),
      align: 'right',
    },
    { head: 'Highest', cell: (t) => f(t.most), align: 'right' },
  ];
  const rows = toes.map((row) => ({ row }));
  const height = LEADING * (toes.length + 2) + 3 * toes.length + 8;
  return {
    height: toes.length === 0 ? 0 : height,
    draw: (at) =>
      toes.length === 0
        ? []
        : [
            text(
              at.x,
              at.y + 3,
              'Heights to cut toe boards to, so that they close on the floor once the cases stand level',
              {
                bold: true,
              },
            ),
            ...layTable(columns, rows, () =>
              area(at.x, at.y + 5, Math.min(at.width, 190), at.height + 60),
            ).pieces.flat(),
          ],
  };
}

const namesOf = (pieces: readonly { readonly title: string; readonly id: string }[]): string =>
  pieces.length > 3
    ? `${pieces[0]!.title || pieces[0]!.id} to ${pieces.at(-1)!.title || pieces.at(-1)!.id}`
    : pieces.map((p) => p.title || p.id).join(', ');

const EDGE = 10;
const TOP = 26;
const OVERLAP = 10;
const BETWEEN = 4;
const CLOSER = 1.2;
/** Paper left and right of a scribe line, mm. */
const MARGIN = 4;
/** Every so often along the wall a cross line with its figure, mm. */
const TICK = { metric: 100, imperial: 3 * 25.4 } as const;

/** Full-size strips of the line to scribe: the straight edge is the back as set, the curve is the wall. One survey for each run. */
function scribePages(desk: Desk, fits: readonly WallFit[]): readonly Draft[] {
  const firsts = [...new Map(fits.map((f) => [f.run.pieces[0]!.id, f])).keys()];
  return firsts.flatMap((id) => {
    const own = fits.filter((f) => f.run.pieces[0]!.id === id);
    const top = Math.max(...own[0]!.run.pieces.map((p) => p.frame.origin.y + p.outside.max.y));
    const fit = own.reduce((a, b) => (Math.abs(b.height - top) < Math.abs(a.height - top) ? b : a));
    return fit.largestGap < 1 ? [] : scribeStrips(desk, fit);
  });
}

function scribeStrips(desk: Desk, fit: WallFit): readonly Draft[] {
  const { letter, paper } = desk;
  const { width, height } = PAPERS[paper];
  const { run } = fit;
  const usable = height - TOP - 2 * EDGE;
  const step = usable - OVERLAP;
  const strips = Math.max(1, Math.ceil((run.to - run.from - OVERLAP) / step));
  const wide = Math.ceil(fit.largestGap) + 2 * MARGIN + 14;
  // they stand closer where that spares a sheet
  const perPageAt = (apart: number): number => Math.max(1, Math.floor((width - 2 * EDGE + apart) / (wide + apart)));
  const between = Math.ceil(strips / perPageAt(CLOSER)) < Math.ceil(strips / perPageAt(BETWEEN)) ? CLOSER : BETWEEN;
  const perPage = perPageAt(between);
  const inches = isInches(letter.unit);
  const tick = inches ? TICK.imperial : TICK.metric;
  const pages = Math.ceil(strips / perPage);
  const long = inches ? 4 * 25.4 : 100;
  return Array.from({ length: pages }, (_, i): Draft => {
    const marks: Mark[] = [
      text(EDGE, EDGE + 4, `Scribe line, ${wallCalled(run.wall)}, ${letter.length(fit.height)} up`, {
        height: LETTER.head,
        bold: true,
      }),
      ...wrapText(
        `Full size: print at 100 %, without fitting to the page. The straight line is the back as it is set, the curve is the wall. Cut along both, tape the strips at their letters, lay the straight edge to the back edge and mark the curve. Figures are from the left end of the wall.`,
        LETTER.small,
        width - 2 * EDGE,
      ).map((words, k) => text(EDGE, EDGE + 13 + k * LEADING, words)),
      line(width - EDGE - long, EDGE + 4, width - EDGE, EDGE + 4, 'visible'),
      line(width - EDGE - long, EDGE + 2.5, width - EDGE - long, EDGE + 5.5, 'visible'),
      line(width - EDGE, EDGE + 2.5, width - EDGE, EDGE + 5.5, 'visible'),
      text(width - EDGE - long / 2, EDGE + 7.8, `check with a tape: ${letter.length(long)}`, { align: 'centre' }),
    ];
    for (let k = i * perPage; k < Math.min(strips, (i + 1) * perPage); k++) {
      const x = EDGE + (k - i * perPage) * (wide + between);
      const from = run.from + k * step;
      const to = Math.min(run.to, from + usable);
      const y0 = EDGE + TOP;
      const toY = (along: number): number => y0 + (along - from);
      const back = x + MARGIN + 12;
      const xs = [from, ...fit.gaps.map((g) => g.x).filter((g) => g > from && g < to), to];
      marks.push(
        rectangle(area(x, y0, wide, to - from), { pen: 'thin', tone: 'faint' }),
        line(back, toY(from), back, toY(to), 'cut'),
        polyline(
          xs.map((g) => point(back + gapAt(fit, g), toY(g))),
          'outline',
        ),
      );
      // they stand on the joints, not under them
      const figures: Mark[] = [];
      for (let n = Math.ceil(from / tick); n * tick <= to; n++) {
        const y = toY(n * tick);
        if (y < y0 + 3 || y > toY(to) - 1) continue;
        const figure = text(back - 5, y + 0.9, letter.figure(n * tick), { align: 'right' });
        marks.push(line(back - 4, y, back + gapAt(fit, n * tick), y, 'thin'));
        figures.push(rectangle(textArea(figure), { fill: 'paper' }), figure);
      }
      if (k > 0)
        marks.push(
          line(x, toY(from + OVERLAP), x + wide, toY(from + OVERLAP), 'hidden'),
          text(x + wide - 4, toY(from) + 6, joint(k), { bold: true, height: LETTER.head, align: 'centre' }),
        );
      if (k < strips - 1)
        marks.push(
          line(x, toY(to - OVERLAP), x + wide, toY(to - OVERLAP), 'hidden'),
          text(x + wide - 4, toY(to) - 3, joint(k + 1), { bold: true, height: LETTER.head, align: 'centre' }),
        );
      marks.push(...figures);
    }
    return {
      id: `scribe-${run.pieces[0]!.id}-${i + 1}`,
      chapter: 'Setting-out',
      title: `Scribe line, ${wallCalled(run.wall)}${pages > 1 ? `, ${i + 1} of ${pages}` : ''}`,
      scale: inches ? 'full size' : '1:1',
      marks,
      bare: { width, height },
    };
  });
}
const joint = (n: number): string => String.fromCharCode(65 + ((n - 1) % 26));
