import { basename } from 'node:path';
import { type Command, Option } from 'commander';
import Papa from 'papaparse';
import type { Cut } from '../../core/bill/index.ts';
import {
  CUTTING_STEPS,
  type CutPiece,
  type CutProblem,
  type CutProblemAnswer,
  orderOfCuts,
  type PanelLayout,
  type PanelStock,
  problemOfLists,
  readPartList,
  readStockList,
  solveProblem,
} from '../../core/cutting/index.ts';
import type { Result } from '../../core/issue/index.ts';
import type { Plan, Printers } from '../../core/plan/index.ts';
import { printersFor } from '../../core/plan/index.ts';
import { formatLength, isInches, LENGTH_UNITS, type LengthUnit, parseLength } from '../../core/quantity/index.ts';
import { type RealLayout, realLayouts, stockName } from '../../core/stock/index.ts';
import { withEffort } from '../flags.ts';
import { chooseOption, count, openPlan } from '../plan-file.ts';
import { data, Ending, json, readText } from '../shell.ts';
import { type EffortFlags, workOutAll } from '../work-out.ts';

interface Flags extends EffortFlags {
  option?: string;
  json?: true;
  list?: string;
  stock?: string;
  units: LengthUnit;
  kerf?: string;
  trim?: string;
  turn?: string;
  cuts?: true;
}

