import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatLength, type LengthUnit, parseLength, unbroken } from './index.ts';

it.each([
  [`3' 4-1/2" of 6 mm and 12.5 kg`, `3'\u00a04-\u20601/2" of 6\u00a0mm and 12.5\u00a0kg`],
  ['4 more, 3 inside, 10 mms', '4 more, 3 inside, 10 mms'],
  ['on Guest: ΔE00 11.0', 'on Guest: ΔE00\u00a011.0'],
  ['at 45 % it is 1 of 12 of a kind', 'at 45\u00a0% it is 1\u00a0of\u00a012 of a kind'],
  ['2 to 3 m, case-2', '2 to 3\u00a0m, case-2'],
])('%s breaks only between its words', (text, shown) => expect(unbroken(text)).toBe(shown));

it('a length that was copied from a page reads as the same', () =>
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1e6 }), fc.constantFrom<LengthUnit>('ft-in', 'in', 'mm', 'm'), (n, unit) => {
      const text = formatLength(n / 64, { unit });
      expect(parseLength(unbroken(text), { unit })).toEqual(parseLength(text, { unit }));
    }),
  ));
