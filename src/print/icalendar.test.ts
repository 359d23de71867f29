import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { buyBy, calendarOf, dateOf, MINUTES_A_DAY } from '../core/calendar/index.ts';
import { EXAMPLES, exampleInput } from '../core/drawing/packet.testing.ts';
import { toIcalendar } from './icalendar.ts';

const today = '2026-11-25';

describe.each(EXAMPLES)('the iCalendar file of %s', (name) => {
  const calendar = calendarOf({ ...exampleInput(name), today, steps: 50 });
  const text = toIcalendar(calendar, { title: 'Job; of two, parts', today });
  // an independent reader: the component tree and times as ical.js makes them
  const root = new ICAL.Component(ICAL.parse(text));
  const events = root.getAllSubcomponents('vevent').map((v) => new ICAL.Event(v));

  it('has every stretch of work at its own time, by an independent parser', () => {
    const wanted = calendar.tasks
      .flatMap(({ task, spans }) =>
        spans.map((s, i) => ({
          summary: spans.length === 1 ? task.title : `${task.title} (${i + 1} of ${spans.length})`,
          start: local(calendar.first, s.start),
          end: local(calendar.first, s.end),
        })),
      )
      .sort(inOrder);
    const got = events
      .filter((e) => !e.startDate.isDate)
      .map((e) => ({ summary: e.summary, start: e.startDate.toString(), end: e.endDate.toString() }))
      .sort(inOrder);
    expect(wanted.length).toBeGreaterThan(60);
    expect(got).toEqual(wanted);
    // floating: no zone of any machine gets in
    for (const e of events) expect(e.startDate.zone.tzid).toBe('floating');
  });

  it('has the last days to buy', () => {
    const days = events
      .filter((e) => e.startDate.isDate && e.summary.startsWith('Last day'))
      .map((e) => e.startDate.toString());
    expect(days.sort()).toEqual(
      buyBy(calendar)
        .map((b) => dateOf(b.by))
        .sort(),
    );
  });

  it('lists with every errand what is to be bought, one to a line, and nothing that is not', () => {
    const { bill } = exampleInput(name);
    for (const { name: shop, supplier, lines } of bill.shopping) {
      const own = events.filter((e) =>
        new RegExp(`(buy at|order from) ${shop || supplier || 'other shops'}`, 'i').test(e.summary),
      );
      expect(own.length).toBeGreaterThan(1);
      for (const event of own) {
        const told = `${event.description}`.split('\n').filter((line) => /^\d+ × /.test(line));
        expect(told.length).toBe(lines.length);
        for (const line of lines) expect(told.some((t) => t.startsWith(`${line.count} × ${line.name}`))).toBe(true);
      }
    }
    const listed = events.filter((e) => / × /.test(`${e.description}`));
    expect(listed.every((e) => /buy at|order from/i.test(e.summary))).toBe(true);
  });

  it('says of nothing that it says nothing, and of what is to be bought where, once', () => {
    expect(text).not.toMatch(/DESCRIPTION:\r\n(?! )/);
    for (const { summary } of events.filter((e) => e.summary.startsWith('Last day')))
      expect(summary).toMatch(/^Last day to (buy at|order from) /);
    const decides = events.filter((e) => `${e.description}`.includes('decides the end'));
    expect(decides.length).toBeGreaterThan(0);
  });

  it('is well formed: names of its own, lines of 75 octets at most ended by CR LF, the same bytes again', () => {
    expect(new Set(events.map((e) => e.uid)).size).toBe(events.length);
    const lines = text.split('\r\n');
    expect(text).not.toMatch(/[^\r]\n/);
    for (const line of lines) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(root.getFirstPropertyValue('version')).toBe('2.0');
    expect(toIcalendar(calendar, { title: 'Job; of two, parts', today })).toBe(text);
  });
});

const local = (first: number, minutes: number): string => {
  const day = Math.floor(minutes / MINUTES_A_DAY);
  const left = minutes - day * MINUTES_A_DAY;
  const two = (n: number) => String(n).padStart(2, '0');
  return `${dateOf(first + day)}T${two(Math.floor(left / 60))}:${two(left % 60)}:00`;
};
const inOrder = (a: { start: string; summary: string }, b: { start: string; summary: string }): number =>
  a.start < b.start ? -1 : a.start > b.start ? 1 : a.summary < b.summary ? -1 : 1;