export function cutCommand(program: Command): void {
  withEffort(
    program
      .command('cut')
      .summary('say how to cut it')
      .description(
        'Lays every part of a plan on the panels and boards it is cut from, at the least cost it can find, and says how much better it could be at most.',
      )
      .argument('[plan]', 'a plan file, or - for standard input; left out with --list')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .option('--list <file>', 'instead of a plan: parts as CSV (part, length, width, count, turn)')
      .option('--stock <file>', 'with --list: stock as CSV (stock, length, width, count, cost)')
      .addOption(new Option('--units <unit>', 'with --list: unit of bare numbers').choices(LENGTH_UNITS).default('mm'))
      .option('--kerf <length>', 'with --list: what the blade takes; left out: 1/8 in or 3.2 mm')
      .option('--trim <length>', 'with --list: taken off each edge of the stock first; left out: nothing')
      .option('--turn <which>', 'with --list: all, every part may be turned')
      .option('--cuts', 'with --list: every panel cut by cut, edge to edge, in a good order')
      .option('--json', 'give it as data: neutral problems and their answers'),
  ).action((path: string | undefined, flags: Flags) => {
    if (flags.list !== undefined || flags.stock !== undefined) {
      if (path !== undefined) throw new Ending(2, 'Give a plan, or --list and --stock, not both.');
      cutList(flags);
      return;
    }
    if (path === undefined)
      throw new Ending(2, 'What is to be cut? Give a plan, or --list parts.csv --stock stock.csv.');
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

/** A cutting plan from two lists, for whoever has no plan file. Every fault of either list is named by its row. */
function cutList(flags: Flags): void {
  const { list, stock, units } = flags;
  if (list === undefined || stock === undefined)
    throw new Ending(2, '--list (the parts) and --stock (what they are cut from) go together.');
  if (flags.turn !== undefined && flags.turn !== 'all')
    throw new Ending(2, `--turn takes 'all'; found '${flags.turn}'.`);
  const rows = (file: string) => Papa.parse<string[]>(readText(file).replace(/^\uFEFF/, '')).data;
  const parts = readPartList(rows(list), units);
  const sheets = readStockList(rows(stock), units);
  const named = (result: Result<unknown>, file: string) =>
    result.ok ? [] : result.issues.map((issue) => ({ ...issue, file: basename(file) }));
  const length = (flag: '--kerf' | '--trim', text: string | undefined, usual: number): number => {
    if (text === undefined) return usual;
    const read = parseLength(text, { unit: units });
    if (!read.ok) throw new Ending(2, `${flag}: ${text} is no length.`, read.issues);
    return read.value;
  };
  if (!parts.ok || !sheets.ok)
    throw new Ending(1, 'The lists cannot be cut as they are.', [...named(parts, list), ...named(sheets, stock)]);
  const imperial = isInches(units);
  const saw = { kerf: length('--kerf', flags.kerf, imperial ? 25.4 / 8 : 3.2), trim: length('--trim', flags.trim, 0) };
  const problem = problemOfLists(basename(list), parts.value, sheets.value, saw);
  if (!problem.ok) throw new Ending(1, 'The lists do not go together.', problem.issues);
  const asked: CutProblem =
    flags.turn === 'all' && problem.value.kind === 'panels'
      ? { ...problem.value, parts: problem.value.parts.map((part) => ({ ...part, turn: true })) }
      : problem.value;
  const ends = flags.limit === undefined ? undefined : Date.now() + flags.limit * 1000;
  const answer = solveProblem(asked, {
    steps: flags.steps ?? (ends === undefined ? CUTTING_STEPS[asked.kind] : Number.MAX_SAFE_INTEGER),
    ...(ends !== undefined && { shouldStop: () => Date.now() > ends }),
  });
  if (flags.json) json({ problem: asked, answer });
  else data(listText(asked, answer, (value) => formatLength(value, { unit: units }), flags.cuts === true));
  if (answer.status === 'infeasible') throw new Ending(1, 'This cannot be cut.', answer.issues);
}

function listText(
  problem: CutProblem,
  answer: CutProblemAnswer,
  show: (value: number) => string,
  withCuts: boolean,
): string {
  if (answer.status === 'infeasible') return '';
  const sheets = answer.layouts.reduce((sum, layout) => sum + layout.times, 0);
  const good =
    answer.status === 'optimal'
      ? 'less is impossible'
      : `no plan can cost less than ${answer.bound}${answer.cutShort ? '; the search was cut short' : ''}`;
  const lines = [`${count(sheets, problem.kind === 'panels' ? 'panel' : 'length')}, cost ${answer.cost}; ${good}.`];
  for (const [i, layout] of answer.layouts.entries()) {
    const stock = problem.stock.find(({ id }) => id === layout.stock)!;
    const size = 'width' in stock ? `${show(stock.length)} × ${show(stock.width)}` : show(stock.length);
    lines.push(`  ${i + 1}. ${layout.stock}, ${size}${layout.times > 1 ? `, ${layout.times} times` : ''}`);
    for (const placed of layout.placed)
      lines.push(
        'width' in placed
          ? `    ${placed.part}  ${show(placed.length)} × ${show(placed.width)} at ${show(placed.x)}, ${show(placed.y)}`
          : `    ${placed.part}  ${show(placed.length)} at ${show(placed.x)}`,
      );
    if (withCuts && 'width' in stock) lines.push(...cutsText(problem, stock, layout as PanelLayout, show));
  }
  return lines.join('\n');
}

/** The order of cuts of one panel. A list knows no shop, so no limits of saw or hands are kept here; a plan's packet keeps them. */
function cutsText(
  { kerf, trim }: CutProblem,
  stock: PanelStock,
  { placed }: PanelLayout,
  show: (value: number) => string,
): readonly string[] {
  const order = orderOfCuts({ length: stock.length, width: stock.width, kerf, trim, placed }, { keep: KEPT });
  if (!order || order.steps.length === 0) return [];
  const called = ({ is, name, length, width }: CutPiece): string =>
    is === 'waste' ? 'waste' : `${is === 'offcut' ? `offcut ${name}` : name} ${show(length)} × ${show(width)}`;
  return [
    '    cuts:',
    ...order.steps.map(
      ({ number, kind, piece, setting, against, gives }) =>
        `      ${number}. ${kind} ${piece.name ?? piece.is} at ${show(setting)} from the ${against === 'mark' ? 'edge' : against}: ${gives.map(called).join(', ')}`,
    ),
  ];
}
/** Shorter leftovers are called waste, mm (common practice). */
const KEPT = 300;
