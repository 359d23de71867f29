import type { Issue } from '../../issue/index.ts';
import { TICKS_PER_MM } from '../../quantity/index.ts';
import { gcd, wholeCosts } from '../costs.ts';
import type { PanelProblem } from '../problem.ts';

/**
 * A panel problem as the methods see it: whole numbers only.
 *
 * The kerf is gone: a part with its kerf on two sides fits a sheet exactly when the part grown by one kerf fits the sheet grown
 * by one kerf, cut for cut. The trim is taken off the sheet. Lengths are ticks divided by their greatest common divisor, costs
 * whole multiples of `costUnit`, so every comparison in the search is exact.
 */
export interface Model {
  readonly sheets: readonly ModelSheet[];
  /** Parts of equal size and freedom are one kind, largest area first. */
  readonly kinds: readonly ModelKind[];
  /** Ticks in one unit of length. */
  readonly ticks: number;
  /** Money in one unit of cost. */
  readonly costUnit: number;
  /** Costs in these units are the user's to the last digit. */
  readonly exactCosts: boolean;
  /** Parts in all. */
  readonly total: number;
}
export interface ModelSheet {
  /** Index in `problem.stock`. */
  readonly index: number;
  readonly length: number;
  readonly width: number;
  readonly cost: number;
  /** Never more than there are parts. */
  readonly count: number;
}
export interface ModelKind {
  /** Indices in `problem.parts` with how many of each, in the order of the problem. */
  readonly members: readonly { readonly index: number; readonly count: number }[];
  readonly length: number;
  readonly width: number;
  readonly count: number;
  readonly turn: boolean;
}

/** Beyond these a problem is refused: it is a mistake in the list, or a job to be split. */
const MOST_PARTS = 1_000_000;
const MOST_ROWS = 20_000;
/** The longest side a solver takes: 1 km, so that sums of ticks stay exact in 32 bits. */
const LONGEST = 1_000_000;

/** Whole ticks from any finite number; the door has turned away the rest. */
const ticksOf = (length: number): number => Math.round(length * TICKS_PER_MM);

/** Everything that makes the problem impossible to state or to solve, in words for the maker. Empty when it can be tried. */
export function problemIssues(problem: PanelProblem): readonly Issue[] {
  const issues: Issue[] = [];
  const positive = (value: number, path: Issue['path'], what: string): void => {
    if (!(Number.isFinite(value) && value > 0))
      issues.push({
        path,
        message: `${what} must be more than zero`,
        found: String(value),
        expected: 'a length in mm',
      });
    else if (value > LONGEST) issues.push({ path, message: `${what} is longer than 1 km`, found: `${value} mm` });
    else if (ticksOf(value) < 1)
      issues.push({ path, message: `${what} is smaller than can be measured`, found: `${value} mm` });
  };
  const notNegative = (value: number, path: Issue['path'], what: string): void => {
    if (!(Number.isFinite(value) && value >= 0))
      issues.push({ path, message: `${what} must be zero or more`, found: String(value) });
  };
  const whole = (value: number, path: Issue['path'], what: string): void => {
    if (!(Number.isInteger(value) && value >= 0))
      issues.push({ path, message: `${what} must be a whole number, zero or more`, found: String(value) });
  };
  notNegative(problem.kerf, ['kerf'], 'kerf');
  notNegative(problem.trim, ['trim'], 'trim');
  for (const list of ['stock', 'parts'] as const)
    if (problem[list].length > MOST_ROWS)
      return [
        {
          path: [list],
          message: 'the list is too long for one cutting plan; split the job',
          found: String(problem[list].length),
          expected: `at most ${MOST_ROWS} different rows`,
        },
      ];
  problem.stock.forEach((sheet, i) => {
    positive(sheet.length, ['stock', i, 'length'], 'sheet length');
    positive(sheet.width, ['stock', i, 'width'], 'sheet width');
    notNegative(sheet.cost, ['stock', i, 'cost'], 'cost');
    if (sheet.count !== null) whole(sheet.count, ['stock', i, 'count'], 'sheet count');
  });
  const twice = (ids: readonly string[], what: 'stock' | 'parts'): void => {
    const seen = new Set<string>();
    ids.forEach((id, i) => {
      if (seen.has(id)) issues.push({ path: [what, i, 'id'], message: 'two entries have the same name', found: id });
      seen.add(id);
    });
  };
  twice(
    problem.stock.map((sheet) => sheet.id),
    'stock',
  );
  twice(
    problem.parts.map((part) => part.id),
    'parts',
  );
  let total = 0;
  problem.parts.forEach((part, i) => {
    positive(part.length, ['parts', i, 'length'], 'part length');
    positive(part.width, ['parts', i, 'width'], 'part width');
    whole(part.count, ['parts', i, 'count'], 'part count');
    total += Math.max(0, part.count);
  });
  if (total > MOST_PARTS)
    issues.push({
      path: ['parts'],
      message: 'too many parts for one cutting plan; split the job',
      found: String(total),
      expected: `${MOST_PARTS} or fewer`,
    });
  if (issues.length > 0) return issues;
  if (total === 0) return issues;
  const sheets = problem.stock
    .map((sheet, i) => ({ ...usable(problem, i), count: sheet.count ?? 1 }))
    .filter((sheet) => sheet.count > 0 && sheet.length > 0 && sheet.width > 0);
  if (sheets.length === 0) {
    const some = problem.stock.some((sheet) => sheet.count !== 0);
    return [
      {
        path: ['stock'],
        message: some ? 'the trim leaves nothing of any sheet' : 'there is no sheet to cut from',
        ...(some && { found: `trim ${problem.trim} mm` }),
        expected: 'at least one sheet',
      },
    ];
  }
  problem.parts.forEach((part, i) => {
    if (part.count === 0) return;
    const [length, width] = [ticksOf(part.length), ticksOf(part.width)];
    const fits = sheets.some(
      (s) => (length <= s.length && width <= s.width) || (part.turn === true && width <= s.length && length <= s.width),
    );
    if (!fits)
      issues.push({
        path: ['parts', i],
        message: `part ${part.id} fits no sheet${part.turn === true ? '' : ' as its grain lies'}`,
        found: `${part.length} × ${part.width} mm`,
        expected: sheets.map((s) => `at most ${s.length / TICKS_PER_MM} × ${s.width / TICKS_PER_MM} mm`).join(' or '),
      });
  });
  return issues;
}

