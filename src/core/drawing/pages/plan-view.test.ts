import { expect, it } from 'vitest';
import { enclose } from '../../geometry/index.ts';
import type { Note } from '../../notes/index.ts';
import { bodyOf } from '../../surroundings/index.ts';
import { area, overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark } from '../marks.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { planPages } from './plan-view.ts';

const dotsOf = (marks: readonly Mark[]): readonly Extract<Mark, { kind: 'circle' }>[] =>
  marks.flatMap((m) =>
    m.kind === 'group' ? dotsOf(m.marks) : m.kind === 'circle' && m.radius === 0.6 && m.fill ? [m] : [],
  );

it.each(EXAMPLES)(
  'no word of the plan of %s is written on the dot of a note, though it points at the middle of what is named',
  (name) => {
    const input = exampleInput(name);
    const seats = input.pieces.filter((p) => p.kind === 'seat' || p.kind === 'lamp');
    expect(seats.length).toBeGreaterThan(1);
    const notes = seats.map((p): Note => {
      const { min, max } = enclose([bodyOf(p)]);
      const at = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2, z: (min.z + max.z) / 2 };
      return { id: `look ${p.id}`, about: p.id, at, verdict: 'caution', title: 'Look here', advice: 'Look.' };
    });
    for (const paper of ['A4', 'Letter', 'A3'] as const) {
      const [page] = planPages(deskOf({ ...input, notes }, paper));
      const dots = dotsOf(page!.marks);
      expect(dots.length).toBeGreaterThanOrEqual(notes.length);
      const words = textsOf(page!.marks);
      for (const { centre } of dots) {
        const dot = area(centre.x - 0.5, centre.y - 0.5, 1, 1);
        expect(words.filter((w) => overlaps(textArea(w), dot)).map((w) => w.text)).toEqual([]);
      }
    }
  },
);
