export { buildCase, type CaseOptions } from './case.ts';
export { DEFAULTS, fastenerCount, hingeCount } from './defaults.ts';
export type { Built, Standing } from './draft.ts';
