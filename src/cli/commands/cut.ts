import type { Command } from 'commander';
import type { Cut } from '../../core/bill/index.ts';
import type { Plan, Printers } from '../../core/plan/index.ts';
import { printersFor } from '../../core/plan/index.ts';
import { type RealLayout, realLayouts, stockName } from '../../core/stock/index.ts';
import { withEffort } from '../flags.ts';
import { chooseOption, count, openPlan } from '../plan-file.ts';
import { data, Ending, json } from '../shell.ts';
import { type EffortFlags, workOutAll } from '../work-out.ts';

interface Flags extends EffortFlags {
  option?: string;
  json?: true;
}

export function cutCommand(program: Command): void {
  withEffort(
    program
      .command('cut')
      .summary('say how to cut it')
      .description(
        'Lays every part of a plan on the panels and boards it is cut from, at the least cost it can find, and says how much better it could be at most.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .option('--json', 'give it as data: neutral problems and their answers'),
  ).action((path: string, flags: Flags) => {
    const opened = openPlan(path);
    const [outcome] = workOutAll(opened, [chooseOption(opened.plan, flags.option)], flags);
    const { cuts, option } = outcome!;
    if (flags.json)
      json({
        option: option.id,
        cuts: cuts.map(({ job, answer }) => ({ stock: job.stock, problem: job.problem, answer })),
      });
    else for (const cut of cuts) data(cutText(cut, opened.plan));
    if (cuts.some(({ answer, job }) => answer.status === 'infeasible' || job.left.length > 0))
      throw new Ending(1, 'Some parts cannot be cut from what the plan has; `setwright check` says which and why.');
  });
}

/** The layouts of one stock as lines, headed by how good they are. */
function cutText({ job, answer }: Cut, plan: Plan): string {
  const print = printersFor(plan.units);
  const name = stockName(plan.stock, job.stock);
  if (answer.status === 'infeasible')
    return `\n${name}: cannot be cut. ${answer.issues.map((issue) => issue.message).join('; ')}`;
  const layouts = realLayouts(job, answer);
  const bought = layouts.filter((layout) => layout.source.kind === 'buy').length;
  const racked = layouts.length - bought;
  const from = [bought > 0 && `${bought} bought`, racked > 0 && `${racked} from the rack`].filter(Boolean).join(', ');
  return [
    `\n${name}: ${from}. ${howGood(answer, print)}`,
    ...layouts.map((layout, i) => layoutText(layout, i + 1, print)),
  ].join('\n');
}

function howGood(answer: Extract<Cut['answer'], { cost: number }>, print: Printers): string {
  if (answer.status === 'optimal') return `${print.money(answer.cost)} before tax; less is impossible.`;
  const gap = print.money(answer.cost - answer.bound);
  return `${print.money(answer.cost)} before tax; no plan can cost less than ${print.money(answer.bound)}, so at most ${gap} could be saved${answer.cutShort ? ' (the search was cut short)' : ''}.`;
}

function layoutText(layout: RealLayout, number: number, print: Printers): string {
  const { source, length, width, placed } = layout;
  const size = layout.from === 'panel' ? `${print.length(length)} × ${print.length(width)}` : print.length(length);
  const where = source.kind === 'rack' ? `${source.id}${source.where ? ` (${source.where})` : ''}` : 'new';
  const parts = placed.map((p) =>
    layout.from === 'panel'
      ? `    ${p.part}  ${print.length(p.length)} × ${print.length(p.width)} at ${print.length(p.x)}, ${print.length(p.y)}`
      : `    ${p.part}  ${print.length(p.length)} at ${print.length(p.x)}`,
  );
  return [`  ${number}. ${size}, ${where}: ${count(placed.length, 'part')}`, ...parts].join('\n');
}
