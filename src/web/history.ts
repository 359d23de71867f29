import type { Edit } from '../core/plan/index.ts';

/** One change that was made: how to undo it, and what to call it. */
export interface Change {
  readonly title: string;
  readonly inverse: readonly Edit[];
}
export interface History {
  readonly done: readonly Change[];
  readonly undone: readonly Change[];
}

/** What can be undone, kept by the browser over reloads. It belongs to one text of one plan: of any other it would be wrong. */
interface Kept extends History {
  readonly text: string;
}

const placeOf = (name: string): string => `setwright:history:${name}`;

/** 32 bits of FNV-1a and the length. Source: IETF draft-eastlake-fnv: offset basis and prime. */
export function printOf(text: string): string {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return `${text.length}:${h >>> 0}`;
}

export function keepHistory(name: string, text: string, { done, undone }: History): void {
  for (let most = done.length; ; most = Math.floor(most / 2)) {
    const kept: Kept = { text: printOf(text), done: most === 0 ? [] : done.slice(-most), undone };
    try {
      localStorage.setItem(placeOf(name), JSON.stringify(kept));
      return;
    } catch {
      // the browser's room is full: the oldest go first
      if (most === 0) return;
    }
  }
}

export function keptHistory(name: string, text: string): History {
  try {
    const kept = JSON.parse(localStorage.getItem(placeOf(name)) ?? 'null') as Kept | null;
    if (kept?.text === printOf(text)) return { done: kept.done, undone: kept.undone };
  } catch {
    // unreadable or forbidden: as if nothing had been kept
  }
  return { done: [], undone: [] };
}
