/**
 * A basis as the product of sparse triangular factors and the exchanges made since (product form of the inverse).
 *
 * Gaussian elimination in Markowitz order: at each step the emptiest column, in it the emptiest row whose entry is not small. Bases of
 * cutting problems hold three or four entries a column, so the factors stay nearly as sparse as the basis itself.
 * Source: Markowitz 1957; Chvátal, Linear Programming (1983), ch. 7 and 24.
 *
 * Rows are the rows of the program, places the positions of the basis: column of place k is the k-th basic variable.
 */
export interface Factor {
  readonly size: number;
  /** Places whose column depends on the others, with the rows left without a pivot; then the factor is of no use. */
  readonly dependent: readonly { readonly place: number; readonly row: number }[];
  /** x (by row) becomes the solution of B z = x, by place. */
  readonly solve: (x: Float64Array) => void;
  /** c (by place) becomes the solution of yᵀ B = cᵀ, by row. */
  readonly solveTransposed: (c: Float64Array) => void;
  /** The variable at a place gives way to one whose column is B·direction. */
  readonly exchange: (place: number, direction: Float64Array) => void;
  /** True when so many exchanges have gathered that factoring anew is cheaper. */
  readonly worn: () => boolean;
}

const SMALL = 1e-10;
const MOST_EXCHANGES = 50;

/**
 * Arrays that one factor leaves to the next: a program is factored hundreds of times a second, and fresh ones would keep the collector
 * busier than the arithmetic. A factor is of no use once its room has gone to another.
 */
export interface FactorRoom {
  work: Float64Array;
  lower: Sparse;
  upper: Sparse;
  exchanged: Sparse;
}
interface Sparse {
  index: Int32Array;
  entry: Float64Array;
}
const sparse = (): Sparse => ({ index: new Int32Array(256), entry: new Float64Array(256) });
export const factorRoom = (): FactorRoom => ({
  work: new Float64Array(0),
  lower: sparse(),
  upper: sparse(),
  exchanged: sparse(),
});
function widen(list: Sparse, needed: number): void {
  if (needed <= list.index.length) return;
  const index = new Int32Array(2 * needed);
  const entry = new Float64Array(2 * needed);
  index.set(list.index);
  entry.set(list.entry);
  list.index = index;
  list.entry = entry;
}

