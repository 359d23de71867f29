import fc from 'fast-check';
import { assemblySteps } from '../src/core/assembly/index.ts';
import { judge } from '../src/core/assembly/laws.testing.ts';
import { buildCase } from '../src/core/casework/index.ts';
import { AT_ORIGIN } from '../src/core/casework/plan.testing.ts';
import { anyCase, readUnspelt } from '../src/core/casework/random.testing.ts';

/** Orders of assembly of random cases, judged by code of their own: `npm run bench -- assembly [cases] [seed] [effort]`. */
const [count = 2000, seed = 1, effort = 20] = process.argv.slice(2).map(Number);
const sums = {
  cases: 0,
  parts: 0,
  steps: 0,
  gauges: 0,
  ofParts: 0,
  marks: 0,
  fastened: 0,
  clamped: 0,
  proven: 0,
  stuck: 0,
  faulty: 0,
};
const times: number[] = [];
for (const unspelt of fc.sample(anyCase, { numRuns: count, seed })) {
  const { plan, piece } = readUnspelt(unspelt);
  const { placed, issues } = buildCase(piece, plan, AT_ORIGIN);
  if (issues.length > 0) continue;
  const start = performance.now();
  const assembly = assemblySteps(placed, { effort });
  times.push(performance.now() - start);
  const { faults, gauges, fasteners } = judge(placed, assembly);
  if (faults.length > 0) console.error(`case ${sums.cases}: ${faults.slice(0, 3).join('; ')}`);
  sums.cases += 1;
  sums.parts += placed.parts.length;
  sums.steps += assembly.steps.length;
  sums.gauges += gauges;
  sums.ofParts += assembly.steps.flatMap((s) => s.set).filter((s) => s.gauge?.from === 'parts').length;
  sums.marks += assembly.marks;
  sums.fastened += fasteners;
  sums.clamped += assembly.steps.reduce((sum, s) => sum + s.clamped.length, 0);
  sums.proven += assembly.proven ? 1 : 0;
  sums.stuck += assembly.warnings.filter((w) => w.startsWith('no order')).length;
  sums.faulty += faults.length > 0 ? 1 : 0;
}
times.sort((a, b) => a - b);
const at = (share: number) => `${times[Math.floor((times.length - 1) * share)]?.toFixed(0)} ms`;
console.log({ ...sums, median: at(0.5), p95: at(0.95), slowest: at(1) });
