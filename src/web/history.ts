import type { Edit } from '../core/plan/index.ts';

/** One change that was made: how to undo it, and what to call it. */
export interface Change {
  readonly title: string;
  readonly inverse: readonly Edit[];
  /** The server's revision on which it was made. */
  readonly base: number;
  /** Made by another page or program: of what was made here before it, undo takes back that first. */
  readonly elsewhere?: boolean;
}
export interface History {
  readonly done: readonly Change[];
  readonly undone: readonly Change[];
  /** What was before all of `done`: this revision of the server's, or one before it. Undo goes on there, revision by revision. */
  readonly below: number;
}

/** Steps the browser keeps; what is older the server has, as its revisions. */
const MOST = 200;

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

export function keepHistory(name: string, text: string, { done, undone, below }: History): void {
  for (let most = MOST; ; most = Math.floor(most / 2)) {
    const last = (all: readonly Change[]): readonly Change[] => (most === 0 ? [] : all.slice(-most));
    const own = last(done);
    const whole = own.length === done.length;
    const kept: Kept = {
      text: printOf(text),
      done: own,
      undone: last(undone),
      below: whole ? below : (own[0] ?? done.at(-1)!).base,
    };
    try {
      localStorage.setItem(placeOf(name), JSON.stringify(kept));
      return;
    } catch {
      // the browser's room is full: the oldest go first
      if (most === 0) return;
    }
  }
}

/** What was kept for this text; for any other, what the server has from this revision back. */
export function keptHistory(name: string, text: string, revision: number): History {
  try {
    const kept = JSON.parse(localStorage.getItem(placeOf(name)) ?? 'null') as Kept | null;
    if (kept?.text === printOf(text)) return { done: kept.done, undone: kept.undone, below: kept.below ?? revision };
  } catch {
    // unreadable or forbidden: as if nothing had been kept
  }
  return { done: [], undone: [], below: revision };
}
