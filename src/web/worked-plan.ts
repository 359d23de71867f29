import type { Option, Plan } from '../core/plan/index.ts';
import { useFindings } from './findings.ts';
import { setFindingsOf } from './register.ts';
import { today } from './today.ts';
import { type Worked, work } from './work.ts';

export type WorkedPlan = Worked & { readonly plan: Plan };

/** An option worked out with all that this page knows of it. */
export const workHere = (plan: Plan, option: Option): Worked =>
  work(plan, option, today(), useFindings.getState().finish, setFindingsOf(option.id));
