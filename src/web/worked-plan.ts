import type { Plan } from '../core/plan/index.ts';
import type { Worked } from './bench.ts';

export type WorkedPlan = Worked & { readonly plan: Plan };
