import './strict.ts';
import type { PriceSteps, StepsAsked } from '../core/bill/index.ts';
import { stepsOf } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';

export interface ToSteps {
  readonly revision: number;
  readonly text: string;
  readonly option: string;
  readonly asked: StepsAsked;
  readonly today: string;
}
export type FromSteps = { readonly revision: number } & (
  | { readonly type: 'done'; readonly steps: PriceSteps }
  | { readonly type: 'crashed'; readonly message: string }
);

/** Search steps for each point of the chart: many points, so each gets little. */
const EFFORT = 200;
const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToSteps>) => void;
  postMessage: (message: FromSteps) => void;
};
scope.onmessage = ({ data: { revision, text, option, asked, today } }) => {
  const { plan } = readPlan(text, {});
  if (!plan) return;
  try {
    const steps = stepsOf(plan, option, asked, { today, effort: { steps: EFFORT } });
    scope.postMessage({ revision, type: 'done', steps });
  } catch (error) {
    scope.postMessage({ revision, type: 'crashed', message: error instanceof Error ? error.message : String(error) });
  }
};
