import { describe, expect, it } from 'vitest';
import { assembliesOf } from '../../assembly/index.ts';
import { textsOf } from '../draw.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { packetPages } from './packet.ts';
import { cuttingOf } from './spacers.ts';

describe.each(EXAMPLES)('the spacers of %s', (name) => {
  const input = exampleInput(name);
  const desk = deskOf(input, 'A4');
  const { spacers, layouts } = cuttingOf(desk);

  it('are all that the assembly asks for', () => {
    const wanted = new Set(
      assembliesOf(input).flatMap((a) =>
        a.plan.spacers.filter((s) => s.from === 'spacer').map((s) => desk.letter.length(s.distance)),
      ),
    );
    expect(new Set(spacers.map((s) => desk.letter.length(s.distance)))).toEqual(wanted);
    expect(spacers.length).toBeGreaterThan(0);
  });

  it('come out of a rest that has room for two of each, 40 mm wide, saw cuts and all, where no part lies', () => {
    const kerf = input.plan.shop.kerf!;
    const cut = spacers.filter((s) => s.layout !== undefined);
    expect(cut.length).toBeGreaterThan(0);
    layouts.forEach(({ plan, alike: { layout } }, i) => {
      for (const left of plan.left.filter((l) => l.spacers !== undefined)) {
        const own = left.spacers!.split(', ').map((mark) => cut.find((s) => s.mark === mark && s.layout === i)!);
        expect(own).not.toContain(undefined);
        const [long, across] = [Math.max(left.length, left.width), Math.min(left.length, left.width)];
        // each pair one after the other along the rest, or two strips across it
        const least = own.map(({ distance }) =>
          distance <= across ? Math.min(2 * (distance + kerf), 2 * (40 + kerf)) : 2 * (distance + kerf),
        );
        expect(least.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(long + 1e-9);
        expect(across).toBeGreaterThanOrEqual(40);
        for (const p of layout.placed)
          expect(
            Math.min(left.x + left.length - p.x, p.x + p.length - left.x) > 1e-6 &&
              Math.min(left.y + left.width - p.y, p.y + p.width - left.y) > 1e-6,
          ).toBe(false);
      }
      const said = plan.left.flatMap((l) => l.spacers?.split(', ') ?? []).sort();
      expect(said).toEqual(
        cut
          .filter((s) => s.layout === i)
          .map((s) => s.mark)
          .sort(),
      );
    });
  });

  it('are among the cut steps of that layout in print, under the mark the assembly calls them by', () => {
    const pages = packetPages(input, { paper: 'A4' });
    const on = (start: string): string =>
      pages
        .filter((p) => p.id.startsWith(start))
        .flatMap((p) => textsOf(p.marks).map((t) => t.text))
        .join(' ');
    const lettered = pages
      .filter((p) => p.id.startsWith('layout-'))
      .flatMap((p) => textsOf(p.marks).map((t) => t.text));
    for (const { spacers: own } of layouts.flatMap((l) => l.plan.left))
      if (own !== undefined) expect(lettered.some((t) => t === own || t === `spacers ${own}`)).toBe(true);
    for (const { mark, layout } of spacers) {
      expect(on('assembly')).toMatch(new RegExp(`\\b${mark}\\b`));
      if (layout !== undefined) expect(on('layout-').replace(/\s+/g, ' ')).toContain(`two spacers ${mark} `);
    }
  });
});
