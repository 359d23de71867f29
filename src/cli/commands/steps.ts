import { type Command, Option } from 'commander';
import type { CostPoint, StepsAsked } from '../../core/bill/index.ts';
import { nearest } from '../../core/issue/index.ts';
import { stepsOf } from '../../core/outcome.ts';
import { nameOf, type Option as PlanOption, printersFor, readersFor } from '../../core/plan/index.ts';
import { isInches, type Mm, mm } from '../../core/quantity/index.ts';
import { withEffort } from '../flags.ts';
import { chooseOption, count, type Opened, openPlan } from '../plan-file.ts';
import { data, Ending, json, progress } from '../shell.ts';
import { table } from '../table.ts';
import { type EffortFlags, outcomeOptions } from '../work-out.ts';

interface Flags extends EffortFlags {
  option?: string;
  json?: true;
  from?: string;
  to?: string;
  by?: string;
  choices?: string;
}

export function stepsCommand(program: Command): void {
  withEffort(
    program
      .command('steps')
      .summary('say how the cost moves with one size')
      .description(
        'Says how the cost moves as the width, height, depth or material of one piece varies, where a panel is saved, and the cheapest neighbour.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .argument('<piece>', 'the piece that varies')
      .argument('<what>', 'width, height, depth or material')
      .option('--from <length>', 'left out: a tenth less than it is')
      .option('--to <length>', 'left out: a tenth more than it is')
      .option('--by <length>', 'left out: a twentieth of the range')
      .option('--choices <ids>', 'of material: the panels to try, with commas between; left out: all of the plan')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .addOption(new Option('--json', 'give it as data')),
  ).action((path: string, piece: string, what: string, flags: Flags) => {
    const opened = openPlan(path);
    const option = chooseOption(opened.plan, flags.option);
    const asked = questionOf(opened, option, piece, what, flags);
    let result: ReturnType<typeof stepsOf>;
    try {
      const line = progress();
      const onReckoned = (times: number) =>
        line.show(`${piece}: reckoned what another ${what} costs, ${count(times, 'time')} …`);
      result = stepsOf(opened.plan, option.id, asked, { ...outcomeOptions(flags), onReckoned });
      line.done();
    } catch (error) {
      if (error instanceof RangeError) throw new Ending(2, error.message);
      throw error;
    }
    if (flags.json) {
      json(result);
      return;
    }
    const print = printersFor(opened.plan.units);
    const value = (v: number | string) => (typeof v === 'number' ? print.length(v) : v);
    data(
      table<CostPoint>(result.points, [
        { title: result.dimension, text: (p) => value(p.value), right: true },
        {
          title: 'cost',
          text: (p) => (p.cost === undefined ? (p.why ?? 'not known') : print.money(p.cost)),
          right: true,
        },
        { title: '', text: (p) => (p.value === result.current.value ? '← as planned' : '') },
      ]),
    );
    for (const step of result.steps)
      data(`at ${print.length(step.at)}: ${print.money(step.before)} → ${print.money(step.after)}, ${step.words}`);
    if (result.nearest) data(`Nearest saving: ${result.nearest.words}.`);
    if (result.cheapest && result.cheapest.value !== result.nearest?.value)
      data(`Cheapest of the range: ${result.cheapest.words}.`);
    if (result.current.cost === undefined) data('What the plan costs as it is is not known, so no saving can be told.');
    else if (!result.nearest && !result.cheapest) data('Nothing in this range costs less than the plan as it is.');
    if (result.without.length > 0)
      data(`Left out of every cost, for want of a price or a pack: ${result.without.join(', ')}.`);
  });
}

const DIMENSIONS = ['width', 'height', 'depth', 'material'] as const;

function questionOf({ plan }: Opened, option: PlanOption, name: string, what: string, flags: Flags): StepsAsked {
  const piece = option.pieces.find((p) => nameOf(p) === name);
  if (!piece) {
    const names = option.pieces.map(nameOf);
    const near = nearest(name, names);
    throw new Ending(
      2,
      `Option ${option.id} has no piece '${name}'; it has ${names.join(', ')}.${near ? ` Did you mean ${near}?` : ''}`,
    );
  }
  const dimension = DIMENSIONS.find((d) => d === what);
  if (!dimension) throw new Ending(2, `'${what}' cannot vary; expected one of ${DIMENSIONS.join(', ')}.`);
  if (dimension === 'material') {
    const panels = plan.stock.panels.map((p) => p.id);
    const choices = flags.choices?.split(',').map((c) => c.trim()) ?? panels;
    for (const choice of choices)
      if (!panels.includes(choice))
        throw new Ending(2, `The plan has no panel '${choice}'; it has ${panels.join(', ')}.`);
    return { piece: name, dimension, choices };
  }
  const now = (piece.size as Readonly<Record<string, number | undefined>>)[dimension];
  if (now === undefined) throw new Ending(2, `${name} has no ${dimension}.`);
  const length = (flag: string | undefined, usual: number): Mm => {
    if (flag === undefined) return mm(usual);
    const read = readersFor(plan.units).length(flag);
    if (!read.ok) throw new Ending(2, `${flag} is no length.`, read.issues);
    return read.value;
  };
  // the usual range, on the grid of what a tape shows
  const grid = isInches(plan.units.length) ? 25.4 / 4 : 5;
  const round = (value: number) => Math.max(grid, Math.round(value / grid) * grid);
  const [from, to] = [length(flags.from, round(now * 0.9)), length(flags.to, round(now * 1.1))];
  return { piece: name, dimension, from, to, step: length(flags.by, round((to - from) / 20)) };
}
