import { describe, expect, it } from 'vitest';
import { noteOn, notesOf, read, roomOf as room } from './plan.testing.ts';

const stock = `    - {id: oak, kind: white oak, thickness: 20, sizes: [{length: 2400, width: 600}]}
    - {id: oak-faced, kind: oak veneered board, thickness: 20, sizes: [{length: 2440, width: 1220}]}
  boards:
    - {id: strip, species: white oak, thickness: 20, width: 140, lengths: [{length: 3000}]}`;
const caseWith = (rest: string) =>
  notesOf(
    read(
      room(
        `      - {case: low, wall: north, from: 300, size: {width: 900, height: 700, depth: 500}, inside: {shelves: 1}, ${rest}}`,
        { stock },
      ),
    ).plan,
  );

/** Wood Handbook FPL-GTR-190 (2010), table 4-2 at 21.1 °C: 6.2 % at 30 % humidity, 11.0 % at 60 %. */
const [DRY, DAMP] = [6.2, 11.0];
/** White oak, table 4-3: 10.5 % tangential. Eqs. (13-1), (13-2) about 10 %: 1 / (30·100/10.5 − 30 + 10) = 1 / 265.714. */
const OAK = 1 / 265.714;

describe('solid wood held across its grain', () => {
  it('a solid oak top screwed to a plywood case: as far as the handbook says, with a way to let it move', () => {
    const note = noteOn(caseWith('top: {stock: oak, front: 30}'), 'across-grain:low')!;
    expect(note).toMatchObject({ id: 'across-grain:low/separate-top', verdict: 'caution' });
    // held over the depth of the case, not over its overhang; two figures rounded to 0.1 leave 0.1 of 4.8
    const held = note.working!.inputs.find((i) => i.symbol === 'D')!.value as number;
    expect(held).toBeGreaterThan(450);
    expect(held).toBeLessThanOrEqual(500);
    expect(Math.abs(note.working!.result.value / (held * OAK * (DAMP - DRY)) - 1)).toBeLessThan(0.1 / 4.8);
    expect(note.advice).toMatch(/slotted holes.*figure-eight clips/);
  });

  it('is said of what really is solid, across its grain and fixed, and of nothing else', () => {
    // plywood top; a top with wood on its face only; solid on solid, grain the same way
    expect(noteOn(caseWith('top: {stock: ply}'), 'across-grain')).toBeUndefined();
    expect(noteOn(caseWith('top: {stock: oak-faced}'), 'across-grain')).toBeUndefined();
    expect(
      noteOn(caseWith('top: {stock: oak}, make: {panel: oak, back: {kind: none}}'), 'across-grain'),
    ).toBeUndefined();
  });

  it('a narrow lip may be glued on, a wide one tears', () => {
    const shelf = (height: number) =>
      notesOf(
        read(
          room(
            `      - {shelf: float, wall: north, from: 500, above: 1400, size: {width: 1000, height: ${height}, depth: 250}, skin: thin, core: ply, lip: {stock: strip}, rods: {diameter: 12}, load: 10 kg}`,
            { stock },
          ),
        ).plan,
      );
    expect(noteOn(shelf(60), 'across-grain')).toBeUndefined();
    expect(noteOn(shelf(120), 'across-grain')).toMatchObject({ id: 'across-grain:float/lip', verdict: 'caution' });
    expect(noteOn(shelf(120), 'across-grain')!.advice).toContain('Glue it along one edge only');
  });
});
