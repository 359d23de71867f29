import { type AlikeLayouts, alikeLayouts } from '../alike.ts';
import { cutPlan } from '../cut-plan.ts';
import { type Area, area, below, group, LETTER, line, point, rectangle, right, text, textArea } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import type { LayoutPlan } from '../input.ts';
import { type Places, placesIn, takeFirst } from '../layout/place.ts';
import { scalesOf } from '../layout/scale.ts';
import { LEADING } from '../layout/table.ts';
import { numberedWords, small, wordsIn } from '../layout/words-in.ts';
import type { Mark, Point } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { areaOnPaper, onPaper, type Placement } from '../view/view.ts';
import { type Desk, numberRuns } from './desk.ts';
import type { Draft } from './sheet.ts';

const COLUMN = 62;
/** Room below the drawing for two lines about the panel. */
const KEY = 4 + 2 * LEADING;

/** One layout a drawing: the panel with its parts, the cuts numbered in the order they are made, offcuts named, waste hatched. */
export function panelLayoutPages(desk: Desk): readonly Draft[] {
  const layouts = alikeLayouts(desk.input.cuts, 'panel');
  return layouts.flatMap((alike, i) => layoutPages(desk, alike, i + 1, layouts.length));
}

function layoutPages(
  desk: Desk,
  { layout, times, parts: ids }: AlikeLayouts,
  index: number,
  total: number,
): readonly Draft[] {
  const { letter, sheet, input } = desk;
  const item = input.plan.stock.panels.find((p) => p.id === layout.stock);
  const called = new Map(
    layout.placed.map((p, i) => [p.part, numberRuns(ids[i]!.flatMap((id) => desk.numberOf.get(id) ?? []))]),
  );
  const plan = input.orderOf?.(layout) ?? cutPlan(layout, input.plan, letter, (id) => called.get(id) ?? id);
  const steps = plan.steps;
  const { body } = sheet;
  const full = [layout.length, layout.width] as const;
  // An offcut of the rack is not blown up beyond what a whole panel is drawn at on the largest paper.
  const sizable = scalesOf(letter.unit).find((s) => s.ratio >= 8)!;
  const view = (into: Area, left: boolean) =>
    layView({
      u: [0, full[0]],
      v: [-full[1], 0],
      into: { ...into, height: into.height - KEY },
      letter,
      stand: 'top',
      from: sizable,
      dimensions: { below: [[0, full[0]]], ...(left && { left: [[-full[1], 0]] }) },
    });
  // The width of the panel is told in the key too: its dimension gives way where it would cost the drawing a scale.
  const bare = view(body, false).scale.ratio;
  const left = view(body, true).scale.ratio === bare;
  // The steps stand beside the drawing, when that does not cost it a scale; else below it or on a sheet of their own.
  const narrow = { ...body, width: body.width - COLUMN - 7 };
  const beside = steps.length > 0 && view(narrow, left).scale.ratio === bare;
  const into = beside ? narrow : body;
  const { place, frame, scale, dimensions } = view(into, left);
  const places = placesIn(area(into.x, into.y, into.width, into.height), []);
  const parts = layout.placed.map((p, i) => ({
    ...p,
    numbers: numberRuns(ids[i]!.flatMap((id) => desk.numberOf.get(id) ?? [])),
    name: desk.partOf.get(p.part)?.part.label.name ?? p.part,
  }));
  const cuts = steps.flatMap((s) => (s.line ? [{ number: s.number, line: s.line }] : []));
  const cutAreas = cuts.map(({ line: { from, to } }) => flat(place, from, to));
  const marks: Mark[] = [
    rectangle(frame, { hatch: 'waste', tone: 'faint' }),
    ...plan.left.map((l) => {
      const at = areaOnPaper(place, [l.x, l.x + l.length], [-l.y - l.width, -l.y]);
      return rectangle(at, { fill: 'paper', ...(l.name === undefined ? { hatch: 'waste', tone: 'faint' } : {}) });
    }),
    ...parts.map((p) =>
      rectangle(areaOnPaper(place, [p.x, p.x + p.length], [-p.y - p.width, -p.y]), { fill: 'paper', pen: 'visible' }),
    ),
    rectangle(frame, { pen: 'outline' }),
    ...cuts.map(({ line: { from, to } }) => {
      const [a, b] = [onPaper(place, from.x, -from.y), onPaper(place, to.x, -to.y)];
      return line(a.x, a.y, b.x, b.y, 'cut', 'accent');
    }),
    ...dimensions,
  ];
  marks.push(...cuts.flatMap(({ number }, i) => cutNumber(places, cutAreas[i]!, number)));
  for (const p of [...parts].sort((a, b) => a.length * a.width - b.length * b.width)) {
    const at = areaOnPaper(place, [p.x, p.x + p.length], [-p.y - p.width, -p.y]);
    const size = `${letter.figure(p.length)} × ${letter.figure(p.width)}`;
    marks.push(group(p.part, numberedWords(places, at, p.numbers || p.part, p.name, size), p.name));
  }
  for (const l of plan.left) {
    if (l.name === undefined) continue;
    const at = areaOnPaper(place, [l.x, l.x + l.length], [-l.y - l.width, -l.y]);
    const size = `${letter.figure(l.length)} × ${letter.figure(l.width)}`;
    marks.push(
      ...wordsIn(places, at, [[small(l.name), small(size)], [small(l.name)], [small(l.name.replace(/^.* /, ''))]]),
    );
  }
  const name = item?.name ?? layout.stock;
  const title = `${name}, layout ${index} of ${total}${times > 1 ? `: cut ${times} alike` : ''}`;
  const foot = below(extentBelow(dimensions, frame));
  const key = [
    `${layout.source.kind === 'rack' ? `From the rack: ${layout.source.id}${layout.source.where ? `, ${layout.source.where}` : ''},` : 'Panel'} ${letter.length(full[0])} × ${letter.length(full[1])}${item ? ` × ${letter.thickness(item.thickness)}` : ''}, saw cut ${letter.length(layout.kerf)}`,
    ...(layout.trim > 0 ? [`${letter.length(layout.trim)} trimmed off each edge first`] : []),
    `${percent(parts, full)} used by parts`,
  ].join('; ');
  const keyLines = wrapText(key, LETTER.small, right(frame) - body.x - 34);
  marks.push(...keyLines.map((words, i) => text(body.x, foot + 4.5 + i * LEADING, words, { tone: 'faint' })));
  const listTop = foot + 4 + keyLines.length * LEADING;
  if (item?.grain !== 'none') marks.push(...grainArrow(right(frame), foot + 4.5));
  const columns: Area[] = [];
  if (beside) columns.push(area(right(body) - COLUMN, body.y, COLUMN, body.height));
  else if (below(body) - listTop > 4 * LEADING) {
    const width = (body.width - 2 * 7) / 3;
    for (let i = 0; i < 3; i++) columns.push(area(body.x + i * (width + 7), listTop, width, below(body) - listTop));
  }
  const draft = (id: string, more: string, own: readonly Mark[], scaled: boolean): Draft => ({
    id: `layout-${index}${id}`,
    chapter: 'Cutting',
    title: `${title}${more}`,
    ...(scaled && { scale: scale.text }),
    marks: own,
  });
  const laid = layWords(steps.map(stepWords), columns);
  const pages = [draft('', '', [...marks, ...laid.marks], true)];
  let rest = laid.left;
  while (rest.length > 0) {
    const width = (body.width - 2 * 7) / 3;
    const next = layWords(
      rest,
      [0, 1, 2].map((i) => area(body.x + i * (width + 7), body.y, width, body.height)),
    );
    if (next.left.length === rest.length) break;
    pages.push(draft(`-steps-${pages.length}`, ', order of cuts', next.marks, false));
    rest = next.left;
  }
  return pages;
}

