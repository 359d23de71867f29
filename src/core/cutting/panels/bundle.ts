import { codeOf, joined, type Tree } from './guillotine.ts';
import type { Model } from './model.ts';
import type { Pattern, Plan } from './pattern.ts';

/** Parts smaller than this share of a sheet are cut as blocks of equal parts when there are many. */
const SHARE = 1 / 400;
/** A block is no longer than this share of the shortest sheet. */
const SIDE = 1 / 6;

/**
 * Thousands of little parts on one sheet would be moved one by one for ever: equal ones are put together to blocks, solved as
 * blocks, and taken apart again. `unbundle` gives the plan of the model itself. Only plans carry over: what is proven for blocks
 * is not proven for their parts. Null when there is nothing to put together.
 */
export function bundle(model: Model): { readonly model: Model; readonly unbundle: (plan: Plan) => Plan } | null {
  const largest = Math.max(...model.sheets.map((sheet) => sheet.length * sheet.width));
  const shortest = Math.min(...model.sheets.map((sheet) => Math.min(sheet.length, sheet.width)));
  const blocks: { readonly kind: number; readonly columns: number; readonly rows: number; readonly count: number }[] =
    [];
  model.kinds.forEach((kind, k) => {
    const wanted = Math.floor((largest * SHARE) / (kind.length * kind.width));
    const most = (size: number): number => Math.max(1, Math.floor((shortest * SIDE) / size));
    const columns = Math.min(
      most(kind.length),
      Math.max(1, Math.round(Math.sqrt((wanted * kind.width) / kind.length))),
    );
    const rows = Math.min(most(kind.width), Math.max(1, Math.floor(wanted / columns)));
    const size = columns * rows;
    const whole = size > 1 ? Math.floor(kind.count / size) : 0;
    if (whole > 0) blocks.push({ kind: k, columns, rows, count: whole });
    if (kind.count - whole * size > 0) blocks.push({ kind: k, columns: 1, rows: 1, count: kind.count - whole * size });
  });
  if (blocks.every((block) => block.columns * block.rows === 1)) return null;
  const sized = blocks
    .map((block) => {
      const kind = model.kinds[block.kind]!;
      return { block, length: kind.length * block.columns, width: kind.width * block.rows };
    })
    .sort((a, b) => b.length * b.width - a.length * a.width);

  const expand = (pattern: Pattern): Pattern => {
    let at = 0;
    const read = (): Tree => {
      const item = pattern.code[at++]!;
      if (item < 0) {
        const what = -1 - item;
        let tree: Tree | null = null;
        for (let left = what >> 1; left > 0; left--) tree = joined((what & 1) as 0 | 1, tree, read());
        return tree!;
      }
      const { block } = sized[item >> 1]!;
      const turn = item & 1;
      let column: Tree | null = null;
      for (let n = turn === 0 ? block.rows : block.columns; n > 0; n--)
        column = joined(1, column, block.kind * 2 + turn);
      let tree: Tree | null = null;
      for (let n = turn === 0 ? block.columns : block.rows; n > 0; n--) tree = joined(0, tree, column);
      return tree!;
    };
    return pattern.code.length === 0 ? pattern : { sheet: pattern.sheet, code: Int32Array.from(codeOf(read())) };
  };
  return {
    model: {
      ...model,
      total: blocks.reduce((sum, block) => sum + block.count, 0),
      kinds: sized.map(({ block, length, width }) => {
        const { members, turn } = model.kinds[block.kind]!;
        return { members, length, width, count: block.count, turn: turn && length !== width };
      }),
    },
    unbundle: (plan) => ({
      ...plan,
      layouts: plan.layouts.map(({ pattern, times }) => ({ pattern: expand(pattern), times })),
    }),
  };
}
