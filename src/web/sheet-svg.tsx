import { memo, useEffect, useLayoutEffect, useRef } from 'preact/compat';
import type { Page } from '../core/drawing/index.ts';
import { type SvgParts, svgParts } from '../print/svg.ts';
import { useBench } from './bench.ts';
import { isMarkedBy } from './marked.ts';
import { WRITTEN } from './paper.ts';
import { type Change, patchTo } from './redraw.ts';

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
    const isMarked = isMarkedBy(selected, note);
    for (const group of host.current?.querySelectorAll('[data-about]') ?? [])
      group.classList.toggle('selected', isMarked(group.getAttribute('data-about')!));
  }, [page, selected, note]);

  return <div ref={host} className="sheet-host" />;
});

interface Shown {
  readonly parts: SvgParts;
  readonly svg: Element;
  /** One for each mark. */
  readonly nodes: Element[];
}
/** A mark of one element is that element itself. */
const isOne = (mark: string): boolean => mark.startsWith('<g ') || mark.match(/<(?:path|circle|text)\b/g)?.length === 1;
const grouped = (marks: readonly string[]): string =>
  marks.map((mark) => (isOne(mark) ? mark.trimEnd() : `<g>${mark}</g>`)).join('');

/**
 * Puts a page in its place. While a piece is dragged most marks stay as they are, and so do their elements; of those that changed most only
 * get other figures. The browser has to lay out and paint only that. All of it is our own drawing, every text in it escaped where it is
 * written.
 */
function draw(host: HTMLElement, before: Shown | undefined, parts: SvgParts): Shown {
  if (!before || before.svg.parentNode !== host || before.parts.head !== parts.head) {
    host.innerHTML = `${parts.head}${grouped(parts.marks)}${parts.tail}`;
    const svg = host.firstElementChild!;
    return { parts, svg, nodes: [...svg.children].slice(-parts.marks.length) };
  }
  const { svg } = before;
  const old = before.parts.marks;
  const { from, marks } = patchTo(old, parts.marks);
  const missing = marks.flatMap(([, mark, changes]) => (changes ? [] : [mark]));
  const box = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  if (missing.length > 0) box.innerHTML = grouped(missing);
  const made = [...box.children].values();
  const left = new Set(from);
  for (const [j, node] of before.nodes.entries()) if (!left.has(j)) node.remove();
  // from the last on: what a new element stands before is there already
  const nodes = from.map((j) => (j < 0 ? made.next().value! : before.nodes[j]!));
  let after: Element | null = null;
  for (let i = nodes.length - 1; i >= 0; i--) {
    const node = nodes[i]!;
    if (from[i]! < 0) svg.insertBefore(node, after);
    after = node;
  }
  for (const [i, mark, changes] of marks) if (changes) alter(nodes[i]!, mark, changes);
  return { parts, svg, nodes };
}

function alter(root: Element, now: string, changes: readonly Change[]): void {
  const within = root.getElementsByTagName('*');
  const elements = isOne(now) ? [root, ...within] : within;
  for (const { element, attribute, value } of changes) {
    const node = elements[element]!;
    if (attribute === undefined) node.textContent = value;
    else node.setAttribute(attribute, value);
  }
}
