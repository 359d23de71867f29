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

/**
 * The parts of the first wall `times` times over, side by side along a wall as many times as long: nothing meets that did not before. The
 * room grows one way only, and its lamps, seats and cameras stay as they are: ten times the parts are not a hundred times the floor.
 */
function multiplied(plan: Plan, times: number): Plan {
  const [first] = plan.options;
  const built = (piece: Option['pieces'][number]) => 'case' in piece || 'shelf' in piece || 'lining' in piece;
  const counts = new Map<string, number>();
  for (const piece of first!.pieces)
    if (built(piece) && piece.wall !== undefined) counts.set(piece.wall, (counts.get(piece.wall) ?? 0) + 1);
  const busy = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a))[0];
  const { length } = plan.room.walls.find((wall) => wall.id === busy)!;
  const by = length * (times - 1);
  // the walls that run along the busy one and face it grow by as much, so that the outline still closes
  const at = plan.room.walls.findIndex((wall) => wall.id === busy);
  const facing = plan.room.walls.findIndex(
    (wall, i) => i !== at && Math.abs(turnOf(plan, i) - turnOf(plan, at)) % 360 === 180 && wall.length > length / 2,
  );
  const walls = plan.room.walls.map((wall, i) =>
    i === at || i === facing ? { ...wall, length: mm(wall.length + by) } : wall,
  );
  const copied = (piece: Option['pieces'][number], i: number): Option['pieces'][number] => {
    if (i === 0) return piece;
    const copy = { ...piece } as Record<string, unknown>;
    for (const key of ['case', 'shelf', 'lining', 'after', 'on'])
      if (copy[key] !== undefined) copy[key] = `${String(copy[key])} ${i}`;
    if (piece.from !== undefined) copy.from = piece.from + i * length;
    if (piece.centre !== undefined) copy.centre = piece.centre + i * length;
    return copy as unknown as typeof piece;
  };
  const options = plan.options.map((option) => {
    const own = option.pieces.filter((piece) => built(piece) && piece.wall === busy);
    const more = Array.from({ length: times - 1 }, (_, i) => own.map((piece) => copied(piece, i + 1))).flat();
    return { ...option, pieces: [...option.pieces, ...more] };
  });
  return { ...plan, room: { ...plan.room, walls }, options };
}
/** Degrees a wall is turned from the first, by the corners before it. */
const turnOf = (plan: Plan, i: number): number =>
  plan.room.walls.slice(0, i).reduce((sum, wall) => sum + 180 - wall.corner, 0);

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
