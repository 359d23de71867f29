import { expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { lightNotes } from './index.ts';

/** A lamp beside a tall case, or shut into it. */
const notesWith = (from: number) =>
  lightNotes(
    plainRoom([
      '{seat: ann, title: Ann, at: {x: 2000, y: 1500, turn: 180}}',
      '{case: wardrobe, wall: north, from: 1500, size: {width: 1000, height: 2000, depth: 400}}',
      `{lamp: lamp, wall: north, from: ${from}, above: 1000, size: {width: 200, height: 60, depth: 200}, lumens: 800, shape: all round}`,
      '{camera: lens, wall: south, centre: 2000, above: 1100, focal: 24}',
    ]),
  );

it('a face that no light reaches has no colour that is fine, nor a speed for the camera', () => {
  const dark = notesWith(1900);
  expect(dark.map(({ id, verdict }) => [id, verdict])).toEqual([['dark-face:ann', 'caution']]);
  const lit = notesWith(400);
  expect(lit.map(({ id }) => id)).toEqual(expect.arrayContaining(['colour-cast:room', 'exposure:lens']));
  for (const { title, advice } of [...dark, ...lit]) expect(`${title} ${advice}`).not.toMatch(/NaN|Infinity/);
});

it('a room without a lamp is told as that, where somebody is filmed in it', () => {
  const pieces = ['{seat: ann, title: Ann, at: {x: 2000, y: 1500, turn: 180}}'];
  const camera = '{camera: lens, wall: south, centre: 2000, above: 1100, focal: 24}';
  expect(lightNotes(plainRoom([...pieces, camera])).map((n) => n.id)).toEqual(['no-lamp:room']);
  expect(lightNotes(plainRoom(pieces))).toEqual([]);
});
