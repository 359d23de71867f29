import { afterEach, expect, it, vi } from 'vitest';
import { type Change, keepHistory, keptHistory } from './history.ts';

afterEach(() => vi.unstubAllGlobals());

/** A browser that keeps so many characters. */
function browserOf(room: number): void {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (place: string) => kept.get(place) ?? null,
    setItem: (place: string, text: string) => {
      if (text.length > room) throw new Error('no room');
      kept.set(place, text);
    },
  });
}
const changes = (count: number, size: number): readonly Change[] =>
  Array.from({ length: count }, (_, base) => ({
    title: `${base}`,
    inverse: [{ op: 'text', at: 0, old: '', new: 'x'.repeat(size) }],
    base,
  }));

it('what can be undone and done again is kept as far as there is room, the newest of it', () => {
  browserOf(5000);
  const [done, undone] = [changes(40, 100), changes(3, 100)];
  keepHistory('a', 'text', { done, undone, below: 1 });
  const kept = keptHistory('a', 'text', 9);
  expect(kept).toEqual({ done: done.slice(-25), undone, below: 15 });
});

it('where there is room for none, it goes on by the revisions of the server', () => {
  browserOf(400);
  keepHistory('a', 'text', { done: changes(2, 500), undone: changes(2, 500), below: 1 });
  expect(keptHistory('a', 'text', 9)).toEqual({ done: [], undone: [], below: 1 });
});
