import { memo, useEffect, useLayoutEffect, useRef } from 'preact/compat';
import type { Page } from '../core/drawing/index.ts';
import { type SvgParts, svgParts } from '../print/svg.ts';
import { useBench } from './bench.ts';
import { WRITTEN } from './paper.ts';

/** One sheet as it prints. What belongs to what is selected is marked on it. One that a worker drew comes written already. */
export const SheetSvg = memo(function SheetSvg({ page, parts }: { readonly page: Page; readonly parts?: SvgParts }) {
  const host = useRef<HTMLDivElement>(null);
  const shown = useRef<Shown>(undefined);
  const selected = useBench((b) => b.selected);
  const note = useBench((b) => b.note);

  useLayoutEffect(() => {
    if (host.current) shown.current = draw(host.current, shown.current, parts ?? svgParts(page, WRITTEN));
  }, [page, parts]);
  // a new drawing has to be marked again
  useEffect(() => {
    for (const group of host.current?.querySelectorAll('[data-about]') ?? []) {
      const about = group.getAttribute('data-about')!;
      group.classList.toggle('selected', about === note || isWithin(about, selected));
    }
  }, [page, selected, note]);

  return <div ref={host} className="sheet-host" />;
});

/** A part belongs to its piece: selecting the piece marks them all. */
const isWithin = (about: string, selected: string | undefined): boolean =>
  selected !== undefined && (about === selected || about.startsWith(`${selected}/`));

interface Shown {
  readonly parts: SvgParts;
  readonly svg: Element;
  /** One group for each mark. */
  readonly nodes: Element[];
}
const grouped = (marks: readonly string[]): string => marks.map((mark) => `<g>${mark}</g>`).join('');

/**
 * Puts a page in its place. While a piece is dragged most marks stay as they are, and so do their elements: what changed is put in anew,
 * and the browser has to lay out and paint only that. All of it is our own drawing, every text in it escaped where it is written.
 */
function draw(host: HTMLElement, before: Shown | undefined, parts: SvgParts): Shown {
  if (!before || before.svg.parentNode !== host || before.parts.head !== parts.head) {
    host.innerHTML = `${parts.head}${grouped(parts.marks)}${parts.tail}`;
    const svg = host.firstElementChild!;
    return { parts, svg, nodes: [...svg.children].slice(-parts.marks.length) };
  }
  const { svg, nodes } = before;
  const [old, now] = [before.parts.marks, parts.marks];
  const least = Math.min(old.length, now.length);
  let from = 0;
  while (from < least && old[from] === now[from]) from++;
  let kept = 0;
  while (kept < least - from && old[old.length - 1 - kept] === now[now.length - 1 - kept]) kept++;
  const [oldEnd, end] = [old.length - kept, now.length - kept];
  const same = oldEnd === end;
  const at = Array.from({ length: end - from }, (_, i) => from + i).filter((i) => !same || old[i] !== now[i]);
  const box = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  box.innerHTML = grouped(at.map((i) => now[i]!));
  const made = [...box.children];
  if (same) {
    at.forEach((i, k) => {
      nodes[i]!.replaceWith(made[k]!);
      nodes[i] = made[k]!;
    });
    return { parts, svg, nodes };
  }
  const after = nodes[oldEnd] ?? null;
  for (const node of nodes.slice(from, oldEnd)) node.remove();
  for (const node of made) svg.insertBefore(node, after);
  return { parts, svg, nodes: [...nodes.slice(0, from), ...made, ...nodes.slice(oldEnd)] };
}
