import { wallCalled } from '../../called.ts';
import { grouped } from '../../grouped.ts';
import { formatSold, isInches } from '../../quantity/index.ts';
import { type HoleMark, sectionOf, settingOut, type WallSettingOut } from '../../setting-out/index.ts';
import { endScrew, layersOf, type Timber, usedWords, type WallInput } from '../../strength/index.ts';
import { type Area, area, below, LETTER, line, rectangle, right, text, textArea, textsOf } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { balloon, type InTurn, placeInTurn, placesIn } from '../layout/place.ts';
import { runningLevels, runningWidth } from '../layout/running.ts';
import { spread } from '../layout/spread.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import { layView, stopsOf } from '../view/dimensioned.ts';
import { areaOnPaper, onPaper } from '../view/view.ts';
import { piecesAt } from './at-wall.ts';
import type { Desk } from './desk.ts';
import { reachOf } from './elevation.ts';
import type { Draft } from './sheet.ts';

const SIDE = 30;
/** What the level line reaches past the wall, and how far off it figures begin, mm. */
const PAST = 4;
const FOOT = 30;
const HEAD = 14;
const CAUTIONS =
  'Before drilling: find cables and pipes with a detector and switch off at the board; never drill straight above, below or beside a socket or switch. Eye protection and a dust mask; old paint may hold lead, old plasters and tile adhesives asbestos: have them tested. Local codes and licensed trades come first.';

/** What the wall topics need of a packet. */
export const wallInputOf = ({ input }: Desk): WallInput => ({
  plan: input.plan,
  option: input.option,
  room: input.room,
  pieces: input.pieces,
  massOf: input.massOf ?? (() => undefined),
});

/**
 * For each wall with holes: where they are, from one plumb line and one level line, and the table to drill by, under the drawing where
 * it is short.
 */
export const settingOutPages = (desk: Desk): readonly Draft[] =>
  settingOut(wallInputOf(desk)).flatMap(
    (wall) => onOneSheet(desk, wall) ?? [drawingPage(desk, wall), ...tablePages(desk, wall)],
  );

/** So few holes can be told apart in a drawing that is so much smaller: 1:50 where there was room for 1:20. */
const FEW = 6;
const SMALLER = 2.5;
/** A short table under its drawing, on one sheet; undefined where it would make the drawing too small. */
function onOneSheet(desk: Desk, wall: WallSettingOut): readonly Draft[] | undefined {
  const { body } = desk.sheet;
  const measured = layTablePieces(desk, wall, body);
  if (measured.pieces.length !== 1) return undefined;
  const high = measured.end - body.y;
  const above = { ...body, height: body.height - high - GAP };
  if (above.height < body.height / 2) return undefined;
  const [alone, both] = [drawingPage(desk, wall), drawingPage(desk, wall, above)];
  if (both.view!.ratio > alone.view!.ratio * (wall.holes.length <= FEW ? SMALLER : 1)) return undefined;
  const table = layTablePieces(desk, wall, { ...body, y: below(body) - high }).pieces[0]!;
  return [
    { ...both, title: `Setting-out and drilling table, ${wallCalled(wall.wall.id)}`, marks: [...both.marks, ...table] },
  ];
}
const GAP = 4;

