import type { AlikeLayouts } from '../alike.ts';
import {
  type Area,
  area,
  below,
  group,
  LETTER,
  line,
  point,
  rectangle,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import type { LayoutPlan } from '../input.ts';
import { type InTurn, type Places, placeInTurn, placesIn, takeLed } from '../layout/place.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import { LEADING } from '../layout/table.ts';
import { numberedWords, small, wordsIn } from '../layout/words-in.ts';
import type { Mark, Point } from '../marks.ts';
import { type LaidView, layView } from '../view/dimensioned.ts';
import { areaOnPaper, onPaper, type Placement } from '../view/view.ts';
import { type Desk, numberRuns } from './desk.ts';
import type { Draft } from './sheet.ts';
import { cuttingOf } from './spacers.ts';

/** Width of a column of steps, and between two of them, mm. */
const COLUMN = 62;
const GUTTER = 7;
/** Room below the drawing for two lines about the panel. */
const KEY = 4 + 2 * LEADING;
/** Parts smaller than this on the paper, mm, could not be lettered: then a layout is not drawn small to share a sheet. */
const LETTERED = { short: 8, long: 22 };
/** The smallest scale at which a panel is drawn so that its steps stand beside it; and one smaller where all parts are wide, mm of paper. */
const SMALLEST = 20;
const SMALLER = { scale: 25, wide: 6.5 };

/** A layout laid into some place: the drawing and its steps, and those that found no room. */
interface Laid {
  readonly marks: readonly Mark[];
  readonly left: readonly Words[];
  readonly scale: Scale;
}
interface Sheetful {
  readonly alike: AlikeLayouts;
  readonly index: number;
  readonly name: string;
  readonly plan: LayoutPlan;
  readonly steps: readonly Words[];
}

/**
 * One layout a drawing: the panel with its parts, the cuts numbered in the order they are made, offcuts named, waste hatched. Two
 * that follow one another share a sheet where both can be read at half its height.
 */
export function panelLayoutPages(desk: Desk): readonly Draft[] {
  const all = cuttingOf(desk).layouts.map(
    (own, i): Sheetful => ({ ...own, index: i + 1, steps: own.plan.steps.map(stepWords) }),
  );
  const { body } = desk.sheet;
  const high = (body.height - GUTTER) / 2;
  const halves = [0, 1].map((k) => area(body.x, body.y + k * (high + GUTTER), body.width, high));
  const total = all.length;
  const pages: Draft[] = [];
  for (let i = 0; i < total; i++) {
    const [own, next] = [all[i]!, all[i + 1]];
    const pair = next && [layoutIn(desk, own, halves[0]!, true), layoutIn(desk, next, halves[1]!, true)];
    if (pair?.every((laid) => laid !== undefined)) {
      const scales = [...new Set(pair.map((laid) => laid.scale.text))];
      const both = `${own.index} and ${own.index + 1} of ${total}`;
      pages.push({
        id: `layout-${own.index}`,
        chapter: 'Cutting',
        title: `${[...new Set([own.name, next!.name])].join(' and ')}, layouts ${both}`,
        scale: scales.join(' and '),
        marks: [
          ...pair.flatMap((laid) => laid.marks),
          line(body.x, halves[1]!.y - GUTTER / 2, right(body), halves[1]!.y - GUTTER / 2, 'thin'),
        ],
      });
      i++;
      continue;
    }
    pages.push(...wholeSheets(desk, own, total));
  }
  return pages;
}

/** A layout on a sheet of its own, its steps on further ones where they find no room beside or below it. */
function wholeSheets(desk: Desk, own: Sheetful, total: number): readonly Draft[] {
  const { body } = desk.sheet;
  const { marks, left, scale } = layoutIn(desk, own, body, false)!;
  const { times } = own.alike;
  const title = `${own.name}, layout ${own.index} of ${total}${times > 1 ? `: cut ${times} alike` : ''}`;
  const id = `layout-${own.index}`;
  const pages: Draft[] = [{ id, chapter: 'Cutting', title, scale: scale.text, marks }];
  let rest = left;
  while (rest.length > 0) {
    const next = layWords(rest, columnsIn(body, body.y));
    if (next.left.length === rest.length) break;
    pages.push({
      id: `${id}-steps-${pages.length}`,
      chapter: 'Cutting',
      title: `${title}, order of cuts`,
      marks: next.marks,
    });
    rest = next.left;
  }
  return pages;
}

/** Columns for steps side by side over the whole width of a place, from a height on. */
function columnsIn(place: Area, top: number): readonly Area[] {
  const count = Math.max(1, Math.floor((place.width + GUTTER) / (COLUMN + GUTTER)));
  const width = (place.width - (count - 1) * GUTTER) / count;
  return Array.from({ length: count }, (_, i) =>
    area(place.x + i * (width + GUTTER), top, width, Math.max(0, below(place) - top)),
  );
}

/**
 * The layout in a place, at the largest scale at which all of its steps stand beside or below it; where none is, at the largest that the
 * drawing has room for. `whole`: undefined unless everything stands there and can be read.
 */
function layoutIn(desk: Desk, { alike, index, plan, steps }: Sheetful, body: Area, whole: boolean): Laid | undefined {
  const { layout, times, parts: ids } = alike;
  const { letter, input } = desk;
  const item = input.plan.stock.panels.find((p) => p.id === layout.stock);
  const full = [layout.length, layout.width] as const;
  // An offcut of the rack is not blown up beyond what a whole panel is drawn at on the largest paper.
  const sizable = scalesOf(letter.unit).find((s) => s.ratio >= 8)!;
  const view = (into: Area, left: boolean, from: Scale) =>
    layView({
      u: [0, full[0]],
      v: [-full[1], 0],
      into: { ...into, height: into.height - KEY },
      letter,
      stand: 'top',
      from,
      dimensions: { below: [[0, full[0]]], ...(left && { left: [[-full[1], 0]] }) },
    });
  const keyOf = (frame: Area, foot: number) => {
    const words = [
      `${layout.source.kind === 'rack' ? `From the rack: ${layout.source.id}${layout.source.where ? `, ${layout.source.where}` : ''},` : 'Panel'} ${letter.length(full[0])} × ${letter.length(full[1])}${item ? ` × ${letter.thickness(item.thickness)}` : ''}, saw cut ${letter.length(layout.kerf)}`,
      ...(layout.trim > 0 ? [`${letter.length(layout.trim)} trimmed off each edge first`] : []),
      `${percent(layout.placed, full)} used by parts`,
    ].join('; ');
    const head = `Layout ${index}${times > 1 ? `, cut ${times} alike` : ''}. `;
    const wide = right(frame) - body.x;
    // beside the first line lies the arrow of the grain
    const first = wrapText(head + words, LETTER.small, wide - 34)[0]!;
    const lines = [first, ...wrapText((head + words).slice(first.length), LETTER.small, wide)].slice(0, 3);
    const marks = lines.map((own, i) => text(body.x, foot + 4.5 + i * LEADING, own, { tone: 'faint' }));
    return { marks, end: foot + 4 + lines.length * LEADING };
  };
  const bare = view(body, false, sizable).scale;
  const cramped = ({ ratio }: Scale): boolean =>
    layout.placed.some(
      (p) =>
        Math.min(p.length, p.width) / ratio < LETTERED.short || Math.max(p.length, p.width) / ratio < LETTERED.long,
    );
  if (whole && cramped(bare)) return undefined;
  const arrangements = function* () {
    const wide = Math.min(...layout.placed.map((p) => Math.min(p.length, p.width))) / SMALLER.scale >= SMALLER.wide;
    const smallest = Math.max(wide ? SMALLER.scale : SMALLEST, bare.ratio);
    const smaller = scalesOf(letter.unit).filter((s) => s.ratio >= bare.ratio && s.ratio <= smallest);
    for (const from of smaller)
      for (const aside of [1, 2, 3, 0]) {
        const wide = body.width - aside * (COLUMN + GUTTER);
        if (wide < 60) continue;
        const into = { ...body, width: wide };
        // The width of the panel is told in the key too: its dimension gives way where it would cost the drawing a scale.
        for (const left of [true, false]) {
          const laid = view(into, left, from);
          if (laid.scale.ratio !== from.ratio) continue;
          const key = keyOf(laid.frame, below(extentBelow(laid.dimensions, laid.frame)));
          if (aside === 0) {
            yield { laid, key, words: stepsIn(steps, columnsIn(body, key.end)) };
            break;
          }
          const beside = Array.from({ length: aside }, (_, i) =>
            area(right(body) - (aside - i) * (COLUMN + GUTTER) + GUTTER, body.y, COLUMN, body.height),
          );
          yield { laid, key, words: stepsIn(steps, beside) };
          // they begin below the drawing where that keeps it large
          if (wide >= COLUMN && laid.scale.ratio === bare.ratio)
            yield { laid, key, words: stepsIn(steps, [...columnsIn(into, key.end), ...beside]) };
          break;
        }
      }
  };
  let best:
    | { readonly laid: LaidView; readonly key: ReturnType<typeof keyOf>; readonly words: ReturnType<typeof layWords> }
    | undefined;
  for (const one of arrangements()) {
    if (one.words.left.length === 0) {
      best = one;
      break;
    }
    // the steps on a sheet of their own: then as many of them here as at the largest scale have room
    if (one.laid.scale.ratio === bare.ratio && (!best || one.words.left.length < best.words.left.length)) best = one;
  }
  if (!best) {
    const laid = view(body, false, bare);
    best = {
      laid,
      key: keyOf(laid.frame, below(extentBelow(laid.dimensions, laid.frame))),
      words: { marks: [], left: steps },
    };
  }
  const { laid, key, words } = best;
  const { place, frame, scale, dimensions } = laid;
  if (whole) {
    if (words.left.length > 0 || below(frame) + KEY > below(body) + 1e-6) return undefined;
    if (cramped(scale)) return undefined;
  }
  const places = placesIn(
    area(body.x, body.y, right(frame) + GUTTER - 1 - body.x, body.height),
    [...key.marks, ...textsOf(words.marks)].map(textArea),
  );
  const parts = layout.placed.map((p, i) => ({
    ...p,
    numbers: numberRuns(ids[i]!.flatMap((id) => desk.numbered().numberOf.get(id) ?? [])),
    name: desk.numbered().partOf.get(p.part)?.part.label.name ?? p.part,
  }));
  const cuts = plan.steps.flatMap((s) => (s.line ? [{ number: s.number, line: s.line }] : []));
  const cutAreas = cuts.map(({ line: { from, to } }) => flat(place, from, to));
  const marks: Mark[] = [
    rectangle(frame, { hatch: 'waste', tone: 'faint' }),
    ...plan.left.map((l) => {
      const at = areaOnPaper(place, [l.x, l.x + l.length], [-l.y - l.width, -l.y]);
      return rectangle(at, {
        fill: 'paper',
        ...(l.name === undefined && l.spacers === undefined ? { hatch: 'waste', tone: 'faint' } : {}),
      });
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
  places.taken.push(...textsOf(dimensions).map(textArea));
  const worded = [
    ...cuts.map(
      ({ number }, i): InTurn =>
        (on) =>
          cutNumber(on, cutAreas[i]!, number),
    ),
    ...[...parts]
      .sort((a, b) => a.length * a.width - b.length * b.width)
      .map((p): InTurn => {
        const at = areaOnPaper(place, [p.x, p.x + p.length], [-p.y - p.width, -p.y]);
        const size = `${letter.figure(p.length)} × ${letter.figure(p.width)}`;
        return (on) => [group(p.part, numberedWords(on, at, p.numbers || p.part, p.name, size), p.name)];
      }),
    ...plan.left.map((l): InTurn => {
      const at = areaOnPaper(place, [l.x, l.x + l.length], [-l.y - l.width, -l.y]);
      return (on) => wordsOfRest(on, at, l, letter);
    }),
  ];
  marks.push(...placeInTurn(places, worded).flat());
  const grain = item?.grain === 'none' ? [] : grainArrow(right(frame), below(extentBelow(dimensions, frame)) + 4.5);
  return {
    marks: [...marks, ...key.marks, ...grain, ...words.marks],
    left: words.left,
    scale,
  };
}

/** What a rest is called and how large it is, as much as fits; which spacers are cut from it, beside it where it must be. */
function wordsOfRest(
  places: Places,
  at: Area,
  rest: LayoutPlan['left'][number],
  letter: Desk['letter'],
): readonly Mark[] {
  const { name, spacers } = rest;
  if (spacers !== undefined) {
    const [own, short] = [`spacers ${spacers}`, spacers].map(small);
    const inside = wordsIn(places, at, [...(name === undefined ? [] : [[small(name), own!]]), [own!], [short!]]);
    return inside.length > 0 ? inside : wordsBeside(places, at, spacers);
  }
  if (name === undefined) return [];
  const size = `${letter.figure(rest.length)} × ${letter.figure(rest.width)}`;
  return wordsIn(places, at, [[small(name), small(size)], [small(name)], [small(name.replace(/^.* /, ''))]]);
}

/** The words of a rest too small for them, led to from beside it. */
function wordsBeside(places: Places, of: Area, words: string): readonly Mark[] {
  const on = point(of.x + of.width / 2, of.y + of.height / 2);
  const spots = ROUND.flatMap((far) =>
    Array.from({ length: 16 }, (_, i) => {
      const mark = text(on.x + far * Math.cos((i * Math.PI) / 8), on.y + far * Math.sin((i * Math.PI) / 8), words, {
        align: 'centre',
        anchor: 'middle',
        bold: true,
      });
      const own = textArea(mark);
      const near = point(Math.max(own.x, Math.min(right(own), on.x)), Math.max(own.y, Math.min(below(own), on.y)));
      return { mark, area: own, leader: [on, near] as const };
    }),
  );
  const found = takeLed(places, spots);
  if (!found) return [];
  const near = found.leader[1];
  return [
    line(on.x, on.y, near.x, near.y, 'thin'),
    { kind: 'circle', centre: on, radius: 0.6, fill: 'ink' },
    found.mark,
  ];
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
    return {
      on,
      centre,
      far: Math.hypot(dx, dy),
      leader: [on, centre] as const,
      area: area(centre.x - r, centre.y - r, 2 * r, 2 * r),
    };
  };
  const onCut = (share: number): Point =>
    point(cut.x + cut.width * (upright ? 0.5 : share), cut.y + cut.height * (upright ? share : 0.5));
  // one after the other: most cuts have room for it on their line
  function* spots() {
    for (const aside of ASIDE)
      for (const share of ALONG) yield upright ? spot(onCut(share), aside, 0) : spot(onCut(share), 0, aside);
    for (const far of ROUND)
      for (const share of [0.5, 0, 1, 0.25, 0.75])
        for (let i = 0; i < 16; i++)
          yield spot(onCut(share), far * Math.cos((i * Math.PI) / 8), far * Math.sin((i * Math.PI) / 8));
  }
  const { on, far, centre } = takeLed(places, spots()) ?? spot(onCut(0.5), 0, 0);
  const figure = text(centre.x, centre.y, `${number}`, {
    align: 'centre',
    anchor: 'middle',
    tone: 'accent',
    bold: true,
  });
  // no leader may cross it on its way out of the ring
  places.taken.push(textArea(figure));
  return [
    ...(far > r ? [line(on.x, on.y, centre.x, centre.y, 'thin', 'accent')] : []),
    { kind: 'circle', centre, radius: r, pen: 'thin', fill: 'paper', tone: 'accent' },
    figure,
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

/** Steps in columns, closer where a few lines would need a sheet of their own. */
function stepsIn(steps: readonly Words[], columns: readonly Area[]): ReturnType<typeof layWords> {
  const usual = layWords(steps, columns);
  const close = usual.left.length === 0 ? usual : layWords(steps, columns, 0.7);
  return close.left.length === 0 ? close : usual;
}

/** Numbered steps in columns; what does not fit is given back. */
export function layWords(
  steps: readonly Words[],
  columns: readonly Area[],
  gap = 1.4,
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
    const head = step.heading === undefined ? 0 : LEADING + gap;
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
    y += own.length * LEADING + gap;
  }
  return { marks, left: [] };
}
