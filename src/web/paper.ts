import type { PaperName } from '../core/drawing/index.ts';
import type { Plan } from '../core/plan/index.ts';
import { isInches } from '../core/quantity/index.ts';

/** The paper of the packet: what the plan says, or what is usual with its units. */
export const paperOf = ({ paper, units }: Plan): PaperName => paper ?? (isInches(units.length) ? 'Letter' : 'A4');

/** How sheets are written that are put into a page: its style sheet gives colours and font. */
export const WRITTEN = { theme: 'host', decimals: 2, joined: true } as const;
