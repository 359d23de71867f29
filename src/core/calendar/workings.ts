import type { Working } from '../notes/index.ts';
import type { Plan } from '../plan/index.ts';
import { type JobCalendar, workingMinutes } from './calendar.ts';
import { expected } from './three-point.ts';

/** How the end of the job came about: work, hours, waits, and the spread of the runs. */
export function reckonChance(plan: Plan, calendar: JobCalendar): Working | undefined {
  const left = calendar.tasks.filter((d) => !d.done);
  if (calendar.chances.runs === 0 || left.length === 0) return undefined;
  const { least, most } = plan.dates.range;
  const work = left.reduce((sum, d) => sum + d.task.minutes, 0);
  const { early, middle, late, inTime, runs } = calendar.chances;
  return {
    what: 'End of the job, and how sure it is',
    formula: 'T = last end of the tasks put over the hours in the order found; range from runs with drawn times',
    inputs: [
      { symbol: 'n', name: 'tasks left', value: left.length, unit: '' },
      { symbol: 'w', name: 'likely work of all of them', value: work / 60, unit: 'h' },
      {
        symbol: 'k',
        name: 'mean time over likely time',
        value: expected({ least, likely: 1, most }),
        unit: '',
        source: { title: 'Malcolm and others, Operations Research 7', edition: '1959', place: 't = (a + 4m + b)/6' },
      },
      { symbol: 'a/m', name: 'least time over likely', value: least, unit: '', source: 'common practice' },
      { symbol: 'b/m', name: 'most time over likely', value: most, unit: '', source: 'common practice' },
      {
        symbol: 'h',
        name: 'hours of work till the end',
        value: workingMinutes(calendar, 0, calendar.finish) / 60,
        unit: 'h',
      },
      { symbol: 'r', name: 'runs', value: runs, unit: '' },
    ],
    result: { value: calendar.finish / 1440, unit: 'd' },
    also: [
      { symbol: 'T₀', name: 'no calendar can be shorter', value: calendar.bound / 1440, unit: 'd' },
      // a run for which the hours do not suffice has no end
      ...[
        { symbol: 'T₁₀', name: 'one run in ten ends by', value: early / 1440, unit: 'd' },
        { symbol: 'T₅₀', name: 'half of the runs end by', value: middle / 1440, unit: 'd' },
        { symbol: 'T₉₀', name: 'nine runs in ten end by', value: late / 1440, unit: 'd' },
      ].filter(({ value }) => Number.isFinite(value)),
      ...(inTime
        ? [
            { symbol: 'P₁', name: 'share in time, tasks independent', value: inTime.apart, unit: '' },
            { symbol: 'P₂', name: 'share in time, one pace for all', value: inTime.together, unit: '' },
          ]
        : []),
    ],
    source: {
      title: 'Serial schedule generation over real hours',
      edition: 'Kolisch 1996',
      place: 'runs with drawn times',
    },
    assumes: [
      'counted from the first midnight of the job',
      'waits at the longest published, cold and damp air counted',
      'nobody falls ill, nothing breaks, shops have what they say',
    ],
  };
}
