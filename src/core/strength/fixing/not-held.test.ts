import { describe, expect, it } from 'vitest';
import { noteOn, notesOf, read, roomOf } from '../plan.testing.ts';

const TIMBER = '{kind: timber stud, spacing: 400, first: 200, board: 12.5}';
const noteOf = (piece: string, stock = '') =>
  noteOn(notesOf(read(roomOf(`      - ${piece}`, { framing: TIMBER, stock })).plan), 'fixing:c')!;
const hung = (more: string) =>
  `{case: c, wall: north, from: 500, above: 1400, size: {width: 800, height: 700, depth: 300}${more}}`;

describe('what opens behind the board', () => {
  const open = (kind: string, at: string) =>
    noteOf(hung(`, fix: {kind: ${kind}, diameter: 8, at: [${at}], rated: {pull: 280 kg, shear: 280 kg}}`));

  it('does not open in a stud, and a note that leaves such holes out is no fine one', () => {
    for (const kind of ['toggle', 'hollow-wall anchor']) {
      // studs at 600 and 1000: 100 and 500 from the left end of the case
      expect(open(kind, '300, 700').verdict).toBe('fine');
      const some = open(kind, '100, 300, 700');
      expect(some.verdict).toBe('caution');
      expect(some.title).toContain('2 of 6 holes land on the framing');
      const all = open(kind, '100, 500');
      expect(all.verdict).toBe('stop');
      expect(all.title).toContain('cannot open');
    }
  });
});

describe('a hung case of which not every part is weighed', () => {
  const odd = '    - {id: odd, kind: zebra board, thickness: 18, sizes: [{length: 2440, width: 1220}]}';

  it('is told as not known, never as fine; what is known to be too much stays a stop', () => {
    const held = ', fix: {kind: lag screw, diameter: 8, length: 120, heights: [50, 350, 650]}';
    expect(noteOf(hung(held), odd).verdict).toBe('fine');
    const note = noteOf(hung(`, make: {panel: odd}${held}`), odd);
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('what it weighs is not known');
    const weak = noteOf(
      hung(', make: {panel: odd}, fix: {kind: wood screw, diameter: 4, length: 45, at: [100], heights: [650]}'),
      odd,
    );
    expect(weak.verdict).toBe('stop');
  });

  it('and so is a lining: what is known of it to be too much stays a stop', () => {
    const tiles = (backing: string, more: string) =>
      noteOf(
        `{absorber: c, wall: north, from: 200, above: 100, size: {width: 2400, height: 2000, depth: 100}, material: rigid glass-fibre board 2 in, tile: 400, backing: ${backing}${more}}`,
        odd,
      );
    const few = ', fix: {kind: wood screw, diameter: 4, length: 80, at: [1200], heights: [1600]}';
    expect(tiles('ply', few).verdict).toBe('stop');
    const note = tiles('odd', '');
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('what it weighs is not known');
    expect(tiles('odd', few).verdict).toBe('stop');
  });
});
