import { describe, expect, it } from 'vitest';
import type { BillLine } from '../bill/index.ts';
import { EXAMPLES, type Example, examplePlan, inputOf, SMALL_PLAN } from '../drawing/packet.testing.ts';
import { calendarInput, findOption, massesOf, workOut } from '../outcome.ts';
import { applyEdits, type Edit, readPlan, WEEKDAYS, type Week } from '../plan/index.ts';
import {
  buyBy,
  type CalendarInput,
  calendarNotes,
  calendarOf,
  checkTimes,
  clockOf,
  costWords,
  dateOf,
  dayList,
  dayName,
  dayOf,
  dayRuns,
  dayTold,
  decidingDays,
  type JobCalendar,
  lostCosts,
  lostWords,
  MINUTES_A_DAY,
  shortTold,
  weekdayOf,
} from './index.ts';

const today = '2026-11-25';
/** Fewer timetables than usual: laws do not hang on how short the calendar is. */
const steps = 60;

const worked = new Map(
  EXAMPLES.map((name) => {
    const plan = examplePlan(name);
    const outcome = workOut(plan, findOption(plan)!, { today, effort: { steps: 0 } });
    const input = { ...outcome, massOf: massesOf(outcome), today, steps };
    return [name, { outcome, input, calendar: calendarOf(input) }] as const;
  }),
);

