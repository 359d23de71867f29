import { expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { powerNotes } from './index.ts';

it('a channel is told to get hot also where no wire is thick enough for its strip', () => {
  const idsOf = (level: number, perMetre: number): readonly string[] =>
    powerNotes(
      plainRoom([
        `{strip: s, wall: north, from: 100, above: 2200, size: {width: 3400}, perMetre: ${perMetre}, level: ${level}}`,
      ]),
    ).map(({ id }) => id);
  // 489 lights of 43 mA: 21 A
  const bright = idsOf(1, 144);
  expect(bright).toContain('strip:s');
  expect(bright).toContain('channel-heat:s');
  expect(idsOf(0.1, 60)).not.toContain('channel-heat:s');
});
