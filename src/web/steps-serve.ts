import { stepsOf } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import type { FromSteps, ToSteps } from './steps-protocol.ts';

/**
 * The price steps beside the page, with the effort of the tally: one that finds less good plans shows steps that are not there. Most sizes
 * are proven at once, so that less would hardly be sooner.
 */
export function serveSteps({ revision, text, option, asked, today }: ToSteps): FromSteps | undefined {
  const { plan } = readPlan(text, {});
  if (!plan) return undefined;
  try {
    return { revision, type: 'done', steps: stepsOf(plan, option, asked, { today }) };
  } catch (error) {
    return { revision, type: 'crashed', message: error instanceof Error ? error.message : String(error) };
  }
}
