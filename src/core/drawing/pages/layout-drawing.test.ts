import { expect, it } from 'vitest';
import { area, holds, overlaps, textArea, textsOf } from '../draw.ts';
import { placesIn } from '../layout/place.ts';
import { letteringOf } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { areaOnPaper } from '../view/view.ts';
import { detailed, drawDetails, type Panel } from './layout-drawing.ts';

const letter = letteringOf({ length: 'mm', currency: 'EUR' });
const KERF = 3.2;
/** One large part, and under it strips of shelf boxes: long ones, each with short ones beside it, two blades' widths apart. */
const strips = (rows: number): Panel => {
  const part = (id: number, x: number, y: number, length: number, width: number) => ({
    ...{ x, y, length, width, id: `${id}`, numbers: `${id}`, name: 'strip' },
  });
  const parts = Array.from({ length: rows }, (_, r) =>
    [0, 1, 2].map((c) => part(100 + 3 * r + c, 600 + [0, 400, 550][c]!, 20 + r * 50.4, [390, 139.6, 139.6][c]!, 47.2)),
  ).flat();
  return {
    full: { x: 0, y: 0, length: 2500, width: 1250 },
    parts: [part(1, 20, 500, 1000, 700), ...parts],
    cuts: [
      { x: 0, y: 480, length: 2500, width: 0, number: 1 },
      ...Array.from({ length: rows }, (_, r) => ({ x: 600, y: 68.8 + r * 50.4, length: 690, width: 0, number: 2 + r })),
    ],
    left: [],
  };
};
const body = area(20, 20, 255, 160);
const drawnOf = (panel: Panel) => {
  const { place, frame, scale } = layView({
    ...{ u: [0, 2500], v: [-1250, 0], into: { ...body, width: 190 }, letter, stand: 'top' },
  });
  const made = detailed(panel, { place, frame, places: placesIn(body), letter }, body);
  return {
    ...made,
    place,
    scale,
    enlarged: made.details.length > 0 ? drawDetails(panel, made.details, body, letter) : undefined,
  };
};
/** What is told of parts and cuts, sizes left out. */
const told = (marks: readonly Mark[]): string[] =>
  textsOf(marks).flatMap((t) => (/×/.test(t.text) && !/ {3}/.test(t.text) ? [] : (/^\d+/.exec(t.text)?.[0] ?? [])));

it('strips that crowd are told in an enlarged drawing, each part and cut once, none over another', () => {
  const panel = strips(6);
  const { marks, details, enlarged, place, scale } = drawnOf(panel);
  expect(details.map((d) => d.name)).toEqual(['A']);
  expect(textsOf(marks).map((t) => t.text)).toContain('A');
  const [main, large] = [told(marks), told(enlarged!.marks)];
  expect([...main, ...large].sort()).toEqual(
    [...panel.parts.map((p) => p.numbers), ...panel.cuts.map((c) => `${c.number}`)].sort(),
  );
  // the small ones there, the large one and the cut over the whole panel here
  expect(main.sort()).toEqual(['1', '1']);
  expect(Number(enlarged!.scale.slice(2))).toBeLessThan(scale.ratio / 1.6);
  const texts = textsOf(enlarged!.marks).map(textArea);
  expect(texts.filter((t) => !holds(area(body.x - 0.5, body.y - 0.5, body.width + 1, body.height + 1), t))).toEqual([]);
  expect(texts.some((a, i) => texts.slice(i + 1).some((b) => overlaps(a, b, 0.25)))).toBe(false);
  const strip = areaOnPaper(place, [600, 990], [-67.2, -20]);
  expect(textsOf(marks).some((t) => overlaps(textArea(t), strip, 0.25))).toBe(false);
});

it('few strips are led out as they lie, and wide parts as many as they are', () => {
  expect(drawnOf(strips(1)).details).toEqual([]);
  const { parts, ...rest } = strips(6);
  const wide = parts.map((p, i) => ({ ...p, x: 20 + i * 120, y: 20, length: 100, width: 400 - KERF }));
  expect(drawnOf({ ...rest, parts: wide }).details).toEqual([]);
});
