import { expect, it } from 'vitest';
import { dayNumber } from '../core/stock/index.ts';
import { endWords } from './days-told.ts';

const on = dayNumber;
it.each([
  ['2026-12-01', '2026-12-19', undefined, 'Done on Saturday 19 Dec.'],
  ['2026-12-01', '2027-01-09', undefined, 'Done on Saturday 9 Jan 2027.'],
  ['2026-12-31', '2027-01-09', '2026-12-19', 'Done on Saturday 9 Jan 2027; the deadline is Saturday 19 Dec.'],
  ['2027-01-02', '2027-01-09', '2026-12-19', 'Done on Saturday 9 Jan; the deadline is Saturday 19 Dec 2026.'],
])('the end of a job is told with its year where that is not this one: on %s', (now, finish, deadline, words) =>
  expect(
    endWords({ finish: on(finish), planned: on(finish), ...(deadline && { deadline: on(deadline) }) }, on(now)),
  ).toBe(words),
);
