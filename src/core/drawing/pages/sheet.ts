import { type Area, area, LETTER, line, rectangle, right, text } from '../draw.ts';
import { fitText, textWidth } from '../font/measure.ts';
import { standing } from '../layout/standing.ts';
import type { Mark, Page, PageView, PaperName } from '../marks.ts';
import { PAPERS } from '../marks.ts';

/**
 * The sheet all pages share: the tally along the top, the title along the bottom, the register as thumb tabs down the right
 * edge (the tab of the page's own chapter is inked, so that it is found in a closed packet), the drawing between.
 * Filing margin 20 mm at the left, 10 mm elsewhere (ISO 5457:1999); the tabs lie in the right margin.
 */
export const CHAPTERS = [
  'Overview',
  'Room',
  'Pieces',
  'Parts',
  'Cutting',
  'Buying',
  'Assembly',
  'Labels',
  'Setting-out',
  'Story stick',
  'Wiring',
  'Light',
  'Sound',
  'Camera',
  'Calendar',
  'Workings',
] as const;
export type Chapter = (typeof CHAPTERS)[number];
/** What a thumb tab says when there are too many for their full names. */
const SHORT: Partial<Readonly<Record<Chapter, string>>> = {
  Overview: 'All',
  Cutting: 'Cut',
  Buying: 'Buy',
  Assembly: 'Build',
  Calendar: 'Days',
  'Setting-out': 'Wall',
  Wiring: 'Wire',
  'Story stick': 'Stick',
  Workings: 'Sums',
};

/** A page before it knows its number and how many there are. */
export interface Draft {
  readonly id: string;
  readonly chapter: Chapter;
  readonly title: string;
  readonly scale?: string;
  readonly view?: PageView;
  readonly state?: string;
  readonly marks: readonly Mark[];
  /** Fills a paper of its own size by itself, without tally and title: labels, the story stick. */
  readonly bare?: { readonly width: number; readonly height: number };
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  /** Where drawings and tables go. */
  readonly body: Area;
}

const LEFT = 20;
const RIGHT = 17;
const TOP = 7;
const TALLY = 11;
const TITLE = 12;
const BOTTOM = 7;
const TAB = 6.5;

/** A sheet as it lies on the bench, wider than high. */
export function sheetOf(paper: PaperName): Sheet {
  const { width: height, height: width } = PAPERS[paper];
  const top = TOP + TALLY + 4;
  const bottom = height - BOTTOM - TITLE - 3;
  return { width, height, body: area(LEFT, top, width - LEFT - RIGHT, bottom - top) };
}

export interface TallyItem {
  readonly name: string;
  readonly value: string;
  /** The difference from the option it is compared with, signed. */
  readonly change?: string;
  readonly alert?: boolean;
}
export interface Furniture {
  readonly plan: string;
  readonly option: string;
  readonly dimensions: string;
  readonly date?: string;
  readonly tally: readonly TallyItem[];
}

/** The pages, numbered, each with what stands round its drawing. */
export function bindPages(drafts: readonly Draft[], paper: PaperName, furniture: Furniture): readonly Page[] {
  const sheet = sheetOf(paper);
  return drafts.map((_, i) => bound(drafts, i, sheet, furniture));
}

/** One page of them alone. */
export const bindPage = (drafts: readonly Draft[], at: number, paper: PaperName, furniture: Furniture): Page =>
  bound(drafts, at, sheetOf(paper), furniture);

function bound(drafts: readonly Draft[], at: number, sheet: Sheet, furniture: Furniture): Page {
  const draft = drafts[at]!;
  const number = at + 1;
  const { bare, marks, chapter: _, ...rest } = draft;
  if (bare) return { ...rest, ...bare, number, marks };
  const { width, height } = sheet;
  return { ...rest, number, width, height, marks: [...around(draft, number, drafts, sheet, furniture), ...marks] };
}

function around(
  draft: Draft,
  number: number,
  drafts: readonly Draft[],
  sheet: Sheet,
  furniture: Furniture,
): readonly Mark[] {
  const { body } = sheet;
  const edge = right(body);
  const ruleTop = TOP + TALLY;
  const ruleBottom = sheet.height - BOTTOM - TITLE;
  return [
    line(LEFT, ruleTop, edge, ruleTop, 'outline'),
    line(LEFT, ruleBottom, edge, ruleBottom, 'outline'),
    ...tallyMarks(furniture, area(LEFT, TOP, body.width, TALLY)),
    ...titleMarks(draft, number, drafts.length, furniture, area(LEFT, ruleBottom, body.width, TITLE)),
    ...tabMarks(draft, drafts, sheet),
  ];
}

/** Name over value, as wide as they need, set from the right. */
function tallyMarks({ option, tally }: Furniture, place: Area): readonly Mark[] {
  const marks: Mark[] = [];
  let x = right(place);
  const [upper, lower] = [place.y + 3, place.y + 8.4];
  for (const { name, value, change, alert } of [...tally].reverse()) {
    const aside = change === undefined ? '' : ` ${change}`;
    const width = Math.max(
      textWidth(name, LETTER.small),
      textWidth(value, LETTER.head, true) + textWidth(aside, LETTER.small),
    );
    x -= width;
    marks.push(text(x, upper, name, { tone: 'faint' }));
    marks.push(text(x, lower, value, { height: LETTER.head, bold: true, ...(alert && { tone: 'alert' }) }));
    if (aside !== '') marks.push(text(x + textWidth(value, LETTER.head, true), lower, aside, { tone: 'faint' }));
    x -= 6;
  }
  const { height, lines } = standing(option, OPTION, x - place.x, true);
  // of two lines the first keeps clear of its heading, the second of the rule
  const [head, first] = lines.length === 1 ? [upper, lower] : [place.y + 2.4, place.y + 6.3];
  marks.push(text(place.x, head, 'Option', { tone: 'faint' }));
  lines.forEach((words, i) => {
    marks.push(text(place.x, first + i * PITCH, words, { height, bold: true }));
  });
  return marks;
}

