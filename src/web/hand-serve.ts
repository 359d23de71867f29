import { solveProblem } from '../core/cutting/index.ts';
import { drawLive, type PageView } from '../core/drawing/index.ts';
import { sceneFrom } from '../core/findings.ts';
import type { Note } from '../core/notes/index.ts';
import { findOption, packetInput } from '../core/outcome.ts';
import { applyToPlain, type Edit, type Plan, planOf, sharing } from '../core/plan/index.ts';
import { svgParts } from '../print/svg.ts';
import { firstPages } from './first-pages.ts';
import type { Cutting, FromHand, Lying, ToHand, Told } from './hand-protocol.ts';
import { paperOf, WRITTEN } from './paper.ts';
import { patchTo } from './redraw.ts';
import { keepAnswer, keepRough, unknownOf, work } from './work.ts';

/** What is under the hand, worked out and drawn beside the page. What an edit leaves as it was is not made anew, and not told again. */
export function serveHand(): (message: ToHand) => FromHand {
  let lying: Lying | undefined;
  let plan: Plan | undefined;
  let marks: readonly string[] = [];
  let notes: readonly Note[] = [];

  function tell({ plain, ...bench }: Lying, edits: readonly Edit[], hold: PageView | undefined): Told | undefined {
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
    const register = bench.register.length > 0 ? bench.register : firstPages(outcome);
    const options = { paper: paperOf(plan), ...(hold && { hold }) };
    const page = drawLive(packetInput(outcome, [], bench.today), options, register, bench.page);
    if (!page) return undefined;
    const { marks: now, ...around } = svgParts(page, WRITTEN);
    const places = new Map(notes.map((note, i) => [note.id, i]));
    // most notes say the same again, in words of their own
    const said = outcome.notes.map((note) => {
      const at = places.get(note.id);
      return at === undefined ? note : sharing(notes[at], note);
    });
    const told: Told = {
      page: { ...page, marks: [] },
      around,
      patch: patchTo(marks, now),
      tally: outcome.tally,
      notes: said.map((note) => {
        const at = places.get(note.id);
        return at !== undefined && notes[at] === note ? at : note;
      }),
      cutting,
    };
    marks = now;
    notes = said;
    return told;
  }

  return (message) => {
    const { revision } = message;
    if (message.type === 'lies') {
      ({ lying } = message);
      [marks, notes] = [[], []];
      for (const [problem, answer] of lying.cutting) keepAnswer(problem, answer, false);
      return { revision, told: tell(lying, [], undefined) };
    }
    return { revision, told: lying && tell(lying, message.edits, message.hold) };
  };
}