export function factorise(
  size: number,
  rowsOf: readonly (readonly number[])[],
  valuesOf: readonly (readonly number[])[],
  room: FactorRoom = factorRoom(),
): Factor {
  const n = size;
  const inRow = new Int32Array(n);
  const inColumn = new Int32Array(n);
  let entries = 0;
  for (let k = 0; k < n; k++) {
    const rows = rowsOf[k]!;
    for (let t = 0; t < rows.length; t++) inRow[rows[t]!]! += 1;
    inColumn[k] = rows.length;
    entries += rows.length;
  }
  // The basis by row as well.
  const acrossStart = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) acrossStart[i + 1] = acrossStart[i]! + inRow[i]!;
  const acrossPlace = new Int32Array(entries);
  const acrossValue = new Float64Array(entries);
  const filled = acrossStart.slice();
  for (let k = 0; k < n; k++) {
    const rows = rowsOf[k]!;
    for (let t = 0; t < rows.length; t++) {
      const at = filled[rows[t]!]!;
      acrossPlace[at] = k;
      acrossValue[at] = valuesOf[k]![t]!;
      filled[rows[t]!] = at + 1;
    }
  }
  // Pivots in order: row, place, value.
  const pivotRow = new Int32Array(n);
  const pivotPlace = new Int32Array(n);
  const pivotValue = new Float64Array(n);
  const rowDone = new Uint8Array(n);
  const columnDone = new Uint8Array(n);
  // Lower: per step the multipliers of the other rows. Upper: per step the pivot row's entries in columns still open.
  const { lower, upper, exchanged } = room;
  const lowerStart = new Int32Array(n + 1);
  let lowerEnd = 0;
  const upperStart = new Int32Array(n + 1);
  let upperEnd = 0;
  const below = (row: number, value: number): void => {
    if (lowerEnd === lower.index.length) widen(lower, lowerEnd + 1);
    lower.index[lowerEnd] = row;
    lower.entry[lowerEnd++] = value;
  };
  const above = (place: number, value: number): void => {
    if (upperEnd === upper.index.length) widen(upper, upperEnd + 1);
    upper.index[upperEnd] = place;
    upper.entry[upperEnd++] = value;
  };
  const dependent: { place: number; row: number }[] = [];
  const orphans: number[] = [];
  let step = 0;
  const take = (row: number, place: number, value: number): void => {
    rowDone[row] = 1;
    columnDone[place] = 1;
    pivotRow[step] = row;
    pivotPlace[step] = place;
    pivotValue[step] = value;
    step += 1;
  };

  // Columns with one open row left, then rows with one open column left, need no arithmetic: most of a basis goes so.
  const queue: number[] = [];
  for (let k = 0; k < n; k++) if (inColumn[k] === 1) queue.push(k);
  for (let head = 0; head < queue.length; head++) {
    const column = queue[head]!;
    if (inColumn[column] !== 1 || columnDone[column] !== 0) continue;
    const rows = rowsOf[column]!;
    const t = rows.findIndex((row) => rowDone[row] === 0);
    const row = rows[t]!;
    if (Math.abs(valuesOf[column]![t]!) < SMALL) continue;
    take(row, column, valuesOf[column]![t]!);
    for (let e = acrossStart[row]!; e < acrossStart[row + 1]!; e++) {
      const k = acrossPlace[e]!;
      if (columnDone[k] !== 0) continue;
      above(k, acrossValue[e]!);
      inColumn[k]! -= 1;
      if (inColumn[k] === 1) queue.push(k);
    }
    lowerStart[step] = lowerEnd;
    upperStart[step] = upperEnd;
  }
  inRow.fill(0);
  for (let k = 0; k < n; k++)
    if (columnDone[k] === 0) for (const row of rowsOf[k]!) if (rowDone[row] === 0) inRow[row]! += 1;
  queue.length = 0;
  for (let i = 0; i < n; i++) if (rowDone[i] === 0 && inRow[i] === 1) queue.push(i);
  for (let head = 0; head < queue.length; head++) {
    const row = queue[head]!;
    if (inRow[row] !== 1 || rowDone[row] !== 0) continue;
    let e = acrossStart[row]!;
    while (columnDone[acrossPlace[e]!] !== 0) e += 1;
    const column = acrossPlace[e]!;
    const value = acrossValue[e]!;
    const rows = rowsOf[column]!;
    const values = valuesOf[column]!;
    let largest = 0;
    for (let t = 0; t < rows.length; t++)
      if (rowDone[rows[t]!] === 0) largest = Math.max(largest, Math.abs(values[t]!));
    if (Math.abs(value) < 0.1 * largest || largest < SMALL) continue;
    take(row, column, value);
    for (let t = 0; t < rows.length; t++) {
      const i = rows[t]!;
      if (rowDone[i] !== 0) continue;
      below(i, values[t]! / value);
      inRow[i]! -= 1;
      if (inRow[i] === 1) queue.push(i);
    }
    lowerStart[step] = lowerEnd;
    upperStart[step] = upperEnd;
  }

  // What is left is eliminated densely; `work` is by column over the rows and places still open.
  const openRow: number[] = [];
  const openPlace: number[] = [];
  const indexOfRow = new Int32Array(n).fill(-1);
  for (let i = 0; i < n; i++)
    if (rowDone[i] === 0) {
      indexOfRow[i] = openRow.length;
      openRow.push(i);
    }
  for (let k = 0; k < n; k++) if (columnDone[k] === 0) openPlace.push(k);
  const m = openRow.length;
  if (room.work.length < m * m) room.work = new Float64Array(2 * m * m);
  const { work } = room;
  work.fill(0, 0, m * m);
  const openInRow = new Int32Array(m);
  const openInColumn = new Int32Array(m);
  openPlace.forEach((place, c) => {
    const rows = rowsOf[place]!;
    for (let t = 0; t < rows.length; t++) {
      const i = indexOfRow[rows[t]!]!;
      if (i < 0) continue;
      work[c * m + i] = valuesOf[place]![t]!;
      openInRow[i]! += 1;
      openInColumn[c]! += 1;
    }
  });
  const gone = new Uint8Array(m);
  const spent = new Uint8Array(m);
  for (let turn = 0; turn < m; turn++) {
    let column = -1;
    let fewest = m + 1;
    for (let c = 0; c < m; c++)
      if (spent[c] === 0 && openInColumn[c]! < fewest) {
        fewest = openInColumn[c]!;
        column = c;
        if (fewest <= 1) break;
      }
    spent[column] = 1;
    const at = column * m;
    let largest = 0;
    for (let i = 0; i < m; i++) if (gone[i] === 0) largest = Math.max(largest, Math.abs(work[at + i]!));
    if (largest < SMALL) {
      orphans.push(openPlace[column]!);
      continue;
    }
    let row = -1;
    let sparsest = m + 1;
    for (let i = 0; i < m; i++)
      if (gone[i] === 0 && Math.abs(work[at + i]!) >= 0.1 * largest && openInRow[i]! < sparsest) {
        sparsest = openInRow[i]!;
        row = i;
      }
    gone[row] = 1;
    const value = work[at + row]!;
    take(openRow[row]!, openPlace[column]!, value);
    const firstLower = lowerEnd;
    for (let i = 0; i < m; i++)
      if (gone[i] === 0 && work[at + i] !== 0) {
        below(i, work[at + i]! / value);
        openInRow[i]! -= 1;
      }
    const lastLower = lowerEnd;
    const { index: lowerRow, entry: lowerValue } = lower;
    for (let c = 0; c < m; c++) {
      if (spent[c] !== 0) continue;
      const here = c * m;
      const factor = work[here + row]!;
      if (factor === 0) continue;
      above(openPlace[c]!, factor);
      openInColumn[c]! -= 1;
      for (let t = firstLower; t < lastLower; t++) {
        const i = lowerRow[t]!;
        const before = work[here + i]!;
        let after = before - lowerValue[t]! * factor;
        if (Math.abs(after) < 1e-14) after = 0;
        work[here + i] = after;
        if (before === 0 && after !== 0) {
          openInRow[i]! += 1;
          openInColumn[c]! += 1;
        } else if (before !== 0 && after === 0) {
          openInRow[i]! -= 1;
          openInColumn[c]! -= 1;
        }
      }
    }
    for (let t = firstLower; t < lastLower; t++) lowerRow[t] = openRow[lowerRow[t]!]!;
    lowerStart[step] = lastLower;
    upperStart[step] = upperEnd;
  }
  if (orphans.length > 0) {
    const free: number[] = [];
    for (let i = 0; i < n; i++) if (rowDone[i] === 0) free.push(i);
    orphans.forEach((place, k) => {
      dependent.push({ place, row: free[k]! });
    });
  }

  // The upper factor by column too: forward solves skip zeros only that way.
  const stepOfPlace = new Int32Array(n);
  for (let k = 0; k < step; k++) stepOfPlace[pivotPlace[k]!] = k;
  const aboveStart = new Int32Array(n + 1);
  const { index: lowRow, entry: lowValue } = lower;
  const { index: upPlace, entry: upValue } = upper;
  for (let e = 0; e < upperEnd; e++) aboveStart[stepOfPlace[upPlace[e]!]! + 1]! += 1;
  for (let k = 0; k < n; k++) aboveStart[k + 1]! += aboveStart[k]!;
  const aboveRow = new Int32Array(upperEnd);
  const aboveValue = new Float64Array(upperEnd);
  const cursor = aboveStart.slice();
  for (let k = 0; k < step; k++)
    for (let e = upperStart[k]!; e < upperStart[k + 1]!; e++) {
      const column = stepOfPlace[upPlace[e]!]!;
      const to = cursor[column]!;
      aboveRow[to] = pivotRow[k]!;
      aboveValue[to] = upValue[e]!;
      cursor[column] = to + 1;
    }

  const exchangedPlace = new Int32Array(MOST_EXCHANGES);
  const exchangedValue = new Float64Array(MOST_EXCHANGES);
  const exchangedStart = new Int32Array(MOST_EXCHANGES + 1);
  let exchanges = 0;
  const scratch = new Float64Array(n);

  return {
    size: n,
    dependent,
    solve: (x) => {
      for (let k = 0; k < n; k++) {
        const value = x[pivotRow[k]!]!;
        if (value === 0) continue;
        for (let e = lowerStart[k]!; e < lowerStart[k + 1]!; e++) x[lowRow[e]!]! -= lowValue[e]! * value;
      }
      for (let k = n - 1; k >= 0; k--) {
        const value = x[pivotRow[k]!]!;
        if (value === 0) {
          scratch[pivotPlace[k]!] = 0;
          continue;
        }
        const z = value / pivotValue[k]!;
        scratch[pivotPlace[k]!] = z;
        for (let e = aboveStart[k]!; e < aboveStart[k + 1]!; e++) x[aboveRow[e]!]! -= aboveValue[e]! * z;
      }
      x.set(scratch);
      const { index: exchangedIndex, entry: exchangedEntry } = exchanged;
      for (let t = 0; t < exchanges; t++) {
        const place = exchangedPlace[t]!;
        const value = x[place]!;
        if (value === 0) continue;
        const z = value / exchangedValue[t]!;
        for (let e = exchangedStart[t]!; e < exchangedStart[t + 1]!; e++)
          x[exchangedIndex[e]!]! -= exchangedEntry[e]! * z;
        x[place] = z;
      }
    },
    solveTransposed: (c) => {
      const { index: exchangedIndex, entry: exchangedEntry } = exchanged;
      for (let t = exchanges - 1; t >= 0; t--) {
        const place = exchangedPlace[t]!;
        let sum = c[place]!;
        for (let e = exchangedStart[t]!; e < exchangedStart[t + 1]!; e++)
          sum -= exchangedEntry[e]! * c[exchangedIndex[e]!]!;
        c[place] = sum / exchangedValue[t]!;
      }
      for (let k = 0; k < n; k++) {
        const value = c[pivotPlace[k]!]!;
        if (value === 0) {
          scratch[pivotRow[k]!] = 0;
          continue;
        }
        const w = value / pivotValue[k]!;
        scratch[pivotRow[k]!] = w;
        for (let e = upperStart[k]!; e < upperStart[k + 1]!; e++) c[upPlace[e]!]! -= upValue[e]! * w;
      }
      for (let k = n - 1; k >= 0; k--) {
        let sum = scratch[pivotRow[k]!]!;
        for (let e = lowerStart[k]!; e < lowerStart[k + 1]!; e++) sum -= lowValue[e]! * scratch[lowRow[e]!]!;
        scratch[pivotRow[k]!] = sum;
      }
      c.set(scratch);
    },
    exchange: (place, direction) => {
      let end = exchangedStart[exchanges]!;
      widen(exchanged, end + n);
      const { index: exchangedIndex, entry: exchangedEntry } = exchanged;
      exchangedPlace[exchanges] = place;
      exchangedValue[exchanges] = direction[place]!;
      for (let i = 0; i < n; i++) {
        const value = direction[i]!;
        if (i !== place && (value > 1e-13 || value < -1e-13)) {
          exchangedIndex[end] = i;
          exchangedEntry[end++] = value;
        }
      }
      exchangedStart[++exchanges] = end;
    },
    worn: () =>
      exchanges >= MOST_EXCHANGES ||
      (exchanges >= 20 && exchangedStart[exchanges]! > 10 * n + 4 * (lowerEnd + upperEnd)),
  };
}
