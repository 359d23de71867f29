import type { Evaluation } from './evaluation.ts';

/** So many more of one thing that is bought, or so many less. */
export interface Bought {
  readonly id: string;
  readonly name: string;
  readonly kind: 'panel' | 'board' | 'pack';
  readonly by: number;
}
const ORDER = ['panel', 'board', 'pack'];
const inOrder = (changes: readonly Bought[]): readonly Bought[] =>
  changes.toSorted((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) || Math.abs(b.by) - Math.abs(a.by));

/** What is bought more or less of between two evaluations, panels first. */
export const changesOf = (before: Evaluation, after: Evaluation): readonly Bought[] =>
  inOrder(
    [...new Set([...before.buys.keys(), ...after.buys.keys()])].flatMap((id) => {
      const { name, kind } = (after.buys.get(id) ?? before.buys.get(id))!;
      const by = (after.buys.get(id)?.count ?? 0) - (before.buys.get(id)?.count ?? 0);
      return by === 0 ? [] : [{ id, name, kind, by }];
    }),
  );
/** Several changes as one; `way` -1: gone through backwards. */
export function summed(all: readonly Bought[], way: number): readonly Bought[] {
  const sums = new Map<string, Bought>();
  for (const one of all) sums.set(one.id, { ...one, by: (sums.get(one.id)?.by ?? 0) + way * one.by });
  return inOrder([...sums.values()].filter(({ by }) => by !== 0));
}

/** `a panel (birch 3/4) for one more (pine)`: what is not bought any more, and what is bought in its stead. */
export function savedOf(changes: readonly Bought[]): string {
  // An exchange saves too: two small panels for one more large one.
  const [saved, spent] = [changes.filter((c) => c.by > 0), changes.filter((c) => c.by < 0)];
  const told = saved.map((c) => `${c.by === 1 ? 'a' : c.by} ${plural(c.kind, c.by)} (${c.name})`).join(' and ');
  const more = spent.map((c) => `${c.by === -1 ? 'one' : -c.by} more (${c.name})`).join(' and ');
  return `${told || 'money'}${more && ` for ${more}`}`;
}
/** `birch 3/4: one panel more`. */
export const toldOf = (changes: readonly Bought[]): string =>
  changes.length === 0
    ? 'other prices'
    : changes
        .map(
          (c) =>
            `${c.name}: ${Math.abs(c.by) === 1 ? 'one' : Math.abs(c.by)} ${plural(c.kind, c.by)} ${c.by > 0 ? 'more' : 'less'}`,
        )
        .join('; ');
const plural = (word: string, n: number): string => (Math.abs(n) === 1 ? word : `${word}s`);
