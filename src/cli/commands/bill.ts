import type { Command } from 'commander';
import { type BillLine, costSaid, type Share } from '../../core/bill/index.ts';
import { printersFor } from '../../core/plan/index.ts';
import { withEffort } from '../flags.ts';
import { chooseOption, openPlan } from '../plan-file.ts';
import { data, json } from '../shell.ts';
import { table } from '../table.ts';
import { type EffortFlags, workOutAll } from '../work-out.ts';
import { noteLine } from './check.ts';

export function billCommand(program: Command): void {
  withEffort(
    program
      .command('bill')
      .summary('say what to buy and what it costs')
      .description(
        'Says what to buy, in the units it is sold in and by supplier; what each piece and material costs; what is wasted and what is left.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .option('--json', 'give it as data'),
  ).action((path: string, flags: EffortFlags & { option?: string; json?: true }) => {
    const opened = openPlan(path);
    const [outcome] = workOutAll(opened, [chooseOption(opened.plan, flags.option)], flags);
    const { bill, option } = outcome!;
    if (flags.json) {
      json({ option: option.id, currency: opened.plan.units.currency, ...bill });
      return;
    }
    const print = printersFor(opened.plan.units);
    const money = (amount: number | undefined) => (amount === undefined ? 'not known' : print.money(amount));
    for (const { name, lines, cost } of bill.shopping) {
      data(
        `\n${name === '' ? 'No supplier named' : name}: ${costSaid(
          cost,
          lines.every((l) => l.total !== undefined),
          print.money,
        )} with tax`,
      );
      data(
        table<BillLine>(lines, [
          { title: 'buy', text: (line) => String(line.count), right: true },
          { title: 'what', text: (line) => line.name },
          { title: 'size', text: (line) => line.detail ?? '' },
          { title: 'each', text: (line) => money(line.price), right: true },
          { title: 'together', text: (line) => money(line.total), right: true },
          { title: 'priced on', text: (line) => line.date ?? '' },
        ]),
      );
    }
    const shares = (title: string, rows: readonly Share[]) =>
      data(
        `\n${table(rows, [
          { title, text: (row) => row.name },
          { title: 'cost', text: (row) => money(row.cost), right: true },
        ])}`,
      );
    shares('by piece', bill.byPiece);
    shares('by material', bill.byMaterial);
    const share = (part: number, whole: number) => (whole === 0 ? '' : `${((100 * part) / whole).toFixed(0)} %`);
    data(
      `\n${table(bill.uses, [
        { title: 'material', text: (use) => use.name },
        { title: 'in parts', text: (use) => share(use.inParts, use.bought + use.fromRack), right: true },
        { title: 'to the rack', text: (use) => share(use.toRack, use.bought + use.fromRack), right: true },
        { title: 'waste', text: (use) => share(use.waste, use.bought + use.fromRack), right: true },
      ])}`,
    );
    for (const note of bill.notes) data(noteLine(note));
    data(
      `\n${bill.complete ? 'Total' : 'Known so far'}: ${costSaid(bill.known, bill.complete, print.money)} with ${money(bill.tax)} tax`,
    );
  });
}
