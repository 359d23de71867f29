import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { QuantityInput } from '../notes/index.ts';
import { parseQuantity } from '../quantity/index.ts';
import { findCalculator, listChecks, reckon } from './index.ts';

/** Which way an answer goes as one of its inputs grows, the others as they are: `+` it never falls, `-` it never rises. */
const WAYS: Readonly<Record<string, Readonly<Record<string, '+' | '-'>>>> = {
  // more load, a longer span or a longer reach never bends or pulls less; more wood or steel never more
  'shelf-sag': {
    span: '+',
    load: '+',
    'line-load': '+',
    'area-load': '+',
    'point-load': '+',
    thickness: '-',
    modulus: '-',
  },
  'shelf-span': { thickness: '+', modulus: '+', 'area-load': '-', 'creep-factor': '-' },
  'shelf-load': { span: '-', thickness: '+', depth: '+', modulus: '+' },
  'shelf-thickness': { span: '+', load: '+', depth: '-', modulus: '-' },
  'lip-height': { span: '+', load: '+', 'lip-thickness': '-' },
  'rod-shelf': { load: '+', reach: '+', diameter: '-', rods: '-', share: '+' },
  'shelf-between-rods': { load: '+', skin: '-', height: '-', depth: '-' },
  'final-sag': { initial: '+', 'lasting-share': '+', factor: '+' },
  'fixing-use': { tension: '+', shear: '+', pull: '-', lateral: '-' },
  'combined-loading': { withdrawal: '+', lateral: '+' },
  'fixing-margin': { capacity: '+', demand: '-', factor: '-' },
  'bracket-tension': { load: '+', reach: '+', height: '-' },
  'row-tensions': { load: '+', reach: '+', moment: '+' },
  'fixing-twist': { load: '+' },
  'tipping-pull': { mass: '+', depth: '+', height: '-' },
  'lag-withdrawal': { penetration: '+', gravity: '+', count: '+' },
  'screw-withdrawal': { penetration: '+', gravity: '+', diameter: '+' },
  'steel-stud-pullout': { thickness: '+', diameter: '+', safety: '-' },
  'let-in-bending': { pull: '+', weight: '+', height: '-', thickness: '-', count: '-', gravity: '-' },
  'partition-load': { load: '+', reach: '+', board: '-', sheet: '-' },
  'anchor-working-load': { ultimate: '+', safety: '-' },
  // farther and heavier is harder to lift; narrower ways let less through
  'lifting-limit': { reach: '-', travel: '-', frequency: '-', twist: '-' },
  'lifting-index': { load: '+', reach: '+', travel: '+' },
  'end-lift': { mass: '+' },
  'corner-turn': { from: '+', to: '+', thickness: '-' },
  'corner-pass': { from: '+', to: '+', width: '-', depth: '-' },
  'door-pass': { 'door-width': '+', 'door-height': '+', width: '-', depth: '-' },
  'vehicle-fit': { 'space-length': '+', 'space-width': '+', 'space-height': '+', width: '-', height: '-', depth: '-' },
  'tallest-case': { ceiling: '+', depth: '-' },
  // more wall, more coats and more waste never take less
  'paint-needed': { area: '+', perimeter: '+', height: '+', openings: '-', coats: '+', rate: '-' },
  'sealant-length': { pack: '+', width: '-', depth: '-' },
  'edge-banding': { count: '+', overhang: '+', waste: '+' },
  // a longer wire and more current never lose less, a thicker wire never more
  'wire-drop': { length: '+', current: '+', resistance: '+' },
  'wire-resistance': { gauge: '+', temperature: '+' },
  'wire-for-drop': { length: '+', current: '+', drop: '-' },
  'feed-voltage': { length: '+', uniform: '+', loop: '+' },
  'uniform-line-drop': { length: '+', uniform: '+', loop: '+' },
  'two-end-drop': { current: '+', resistance: '+' },
  'ladder-drop': { count: '+', current: '+', section: '+' },
  'strip-lowest-voltage': { voltage: '+', rail: '-', each: '-', count: '-' },
  'strip-current': { length: '+', density: '+', each: '+', level: '+' },
  'supply-power': { voltage: '+', current: '+' },
  'fuse-for-load': { load: '+' },
  'channel-temperature-rise': { power: '+', perimeter: '-' },
  'gear-warming': { power: '+', area: '-', height: '-' },
  'vent-area': { power: '+', rise: '-', height: '-' },
  'frame-rate': { pixels: '-' },
  // a larger room rings longer, one with more to swallow it shorter; farther is fainter
  'reverberation-sabine': { volume: '+', objects: '-' },
  'reverberation-eyring': { volume: '+' },
  'reverberation-arau': { volume: '+' },
  'reverberation-fitzroy': { volume: '+' },
  'reverberation-millington': { volume: '+' },
  'absorption-after-covering': { absorber: '+', before: '+', covered: '-' },
  'absorbers-needed': { before: '+', after: '-', volume: '+', absorber: '-' },
  'direct-to-reverberant': { distance: '-', critical: '+' },
  'articulation-loss': { distance: '+', time: '+' },
  'critical-distance': { 'room-constant': '+', volume: '+', time: '-' },
  'flutter-decay': { distance: '+' },
  'reflection-loss': { coefficient: '+' },
  'tiles-per-row': { wall: '+', tile: '-' },
  // from farther back more is in frame; a longer lens and a wider stop have less of it sharp
  'frame-size': { distance: '+', focal: '-' },
  'frame-distance': { people: '+', shoulder: '+', gap: '+', margin: '+', focal: '+' },
  'angle-of-view': { focal: '-' },
  'depth-of-field': { focal: '-', stop: '+', focus: '+' },
  'hyperfocal-distance': { focal: '+', stop: '-' },
  'pitch-in-pixels': { pitch: '+', distance: '-' },
  // a brighter lamp never gives less light, one farther off never more
  'point-illuminance': { flux: '+', intensity: '+' },
  'normal-illuminance': { intensity: '+', distance: '-' },
  'disc-illuminance': { luminance: '+', radius: '+', height: '-' },
  'enclosure-illuminance': { flux: '+', reflectance: '+' },
  'mean-illuminance': { count: '+', power: '+', efficacy: '+', area: '-' },
  'lumens-needed': { illuminance: '+', area: '+', utilisation: '-', maintenance: '-' },
  'display-contrast': { white: '+', illuminance: '-' },
  // damp and cold dry slower; more to do takes longer, and is less likely done by a day
  'drying-time': { tin: '+', temperature: '-', humidity: '+' },
  'three-point': { least: '+', likely: '+', most: '+' },
  'deadline-chance': { by: '+' },
  'board-feet': { length: '+', width: '+', thickness: '+' },
  'piece-weight': { length: '+', width: '+', thickness: '+', density: '+' },
  'seasonal-movement': { width: '+', coefficient: '+' },
};
const LAWS = Object.entries(WAYS).flatMap(([name, ways]) =>
  Object.entries(ways).map(([input, way]) => ({ name, input, way })),
);

