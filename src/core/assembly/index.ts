export {
  type AssemblyOptions,
  type AssemblyPlan,
  type AssemblyStep,
  assemblySteps,
  type SetBy,
  type Spacer,
  type SubAssembly,
} from './assembly.ts';
export { type Fasten, TOOL } from './drive.ts';
export { type Gauge, LEAST_SPACER } from './gauge.ts';
export { assembliesOf, helpedShares, jobAssembly, type PieceAssembly, repeatsOf } from './job.ts';
export { WEIGHTS } from './search.ts';
export { cellsOf } from './solids.ts';
