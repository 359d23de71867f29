export { areaBound, scaleBound } from './panels.ts';