describe.each(EXAMPLES)('the calendar of %s', (name) => {
  const { outcome, input, calendar } = worked.get(name)!;
  const { plan } = outcome;

  it('keeps every limit, by the judge that shares no code with it', () => {
    expect(calendar.impossible).toBeUndefined();
    expect(checkTimes(calendar.job, calendar.times)).toEqual([]);
    expect(calendar.bound).toBeLessThanOrEqual(calendar.finish);
  });

  it('cutting, building and fitting together take the hours of the tally', () => {
    const kinds = new Set(['panels', 'cuts', 'parts', 'joints', 'fronts', 'pieces', 'lengths', 'stretches']);
    const minutes = calendar.tasks
      .filter((d) => d.task.counts.some((c) => kinds.has(c.counted)))
      .reduce((sum, d) => sum + d.task.minutes, 0);
    expect(minutes / 60).toBeCloseTo(outcome.tally.hours, 6);
  });

  it('labels and sands the lengths of one moulding in one go: named, and its time the sum', () => {
    const { pieces } = outcome;
    for (const role of ['skirting', 'scribe moulding']) {
      const trims = pieces.filter((p) => p.kind === 'trim' && p.parts.some((part) => part.role === role));
      expect(trims.length, role).toBeGreaterThan(0);
      const sanded = calendar.tasks.filter(({ task }) => trims.some((p) => task.pieces?.includes(p.id)));
      const [batch, ...more] = sanded.filter(({ task }) => task.id.startsWith('sand parts'));
      expect(more).toEqual([]);
      const { task } = batch!;
      expect(task.pieces).toEqual(trims.map((p) => p.id));
      // four minutes for a part, as in the tally
      const parts = trims.reduce((sum, p) => sum + p.parts.length, 0);
      expect(task.minutes).toBeCloseTo(4 * plan.shop.pace * parts, 9);
      if (trims.length === 1) expect(task.title).toContain(trims[0]!.title!);
      else {
        expect(task.title).toContain(`the ${role} of ${trims.length} walls`);
        expect(task.list).toEqual(trims.map((p) => p.title));
      }
    }
  });

  it('works only in the hours of the week, never on a day off, with a helper only on helper’s days', () => {
    const off = (plan.dates.off ?? []).map((o) => (typeof o === 'string' ? [o, o] : [o.from, o.to]));
    const helper = new Set<string>(plan.dates.helper);
    for (const { task, spans } of calendar.tasks)
      for (const { start, end } of spans) {
        const day = dayOf(calendar, start);
        const date = dateOf(day);
        const inDay = start - (day - calendar.first) * MINUTES_A_DAY;
        const week = plan.dates.hours[weekdayOf(day)] ?? [];
        expect(
          week.some((p) => p.from <= inDay && inDay + end - start <= p.to),
          `${task.id} ${date}`,
        ).toBe(true);
        expect(
          off.some(([a, b]) => a! <= date && date <= b!),
          `${task.id} ${date}`,
        ).toBe(false);
        if (task.helper !== undefined)
          expect(helper.has(date) || helper.has(weekdayOf(day)), `${task.id} ${date}`).toBe(true);
      }
  });

  it('buys only while the shop is open, and nothing is cut before it is there', () => {
    for (const { task, start, end } of calendar.tasks) {
      if (typeof task.hours !== 'object') continue;
      const supplier = task.hours.supplier;
      const day = dayOf(calendar, start);
      const open = plan.stock.suppliers.find((s) => s.id === supplier)!.open![weekdayOf(day)] ?? [];
      const inDay = start - (day - calendar.first) * MINUTES_A_DAY;
      expect(
        open.some((p) => p.from <= inDay && inDay + end - start <= p.to),
        task.id,
      ).toBe(true);
    }
    const errand = calendar.tasks.filter((d) => d.task.phase === 'buying');
    expect(errand.length).toBeGreaterThan(1);
    for (const { by, dated } of buyBy(calendar)) expect(by).toBeGreaterThanOrEqual(dayOf(calendar, dated.start));
  });

  // the bill says what a pack serves for; fetched by itself at a shop that delivers after 90 days, it alone can hold its users up
  it.each([
    ['filler', ['patch walls', 'caulk']],
    ['primer', ['prime patches', 'prime fronts']],
    ['paint', ['first coat walls']],
    ['absorber tile', ['line ', 'fix ']],
    ['trim paint', ['first coat fronts', 'first coat trim']],
  ])('uses no %s before it is fetched', (use, tasks) => {
    const { bill } = outcome;
    const serves = (line: { readonly stock: string }): boolean =>
      plan.stock.packs.find((p) => p.id === line.stock)?.use === use;
    const far = {
      ...bill.shopping[0]!,
      supplier: 'far',
      name: 'far',
      lines: bill.shopping.flatMap((s) => s.lines.filter(serves)),
    };
    if (far.lines.length === 0) throw new Error(`the bill of ${name} has no ${use}`);
    const near = bill.shopping.map((s) => ({ ...s, lines: s.lines.filter((line) => !serves(line)) }));
    const suppliers = [...plan.stock.suppliers, { id: far.supplier, lead: 90 }];
    const late = calendarOf({
      ...input,
      plan: { ...plan, stock: { ...plan.stock, suppliers } } as typeof plan,
      bill: { ...bill, shopping: [...near, far] },
      steps: 1,
      brief: true,
    });
    const errand = late.tasks.filter((d) => d.task.id === 'buy far');
    expect(errand).not.toEqual([]);
    const there = Math.max(...errand.map((d) => d.end));
    const absorbers = new Set<string>(outcome.option.pieces.flatMap((p) => ('absorber' in p ? [p.absorber] : [])));
    const users = late.tasks.filter(
      ({ task }) =>
        tasks.some((id) => task.id.startsWith(id)) &&
        (use !== 'absorber tile' || task.pieces!.some((id) => absorbers.has(id))),
    );
    expect(users).not.toEqual([]);
    for (const { task, start } of users) expect(start, task.id).toBeGreaterThanOrEqual(there);
  });

  it('paints a ceiling that is all there is to paint after the room is cleared', () => {
    const { walls: _, ...finish } = outcome.option.finish ?? {};
    const option = { ...outcome.option, paint: { ceiling: '#ffffff' }, finish } as typeof outcome.option;
    const { tasks } = calendarOf({ ...input, option, steps: 1 });
    expect(tasks.some(({ task }) => task.id === 'patch walls')).toBe(false);
    const { after } = tasks.find(({ task }) => task.id.startsWith('first coat ceiling'))!.task;
    expect(after.map((a) => tasks[a.task]!.task.id)).toContain('clear room');
  });

  it('waits for the panel where a pack has its id, and for every shop that sells some of it', () => {
    const { bill } = outcome;
    const waits = (lines: (line: BillLine) => BillLine) => {
      const shopping = bill.shopping.map((shop) => ({ ...shop, lines: shop.lines.map(lines) }));
      const { tasks } = calendarOf({ ...input, bill: { ...bill, lines: bill.lines.map(lines), shopping }, steps: 1 });
      const task = tasks.find((d) => d.task.id.startsWith(`break down ${panel.stock}`))!.task;
      // an errand may be parted
      return task.after.map((a) => tasks[a.task]!.task.id.replace(/ \d+$/, ''));
    };
    const shopOf = (line: BillLine) => bill.shopping.findIndex((shop) => shop.lines.some(({ id }) => id === line.id));
    const [panel, pack] = bill.lines
      .filter((l) => l.kind === 'panel')
      .flatMap((a) =>
        bill.lines.filter((b) => b.kind === 'pack' && shopOf(b) > shopOf(a)).map((b) => [a, b] as const),
      )[0]!;
    const [own, other] = [panel, pack].map((l) => `buy ${bill.shopping[shopOf(l)]!.name}`);
    expect(waits((l) => (l.id === pack.id ? { ...l, stock: panel.stock } : l))).toEqual([own]);
    const second = { kind: 'panel', stock: panel.stock } as const;
    expect(waits((l) => (l.id === pack.id ? { ...l, ...second } : l))).toEqual([own, other]);
  });

  it('waits for glue, filler and paint as long as is published, round the clock', () => {
    const byId = new Map(calendar.tasks.map((d) => [d.task.id, d]));
    const coats = calendar.tasks.filter((d) => d.task.id.startsWith('second coat'));
    expect(coats.length).toBeGreaterThan(3);
    for (const second of coats) {
      const first = byId.get(second.task.id.replace('second', 'first'));
      // 4 to 8 h by product sheets, at 25 °C and half-dry air: never less than the longer
      if (first) expect(second.start - first.end, second.task.id).toBeGreaterThanOrEqual(8 * 60);
    }
  });

  it('names for every day of the chain what decides it, the last of them the end', () => {
    const days = decidingDays(calendar);
    expect(days.length).toBeGreaterThan(0);
    expect(days.at(-1)!.task.end).toBe(calendar.finish);
    // why the chain begins no sooner is told where it waits for something, however short the chain
    const [first] = calendar.chain;
    if (first?.for) expect(days[0]!.why).toContain(calendar.tasks[first.for.from]!.task.noun);
    for (const { words, why, day, task } of days) {
      expect(`${words} ${why}`).not.toMatch(/undefined|NaN/);
      expect(words).toBe(`The ${task.task.noun} decides ${dayName(day)}.`);
      // what it waited for is named with the moment it was done
      const held = calendar.chain.find((l) => calendar.tasks[l.task] === task)!.for;
      if (!held) continue;
      const before = calendar.tasks[held.from]!;
      expect(why).toContain(`the ${before.task.noun}`);
      expect(why).toContain(clockOf(before.end));
      if (dayOf(calendar, before.end, true) > dayOf(calendar, task.start) - 7 && before.end % 1440 !== 0)
        expect(why.includes(dayName(dayOf(calendar, before.end, true)))).toBe(
          dayOf(calendar, before.end, true) !== dayOf(calendar, task.start),
        );
    }
  });

  it('lists every task on its days', () => {
    const listed = new Set<string>();
    for (let day = calendar.first; day <= dayOf(calendar, calendar.finish); day++)
      for (const item of dayList(calendar, day)) {
        expect(item.from).toBeLessThan(item.to);
        listed.add(item.dated.task.id);
      }
    expect(listed.size).toBe(calendar.tasks.length);
  });

  it('a day lost never ends the job sooner, and what it says of lost days is never sooner either', () => {
    for (const { finish } of calendar.lostDays)
      if (finish !== undefined) expect(finish).toBeGreaterThanOrEqual(calendar.finish);
    for (const { day } of calendar.lostDays.slice(0, 12).filter((_, i) => i % 4 === 0)) {
      const later = calendarOf({ ...input, lost: [dateOf(day)] });
      if (later.impossible !== undefined) continue;
      expect(later.finish).toBeGreaterThanOrEqual(calendar.finish);
      expect(checkTimes(later.job, later.times)).toEqual([]);
      expect(dayList(later, day)).toEqual([]);
    }
  });

  it('tells lost days by what they cost: each day once, with the end of a calendar made without it', () => {
    const groups = lostCosts(calendar);
    const own = dayOf(calendar, calendar.finish, true);
    expect(groups.flatMap((g) => g.days).sort((a, b) => a - b)).toEqual(calendar.lostDays.map((l) => l.day));
    expect(groups.map((g) => g.later)).toEqual([...new Set(groups.map((g) => g.later))].sort((a, b) => a - b));
    for (const { days, end, later, late } of groups) {
      expect(end).toBe(own + later);
      expect(late).toBe(end! > calendar.deadline!);
      for (const day of days) {
        const { finish } = calendar.lostDays.find((l) => l.day === day)!;
        expect(dayOf(calendar, finish!, true)).toBe(end);
      }
    }
    // a reader of the words alone gets the same days back
    const words = new Map(calendar.lostDays.map(({ day }, i) => [shortTold(calendar, day), i]));
    for (const { days } of groups) {
      const read = dayRuns(calendar, days)
        .split(', ')
        .flatMap((run) => {
          const [first, last = first] = run.split(' to ').map((day) => words.get(day)!);
          return calendar.lostDays.slice(first, last! + 1).map(({ day }) => day);
        });
      expect(read).toEqual(days);
    }
  });

  it('a task ticked early never ends the job later', () => {
    const line = [...calendar.tasks].sort((a, b) => a.start - b.start);
    for (const k of [1, 4, 10]) {
      const done = line.slice(0, k).map((d) => d.task.id);
      const sooner = calendarOf({ ...input, plan: { ...plan, dates: { ...plan.dates, done } } });
      expect(sooner.finish).toBeLessThanOrEqual(calendar.finish);
      expect(
        sooner.tasks
          .filter((d) => d.done)
          .map((d) => d.task.id)
          .sort(),
      ).toEqual([...done].sort());
      expect(checkTimes(sooner.job, sooner.times)).toEqual([]);
    }
  });

  it('is the same every time', () => expect(calendarOf(input)).toEqual(calendar));

  it('runs that go well end sooner than runs that go badly, and a later deadline is never less likely', () => {
    const { early, middle, late } = calendar.chances;
    expect(early).toBeLessThanOrEqual(middle);
    expect(middle).toBeLessThanOrEqual(late);
    const chanceBy = (deadline: string): number =>
      calendarOf({ ...input, steps: 1, plan: { ...plan, dates: { ...plan.dates, deadline } } }).chances.inTime!.apart;
    const chances = ['2026-12-20', '2027-01-03', '2027-02-01', '2028-06-01'].map(chanceBy);
    expect([...chances].sort((a, b) => a - b)).toEqual(chances);
    expect(chances[0]).toBeLessThan(1);
  });
});

