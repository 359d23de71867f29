import { type Factor, type FactorRoom, factorise, factorRoom } from './factor.ts';

/**
 * A small linear program for column generation: minimise c·x, A x ≥ b, x ≥ 0, with columns and rows added as the search goes on.
 *
 * Revised simplex over a factored basis: primal (devex pricing: Forrest & Goldfarb 1992) after columns are added, dual after rows are
 * added or the right-hand side is moved. Every row has a surplus and, at a high price, an artificial that covers it, so there is
 * always a basis. The right-hand side is nudged by a fixed pseudo-random hair: these programs (many rows "cover once") are so
 * degenerate that the simplex would stall otherwise. The hair shifts the value by less than a millionth of the cost, and nothing is
 * proven by it: callers take the duals, whatever they are, and prove their bounds from those.
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
  /** What is basic at each place: column j as j, the surplus of row r as −1−2r, the artificial of row r as −2−2r. */
  basis: number[];
  /** Where a column, a surplus, an artificial stands in the basis; −1 when it does not. */
  readonly placeOfColumn: number[];
  readonly placeOfSurplus: number[];
  readonly placeOfArtificial: number[];
  factor: Factor;
  /** Kept from pivot to pivot, so that none of them asks for memory. */
  readonly room: FactorRoom;
  direction: Float64Array;
  inverseRow: Float64Array;
  level: Float64Array;
  dual: Float64Array;
  /** Price of an artificial. */
  high: number;
  pivots: number;
}

const PIVOT = 1e-9;
const COST_TOLERANCE = 1e-9;
const LEVEL_TOLERANCE = 1e-9;

export const surplusOf = (row: number): number => -1 - 2 * row;
export const artificialOf = (row: number): number => -2 - 2 * row;
export const isArtificial = (variable: number): boolean => variable < 0 && variable % 2 === 0;
const rowOfExtra = (variable: number): number => (-1 - variable) >> 1;

/** Deterministic and irregular: fractional parts of multiples of the golden ratio. */
const hairOf = (row: number): number => 1e-7 * (0.5 + (((row + 1) * 0.6180339887498949) % 1));

export function createLinear(rhs: readonly number[], high: number): Linear {
  const rows = rhs.length;
  const linear: Linear = {
    rows,
    rhs: [...rhs],
    hair: rhs.map((_, row) => hairOf(row)),
    cost: [],
    columnRows: [],
    columnValues: [],
    banned: [],
    basis: [],
    placeOfColumn: [],
    placeOfSurplus: rhs.map(() => -1),
    placeOfArtificial: rhs.map(() => -1),
    factor: factorise(0, [], []),
    room: factorRoom(),
    direction: new Float64Array(rows),
    inverseRow: new Float64Array(rows),
    level: new Float64Array(rows),
    dual: new Float64Array(rows),
    high,
    pivots: 0,
  };
  setBasis(
    linear,
    rhs.map((value, row) => (value > 0 ? artificialOf(row) : surplusOf(row))),
  );
  return linear;
}

export function placeOf(linear: Linear, variable: number): number {
  if (variable >= 0) return linear.placeOfColumn[variable]!;
  return isArtificial(variable)
    ? linear.placeOfArtificial[rowOfExtra(variable)]!
    : linear.placeOfSurplus[rowOfExtra(variable)]!;
}

function setPlace(linear: Linear, variable: number, place: number): void {
  if (variable >= 0) linear.placeOfColumn[variable] = place;
  else if (isArtificial(variable)) linear.placeOfArtificial[rowOfExtra(variable)] = place;
  else linear.placeOfSurplus[rowOfExtra(variable)] = place;
}

/** Comes back to a basis had before; the rows must be the same, all else may have changed. */
export function setBasis(linear: Linear, basis: readonly number[]): void {
  for (const variable of linear.basis) setPlace(linear, variable, -1);
  linear.basis = [...basis];
  refactor(linear);
}

