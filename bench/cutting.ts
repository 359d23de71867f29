import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { pack2D } from 'binpackingjs/2d';
import {
  type CutProblem,
  type CutProblemAnswer,
  checkAnswer,
  type LengthProblem,
  type PanelProblem,
  solveProblem,
} from '../src/core/cutting/index.ts';
import { PUBLISHED } from '../src/core/cutting/lengths/published.testing.ts';
import { ANY_FIT, type AnyFit, bestFit, firstFit, levelFit } from './cutting-baselines.ts';

/**
 * Cutting, measured. For each family: instances, total cost, total bound, proven, gaps, times, on one core; every answer judged by the
 * checker; plain baselines and two general-purpose packers beside it. Then growth, stopping and memory.
 */
const { values: asked } = parseArgs({
  options: {
    limit: { type: 'string', default: '1' },
    family: { type: 'string', default: '' },
    sample: { type: 'string' },
    clock: { type: 'string', default: 'wall' },
    only: { type: 'string', default: '' },
  },
});
const limit = Number(asked.limit);
/** Seconds: of the wall, or of the processor where other work shares the machine. */
const now = asked.clock === 'processor' ? processorSeconds() : (): number => performance.now() / 1000;
/** Asking the system takes longer than a pivot, so it is asked anew only after two milliseconds of the wall. */
function processorSeconds(): () => number {
  let [asked, held] = [Number.NEGATIVE_INFINITY, 0];
  return () => {
    if (performance.now() - asked > 2) {
      const { user, system } = process.cpuUsage();
      held = (user + system) / 1e6;
      asked = performance.now();
    }
    return held;
  };
}
const out = (line = ''): void => {
  process.stdout.write(`${line}\n`);
};

const root = fileURLToPath(process.env.SETWRIGHT_ROOT ?? 'file:///');
const shelf = join(root, '..', 'shared', 'benchmarks');
type Known = CutProblem & { readonly known?: Readonly<Record<string, unknown>> };

function problems(file: string): readonly Known[] {
  const path = join(shelf, `${file}.jsonl`);
  if (!existsSync(path)) return [];
  return readFileSync(path, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Known);
}
const fixed = (problem: Known): Known =>
  problem.kind === 'panels' ? { ...problem, parts: problem.parts.map((part) => ({ ...part, turn: false })) } : problem;
const turned = (problem: Known): Known =>
  problem.kind === 'panels' ? { ...problem, parts: problem.parts.map((part) => ({ ...part, turn: true })) } : problem;

interface Family {
  readonly name: string;
  readonly problems: readonly Known[];
}
function families(): readonly Family[] {
  const classes = problems('panels-classes');
  const found: Family[] = [
    { name: 'panels-classes fixed', problems: classes.map(fixed) },
    { name: 'panels-classes turned', problems: classes.map(turned) },
    { name: 'panels-orders fixed', problems: problems('panels-orders').map(fixed) },
    { name: 'panels-orders turned', problems: problems('panels-orders').map(turned) },
    { name: 'panels-mixed-sheets', problems: problems('panels-mixed-sheets') },
  ];
  const lengths = new Map<string, Known[]>();
  for (const problem of problems('lengths')) {
    const family = `lengths ${problem.name.split('/')[0]}`;
    lengths.set(family, [...(lengths.get(family) ?? []), problem]);
  }
  for (const [name, list] of lengths) found.push({ name, problems: list });
  if (found.some((family) => family.problems.length > 0)) return found.filter((family) => family.problems.length > 0);
  out('The open instances are not here (../shared/benchmarks); measured on the few kept with the tests.\n');
  return [
    {
      name: 'lengths (kept)',
      problems: PUBLISHED.map(({ problem, optimum }) => ({ ...problem, known: { best: optimum } })),
    },
  ];
}

/** Every k-th, so that all sizes are in the sample. */
function sample<T>(list: readonly T[]): readonly T[] {
  const wanted = asked.sample === undefined ? list.length : Number(asked.sample);
  if (wanted >= list.length) return list;
  return Array.from({ length: wanted }, (_, i) => list[Math.floor((i * list.length) / wanted)]!);
}

/** A rounded figure in so many columns. */
const show = (value: number | string, width: number): string =>
  (typeof value === 'string' ? value : Number(value.toFixed(3)).toString()).padStart(width);
const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

