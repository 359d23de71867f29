/** Where a formula, a value or a limit was published. `place` is the table, section, equation or example. */
export interface Source {
  readonly title: string;
  readonly edition?: string;
  readonly place?: string;
}

/** 'common practice': a fact of the trade without a publication. 'from memory': known, not re-read; never hang a test on it alone. */
export type Origin = Source | 'common practice' | 'from memory';

export interface WorkingInput {
  readonly symbol: string;
  readonly name: string;
  /** A number, a row of them, or a chosen name. */
  readonly value: number | string | readonly number[];
  /** A unit symbol ('mm', 'kg', 'N/mm', '' for a pure number or a chosen name). */
  readonly unit: string;
  /** Where a value that was looked up, not given, comes from. */
  readonly source?: Origin;
}

export interface WorkingValue {
  readonly value: number;
  readonly unit: string;
}

/** How one figure came about: made by the calculator itself, never retold elsewhere. */
export interface Working {
  readonly what: string;
  readonly formula: string;
  /** Where the source's own constants, or the trade, hold to metric units whatever the plan is drawn in: a lens is marked in mm everywhere. */
  readonly reckonedIn?: 'metric';
  readonly inputs: readonly WorkingInput[];
  readonly result: WorkingValue;
  /** Further figures of the same calculation, e.g. a component or a step worth seeing. */
  readonly also?: readonly (WorkingValue & { readonly symbol: string; readonly name: string })[];
  readonly limit?: WorkingValue & { readonly why: string; readonly source?: Origin };
  readonly source: Origin;
  readonly assumes: readonly string[];
  /** Shown with the result wherever a person may be hurt by it. */
  readonly caution?: string;
}

export function originText(origin: Origin): string {
  return typeof origin === 'string' ? origin : [origin.title, origin.edition, origin.place].filter(Boolean).join(', ');
}