export function addColumn(linear: Linear, cost: number, rows: number[], values: number[]): number {
  linear.cost.push(cost);
  linear.columnRows.push(rows);
  linear.columnValues.push(values);
  linear.banned.push(false);
  linear.placeOfColumn.push(-1);
  return linear.cost.length - 1;
}

export interface NewRow {
  readonly rhs: number;
  readonly columns: readonly number[];
  readonly values: readonly number[];
}

/** Adds rows Σ value·x ≥ rhs; their surpluses become basic, so call `reoptimise` after. */
export function addRows(linear: Linear, added: readonly NewRow[]): void {
  for (const { rhs, columns, values } of added) {
    const row = linear.rows;
    linear.rows += 1;
    linear.rhs.push(rhs);
    // No hair on cuts: they are few, and a hair could make a tight pair of them impossible.
    linear.hair.push(0);
    columns.forEach((column, k) => {
      linear.columnRows[column]!.push(row);
      linear.columnValues[column]!.push(values[k]!);
    });
    linear.placeOfSurplus.push(-1);
    linear.placeOfArtificial.push(-1);
    linear.basis.push(surplusOf(row));
  }
  refactor(linear);
}

/** Takes rows from `from` on away where `keep` says no. The basis must be set anew unless only rows with a basic surplus go. */
export function dropRows(linear: Linear, from: number, keep: (row: number) => boolean): void {
  const newIndex = Array.from({ length: linear.rows }, (_, row) => row);
  let next = from;
  for (let row = from; row < linear.rows; row++) newIndex[row] = keep(row) ? next++ : -1;
  if (next === linear.rows) return;
  for (let j = 0; j < linear.columnRows.length; j++) {
    const rows = linear.columnRows[j]!;
    const values = linear.columnValues[j]!;
    let length = rows.length;
    // Rows were appended in order, so the ones that may go stand at the end.
    while (length > 0 && rows[length - 1]! >= from) length -= 1;
    let to = length;
    for (let t = length; t < rows.length; t++) {
      const row = newIndex[rows[t]!]!;
      if (row < 0) continue;
      rows[to] = row;
      values[to] = values[t]!;
      to += 1;
    }
    rows.length = to;
    values.length = to;
  }
  for (const variable of linear.basis) setPlace(linear, variable, -1);
  linear.basis = linear.basis.flatMap((variable) => {
    if (variable >= 0) return [variable];
    const row = newIndex[rowOfExtra(variable)]!;
    if (row < 0) return [];
    return [isArtificial(variable) ? artificialOf(row) : surplusOf(row)];
  });
  for (let row = from; row < linear.rows; row++) {
    const to = newIndex[row]!;
    if (to < 0) continue;
    linear.rhs[to] = linear.rhs[row]!;
    linear.hair[to] = linear.hair[row]!;
  }
  linear.rows = next;
  linear.rhs.length = next;
  linear.hair.length = next;
  linear.placeOfSurplus.length = next;
  linear.placeOfArtificial.length = next;
}

function costOf(linear: Linear, variable: number): number {
  if (variable >= 0) return linear.banned[variable] ? linear.high : linear.cost[variable]!;
  return isArtificial(variable) ? linear.high : 0;
}

/** Factors the basis anew; a dependent column gives way to an artificial. */
export function refactor(linear: Linear): void {
  const { rows } = linear;
  if (linear.level.length < rows) {
    linear.level = new Float64Array(rows + 64);
    linear.dual = new Float64Array(rows + 64);
    linear.direction = new Float64Array(rows + 64);
    linear.inverseRow = new Float64Array(rows + 64);
  }
  for (;;) {
    const factor = factorise(
      rows,
      linear.basis.map((variable) => (variable >= 0 ? linear.columnRows[variable]! : [rowOfExtra(variable)])),
      linear.basis.map((variable) =>
        variable >= 0 ? linear.columnValues[variable]! : [isArtificial(variable) ? 1 : -1],
      ),
      linear.room,
    );
    linear.factor = factor;
    if (factor.dependent.length === 0) break;
    for (const { place, row } of factor.dependent) {
      setPlace(linear, linear.basis[place]!, -1);
      linear.basis[place] = artificialOf(row);
    }
  }
  linear.basis.forEach((variable, k) => {
    setPlace(linear, variable, k);
  });
  refresh(linear);
}

