export * from './check.ts';
export * from './lengths/index.ts';
export * from './panels/index.ts';
export * from './problem.ts';
