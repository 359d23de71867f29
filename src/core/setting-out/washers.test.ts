import { expect, it } from 'vitest';
import { massesOf, workOut } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { finishingIn, settingOut } from './index.ts';

/** Lag screws hold a case that hangs by its back, one that hangs by rails, and the steel plate of a display. */
const TEXT = `
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 400, first: 200, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
stock:
  panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220, price: 80}]}]
  packs:
    - {id: washers M6, use: washer, name: washers 6 mm, holds: 20, price: 3}
    - {id: washers M10, use: washer, name: washers 10 mm, holds: 20, price: 2}
make: {panel: ply, back: {kind: rabbeted, panel: ply}, band: none}
options:
  - id: one
    pieces:
      - {case: hung, wall: north, from: 500, above: 1400, size: {width: 900, height: 700, depth: 300}}
      - {case: stood, wall: north, from: 500, size: {width: 900, height: 900, depth: 300}, fix: {kind: wood screw, diameter: 5, length: 80}}
      - {display: d, wall: north, centre: 2600, above: 1200, size: {width: 800, height: 500, depth: 60}, mass: 12 kg, mount: {plate: {width: 500, height: 200}}}
`;

it('a washer goes under each hexagon head on wood, and none on steel or under a flat head: by NDS 12.1.3.3, and as the trade does', () => {
  const { plan } = readPlan(TEXT);
  const outcome = workOut(plan!, plan!.options[0]!, { today: '2026-11-26', effort: { steps: 0 } });
  const { option, room } = outcome;
  const input = { plan: plan!, option, room, pieces: outcome.pieces, massOf: massesOf(outcome) };
  const points = settingOut(input).flatMap(({ holes }) => holes.map(({ point }) => point));
  const kinds = (piece: string) => [
    ...new Set(points.filter((p) => p.piece === piece).map(({ kind, washer }) => `${kind} ${washer ?? false}`)),
  ];
  expect(kinds('hung')).toEqual(['lag screw true']);
  expect(kinds('stood')).toEqual(['wood screw false']);
  expect(kinds('d')).toEqual(['lag screw false']);
  const count = points.filter((p) => p.piece === 'hung').length;
  expect(count).toBeGreaterThan(1);
  const { fittings } = finishingIn(input);
  expect(fittings.filter(({ use }) => use === 'washer')).toMatchObject([{ count, diameter: 6 }]);
  // bought by the size of its screw
  const bought = outcome.bill.lines.filter(({ stock }) => stock.includes('washers'));
  expect(bought.map(({ stock }) => stock)).toEqual(['washers M6']);
});