/** Levels and duals anew: call after the right-hand side, costs or bans have changed. */
export function refresh(linear: Linear): void {
  const { rows, rhs, hair, factor } = linear;
  const level = new Float64Array(rows);
  for (let i = 0; i < rows; i++) level[i] = rhs[i]! + hair[i]!;
  factor.solve(level);
  linear.level.set(level);
  setDuals(linear);
}

export function setDuals(linear: Linear): void {
  const dual = new Float64Array(linear.rows);
  linear.basis.forEach((variable, k) => {
    dual[k] = costOf(linear, variable);
  });
  linear.factor.solveTransposed(dual);
  linear.dual.set(dual);
}

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

/** Good until the next one. */
function directionOf(linear: Linear, variable: number): Float64Array {
  const direction = linear.direction.subarray(0, linear.rows).fill(0);
  if (variable >= 0) {
    const rows = linear.columnRows[variable]!;
    const values = linear.columnValues[variable]!;
    for (let t = 0; t < rows.length; t++) direction[rows[t]!] = values[t]!;
  } else direction[rowOfExtra(variable)] = isArtificial(variable) ? 1 : -1;
  linear.factor.solve(direction);
  return direction;
}

/** The row of the inverse that belongs to a place, by row of the program. Good until the next one. */
function inverseRow(linear: Linear, place: number): Float64Array {
  const row = linear.inverseRow.subarray(0, linear.rows).fill(0);
  row[place] = 1;
  linear.factor.solveTransposed(row);
  return row;
}

/** Exchanges the variable at `place` for `entering`. `price` is the reduced cost of the latter, `row` the inverse row of the place. */
function pivot(
  linear: Linear,
  place: number,
  entering: number,
  direction: Float64Array,
  price: number,
  row: Float64Array,
): void {
  const { level, dual, rows } = linear;
  const step = level[place]! / direction[place]!;
  for (let i = 0; i < rows; i++) level[i]! -= step * direction[i]!;
  level[place] = step;
  const slope = price / direction[place]!;
  for (let i = 0; i < rows; i++) dual[i]! += slope * row[i]!;
  setPlace(linear, linear.basis[place]!, -1);
  linear.basis[place] = entering;
  setPlace(linear, entering, place);
  linear.pivots += 1;
  linear.factor.exchange(place, direction);
  if (linear.factor.worn()) refactor(linear);
}

/**
 * Primal simplex over the columns at hand. `halt` is asked at every pivot; the basis stays valid when it says true.
 * @returns false when halted.
 */
