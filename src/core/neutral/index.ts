export * from './read.ts';
export * from './solve.ts';
