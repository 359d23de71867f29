import { applyEdits, type PlainValue, readPlan } from '../plan/index.ts';
import { mergePlain, samePlain } from './merge-plain.ts';
import type { Clash } from './protocol.ts';
import { differences, weave } from './sequences.ts';

export type Merge =
  | { readonly clean: true; readonly text: string }
  | { readonly clean: false; readonly clashes: readonly Clash[] };

/**
 * Two changes of one plan file in one text. The words of the files are woven together, by lines and, where that does not go, by words;
 * apart from that the data they hold are merged by name and place, and the woven text counts only when it reads as exactly those
 * data, with no fault that neither side had. Whatever is in doubt is a clash: then nothing is merged.
 */
export function mergeTexts(base: string, mine: string, theirs: string): Merge {
  if (mine === theirs || mine === base) return { clean: true, text: theirs };
  if (theirs === base) return { clean: true, text: mine };
  const [b, m, t] = [base, mine, theirs].map(linesOf) as [Lines, Lines, Lines];
  const lines = weave(b, m, t);
  const clash = (): Merge => {
    const range = ([from, to]: readonly [number, number]) => ({ from, to });
    const clashes = lines.collisions.map((c) => ({
      base: range(c.base),
      mine: range(c.mine),
      theirs: range(c.theirs),
    }));
    return { clean: false, clashes: clashes.length > 0 ? clashes : [allChanged(b, m, t)] };
  };

  const read = [base, mine, theirs].map((text) => readPlan(text));
  const plain = read.map(({ document }) => document.plain as PlainValue | undefined);
  if (plain.some((value) => value === undefined)) return clash();
  const wanted = mergePlain(plain[0]!, plain[1]!, plain[2]!);
  if (!wanted.clean) return clash();
  const faultless = read.slice(1).every(({ issues }) => issues.length === 0);
  const holds = (text: string): boolean => {
    const { document, issues } = readPlan(text);
    return (
      document.plain !== undefined &&
      samePlain(document.plain as PlainValue, wanted.value) &&
      (!faultless || issues.length === 0)
    );
  };

  if (lines.collisions.length === 0) {
    const text = lines.merged.join('');
    if (holds(text)) return { clean: true, text };
  }
  const words = weave(wordsOf(base), wordsOf(mine), wordsOf(theirs));
  if (words.collisions.length === 0) {
    const text = words.merged.join('');
    if (holds(text)) return { clean: true, text };
  }
  // where one side changed nothing but data, its change can be made again on the other's text, whose comments and spaces stay
  for (const [from, value, onto] of [
    [mine, plain[1]!, theirs],
    [theirs, plain[2]!, mine],
  ] as const) {
    const again = applyEdits(base, [{ op: 'set', path: [], value }]);
    if (!again.ok || again.value.text !== from) continue;
    const both = applyEdits(onto, [{ op: 'set', path: [], value: wanted.value }]);
    if (both.ok && holds(both.value.text)) return { clean: true, text: both.value.text };
  }
  return clash();
}

type Lines = readonly string[];
const linesOf = (text: string): Lines => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
const wordsOf = (text: string): Lines => text.match(/\r?\n|[^\S\n]+|[\p{L}\p{N}_]+|[^\p{L}\p{N}_\s]/gu) ?? [];

/** From the first line that either side changed to the last. */
function allChanged(base: Lines, mine: Lines, theirs: Lines): Clash {
  const ours = differences(base, mine);
  const others = differences(base, theirs);
  const all = [...ours, ...others];
  const from = Math.min(...all.map((hunk) => hunk.from));
  const to = Math.max(...all.map((hunk) => hunk.to));
  return {
    base: { from, to },
    mine: { from, to: to + mine.length - base.length },
    theirs: { from, to: to + theirs.length - base.length },
  };
}
