import { remember } from '../remember.ts';
import type { Plan } from './schema/plan.ts';

const settings = remember<Plan['room'], object>();

/** One object for as long as everything of a plan but its options is the same: what a piece is made from besides itself. */
export const settingOf = ({ options: _, ...rest }: Plan): object =>
  settings(rest.room, Object.entries(rest).flat(), () => ({}));
