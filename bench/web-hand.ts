import type { Browser, Page } from 'playwright-core';

/** A state under the hand: when it was asked for of the worker, when it was told, when it was drawn, and when a frame with both was made. */
interface Asked {
  readonly at: number;
  told?: number;
  drawn?: number;
  there?: number;
}
/** When the browser got to know of a move, and when the page did. */
interface Moved {
  readonly from: number;
  readonly heard: number;
}
interface Noted {
  readonly asked: Asked[];
  readonly moved: Moved[];
}

/** In the page, before anything of it: notes all that comes and goes between the page and the worker that works out what is held. */
export const watchHand = (): void => {
  const noted: Noted = { asked: [], moved: [] };
  (window as unknown as { noted: Noted }).noted = noted;
  // as the page does: at once, not when the next picture is made
  addEventListener(
    'pointerrawupdate',
    (event) => {
      noted.moved.push({ from: event.timeStamp, heard: performance.now() });
    },
    true,
  );
  const waiting: Asked[] = [];
  const channel = new MessageChannel();
  // after the frame's own work: a message sent from its callback comes when it is done
  channel.port1.onmessage = () => {
    for (const one of waiting.splice(0)) one.there = performance.now();
  };
  const known = new Map<number, Asked>();
  window.Worker = class extends Worker {
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options);
      if (!String(url).includes('hand')) return;
      this.addEventListener('message', ({ data }) => {
        const one = known.get(data.revision);
        if (!one) return;
        if (data.type === 'told') one.told = performance.now();
        if (data.type !== 'done') return;
        one.drawn = performance.now();
        waiting.push(one);
        requestAnimationFrame(() => channel.port2.postMessage(0));
      });
    }
    override postMessage(message: { type?: string; revision?: number }, ...more: never[]): void {
      if (message.type === 'held') {
        const one = { at: performance.now() };
        known.set(message.revision!, one);
        noted.asked.push(one);
      }
      super.postMessage(message, ...more);
    }
  };
};

export interface Drag {
  /** Moves that are counted, and those before them, while the engine still learns. */
  readonly moves: number;
  readonly before: number;
  /** px of a move, and ms from one to the next. */
  readonly by: number;
  readonly every: number;
}
/** The last of what came before, and what a move brings after it, has passed. */
const REST = 1000;

/** ms of each move of a drag until its state, or a later one, is in a frame; and of what that consists. */
export async function handMoves(
  page: Page,
  from: readonly [number, number],
  { moves, before, by, every }: Drag,
): Promise<Readonly<Record<string, readonly number[]>>> {
  await page.mouse.move(...from);
  await page.mouse.down();
  // nothing catches it: each move changes something
  await page.keyboard.down('Alt');
  const move = async (i: number): Promise<void> => {
    const begun = performance.now();
    // there and back again
    await page.mouse.move(from[0] + 8 + by * Math.abs((i % 60) - 30), from[1]);
    // nothing is asked of the page in between, which it would have to answer
    await page.waitForTimeout(Math.max(0, every - (performance.now() - begun)));
  };
  for (let i = 0; i < before; i++) await move(i);
  await page.waitForTimeout(REST);
  await page.evaluate(() => {
    const { noted } = window as unknown as { noted: Noted };
    noted.asked.length = noted.moved.length = 0;
  });
  for (let i = 0; i < moves; i++) await move(before + i);
  await page.waitForTimeout(REST);
  const { asked, moved } = await page.evaluate(() => (window as unknown as { noted: Noted }).noted);
  await page.keyboard.up('Alt');
  await page.keyboard.press('Escape');
  await page.mouse.up();
  const answered = moved.flatMap((move) => {
    const state = asked.find(({ at }) => at >= move.heard);
    return state?.there === undefined ? [] : [{ ...move, ...state, there: state.there }];
  });
  const since = (of: keyof Asked) => asked.flatMap((one) => (one[of] === undefined ? [] : [one[of] - one.at]));
  return {
    'all there': answered.map(({ there, from }) => there - from),
    'heard of': moved.map(({ heard, from }) => heard - from),
    'asked for': answered.map(({ at, heard }) => at - heard),
    told: since('told'),
    drawn: since('drawn'),
    'in a frame': asked.flatMap(({ there, drawn }) => (there === undefined ? [] : [there - drawn!])),
  };
}

/** What the display, the machine and this driver take by themselves: a page whose worker answers at once, and that shows a word of it. */
export async function nothingToDo(browser: Browser, drag: Drag): Promise<Readonly<Record<string, readonly number[]>>> {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.addInitScript(watchHand);
  // a page of this machine, which may have what only such a page may have
  await page.route('http://localhost/', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>.</title>' }),
  );
  await page.goto('http://localhost/');
  await page.evaluate(() => {
    const answer = `onmessage = ({ data: { revision } }) => {
      postMessage({ type: 'told', revision });
      postMessage({ type: 'done', revision });
    };`;
    const worker = new Worker(`${URL.createObjectURL(new Blob([answer]))}#hand`);
    const said = document.body.appendChild(document.createElement('p'));
    let revision = 0;
    worker.onmessage = ({ data }) => {
      said.textContent = data.revision;
    };
    addEventListener('pointerrawupdate', () => worker.postMessage({ type: 'held', revision: ++revision }));
  });
  const result = await handMoves(page, [400, 400], drag);
  await page.context().close();
  return result;
}
