import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../../../test/seed.ts';
import { arrange, latestBy } from './arrange.ts';
import { boundOf, leastFinish } from './bound.ts';
import { checkTimes } from './check-times.ts';
import { anyJob, withoutDay } from './dated.testing.ts';
import type { DatedJob } from './dated.ts';
import { bothOpen, earliestSpan, hoursOf, latestSpan, openMinutes, workedSpans } from './hours.ts';
import { criticalChain, keepOrder, latestStarts, orderOf, skeletonOf } from './order.ts';
import { putInOrder, putterOf, timesOf } from './put.ts';

const STEPS = 60;

describe('calendars of random jobs', () => {
  it('keep every limit, by the judge that shares no code with them, and claim no more than they prove', () =>
    fc.assert(
      fc.property(anyJob(), (job) => {
        const found = arrange(job, { steps: STEPS });
        if (found.status === 'infeasible') {
          // only where the hours run out: not even one after another fits
          expect(
            putInOrder(
              job,
              job.tasks.map((_, i) => i),
            ),
          ).toBeUndefined();
          return;
        }
        expect(checkTimes(job, found.times)).toEqual([]);
        expect(found.bound).toBeLessThanOrEqual(found.times.finish);
        expect(found.status === 'optimal').toBe(found.bound === found.times.finish);
        expect(arrange(job, { steps: STEPS })).toEqual(found);
      }),
      { numRuns: 300 },
    ));

  it('are never shorter than the best of all orders, and the bound never above it', () =>
    fc.assert(
      fc.property(anyJob(5), (job) => {
        let best = Number.POSITIVE_INFINITY;
        for (const order of orders(job.tasks.map((t) => t.after.map((a) => a.task)))) {
          const times = putInOrder(job, order);
          if (times) best = Math.min(best, times.finish);
        }
        fc.pre(best < Number.POSITIVE_INFINITY);
        const found = arrange(job, { steps: 200 });
        if (found.status === 'infeasible') return;
        expect(found.times.finish).toBeGreaterThanOrEqual(best);
        expect(found.bound).toBeLessThanOrEqual(best);
        if (found.status === 'optimal') expect(found.times.finish).toBe(best);
      }),
      { numRuns: 300 },
    ));

  it('a day lost never ends a kept order sooner, and the limits still hold', () =>
    fc.assert(
      fc.property(anyJob(), fc.nat(12), (job, day) => {
        const found = arrange(job, { steps: STEPS });
        if (found.status === 'infeasible') return;
        const hours = withoutDay(job, day);
        const later = keepOrder(job, orderOf(job, found.times), { hours });
        if (!later) return;
        expect(checkTimes({ ...job, hours }, later)).toEqual([]);
        job.tasks.forEach((_, i) => {
          expect(later.starts[i]).toBeGreaterThanOrEqual(found.times.starts[i]!);
        });
        expect(later.finish).toBeGreaterThanOrEqual(found.times.finish);
      }),
      { numRuns: 300 },
    ));

  it('a tick that comes early never ends a kept order later', () =>
    fc.assert(
      fc.property(anyJob(), fc.nat(13), (job, at) => {
        const found = arrange(job, { steps: STEPS });
        if (found.status === 'infeasible') return;
        const order = orderOf(job, found.times);
        const ticked = order.line[at % order.line.length]!;
        const sooner = keepOrder(job, order, { done: new Map([[ticked, found.times.starts[ticked]!]]) });
        expect(sooner).toBeDefined();
        job.tasks.forEach((_, i) => {
          expect(sooner!.ends[i]).toBeLessThanOrEqual(found.times.ends[i]!);
        });
      }),
      { numRuns: 300 },
    ));

  it('less or more work in a kept order breaks no limit, and the same work gives the same times', () =>
    fc.assert(
      fc.property(anyJob(), fc.infiniteStream(fc.integer({ min: 50, max: 130 })), (job, shares) => {
        const found = arrange(job, { steps: STEPS });
        if (found.status === 'infeasible') return;
        const order = orderOf(job, found.times);
        expect(keepOrder(job, order)!.finish).toBeLessThanOrEqual(found.times.finish);
        const work = job.tasks.map((task) => {
          const scaled = Math.max(1, Math.round((task.work * Number(shares.next().value)) / 100));
          return task.whole ? Math.min(scaled, job.hours[task.hours]!.longest) : scaled;
        });
        const times = keepOrder(job, order, { work: (i) => work[i]! });
        if (!times) return;
        const other = { ...job, tasks: job.tasks.map((task, i) => ({ ...task, work: work[i]! })) };
        expect(checkTimes(other, times)).toEqual([]);
      }),
      { numRuns: 300 },
    ));

  it('a task that starts at its latest start moves nothing after it, and the chain has no slack', () =>
    fc.assert(
      fc.property(anyJob(), (job) => {
        const found = arrange(job, { steps: STEPS });
        if (found.status === 'infeasible') return;
        const order = orderOf(job, found.times);
        const kept = keepOrder(job, order)!;
        const latest = latestStarts(job, order, kept.finish);
        const chain = criticalChain(job, order, kept);
        job.tasks.forEach((_, i) => {
          expect(latest[i]).toBeGreaterThanOrEqual(kept.starts[i]!);
          const from = job.tasks.map((t, k) => (k === i ? { ...t, from: latest[i]! } : t));
          expect(keepOrder({ ...job, tasks: from }, order)!.finish).toBe(kept.finish);
        });
        expect(kept.ends[chain.at(-1)!.task]).toBe(kept.finish);
        expect(chain[0]!.for).toBeUndefined();
      }),
      { numRuns: 200 },
    ));

  it('arcs that others imply decide nothing', () =>
    fc.assert(
      fc.property(anyJob(), fc.nat(12), (any, day) => {
        // one pair of hands does everything
        const tasks = any.tasks.map((t) => ({
          ...t,
          holds: t.holds.map((h, r) => (r === 0 ? { ...h, amount: 1 } : h)),
        }));
        const job = { ...any, resources: [1, ...any.resources.slice(1)], tasks };
        const found = arrange(job, { steps: 20 });
        if (found.status === 'infeasible') return;
        const [all, few] = [orderOf(job, found.times), skeletonOf(job, found.times)];
        const arcs = (order: typeof all): number => order.into.flat().length;
        expect(arcs(few)).toBeLessThanOrEqual(arcs(all));
        const hours = withoutDay(job, day);
        expect(keepOrder(job, few, { hours })).toEqual(keepOrder(job, all, { hours }));
        expect(latestStarts(job, few, found.times.finish)).toEqual(latestStarts(job, all, found.times.finish));
        expect(criticalChain(job, few, found.times)).toEqual(criticalChain(job, all, found.times));
      }),
      { numRuns: 300 },
    ));

  it('an order put from a held beginning, or given up where it must end later, is the order put from nothing', () =>
    fc.assert(
      fc.property(anyJob(), fc.infiniteStream(fc.nat(1000)), (job, draws) => {
        const draw = (below: number): number => Number(draws.next().value) % below;
        const anyOrder = (begin: readonly number[]): readonly number[] => {
          const order = [...begin];
          while (order.length < job.tasks.length) {
            const ready = job.tasks.flatMap((t, i) =>
              !order.includes(i) && t.after.every((a) => order.includes(a.task)) ? [i] : [],
            );
            order.push(ready[draw(ready.length)]!);
          }
          return order;
        };
        const putter = putterOf(job);
        const first = anyOrder([]);
        const times = putInOrder(job, first);
        if (!times) return;
        putter.put(first);
        putter.hold(draw(2) === 0 ? times : undefined);
        const latest = latestBy(job, times.finish);
        for (let k = 0; k < 5; k++) {
          const kept = draw(job.tasks.length + 1);
          const order = anyOrder(first.slice(0, kept));
          const plain = putInOrder(job, order);
          const finish = putter.put(order, kept);
          expect(finish === undefined ? undefined : timesOf(putter, finish)).toEqual(plain);
          const pruned = putter.put(order, kept, latest);
          if (plain && plain.finish <= times.finish) expect(pruned).toBe(plain.finish);
          else if (pruned !== undefined) expect(pruned).toBe(plain!.finish);
        }
      }),
      { numRuns: 300 },
    ));

  it('an end is reached by the bound when it is no later than the bound', () =>
    fc.assert(
      fc.property(anyJob(10), fc.array(fc.nat(1000), { maxLength: 4 }), (job, shares) => {
        const times = putInOrder(
          job,
          job.tasks.map((_, i) => i),
        );
        if (!times) return;
        const least = leastFinish(job, times.finish);
        const bound = boundOf(job, times.finish);
        for (const share of shares) {
          const finish = Math.round((times.finish * share) / 1000);
          expect(bound.reaches(finish)).toBe(finish <= least);
        }
        expect(bound.reaches(least)).toBe(true);
        expect(bound.least()).toBe(least);
      }),
      { numRuns: 300 },
    ));

  it('the bound alone never passes a timetable that can be had', () =>
    fc.assert(
      fc.property(anyJob(10), (job) => {
        const times = putInOrder(
          job,
          job.tasks.map((_, i) => i),
        );
        if (times) expect(leastFinish(job, times.finish)).toBeLessThanOrEqual(times.finish);
      }),
      { numRuns: 300 },
    ));
});