describe('more time', () => {
  /** So many minutes from six every evening, and Saturdays from eight: each of them holds every shorter one. */
  const evenings = (minutes: number) => ({
    ...Object.fromEntries(WEEKDAYS.map((day) => [day, [{ from: 1080, to: 1080 + minutes }]])),
    saturday: [{ from: 480, to: 1080 + minutes }],
  });
  it.each(EXAMPLES)('every evening ends the job of %s no later', (name) => {
    const { steps: _, ...input } = worked.get(name)!.input;
    const { plan } = input;
    const ends = [60, 90, 120, 150, 165, 180].map((minutes) => {
      const dates = { ...plan.dates, hours: evenings(minutes) };
      return calendarOf({ ...input, plan: { ...plan, dates }, brief: true }).finish;
    });
    expect(ends).toEqual([...ends].sort((a, b) => b - a));
  });

  const ended = (name: Example, hours: Week, more: Partial<CalendarInput> = {}): JobCalendar => {
    const { steps: _, ...input } = worked.get(name)!.input;
    const { plan } = input;
    const suppliers = plan.stock.suppliers.map(({ open: _, ...supplier }) => supplier);
    return calendarOf({
      ...input,
      ...more,
      plan: {
        ...plan,
        stock: { ...plan.stock, suppliers },
        dates: { ...plan.dates, hours, helper: [...WEEKDAYS] },
      } as typeof plan,
      brief: true,
    });
  };
  const short = Object.fromEntries(WEEKDAYS.map((day) => [day, [{ from: 1080, to: 1230 }]]));
  it('in one go ends the job no later than the same day with breaks', () => {
    const breaks = [480, 645, 810, 975, 1140].map((from) => ({ from, to: from + 150 }));
    const broken = ended('lesson-room', { ...short, saturday: breaks });
    const long = ended('lesson-room', { ...short, saturday: [{ from: 480, to: 1290 }] });
    expect(long.finish).toBeLessThanOrEqual(broken.finish);
  });
  it('is parted so that what was ticked is still known', () => {
    const long = { ...short, saturday: [{ from: 480, to: 1230 }] };
    const parted = ended('lesson-room', long);
    expect(parted.tasks.map(({ task }) => task.id)).toContain('first coat walls 1');
    const whole = ended('lesson-room', long, { done: ['first coat walls'] });
    expect(whole.unknownDone).toEqual([]);
    expect(ended('lesson-room', long, { done: ['first coat walls 1'] }).unknownDone).toEqual([]);
    // what either way would take is the least that is claimed
    for (const calendar of [parted, whole]) expect(calendar.bound).toBeLessThanOrEqual(calendar.finish);
  });
  it('than half an hour a day is not asked for', () => {
    const hours = Object.fromEntries(WEEKDAYS.map((day) => [day, [{ from: 1080, to: 1110 }]]));
    const calendar = ended('lesson-room', hours, { steps });
    expect(calendar.impossible).toBeUndefined();
    expect(checkTimes(calendar.job, calendar.times)).toEqual([]);
  });
});