function run(problem: CutProblem, seconds: number): { answer: CutProblemAnswer; time: number; first: number } {
  const started = now();
  let first = Number.NaN;
  const answer = solveProblem(problem, {
    steps: Number.MAX_SAFE_INTEGER,
    shouldStop: () => now() - started >= seconds,
    onBetter: () => {
      if (Number.isNaN(first)) first = now() - started;
    },
  });
  return { answer, time: now() - started, first };
}

function judge(problem: CutProblem, answer: CutProblemAnswer): void {
  const issues = checkAnswer(problem, answer);
  if (issues.length === 0) return;
  out(`UNSOUND ${problem.name}: ${issues[0]!.message}`);
  process.exitCode = 1;
}

function optimumOf(problem: Known): number | undefined {
  const best = problem.known?.best;
  return problem.kind === 'lengths' && typeof best === 'number' ? best : undefined;
}

function familyTable(): void {
  out(`${limit} s each, one core, ${asked.clock} clock`);
  out(
    `${'family'.padEnd(24)}${['n', 'cost', 'bound', 'proven', 'gap %', 'worst %', 'median s', 'worst s', 'above best'].map((h) => h.padStart(11)).join('')}  baselines`,
  );
  let [allN, allProven] = [0, 0];
  for (const family of families().filter(({ name }) => name.includes(asked.family))) {
    const gaps: number[] = [];
    const times: number[] = [];
    let [cost, bound, proven, above, hasBest] = [0, 0, 0, 0, false];
    const baselines = new Map<string, number>();
    const list = sample(family.problems);
    for (const problem of list) {
      const { answer, time } = run(problem, limit);
      judge(problem, answer);
      times.push(time);
      if (answer.status === 'infeasible') {
        out(`REFUSED ${problem.name}: ${answer.issues[0]?.message}`);
        continue;
      }
      cost += answer.cost;
      bound += answer.bound;
      if (answer.status === 'optimal') proven += 1;
      gaps.push(answer.cost > 0 ? (100 * (answer.cost - answer.bound)) / answer.cost : 0);
      const best = optimumOf(problem);
      if (best !== undefined) {
        hasBest = true;
        if (answer.cost > best) above += 1;
        if (answer.bound > best) out(`FALSE BOUND ${problem.name}: ${answer.bound} > ${best}`);
      }
      for (const [name, value] of baselineCosts(problem)) baselines.set(name, (baselines.get(name) ?? 0) + value);
    }
    allN += list.length;
    allProven += proven;
    const mean = gaps.reduce((a, b) => a + b, 0) / Math.max(1, gaps.length);
    const cells = [
      list.length,
      cost,
      bound,
      proven,
      mean,
      Math.max(0, ...gaps),
      median(times),
      Math.max(0, ...times),
      hasBest ? above : '–',
    ];
    const beside = [...baselines].map(([name, value]) => `${name} ${Number(value.toFixed(1))}`).join(', ');
    out(`${family.name.padEnd(24)}${cells.map((cell) => show(cell, 11)).join('')}  ${beside}`);
  }
  out(`${allProven} of ${allN} proven\n`);
}

/** Costs of the plain ways, where they apply: one kind of stock, as much of it as wanted. */
function baselineCosts(problem: CutProblem): readonly (readonly [string, number])[] {
  if (problem.stock.length !== 1 || problem.stock[0]!.count !== null) return [];
  const price = problem.stock[0]!.cost;
  if (problem.kind === 'lengths')
    return ANY_FIT.map(([name, fit]: readonly [string, AnyFit]) => [name, price * fit(problem)] as const);
  return [
    ['levels, first fit', price * levelFit(problem, firstFit)],
    ['levels, best fit', price * levelFit(problem, bestFit)],
    ['binpackingjs (not guillotine)', price * byBinpacking(problem)],
    ['maxrects-packer (not guillotine)', price * byMaxrects(problem)],
  ];
}

