import { lift, lower, remainder } from './columns.ts';
import type { Model } from './model.ts';
import { type Pattern, type Plan, planOf } from './pattern.ts';
import { ruinAndRecreate, TUNING } from './ruin-and-recreate.ts';

/** Sheets and parts a last tidying looks at, and its steps. */
const SHEETS = 6;
const PARTS = 120;
export const TIDY_STEPS = 1500;
/** It has not long, and sets out from a good plan. */
const CALM = { ...TUNING, hot: 0.003, cold: 0.0002, cycle: TIDY_STEPS };

/**
 * The same cost with better leftovers: the parts of the emptiest sheets, as far as each is cut only once, are moved among these
 * sheets until what is left over lies together. Then every pattern is put in order, see `ordered`.
 */
export function tidy(model: Model, plan: Plan, seed: number, steps: number, stop: () => boolean): Plan {
  const fullness = (pattern: Pattern): number => {
    const { length, width } = model.sheets[pattern.sheet]!;
    let area = 0;
    for (const c of pattern.code) if (c >= 0) area += model.kinds[c >> 1]!.length * model.kinds[c >> 1]!.width;
    return area / (length * width);
  };
  const single = plan.layouts
    .filter((layout) => layout.times === 1)
    .map((layout) => ({ layout, full: fullness(layout.pattern) }))
    .sort((a, b) => a.full - b.full);
  const chosen: Plan['layouts'][number][] = [];
  let parts = 0;
  for (const { layout } of single) {
    parts += partsOf(layout.pattern).length;
    if (chosen.length >= SHEETS || (chosen.length > 0 && parts > PARTS)) break;
    chosen.push(layout);
  }
  let layouts = plan.layouts;
  if (steps > 0 && !stop() && plan.missing === 0 && chosen.length > 0) {
    const rest = new Int32Array(model.kinds.length);
    for (const { pattern } of chosen) for (const k of partsOf(pattern)) rest[k] = rest[k]! + 1;
    const stockLeft = Int32Array.from(model.sheets, (sheet) => sheet.count);
    for (const layout of plan.layouts)
      if (!chosen.includes(layout)) stockLeft[layout.pattern.sheet] = stockLeft[layout.pattern.sheet]! - layout.times;
    const sub = remainder(model, rest, stockLeft);
    const from = planOf(
      sub.model,
      chosen.map(({ pattern }) => ({ pattern: lower(sub, pattern), times: 1 })),
    );
    const search = ruinAndRecreate(sub.model, from, 0, seed, CALM, 'tidier');
    // A single sheet of very many parts takes long for each step.
    const turn = parts > PARTS ? 2 : 25;
    for (let spent = 0; spent < Math.min(steps, TIDY_STEPS) && !stop(); spent += turn) search.advance(turn);
    layouts = [...plan.layouts.filter((layout) => !chosen.includes(layout)), ...lift(sub, search.best())];
  }
  return planOf(
    model,
    layouts
      .map((layout) => ({ ...layout, pattern: ordered(model, layout.pattern), full: fullness(layout.pattern) }))
      .sort((a, b) => a.pattern.sheet - b.pattern.sheet || b.full - a.full)
      .map(({ pattern, times }) => ({ pattern, times })),
    plan.missing,
  );
}

const partsOf = (pattern: Pattern): number[] => [...pattern.code].filter((code) => code >= 0).map((code) => code >> 1);

/**
 * The children of every row from the deepest to the shallowest, equal ones side by side: the fence moves one way, equal strips
 * are cut at one setting, and what is left beside them lies together.
 */
export function ordered(model: Model, pattern: Pattern): Pattern {
  interface Tree {
    readonly code: readonly number[];
    readonly x: number;
    readonly y: number;
  }
  let at = 0;
  const read = (): Tree => {
    const item = pattern.code[at++]!;
    if (item >= 0) {
      const { length, width } = model.kinds[item >> 1]!;
      return (item & 1) === 1 ? { code: [item], x: width, y: length } : { code: [item], x: length, y: width };
    }
    const what = -1 - item;
    const children: Tree[] = [];
    for (let left = what >> 1; left > 0; left--) children.push(read());
    const alongX = (what & 1) === 0;
    if (alongX) children.sort((a, b) => b.y - a.y || b.x - a.x || compare(a.code, b.code));
    else children.sort((a, b) => b.x - a.x || b.y - a.y || compare(a.code, b.code));
    const code = [item];
    let [x, y] = [0, 0];
    for (const child of children) {
      for (const c of child.code) code.push(c);
      x = alongX ? x + child.x : Math.max(x, child.x);
      y = alongX ? Math.max(y, child.y) : y + child.y;
    }
    return { code, x, y };
  };
  return pattern.code.length === 0 ? pattern : { sheet: pattern.sheet, code: Int32Array.from(read().code) };
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return a.length - b.length;
}