describe('hours', () => {
  it('work put as early as can be, taken back as late as can be, is the same work', () =>
    fc.assert(
      fc.property(
        anyJob(1),
        fc.nat(20_000),
        fc.integer({ min: 1, max: 400 }),
        fc.boolean(),
        (job, moment, work, whole) => {
          const hours = job.hours[0]!;
          const span = earliestSpan(hours, moment, work, whole);
          if (!span) return;
          expect(openMinutes(hours, span.start, span.end)).toBe(work);
          expect(workedSpans(hours, span).reduce((s, w) => s + w.end - w.start, 0)).toBe(work);
          expect(openMinutes(hours, moment, span.start)).toBe(whole ? openMinutes(hours, moment, span.start) : 0);
          const back = latestSpan(hours, span.end, work, whole)!;
          expect(back.start).toBeGreaterThanOrEqual(span.start);
          expect(openMinutes(hours, back.start, back.end)).toBe(work);
          expect(earliestSpan(hours, back.start, work, whole)!.start).toBe(back.start);
        },
      ),
      { numRuns: 1000 },
    ));
});

/** Every order in which each comes after those before it. */
function* orders(after: readonly (readonly number[])[], line: number[] = []): Generator<readonly number[]> {
  if (line.length === after.length) {
    yield line;
    return;
  }
  for (let i = 0; i < after.length; i++)
    if (!line.includes(i) && after[i]!.every((k) => line.includes(k))) yield* orders(after, [...line, i]);
}

