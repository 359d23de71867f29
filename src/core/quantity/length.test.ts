import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../issue/index.ts';
import { formatLength, formatSold, type LengthFormat, type LengthUnit, parseLength, roundly } from './length.ts';
import { fromTicks, TICKS_PER_MM } from './units.ts';

const read = (text: string | number, unit: LengthUnit = 'ft-in'): number => {
  const result = parseLength(text, { unit });
  if (!result.ok) throw new Error(result.issues.map(explain).join('; '));
  return result.value;
};
const refusal = (text: string | number, unit: LengthUnit = 'ft-in'): string => {
  const result = parseLength(text, { unit });
  return result.ok ? `read as ${result.value} mm` : result.issues.map(explain).join('; ');
};

describe('reading feet and inches', () => {
  // 3' 4-1/2" is 40.5 in is 1028.7 mm, by 25.4 mm to the inch: NIST SP 811 (2008), appendix B.8, "inch"
  it.each([
    `3' 4-1/2"`,
    `3'4½`,
    `3'4½"`,
    `3' 4 1/2"`,
    `3'-4 1/2"`,
    `3' - 4-1/2"`,
    `3'-4-1/2"`,
    `3 ft 4 1/2 in`,
    `3ft4-1/2in`,
    `3ft 4.5in`,
    `3 FT. 4-1/2 IN.`,
    `3 feet 4 1/2 inches`,
    `3 foot, 4 1/2 inches`,
    `40 1/2`,
    `40-1/2`,
    `40½`,
    `40 ½`,
    `40-½`,
    `40.5`,
    `40,5`,
    `40.5"`,
    `40 1/2''`,
    `40 1⁄2″`,
    `3′ 4½″`,
    `3’ 4½”`,
    `3‘ 4-1/2“`,
    `3´4 1/2´´`,
    ` 3'  4\u00a01/2" `,
    `3'\u20094\u20091⁄2″`,
    `+40.5`,
    `3.375'`,
    `3 3/8 ft`,
    `3' 4-2/4"`,
    `3'4 1/2''`,
    `1028.7 mm`,
    `1028,7mm`,
    `102.87 cm`,
    `102,87 cm`,
    `1.0287 m`,
    `1 m 2.87 cm`,
    `1 m 28.7 mm`,
    `1 m 2 cm 8.7 mm`,
    `1,0287 m`,
    `1,028.7 mm`,
    `1.028,7 mm`,
  ])('%s', (text) => expect(read(text)).toBe(1028.7));

  it.each<[string | number, LengthUnit, number]>([
    [`½`, 'ft-in', 12.7],
    [`⅜`, 'in', 9.525],
    [`11⁄16`, 'in', 17.4625],
    [`11/16 "`, 'mm', 17.4625],
    [`5/8"`, 'mm', 15.875],
    [`9/8`, 'in', 28.575],
    [`0'`, 'ft-in', 0],
    [`3'`, 'ft-in', 914.4],
    [`3' 0"`, 'ft-in', 914.4],
    [`-3' 4-1/2"`, 'ft-in', -1028.7],
    [`−½"`, 'ft-in', -12.7],
    [`- 5 mm`, 'mm', -5],
    [`-0`, 'mm', 0],
    [`1029`, 'mm', 1029],
    [1029, 'mm', 1029],
    [102.9, 'cm', 1029],
    [1.03, 'm', 1030],
    [40.5, 'in', 1028.7],
    [40.5, 'ft-in', 1028.7],
    [-12, 'mm', -12],
    [1e-7, 'mm', 0],
    [`1.03 m`, 'in', 1030],
    [`1 m 20 cm`, 'in', 1200],
    [`1m20cm`, 'mm', 1200],
    [`12 cm 5 mm`, 'mm', 125],
    [`1/2 m`, 'mm', 500],
    [`0,5 m`, 'mm', 500],
    [`12,75 mm`, 'mm', 12.75],
    [`0,125 m`, 'mm', 125],
    [`1029,125 mm`, 'mm', 1029.125],
    [`,5 m`, 'mm', 500],
    [`.5 m`, 'mm', 500],
    [`5 Millimetres`, 'in', 5],
    [`2 meters`, 'in', 2000],
    [`1,234,567 mm`, 'mm', 1234567],
  ])('%s with %s as the plain unit is %d mm', (text, unit, value) => expect(read(text, unit)).toBe(value));

  // half a unit of the printed last digit. NIST SP 811 (2008), appendix B.8: foot 3.048 E-01 m, inch 2.54 E+00 cm
  it.each([
    ['1 ft', 304.8],
    ['1 in', 25.4],
    ['1 cm', 10],
    ['1 m', 1000],
  ])('%s is exactly %d mm', (text, value) => expect(read(text)).toBe(value));

  it('keeps the nearest tick of what no tick holds', () => {
    expect(read('0.703"') * TICKS_PER_MM).toBe(Math.round(0.703 * 16256));
    expect(read('1/3"') * TICKS_PER_MM).toBe(5419);
    expect(Math.abs(read('0.703"') - 0.703 * 25.4)).toBeLessThanOrEqual(0.5 / TICKS_PER_MM);
  });
});

