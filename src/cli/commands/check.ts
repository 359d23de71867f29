import type { Command } from 'commander';
import pc from 'picocolors';
import type { Note } from '../../core/notes/index.ts';
import { sceneOf } from '../../core/outcome.ts';
import { count, openPlan, placed } from '../plan-file.ts';
import { data, Ending, json } from '../shell.ts';

export function checkCommand(program: Command): void {
  program
    .command('check')
    .summary('read a plan and say what is wrong with it')
    .description(
      'Reads a plan, builds every option, and says every error with its line, and every note. Ends with 1 when there is an error or a stop note.',
    )
    .argument('<plan>', 'a plan file, or - for standard input')
    .option('--json', 'give it as data')
    .action((path: string, options: { json?: true }) => {
      const opened = openPlan(path);
      const scenes = opened.plan.options.map((option) => sceneOf(opened.plan, option));
      const issues = placed(opened, [
        ...new Map(scenes.flatMap((s) => s.issues).map((i) => [JSON.stringify(i), i])).values(),
      ]);
      const options_ = scenes.map(({ option, parts, notes }) => ({ id: option.id, parts: parts.length, notes }));
      if (options.json) json({ file: opened.file, issues, options: options_ });
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
export const noteLine = (note: Note): string =>
  `  ${MARK[note.verdict]}  ${note.title}\n           ${pc.dim(note.advice)}`;