function singles(problem: PanelProblem) {
  return problem.parts.flatMap((part) => Array.from({ length: part.count }, () => part));
}
function byBinpacking(problem: PanelProblem): number {
  const [stock] = problem.stock;
  const kerf = problem.kerf;
  const parts = singles(problem);
  const bin = { width: stock!.length + kerf, height: stock!.width + kerf };
  const result = pack2D({
    bins: parts.map(() => bin),
    boxes: parts.map((part) => ({
      width: part.length + kerf,
      height: part.width + kerf,
      constrainRotation: part.turn !== true,
    })),
  });
  return result.packedBins.filter((packed) => packed.boxes.length > 0).length;
}
interface MaxRects {
  readonly bins: readonly unknown[];
  addArray(rects: readonly { width: number; height: number }[]): void;
}
type MaxRectsModule = {
  readonly MaxRectsPacker: new (width: number, height: number, padding: number, options: object) => MaxRects;
};
// Its main entry exports nothing under ESM, and the file that does has no types.
const { MaxRectsPacker } = (await import('maxrects-packer/dist/maxrects-packer.mjs' as string)) as MaxRectsModule;
function byMaxrects(problem: PanelProblem): number {
  const [stock] = problem.stock;
  const turn = problem.parts.every((part) => part.turn === true);
  const packer = new MaxRectsPacker(stock!.length + problem.kerf, stock!.width + problem.kerf, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: turn,
    border: 0,
  });
  packer.addArray(
    singles(problem).map((part) => ({ width: part.length + problem.kerf, height: part.width + problem.kerf })),
  );
  return packer.bins.length;
}

/** Small numbers that look random and are the same on every machine (Park & Miller 1988). */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}
function workshopPanels(parts: number, seed: number): PanelProblem {
  const draw = dice(seed);
  return {
    name: `panels ${parts}`,
    kind: 'panels',
    kerf: 3.2,
    trim: 10,
    stock: [
      { id: 'full', length: 2440, width: 1220, cost: 62, count: null },
      { id: 'half', length: 1220, width: 1220, cost: 36, count: null },
    ],
    parts: Array.from({ length: parts }, (_, i) => ({
      id: `p${i}`,
      length: 200 + draw(1000),
      width: 80 + draw(520),
      count: 1,
      turn: draw(3) === 0,
    })),
  };
}
function workshopLengths(parts: number, seed: number): LengthProblem {
  const draw = dice(seed);
  return {
    name: `lengths ${parts}`,
    kind: 'lengths',
    kerf: 3.2,
    trim: 5,
    stock: [
      { id: 'long', length: 3600, cost: 14, count: null },
      { id: 'short', length: 2400, cost: 9.5, count: null },
    ],
    parts: Array.from({ length: parts }, (_, i) => ({ id: `p${i}`, length: 150 + draw(1800), count: 1 })),
  };
}

function growth(): void {
  out('growth: seconds to the first answer, and after 2 s: cost, bound');
  for (const make of [workshopPanels, workshopLengths])
    for (const parts of [10, 30, 100, 300, 1000, 3000]) {
      const problem = make(parts, 7);
      const { answer, time, first } = run(problem, 2);
      judge(problem, answer);
      const told =
        answer.status === 'infeasible' ? 'refused' : `${answer.status} ${answer.cost} ≥ ${answer.bound.toFixed(2)}`;
      out(`  ${problem.name.padEnd(14)} first ${first.toFixed(4)}  all ${time.toFixed(2)}  ${told}`);
    }
  out();
}

function stopping(): void {
  out('stopping: milliseconds between the call to stop and the answer, worst of ten');
  for (const make of [workshopPanels, workshopLengths])
    for (const parts of [100, 1000]) {
      let worst = 0;
      for (let i = 0; i < 10; i++) {
        const after = 0.05 + 0.13 * i;
        const { time } = run(make(parts, 11 + i), after);
        worst = Math.max(worst, 1000 * (time - after));
      }
      out(`  ${make(parts, 1).name.padEnd(14)} ${worst.toFixed(1)}`);
    }
  out();
}

function memory(): void {
  out('memory: MB in use after each hundred of 1,000 problems, 20 ms each');
  const told: string[] = [];
  for (let i = 0; i < 1000; i++) {
    run(i % 2 === 0 ? workshopPanels(60, i + 1) : workshopLengths(60, i + 1), 0.02);
    if (i % 100 === 99) {
      (globalThis as { gc?: () => void }).gc?.();
      told.push((process.memoryUsage().rss / 2 ** 20).toFixed(0));
    }
  }
  out(`  ${told.join(' ')}`);
}

const parts: Readonly<Record<string, () => void>> = { families: familyTable, growth, stopping, memory };
for (const [name, part] of Object.entries(parts)) {
  if (asked.only !== '' && asked.only !== name) continue;
  if (asked.only === '' && asked.family !== '' && name !== 'families') continue;
  part();
}
