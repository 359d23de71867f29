export * from './part.ts';