/** The area of the dimensions that lie below the frame, or the frame. */
function extentBelow(dimensions: readonly Mark[], frame: Area): Area {
  const texts = dimensions.flatMap((m) => (m.kind === 'text' && m.turn === undefined ? [textArea(m)] : []));
  const low = Math.max(
    below(frame),
    ...texts.map(below),
    ...dimensions.flatMap((m) => (m.kind === 'line' ? [m.to.y, m.from.y] : [])),
  );
  return area(frame.x, frame.y, frame.width, low - frame.y);
}

function percent(
  parts: readonly { readonly length: number; readonly width: number }[],
  full: readonly [number, number],
): string {
  const used = parts.reduce((sum, p) => sum + p.length * p.width, 0);
  return `${Math.round((100 * used) / (full[0] * full[1]))} %`;
}

const flat = (place: Placement, from: { x: number; y: number }, to: { x: number; y: number }): Area =>
  areaOnPaper(
    place,
    [Math.min(from.x, to.x), Math.max(from.x, to.x)],
    [-Math.max(from.y, to.y), -Math.min(from.y, to.y)],
  );

const ALONG = [0.5, 0.08, 0.92, 0.25, 0.75, 0.4, 0.6, 0.16, 0.84, 0.33, 0.67, 0.04, 0.96, 0, 1];
const ASIDE = [0, 3, -3, 5.5, -5.5, 8, -8, 11, -11, 15, -15, 20, -20, 26, -26];

