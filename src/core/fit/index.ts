export { type ConflictOptions, conflictNotes } from './conflicts.ts';
export { overlapDepth, type Upright, upright } from './oriented.ts';
