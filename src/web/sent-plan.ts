import type { Cut } from '../core/bill/index.ts';
import type { CutProblemAnswer } from '../core/cutting/index.ts';
import { findOption, type Scene, sceneOf } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';

/** A plan as the page sends it to a worker beside it. */
export interface SentPlan {
  readonly text: string;
  readonly option: string;
  /** In the order of the cutting jobs. */
  readonly answers: readonly CutProblemAnswer[];
}

/** What was sent, built again here, with the cuts that are known; undefined when it cannot be read. */
export function builtFrom({
  text,
  option: id,
  answers,
}: SentPlan): { readonly scene: Scene; readonly cuts: readonly Cut[] } | undefined {
  const { plan } = readPlan(text, {});
  const option = plan && findOption(plan, id);
  if (!plan || !option) return undefined;
  const scene = sceneOf(plan, option);
  const cuts = cutJobs(scene.parts, plan).flatMap((job, i): Cut[] => {
    const answer = answers[i];
    return answer ? [{ job, answer }] : [];
  });
  return { scene, cuts };
}
