import type { Edit } from '../core/plan/index.ts';
import type { Moved } from '../core/workspace/index.ts';
import { layAnew, say, useBench } from './bench.ts';

/** What others do with the plan on the bench, where it is more than another text of it. */

/**
 * Two replacements, one after the other, in the other order: the second as it is without the first, and the first as it is after that.
 * Undefined where they touch, and neither can be told from the other.
 */
export function inTurn(
  first: readonly Edit[],
  second: readonly Edit[],
): readonly [readonly Edit[], readonly Edit[]] | undefined {
  const [f, s] = [first[0], second[0]];
  if (f === undefined || s === undefined) return [second, first];
  if (f.op !== 'text' || s.op !== 'text' || first.length > 1 || second.length > 1) return undefined;
  if (s.at + s.old.length < f.at) return [second, [{ ...f, at: f.at + s.new.length - s.old.length }]];
  if (s.at > f.at + f.new.length) return [[{ ...s, at: s.at + f.old.length - f.new.length }], first];
  return undefined;
}

/** Goes on under the name that the file of a plan has now, with all that the browser keeps of it. Whether it is the one on the bench. */
export function follow({ name, to }: Moved): boolean {
  try {
    for (const store of [localStorage, sessionStorage])
      for (const key of Object.keys(store)) {
        const [, kind, rest = ''] = /^(setwright:[a-z]+:)(.*)$/s.exec(key) ?? [];
        if (kind === undefined || (rest !== name && !rest.startsWith(`${name}:`))) continue;
        store.setItem(kind + to + rest.slice(name.length), store.getItem(key)!);
        store.removeItem(key);
      }
  } catch {
    // forbidden, or no room: what the page itself holds goes along
  }
  const { name: lying, text, revision, selected, done, undone, below } = useBench.getState();
  if (lying !== name) return false;
  layAnew(to, text, revision);
  useBench.setState({ selected, done, undone, below });
  say(`The file of this plan is called ${to} now.`);
  return true;
}
