import { helpedShares } from '../../assembly/index.ts';
import {
  buyBy,
  calendarFor,
  chanceWords,
  clockOf,
  costWords,
  type DayItem,
  dayList,
  dayName,
  dayOf,
  dayRuns,
  dayTold,
  dayWords,
  decidingDays,
  type JobCalendar,
  type LostCost,
  lostCosts,
  lostWords,
  rangeWords,
  shortDay,
  shortMoment,
  shortTold,
  spanWords,
  weekWords,
  workingMinutes,
  yearOf,
} from '../../calendar/index.ts';
import { isInches } from '../../quantity/index.ts';
import { type Area, area, below, LETTER, line, rectangle, right, text } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { LEADING, tickBox } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { flow, tableOf, wordsOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';

const H = LETTER.small;
const GUTTER = 9;
const BETWEEN = 3;
/** A day without work needs only its name. */
const NARROW = 15;
/** Narrower than this no title is readable. */
const LEAST = 27;
const DAY_HEAD = 13;
const INSET = 4.6;

/** When the plan names a start: the end and what decides it, then one page for every week. */
export function calendarPages(desk: Desk): readonly Draft[] {
  const { input } = desk;
  const { dates } = input.plan;
  if (dates.start === undefined) return [];
  const calendar = calendarFor({ ...input, helpedShare: helpedShares(input), today: input.date ?? dates.start });
  if (calendar.impossible !== undefined) return [];
  const first = Math.min(...calendar.tasks.filter((d) => !d.done).map((d) => dayOf(calendar, d.start)));
  if (!Number.isFinite(first)) return [];
  const last = dayOf(calendar, calendar.finish, true);
  const weeks: Draft[] = [];
  for (let monday = first - weekdayNumber(first); monday <= last; monday += 7) {
    const pages = weekPages(desk, calendar, monday);
    // over New Year, and in a year that is not this one, every week tells which year it begins in
    const year = yearOf(first) === yearOf(last) && yearOf(last) === calendar.year ? '' : ` ${yearOf(monday)}`;
    weeks.push(
      ...pages.map((marks, i) => ({
        id: `week-${monday}${i === 0 ? '' : `-${i + 1}`}`,
        chapter: 'Calendar' as const,
        title: `Week of ${dayWords(monday)}${year}${pages.length === 1 ? '' : `, ${i + 1} of ${pages.length}`}`,
        marks,
      })),
    );
  }
  return [...overview(desk, calendar), ...weeks];
}

/** Monday is 0. Day number 0 was a Thursday. */
const weekdayNumber = (day: number): number => (((day + 3) % 7) + 7) % 7;

function overview(desk: Desk, calendar: JobCalendar): readonly Draft[] {
  const { body } = desk.sheet;
  const { dates, shop } = desk.input.plan;
  const width = (body.width - GUTTER) / 2;
  const { finish, deadline, chances, bound, status } = calendar;
  const told = (day: number): string => dayTold(calendar, day);
  const short = (day: number): string => shortTold(calendar, day);
  const end = (moment: number): string => told(dayOf(calendar, moment, true));
  const helped = calendar.tasks.filter((d) => d.task.helper !== undefined && !d.done);
  const { temperature, humidity } = dates.air;
  const warm = isInches(desk.letter.unit)
    ? `${Math.round((temperature * 9) / 5 + 32)} °F`
    : `${Math.round(temperature)} °C`;
  const columns = flow(
    [
      wordsOf('The end', [
        `The job ends on ${end(finish)} at ${clockOf(finish)}. ${rangeWords(calendar)}`,
        ...(deadline === undefined || !chances.inTime
          ? []
          : [`The deadline is ${told(deadline)}; chances to make it: ${chanceWords(chances.inTime)}.`]),
        status === 'optimal'
          ? 'No order of the tasks ends sooner.'
          : `No order of the tasks can end before ${end(bound)}.`,
        `Hours: ${weekWords(dates.hours)}. ${calendar.helperAssumed ? 'No helper’s days are in the plan: week-ends are taken for them. ' : ''}Drying at ${warm} and ${humidity} % humidity, at the longest the makers print; the tin in your hand governs. Times are counted, at ${shop.pace === 1 ? '' : `${shop.pace} times `}the usual pace; they are common practice until your own are in the plan.`,
      ]),
      tableOf(
        'To buy',
        [
          { head: '', cell: () => '', tick: true },
          { head: 'What', cell: (b) => b.dated.task.title, share: 2, bold: true },
          {
            head: 'Planned',
            cell: (b) => shortMoment(calendar, b.dated.start),
            most: 34,
          },
          { head: 'At the latest', cell: (b) => short(b.by), most: 26 },
        ],
        buyBy(calendar),
      ),
      tableOf(
        'Two people',
        [
          { head: 'When', cell: (d) => shortMoment(calendar, d.start), most: 34 },
          { head: 'What', cell: (d) => d.task.title, share: 1.4, bold: true },
          { head: 'Why', cell: (d) => d.task.helper ?? '', share: 1.6 },
        ],
        [...helped].sort((a, b) => a.start - b.start),
      ),
      tableOf(
        'What decides each day',
        [
          { head: 'Day', cell: (d) => short(d.day), most: 24 },
          { head: 'Decided by', cell: (d) => d.words, share: 1.3, bold: true },
          { head: 'Why then', cell: (d) => d.why, share: 1.5 },
        ],
        decidingDays(calendar),
      ),
      wordsOf('If a day is lost', [lostWords(calendar)]),
      tableOf<LostCost>(
        'What it costs',
        [
          { head: 'It costs', cell: costWords, most: 26, bold: true },
          {
            head: 'and ends on',
            cell: ({ end: e }) => (e === undefined ? 'no day in two years' : short(e)),
            most: 24,
          },
          { head: 'when one of these days of work is lost', cell: ({ days }) => dayRuns(calendar, days), share: 1 },
        ],
        lostCosts(calendar),
      ),
    ],
    (i) => area(body.x + (i % 2) * (width + GUTTER), body.y, width, body.height),
  );
  const sheets = Math.ceil(columns.length / 2);
  return Array.from({ length: sheets }, (_, i) => ({
    id: i === 0 ? 'calendar' : `calendar-${i + 1}`,
    chapter: 'Calendar' as const,
    title: sheets === 1 ? 'Calendar' : `Calendar, ${i + 1} of ${sheets}`,
    marks: columns.slice(2 * i, 2 * i + 2).flat(),
  }));
}

interface DayLaid {
  readonly day: number;
  readonly items: readonly DayItem[];
}

/** The marks of one week, on one page or as many as its days need. */
function weekPages(desk: Desk, calendar: JobCalendar, monday: number): readonly (readonly Mark[])[] {
  const days = Array.from(
    { length: 7 },
    (_, i): DayLaid => ({ day: monday + i, items: dayList(calendar, monday + i) }),
  );
  // a week off needs no page
  if (days.every(({ items }) => items.length === 0)) return [];
  return laidDays(desk, calendar, days);
}
function laidDays(desk: Desk, calendar: JobCalendar, days: readonly DayLaid[]): readonly (readonly Mark[])[] {
  const { body } = desk.sheet;
  const busy = days.filter((d) => d.items.length > 0).length;
  const free = days.length - busy;
  const most = Math.max(busy, Math.floor((body.width - free * NARROW) / (LEAST + BETWEEN)));
  for (let count = busy; count <= most; count++) {
    const width =
      (body.width - free * NARROW - (days.length - 1) * BETWEEN - (count - busy) * BETWEEN) / Math.max(1, count);
    const columns = days.map((d) => columnsOf(calendar, d.items, width, body.height - DAY_HEAD));
    if (columns.reduce((sum, c) => sum + c.length, 0) > count) continue;
    let x = body.x;
    return [
      days.flatMap((d, i) => {
        const n = columns[i]!.length;
        const own = n === 0 ? NARROW : n * width + (n - 1) * BETWEEN;
        const place = area(x, body.y, own, body.height);
        x += own + BETWEEN;
        return dayMarks(calendar, d, columns[i]!, width, place);
      }),
    ];
  }
  // too much for one page: the days are shared out, so that no page has much more to do than the other
  if (days.length === 1) return [];
  const toDo = (some: readonly DayLaid[]): number => some.reduce((sum, d) => sum + d.items.length, 0);
  const larger = (at: number): number => Math.max(toDo(days.slice(0, at)), toDo(days.slice(at)));
  const at = days.slice(1).reduce((best, _, i) => (larger(i + 1) < larger(best) ? i + 1 : best), 1);
  return [...laidDays(desk, calendar, days.slice(0, at)), ...laidDays(desk, calendar, days.slice(at))];
}

interface ItemLaid {
  readonly item: DayItem;
  readonly lines: readonly { readonly words: string; readonly bold?: true; readonly faint?: true }[];
  readonly height: number;
}

/** A day's items laid into columns of a height. */
function columnsOf(
  calendar: JobCalendar,
  items: readonly DayItem[],
  width: number,
  height: number,
): readonly (readonly ItemLaid[])[] {
  const columns: ItemLaid[][] = [];
  let left = 0;
  for (const item of items) {
    const { dated, from, to, begun, open } = item;
    const spare = workingMinutes(calendar, dated.start, dated.start + dated.slack);
    const lines = [
      { words: `${clockOf(from)}–${clockOf(to)}` },
      ...wrapText(`${dated.task.title}${begun ? ', goes on' : ''}${open ? ' …' : ''}`, H, width - INSET, true).map(
        (words) => ({ words, bold: true as const }),
      ),
      ...(dated.task.helper === undefined ? [] : [{ words: 'two people' }]),
      ...(dated.critical
        ? [{ words: 'decides the end' }]
        : spare >= 30
          ? [{ words: `spare ${spanWords(spare)}`, faint: true as const }]
          : []),
    ];
    const own = lines.length * LEADING + 2.2;
    if (columns.length === 0 || own > left) {
      columns.push([]);
      left = height;
    }
    columns.at(-1)!.push({ item, lines, height: own });
    left -= own;
  }
  return columns;
}

function dayMarks(
  calendar: JobCalendar,
  { day }: DayLaid,
  columns: readonly (readonly ItemLaid[])[],
  width: number,
  place: Area,
): readonly Mark[] {
  const helper = columns.some((c) => c.some((l) => l.item.dated.task.helper !== undefined));
  const [name, date] = [dayName(day).slice(0, 3), shortDay(day).slice(4)];
  const marks: Mark[] = [
    line(place.x, place.y + DAY_HEAD - 2.6, right(place), place.y + DAY_HEAD - 2.6, 'visible'),
    text(place.x, place.y + 4, name, {
      height: LETTER.head,
      bold: true,
      ...(columns.length === 0 && { tone: 'faint' }),
    }),
    text(place.x, place.y + 8.8, date, columns.length === 0 ? { tone: 'faint' } : {}),
  ];
  const said = day === calendar.deadline ? 'deadline' : helper ? 'helper' : undefined;
  if (said && columns.length > 0) marks.push(text(right(place), place.y + 4, said, { align: 'right' }));
  else if (said) marks.push(text(place.x, place.y + DAY_HEAD + 3, said));
  columns.forEach((column, n) => {
    const x = place.x + n * (width + BETWEEN);
    let y = place.y + DAY_HEAD;
    for (const { item, lines, height } of column) {
      if (item.dated.critical) marks.push(rectangle(area(x, y - 0.4, 0.9, height - 1.4), { fill: 'ink' }));
      marks.push(tickBox(x + width - 2.6, y + 3.2, 2.6));
      lines.forEach(({ words, ...style }, k) => {
        marks.push(
          text(x + (item.dated.critical ? 2 : 0), y + LEADING * (k + 1) - 1.2, words, {
            ...('bold' in style && { bold: true }),
            ...('faint' in style && { tone: 'faint' as const }),
          }),
        );
      });
      y += height;
      if (y < below(place)) marks.push(line(x, y - 1.4, x + width, y - 1.4, 'thin', 'faint'));
    }
  });
  return marks;
}
