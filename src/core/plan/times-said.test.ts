import { describe, expect, it } from 'vitest';
import { SMALL_PLAN } from './plan.testing.ts';
import { readPlan } from './read.ts';

const without = SMALL_PLAN.replace(/^dates:.*\n(?: .*\n)*/m, '');
const issuesOf = (dates: string) => readPlan(`${without}\ndates: {${dates}}\n`).issues;

describe('hours, days and dates written another way', () => {
  it.each<[said: string, meant: string | undefined, expected: RegExp]>([
    ['hours: {tuesday: 4}', undefined, /from when to when, such as 18:30-21:00/],
    ['hours: {tuesday: 18-21}', 'hours: {tuesday: 18:00-21:00}', /from when to when/],
    ['hours: {tuesday: 6pm-9pm}', 'hours: {tuesday: 18:00-21:00}', /from when to when/],
    ['hours: {tuesday: 6-9:30 pm}', 'hours: {tuesday: 18:00-21:30}', /from when to when/],
    ['hours: {tuesday: 12am-12pm}', 'hours: {tuesday: 0:00-12:00}', /from when to when/],
    ['hours: {tuesday: 18.30 to 21.00}', 'hours: {tuesday: 18:30-21:00}', /from when to when/],
    ['hours: {tuesday: 22:00-2:00}', 'hours: {tuesday: 22:00-24:00}', /parted at 24:00/],
    ['hours: {tuesday: 9:70-10:00}', undefined, /from when to when/],
    ['hours: {tuesday: {from: 18:30}}', undefined, /from when to when/],
    ['hours: {tuesday: {from: 18:30, to: 21:00}}', 'hours: {tuesday: 18:30-21:00}', /from when to when/],
    [
      'hours: {tuesday: [{from: 9, to: 12}, {from: 1pm, to: 5pm}]}',
      'hours: {tuesday: [9:00-12:00, 13:00-17:00]}',
      /or several/,
    ],
    ['hours: {tuesday: [18:30, 21:00]}', 'hours: {tuesday: 18:30-21:00}', /from when to when/],
    ['hours: {tuesday: [18, 21]}', 'hours: {tuesday: 18:00-21:00}', /from when to when/],
    ['hours: {tuesday: "9-12, 13:00-17:00"}', 'hours: {tuesday: [9:00-12:00, 13:00-17:00]}', /from when to when/],
    ['hours: {tuesday: 9-12 and 13-17}', 'hours: {tuesday: [9:00-12:00, 13:00-17:00]}', /from when to when/],
    ['hours: {tuesday: [4]}', undefined, /from when to when/],
    ['hours: 4', undefined, /such as \{tuesday: 18:30-21:00, saturday: \[9:00-12:30, 13:30-17:00\]\}/],
    ['hours: 18:30-21:00', undefined, /by weekday, such as/],
    ['hours: {tuesday: off}', undefined, /a day without work is left out/],
    ['hours: {tuesday: [13:00-17:00, 9:00-12:00]}', 'hours: {tuesday: [9:00-12:00, 13:00-17:00]}', /each to begin/],
    ['hours: {tuesday: [9:00-12:00, 11:00-17:00]}', 'hours: {tuesday: [9:00-17:00]}', /each to begin/],
    ['hours: {tue: 9:00-12:00}', 'hours: {tuesday: 9:00-12:00}', /one of friday, monday/],
    ['helper: [saturdays]', 'helper: [saturday]', /a day of the week or a date/],
    ['helper: [sat]', 'helper: [saturday]', /a day of the week or a date/],
    ['helper: [weekends]', undefined, /a day of the week or a date/],
    ['helper: [5.12.2026]', undefined, /a day of the week or a date/],
    ['helper: saturday', 'helper: [saturday]', /every such weekday/],
    ['off: 2026-12-24', 'off: [2026-12-24]', /days without work/],
    ['off: [2026-12-24 to 2026-12-27]', 'off: [{from: 2026-12-24, to: 2026-12-27}]', /the first and the last/],
    ['off: [24.12.2026]', 'off: [2026-12-24]', /the first and the last/],
    ['off: [sunday]', undefined, /a weekday without work has no `hours`/],
    ['start: 2026-2-3', 'start: 2026-02-03', /a date such as/],
    ['start: 2027-02-29', 'start: 2027-02-28', /a date such as/],
    ['start: 2028-2-30', 'start: 2028-02-29', /a date such as/],
    ['start: 12/24/2026', 'start: 2026-12-24', /a date such as/],
    // the fifth of December, or the twelfth of May
    ['start: 12/05/2026', undefined, /a date such as/],
    ['start: 1 December 2026', 'start: 2026-12-01', /a date such as/],
    ['deadline: "Dec 31st, 2026"', 'deadline: 2026-12-31', /a date such as/],
    ['start: 2026', undefined, /a date such as/],
    ['air: {temperature: 20}', undefined, /a temperature with its unit/],
  ])('%s', (said, meant, expected) => {
    const [issue, ...more] = issuesOf(said);
    expect(more).toEqual([]);
    expect(issue!.path[0]).toBe('dates');
    expect(issue!.place?.line).toBeGreaterThan(1);
    expect(issue!.expected).toMatch(expected);
    expect(issue!.nearest === undefined).toBe(meant === undefined);
    if (meant === undefined) return;
    // what is offered stands in the plan that was meant, and that one is read
    expect(meant).toContain(issue!.nearest!);
    expect(issuesOf(meant)).toEqual([]);
  });

  it('an example of hours can be pasted as it stands', () => {
    const rows = [
      ['hours: 4', (example: string) => `hours: ${example}`, 1],
      ['hours: {tuesday: 4}', (example: string) => `hours: {tuesday: ${example}}`, 2],
      ['hours: {tuesday: 2.5 h}', (example: string) => `hours: {tuesday: ${example}}`, 2],
    ] as const;
    for (const [said, pasted, count] of rows) {
      const [issue] = issuesOf(said);
      if (said.includes('tuesday')) expect(issue!.message).toBe('this says how long, not from when to when');
      const examples = issue!.expected!.match(/(?<=such as )(?:\{.*\}|[\d:-]+)|(?<=several: )\[.*\]/g);
      expect(examples, said).toHaveLength(count);
      for (const example of examples!) expect(issuesOf(pasted(example)), example).toEqual([]);
    }
  });
});
