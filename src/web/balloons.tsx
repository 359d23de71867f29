import { useEffect, useRef } from 'preact/compat';
import type { Page } from '../core/drawing/index.ts';
import { useBench } from './bench.ts';
import { useHand } from './hand.ts';

/** The balloons of the notes once more, over the frame of the piece that is chosen: a number that stands on its edge stays legible. */
export function Balloons({ page }: { readonly page: Page }) {
  const own = useRef<SVGSVGElement>(null);
  const selected = useBench((b) => b.selected);
  const note = useBench((b) => b.note);
  const dragging = useBench((b) => b.dragging);
  // what is held is drawn elsewhere
  const still = !useHand((h) => h.beside) && !dragging;
  useEffect(() => {
    const all = own.current?.closest('.paper')?.querySelectorAll('.sheet-host [data-about*=":"]') ?? [];
    own.current?.replaceChildren(...[...all].map((balloon) => balloon.cloneNode(true)));
  }, [page, selected, note, still]);
  return still ? (
    <svg ref={own} className="sheet balloons" viewBox={`0 0 ${page.width} ${page.height}`} aria-hidden="true" />
  ) : null;
}
