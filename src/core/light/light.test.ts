import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Prism, vec } from '../geometry/index.ts';
import {
  BANDS,
  castOf,
  enclosureSpectrum,
  fromBands,
  lampBands,
  lampSpectrum,
  luxOf,
  paintSpectrum,
  reflectanceOf,
  swatchOf,
  toBands,
} from './cast.ts';
import {
  chromaticity,
  ciede2000,
  labToXyz,
  linearToSrgb,
  parseHex,
  srgbToLinear,
  srgbToXyz,
  type Triple,
  toHex,
  uvOf,
  xyOf,
  xyzToLab,
} from './colour.ts';
import { MEASURED_PAINTS, WAVELENGTHS } from './observer.ts';
import { boxFactors, cavityReflectance, greyExchange } from './photometry.ts';
import { lightAt, roomGeometry, type Scene, solveLight } from './radiosity.ts';
import { roomPatches } from './room-patches.ts';
import { daylight, flat, planck, type Spectrum, smoothestReflectance, xyzOf } from './spectrum.ts';
import { correlatedTemperature, daylightChromaticity, duvByFit, mccamy, WHITE_POINTS } from './temperature.ts';

/** Values given on another grid, taken in straight lines and held beyond its ends. */
const onOurGrid = (values: readonly number[], first: number, step: number): Spectrum =>
  WAVELENGTHS.map((nm) => {
    const at = Math.min(values.length - 1, Math.max(0, (nm - first) / step));
    const k = Math.min(values.length - 2, Math.floor(at));
    return values[k]! + (at - k) * (values[k + 1]! - values[k]!);
  });

