/**
 * A small linear program for column generation: minimise c·x, A x ≥ b, x ≥ 0, with columns and rows added as the search goes on.
 *
 * Revised simplex with the dense inverse of the basis, primal after columns are added, dual after rows are added or the right-hand
 * side is moved. Every row has a surplus and, at a high price, an artificial that covers it, so there is always a basis. The
 * right-hand side is nudged by a fixed pseudo-random hair: these programs (many rows "cover once") are so degenerate that the simplex
 * would stall otherwise. The hair shifts the value by less than a millionth of the cost, and nothing is proven with floating point
 * anyway: callers turn the duals into whole numbers and prove their bounds with those.
 */
export interface Linear {
  rows: number;
  /** True right-hand side. */
  readonly rhs: number[];
  readonly hair: number[];
  readonly cost: number[];
  readonly columnRows: number[][];
  readonly columnValues: number[][];
  /** Columns that may not enter; one in the basis is priced out at the artificials' cost. */
  readonly banned: boolean[];
  /** For each row what is basic in it: column j as j, the surplus of row r as −1−2r, the artificial of row r as −2−2r. */
  basis: number[];
  place: Map<number, number>;
  stride: number;
  inverse: Float64Array;
  level: Float64Array;
  dual: Float64Array;
  /** Price of an artificial. */
  high: number;
  pivots: number;
  sinceFactor: number;
}

const PIVOT = 1e-9;
const COST_TOLERANCE = 1e-9;
const LEVEL_TOLERANCE = 1e-9;
const REFACTOR_EVERY = 120;

export const surplusOf = (row: number): number => -1 - 2 * row;
export const artificialOf = (row: number): number => -2 - 2 * row;
export const isArtificial = (variable: number): boolean => variable < 0 && variable % 2 === 0;
const rowOfExtra = (variable: number): number => (-1 - variable) >> 1;

/** Deterministic and irregular: fractional parts of multiples of the golden ratio. */
const hairOf = (row: number): number => 1e-7 * (0.5 + (((row + 1) * 0.6180339887498949) % 1));

export function createLinear(rhs: readonly number[], high: number): Linear {
  const rows = rhs.length;
  const stride = rows + 32;
  const linear: Linear = {
    rows,
    rhs: [...rhs],
    hair: rhs.map((_, row) => hairOf(row)),
    cost: [],
    columnRows: [],
    columnValues: [],
    banned: [],
    basis: [],
    place: new Map(),
    stride,
    inverse: new Float64Array(stride * stride),
    level: new Float64Array(stride),
    dual: new Float64Array(stride),
    high,
    pivots: 0,
    sinceFactor: 0,
  };
  resetBasis(linear);
  return linear;
}

/** All artificial where the right-hand side is positive, surplus elsewhere. */
export function resetBasis(linear: Linear): void {
  setBasis(
    linear,
    linear.rhs.map((value, row) => (value > 0 ? artificialOf(row) : surplusOf(row))),
  );
}

export function setBasis(linear: Linear, basis: readonly number[]): void {
  linear.basis = [...basis];
  refactor(linear);
}

export function addColumn(linear: Linear, cost: number, rows: number[], values: number[]): number {
  linear.cost.push(cost);
  linear.columnRows.push(rows);
  linear.columnValues.push(values);
  linear.banned.push(false);
  return linear.cost.length - 1;
}

/** Adds Σ coefficient·x ≥ rhs over the columns given; its surplus becomes basic, so call `reoptimise` after. */
export function addRow(linear: Linear, rhs: number, columns: readonly number[], values: readonly number[]): number {
  const row = linear.rows;
  if (row >= linear.stride) grow(linear);
  linear.rows += 1;
  linear.rhs.push(rhs);
  // No hair on cuts: they are few, and a hair could make a tight pair of them impossible.
  linear.hair.push(0);
  columns.forEach((column, k) => {
    linear.columnRows[column]!.push(row);
    linear.columnValues[column]!.push(values[k]!);
  });
  linear.basis.push(surplusOf(row));
  linear.place.set(surplusOf(row), row);
  const { inverse, stride, level } = linear;
  const at = row * stride;
  inverse.fill(0, at, at + stride);
  let value = -rhs;
  columns.forEach((column, k) => {
    const place = linear.place.get(column);
    if (place === undefined) return;
    const factor = values[k]!;
    const from = place * stride;
    for (let j = 0; j < row; j++) inverse[at + j]! += factor * inverse[from + j]!;
    value += factor * level[place]!;
  });
  for (let i = 0; i < row; i++) inverse[i * stride + row] = 0;
  inverse[at + row] = -1;
  level[row] = value;
  linear.dual[row] = 0;
  return row;
}

