import { builderOf, sorterOf } from './build.ts';
import { type Model, reversed } from './model.ts';
import type { Draw } from './random.ts';

/**
 * Two populations of schedules, one pushed to the left and one to the right; children of each are built in the other direction and
 * live there, so that every generation justifies the last: the bi-population genetic algorithm of Debels & Vanhoucke (Operations
 * Research 55, 2007, 457–469). The first generation is drawn by the regret of its latest finish (Drexl, Management Science 37, 1991,
 * 1590–1602; the rule: Kolisch, European Journal of Operational Research 90, 1996, 320–333).
 */
export interface Breeder {
  /** One child. Returns its end; its starts are in `starts`. */
  readonly step: () => number;
  readonly starts: Int32Array;
  /** Lets a schedule found elsewhere in. */
  readonly admit: (starts: Int32Array, end: number) => void;
  /** Passes over all tasks so far. */
  readonly passes: () => number;
}

interface Member {
  readonly starts: Int32Array;
  end: number;
}

const CHILDREN = 2;
const PATIENCE = 40;

export function breederOf(model: Model, draw: Draw): Breeder {
  const { count: n } = model;
  const size = Math.max(20, 70 - (n >> 2), Math.min(100, 160 - n));
  // Side 0 tells the job forwards, side 1 backwards, each in its own numbering and its own time from 0.
  const models = [model, reversed(model)] as const;
  const builders = [builderOf(models[0]), builderOf(models[1])] as const;
  let sides: [Member[], Member[]] = [[], []];
  const starts = new Int32Array(n);
  const built = new Int32Array(n);
  const list = new Int32Array(n);
  const mother = new Int32Array(n);
  const father = new Int32Array(n);
  const swap = new Int32Array(n);
  const keys = new Int32Array(n);
  const order = sorterOf(n);

  /** A schedule of one side as the other side sees it. */
  const turn = (side: 0 | 1, of: Int32Array, end: number, to: Int32Array): void => {
    const { duration } = models[side];
    for (let i = 0; i < n; i++) to[n - 1 - i] = end - of[i]! - duration[i]!;
  };
  /** The father's order within a window of his time; what he does before and after it in the mother's order. */
  const cross = (fatherEnd: number, motherEnd: number): void => {
    const length = fatherEnd * (0.1 + draw(1000) / 2500);
    const from = draw(Math.max(1, Math.ceil(fatherEnd - length) + 1));
    const to = from + length;
    // starts lie between 0 and the later end of the two: three stretches of keys, one behind another
    const far = Math.max(fatherEnd, motherEnd) + 1;
    for (let i = 0; i < n; i++)
      keys[i] = father[i]! < from ? mother[i]! : father[i]! <= to ? far + father[i]! : 2 * far + mother[i]!;
    order(keys, list);
  };
  /** Neighbours change places here and there, where neither waits for the other. */
  const mutate = (side: 0 | 1, per: number): void => {
    const { after } = models[side];
    for (let k = 1; k < n; k++) {
      if (draw(1000) >= per) continue;
      const a = list[k - 1]!;
      const b = list[k]!;
      if (after[a]!.includes(b)) continue;
      list[k - 1] = b;
      list[k] = a;
    }
  };
  const drawList = drawer(models[0], draw, list);

  let side: 0 | 1 = 1;
  let turnOf = 0;
  let child = 0;
  let stale = 0;
  let record = Number.POSITIVE_INFINITY;
  let restarts = 0;
  let best: Member | undefined;
  const held: Member = { starts: new Int32Array(n), end: Number.POSITIVE_INFINITY };

  const tell = (from: 0 | 1, end: number): number => {
    if (from === 0) starts.set(built);
    else turn(1, built, end, starts);
    return end;
  };
  const keep = (end: number): void => {
    if (end < record) {
      record = end;
      stale = 0;
    }
    if (best && best.end <= end) return;
    best = { starts: Int32Array.from(starts), end };
  };

  let born = 0;
  const step = (): number => {
    const [left, right] = sides;
    if (left.length < size) {
      drawList(born++ === 0 ? Number.POSITIVE_INFINITY : left.length % 3);
      const end = builders[0].forward(list, built);
      left.push({ starts: Int32Array.from(built), end });
      tell(0, end);
      keep(end);
      return end;
    }
    const home = sides[side];
    const parents = sides[side === 0 ? 1 : 0];
    const other = side === 0 ? 1 : 0;
    const a = parents[turnOf]!;
    turn(other, a.starts, a.end, mother);
    if (right.length < size) {
      // The second population begins as the first one pushed right.
      order(mother, list);
    } else {
      const one = parents[draw(size)]!;
      const two = parents[draw(size)]!;
      const b = one.end <= two.end ? one : two;
      turn(other, b.starts, b.end, father);
      if (child === 0) cross(b.end, a.end);
      else {
        swap.set(mother);
        mother.set(father);
        father.set(swap);
        cross(a.end, b.end);
      }
      mutate(side, a.end === b.end ? 60 : 20);
    }
    const end = builders[side].forward(list, built);
    tell(side, end);
    keep(end);
    if (right.length < size) {
      right.push({ starts: Int32Array.from(built), end });
      turnOf++;
    } else {
      if (child === 0 || end < held.end) {
        held.starts.set(built);
        held.end = end;
      }
      if (++child === CHILDREN) {
        child = 0;
        home[turnOf]!.starts.set(held.starts);
        home[turnOf]!.end = held.end;
        turnOf++;
      }
    }
    if (turnOf === size) {
      turnOf = 0;
      side = other;
      if (++stale > PATIENCE) {
        // A population that finds nothing new has said what it knows: begin anew, every other time beside the best.
        sides = [[], []];
        side = 1;
        stale = 0;
        record = Number.POSITIVE_INFINITY;
        if (restarts++ % 2 === 1 && best) admit(best.starts, best.end);
      }
    }
    return end;
  };
  const admit = (of: Int32Array, end: number): void => {
    const [left] = sides;
    if (left.length < size) {
      left.push({ starts: Int32Array.from(of), end });
      return;
    }
    const place = left[draw(size)]!;
    place.starts.set(of);
    place.end = end;
  };
  return { step, starts, admit, passes: () => builders[0].passes() + builders[1].passes() };
}