function drawingPage(
  desk: Desk,
  { wall, plumb, level, holes, boxes, cables, timbers }: WallSettingOut,
  body = desk.sheet.body,
): Draft {
  const { letter, input } = desk;
  const into = area(body.x + SIDE, body.y + HEAD, body.width - 2 * SIDE, body.height - HEAD - FOOT);
  const there = piecesAt(desk, wall).filter(({ piece }) => piece.kind !== 'thing');
  const view = { ...reachOf(wall, there), letter };
  // figures stand on the right alone: what keeps the drawing in the middle of the sheet gives way where it costs a scale
  const heights = stopsOf(holes.map((h) => h.point.y));
  const figured = heights.map((y) => ({ y, figure: signed(letter.figure, y - level) }));
  const wide = { ...into, x: body.x + PAST, width: body.width - 2 * PAST - runningWidth(figured) };
  const [middle, aside] = [layView({ ...view, into }), layView({ ...view, into: wide })];
  const { place, frame, scale } = aside.scale.ratio < middle.scale.ratio ? aside : middle;
  const at = (x: number, y: number) => onPaper(place, x, -y);
  const places = placesIn(body);
  const marks: Mark[] = [
    text(body.x, body.y + 3.5, 'All figures run from the plumb line and the level line, never from the hole before.', {
      bold: true,
    }),
    text(
      body.x,
      body.y + 3.5 + LEADING,
      `Plumb line: ${letter.length(plumb)} from the left end of the wall. Level line: ${letter.length(level)} above the floor.${timbers.length > 0 ? ' Broken outlines: timber between the studs.' : ''}`,
    ),
    ...wall.studs.map(
      (stud): Mark => line(at(stud.at, 0).x, frame.y, at(stud.at, 0).x, below(frame), 'centre', 'faint'),
    ),
    rectangle(areaOnPaper(place, [0, wall.length], [-wall.height, 0]), { pen: 'visible' }),
    ...there.map(({ box: { min, max } }) =>
      rectangle(areaOnPaper(place, [min.x, max.x], [-max.y, -min.y]), { pen: 'ghost', tone: 'faint' }),
    ),
  ];
  for (const feature of [...input.room.openings, ...input.room.services].filter((f) => f.wall === wall.id))
    marks.push(
      rectangle(areaOnPaper(place, feature.x, [-feature.y[1], -feature.y[0]]), {
        pen: 'thin',
        tone: 'faint',
        fill: 'paper',
      }),
    );
  for (const { from, to, block } of timbers)
    marks.push(
      rectangle(areaOnPaper(place, [from, to], [-block.above - block.height, -block.above]), { pen: 'hidden' }),
    );
  const [plumbX, levelY] = [at(plumb, 0).x, at(0, level).y];
  marks.push(line(plumbX, frame.y - 4, plumbX, below(frame) + 4, 'outline'));
  marks.push(line(frame.x - PAST, levelY, right(frame) + PAST, levelY, 'outline'));
  for (const { point } of holes) {
    const { x, y } = at(point.x, point.y);
    marks.push(line(x - 1.2, y, x + 1.2, y, 'visible'), line(x, y - 1.2, x, y + 1.2, 'visible'));
    places.taken.push(area(x - 1.4, y - 1.4, 2.8, 2.8));
  }
  for (const { x, y } of boxes) {
    const cut = areaOnPaper(place, x, [-y[1], -y[0]]);
    marks.push(rectangle(cut, { pen: 'visible' }), line(cut.x, cut.y, right(cut), below(cut), 'thin'));
    places.taken.push(cut);
  }
  for (const leg of cables.flatMap((c) => c.legs).filter((l) => l.wall === wall.id)) {
    const [a, b] = [at(leg.from.x, leg.from.y), at(leg.to.x, leg.to.y)];
    marks.push(line(a.x, a.y, b.x, b.y, 'hidden'));
  }
  const figures = [
    ...runningLevels(
      [...figured.map(({ y, figure }) => ({ y: at(0, y).y, figure })), { y: levelY, figure: letter.figure(0) }],
      'right',
      right(frame) + PAST,
      [body.y + HEAD - 6, below(frame) + 6],
    ),
    ...runningAlong(
      [
        ...stopsOf(holes.map((h) => h.point.x)).map((x) => ({
          x: at(x, 0).x,
          figure: signed(letter.figure, x - plumb),
        })),
        { x: plumbX, figure: letter.figure(0) },
      ],
      below(frame) + 4,
      [body.x, right(body)],
    ),
  ];
  marks.push(...figures);
  places.taken.push(...textsOf(figures).map(textArea));
  const balloons = holes.map(({ number, point: { lands, x, y } }): InTurn => {
    const bad = lands === 'board only' || lands.startsWith('edge');
    return (on) => balloon(on, at(x, y), number, bad ? 'alert' : 'ink');
  });
  marks.push(...placeInTurn(places, balloons).flat());
  return {
    id: `setting-${wall.id}`,
    chapter: 'Setting-out',
    title: `Setting-out, ${wallCalled(wall.id)}`,
    scale: scale.text,
    view: { kind: 'elevation', wall: wall.id, ...place, area: body },
    marks,
  };
}

/** What rounds to nothing is written as nothing, with no sign. */
function signed(figure: (mm: number) => string, value: number): string {
  const told = figure(Math.abs(value));
  return value < 0 && told !== figure(0) ? `−${told}` : told;
}

