import { quickLight } from '../core/light/index.ts';
import { findOption, solidsOf } from '../core/outcome.ts';
import { applyToPlain, type PlainValue, type Plan, planOf, sharing } from '../core/plan/index.ts';
import { soundOf } from '../core/sound/index.ts';
import type { FromGlance, Glance, ToGlance } from './glance-protocol.ts';

/** Light and sound under the hand. What an edit leaves as it was is not built anew. */
export function serveGlance(): (message: ToGlance) => FromGlance {
  let plain: PlainValue | undefined;
  let last: Plan | undefined;
  return (message) => {
    const { revision } = message;
    if (message.type === 'plan') {
      plain = message.plain;
      last = undefined;
    }
    if (plain === undefined) return { revision, glance: undefined };
    const changed = applyToPlain(plain, message.type === 'hand' ? message.edits : []);
    const { plan } = changed.ok ? planOf(changed.value) : { plan: undefined };
    if (!plan) return { revision, glance: undefined };
    last = last ? sharing(last, plan) : plan;
    return { revision, glance: glanceAt(last, message.option) };
  };
}

function glanceAt(plan: Plan, id: string): Glance | undefined {
  const option = findOption(plan, id);
  if (!option) return undefined;
  const solids = solidsOf(plan, option);
  const face = quickLight(solids)?.[0];
  const { worst, index } = soundOf(solids);
  return { face: face && { title: face.title, lux: face.lux }, rings: worst.after, index: index.after };
}