/** Draws among the tasks whose turn may be, the sooner its latest finish the likelier; `bias` 0 leaves it to chance, infinity always takes the soonest. */
function drawer(model: Model, draw: Draw, list: Int32Array): (bias: number) => void {
  const { count: n, duration, before, after, tail, path } = model;
  const latestFinish = Int32Array.from(duration, (_, i) => path - tail[i]!);
  const waits = new Int32Array(n);
  const ready = new Int32Array(n);
  return (bias) => {
    let free = 0;
    for (let i = 0; i < n; i++) {
      waits[i] = before[i]!.length;
      if (waits[i] === 0) ready[free++] = i;
    }
    for (let k = 0; k < n; k++) {
      let worst = 0;
      let best = 0;
      for (let c = 0; c < free; c++) {
        if (latestFinish[ready[c]!]! > worst) worst = latestFinish[ready[c]!]!;
        if (latestFinish[ready[c]!]! < latestFinish[ready[best]!]!) best = c;
      }
      let pick = best;
      if (bias === 0) pick = draw(free);
      else if (bias < Number.POSITIVE_INFINITY) {
        let total = 0;
        for (let c = 0; c < free; c++) total += (worst - latestFinish[ready[c]!]! + 1) ** bias;
        let left = draw(0x40000000) * (total / 0x40000000);
        pick = 0;
        while (pick < free - 1) {
          left -= (worst - latestFinish[ready[pick]!]! + 1) ** bias;
          if (left < 0) break;
          pick++;
        }
      }
      const i = ready[pick]!;
      ready[pick] = ready[--free]!;
      list[k] = i;
      for (const j of after[i]!) if (--waits[j]! === 0) ready[free++] = j;
    }
  };
}
