import { useBench } from './bench.ts';
import { useDesk } from './workspace.ts';

/** A script that a bad connection kept back is asked for again after this long, or as soon as the browser says that it is connected. */
const RETRY = 4000;
export const nextTry = (): Promise<void> =>
  new Promise((resolve) => {
    const go = () => {
      clearTimeout(timer);
      removeEventListener('online', go);
      resolve();
    };
    const timer = setTimeout(go, RETRY);
    addEventListener('online', go);
  });

/** Asks until it comes. */
export async function insist<T>(load: () => Promise<T>, failed: () => void): Promise<T> {
  for (;;) {
    try {
      return await load();
    } catch (error) {
      // seen by whoever looks: a script with a bug does not come either
      console.warn(error);
      failed();
      await takeNewPages();
    }
    await nextTry();
  }
}

/** What is to be done when the script of a worker did not come. A worker that is here and fails says so itself. */
export function onLost(worker: Worker, again: () => void): void {
  worker.addEventListener('error', (event) => {
    if (event instanceof ErrorEvent && event.message !== '') return;
    worker.terminate();
    void takeNewPages().then(nextTry).then(again);
  });
}

/** The first script of a page, by the name that changes with its build. */
const scriptOf = (page: Document): string | undefined =>
  page.querySelector<HTMLScriptElement>('script[type=module][src]')?.getAttribute('src') ?? undefined;

/**
 * A workbench that was built anew under an open page has other scripts, and those that this page waits for will never come: it is loaded
 * again by itself. Not before what was done is with the server, nor under a hand that holds or types something: later tries ask again.
 */
async function takeNewPages(): Promise<void> {
  try {
    const answer = await fetch('/', { cache: 'no-store' });
    const there = answer.ok && scriptOf(new DOMParser().parseFromString(await answer.text(), 'text/html'));
    if (!there || there === scriptOf(document)) return;
  } catch {
    return; // not reached yet
  }
  const isTyped =
    document.activeElement?.matches('input:not([type=checkbox])') ||
    [...document.querySelectorAll('textarea')].some(({ value }) => value !== '');
  if (!isTyped && !useBench.getState().dragging && useDesk.getState().kept === 'saved') location.reload();
}
