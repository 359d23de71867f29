export { type Answers, LEAST, NEEDS, type Need, starterPlan } from './starter.ts';
