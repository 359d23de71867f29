import type { Page, PageView } from '../core/drawing/index.ts';
import type { Extent } from './handles.ts';

/** Where a view's own u and v, mm, lie on its sheet: in hundredths of that. */
export const onSheet = ({ width, height }: Page, { origin, ratio }: PageView) => ({
  x: (u: number): number => ((origin.x + u / ratio) / width) * 100,
  y: (v: number): number => ((origin.y + v / ratio) / height) * 100,
});

/** Where an extent of a view lies on its sheet, as `left top width height`. */
export function placeOf(page: Page, view: PageView, { u, v }: Extent): string {
  const { x, y } = onSheet(page, view);
  return [x(u[0]), y(v[0]), x(u[1]) - x(u[0]), y(v[1]) - y(v[0])].map((share) => `${share}%`).join(' ');
}

const lain = new WeakMap<HTMLElement, string>();
/** Lays an element there through its style: the content policy allows no style in the page. */
export function layAt(node: HTMLElement | null, at: string): void {
  if (!node || lain.get(node) === at) return;
  lain.set(node, at);
  const [left, top, width, height] = at.split(' ');
  Object.assign(node.style, { left, top, width, height });
}
