export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export * from './solver/index.ts';
