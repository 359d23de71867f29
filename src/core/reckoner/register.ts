import type { AnyCalculator, CheckRow } from '../notes/index.ts';

/** Every topic's calculators and published check values, in the order of the house. */
const TOPICS: readonly { readonly calculators: readonly AnyCalculator[]; readonly checks: readonly CheckRow[] }[] = [];

export const REGISTER: readonly AnyCalculator[] = TOPICS.flatMap((topic) => topic.calculators);
export const CHECKS: readonly CheckRow[] = TOPICS.flatMap((topic) => topic.checks);
