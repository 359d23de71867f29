import { isKept } from '../bill/index.ts';
import type { RealLayout } from '../stock/index.ts';
import type { CutStep, LayoutPlan, Leftover } from './input.ts';

interface Region {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}
interface Lying {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  /** What it is called in the words of a step. */
  readonly called: string;
}
export interface CutWords {
  readonly length: (mm: number) => string;
  /** What the part at each place of the layout is called. */
  readonly called: (place: number) => string;
  /** Joins what lies on one side of a cut. */
  readonly together: (names: readonly string[]) => string;
  /** Offcuts with a side at least this long are kept, mm. */
  readonly keep: number;
}

/** Sums of lengths are off by no more than this, mm: a fortieth of a tick. */
const SLACK = 1 / 25_600;

/**
 * One order of cuts for a layout, where nothing better is handed in: edges trimmed, then from each piece the largest free strip, then
 * a cut between parts, and so on with both halves; every cut goes from edge to edge of the piece it is made in. Offcuts are named
 * A, B, C … as they come off. No steps where the layout cannot be cut so.
 */
export function cutPlan(layout: RealLayout, words: CutWords): LayoutPlan {
  const { kerf, trim, from } = layout;
  const steps: CutStep[] = [];
  const left: Leftover[] = [];
  let kept = 0;
  let possible = true;
  const step = (tool: string, said: string, line?: CutStep['line']): void => {
    steps.push({ number: steps.length + 1, tool, words: said, ...(line && { line }) });
  };
  const leave = ({ x0, y0, x1, y1 }: Region): string => {
    const rest = { x: x0, y: y0, length: x1 - x0, width: y1 - y0 };
    if (rest.length <= SLACK || rest.width <= SLACK) return 'nothing';
    const name = isKept(rest, from, words.keep) ? `offcut ${letterOf(kept++)}` : undefined;
    left.push(name === undefined ? rest : { ...rest, name });
    return name ?? 'waste';
  };
  /** A cut across (at one x) or along (at one y) through the middle of the blade's path. */
  const cut = (r: Region, axis: 'x' | 'y', at: number, said: string): void => {
    const mid = at + kerf / 2;
    if (axis === 'x') step('Across', said, { from: { x: mid, y: r.y0 }, to: { x: mid, y: r.y1 } });
    else step('Along', said, { from: { x: r.x0, y: mid }, to: { x: r.x1, y: mid } });
  };
  const names = (parts: readonly Lying[]): string => words.together(parts.map((p) => p.called));

  const take = (region: Region, parts: readonly Lying[]): void => {
    let r = region;
    for (let strip = largestStrip(r, parts); strip; strip = largestStrip(r, parts)) {
      const { side, gap } = strip;
      const off = Math.max(0, gap - kerf);
      const keeps = (side === 'right' || side === 'left' ? r.x1 - r.x0 : r.y1 - r.y0) - gap;
      const at = { right: r.x1 - gap, top: r.y1 - gap, left: r.x0 + off, bottom: r.y0 + off }[side];
      const gone = {
        right: { ...r, x0: r.x1 - off },
        top: { ...r, y0: r.y1 - off },
        left: { ...r, x1: r.x0 + off },
        bottom: { ...r, y1: r.y0 + off },
      }[side];
      const before = r;
      r = {
        right: { ...r, x1: r.x1 - gap },
        top: { ...r, y1: r.y1 - gap },
        left: { ...r, x0: r.x0 + gap },
        bottom: { ...r, y0: r.y0 + gap },
      }[side];
      const rest = leave(gone);
      cut(before, side === 'right' || side === 'left' ? 'x' : 'y', at, `${words.length(keeps)}, ${rest} off`);
    }
    if (parts.length < 2) return;
    const split = gapIn(parts, 'x', kerf) ?? gapIn(parts, 'y', kerf);
    if (!split) {
      possible = false;
      return;
    }
    const { axis, at, before, after } = split;
    const start = axis === 'x' ? r.x0 : r.y0;
    cut(r, axis, at, `${words.length(at - start)}: ${names(before)} | ${names(after)}`);
    take(axis === 'x' ? { ...r, x1: at } : { ...r, y1: at }, before);
    take(axis === 'x' ? { ...r, x0: at + kerf } : { ...r, y0: at + kerf }, after);
  };

  if (trim > 0) step('Trim', `${words.length(trim)} off each edge`);
  const whole: Region = { x0: trim, y0: trim, x1: layout.length - trim, y1: layout.width - trim };
  const lying = layout.placed.map((p, i) => ({ ...p, called: words.called(i) }));
  if (lying.length === 0) leave(whole);
  else take(whole, lying);
  return possible ? { steps, left } : { steps: [], left };
}

/** The free strip of the largest area along an edge, where there is one. */
function largestStrip(
  r: Region,
  parts: readonly Lying[],
): { readonly side: 'right' | 'top' | 'left' | 'bottom'; readonly gap: number } | undefined {
  const strips = [
    { side: 'right', gap: r.x1 - Math.max(...parts.map((p) => p.x + p.length)), long: r.y1 - r.y0 },
    { side: 'top', gap: r.y1 - Math.max(...parts.map((p) => p.y + p.width)), long: r.x1 - r.x0 },
    { side: 'left', gap: Math.min(...parts.map((p) => p.x)) - r.x0, long: r.y1 - r.y0 },
    { side: 'bottom', gap: Math.min(...parts.map((p) => p.y)) - r.y0, long: r.x1 - r.x0 },
  ] as const;
  const free = strips.filter((s) => s.gap > SLACK);
  return free.length === 0 ? undefined : free.reduce((a, b) => (b.gap * b.long > a.gap * a.long ? b : a));
}

/** The first gap along an axis that no part reaches across and that holds the blade. */
function gapIn(parts: readonly Lying[], axis: 'x' | 'y', kerf: number) {
  const size = axis === 'x' ? 'length' : 'width';
  const sorted = parts.toSorted((a, b) => a[axis] - b[axis]);
  let reach = Number.NEGATIVE_INFINITY;
  for (let i = 0; i + 1 < sorted.length; i++) {
    reach = Math.max(reach, sorted[i]![axis] + sorted[i]![size]);
    if (sorted[i + 1]![axis] >= reach + kerf - SLACK)
      return { axis, at: reach, before: sorted.slice(0, i + 1), after: sorted.slice(i + 1) };
  }
  return undefined;
}

/** A, B … Z, AA, AB … */
export const letterOf = (n: number): string =>
  (n >= 26 ? letterOf(Math.floor(n / 26) - 1) : '') + String.fromCharCode(65 + (n % 26));
