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
/** Columns priced at a time. */
const BLOCK = 400;

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
        for (let k = 0; k < m; k++) {
          let t = B[c * m + k]!;
          B[c * m + k] = B[pivot * m + k]!;
          B[pivot * m + k] = t;
          t = fresh[c * m + k]!;
          fresh[c * m + k] = fresh[pivot * m + k]!;
          fresh[pivot * m + k] = t;
        }
      const scale = 1 / B[c * m + c]!;
      for (let k = 0; k < m; k++) {
        B[c * m + k] = B[c * m + k]! * scale;
        fresh[c * m + k] = fresh[c * m + k]! * scale;
      }
      for (let r = 0; r < m; r++) {
        const factor = B[r * m + c]!;
        if (r === c || factor === 0) continue;
        for (let k = 0; k < m; k++) {
          B[r * m + k] = B[r * m + k]! - factor * B[c * m + k]!;
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
  const pivot = (entry: number, stop?: () => boolean): boolean => {
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
    for (let r = 0; r < m; r++) inverse[at + r] = inverse[at + r]! * scale;
    for (let i = 0; i < m; i++) {
      const factor = direction[i]!;
      if (i === leave || Math.abs(factor) < 1e-13) continue;
      const here = i * m;
      for (let r = 0; r < m; r++) inverse[here + r] = inverse[here + r]! - factor * inverse[at + r]!;
      level[i] = Math.max(0, level[i]! - factor * least);
    }
    level[leave] = least;
    if (basis[leave]! >= 0) inBasis[basis[leave]!] = false;
    basis[leave] = entry;
    if (entry >= 0) inBasis[entry] = true;
    if (++sinceFactor >= 150) {
      refactor(stop);
      sinceFactor = 0;
    }
    return true;
  };

  let priceAt = 0;
  const solve = (mostPivots = 100_000, stop?: () => boolean): LinearAnswer => {
    let pivots = 0;
    let work = 0;
    while (pivots < mostPivots && !((pivots & 15) === 15 && stop?.())) {
      setDuals();
      let entry = Number.NaN;
      let worst = -EPS;
      for (let r = 0; r < m; r++) {
        // Surplus of a need costs its dual; slack of a limit saves it.
        const reduced = limits[r] ? -duals[r]! : duals[r]!;
        const scaled = reduced / high;
        if (scaled < worst) {
          worst = scaled;
          entry = limits[r] ? -1 - r : -1 - m - r;
        }
      }
      // Partial pricing: block after block, until one holds a column that pays.
      const count = columns.length;
      for (let seen = 0; seen < count; seen++) {
        if (priceAt >= count) priceAt = 0;
        const c = priceAt++;
        if (seen % BLOCK === BLOCK - 1 && !Number.isNaN(entry)) break;
        if (inBasis[c]) continue;
        const cost = costs[c]!;
        work += starts[c + 1]! - starts[c]! + 4;
        let reduced = cost;
        for (let n = starts[c]!; n < starts[c + 1]!; n++) reduced -= duals[flatRows[n]!]! * flatAmounts[n]!;
        const scaled = reduced / (cost > 0 ? cost : 1);
        if (scaled < worst) {
          worst = scaled;
          entry = c;
        }
      }
      if (Number.isNaN(entry) || !pivot(entry, stop)) break;
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
