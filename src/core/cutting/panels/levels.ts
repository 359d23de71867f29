import type { Model } from './model.ts';
import { heldBy, type Pattern, type Plan, planOf } from './pattern.ts';

/** More parts than this are not written down for one sheet. */
const MOST_ON_ONE = 100_000;

/**
 * What a plan leaves out, cut in levels: parts side by side in strips, strips one above the other, the widest first. For a search that is
 * told to stop before its first fill is done: this takes little more than writing the parts down.
 *
 * Source: Coffman, Garey, Johnson & Tarjan, "Performance bounds for level-oriented two-dimensional packing algorithms", SIAM Journal
 * on Computing 9, 1980 (next fit, decreasing height).
 */
export function completedInLevels(model: Model, plan: Plan): Plan {
  const rest = Int32Array.from(model.kinds, (kind) => kind.count);
  const stockLeft = Int32Array.from(model.sheets, (sheet) => sheet.count);
  for (const { pattern, times } of plan.layouts) {
    const { kinds, counts } = heldBy(pattern);
    for (let n = 0; n < kinds.length; n++) rest[kinds[n]!] = rest[kinds[n]!]! - counts[n]! * times;
    stockLeft[pattern.sheet] = stockLeft[pattern.sheet]! - times;
  }
  const price = model.sheets.map((sheet) => sheet.cost / (sheet.length * sheet.width));
  const byPrice = model.sheets.map((_, s) => s).sort((a, b) => price[a]! - price[b]! || a - b);
  const layouts: { readonly pattern: Pattern; readonly times: number }[] = [...plan.layouts];

  /** Length and width as it lies. */
  const lying = (kind: number, turn: number): readonly [number, number] => {
    const { length, width } = model.kinds[kind]!;
    return turn === 1 ? [width, length] : [length, width];
  };
  const ways = (kind: number): readonly number[] => (model.kinds[kind]!.turn ? [0, 1] : [0]);
  const fits = (kind: number, turn: number, sheet: number): boolean => {
    const [l, w] = lying(kind, turn);
    return l <= model.sheets[sheet]!.length && w <= model.sheets[sheet]!.width;
  };
  const sheetFor = (kind: number): number | undefined =>
    byPrice.find((s) => stockLeft[s]! > 0 && ways(kind).some((turn) => fits(kind, turn, s)));

  // The sheet being filled: its strips, where the last one ends, how wide it is, and where the next begins.
  let sheet = -1;
  let strips: number[][] = [];
  let [along, wide, across] = [0, 0, 0];
  const close = (): void => {
    if (strips.length > 0) layouts.push({ pattern: { sheet, code: codeOfStrips(strips) }, times: 1 });
    strips = [];
    sheet = -1;
  };
  const put = (kind: number): boolean => {
    if (sheet < 0) return false;
    const { length: L, width: W } = model.sheets[sheet]!;
    for (const turn of ways(kind)) {
      const [l, w] = lying(kind, turn);
      if (w <= wide && along + l <= L) {
        strips.at(-1)!.push(kind * 2 + turn);
        along += l;
        return true;
      }
      if (l <= L && across + w <= W) {
        strips.push([kind * 2 + turn]);
        [along, wide, across] = [l, w, across + w];
        return true;
      }
    }
    return false;
  };
  /** As many sheets full of one kind as it is wanted for; returns how many parts are on them. */
  const whole = (kind: number, left: number): number => {
    const s = sheetFor(kind);
    if (s === undefined) return 0;
    const turn = ways(kind).find((way) => fits(kind, way, s))!;
    const [l, w] = lying(kind, turn);
    const columns = Math.min(Math.floor(model.sheets[s]!.length / l), MOST_ON_ONE);
    const rows = Math.min(Math.floor(model.sheets[s]!.width / w), Math.ceil(MOST_ON_ONE / columns));
    const times = Math.min(Math.floor(left / (columns * rows)), stockLeft[s]!);
    if (times === 0) return 0;
    const strip = new Array<number>(columns).fill(kind * 2 + turn);
    const code = codeOfStrips(new Array<number[]>(rows).fill(strip));
    layouts.push({ pattern: { sheet: s, code }, times });
    stockLeft[s] = stockLeft[s]! - times;
    return times * columns * rows;
  };

  let missing = 0;
  const order = model.kinds.map((_, k) => k).filter((k) => rest[k]! > 0);
  order.sort((a, b) => model.kinds[b]!.width - model.kinds[a]!.width || a - b);
  for (const kind of order) {
    let left = rest[kind]!;
    for (let done = whole(kind, left); done > 0; done = whole(kind, left)) left -= done;
    for (; left > 0; left--) {
      if (put(kind)) continue;
      close();
      const next = sheetFor(kind);
      if (next === undefined) break;
      sheet = next;
      stockLeft[next] = stockLeft[next]! - 1;
      [along, wide, across] = [0, 0, 0];
      put(kind);
    }
    missing += left;
  }
  close();
  return planOf(model, layouts, missing);
}

/** Rows of one are no rows. */
function codeOfStrips(strips: readonly (readonly number[])[]): Int32Array {
  const rows = strips.flatMap((strip) => (strip.length === 1 ? strip : [-1 - 2 * strip.length, ...strip]));
  return Int32Array.from(strips.length === 1 ? rows : [-1 - (2 * strips.length + 1), ...rows]);
}