describe('lost days in words', () => {
  const { calendar } = worked.get(EXAMPLES[0]!)!;
  /** A calendar that ends on its day 9, over four days of work; where the end goes without each. */
  const lost = (ends: readonly (number | undefined)[], deadline?: number): JobCalendar => ({
    ...calendar,
    first: 20_000,
    year: 2024,
    finish: 10 * MINUTES_A_DAY,
    ...(deadline === undefined ? { deadline: 30_000 } : { deadline: 20_000 + deadline }),
    lostDays: ends.map((end, i) => ({
      day: 20_000 + 2 * i,
      finish: end === undefined ? undefined : (end + 1) * MINUTES_A_DAY - 60,
    })),
  });
  const told = (of: JobCalendar) => lostCosts(of).map((g) => `${costWords(g)}: ${dayRuns(of, g.days)}`);
  /** The four days, as a run where they follow each other. */
  const [A, B, C, D] = ['Fri 4 Oct', 'Sun 6 Oct', 'Tue 8 Oct', 'Thu 10 Oct'] as const;

  it.each([
    ['none moves the end', lost([9, 9, 9, 9]), [`nothing: ${A} to ${D}`], 'Any one of the 4 days of work may'],
    [
      'each moves it',
      lost([10, 10, 16, 16]),
      [`1 day: ${A}, ${B}`, `7 days: ${C}, ${D}`],
      'No day of work may be lost',
    ],
    [
      'some move it',
      lost([9, 10, 9, 10]),
      [`nothing: ${A}, ${C}`, `1 day: ${B}, ${D}`],
      '2 of the 4 days of work move the end',
    ],
    [
      'past the deadline',
      lost([9, 10, 16, 16], 10),
      [`nothing: ${A}`, `1 day: ${B}`, `7 days, past the deadline: ${C}, ${D}`],
      '3 of',
    ],
    [
      'not made up',
      lost([9, undefined, 9, 9]),
      [`nothing: ${A}, ${C}, ${D}`, `more than the plan has: ${B}`],
      '1 of the 4 days of work moves',
    ],
    ['already late', lost([9, 10, 9, 9], 5), [`nothing: ${A}, ${C}, ${D}`, `1 day: ${B}`], '1 of the 4'],
    ['no work', lost([]), [], ''],
  ] as const)('%s', (_, of, rows, words) => {
    expect(told(of)).toEqual(rows);
    expect(lostWords(of).startsWith(words)).toBe(true);
  });

  it('one day alone that is free is the other', () =>
    expect(lostWords(lost([10, 9, 10, 10]))).toContain(
      '3 of the 4 days of work move the end when lost; without the other it stays on ',
    ));
});

