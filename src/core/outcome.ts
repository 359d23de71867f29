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
  partMass,
  priceSteps,
  type StepsAsked,
  type Tally,
} from './bill/index.ts';
import { cameraNotes } from './camera/index.ts';
import { type Built, buildPiece, wallBehindPiece } from './casework/index.ts';
import { type Effort, solveLengths, solvePanels } from './cutting/index.ts';
import type { PacketInput } from './drawing/index.ts';
import { conflictNotes } from './fit/index.ts';
import type { Issue } from './issue/index.ts';
import { lightNotes } from './light/index.ts';
import type { Note } from './notes/index.ts';
import { nameOf, type Option, type Plan, printersFor } from './plan/index.ts';
import { powerNotes } from './power/index.ts';
import { type PlacedRoom, placePieces, placeRoom } from './room/index.ts';
import type { Fitting, Part, PartId, PlacedPiece } from './scene/index.ts';
import { wallNotes } from './setting-out/index.ts';
import { soundNotes } from './sound/index.ts';
import { type CutJob, cutJobs } from './stock/index.ts';
import { carryingNotes, strengthNotes } from './strength/index.ts';

/** The solids of one option: the room, every piece in its place, every part. What cannot be built is an issue. */
export interface Scene {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly parts: readonly Part[];
  readonly fittings: readonly Fitting[];
  readonly issues: readonly Issue[];
  readonly notes: readonly Note[];
}

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

/** Results kept for as long as what they were made from is. An edit makes new values, so `===` means there is nothing to redo. */
function remembered<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const kept = new WeakMap<K, V>();
  return (key) => {
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make(key);
    kept.set(key, made);
    return made;
  };
}

const placedRoom = remembered((room: Plan['room']) => placeRoom(room));

/** Plan and option → solids, parts, fittings, and notes on what is in whose way. */
export function sceneOf(plan: Plan, option: Option): Scene {
  const { room, issues } = placedRoom(plan.room);
  // told again in the plan's own units; the room itself has none
  const roomIssues = issues.length === 0 ? issues : placeRoom(plan.room, printersFor(plan.units).length).issues;
  const path = ['options', plan.options.indexOf(option)];
  const { places, alternatives, issues: placeIssues } = placePieces(option, room, path);
  const built: Built[] = [];
  for (const piece of option.pieces) {
    const placing = places.get(nameOf(piece));
    if (placing) built.push(buildPiece(piece, plan, placing, wallBehindPiece(room, placing)));
  }
  const pieces = built.map((b) => b.placed);
  const parts = pieces.flatMap((p) => p.parts);
  const wall = { plan, option, room, pieces, massOf: massesOf({ plan, parts }) };
  return {
    plan,
    option,
    room,
    pieces,
    parts,
    fittings: pieces.flatMap((p) => p.fittings),
    issues: [...roomIssues, ...placeIssues, ...built.flatMap((b) => b.issues)],
    notes: [
      ...conflictNotes(room, pieces, { show: printersFor(plan.units).length, alternatives }),
      ...strengthNotes(wall),
      ...carryingNotes(wall),
      ...wallNotes(wall),
    ],
  };
}

/** Cuts one job. The same effort in steps gives the same answer on every machine. */
export function cutJob(job: CutJob, effort: Partial<Effort> = {}): Cut {
  const full: Effort = { steps: USUAL_STEPS, ...effort };
  const answer = job.from === 'panel' ? solvePanels(job.problem, full) : solveLengths(job.problem, full);
  return { job, answer };
}

/** What the scene's parts cost to buy, with cutting plans made elsewhere (in a worker) or by `cutJob`. */
export function settle(scene: Scene, cuts: readonly Cut[], today: string, more: readonly Note[] = []): Outcome {
  const { plan, pieces, parts, fittings } = scene;
  // the cuts one person will make decide what is left over: the rack, the counts and the drawings tell the same story
  const takeApart = orderedCutUp(plan);
  const bill = makeBill({ plan, pieces, parts, fittings, cuts, takeApart, today });
  const notes = [...scene.notes, ...more, ...bill.notes];
  const tally = makeTally({ plan, pieces, parts, cuts, bill, notes, takeApart, massOf: massesOf(scene) });
  return { ...scene, cuts, bill, notes, tally };
}

/** kg of each part of a scene, worked out once. */
export function massesOf({ parts, plan }: Pick<Scene, 'parts' | 'plan'>): (part: PartId) => number | undefined {
  const masses = new Map(parts.map((part) => [part.id, partMass(part, plan)]));
  return (part) => masses.get(part);
}

/** Light, power, sound and camera of the finished set: too slow for every frame of a drag, so `settle` is given them. */
export const setNotes = (scene: Scene): readonly Note[] => [
  ...powerNotes(scene),
  ...lightNotes(scene),
  ...soundNotes(scene),
  ...cameraNotes(scene),
];

/** Plan and option → everything. */
export function workOut(plan: Plan, option: Option, { today, effort, onJob }: OutcomeOptions): Outcome {
  const scene = sceneOf(plan, option);
  const jobs = cutJobs(scene.parts, plan);
  const cuts = jobs.map((job, index) => {
    onJob?.(job, index, jobs.length);
    return cutJob(job, effort);
  });
  return settle(scene, cuts, today, setNotes(scene));
}

/** Options side by side, the first of them the one that the others are compared with. */
export const compareOutcomes = (outcomes: readonly Outcome[]): readonly Compared[] =>
  compareOptions(outcomes.map(({ option, tally }) => ({ id: option.id, title: option.title ?? option.id, tally })));

/** How the cost moves as one size, or the material, of one piece varies. */
export function stepsOf(
  plan: Plan,
  optionId: string,
  asked: StepsAsked,
  { today, effort }: OutcomeOptions,
): PriceSteps {
  // equal jobs come back again and again while one size varies: most materials do not see the change
  const known = new Map<string, Cut>();
  const evaluate = (changed: Plan, how: 'quick' | 'exact'): Evaluation => {
    const scene = sceneOf(changed, findOption(changed, optionId)!);
    if (scene.issues.length > 0) return { buys: new Map(), why: scene.issues[0]!.message };
    const cuts = cutJobs(scene.parts, changed).map((job): Cut => {
      const key = `${how} ${JSON.stringify(job.problem)}`;
      const cut = known.get(key) ?? cutJob(job, how === 'quick' ? { ...effort, steps: 0 } : effort);
      known.set(key, cut);
      return { job, answer: cut.answer };
    });
    return evaluationOf(settle(scene, cuts, today).bill, cuts, changed.stock.tax);
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
