import { type MouseEvent, useEffect, useMemo, useRef } from 'react';
import type { Page } from '../core/drawing/index.ts';
import { toSvg } from '../print/svg.ts';
import { useBench } from './bench.ts';

/** One sheet as it prints. What belongs to a piece, a part or a note can be picked. */
export function SheetView({ page }: { readonly page: Page }) {
  const host = useRef<HTMLDivElement>(null);
  const selected = useBench((b) => b.selected);
  const svg = useMemo(() => toSvg(page, { theme: 'host', decimals: 2 }), [page]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing has to be marked again
  useEffect(() => {
    for (const group of host.current?.querySelectorAll('[data-about]') ?? [])
      group.classList.toggle('selected', group.getAttribute('data-about') === selected);
  }, [svg, selected]);

  const pick = (event: MouseEvent) => {
    const group = (event.target as Element).closest('[data-about]');
    useBench.setState({ selected: group?.getAttribute('data-about') ?? undefined });
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: everything that can be picked here stands in the list of pieces too
    // biome-ignore lint/a11y/noStaticElementInteractions: the drawing itself is the picture; picking is a shortcut
    // biome-ignore lint/security/noDangerouslySetInnerHtml: our own drawing, every text in it escaped by toSvg
    <div ref={host} className="sheet-host" onClick={pick} dangerouslySetInnerHTML={{ __html: svg }} />
  );
}
