import { open } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import type { Command } from 'commander';
import { explain } from '../../core/issue/index.ts';
import { type NeutralProblem, readNeutral, USUAL_STEPS, writeAnswer } from '../../core/neutral/index.ts';
import { positiveNumber, wholeNumber } from '../flags.ts';
import { count } from '../plan-file.ts';
import { data, Ending, progress, say, whyNot } from '../shell.ts';
import { solveAll } from '../solve-pool.ts';

interface Flags {
  limit?: number;
  steps?: number;
  turn?: string;
  threads?: number;
}

export function solveCommand(program: Command): void {
  program
    .command('solve')
    .summary('answer neutral problems, one JSON object a line')
    .description(
      'Answers cutting and calendar problems that need no plan: one JSON object a line in, one answer a line out, in order. A line that cannot be read is answered too, as infeasible with its issues.',
    )
    .argument('<problems>', 'a file of problems, or - for standard input')
    .option('--limit <seconds>', 'for each problem; the answer says when it was cut short', positiveNumber)
    .option('--steps <n>', 'search effort for each problem', wholeNumber)
    .option('--turn <which>', 'all: every part of a panel may be turned')
    .option('--threads <n>', 'left out: as many as the machine has cores; the answers are the same', wholeNumber)
    .action(async (path: string, flags: Flags) => {
      if (flags.turn !== undefined && flags.turn !== 'all')
        throw new Ending(2, `--turn takes 'all'; found '${flags.turn}'.`);
      const line = progress();
      // answers to lines that are no problem, held back until every line before them is answered
      const order: (string | undefined)[] = [];
      let [answered, unread] = [0, 0];
      async function* problems(): AsyncGenerator<NeutralProblem> {
        let number = 0;
        for await (const text of linesOf(path)) {
          number++;
          if (text.trim() === '') continue;
          const problem = readNeutral(text, number);
          if (problem.ok) {
            order.push(undefined);
            yield flags.turn === 'all' ? turned(problem.value) : problem.value;
          } else {
            unread++;
            for (const issue of problem.issues) say(explain(issue));
            order.push(JSON.stringify({ name: '', status: 'infeasible', issues: problem.issues }));
          }
        }
      }
      const flush = () => {
        while (order[0] !== undefined) data(order.shift()!);
      };
      const answers = solveAll(problems(), {
        steps: ({ kind }) => flags.steps ?? (flags.limit === undefined ? USUAL_STEPS[kind] : Number.MAX_SAFE_INTEGER),
        ...(flags.limit !== undefined && { limit: flags.limit }),
        ...(flags.threads !== undefined && { threads: flags.threads }),
        worker: new URL('./solve-worker.js', import.meta.url),
      });
      for await (const { answer, seconds } of answers) {
        flush();
        order.shift();
        data(writeAnswer(answer, seconds));
        line.show(`${++answered} answered …`);
      }
      flush();
      line.done();
      if (unread > 0) {
        say(`${count(unread, 'line')} could not be read as a problem.`);
        process.exitCode = 1;
      }
    });
}

const turned = (problem: NeutralProblem): NeutralProblem =>
  problem.kind === 'panels' ? { ...problem, parts: problem.parts.map((part) => ({ ...part, turn: true })) } : problem;

async function* linesOf(path: string): AsyncIterable<string> {
  try {
    const input = path === '-' ? process.stdin : (await open(path)).createReadStream({ encoding: 'utf8' });
    yield* createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall) throw new Ending(2, `${path}: ${whyNot(error)}`);
    throw error;
  }
}
