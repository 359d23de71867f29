import type { Issue } from '../issue/index.ts';
import { toTicks } from '../quantity/index.ts';
import type {
  Layout,
  LengthAnswer,
  LengthPart,
  LengthProblem,
  LengthStock,
  PanelAnswer,
  PanelProblem,
  PlacedLength,
  PlacedPart,
} from './problem.ts';

/**
 * The judge of cutting answers. It looks at the demand and the answer only and shares no code with a solver; every length is
 * compared in whole ticks, so nothing is forgiven. No issues means the answer is sound: it can be cut, it is complete, it costs
 * what it says, and it claims no more than its own bound allows. Whether the bound is true it cannot see.
 */
export function checkPanels(problem: PanelProblem, answer: PanelAnswer): readonly Issue[] {
  if (answer.status === 'infeasible') {
    return judgeRefusal(problem, answer, (part) =>
      problem.stock.some(
        (stock) =>
          stock.count === null &&
          (fitsPanel(problem, stock, part.length, part.width) ||
            (part.turn === true && fitsPanel(problem, stock, part.width, part.length))),
      ),
    );
  }
  const issues = judgeFrame(problem, answer);
  const partOf = new Map(problem.parts.map((part) => [part.id, part]));
  const stockOf = new Map(problem.stock.map((stock) => [stock.id, stock]));
  const kerf = toTicks(problem.kerf);
  const trim = toTicks(problem.trim);

  answer.layouts.forEach((layout, l) => {
    const stock = stockOf.get(layout.stock);
    if (!stock) return;
    const rectangles: Rectangle[] = [];
    layout.placed.forEach((placed, p) => {
      const path = ['layouts', l, 'placed', p];
      const part = partOf.get(placed.part);
      if (!part) return;
      const lies = `${placed.length} × ${placed.width}`;
      const asDrawn = same(placed.length, part.length) && same(placed.width, part.width);
      const turned = same(placed.length, part.width) && same(placed.width, part.length);
      if (!asDrawn && !(turned && part.turn === true)) {
        const expected = `${part.length} × ${part.width}`;
        const message = turned ? 'a part with grain lies turned' : 'a part is cut to the wrong size';
        issues.push({ path, message, found: lies, expected });
      }
      const r = rectangleOf(placed);
      if (
        r.x0 < trim ||
        r.y0 < trim ||
        r.x1 > toTicks(stock.length) - trim ||
        r.y1 > toTicks(stock.width) - trim ||
        r.x1 <= r.x0 ||
        r.y1 <= r.y0
      )
        issues.push({ path, message: 'a part reaches outside the trimmed panel', found: `${placed.x}, ${placed.y}` });
      rectangles.push(r);
    });
    const stuck = inseparable(rectangles, kerf);
    if (stuck) {
      const found = stuck.map((r) => `${r.part} at ${r.x0 / 640}, ${r.y0 / 640}`).join('; ');
      issues.push({ path: ['layouts', l], message: 'these parts cannot be cut apart edge to edge', found });
    }
  });
  return issues;
}

