import { expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { soundNotes } from './index.ts';

const told = (...pieces: readonly string[]) => soundNotes(plainRoom(pieces)).filter((n) => n.id.startsWith('held:'));
const tiles = (where: string): string => `{absorber: foam, ${where}, size: {width: 600, height: 600}}`;
const wall = 'wall: north, from: 500, above: 1000';

it('an absorber on no wall is told to be left out of the sound', () => {
  expect(told(tiles('at: {x: 1000, y: 1500}, above: 1000'))[0]!.title).toMatch(/^foam hangs on no wall: /);
  expect(told(tiles(wall))).toEqual([]);
});

it('tiles with air behind them hang on nothing, unless on a backing or on a lining that lies there', () => {
  const [note] = told(tiles(`${wall}, out: 60`));
  expect(note!.title).toBe('foam stands 60 mm off its wall, and nothing is behind its tiles to glue them to');
  expect(note!.cure!.edits).toEqual([{ op: 'remove', path: ['options', 0, 'pieces', 0, 'out'] }]);
  expect(told(tiles(`${wall}, out: 60, backing: ply`))).toEqual([]);
  const lining = (from: number) =>
    `{lining: board, wall: north, from: ${from}, above: 900, size: {width: 800, height: 800}, panel: ply}`;
  expect(told(tiles(`${wall}, out: 18`), lining(400))).toEqual([]);
  expect(told(tiles(`${wall}, out: 18`), lining(1200))).toHaveLength(1);
});
