import type { AlikeLayouts } from '../alike.ts';
import { type Area, area, below, LETTER, line, right, text, textArea, textsOf } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import type { LayoutPlan } from '../input.ts';
import { placesIn } from '../layout/place.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import { type LaidView, layView } from '../view/dimensioned.ts';
import type { Desk } from './desk.ts';
import { type Detail, detailed, drawDetails, type Panel, panelOf } from './layout-drawing.ts';
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
  readonly panel: Panel;
  /** What of it is so crowded that its words stand in an enlarged drawing. */
  readonly details: readonly Detail[];
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

/** Where what is crowded is drawn larger, beside columns of steps. */
const enlargedIn = ({ sheet: { body } }: Desk, columns: number): Area => ({
  ...body,
  width: body.width - columns * (COLUMN + GUTTER),
});

/** A layout on a sheet of its own; what is crowded in it enlarged, and steps that find no room beside or below it, on further ones. */
function wholeSheets(desk: Desk, own: Sheetful, total: number): readonly Draft[] {
  const { body } = desk.sheet;
  const { marks, left, scale, panel, details } = layoutIn(desk, own, body, false)!;
  const { times } = own.alike;
  const title = `${own.name}, layout ${own.index} of ${total}${times > 1 ? `: cut ${times} alike` : ''}`;
  const id = `layout-${own.index}`;
  const pages: Draft[] = [{ id, chapter: 'Cutting', title, scale: scale.text, marks }];
  let rest = left;
  if (details.length > 0) {
    // the steps that are left stand beside the enlarged drawings, in as few columns as hold them
    const beside = (count: number): readonly Area[] =>
      Array.from({ length: count }, (_, i) =>
        area(right(body) - (count - i) * (COLUMN + GUTTER) + GUTTER, body.y, COLUMN, body.height),
      );
    const laid = (count: number) => layWords(rest, beside(count));
    const columns = rest.length === 0 ? 0 : laid(1).left.length === 0 ? 1 : 2;
    const words = laid(columns);
    const drawn = drawDetails(panel, details, enlargedIn(desk, columns), desk.letter);
    rest = words.left;
    pages.push({
      id: `${id}-enlarged`,
      chapter: 'Cutting',
      title: `${title}, enlarged`,
      scale: drawn.scale,
      marks: [...drawn.marks, ...words.marks],
    });
  }
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
  const { layout, times } = alike;
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
      `${layout.source.kind === 'rack' ? `From the rack: ${layout.source.id}${layout.source.where ? `, ${layout.source.where}` : ''},` : 'Panel'} ${letter.length(full[0])} × ${letter.length(full[1])}${item ? ` × ${letter.thickness(item.thickness)}` : ''}, saw cut ${letter.blade(layout.kerf)}`,
      ...(layout.trim > 0 ? [`${letter.blade(layout.trim)} trimmed off each edge first`] : []),
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
  places.taken.push(...textsOf(dimensions).map(textArea));
  const panel = panelOf(desk, alike, plan);
  const drawn = detailed(panel, { place, frame, places, letter }, enlargedIn(desk, 1));
  const marks: Mark[] = [...drawn.marks, ...dimensions];
  const grain = item?.grain === 'none' ? [] : grainArrow(right(frame), below(extentBelow(dimensions, frame)) + 4.5);
  return {
    marks: [...marks, ...key.marks, ...grain, ...words.marks],
    left: words.left,
    scale,
    panel,
    details: drawn.details,
  };
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