/** Takes away the rows from `keep` on; the basis is rebuilt from what remains. */
export function truncateRows(linear: Linear, keep: number): void {
  if (keep === linear.rows) return;
  for (let j = 0; j < linear.columnRows.length; j++) {
    const rows = linear.columnRows[j]!;
    let length = rows.length;
    // Rows were appended in order, so the ones to go stand at the end.
    while (length > 0 && rows[length - 1]! >= keep) length -= 1;
    rows.length = length;
    linear.columnValues[j]!.length = length;
  }
  linear.rows = keep;
  linear.rhs.length = keep;
  linear.hair.length = keep;
}

function grow(linear: Linear): void {
  const stride = Math.ceil(linear.stride * 1.5) + 32;
  const inverse = new Float64Array(stride * stride);
  for (let i = 0; i < linear.rows; i++)
    inverse.set(linear.inverse.subarray(i * linear.stride, i * linear.stride + linear.rows), i * stride);
  const level = new Float64Array(stride);
  level.set(linear.level);
  const dual = new Float64Array(stride);
  dual.set(linear.dual);
  Object.assign(linear, { stride, inverse, level, dual });
}

function costOf(linear: Linear, variable: number): number {
  if (variable >= 0) return linear.banned[variable] ? linear.high : linear.cost[variable]!;
  return isArtificial(variable) ? linear.high : 0;
}

/** Inverts the basis anew (Gauss–Jordan with partial pivoting); a dependent column gives way to an artificial. */
export function refactor(linear: Linear): void {
  const { rows, stride, inverse } = linear;
  const matrix = new Float64Array(rows * rows);
  linear.basis.forEach((variable, k) => {
    if (variable >= 0) {
      const indices = linear.columnRows[variable]!;
      const values = linear.columnValues[variable]!;
      for (let t = 0; t < indices.length; t++) matrix[indices[t]! * rows + k] = values[t]!;
    } else matrix[rowOfExtra(variable) * rows + k] = isArtificial(variable) ? 1 : -1;
  });
  for (let i = 0; i < rows; i++) {
    inverse.fill(0, i * stride, i * stride + rows);
    inverse[i * stride + i] = 1;
  }
  // Row operations turn `matrix` into a permutation; `whose[k]` is the row that holds the one of column k.
  const taken = new Uint8Array(rows);
  const whose = new Int32Array(rows).fill(-1);
  const dependent: number[] = [];
  for (let k = 0; k < rows; k++) {
    let pivotRow = -1;
    let largest = 1e-10;
    for (let i = 0; i < rows; i++) {
      if (taken[i]) continue;
      const size = Math.abs(matrix[i * rows + k]!);
      if (size > largest) [largest, pivotRow] = [size, i];
    }
    if (pivotRow < 0) {
      dependent.push(k);
      continue;
    }
    taken[pivotRow] = 1;
    whose[k] = pivotRow;
    const pivotAt = pivotRow * rows;
    const inverseAt = pivotRow * stride;
    const scale = 1 / matrix[pivotAt + k]!;
    for (let j = k; j < rows; j++) matrix[pivotAt + j]! *= scale;
    for (let j = 0; j < rows; j++) inverse[inverseAt + j]! *= scale;
    for (let i = 0; i < rows; i++) {
      if (i === pivotRow) continue;
      const factor = matrix[i * rows + k]!;
      if (factor === 0) continue;
      const at = i * rows;
      for (let j = k; j < rows; j++) matrix[at + j]! -= factor * matrix[pivotAt + j]!;
      const to = i * stride;
      for (let j = 0; j < rows; j++) inverse[to + j]! -= factor * inverse[inverseAt + j]!;
    }
  }
  if (dependent.length > 0) {
    const free: number[] = [];
    for (let i = 0; i < rows; i++) if (!taken[i]) free.push(i);
    dependent.forEach((k, t) => {
      linear.basis[k] = artificialOf(free[t]!);
    });
    refactor(linear);
    return;
  }
  const ordered = new Float64Array(rows * rows);
  for (let k = 0; k < rows; k++) ordered.set(inverse.subarray(whose[k]! * stride, whose[k]! * stride + rows), k * rows);
  for (let k = 0; k < rows; k++) inverse.set(ordered.subarray(k * rows, (k + 1) * rows), k * stride);
  linear.place = new Map(linear.basis.map((variable, k) => [variable, k]));
  linear.sinceFactor = 0;
  setLevels(linear);
  setDuals(linear);
}

