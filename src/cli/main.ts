import { Command, CommanderError } from 'commander';
import pc from 'picocolors';
import { nearest } from '../core/issue/index.ts';
import { Ending, say, sayIssues } from './shell.ts';

/** Each is loaded by who asks for it: to open a workbench takes nothing of what draws packets. */
const COMMANDS: Readonly<Record<string, () => Promise<(program: Command) => void>>> = {
  new: async () => (await import('./commands/new.ts')).newCommand,
  check: async () => (await import('./commands/check.ts')).checkCommand,
  parts: async () => (await import('./commands/parts.ts')).partsCommand,
  cut: async () => (await import('./commands/cut.ts')).cutCommand,
  bill: async () => (await import('./commands/bill.ts')).billCommand,
  compare: async () => (await import('./commands/compare.ts')).compareCommand,
  steps: async () => (await import('./commands/steps.ts')).stepsCommand,
  calendar: async () => (await import('./commands/calendar.ts')).calendarCommand,
  packet: async () => (await import('./commands/packet.ts')).packetCommand,
  open: async () => (await import('./commands/open.ts')).openCommand,
  reckon: async () => (await import('./commands/reckon.ts')).reckonCommand,
  solve: async () => (await import('./commands/solve.ts')).solveCommand,
  schema: async () => (await import('./commands/schema.ts')).schemaCommand,
};
const [word, about] = process.argv.slice(2);
const names = Object.keys(COMMANDS);
const asked = word !== undefined && names.includes(word) ? [word] : names;

const program = new Command('setwright')
  .description(
    'From a measured wall to a packet a maker can build from: parts, cutting plans, a bill, notes and drawings, all from one plan file.',
  )
  .version('0.1.0')
  .showSuggestionAfterError()
  .showHelpAfterError('(`setwright help` lists the commands; `setwright help COMMAND` explains one)')
  .configureHelp({ sortOptions: false, sortSubcommands: false })
  .exitOverride();

for (const name of asked) (await COMMANDS[name]!())(program);
for (const command of program.commands) command.exitOverride();

// a reader that has gone away (`| head`) is no error
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  if (word === 'help' && about !== undefined && ![...names, 'help'].includes(about)) {
    const near = nearest(about, names);
    throw new Ending(
      2,
      `There is no command '${about}'; \`setwright help\` lists them.${near ? ` Did you mean ${near}?` : ''}`,
    );
  }
  await program.parseAsync(process.argv);
} catch (error) {
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : 2;
  else if (error instanceof Ending) {
    sayIssues(error.issues);
    say(pc.bold(error.message));
    process.exitCode = error.code;
  } else throw error;
}
