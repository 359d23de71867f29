import { exponential, stepFactor } from '../../elementary.ts';
import { createForest } from './forest.ts';
import type { Model } from './model.ts';
import { type Pattern, type Plan, planOf } from './pattern.ts';
import { randomFrom } from './random.ts';

/**
 * Goal-driven ruin and recreate: with a plan in hand, the goal is any plan that costs less. The search keeps to sheets worth less
 * than the best plan and leaves out the parts that find no room; it takes parts away here and there (ruin), puts them and the
 * ones left out back where they cost the least leftover (recreate), and keeps the result when less is left out, or by chance.
 * When nothing is left out there is a new best plan and a lower goal.
 *
 * Source: Gardeyn & Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem with
 * guillotine constraints", European Journal of Operational Research 301, 2022. Differences: rows may grow when a part is put in
 * (forest.ts), acceptance is by simulated annealing, a budget still unspent counts as a leftover.
 */
export interface Search {
  /** Makes so many ruins and recreates; ends early when the goal is reached. True when `best` has become better. */
  readonly advance: (steps: number, collector?: Collector | null) => boolean;
  readonly best: () => Plan;
  /** Goes on from another plan, which becomes the best. */
  readonly restart: (plan: Plan) => void;
}
/** Sheets worth keeping for a linear program: cost no more above what their parts are worth than `slack`, nor than a share. */
export interface Collector {
  readonly duals: Float64Array;
  readonly slack: number;
  readonly add: (pattern: Pattern) => void;
}

/** Weight of the leftovers beside the area left out. Measured; see bench. */
const LEFTOVER = 0.01;

/** Share of its cost a collected sheet may be above the worth of its parts. */
const KEEP = 0.08;

export interface Tuning {
  readonly leftover: number;
  readonly hot: number;
  readonly cold: number;
  readonly cycle: number;
  readonly blink: number;
  /** At most so many sheets are ruined in a step, by turns of a cycle: many move far, few are quick. */
  readonly sheets: readonly number[];
  /** Chance that a ruined sheet is emptied. */
  readonly whole: number;
  /** At most so many branches are cut from a ruined sheet. */
  readonly cuts: number;
}
export const TUNING: Tuning = {
  leftover: LEFTOVER,
  hot: 0.001,
  cold: 0.0001,
  cycle: 20000,
  blink: 0.02,
  sheets: [4],
  whole: 0.5,
  cuts: 3,
};

