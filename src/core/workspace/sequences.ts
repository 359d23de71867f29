/** Entries `from` up to but without `to` of the earlier sequence gave way to `start` … `end` of the later one. */
export interface Hunk {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

/** More differences than this in one stretch are told as one: nothing is wrong then, only coarse. */
const MOST_DIFFERENCES = 1500;

/**
 * What changed between two sequences, as few entries as can be.
 * Source: E. W. Myers, An O(ND) Difference Algorithm and Its Variations, Algorithmica 1 (1986), the greedy algorithm of section 4.
 */
export function differences(a: readonly string[], b: readonly string[]): readonly Hunk[] {
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const n = a.length - head - tail;
  const m = b.length - head - tail;
  if (n === 0 && m === 0) return [];
  const whole = [{ from: head, to: head + n, start: head, end: head + m }];
  if (n === 0 || m === 0) return whole;

  const most = Math.min(n + m, MOST_DIFFERENCES);
  const offset = most + 1;
  const furthest = new Int32Array(2 * most + 3);
  const trace: Int32Array[] = [];
  let found = -1;
  for (let d = 0; d <= most && found < 0; d++) {
    for (let k = -d; k <= d; k += 2) {
      let x =
        k === -d || (k !== d && furthest[offset + k - 1]! < furthest[offset + k + 1]!)
          ? furthest[offset + k + 1]!
          : furthest[offset + k - 1]! + 1;
      while (x < n && x - k < m && a[head + x] === b[head + x - k]) x++;
      furthest[offset + k] = x;
      if (x >= n && x - k >= m) {
        found = d;
        break;
      }
    }
    trace.push(furthest.slice(offset - d - 1, offset + d + 2));
  }
  if (found < 0) return whole;

  // backwards along the furthest paths: each step is one entry taken out or put in
  const hunks: Hunk[] = [];
  let x = n;
  let y = m;
  for (let d = found; d > 0; d--) {
    const before = trace[d - 1]!; // holds diagonals -d … d
    const at = (k: number): number => before[k + d]!;
    const k = x - y;
    const down = k === -d || (k !== d && at(k - 1) < at(k + 1));
    const fromK = down ? k + 1 : k - 1;
    const fromX = at(fromK);
    const fromY = fromX - fromK;
    const step = down
      ? { from: head + fromX, to: head + fromX, start: head + fromY, end: head + fromY + 1 }
      : { from: head + fromX, to: head + fromX + 1, start: head + fromY, end: head + fromY };
    const next = hunks.at(-1);
    if (next && next.from === step.to && next.start === step.end)
      hunks[hunks.length - 1] = { from: step.from, to: next.to, start: step.start, end: next.end };
    else hunks.push(step);
    x = fromX;
    y = fromY;
  }
  return hunks.reverse();
}

/** Three stretches that stand for one another where both sides changed the same place. */
export interface Collision {
  readonly base: readonly [number, number];
  readonly mine: readonly [number, number];
  readonly theirs: readonly [number, number];
}
export interface Woven {
  readonly merged: readonly string[];
  readonly collisions: readonly Collision[];
}

/**
 * Both changes of a sequence in one. Changes of neighbouring entries stand side by side; entries put in at the same place by both
 * come theirs first; the same change by both is made once. What else overlaps is a collision, and `merged` then holds theirs.
 */
export function weave(base: readonly string[], mine: readonly string[], theirs: readonly string[]): Woven {
  const ours = differences(base, mine);
  const others = differences(base, theirs);
  const merged: string[] = [];
  const collisions: Collision[] = [];
  let done = 0;
  let shiftMine = 0;
  let shiftTheirs = 0;
  let i = 0;
  let j = 0;
  const keep = (to: number): void => {
    for (; done < to; done++) merged.push(base[done]!);
  };
  const take = (from: readonly string[], start: number, end: number): void => {
    for (let at = start; at < end; at++) merged.push(from[at]!);
  };
  while (i < ours.length || j < others.length) {
    const m = ours[i];
    const t = others[j];
    if (m && t && overlap(m, t)) {
      // everything that hangs together by overlaps is one place
      const from = Math.min(m.from, t.from);
      let to = Math.max(m.to, t.to);
      const [firstMine, firstTheirs] = [i, j];
      i++;
      j++;
      for (let grown = true; grown; ) {
        grown = false;
        if (ours[i] && ours[i]!.from < to) {
          to = Math.max(to, ours[i++]!.to);
          grown = true;
        }
        if (others[j] && others[j]!.from < to) {
          to = Math.max(to, others[j++]!.to);
          grown = true;
        }
      }
      keep(from);
      const range = (hunks: readonly Hunk[], first: number, next: number, shift: number): readonly [number, number] => {
        let after = shift;
        for (let h = first; h < next; h++) after += hunks[h]!.end - hunks[h]!.start - (hunks[h]!.to - hunks[h]!.from);
        return [from + shift, to + after];
      };
      const inMine = range(ours, firstMine, i, shiftMine);
      const inTheirs = range(others, firstTheirs, j, shiftTheirs);
      const ourText = mine.slice(...inMine);
      const theirText = theirs.slice(...inTheirs);
      take(theirs, ...inTheirs);
      const alike = ourText.length === theirText.length && ourText.every((entry, at) => entry === theirText[at]);
      if (!alike) {
        if (from === to) take(mine, ...inMine);
        else collisions.push({ base: [from, to], mine: inMine, theirs: inTheirs });
      }
      done = to;
      shiftMine = inMine[1] - to;
      shiftTheirs = inTheirs[1] - to;
    } else if (m && (!t || before(m, t))) {
      keep(m.from);
      take(mine, m.start, m.end);
      done = m.to;
      shiftMine = m.end - m.to;
      i++;
    } else {
      const hunk = t!;
      keep(hunk.from);
      take(theirs, hunk.start, hunk.end);
      done = hunk.to;
      shiftTheirs = hunk.end - hunk.to;
      j++;
    }
  }
  keep(base.length);
  return { merged, collisions };
}

/** Two changes of one place: they share an entry, one puts something in amid the other, or both put in at one spot. */
const overlap = (a: Hunk, b: Hunk): boolean =>
  (a.from < b.to && b.from < a.to) || (a.from === a.to && b.from === b.to && a.from === b.from);
const before = (a: Hunk, b: Hunk): boolean => a.from < b.from || (a.from === b.from && a.to <= b.to);
