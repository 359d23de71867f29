/**
 * The linear program behind a plan: min Σ cost·x, where every row r needs Σ a·x ≥ need, and every limit Σ x ≤ most; x ≥ 0.
 *
 * Revised primal simplex with a dense inverse, made anew now and then against rounding; rows start covered by artificial columns
 * of a high price. The needs are shifted by less than 10⁻⁶ of themselves so that ties do not make it turn in circles; the duals
 * belong to the true problem. Meant for some hundred rows. Source: Chvátal, Linear Programming, 1983, chapters 7 and 13.
 */
export interface Column {
  readonly cost: number;
  /** Rows and how much of each, sorted by row. */
  readonly rows: Int32Array;
  readonly amounts: Float64Array;
}
export interface LinearAnswer {
  /** How often each column, in the order given. */
  readonly x: Float64Array;
  readonly value: number;
  /** Worth of one unit of each row; of a limit, never positive. */
  readonly duals: Float64Array;
  /** Multiplications, roughly. */
  readonly work: number;
  /** False when a row is still covered by its artificial column. */
  readonly covered: boolean;
}

export interface Master {
  readonly add: (column: Column) => void;
  readonly columns: readonly Column[];
  /** Goes on from the last basis. */
  readonly solve: (mostPivots?: number, stop?: () => boolean) => LinearAnswer;
}

const EPS = 1e-9;
/** Columns kept in sight from one pricing of all to the next. */
const IN_SIGHT = 40;
/** All are priced anew when the best in sight is worth less than this share of the best there was. */
const STALE = 0.3;

function grown<T extends Int32Array | Float64Array>(from: T, into: T): T {
  into.set(from);
  return into;
}

