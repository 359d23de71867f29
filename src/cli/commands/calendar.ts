import { writeFileSync } from 'node:fs';
import type { Command } from 'commander';
import pc from 'picocolors';
import {
  buyBy,
  calendarNotes,
  calendarOf,
  chanceWords,
  clockOf,
  costWords,
  dateOf,
  dayList,
  dayOf,
  dayRuns,
  dayTold,
  decidingDays,
  type JobCalendar,
  lostCosts,
  lostWords,
  rangeWords,
  shortMoment,
  spanWords,
  workingMinutes,
} from '../../core/calendar/index.ts';
import { calendarInput } from '../../core/outcome.ts';
import { toIcalendar } from '../../print/index.ts';
import { isoDate, withEffort } from '../flags.ts';
import { chooseOption, openPlan } from '../plan-file.ts';
import { data, Ending, json, say, whyNot } from '../shell.ts';
import { table } from '../table.ts';
import { type EffortFlags, todayOf, workOutAll } from '../work-out.ts';
import { noteLine } from './check.ts';

interface Flags extends EffortFlags {
  option?: string;
  ics?: string;
  lost?: string[];
  from?: string;
  json?: true;
}

export function calendarCommand(program: Command): void {
  withEffort(
    program
      .command('calendar')
      .summary('say what is done on which day')
      .description(
        'Dates the whole job over your hours, a helper’s days and the opening of shops: what to do each day, what decides the end, what to buy by when, and how sure the deadline is.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .option('--ics <file>', 'write it as an iCalendar file, too')
      .option('--lost <date...>', 'days on which nothing gets done after all', (text: string, all: string[] = []) => [
        ...all,
        isoDate(text),
      ])
      .option('--from <date>', 'what is not ticked off begins on this day at the earliest', isoDate)
      .option('--json', 'give it as data'),
  ).action((path: string, flags: Flags) => {
    const opened = openPlan(path);
    const { plan } = opened;
    const [outcome] = workOutAll(opened, [chooseOption(plan, flags.option)], flags);
    const today = todayOf(flags);
    const input = calendarInput(outcome!, today);
    const usual = calendarOf(input);
    const changed = flags.lost !== undefined || flags.from !== undefined;
    const calendar = changed
      ? calendarOf({ ...input, ...(flags.lost && { lost: flags.lost }), ...(flags.from && { from: flags.from }) })
      : usual;
    if (flags.ics !== undefined) {
      const text = toIcalendar(calendar, { title: plan.title, today });
      try {
        writeFileSync(flags.ics, text);
      } catch (error) {
        throw new Ending(2, `${flags.ics} could not be written: ${whyNot(error)}.`);
      }
      say(`Wrote the calendar to ${flags.ics}.`);
    }
    if (flags.json) json(asData(calendar, outcome!.option.id));
    else if (calendar.impossible === undefined) print(calendar, changed ? usual : undefined);
    for (const note of calendarNotes(input, calendar)) if (!flags.json) data(noteLine(note));
    if (calendar.impossible !== undefined) throw new Ending(1, `The job cannot be dated. ${calendar.impossible}`);
  });
}

function print(calendar: JobCalendar, usual: JobCalendar | undefined): void {
  const days = [...new Set(calendar.tasks.flatMap((d) => d.spans.map((s) => dayOf(calendar, s.start))))].sort(
    (a, b) => a - b,
  );
  for (const day of days) {
    data(`\n${pc.bold(dayTold(calendar, day))}`);
    data(
      table(dayList(calendar, day), [
        { title: 'from', text: ({ from }) => clockOf(from) },
        { title: 'to', text: ({ to }) => clockOf(to) },
        {
          title: 'what',
          text: ({ dated, begun, open }) => `${dated.task.title}${begun ? ', goes on' : ''}${open ? ' …' : ''}`,
        },
        { title: 'people', text: ({ dated }) => (dated.task.helper === undefined ? '' : 'two') },
        {
          title: 'spare',
          text: ({ dated }) =>
            dated.critical ? 'decides' : spanWords(workingMinutes(calendar, dated.start, dated.start + dated.slack)),
        },
        { title: 'task', text: ({ dated }) => dated.task.id },
      ]),
    );
  }
  data(`\n${pc.bold('Decides')}`);
  for (const { day, words, why } of decidingDays(calendar)) data(`  ${dayTold(calendar, day)}: ${words} ${why}`);
  data(`\n${pc.bold('Buy')}`);
  for (const { dated, by, order } of buyBy(calendar))
    data(
      `  ${dated.task.title}: planned ${shortMoment(calendar, dated.start)}; ${order ? 'order' : 'there'} by ${dayTold(calendar, by)} at the latest`,
    );
  data(`\n${pc.bold('If a day is lost')}`);
  data(`  ${lostWords(calendar)}`);
  data(
    table(lostCosts(calendar), [
      { title: 'costs', text: costWords },
      { title: 'ends on', text: ({ end }) => (end === undefined ? '' : dayTold(calendar, end)) },
      { title: 'when one of these days of work is lost', text: ({ days }) => dayRuns(calendar, days) },
    ]),
  );
  data(`\nThe job ends on ${told(calendar, calendar.finish)} at ${clockOf(calendar.finish)}. ${rangeWords(calendar)}`);
  if (calendar.chances.inTime)
    data(
      `Deadline ${dayTold(calendar, calendar.deadline!)}; chances to make it: ${chanceWords(calendar.chances.inTime)}.`,
    );
  if (usual && usual.impossible === undefined)
    data(
      usual.finish === calendar.finish
        ? 'Without these changes it ends at the same time.'
        : `Without these changes it ends on ${told(usual, usual.finish)} at ${clockOf(usual.finish)}.`,
    );
}

const told = (calendar: JobCalendar, moment: number): string => dayTold(calendar, dayOf(calendar, moment, true));
const endDay = (calendar: JobCalendar, moment: number): string | null =>
  Number.isFinite(moment) ? dateOf(dayOf(calendar, moment, true)) : null;

const asData = (calendar: JobCalendar, option: string) => {
  const moment = (minutes: number): string => `${dateOf(dayOf(calendar, minutes))}T${clockOf(minutes)}`;
  return {
    option,
    ...(calendar.impossible !== undefined && { impossible: calendar.impossible }),
    status: calendar.status,
    end: moment(calendar.finish),
    bound: moment(calendar.bound),
    ...(calendar.deadline !== undefined && { deadline: dateOf(calendar.deadline) }),
    range: {
      runs: calendar.chances.runs,
      // null: in so many runs the hours of the plan do not suffice
      early: endDay(calendar, calendar.chances.early),
      middle: endDay(calendar, calendar.chances.middle),
      late: endDay(calendar, calendar.chances.late),
      ...(calendar.chances.inTime && { inTime: calendar.chances.inTime }),
    },
    tasks: calendar.tasks.map(({ task, start, end, spans, slack, done, critical }) => ({
      id: task.id,
      title: task.title,
      phase: task.phase,
      ...(task.pieces && { pieces: task.pieces }),
      minutes: Math.round(task.minutes),
      ...(task.helper !== undefined && { helper: task.helper }),
      done,
      ...(!done && {
        start: moment(start),
        end: moment(end),
        worked: spans.map((s) => [moment(s.start), moment(s.end)]),
        slackMinutes: slack,
        critical,
      }),
      after: task.after.map((a) => ({
        task: calendar.tasks[a.task]!.task.id,
        waitMinutes: a.wait,
        ...(a.why && { why: a.why }),
      })),
    })),
    chain: decidingDays(calendar).map(({ day, task, words, why }) => ({
      day: dateOf(day),
      task: task.task.id,
      words,
      why,
    })),
    buy: buyBy(calendar).map(({ dated, by }) => ({ task: dated.task.id, by: dateOf(by) })),
    lostDays: calendar.lostDays.map(({ day, finish }) => ({
      day: dateOf(day),
      end: finish === undefined ? null : moment(finish),
    })),
  };
};