const ROW = LETTER.small + 1.3;
/** Running dimensions under a drawing, read from the right; their lines bend apart where they lie close (ISO 129-1:2018). */
function runningAlong(
  stops: readonly { readonly x: number; readonly figure: string }[],
  y: number,
  limits: readonly [number, number],
): readonly Mark[] {
  const sorted = [...stops].sort((a, b) => a.x - b.x);
  const centres = spread(
    sorted.map((s) => ({ centre: s.x, width: ROW })),
    0,
    limits[0],
    limits[1],
  );
  return sorted.flatMap(({ x, figure }, i) => [
    line(x, y + 1.2, x, y + 3.7, 'thin'),
    line(x, y + 3.7, centres[i]!, y + 7.7, 'thin'),
    text(centres[i]!, y + 8.5, figure, { anchor: 'middle', align: 'right', turn: -90 }),
  ]);
}

/** What a hole lands on, in words. */
function behind({ point: { lands, stud } }: HoleMark): string {
  if (lands === 'stud') return `stud ${stud!.number}`;
  if (lands === 'edge of a stud') return `EDGE of stud ${stud!.number}`;
  if (lands === 'edge of masonry') return 'EDGE of masonry';
  if (lands === 'blocking') return 'timber let in';
  return lands === 'board only' ? 'board only' : lands === 'unknown' ? 'not known: look first' : lands;
}

/** What is let in between the studs before anything is drilled, and what is there to be found. */
function timberWords(desk: Desk, { wall, plumb, level, timbers }: WallSettingOut): readonly string[] {
  const { figure: f } = desk.letter;
  const input = wallInputOf(desk);
  const steel = input.plan.room.walls.find((w) => w.id === wall.id)?.framing?.kind === 'steel stud';
  const screw = endScrew(input);
  const size = (mm: number) => formatSold(mm, isInches(input.plan.units.length));
  const rows = [...grouped(timbers, ({ block }) => block).values()].map((row) => ({ row, block: row[0]!.block }));
  const fresh = rows.filter(({ block }) => block.new);
  const where = ({ block }: (typeof rows)[number]) =>
    `lower edge ${signed(f, block.above - level)} up, ${f(block.above)} above the floor`;
  const lengths = (row: readonly Timber[]) =>
    row.map(
      ({ from, to, count }) =>
        `${f(to - from)} long at ${signed(f, from - plumb)} across, ${count} ${count === 1 ? 'screw' : 'screws'} in each end`,
    );
  const how = steel
    ? 'from the hollow of the stud through its web into the end; notch an end round a lip that is in its way'
    : 'at a slant through the end into the stud';
  return [
    ...fresh.map(
      ({ row, block }) =>
        `Let in timber ${sectionOf(input, row[0]!)}, ${where({ row, block })}: ${lengths(row).join('; ')}.`,
    ),
    ...(fresh.length > 0
      ? [
          `How it is let in (common practice): before the wall is painted, cut the board away over it to the middles of the studs, no deeper than the board is thick, once cables and pipes are found; cut each length to its gap, measured there; set it flush with the faces of the studs and drive wood screws ${size(screw.diameter)} × ${size(screw.length)} ${how}; close with board as thick as before, screwed to studs and timber, and fill the joints.${fresh.some(({ block }) => layersOf(input, block) > 1) ? ' What is thicker than one timber is two, screwed to one another.' : ''}`,
        ]
      : []),
    ...rows
      .filter(({ block }) => !block.new)
      .map(
        (row) =>
          `Timber ${sectionOf(input, row.row[0]!)} is in the wall already, ${where(row)}: find it before anything is drilled.`,
      ),
  ];
}

/** How much of what a fixing may take is taken; where nothing can hold it there is no share to tell. */
const usedOf = ({ piece, use }: HoleMark['point'], idle: ReadonlySet<string>): string =>
  idle.has(piece) ? '–' : use === undefined ? '?' : Number.isFinite(use) ? usedWords(use) : '> 100 %';

function tablePages(desk: Desk, setting: WallSettingOut): readonly Draft[] {
  const { id } = setting.wall;
  const { pieces } = layTablePieces(desk, setting, desk.sheet.body);
  return pieces.map((marks, i) => ({
    id: `setting-${id}-table-${i + 1}`,
    chapter: 'Setting-out',
    title: `Drilling table, ${wallCalled(id)}${pieces.length > 1 ? `, ${i + 1} of ${pieces.length}` : ''}`,
    marks,
  }));
}

