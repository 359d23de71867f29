import { createForest } from './forest.ts';
import { codeOf, counterparts, finder, joined, mirrors, normalPatterns, type Tree, UNASKED } from './guillotine.ts';
import type { Model } from './model.ts';
import type { Pattern } from './pattern.ts';

/**
 * Valuable patterns with no more of a kind than there is left (proper patterns). Where most parts are wanted once, the best pattern
 * without that limit is the same little part over and over, and no plan can use it.
 *
 * The table is that of `guillotineTable`, but each cell remembers which parts it holds: what two halves hold in common counts
 * once, and the place of the second is filled afterwards with what is worth most. Each cell keeps one pattern, so the best may be
 * missed and nothing is proven. Dynamic programming with sets in this manner: Cintra, Miyazawa, Wakabayashi & Xavier, "Algorithms
 * for two-dimensional cutting stock and strip packing problems using dynamic programming and column generation", European Journal
 * of Operational Research 191, 2008, do without the limit; the sets are ours.
 */
export interface ProperTable {
  /** Cells times cuts tried for each: what one `best` costs. */
  readonly work: number;
  /** Up to `most` patterns of a sheet worth more than `least`, each with other parts, the most valuable first. Null when stopped. */
  readonly best: (
    values: Float64Array,
    rest: Int32Array,
    sheet: number,
    least: number,
    most: number,
    stop?: () => boolean,
  ) => readonly Pattern[] | null;
}

/** More single parts than this make the sets too long. */
const MOST_PARTS = 256;
/** Worths closer than this are equal: the first cut found stays. */
const TIE = 1e-12;
/** More cells times words of a set than this are not kept. */
const MOST_CELLS = 1e6;

