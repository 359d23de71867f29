import { existsSync, writeFileSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { fileURLToPath } from 'node:url';
import { type Command, Option } from 'commander';
import { nearest } from '../../core/issue/index.ts';
import { printersFor } from '../../core/plan/index.ts';
import { LENGTH_UNITS, type LengthUnit, type Mm, parseLength } from '../../core/quantity/index.ts';
import {
  type Answers,
  FRAMINGS,
  leastOf,
  mostOf,
  NEEDS,
  type Need,
  starterPlan,
  usualOf,
} from '../../core/starter/index.ts';
import { Ending, say, whyNot } from '../shell.ts';

interface Flags {
  title?: string;
  units?: LengthUnit;
  currency?: string;
  wall?: string;
  ceiling?: string;
  room?: string;
  framing?: Answers['framing'];
  fits?: string;
  force?: true;
}

export function newCommand(program: Command): void {
  program
    .command('new')
    .summary('write a commented plan to start from')
    .description(
      'Writes a commented plan to start from. Asks for what the flags leave out; where nobody can answer, takes the usual.',
    )
    .argument('<file>', 'the file to write, such as den.plan.yaml; - for standard output')
    .option('--title <text>', 'name of the job')
    .addOption(new Option('--units <unit>', 'how lengths are written').choices(LENGTH_UNITS))
    .option('--currency <code>', 'such as USD or EUR')
    .option('--wall <length>', 'length of the wall the set stands at')
    .option('--ceiling <length>', 'height of the ceiling')
    .option('--room <length>', 'how far the room goes back from that wall')
    .addOption(new Option('--framing <kind>', 'what is behind the wall').choices(FRAMINGS))
    .option('--fits <list>', `what must fit, of ${NEEDS.join(', ')}`)
    .option('--force', 'write over a file that is there')
    .action(async (file: string, flags: Flags) => {
      if (file !== '-' && existsSync(file) && !flags.force)
        throw new Ending(2, `${file} is there already; --force writes over it.`);
      const text = starterPlan(await answers(flags), schemaFrom(file));
      if (file === '-') return void process.stdout.write(text);
      try {
        writeFileSync(file, text);
      } catch (error) {
        const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
        throw new Ending(2, `${file}: ${missing ? 'there is no such folder' : whyNot(error)}`);
      }
      say(`Wrote ${file}. Next: setwright check ${/\s/.test(file) ? `"${file}"` : file}`);
    });
}

/** The way from the plan to the schema of this program, as an editor follows it. */
const schemaFrom = (file: string): string | undefined => {
  const schema = new URL('../../schema/plan.schema.json', import.meta.url);
  if (file === '-' || !existsSync(schema)) return undefined;
  return relative(dirname(resolve(file)), fileURLToPath(schema)).replaceAll('\\', '/');
};

async function answers(flags: Flags): Promise<Answers> {
  const asks = process.stdin.isTTY === true && process.stderr.isTTY === true;
  const lines = asks ? createInterface({ input: process.stdin, output: process.stderr }) : undefined;
  /** The flag, or what is typed, or the usual; asked again while it cannot be read. */
  const settle = async <T>(
    flag: string | undefined,
    question: string,
    usual: string,
    read: (text: string) => T | string,
  ): Promise<T> => {
    for (let text = flag; ; text = undefined) {
      const typed = text ?? (lines ? (await lines.question(`${question} [${usual}] `)).trim() || usual : usual);
      const value = read(typed);
      if (typeof value !== 'string' || (value as unknown) === typed) return value as T;
      if (flag !== undefined || !lines) throw new Ending(2, value);
      say(value);
    }
  };
  const oneOf =
    <T extends string>(names: readonly T[]) =>
    (text: string): T | string => {
      if ((names as readonly string[]).includes(text)) return text as T;
      const near = nearest(text, names);
      return `'${text}' is none of ${names.join(', ')}.${near ? ` Did you mean ${near}?` : ''} `;
    };
  try {
    const unit = await settle<LengthUnit>(
      flags.units,
      `Lengths in ${LENGTH_UNITS.join(', ')}?`,
      'ft-in',
      oneOf(LENGTH_UNITS),
    );
    const usual = usualOf(unit);
    const print = printersFor({ length: unit, currency: 'XXX' });
    const [least, most] = [leastOf(unit), mostOf(unit)];
    const length =
      (least: number, most: number) =>
      (text: string): Mm | string => {
        const read = parseLength(text, { unit });
        if (!read.ok)
          return read.issues
            .map((i) => `${text}: ${i.message}${i.expected ? ` (expected ${i.expected})` : ''}`)
            .join('\n');
        if (read.value < least)
          return `${print.length(read.value)} is less than ${print.notLess(least)}; is the unit right?`;
        return read.value <= most
          ? read.value
          : `${print.length(read.value)} is more than ${print.notMore(most)}; is the unit right?`;
      };
    const title = await settle<string>(flags.title, 'What is the job called?', 'New set', (text) => text);
    const currency = await settle<string>(flags.currency, 'Money in?', usual.currency, (text) =>
      /^[A-Z]{3}$/.test(text) ? text : `'${text}' is no currency code; expected three capitals such as USD or EUR. `,
    );
    const wall = await settle<Mm>(flags.wall, 'How long is the wall?', usual.wall, length(least.wall, most.wall));
    const ceiling = await settle<Mm>(
      flags.ceiling,
      'How high is the ceiling?',
      usual.ceiling,
      length(least.ceiling, most.ceiling),
    );
    const room = await settle<Mm>(
      flags.room,
      'How far does the room go back from it?',
      usual.room,
      length(least.room, most.room),
    );
    const framing = await settle<Answers['framing']>(
      flags.framing,
      `What is behind the wall: ${FRAMINGS.join(', ')}?`,
      usual.framing,
      oneOf(FRAMINGS),
    );
    const fits = await settle<readonly Need[]>(
      flags.fits,
      `What must fit, of ${NEEDS.join(', ')}?`,
      usual.fits.join(', '),
      (text) => {
        const wanted = text
          .split(',')
          .map((t) => t.trim())
          .filter(Boolean);
        for (const one of wanted) {
          const read = oneOf(NEEDS)(one);
          if (read !== one) return read;
        }
        return wanted as Need[];
      },
    );
    return { title, length: unit, currency, wall, ceiling, room, framing, fits };
  } finally {
    lines?.close();
  }
}
