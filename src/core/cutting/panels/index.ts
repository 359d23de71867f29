export { solvePanels } from './solve.ts';
