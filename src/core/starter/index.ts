export { type Answers, leastOf, mostOf, NEEDS, type Need, starterPlan } from './starter.ts';
