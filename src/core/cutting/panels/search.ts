import { type CoarseBound, coarseBound } from './coarse.ts';
import {
  createGeneration,
  createPool,
  type Dive,
  dive,
  type Generation,
  lift,
  lower,
  type PoolPattern,
  remainder,
  WORK_PER_STEP,
} from './columns.ts';
import { byArea, byLength, byLongest, byPerimeter, byWidth, fill, mostOnASheet } from './fill.ts';
import { guillotineTable } from './guillotine.ts';
import { completedInLevels } from './levels.ts';
import type { Model } from './model.ts';
import { better, type Plan, planOf } from './pattern.ts';
import { properTable } from './proper.ts';
import { createProperDiver, type ProperDiver } from './proper-dive.ts';
import { randomFrom } from './random.ts';
import { createRounder, type Rounder } from './rounding.ts';
import { type Collector, ruinAndRecreate, type Search, TUNING } from './ruin-and-recreate.ts';
import { stripTable } from './strips.ts';

export interface SearchCall {
  readonly steps: number;
  readonly seed: number;
  readonly stop: () => boolean;
  /** Proven bounds in units of cost, cheapest first; each is asked for once. */
  readonly bounds: readonly ((model: Model, stop?: () => boolean) => number)[];
  /** The model leaves out plans of the true problem: the linear program over its patterns proves nothing. */
  readonly restricted: boolean;
  readonly better: (plan: Plan, bound: number, steps: number) => void;
}
export interface Found {
  readonly plan: Plan;
  readonly bound: number;
  readonly steps: number;
  readonly stopped: boolean;
}

/** More single parts than this are cut by patterns alone: moving them one by one gains nothing. */
const MOST_SINGLE = 6000;
/** More kinds than this make the linear program too slow to be worth it. */
const MOST_KINDS = 250;
/** Largest table a pattern may be priced with. */
const MOST_WORK = 1e8;
/** Largest table of proper patterns: it is filled some hundred times for one dive. */
const MOST_PROPER = 4e6;
/** Up to so many parts, moving them one by one comes first. */
const MANY = 1000;
/** Up to so many, it goes on in turns with the patterns from the beginning. */
const FEW = 400;
/** Wanted more often than this on average, parts are cut by patterns first. */
const OFTEN = 5;
/** More than this, and a pattern is as hard to find as a plan: no dives by proper patterns. */
const MANY_ON_A_SHEET = 15;
/** A few sheets settle sooner. */
const SHORT = { ...TUNING, cycle: 400 };
/** Turns of column generation before a dive into what there is so far. */
const BETWEEN = 4;
/** Up to so many parts on a sheet, dives go on as often as moves. Measured. */
const FEW_ON_A_SHEET = 10;
/** Turns the coarse bound gets one after the other where its patterns make the plans. */
const SLICES = 4;
/** What a plan in whole numbers may cost, turn by turn: from the bound on, by this share of the way to the best plan. */
const GOALS = [1, 0.5, 0.25, 0.1];
/** What a dive by proper patterns leaves is nearly a plan, and the next dive costs more than so many times longer a search. Measured. */
const FINISH = 3;
/** Steps each method gets in turn. */
const TURN = 2000;
/** Where dives go on as often as moves, each of their turns begins elsewhere and cools down within two. */
const IN_TURNS = { ...TUNING, cycle: 2 * TURN, sheets: [4, 2] };

/**
 * The methods in turn, each going on from the best plan: fills, then ruin and recreate, column generation, dives into its pool.
 * The turns are counted in steps, so the same steps give the same plan.
 */
