import * as calendar from '../calendar/index.ts';
import * as camera from '../camera/index.ts';
import * as ergonomics from '../ergonomics/index.ts';
import * as finish from '../finish/index.ts';
import * as light from '../light/index.ts';
import type { AnyCalculator, CheckRow } from '../notes/index.ts';
import * as power from '../power/index.ts';
import * as sound from '../sound/index.ts';
import * as stock from '../stock/index.ts';
import * as strength from '../strength/index.ts';

/** Every topic's calculators and published check values, in the order of the house. A topic joins by its door. */
const TOPICS: readonly { readonly calculators: readonly AnyCalculator[]; readonly checks: readonly CheckRow[] }[] = [
  stock,
  strength,
  finish,
  ergonomics,
  power,
  sound,
  camera,
  light,
  calendar,
];

export const REGISTER: readonly AnyCalculator[] = TOPICS.flatMap((topic) => topic.calculators);
export const CHECKS: readonly CheckRow[] = TOPICS.flatMap((topic) => topic.checks);
