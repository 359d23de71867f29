import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { findOption, sceneOf } from '../src/core/outcome.ts';
import { readPlan } from '../src/core/plan/index.ts';
import { serve } from '../src/server/kills.testing.ts';
import { executablePath, launch } from '../test/browser/chromium.ts';
import { type Drag, handMoves, nothingToDo, watchHand } from './web-hand.ts';
import { ofParts } from './web-plan.ts';

/**
 * `npm run bench -- web`: the built workbench in a real browser. How much script the first load takes and how soon the page can be used;
 * then, on a plan of 150 parts and on one of ten times that, what one step of a drag costs from the event to the painted frame.
 *
 * Of each step two times are told: what passed on the clock, and what the page's main thread worked (its processor time, which other work
 * on the machine does not lengthen), in all, for one picture of the display, and at most in one go. What stands between them is waiting
 * for a processor or for the display.
 * Then, while it is dragged at every picture of the display, and with a hand that waits after each move: when the drawing, the tally and
 * the notes of a move, which a worker makes, were all in a frame, and of what that time consists. What an empty page takes for the same,
 * whose worker has nothing to do, is told first.
 */
const { values: flags } = parseArgs({
  options: {
    program: { type: 'string' },
    moves: { type: 'string', default: '60' },
    parts: { type: 'string', default: '150,1500' },
    only: { type: 'string' },
    profile: { type: 'string' },
  },
});
const root = fileURLToPath(process.env.SETWRIGHT_ROOT!.replace(/\/?$/, '/'));
const program = flags.program ?? join(root, 'dist/cli/main.js');
const web = join(program, '../../web/assets');
const MOVES = Number(flags.moves);
const SETTLING = 2500;

const quantile = (all: readonly number[], q: number): number =>
  all.toSorted((a, b) => a - b)[Math.min(all.length - 1, Math.floor(q * all.length))] ?? Number.NaN;
const spread = (all: readonly number[]): string =>
  `p50 ${quantile(all, 0.5).toFixed(1)}  p95 ${quantile(all, 0.95).toFixed(1)}  worst ${Math.max(...all).toFixed(1)}`;

const print = (title: string, rows: Readonly<Record<string, readonly number[]>>): void => {
  console.log(`  ${title}`);
  for (const [name, all] of Object.entries(rows)) console.log(`    ${name.padEnd(10)} ${spread(all)}`);
};

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly tid: number;
  readonly pid: number;
  readonly args?: { readonly src_func?: string };
}
async function traced(cdp: CDPSession, work: () => Promise<void>): Promise<readonly TraceEvent[]> {
  const events: TraceEvent[] = [];
  const collect = ({ value }: { value: unknown[] }) => void events.push(...(value as TraceEvent[]));
  cdp.on('Tracing.dataCollected', collect);
  await cdp.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: {
      includedCategories: ['toplevel', 'devtools.timeline', 'blink.user_timing'],
      excludedCategories: ['*'],
    },
  });
  await work();
  const done = new Promise<void>((resolve) => cdp.once('Tracing.tracingComplete', () => resolve()));
  await cdp.send('Tracing.end');
  await done;
  return events;
}

/** ms from one picture of the display to the next. */
const FRAME = 1000 / 60;
const REST = 1000;
/** A hand that goes on as often as the display shows something new, and one that waits after each move. */
const GOING: Drag = { moves: 240, before: 60, by: 1.5, every: FRAME };
const RESTING: Drag = { moves: 24, before: 2, by: 5, every: REST };

/** In the page: measures each pointer move until the frame with its drawing has been made. Once for each page. */
const watchMoves = (): void => {
  const target = window as unknown as { steps: number[] };
  target.steps = [];
  const channel = new MessageChannel();
  let from = 0;
  channel.port1.onmessage = () => void target.steps.push(performance.now() - from);
  let n = 0;
  addEventListener(
    'pointermove',
    (event) => {
      // when the browser got to know of it
      from = event.timeStamp;
      performance.mark(`step-${n++}`);
      // after the frame's own work: a message sent from its callback comes when it is done
      requestAnimationFrame(() => channel.port2.postMessage(0));
    },
    true,
  );
};

