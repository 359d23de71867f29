import { type Scene, sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';

/** A room of 4 m by some depth, 2.4 m high, of which nothing is said but its sizes, with these pieces in it as a plan writes them. */
export function plainRoom(pieces: readonly string[], depth = 3000): Scene {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2400, walls: [{id: north, length: 4000}, {id: east, length: ${depth}}, {id: south, length: 4000}, {id: west, length: ${depth}}]}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, band: none}
options:
  - id: one
    pieces:
${pieces.map((piece) => `      - ${piece}`).join('\n')}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return sceneOf(plan, plan.options[0]!);
}