/** How the words of the tally and the title stand, best first: smaller, then in more lines. */
const OPTION = [
  { height: LETTER.head, lines: 1 },
  { height: LETTER.small, lines: 1 },
  { height: LETTER.small, lines: 2 },
];
const TITLES = [
  { height: LETTER.title, lines: 1 },
  { height: LETTER.head, lines: 1 },
  { height: LETTER.head, lines: 2 },
  { height: LETTER.small, lines: 3 },
];
const PLAN = [
  { height: LETTER.small, lines: 1 },
  { height: LETTER.small, lines: 2 },
];
/** Widest the title of the plan may be in two lines, mm: the wider ones where the title of the sheet still stands beside it. */
const PLAN_WIDE = [70, 85, 100];
/** From one line of small letters to the next where there is little room, mm. */
const PITCH = 3.7;

function titleMarks(draft: Draft, number: number, of: number, furniture: Furniture, place: Area): readonly Mark[] {
  const fields: (readonly [string, string])[] = [
    ...(draft.scale ? [['Scale', draft.scale] as const, ['Dimensions', furniture.dimensions] as const] : []),
    ...(furniture.date ? [['Worked out', furniture.date] as const] : []),
    ['Page', `${number} of ${of}`],
  ];
  const marks: Mark[] = [];
  const [upper, lower] = [place.y + 4.2, place.y + 9];
  let x = right(place);
  for (const [name, value] of fields.toReversed()) {
    const shown = fitText(value, LETTER.small, 70, name === 'Page');
    x -= Math.max(textWidth(name, LETTER.small), textWidth(shown, LETTER.small, name === 'Page'));
    marks.push(text(x, upper, name, { tone: 'faint' }), text(x, lower, shown, name === 'Page' ? { bold: true } : {}));
    x -= 7;
  }
  const beside = PLAN_WIDE.map((wide) => {
    const plan = standing(furniture.plan, PLAN, wide);
    const left = x - Math.max(...['Plan', ...plan.lines].map((words) => textWidth(words, LETTER.small)));
    return { plan, left, title: standing(draft.title, TITLES, left - 7 - place.x, true) };
  });
  const { plan, left, title } = beside.find((b) => b.plan.whole && b.title.whole) ?? beside[0]!;
  const foot = (lines: readonly string[]): number => place.y + (lines.length === 1 ? 9 : 11.5);
  marks.push(text(left, upper, 'Plan', { tone: 'faint' }));
  plan.lines.forEach((words, i) => {
    marks.push(text(left, foot(plan.lines) - (plan.lines.length - 1 - i) * PITCH, words));
  });
  const { height, lines } = title;
  const last = height === LETTER.small ? foot(lines) : lines.length === 1 ? lower : lower + 0.8;
  const pitch = height === LETTER.small ? PITCH : height * 1.5;
  lines.forEach((words, i) => {
    marks.push(text(place.x, last - (lines.length - 1 - i) * pitch, words, { height, bold: true }));
  });
  return marks;
}

/** Where the tab of a chapter stands: one after another down the edge, the same on every sheet of a packet. */
function tabMarks(draft: Draft, drafts: readonly Draft[], sheet: Sheet): readonly Mark[] {
  const used = CHAPTERS.filter((c) => drafts.some((d) => d.chapter === c));
  const x = sheet.width - RIGHT + 3.5;
  const [top, bottom] = [TOP, sheet.height - BOTTOM];
  // every tab as long as its word needs, and what is left of the edge shared out evenly; a full packet takes shorter words
  const needsOf = (words: readonly string[]) => words.map((word) => textWidth(word, LETTER.small, true) + 3.4);
  const spareOf = (lengths: readonly number[]) => (bottom - top - lengths.reduce((a, b) => a + b, 0)) / used.length;
  const words = spareOf(needsOf(used)) >= 0 ? used : used.map((chapter) => SHORT[chapter] ?? chapter);
  const needs = needsOf(words);
  const spare = spareOf(needs);
  let next = top;
  return used.flatMap((chapter, i): readonly Mark[] => {
    const own = chapter === draft.chapter;
    const height = needs[i]! + spare;
    const tab = area(x, next + 0.6, TAB, height - 1.2);
    next += height;
    return [
      rectangle(tab, own ? { fill: 'ink' } : { pen: 'thin', tone: 'faint' }),
      text(x + TAB / 2, tab.y + tab.height / 2, fitText(words[i]!, LETTER.small, tab.height - 2, own), {
        align: 'centre',
        anchor: 'middle',
        turn: 90,
        ...(own ? { bold: true, tone: 'paper' } : { tone: 'faint' }),
      }),
    ];
  });
}
