export * from './box.ts';
export * from './vector.ts';
