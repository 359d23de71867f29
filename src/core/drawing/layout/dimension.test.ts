import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LengthUnit, parseLength } from '../../quantity/index.ts';
import { type Area, extentOf, holds, LETTER, overlaps, textArea, textsOf } from '../draw.ts';
import { letteringOf } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { type Chain, dimensionStack, gathered, type Side, stackDepth } from './dimension.ts';

const chain = fc.uniqueArray(fc.integer({ min: 0, max: 1800 }), { minLength: 2, maxLength: 14 }).map((list): Chain => {
  const stops = list.sort((a, b) => a - b).map((x) => 20 + x / 10);
  return { stops, figures: stops.slice(1).map((s, i) => `${Math.round((s - stops[i]!) * 200)}`) };
});
const METRIC = letteringOf({ length: 'mm', currency: 'EUR' });
const side = fc.constantFrom<Side>('above', 'below', 'left', 'right');

describe('dimensionStack', () => {
  it('writes every figure, and no two over one another, whatever the chains and the side', () =>
    fc.assert(
      fc.property(fc.array(chain, { minLength: 1, maxLength: 3 }), side, (chains, where) => {
        const texts = textsOf(dimensionStack(chains, where, 100));
        expect(texts.map((t) => t.text).sort()).toEqual(chains.flatMap((c) => c.figures).sort());
        const areas = texts.map(textArea);
        areas.forEach((a, i) => {
          for (const b of areas.slice(i + 1))
            expect(overlaps(a, b, 0.05), `${texts[i]!.text} at ${a.x}, ${a.y}`).toBe(false);
        });
      }),
    ));

  it('draws no extension line through a figure: it stops where the paper is left bare for it', () =>
    fc.assert(
      fc.property(fc.array(chain, { minLength: 1, maxLength: 3 }), side, (chains, where) => {
        const marks = dimensionStack(chains, where, 100);
        const upright = where === 'left' || where === 'right';
        const passes = (m: Mark, a: Area): boolean =>
          m.kind === 'line' &&
          m.pen === 'thin' &&
          (upright ? m.from.y === m.to.y : m.from.x === m.to.x) &&
          overlaps(extentOf([m])!, a, 0.3);
        marks.forEach((figure, i) => {
          if (figure.kind !== 'text') return;
          const own = textArea(figure);
          const bare = marks.findIndex(
            (m) => m.kind === 'shape' && m.fill === 'paper' && holds(extentOf([m])!, own, 0.8),
          );
          const through = marks.filter((m, k) => k > Math.min(bare, i) && passes(m, own));
          expect(through, `${where}: ${figure.text}`).toEqual([]);
        });
      }),
    ));

  it('reaches out no further than it says', () =>
    fc.assert(
      fc.property(fc.array(chain, { minLength: 1, maxLength: 3 }), side, (chains, where) => {
        const reach = extentOf(dimensionStack(chains, where, 100))!;
        const depth = stackDepth(chains, where);
        const out = {
          above: 100 - reach.y,
          left: 100 - reach.x,
          below: reach.y + reach.height - 100,
          right: reach.x + reach.width - 100,
        };
        expect(out[where]).toBeLessThanOrEqual(depth + 1e-9);
      }),
    ));

  it('turns figures that have no room in a row across the chain, and keeps within the limits and its depth', () => {
    const limits = [0, 220] as const;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 20, max: 60 }), { minLength: 25, maxLength: 200 }),
        fc.array(chain, { maxLength: 1 }),
        side,
        (steps, more, where) => {
          const stops = [20];
          for (const step of steps) stops.push(stops.at(-1)! + step / Math.max(10, steps.length / 4));
          const long: Chain = { stops, figures: steps.map((_, i) => `4′ ${1000 + i}`) };
          const marks = dimensionStack([long, ...more], where, 100, limits);
          const texts = textsOf(marks);
          const said = texts.filter(({ text }) => text.includes('′'));
          const fit = long.figures.length * (LETTER.small + 1.3) <= 220;
          expect(said.map(({ text }) => text)).toEqual(fit ? long.figures : []);
          const upright = where === 'left' || where === 'right';
          for (const t of said) expect(t.turn === -90).toBe(!upright);
          const areas = texts.map(textArea);
          areas.forEach((a, i) => {
            for (const b of areas.slice(i + 1)) expect(overlaps(a, b, 0.05), JSON.stringify([a, b])).toBe(false);
          });
          const reach = extentOf(marks)!;
          const depth = stackDepth([long, ...more], where, limits) + 1e-9;
          const over = {
            above: 100 - reach.y,
            left: 100 - reach.x,
            below: reach.y + reach.height - 100,
            right: reach.x + reach.width - 100,
          };
          expect(over[where]).toBeLessThanOrEqual(depth);
          for (const a of said.map(textArea)) {
            const [from, to] = upright ? [a.y, a.y + a.height] : [a.x, a.x + a.width];
            expect(from).toBeGreaterThanOrEqual(-0.5);
            expect(to).toBeLessThanOrEqual(220.5);
          }
        },
      ),
    );
  });

  it('leaves an empty figure out', () => {
    expect(
      textsOf(dimensionStack([{ stops: [0, 20, 40], figures: ['', '40'] }], 'below', 0)).map((t) => t.text),
    ).toEqual(['40']);
  });
});

