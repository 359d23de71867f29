import { describe, expect, it } from 'vitest';
import { noteOn, read, roomOf, sceneIn } from '../plan.testing.ts';
import { fixings } from './held.ts';

const MASONRY = '{kind: masonry, masonry: solid brick, board: 15}';
const STOCK = '  boards:\n    - {id: batten, species: spruce, thickness: 32, width: 48, lengths: [{length: 3000}]}';
const RATED = 'rated: {pull: 280 kg, shear: 350 kg}';
const sceneWith = (piece: string, framing = MASONRY) =>
  sceneIn(read(roomOf(`      - ${piece}`, { framing, stock: STOCK })).plan);
const heldIn = (piece: string, framing?: string) =>
  fixings({ ...sceneWith(piece, framing), massOf: () => 1 }).pieces[0]!;

const shelf = (fix: string) =>
  `{shelf: s, wall: north, from: 600, above: 1500, size: {width: 1200, height: 45, depth: 220}, skin: thin, core: batten, fix: {${fix}}}`;
const hung = (fix: string) =>
  `{case: c, wall: north, from: 600, above: 1400, size: {width: 800, height: 700, depth: 300}, fix: {${fix}}}`;

describe('anchors stand six diameters apart', () => {
  it('of the pair at each rod, so that both count', () => {
    for (const diameter of [8, 10]) {
      const held = heldIn(shelf(`kind: plug, diameter: ${diameter}, length: 80, ${RATED}`));
      const xs = held.points.map((p) => p.x).sort((a, b) => a - b);
      for (const [i, x] of xs.slice(1).entries()) expect(x - xs[i]!).toBeGreaterThanOrEqual(6 * diameter - 1e-6);
      expect(held.crowded).toBeUndefined();
      expect(held.points.every((p) => p.shear > 0)).toBe(true);
    }
  });

  it('nearer ones count as one, and the note says so; screws in a stud are not asked', () => {
    const near = hung(`kind: plug, diameter: 10, length: 80, at: [100, 122, 700], ${RATED}`);
    const held = heldIn(near);
    expect(held).toMatchObject({ crowded: 2 });
    expect(held.points.filter((p) => p.shear > 0)).toHaveLength(4);
    const alone = heldIn(hung(`kind: plug, diameter: 10, length: 80, at: [100, 700], ${RATED}`));
    expect(held.use).toBeCloseTo(alone.use!, 9);
    const note = noteOn(sceneWith(near).notes, 'fixing:c')!;
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('2 of 6 holes stand too near another');
    const screws = heldIn(
      hung('kind: wood screw, diameter: 5, length: 80, at: [390, 410]'),
      '{kind: timber stud, spacing: 400, first: 200}',
    );
    expect(screws.crowded).toBeUndefined();
  });
});
