import { watch } from 'node:fs';
import { refusalOf } from './refusal.ts';

/** The system tells of a change at once, and of one save often three times. */
const SETTLES = 120;
/** On a disk that tells nothing, and for what is in the history only. */
const EVERY = 3000;

export interface Looking {
  /** Ends when the look that is going on has ended. */
  readonly stop: () => Promise<void>;
}

/** Looks again and again what other programs do in a folder: one look at a time, soon after a change, and by the clock. */
export function keepLooking(folder: string, lookAround: () => Promise<void>, log: (message: string) => void): Looking {
  let looking: Promise<void> | undefined;
  let again = false;
  let trouble: string | undefined;
  const look = (): void => {
    if (looking) {
      again = true;
      return;
    }
    looking = lookAround()
      .then(
        () => {
          trouble = undefined;
        },
        (error: Error) => {
          // said once, not with every look
          const words = `What other programs do in the workspace folder is not seen: ${refusalOf(error)?.message ?? error.message}`;
          if (words !== trouble) log(words);
          trouble = words;
        },
      )
      .finally(() => {
        looking = undefined;
        if (again) {
          again = false;
          look();
        }
      });
  };
  let soon: NodeJS.Timeout | undefined;
  const watcher = (() => {
    try {
      return watch(folder, { persistent: false }, () => {
        clearTimeout(soon);
        soon = setTimeout(look, SETTLES);
      });
    } catch {
      return undefined; // the clock below sees it too, a little later
    }
  })();
  watcher?.on('error', () => watcher.close());
  const clock = setInterval(look, EVERY);
  clock.unref();
  return {
    stop: async () => {
      clearInterval(clock);
      clearTimeout(soon);
      watcher?.close();
      again = false;
      await looking;
    },
  };
}
