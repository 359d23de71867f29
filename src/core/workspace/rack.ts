import { fail, type Issue, ok, type Result } from '../issue/index.ts';
import { type Edit, type PlainValue, type Plan, printersFor, readersFor } from '../plan/index.ts';
import { readTable, writeTable } from './table.ts';

const COLUMNS = ['id', 'stock', 'length', 'width', 'count', 'where'] as const;

/** The rack of a plan as a table that `readRack` takes back; lengths as the plan writes them. */
export function writeRack(plan: Plan): string {
  const show = printersFor(plan.units).length;
  return writeTable(
    COLUMNS,
    plan.stock.rack.map(({ id, stock, length, width, count, where }) => ({
      id: id ?? '',
      stock,
      length: show(length),
      width: width === undefined ? '' : show(width),
      count: String(count),
      where: where ?? '',
    })),
  );
}

/** So many times the longest that is sold is no offcut, but a table in another unit: between two that a shop uses there is 2.5 and more. */
const FAR = 2;

/** What is wrong with the length of an offcut that none so long can be. */
export function farTooLong({ stock, units }: Plan, of: string, written: string): Issue | undefined {
  const sold = [
    ...stock.panels.filter(({ id }) => id === of).flatMap(({ sizes }) => sizes.flatMap((s) => [s.length, s.width])),
    ...stock.boards.filter(({ id }) => id === of).flatMap(({ lengths }) => lengths.map((one) => one.length)),
  ];
  const read = readersFor(units).length(written);
  if (sold.length === 0 || !read.ok || read.value <= FAR * Math.max(...sold)) return undefined;
  return {
    path: ['length'],
    message: `this is more than ${FAR} times as long as any that is sold`,
    found: `'${written.slice(0, 40)}'`,
    expected: `lengths in ${units.length === 'ft-in' ? 'in' : units.length}, or with their unit`,
  };
}

/** A table as the edits that make it the plan's rack, the rows as they are written. */
export function readRack(csv: string, plan: Plan): Result<readonly Edit[]> {
  const table = readTable(csv, COLUMNS, ['stock', 'length']);
  if (!table.ok) return table;
  const { length } = readersFor(plan.units);
  const panels = new Set(plan.stock.panels.map((panel) => panel.id));
  const known = new Set([...panels, ...plan.stock.boards.map((board) => board.id)]);
  const issues: Issue[] = [];
  const entries = table.value.map(({ line, cells }): PlainValue => {
    const wrong = (path: string, message: string): void =>
      void issues.push({ path: [path], place: { line, column: 1 }, message, found: `'${cells[path]!.slice(0, 40)}'` });
    if (!known.has(cells.stock!)) wrong('stock', 'the plan has no such panel or board');
    for (const side of ['length', 'width'] as const) {
      if (cells[side] === '') {
        if (side === 'length') wrong(side, 'the length is missing');
        else if (panels.has(cells.stock!)) wrong(side, 'a piece of panel has a width');
        continue;
      }
      const read = length(cells[side]!);
      const far = side === 'length' && farTooLong(plan, cells.stock!, cells[side]!);
      if (far) issues.push({ ...far, place: { line, column: 1 } });
      if (!read.ok || read.value <= 0) wrong(side, read.ok ? 'must be more than 0' : read.issues[0]!.message);
    }
    if (cells.count !== '' && !/^[1-9]\d{0,3}$/.test(cells.count!)) wrong('count', 'expected a whole number');
    return {
      ...(cells.id && { id: cells.id }),
      stock: cells.stock!,
      length: cells.length!,
      ...(cells.width && { width: cells.width }),
      ...(cells.count && cells.count !== '1' && { count: Number(cells.count) }),
      ...(cells.where && { where: cells.where }),
    };
  });
  if (issues.length > 0) return fail(...issues.slice(0, 50));
  return ok([{ op: 'set', path: ['stock', 'rack'], value: entries }]);
}
