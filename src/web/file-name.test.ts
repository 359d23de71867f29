import { expect, it } from 'vitest';
import { fileName } from './file-name.ts';

it.each([
  ['Flur & Bücher', [], 'flur-bucher.plan.yaml'],
  ['../\n:', [], 'plan.plan.yaml'],
  ['Flur', ['flur.plan.yaml', 'Flur-2.plan.yaml'], 'flur-3.plan.yaml'],
])('calls the file of %j, beside %j, %s', (title, taken, name) => {
  expect(fileName(title, taken)).toBe(name);
});
