import { orderFor } from '../core/bill/index.ts';
import { partNumbers } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { printersFor } from '../core/plan/index.ts';
import { type RealLayout, realLayouts, stockName } from '../core/stock/index.ts';
import { printOf } from './history.ts';
import type { Worked } from './work.ts';

/** One cut as it is called out in the shop, and what to tick it off by. */
export interface ShopCut {
  readonly about: string;
  readonly number: number;
  readonly tool: string;
  /** What the fence or the stop is set to. */
  readonly setting: string;
  readonly words: string;
  /** Which side of the cut lies against fence or stop, as the layout is drawn. */
  readonly side?: string;
  /** What is on the saw, on the layout. */
  readonly piece?: { readonly x: number; readonly y: number; readonly length: number; readonly width: number };
  /** What one person or this saw should not do. */
  readonly heed: readonly string[];
  readonly line?: { readonly from: Point; readonly to: Point };
  /** Parts that are free after this cut. */
  readonly frees: readonly string[];
}
interface Point {
  readonly x: number;
  readonly y: number;
}
export interface ShopLayout {
  readonly id: string;
  readonly title: string;
  readonly layout: RealLayout;
  readonly cuts: readonly ShopCut[];
}

const KINDS = { trim: 'Trim', rip: 'Rip', crosscut: 'Crosscut' } as const;

/**
 * What may be cut by: nobody is to saw by a plan that a better one is about to take the place of. Where the findings did not come, the
 * mouldings are not known. They are cut from boards: the panels will be cut as they are now, the boards perhaps not.
 */
export function certainCuts({ outcome, waiting, whole }: Worked, missing: boolean): Outcome | undefined {
  if (whole) return waiting.length === 0 ? outcome : undefined;
  if (!missing || waiting.some((problem) => problem.kind === 'panels')) return undefined;
  return { ...outcome, cuts: outcome.cuts.filter(({ job }) => job.from === 'panel') };
}

/**
 * The day's cuts, layout by layout, in the order one person makes them. A tick is about a layout's own content, so that an edit which
 * leaves a layout as it is leaves its ticks.
 */
export function shopDay(outcome: Outcome, whole: boolean): readonly ShopLayout[] {
  const print = printersFor(outcome.plan.units);
  const numbers = new Map(partNumbers(outcome.pieces).map(({ part, number }) => [part.id, number]));
  const called = (part: string): string => {
    const known = outcome.parts.find((p) => p.id === part);
    return known ? `${numbers.get(part) ?? ''} ${known.label.name}` : part;
  };
  const all = outcome.cuts.flatMap(({ job, answer }) => realLayouts(job, answer));
  return all.map((layout, i): ShopLayout => {
    const id = printOf(JSON.stringify([layout.stock, layout.length, layout.width, layout.placed]));
    const title = `${stockName(outcome.plan.stock, layout.stock)}, ${whole ? `${i + 1} of ${all.length}` : i + 1}${
      layout.source.kind === 'rack' ? ', from the rack' : ''
    }`;
    const order = orderFor(outcome.plan, layout);
    const cuts: readonly ShopCut[] = order
      ? order.steps.map((step) => ({
          about: `cut:${id}:${step.number}`,
          number: step.number,
          tool: step.tool,
          setting: print.length(step.setting),
          words: `${KINDS[step.kind]}, ${step.against} at`,
          side: `${sideOf(step)} side ${step.against === 'mark' ? 'is measured' : `against the ${step.against}`}`,
          piece: step.piece,
          heed: step.warnings.map((warning) => heedOf(warning, print)),
          line: step.line,
          frees: step.gives.flatMap((piece) => (piece.is === 'part' ? [called(piece.name!)] : [])),
        }))
      : crosscuts(layout, id, print.length, called);
    return { id, title, layout, cuts };
  });
}

/** Shorter than any saw takes off, mm. */
const NOTHING = 0.01;
/** Of a board, one after each part. What ends where the board does comes free with the part before it. */
function crosscuts(
  layout: RealLayout,
  id: string,
  show: (mm: number) => string,
  called: (part: string) => string,
): readonly ShopCut[] {
  const placed = [...layout.placed].sort((a, b) => a.x - b.x);
  const isRest = ({ x, length }: (typeof placed)[number]) => layout.length - layout.trim - x - length < NOTHING;
  const cut = placed.filter((part) => !isRest(part));
  return cut.map(({ x, length, part }, n) => ({
    about: `cut:${id}:${n + 1}`,
    number: n + 1,
    tool: 'mitre saw',
    setting: show(length),
    words: 'Crosscut, stop at',
    heed: [],
    line: { from: { x: x + length, y: 0 }, to: { x: x + length, y: layout.width } },
    frees: [part, ...(n === cut.length - 1 ? placed.filter(isRest).map((rest) => rest.part) : [])].map(called),
  }));
}

type Step = NonNullable<ReturnType<typeof orderFor>>['steps'][number];

function sideOf({ line, side }: Step): string {
  const upright = line.from.x === line.to.x;
  if (upright) return side === 'low' ? 'Left' : 'Right';
  return side === 'low' ? 'Upper' : 'Lower';
}

function heedOf(
  { what, is, limit }: Step['warnings'][number],
  { mass, length }: ReturnType<typeof printersFor>,
): string {
  if (what === 'mass') return `Two people: ${mass(is)}, over ${mass(limit)}.`;
  if (what === 'reach') return `Two people: ${length(is)} long.`;
  if (what === 'track') return `${length(is)} to cut, the track does ${length(limit)}.`;
  return `Fence at ${length(is)}, the saw goes to ${length(limit)}.`;
}
