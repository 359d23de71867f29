import fc from 'fast-check';
import type { DatedJob, DatedTask } from './dated.ts';
import { bothOpen, hoursOf } from './hours.ts';

/** Random jobs: two or three kinds of hours, a few resources, dust and wet in two places. */
export const anyJob = (most = 14): fc.Arbitrary<DatedJob> =>
  fc
    .record({
      // the parts of a day, the same for 60 days but for some that are missing
      parts: fc.uniqueArray(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 4 }),
      missing: fc.uniqueArray(fc.integer({ min: 0, max: 30 }), { maxLength: 12 }),
      helped: fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 8, maxLength: 30 }),
      people: fc.integer({ min: 1, max: 2 }),
      clamps: fc.integer({ min: 1, max: 3 }),
      floor: fc.integer({ min: 3, max: 9 }),
      tasks: fc.array(
        fc.record({
          work: fc.integer({ min: 1, max: 300 }),
          helped: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
          whole: fc.boolean(),
          clamps: fc.integer({ min: 0, max: 1 }),
          floor: fc.integer({ min: 0, max: 3 }),
          beyond: fc.integer({ min: 0, max: 900 }),
          air: fc.constantFrom('dust', 'wet', 'still'),
          place: fc.constantFrom('shop', 'room'),
          airBeyond: fc.integer({ min: 0, max: 300 }),
          after: fc.array(fc.record({ task: fc.nat(most), wait: fc.constantFrom(0, 0, 30, 240, 1440) }), {
            maxLength: 3,
          }),
        }),
        { minLength: 1, maxLength: most },
      ),
    })
    .map(({ parts, missing, helped, people, clamps, floor, tasks }): DatedJob => {
      const lost = new Set(missing);
      const day = [...parts].sort((a, b) => a - b);
      const own = hoursOf(
        Array.from({ length: 60 }, (_, d) => d)
          .filter((d) => !lost.has(d))
          .flatMap((d) => day.map((p) => [d * 1440 + p * 240, d * 1440 + p * 240 + 120 + 30 * (p % 3)] as const)),
      );
      const help = bothOpen(own, hoursOf(helpedDays(helped)));
      const hours = [own, help.longest > 0 ? help : own];
      return {
        hours,
        resources: [people, clamps, floor],
        people: { resource: 0, hours: 0 },
        tasks: tasks.map((t, i): DatedTask => {
          const at = t.helped ? 1 : 0;
          const whole = t.whole;
          return {
            id: `task ${i}`,
            hours: at,
            whole,
            work: whole ? Math.min(t.work, hours[at]!.longest) : t.work,
            holds: [
              { resource: 0, amount: t.helped ? people : 1, beyond: 0 },
              ...(t.clamps > 0 ? [{ resource: 1, amount: t.clamps, beyond: t.beyond }] : []),
              ...(t.floor > 0 ? [{ resource: 2, amount: t.floor, beyond: t.beyond >> 1 }] : []),
            ],
            ...(t.air !== 'still' && { air: { place: t.place, kind: t.air, beyond: t.airBeyond } }),
            after: t.after.filter((a) => a.task < i),
          };
        }),
      };
    });

function* helpedDays(days: readonly number[]): Generator<readonly [number, number]> {
  for (const d of [...days].sort((a, b) => a - b)) yield [d * 1440, (d + 1) * 1440];
}

/** The same job with one day gone from all its hours. */
export const withoutDay = (job: DatedJob, day: number): DatedJob['hours'] =>
  job.hours.map((h) =>
    bothOpen(
      h,
      hoursOf([
        [0, day * 1440],
        [(day + 1) * 1440, 1e7],
      ]),
    ),
  );
