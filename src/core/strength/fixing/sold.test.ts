import { expect, it } from 'vitest';
import { massesOf } from '../../solids.ts';
import { read, roomOf, sceneIn } from '../plan.testing.ts';
import { fixings } from './held.ts';

/** How long the usual screws of a case that hangs are taken where the shop sells one by this name. */
function lengthWith(name: string): number {
  const { plan } = read(
    roomOf(
      '      - {case: c, wall: north, from: 500, above: 1400, size: {width: 800, height: 700, depth: 300}, fix: {kind: wood screw, diameter: 5}}',
      {
        stock: `  packs: [{id: s, use: wood screw, name: ${name}, holds: 50, price: 9}]`,
      },
    ),
  );
  const scene = sceneIn(plan);
  return fixings({ ...scene, massOf: massesOf(scene) }).points[0]!.length!;
}

it('screws are taken as long as the shop sells them, of those as thick as they are reckoned', () => {
  expect(lengthWith('screws 5 × 97 mm')).toBe(97);
  expect(lengthWith('screws 6 × 97 mm')).toBe(80);
  expect(lengthWith('screws 4 × 97 mm')).toBe(80);
});
