import { expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { lightNotes, lightOf } from './index.ts';

/** Ann faces north; a lamp shines at her, another hangs behind her. */
const sceneWith = (before: number, behind: number) =>
  plainRoom([
    '{seat: ann, title: Ann, at: {x: 2250, y: 2000, turn: 180}}',
    `{lamp: spot, at: {x: 1950, y: 700}, above: 1800, size: {width: 100, height: 100, depth: 100}, lumens: 1500, kelvin: ${before}, shape: beam, angle: 40, towards: {x: 2000, y: 1800, above: 1150}}`,
    `{lamp: bulb, at: {x: 2000, y: 2600}, above: 2000, size: {width: 100, height: 100, depth: 100}, lumens: 1500, kelvin: ${behind}, shape: all round}`,
  ]);
const castIn = (scene: ReturnType<typeof sceneWith>) => lightNotes(scene).find((n) => n.id === 'colour-cast:room')!;

it('where lamps of several colours light a face in other shares than the room, they are named, and no paint is tried on it', () => {
  const [blue, warm] = [castIn(sceneWith(6500, 2700)), castIn(sceneWith(2700, 6500))];
  expect(blue.title).toMatch(/^Lamps of several colours put a .*blue.* cast on Ann/);
  expect(warm.title).toMatch(/^Lamps of several colours put a .*(yellow|orange|red).* cast on Ann/);
  for (const { advice } of [blue, warm]) {
    expect(advice).toContain('Lamps of 2700 to 6500 K');
    expect(advice).not.toContain('paints tried');
  }
  for (const kelvin of [2700, 6500]) expect(castIn(sceneWith(kelvin, kelvin)).title).toMatch(/^The room puts/);
});

it('what the room alone puts on a face is all of its cast where the lamps are of one colour', () => {
  const [face] = lightOf(sceneWith(4000, 4000))!.faces;
  expect(face!.ofRoom).toBeCloseTo(face!.cast.difference, 6);
});
