export * from './box.ts';
export * from './prism.ts';
export * from './vector.ts';
