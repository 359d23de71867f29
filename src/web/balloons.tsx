import { useEffect, useRef } from 'preact/compat';
import type { Page } from '../core/drawing/index.ts';
import { useBench } from './bench.ts';
import { useHand } from './hand.ts';

/** The balloons of the notes once more, over the frame of the piece that is chosen, and what it strikes through: words and numbers on its edge stay legible. */
export function Balloons({ page }: { readonly page: Page }) {
  const own = useRef<SVGSVGElement>(null);
  const selected = useBench((b) => b.selected);
  const note = useBench((b) => b.note);
  const dragging = useBench((b) => b.dragging);
  // what is held is drawn elsewhere
  const still = !useHand((h) => h.beside) && !dragging;
  useEffect(() => {
    const all = own.current?.closest('.paper')?.querySelectorAll('.sheet-host [data-about*=":"]') ?? [];
    const here = own.current;
    if (!here) return;
    here.replaceChildren(...[...struck(here), ...all].map((drawn) => drawn.cloneNode(true)));
    for (const pull of here.parentElement!.querySelectorAll<HTMLElement>('.pull')) clear(pull, here);
  }, [page, selected, note, still]);
  return still ? (
    <svg ref={own} className="sheet balloons" viewBox={`0 0 ${page.width} ${page.height}`} aria-hidden="true" />
  ) : null;
}

/** How far the frame reaches out of what is chosen, px. */
const FRAME = 4;
/** The words on the sheet that the frame runs through. */
function struck(here: Element): readonly Element[] {
  const paper = here.parentElement!.closest('.paper');
  const frame = paper?.querySelector('.hold.chosen')?.getBoundingClientRect();
  if (!paper || !frame) return [];
  return [...paper.querySelectorAll('.sheet-host text')].filter((text) => {
    if (text.closest('[data-about*=":"]')) return false;
    const { left, right, top, bottom } = text.getBoundingClientRect();
    const touches = (by: number): boolean =>
      left < frame.right + by && frame.left - by < right && top < frame.bottom + by && frame.top - by < bottom;
    const isInside = frame.left < left && right < frame.right && frame.top < top && bottom < frame.bottom;
    return touches(FRAME) && !isInside;
  });
}

/** Half of the square that a side is pulled by, px. */
const SQUARE = 7;
/** Moves the square along its side to where no balloon covers it. */
function clear(pull: HTMLElement, balloons: Element): void {
  const { left, top, width, height } = pull.getBoundingClientRect();
  const isLevel = /pull-(top|bottom|front)/.test(pull.className);
  const circles = [...balloons.querySelectorAll('circle')].map((circle) => circle.getBoundingClientRect());
  const free = [0.5, 0.25, 0.75].find((at) => {
    const [x, y] = isLevel ? [left + at * width, top + height / 2] : [left + width / 2, top + at * height];
    const near = (from: number, to: number, z: number): boolean => from - SQUARE < z && z < to + SQUARE;
    return circles.every((c) => !near(c.left, c.right, x) || !near(c.top, c.bottom, y));
  });
  pull.style.setProperty('--at', `${100 * (free ?? 0.5)}%`);
}
