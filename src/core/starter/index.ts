export { type Answers, leastOf, NEEDS, type Need, starterPlan } from './starter.ts';
