export * from './marks.ts';
