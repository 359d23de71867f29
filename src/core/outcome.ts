import { helpedShares } from './assembly/index.ts';
import {
  type Bill,
  type Compared,
  type Cut,
  compareOptions,
  type Evaluation,
  evaluationOf,
  makeBill,
  makeTally,
  orderedCutUp,
  type PriceSteps,
  priceSteps,
  type StepsAsked,
  type Tally,
} from './bill/index.ts';
import { type CalendarInput, calendarFor, calendarNotes } from './calendar/index.ts';
import { type Effort, solveLengths, solvePanels } from './cutting/index.ts';
import type { PacketInput } from './drawing/index.ts';
import { type Scene, sceneFrom } from './findings.ts';
import type { Note } from './notes/index.ts';
import type { Option, Plan } from './plan/index.ts';
import { type SetFindings, setFindings, setFittings } from './set-findings.ts';
import { massesOf, solidsOf } from './solids.ts';
import { type CutJob, cutJobs } from './stock/index.ts';

export type { Scene } from './findings.ts';
export { type SetFindings, setFindings, setFittings, setNotes } from './set-findings.ts';
export { massesOf, type Solids, solidsOf } from './solids.ts';

/** Everything the plan says about one option. */
export interface Outcome extends Scene {
  readonly cuts: readonly Cut[];
  readonly bill: Bill;
  /** Of the scene, the cutting and the bill together. */
  readonly notes: readonly Note[];
  readonly tally: Tally;
}

export interface OutcomeOptions {
  /** The day it is reckoned, 2026-10-02: prices grow old. The core has no clock of its own. */
  readonly today: string;
  readonly effort?: Partial<Effort>;
  /** Called before each cutting job, for whoever shows progress. */
  readonly onJob?: (job: CutJob, index: number, count: number) => void;
}

/** Search steps for the cutting plans of a plan, unless more are asked for: enough for a proof or a small gap at workshop sizes. */
export const USUAL_STEPS = 2_000;

/** The plan's option of this name; left out, the one that is to be built. Undefined when there is none of that name. */
export function findOption(plan: Plan, id?: string): Option | undefined {
  const wanted = id ?? plan.build;
  return wanted === undefined ? plan.options[0] : plan.options.find((option) => option.id === wanted);
}

/** Plan and option → solids, parts, fittings, and notes on what is in whose way. */
export const sceneOf = (plan: Plan, option: Option): Scene => sceneFrom(solidsOf(plan, option));

/** Cuts one job. The same effort in steps gives the same answer on every machine. */
export function cutJob(job: CutJob, effort: Partial<Effort> = {}): Cut {
  const full: Effort = { steps: USUAL_STEPS, ...effort };
  const answer = job.from === 'panel' ? solvePanels(job.problem, full) : solveLengths(job.problem, full);
  return { job, answer };
}

/** What the scene's parts cost to buy, with cutting plans made elsewhere (in a worker) or by `cutJob`, and what the finished set needs. */
export function settle(
  scene: Scene,
  cuts: readonly Cut[],
  today: string,
  found: SetFindings = { notes: [], fittings: [] },
): Outcome {
  const { plan, pieces, parts } = scene;
  const fittings = [...scene.fittings, ...found.fittings];
  // the cuts one person will make decide what is left over: the rack, the counts and the drawings tell the same story
  const takeApart = orderedCutUp(plan);
  const bill = makeBill({ plan, pieces, parts, fittings, cuts, takeApart, today });
  const notes = [...scene.notes, ...found.notes, ...bill.notes];
  const tally = makeTally({ plan, pieces, parts, cuts, bill, notes, takeApart, massOf: massesOf(scene) });
  return { ...scene, fittings, cuts, bill, notes, tally };
}

/** Plan and option → everything. */
export function workOut(plan: Plan, option: Option, { today, effort, onJob }: OutcomeOptions): Outcome {
  const scene = sceneOf(plan, option);
  const jobs = cutJobs(scene.parts, plan);
  const cuts = jobs.map((job, index) => {
    onJob?.(job, index, jobs.length);
    return cutJob(job, effort);
  });
  const settled = settle(scene, cuts, today, setFindings(scene));
  return withNotes(settled, dateNotes(settled, today));
}

/** What the dates are worth saying of: only of the option that is built, since nobody dates the others. */
export function dateNotes(outcome: Outcome, today: string): readonly Note[] {
  if (outcome.plan.dates.start === undefined || outcome.option !== findOption(outcome.plan)) return [];
  const input = calendarInput(outcome, today);
  return calendarNotes(input, calendarFor(input));
}

/** An outcome as the calendar wants it: with what each part weighs and which steps of the assembly want two people. */
export function calendarInput(outcome: Outcome, today: string): CalendarInput {
  const massOf = massesOf(outcome);
  return { ...outcome, massOf, helpedShare: helpedShares({ ...outcome, massOf }), today };
}

/** The same with more notes, and their count. */
export function withNotes(outcome: Outcome, more: readonly Note[]): Outcome {
  if (more.length === 0) return outcome;
  const notes = [...outcome.notes, ...more];
  const count = (verdict: Note['verdict']): number => notes.filter((n) => n.verdict === verdict).length;
  return {
    ...outcome,
    notes,
    tally: { ...outcome.tally, stops: count('stop'), cautions: count('caution'), fines: count('fine') },
  };
}

/** Options side by side, the first of them the one that the others are compared with. */
export const compareOutcomes = (outcomes: readonly Outcome[]): readonly Compared[] =>
  compareOptions(outcomes.map(({ option, tally }) => ({ id: option.id, title: option.title ?? option.id, tally })));

/** How the cost moves as one size, or the material, of one piece varies. */
export function stepsOf(
  plan: Plan,
  optionId: string,
  asked: StepsAsked,
  { today, effort, onReckoned }: OutcomeOptions & { readonly onReckoned?: (count: number) => void },
): PriceSteps {
  // equal jobs come back again and again while one size varies: most materials do not see the change
  const known = new Map<string, Cut>();
  let count = 0;
  const evaluate = (changed: Plan, how: 'quick' | 'exact'): Evaluation => {
    count += 1;
    onReckoned?.(count);
    const scene = sceneOf(changed, findOption(changed, optionId)!);
    if (scene.issues.length > 0) return { buys: new Map(), why: scene.issues[0]!.message };
    const cuts = cutJobs(scene.parts, changed).map((job): Cut => {
      const key = `${how} ${JSON.stringify(job.problem)}`;
      const cut = known.get(key) ?? cutJob(job, how === 'quick' ? { ...effort, steps: 0 } : effort);
      known.set(key, cut);
      return { job, answer: cut.answer };
    });
    const found = { notes: [], fittings: setFittings(scene) };
    return evaluationOf(settle(scene, cuts, today, found).bill, cuts, changed.stock.tax);
  };
  return priceSteps(plan, optionId, asked, evaluate);
}

/** An outcome as the pages of the packet want it, compared with the plan's other options. */
export function packetInput(outcome: Outcome, others: readonly Outcome[], today: string): PacketInput {
  return {
    ...outcome,
    workings: [outcome.tally.massWorking, outcome.tally.hoursWorking],
    others: others.map((other) => ({ title: other.option.title ?? other.option.id, tally: other.tally })),
    massOf: massesOf(outcome),
    date: today,
  };
}
