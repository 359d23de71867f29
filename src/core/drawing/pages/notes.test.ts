import fc from 'fast-check';
import { expect, it } from 'vitest';
import { area, textArea, textsOf } from '../draw.ts';
import { noteMargin } from './notes.ts';

/** By their numbers and by the runs they are told in, each at least. */
const toldIn = (words: string): readonly number[] =>
  words.split(', ').flatMap((run) => {
    const [from, to = from] = run.split('–').map(Number);
    return Array.from({ length: to! - from! + 1 }, (_, i) => from! + i);
  });

it('law: a margin tells every note of its page, those it has no room for by their numbers, none of them cut off', () => {
  let inTwo = 0;
  const numbers = fc.uniqueArray(fc.integer({ min: 1, max: 120 }), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(numbers, fc.integer({ min: 30, max: 150 }), fc.integer({ min: 35, max: 70 }), (all, height, width) => {
      const place = area(10, 20, width, height);
      const notes = [...all]
        .sort((a, b) => a - b)
        .map((number) => ({
          number,
          note: {
            id: `${number}`,
            about: 'x',
            verdict: 'caution',
            title: 'Mind this',
            advice: 'Look.',
          } as const,
        }));
      const marks = noteMargin(notes, place);
      const texts = textsOf(marks);
      for (const mark of texts) {
        const own = textArea(mark);
        expect(own.x + own.width).toBeLessThanOrEqual(place.x + place.width + 0.01);
        expect(own.y + own.height).toBeLessThanOrEqual(place.y + place.height + 0.5);
        expect(mark.text).not.toContain('…');
      }
      const others = texts.findIndex(({ text }) => text.startsWith('and '));
      const [own, last] = others < 0 ? [texts, []] : [texts.slice(0, others), texts.slice(others)];
      // of a note that is laid, the number in its balloon
      const shown = own.flatMap(({ text }) => (/^\d+$/.test(text) ? [Number(text)] : []));
      const words = last.map(({ text }) => text).join(' ');
      const told = words === '' ? [] : toldIn(/^and (.*): see the notes$/.exec(words)![1]!);
      if (last.length > 1 && told.length > 0) inTwo++;
      expect([...shown, ...told]).toEqual(notes.map(({ number }) => number));
    }),
  );
  expect(inTwo).toBeGreaterThan(5);
});
