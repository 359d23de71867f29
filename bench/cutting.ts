import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
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
import { sceneOf } from '../src/core/outcome.ts';
import { readPlan } from '../src/core/plan/index.ts';
import { cutJobs } from '../src/core/stock/index.ts';
import { ANY_FIT, type AnyFit, bestFit, firstFit, levelFit } from './cutting-baselines.ts';

/**
 * Cutting, measured. For each family: instances, total cost, total bound, proven, gaps, times, on one core; every answer judged by the
 * checker; published results, plain baselines and two general-purpose packers beside it, each with as long for an instance as we have. Then
 * the example plans, growth, stopping, memory. How far a family has come is told on standard error.
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
  /** The best cost published for a problem that any plan of this family may be held against. */
  readonly published: (problem: Known) => number | undefined;
}
const whenNumber = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
const best = (problem: Known): number | undefined => whenNumber(problem.known?.best);
const bestOf =
  (grain: 'fixed' | 'turned') =>
  ({ known }: Known): number | undefined =>
    whenNumber((known?.[grain] as { readonly best?: number } | undefined)?.best);
/** Orders: results by number of stages, O with the grain, R turned. A plan that keeps the grain is also one that may turn. */
const bestOrder =
  (...ways: readonly ('O' | 'R')[]) =>
  ({ known }: Known): number | undefined => {
    const results = Object.entries(known ?? {}).flatMap(([name, value]) =>
      typeof value === 'number' && ways.some((way) => name.includes(`_${way}_`)) && !name.startsWith('lb')
        ? [value]
        : [],
    );
    return results.length > 0 ? Math.min(...results) : undefined;
  };
const bestArea = ({ known }: Known): number | undefined => whenNumber(known?.best_area_O_guillotine);
const byArea = (problem: Known): Known =>
  problem.kind === 'panels'
    ? { ...problem, stock: problem.stock.map((sheet) => ({ ...sheet, cost: sheet.length * sheet.width })) }
    : problem;
const pricedByArea = (problem: Known): boolean =>
  problem.kind === 'panels' && problem.stock.every(({ length, width, cost }) => cost === length * width);