describe('gathered', () => {
  const told = (real: readonly number[], ratio: number) =>
    gathered(
      {
        stops: real.map((x) => x / ratio),
        figures: real.slice(1).map((x, i) => `${Math.round((x - real[i]!) * 10) / 10}`),
      },
      real,
      METRIC,
    );
  /** Studs of a wall, 406.4 mm apart, the first and the last space shorter. */
  const studs = [0, 200, ...Array.from({ length: 60 }, (_, i) => 200 + (i + 1) * 406.4), 24700];

  it('tells equal distances once where their figures have no room', () =>
    expect(told(studs, 200)).toEqual({
      stops: [0, 1, (200 + 60 * 406.4) / 200, 123.5],
      figures: ['200', '60 × 406.4 (= 24384)', '116'],
    }));

  it('leaves a chain as it is where the figures have room, or only two stand in a row', () => {
    for (const [real, ratio] of [
      [studs, 20],
      [[0, 400, 800, 1000], 200],
    ] as const)
      expect(told(real, ratio).figures).toHaveLength(real.length - 1);
  });

  it('never takes distances together that differ', () => {
    const uneven = studs.map((x, i) => x + (i % 2));
    expect(told(uneven, 200).figures).toHaveLength(uneven.length - 1);
  });

  it('leaves no distance out: what the figures say adds up to the whole', () =>
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(150, 400, 600), { minLength: 1, maxLength: 30 }),
        fc.constantFrom(20, 50, 200),
        (steps, ratio) => {
          const real = [0];
          for (const step of steps) real.push(real.at(-1)! + step);
          const { stops, figures } = told(real, ratio);
          expect(stops).toHaveLength(figures.length + 1);
          const sum = figures.reduce((all, figure) => all + Number(/= (\d+)/.exec(figure)?.[1] ?? figure), 0);
          expect(sum).toBe(real.at(-1));
        },
      ),
    ));
});

describe('equal rows with a thickness between each two of them', () => {
  const row = (count: number, ...more: readonly number[]): readonly number[] => {
    const real = [0];
    for (let i = 0; i < count; i++) real.push(real.at(-1)! + 330, real.at(-1)! + 348);
    return [...real.slice(0, -1), ...more.map((by) => real.at(-2)! + by)];
  };
  const told = (real: readonly number[], scale: number, quiet: boolean): readonly string[] => {
    const figures = real.slice(1).map((stop, i) => (quiet && stop - real[i]! === 18 ? '' : `${stop - real[i]!}`));
    return gathered({ stops: real.map((x) => x / scale), figures }, real, METRIC).figures;
  };

  it('are told once where their figures have no room and the thickness is told elsewhere', () => {
    expect(told(row(7), 100, true)).toEqual(['7 × 330 + 6 × 18 (= 2418)']);
    // what comes behind them is told by itself
    expect(told(row(7, 18, 118), 100, true)).toEqual(['7 × 330 + 6 × 18 (= 2418)', '', '100']);
    expect(told(row(7), 100, false)).toHaveLength(13);
  });
  it('are told one by one where there is room, and where they are two', () => {
    expect(told(row(7), 20, true)).toEqual(Array.from({ length: 13 }, (_, i) => (i % 2 === 0 ? '330' : '')));
    expect(told(row(2), 100, true)).toEqual(['330', '', '330']);
  });
  it('are told one by one where a thickness between them is another', () => {
    const real = [0, 330, 348, 678, 703, 1033];
    const figures = ['330', '', '330', '', '330'];
    expect(gathered({ stops: real.map((x) => x / 100), figures }, real, METRIC).figures).toEqual(figures);
  });
});

