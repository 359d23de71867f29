export type { Bay, SizeOrShare } from './schema/casework.ts';
export * from './schema/plan.ts';