function setLevels(linear: Linear): void {
  const { rows, stride, inverse, level, rhs, hair } = linear;
  for (let i = 0; i < rows; i++) {
    let sum = 0;
    const at = i * stride;
    for (let j = 0; j < rows; j++) sum += inverse[at + j]! * (rhs[j]! + hair[j]!);
    level[i] = sum;
  }
}

export function setDuals(linear: Linear): void {
  const { rows, stride, inverse, dual } = linear;
  dual.fill(0, 0, rows);
  for (let i = 0; i < rows; i++) {
    const cost = costOf(linear, linear.basis[i]!);
    if (cost === 0) continue;
    const at = i * stride;
    for (let j = 0; j < rows; j++) dual[j]! += cost * inverse[at + j]!;
  }
}

export function setRhs(linear: Linear, row: number, value: number): void {
  linear.rhs[row] = value;
}

/** After rhs changes. */
export const refresh = (linear: Linear): void => {
  setLevels(linear);
  setDuals(linear);
};

export function reducedCost(linear: Linear, column: number): number {
  const rows = linear.columnRows[column]!;
  const values = linear.columnValues[column]!;
  const { dual } = linear;
  let sum = linear.cost[column]!;
  for (let t = 0; t < rows.length; t++) sum -= dual[rows[t]!]! * values[t]!;
  return sum;
}

/** The value of the present basis, for the true right-hand side. */
export function objective(linear: Linear): number {
  let sum = 0;
  for (let i = 0; i < linear.rows; i++) sum += linear.dual[i]! * linear.rhs[i]!;
  return sum;
}

const work: { direction: Float64Array } = { direction: new Float64Array(0) };

function directionOf(linear: Linear, variable: number): Float64Array {
  const { rows, stride, inverse } = linear;
  if (work.direction.length < rows) work.direction = new Float64Array(2 * rows + 64);
  const { direction } = work;
  if (variable >= 0) {
    const indices = linear.columnRows[variable]!;
    const values = linear.columnValues[variable]!;
    const count = indices.length;
    for (let i = 0; i < rows; i++) {
      const at = i * stride;
      let sum = 0;
      for (let t = 0; t < count; t++) sum += inverse[at + indices[t]!]! * values[t]!;
      direction[i] = sum;
    }
  } else {
    const row = rowOfExtra(variable);
    const sign = isArtificial(variable) ? 1 : -1;
    for (let i = 0; i < rows; i++) direction[i] = sign * inverse[i * stride + row]!;
  }
  return direction;
}

/** Exchanges the basic variable of `leaving` for `entering`, whose direction is given and whose reduced cost is `price`. */
function pivot(linear: Linear, leaving: number, entering: number, direction: Float64Array, price: number): void {
  const { rows, stride, inverse, level, dual } = linear;
  const at = leaving * stride;
  const scale = 1 / direction[leaving]!;
  for (let j = 0; j < rows; j++) inverse[at + j]! *= scale;
  level[leaving]! *= scale;
  const step = level[leaving]!;
  for (let i = 0; i < rows; i++) {
    if (i === leaving) continue;
    const factor = direction[i]!;
    if (factor === 0) continue;
    const to = i * stride;
    for (let j = 0; j < rows; j++) inverse[to + j]! -= factor * inverse[at + j]!;
    level[i]! -= factor * step;
  }
  for (let j = 0; j < rows; j++) dual[j]! += price * inverse[at + j]!;
  linear.place.delete(linear.basis[leaving]!);
  linear.basis[leaving] = entering;
  linear.place.set(entering, leaving);
  linear.pivots += 1;
  linear.sinceFactor += 1;
  if (linear.sinceFactor >= REFACTOR_EVERY) refactor(linear);
}