describe('more hours and more people', () => {
  /** The job with every day cut short; as it is; and with one more person, who is there whenever the maker is. */
  const cutShort = (job: DatedJob, until: number): DatedJob => {
    const days = hoursOf(Array.from({ length: 61 }, (_, d) => [d * 1440, d * 1440 + until] as const));
    return { ...job, hours: job.hours.map((h) => bothOpen(h, days)) };
  };
  const joined = (job: DatedJob): DatedJob => ({
    ...job,
    hours: job.hours.map(() => job.hours[0]!),
    resources: job.resources.map((there, r) => (r === job.people.resource ? there + 1 : there)),
  });

  it('never put the least end later; nor the end that is found, where it is proven', () => {
    let [pairs, proven] = [0, 0];
    fc.assert(
      fc.property(anyJob(), fc.integer({ min: 300, max: 1300 }), (job, until) => {
        const ways = [cutShort(job, until), job, joined(job)].map((way) => ({
          way,
          found: arrange(way, { steps: 60 }),
        }));
        for (const [k, { way, found: more }] of ways.entries()) {
          const less = ways[k - 1]?.found;
          if (k === 0 || (less?.status !== 'optimal' && less?.status !== 'feasible')) continue;
          // what can be done in less can be done in more
          if (more.status === 'infeasible') throw new Error('nothing is found with more');
          pairs++;
          expect(leastFinish(way, less.times.finish)).toBeLessThanOrEqual(less.bound);
          if (more.status !== 'optimal') continue;
          proven++;
          expect(more.times.finish).toBeLessThanOrEqual(less.times.finish);
        }
      }),
      { numRuns: 150 },
    );
    expect(proven).toBeGreaterThan(pairs / 4);
  });
});