export function optimise(linear: Linear, halt: () => boolean): boolean {
  const { cost, banned, columnRows, columnValues, placeOfColumn, placeOfSurplus } = linear;
  const columns = cost.length;
  const { rows } = linear;
  const price = new Float64Array(columns);
  const weight = new Float64Array(columns).fill(1);
  const rowWeight = new Float64Array(rows).fill(1);
  const priceAll = (): void => {
    for (let j = 0; j < columns; j++) price[j] = reducedCost(linear, j);
  };
  priceAll();
  let fresh = true;
  for (;;) {
    let entering = 0;
    let best = 0;
    const { dual } = linear;
    for (let j = 0; j < columns; j++) {
      const p = price[j]!;
      if (p >= -COST_TOLERANCE || banned[j] || placeOfColumn[j]! >= 0) continue;
      const score = (p * p) / weight[j]!;
      if (score > best) {
        best = score;
        entering = j;
      }
    }
    for (let i = 0; i < rows; i++) {
      const p = dual[i]!;
      if (p >= -COST_TOLERANCE || placeOfSurplus[i]! >= 0) continue;
      const score = (p * p) / rowWeight[i]!;
      if (score > best) {
        best = score;
        entering = surplusOf(i);
      }
    }
    if (best === 0) {
      if (fresh) return true;
      setDuals(linear);
      priceAll();
      fresh = true;
      continue;
    }
    fresh = false;
    if (halt()) return false;
    const entry = entering >= 0 ? reducedCost(linear, entering) : linear.dual[rowOfExtra(entering)]!;
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
    // Costs are not negative, so the program is bounded; a missing pivot is lost precision.
    if (leaving < 0) return true;
    const row = inverseRow(linear, leaving);
    const left = linear.basis[leaving]!;
    const alpha = direction[leaving]!;
    const slope = entry / alpha;
    const own = entering >= 0 ? weight[entering]! : rowWeight[rowOfExtra(entering)]!;
    const share = own / (alpha * alpha);
    for (let j = 0; j < columns; j++) {
      if (placeOfColumn[j]! >= 0 || banned[j]) continue;
      const indices = columnRows[j]!;
      const values = columnValues[j]!;
      let sum = 0;
      for (let t = 0; t < indices.length; t++) sum += row[indices[t]!]! * values[t]!;
      if (sum === 0) continue;
      price[j]! -= slope * sum;
      const w = sum * sum * share;
      if (w > weight[j]!) weight[j] = w;
    }
    for (let i = 0; i < rows; i++) {
      const w = row[i]! * row[i]! * share;
      if (w > rowWeight[i]!) rowWeight[i] = w;
    }
    pivot(linear, leaving, entering, direction, entry, row);
    if (left >= 0) {
      price[left] = -slope;
      weight[left] = Math.max(share, 1);
    } else if (!isArtificial(left)) rowWeight[rowOfExtra(left)] = Math.max(share, 1);
  }
}

/** Dual simplex over the columns at hand, then primal: for use after rows were added or the right-hand side moved. */
export function reoptimise(linear: Linear, halt: () => boolean): boolean {
  const { cost, banned, columnRows, columnValues, placeOfColumn, placeOfSurplus, placeOfArtificial } = linear;
  let failures = 0;
  for (;;) {
    const { rows, level, dual } = linear;
    let leaving = -1;
    let lowest = -LEVEL_TOLERANCE;
    for (let i = 0; i < rows; i++)
      if (level[i]! < lowest) {
        lowest = level[i]!;
        leaving = i;
      }
    if (leaving < 0) break;
    if (halt()) return false;
    const row = inverseRow(linear, leaving);
    let entering = Number.NaN;
    let price = 0;
    let least = Number.POSITIVE_INFINITY;
    let largest = 0;
    const consider = (variable: number, alpha: number, own: number): void => {
      const ratio = Math.max(own, 0) / -alpha;
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && -alpha > largest)) {
        least = ratio;
        largest = -alpha;
        entering = variable;
        price = own;
      }
    };
    for (let j = 0; j < cost.length; j++) {
      if (placeOfColumn[j]! >= 0 || banned[j]) continue;
      const indices = columnRows[j]!;
      const values = columnValues[j]!;
      let alpha = 0;
      for (let t = 0; t < indices.length; t++) alpha += row[indices[t]!]! * values[t]!;
      if (alpha < -1e-7) consider(j, alpha, reducedCost(linear, j));
    }
    for (let i = 0; i < rows; i++) {
      const alpha = row[i]!;
      if (alpha > 1e-7 && placeOfSurplus[i]! < 0) consider(surplusOf(i), -alpha, dual[i]!);
      if (alpha < -1e-7 && placeOfArtificial[i]! < 0) consider(artificialOf(i), alpha, linear.high - dual[i]!);
    }
    const direction = Number.isNaN(entering) ? undefined : directionOf(linear, entering);
    if (!direction || Math.abs(direction[leaving]!) < PIVOT) {
      // Lost precision: a fresh factor mends it, once.
      failures += 1;
      if (failures > 2) break;
      refactor(linear);
      continue;
    }
    pivot(linear, leaving, entering, direction, price, row);
  }
  return optimise(linear, halt);
}
