import { type Outcome, type OutcomeOptions, workOut } from '../core/outcome.ts';
import type { Option } from '../core/plan/index.ts';
import { count, type Opened, placed } from './plan-file.ts';
import { Ending, progress } from './shell.ts';

/** Flags of every command that works a plan out. */
export interface EffortFlags {
  readonly steps?: number;
  readonly limit?: number;
  readonly today?: string;
}

/** The day prices are held against: the one given, or this machine's. */
export const todayOf = (flags: EffortFlags): string => flags.today ?? new Date().toLocaleDateString('sv-SE');

/** Search effort from the flags. A time limit may cut the search short; the answer then says so. */
export function outcomeOptions(flags: EffortFlags, onJob?: OutcomeOptions['onJob']): OutcomeOptions {
  const ends = flags.limit === undefined ? undefined : Date.now() + flags.limit * 1000;
  return {
    today: todayOf(flags),
    effort: {
      ...(flags.steps !== undefined && { steps: flags.steps }),
      ...(ends !== undefined && { shouldStop: () => Date.now() > ends }),
    },
    ...(onJob && { onJob }),
  };
}

/** Everything about some options, with a progress line; ends the command when one cannot be built. */
export function workOutAll(opened: Opened, options: readonly Option[], flags: EffortFlags): readonly Outcome[] {
  const line = progress();
  const outcomes = options.map((option) =>
    workOut(
      opened.plan,
      option,
      outcomeOptions(flags, (job, index, jobs) =>
        line.show(`${option.id}: cutting ${job.stock} (${index + 1} of ${jobs}) …`),
      ),
    ),
  );
  line.done();
  const issues = [
    ...new Map(outcomes.flatMap((o) => o.issues).map((issue) => [JSON.stringify(issue), issue])).values(),
  ];
  if (issues.length > 0)
    throw new Ending(
      1,
      `${opened.file} cannot be built as it is: ${count(issues.length, 'error')}.`,
      placed(opened, issues),
    );
  return outcomes;
}
