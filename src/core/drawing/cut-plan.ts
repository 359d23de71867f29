import { cutUp, isKept } from '../bill/index.ts';
import type { RealLayout } from '../stock/index.ts';
import type { LayoutPlan } from './input.ts';
import type { Desk } from './pages/desk.ts';

/** What is left of a layout, the pieces worth keeping named A, B, C …, largest first. */
export function cutPlan({ input }: Desk, layout: RealLayout): LayoutPlan {
  const keep = input.plan.shop.keep ?? 150;
  let kept = 0;
  const left = cutUp(layout).rests.map((rest) =>
    isKept(rest, layout.from, keep) ? { ...rest, name: `offcut ${letterOf(kept++)}` } : rest,
  );
  return { steps: [], left };
}

/** A, B … Z, AA, AB … */
export const letterOf = (n: number): string =>
  (n >= 26 ? letterOf(Math.floor(n / 26) - 1) : '') + String.fromCharCode(65 + (n % 26));
