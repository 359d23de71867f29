import type { Model } from './model.ts';

/**
 * An exact search that learns from its contradictions: lazy clause generation with the time-table and its pointwise explanations
 * (Schutt, Feydy, Stuckey & Wallace, Constraints 16, 2011, 250–282). Everything known is a bound on a start; a contradiction is
 * traced back to the one bound of the last decision that suffices for it (first unique implication point), and the clause so learned
 * is kept. Proofs come from asking for the shortest end not yet refuted (destructive bound; Klein & Scholl, European Journal of
 * Operational Research 112, 1999, 322–346) in turn with asking for any end better than the best.
 *
 * Variables: 2i is the earliest start of task i, 2i+1 the negative of its latest start; both only rise. A literal (v, b) says that
 * variable v has reached b; its negation is (v^1, 1−b). Task `count` is the end of the job.
 */
export interface Learner {
  /** Works to the next contradiction or schedule. */
  readonly step: () => 'more' | 'schedule' | 'closed';
  /** The last schedule found. */
  readonly starts: Int32Array;
  /** Asks for ends of at most this from now on. */
  readonly limit: (end: number) => void;
  /** No schedule ends sooner. When closed: none ends within the limit. */
  readonly bound: () => number;
  /** Whether to refute the shortest end rather than look for any better one; takes hold at the next restart. */
  readonly refute: (yes: boolean) => void;
  /** A schedule to stay near. */
  readonly hint: (starts: Int32Array) => void;
}

interface Clause {
  readonly vars: Int32Array;
  readonly bounds: Int32Array;
  readonly levels: number;
  activity: number;
}

const DECISION = 0;
const CHAIN = 1;
const LISTED = 2;
const CLAUSE = 3;
const RESTART = 100;

