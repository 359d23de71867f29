import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Money } from '../quantity/index.ts';
import { ageOf, dayNumber, type Offer, offersOf, priceNotes, taxOn } from './prices.ts';
import { stockPlan } from './stock.testing.ts';

describe('days', () => {
  // The platform's own calendar, which shares no code with ours (ECMA-262, Date.UTC).
  it('counts days as the platform does, over five thousand years', () => {
    fc.assert(
      fc.property(fc.integer({ min: -354_285, max: 2_932_896 }), (days) => {
        const date = new Date(days * 86_400_000).toISOString().slice(0, 10);
        expect(dayNumber(date)).toBe(days);
      }),
      { numRuns: 5000 },
    );
  });
  it.each(['2026-2-03', '26-02-03', 'today', ''])('refuses %s', (text) => {
    expect(() => dayNumber(text)).toThrow(RangeError);
  });
});

describe('tax', () => {
  it.each([
    { net: 58_597, percent: 8.25, tax: 4834 }, // 4834.2525
    { net: 100, percent: 19, tax: 19 },
    { net: 50, percent: 1, tax: 1 }, // half a unit upwards
    { net: 49, percent: 1, tax: 0 },
    { net: 10_000, percent: 7.0001, tax: 700 },
    { net: 123, percent: 0, tax: 0 },
  ])('on $net at $percent %', ({ net, percent, tax }) => {
    expect(taxOn(net, percent)).toBe(tax);
  });
  it('is the nearest whole unit, never further off than half', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e12 }), fc.integer({ min: 0, max: 1_000_000 }), (net, rate) => {
        const off = BigInt(taxOn(net, rate / 10_000)) * 1_000_000n - BigInt(net) * BigInt(rate);
        expect(off > -500_000n && off <= 500_000n).toBe(true);
      }),
    );
  });
});

describe('notes about prices', () => {
  const { stock } = stockPlan({ stock: { stale: 90, suppliers: [{ id: 'mill' }] } });
  const offer = (more: Partial<Offer>): Offer => ({ id: 'ply#1', stock: 'ply', kind: 'panel', name: 'ply', ...more });
  const price = 4800 as Money;
  it.each([
    { offer: offer({ price, date: '2026-11-01' }), ids: [] },
    { offer: offer({ price, date: '2026-08-27' }), ids: [] }, // 90 days
    { offer: offer({ price, date: '2026-08-26' }), ids: ['old-price:ply#1'] }, // 91
    { offer: offer({ price, date: '2026-11-26' }), ids: ['old-price:ply#1'] }, // tomorrow
    { offer: offer({ price }), ids: ['undated-price:ply#1'] },
    { offer: offer({ date: '2026-11-01' }), ids: ['no-price:ply#1'] },
    { offer: offer({}), ids: ['no-price:ply#1'] },
  ])('$ids', ({ offer: o, ids }) => {
    expect(priceNotes([o], stock, '2026-11-25', String).map((n) => n.id)).toEqual(ids);
  });
  it('tells two sizes of one stock apart by what they measure', () => {
    const [long, short] = [2440, 1220].map((length, k) => offer({ id: `ply#${k + 1}`, price, length, width: 1220 }));
    const titles = (...offers: readonly Offer[]) =>
      priceNotes(offers, stock, '2026-11-25', (mm) => `${mm} mm`).map((n) => n.title);
    expect(titles(long!, short!)).toEqual([
      'The price of ply (2440 mm × 1220 mm) has no date',
      'The price of ply (1220 mm × 1220 mm) has no date',
    ]);
    expect(titles(long!)).toEqual(['The price of ply has no date']);
  });
  it('tells many missing prices in one note that names each', () => {
    const bare = ['ply', 'mdf', 'glue'].map((id) => offer({ id: `${id}#1`, stock: id, name: id }));
    const notes = priceNotes(bare, stock, '2026-11-25', String);
    expect(notes.map((n) => n.id)).toEqual(['no-prices']);
    for (const { name } of bare) expect(notes[0]!.advice).toContain(name);
    expect(priceNotes(bare.slice(1), stock, '2026-11-25', String).map((n) => n.id)).toEqual([
      'no-price:mdf#1',
      'no-price:glue#1',
    ]);
  });
  it('knows the age of a price', () => {
    expect(ageOf(offer({ date: '2025-11-25' }), '2026-11-25')).toBe(365);
    expect(ageOf(offer({}), '2026-11-25')).toBeUndefined();
  });
});

it('lists every size of a stock as one offer, with nothing made up', () => {
  const { stock } = stockPlan({
    stock: {
      panels: [
        {
          id: 'ply',
          thickness: 18,
          sizes: [
            { length: 2440, width: 1220, price: '48.00', supplier: 'mill', date: '2026-11-01' },
            { length: 1220, width: 1220, count: 2 },
          ],
        },
      ],
      packs: [{ id: 'glue', use: 'glue', price: 5 }],
    },
  });
  expect(offersOf(stock, 'ply')).toEqual([
    {
      id: 'ply#1',
      stock: 'ply',
      kind: 'panel',
      name: 'ply',
      length: 2440,
      width: 1220,
      price: 4800,
      supplier: 'mill',
      date: '2026-11-01',
    },
    { id: 'ply#2', stock: 'ply', kind: 'panel', name: 'ply', length: 1220, width: 1220, count: 2 },
  ]);
  expect(offersOf(stock, 'glue').map((o) => o.price)).toEqual([500]);
  expect(offersOf(stock, 'nothing')).toEqual([]);
});