describe('steps of the assembly for two', () => {
  const dated = (lift: string) => {
    const { plan, issues } = readPlan(
      `${SMALL_PLAN}shop: {lift: ${lift}}\ndates: {start: 2026-12-01, helper: [saturday]}\n`,
    );
    if (!plan) throw new Error(JSON.stringify(issues));
    const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
    const input = calendarInput(outcome, today);
    const calendar = calendarOf({ ...input, steps });
    const minutes = (id: string): number =>
      calendar.tasks.filter((d) => d.task.id.startsWith(id)).reduce((sum, d) => sum + d.task.minutes, 0);
    return { calendar, alone: minutes('assemble music'), together: minutes('turn music'), outcome, input };
  };
  const strong = dated('100 kg');
  const some = dated('2.5 kg');
  const none = dated('0.1 kg');

  it('are none for who lifts all of it, all for who lifts nothing, and the hours stay the same', () => {
    expect(strong.together).toBe(0);
    expect(some.alone).toBeGreaterThan(0);
    expect(some.together).toBeGreaterThan(0);
    expect(none.alone).toBe(0);
    for (const { alone, together } of [some, none]) expect(alone + together).toBeCloseTo(strong.alone, 9);
  });
  it('are gathered on a day of the helper’s, each after the parts are there', () => {
    for (const { calendar } of [some, none]) {
      const two = calendar.tasks.filter((d) => d.task.id.startsWith('turn music'));
      expect(new Set(two.map((d) => weekdayOf(dayOf(calendar, d.start))))).toEqual(new Set(['saturday']));
      expect(two[0]!.task.after.length).toBeGreaterThan(0);
      expect(checkTimes(calendar.job, calendar.times)).toEqual([]);
    }
  });
  it('wait for all that the others would have waited for, where no step is for one', () => {
    const waits = ({ calendar }: typeof some, id: string) =>
      calendar.tasks
        .find((d) => d.task.id.startsWith(id))!
        .task.after.map((a) => calendar.tasks[a.task]!.task.id)
        .sort();
    expect(waits(none, 'turn music')).toEqual(waits(strong, 'assemble music'));
  });
  it('are told of before the packet is printed: on which day of the helper’s the job ends', () => {
    for (const { outcome, input } of [some, none, strong]) {
      const dates = outcome.notes.filter((n) => n.about === 'dates');
      const calendar = calendarOf(input);
      expect(dates.map((n) => n.id)).toEqual(['end-of-job']);
      expect(dates[0]!.title).toBe(
        `The job ends on ${dayTold(calendar, dayOf(calendar, calendar.finish, true))} at ${clockOf(calendar.finish)}`,
      );
    }
  });
});