export function ruinAndRecreate(
  model: Model,
  start: Plan,
  floor: number,
  seed: number,
  tuning: Tuning = TUNING,
  /** `tidier`: not a cheaper plan but one at the same cost with the more useful leftovers. */
  goal: 'cheaper' | 'tidier' = 'cheaper',
): Search {
  const { below, unit: chance } = randomFrom(seed);
  const kindOf = new Int32Array(model.total);
  const partsOfKind: number[][] = model.kinds.map(() => []);
  {
    let part = 0;
    model.kinds.forEach((kind, k) => {
      for (let n = 0; n < kind.count; n++) {
        partsOfKind[k]!.push(part);
        kindOf[part++] = k;
      }
    });
  }
  const slots = model.total;
  const forest = createForest(model, kindOf, slots);
  const { root, stock, used, left, members, memberCount, slotOf } = forest;
  const kinds = model.kinds.length;
  const largest = Math.max(...model.sheets.map((sheet) => sheet.length * sheet.width));
  const areaOf = Float64Array.from(model.kinds, (kind) => (kind.length * kind.width) / largest);
  const sideOf = Float64Array.from(model.kinds, (kind) => Math.max(kind.length, kind.width));
  const sheetArea = Float64Array.from(model.sheets, (sheet) => sheet.length * sheet.width);
  const sheetCost = Float64Array.from(model.sheets, (sheet) => sheet.cost);
  const sheetCount = Int32Array.from(model.sheets, (sheet) => sheet.count);
  /** The least money for a largest sheet's area. */
  const rate = Math.min(
    ...model.sheets.map((sheet) =>
      sheet.cost > 0 ? (sheet.cost / (sheet.length * sheet.width)) * largest : Number.POSITIVE_INFINITY,
    ),
  );

  const active = new Int32Array(slots);
  const activeAt = new Int32Array(slots).fill(-1);
  let activeCount = 0;
  const idle = new Int32Array(slots);
  const idleAt = new Int32Array(slots);
  let idleCount = 0;
  for (let slot = slots - 1; slot >= 0; slot--) {
    idleAt[slot] = idleCount;
    idle[idleCount++] = slot;
  }
  const stockUsed = new Int32Array(model.sheets.length);
  let cost = 0;

  const activate = (slot: number): void => {
    if (activeAt[slot]! >= 0) return;
    activeAt[slot] = activeCount;
    active[activeCount++] = slot;
    const at = idleAt[slot]!;
    const last = idle[--idleCount]!;
    idle[at] = last;
    idleAt[last] = at;
    cost += sheetCost[stock[slot]!]!;
    stockUsed[stock[slot]!]!++;
  };
  const retire = (slot: number): void => {
    const at = activeAt[slot]!;
    if (at < 0) return;
    const last = active[--activeCount]!;
    active[at] = last;
    activeAt[last] = at;
    activeAt[slot] = -1;
    idleAt[slot] = idleCount;
    idle[idleCount++] = slot;
    cost -= sheetCost[stock[slot]!]!;
    stockUsed[stock[slot]!]!--;
  };

  let out = new Int32Array(model.total);
  let outCount = 0;
  let before = new Int32Array(model.total);
  let beforeCount = 0;
  let outArea = 0;
  let leftSum = 0;

  // What stood on the sheets touched in this step.
  const saved = new Int32Array(model.total * 3 + slots + 8);
  const spare = new Int32Array(model.total * 3 + 8);
  const touched = new Int32Array(slots);
  const touchedStock = new Int32Array(slots);
  const touchedFrom = new Int32Array(slots + 1);
  const touchedAt = new Int32Array(slots).fill(-1);
  let touchedCount = 0;
  const touch = (slot: number): void => {
    if (touchedAt[slot]! >= 0) return;
    touchedAt[slot] = touchedCount;
    touched[touchedCount] = slot;
    touchedStock[touchedCount] = activeAt[slot]! >= 0 ? stock[slot]! : -1;
    const from = touchedFrom[touchedCount]!;
    touchedFrom[touchedCount + 1] = activeAt[slot]! >= 0 ? forest.write(slot, saved, from) : from;
    touchedCount++;
  };

  const undo = (): void => {
    for (let i = 0; i < touchedCount; i++) {
      const slot = touched[i]!;
      forest.clear(slot);
      retire(slot);
    }
    for (let i = 0; i < touchedCount; i++) {
      if (touchedStock[i]! < 0) continue;
      const slot = touched[i]!;
      forest.read(slot, touchedStock[i]!, saved, touchedFrom[i]!, touchedFrom[i + 1]!);
      activate(slot);
    }
    const swap = out;
    out = before;
    before = swap;
    outCount = beforeCount;
  };

  let best = start;
  let budget = 0;
  let cycles = 0;
  let mostRuined = tuning.sheets[0]!;
  const nextCycle = (): void => {
    cycles++;
    mostRuined = tuning.sheets[cycles % tuning.sheets.length]!;
    clock = 0;
    temperature = tuning.hot;
  };

  const load = (plan: Plan): void => {
    while (activeCount > 0) {
      const slot = active[activeCount - 1]!;
      forest.clear(slot);
      retire(slot);
    }
    const next = new Int32Array(kinds);
    let slot = 0;
    for (const layout of plan.layouts)
      for (let n = 0; n < layout.times; n++) {
        const code = layout.pattern.code.map((c) => {
          if (c < 0) return c;
          const k = c >> 1;
          const part = partsOfKind[k]![next[k]!]!;
          next[k] = next[k]! + 1;
          return part * 2 + (c & 1);
        });
        forest.read(slot, layout.pattern.sheet, code, 0, code.length);
        activate(slot);
        slot++;
      }
    outCount = 0;
    for (let k = 0; k < kinds; k++)
      for (let n = next[k]!; n < partsOfKind[k]!.length; n++) out[outCount++] = partsOfKind[k]![n]!;
  };

  const patternOn = (slot: number): Pattern => {
    const end = forest.write(slot, spare, 0);
    return { sheet: stock[slot]!, code: spare.slice(0, end).map((c) => (c >= 0 ? kindOf[c >> 1]! * 2 + (c & 1) : c)) };
  };

  const planNow = (): Plan => {
    const layouts: { pattern: Pattern; times: number }[] = [];
    const seen = new Map<string, number>();
    const order = Array.from(active.subarray(0, activeCount)).sort((a, b) => a - b);
    for (const slot of order) {
      const pattern = patternOn(slot);
      const key = `${pattern.sheet}:${pattern.code.join()}`;
      const at = seen.get(key);
      if (at === undefined) {
        seen.set(key, layouts.length);
        layouts.push({ pattern, times: 1 });
      } else layouts[at] = { ...layouts[at]!, times: layouts[at]!.times + 1 };
    }
    return planOf(model, layouts);
  };

  const recount = (): void => {
    leftSum = 0;
    outArea = 0;
    for (let i = 0; i < activeCount; i++) leftSum += left[active[i]!]!;
    for (let i = 0; i < outCount; i++) outArea += areaOf[kindOf[out[i]!]!]!;
  };
  const unspent = (): number => {
    if (rate === Number.POSITIVE_INFINITY || budget === Number.POSITIVE_INFINITY) return 0;
    const area = (budget - cost) / rate;
    return area > 0 ? area * Math.sqrt(area) : 0;
  };
  const energyNow = (): number =>
    goal === 'cheaper' ? outArea - tuning.leftover * (leftSum + unspent()) : 2 * outArea - leftSum - unspent();

  /** Lowers the goal below the plan in hand and gives up the least used sheets for it. */
  const lowerGoal = (): void => {
    budget = best.missing > 0 ? Number.POSITIVE_INFINITY : best.cost - (goal === 'cheaper' ? 1 : 0);
    while (cost > budget && activeCount > 0) {
      let least = -1;
      let leastUse = Number.POSITIVE_INFINITY;
      for (let i = 0; i < activeCount; i++) {
        const slot = active[i]!;
        const price = sheetCost[stock[slot]!]!;
        if (price === 0) continue;
        const use = used[slot]! / price;
        if (use < leastUse || (use === leastUse && slot < least)) {
          leastUse = use;
          least = slot;
        }
      }
      if (least < 0) break;
      outCount = forest.remove(root[least]!, least, out, outCount);
      forest.refresh(least);
      retire(least);
    }
    recount();
  };

  const removeNode = (node: number, slot: number): void => {
    const from = outCount;
    outCount = forest.remove(node, slot, out, outCount);
    for (let i = from; i < outCount; i++) outArea += areaOf[kindOf[out[i]!]!]!;
  };

  const ruin = (): void => {
    let sheets = 1 + below(mostRuined);
    if (sheets > activeCount) sheets = activeCount;
    for (let n = 0; n < sheets; n++) {
      const slot = active[below(activeCount)]!;
      if (root[slot]! < 0) continue;
      touch(slot);
      leftSum -= left[slot]!;
      const whole = memberCount[slot]! <= 12 ? tuning.whole : tuning.whole / 6;
      if (chance() < whole) {
        removeNode(root[slot]!, slot);
      } else {
        let cuts = 1 + below(tuning.cuts);
        const list = members[slot]!;
        while (cuts-- > 0 && root[slot]! >= 0) {
          const node = list[below(memberCount[slot]!)]!;
          // The list is from before the first cut.
          if (slotOf[node] === slot) removeNode(node, slot);
        }
      }
      forest.refresh(slot);
      if (root[slot]! < 0) {
        retire(slot);
        if (activeCount === 0) return;
      } else leftSum += left[slot]!;
    }
  };

  const key = new Float64Array(model.total);
  const failed = new Int32Array(kinds).fill(-1);
  let stepNow = 0;

  const recreate = (): void => {
    const style = below(8);
    for (let i = 0; i < outCount; i++) {
      const k = kindOf[out[i]!]!;
      if (style < 4) key[i] = areaOf[k]! * (0.8 + 0.4 * chance());
      else if (style < 6) key[i] = sideOf[k]! * (0.8 + 0.4 * chance());
      else key[i] = chance();
    }
    // Few: insertion sort, largest first.
    for (let i = 1; i < outCount; i++) {
      const part = out[i]!;
      const value = key[i]!;
      let j = i - 1;
      while (j >= 0 && key[j]! < value) {
        key[j + 1] = key[j]!;
        out[j + 1] = out[j]!;
        j--;
      }
      key[j + 1] = value;
      out[j + 1] = part;
    }
    let kept = 0;
    const count = outCount;
    for (let i = 0; i < count; i++) {
      const part = out[i]!;
      const k = kindOf[part]!;
      if (failed[k] === stepNow || !putBack(part, k)) {
        failed[k] = stepNow;
        out[kept++] = part;
      }
    }
    outCount = kept;
  };

  const putBack = (part: number, k: number): boolean => {
    let bar = Number.POSITIVE_INFINITY;
    let slotBest = -1;
    let host = -1;
    let how = 0;
    let turn = 0;
    const area = areaOf[k]! * largest;
    for (let i = 0; i < activeCount; i++) {
      const slot = active[i]!;
      if (sheetArea[stock[slot]!]! - used[slot]! < area) continue;
      const loss = forest.bestPlace(slot, k, bar, tuning.blink, chance);
      if (loss < bar) {
        bar = loss;
        slotBest = slot;
        host = forest.found();
        how = forest.foundHow();
        turn = forest.foundTurn();
      }
    }
    let bare = -1;
    for (let s = 0; s < sheetCost.length; s++) {
      if (cost + sheetCost[s]! > budget || stockUsed[s]! >= sheetCount[s]!) continue;
      // With several sizes the eye is not always on the one that looks best.
      const loss = forest.bareLoss(s, k) * (sheetCost.length > 1 ? 0.5 + chance() : 1);
      if (loss < bar) {
        bar = loss;
        bare = s;
        turn = forest.foundTurn();
      }
    }
    if (bare >= 0) {
      const slot = idle[idleCount - 1]!;
      touch(slot);
      forest.open(slot, bare, part, turn);
      activate(slot);
      leftSum += left[slot]!;
    } else if (slotBest >= 0) {
      touch(slotBest);
      leftSum -= left[slotBest]!;
      forest.insert(slotBest, part, host, how, turn);
      leftSum += left[slotBest]!;
    } else return false;
    outArea -= areaOf[k]!;
    return true;
  };

  load(start);
  lowerGoal();
  let energy = energyNow();
  let tidiest = energy;
  let clock = 0;
  let temperature = tuning.hot;
  const cooling = stepFactor(tuning.hot, tuning.cold, tuning.cycle);

  const collect = (collector: Collector): void => {
    for (let i = 0; i < touchedCount; i++) {
      const slot = touched[i]!;
      if (activeAt[slot]! < 0 || root[slot]! < 0) continue;
      let over = sheetCost[stock[slot]!]!;
      const list = members[slot]!;
      for (let n = memberCount[slot]! - 1; n >= 0; n--) {
        const node = list[n]!;
        if (node < forest.parts) over -= collector.duals[kindOf[node]!]!;
      }
      if (over <= collector.slack && over <= KEEP * sheetCost[stock[slot]!]!) collector.add(patternOn(slot));
    }
  };

  const advance = (steps: number, collector: Collector | null = null): boolean => {
    let better = false;
    if (best.missing === 0 && best.cost <= floor) return false;
    for (let n = 0; n < steps; n++) {
      stepNow++;
      before.set(out.subarray(0, outCount));
      beforeCount = outCount;
      const areaBefore = outArea;
      const leftBefore = leftSum;
      touchedCount = 0;
      ruin();
      recreate();
      const candidate = energyNow();
      if (goal === 'tidier') {
        if (outCount === 0 && candidate < tidiest - 1e-6) {
          tidiest = candidate;
          best = planNow();
          better = true;
        }
      } else if (outCount === 0) {
        for (let i = 0; i < touchedCount; i++) touchedAt[touched[i]!] = -1;
        best = planNow();
        better = true;
        if (best.cost <= floor) return true;
        lowerGoal();
        energy = energyNow();
        temperature = tuning.hot;
        clock = 0;
        continue;
      }
      if (candidate <= energy || chance() < exponential((energy - candidate) / temperature)) {
        energy = candidate;
        if (collector) collect(collector);
      } else {
        undo();
        outArea = areaBefore;
        leftSum = leftBefore;
      }
      for (let i = 0; i < touchedCount; i++) touchedAt[touched[i]!] = -1;
      temperature *= cooling;
      if (++clock >= tuning.cycle) {
        nextCycle();
        recount();
        energy = energyNow();
      }
    }
    return better;
  };

  const restart = (plan: Plan): void => {
    best = plan;
    load(plan);
    lowerGoal();
    energy = energyNow();
    nextCycle();
  };

  return { advance, best: () => best, restart };
}
