import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { enclose, toRoom, vec } from '../../geometry/index.ts';
import type { Note } from '../../notes/index.ts';
import { readPlan } from '../../plan/index.ts';
import { bodyOf } from '../../surroundings/index.ts';
import { area, overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark, PaperName, Point } from '../marks.ts';
import { EXAMPLES, exampleInput, inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { planPages } from './plan-view.ts';
import { anyRoom } from './rooms.testing.ts';

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

const linesOf = (marks: readonly Mark[]): readonly Extract<Mark, { kind: 'line' }>[] =>
  marks.flatMap((m) => (m.kind === 'group' ? linesOf(m.marks) : m.kind === 'line' ? [m] : []));
/** By walking along it, which shares nothing with how the page finds it. */
const offStretch = (p: Point, [a, b]: readonly [Point, Point]): number =>
  Math.min(
    ...Array.from({ length: 2001 }, (_, i) => i / 2000).map((t) =>
      Math.hypot(a.x + (b.x - a.x) * t - p.x, a.y + (b.y - a.y) * t - p.y),
    ),
  );

/** How many walls are named, each by a name that nobody takes for another wall's: nearest to its own, or led to it. */
function namedWalls(input: Parameters<typeof deskOf>[0], paper: PaperName): number {
  const [page] = planPages(deskOf(input, paper));
  const { origin, ratio } = page!.view!;
  const faces = input.room.walls.map(({ id, frame, length }) => {
    const [a, b] = [0, length].map((x) => toRoom(frame, vec(x, 0, 0)));
    const at = (p: typeof a): Point => ({ x: origin.x + p!.x / ratio, y: origin.y + p!.z / ratio });
    return { words: `${id} wall`, face: [at(a), at(b)] as const };
  });
  let count = 0;
  for (const mark of textsOf(page!.marks)) {
    const own = faces.find(({ words }) => words === mark.text);
    if (!own || mark.tone !== 'faint') continue;
    count++;
    const { x, y, width, height } = textArea(mark);
    const centre = { x: x + width / 2, y: y + height / 2 };
    const off = offStretch(centre, own.face);
    const isNearest = faces.every(({ face }) => off <= offStretch(centre, face) + 0.1);
    const isLed = linesOf(page!.marks).some(
      ({ from, to, tone }) =>
        tone === 'faint' &&
        offStretch(from, own.face) < 0.1 &&
        overlaps(area(to.x - 0.1, to.y - 0.1, 0.2, 0.2), area(x, y, width, height)),
    );
    expect(isNearest || isLed, mark.text).toBe(true);
  }
  return count;
}
it.each(EXAMPLES)('each wall of %s is named so that its name is not taken for that of another', (name) => {
  const input = exampleInput(name);
  for (const paper of ['A4', 'Letter', 'A3'] as const)
    expect(namedWalls(input, paper)).toBeGreaterThanOrEqual(Math.min(4, input.room.walls.length - 3));
});
it('each wall of any room is, too', () => {
  let count = 0;
  fc.assert(
    fc.property(anyRoom, (room) => {
      const { input, paper } = room();
      count += namedWalls(input, paper);
    }),
    { numRuns: 15 },
  );
  expect(count).toBeGreaterThan(15);
});

describe('a door that swings where the name of its wall would stand', () => {
  const rows = [
    ['left', 1300, 200],
    ['right', 1300, 100],
    ['right', 1500, 200],
    ['right', 1500, 300],
    ['right', 1800, 500],
    ['right', 2200, 100],
  ] as const;
  it.each(rows)('hinged %s in a wall of %d mm, %d mm from its end, crosses no name', (hinge, length, from) => {
    const door = `{id: door, wall: far, kind: door, from: ${from}, width: 1000, height: 2000, hinge: ${hinge}}`;
    const text = SMALL_PLAN.replaceAll('length: 2600', `length: ${length}`)
      .replaceAll('length: 2000', 'length: 1500')
      .replace('- case: music', '- case: music\n        wall: left')
      .replace(/openings: \[.*\]/, `openings: [${door}]`)
      .replace('wall: long\n        from', 'from');
    const { plan, issues } = readPlan(text);
    if (!plan) throw new Error(JSON.stringify(issues));
    const [page] = planPages(deskOf(inputOf(plan, plan.options[0]!), 'A4'));
    const swing = groupOf(page!.marks, 'door');
    const leaf = swing.flatMap((m) => (m.kind === 'shape' && !m.closed ? [m.points] : []))[0]!;
    const points = Array.from({ length: 200 }, (_, k) => ({
      x: leaf[0]!.x + ((leaf[1]!.x - leaf[0]!.x) * k) / 199,
      y: leaf[0]!.y + ((leaf[1]!.y - leaf[0]!.y) * k) / 199,
    }));
    const words = textsOf(page!.marks).filter((t) => t.text.endsWith(' wall'));
    expect(words.map((t) => t.text)).toContain('far wall');
    for (const t of words)
      expect(
        points.some((p) => overlaps(textArea(t), { ...p, width: 0, height: 0 })),
        t.text,
      ).toBe(false);
  });
});

function groupOf(marks: readonly Mark[], about: string): readonly Mark[] {
  return marks.flatMap((m) => (m.kind !== 'group' ? [] : m.about === about ? m.marks : groupOf(m.marks, about)));
}

it.each(EXAMPLES)('what hangs in the room of %s is named too, and what is too small for its name', (name) => {
  const input = exampleInput(name);
  const hung = input.pieces.filter(({ kind }) => kind === 'lamp' || kind === 'camera' || kind === 'strip');
  expect(hung.length).toBeGreaterThan(2);
  for (const paper of ['A4', 'Letter', 'A3'] as const) {
    const [page] = planPages(deskOf(input, paper));
    const words = textsOf(page!.marks)
      .map(({ text }) => text)
      .join(' ');
    expect([paper, hung.filter(({ title }) => !words.includes(title)).map(({ title }) => title)]).toEqual([paper, []]);
  }
});