describe('figures of a chain', () => {
  const anyUnits = fc.constantFrom(
    { length: 'ft-in' as const, fraction: '1/32' as const, currency: 'USD' },
    { length: 'ft-in' as const, fraction: '1/8' as const, currency: 'USD' },
    { length: 'in' as const, currency: 'USD' },
    { length: 'mm' as const, decimals: 0, currency: 'EUR' },
    { length: 'cm' as const, currency: 'EUR' },
  );
  const read = (figure: string, unit: LengthUnit): number => {
    const result = parseLength(figure, { unit });
    if (!result.ok) throw new Error(figure);
    return result.value;
  };

  it('add up to the whole where each is on the grid; else each is right to half the step that the title block tells', () =>
    fc.assert(
      fc.property(
        anyUnits,
        fc.array(fc.integer({ min: 1, max: 40_000 }), { minLength: 1, maxLength: 9 }),
        fc.boolean(),
        (units, lengths, onGrid) => {
          const letter = letteringOf(units);
          const [tick, unit] = [127 / 640, units.length];
          const real = lengths.map((n) => (onGrid ? (n % 2000) * letter.step : n * tick * 0.37));
          const written = real.map((mm) => read(letter.figure(mm), unit));
          const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
          if (onGrid) expect(sum(written)).toBeCloseTo(read(letter.figure(sum(real)), unit), 6);
          // and half a tick, since what is read back is kept in ticks
          written.forEach((mm, i) => {
            expect(Math.abs(mm - real[i]!)).toBeLessThanOrEqual(letter.step / 2 + 1 / 1280 + 1e-9);
          });
          const said = /each to (.*)$/.exec(letter.dimensions)![1]!;
          expect(read(said, unit)).toBeCloseTo(letter.step, 9);
        },
      ),
    ));

  it('told once as a row are said to equal the whole only where they do', () => {
    let [even, uneven] = [0, 0];
    fc.assert(
      fc.property(
        anyUnits,
        fc.nat(999),
        fc.integer({ min: 3, max: 40 }),
        fc.option(fc.nat(99)),
        (units, n, many, board) => {
          const letter = letteringOf(units);
          const [each, thick] = [300 + n * 0.2, board === null ? 0 : 12 + board * 0.1];
          const real = Array.from({ length: many }, (_, i) => [i * (each + thick), i * (each + thick) + each])
            .flat()
            .filter((at, i, all) => i === 0 || at - all[i - 1]! > 0.01);
          const figures = real.slice(1).map((at, i) => (at - real[i]! < 100 ? '' : letter.figure(at - real[i]!)));
          const chain = gathered({ stops: real.map((at) => at / 1000), figures }, real, letter);
          const row = /^(\d+) × (.*?)(?: \+ (\d+) × (.*?))? \((=|in all) (.*)\)$/u.exec(chain.figures[0]!)!;
          const size = (figure: string | undefined): number => (figure ? read(figure, units.length) : 0);
          const told = Number(row[1]) * size(row[2]) + Number(row[3] ?? 0) * size(row[4]);
          expect(size(row[6])).toBeCloseTo(read(letter.figure(real.at(-1)!), units.length), 6);
          const adds = Math.abs(told - size(row[6])) < letter.step / 4;
          expect(row[5]).toBe(adds ? '=' : 'in all');
          if (adds) even++;
          else uneven++;
        },
      ),
    );
    expect(Math.min(even, uneven)).toBeGreaterThan(10);
  });
});
