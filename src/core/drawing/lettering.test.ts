import { expect, test } from 'vitest';
import type { Units } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import { letteringOf } from './lettering.ts';

test.each<[Omit<Units, 'currency'>, number, string]>([
  [{ length: 'ft-in', fraction: '1/16' }, inch(3 / 32), '3⁄32″'],
  [{ length: 'ft-in', fraction: '1/128' }, inch(9 / 128), '9⁄128″'],
  [{ length: 'ft-in' }, inch(1 / 8), '1⁄8″'],
  [{ length: 'ft-in' }, inch(5 / 64), '5⁄64″'],
  [{ length: 'in', decimals: 2 }, inch(1 / 8), '0.125″'],
  [{ length: 'mm', decimals: 0 }, 3.2, '3.2\u00a0mm'],
  [{ length: 'mm' }, 2.8, '2.8\u00a0mm'],
  [{ length: 'cm', decimals: 1 }, 2.8, '0.28\u00a0cm'],
  [{ length: 'm' }, 2.8, '0.0028\u00a0m'],
  [{ length: 'm', decimals: 2 }, 2.8, '0.0028\u00a0m'],
])('%j: what a blade of %d mm takes is told as %s', (units, kerf, told) =>
  expect(letteringOf({ ...units, currency: 'EUR' }).blade(kerf)).toBe(told),
);

// a sheet of 18 mm is no 0 m thick, and one of 17.7 no 1.8 cm
test.each<[Omit<Units, 'currency'>, number, string]>([
  [{ length: 'mm' }, 17.7, '17.7'],
  [{ length: 'mm', decimals: 0 }, 17.7, '17.7'],
  [{ length: 'cm' }, 17.7, '1.77'],
  [{ length: 'cm', decimals: 1 }, 6.4, '0.64'],
  [{ length: 'm' }, 18, '0.018'],
  [{ length: 'm', decimals: 2 }, 17.7, '0.0177'],
  [{ length: 'in', decimals: 2 }, inch(0.703), '0.703″'],
])('%j: a panel of %d mm is told as %s thick', (units, thick, told) =>
  expect(letteringOf({ ...units, currency: 'EUR' }).thickness(thick)).toBe(told),
);

test.each<[Units['length'], number, string]>([
  ['mm', 0.0251, '0.03\u00a0kg'],
  ['mm', 0.0501, '0.05\u00a0kg'],
  ['mm', 0, '0\u00a0kg'],
  ['in', 0.0142, '0.03\u00a0lb'],
  ['in', 0.0454, '0.1\u00a0lb'],
])('in %s, %d kg are told as %s', (length, kg, told) =>
  expect(letteringOf({ length, currency: 'EUR' }).mass(kg).replace(' ', '\u00a0')).toBe(told),
);
