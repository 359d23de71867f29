import { describe, expect, it } from 'vitest';
import { cured, curedPlan, noteOn, notesOf, read, roomOf, sceneIn } from '../plan.testing.ts';

const hung = (more = '', room = {}) =>
  read(
    roomOf(
      `      - {case: c, wall: north, from: 500, above: 1400, size: {width: 800, height: 700, depth: 300}, inside: {shelves: 1}${more}}`,
      room,
    ),
  );
const RAILED = ', make: {back: {kind: grooved, inset: 18}}, rails: {stock: ply}';
const fixing = (more: string) => noteOn(notesOf(hung(more).plan), 'fixing:c')!;
const inputOf = (more: string, symbol: string) => fixing(more).working!.inputs.find((i) => i.symbol === symbol)?.value;

describe('the heads of screws through a back', () => {
  it('pull through a thin one at what NDS-2018 12.2.5 gives it, before the stud lets go', () => {
    // flats of 13 mm (DIN 571) on 6 mm of plywood, G 0.42 (table 12.3.3B), C_D 0.9 (table 2.3.2)
    const pounds = 690 * Math.PI * (13 / 25.4) * 0.42 ** 2 * (6 / 25.4) * 0.9;
    const widest = (pounds * 0.5) / (13 / 25.4);
    const note = fixing(', fix: {kind: lag screw, diameter: 8, length: 120}');
    expect(note.working!.inputs.find((i) => i.symbol === 'W')!.value).toBeCloseTo(widest * 4.4482216, 3);
    expect(note.working!.assumes.join()).toContain('12.2.5');
    expect(note.verdict).toBe('stop');
    expect(note.advice).toContain('heads pull through');
    expect(note.advice).toContain('a thicker back, or hanging rails behind it, bears more');
  });
  it('pull through rails too, where nothing is told of putting rails', () => {
    const rails = RAILED.replace('ply}', 'thin, height: 60}').replace('inset: 18', 'inset: 6');
    const { advice } = fixing(`${rails}, carries: books, fix: {kind: lag screw, diameter: 8, length: 120}`);
    expect(advice).toContain('thicker rails, or washers under the heads, bear more');
  });
  it('hold in a thick one, where what is behind it may decide', () => {
    const thick = ', make: {back: {kind: applied, panel: ply}}, fix: {kind: lag screw, diameter: 6, length: 80}';
    expect(inputOf(thick, 'D_H')).toBe(10);
    // two and a half heads of 10 mm are more than the 18 mm it has
    const pounds = 690 * Math.PI * (10 / 25.4) * 0.42 ** 2 * (18 / 25.4) * 0.9;
    expect(inputOf(thick, 'W')).toBeCloseTo(pounds * 4.4482216, 3);
    const steel = { framing: '{kind: steel stud, mils: 18, spacing: 400, first: 200, board: 12.5}' };
    const headOn = (back: string) =>
      noteOn(notesOf(hung(`, make: {back: ${back}}`, steel).plan), 'fixing:c')!.working!.inputs.find(
        (i) => i.symbol === 'D_H',
      );
    // 0.85 · 0.479 · 4.8 · 310 / 3 = 202 N out of the sheet; 126 N through 6 mm, 370 N through 18 mm
    expect(headOn('{kind: applied, panel: ply}')).toBeUndefined();
    expect(headOn('{kind: applied, panel: thin}')).toBeDefined();
  });
});