const lab: fc.Arbitrary<Triple> = fc.tuple(
  fc.double({ min: 5, max: 95, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
);

describe('colour', () => {
  it('goes there and back: sRGB, CIELAB, u v', () =>
    fc.assert(
      fc.property(lab, fc.double({ min: 0, max: 1, noNaN: true }), (c, s) => {
        xyzToLab(labToXyz(c)).forEach((v, k) => {
          expect(v).toBeCloseTo(c[k]!, 9);
        });
        expect(linearToSrgb(srgbToLinear(s))).toBeCloseTo(s, 6); // the two branches of the standard meet to 7 digits only
        const [x, y] = chromaticity(labToXyz(c));
        const [a, b] = xyOf(...uvOf(x, y));
        expect(a).toBeCloseTo(x, 10);
        expect(b).toBeCloseTo(y, 10);
      }),
    ));
  it('differs by nothing from itself and as much there as back', () =>
    fc.assert(
      fc.property(lab, lab, (p, q) => {
        expect(ciede2000(p, p)).toBe(0);
        expect(ciede2000(p, q)).toBeCloseTo(ciede2000(q, p), 9);
        expect(ciede2000(p, q)).toBeGreaterThanOrEqual(0);
      }),
    ));
  it('keeps hex', () => expect(toHex(parseHex('#d8c9a0'))).toBe('#d8c9a0'));
});

describe('spectra', () => {
  // CIE 15: A is a black body of 2848 K with c2 = 1.435e-2; its chromaticity and D65's are printed to five figures.
  it('have the published chromaticities', () => {
    const [ax, ay] = chromaticity(xyzOf(planck(2848, 1.435e-2)));
    expect(ax).toBeCloseTo(0.44757, 4);
    expect(ay).toBeCloseTo(0.40745, 4);
    for (const kelvin of [4000, 5503, 6504, 7504, 12000]) {
      const [x, y] = daylightChromaticity(kelvin);
      const [sx, sy] = chromaticity(xyzOf(daylight(x, y)));
      // M1 and M2 are rounded in the standard's own tables; 5 nm steps.
      expect(sx).toBeCloseTo(x, 3);
      expect(sy).toBeCloseTo(y, 3);
    }
    expect(xyzOf(flat(1), flat(1))[1]).toBeCloseTo(1, 12);
    const [ex, ey] = chromaticity(xyzOf(flat(1)));
    expect(ex).toBeCloseTo(1 / 3, 4);
    expect(ey).toBeCloseTo(1 / 3, 4);
  });
  it('of a paint have its colour, are smooth and lie between 0 and 1', () =>
    fc.assert(
      fc.property(
        fc.tuple(...Array.from({ length: 3 }, () => fc.double({ min: 0.1, max: 0.9, noNaN: true }))),
        (rgb) => {
          const light = daylight(...WHITE_POINTS.D65!);
          const xyz = srgbToXyz(rgb as unknown as Triple);
          const found = smoothestReflectance(xyz, light)!;
          expect(found).toBeDefined();
          xyzOf(found, light).forEach((v, k) => {
            expect(v).toBeCloseTo(xyz[k]!, 7);
          });
          for (const r of found) expect(r > 0 && r < 1).toBe(true);
        },
      ),
      { numRuns: 60 },
    ));
  it('of a grey paint are flat, nearly', () => {
    const grey = paintSpectrum('#808080');
    const mean = grey.reduce((sum, v) => sum + v, 0) / grey.length;
    // The screen's white and the daylight differ in the fourth figure.
    for (const v of grey) expect(v / mean).toBeCloseTo(1, 1);
    expect(reflectanceOf(grey)).toBeCloseTo(21.6, 1);
    expect(swatchOf(grey)).toBe('#808080');
  });
  it('of white and black stop short of 1 and 0', () => {
    expect(Math.max(...paintSpectrum('#ffffff'))).toBeLessThan(1);
    expect(Math.min(...paintSpectrum('#000000'))).toBeGreaterThan(0);
    expect(reflectanceOf(paintSpectrum('#ffffff'))).toBeGreaterThan(90);
  });
});

describe('the correlated temperature', () => {
  it('of a black body is its own, on the locus', () =>
    fc.assert(
      fc.property(fc.double({ min: 1500, max: 20000, noNaN: true }), (kelvin) => {
        const [x, y] = chromaticity(xyzOf(planck(kelvin)));
        const found = correlatedTemperature(x, y);
        expect(found.kelvin / kelvin).toBeCloseTo(1, 5);
        expect(found.duv).toBeCloseTo(0, 6);
      }),
      { numRuns: 40 },
    ));
  it('agrees with McCamy and with the fitted Duv in their range', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 3000, max: 8000, noNaN: true }),
        fc.double({ min: -0.008, max: 0.008, noNaN: true }),
        (kelvin, off) => {
          const [x0, y0] = chromaticity(xyzOf(planck(kelvin)));
          const [u, v] = uvOf(x0, y0);
          const [x, y] = xyOf(u, v + off);
          const found = correlatedTemperature(x, y);
          expect(mccamy(x, y) / found.kelvin).toBeGreaterThan(0.985);
          expect(mccamy(x, y) / found.kelvin).toBeLessThan(1.015);
          expect(duvByFit(...uvOf(x, y))).toBeCloseTo(found.duv, 4);
        },
      ),
      { numRuns: 40 },
    ));
});

