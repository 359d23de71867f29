export { type AssemblyPlan, type AssemblyStep, assemblySteps, type SetBy } from './assembly.ts';
export type { Fasten } from './drive.ts';
export type { Gauge } from './gauge.ts';
export { assembliesOf, helpedShares, jobAssembly, type PieceAssembly, repeatsOf } from './job.ts';