describe('refusing', () => {
  it.each<[string | number, RegExp]>([
    ['', /nothing/],
    ['   ', /nothing/],
    ['-', /only a sign/],
    ['about 3 ft', /no number/],
    ['3 4', /side by side.*3' 4"/],
    ['3 4 1/2', /side by side/],
    ['1 029 mm', /side by side, as two numbers or as thousands.*1029 without the space/],
    ['1 234 567', /1234567 without the space/],
    ['1/0', /over nothing/],
    ['3 1/0"', /over nothing/],
    ['5-6 mm', /range or a subtraction/],
    ['5 mm - 6 mm', /range or a subtraction/],
    ['5 - 6', /range or a subtraction/],
    ['40 - 1/2', /subtraction.*40-1\/2/],
    ['40 -1/2', /subtraction/],
    [`3' -4"`, /minus/],
    [`3'-`, /nothing follows/],
    [`3' 14"`, /12 or more/],
    [`3' 12"`, /12 or more/],
    [`3.5' 6"`, /not whole/],
    [`3 1/2' 6"`, /not whole/],
    ['1 m 120 cm', /100 or more/],
    ['1.5 m 20 cm', /not whole/],
    ['1 m 20', /no unit/],
    ['1 cm 1 m', /cannot follow/],
    [`3' 4'`, /cannot follow/],
    [`3" 4"`, /cannot follow/],
    [`3' 4 cm`, /cannot follow/],
    ['1.2.3', /not a number/],
    ['1..2', /not a number/],
    ['3.', /not a number/],
    ['.', /not a number/],
    [',', /not a number/],
    ['1,02,9 mm', /not a number/],
    ['1,029 mm', /1029 or 1\.029/],
    ['401/2', /40-1\/2 run together/],
    ['111⁄16', /1-11\/16 run together/],
    ['1/2/3', /not one number/],
    ['½½', /not one number/],
    ['40.5 1/2', /side by side/],
    ['40 5/4', /not less than one/],
    ['3 furlongs', /not a unit/],
    ['3 inchs', /did you mean inch/],
    ['3 mmm', /did you mean mm/],
    ['1e3', /not a unit/],
    ['0x10', /not a unit/],
    ['--3', /no number/],
    ['+-3', /no number/],
    ['(3)', /no number/],
    ['3" long', /no number/],
    ['3 × 4', /not understood/],
    ['3 *', /not understood/],
    ['11 km', /not a unit/],
    ['100000 m', /10 km/],
    [Number.NaN, /no length/],
    [Number.POSITIVE_INFINITY, /no length/],
    [1e300, /no length/],
    [1e20, /10 km/],
    ['9'.repeat(500), /too long/],
  ])('%s', (text, why) => expect(refusal(text)).toMatch(why));

  it('says what was found and what would do', () => {
    expect(parseLength('1,029 mm', { unit: 'mm' })).toEqual({
      ok: false,
      issues: [
        {
          path: [],
          message: '1,029 could be 1029 or 1.029',
          found: `'1,029 mm'`,
          expected: '1029 or 1.029, written without the comma',
        },
      ],
    });
  });

  it('never throws, and reads nothing but whole ticks', () =>
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...`0123456789 .,-/'"½⅜⁄mcftin`) }), fc.double()),
        fc.constantFrom<LengthUnit>('ft-in', 'in', 'mm', 'cm', 'm'),
        (text, unit) => {
          const result = parseLength(text, { unit });
          if (result.ok) expect(result.value).toBe(fromTicks(Math.round(result.value * TICKS_PER_MM)));
          else for (const issue of result.issues) expect(issue.message.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 2000 },
    ));
});