/** `limits`: rows whose sense is ≤. All needs are ≥ 0. `high` is a price no real column of one row would have. */
export function createMaster(needs: readonly number[], limits: readonly boolean[], high: number): Master {
  const m = needs.length;
  const columns: Column[] = [];
  // The columns again, end to end, for pricing.
  let flatRows = new Int32Array(1024);
  let flatAmounts = new Float64Array(1024);
  let starts = new Int32Array(256);
  let costs = new Float64Array(256);
  let flatEnd = 0;
  const b = Float64Array.from(needs, (need, r) => {
    const shift = (((r * 2654435761) >>> 0) / 4294967296 + 0.5) * 5e-7;
    return need + Math.max(1, need) * shift;
  });
  const inverse = new Float64Array(m * m);
  // Basis entries: column ≥ 0; −1−r: artificial or (for limits) slack of row r; −1−m−r: surplus of row r.
  const basis = new Int32Array(m);
  const inBasis: boolean[] = [];
  const level = new Float64Array(m);
  for (let r = 0; r < m; r++) {
    inverse[r * m + r] = 1;
    basis[r] = -1 - r;
    level[r] = b[r]!;
  }
  const duals = new Float64Array(m);
  const direction = new Float64Array(m);
  const nonzero = new Int32Array(2 * m);

  const price = (entry: number): number => {
    if (entry >= 0) return columns[entry]!.cost;
    if (entry >= -m) return limits[-1 - entry] ? 0 : high;
    return 0;
  };
  const setDuals = (): void => {
    duals.fill(0);
    for (let i = 0; i < m; i++) {
      const c = price(basis[i]!);
      if (c === 0) continue;
      const at = i * m;
      for (let r = 0; r < m; r++) duals[r] = duals[r]! + c * inverse[at + r]!;
    }
  };
  const setDirection = (entry: number): void => {
    if (entry < 0) {
      // Surplus: −1 in its row.
      const r = entry >= -m ? -1 - entry : -1 - m - entry;
      const sign = entry >= -m ? 1 : -1;
      for (let i = 0; i < m; i++) direction[i] = sign * inverse[i * m + r]!;
      return;
    }
    const { rows, amounts } = columns[entry]!;
    for (let i = 0; i < m; i++) {
      let sum = 0;
      const at = i * m;
      for (let n = 0; n < rows.length; n++) sum += inverse[at + rows[n]!]! * amounts[n]!;
      direction[i] = sum;
    }
  };
  const refactor = (stop?: () => boolean): void => {
    // Gauss–Jordan with row exchange on [B | I]. Should rounding make B singular, or should it be stopped, the inverse at hand is kept.
    const B = new Float64Array(m * m);
    for (let i = 0; i < m; i++) {
      const entry = basis[i]!;
      if (entry >= 0) {
        const { rows, amounts } = columns[entry]!;
        for (let n = 0; n < rows.length; n++) B[rows[n]! * m + i] = amounts[n]!;
      } else if (entry >= -m) B[(-1 - entry) * m + i] = 1;
      else B[(-1 - m - entry) * m + i] = -1;
    }
    const fresh = new Float64Array(m * m);
    for (let i = 0; i < m; i++) fresh[i * m + i] = 1;
    for (let c = 0; c < m; c++) {
      if ((c & 31) === 31 && stop?.()) return;
      let pivot = c;
      for (let r = c + 1; r < m; r++) if (Math.abs(B[r * m + c]!) > Math.abs(B[pivot * m + c]!)) pivot = r;
      if (Math.abs(B[pivot * m + c]!) < 1e-12) return;
      if (pivot !== c)
        for (const matrix of [B, fresh]) {
          const row = matrix.slice(c * m, c * m + m);
          matrix.copyWithin(c * m, pivot * m, pivot * m + m);
          matrix.set(row, pivot * m);
        }
      // Bases of patterns are mostly zeros: only the others are carried from row to row.
      const scale = 1 / B[c * m + c]!;
      let inB = 0;
      for (let k = c; k < m; k++)
        if (B[c * m + k] !== 0) {
          B[c * m + k] = B[c * m + k]! * scale;
          nonzero[inB++] = k;
        }
      let filled = inB;
      for (let k = 0; k < m; k++)
        if (fresh[c * m + k] !== 0) {
          fresh[c * m + k] = fresh[c * m + k]! * scale;
          nonzero[filled++] = k;
        }
      for (let r = 0; r < m; r++) {
        const factor = B[r * m + c]!;
        if (r === c || factor === 0) continue;
        for (let n = 0; n < inB; n++) {
          const k = nonzero[n]!;
          B[r * m + k] = B[r * m + k]! - factor * B[c * m + k]!;
        }
        for (let n = inB; n < filled; n++) {
          const k = nonzero[n]!;
          fresh[r * m + k] = fresh[r * m + k]! - factor * fresh[c * m + k]!;
        }
      }
    }
    inverse.set(fresh);
    for (let i = 0; i < m; i++) {
      let sum = 0;
      for (let r = 0; r < m; r++) sum += inverse[i * m + r]! * b[r]!;
      level[i] = Math.max(0, sum);
    }
  };

  let sinceFactor = 0;
  /** Brings an entry of this reduced cost into the basis; the duals follow. False when none would leave. */
  const pivot = (entry: number, reduced: number, stop?: () => boolean): boolean => {
    setDirection(entry);
    let leave = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < m; i++) {
      const d = direction[i]!;
      if (d <= 1e-8) continue;
      const ratio = level[i]! / d;
      if (ratio < least - 1e-12 || (ratio <= least && (leave < 0 || d > direction[leave]!))) {
        least = ratio;
        leave = i;
      }
    }
    if (leave < 0) return false;
    const scale = 1 / direction[leave]!;
    const at = leave * m;
    let filled = 0;
    for (let r = 0; r < m; r++) {
      const value = inverse[at + r]! * scale;
      if (value === 0) continue;
      inverse[at + r] = value;
      duals[r] = duals[r]! + reduced * value;
      nonzero[filled++] = r;
    }
    for (let i = 0; i < m; i++) {
      const factor = direction[i]!;
      if (i === leave || Math.abs(factor) < 1e-13) continue;
      const here = i * m;
      if (2 * filled > m)
        for (let r = 0; r < m; r++) inverse[here + r] = inverse[here + r]! - factor * inverse[at + r]!;
      else
        for (let n = 0; n < filled; n++) {
          const r = nonzero[n]!;
          inverse[here + r] = inverse[here + r]! - factor * inverse[at + r]!;
        }
      level[i] = Math.max(0, level[i]! - factor * least);
    }
    level[leave] = least;
    if (basis[leave]! >= 0) inBasis[basis[leave]!] = false;
    basis[leave] = entry;
    if (entry >= 0) inBasis[entry] = true;
    if (++sinceFactor >= 150) {
      refactor(stop);
      setDuals();
      sinceFactor = 0;
    }
    return true;
  };

  // Columns in sight with their reduced costs over their costs, the lowest first.
  const sight = new Int32Array(IN_SIGHT);
  const scaled = new Float64Array(IN_SIGHT);
  let inSight = 0;
  const reducedOf = (c: number): number => {
    let reduced = costs[c]!;
    for (let n = starts[c]!; n < starts[c + 1]!; n++) reduced -= duals[flatRows[n]!]! * flatAmounts[n]!;
    return reduced;
  };
  const see = (c: number, value: number): void => {
    if (inSight === IN_SIGHT && value >= scaled[inSight - 1]!) return;
    let at = inSight < IN_SIGHT ? inSight++ : inSight - 1;
    for (; at > 0 && scaled[at - 1]! > value; at--) {
      scaled[at] = scaled[at - 1]!;
      sight[at] = sight[at - 1]!;
    }
    scaled[at] = value;
    sight[at] = c;
  };
  const solve = (mostPivots = 100_000, stop?: () => boolean): LinearAnswer => {
    let pivots = 0;
    let work = 0;
    let bestSeen = 0;
    let fresh = true;
    setDuals();
    inSight = 0;
    while (pivots < mostPivots && !((pivots & 15) === 15 && stop?.())) {
      // Those in sight are priced anew after every pivot, all of them when nothing in sight is worth it any more.
      const known = inSight;
      inSight = 0;
      for (let n = 0; n < known; n++) {
        const c = sight[n]!;
        if (inBasis[c]) continue;
        const value = reducedOf(c) / Math.max(1, costs[c]!);
        if (value < -EPS) see(c, value);
      }
      work += 10 * known;
      if (inSight === 0 || scaled[0]! > STALE * bestSeen) {
        inSight = 0;
        for (let c = 0; c < columns.length; c++) {
          if (inBasis[c]) continue;
          const value = reducedOf(c) / Math.max(1, costs[c]!);
          if (value < -EPS) see(c, value);
        }
        work += flatEnd + 4 * columns.length;
        bestSeen = inSight > 0 ? scaled[0]! : 0;
      }
      let entry = inSight > 0 ? sight[0]! : Number.NaN;
      let worst = inSight > 0 ? scaled[0]! : -EPS;
      let reduced = inSight > 0 ? reducedOf(entry) : 0;
      for (let r = 0; r < m; r++) {
        // Surplus of a need costs its dual; slack of a limit saves it.
        const own = limits[r] ? -duals[r]! : duals[r]!;
        if (own / high < worst) {
          worst = own / high;
          reduced = own;
          entry = limits[r] ? -1 - r : -1 - m - r;
        }
      }
      if (Number.isNaN(entry)) {
        if (fresh) break;
        setDuals();
        fresh = true;
        continue;
      }
      fresh = false;
      if (!pivot(entry, reduced, stop)) break;
      pivots++;
      work += 3 * m * m;
    }
    setDuals();
    const x = new Float64Array(columns.length);
    let value = 0;
    let covered = true;
    for (let i = 0; i < m; i++) {
      const entry = basis[i]!;
      if (entry >= 0) {
        x[entry] = level[i]!;
        value += level[i]! * columns[entry]!.cost;
      } else if (entry >= -m && !limits[-1 - entry] && level[i]! > 1e-5) covered = false;
    }
    return { x, value, duals: duals.slice(), work, covered };
  };

  return {
    columns,
    add: (column) => {
      const size = column.rows.length;
      if (flatEnd + size > flatRows.length) {
        flatRows = grown(flatRows, new Int32Array((flatEnd + size) * 2));
        flatAmounts = grown(flatAmounts, new Float64Array((flatEnd + size) * 2));
      }
      if (columns.length + 2 > starts.length) {
        starts = grown(starts, new Int32Array(starts.length * 2));
        costs = grown(costs, new Float64Array(costs.length * 2));
      }
      costs[columns.length] = column.cost;
      flatRows.set(column.rows, flatEnd);
      flatAmounts.set(column.amounts, flatEnd);
      flatEnd += size;
      starts[columns.length + 1] = flatEnd;
      columns.push(column);
      inBasis.push(false);
    },
    solve,
  };
}
