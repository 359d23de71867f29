import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../outcome.ts';
import { settingOut } from '../../setting-out/index.ts';
import { massesOf } from '../../solids.ts';
import { cured, noteOn, notesOf, read, roomOf } from '../plan.testing.ts';
import { fixings } from './held.ts';

const BRICK = '{kind: masonry, board: 12}';
const noteOf = (pieces: string | readonly string[], more = {}) => {
  const listed = typeof pieces === 'string' ? [pieces] : pieces;
  return noteOn(notesOf(read(roomOf(listed.map((p) => `      - ${p}`).join('\n'), more)).plan), 'fixing:t');
};
/** A mirror of 20 kg, flat on the wall. */
const hung = (more: string) =>
  `{thing: t, wall: north, from: 500, above: 1000, size: {width: 800, height: 1000, depth: 40}${more}}`;
const PLUGS = 'kind: plug, diameter: 8, rated: {pull: 100 kg, shear: 120 kg}';

describe('what hangs on a wall', () => {
  it('is said to be not checked where the plan tells no fixings', () => {
    const note = noteOf(hung(', mass: 20 kg'))!;
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('20 kg');
    expect(note.title).toContain('not checked');
    for (const piece of [
      '{lamp: t, wall: north, from: 500, above: 1500, size: {width: 200, height: 300, depth: 150}, mass: 3 kg, lumens: 800}',
      '{camera: t, wall: north, from: 500, above: 1800, focal: 20, mass: 1 kg}',
    ])
      expect([piece, noteOf(piece)?.verdict]).toEqual([piece, 'caution']);
  });

  it('rests where it stands on the floor, on furniture, on a shelf or in a case, and where it is part of the house', () => {
    const box = (above: number, from = 500) =>
      `{thing: t, wall: north, from: ${from}, above: ${above}, size: {width: 200, height: 200, depth: 200}, mass: 5 kg}`;
    const kase =
      '{case: c, wall: north, from: 400, size: {width: 800, height: 700, depth: 300}, inside: {open: [300, 1*]}}';
    const shelf =
      '{shelf: s, wall: north, from: 400, above: 1400, size: {width: 900, height: 60, depth: 240}, skin: thin, core: ply}';
    const note = (...pieces: readonly string[]) => noteOf(pieces);
    expect(note(box(0))).toBeUndefined();
    expect(note(kase, box(700))).toBeUndefined();
    expect(note(kase, box(330))).toBeUndefined();
    expect(note(shelf, box(1460))).toBeUndefined();
    expect(note(shelf, box(1000).replace('above: 1000', 'on: s').replace('from: 500, ', ''))).toBeUndefined();
    expect(note(hung(', mass: 20 kg, fixed: true'))).toBeUndefined();
    // beside the case, or well over the shelf, nothing carries it
    expect(note(kase, box(700, 2000))?.verdict).toBe('caution');
    expect(note(shelf, box(1700))?.verdict).toBe('caution');
  });

  it('is reckoned by statics: a mirror turns about its lower edge, its plugs near its top', () => {
    const note = noteOf(hung(`, mass: 20 kg, fix: {${PLUGS}}`), { framing: BRICK })!;
    expect(note.verdict).toBe('fine');
    // by hand: 20 kg × 9.80665 = 196.1 N at 20 mm from the wall; two plugs 950 mm up: T = 196.1 × 20 / (2 × 950) = 2.06 N; V = 98.07 N
    const at = (symbol: string) => Number(note.working!.inputs.find((i) => i.symbol === symbol)!.value);
    expect(at('T')).toBeCloseTo(2.0645, 3);
    expect(at('V')).toBeCloseTo(98.0665, 3);
    // a quarter of 100 and 120 kg each
    expect(note.working!.result.value).toBeCloseTo(2.0645 / 245.166 + 98.0665 / 294.1995, 4);
    expect(noteOf(hung(`, mass: 90 kg, fix: {${PLUGS}}`), { framing: BRICK })!.verdict).toBe('stop');
    expect(noteOf(hung(`, fix: {${PLUGS}}`), { framing: BRICK })!.title).toContain('what it weighs is not known');
  });

  it('turns about the foot of its bracket where it stands off the wall, and nobody can say without its heights', () => {
    const camera = (fix: string) =>
      noteOf(
        `{camera: t, wall: north, from: 500, above: 1800, out: 280, size: {width: 130, height: 100, depth: 120}, focal: 20, mass: 1.5 kg, fix: {${PLUGS}${fix}}}`,
        { framing: BRICK },
      )!;
    const bare = camera('');
    expect(bare.verdict).toBe('caution');
    expect(bare.title).toContain('how high its fixings stand');
    const { working, verdict } = camera(', at: [65], heights: [10, 90]');
    expect(verdict).toBe('fine');
    // by hand: 14.71 N at 340 mm; rows 15 and 95 mm above the foot of the bracket: T = 14.71 × 340 × 95 / (15² + 95²) = 51.37 N
    expect(Number(working!.inputs.find((i) => i.symbol === 'T')!.value)).toBeCloseTo(51.366, 2);
  });

  it('misses the studs like anything else, and its holes are set out', () => {
    // studs at 600, 1000: the thing reaches from 500 to 1300
    const text = hung(', mass: 16 kg, fix: {kind: wood screw, diameter: 5, length: 80}');
    expect(noteOf(text)?.verdict).toBe('fine');
    const narrow = text.replace('width: 800', 'width: 60');
    expect(noteOf(narrow)?.verdict).toBe('stop');
    const { plan } = read(roomOf(`      - ${text}`));
    const scene = sceneOf(plan, plan.options[0]!);
    const input = { ...scene, massOf: massesOf(scene) };
    expect(fixings(input).points.map(({ x, y }) => [x, y])).toEqual([
      [600, 1950],
      [1000, 1950],
    ]);
    const [wall] = settingOut(input);
    expect(wall!.plumb).toBe(500);
  });

  it('bears on its screws over a gap where the board is: by hand, and what they do not hold is cured by stronger ones, or more', () => {
    const mirror = (mass: number, screw: string) =>
      read(roomOf(`      - ${hung(`, mass: ${mass} kg, fix: {${screw}}`)}`));
    const note = (known: ReturnType<typeof mirror>) => noteOn(notesOf(known.plan), 'fixing:t')!;
    const light = note(mirror(16, 'kind: wood screw, diameter: 5, length: 80'));
    // 16 kg hang at 900, the screws at 600 and 1000: three quarters on the nearer. On steel of 3 mm over 12.5 of board in spruce
    // a screw of 5 mm bears 133.6 N for good (root.test.ts), so 16 × 9.80665 × 3/4 / 133.6 = 88 %; board that bore would have left 38 %
    expect(light.working!.result.value).toBeCloseTo((16 * 9.80665 * 0.75) / 133.6, 2);
    expect(light.working!.inputs.find((i) => i.symbol === 'b')!.value).toBe(12.5);
    for (const [mass, screw, title] of [
      [20, 'kind: wood screw, diameter: 5, length: 80', 'Fix it with lag screws 6 mm × 80 mm'],
      [60, 'kind: lag screw', 'Fix it with lag screws 6 mm × 80 mm, in two rows'],
    ] as const) {
      const heavy = mirror(mass, screw);
      const stop = note(heavy);
      expect([stop.verdict, stop.cure?.title]).toEqual(['stop', title]);
      // what is said to hold, holds, and a tenth of a kilogram more does not
      const most = Number(/they hold ([\d.]+) kg/.exec(stop.advice)![1]);
      expect(note(mirror(most, screw)).verdict).toBe('fine');
      expect(note(mirror(most + 0.1, screw)).verdict).toBe('stop');
      expect(noteOn(cured(heavy.plain, stop), 'fixing:t')!.verdict).toBe('fine');
    }
  });

  it('stands held against a child where it stands and the plan fixes it', () => {
    const tall = `{thing: t, wall: north, from: 500, size: {width: 800, height: 1900, depth: 300}, mass: 30 kg, fix: {kind: wood screw, diameter: 5, length: 80}}`;
    const note = noteOf(tall)!;
    expect(note.advice).toContain('child');
    // by hand: 27.216 kg (60 lb) pull outward 1900 mm up, two screws 1850 mm up: T = 266.9 × 1900 / (2 × 1850) = 137.05 N
    expect(Number(note.working!.inputs.find((i) => i.symbol === 'T')!.value)).toBeCloseTo(137.05, 1);
  });
});

