import { open } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import type { Command } from 'commander';
import {
  CUTTING_SHAPES,
  type CutProblem,
  readNeutral,
  solveProblem,
  USUAL_STEPS,
  writeAnswer,
} from '../../core/cutting/index.ts';
import { explain } from '../../core/issue/index.ts';
import { positiveNumber, wholeNumber } from '../flags.ts';
import { count } from '../plan-file.ts';
import { data, Ending, progress, say, whyNot } from '../shell.ts';

interface Flags {
  limit?: number;
  steps?: number;
  turn?: string;
}

export function solveCommand(program: Command): void {
  program
    .command('solve')
    .summary('answer neutral problems, one JSON object a line')
    .description(
      'Answers cutting problems that need no plan: one JSON object a line in, one answer a line out, in order. A line that cannot be read is answered too, as infeasible with its issues.',
    )
    .argument('<problems>', 'a file of problems, or - for standard input')
    .option('--limit <seconds>', 'for each problem; the answer says when it was cut short', positiveNumber)
    .option('--steps <n>', 'search effort for each problem', wholeNumber)
    .option('--turn <which>', 'all: every part of a panel may be turned')
    .action(async (path: string, flags: Flags) => {
      if (flags.turn !== undefined && flags.turn !== 'all')
        throw new Ending(2, `--turn takes 'all'; found '${flags.turn}'.`);
      const line = progress();
      let [number, unread] = [0, 0];
      for await (const text of linesOf(path)) {
        number++;
        if (text.trim() === '') continue;
        line.show(`problem ${number} …`);
        const { answer, read } = answerTo(text, number, flags);
        if (!read) unread++;
        data(answer);
      }
      line.done();
      if (unread > 0) {
        say(`${count(unread, 'line')} could not be read as a problem.`);
        process.exitCode = 1;
      }
    });
}

function answerTo(text: string, number: number, flags: Flags): { readonly answer: string; readonly read: boolean } {
  const problem = readNeutral(text, number, CUTTING_SHAPES);
  if (!problem.ok) {
    for (const issue of problem.issues) say(explain(issue));
    return { answer: JSON.stringify({ name: '', status: 'infeasible', issues: problem.issues }), read: false };
  }
  const asked: CutProblem =
    flags.turn === 'all' && problem.value.kind === 'panels'
      ? { ...problem.value, parts: problem.value.parts.map((part) => ({ ...part, turn: true })) }
      : problem.value;
  const started = performance.now();
  const ends = flags.limit === undefined ? undefined : started + flags.limit * 1000;
  const answer = solveProblem(asked, {
    steps: flags.steps ?? (ends === undefined ? USUAL_STEPS[asked.kind] : Number.MAX_SAFE_INTEGER),
    ...(ends !== undefined && { shouldStop: () => performance.now() > ends }),
  });
  return { answer: writeAnswer(answer, (performance.now() - started) / 1000), read: true };
}

async function* linesOf(path: string): AsyncIterable<string> {
  try {
    const input = path === '-' ? process.stdin : (await open(path)).createReadStream({ encoding: 'utf8' });
    yield* createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall) throw new Ending(2, `${path}: ${whyNot(error)}`);
    throw error;
  }
}