describe('notes on dates', () => {
  const said = (dates: string) => {
    const text = `${SMALL_PLAN}dates: ${dates}\n`;
    const { plan, issues } = readPlan(text);
    if (!plan) throw new Error(JSON.stringify(issues));
    const input = { ...inputOf(plan, plan.options[0]!), today, steps };
    return { text, notes: calendarNotes(input, calendarOf(input)) };
  };
  const ids = (dates: string) => said(dates).notes.map((n) => `${n.verdict} ${n.id}`);

  it('say nothing while a plan names no start', () => expect(ids('{}')).toEqual([]));
  it('say when the job ends, where there is no deadline', () =>
    expect(ids('{start: 2026-12-01, helper: [saturday]}')).toEqual(['fine end-of-job']));
  it('stop below the warmth at which paint and glue make a film, by product sheets', () =>
    expect(ids('{start: 2026-12-01, helper: [saturday], air: {temperature: 45 °F}}')).toContain('stop too-cold'));
  // whose hours, how many there are, and what to write where
  it.each([
    ['hours: {}', ['No day of the week has hours', 'saturday: 9:00-17:00']],
    [
      'off: [{from: 2026-12-01, to: 2029-01-01}]',
      ['All days of work are days off', 'Sat 09:00–12:30, 13:30–17:00', '`dates.off`'],
    ],
    [
      'hours: {tuesday: 18:00-21:00}, helper: [saturday]',
      ['wants a helper', 'Tue 18:00–21:00', 'A helper comes: saturday', '`dates.helper`'],
    ],
    ['hours: {saturday: 10:00-10:05}, helper: [saturday]', ['the job takes', ' has 9 h of it', '`dates.hours`']],
    [
      'helper: [2026-12-04], hours: {friday: 18:00-18:20, saturday: 9:00-17:00}',
      ['what wants two takes', 'is there for 20 min', '`dates.helper`'],
    ],
    [
      // there on a first day, with time enough for all, before anything is cut
      'helper: [2026-12-05], hours: {saturday: 9:00-20:00, sunday: 9:00-18:00}',
      ['wants a helper and comes after Saturday 5 Dec, the last day', '`dates.helper`'],
    ],
  ])('stop where the hours never come or are too few: %s', (dates, words) => {
    const { notes } = said(`{start: 2026-12-01, ${dates}}, shop: {lift: 0.1 kg}`.replace('}, shop', '}\nshop'));
    expect(notes.map((n) => `${n.verdict} ${n.id}`)).toEqual(['stop dates-impossible']);
    for (const word of words) expect(notes[0]!.advice).toContain(word);
  });
  it('name the one errand to a shop that is never open in hours of work, in no parts', () => {
    const text = `${SMALL_PLAN}dates: {start: 2026-12-01, hours: {tuesday: 18:00-21:00}, helper: [tuesday]}\n`
      .replace('stock:\n', 'stock:\n  suppliers: [{id: mill, name: Mill, open: {saturday: 9:00-12:00}}]\n')
      .replaceAll('date: 2026-11-01}', 'date: 2026-11-01, supplier: mill}');
    const { plan } = readPlan(text);
    const input = { ...inputOf(plan!, plan!.options[0]!), today, steps };
    const stop = calendarNotes(input, calendarOf(input)).find((n) => n.id === 'dates-impossible')!;
    expect(stop.advice).toMatch(/^"Buy at Mill" cannot be done: .* The shop is open: Sat 09:00–12:00\./);
  });
  it.each([
    ['helper: [thursday, saturday]', 'thursday'],
    [
      'helper: [2026-11-28, 2026-12-05, 2026-12-06, 2026-12-12], off: [2026-12-12]',
      '2026-11-28, 2026-12-06 and 2026-12-12',
    ],
  ])('name the days on which a helper comes and nobody works: %s', (dates, days) => {
    const { notes } = said(`{start: 2026-12-01, hours: {saturday: 9:00-17:00}, ${dates}}`);
    expect(notes.find((n) => n.id === 'helper-idle')!.title).toBe(`A helper comes when nobody works: ${days}`);
    expect(said('{start: 2026-12-01, helper: [saturday]}').notes.map((n) => n.id)).not.toContain('helper-idle');
  });
  it('too cold is told too where the job cannot be dated', () => {
    const { notes } = said('{start: 2026-12-01, hours: {}, air: {temperature: 8 °C}}');
    expect(notes.map((n) => n.id)).toEqual(['too-cold', 'dates-impossible']);
  });
  it('name what was ticked and is not there, with the nearest', () => {
    const { notes } = said('{start: 2026-12-01, helper: [saturday], done: [cut ply 81]}');
    expect(notes.find((n) => n.id === 'unknown-done:cut ply 81')?.advice).toContain('"cut ply 18"');
  });

  it.each(['2026-12-03', '2026-12-13', '2026-12-20'])(
    'a deadline of %s that is missed comes with a cure that holds',
    (deadline) => {
      const { text, notes } = said(
        `{start: 2026-12-01, helper: [saturday], hours: {saturday: 9:00-12:00, tuesday: 18:00-21:00}, deadline: ${deadline}}`,
      );
      const note = notes.find((n) => n.id === 'deadline')!;
      expect(note.verdict).toBe('stop');
      const cured = applyEdits(text, note.cure!.edits as readonly Edit[]);
      if (!cured.ok) throw new Error(JSON.stringify(cured.issues));
      const { plan } = readPlan(cured.value.text);
      const input = { ...inputOf(plan!, plan!.options[0]!), today };
      const after = calendarNotes(input, calendarOf(input)).find((n) => n.id === 'deadline')!;
      expect(after.verdict, note.cure!.title).not.toBe('stop');
    },
  );
});
