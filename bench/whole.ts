import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { assembliesOf } from '../src/core/assembly/index.ts';
import { calendarFor } from '../src/core/calendar/index.ts';
import { cameraNotes } from '../src/core/camera/index.ts';
import { coverPages } from '../src/core/drawing/pages/cover.ts';
import { deskOf } from '../src/core/drawing/pages/desk.ts';
import { DRAWERS, packetPages } from '../src/core/drawing/pages/packet.ts';
import type { Draft } from '../src/core/drawing/pages/sheet.ts';
import { sceneFrom } from '../src/core/findings.ts';
import { lightNotes } from '../src/core/light/index.ts';
import {
  calendarInput,
  cutJob,
  dateNotes,
  packetInput,
  setFittings,
  settle,
  solidsOf,
  withNotes,
} from '../src/core/outcome.ts';
import { type Option, type Plan, paperOf, readPlan } from '../src/core/plan/index.ts';
import { powerNotes } from '../src/core/power/index.ts';
import { mm } from '../src/core/quantity/index.ts';
import { soundNotes } from '../src/core/sound/index.ts';
import { cutJobs } from '../src/core/stock/index.ts';
import { toPdf, toSvg } from '../src/print/index.ts';

/**
 * The whole run of each example, from reading to the PDF, warm, stage by stage; and how everything but cutting grows when an option
 * has ten times the pieces (cutting has a benchmark of its own).
 */
const { values: flags } = parseArgs({
  options: {
    example: { type: 'string' },
    times: { type: 'string', default: '1,10' },
    runs: { type: 'string', default: '3' },
    /** Writes every page and note of each run here, so that two builds can be compared. */
    save: { type: 'string' },
  },
});
const root = new URL(process.env.SETWRIGHT_ROOT!.replace(/\/?$/, '/')).pathname;
const fonts = (() => {
  const folder = join(dirname(createRequire(import.meta.url).resolve('source-sans/package.json')), 'TTF');
  return {
    regular: readFileSync(join(folder, 'SourceSans3-Regular.ttf')),
    semibold: readFileSync(join(folder, 'SourceSans3-Semibold.ttf')),
  };
})();
const TODAY = '2026-11-25';

/** Processor milliseconds of this process, its compiler's and collector's threads among them. */
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

type Laps = Record<string, number>;
interface Run {
  readonly parts: number;
  readonly pages: number;
  readonly laps: Laps;
  /** Milliseconds on the clock: as long as processor time where nothing else runs, but for what other threads do beside it. */
  readonly clock: number;
}

/** The same steps as `setwright packet` takes for the option to be built, one after the other. */
async function run(text: string, times: number, save?: string): Promise<Run> {
  const laps: Laps = {};
  let last = spent();
  let began = performance.now();
  const lap = <T>(name: string, work: () => T): T => {
    const made = work();
    const now = spent();
    laps[name] = now - last;
    last = now;
    return made;
  };
  const { plan: read } = lap('read', () => readPlan(text));
  let clock = performance.now() - began;
  const plan = multiplied(read!, times);
  [last, began] = [spent(), performance.now()];
  const option = plan.options[0]!;
  const scene = lap('scene', () => sceneFrom(solidsOf(plan, option)));
  const notes = [
    lap('power', () => powerNotes(scene)),
    lap('light', () => lightNotes(scene)),
    lap('sound', () => soundNotes(scene)),
    lap('camera', () => cameraNotes(scene)),
  ].flat();
  const fittings = lap('fittings', () => setFittings(scene));
  const jobs = cutJobs(scene.parts, plan);
  const cuts = lap('cutting', () => jobs.map((job) => cutJob(job, times > 1 ? { steps: 0 } : {})));
  const settled = lap('bill', () => settle(scene, cuts, TODAY, { notes, fittings }));
  lap('assembly', () => assembliesOf(packetInput(settled, [], TODAY)));
  const dates = calendarInput(settled, TODAY);
  lap('calendar', () => calendarFor(dates));
  const outcome = withNotes(
    settled,
    lap('dates', () => dateNotes(settled, TODAY)),
  );
  const input = packetInput(outcome, [], TODAY);
  const paper = paperOf(plan);
  const desk = deskOf(input, paper);
  const drawn: Draft[] = [];
  for (const [name, draw] of Object.entries(DRAWERS)) drawn.push(...lap(`: ${name}`, () => draw(desk, { paper })));
  lap(': cover', () => coverPages(desk, drawn));
  clock += performance.now() - began;
  // drawn once more, as the packet draws it: not counted
  const pages = packetPages(input, { paper });
  [last, began] = [spent(), performance.now()];
  const title = { title: plan.title, date: new Date(`${TODAY}T12:00:00Z`) };
  await toPdf(pages, fonts, title);
  lap('pdf', () => undefined);
  clock += performance.now() - began;
  if (save) {
    mkdirSync(save, { recursive: true });
    for (const page of pages)
      writeFileSync(join(save, `${page.id.replace(/[^\p{L}\p{N}.-]+/gu, '-')}.svg`), toSvg(page));
    const { notes, bill, tally } = outcome;
    writeFileSync(join(save, 'outcome.json'), JSON.stringify({ parts: scene.parts, notes, bill, tally }, undefined, 1));
  }
  return { parts: scene.parts.length, pages: pages.length, laps, clock };
}

const sum = (laps: Laps, keys = Object.keys(laps)): number => keys.reduce((s, key) => s + (laps[key] ?? 0), 0);

const manyTimes = flags.times.split(',').map(Number);
for (const name of flags.example ? [flags.example] : ['lesson-room', 'radio-corner']) {
  const text = readFileSync(join(root, 'examples', `${name}.plan.yaml`), 'utf8');
  const rows: Run[] = [];
  for (const times of manyTimes) {
    let best: Run | undefined;
    for (let i = 0; i < Number(flags.runs); i++) {
      const one = await run(text, times, flags.save && join(flags.save, `${name}-${times}`));
      console.error(
        `${name} × ${times}: ${sum(one.laps).toFixed(0)} ms of processor time, ${one.clock.toFixed(0)} ms on the clock`,
      );
      if (!best || sum(one.laps) < sum(best.laps)) best = one;
    }
    rows.push(best!);
  }
  const [one, ...more] = rows as [Run, ...Run[]];
  const line = (what: string, values: readonly number[], growth = true) =>
    console.log(
      `${what.padEnd(18)}${values.map((v) => v.toFixed(0).padStart(9)).join('')}${
        growth && values.length > 1 && values[0]! >= 0.5
          ? `${(values.at(-1)! / values[0]!).toFixed(1).padStart(9)}`
          : ''
      }`,
    );
  console.log(`\n${name}: milliseconds of processor time, best of ${flags.runs} runs`);
  console.log(
    `${'pieces ×'.padEnd(18)}${manyTimes.map((t) => `${t}`.padStart(9)).join('')}${more.length > 0 ? '   growth' : ''}`,
  );
  line(
    'parts',
    rows.map((r) => r.parts),
  );
  line(
    'pages',
    rows.map((r) => r.pages),
  );
  for (const key of Object.keys(one.laps))
    line(
      key,
      rows.map((r) => r.laps[key]!),
    );
  line(
    'all',
    rows.map((r) => sum(r.laps)),
  );
  line(
    'on the clock',
    rows.map((r) => r.clock),
  );
  line(
    'all but cutting',
    rows.map((r) => sum(r.laps) - r.laps.cutting!),
  );
}
