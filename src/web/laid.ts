import type { Page, PageView } from '../core/drawing/index.ts';
import type { Extent } from './handles.ts';

/** Where an extent of a view lies on its sheet, as shares of that: `left top width height`. */
export function placeOf(page: Page, view: PageView, { u, v }: Extent): string {
  const x = (r: number) => ((view.origin.x + r / view.ratio) / page.width) * 100;
  const y = (r: number) => ((view.origin.y + r / view.ratio) / page.height) * 100;
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
