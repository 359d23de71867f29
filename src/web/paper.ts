import type { PaperName } from '../core/drawing/index.ts';
import type { Plan } from '../core/plan/index.ts';

/** The paper of the packet: what the plan says, or what is usual with its units. */
export const paperOf = ({ paper, units }: Plan): PaperName =>
  paper ?? (units.length === 'ft-in' || units.length === 'in' ? 'Letter' : 'A4');