describe('what hangs at the ceiling', () => {
  const lamp = (more: string) => noteOf(`{lamp: t, at: {x: 2000, y: 1500}, lumens: 3000${more}}`);

  it('is said to be not checked where the plan says that it weighs something', () => {
    expect(lamp('')).toBeUndefined();
    const note = lamp(', mass: 12 kg')!;
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('12 kg');
    expect(note.advice).toContain('314.27(A)');
    const thing = (above: number) =>
      noteOf(
        `{thing: t, at: {x: 2000, y: 1500}, above: ${above}, size: {width: 900, height: 100, depth: 600}, mass: 8 kg}`,
      );
    expect(thing(2280)?.verdict).toBe('caution');
    expect(thing(740)).toBeUndefined();
  });
});

describe('fix where it means nothing', () => {
  const issuesOf = (piece: string) => {
    const { plan } = read(roomOf(`      - ${piece}`));
    return sceneOf(plan, plan.options[0]!).issues.map(({ path, found, expected, nearest }) => ({
      at: path.slice(4).join('.'),
      found,
      expected,
      nearest,
    }));
  };
  const FIX = 'fix: {kind: wood screw}';
  const free = 'at: {x: 1000, y: 1000}';

  it.each([
    [`{seat: t, ${free}, ${FIX}}`, 'fix', undefined],
    [`{strip: t, wall: north, from: 100, above: 2000, ${FIX}}`, 'fix', undefined],
    [`{absorber: t, wall: north, from: 100, above: 900, size: {width: 600, height: 600}, ${FIX}}`, 'fix', "'backing'"],
    [
      '{case: t, wall: north, from: 0, size: {width: 600, height: 1900, depth: 300}, fix: {kind: wood screw, count: 4}}',
      'fix.count',
      "'at' and 'heights'",
    ],
    [
      '{case: t, wall: north, from: 0, size: {width: 600, height: 1900, depth: 300}, fix: {kind: wood screw, rated: {pull: 90 kg, shear: 90 kg}}}',
      'fix.rated',
      undefined,
    ],
    [
      '{case: t, wall: north, from: 0, size: {width: 600, height: 1900, depth: 300}, fix: {kind: lag screw, safety: 2}}',
      'fix.safety',
      undefined,
    ],
  ])('%s is refused in its place', (piece, at, nearest) => {
    const issues = issuesOf(piece);
    expect(issues.map((i) => [i.at, i.nearest])).toEqual([[at, nearest]]);
    expect([issues[0]!.found, issues[0]!.expected].every((s) => typeof s === 'string')).toBe(true);
  });

  it.each([
    `{thing: t, ${free}, size: {width: 600, height: 600, depth: 300}, ${FIX}}`,
    `{case: t, ${free}, size: {width: 600, height: 900, depth: 300}, ${FIX}}`,
    `{lamp: t, wall: north, from: 500, lumens: 800, ${FIX}}`,
  ])('%s is told to reach no wall: it may have been moved there', (piece) => {
    expect(issuesOf(piece)).toEqual([]);
    const note = noteOf(piece)!;
    expect([note.verdict, note.title.includes('reach no wall')]).toEqual(['caution', true]);
  });

  it('is taken where it means something', () => {
    for (const piece of [
      `{display: t, wall: north, from: 500, above: 1000, size: {width: 900, height: 500, depth: 50}, mass: 9 kg, fix: {kind: wood screw, count: 2}}`,
      hung(', mass: 2 kg, fix: {kind: toggle, rated: {pull: 90 kg, shear: 90 kg}, safety: 5}'),
      `{absorber: t, wall: north, from: 100, above: 900, size: {width: 600, height: 600}, tile: 300, backing: thin, ${FIX}}`,
    ])
      expect([piece, issuesOf(piece)]).toEqual([piece, []]);
  });
});
