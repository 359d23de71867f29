import type { Stock } from '../../core/plan/index.ts';

type Offered = readonly (readonly [string, string])[];
const named = (items: readonly { readonly id: string; readonly name?: string | undefined }[]): Offered =>
  items.map(({ id, name }) => [id, name ?? id] as const);

/** What may be chosen of the stock of the plan, by the names it goes by. */
export const panels = ({ panels: all }: Stock): Offered => named(all);
export const boards = ({ boards: all }: Stock): Offered => named(all);
export const bands = ({ packs }: Stock): Offered => named(packs.filter(({ use }) => use === 'edge band'));

/** With what holds where a piece does not say. */
export const withUnsaid = (of: Offered, usual: string): Offered => [['', `${usual}, as usual`], ...of];