/** See {@link checkPanels}; boards instead of panels. */
export function checkLengths(problem: LengthProblem, answer: LengthAnswer): readonly Issue[] {
  if (answer.status === 'infeasible') {
    // what cannot be cut so, or lies nowhere on its board, is refused however well the rest fits
    const sound =
      problem.parts.every(canBeMitred) &&
      problem.stock.every((s) => (s.unusable ?? []).every(({ from, to }) => 0 <= from && from < to && to < Infinity));
    return judgeRefusal(
      problem,
      answer,
      (part) => sound && problem.stock.some((stock) => stock.count === null && fitsBoard(problem, stock, part)),
    );
  }
  const issues = judgeFrame(problem, answer);
  const partOf = new Map(problem.parts.map((part) => [part.id, part]));
  const stockOf = new Map(problem.stock.map((stock) => [stock.id, stock]));
  const trim = toTicks(problem.trim);

  answer.layouts.forEach((layout, l) => {
    const stock = stockOf.get(layout.stock);
    if (!stock) return;
    const bad = badStretches(problem, stock);
    const known = layout.placed.flatMap((placed, p) => {
      const part = partOf.get(placed.part);
      return part ? [{ placed, part, path: ['layouts', l, 'placed', p] }] : [];
    });
    for (const { placed, part, path } of known) {
      const from = toTicks(placed.x);
      const to = from + toTicks(placed.length);
      if (!same(placed.length, part.length))
        issues.push({
          path,
          message: 'a part is cut to the wrong length',
          found: `${placed.length}`,
          expected: `${part.length}`,
        });
      if (from < trim || to > toTicks(stock.length) - trim)
        issues.push({ path, message: 'a part reaches outside the trimmed board', found: `${placed.x}` });
      if (bad.some((stretch) => from < stretch.to && to > stretch.from))
        issues.push({ path, message: 'a part lies over an unusable stretch', found: `${placed.x}` });
    }
    known.sort((a, b) => a.placed.x - b.placed.x || a.placed.length - b.placed.length);
    known.slice(1).forEach((next, i) => {
      const last = known[i]!;
      const gap = toTicks(next.placed.x) - toTicks(last.placed.x) - toTicks(last.placed.length);
      // A millionth of a tick for the tangent's own rounding.
      if (gap < neededGap(problem.kerf, last, next) - 1e-6)
        issues.push({
          path: next.path,
          message: 'there is no room for the blade before this part',
          found: `${gap / 640} mm after ${last.part.id}`,
        });
    });
  });
  return issues;
}

interface Demand {
  readonly parts: readonly { readonly id: string; readonly count: number }[];
  readonly stock: readonly { readonly id: string; readonly cost: number; readonly count: number | null }[];
}
type Told = {
  readonly cost: number;
  readonly bound: number;
  readonly status: 'optimal' | 'feasible';
  readonly layouts: readonly Layout<{ readonly part: string }>[];
};

/** Everything that is the same for panels and boards: counts, names, money and claims. */
function judgeFrame(problem: Demand & { readonly name: string; readonly kind: string }, answer: Told): Issue[] {
  const issues: Issue[] = [];
  const cut = new Map<string, number>(problem.parts.map((part) => [part.id, 0]));
  const used = new Map<string, number>(problem.stock.map((stock) => [stock.id, 0]));
  const named = answer as Told & { readonly name?: string; readonly kind?: string };
  if (named.name !== problem.name || named.kind !== problem.kind)
    issues.push({ path: ['name'], message: 'the answer belongs to another problem', found: `${named.name}` });

  answer.layouts.forEach((layout, l) => {
    if (!Number.isInteger(layout.times) || layout.times < 1)
      issues.push({
        path: ['layouts', l, 'times'],
        message: 'a layout is cut a whole number of times',
        found: `${layout.times}`,
      });
    if (layout.placed.length === 0)
      issues.push({ path: ['layouts', l], message: 'stock is taken and nothing is cut from it' });
    const before = used.get(layout.stock);
    if (before === undefined)
      issues.push({ path: ['layouts', l, 'stock'], message: 'there is no such stock', found: layout.stock });
    else used.set(layout.stock, before + layout.times);
    layout.placed.forEach((placed, p) => {
      const already = cut.get(placed.part);
      if (already === undefined)
        issues.push({
          path: ['layouts', l, 'placed', p, 'part'],
          message: 'there is no such part',
          found: placed.part,
        });
      else cut.set(placed.part, already + layout.times);
    });
  });

  problem.parts.forEach((part, i) => {
    const found = cut.get(part.id)!;
    if (found !== part.count)
      issues.push({
        path: ['parts', i],
        message: `part ${part.id} is cut the wrong number of times`,
        found: `${found}`,
        expected: `${part.count}`,
      });
  });
  let cost = 0;
  problem.stock.forEach((stock, i) => {
    const found = used.get(stock.id)!;
    cost += found * stock.cost;
    if (stock.count !== null && found > stock.count)
      issues.push({
        path: ['stock', i],
        message: `more of stock ${stock.id} is used than there is`,
        found: `${found}`,
        expected: `at most ${stock.count}`,
      });
  });
  // Costs are sums of decimal fractions in floating point: a billionth of the sum is rounding, more is a wrong sum.
  const rounding = 1e-9 * Math.max(1, Math.abs(cost));
  if (!(Math.abs(answer.cost - cost) <= rounding))
    issues.push({
      path: ['cost'],
      message: 'the cost is not the sum of the stock used',
      found: `${answer.cost}`,
      expected: `${cost}`,
    });
  if (!(answer.bound >= 0 && answer.bound <= cost + rounding))
    issues.push({ path: ['bound'], message: 'the bound lies above the cost', found: `${answer.bound} > ${cost}` });
  if (answer.status === 'optimal' && !(Math.abs(answer.cost - answer.bound) <= rounding))
    issues.push({
      path: ['status'],
      message: 'optimal is claimed without proof: the cost is above the bound',
      found: `${answer.cost} > ${answer.bound}`,
    });
  return issues;
}

