import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CutProblem } from '../core/cutting/index.ts';
import { checkNeutral, type NeutralAnswer } from '../core/neutral/index.ts';
import { type PoolEffort, solveAll } from './solve-pool.ts';

const folder = mkdtempSync(join(tmpdir(), 'setwright-pool-'));
const worker = pathToFileURL(join(folder, 'worker.mjs'));
beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: 'error',
    // Everything in one file: from this folder no package can be found.
    ssr: { noExternal: true },
    build: {
      ssr: join(import.meta.dirname, 'solve-worker.ts'),
      outDir: folder,
      rollupOptions: { output: { entryFileNames: 'worker.mjs' } },
    },
  });
});
afterAll(() => rmSync(folder, { recursive: true }));

const problems: readonly CutProblem[] = Array.from({ length: 12 }, (_, i) =>
  i % 2 === 0
    ? {
        name: `boards ${i}`,
        kind: 'lengths',
        kerf: 3,
        trim: 0,
        stock: [{ id: 'b', length: 2400, cost: 9, count: null }],
        // Big and small by turns, so that answers come in another order than the questions.
        parts: Array.from({ length: i % 4 === 0 ? 30 : 2 }, (_part, k) => ({
          id: `p${k}`,
          length: 300 + 37 * k,
          count: 2,
        })),
      }
    : {
        name: `panels ${i}`,
        kind: 'panels',
        kerf: 3,
        trim: 5,
        stock: [{ id: 's', length: 2440, width: 1220, cost: 50, count: null }],
        parts: Array.from({ length: i }, (_part, k) => ({
          id: `p${k}`,
          length: 300 + 53 * k,
          width: 200 + 31 * k,
          count: 2,
        })),
      },
);
const effort: PoolEffort = { steps: (problem) => (problem.kind === 'panels' ? 60 : 400), worker };
async function all(over: Partial<PoolEffort>): Promise<NeutralAnswer[]> {
  const answers: NeutralAnswer[] = [];
  for await (const { answer } of solveAll(problems, { ...effort, ...over })) answers.push(answer);
  return answers;
}

describe('solveAll', () => {
  it('gives on three threads the answers of one, in the order asked, all sound', async () => {
    const one = await all({ threads: 1 });
    const three = await all({ threads: 3 });
    expect(three).toEqual(one);
    expect(three.map((answer) => answer.name)).toEqual(problems.map((problem) => problem.name));
    three.forEach((answer, i) => {
      expect(checkNeutral(problems[i]!, answer)).toEqual([]);
    });
  });
  it('ends its threads when the asker has had enough', async () => {
    for await (const { answer } of solveAll(problems, { ...effort, threads: 2 })) {
      expect(answer.name).toBe(problems[0]!.name);
      break;
    }
  });
  it('tells of a worker that breaks down', async () => {
    const broken = [{ ...problems[0]!, parts: null }] as unknown as readonly CutProblem[];
    await expect(async () => {
      for await (const _ of solveAll(broken, { ...effort, threads: 2 }));
    }).rejects.toThrow();
  });
});
