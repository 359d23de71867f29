import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, extentOf, holds, overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark } from '../marks.ts';
import { type Chain, dimensionStack, type Side, stackDepth } from './dimension.ts';

const chain = fc.uniqueArray(fc.integer({ min: 0, max: 1800 }), { minLength: 2, maxLength: 14 }).map((list): Chain => {
  const stops = list.sort((a, b) => a - b).map((x) => 20 + x / 10);
  return { stops, figures: stops.slice(1).map((s, i) => `${Math.round((s - stops[i]!) * 200)}`) };
});
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

  it('leaves an empty figure out', () => {
    expect(
      textsOf(dimensionStack([{ stops: [0, 20, 40], figures: ['', '40'] }], 'below', 0)).map((t) => t.text),
    ).toEqual(['40']);
  });
});
