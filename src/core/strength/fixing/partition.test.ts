import { describe, expect, it } from 'vitest';
import { noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const G = 9.80665;
const walls = (more = '', board = 12.5) => `{kind: steel stud, spacing: 400, first: 200, board: ${board}${more}}`;
/** Screwed into every stud that it reaches. */
const hung = (name: string, width: number, kg: number, { from = 300, above = 1500, depth = 200 } = {}) => {
  const at = [200, 600, 1000, 1400, 1800, 2200, 2600, 3000, 3400, 3800].map((x) => x - from);
  const within = at.filter((x) => x > 20 && x < width - 20).join(', ');
  const size = `{width: ${width}, height: 500, depth: ${depth}}`;
  const fix = `{kind: self-drilling screw, diameter: 5.5, length: 50, at: [${within}], heights: [50, 450]}`;
  return `      - {thing: ${name}, wall: north, from: ${from}, above: ${above}, mass: ${kg} kg, size: ${size}, fix: ${fix}}`;
};
const notes = (pieces: readonly string[], framing = walls(', mils: 43')) =>
  notesOf(read(roomOf(pieces.join('\n'), { framing })).plan);
const use = (pieces: readonly string[], framing?: string): number =>
  noteOn(notes(pieces, framing), 'partition:north')!.working!.result.value;

describe('what hangs on a wall of steel studs', () => {
  it('is held against what a partition bears to the metre: 24 kg of a cupboard 600 mm wide, by the board on it (DIN 4103-1, DIN 18183-1)', () => {
    expect(use([hung('c', 600, 24)])).toBeCloseTo((24 * G) / 0.6 / 400, 9);
    expect(noteOn(notes([hung('c', 600, 24)]), 'partition:north')!.verdict).toBe('fine');
    const more = noteOn(notes([hung('c', 600, 25)]), 'partition:north')!;
    expect([more.verdict, more.about]).toEqual(['caution', 'c']);
    expect(use([hung('c', 600, 24)], walls(', mils: 43', 18))).toBeCloseTo((24 * G) / 0.6 / 700, 9);
    expect(use([hung('c', 600, 24)], walls(', mils: 43', 25))).toBeCloseTo((24 * G) / 0.6 / 1500, 9);
  });

  it('that hangs on the board alone has no more of two layers than of one thick one', () => {
    const toggles = hung('c', 600, 24).replace(
      /fix: .*\}/,
      'fix: {kind: toggle, diameter: 6, rated: {pull: 100 kg, shear: 100 kg}, at: [100, 500], heights: [50, 450]}}',
    );
    expect(use([toggles], walls(', mils: 43', 25))).toBeCloseTo((24 * G) / 0.6 / 700, 9);
    expect(use([toggles], walls(', mils: 43'))).toBeCloseTo((24 * G) / 0.6 / 400, 9);
  });

  it('counts a metre of what is wider, a stud’s share at least of what is narrower, and all that hangs above or beside in it', () => {
    const one = use([hung('c', 2000, 60)]);
    expect(one).toBeCloseTo((60 * G) / 2 / 400, 9);
    expect(use([hung('c', 2000, 60), hung('d', 2000, 60, { above: 800 })])).toBeCloseTo(2 * one, 9);
    // what hangs elsewhere changes nothing
    expect(use([hung('c', 1000, 30), hung('d', 1000, 20, { from: 2800 })])).toBeCloseTo((30 * G) / 400, 9);
    // half of the metre is the other's
    expect(use([hung('c', 1000, 30), hung('d', 1000, 10, { from: 1300 })])).toBeCloseTo((30 * G) / 400, 9);
    expect(use([hung('n', 100, 12, { from: 550 })])).toBeCloseTo((12 * G) / 0.4 / 400, 9);
  });

  it('counts by its moment what hangs further out than 300 mm, and less in studs of thinner sheet than 0.6 mm', () => {
    const far = hung('c', 600, 12, { depth: 900 });
    expect(use([far])).toBeCloseTo((1.5 * 12 * G) / 0.6 / 400, 9);
    const thin = ((0.0179 / 0.95) * 25.4) / 0.6;
    expect(use([hung('c', 600, 12)], walls(', mils: 18'))).toBeCloseTo((12 * G) / 0.6 / 400 / thin ** 2, 9);
    // nobody said how thin
    expect(use([hung('c', 600, 12)], walls())).toBeCloseTo(use([hung('c', 600, 12)], walls(', mils: 18')), 12);
  });

  it('is told to the foot in a plan in inches, with the boards that are sold there', () => {
    const { plan } = read(roomOf(hung('c', 600, 24), { framing: walls(', mils: 43') }));
    const told = (length: 'mm' | 'ft-in') =>
      noteOn(notesOf({ ...plan, units: { ...plan.units, length } }), 'partition:')!;
    expect(told('mm').title).toContain('40 kg to the metre');
    expect(told('mm').advice).toContain('40.8 kg to the metre up to 300 mm out, for 71.4 kg with 18 mm');
    // 400 N/m are 27.4 lb/ft
    expect(told('ft-in').title).toContain('26.9 lb to the foot');
    expect(told('ft-in').advice).toContain('27.4 lb to the foot up to 12" out, for 48 lb with 3/4"');
  });

  it('is not asked of timber studs, nor of what stands', () => {
    expect(noteOn(notes([hung('c', 600, 60)], walls().replace('steel', 'timber')), 'partition:')).toBeUndefined();
    const stands = '      - {case: s, wall: north, from: 200, size: {width: 600, height: 900, depth: 300}}';
    expect(noteOn(notes([stands]), 'partition:')).toBeUndefined();
  });
});
