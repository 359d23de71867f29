import { expect, it } from 'vitest';
import { parseMoney } from '../core/quantity/index.ts';
import { forBook } from './price-rows.ts';

// the platform knows some of these without decimals, as they are paid in cash: a price read back by its table was a hundred times too high
it.each(['EUR', 'JPY', 'HUF', 'COP', 'IDR', 'KWD', 'CLF'])(
  'a price in %s comes back from the book as it went in',
  (currency) => {
    const row = { stock: 'ply', size: '', supplier: '', price: 123_400, date: '2026-05-04' };
    const [booked] = forBook(row, currency);
    expect(parseMoney(booked!.price, currency)).toEqual({ ok: true, value: 123_400 });
  },
);
it('a price that is not known does not go into the book', () =>
  expect(forBook({ stock: 'ply', size: '', supplier: '', price: undefined, date: undefined }, 'EUR')).toEqual([]));
