import { Command, CommanderError } from 'commander';
import pc from 'picocolors';
import { nearest } from '../core/issue/index.ts';
import { billCommand } from './commands/bill.ts';
import { calendarCommand } from './commands/calendar.ts';
import { checkCommand } from './commands/check.ts';
import { compareCommand } from './commands/compare.ts';
import { cutCommand } from './commands/cut.ts';
import { newCommand } from './commands/new.ts';
import { openCommand } from './commands/open.ts';
import { packetCommand } from './commands/packet.ts';
import { partsCommand } from './commands/parts.ts';
import { reckonCommand } from './commands/reckon.ts';
import { schemaCommand } from './commands/schema.ts';
import { solveCommand } from './commands/solve.ts';
import { stepsCommand } from './commands/steps.ts';
import { Ending, say, sayIssues } from './shell.ts';

const program = new Command('setwright')
  .description(
    'From a measured wall to a packet a maker can build from: parts, cutting plans, a bill, notes and drawings, all from one plan file.',
  )
  .version('0.1.0')
  .showSuggestionAfterError()
  .showHelpAfterError('(`setwright help` lists the commands; `setwright help COMMAND` explains one)')
  .configureHelp({ sortOptions: false, sortSubcommands: false })
  .exitOverride();

for (const add of [
  newCommand,
  checkCommand,
  partsCommand,
  cutCommand,
  billCommand,
  compareCommand,
  stepsCommand,
  calendarCommand,
  packetCommand,
  openCommand,
  reckonCommand,
  solveCommand,
  schemaCommand,
])
  add(program);
for (const command of program.commands) command.exitOverride();

// a reader that has gone away (`| head`) is no error
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  const [word, about] = process.argv.slice(2);
  const names = program.commands.map((command) => command.name());
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
