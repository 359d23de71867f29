import { isInches } from '../quantity/index.ts';
import type { PaperName, Plan } from './schema/plan.ts';

/** The paper of the packet: what the plan says, or what is usual with its units. */
export const paperOf = ({ paper, units }: Plan): PaperName => paper ?? (isInches(units.length) ? 'Letter' : 'A4');
