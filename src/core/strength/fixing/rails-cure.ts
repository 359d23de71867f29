import { addsFault, buildPiece, DEFAULTS, railGroove } from '../../casework/index.ts';
import type { Note } from '../../notes/index.ts';
import type { CasePiece, Edit, Path, Piece } from '../../plan/index.ts';
import { formatSold, mm } from '../../quantity/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { exact, imperial, massesLike, type Subject, set, type WallInput } from '../plan-input.ts';
import { isHung } from './carried.ts';
import { strongerScrews } from './fastener.ts';
import { fixingFor } from './held.ts';
import { AS_THEY_ARE, fixEdits, rowsInRails } from './more-cure.ts';
import { holdsWell } from './point.ts';
import { railNotes, railsOf } from './rails.ts';

/** A case as it would be built with rails behind its back, and what to write in the plan for that. */
export interface Railed {
  readonly at: 'top' | 'both';
  readonly built: PlacedPiece;
  readonly said: CasePiece;
  /** The same scene, with the masses of what is built. */
  readonly weighed: WallInput;
  readonly edits: readonly Edit[];
}

/** A case with strips of the carcass panel behind its back, and the back in a groove before them: low ones, then high ones. */
export function* railed(input: WallInput, subject: Subject): Generator<Railed> {
  const { placed, path, said } = subject;
  if (!('case' in said) || railsOf(placed).length > 0) return;
  const { plan } = input;
  const panel = plan.stock.panels.find((p) => p.id === (said.make?.panel ?? plan.make.panel));
  const kind = said.make?.back?.kind ?? plan.make.back?.kind ?? DEFAULTS.back;
  if (!panel || kind === 'none') return;
  const deep = railGroove(plan, said, panel.id)!;
  const back = { ...said.make?.back, kind: 'grooved', inset: deep } as const;
  const placing = { frame: placed.frame, ...(placed.wall && { wall: placed.wall }) };
  const asIs = buildPiece(said, plan, placing);
  // what stands is held at its top alone
  const at = isHung(input, subject) ? 'both' : 'top';
  for (const height of [undefined, HIGH]) {
    const rails = { stock: panel.id, at, ...(height && { height: mm(height) }) };
    const made = { ...said, rails, make: { ...said.make, back } } as CasePiece;
    const otherwise = buildPiece(made, plan, placing);
    if (addsFault(asIs, otherwise)) continue;
    const built = otherwise.placed;
    yield {
      at,
      built,
      said: made,
      weighed: { ...input, massOf: massesLike(input, placed, [built]) },
      edits: [
        set([...path, 'rails'], {
          stock: panel.id,
          ...(height && { height: exact(input, height) }),
          ...(at === 'top' && { at }),
        }),
        ...grooved(path, said, exact(input, deep)),
      ],
    };
  }
}

/** Rails for the fixings of a case to go through. */
export function railsCure(input: WallInput, subject: Subject): Note['cure'] {
  const { path, said } = subject;
  const { heights: _, ...own } = said.fix ?? { kind: undefined, heights: undefined };
  for (const { at, built, said: made, weighed, edits } of railed(input, subject))
    for (const { words, heights } of [AS_THEY_ARE, ...rowsInRails(input, built)])
      for (const screw of [...(heights && !said.fix ? [] : [undefined]), ...strongerScrews(input, subject)]) {
        const sort = screw ?? (said.fix && { kind: said.fix.kind });
        const fix = sort && ({ ...own, ...sort, ...(heights && { heights }) } as Piece['fix']);
        const tried: Subject = { placed: built, path, said: { ...made, fix } as Piece };
        const held = fixingFor(weighed, tried);
        // what hangs on the rails is the same whatever screws go through them
        if (!held || isStop(railNotes(weighed, tried, held))) break;
        if (!holdsWell(held)) continue;
        const inch = imperial(input);
        return {
          title: `Put ${at === 'top' ? 'a hanging rail' : 'hanging rails'} behind its back and screw it through ${at === 'top' ? 'it' : 'them'}${screw ? ` with ${screw.kind}s ${formatSold(screw.diameter, inch)} × ${formatSold(screw.length, inch)}` : ''}${words && `, ${words}`}`,
          edits: [
            ...edits,
            ...(said.fix?.heights && !heights ? [{ op: 'remove' as const, path: [...path, 'fix', 'heights'] }] : []),
            ...(screw || heights ? fixEdits(input, subject, sort!, { heights }) : []),
          ],
        };
      }
  return undefined;
}
/** Of rails that want a third screw at each end, mm. */
const HIGH = 160;

export const isStop = (notes: readonly Note[]): boolean => notes.some(({ verdict }) => verdict === 'stop');

/** The back of one case in a groove so far from its rear edges. */
function grooved(path: Path, { make }: CasePiece, inset: string): readonly Edit[] {
  const words = { kind: 'grooved', inset };
  if (!make) return [set([...path, 'make'], { back: words })];
  if (!make.back) return [set([...path, 'make', 'back'], words)];
  return Object.entries(words).map(([key, value]) => set([...path, 'make', 'back', key], value));
}
