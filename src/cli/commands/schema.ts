import type { Command } from 'commander';
import { jsonSchema } from '../../core/plan/index.ts';
import { json } from '../shell.ts';

export function schemaCommand(program: Command): void {
  program
    .command('schema')
    .summary('print the JSON Schema of the plan file')
    .description(
      'Prints the JSON Schema (2020-12) of the plan file, for an editor that completes and checks while one types.',
    )
    .action(() => json(jsonSchema()));
}