export function search(model: Model, call: SearchCall): Found {
  let best = fill(model, byArea(model), call.stop);
  if (best.missing > 0 && call.stop()) best = better(best, completedInLevels(model, best));
  let bound = call.bounds[0]!(model);
  let steps = 0;
  let stopped = false;
  call.better(best, bound, 0);
  const improve = (plan: Plan): boolean => {
    const now = better(best, plan);
    if (now === best) return false;
    best = now;
    call.better(best, bound, steps);
    return true;
  };
  const done = (): boolean => best.missing === 0 && best.cost <= bound;
  const halted = (): boolean => {
    stopped ||= call.stop();
    return stopped || steps >= call.steps;
  };
  const pool = createPool();
  const keep = (plan: Plan): void => {
    for (const layout of plan.layouts) pool.add(layout.pattern);
  };
  keep(best);
  for (const order of [byLongest, byLength, byWidth, byPerimeter]) {
    if (done() || halted()) break;
    const plan = fill(model, order(model), halted);
    keep(plan);
    improve(plan);
  }
  for (const proven of call.bounds.slice(1))
    if (!done() && !halted()) bound = Math.max(bound, proven(model, call.stop));
  if (done() || halted() || bound === Number.POSITIVE_INFINITY) return { plan: best, bound, steps, stopped };

  // The same parts over and over: patterns are what such plans are made of.
  const repeated = model.total > OFTEN * model.kinds.length && model.total > 100;
  const chance = randomFrom(call.seed + 7919);
  const whole = {
    rest: Int32Array.from(model.kinds, (k) => k.count),
    stockLeft: Int32Array.from(model.sheets, (s) => s.count),
  };
  let single: Search | null = null;
  let generation: Generation | null = null;
  let coarse: CoarseBound | null = null;
  let proper: ProperDiver | null = null;
  let rounder: Rounder | null = null;
  let rounds = 0;
  let tried = false;
  let table: ReturnType<typeof guillotineTable> = null;
  // Steps between two questions whether to stop: few where there are many parts, or many on a sheet.
  const chunk = Math.max(1, Math.min(64, Math.floor(6000 / model.total), Math.floor(2000 / mostOnASheet(model))));
  let dives = 0;

  /** A step among many parts is a longer one. */
  const weight = Math.max(1, Math.ceil(model.total / 250));
  const onASheet =
    model.total /
    Math.max(
      1,
      best.layouts.reduce((sum, { times }) => sum + times, 0),
    );
  const few = onASheet <= FEW_ON_A_SHEET;
  const moveParts = (most: number): void => {
    if (model.total > MOST_SINGLE) return;
    single ??= ruinAndRecreate(model, best, bound, call.seed, few ? IN_TURNS : TUNING);
    if (single.best() !== best) single.restart(best);
    const collector: Collector | null = generation?.done()
      ? { duals: generation.duals(), slack: best.missing > 0 ? 0 : (best.cost - bound) * 0.5, add: pool.add }
      : null;
    for (let spent = 0; spent < most && !done() && !halted(); ) {
      const now = Math.min(chunk, Math.ceil((call.steps - steps) / weight));
      const found = single.advance(now, collector);
      steps += now * weight;
      spent += now * weight;
      if (found) {
        keep(single.best());
        improve(single.best());
      }
    }
  };
  /**
   * Some sheets of the best plan cut anew for less: worth it where sheets have several prices, since then a few of them can save
   * money by themselves.
   */
  const recutSome = (most: number): void => {
    if (best.missing > 0) return;
    for (let spent = 0; spent < most && !done() && !halted(); ) {
      const sheets: Plan['layouts'][number]['pattern'][] = best.layouts.flatMap(({ pattern, times }) =>
        Array.from({ length: Math.min(times, 8) }, () => pattern),
      );
      if (sheets.length < 2) return;
      const size = 12 + chance.below(30);
      const chosen: typeof sheets = [];
      let parts = 0;
      while (sheets.length > 0 && (chosen.length < 2 || parts < size)) {
        const [one] = sheets.splice(chance.below(sheets.length), 1);
        chosen.push(one!);
        parts += one!.code.reduce((sum, c) => sum + (c >= 0 ? 1 : 0), 0);
        if (parts > 80) break;
      }
      const rest = new Int32Array(model.kinds.length);
      for (const pattern of chosen) for (const c of pattern.code) if (c >= 0) rest[c >> 1] = rest[c >> 1]! + 1;
      const stockLeft = whole.stockLeft.slice();
      for (const { pattern, times } of best.layouts) stockLeft[pattern.sheet] = stockLeft[pattern.sheet]! - times;
      for (const pattern of chosen) stockLeft[pattern.sheet] = stockLeft[pattern.sheet]! + 1;
      const sub = remainder(model, rest, stockLeft);
      const from = planOf(
        sub.model,
        chosen.map((pattern) => ({ pattern: lower(sub, pattern), times: 1 })),
      );
      const inner = ruinAndRecreate(sub.model, from, call.bounds[0]!(sub.model), call.seed + spent, SHORT);
      const turns = 20 + 10 * Math.min(40, parts);
      for (let n = 0; n < turns && !halted(); n += 20) {
        inner.advance(20);
        spent += 20;
        steps += 20;
      }
      spent += 20;
      steps += 20;
      if (inner.best().cost >= from.cost) continue;
      const taken = new Map<(typeof chosen)[number], number>();
      for (const pattern of chosen) taken.set(pattern, (taken.get(pattern) ?? 0) + 1);
      const kept = best.layouts
        .map((layout) => ({ ...layout, times: layout.times - (taken.get(layout.pattern) ?? 0) }))
        .filter((layout) => layout.times > 0);
      const plan = planOf(model, [...kept, ...lift(sub, inner.best())]);
      keep(plan);
      improve(plan);
    }
  };
  const generatePatterns = (most: number): void => {
    steps += generation!.advance(Math.min(most, call.steps - steps), halted);
    if (!call.restricted && generation!.bound() > bound) bound = generation!.bound();
  };
  const diveOnce = (): void => {
    dives++;
    if (proper && dives % 4 !== 0) {
      const goal = best.missing > 0 ? Number.POSITIVE_INFINITY : best.cost - 1;
      const dived = proper.dive(goal, [24, 16, 32][dives % 3]!, call.steps - steps, chance.unit, halted);
      steps += 1 + dived.steps;
      finish(dived);
    } else plainDive();
  };
  const plainDive = (): void => {
    const small = (table?.exact ? [30, 60, 100] : [60, 30, 100])[(dives - 1) % 3]!;
    const round = Math.ceil((2 * (table?.work ?? 0)) / WORK_PER_STEP) + model.sheets.length;
    let refining = 4000;
    const refine =
      // Strips are priced slowly: the first dive does without.
      table && model.total > small && (table.exact || dives > 1)
        ? (rest: Int32Array, stockLeft: Int32Array, start: readonly PoolPattern[]): number => {
            if (refining < round) return 0;
            const local = createGeneration(model, table!, pool, rest, stockLeft, start);
            const spent = local.advance(Math.min(refining, 12 * round), halted);
            refining -= spent;
            return spent;
          }
        : null;
    const dived = dive(model, pool, generation!.duals(), whole, small, chance.unit, refine, halted);
    steps += 1 + dived.steps;
    finish(dived);
  };
  /** So often each of the patterns there are that all parts are there. */
  const roundOnce = (): void => {
    rounder ??= createRounder(model, pool, table!, whole);
    const goal = best.missing > 0 ? Number.POSITIVE_INFINITY : best.cost - 1;
    const share = GOALS[rounds++ % GOALS.length]!;
    const aim = best.missing > 0 ? goal : Math.floor(bound + (goal - bound) * share);
    const most = Math.min(2 * TURN, call.steps - steps);
    const { plan, steps: spent } = rounder.round(aim, generation!.duals(), most, chance.unit, halted);
    steps += 1 + spent;
    if (!plan) return;
    keep(plan);
    improve(plan);
  };
  /** What a dive left over is cut by moving parts one by one. */
  const finish = (dived: Dive): void => {
    if (halted()) return;
    let { layouts } = dived;
    let missing = 0;
    const fixed = planOf(model, layouts).cost;
    if (dived.restParts > 0) {
      const sub = remainder(model, dived.rest, dived.stockLeft);
      if (sub.model.sheets.length === 0) return;
      const start = [byArea, byLongest, byLength, byWidth]
        .map((order) => fill(sub.model, order(sub.model), halted))
        .reduce(better);
      // The first plans by patterns are to come soon.
      const most =
        repeated && dives < 3
          ? 300 * dives + 5 * dived.restParts
          : (few && proper ? FINISH : 1) * (1500 + 30 * dived.restParts);
      // It cools down once on the way.
      const tuning = { ...TUNING, cycle: most };
      const inner = ruinAndRecreate(sub.model, start, Math.max(0, bound - fixed), call.seed + dives, tuning);
      for (let spent = 0; spent < most && !halted(); spent += 32) {
        if (inner.best().missing === 0 && inner.best().cost <= bound - fixed) break;
        inner.advance(32);
        steps += 32;
      }
      const plan = inner.best();
      missing = plan.missing;
      layouts = [...layouts, ...lift(sub, plan)];
    }
    const plan = planOf(model, layouts, missing);
    keep(plan);
    // One as good lies elsewhere: the parts are moved on from there. With many on a sheet moves have come farther than any dive.
    if (!improve(plan) && few && plan.missing === best.missing && plan.cost === best.cost) best = plan;
  };

  // Dives in a row that gained nothing: they are asked less and less often.
  let idle = model.total <= FEW ? 1 : 0;
  let generated = 0;
  let slices = 0;
  const several = model.sheets.length > 1;
  if (model.total <= MANY && !repeated) moveParts(TURN);
  while (!done() && !halted()) {
    if (!tried) {
      tried = true;
      const fewKinds = model.kinds.length <= MOST_KINDS;
      // Each takes a while to set up.
      if (fewKinds) table = guillotineTable(model, MOST_WORK, halted);
      if (fewKinds && !table && !halted()) table = stripTable(model, MOST_WORK, halted);
      if (table && !halted()) generation = createGeneration(model, table, pool, whole.rest, whole.stockLeft);
      const singles =
        table && onASheet <= MANY_ON_A_SHEET && !halted() ? properTable(model, MOST_PROPER, halted) : null;
      if (singles) proper = createProperDiver(model, singles, pool, whole);
      if (fewKinds && !table?.exact && !call.restricted && !halted()) coarse = coarseBound(model, pool.add, halted);
      if (halted()) break;
    }
    // A first whole plan from strips comes before a better bound.
    if (coarse && !coarse.done() && (dives > 0 || !table)) {
      steps += coarse.advance(Math.min(2 * TURN, call.steps - steps), halted);
      bound = Math.max(bound, coarse.bound());
      if (done() || halted()) break;
      // What it has found belongs in the program that plans are made from.
      if (coarse.done() && table) generation = createGeneration(model, table, pool, whole.rest, whole.stockLeft);
      else if (repeated && ++slices < SLICES) continue;
    }
    // A dive needs no finished program: where that takes long, one is made in between.
    if (generation && !generation.done() && ++generated % BETWEEN !== 0) generatePatterns(TURN);
    else if (generation) {
      const before = best.cost + best.missing;
      // The patterns are all there: so many of each as make a whole plan.
      if (repeated && generation.done()) roundOnce();
      if (done() || halted()) break;
      diveOnce();
      idle = best.cost + best.missing === before ? Math.min(idle + 1, onASheet > MANY_ON_A_SHEET ? 20 : 5) : 0;
    } else if (model.total > MOST_SINGLE) break;
    // Many parts: no plan by single moves comes near one by patterns, so those are finished first.
    if (generation && dives < (repeated ? 2 : model.total > FEW ? 1 : 0)) continue;
    if (several && !done() && !halted()) recutSome(TURN);
    // With few parts on a sheet, patterns are nearly all there is to choose; with many, single moves find what no pattern holds.
    const inTurns = few && proper !== null ? 2 * TURN : TURN * (1 + idle);
    if (!done() && !halted()) moveParts(repeated ? TURN : inTurns);
  }
  return { plan: best, bound, steps, stopped };
}