describe('hanging rails', () => {
  it('are what a case with a thin back is offered, with screws that hold, and they hold the case', () => {
    const { plan, plain } = hung();
    const before = noteOn(notesOf(plan), 'fixing:c')!;
    expect(before.cure!.title).toContain('hanging rails');
    const notes = cured(plain, before);
    expect(noteOn(notes, 'fixing:c')!.verdict).toBe('fine');
    expect(noteOn(notes, 'fixing:c')!.advice).not.toContain('joint of the back');
    expect(noteOn(notes, 'rails:c')!.verdict).toBe('fine');
    const [piece] = sceneIn(curedPlan(plain, before).plan).pieces;
    expect(piece!.parts.filter((p) => p.role === 'hanging rail').map((p) => [p.label.name, p.size.length])).toEqual([
      ['top hanging rail', 764],
      ['bottom hanging rail', 764],
    ]);
  });
  it.each([
    // rails of 90 between bottom and top of 18: in the middle of the lower, 25 from the edges of the upper
    [800, 'at each stud two in the upper rail and one in the lower', [18 + 45, 700 - 18 - 65, 700 - 18 - 25]],
    // rails of 160, which have three screws in each end
    [1200, 'at each stud three in the upper rail and two in the lower', [43, 153, 547, 602, 657]],
  ])('take more screws where one at each stud does not hold, most in the upper: %i wide', (width, words, heights) => {
    const { plan, plain } = read(
      roomOf(
        `      - {case: c, wall: north, from: 200, above: 1400, size: {width: ${width}, height: 700, depth: 320}, inside: {shelves: 1}}`,
        { framing: `{kind: timber stud, spacing: ${width === 800 ? 400 : 600}, first: 300, board: 12.5}` },
      ),
    );
    const before = noteOn(notesOf(plan), 'fixing:c')!;
    expect(before.cure!.title).toContain(words);
    expect(curedPlan(plain, before).plan.options[0]!.pieces[0]!.fix!.heights).toEqual(heights);
    const notes = cured(plain, before);
    expect(['fixing:c', 'rails:c'].map((id) => noteOn(notes, id)!.verdict)).toEqual(['fine', 'fine']);
  });
  it('take the screws through their middles and bear under the heads with the back', () => {
    const { plan } = hung(RAILED);
    const { working } = noteOn(notesOf(plan), 'fixing:c')!;
    // of 700: 18 of bottom and half of 90 up, the same down
    expect(working!.inputs.find((i) => i.symbol === 'h')!.value).toBeCloseTo(700 - 18 - 45, 9);
    // 12.5 of board, 18 of rail, 6 of back
    expect(working!.inputs.find((i) => i.symbol === 't')!.value).toBeCloseTo(36.5, 9);
  });
  it('do not bear what the plan puts beside them', () => {
    expect(inputOf(`${RAILED}, fix: {kind: lag screw, diameter: 8, length: 120, heights: [350]}`, 't')).toBeCloseTo(
      12.5 + 18 + 6,
      9,
    );
    expect(inputOf(`${RAILED}, fix: {kind: lag screw, diameter: 8, length: 120, heights: [350]}`, 't_H')).toBe(6);
    expect(fixing(`${RAILED}, fix: {kind: lag screw, diameter: 8, length: 120, heights: [637, 63]}`).verdict).toBe(
      'fine',
    );
  });
  it('are told to need more screws where those at their ends do not hold', () => {
    const many = Array.from({ length: 12 }, (_, i) => 60 + 60 * i).join();
    const heavy = read(
      roomOf(
        `      - {case: c, wall: north, from: 0, above: 400, carries: books, size: {width: 2300, height: 1900, depth: 600}, inside: {fixed: 6}, make: {back: {kind: grooved, inset: 18}}, rails: {stock: ply, height: 60}, fix: {kind: plug, diameter: 12, length: 140, at: [${many}], rated: {pull: 2000 kg, shear: 2000 kg}}}`,
        { framing: '{kind: masonry, board: 12.5}' },
      ),
    );
    const note = noteOn(notesOf(heavy.plan), 'rails:c')!;
    expect(note.verdict).toBe('stop');
    expect(note.working!.result.value).toBeGreaterThan(1);
  });
  it('want a back in a groove with room behind it', () => {
    const issues = (more: string) => {
      const { plan } = hung(more);
      return import('../../outcome.ts').then(({ sceneOf }) => sceneOf(plan, plan.options[0]!).issues);
    };
    return Promise.all([
      expect(issues(', rails: {stock: ply}')).resolves.toMatchObject([{ found: 'rabbeted', expected: 'grooved' }]),
      expect(issues(', rails: {stock: ply}, make: {back: {kind: grooved, inset: 12}}')).resolves.toMatchObject([
        { found: '12 mm', expected: 'at least 18 mm' },
      ]),
    ]);
  });
});
