import { solveProblem } from '../core/cutting/index.ts';
import { drawLive, isLivePage, noSpots, type Page, type PageView } from '../core/drawing/index.ts';
import { sceneFrom } from '../core/findings.ts';
import type { Note } from '../core/notes/index.ts';
import { findOption, type Outcome, packetInput } from '../core/outcome.ts';
import { applyToPlain, type Edit, type Plan, paperOf, planOf, sharing } from '../core/plan/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { firstPages } from './first-pages.ts';
import type { Cutting, FromHand, Lying, Pane, Standing, ToHand, Told } from './hand-protocol.ts';
import { keepAnswer, keepRough, unknownOf, work } from './work.ts';

/** Paints what is under the hand; nothing, when nothing is. */
export type Show = (page?: Page, pane?: Pane) => void;

/**
 * What is under the hand, worked out, told and then drawn beside the page. What an edit leaves as it was is not made anew, and not told
 * again.
 */
export function serveHand(show: Show, answer: (message: FromHand) => void): (message: ToHand) => void {
  let lying: Lying | undefined;
  let plan: Plan | undefined;
  /** As they lie on the bench. */
  let base: Pick<Outcome, 'option' | 'pieces'> | undefined;
  let notes: readonly Note[] = [];
  /** Where balloons stand as they lie there: under the hand they are not to wander about. */
  let spots = noSpots();

  /** What there is to say, and what draws it. */
  function workedOut(
    { plain, ...bench }: Lying,
    edits: readonly Edit[],
  ): readonly [Told, (hold?: PageView) => Page | undefined] | undefined {
    if (!isLivePage(bench.page)) return undefined;
    const changed = applyToPlain(plain, edits);
    const { plan: read } = changed.ok ? planOf(changed.value) : {};
    if (!read) return undefined;
    plan = plan ? sharing(plan, read) : read;
    const option = findOption(plan, bench.option);
    if (!option) return undefined;
    const cutting: Cutting = unknownOf(plan, option, sceneFrom).map((problem) => [
      problem,
      solveProblem(problem, { steps: 0 }),
    ]);
    for (const [problem, answer] of cutting) keepRough(problem, answer);
    const { outcome } = work(plan, option, bench.today, sceneFrom, bench.found);
    base ??= outcome;
    const { pieces } = base;
    const said = base.option.pieces;
    const places = new Map(notes.map((note, i) => [note.id, i]));
    // most notes say the same again, in words of their own
    const told = outcome.notes.map((note) => {
      const at = places.get(note.id);
      return at === undefined ? note : sharing(notes[at], note);
    });
    const state: Told = {
      tally: outcome.tally,
      pieces: option.pieces.flatMap((piece, i) => (piece === said[i] ? [] : [[i, piece] as const])),
      standing: outcome.pieces.filter((piece, i) => piece.kind !== 'trim' && piece !== pieces[i]).map(standing),
      notes: told.map((note) => {
        const at = places.get(note.id);
        return at !== undefined && notes[at] === note ? at : note;
      }),
      cutting,
    };
    notes = told;
    const paper = paperOf(plan);
    const draw = (hold?: PageView): Page | undefined => {
      const register = bench.register.length > 0 ? bench.register : firstPages(outcome);
      const options = { paper, spots, ...(hold && { hold }) };
      return drawLive(packetInput(outcome, [], bench.today), options, register, bench.page);
    };
    return [state, draw];
  }

  return (message) => {
    const { revision, ...held } = message;
    if (held.type === 'lies') {
      ({ lying } = held);
      notes = [];
      base = undefined;
      spots = noSpots();
      for (const [problem, answer] of lying.cutting) keepAnswer(problem, answer, false);
      show();
    }
    const { edits, hold, pane } = held.type === 'held' ? held : { edits: [] };
    const [told, draw] = (lying && workedOut(lying, edits)) ?? [];
    answer({ type: 'told', revision, told });
    // what is only lying there is drawn too: the first step of a hand finds most of it made
    const page = draw?.(hold);
    if (page && pane) show(page, pane);
    answer({ type: 'done', revision, painted: page !== undefined && pane !== undefined });
  };
}

const standing = ({ parts: _, joints: __, fittings: ___, ...piece }: PlacedPiece): Standing => piece;
