/**
 * Which marks of a page stay as they are, which change and which come, when another drawing takes its place. Plain text in, plain steps
 * out: `sheet-svg.tsx` takes them on the page.
 */

/** For each new mark: the old one whose element it takes, as it is (`same`) or with other figures; -1 for a new element. */
export interface Steps {
  readonly from: readonly number[];
  readonly same: readonly boolean[];
}

/** A drawing as it follows from another. */
export interface Patch {
  /** As in `Steps`. */
  readonly from: readonly number[];
  /** Every mark that is not an old one as it was: its place, what it is now, and, where it takes an old element, what changes in that. */
  readonly marks: readonly (readonly [at: number, mark: string, changes?: readonly Change[]])[];
}

export function patchTo(old: readonly string[], now: readonly string[]): Patch {
  const { from, same } = stepsTo(old, now);
  const marks = now.flatMap((mark, i): Patch['marks'] => {
    if (same[i]) return [];
    return [from[i]! < 0 ? [i, mark] : [i, mark, changesTo(old[from[i]!]!, mark)]];
  });
  return { from, marks };
}

/** Elements keep their order: what would have to be moved past another is made anew. */
export function stepsTo(old: readonly string[], now: readonly string[]): Steps {
  const from: number[] = Array.from({ length: now.length }, () => -1);
  const least = Math.min(old.length, now.length);
  let head = 0;
  while (head < least && old[head] === now[head]) from[head] = head++;
  let tail = 0;
  while (tail < least - head && old[old.length - 1 - tail] === now[now.length - 1 - tail]) {
    tail++;
    from[now.length - tail] = old.length - tail;
  }
  const [oldEnd, end] = [old.length - tail, now.length - tail];
  const kept = keptOf(old, now, head, oldEnd, end);
  for (const [i, j] of kept) from[i] = j;
  const same = from.map((j) => j >= 0);
  // between what stays, a mark of the same build is the old one with other figures
  let [i, j] = [head, head];
  for (const [nextI, nextJ] of [...kept, [end, oldEnd] as const]) {
    for (; i < nextI && j < nextJ; i++) {
      const like = likeFrom(old, j, nextJ, now[i]!);
      if (like < 0) continue;
      from[i] = like;
      j = like + 1;
    }
    [i, j] = [nextI + 1, nextJ + 1];
  }
  return { from, same };
}

/** How far a mark of the same build is looked for. */
const NEAR = 4;
function likeFrom(old: readonly string[], at: number, end: number, mark: string): number {
  const build = buildOf(mark);
  for (let j = at; j < Math.min(end, at + NEAR); j++) if (buildOf(old[j]!) === build) return j;
  return -1;
}

/** Pairs of equal marks, the longest run of them in the order of both. */
function keptOf(
  old: readonly string[],
  now: readonly string[],
  head: number,
  oldEnd: number,
  end: number,
): readonly (readonly [number, number])[] {
  const places = new Map<string, number[]>();
  for (let j = oldEnd - 1; j >= head; j--) {
    const known = places.get(old[j]!);
    if (known) known.push(j);
    else places.set(old[j]!, [j]);
  }
  const pairs: (readonly [number, number])[] = [];
  for (let i = head; i < end; i++) {
    const j = places.get(now[i]!)?.pop();
    if (j !== undefined) pairs.push([i, j]);
  }
  // the longest rising sequence: of every length the one that ends lowest, each with what comes before it (Schensted 1961)
  const ends: number[] = [];
  const before: number[] = [];
  pairs.forEach(([, j], k) => {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[ends[middle]!]![1] < j) low = middle + 1;
      else high = middle;
    }
    before[k] = low > 0 ? ends[low - 1]! : -1;
    ends[low] = k;
  });
  const kept: (readonly [number, number])[] = [];
  for (let k = ends.at(-1) ?? -1; k >= 0; k = before[k]!) kept.push(pairs[k]!);
  return kept.reverse();
}

/** A mark taken apart: every second stretch is the value of an attribute, or a text between two tags. */
const STRETCHES = /"([^"]*)"|>([^<]*)</g;
/** The same mark with its values and texts left out: two of one build differ in nothing else. */
const buildOf = (mark: string): string =>
  mark.replace(STRETCHES, (_, value?: string) => (value === undefined ? '><' : '""'));

/** What differs between two marks of one build: the values of attributes, by the number of their element, and the texts within it. */
export interface Change {
  readonly element: number;
  /** Undefined for the text. */
  readonly attribute: string | undefined;
  readonly value: string;
}
const TAG = /<(\w+)((?: [\w-]+="[^"]*")*)\/?>([^<]*)/g;
const ATTRIBUTE = / ([\w-]+)="([^"]*)"/g;

export function changesTo(old: string, now: string): readonly Change[] {
  const changes: Change[] = [];
  const [before, after] = [[...old.matchAll(TAG)], [...now.matchAll(TAG)]];
  after.forEach(([, , attributes, text], element) => {
    const [, , was, said] = before[element]!;
    if (attributes !== was) {
      const known = [...was!.matchAll(ATTRIBUTE)];
      [...attributes!.matchAll(ATTRIBUTE)].forEach(([, attribute, value], k) => {
        if (value !== known[k]![2]) changes.push({ element, attribute, value: plain(value!) });
      });
    }
    if (text !== said) changes.push({ element, attribute: undefined, value: plain(text!) });
  });
  return changes;
}

/** What `escapeXml` wrote, as it was. */
const plain = (text: string): string =>
  text.includes('&') ? text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name) => SIGNS[name]!) : text;
const SIGNS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