/** Null when the table would be larger than `mostWork`, the parts are too many, or stopped. */
export function properTable(model: Model, mostWork: number, stop?: () => boolean): ProperTable | null {
  const { kinds, sheets } = model;
  if (model.total > MOST_PARTS) return null;
  const L = Math.max(...sheets.map((sheet) => sheet.length));
  const W = Math.max(...sheets.map((sheet) => sheet.width));
  const sizes = (own: 'length' | 'width', other: 'length' | 'width') =>
    kinds
      .flatMap((kind) => {
        const one = { size: kind[own], count: kind.count };
        return kind.turn ? [one, { size: kind[other], count: kind.count }] : [one];
      })
      .sort((a, b) => b.size - a.size);
  const most = Math.ceil(Math.sqrt(mostWork));
  const xs = normalPatterns(sizes('length', 'width'), L, most, stop);
  const ys = xs && normalPatterns(sizes('width', 'length'), W, most, stop);
  if (!xs || !ys) return null;
  const [nx, ny] = [xs.length, ys.length];
  const work = (nx * ny * (nx + ny)) / 4;
  const words = Math.ceil(model.total / 32);
  if (work > mostWork || nx * ny * words > MOST_CELLS) return null;
  const xAt = finder(xs, L);
  const yAt = finder(ys, W);
  const restX = counterparts(xs, xAt, stop);
  const restY = restX && counterparts(ys, yAt, stop);
  if (!restX || !restY) return null;

  // One bit for each part; those of a kind are consecutive and taken from the first on.
  const kindOfBit = new Int32Array(words * 32);
  const firstBit = new Int32Array(kinds.length);
  {
    let bit = 0;
    kinds.forEach((kind, k) => {
      firstBit[k] = bit;
      for (let n = 0; n < kind.count; n++) kindOfBit[bit++] = k;
    });
  }
  const value = new Float64Array(nx * ny);
  /** The same, column after column: both ways of cutting then read side by side. */
  const across = new Float64Array(nx * ny);
  // 0 nothing, 1 + 2·kind + turn a part, −1 − 2·i − axis a cut after entry i, as in guillotineTable.
  const how = new Int32Array(nx * ny);
  const held = new Int32Array(nx * ny * words);
  const singles: { readonly at: number; readonly kind: number; readonly turn: number }[] = [];
  kinds.forEach((kind, k) => {
    if (kind.length <= L && kind.width <= W)
      singles.push({ at: xAt(kind.length) * ny + yAt(kind.width), kind: k, turn: 0 });
    if (kind.turn && kind.width <= L && kind.length <= W)
      singles.push({ at: xAt(kind.width) * ny + yAt(kind.length), kind: k, turn: 1 });
  });

  let valuesNow: Float64Array = new Float64Array(0);
  let restNow: Int32Array = new Int32Array(0);
  const countIn = (set: number, kind: number): number => {
    let n = 0;
    for (let bit = firstBit[kind]!; n < kinds[kind]!.count; n++, bit++)
      if ((held[set + (bit >> 5)]! & (1 << (bit & 31))) === 0) break;
    return n;
  };
  const shared = new Int32Array(kinds.length);
  const counts = new Int32Array(kinds.length);
  /** Writes down in `shared`, in order, the kinds that two cells both hold parts of, and says how many. */
  const share = (one: number, other: number): number => {
    let count = 0;
    for (let w = 0; w < words; w++) {
      let both = held[one + w]! & held[other + w]!;
      while (both !== 0) {
        const bit = both & -both;
        both ^= bit;
        const kind = kindOfBit[w * 32 + 31 - Math.clz32(bit)]!;
        if (count === 0 || shared[count - 1] !== kind) shared[count++] = kind;
      }
    }
    return count;
  };
  /** What is lost where two cells hold the same parts. */
  const common = (one: number, other: number): number => {
    let lost = 0;
    const count = share(one, other);
    for (let i = 0; i < count; i++) {
      const kind = shared[i]!;
      const over = restNow[kind] === 1 ? 1 : countIn(one, kind) + countIn(other, kind) - restNow[kind]!;
      if (over > 0) lost += over * valuesNow[kind]!;
    }
    return lost;
  };
  const unite = (into: number, one: number, other: number): void => {
    const count = share(one, other);
    for (let i = 0; i < count; i++) {
      const kind = shared[i]!;
      counts[i] = Math.min(restNow[kind]!, countIn(one, kind) + countIn(other, kind));
    }
    for (let w = 0; w < words; w++) held[into + w] = held[one + w]! | held[other + w]!;
    for (let i = 0; i < count; i++) {
      const first = firstBit[shared[i]!]!;
      for (let bit = first; bit < first + counts[i]!; bit++)
        held[into + (bit >> 5)] = held[into + (bit >> 5)]! | (1 << (bit & 31));
    }
  };

  const mirror = mirrors(model);
  const fill = (iEnd: number, jEnd: number, stop?: () => boolean): boolean => {
    const mirrored = iEnd === jEnd ? mirror : null;
    value.fill(0);
    across.fill(0);
    how.fill(0);
    held.fill(0);
    for (const { at, kind, turn } of singles) {
      if (restNow[kind]! <= 0 || valuesNow[kind]! <= value[at]!) continue;
      value[at] = valuesNow[kind]!;
      how[at] = 1 + kind * 2 + turn;
      const bit = firstBit[kind]!;
      held.fill(0, at * words, at * words + words);
      held[at * words + (bit >> 5)] = 1 << (bit & 31);
    }
    let unasked = 0;
    for (let i = 1; i <= iEnd; i++) {
      const cutsX = restX[i]!;
      const end = mirrored ? i : jEnd;
      unasked += end * (cutsX.length + end / 4 + 1);
      if (unasked > UNASKED) {
        unasked = 0;
        if (stop?.()) return false;
      }
      for (let j = 1; j <= end; j++) {
        const at = i * ny + j;
        let best = value[at]!;
        let by = how[at]!;
        let one = -1;
        let other = -1;
        if (value[at - ny]! > best) {
          best = value[at - ny]!;
          by = -1 - (i - 1) * 2;
          one = other = at - ny;
        }
        if (value[at - 1]! > best) {
          best = value[at - 1]!;
          by = -1 - (j - 1) * 2 - 1;
          one = other = at - 1;
        }
        const column = j * nx;
        for (let u = 0; u < cutsX.length; u++) {
          const sum = across[column + u + 1]! + across[column + cutsX[u]!]!;
          if (sum <= best) continue;
          const a = (u + 1) * ny + j;
          const b = cutsX[u]! * ny + j;
          const worth = sum - common(a * words, b * words);
          if (worth > best) {
            best = worth + TIE;
            by = -1 - (u + 1) * 2;
            one = a;
            other = b;
          }
        }
        const cutsY = restY[j]!;
        const row = i * ny;
        for (let v = 0; v < cutsY.length; v++) {
          const a = row + v + 1;
          const b = row + cutsY[v]!;
          const sum = value[a]! + value[b]!;
          if (sum <= best) continue;
          const worth = sum - common(a * words, b * words);
          if (worth > best) {
            best = worth + TIE;
            by = -1 - (v + 1) * 2 - 1;
            one = a;
            other = b;
          }
        }
        if (one >= 0) {
          if (one !== other) best -= TIE;
          value[at] = best;
          how[at] = by;
          if (one === other) held.copyWithin(at * words, one * words, one * words + words);
          else unite(at * words, one * words, other * words);
        }
        across[column + i] = best;
        if (mirrored && j < i) {
          const image = j * ny + i;
          value[image] = best;
          across[i * nx + j] = best;
          how[image] = mirrored(by);
          held.copyWithin(image * words, at * words, at * words + words);
        }
      }
    }
    return true;
  };

  /** The tree of a cell, each kind as often as there is left. */
  const grow = (i: number, j: number, left: Int32Array): Tree | null => {
    if (i === 0 || j === 0) return null;
    const by = how[i * ny + j]!;
    if (by === 0) return null;
    if (by > 0) {
      const kind = (by - 1) >> 1;
      if (left[kind]! <= 0) return null;
      left[kind] = left[kind]! - 1;
      return by - 1;
    }
    const what = -1 - by;
    return halves((what & 1) as 0 | 1, what >> 1, i, j, left);
  };
  const halves = (axis: 0 | 1, cut: number, i: number, j: number, left: Int32Array): Tree | null => {
    const one = axis === 0 ? grow(cut, j, left) : grow(i, cut, left);
    const other = axis === 0 ? grow(xAt(xs[i]! - xs[cut]!), j, left) : grow(i, yAt(ys[j]! - ys[cut]!), left);
    return joined(axis, one, other);
  };

  const topUp = createTopUp(model);
  return {
    work,
    best: (values, rest, sheet, least, mostPatterns, stop) => {
      valuesNow = values;
      restNow = rest;
      const [i, j] = [xAt(sheets[sheet]!.length), yAt(sheets[sheet]!.width)];
      if (!fill(i, j, stop)) return null;
      const cuts: { readonly worth: number; readonly axis: 0 | 1; readonly cut: number }[] = [];
      const offer = (axis: 0 | 1, cut: number, a: number, b: number): void => {
        const sum = value[a]! + value[b]!;
        if (sum <= least) return;
        const worth = sum - common(a * words, b * words);
        if (worth > least) cuts.push({ worth, axis, cut });
      };
      restX[i]!.forEach((other, u) => {
        offer(0, u + 1, (u + 1) * ny + j, other * ny + j);
      });
      restY[j]!.forEach((other, v) => {
        offer(1, v + 1, i * ny + v + 1, i * ny + other);
      });
      cuts.sort((a, b) => b.worth - a.worth);
      const order = kinds
        .map((_, k) => k)
        .filter((k) => rest[k]! > 0)
        .sort((a, b) => density(model, values, b) - density(model, values, a) || a - b);
      const found: Pattern[] = [];
      const seen = new Set<string>();
      const take = (tree: Tree | null): void => {
        const code = codeOf(tree);
        if (code.length === 0) return;
        const pattern = topUp(sheet, Int32Array.from(code), order, rest);
        const key = [...pattern.code]
          .filter((c) => c >= 0)
          .map((c) => c >> 1)
          .sort((a, b) => a - b)
          .join();
        if (seen.has(key)) return;
        seen.add(key);
        found.push(pattern);
      };
      if (value[i * ny + j]! > least) take(grow(i, j, rest.slice()));
      for (const { axis, cut } of cuts) {
        if (found.length >= mostPatterns) break;
        take(halves(axis, cut, i, j, rest.slice()));
      }
      return found;
    },
  };
}

