import { describe, expect, it } from 'vitest';
import { cured, noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const stood = (more = '', size = '{width: 800, height: 2000, depth: 300}') =>
  read(roomOf(`      - {case: c, wall: north, from: 500, size: ${size}, inside: {fixed: 4}${more}}`));
const noteOf = (known: ReturnType<typeof stood>) => noteOn(notesOf(known.plan), 'fixing:c')!;
const inputsOf = (known: ReturnType<typeof stood>) =>
  Object.fromEntries(noteOf(known).working!.inputs.map(({ symbol, value }) => [symbol, value]));
/** 60 lb, N. */
const CHILD = 60 * 0.45359237 * 9.80665;

describe('a case that stands is held against being pulled over', () => {
  it('by its top, with a child’s weight: by hand, two studs behind it, screws 50 below its top', () => {
    const { m, e, h, n, T, V } = inputsOf(stood());
    expect([m, e, h, n]).toEqual([expect.closeTo(27.2155, 4), 2000, 1950, 2]);
    // moments about the lower edge: 2 T × 1950 = 266.9 × 2000
    expect(T).toBeCloseTo((CHILD * 2000) / (2 * 1950), 6);
    expect(T).toBeCloseTo(136.87, 2);
    expect(V).toBeCloseTo(CHILD / 2, 6);
  });
  it('lower fixings are pulled the more, and rows in proportion to their heights', () => {
    const low = inputsOf(stood(', fix: {kind: wood screw, diameter: 5, length: 80, heights: [1000]}'));
    expect(low.T).toBeCloseTo((CHILD * 2000) / (2 * 1000), 6);
    const rows = inputsOf(stood(', fix: {kind: wood screw, diameter: 5, length: 80, heights: [1000, 1900]}'));
    expect(rows.T).toBeCloseTo((CHILD * 2000 * 1900) / (2 * (1000 ** 2 + 1900 ** 2)), 6);
  });
  it('never with less than a child who hangs before its front, where it is deeper than it is high', () => {
    const deep = ', fix: {kind: wood screw, diameter: 5, length: 80, heights: [450]}';
    const { e, T } = inputsOf(stood(deep, '{width: 800, height: 500, depth: 600}'));
    expect(e).toBe(700);
    expect(T).toBeCloseTo((CHILD * 700) / (2 * 450), 6);
  });
  it('what one screw in a thin back does not hold is told with what gives way, and cured by a rail at its top', () => {
    const narrow = stood('', '{width: 390, height: 2000, depth: 300}');
    const note = noteOf(narrow);
    expect(note.verdict).toBe('caution');
    // 273.7 N on one flat head of 9.2 mm in 5.3 mm of plywood
    const inch = (mm: number) => mm / 25.4;
    const left = 6 - (5 * (11 / 6) - 5) / 6;
    const head = 690 * Math.PI * inch(5 * (11 / 6)) * 0.42 ** 2 * inch(left) * 0.9 * 4.4482216;
    expect(note.working!.result.value).toBeGreaterThanOrEqual((CHILD * 2000) / 1950 / head - 1e-6);
    expect(note.advice).toContain('heads pull through');
    expect(note.advice).toContain('27.2 kg');
    expect(note.cure!.title).toContain('a hanging rail behind its back');
    const notes = cured(narrow.plain, note);
    expect(noteOn(notes, 'fixing:c')!.verdict).toBe('fine');
    expect(noteOn(notes, 'rails:c')!.verdict).toBe('fine');
  });
  it('one without a stud behind it is held by its neighbour, and is told where that is not held yet', () => {
    const beside = (back: string) => {
      const make = `make: {back: {kind: applied, panel: ${back}}}`;
      const tall = (width: number) => `size: {width: ${width}, height: 2000, depth: 300}, ${make}`;
      const pieces = [`{case: a, wall: north, from: 450, ${tall(800)}}`, `{case: b, after: a, ${tall(120)}}`];
      const notes = notesOf(read(roomOf(pieces.map((p) => `      - ${p}`).join('\n'))).plan);
      return [noteOn(notes, 'fixing:a')!, noteOn(notes, 'fixing:b')!] as const;
    };
    const [thin, leans] = beside('thin');
    expect([thin.verdict, leans.verdict]).toEqual(['caution', 'caution']);
    expect(leans.title).toContain('a beside it must hold it');
    expect(leans.advice).toContain('a is not held well enough yet');
    const [thick, held] = beside('ply');
    expect([thick.verdict, held.verdict]).toEqual(['fine', 'caution']);
    expect(held.advice).not.toContain('well enough');
  });
});
