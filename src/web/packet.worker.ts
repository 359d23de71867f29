import type { Cut } from '../core/bill/index.ts';
import type { CutProblemAnswer } from '../core/cutting/index.ts';
import { packetRegister, type RegisterEntry } from '../core/drawing/index.ts';
import { findOption, packetInput, sceneOf, settle } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import { paperOf } from './paper.ts';
import './strict.ts';

/** The register of the packet takes all its pages to be drawn, which is too long for the page itself. */
export interface ToRegister {
  readonly revision: number;
  readonly text: string;
  readonly option: string;
  readonly today: string;
  /** By the problem's key; what is missing counts as not cut. */
  readonly answers: readonly (CutProblemAnswer | undefined)[];
}
export interface FromRegister {
  readonly revision: number;
  readonly register: readonly RegisterEntry[];
}

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToRegister>) => void;
  postMessage: (message: FromRegister) => void;
};
scope.onmessage = ({ data: { revision, text, option: id, today, answers } }) => {
  const { plan } = readPlan(text, {});
  const option = plan && findOption(plan, id);
  if (!plan || !option) return;
  const scene = sceneOf(plan, option);
  const cuts = cutJobs(scene.parts, plan).flatMap((job, i): Cut[] => {
    const answer = answers[i];
    return answer ? [{ job, answer }] : [];
  });
  const input = packetInput(settle(scene, cuts, today), [], today);
  scope.postMessage({ revision, register: packetRegister(input, { paper: paperOf(plan) }) });
};
