import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Working } from '../notes/index.ts';
import { reckon } from '../reckoner/index.ts';
import { MATERIAL_NAMES, materialOf, PANEL_KINDS } from '../stock/index.ts';
import { SUPPORTS } from './beam.ts';
import { CREEP, CREEP_CLASSES, creepClassOf } from './creep.ts';

function done(name: string, inputs: Record<string, string | number>): Working {
  const working = reckon(name, inputs);
  if (!working.ok) throw new Error(`${name}: ${JSON.stringify(working.issues)}`);
  return working.value;
}
const result = (name: string, inputs: Record<string, string | number>): number => done(name, inputs).result.value;

const shelf = fc.record({
  depth: fc.double({ min: 150, max: 600, noNaN: true }),
  thickness: fc.double({ min: 12, max: 60, noNaN: true }),
  modulus: fc.double({ min: 1500, max: 15000, noNaN: true }),
  'area-load': fc.double({ min: 200, max: 5000, noNaN: true }),
  supports: fc.constantFrom(...SUPPORTS),
});

describe('the shelf calculators answer one another', () => {
  it('at its longest span a shelf sags its limit', () =>
    fc.assert(
      fc.property(
        shelf,
        fc.double({ min: 100, max: 400, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (s, n, c) => {
          const span = result('shelf-span', { ...s, 'limit-ratio': n, 'creep-factor': c });
          expect((result('shelf-sag', { ...s, span, 'creep-factor': c }) * n) / span).toBeCloseTo(1, 6);
        },
      ),
    ));
  it('a fixed limit likewise', () =>
    fc.assert(
      fc.property(shelf, (s) => {
        const span = result('shelf-span', { ...s, 'limit-length': 3 });
        expect(result('shelf-sag', { ...s, span })).toBeCloseTo(3, 6);
      }),
    ));
  it('its load, and its least thickness, take it to the limit too', () =>
    fc.assert(
      fc.property(shelf, fc.double({ min: 300, max: 1500, noNaN: true }), ({ 'area-load': _, ...s }, span) => {
        const load = result('shelf-load', { ...s, span });
        expect((result('shelf-sag', { ...s, span, load }) * 144) / span).toBeCloseTo(1, 6);
        const { thickness, ...rest } = s;
        expect(result('shelf-thickness', { ...rest, span, load }) / thickness).toBeCloseTo(1, 6);
      }),
    ));
  it('a lip cures what it says it cures, and none is asked for where none is needed', () =>
    fc.assert(
      fc.property(shelf, fc.double({ min: 400, max: 1500, noNaN: true }), (s, span) => {
        const lip = { 'lip-thickness': 18, 'lip-modulus': 11000 };
        const height = reckon('lip-height', { ...s, span, ...lip });
        if (!height.ok) return; // too weak for any lip: it says so
        const H = height.value.result.value;
        const sag = result('shelf-sag', { ...s, span, ...(H > 0 && { ...lip, 'lip-height': H }) });
        expect(sag).toBeLessThanOrEqual((span / 144) * (1 + 1e-6));
        if (H > 0) expect(sag).toBeGreaterThan((span / 144) * (1 - 1e-3));
      }),
    ));
  it('mass, line load and area load of the same weight sag alike, and add up', () => {
    const s = { span: 900, depth: 300, thickness: 18, material: 'particleboard' };
    const one = result('shelf-sag', { ...s, load: 20 });
    const weight = 20 * 9.80665;
    expect(result('shelf-sag', { ...s, 'line-load': weight / 0.9 })).toBeCloseTo(one, 9);
    expect(result('shelf-sag', { ...s, 'area-load': weight / 0.27 })).toBeCloseTo(one, 9);
    expect(result('shelf-sag', { ...s, load: 20, 'line-load': weight / 0.9 })).toBeCloseTo(2 * one, 9);
  });
});

describe('materials', () => {
  it('every material makes a shelf that sags, more after years', () => {
    for (const material of MATERIAL_NAMES) {
      const working = done('shelf-sag', { span: 900, depth: 300, thickness: 18, material, load: 20 });
      const later = working.also?.find((a) => a.symbol === 'δ∞');
      expect(working.result.value, material).toBeGreaterThan(0);
      expect(later!.value, material).toBeGreaterThanOrEqual(working.result.value);
      expect(
        working.inputs.some((i) => i.symbol === 'E' && i.source !== undefined),
        material,
      ).toBe(true);
    }
  });
  // EN 1995-1-1 table 3.2 is the table the classes are drawn from: 1 + k_def, the worst grade of each kind in a heated room
  it('the creep classes are those of the table', () => {
    const worst = (start: string) =>
      1 + Math.max(...Object.entries(CREEP).flatMap(([name, [first]]) => (name.startsWith(start) ? [first] : [])));
    expect(CREEP_CLASSES['solid timber']).toBe(worst('solid timber'));
    expect(CREEP_CLASSES.plywood).toBe(worst('plywood'));
    expect(CREEP_CLASSES.OSB).toBe(worst('OSB'));
    expect(CREEP_CLASSES.particleboard).toBe(worst('particleboard'));
    expect(CREEP_CLASSES.MDF).toBe(worst('MDF'));
    expect(CREEP_CLASSES.hardboard).toBe(worst('hardboard'));
    expect(CREEP_CLASSES.LVL).toBe(worst('LVL'));
  });
  it('put each material in its class', () => {
    expect(creepClassOf(materialOf('white oak'))).toBe('solid timber');
    expect(creepClassOf(materialOf('MDF'))).toBe('MDF');
    expect(creepClassOf(materialOf('veneer-core fir plywood'))).toBe('plywood');
    expect(creepClassOf(materialOf('steel'))).toBe('none');
  });
  // FPL-GTR-190 table 12-1: a default must fall inside the printed range
  it('take a stiffness inside the handbook’s range', () => {
    for (const [name, kind] of Object.entries(PANEL_KINDS)) {
      const { modulus } = materialOf(name as keyof typeof PANEL_KINDS);
      expect(modulus).toBeGreaterThanOrEqual(kind.modulus[0]);
      expect(modulus).toBeLessThanOrEqual(kind.modulus[1]);
    }
  });
});

describe('what a person gets wrong is said in words', () => {
  it.each<[string, Record<string, string | number>, RegExp]>([
    ['shelf-sag', { span: 900, depth: 300, thickness: 18, load: 20 }, /name a material/],
    ['shelf-sag', { span: 900, depth: 300, thickness: 18, material: 'MDF' }, /say what stands on it/],
    [
      'shelf-sag',
      { span: 900, depth: 300, thickness: 18, material: 'MDF', load: 20, 'lip-height': 40 },
      /lip-thickness/,
    ],
    ['shelf-span', { thickness: 18, material: 'MDF', 'line-load': 300 }, /depth/],
    [
      'lip-height',
      { span: 3000, depth: 300, thickness: 6, material: 'MDF', load: 2e6, 'lip-thickness': 3 },
      /shorten the span/,
    ],
    ['hollow-section', { width: 300, height: 10, skin: 6, webs: 36 }, /thicker than the shelf/],
    ['rod-section', { diameter: 10, bore: 10 }, /smaller than the rod/],
    ['deformation-factor', { product: 'MDF.LA', 'service-class': '3' }, /not meant for it/],
    ['strength-factor', { product: 'MDF', 'service-class': '3' }, /no k_mod/],
    ['lag-withdrawal', { diameter: 6.35 }, /specific gravity/],
    ['screw-withdrawal', { gravity: 0.5 }, /screw number/],
    ['steel-stud-pullout', { number: '8' }, /mils/],
    ['combined-loading', { withdrawal: 1, lateral: 1 }, /angle/],
    ['row-tensions', { heights: '100, 200' }, /load and reach/],
    ['lifting-index', { load: 5, reach: 900, height: 700, travel: 500 }, /nothing should be lifted/],
    ['corner-turn', { from: 900, to: 900, thickness: 900 }, /wider/],
    ['minimax-gap', { along: '0, 1', out: '1' }, /same length/],
    ['paint-needed', { coats: 2 }, /perimeter/],
    ['paint-needed', { area: 2, openings: 3 }, /openings/],
  ])('%s %j', (name, inputs, why) => {
    const working = reckon(name, inputs);
    expect(working.ok).toBe(false);
    if (!working.ok) expect(working.issues.map((i) => i.message).join('; ')).toMatch(why);
  });
});