export function learnerOf(model: Model, least: number, most: number): Learner {
  const { count: n, duration, resources, capacity, need } = model;
  const sink = n;
  const vars = 2 * (n + 1);
  const root = new Int32Array(vars);
  for (let i = 0; i < n; i++) {
    root[2 * i] = model.head[i]!;
    root[2 * i + 1] = -(most - model.tail[i]! - duration[i]!);
  }
  root[2 * sink] = least;
  root[2 * sink + 1] = -most;
  const value = Int32Array.from(root);

  // Chains: raising `v` by any amount raises each `to` with it.
  const chainTo: Int32Array[] = [];
  const chainBy: Int32Array[] = [];
  for (let i = 0; i <= n; i++) {
    const next = i === sink ? [] : model.after[i]!.length > 0 ? [...model.after[i]!] : [sink];
    chainTo[2 * i] = Int32Array.from(next, (j) => 2 * j);
    chainBy[2 * i] = Int32Array.from(next, () => duration[i]!);
    const pre = i === sink ? [...Array(n).keys()].filter((k) => model.after[k]!.length === 0) : [...model.before[i]!];
    chainTo[2 * i + 1] = Int32Array.from(pre, (j) => 2 * j + 1);
    chainBy[2 * i + 1] = Int32Array.from(pre, (j) => duration[j]!);
  }
  const users: Int32Array[] = [];
  for (let r = 0; r < resources; r++)
    users.push(Int32Array.from([...Array(n).keys()].filter((i) => need[i * resources + r]! > 0 && duration[i]! > 0)));

  // The trail: every rise of a variable, with what it came from.
  let room = 1 << 14;
  let trailVar = new Int32Array(room);
  let trailOld = new Int32Array(room);
  let trailNew = new Int32Array(room);
  let trailPrev = new Int32Array(room);
  let trailKind = new Uint8Array(room);
  let trailA = new Int32Array(room);
  let trailB = new Int32Array(room);
  let trail = 0;
  const last = new Int32Array(vars).fill(-1);
  const grown = (old: Int32Array): Int32Array<ArrayBuffer> => {
    const next = new Int32Array(2 * old.length);
    next.set(old);
    return next;
  };
  // Reasons listed as literals.
  let listVar = new Int32Array(1 << 14);
  let listBound = new Int32Array(1 << 14);
  let listed = 0;
  const levelTrail: number[] = [0];
  const levelListed: number[] = [0];
  let level = 0;

  let clauses: Clause[] = [];
  const watchClause: number[][] = Array.from({ length: vars }, () => []);
  const watchBound: number[][] = Array.from({ length: vars }, () => []);

  let conflictVars: number[] = [];
  let conflictBounds: number[] = [];
  /** The rise that ran into the opposite bound, if that was it: its reasons count, not the rise itself, which would teach nothing. */
  let conflictAt = -1;

  const rise = (v: number, b: number, kind: number, a: number, extra: number): boolean => {
    if (value[v]! >= b) return true;
    if (trail === room) {
      room *= 2;
      trailVar = grown(trailVar);
      trailOld = grown(trailOld);
      trailNew = grown(trailNew);
      trailPrev = grown(trailPrev);
      trailA = grown(trailA);
      trailB = grown(trailB);
      const kinds = new Uint8Array(room);
      kinds.set(trailKind);
      trailKind = kinds;
    }
    trailVar[trail] = v;
    trailOld[trail] = value[v]!;
    trailNew[trail] = b;
    trailPrev[trail] = last[v]!;
    trailKind[trail] = kind;
    trailA[trail] = a;
    trailB[trail] = extra;
    last[v] = trail++;
    value[v] = b;
    if (b + value[v ^ 1]! > 0) {
      conflictAt = trail - 1;
      conflictVars = [v ^ 1];
      conflictBounds = [1 - b];
      return false;
    }
    return true;
  };
  const backTo = (target: number): void => {
    if (level <= target) return;
    const until = levelTrail[target + 1]!;
    while (trail > until) {
      trail--;
      const v = trailVar[trail]!;
      value[v] = trailOld[trail]!;
      last[v] = trailPrev[trail]!;
    }
    listed = levelListed[target + 1]!;
    level = target;
    head = trail;
  };
  /** What stands at level 0 is so for good: it needs no reasons. */
  const settleRoot = (): void => {
    root.set(value);
    last.fill(-1);
    trail = 0;
    head = 0;
    listed = 0;
  };

  // --- Propagation ---------------------------------------------------------------------------------------------------------------
  let head = 0;
  const propagate = (): boolean => {
    for (;;) {
      while (head < trail) {
        const v = trailVar[head++]!;
        const at = value[v]!;
        const to = chainTo[v]!;
        const by = chainBy[v]!;
        for (let k = 0; k < to.length; k++) if (!rise(to[k]!, at + by[k]!, CHAIN, v, by[k]!)) return false;
        if (!visit(v)) return false;
      }
      for (let r = 0; r < resources; r++) if (!timeTable(r)) return false;
      if (head === trail) return true;
    }
  };
  /** Clauses of which a watched literal may just have become false. */
  const visit = (v: number): boolean => {
    const w = v ^ 1;
    const of = watchClause[w]!;
    const bounds = watchBound[w]!;
    let kept = 0;
    for (let k = 0; k < of.length; k++) {
      const c = of[k]!;
      const b = bounds[k]!;
      if (value[v]! < 1 - b) {
        of[kept] = c;
        bounds[kept++] = b;
        continue;
      }
      const clause = clauses[c]!;
      const { vars: cv, bounds: cb } = clause;
      if (cv[0] === w && cb[0] === b) {
        cv[0] = cv[1]!;
        cb[0] = cb[1]!;
        cv[1] = w;
        cb[1] = b;
      }
      if (value[cv[0]!]! >= cb[0]!) {
        of[kept] = c;
        bounds[kept++] = b;
        continue;
      }
      let moved = false;
      for (let j = 2; j < cv.length; j++) {
        if (value[cv[j]! ^ 1]! >= 1 - cb[j]!) continue;
        cv[1] = cv[j]!;
        cb[1] = cb[j]!;
        cv[j] = w;
        cb[j] = b;
        watchClause[cv[1]!]!.push(c);
        watchBound[cv[1]!]!.push(cb[1]!);
        moved = true;
        break;
      }
      if (moved) continue;
      of[kept] = c;
      bounds[kept++] = b;
      if (!rise(cv[0]!, cb[0]!, CLAUSE, c, 0)) {
        for (k++; k < of.length; k++) {
          of[kept] = of[k]!;
          bounds[kept++] = bounds[k]!;
        }
        of.length = kept;
        bounds.length = kept;
        return false;
      }
    }
    of.length = kept;
    bounds.length = kept;
    return true;
  };

  const held = new Int32Array(most + 1);
  const lows = new Int32Array(n);
  const highs = new Int32Array(n);
  const reasons = new Int32Array(n);
  /**
   * Tasks that surely hold the resource at t, enough of them that more than `over` is held. Left in `reasons`; returns how many.
   */
  const holders = (r: number, t: number, over: number, besides: number): number => {
    let found = 0;
    let sum = 0;
    for (const i of users[r]!) {
      if (i === besides || -value[2 * i + 1]! > t || value[2 * i]! + duration[i]! <= t) continue;
      reasons[found++] = i;
      sum += need[i * resources + r]!;
    }
    let kept = 0;
    for (let k = 0; k < found; k++) {
      const i = reasons[k]!;
      const amount = need[i * resources + r]!;
      if (sum - amount > over) sum -= amount;
      else reasons[kept++] = i;
    }
    return kept;
  };
  const list = (v: number, b: number): void => {
    if (b <= root[v]!) return;
    if (listed === listVar.length) {
      listVar = grown(listVar);
      listBound = grown(listBound);
    }
    listVar[listed] = v;
    listBound[listed++] = b;
  };
  const timeTable = (r: number): boolean => {
    const of = users[r]!;
    const there = capacity[r]!;
    let from = most;
    let to = 0;
    for (let k = 0; k < of.length; k++) {
      const i = of[k]!;
      const high = -value[2 * i + 1]!;
      const low = value[2 * i]! + duration[i]!;
      lows[k] = value[2 * i]!;
      highs[k] = high;
      if (high >= low) continue;
      if (high < from) from = high;
      if (low > to) to = low;
    }
    if (from >= to) return true;
    held.fill(0, from, to);
    let peak = 0;
    for (let k = 0; k < of.length; k++) {
      const i = of[k]!;
      const low = lows[k]! + duration[i]!;
      const amount = need[i * resources + r]!;
      for (let t = highs[k]!; t < low; t++) {
        held[t]! += amount;
        if (held[t]! > peak) {
          peak = held[t]!;
          if (peak > there) {
            const kept = holders(r, t, there, -1);
            conflictAt = -1;
            conflictVars = [];
            conflictBounds = [];
            for (let q = 0; q < kept; q++) {
              const j = reasons[q]!;
              conflictVars.push(2 * j + 1, 2 * j);
              conflictBounds.push(-t, t - duration[j]! + 1);
            }
            return false;
          }
        }
      }
    }
    for (let k = 0; k < of.length; k++) {
      const i = of[k]!;
      const amount = need[i * resources + r]!;
      if (peak + amount <= there) continue;
      const low = lows[k]!;
      const high = highs[k]!;
      if (low === high) continue;
      const d = duration[i]!;
      const over = there - amount;
      // Where task i itself surely is, its own amount is among what is held.
      const mineFrom = high;
      const mineTo = low + d;
      let bottom = low;
      let t = Math.min(bottom + d, to) - 1;
      while (t >= bottom && t >= from) {
        if (held[t]! > over && !(t >= mineFrom && t < mineTo)) {
          const start = listed;
          const kept = holders(r, t, over, i);
          for (let q = 0; q < kept; q++) {
            const j = reasons[q]!;
            list(2 * j + 1, -t);
            list(2 * j, t - duration[j]! + 1);
          }
          list(2 * i, t - d + 1);
          if (!rise(2 * i, t + 1, LISTED, start, listed - start)) return false;
          bottom = t + 1;
          t = Math.min(bottom + d, to) - 1;
        } else t--;
      }
      let top = high;
      t = Math.max(top, from);
      while (t < top + d && t < to) {
        if (held[t]! > over && !(t >= mineFrom && t < mineTo)) {
          const start = listed;
          const kept = holders(r, t, over, i);
          for (let q = 0; q < kept; q++) {
            const j = reasons[q]!;
            list(2 * j + 1, -t);
            list(2 * j, t - duration[j]! + 1);
          }
          list(2 * i + 1, -t);
          if (!rise(2 * i + 1, d - t, LISTED, start, listed - start)) return false;
          top = t - d;
          t = Math.max(top, from);
        } else t++;
      }
    }
    return true;
  };

  // --- Learning ------------------------------------------------------------------------------------------------------------------
  const NONE = -0x7fffffff;
  const wanted = new Int32Array(vars).fill(NONE);
  const wantedAt = new Int32Array(vars);
  const marked: number[] = [];
  const activity = new Float64Array(n + 1);
  let bump = 1;
  let open = 0;
  const ask = (v: number, b: number): void => {
    if (b <= root[v]! || wanted[v]! >= b) return;
    let at = last[v]!;
    while (trailOld[at]! >= b) at = trailPrev[at]!;
    const now = levelTrail[level]!;
    if (wanted[v] === NONE) {
      marked.push(v);
      if (at >= now) open++;
    } else if (at >= now && wantedAt[v]! < now) open++;
    wanted[v] = b;
    wantedAt[v] = at;
    const i = v >> 1;
    activity[i]! += bump;
    if (activity[i]! > 1e100) {
      for (let k = 0; k <= n; k++) activity[k]! *= 1e-100;
      bump *= 1e-100;
    }
  };
  const askReasons = (at: number, b: number): void => {
    const a = trailA[at]!;
    switch (trailKind[at]) {
      case CHAIN:
        ask(a, b - trailB[at]!);
        break;
      case LISTED:
        for (let k = a; k < a + trailB[at]!; k++) ask(listVar[k]!, listBound[k]!);
        break;
      case CLAUSE: {
        const clause = clauses[a]!;
        clause.activity += clauseBump;
        for (let k = 1; k < clause.vars.length; k++) ask(clause.vars[k]! ^ 1, 1 - clause.bounds[k]!);
        break;
      }
    }
  };
  const covers = (v: number, b: number, at: number, self: number): boolean =>
    b <= root[v]! || (v !== self && wanted[v]! >= b && wantedAt[v]! < at);
  /** Whether what is wanted of v follows from the rest that is wanted, all of it older. */
  const follows = (v: number): boolean => {
    const at = wantedAt[v]!;
    const a = trailA[at]!;
    switch (trailKind[at]) {
      case CHAIN:
        return covers(a, wanted[v]! - trailB[at]!, at, v);
      case LISTED:
        for (let k = a; k < a + trailB[at]!; k++) if (!covers(listVar[k]!, listBound[k]!, at, v)) return false;
        return true;
      case CLAUSE: {
        const { vars: cv, bounds: cb } = clauses[a]!;
        for (let k = 1; k < cv.length; k++) if (!covers(cv[k]! ^ 1, 1 - cb[k]!, at, v)) return false;
        return true;
      }
      default:
        return false;
    }
  };
  const levelOf = (at: number): number => {
    let low = 1;
    let high = level;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (levelTrail[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  let clauseBump = 1;

  /** Learns from the conflict and goes back as far as the clause has force. False when nothing is left to undo. */
  const learn = (): boolean => {
    if (level === 0) return false;
    open = 0;
    marked.length = 0;
    if (conflictAt >= 0) askReasons(conflictAt, trailNew[conflictAt]!);
    for (let k = 0; k < conflictVars.length; k++) ask(conflictVars[k]!, conflictBounds[k]!);
    while (open === 0) {
      // The contradiction is older than the last decision.
      backTo(level - 1);
      if (level === 0) return false;
      for (const v of marked) if (wantedAt[v]! >= levelTrail[level]!) open++;
    }
    let at = trail - 1;
    let pivot = -1;
    for (;;) {
      while (!(wanted[trailVar[at]!]! > trailOld[at]! && wantedAt[trailVar[at]!] === at)) at--;
      const v = trailVar[at]!;
      if (open === 1) {
        pivot = v;
        break;
      }
      const b = wanted[v]!;
      wanted[v] = NONE;
      open--;
      askReasons(at, b);
      at--;
    }
    const learnedVars: number[] = [pivot ^ 1];
    const learnedBounds: number[] = [1 - wanted[pivot]!];
    let back = 0;
    let second = 0;
    let seenLevels = 0;
    const redundant: number[] = [];
    for (const v of marked) if (wanted[v] !== NONE && v !== pivot && follows(v)) redundant.push(v);
    for (const v of redundant) wanted[v] = NONE;
    const levels = new Set<number>();
    for (const v of marked) {
      if (wanted[v] === NONE || v === pivot) continue;
      // The same variable may have been marked twice.
      const of = levelOf(wantedAt[v]!);
      levels.add(of);
      if (of > back) {
        back = of;
        second = learnedVars.length;
      }
      learnedVars.push(v ^ 1);
      learnedBounds.push(1 - wanted[v]!);
      wanted[v] = NONE;
    }
    seenLevels = levels.size + 1;
    wanted[pivot] = NONE;
    bump /= 0.95;
    clauseBump /= 0.999;
    if (clauseBump > 1e100) {
      for (const clause of clauses) clause.activity *= 1e-100;
      clauseBump *= 1e-100;
    }
    backTo(back);
    if (learnedVars.length === 1) return rise(learnedVars[0]!, learnedBounds[0]!, DECISION, 0, 0);
    [learnedVars[1], learnedVars[second]] = [learnedVars[second]!, learnedVars[1]!];
    [learnedBounds[1], learnedBounds[second]] = [learnedBounds[second]!, learnedBounds[1]!];
    const clause: Clause = {
      vars: Int32Array.from(learnedVars),
      bounds: Int32Array.from(learnedBounds),
      levels: seenLevels,
      activity: clauseBump,
    };
    const c = clauses.length;
    clauses.push(clause);
    watchIt(c);
    return rise(learnedVars[0]!, learnedBounds[0]!, CLAUSE, c, 0);
  };
  const watchIt = (c: number): void => {
    const { vars: cv, bounds: cb } = clauses[c]!;
    for (let k = 0; k < 2; k++) {
      watchClause[cv[k]!]!.push(c);
      watchBound[cv[k]!]!.push(cb[k]!);
    }
  };
  let keep = 3000;
  /** At level 0 only: drops the half of the clauses that has helped least, and those true for good. */
  const forget = (): void => {
    const live = clauses.filter(({ vars: cv, bounds: cb }) => !cv.some((v, k) => root[v]! >= cb[k]!));
    const rank = [...live].sort((a, b) => (a.levels <= 2 ? 0 : 1) - (b.levels <= 2 ? 0 : 1) || b.activity - a.activity);
    clauses = live.length > keep ? rank.slice(0, Math.floor(keep / 2)) : live;
    keep += 200;
    for (const of of watchClause) of.length = 0;
    for (const of of watchBound) of.length = 0;
    // Watch two literals that are not false for good, where there are two.
    for (let c = 0; c < clauses.length; c++) {
      const { vars: cv, bounds: cb } = clauses[c]!;
      let front = 0;
      for (let k = 0; k < cv.length && front < 2; k++)
        if (value[cv[k]! ^ 1]! < 1 - cb[k]!) {
          const [v, b] = [cv[k]!, cb[k]!];
          cv[k] = cv[front]!;
          cb[k] = cb[front]!;
          cv[front] = v;
          cb[front++] = b;
        }
      watchIt(c);
      if (front === 1) pending.push(c);
    }
  };
  /** Clauses found to have one literal left when they were sorted anew. */
  const pending: number[] = [];

  // --- Search --------------------------------------------------------------------------------------------------------------------
  let started = false;
  let closed = false;
  let asked = most;
  let refuting = true;
  let refutingNow = true;
  let sinceRestart = 0;
  let restarts = 0;
  let allowed = RESTART;
  let near: Int32Array | undefined;
  const starts = new Int32Array(n);
  const decide = (v: number, b: number): boolean => {
    level++;
    levelTrail[level] = trail;
    levelListed[level] = listed;
    return rise(v, b, DECISION, 0, 0);
  };
  const choose = (): boolean => {
    if (level === 0 && refutingNow && value[2 * sink]! < -value[2 * sink + 1]!)
      return decide(2 * sink + 1, -value[2 * sink]!);
    let pick = -1;
    for (let i = 0; i < n; i++) {
      if (value[2 * i]! === -value[2 * i + 1]!) continue;
      if (
        pick < 0 ||
        activity[i]! > activity[pick]! ||
        (activity[i] === activity[pick] && value[2 * i]! < value[2 * pick]!)
      )
        pick = i;
    }
    if (pick < 0) return false;
    const low = value[2 * pick]!;
    const high = -value[2 * pick + 1]!;
    if (near && !refutingNow) {
      const liked = near[pick]!;
      if (liked > low && liked <= high) return decide(2 * pick, liked);
      if (liked >= low && liked < high) return decide(2 * pick + 1, -liked);
    }
    return decide(2 * pick + 1, -low);
  };
  const luby = (i: number): number => {
    let k = 1;
    while (2 ** k - 1 < i) k++;
    return 2 ** k - 1 === i ? 2 ** (k - 1) : luby(i - 2 ** (k - 1) + 1);
  };
  const restart = (): void => {
    backTo(0);
    refutingNow = refuting;
    sinceRestart = 0;
    allowed = RESTART * luby(++restarts);
  };
  const step = (): 'more' | 'schedule' | 'closed' => {
    if (closed) return 'closed';
    if (!started) {
      started = true;
      for (let i = 0; i <= n; i++) if (value[2 * i]! + value[2 * i + 1]! > 0) closed = true;
      if (closed) return 'closed';
      // Everything is news at first.
      for (let v = 0; v < vars; v++) {
        const to = chainTo[v]!;
        for (let k = 0; k < to.length; k++)
          if (!rise(to[k]!, value[v]! + chainBy[v]![k]!, CHAIN, v, chainBy[v]![k]!)) {
            closed = true;
            return 'closed';
          }
      }
    }
    if (sinceRestart >= allowed) restart();
    for (;;) {
      if (!propagate()) {
        sinceRestart++;
        if (!learn()) {
          closed = true;
          return 'closed';
        }
        return 'more';
      }
      if (level === 0) {
        settleRoot();
        if (clauses.length > keep) forget();
        while (pending.length > 0) {
          const { vars: cv, bounds: cb } = clauses[pending.pop()!]!;
          if (!rise(cv[0]!, cb[0]!, DECISION, 0, 0)) {
            closed = true;
            return 'closed';
          }
        }
        if (head < trail) continue;
      }
      if (!choose()) {
        for (let i = 0; i < n; i++) starts[i] = value[2 * i]!;
        return 'schedule';
      }
    }
  };
  const limit = (end: number): void => {
    asked = end;
    backTo(0);
    refutingNow = refuting;
    if (!rise(2 * sink + 1, -end, DECISION, 0, 0)) closed = true;
  };
  return {
    step,
    starts,
    limit,
    bound: () => (closed ? asked + 1 : root[2 * sink]!),
    refute: (yes) => {
      refuting = yes;
    },
    hint: (of) => {
      near = Int32Array.from(of);
    },
  };
}
