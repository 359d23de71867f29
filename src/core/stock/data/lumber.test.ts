import { describe, expect, it } from 'vitest';
import { actualSize, NOMINAL_SIZES } from './lumber.ts';
import { PANEL_CATEGORIES, PANEL_GRADES, PANEL_KINDS, PARTICLEBOARD_DENSITY, panelThickness } from './panels.ts';

describe('actual size of lumber', () => {
  // NIST PS 20 gives metric equivalents rounded to a millimetre: 19x38 … 89x89
  it.each([
    ['1x2', 19, 38],
    ['1x3', 19, 64],
    ['2x2', 38, 38],
    ['2x4', 38, 89],
    ['2x6', 38, 140],
    ['2x10', 38, 235],
    ['2x12', 38, 286],
    ['4x4', 89, 89],
  ])('%s is %d x %d mm by the printed metric list', (nominal, thickness, width) => {
    const size = actualSize(nominal)!;
    expect(Math.round(size.thickness)).toBe(thickness);
    expect(Math.round(size.width)).toBe(width);
  });
  it.each(['1x4', '1 x 4', '1X4', '1 × 4', '1" x 4"', ' 1x4 '])('reads %j', (text) =>
    expect(actualSize(text)).toEqual({ thickness: 19.05, width: 88.9 }),
  );
  // PS 20 as a handbook site reprints it: nominal, minimum dressed dry and green, inches
  it.each([
    ['3/8', 0.3125, 0.34375],
    ['1/2', 0.4375, 0.46875],
    ['5/8', 0.5625, 0.59375],
    ['3/4', 0.625, 0.6875],
    ['1', 0.75, 0.78125],
    ['1-1/4', 1, 1.03125],
    ['1-1/2', 1.25, 1.28125],
    ['2', 1.5, 1.5625],
    ['2-1/2', 2, 2.0625],
    ['3', 2.5, 2.5625],
    ['3-1/2', 3, 3.0625],
    ['4', 3.5, 3.5625],
    ['4-1/2', 4, 4.0625],
  ])('%s thick is %d dry, %d green', (nominal, dry, green) => {
    expect(actualSize(`${nominal}x6`)!.thickness).toBeCloseTo(dry * 25.4, 2);
    expect(actualSize(`${nominal}x6`, 'green')!.thickness).toBeCloseTo(green * 25.4, 2);
  });
  it.each([
    ['2', 1.5, 1.5625],
    ['3', 2.5, 2.5625],
    ['4', 3.5, 3.5625],
    ['5', 4.5, 4.625],
    ['6', 5.5, 5.625],
    ['7', 6.5, 6.625],
    ['8', 7.25, 7.5],
    ['9', 8.25, 8.5],
    ['10', 9.25, 9.5],
    ['11', 10.25, 10.5],
    ['12', 11.25, 11.5],
    ['14', 13.25, 13.5],
    ['16', 15.25, 15.5],
  ])('%s wide is %d dry, %d green', (nominal, dry, green) => {
    expect(actualSize(`1x${nominal}`)!.width).toBeCloseTo(dry * 25.4, 2);
    expect(actualSize(`1x${nominal}`, 'green')!.width).toBeCloseTo(green * 25.4, 2);
  });
  it('takes 1-1/4 for 5/4', () => expect(actualSize('1-1/4x6')).toEqual(actualSize('5/4x6')));
  it.each(['', '1x', 'x4', '4x2', '1x13', '19x38', 'board'])('has no %j', (text) =>
    expect(actualSize(text)).toBeUndefined(),
  );
  it('knows every size it lists, dry smaller than green, both smaller than nominal', () => {
    for (const nominal of NOMINAL_SIZES) {
      const [dry, green] = [actualSize(nominal)!, actualSize(nominal, 'green')!];
      expect(dry.width, nominal).toBeLessThan(green.width);
      expect(dry.thickness, nominal).toBeLessThan(green.thickness);
      expect(green.width, nominal).toBeLessThan(Number(nominal.split('x')[1]) * 25.4);
    }
  });
});

describe('panels', () => {
  it('has thicker categories in order, each label within its limits', () => {
    const labels = PANEL_CATEGORIES.map((c) => panelThickness(c));
    for (const [i, t] of labels.entries()) {
      expect(t.label).toBeGreaterThanOrEqual(t.least);
      expect(t.label).toBeLessThanOrEqual(t.most);
      if (i > 0) expect(t.label).toBeGreaterThan(labels[i - 1]!.label);
    }
  });
  // "+13.7 %, +22 %, +23 %" from M-2 to M-3 in a trade knowledge base; window half of its last digit and of the grade's
  it('has particleboard grades M-2 and M-3 as far apart as the trade says', () => {
    const [m2] = PANEL_GRADES['ANSI A208.1-1999 particleboard M-2'].rows;
    const [m3] = PANEL_GRADES['ANSI A208.1-1999 particleboard M-3'].rows;
    expect(m3.rupture / m2.rupture).toBeCloseTo(1.138, 2);
    expect(m3.modulus / m2.modulus).toBeCloseTo(1.222, 2);
    expect(m3.bond / m2.bond).toBeCloseTo(1.222, 2);
  });
  it('keeps each range in order', () => {
    for (const kind of Object.values(PANEL_KINDS)) {
      expect(kind.modulus[0]).toBeLessThanOrEqual(kind.modulus[1]);
      expect(kind.density[0]).toBeLessThanOrEqual(kind.density[1]);
    }
    // declared densities of particleboard lie in the handbook's range of 0.6 to 0.8
    for (const [, density] of PARTICLEBOARD_DENSITY) {
      expect(density).toBeGreaterThanOrEqual(PANEL_KINDS.particleboard.density[0]);
      expect(density).toBeLessThanOrEqual(PANEL_KINDS.particleboard.density[1]);
    }
  });
});