/** A list longer than this may be refused for its size alone. */
const LONG_LIST = 20_000;

/** So may one of more different rows. */
const MANY_ROWS = 5_000;

/** Longer pieces may be refused too: 1 km. */
const LONGEST = 1_000_000;

/** A refusal must say why, and must not be made of a list that plainly can be cut: every part fits stock of which there is no end. */
function judgeRefusal<
  P extends { readonly id: string; readonly count: number; readonly length: number; readonly width?: number },
>(
  problem: {
    readonly parts: readonly P[];
    readonly stock: readonly {
      readonly id: string;
      readonly length: number;
      readonly width?: number;
      readonly cost: number;
    }[];
    readonly kerf: number;
    readonly trim: number;
  },
  answer: { readonly issues: readonly Issue[] },
  fits: (part: P) => boolean,
): Issue[] {
  const issues: Issue[] = [];
  if (answer.issues.length === 0) issues.push({ path: ['issues'], message: 'a refusal must say what does not fit' });
  const sizes = [...problem.parts, ...problem.stock].flatMap((row) => [
    row.length,
    ...('width' in row ? [row.width] : []),
  ]);
  const ids = (rows: readonly { readonly id: string }[]): boolean =>
    new Set(rows.map(({ id }) => id)).size === rows.length;
  const wellFormed =
    sizes.every((size) => size !== undefined && size <= LONGEST && toTicks(size) > 0) &&
    problem.parts.every((part) => Number.isInteger(part.count) && part.count >= 0) &&
    ids(problem.parts) &&
    ids(problem.stock) &&
    problem.stock.every((stock) => Number.isFinite(stock.cost) && stock.cost >= 0) &&
    problem.kerf >= 0 &&
    problem.trim >= 0 &&
    Number.isFinite(problem.kerf + problem.trim);
  const total = problem.parts.reduce((sum, part) => sum + part.count, 0);
  const rows = Math.max(problem.parts.length, problem.stock.length);
  if (wellFormed && problem.parts.length > 0 && total <= LONG_LIST && rows <= MANY_ROWS && problem.parts.every(fits))
    issues.push({
      path: ['status'],
      message: 'refused, although every part fits stock of which there is as much as wanted',
    });
  return issues;
}

