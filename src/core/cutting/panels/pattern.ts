import type { Model } from './model.ts';

/**
 * One sheet cut in one way. `code` is the tree in preorder: a part is 2·kind + turn, a row −1 − (2·children + axis), where
 * axis 0 lays the children side by side along x and 1 along y.
 */
export interface Pattern {
  readonly sheet: number;
  readonly code: Int32Array;
}
/** A plan: patterns with how often each is cut. No part is on it more often than asked for. */
export interface Plan {
  readonly cost: number;
  /** Parts that are on no sheet; 0 in a whole plan. */
  readonly missing: number;
  readonly layouts: readonly { readonly pattern: Pattern; readonly times: number }[];
}

/** How many of each kind a pattern holds. */
export function kindsOf(pattern: Pattern, kinds: number): Int32Array {
  const counts = new Int32Array(kinds);
  for (const code of pattern.code) if (code >= 0) counts[code >> 1] = counts[code >> 1]! + 1;
  return counts;
}

/** The kinds a pattern holds, ascending, with how many of each. Costs what the pattern is long, however many kinds there are. */
export function heldBy(pattern: Pattern): { readonly kinds: Int32Array; readonly counts: Int32Array } {
  const held = pattern.code.filter((code) => code >= 0).sort();
  let distinct = 0;
  const counts = new Int32Array(held.length);
  for (let i = 0; i < held.length; i++) {
    const kind = held[i]! >> 1;
    if (distinct === 0 || held[distinct - 1] !== kind) held[distinct++] = kind;
    counts[distinct - 1] = counts[distinct - 1]! + 1;
  }
  return { kinds: held.slice(0, distinct), counts: counts.slice(0, distinct) };
}

/** One pattern given several times is one layout: methods that take a pattern out of a plan then meet it once. */
export function planOf(model: Model, layouts: Plan['layouts'], missing = 0): Plan {
  const times = new Map<Pattern, number>();
  for (const layout of layouts) times.set(layout.pattern, (times.get(layout.pattern) ?? 0) + layout.times);
  return {
    missing,
    cost: layouts.reduce((sum, layout) => sum + model.sheets[layout.pattern.sheet]!.cost * layout.times, 0),
    layouts: [...times].map(([pattern, count]) => ({ pattern, times: count })),
  };
}

/** The better of two plans: the one with fewer parts missing, then the cheaper, then the first. */
export const better = (a: Plan, b: Plan): Plan =>
  b.missing < a.missing || (b.missing === a.missing && b.cost < a.cost) ? b : a;

export interface Placed {
  readonly kind: number;
  readonly turn: boolean;
  readonly x: number;
  readonly y: number;
}

/** Where everything lies, rows pushed towards the origin. */
export function placements(model: Model, pattern: Pattern): readonly Placed[] {
  const { code } = pattern;
  const placed: Placed[] = [];
  let at = 0;
  const walk = (x: number, y: number): readonly [number, number] => {
    const item = code[at++]!;
    if (item >= 0) {
      const kind = model.kinds[item >> 1]!;
      const turn = (item & 1) === 1;
      placed.push({ kind: item >> 1, turn, x, y });
      return turn ? [kind.width, kind.length] : [kind.length, kind.width];
    }
    const what = -1 - item;
    let along = 0;
    let across = 0;
    for (let left = what >> 1; left > 0; left--) {
      const [length, width] = (what & 1) === 0 ? walk(x + along, y) : walk(x, y + along);
      along += (what & 1) === 0 ? length : width;
      across = Math.max(across, (what & 1) === 0 ? width : length);
    }
    return (what & 1) === 0 ? [along, across] : [across, along];
  };
  if (code.length > 0) walk(0, 0);
  return placed;
}

/** Length and width of what a tree of cuts holds. */
export function extentOf(model: Model, code: Int32Array): readonly [number, number] {
  let at = 0;
  const walk = (): readonly [number, number] => {
    const item = code[at++]!;
    if (item >= 0) {
      const { length, width } = model.kinds[item >> 1]!;
      return (item & 1) === 1 ? [width, length] : [length, width];
    }
    const what = -1 - item;
    let [x, y] = [0, 0];
    for (let left = what >> 1; left > 0; left--) {
      const [length, width] = walk();
      x = (what & 1) === 0 ? x + length : Math.max(x, length);
      y = (what & 1) === 0 ? Math.max(y, width) : y + width;
    }
    return [x, y];
  };
  return code.length === 0 ? [0, 0] : walk();
}
