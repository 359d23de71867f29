export * from './check.ts';
export * from './panels/index.ts';
export * from './problem.ts';
