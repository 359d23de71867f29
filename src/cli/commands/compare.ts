import type { Command } from 'commander';
import { COMPARED, type Compared, costSaid } from '../../core/bill/index.ts';
import { compareOutcomes, type Outcome } from '../../core/outcome.ts';
import { type Plan, printersFor } from '../../core/plan/index.ts';
import { withEffort } from '../flags.ts';
import { chooseOption, openPlan } from '../plan-file.ts';
import { data, json } from '../shell.ts';
import { table } from '../table.ts';
import { type EffortFlags, workOutAll } from '../work-out.ts';

export function compareCommand(program: Command): void {
  withEffort(
    program
      .command('compare')
      .summary('set options side by side')
      .description(
        'Sets the options of a plan side by side: cost, panels, boards, cuts, parts, weight, hours, notes, each with its difference from the first.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .argument('[options...]', 'the options, the one to compare with first; left out: all of them')
      .option('--json', 'give it as data'),
  ).action((path: string, ids: string[], flags: EffortFlags & { json?: true }) => {
    const opened = openPlan(path);
    const options = ids.length > 0 ? ids.map((id) => chooseOption(opened.plan, id)) : opened.plan.options;
    const outcomes = workOutAll(opened, options, flags);
    if (flags.json) json(compareOutcomes(outcomes));
    else data(comparisonText(opened.plan, outcomes));
  });
}

const WORDS: Readonly<Record<(typeof COMPARED)[number], string>> = {
  cost: 'cost with tax',
  panels: 'panels to buy',
  boards: 'boards to buy',
  cuts: 'saw cuts',
  parts: 'parts',
  mass: 'weight in all',
  heaviest: 'heaviest lift',
  hours: 'hours, one person',
  stops: 'stop notes',
  cautions: 'cautions',
};

/** The tallies as a table: a row a figure, a column an option, differences from the first in brackets. */
export function comparisonText(plan: Plan, outcomes: readonly Outcome[]): string {
  const print = printersFor(plan.units);
  const show = (key: (typeof COMPARED)[number], value: number | undefined): string => {
    if (value === undefined) return 'not known';
    if (key === 'cost') return print.money(value);
    if (key === 'mass' || key === 'heaviest') return print.mass(value);
    return key === 'hours' ? value.toFixed(1) : String(value);
  };
  const compared = compareOutcomes(outcomes);
  const cell = (key: (typeof COMPARED)[number], { tally, difference }: Compared, first: boolean): string => {
    const by = difference[key];
    const sign = by === undefined || first || by === 0 ? '' : ` (${by > 0 ? '+' : '−'}${show(key, Math.abs(by))})`;
    if (key === 'cost' && tally.cost === undefined) return costSaid(tally.known, false, print.money);
    return show(key, tally[key]) + sign;
  };
  return table(COMPARED, [
    { title: '', text: (key) => WORDS[key] },
    ...compared.map((option, i) => ({
      title: option.title,
      text: (key: (typeof COMPARED)[number]) => cell(key, option, i === 0),
      right: true,
    })),
  ]);
}