interface Rectangle {
  readonly part: string;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

const rectangleOf = (placed: PlacedPart): Rectangle => {
  const x0 = toTicks(placed.x);
  const y0 = toTicks(placed.y);
  return { part: placed.part, x0, y0, x1: x0 + toTicks(placed.length), y1: y0 + toTicks(placed.width) };
};

const same = (a: number, b: number): boolean => toTicks(a) === toTicks(b);

/**
 * The first group that no edge-to-edge cut divides, or undefined when all come apart. A cut one kerf wide must pass between
 * two parts clear of all others. Any cut that can be made may be made first: what a later cut would have divided it still
 * divides. So cutting greedily decides the question.
 */
function inseparable(all: readonly Rectangle[], kerf: number): readonly Rectangle[] | undefined {
  const waiting: (readonly Rectangle[])[] = [all];
  for (let group = waiting.pop(); group; group = waiting.pop()) {
    if (group.length <= 1) continue;
    const across = divide(group, kerf, 'x0', 'x1');
    const pieces = across.length > 1 ? across : divide(group, kerf, 'y0', 'y1');
    if (pieces.length === 1) return group;
    waiting.push(...pieces);
  }
  return undefined;
}

function divide(
  group: readonly Rectangle[],
  kerf: number,
  from: 'x0' | 'y0',
  to: 'x1' | 'y1',
): (readonly Rectangle[])[] {
  const sorted = [...group].sort((a, b) => a[from] - b[from]);
  const pieces: Rectangle[][] = [];
  let reach = Number.NEGATIVE_INFINITY;
  for (const rectangle of sorted) {
    if (rectangle[from] >= reach + kerf || pieces.length === 0) pieces.push([]);
    pieces.at(-1)!.push(rectangle);
    reach = Math.max(reach, rectangle[to]);
  }
  return pieces;
}

function fitsPanel(
  problem: PanelProblem,
  stock: { length: number; width: number },
  length: number,
  width: number,
): boolean {
  const trim = 2 * toTicks(problem.trim);
  return toTicks(length) <= toTicks(stock.length) - trim && toTicks(width) <= toTicks(stock.width) - trim;
}

/** Unusable stretches in ticks, each at least one kerf wide. */
function badStretches(problem: LengthProblem, stock: LengthStock): readonly { from: number; to: number }[] {
  return (stock.unusable ?? []).map(({ from, to }) => ({
    from: toTicks(from),
    to: Math.max(toTicks(to), toTicks(from) + toTicks(problem.kerf)),
  }));
}

/** Does one part fit this board somewhere between its bad stretches? */
function fitsBoard(problem: LengthProblem, stock: LengthStock, part: LengthPart): boolean {
  const end = toTicks(stock.length) - toTicks(problem.trim);
  const length = toTicks(part.length);
  let start = toTicks(problem.trim) as number;
  for (const stretch of [...badStretches(problem, stock)].sort((a, b) => a.from - b.from)) {
    if (Math.min(stretch.from, end) - start >= length) return true;
    start = Math.max(start, stretch.to);
  }
  return end - start >= length;
}

/** Both ends can be set on the saw, and they meet the face before they meet each other. */
function canBeMitred({ ends = [0, 0], faceWidth, length }: LengthPart): boolean {
  if (!ends.every((angle) => angle >= 0 && angle <= 75)) return false;
  const slants = ends.map((angle) => Math.tan((angle * Math.PI) / 180));
  if (slants.every((slant) => slant === 0)) return true;
  return faceWidth !== undefined && faceWidth > 0 && (slants[0]! + slants[1]!) * faceWidth <= length;
}

/** Ticks between the long points of two neighbours, as LengthPart.ends lays down. */
function neededGap(
  kerf: number,
  last: { readonly part: LengthPart; readonly placed: PlacedLength },
  next: { readonly part: LengthPart; readonly placed: PlacedLength },
): number {
  const [first, second] = last.part.ends ?? [0, 0];
  const right = last.placed.turned ? first : second;
  const [third, fourth] = next.part.ends ?? [0, 0];
  const left = next.placed.turned ? fourth : third;
  const blade = toTicks(kerf) / Math.cos((Math.max(left, right) * Math.PI) / 180);
  const shared = right > 0 && right === left && same(last.part.faceWidth ?? 0, next.part.faceWidth ?? 0);
  return shared ? blade - toTicks(last.part.faceWidth ?? 0) * Math.tan((right * Math.PI) / 180) : blade;
}
