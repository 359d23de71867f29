import { expect, it } from 'vitest';
import { area } from '../draw.ts';
import { namePlaces } from './name-in.ts';

const NAME = 'Hung case by the kiln, on the left of the harbour window';

it('a long name over something narrow is whole', () => {
  for (const { words } of namePlaces({ words: NAME, at: area(50, 50, 14, 20) })) {
    expect(words.join(' ')).toBe(NAME);
    expect(words.length).toBeLessThanOrEqual(3);
  }
});

it('a name that may only stand inside says where it is cut short', () => {
  const places = namePlaces({ words: NAME, at: area(50, 50, 14, 20), inside: true });
  expect(places.length).toBeGreaterThan(0);
  for (const { words } of places) expect(words.at(-1)).toMatch(/…$/);
});