describe('a cast', () => {
  const lamp = lampSpectrum(4000);
  it('is none in a grey room and none without walls', () => {
    expect(castOf(enclosureSpectrum(lamp, [{ share: 1, reflectance: flat(0.7) }]), lamp).difference).toBeLessThan(1e-6);
    expect(castOf(lamp, lamp)).toMatchObject({ words: 'no cast to be seen' });
  });
  it('of a yellow-beige wall is plain to see and warm; of a light grey one it is not', () => {
    const room = (wall: string) =>
      castOf(
        enclosureSpectrum(lamp, [
          { share: 0.5, reflectance: paintSpectrum(wall) },
          { share: 0.25, reflectance: paintSpectrum('#f4f4f2') },
          { share: 0.25, reflectance: paintSpectrum('#8a7a68') },
        ]),
        lamp,
      );
    const [beige, grey] = [room('#d9c08c'), room('#cfcfcf')];
    expect(beige.difference).toBeGreaterThan(5);
    expect(beige.kelvinShift).toBeLessThan(-200);
    expect(beige.words).toMatch(/orange|yellow/);
    expect(grey.difference).toBeLessThan(beige.difference / 2);
    expect(room('#b02020').difference).toBeGreaterThan(beige.difference);
  });
  it('in a room of one measured paint is that of the closed form, on average over its walls', () => {
    const room: Prism = {
      outline: [
        { x: 0, z: 0 },
        { x: 5000, z: 0 },
        { x: 5000, z: 4000 },
        { x: 0, z: 4000 },
      ],
      height: 2600,
    };
    const green = onOurGrid(MEASURED_PAINTS.green, MEASURED_PAINTS.first, MEASURED_PAINTS.step);
    const scene: Scene = {
      room,
      boxes: [],
      geometry: roomGeometry(room, [], roomPatches(room, [], 1000)),
      reflectance: () => toBands(green),
      lamps: [{ at: vec(2500, 2300, 2000), flux: lampBands(3000, lamp), shape: { kind: 'all round' } }],
      bands: BANDS,
    };
    const solution = solveLight(scene, 1e-6);
    const mean = new Array<number>(BANDS).fill(0);
    let area = 0;
    scene.geometry.patches.forEach((p, i) => {
      area += p.area;
      for (let b = 0; b < BANDS; b++) mean[b]! += solution.illuminance[i * BANDS + b]! * p.area;
    });
    const closed = castOf(
      enclosureSpectrum(fromBands(toBands(lamp)), [{ share: 1, reflectance: fromBands(toBands(green)) }]),
      fromBands(toBands(lamp)),
    );
    const solved = castOf(fromBands(mean.map((v) => v / area)), fromBands(toBands(lamp)));
    // The closed form takes each wavelength through ρ/(1 − ρ), the bands do it every 20 nm and draw lines: a tenth of a unit.
    expect(Math.abs(solved.difference - closed.difference)).toBeLessThan(0.15);
    expect(luxOf(lampBands(3000, lamp))).toBeCloseTo(3000, 9);
    const face = lightAt(solution, vec(2500, 1200, 3000), vec(0, 0, -1));
    expect(luxOf(face.total)).toBeGreaterThan(luxOf(face.direct));
    expect(castOf(fromBands(face.total), fromBands(toBands(lamp))).words).toMatch(/green/);
  });
});

it('finds the same cavity as three surfaces in a box solved as a general enclosure', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 2, max: 12, noNaN: true }),
      fc.double({ min: 2, max: 12, noNaN: true }),
      fc.double({ min: 0.2, max: 3, noNaN: true }),
      fc.double({ min: 0.05, max: 0.9, noNaN: true }),
      fc.double({ min: 0.05, max: 0.9, noNaN: true }),
      (L, W, h, base, walls) => {
        // The opening as a black surface at 1 "K" with σ = 1: what it takes back of the 1 W/m² it sends is the cavity's reflectance.
        const { ceiling: f } = boxFactors(L, W, h);
        const [A, Aw] = [L * W, 2 * h * (L + W)];
        const back = (A * (1 - f)) / Aw;
        const { heat } = greyExchange(
          [
            { area: A, emissivity: 1, kelvin: 1 },
            { area: A, emissivity: 1 - base, kelvin: 0 },
            { area: Aw, emissivity: 1 - walls, kelvin: 0 },
          ],
          [
            [0, f, 1 - f],
            [f, 0, 1 - f],
            [back, back, 1 - 2 * back],
          ],
          1,
        );
        expect(1 - heat[0]! / A).toBeCloseTo(cavityReflectance(base, walls, L, W, h), 9);
      },
    ),
  ));