/** What the trim leaves of a sheet, in ticks. */
function usable(problem: PanelProblem, index: number): { readonly length: number; readonly width: number } {
  const sheet = problem.stock[index]!;
  const trim = 2 * ticksOf(problem.trim);
  return { length: ticksOf(sheet.length) - trim, width: ticksOf(sheet.width) - trim };
}

/** For a problem without issues. */
export function toModel(problem: PanelProblem): Model {
  // A blade as wide as the longest sheet leaves one part on each, and so does any wider one.
  const longest = problem.stock.reduce((most, sheet) => Math.max(most, sheet.length, sheet.width), 0);
  const kerf = ticksOf(Math.min(problem.kerf, longest));
  const groups = new Map<
    string,
    { members: { index: number; count: number }[]; length: number; width: number; turn: boolean }
  >();
  let total = 0;
  problem.parts.forEach((part, index) => {
    if (part.count === 0) return;
    total += part.count;
    const [length, width] = [ticksOf(part.length) + kerf, ticksOf(part.width) + kerf];
    const turn = part.turn === true && length !== width;
    // A part that may be turned is the same either way round.
    const key = turn ? `${Math.max(length, width)}/${Math.min(length, width)}/t` : `${length}/${width}`;
    const group = groups.get(key);
    if (group) group.members.push({ index, count: part.count });
    else groups.set(key, { members: [{ index, count: part.count }], length, width, turn });
  });
  const stock = problem.stock
    .map((sheet, index) => {
      const { length, width } = usable(problem, index);
      const count = Math.min(sheet.count ?? total, total);
      return {
        index,
        length: length + kerf,
        width: width + kerf,
        count,
        open: length > 0 && width > 0,
      };
    })
    .filter((sheet) => sheet.count > 0 && sheet.open);
  let ticks = 0;
  for (const it of [...groups.values(), ...stock]) ticks = gcd(gcd(ticks, it.length), it.width);
  ticks = Math.max(1, ticks);
  const { costs, costUnit, exact } = wholeCosts(stock.map(({ index }) => problem.stock[index]!.cost));
  return {
    ticks,
    costUnit,
    exactCosts: exact,
    total,
    sheets: stock.map(({ index, length, width, count }, s) => ({
      index,
      length: length / ticks,
      width: width / ticks,
      cost: costs[s]!,
      count,
    })),
    kinds: [...groups.values()]
      .map((group) => ({
        ...group,
        length: group.length / ticks,
        width: group.width / ticks,
        count: group.members.reduce((sum, member) => sum + member.count, 0),
      }))
      .sort(
        (a, b) =>
          b.length * b.width - a.length * a.width || b.length - a.length || a.members[0]!.index - b.members[0]!.index,
      ),
  };
}
