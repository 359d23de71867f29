import { memo, useEffect, useMemo, useRef } from 'react';
import type { Page } from '../core/drawing/index.ts';
import { toSvg } from '../print/svg.ts';
import { useBench } from './bench.ts';

/** One sheet as it prints. What belongs to what is selected is marked on it. */
export const SheetSvg = memo(function SheetSvg({ page }: { readonly page: Page }) {
  const host = useRef<HTMLDivElement>(null);
  const selected = useBench((b) => b.selected);
  const note = useBench((b) => b.note);
  const svg = useMemo(() => toSvg(page, { theme: 'host', decimals: 2 }), [page]);

  // a new drawing has to be marked again
  useEffect(() => {
    for (const group of host.current?.querySelectorAll('[data-about]') ?? []) {
      const about = group.getAttribute('data-about')!;
      group.classList.toggle('selected', about === note || isWithin(about, selected));
    }
  }, [svg, selected, note]);

  // our own drawing, every text in it escaped by toSvg
  return <div ref={host} className="sheet-host" dangerouslySetInnerHTML={{ __html: svg }} />;
});

/** A part belongs to its piece: selecting the piece marks them all. */
const isWithin = (about: string, selected: string | undefined): boolean =>
  selected !== undefined && (about === selected || about.startsWith(`${selected}/`));