/** What to do, and the table to drill by, from the top of an area and over further sheets. */
function layTablePieces(
  desk: Desk,
  setting: WallSettingOut,
  first: Area,
): { readonly pieces: readonly (readonly Mark[])[]; readonly end: number } {
  const { sheet, letter } = desk;
  const { level, plumb, holes, pieces, boxes, cables } = setting;
  const { body } = sheet;
  const f = letter.figure;
  const idle = new Set(pieces.flatMap((p) => (p.idle ? [p.piece] : [])));
  const columns: Column<HoleMark>[] = [
    { head: 'No.', cell: (h) => `${h.number}`, bold: true, align: 'right' },
    { head: 'Across', cell: (h) => signed(f, h.across), align: 'right', bold: true },
    { head: 'Up', cell: (h) => signed(f, h.up), align: 'right', bold: true },
    { head: 'From left end', cell: (h) => f(h.point.x), align: 'right' },
    { head: 'Above floor', cell: (h) => f(h.point.y), align: 'right' },
    { head: 'Behind it', cell: behind },
    { head: 'For', cell: (h) => h.title, share: 1 },
    { head: 'Fixing', cell: ({ point }) => (point.washer ? `${point.fixing}, washer` : point.fixing) },
    {
      head: 'Drill',
      cell: (h) => (h.point.pilot === undefined ? '' : letter.thickness(h.point.pilot)),
      align: 'right',
    },
    {
      head: 'Shim',
      cell: (h) => (h.shim === undefined || h.shim < 0.4 ? '' : letter.thickness(h.shim)),
      align: 'right',
    },
    {
      head: 'Used',
      cell: (h) => usedOf(h.point, idle),
      align: 'right',
    },
    { head: 'Done', cell: () => '', tick: true },
  ];
  const words = [
    `Strike a plumb line ${letter.length(plumb)} from the left end of the wall and a level line ${letter.length(level)} above the floor. Measure every hole from these two, to the right and up; a minus is to the left or down.`,
    ...timberWords(desk, setting),
    ...boxes.map(
      (b) =>
        `Cut out ${b.said.id} (${b.said.carries}): left edge ${signed(f, b.x[0] - plumb)} across, lower edge ${signed(f, b.y[0] - level)} up, ${f(b.x[1] - b.x[0])} wide, ${f(b.y[1] - b.y[0])} high, ${f(b.depth)} deep.`,
    ),
    ...cables.map(
      (c) =>
        `${c.said.id} (${c.said.carries}, ${c.said.route}): from ${c.said.from} to ${c.said.to}, ${letter.length(c.length)} with slack${c.crosses > 0 ? `, through ${c.crosses} ${c.crosses === 1 ? 'stud' : 'studs'}` : ''}.`,
    ),
    ...pieces.flatMap((p) => (p.unknown ? [`${p.title}: ${p.unknown}.`] : [])),
    ...pieces.flatMap((p) =>
      p.shift === undefined
        ? []
        : [
            `${p.title}: the middle of its wall plate sits ${letter.length(Math.abs(p.shift))} to the ${p.shift < 0 ? 'left' : 'right'} of its own middle.`,
          ],
    ),
    ...(holes.some(({ point }) => point.washer)
      ? [
          'A cut washer under the head of each lag screw that bears on wood, so that it does not sink in; turn it in with a wrench, never drive it with a hammer.',
        ]
      : []),
    ...pieces.flatMap(({ title, behind }) =>
      behind === undefined
        ? []
        : [
            `${title} is screwed on through ${behind.title}${behind.hollow > 0 ? `: at each of its holes pack the hollow of ${letter.length(behind.hollow)} behind that` : ''}.`,
          ],
    ),
    CAUTIONS,
  ].flatMap((para) => wrapText(para, LETTER.small, body.width));
  const head: Mark[] = words.map((w, i) => text(first.x, first.y + LEADING * (i + 1) - 1, w));
  const top = words.length * LEADING + 3;
  const areaOf = (i: number): Area => (i === 0 ? area(first.x, first.y + top, first.width, first.height - top) : body);
  const laid = layTable(
    columns,
    holes.map((row) => ({ row })),
    areaOf,
  );
  return { pieces: laid.pieces.map((marks, i) => (i === 0 ? [...head, ...marks] : marks)), end: laid.end };
}