/**
 * Primal simplex over the columns at hand. `halt` is asked at every pivot; the basis stays valid when it says true.
 * @returns false when halted.
 */
export function optimise(linear: Linear, halt: () => boolean): boolean {
  for (;;) {
    let entering = Number.NaN;
    let best = -COST_TOLERANCE;
    const { dual, rows } = linear;
    const columns = linear.cost.length;
    for (let j = 0; j < columns; j++) {
      if (linear.banned[j]) continue;
      const price = reducedCost(linear, j);
      if (price < best && !linear.place.has(j)) [best, entering] = [price, j];
    }
    for (let row = 0; row < rows; row++)
      if (dual[row]! < best && !linear.place.has(surplusOf(row))) [best, entering] = [dual[row]!, surplusOf(row)];
    if (Number.isNaN(entering)) return true;
    if (halt()) return false;
    const direction = directionOf(linear, entering);
    let leaving = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < rows; i++) {
      const d = direction[i]!;
      if (d <= PIVOT) continue;
      const ratio = Math.max(linear.level[i]!, 0) / d;
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && leaving >= 0 && d > direction[leaving]!)) {
        least = ratio;
        leaving = i;
      }
    }
    // Costs are not negative, so the program is bounded; a missing pivot is lost precision, and a fresh inverse mends it.
    if (leaving < 0) {
      if (linear.sinceFactor === 0) return true;
      refactor(linear);
      continue;
    }
    pivot(linear, leaving, entering, direction, best);
  }
}

/** Dual simplex over the columns at hand, then primal: for use after rows were added or the right-hand side moved. */
export function reoptimise(linear: Linear, halt: () => boolean): boolean {
  for (;;) {
    const { rows, stride, inverse, level, dual } = linear;
    let leaving = -1;
    let lowest = -LEVEL_TOLERANCE;
    for (let i = 0; i < rows; i++) if (level[i]! < lowest) [lowest, leaving] = [level[i]!, i];
    if (leaving < 0) break;
    if (halt()) return false;
    const at = leaving * stride;
    let entering = Number.NaN;
    let price = 0;
    let least = Number.POSITIVE_INFINITY;
    let largest = 0;
    const consider = (variable: number, alpha: number, cost: number): void => {
      if (alpha >= -1e-7) return;
      const ratio = Math.max(cost, 0) / -alpha;
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && -alpha > largest)) {
        least = ratio;
        largest = -alpha;
        entering = variable;
        price = cost;
      }
    };
    for (let j = 0; j < linear.cost.length; j++) {
      if (linear.banned[j] || linear.place.has(j)) continue;
      const indices = linear.columnRows[j]!;
      const values = linear.columnValues[j]!;
      let alpha = 0;
      let cost = linear.cost[j]!;
      for (let t = 0; t < indices.length; t++) {
        alpha += inverse[at + indices[t]!]! * values[t]!;
        cost -= dual[indices[t]!]! * values[t]!;
      }
      consider(j, alpha, cost);
    }
    for (let row = 0; row < rows; row++) {
      const alpha = inverse[at + row]!;
      if (!linear.place.has(surplusOf(row))) consider(surplusOf(row), -alpha, dual[row]!);
      if (!linear.place.has(artificialOf(row))) consider(artificialOf(row), alpha, linear.high - dual[row]!);
    }
    if (Number.isNaN(entering)) {
      if (linear.sinceFactor > 0) {
        refactor(linear);
        continue;
      }
      break;
    }
    const direction = directionOf(linear, entering);
    if (Math.abs(direction[leaving]!) < PIVOT) {
      refactor(linear);
      break;
    }
    pivot(linear, leaving, entering, direction, price);
  }
  return optimise(linear, halt);
}
