import { type AnyCalculator, formula } from '../notes/index.ts';
import { NDS, OVERHEAD } from './cited.ts';
import { combinedResistance } from './timber-fixing.ts';

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
  caution: OVERHEAD,
  assumes: ['a straight line between pull alone and shear alone, which is never unsafe against a rounder curve'],
  compute: (v) => ({
    value: fixingUse(v.tension, v.shear, v.pull, v.lateral),
    limit: { value: 1, unit: '', why: 'all it may take', source: 'common practice' },
  }),
});

export const shareOfScrew = formula({
  name: 'screw-use',
  title: 'How much of a screw in wood is used',
  topic: 'strength',
  about: 'Pull and shear together on one screw in wood: 1 is all it may take.',
  formula: 'u = max(F/Z′α, T/W, V/Z),  F = √(T² + V²),  Z′α = W Z / (W cos²α + Z sin²α),  tan α = T/V',
  inputs: {
    tension: { dimension: 'force', about: 'pull out of the wall that acts on it', symbol: 'T', min: 0 },
    shear: { dimension: 'force', about: 'load along the wall that acts on it', symbol: 'V', min: 0 },
    withdrawal: { dimension: 'force', about: 'allowable withdrawal', symbol: 'W', above: 0 },
    lateral: { dimension: 'force', about: 'allowable shear', symbol: 'Z', above: 0 },
  },
  result: { symbol: 'u', name: 'share used', dimension: 'ratio' },
  source: NDS('eq. (12.4-1)'),
  caution: OVERHEAD,
  assumes: ['never less than of pull alone and of shear alone, though the equation lets a little pull help the shear'],
  compute: (v) => {
    const angle = (Math.atan2(v.tension, v.shear) * 180) / Math.PI;
    return {
      value: screwUse(v.tension, v.shear, v.withdrawal, v.lateral),
      also: [
        { symbol: 'α', name: 'angle of the load', value: angle, unit: '°' },
        {
          symbol: 'Z′α',
          name: 'resistance along the load',
          value: combinedResistance(v.withdrawal, v.lateral, angle),
          unit: 'N',
        },
      ],
      limit: { value: 1, unit: '', why: 'all it may take' },
    };
  },
});

export const INTERACTION_CALCULATORS: readonly AnyCalculator[] = [shareOfFixing, shareOfScrew];
