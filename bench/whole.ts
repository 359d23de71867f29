import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { packetPages } from '../src/core/drawing/index.ts';
import { type Outcome, packetInput, sceneOf, workOut } from '../src/core/outcome.ts';
import { type Option, type Plan, readPlan } from '../src/core/plan/index.ts';
import { mm } from '../src/core/quantity/index.ts';
import { toPdf } from '../src/print/index.ts';

/**
 * The whole run of each example, from reading to the PDF, warm, stage by stage; and how everything but cutting grows when an option
 * has ten times the pieces (cutting has a benchmark of its own). Processor seconds of this process, best of a few runs.
 */
const root = new URL(process.env.SETWRIGHT_ROOT!.replace(/\/?$/, '/')).pathname;
const fonts = (() => {
  const folder = join(dirname(createRequire(import.meta.url).resolve('source-sans/package.json')), 'TTF');
  return {
    regular: readFileSync(join(folder, 'SourceSans3-Regular.ttf')),
    semibold: readFileSync(join(folder, 'SourceSans3-Semibold.ttf')),
  };
})();
const TODAY = '2026-11-25';

const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** The option `times` times over, side by side along walls as many times as long: nothing meets that did not before. */
function multiplied(plan: Plan, times: number): Plan {
  const long = new Map(plan.room.walls.map((wall) => [wall.id, wall.length]));
  const moved = (piece: Option['pieces'][number], i: number): Option['pieces'][number] => {
    const copy = { ...piece } as Record<string, unknown>;
    for (const key of ['case', 'shelf', 'display', 'lining', 'thing', 'after', 'on'])
      if (copy[key] !== undefined) copy[key] = `${String(copy[key])} ${i}`;
    const by = i * (piece.wall === undefined ? 0 : long.get(piece.wall)!);
    if (piece.from !== undefined) copy.from = piece.from + by;
    if (piece.centre !== undefined) copy.centre = piece.centre + by;
    if (piece.at) copy.at = { ...piece.at, x: piece.at.x + i * plan.room.walls[0]!.length };
    return copy as unknown as typeof piece;
  };
  const options = plan.options.map((option) => ({
    ...option,
    pieces: Array.from({ length: times }, (_, i) => option.pieces.map((piece) => moved(piece, i))).flat(),
  }));
  const walls = plan.room.walls.map((wall) => ({ ...wall, length: mm(wall.length * times) }));
  return { ...plan, room: { ...plan.room, walls }, options };
}

async function run(text: string, times: number): Promise<Record<string, number>> {
  const stages: Record<string, number> = {};
  let last = spent();
  const lap = (name: string) => {
    stages[name] = spent() - last;
    last = spent();
  };
  const { plan: read } = readPlan(text);
  lap('read');
  const plan = multiplied(read!, times);
  last = spent();
  const option = plan.options[0]!;
  const scene = sceneOf(plan, option);
  lap('scene');
  const outcome: Outcome = workOut(plan, option, { today: TODAY, ...(times > 1 && { effort: { steps: 0 } }) });
  lap('cut and bill');
  const pages = packetPages(packetInput(outcome, [], TODAY), { paper: plan.paper ?? 'A4' });
  lap('pages');
  await toPdf(pages, fonts, { title: plan.title, date: new Date(`${TODAY}T12:00:00Z`) });
  lap('pdf');
  stages.all = Object.values(stages).reduce((a, b) => a + b, 0) - stages.scene!;
  return { parts: scene.parts.length, sheets: pages.length, ...stages };
}

const show = (name: string, row: Record<string, number>) =>
  console.log(
    `${name.padEnd(24)}${Object.entries(row)
      .map(([key, value]) => `${key} ${value.toFixed(0)}`.padEnd(20))
      .join('')}`,
  );

console.log('milliseconds of processor time, best of three');
for (const name of ['lesson-room', 'radio-corner']) {
  const text = readFileSync(join(root, 'examples', `${name}.plan.yaml`), 'utf8');
  const best = async (times: number) => {
    const rows: Record<string, number>[] = [];
    for (let i = 0; i < 3; i++) rows.push(await run(text, times));
    return rows.reduce((a, b) => (b.all! < a.all! ? b : a));
  };
  const one = await best(1);
  show(name, one);
  const ten = await best(10);
  show('  ten times its pieces', ten);
  const ratio = (keys: readonly string[]) =>
    keys.reduce((s, k) => s + ten[k]!, 0) / keys.reduce((s, k) => s + one[k]!, 0);
  console.log(
    `  growth at ${(ten.parts! / one.parts!).toFixed(1)} × the parts: scene × ${ratio(['scene']).toFixed(1)}, pages × ${ratio(['pages']).toFixed(1)}, pdf × ${ratio(['pdf']).toFixed(1)}, all but cutting × ${ratio(['read', 'scene', 'pages', 'pdf']).toFixed(1)}`,
  );
}
