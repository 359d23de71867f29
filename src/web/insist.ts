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
    }
    await nextTry();
  }
}

/** What is to be done when the script of a worker did not come. A worker that is here and fails says so itself. */
export function onLost(worker: Worker, again: () => void): void {
  worker.addEventListener('error', (event) => {
    if (event instanceof ErrorEvent && event.message !== '') return;
    worker.terminate();
    void nextTry().then(again);
  });
}
