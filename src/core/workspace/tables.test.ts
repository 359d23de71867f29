import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { applyEdits, readPlan } from '../plan/index.ts';
import { currentPrices, isDay, priceEdits, readPrices, strangeTo, writePrices } from './prices.ts';
import type { NewPrice, NewTick, Price } from './protocol.ts';
import { farTooLong, readRack, writeRack } from './rack.ts';
import { readTable, writeTable } from './table.ts';
import { tickStates } from './ticks.ts';

const cell = fc
  .oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom('=1+1', "'quoted", '+49', '-3', '@a', 'a,b', 'a;b', 'a"b', 'two\nlines', "'=x", '3/4"'),
  )
  .map((text) => text.replace(/\r/g, '').trim());
/** What the book takes: one line, every letter of which can be seen. */
const seen = cell.map((text) => text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim());
const columns = ['stock', 'size', 'price'];
const rows = fc.array(fc.record({ stock: cell, size: cell, price: cell }), { maxLength: 8 });
const filled = (row: Record<string, string>) => Object.values(row).some((text) => text !== '');

describe('tables', () => {
  it('come back as they were written', () =>
    fc.assert(
      fc.property(rows, (list) => {
        const read = readTable(writeTable(columns, list), columns, columns);
        expect(read.ok && read.value.map((row) => row.cells)).toEqual(list.filter(filled));
      }),
      { numRuns: 1000 },
    ));

  // papaparse 5, a general-purpose CSV library, as the second reader (RFC 4180)
  it('are read by a general CSV library as they are by us', () =>
    fc.assert(
      fc.property(rows, (list) => {
        const text = writeTable(columns, list);
        const theirs = Papa.parse<Record<string, string>>(text, {
          header: true,
          delimiter: ',',
          skipEmptyLines: true,
        }).data;
        const ours = readTable(text, columns, columns);
        const plain = theirs.map((row) =>
          Object.fromEntries(Object.entries(row).map(([k, v]) => [k, v.replace(/^'(?='*[=+\-@\t\r])/, '')])),
        );
        expect(ours.ok && ours.value.map((row) => row.cells)).toEqual(plain.filter(filled));
      }),
      { numRuns: 500 },
    ));
  it.each([',', ';', '\t'])('read what a general CSV library writes with %j between', (delimiter) =>
    fc.assert(
      fc.property(rows, (list) => {
        fc.pre(list.length > 0);
        const text = Papa.unparse(list, { columns, delimiter, newline: '\r\n' });
        const read = readTable(text, columns, columns);
        const bare = (row: Record<string, string>) =>
          Object.fromEntries(Object.entries(row).map(([k, v]) => [k, v.replace(/^'(?='*[=+\-@\t\r])/, '')]));
        expect(read.ok && read.value.map((row) => row.cells)).toEqual(list.map(bare).filter(filled));
      }),
    ),
  );
  // OWASP, CSV Injection: cells that begin with = + - @, a tab or a carriage return
  it.each(['=', '+', '-', '@', '\t', '\r'])('defuse a cell that begins with %j', (mark) =>
    expect(writeTable(['a'], [{ a: `${mark}cmd` }]).split('\r\n')[1]).toMatch(/^"?'/),
  );
  it.each([
    ['', 'the table is empty'],
    ['stock\nply\n', "the column 'price' is missing"],
    ['stock,prise,price\n', 'there is no such column'],
    ['panel\t8 ft\t84,50\ndrawer panel\t\t66\n', 'the first row does not name the columns'],
    ['stock,stock,price\n', 'a column is there twice'],
    ['stock,price\n"ply,3\n', 'a quotation mark is opened here and never closed'],
    ['stock,price\nch\ufffdne,3\n', 'a letter here is not UTF-8, and was lost on the way in'],
    ['stock,price\na,b,c\n', 'the row has more cells than there are columns'],
    [`stock,price\n${'a,1\n'.repeat(5001)}`, 'the table has too many rows'],
    [`stock,price\n${'x'.repeat(501)},1`, 'a cell is too long'],
  ])('are refused whole: %j', (text, message) => {
    const read = readTable(text, columns, ['stock', 'price']);
    expect(read.ok ? [] : read.issues.map((issue) => issue.message)).toContain(message);
  });
  it('name the line of what is wrong', () => {
    const read = readTable('price,stock\r\n"1\n2",a\r\n\r\n4,b,c\r\n', columns, []);
    expect(!read.ok && read.issues[0]!.place).toEqual({ line: 5, column: 1 });
  });
});

