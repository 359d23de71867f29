import type { Command } from 'commander';
import { sceneOf } from '../../core/outcome.ts';
import { printersFor } from '../../core/plan/index.ts';
import { type Part, stickingOf } from '../../core/scene/index.ts';
import { chooseOption, openPlan, placed } from '../plan-file.ts';
import { data, json, say, sayIssues } from '../shell.ts';
import { table } from '../table.ts';

export function partsCommand(program: Command): void {
  program
    .command('parts')
    .summary('list the parts to cut')
    .description('Lists every part of an option with its label, finished size, cut size and stock.')
    .argument('<plan>', 'a plan file, or - for standard input')
    .option('-o, --option <id>', 'the option; left out: the one to be built')
    .option('--json', 'give it as data, solids and joints included')
    .action((path: string, options: { option?: string; json?: true }) => {
      const opened = openPlan(path);
      const scene = sceneOf(opened.plan, chooseOption(opened.plan, options.option));
      sayIssues(placed(opened, scene.issues));
      if (options.json) return json({ option: scene.option.id, pieces: scene.pieces });
      const { length, thickness } = printersFor(opened.plan.units);
      data(
        table<Part>(scene.parts, [
          { title: 'place', text: (p) => p.label.place },
          { title: 'part', text: (p) => p.label.name },
          { title: 'length', text: (p) => length(p.size.length), right: true },
          { title: 'width', text: (p) => length(p.size.width), right: true },
          { title: 'thick', text: (p) => thickness(p.size.thickness), right: true },
          { title: 'cut length', text: (p) => length(p.cut.length), right: true },
          { title: 'cut width', text: (p) => length(p.cut.width), right: true },
          { title: 'stock', text: (p) => p.stock },
          { title: 'edges', text: (p) => p.edges.map((e) => e.towards).join(' ') },
          { title: 'label on', text: (p) => stickingOf(p).face },
          { title: 'arrow', text: (p) => stickingOf(p).arrow },
        ]),
      );
      say(`${scene.parts.length} parts`);
      if (scene.issues.length > 0) process.exitCode = 1;
    });
}
