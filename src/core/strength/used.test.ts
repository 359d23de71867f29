import { expect, it } from 'vitest';
import { usedWords } from './used.ts';

it.each([
  [0, '0 %'],
  [0.994, '99 %'],
  [0.996, '100 %'],
  [1, '100 %'],
  [1.001, '101 %'],
  [1.42, '142 %'],
  [Number.POSITIVE_INFINITY, 'more than all'],
])('what asks %s of what there is, is told so that it reads as it is judged', (use, words) =>
  expect(usedWords(use)).toBe(words),
);
