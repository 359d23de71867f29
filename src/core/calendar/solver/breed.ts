import type { Builder } from './build.ts';
import type { Model } from './model.ts';
import type { Draw } from './random.ts';

/**
 * A population of task orders that are crossed, justified and culled: a hybrid genetic algorithm after Hartmann (Naval Research
 * Logistics 45, 1998, 733–750: task lists, two-point crossover) and Valls, Ballestín & Quintanilla (European Journal of Operational
 * Research 185, 2008, 495–508: double justification of every child). The first generation is drawn by the regret of its latest finish
 * (Drexl, Management Science 37, 1991, 1590–1602; Kolisch 1996 for the rule).
 */
export interface Breeder {
  /** One child. Returns its end; its starts are in `starts`. */
  readonly step: () => number;
  readonly starts: Int32Array;
  /** Lets a schedule found elsewhere in. */
  readonly admit: (starts: Int32Array, end: number) => void;
}

interface Member {
  readonly list: Int32Array;
  end: number;
  /** Sum of starts: a cheap mark of sameness, and of two equal ends the denser is the better. */
  mass: number;
}

const PATIENCE = 60;

export function breederOf(model: Model, builder: Builder, draw: Draw): Breeder {
  const { count: n, duration, before, after, tail, path } = model;
  const size = Math.max(16, Math.min(60, 20 + (n >> 1)));
  let members: Member[] = [];
  let stale = 0;
  const starts = new Int32Array(n);
  const list = new Int32Array(n);
  const latestFinish = Int32Array.from(duration, (_, i) => path - tail[i]!);
  const waits = new Int32Array(n);
  const ready = new Int32Array(n);
  const used = new Uint8Array(n);

  /** Draws among the tasks whose turn may be, the sooner its latest finish the likelier; `chance` false always takes the soonest. */
  const drawList = (chance: boolean): void => {
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
      if (chance) {
        let total = 0;
        for (let c = 0; c < free; c++) total += (worst - latestFinish[ready[c]!]! + 1) ** 2;
        let left = draw(0x40000000) * (total / 0x40000000);
        pick = 0;
        while (pick < free - 1) {
          left -= (worst - latestFinish[ready[pick]!]! + 1) ** 2;
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

  const settle = (): number => {
    let end = builder.forward(list, starts);
    end = builder.justify(starts, end);
    return end;
  };
  const massOf = (of: Int32Array): number => {
    let mass = 0;
    for (let i = 0; i < n; i++) mass += of[i]!;
    return mass;
  };
  const better = (a: Member, b: Member): boolean => a.end < b.end || (a.end === b.end && a.mass < b.mass);
  const worstOf = (): Member => {
    let worst = members[0]!;
    for (const member of members) if (better(worst, member)) worst = member;
    return worst;
  };
  const enter = (of: Int32Array, end: number): void => {
    const mass = massOf(of);
    if (members.length < size) {
      const kept = new Int32Array(n);
      builder.byStart(of, kept);
      members.push({ list: kept, end, mass });
      return;
    }
    stale++;
    for (const member of members) if (member.end === end && member.mass === mass) return;
    const worst = worstOf();
    if (end > worst.end || (end === worst.end && mass >= worst.mass)) return;
    stale = 0;
    builder.byStart(of, worst.list);
    worst.end = end;
    worst.mass = mass;
  };

  const chosen = (): Member => {
    const a = members[draw(members.length)]!;
    const b = members[draw(members.length)]!;
    return better(a, b) ? a : b;
  };
  /** Hartmann's two-point crossover: the mother's order to the first cut and after the second, the father's between. */
  const cross = (mother: Member, father: Member): void => {
    const from = draw(n);
    const to = Math.min(n, from + 1 + draw(n));
    used.fill(0);
    let k = 0;
    for (; k < from; k++) {
      list[k] = mother.list[k]!;
      used[list[k]!] = 1;
    }
    for (let f = 0; f < n && k < to; f++) {
      const i = father.list[f]!;
      if (used[i] === 1) continue;
      used[i] = 1;
      list[k++] = i;
    }
    for (let m = from; m < n; m++) {
      const i = mother.list[m]!;
      if (used[i] === 1) continue;
      used[i] = 1;
      list[k++] = i;
    }
  };
  /** Neighbours change places here and there, where neither waits for the other. */
  const mutate = (): void => {
    for (let k = 1; k < n; k++) {
      if (draw(1000) >= 50) continue;
      const a = list[k - 1]!;
      const b = list[k]!;
      if (after[a]!.includes(b)) continue;
      list[k - 1] = b;
      list[k] = a;
    }
  };

  let born = 0;
  const step = (): number => {
    if (members.length < size) drawList(born > 0);
    else {
      if (stale > PATIENCE * size) {
        // A population that no longer changes has said what it knows: keep its best, start the rest anew.
        members.sort((a, b) => a.end - b.end || a.mass - b.mass);
        members = members.slice(0, 1);
        stale = 0;
        drawList(true);
      } else {
        const mother = chosen();
        let father = chosen();
        if (father === mother) father = members[draw(members.length)]!;
        cross(mother, father);
        mutate();
      }
    }
    born++;
    const end = settle();
    enter(starts, end);
    return end;
  };
  return { step, starts, admit: enter };
}