const density = (model: Model, values: Float64Array, k: number): number =>
  values[k]! / (model.kinds[k]!.length * model.kinds[k]!.width);

const never = (): number => 1;

/** Puts more parts on a sheet that is cut already, in the order given, each where it costs the least leftover. */
function createTopUp(model: Model) {
  const capacity = model.total;
  const kindOf = new Int32Array(capacity);
  const forest = createForest(model, kindOf, 1);
  const out = new Int32Array(capacity * 3 + 4);
  return (sheet: number, code: Int32Array, order: readonly number[], rest: Int32Array): Pattern => {
    let parts = 0;
    const counts = new Int32Array(model.kinds.length);
    const { length, width } = model.sheets[sheet]!;
    let free = length * width;
    const add = (kind: number): number => {
      counts[kind] = counts[kind]! + 1;
      free -= model.kinds[kind]!.length * model.kinds[kind]!.width;
      kindOf[parts] = kind;
      return parts++;
    };
    const own = code.map((c) => (c >= 0 ? add(c >> 1) * 2 + (c & 1) : c));
    forest.read(0, sheet, own, 0, own.length);
    for (const kind of order) {
      const area = model.kinds[kind]!.length * model.kinds[kind]!.width;
      while (counts[kind]! < rest[kind]! && area <= free && parts < capacity) {
        if (forest.bestPlace(0, kind, Number.POSITIVE_INFINITY, 0, never) === Number.POSITIVE_INFINITY) break;
        forest.insert(0, add(kind), forest.found(), forest.foundHow(), forest.foundTurn());
      }
    }
    const end = forest.write(0, out, 0);
    const pattern = { sheet, code: out.slice(0, end).map((c) => (c >= 0 ? kindOf[c >> 1]! * 2 + (c & 1) : c)) };
    forest.clear(0);
    return pattern;
  };
}