describe('printing', () => {
  it.each<[number, LengthFormat, string]>([
    [1028.7, { unit: 'ft-in' }, `3' 4-1/2"`],
    [1028.7, { unit: 'in' }, `40-1/2"`],
    [1028.7, { unit: 'in', decimals: 3 }, `40.5"`],
    [1028.7, { unit: 'ft-in', decimals: 2 }, `3' 4.5"`],
    [1028.7, { unit: 'mm' }, '1028.7 mm'],
    [1028.7, { unit: 'mm', decimals: 0 }, '1029 mm'],
    [1028.7, { unit: 'cm' }, '102.87 cm'],
    [1028.7, { unit: 'm' }, '1.0287 m'],
    [1028.7, { unit: 'm', decimals: 3 }, '1.029 m'],
    [1028.7, { unit: 'mm', bare: true }, '1028.7'],
    [1028.7, { unit: 'in', bare: true }, '40-1/2'],
    [1028.7, { unit: 'ft-in', glyphs: true }, '3′ 4\u20091⁄2″'],
    [-1028.7, { unit: 'in', glyphs: true }, '−40\u20091⁄2″'],
    [914.4, { unit: 'ft-in' }, `3' 0"`],
    [304.8 - 0.1, { unit: 'ft-in' }, `1' 0"`],
    [304.8 - 0.1, { unit: 'ft-in', fraction: '1/128' }, `11-127/128"`],
    [12.7, { unit: 'ft-in' }, `1/2"`],
    [0, { unit: 'ft-in' }, `0"`],
    [-0.1, { unit: 'ft-in' }, `0"`],
    [-0, { unit: 'mm' }, '0 mm'],
    [-0.04, { unit: 'mm' }, '0 mm'],
    [-12.7, { unit: 'in' }, `-1/2"`],
    [25.4 / 64, { unit: 'in' }, `1/32"`],
    [25.4 * 0.7, { unit: 'in', fraction: '1/16' }, `11/16"`],
    [25.4 * 0.703, { unit: 'in', decimals: 3 }, `0.703"`],
    [1029, { unit: 'mm', glyphs: true }, '1029\u00a0mm'],
    [0.05, { unit: 'mm' }, '0.1 mm'],
    [1000, { unit: 'mm', decimals: 2 }, '1000 mm'],
  ])('%d mm with %o', (length, format, text) => expect(formatLength(length, format)).toBe(text));

  it('refuses what it cannot print', () => {
    expect(() => formatLength(Number.NaN, { unit: 'mm' })).toThrow(/NaN/);
    expect(() => formatLength(1, { unit: 'in', fraction: '1/3' })).toThrow(/1\/3/);
    expect(() => formatLength(1, { unit: 'mm', decimals: 0.5 })).toThrow(/decimals/);
  });
});

const FRACTIONS = [1, 2, 4, 8, 16, 32, 64, 128] as const;
const anyFormat: fc.Arbitrary<LengthFormat> = fc.oneof(
  fc.record({
    unit: fc.constantFrom<LengthUnit>('ft-in', 'in'),
    fraction: fc.constantFrom(...FRACTIONS).map((n) => `1/${n}`),
    glyphs: fc.boolean(),
    bare: fc.boolean(),
  }),
  fc.record({
    unit: fc.constantFrom<LengthUnit>('ft-in', 'in', 'mm', 'cm', 'm'),
    decimals: fc.integer({ min: 0, max: 4 }),
    glyphs: fc.boolean(),
    bare: fc.boolean(),
  }),
);

