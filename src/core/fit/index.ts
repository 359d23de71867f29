export { conflictNotes } from './conflicts.ts';
