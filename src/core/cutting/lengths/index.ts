export { solveLengths } from './solve.ts';
