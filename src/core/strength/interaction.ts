import { type AnyCalculator, formula } from '../notes/index.ts';
import { combinedResistance } from './timber-fixing.ts';

const CAUTION =
  'What hangs overhead can kill. Check what is really behind the board, drill no cable or pipe, and follow local codes; heavy or public loads are for a licensed engineer.';

/** T/T_a + V/V_a: how much of a fixing is used when it is pulled and sheared together, straight-line interaction. */
export const fixingUse = (tension: number, shear: number, pull: number, lateral: number): number =>
  tension / pull + shear / lateral;

/**
 * Share of a screw in wood that is used: load over the resistance in its direction, NDS-2018 eq. (12.4-1). That resistance rises
 * with the angle so fast where pull-out is the stronger that a little pull would seem to help the shear; so it is never less than
 * either alone.
 */
export function screwUse(tension: number, shear: number, pull: number, lateral: number): number {
  const load = Math.hypot(tension, shear);
  if (load === 0) return 0;
  const angled = load / combinedResistance(pull, lateral, (Math.atan2(tension, shear) * 180) / Math.PI);
  return Math.max(angled, tension / pull, shear / lateral);
}

export const shareOfFixing = formula({
  name: 'fixing-use',
  title: 'How much of a fixing is used',
  topic: 'strength',
  about: 'Pull and shear together on one fixing: 1 is all it may take.',
  formula: 'u = T/T_a + V/V_a',
  inputs: {
    tension: { dimension: 'force', about: 'pull out of the wall that acts on it', symbol: 'T', min: 0 },
    shear: { dimension: 'force', about: 'load along the wall that acts on it', symbol: 'V', min: 0 },
    pull: { dimension: 'force', about: 'allowable pull', symbol: 'T_a', above: 0 },
    lateral: { dimension: 'force', about: 'allowable shear', symbol: 'V_a', above: 0 },
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: 'common practice',
  caution: CAUTION,
  assumes: ['a straight line between pull alone and shear alone, which is never unsafe against a rounder curve'],
  compute: (v) => ({
    value: fixingUse(v.tension, v.shear, v.pull, v.lateral),
    limit: { value: 1, unit: '', why: 'all it may take', source: 'common practice' },
  }),
});

export const INTERACTION_CALCULATORS: readonly AnyCalculator[] = [shareOfFixing];
