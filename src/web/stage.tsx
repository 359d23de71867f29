import { type ReactNode, useLayoutEffect, useRef } from 'preact/compat';
import type { Page } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import type { SvgParts } from '../print/svg.ts';
import { useBench } from './bench.ts';
import { useHand } from './hand.ts';
import { Handles } from './holds.tsx';
import { SheetSvg } from './sheet-svg.tsx';
import { regionOf, Sight } from './sight.tsx';

/** A sheet with, over its views of the room, everything that can be taken hold of. */
export function Stage({
  page,
  parts,
  outcome,
  foot,
}: {
  readonly page: Page;
  readonly parts?: SvgParts;
  readonly outcome: Outcome;
  readonly foot: ReactNode;
}) {
  const { view } = page;
  return (
    <Sight page={page} region={regionOf(page, outcome.room)} foot={foot}>
      <Picker page={page} {...(parts && { parts })} />
      {view && <Painted />}
      {view && <Handles page={page} view={view} outcome={outcome} />}
    </Sight>
  );
}

/** A click on the drawing itself picks what was drawn there: a part, a note's balloon, an outlet. */
function Picker(sheet: { readonly page: Page; readonly parts?: SvgParts }) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: everything that can be picked here stands in lists beside the drawing too
    // biome-ignore lint/a11y/noStaticElementInteractions: picking on the picture is a short cut
    <div
      onClick={(event) => {
        const about = (event.target as Element).closest('[data-about]')?.getAttribute('data-about') ?? undefined;
        if (about?.includes(':')) useBench.setState({ note: about });
        else useBench.setState({ selected: about, note: undefined });
      }}
    >
      <SheetSvg {...sheet} />
    </div>
  );
}

/** What is held, as a worker paints it, over the drawing of what lies there. */
function Painted() {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useHand((hand) => hand.canvas);
  const shown = useHand((hand) => hand.drawn !== undefined);
  const covers = useHand((hand) => hand.covers);
  useLayoutEffect(() => {
    if (canvas) host.current!.replaceChildren(canvas);
  }, [canvas]);
  useLayoutEffect(() => {
    host.current!.closest<HTMLElement>('.paper')!.toggleAttribute('data-covered', covers);
  }, [covers]);
  return <div className="painted" ref={host} data-shown={shown || undefined} aria-hidden="true" />;
}
