import { describe, expect, it } from 'vitest';
import { WEEKDAYS } from '../../plan/index.ts';
import { area, extentOf, holds, textsOf } from '../draw.ts';
import type { PaperName } from '../marks.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { calendarPages } from './calendar.ts';
import { collisions } from './collisions.testing.ts';
import { deskOf } from './desk.ts';
import { sheetOf } from './sheet.ts';

const inputs = new Map(EXAMPLES.map((name) => [name, exampleInput(name)]));
const rows = EXAMPLES.flatMap((name) => (['A4', 'Letter', 'A3'] as PaperName[]).map((paper) => ({ name, paper })));

describe.each(rows)('the calendar pages of $name on $paper', ({ name, paper }) => {
  const drafts = calendarPages(deskOf(inputs.get(name)!, paper));
  const pages = drafts.map((draft, i) => ({ ...draft, number: i + 1, ...sheetOf(paper) }));

  it('stay within the sheet and write no text over another', () => {
    const { body } = sheetOf(paper);
    const within = area(body.x - 0.5, body.y - 0.5, body.width + 1, body.height + 1);
    expect(pages.length).toBeGreaterThan(4);
    for (const page of pages) expect(holds(within, extentOf(page.marks)!), page.title).toBe(true);
    expect(pages.flatMap((page) => collisions(page))).toEqual([]);
  });

  it('tell the first task and the last, and what decides the end', () => {
    const words = pages
      .filter((page) => page.id.startsWith('week-'))
      .flatMap((page) => textsOf(page.marks))
      .map((mark) => mark.text)
      .join(' ');
    for (const start of ['Clear and cover the room', 'Check the set on camera', 'decides the end'])
      expect(words).toContain(start);
  });
});

describe('the weeks of a calendar', () => {
  const input = inputs.get('lesson-room')!;
  const weeksOf = (more: Partial<(typeof input)['plan']['dates']>) => {
    const plan = { ...input.plan, dates: { ...input.plan.dates, ...more } };
    // a calendar is kept with its bill
    return calendarPages(deskOf({ ...input, plan, bill: { ...input.bill } }, 'Letter')).filter(({ id }) =>
      id.startsWith('week-'),
    );
  };
  const clocks = (marks: Parameters<typeof textsOf>[0]) =>
    textsOf(marks).filter(({ text }) => /^\d\d:\d\d–/.test(text)).length;

  it('have a page only where there is work, however long the days off', () => {
    const weeks = weeksOf({ off: [{ from: '2026-12-07', to: '2027-01-10' }], start: '2026-11-28' });
    expect(weeks.length).toBeGreaterThan(3);
    for (const { title, marks } of weeks) expect(clocks(marks), title).toBeGreaterThan(0);
    expect(weeks.some(({ title }) => title.includes('21 Dec'))).toBe(false);
  });

  it('tell the year they begin in where the job runs over New Year, and only there', () => {
    const daily = {
      hours: Object.fromEntries(WEEKDAYS.map((name) => [name, [{ from: 480, to: 1080 }]])),
      off: [],
      helper: [...WEEKDAYS],
    };
    const told = (start: string) => [
      ...new Set(weeksOf({ ...daily, start }).map(({ title }) => title.replace(/, \d of \d$/, ''))),
    ];
    expect(told('2026-12-24')).toEqual(['Week of Monday 21 Dec 2026', 'Week of Monday 28 Dec 2026']);
    expect(told('2026-12-30')).toEqual(['Week of Monday 28 Dec 2026', 'Week of Monday 4 Jan 2027']);
    // told in 2026
    expect(told('2027-02-01')).toEqual(['Week of Monday 1 Feb 2027', 'Week of Monday 8 Feb 2027']);
    expect(told('2026-03-02')).toEqual(['Week of Monday 2 Mar', 'Week of Monday 9 Mar']);
  });

  it.each([
    ['over New Year', '2026-12-29', /Dec(?! 2026)/, /Jan 2027/],
    ['in another year than this', '2027-02-01', undefined, /Feb 2027/],
  ])('tell no day of another year than this without its year: %s', (_, start, bare, dated) => {
    const { plan } = input;
    const dates = { ...plan.dates, start, off: [], deadline: '2027-03-01' };
    const drafts = calendarPages(deskOf({ ...input, plan: { ...plan, dates }, bill: { ...input.bill } }, 'Letter'));
    const overview = drafts.filter(({ id }) => !id.startsWith('week-')).flatMap(({ marks }) => textsOf(marks));
    const words = overview.map(({ text }) => text).join(' ');
    expect(input.date).toMatch(/^2026/);
    expect(words).toMatch(dated);
    if (bare) expect(words).toMatch(bare);
    expect(words).not.toMatch(/\d (Jan|Feb|Mar|Apr)(?! 2027)/);
  });

  it('are shared out evenly where one page is too little', () => {
    const [long, short] = [[{ from: 360, to: 1320 }], [{ from: 1080, to: 1140 }]];
    const hours = Object.fromEntries(WEEKDAYS.map((name, i) => [name, i < 4 ? long : short]));
    const weeks = weeksOf({ hours, start: '2026-12-28', off: [], helper: [...WEEKDAYS] });
    const first = weeks.filter(({ title }) => title.includes('28 Dec')).map(({ marks }) => clocks(marks));
    expect(first.length).toBe(2);
    // a day is not parted: the pages differ by no more than a long one has to do
    expect(Math.abs(first[0]! - first[1]!), first.join()).toBeLessThan(16);
  });
});
