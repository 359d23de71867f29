import { type Stats, statSync } from 'node:fs';
import { type PlanRead, readPlan } from '../core/plan/index.ts';
import type { PlanEntry } from '../core/workspace/index.ts';
import { pathOf, planNames, readTextFile } from './files.ts';

const MOST_READ = 40;
const MOST_LISTED = 5_000;
/** ms within which a file that is still being written may change and have the same time: of the coarsest disks. */
const CLOCK_TICK = 2000;

/** What tells a file from what it was, and from another in its place. */
export const stampOf = ({ mtimeMs, size, ino }: Stats): string => `${mtimeMs} ${size} ${ino}`;

export interface PlanReads {
  /** `hash` is the text's own. */
  readonly read: (hash: string, text: string) => PlanRead;
  /** The plans of a folder, in order. */
  readonly list: (folder: string) => readonly PlanEntry[];
}

/** Reading a plan is the dear part: the same text is read once, and a folder of many plans not anew for every list. */
export function planReads(): PlanReads {
  const reads = new Map<string, PlanRead>();
  /** What a file that has not changed was found to be. */
  const titles = new Map<string, { readonly stamp: string; readonly title: string; readonly sound: boolean }>();

  const read = (hash: string, text: string): PlanRead => {
    const known = reads.get(hash);
    if (known) return known;
    const fresh = readPlan(text);
    if (reads.size >= MOST_READ) reads.delete(reads.keys().next().value!);
    reads.set(hash, fresh);
    return fresh;
  };

  const entryFor = (folder: string, name: string): PlanEntry => {
    const path = pathOf(folder, name);
    const stat = statSync(path);
    const entry = { name, changed: stat.mtime.toISOString(), bytes: stat.size };
    const stamp = stampOf(stat);
    const known = titles.get(path);
    if (known?.stamp === stamp) return { ...entry, title: known.title, sound: known.sound };
    let found = { title: name, sound: false };
    try {
      const file = readTextFile(path)!;
      const { plan } = read(file.hash, file.text);
      found = { title: plan?.title ?? name, sound: plan !== undefined };
    } catch {
      // no plan, and listed as none
    }
    if (titles.size >= MOST_LISTED) titles.clear();
    if (Date.now() - stat.mtimeMs > CLOCK_TICK) titles.set(path, { stamp, ...found });
    return { ...entry, ...found };
  };

  return {
    read,
    list: (folder) =>
      planNames(folder).flatMap((name) => {
        try {
          return [entryFor(folder, name)];
        } catch {
          return []; // a link out of the folder, or gone meanwhile
        }
      }),
  };
}
