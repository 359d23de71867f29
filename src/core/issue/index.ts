/**
 * What is wrong with something a person gave us, as data. Bugs throw; mistakes become issues.
 * `place` is where it stands in the file (1-based), `path` where it stands in the document.
 */
export interface Issue {
  readonly file?: string;
  readonly place?: { readonly line: number; readonly column: number };
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly found?: string;
  readonly expected?: string;
  /** The nearest valid thing, when one is near enough to be meant. */
  readonly nearest?: string;
}

/** A value, or everything that stood in its way. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export const ok = <T>(value: T): Result<T> => ({ ok: true, value });
export const fail = (...issues: Issue[]): { readonly ok: false; readonly issues: readonly Issue[] } => ({
  ok: false,
  issues,
});

/** One line for a person: where, what, what was found, what would do, what was probably meant. */
export function explain(issue: Issue): string {
  const where = [issue.file, issue.place && `line ${issue.place.line}, column ${issue.place.column}`]
    .filter(Boolean)
    .join(', ');
  const path = issue.path.length > 0 ? `${pathText(issue.path)}: ` : '';
  return `${where ? `${where}: ` : ''}${path}${inWords(issue, issue.found)}`;
}

/** The same without where, and without what was found: for who looks at the very place, where it stands. */
export const explainThere = (issue: Issue): string => inWords(issue, undefined);

function inWords(issue: Issue, found: string | undefined): string {
  const details = [
    found !== undefined && `found ${shown(found)}`,
    issue.expected !== undefined && `expected ${issue.expected}`,
    issue.nearest !== undefined && `did you mean ${issue.nearest}?`,
  ].filter(Boolean);
  return `${issue.message}${details.length > 0 ? ` (${details.join('; ')})` : ''}`;
}

/** What was found may be anything, a picture among it: no more of it than tells which it is, and nothing that a terminal obeys. */
function shown(found: string): string {
  const plain = found.replace(/\p{Cc}/gu, '·');
  return plain.length > LONGEST ? `${plain.slice(0, LONGEST)} …` : plain;
}
const LONGEST = 120;

/** options[0].pieces[2].size.width */
export function pathText(path: readonly (string | number)[]): string {
  return path.map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`)).join('');
}

/**
 * The candidate a person most likely meant: least Damerau–Levenshtein distance (optimal string alignment), and no more
 * than a third of the letters wrong; else the only one that begins with what was typed. Undefined when nothing is near.
 */
export function nearest(typed: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  const all = [...candidates];
  const word = typed.toLowerCase();
  for (const candidate of all) {
    const meant = candidate.toLowerCase();
    // of two as near, the one that begins alike: a slip is seldom in the first letter
    const distance = editDistance(word, meant) + (meant[0] === word[0] ? 0 : 0.5);
    if (distance < least) [best, least] = [candidate, distance];
  }
  if (best !== undefined && Math.floor(least) <= Math.max(1, Math.floor(Math.max(typed.length, best.length) / 3)))
    return best;
  const begun = all.filter((candidate) => candidate.toLowerCase().startsWith(typed.toLowerCase()));
  return typed.length >= 3 && begun.length === 1 ? begun[0] : undefined;
}

/** How many letters are added, left out, changed or swapped with the next between two words (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, beforeLast[j - 2]! + 1);
      row.push(cost);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
