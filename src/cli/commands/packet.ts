import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, Option } from 'commander';
import pc from 'picocolors';
import { withCures } from '../../core/cures.ts';
import { LABEL_SHEETS, type PaperName } from '../../core/drawing/index.ts';
import { type Outcome, solidsOf } from '../../core/outcome.ts';
import { PAPER_NAMES } from '../../core/plan/index.ts';
import { billCsv, packetOf, partsCsv, toGltf, toSvg } from '../../print/index.ts';
import { withEffort } from '../flags.ts';
import { readFonts } from '../fonts.ts';
import { chooseOption, count, openPlan } from '../plan-file.ts';
import { data, Ending, json, say, whyNot } from '../shell.ts';
import { type EffortFlags, todayOf, workOutAll } from '../work-out.ts';
import { noteLine } from './check.ts';
import { comparisonText } from './compare.ts';

interface Flags extends EffortFlags {
  option?: string;
  out: string;
  paper?: PaperName;
  labels?: string;
  tally?: true;
  json?: true;
}

export function packetCommand(program: Command): void {
  withEffort(
    program
      .command('packet')
      .summary('draw, price and write everything to print')
      .description(
        'Works the plan out and writes the packet: a PDF of all pages to scale, each page as SVG, parts and bill as CSV, the set as glTF.',
      )
      .argument('<plan>', 'a plan file, or - for standard input')
      .option('--out <folder>', 'where to write', 'out')
      .option('-o, --option <id>', 'the option; left out: the one to be built')
      .addOption(new Option('--paper <name>', 'left out: as the plan says').choices(PAPER_NAMES))
      .addOption(
        new Option('--labels <sheet>', 'the label sheet; left out: plain paper with lines to cut along').choices(
          Object.keys(LABEL_SHEETS),
        ),
      )
      .option('--tally', 'print the tally and the notes too')
      .option('--json', 'name what was written as data'),
  ).action(async (path: string, flags: Flags) => {
    const opened = openPlan(path);
    const { plan } = opened;
    const chosen = chooseOption(plan, flags.option);
    const outcomes = workOutAll(opened, [chosen, ...plan.options.filter((o) => o !== chosen)], flags);
    const [outcome, ...others] = outcomes as [Outcome, ...Outcome[]];
    const today = todayOf(flags);
    const { input, pages, pdf } = await packetOf(
      [outcome, ...others],
      { today, paper: flags.paper, labels: flags.labels },
      readFonts(),
    );
    const files: Record<string, string | Uint8Array> = {
      'packet.pdf': pdf,
      'parts.csv': partsCsv(input),
      'bill.csv': billCsv(input),
      'set.glb': await toGltf(input),
    };
    for (const page of pages)
      files[`pages/${String(page.number).padStart(2, '0')}-${page.id.replace(/[^\p{L}\p{N}.-]+/gu, '-')}.svg`] =
        toSvg(page);
    writeAll(flags.out, files);

    if (flags.tally) {
      data(`${pc.bold(plan.title)}\n`);
      data(comparisonText(plan, outcomes));
      for (const { option, notes } of outcomes) {
        data(`\n${pc.bold(`Notes on ${option.title ?? option.id}`)}`);
        const told = withCures(solidsOf(plan, option), notes);
        data(told.length === 0 ? '  none' : told.map(noteLine).join('\n'));
      }
      data('');
    }
    if (flags.json)
      json({
        folder: flags.out,
        files: Object.keys(files),
        pages: pages.map(({ number, id, title }) => ({ number, id, title })),
      });
    else
      say(
        `Wrote ${count(pages.length, 'page')} to ${join(flags.out, 'packet.pdf')}, with pages as SVG, lists and the set beside it.`,
      );
  });
}

/** Writes each file beside its place and moves it there, so that none is ever half there. */
function writeAll(folder: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  try {
    const pages = join(folder, 'pages');
    mkdirSync(pages, { recursive: true });
    // pages of an earlier packet that this one does not have
    for (const old of readdirSync(pages))
      if (/^\d\d-.*\.svg$/.test(old) && !(`pages/${old}` in files)) rmSync(join(pages, old));
    for (const [name, content] of Object.entries(files)) {
      const path = join(folder, name);
      writeFileSync(`${path}.part`, content);
      renameSync(`${path}.part`, path);
    }
  } catch (error) {
    throw new Ending(2, `${folder} could not be written: ${whyNot(error)}.`);
  }
}
