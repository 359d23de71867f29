export * from './check.ts';
export * from './neutral.ts';
export * from './problem.ts';
export * from './solve.ts';