const PLAN = `setwright: 1
units: {length: ft-in, currency: USD}
room: {ceiling: 8', walls: [{id: n, length: 12'}, {id: e, length: 10'}, {id: s, length: 12'}, {id: w, length: 10'}]}
stock:
  suppliers: [{id: yard}]
  panels:
    - {id: ply, thickness: 0.7", sizes: [{length: 96", width: 48", price: 60, supplier: yard, date: 2026-01-05}, {length: 48", width: 48"}]}
  boards:
    - {id: oak, nominal: 1x2, species: northern red oak, lengths: [{length: 8', price: 9, supplier: yard, date: 2026-01-05}]}
  packs:
    - {id: glue, use: glue, holds: 16 fl oz, price: 8}
  rack: [{id: left, stock: ply, length: 30", width: 15-3/4", where: "by the saw, left"}, {stock: oak, length: 52", count: 2}]
options: [{id: a}]
`;
const planOf = (text: string) => {
  const { plan, issues } = readPlan(text);
  if (!plan) throw new Error(JSON.stringify(issues));
  return plan;
};

describe('the rack as a table', () => {
  it('holds no offcut that is more than twice as long as what is sold, typed or read', () => {
    const plan = planOf(PLAN);
    const said = (stock: string, length: string) => farTooLong(plan, stock, length)?.message;
    expect(said('ply', '193"')).toBe('this is more than 2 times as long as any that is sold');
    expect([said('ply', '191"'), said('oak', `15'`), said('ply', 'abc'), said('none', '193"')]).toEqual(
      Array(4).fill(undefined),
    );
    expect(said('oak', '1200')).toBeDefined();
    const read = readRack('stock,length,width\nply,193,20\n', plan);
    expect(!read.ok && read.issues).toEqual([{ ...farTooLong(plan, 'ply', '193'), place: { line: 2, column: 1 } }]);
  });
  it('comes back into the plan as it was', () => {
    const plan = planOf(PLAN);
    const edits = readRack(writeRack(plan), plan);
    const text = applyEdits(PLAN, edits.ok ? edits.value : []);
    expect(edits.ok && text.ok && planOf(text.value.text).stock.rack).toEqual(plan.stock.rack);
  });
  it('is refused where a piece is far larger than any that is sold: the table is in another unit', () => {
    const list = 'stock,length,width\nply,1100,400\noak,500\nply,100,50\noak,110\n';
    const read = readRack(list, planOf(PLAN));
    expect(!read.ok && read.issues.map(({ place, path, expected }) => [place?.line, path[0], expected])).toEqual([
      [2, 'length', 'lengths in in, or with their unit'],
      [3, 'length', 'lengths in in, or with their unit'],
    ]);
  });
  it('is refused where the plan has no such stock or the length is none', () => {
    const read = readRack('stock,length,width\nply,30",\nbeech,4,4\nply,x,3\n', planOf(PLAN));
    expect(!read.ok && read.issues.map(({ place, path }) => [place?.line, path[0]])).toEqual([
      [2, 'width'],
      [3, 'stock'],
      [4, 'length'],
    ]);
  });
});

const price = (changes: Partial<Price>): Price => ({
  id: 'p1',
  number: 1,
  stock: 'ply',
  size: `4' x 8'`,
  supplier: 'yard',
  price: '64.50',
  currency: 'USD',
  date: '2026-03-01',
  recorded: '2026-03-01T08:00:00.000Z',
  by: 'this machine',
  ...changes,
});

