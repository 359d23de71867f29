import { statSync } from 'node:fs';
import { pathOf, type Replaced, type replaceFile } from './files.ts';
import { stampOf } from './plan-reads.ts';

/** What the file is put there by, for the tests to stand in for a full disk. */
export type Replace = typeof replaceFile;

/** What this server itself writes into the folder, told from what another program does. */
export interface OwnWrites {
  readonly put: (name: string, text: string, expected: string | undefined) => Replaced;
  readonly isOurs: (name: string, stamp: string) => boolean;
  /** Waits while another program is still at the file: what it has half written is nobody's wish. */
  readonly settled: (name: string) => Promise<void>;
}

export function ownWrites(folder: string, replace: Replace): OwnWrites {
  /** How our last write of each file looks, so that we do not wait for ourselves. */
  const ours = new Map<string, string>();
  const isOurs = (name: string, stamp: string): boolean => ours.get(name) === stamp;
  return {
    isOurs,

    put(name, text, expected) {
      const path = pathOf(folder, name);
      const replaced = replace(path, text, expected);
      ours.set(name, stampOf(statSync(path)));
      return replaced;
    },

    async settled(name) {
      let before: string | undefined;
      for (let i = 0; i < 10; i++) {
        const stat = statSync(pathOf(folder, name), { throwIfNoEntry: false });
        if (!stat) return;
        const now = stampOf(stat);
        if (isOurs(name, now)) return;
        const age = Date.now() - stat.mtimeMs;
        // a time to come, of another machine's clock or of before ours was set back, says nothing: then it is seen by two looks
        if (age > 150 || (age < 0 && before === now)) return;
        before = now;
        await new Promise((resolve) => setTimeout(resolve, 60));
      }
    },
  };
}
