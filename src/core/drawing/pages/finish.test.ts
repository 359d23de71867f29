import { expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { textsOf } from '../draw.ts';
import { inputOf } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { finishPages } from './finish.ts';

/** Sheets of a long wall with so many cases apart from each other: each adds three scribe mouldings and a length of skirting. */
function sheetsOf(cases: number): ReturnType<typeof finishPages> {
  const pieces = Array.from(
    { length: cases },
    (_, i) =>
      `{case: c${i}, wall: north, from: ${200 + i * 500}, size: {width: 400, height: 800, depth: 300}, toe: {height: 80, setback: 50}}`,
  );
  const { plan } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 9000}, {id: east, length: 3000}, {id: south, length: 9000}, {id: west, length: 3000}]
stock:
  panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]
  boards: [{id: base, species: spruce, thickness: 15, width: 70, lengths: [{length: 2400}]}]
make: {panel: ply, back: {kind: none}, band: none}
options: [{id: one, finish: {skirting: base, scribe: base, walls: [north]}, pieces: [${pieces.join(', ')}]}]
`);
  return finishPages(deskOf(inputOf(plan!, plan!.options[0]!), 'A4'));
}

it('no heading of trim and finish stands alone at the foot of a sheet, however many mouldings there are', () => {
  const lengths = new Set<number>();
  for (let cases = 1; cases <= 16; cases++) {
    const sheets = sheetsOf(cases);
    lengths.add(sheets.length);
    for (const { marks } of sheets) {
      const texts = textsOf(marks);
      const foot = Math.max(...texts.map((t) => t.at.y));
      expect(texts.filter((t) => t.at.y === foot).map((t) => t.text)).not.toContainEqual(
        expect.stringMatching(/^(?:Mouldings, measured|What it takes|In this order)/),
      );
    }
  }
  expect(lengths.size).toBeGreaterThan(1);
});