it.each(LAWS)('$name: with more $input it goes $way', ({ name, input, way }) => {
  const found = findCalculator(name);
  if (!found.ok) throw new Error(`no calculator ${name}`);
  const spec = found.value.inputs[input] as QuantityInput;
  const starts = listChecks().flatMap(({ calculator, inputs }) => {
    const typed = calculator === name ? (inputs[input] ?? spec.default) : undefined;
    const read = typeof typed === 'string' ? parseQuantity(typed, spec.dimension) : { ok: true as const, value: typed };
    return read.ok && read.value !== undefined && read.value > 0 ? [{ inputs, value: read.value }] : [];
  });
  const factor = fc.double({ min: 0.5, max: 2, noNaN: true });
  let moved = 0;
  fc.assert(
    fc.property(fc.constantFrom(...starts), factor, factor, ({ inputs, value }, f, g) => {
      // of what is counted, whole ones
      const of = (by: number) => (spec.dimension === 'count' ? Math.max(1, Math.round(value * by)) : value * by);
      const at = (by: number) => reckon(name, { ...inputs, [input]: of(by) });
      const [less, more] = [at(Math.min(f, g)), at(Math.max(f, g))];
      if (!less.ok || !more.ok) return;
      const [low, high] = [less.value.result.value, more.value.result.value];
      const slack = 1e-9 * Math.max(Math.abs(low), Math.abs(high));
      if (Math.abs(high - low) > slack) moved++;
      expect(way === '+' ? high - low : low - high).toBeGreaterThanOrEqual(-slack);
    }),
    { numRuns: 60 },
  );
  // an input that moves nothing would hold to any law
  expect(moved).toBeGreaterThan(0);
});
