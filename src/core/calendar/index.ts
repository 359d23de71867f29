export * from './solver/index.ts';