async function drag(
  page: Page,
  cdp: CDPSession,
  from: readonly [number, number],
): Promise<Readonly<Record<string, readonly number[]>>> {
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(from[0] + 6, from[1]);
  await page.evaluate(() => {
    (window as unknown as { steps: number[] }).steps.length = 0;
  });
  const events = await traced(cdp, async () => {
    for (let i = 0; i < MOVES; i++) {
      // there and back again, a pixel and a half at a time
      const by = 8 + 1.5 * (i < MOVES / 2 ? i : MOVES - i);
      const begun = performance.now();
      await page.mouse.move(from[0] + by, from[1]);
      // as often as the display shows something new; nothing is asked of the page, which would have to answer in between
      await page.waitForTimeout(Math.max(0, FRAME - (performance.now() - begun)));
    }
    await page.waitForTimeout(REST);
    await page.evaluate(() => performance.mark('step-end'));
  });
  await page.keyboard.press('Escape');
  await page.mouse.up();
  const wall = (await page.evaluate(() => (window as unknown as { steps: number[] }).steps)) as number[];
  const main = events.find((e) => /^step-/.test(e.name))!;
  const own = events.filter((e) => e.pid === main.pid && e.tid === main.tid);
  const marks = own
    .filter((e) => /^step-/.test(e.name))
    .map((e) => e.ts)
    .sort((a, b) => a - b);
  const perStep = (names: RegExp): number[] => {
    const sums = Array.from({ length: marks.length - 1 }, () => 0);
    for (const e of own) {
      if (e.ph !== 'X' || !names.test(e.name)) continue;
      const end = e.ts + (e.dur ?? 0);
      // a task belongs to the step whose mark it ends behind
      const i = marks.findLastIndex((mark) => mark <= end);
      if (i >= 0 && i < sums.length) sums[i]! += (e.tdur ?? e.dur ?? 0) / 1000;
    }
    return sums;
  };
  const longest = Array.from({ length: marks.length - 1 }, () => 0);
  for (const e of own) {
    if (e.ph !== 'X' || !/RunTask$/.test(e.name)) continue;
    const i = marks.findLastIndex((mark) => mark <= e.ts + (e.dur ?? 0));
    if (i >= 0 && i < longest.length) longest[i] = Math.max(longest[i]!, (e.tdur ?? e.dur ?? 0) / 1000);
  }
  // all that was worked since the picture before, whatever came of it
  const pictures = [0];
  for (const e of own.filter((e) => e.ph === 'X' && /RunTask$/.test(e.name)).sort((a, b) => a.ts - b.ts)) {
    if (e.ts < marks[0]! || e.ts > marks.at(-1)!) continue;
    pictures[pictures.length - 1]! += (e.tdur ?? e.dur ?? 0) / 1000;
    if (e.args?.src_func === 'ScheduledActionSendBeginMainFrame') pictures.push(0);
  }
  return {
    wall,
    work: perStep(/RunTask$/),
    'a picture': pictures.slice(0, -1),
    'in one go': longest,
    script: perStep(/^(FunctionCall|RunMicrotasks|FireAnimationFrame)$/),
    style: perStep(/^(UpdateLayoutTree|RecalculateStyles|Layout|PrePaint|Paint|Layerize|Commit|HitTest)$/),
    parse: perStep(/^ParseHTML$/),
  };
}