describe('reading back what was printed', () => {
  const most = 1_000_000 * TICKS_PER_MM;
  const tapeMark = fc.oneof(
    fc.tuple(fc.constantFrom(...FRACTIONS), fc.integer({ min: -20000, max: 20000 })).map(([under, over]) => ({
      ticks: (over * 16256) / under,
      format: { unit: 'ft-in', fraction: `1/${under}` } satisfies LengthFormat,
    })),
    fc.integer({ min: -1e7, max: 1e7 }).map((n) => ({ ticks: n * 64, format: { unit: 'mm' } satisfies LengthFormat })),
    fc.integer({ min: -1e6, max: 1e6 }).map((n) => ({ ticks: n * 64, format: { unit: 'cm' } satisfies LengthFormat })),
    fc.integer({ min: -1e5, max: 1e5 }).map((n) => ({ ticks: n * 640, format: { unit: 'm' } satisfies LengthFormat })),
  );
  it('gives the same length when it is on the printed grid', () =>
    fc.assert(
      fc.property(tapeMark, fc.boolean(), fc.boolean(), ({ ticks, format }, glyphs, bare) => {
        const length = fromTicks(ticks);
        expect(read(formatLength(length, { ...format, glyphs, bare }), format.unit)).toBe(length + 0);
      }),
      { numRuns: 2000 },
    ));
  it('gives any kept length back from enough decimals', () =>
    fc.assert(
      fc.property(fc.integer({ min: -most, max: most }), (ticks) => {
        const length = fromTicks(ticks);
        expect(read(formatLength(length, { unit: 'mm', decimals: 4 }), 'mm')).toBe(length + 0);
      }),
    ));
  it('prints the same again', () =>
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), anyFormat, (length, format) => {
        const printed = formatLength(length, format);
        expect(formatLength(read(printed, format.unit), format)).toBe(printed);
      }),
      { numRuns: 3000 },
    ));
  it('is off by no more than half the printed grid', () =>
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), anyFormat, (length, format) => {
        const grid =
          'fraction' in format && format.fraction !== undefined
            ? 25.4 / Number(format.fraction.slice(2))
            : { 'ft-in': 25.4, in: 25.4, mm: 1, cm: 10, m: 1000 }[format.unit] / 10 ** (format.decimals ?? 0);
        const off = Math.abs(read(formatLength(length, format), format.unit) - length);
        // and half a tick, since what is read back is kept in ticks
        expect(off).toBeLessThanOrEqual(grid / 2 + 0.5 / TICKS_PER_MM + 1e-9);
      }),
    ));
});

describe('as it is sold', () => {
  it('hardware is told in the system that has it in round figures', () => {
    expect(formatSold(10, true)).toBe('10 mm');
    expect(formatSold(300, true)).toBe('300 mm');
    expect(formatSold(355.6, true)).toBe('14"');
    expect(formatSold(19.05, false)).toBe('3/4"');
    expect(formatSold(38.1, false)).toBe('38.1 mm');
    // no round figure in either: the plan's own
    expect(formatSold(4.826, false)).toBe('4.8 mm');
    expect(formatSold(4.826, true)).toBe('3/16"');
  });
});

describe('a figure of practice', () => {
  it('is round in the other system too', () => {
    expect(formatLength(roundly(50, 'at least', 'ft-in'), { unit: 'ft-in' })).toBe('2"');
    expect(formatLength(roundly(3000, 'at most', 'ft-in'), { unit: 'ft-in' })).toBe(`9' 10"`);
    expect(roundly(50, 'at least', 'mm')).toBe(50);
    expect(roundly(31.75, 'at least', 'mm')).toBe(32);
  });
  it('never leaves its safe side, and moves by three in a hundred at most', () =>
    fc.assert(
      fc.property(fc.double({ min: 3, max: 1e4, noNaN: true }), fc.constantFrom('ft-in', 'mm'), (length, unit) => {
        const [least, most] = [roundly(length, 'at least', unit), roundly(length, 'at most', unit)];
        expect(least).toBeGreaterThanOrEqual(length - 1e-5);
        expect(most).toBeLessThanOrEqual(length + 1e-5);
        for (const said of [least, most]) expect(Math.abs(said - length)).toBeLessThanOrEqual(0.03 * length);
      }),
    ));
});
