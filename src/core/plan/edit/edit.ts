import type { Path } from '../document.ts';

/** Anything a plan file can hold. */
export type PlainValue =
  | string
  | number
  | boolean
  | null
  | readonly PlainValue[]
  | { readonly [key: string]: PlainValue };

/**
 * A change as data. Paths name keys of maps and numbers of list entries.
 *
 * - `set` puts a value where the path leads, whether something stands there or not; the map or list around it must exist.
 * - `remove` takes away the key or the list entry.
 * - `insert` puts an entry into a list before the one with that number (its length: at the end), or a new key into a map.
 * - `move` takes what stands at `from` and inserts it at `path`, which is counted after it was taken away.
 * - `text` replaces characters of the file itself; what stands there must be `old`. Inverses are made of it, so that undoing
 *   brings back every space and comment.
 */
export type Edit =
  | { readonly op: 'set'; readonly path: Path; readonly value: PlainValue }
  | { readonly op: 'remove'; readonly path: Path }
  | { readonly op: 'insert'; readonly path: Path; readonly value: PlainValue }
  | { readonly op: 'move'; readonly from: Path; readonly path: Path }
  | { readonly op: 'text'; readonly at: number; readonly old: string; readonly new: string };