const ROUND = [6, 9, 12, 16, 20, 25, 30, 36, 44];

/** The number of a cut in a small ring on its line; beside it on a leader where the line has no room. */
function cutNumber(places: Places, cut: Area, number: number): readonly Mark[] {
  const r = number > 99 ? 3 : 2.4;
  const upright = cut.height > cut.width;
  const spot = (on: Point, dx: number, dy: number) => {
    const centre = point(on.x + dx, on.y + dy);
    return { on, centre, far: Math.hypot(dx, dy), area: area(centre.x - r, centre.y - r, 2 * r, 2 * r) };
  };
  const onCut = (share: number): Point =>
    point(cut.x + cut.width * (upright ? 0.5 : share), cut.y + cut.height * (upright ? share : 0.5));
  const beside = ASIDE.flatMap((aside) =>
    ALONG.map((share) => (upright ? spot(onCut(share), aside, 0) : spot(onCut(share), 0, aside))),
  );
  const round = ROUND.flatMap((far) =>
    Array.from({ length: 16 }, (_, i) =>
      spot(onCut(0.5), far * Math.cos((i * Math.PI) / 8), far * Math.sin((i * Math.PI) / 8)),
    ),
  );
  const { on, far, centre } = takeFirst(places, beside) ?? takeFirst(places, round) ?? beside[0]!;
  return [
    ...(far > r ? [line(on.x, on.y, centre.x, centre.y, 'thin', 'accent')] : []),
    { kind: 'circle', centre, radius: r, pen: 'thin', fill: 'paper', tone: 'accent' },
    text(centre.x, centre.y, `${number}`, { align: 'centre', anchor: 'middle', tone: 'accent', bold: true }),
  ];
}

/** Grain runs along the drawing: an arrow with half a barb at either end, at the lower right of the panel. */
function grainArrow(x: number, y: number): readonly Mark[] {
  const [from, mid] = [x - 20, y - 1];
  return [
    text(from - 2, y, 'grain', { align: 'right', tone: 'faint' }),
    line(from, mid, x, mid, 'visible'),
    line(x, mid, x - 2.6, mid - 1, 'visible'),
    line(from, mid, from + 2.6, mid + 1, 'visible'),
  ];
}

interface Words {
  readonly heading?: string;
  readonly number: string;
  readonly lead: string;
  readonly words: string;
  readonly heed?: string;
}
const stepWords = (s: LayoutPlan['steps'][number]): Words => ({
  number: `${s.number}`,
  lead: s.tool,
  words: s.words,
  ...(s.heed !== undefined && { heed: s.heed }),
  ...(s.heading !== undefined && { heading: s.heading }),
});

/** Numbered steps in columns; what does not fit is given back. */
export function layWords(
  steps: readonly Words[],
  columns: readonly Area[],
): { readonly marks: readonly Mark[]; readonly left: readonly Words[] } {
  const marks: Mark[] = [];
  let column = 0;
  let y = columns[0]?.y ?? 0;
  for (const [i, step] of steps.entries()) {
    const lines = (width: number) => [
      ...wrapText(`${step.lead} ${step.words}`, LETTER.small, width - 8).map((words) => ({ words, heed: false })),
      ...(step.heed === undefined
        ? []
        : wrapText(step.heed, LETTER.small, width - 8).map((words) => ({ words, heed: true }))),
    ];
    const head = step.heading === undefined ? 0 : LEADING + 1.4;
    let place = columns[column];
    if (place && y + head + lines(place.width).length * LEADING > below(place)) {
      place = columns[++column];
      if (place) y = place.y;
    }
    if (!place) return { marks, left: steps.slice(i) };
    const own = lines(place.width);
    if (y + head + own.length * LEADING > below(place)) return { marks, left: steps.slice(i) };
    if (step.heading !== undefined) {
      marks.push(text(place.x, y + LEADING - 0.6, fitText(step.heading, LETTER.small, place.width), { tone: 'faint' }));
      y += head;
    }
    marks.push(
      text(place.x + 5.6, y + LEADING - 0.6, fitText(step.number, LETTER.small, 6, true), {
        bold: true,
        align: 'right',
        tone: 'accent',
      }),
    );
    own.forEach(({ words, heed }, k) => {
      marks.push(text(place.x + 8, y + LEADING * (k + 1) - 0.6, words, heed ? { tone: 'caution', bold: true } : {}));
    });
    y += own.length * LEADING + 1.4;
  }
  return { marks, left: [] };
}
