import { expect, it } from 'vitest';
import type { Units } from '../core/plan/index.ts';
import { bareLength } from './bare-length.ts';

it.each<[Units['length'], string, string | undefined]>([
  ['ft-in', '12', '= 1\' 0"'],
  ['ft-in', '40 1/2', '= 3\' 4-1/2"'],
  ['in', '12', '= 12"'],
  ['mm', '900', '= 900 mm'],
  ['m', '0,9', '= 0.9 m'],
  // its unit is plain to see
  ['ft-in', "12'", undefined],
  ['ft-in', '3 ft 4', undefined],
  ['mm', '12"', undefined],
  // what cannot be read is told when it is to be kept
  ['ft-in', '3 4', undefined],
  ['mm', '1,029', undefined],
  ['mm', '', undefined],
])('in %s %s is understood as %s', (length, text, said) =>
  expect(bareLength({ length, currency: 'USD' }, text)).toBe(said),
);
