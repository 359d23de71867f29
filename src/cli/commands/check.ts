import type { Command } from 'commander';
import pc from 'picocolors';
import { withCures } from '../../core/cures.ts';
import type { Note } from '../../core/notes/index.ts';
import { solidsOf, workOut } from '../../core/outcome.ts';
import { isoDate } from '../flags.ts';
import { count, openPlan, placed } from '../plan-file.ts';
import { data, Ending, json } from '../shell.ts';
import { todayOf } from '../work-out.ts';

export function checkCommand(program: Command): void {
  program
    .command('check')
    .summary('read a plan and say what is wrong with it')
    .description(
      'Reads a plan, builds every option, and says every error with its line, and every note. Ends with 1 when there is an error or a stop note.',
    )
    .argument('<plan>', 'a plan file, or - for standard input')
    .option('--json', 'give it as data')
    .option('--today <date>', 'the day prices are held against; left out: today', isoDate)
    .action((path: string, flags: { json?: true; today?: string }) => {
      const opened = openPlan(path);
      // notes do not wait for the best cutting plan: the first one tells what cannot be bought, and what has no price
      const effort = { today: todayOf(flags), effort: { steps: 0 } };
      const scenes = opened.plan.options.map((option) => workOut(opened.plan, option, effort));
      const issues = placed(opened, [
        ...new Map(scenes.flatMap((s) => s.issues).map((i) => [JSON.stringify(i), i])).values(),
      ]);
      const options_ = scenes.map(({ plan, option, parts, notes }) => ({
        id: option.id,
        parts: parts.length,
        notes: withCures(solidsOf(plan, option), notes),
      }));
      if (flags.json) json({ file: opened.file, issues, options: options_ });
      else
        for (const { id, parts, notes } of options_) {
          data(
            `${pc.bold(id)}: ${count(parts, 'part')}, ${notes.length === 0 ? 'no notes' : count(notes.length, 'note')}`,
          );
          for (const note of notes) data(noteLine(note));
        }
      const stops = options_.flatMap((o) => o.notes).filter((n) => n.verdict === 'stop').length;
      if (issues.length > 0)
        throw new Ending(1, `${opened.file} cannot be built as it is: ${count(issues.length, 'error')}.`, issues);
      if (stops > 0) throw new Ending(1, `${opened.file}: ${count(stops, 'stop note')}.`);
    });
}

const MARK = { stop: pc.red('stop   '), caution: pc.yellow('caution'), fine: pc.green('fine   ') } as const;
const UNDER = '\n           ';
export const noteLine = ({ verdict, title, advice, cure }: Note): string =>
  `  ${MARK[verdict]}  ${title}${UNDER}${pc.dim(advice)}${cure ? `${UNDER}What settles it: ${cure.title}.` : ''}`;
