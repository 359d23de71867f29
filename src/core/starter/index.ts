export { type Answers, NEEDS, type Need, starterPlan } from './starter.ts';
