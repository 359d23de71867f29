import { assembliesOf, type PieceAssembly } from '../../assembly/index.ts';
import { grouped } from '../../grouped.ts';
import { kerfOf } from '../../stock/index.ts';
import { type AlikeLayouts, alikeLayouts } from '../alike.ts';
import { cutPlan } from '../cut-plan.ts';
import type { LayoutPlan, Leftover } from '../input.ts';
import { type Desk, numberRuns } from './desk.ts';

/** A block as wide as a thumb can hold: 40 mm. Common practice. */
const BLOCK = 40;
/** Shorter pieces are not held by hand at a saw that runs, mm: 6 in. Common practice. */
const SHORT = 152;

/** Two blocks of one length that the assembly sets parts by, and what they are cut from. */
export interface SpacerPair {
  /** S1, S2 … */
  readonly mark: string;
  readonly distance: number;
  /** The steps that want it, by piece. */
  readonly uses: readonly { readonly of: PieceAssembly; readonly steps: readonly number[] }[];
  /** The layout whose rest it comes from, by its place in the list of panel layouts; undefined where no rest is large enough. */
  readonly layout?: number;
}

/** A panel layout as it is cut: its parts, then the spacers that come out of what is left. */
export interface CutLayout {
  readonly alike: AlikeLayouts;
  readonly name: string;
  readonly plan: LayoutPlan;
}

interface Cutting {
  readonly layouts: readonly CutLayout[];
  readonly spacers: readonly SpacerPair[];
}
const worked = new WeakMap<Desk, Cutting>();

/** The panel layouts of a packet with the order of their cuts, the spacers of its assembly among them: worked out once for all pages. */
export function cuttingOf(desk: Desk): Cutting {
  const known = worked.get(desk);
  if (known) return known;
  const made = workOut(desk);
  worked.set(desk, made);
  return made;
}

interface Rest {
  readonly layout: number;
  readonly at: number;
  readonly left: Leftover;
  /** Along its longer side, mm: less with every block taken from it. */
  long: number;
  readonly across: number;
}

function workOut(desk: Desk): Cutting {
  const { orderOf, plan: job, cuts } = desk.input;
  const kerf = kerfOf(job);
  const bare = alikeLayouts(cuts, 'panel').map((alike): CutLayout => {
    const { layout, parts: ids } = alike;
    const called = new Map(
      layout.placed.map((p, k) => [
        p.part,
        numberRuns(ids[k]!.flatMap((id) => desk.numbered().numberOf.get(id) ?? [])),
      ]),
    );
    const plan = orderOf?.(layout) ?? cutPlan(layout, job, desk.letter, (id) => called.get(id) ?? id);
    const name = job.stock.panels.find((p) => p.id === layout.stock)?.name ?? layout.stock;
    return { alike, name, plan };
  });
  // waste before what goes to the rack, and the smallest that will do
  const rests = bare
    .flatMap(({ plan }, layout) =>
      plan.left.map(
        (left, at): Rest => ({
          layout,
          at,
          left,
          long: Math.max(left.length, left.width),
          across: Math.min(left.length, left.width),
        }),
      ),
    )
    .filter((r) => r.across >= BLOCK)
    .sort(
      (a, b) =>
        Number(a.left.name !== undefined) - Number(b.left.name !== undefined) ||
        a.long * a.across - b.long * b.across ||
        a.layout - b.layout,
    );
  const wanted = grouped(
    assembliesOf(desk.input).flatMap((of) =>
      of.plan.spacers.filter((s) => s.from === 'spacer').map((s) => ({ ...s, of })),
    ),
    (s) => desk.letter.length(s.distance),
  );
  const taken = new Map<number, { readonly rest: Rest; readonly pair: SpacerPair }[]>();
  const spacers = [...wanted.values()].map((list, i): SpacerPair => {
    const { distance } = list[0]!;
    const rest = takeFrom(rests, distance, kerf);
    const pair: SpacerPair = {
      mark: `S${i + 1}`,
      distance,
      uses: [...grouped(list, (s) => s.of).entries()].map(([of, own]) => ({
        of,
        steps: [...new Set(own.flatMap((s) => s.steps))],
      })),
      ...(rest && { layout: rest.layout }),
    };
    if (rest) taken.set(rest.layout, [...(taken.get(rest.layout) ?? []), { rest, pair }]);
    return pair;
  });
  return {
    spacers,
    layouts: bare.map((own, k) => {
      const from = taken.get(k);
      return from ? { ...own, plan: withSpacers(desk, own.plan, from) } : own;
    }),
  };
}

/** Takes two blocks of a length out of the first rest that has them: one after another along it, or a strip across it cut in two. */
function takeFrom(rests: readonly Rest[], distance: number, kerf: number): Rest | undefined {
  const along = 2 * (distance + kerf);
  const strips = 2 * (BLOCK + kerf);
  const found = rests.find((r) => r.long >= along) ?? rests.find((r) => r.across >= distance && r.long >= strips);
  if (found) found.long -= found.long >= along ? along : strips;
  return found;
}

function withSpacers(
  { letter }: Desk,
  plan: LayoutPlan,
  from: readonly { readonly rest: Rest; readonly pair: SpacerPair }[],
): LayoutPlan {
  const last = plan.steps.at(-1)?.number ?? 0;
  const marksAt = (at: number): string =>
    from
      .filter(({ rest }) => rest.at === at)
      .map(({ pair }) => pair.mark)
      .join(', ');
  return {
    steps: [
      ...plan.steps,
      ...from.map(({ rest, pair }, i) => ({
        number: last + 1 + i,
        tool: 'Crosscut',
        words: `two spacers ${pair.mark} ${letter.figure(pair.distance)} long, ${letter.figure(BLOCK)} wide or more, out of the ${rest.left.name === undefined ? 'waste' : rest.left.name} marked ${marksAt(rest.at)}`,
        ...(pair.distance < SHORT && { heed: 'too short to hold at a machine: by hand saw in a mitre box' }),
        ...(i === 0 && { heading: 'Spacers for the assembly' }),
      })),
    ],
    left: plan.left.map((l, at) => (marksAt(at) === '' ? l : { ...l, spacers: marksAt(at) })),
  };
}
