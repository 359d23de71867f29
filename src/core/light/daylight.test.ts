import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { lightNotes, lightOf } from './index.ts';

const staged = (window: string, kelvin = 3500, kind = 'window', under = '', colour = '') => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2500
  walls: [${['north', 'east', 'south', 'west'].map((id, k) => `{id: ${id}, length: ${k % 2 ? 3000 : 3600}${colour && `, colour: "${colour}"`}}`).join(', ')}]${colour && '\n  faces: {floor: {colour: "#a06a30"}}'}
  openings: [${under}{id: yard window, wall: east, kind: ${kind}, from: 900, width: 1200, ${kind === 'window' ? 'sill: 900, ' : ''}height: ${kind === 'window' ? 1200 : 2100}${window}}]
options:
  - id: one
    pieces:
      - {seat: host, title: Host, at: {x: 1500, y: 1500, turn: 270}}
      - {lamp: lamp, at: {x: 1500, y: 1200}, size: {width: 600, height: 60, depth: 600}, lumens: 4000, kelvin: ${kelvin}}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return sceneOf(plan, plan.options[0]!);
};

describe('daylight beside lamps', () => {
  it('is named as what tints a face; kept out, it leaves just what the same room has by evening', () => {
    const [day, evening] = [lightOf(staged(', daylight: 4000')), lightOf(staged(''))];
    const [main] = day!.causes;
    expect(main!.what).toBe('daylight (kept out)');
    // second route: the same plan without daylight, solved by itself; its glass reflects as before
    // both are solved to a thousandth of the light
    expect(main!.without).toBeCloseTo(evening!.faces[0]!.cast.difference, 2);
    expect(day!.faces[0]!.lux).toBeGreaterThan(evening!.faces[0]!.lux);
    const cast = lightNotes(staged(', daylight: 4000')).find((n) => n.id === 'colour-cast:room')!;
    expect(cast.title).toMatch(/^Daylight beside the lamps puts a .* blue cast on Host/);
    expect(cast.advice).toContain('yard window meets lamps of 3500 K');
  });
  it('comes through a window that stands over another opening', () => {
    const under = '{id: hatch, wall: east, kind: window, from: 900, width: 1200, sill: 200, height: 500}, ';
    const [over, alone] = [staged(', daylight: 4000', 3500, 'window', under), staged(', daylight: 4000')];
    const [lux, before] = [over, alone].map((one) => lightOf(one)!.faces[0]!.lux);
    expect(lux! / before!).toBeCloseTo(1, 1);
  });
  it('is no cause by evening, nor beside lamps as cold as itself', () => {
    expect(lightOf(staged(''))!.causes.map((c) => c.what)).not.toContain('daylight (kept out)');
    const cast = lightNotes(staged(', daylight: 4000', 6500)).find((n) => n.id === 'colour-cast:room')!;
    expect(cast.title).toMatch(/^The room puts/);
  });
});

it('an open passage into a dark room sends back less than a door', () => {
  const luxOf = (kind: string): number => lightOf(staged('', 3500, kind))!.faces[0]!.lux;
  expect(luxOf('opening')).toBeLessThan(luxOf('door'));
});

it.each(['#ffffff', '#d9b36a'])('of walls that are %s, no paint is told that leaves no less of the cast', (colour) => {
  const light = lightOf(staged('', 2700, 'window', '', colour))!;
  const [first] = light.faces;
  const { advice } = lightNotes(staged('', 2700, 'window', '', colour)).find((n) => n.id === 'colour-cast:room')!;
  const best = /^.*paints tried, (.*) on the walls does best: ΔE00 /.exec(advice)?.[1];
  const helps = light.paints.filter((p) => first!.cast.difference - p.cast.difference >= 1).map((p) => p.name);
  expect(first!.cast.difference).toBeGreaterThan(2);
  if (helps.length === 0) expect(advice).toContain('None of the paints tried takes much of it away.');
  else expect(helps).toContain(best);
});