function families(): readonly Family[] {
  const classes = problems('panels-classes');
  const mixed = problems('panels-mixed-sheets');
  const found: Family[] = [
    { name: 'panels-classes fixed', problems: classes.map(fixed), published: bestOf('fixed') },
    { name: 'panels-classes turned', problems: classes.map(turned), published: bestOf('turned') },
    { name: 'panels-orders fixed', problems: problems('panels-orders').map(fixed), published: bestOrder('O') },
    { name: 'panels-orders turned', problems: problems('panels-orders').map(turned), published: bestOrder('O', 'R') },
    // The published results are of the least area. Where small sheets are cheaper than their area, the least cost is another plan.
    { name: 'mixed-sheets by area', problems: mixed.map(byArea), published: bestArea },
    {
      name: 'mixed-sheets by cost',
      problems: mixed.filter((problem) => !pricedByArea(problem)),
      published: () => undefined,
    },
  ];
  const lengths = new Map<string, Known[]>();
  for (const problem of problems('lengths')) {
    const family = `lengths ${problem.name.split('/')[0]}`;
    lengths.set(family, [...(lengths.get(family) ?? []), problem]);
  }
  for (const [name, list] of lengths) found.push({ name, problems: list, published: best });
  if (found.some((family) => family.problems.length > 0)) return found.filter((family) => family.problems.length > 0);
  out('The open instances are not here (../shared/benchmarks); measured on the few kept with the tests.\n');
  return [
    {
      name: 'lengths (kept)',
      problems: PUBLISHED.map(({ problem, optimum }) => ({ ...problem, known: { best: optimum } })),
      published: best,
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

/** Mean share of the sheets' area that is parts, in percent, by source: as cut here, and as published for the least area. */
function usedArea(list: readonly { readonly problem: Known; readonly answer: CutProblemAnswer }[]): string {
  const shares = list.flatMap(({ problem, answer }) => {
    const published = bestArea(problem);
    if (problem.kind !== 'panels' || answer.status === 'infeasible' || published === undefined) return [];
    if (!pricedByArea(problem)) return [];
    const need = problem.parts.reduce((sum, part) => sum + part.count * part.length * part.width, 0);
    const area = new Map(problem.stock.map((sheet) => [sheet.id, sheet.length * sheet.width]));
    const used = answer.layouts.reduce((sum, layout) => sum + layout.times * area.get(layout.stock)!, 0);
    return [{ source: problem.name.split('/')[0]!, here: need / used, there: need / published }];
  });
  const mean = (values: readonly number[]): string =>
    ((100 * values.reduce((a, b) => a + b, 0)) / values.length).toFixed(2);
  return [...new Set(shares.map(({ source }) => source))]
    .map((source) => {
      const own = shares.filter((share) => share.source === source);
      return `used area ${source} ${mean(own.map(({ here }) => here))} %, published ${mean(own.map(({ there }) => there))} %`;
    })
    .join('; ');
}

function familyTable(): void {
  out(`${limit} s each, one core, ${asked.clock} clock`);
  out(
    `${'family'.padEnd(24)}${['n', 'cost', 'bound', 'proven', 'gap %', 'worst %', 'median s', 'worst s', 'published', 'here', 'above'].map((h) => h.padStart(11)).join('')}  baselines`,
  );
  let [allN, allProven] = [0, 0];
  for (const family of families().filter(({ name }) => name.includes(asked.family))) {
    const gaps: number[] = [];
    const times: number[] = [];
    let [cost, bound, proven, above, published, here] = [0, 0, 0, 0, 0, 0];
    const answers: { readonly problem: Known; readonly answer: CutProblemAnswer }[] = [];
    const baselines = new Map<string, { cost: number; here: number; count: number }>();
    const list = sample(family.problems);
    let told = performance.now();
    for (const [i, problem] of list.entries()) {
      if (performance.now() - told > 10_000) {
        told = performance.now();
        process.stderr.write(`${family.name}: ${i} of ${list.length}, cost ${cost}, bound ${bound}\n`);
      }
      const { answer, time } = run(problem, limit);
      judge(problem, answer);
      times.push(time);
      answers.push({ problem, answer });
      if (answer.status === 'infeasible') {
        out(`REFUSED ${problem.name}: ${answer.issues[0]?.message}`);
        continue;
      }
      cost += answer.cost;
      bound += answer.bound;
      if (answer.status === 'optimal') proven += 1;
      gaps.push(answer.cost > 0 ? (100 * (answer.cost - answer.bound)) / answer.cost : 0);
      const known = family.published(problem);
      if (known !== undefined) {
        published += known;
        here += answer.cost;
        if (answer.cost > known) above += 1;
        if (answer.bound > known) {
          out(`FALSE BOUND ${problem.name}: ${answer.bound} > ${known}`);
          process.exitCode = 1;
        }
      }
      for (const [name, value] of baselineCosts(problem)) {
        const sum = baselines.get(name) ?? { cost: 0, here: 0, count: 0 };
        if (value !== undefined)
          baselines.set(name, { cost: sum.cost + value, here: sum.here + answer.cost, count: sum.count + 1 });
        else baselines.set(name, sum);
      }
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
      published > 0 ? published : '–',
      published > 0 ? here : '–',
      published > 0 ? above : '–',
    ];
    const comparable = Math.max(0, ...[...baselines.values()].map(({ count }) => count));
    const beside = [
      ...[...baselines].map(
        ([name, { cost, here, count }]) =>
          `${name} ${Number(cost.toFixed(1))}${count < comparable ? ` on the ${count} it ends in time (here ${Number(here.toFixed(1))})` : ''}`,
      ),
      usedArea(answers),
    ]
      .filter((text) => text !== '')
      .join(', ');
    out(`${family.name.padEnd(24)}${cells.map((cell) => show(cell, 11)).join('')}  ${beside}`);
  }
  out(`${allProven} of ${allN} proven\n`);
}

/** Costs of the plain ways, where they apply: one kind of stock, as much of it as wanted. Undefined where one does not end in time. */
function baselineCosts(problem: CutProblem): readonly (readonly [string, number | undefined])[] {
  if (problem.stock.length !== 1 || problem.stock[0]!.count !== null) return [];
  const price = problem.stock[0]!.cost;
  if (problem.kind === 'lengths')
    return ANY_FIT.map(([name, fit]: readonly [string, AnyFit]) => [name, price * fit(problem)] as const);
  return [
    ['levels, first fit', price * levelFit(problem, firstFit)],
    ['levels, best fit', price * levelFit(problem, bestFit)],
    ...PACKERS.map(({ name }, packer) => {
      const sheets = inTime(packer, problem);
      return [`${name} (not guillotine)`, sheets === undefined ? undefined : price * sheets] as const;
    }),
  ];
}

/**
 * The packers are asked by another thread, so that one which takes minutes can be ended; this one waits meanwhile. `shared` holds whether
 * an answer is there, and the answer.
 */
let helper: { readonly worker: Worker; readonly shared: Int32Array } | undefined;
function inTime(packer: number, problem: PanelProblem): number | undefined {
  if (!helper) {
    const shared = new Int32Array(new SharedArrayBuffer(8));
    helper = {
      shared,
      worker: new Worker(new URL(import.meta.url), { workerData: shared, argv: process.argv.slice(2) }),
    };
    helper.worker.unref();
    // Its start is not counted.
    Atomics.wait(shared, 0, 0, 10_000);
  }
  const { worker, shared } = helper;
  Atomics.store(shared, 0, 0);
  worker.postMessage({ packer, problem });
  if (Atomics.wait(shared, 0, 0, 1000 * limit) !== 'timed-out') return Atomics.load(shared, 1);
  void worker.terminate();
  helper = undefined;
  return undefined;
}
function answerInTime(shared: Int32Array, { packer, problem }: { packer: number; problem: PanelProblem }): void {
  Atomics.store(shared, 1, PACKERS[packer]!.pack(problem));
  Atomics.store(shared, 0, 1);
  Atomics.notify(shared, 0);
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

const PACKERS = [
  { name: 'binpackingjs', pack: byBinpacking },
  { name: 'maxrects-packer', pack: byMaxrects },
];

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

/** Every cutting job of the example plans, as it is and with ten times the parts; two seconds each. */
function examples(): void {
  out(
    'examples: milliseconds to the first answer, seconds to the last, gap in money and in the dearest sheet or board',
  );
  for (const name of ['lesson-room', 'radio-corner']) {
    const { plan } = readPlan(readFileSync(join(root, 'examples', `${name}.plan.yaml`), 'utf8'));
    for (const option of plan!.options)
      for (const job of cutJobs(sceneOf(plan!, option).parts, plan!))
        for (const times of [1, 10]) {
          const one = job.problem;
          // Each kind written out, so that the type keeps to its own kind of part.
          const problem: CutProblem =
            one.kind === 'panels'
              ? { ...one, parts: one.parts.map((part) => ({ ...part, count: part.count * times })) }
              : { ...one, parts: one.parts.map((part) => ({ ...part, count: part.count * times })) };
          const { answer, time, first } = run(problem, 2);
          judge(problem, answer);
          const told =
            answer.status === 'infeasible'
              ? `refused: ${answer.issues[0]?.message}`
              : `${answer.status.padEnd(8)} ${answer.cost} ≥ ${answer.bound}, gap ${((answer.cost - answer.bound) / Math.max(1, ...problem.stock.map(({ cost }) => cost))).toFixed(2)} of one`;
          const parts = problem.parts.reduce((sum, part) => sum + part.count, 0);
          out(
            `  ${`${name} ${option.id} ${job.stock} × ${times}`.padEnd(52)} ${String(parts).padStart(5)} parts  first ${(1000 * first).toFixed(1).padStart(6)}  last ${time.toFixed(2)}  ${told}`,
          );
        }
  }
  out();
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

/** Stopped at moments that lie close at first, where one thing after another is set up, and wide apart later. */
function stopping(): void {
  const moments = Array.from({ length: 24 }, (_, i) => 0.001 * 1.38 ** i);
  out(`stopping: milliseconds from the request to the answer, at ${moments.length} moments from 1 ms to 1.7 s`);
  for (const make of [workshopPanels, workshopLengths])
    for (const parts of [10, 30, 100, 300, 1000, 3000]) {
      const delays = moments.flatMap((after, i) => {
        const { time } = run(make(parts, 11 + (i % 4)), after);
        // One that is done before it is stopped says nothing.
        return time > after ? [1000 * (time - after)] : [];
      });
      out(
        `  ${make(parts, 1).name.padEnd(14)} ${delays.length > 0 ? `median ${median(delays).toFixed(1)}  worst ${Math.max(...delays).toFixed(1)}` : 'done before'}`,
      );
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

const parts: Readonly<Record<string, () => void>> = { families: familyTable, examples, growth, stopping, memory };
if (isMainThread)
  for (const [name, part] of Object.entries(parts)) {
    if (asked.only !== '' && asked.only !== name) continue;
    if (asked.only === '' && asked.family !== '' && name !== 'families') continue;
    part();
  }
else {
  const shared = workerData as Int32Array;
  parentPort!.on('message', (job: { packer: number; problem: PanelProblem }) => answerInTime(shared, job));
  Atomics.store(shared, 0, 1);
  Atomics.notify(shared, 0);
}