describe('prices', () => {
  it('come back from their table, each with the same id whenever it is read', () =>
    fc.assert(
      fc.property(
        fc.array(fc.record({ stock: seen.filter((s) => s !== ''), cents: fc.nat(1e6), remark: seen }), {
          minLength: 1,
          maxLength: 5,
        }),
        (list) => {
          const prices = list.map(
            ({ stock, cents, remark }, i): NewPrice => ({
              id: `${i}`,
              stock,
              size: '',
              supplier: '',
              price: (cents / 100).toFixed(2),
              currency: 'USD',
              date: '2026-02-28',
              ...(remark && { remark }),
            }),
          );
          const csv = writePrices(prices);
          const read = readPrices(csv, { currency: 'EUR', date: '2020-01-01' });
          expect(read.ok && read.value.map(({ id, ...rest }) => rest)).toEqual(prices.map(({ id, ...rest }) => rest));
          expect(readPrices(csv, { currency: 'EUR', date: '2020-01-01' })).toEqual(read);
        },
      ),
    ));
  it('pasted from a spreadsheet take the day and the currency they are given', () => {
    const read = readPrices('Stock\tPrice\nply\t64.50\n', { currency: 'USD', date: '2026-04-01' });
    expect(read).toMatchObject({
      ok: true,
      value: [{ stock: 'ply', price: '64.50', currency: 'USD', date: '2026-04-01' }],
    });
  });
  it('pasted where commas are decimal have their days as written there', () => {
    const csv = 'Stock;Size;Price;Date\nply;2,5 m × 1,25 m;62,40;5.11.2026\n';
    const read = readPrices(csv, { currency: 'EUR', date: '2026-04-01' });
    expect(read).toMatchObject({ ok: true, value: [{ size: '2,5 m × 1,25 m', price: '62,40', date: '2026-11-05' }] });
  });
  it('whose cells are broken into lines are of things with one-line names', () => {
    const csv = 'stock,price,remark\r\n"birch\r\n3/4",64.50,"one\n\ntwo"\r\n';
    const read = readPrices(csv, { currency: 'USD', date: '2026-04-01' });
    expect(read).toMatchObject({ ok: true, value: [{ stock: 'birch 3/4', remark: 'one two' }] });
  });
  it.each([
    ['ply,-3', 'price'],
    ['ply,abc', 'price'],
    [',3', 'stock'],
    ['ply,3,2026-02-29', 'date'],
    ['ply,3,29.02.2026', 'date'],
    ['ply,3,5/11/2026', 'date'],
    ['p\u0007ly,3', 'stock'],
  ])('are refused: %s', (row, path) => {
    const read = readPrices(`stock,price,date\n${row}\n`, { currency: 'USD', date: '2026-04-01' });
    expect(!read.ok && read.issues[0]!.path).toEqual([path]);
  });
  it('hold from their day until a later one, and not once withdrawn', () => {
    const book = [
      price({ id: 'a', number: 1, date: '2026-01-01', price: '60' }),
      price({ id: 'b', number: 2, date: '2026-03-01', price: '64' }),
      price({ id: 'c', number: 3, date: '2026-02-01', price: '62' }),
      price({ id: 'd', number: 4, date: '2026-12-01', price: '70' }),
      price({ id: 'b', number: 5, date: '2026-03-01', price: '64', withdrawn: true }),
    ];
    expect(currentPrices(book, '2026-06-01').map((p) => p.id)).toEqual(['c']);
    expect(currentPrices(book, '2026-12-31').map((p) => p.id)).toEqual(['d']);
    expect(currentPrices(book, '2025-12-31')).toEqual([]);
  });
  it('of a later day go into the plan, where size, supplier and currency agree', () => {
    const plan = planOf(PLAN);
    const book = [
      price({}),
      price({ id: 'p2', number: 2, stock: 'oak', size: '96"', price: '9.75' }),
      price({ id: 'p3', number: 3, stock: 'glue', size: '', supplier: '', price: '8.49' }),
      price({ id: 'p4', number: 4, stock: 'ply', size: `48" × 48"`, supplier: 'else', price: '1' }),
      price({ id: 'p5', number: 5, currency: 'EUR', date: '2026-05-01', price: '2' }),
      price({ id: 'p6', number: 6, date: '2027-01-01', price: '3' }),
    ];
    const text = applyEdits(PLAN, priceEdits(plan, book, '2026-06-01'));
    const { panels, boards, packs } = planOf(text.ok ? text.value.text : '').stock;
    expect(panels[0]!.sizes.map(({ price, date }) => [price, date])).toEqual([
      [6450, '2026-03-01'],
      [undefined, undefined],
    ]);
    expect(boards[0]!.lengths[0]).toMatchObject({ price: 975, date: '2026-03-01' });
    expect(packs[0]).toMatchObject({ price: 849, date: '2026-03-01' });
    expect(text.ok && priceEdits(planOf(text.value.text), book, '2026-06-01')).toEqual([]);
  });
  it('go into the plan by the name of a stock or a supplier too, where one alone has it; a pack by what it holds', () => {
    const named = PLAN.replace('id: glue,', 'id: glue, name: Yellow wood glue,').replace(
      'packs:',
      'packs:\n    - {id: s1, use: screw, name: screws, holds: 200}\n    - {id: s2, use: front screw, name: screws, holds: 100}',
    );
    const plan = planOf(named);
    const of = (stock: string, size: string) => price({ stock, size, supplier: '', price: '8.49' });
    const paths = (one: Price) =>
      priceEdits(plan, [one], '2026-06-01').map((edit) => 'path' in edit && edit.path.join('.'));
    const glue = ['stock.packs.2.price', 'stock.packs.2.date'];
    expect(paths(of('yellow Wood Glue', ''))).toEqual(glue);
    expect(paths(of('glue', `${plan.stock.packs[2]!.holds}`))).toEqual(glue);
    expect(paths(of('s1', 'pack of 200'))).toEqual(['stock.packs.0.price', 'stock.packs.0.date']);
    expect(paths(of('s1', 'pack of 100'))).toEqual([]);
    // two are called so
    expect(paths(of('screws', ''))).toEqual([]);
    expect(strangeTo(plan, [of('glue', ''), of('screws', ''), of('Yellow wood glue', ''), of('nails', '')])).toEqual([
      'screws',
      'nails',
    ]);
  });
  it('know the days of the calendar as the platform does', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 1600, max: 2600 }),
        fc.integer({ min: 0, max: 14 }),
        fc.integer({ min: 0, max: 33 }),
        (y, m, d) => {
          const text = `${y}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
          const date = new Date(`${text}T00:00:00Z`);
          expect(isDay(text)).toBe(!Number.isNaN(date.getTime()) && date.toISOString().startsWith(text));
        },
      ),
      { numRuns: 1000 },
    ));
});

describe('tickStates', () => {
  const ticks = fc.uniqueArray(
    fc.record({
      id: fc.uuid(),
      about: fc.constantFrom('a', 'b', 'c'),
      done: fc.boolean(),
      at: fc.integer({ min: 0, max: 5 }).map((s) => `2026-05-01T10:00:0${s}.000Z`),
    }),
    { selector: (tick) => tick.id, maxLength: 12 },
  );
  const states = (list: readonly NewTick[]) => [...tickStates(list)].sort(([a], [b]) => a.localeCompare(b));
  it('does not depend on the order in which ticks arrive, nor on how often', () =>
    fc.assert(
      fc.property(ticks, fc.array(fc.nat()), (list, turns) => {
        const order = list
          .map((tick, i) => ({ tick, key: turns[i] ?? i }))
          .sort((a, b) => a.key - b.key)
          .map(({ tick }) => tick);
        expect(states([...order, ...order.slice(0, 3)])).toEqual(states(list));
      }),
    ));
  it('lets the last tap win, in whatever zone its time is written', () =>
    expect(
      tickStates([
        { id: '2', about: 'a', done: true, at: '2026-05-01T12:00:00+02:00' },
        { id: '1', about: 'a', done: false, at: '2026-05-01T10:00:01Z' },
      ]).get('a')?.done,
    ).toBe(false));
});
