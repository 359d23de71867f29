export * from './check.ts';
export * from './lengths/index.ts';
export * from './neutral.ts';
export * from './order/index.ts';
export * from './panels/index.ts';
export * from './problem.ts';
export * from './protocol.ts';
export * from './solve.ts';
