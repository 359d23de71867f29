export {
  type Answers,
  FRAMINGS,
  type Framing,
  leastOf,
  mostOf,
  NEEDS,
  type Need,
  starterPlan,
  usualOf,
} from './starter.ts';
