import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type NewTick, type Tick, tickStates } from '../core/workspace/index.ts';
import { NAME, PLAN, trial } from './server.testing.ts';
import { trials } from './trials.testing.ts';

const start = trials();
const tick = (id: string, about = 'part:scores.left', done = true, at = '2026-05-04T10:00:00.000Z'): NewTick => ({
  id,
  about,
  done,
  at,
});

describe('ticks', () => {
  it('grow a log that is read on from where one left off', async () => {
    const { ask } = await start();
    const first = await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick('a'), tick('b', 'part:scores.right')] });
    expect(first.status).toBe(200);
    expect(first.body.ticks).toMatchObject([{ number: 1, device: 'this machine' }, { number: 2 }]);
    await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick('c')] });
    const { body } = await ask('GET', `plans/${NAME}/ticks?after=${first.body.last}`);
    expect(body.ticks.map((t: Tick) => t.id)).toEqual(['c']);
    expect(body.last).toBe(3);
  });
  it('arriving twice are one, and what came first under an id stays', async () => {
    const { ask } = await start();
    await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick('a')] });
    const again = await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick('a', 'part:other', false), tick('b')] });
    expect(again.body.ticks).toMatchObject([{ id: 'a', about: 'part:scores.left', done: true }, { id: 'b' }]);
    expect((await ask('GET', `plans/${NAME}/ticks`)).body.ticks).toHaveLength(2);
  });
  it('of a clock that runs ahead count from when they arrived', async () => {
    const { ask } = await start();
    const { body } = await ask('POST', `plans/${NAME}/ticks`, {
      ticks: [tick('a', 'x', true, '2999-01-01T00:00:00+02:00')],
    });
    expect(Date.parse(body.ticks[0].at)).toBeLessThanOrEqual(Date.now());
  });
  it.each([-7, 7])(
    'of a clock that is %i hours off count from when they were tapped, by what it says as it sends',
    async (off) => {
      const { ask } = await start();
      const wrong = (secondsAgo: number) => new Date(Date.now() - secondsAgo * 1000 + off * 3_600_000).toISOString();
      const ticks = [tick('a', 'x', true, wrong(600)), tick('b', 'y', true, wrong(30))];
      const { body } = await ask('POST', `plans/${NAME}/ticks`, { ticks, sent: wrong(0) });
      const ago = body.ticks.map(({ at }: Tick) => (Date.now() - Date.parse(at)) / 1000);
      expect(ago[0]).toBeCloseTo(600, -1);
      expect(ago[1]).toBeCloseTo(30, -1);
    },
  );
  it('of a clock that is right, sent over a bad line, are not moved by how long that took', async () => {
    const { ask } = await start();
    const at = new Date(Date.now() - 50_000).toISOString();
    const { body } = await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick('a', 'x', true, at)], sent: at });
    expect(body.ticks[0].at).toBe(at);
  });
  it('of a clock that runs ahead stay in the order of the taps', async () => {
    const { ask } = await start();
    const ahead = (s: number) => new Date(Date.now() + 3_600_000 + s * 1000).toISOString();
    for (let round = 0; round < 5; round++) {
      const ticks = [3, 1, 2, 0].map((s) => tick(`${'dbca'[s]}${round}`, `x${round}`, s % 2 === 1, ahead(s)));
      await ask('POST', `plans/${NAME}/ticks`, { ticks });
    }
    const { body } = await ask('GET', `plans/${NAME}/ticks`);
    expect([...tickStates(body.ticks as Tick[]).values()].map(({ id, done }) => [id, done])).toEqual(
      [0, 1, 2, 3, 4].map((round) => [`a${round}`, true]),
    );
  });
  it('are told by pieces where there are many, and it is said that there are more', async () => {
    const { ask } = await start();
    for (let i = 0; i < 11; i++)
      await ask('POST', `plans/${NAME}/ticks`, { ticks: Array.from({ length: 500 }, (_, j) => tick(`${i}-${j}`)) });
    const first = (await ask('GET', `plans/${NAME}/ticks`)).body;
    expect([first.ticks.length, first.last, first.more]).toEqual([5000, 5000, true]);
    const rest = (await ask('GET', `plans/${NAME}/ticks?after=${first.last}`)).body;
    expect([rest.ticks.length, rest.last, rest.more]).toEqual([500, 5500, undefined]);
  });
  it('never clash with edits: both go on while the other does', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        i % 2
          ? ask('POST', `plans/${NAME}/ticks`, { ticks: [tick(`t${i}`)] })
          : ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN.replace('ceiling: 96', `ceiling: 9${i / 2}`) }),
      ),
    );
    expect(answers.filter((_, i) => i % 2).every(({ status }) => status === 200)).toBe(true);
    expect((await ask('GET', `plans/${NAME}/ticks`)).body.ticks).toHaveLength(10);
    expect(text()).toMatch(/ceiling: 9\d/);
  });
  it('made offline by several devices and arriving in any order and in any portions mean the same', () =>
    fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(
          fc.record({
            id: fc.uuid(),
            about: fc.constantFrom('a', 'b', 'c'),
            done: fc.boolean(),
            at: fc.integer({ min: 0, max: 9 }).map((s) => `2026-05-04T10:00:0${s}.000Z`),
          }),
          { selector: (t) => t.id, minLength: 1, maxLength: 10 },
        ),
        fc.array(fc.nat(), { minLength: 10, maxLength: 10 }),
        async (ticks, keys) => {
          const { ask, close } = await trial();
          try {
            const order = ticks.map((t, i) => ({ t, key: keys[i]! })).sort((a, b) => a.key - b.key);
            for (let i = 0; i < order.length; i += 3)
              await ask('POST', `plans/${NAME}/ticks`, {
                ticks: order.slice(Math.max(0, i - 1), i + 3).map(({ t }) => t),
              });
            const { body } = await ask('GET', `plans/${NAME}/ticks`);
            const states = (list: readonly NewTick[]) =>
              [...tickStates(list)].map(([about, t]) => [about, t.done]).sort();
            expect(states(body.ticks)).toEqual(states(ticks));
            expect(body.ticks).toHaveLength(ticks.length);
          } finally {
            await close();
          }
        },
      ),
      { numRuns: 20 },
    ));
  it.each<[string, unknown]>([
    ['none', []],
    ['about nothing', [tick('a', '')]],
    ['at no time', [tick('a', 'x', true, 'yesterday')]],
    ['too many', Array.from({ length: 501 }, (_, i) => tick(`t${i}`))],
    ['an id too long', [tick('x'.repeat(65))]],
    ['lines', [tick('a', 'one\ntwo')]],
  ])('are refused: %s', async (_what, ticks) => {
    const { ask } = await start();
    expect((await ask('POST', `plans/${NAME}/ticks`, { ticks })).status).toBe(400);
    expect((await ask('POST', 'plans/none.plan.yaml/ticks', { ticks: [tick('a')] })).status).toBe(404);
  });
});