async function main(): Promise<void> {
  if (executablePath === undefined) throw new Error('no chromium on the PATH, nor named by CHROMIUM');
  const browser = await launch(executablePath);
  const folder = mkdtempSync(join(tmpdir(), 'setwright-web-'));
  const example = readFileSync(join(root, 'examples/lesson-room.plan.yaml'), 'utf8');
  try {
    if (flags.only === undefined || flags.only === 'load') await load(browser, folder, example);
    if (flags.only === undefined || flags.only === 'drag') {
      print('an empty page whose worker has nothing to do, ms of a move', await nothingToDo(browser, GOING));
      for (const parts of flags.parts!.split(',').map(Number)) await drags(browser, folder, example, parts);
    }
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Usable: the first drawing is on the screen and its pieces can be taken hold of; behind it comes the form for what is chosen. */
const USABLE = { drawing: '.handles button', inspector: '.inspector' } as const;
const LOADED = 3000;

/** In the page, before anything of it: when the frame was made in which something is there for the first time. */
const watchLoad = (wanted: Readonly<Record<string, string>>): void => {
  const seen: Record<string, number> = {};
  (window as unknown as { seen: typeof seen }).seen = seen;
  const left = new Map(Object.entries(wanted));
  const channel = new MessageChannel();
  const found: string[] = [];
  // after the frame's own work: a message sent from its callback comes when it is done
  channel.port1.onmessage = () => {
    for (const name of found.splice(0)) seen[name] = performance.now();
  };
  const watch = new MutationObserver(() => {
    for (const [name, selector] of left) {
      if (!document.querySelector(selector)) continue;
      left.delete(name);
      requestAnimationFrame(() => {
        found.push(name);
        channel.port2.postMessage(0);
      });
    }
    if (left.size === 0) watch.disconnect();
  });
  watch.observe(document, { subtree: true, childList: true });
};

async function load(browser: Browser, folder: string, text: string): Promise<void> {
  const file = join(folder, 'load.plan.yaml');
  writeFileSync(file, text);
  const { address, child, ended } = await serve([program], file);
  const usable: number[] = [];
  const drawn: number[] = [];
  const busy: number[] = [];
  const scripts = new Map<string, number>();
  for (let i = 0; i < 7; i++) {
    const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
    page.on('response', (response) => {
      const name = new URL(response.url()).pathname.split('/').at(-1)!;
      if (name.endsWith('.js') && !name.includes('worker')) scripts.set(name, statSync(join(web, `${name}.gz`)).size);
    });
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
    // whoever opens a page has the browser's window open: its own making is not part of the load
    await page.waitForTimeout(SETTLING);
    await page.addInitScript(watchLoad, USABLE);
    await page.goto(`${address}/`, { waitUntil: 'commit' });
    // nothing is asked of the page until it is done: it would have to answer in between
    await page.waitForTimeout(LOADED);
    const seen = await page.evaluate(() => (window as unknown as { seen: Readonly<Record<string, number>> }).seen);
    drawn.push(seen.drawing ?? Number.NaN);
    usable.push(seen.inspector ?? Number.NaN);
    const { metrics } = await cdp.send('Performance.getMetrics');
    busy.push((metrics.find((m) => m.name === 'TaskDuration')?.value ?? 0) * 1000);
    await page.context().close();
  }
  // what the page itself names is there before anything is drawn; the rest comes behind it
  const page = readFileSync(join(web, '../index.html'), 'utf8');
  const sum = (names: readonly string[]): string =>
    (names.reduce((all, name) => all + scripts.get(name)!, 0) / 1000).toFixed(1);
  const [first, behind] = [true, false].map((named) => [...scripts.keys()].filter((n) => page.includes(n) === named));
  console.log(`first load, the lesson room: ${sum([...scripts.keys()])} kB of gzipped script in all (at most 250)`);
  console.log(`  ${sum(first!)} kB before the drawing, and behind it ${sum(behind!)} kB: ${behind!.join(', ')}`);
  console.log(`  drawing there, ms from the start of loading: ${spread(drawn)}`);
  console.log(`  everything there, ms: ${spread(usable)}`);
  console.log(`  work of the main thread in the first ${LOADED / 1000} s, ms: ${spread(busy)}`);
  child.kill('SIGTERM');
  await ended;
}

async function drags(browser: Browser, folder: string, example: string, parts: number): Promise<void> {
  const text = ofParts(example, parts);
  const { plan, issues } = readPlan(text);
  if (!plan) throw new Error(`the plan cannot be read: ${JSON.stringify(issues[0])}`);
  const scene = sceneOf(plan, findOption(plan)!);
  const file = join(folder, `parts-${parts}.plan.yaml`);
  writeFileSync(file, text);
  const { address, child, ended } = await serve([program], file);
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  page.on('pageerror', (error) => console.log(`  a fault of the page: ${error.message}`));
  const cdp = await page.context().newCDPSession(page);
  await page.addInitScript(watchHand);
  // the wall of the piece that is held, whichever has most on it
  await page.goto(`${address}/#/page/elevation-north`);
  const hold = page.getByRole('button', { name: /^Scores, case/ });
  await hold.waitFor({ timeout: 120_000 });
  await page.waitForSelector('.inspector', { timeout: 120_000 });
  await page.evaluate(watchMoves);
  await page.waitForTimeout(parts > 1000 ? 20_000 : 6000);
  const marks = await page.evaluate(() => document.querySelectorAll('.sheet *').length);
  console.log(
    `${scene.parts.length} parts, ${scene.pieces.length} pieces, ${scene.notes.length} notes of the scene; ${marks} marks on the page`,
  );
  const at = async (share: number): Promise<readonly [number, number]> => {
    const box = (await hold.boundingBox())!;
    return [box.x + box.width * share, box.y + box.height / 2];
  };
  if (flags.profile !== undefined) {
    await cdp.send('Profiler.enable');
    await cdp.send('Profiler.setSamplingInterval', { interval: 200 });
    await cdp.send('Profiler.start');
  }
  for (const [what, share] of [
    ['moved', 0.5],
    ['widened', 1],
  ] as const) {
    // chosen by the drag before; its sides can be pulled now
    const result = await drag(page, cdp, await at(share));
    print(`a case ${what}, ms a step`, result);
    await page.waitForTimeout(500);
  }
  for (const [how, hand] of [
    ['at every picture of the display', GOING],
    ['with a rest after each', RESTING],
  ] as const)
    for (const [what, share] of [
      ['moved', 0.5],
      ['widened', 1],
    ] as const) {
      print(`a case ${what}, ${how}, ms of a move`, await handMoves(page, await at(share), hand));
      await page.waitForTimeout(500);
    }
  if (flags.profile !== undefined) {
    const { profile } = await cdp.send('Profiler.stop');
    writeFileSync(`${flags.profile}-${parts}.cpuprofile`, JSON.stringify(profile));
  }
  await page.context().close();
  child.kill('SIGTERM');
  await ended;
}

await main();
