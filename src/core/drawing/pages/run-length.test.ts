import { expect, test } from 'vitest';
import type { Units } from '../../plan/index.ts';
import { inch } from '../../quantity/index.ts';
import { letteringOf } from '../lettering.ts';
import { runLength } from './run-length.ts';

test.each<[Units['length'], number, string]>([
  ['mm', 21645.2, '21.7\u00a0m'],
  ['mm', 5000, '5\u00a0m'],
  ['mm', 4999, '4999\u00a0mm'],
  ['m', 11884.5, '11.9\u00a0m'],
  ['ft-in', inch(556), '46′ 4″'],
])('in %s %d mm of what comes in rolls are told as %s', (length, mm, told) =>
  expect(runLength(letteringOf({ length, currency: 'EUR' }), mm)).toBe(told),
);