describe('the price book', () => {
  const price = {
    id: 'p1',
    stock: 'ply',
    size: '96" × 48"',
    supplier: 'yard',
    price: '64.50',
    currency: 'USD',
    date: '2026-05-01',
  };
  it('keeps every price and its day, and what was withdrawn', async () => {
    const { ask } = await start();
    await ask('PUT', 'suppliers', { id: 'yard', name: 'The Yard' });
    await ask('PUT', 'suppliers', { id: 'yard', name: 'The Timber Yard', remark: 'closed on Mondays' });
    await ask('POST', 'prices', { prices: [price, { ...price, id: 'p2', price: '60', date: '2026-01-01' }] });
    await ask('POST', 'prices', { prices: [price, { ...price, withdrawn: true }] });
    const { body } = await ask('GET', 'prices');
    expect(body.suppliers).toEqual([{ id: 'yard', name: 'The Timber Yard', remark: 'closed on Mondays' }]);
    expect(body.prices.map((p: { id: string; withdrawn?: boolean }) => [p.id, p.withdrawn ?? false])).toEqual([
      ['p2', false],
      ['p1', false],
      ['p1', true],
    ]);
    const { raw } = await ask('GET', 'prices.csv');
    expect(raw.toString()).toBe(
      'stock,size,supplier,price,currency,date,remark\r\nply,"96"" × 48""",yard,60,USD,2026-01-01,\r\n',
    );
  });
  it('takes a list pasted from a spreadsheet, once, and first shows what it would take', async () => {
    const { ask } = await start();
    const list = {
      csv: 'stock\tprice\tsupplier\nply\t64.50\tyard\nglue\t$8.49\t\n',
      currency: 'USD',
      date: '2026-05-04',
    };
    const dry = await ask('POST', 'prices/import', { ...list, dryRun: true });
    expect([dry.body.read.length, dry.body.known, dry.body.book.prices.length]).toEqual([2, 0, 0]);
    expect((await ask('POST', 'prices/import', list)).body.book.prices).toHaveLength(2);
    expect((await ask('POST', 'prices/import', list)).body).toMatchObject({
      known: 2,
      book: { prices: { length: 2 } },
    });
  });
  it('takes a list whole or not at all, and names the line', async () => {
    const { ask } = await start();
    const { status, body } = await ask('POST', 'prices/import', {
      csv: 'stock,price\nply,1\nglue,one\n',
      currency: 'USD',
      date: '2026-05-04',
    });
    expect([status, body.error.code, body.error.issues[0].place.line]).toEqual([422, 'bad-csv', 3]);
    expect((await ask('GET', 'prices')).body.prices).toEqual([]);
  });
  it('says of a list that is far too long how long it is, in words of the trade', async () => {
    const { ask } = await start();
    const csv = `stock,price\n${'ply,1.00\n'.repeat(120_000)}`;
    const prices = await ask('POST', 'prices/import', { csv, currency: 'USD', date: '2026-05-04' });
    expect([prices.status, prices.body.error.issues[0]]).toEqual([
      422,
      expect.objectContaining({ message: 'the table is too large', found: `${csv.length} characters` }),
    ]);
    await ask('GET', `plans/${NAME}`);
    const rack = await ask('POST', `plans/${NAME}/rack`, { csv, base: 1 });
    expect([rack.status, rack.body.error.issues[0].message]).toEqual([422, 'the table is too large']);
  });
  it('hands a spreadsheet no formula', async () => {
    const { ask } = await start();
    await ask('POST', 'prices', { prices: [{ ...price, stock: '=HYPERLINK("http://evil.test")', remark: '@SUM(1)' }] });
    const { raw } = await ask('GET', 'prices.csv');
    for (const cell of raw.toString().split(/[,\r\n]+/)) expect(cell).not.toMatch(/^"?[=+@-]/);
  });
  it.each([
    [{ ...price, price: '-1' }],
    [{ ...price, price: '<script>' }],
    [{ ...price, currency: 'usd' }],
    [{ ...price, date: '2026-02-30' }],
    [{ ...price, stock: '' }],
  ])('refuses %j', async (wrong) => {
    const { ask } = await start();
    expect((await ask('POST', 'prices', { prices: [price, wrong] })).status).toBe(400);
    expect((await ask('GET', 'prices')).body.prices).toEqual([]);
  });
});
