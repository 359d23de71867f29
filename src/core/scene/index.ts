export * from './part.ts';
export { type ByLabel, type Sticking, sideByLabel, stickingOf } from './sticking.ts';
