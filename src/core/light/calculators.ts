import { type AnyCalculator, formula, type Source } from '../notes/index.ts';
import { castOf, enclosureSpectrum, lampSpectrum, paintSpectrum } from './cast.ts';
import {
  ciede2000,
  labToXyz,
  linearRgbToXyz,
  reflectanceValue,
  srgbToLinear,
  srgbToXyz,
  type Triple,
  uvOf,
  xyOf,
  xyzToLab,
  xyzToLinearRgbAsPrinted,
} from './colour.ts';
import { offsetParallelFactor, offsetPerpendicularFactor, parallelFactor, perpendicularFactor } from './form-factor.ts';
import { MEASURED_PAINTS } from './observer.ts';
import {
  boxFactors,
  cavityRatio,
  cavityReflectance,
  contrastOf,
  discIlluminance,
  discMean,
  enclosureIlluminance,
  greyExchange,
  interreflectionGain,
  lumensFor,
  meanIlluminance,
  meanIntensity,
  mirrorShare,
  pointIlluminance,
  roomIndex,
  STEFAN_BOLTZMANN,
  sphereMultiplier,
  veilOf,
} from './photometry.ts';
import { flat } from './spectrum.ts';
import {
  correlatedTemperature,
  daylightChromaticity,
  duvByFit,
  LAMP_TARGETS,
  mccamy,
  WHITE_POINTS,
} from './temperature.ts';

const topic = 'light';
const HOWELL: Source = { title: 'J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors' };
const HOLMAN: Source = { title: 'J. P. Holman, Heat Transfer', place: 'chapter 8' };
const INVERSE_SQUARE: Source = {
  title: 'Inverse square and cosine laws',
  place: 'as in J. B. Gupta, Utilization of Electric Power, chapter 4',
};
const LUMENS: Source = { title: 'Lumen method', place: 'as in J. B. Gupta, Utilization of Electric Power, chapter 4' };
const BALANCE: Source = { title: 'Flux balance of a closed diffuse room' };
const CIE_15: Source = { title: 'CIE 15 / ISO 11664' };
const SRGB: Source = { title: 'IEC 61966-2-1', edition: '1999' };

const length = (about: string, symbol?: string) =>
  ({ dimension: 'length', about, ...(symbol !== undefined && { symbol }), above: 0 }) as const;
const reflectance = (about: string, symbol = 'ρ') =>
  ({ dimension: 'ratio', about, symbol, min: 0, max: 0.9999 }) as const;
const three = (list: readonly number[], what: string): Triple => {
  const [a, b, c] = list;
  if (a === undefined || b === undefined || c === undefined || list.length !== 3)
    throw new RangeError(`${what}: three numbers are needed`);
  return [a, b, c];
};
const span = (list: readonly number[], what: string): readonly [number, number] => {
  const [a, b] = list;
  if (a === undefined || b === undefined || list.length !== 2 || !(b > a))
    throw new RangeError(`${what}: from and to are needed, ascending`);
  return [a, b];
};

const factors = [
  formula({
    name: 'view-factor-parallel',
    title: 'View factor between opposed parallel rectangles',
    topic,
    about: 'Two alike, directly opposite: floor and ceiling.',
    formula:
      '2/(π X Y) {ln √[(1+X²)(1+Y²)/(1+X²+Y²)] + X√(1+Y²) atan(X/√(1+Y²)) + Y√(1+X²) atan(Y/√(1+X²)) − X atan X − Y atan Y}; X = a/c, Y = b/c',
    inputs: {
      a: length('one side', 'a'),
      b: length('other side', 'b'),
      distance: length('distance between them', 'c'),
    },
    result: { symbol: 'F', name: 'view factor', dimension: 'ratio' },
    source: { ...HOWELL, place: 'C-11' },
    compute: (v) => parallelFactor(v.a, v.b, v.distance),
  }),
  formula({
    name: 'view-factor-perpendicular',
    title: 'View factor between rectangles at right angles',
    topic,
    about: 'They share an edge, as floor and wall do; either may begin some way off it.',
    formula: 'C-14 with H = h/l, W = w/l; set off from the edge: C-15',
    inputs: {
      edge: length('common edge', 'l'),
      width: length('far side of the first, from the edge', 'w'),
      height: length('far side of the second, from the edge', 'h'),
      'width-from': { dimension: 'length', about: 'near side of the first, from the edge', default: 0, min: 0 },
      'height-from': { dimension: 'length', about: 'near side of the second, from the edge', default: 0, min: 0 },
    },
    result: { symbol: 'F', name: 'view factor from the first to the second', dimension: 'ratio' },
    source: { ...HOWELL, place: 'C-14, C-15' },
    compute: (v) => {
      const [w0, h0] = [v['width-from'], v['height-from']];
      if (w0 >= v.width || h0 >= v.height) throw new RangeError('the near side must be nearer than the far side');
      const value =
        w0 === 0 && h0 === 0
          ? perpendicularFactor(v.width, v.height, v.edge)
          : offsetPerpendicularFactor([w0, v.width], [0, v.edge], [0, v.edge], [h0, v.height]);
      const area = (v.edge * (v.width - w0)) / 1e6;
      return {
        value,
        also: [
          { symbol: 'AF', name: 'area times factor', value: area * value, unit: 'm²' },
          {
            symbol: 'F21',
            name: 'view factor back',
            value: (area * value) / ((v.edge * (v.height - h0)) / 1e6),
            unit: '',
          },
        ],
      };
    },
  }),
  formula({
    name: 'view-factor-offset',
    title: 'View factor between parallel rectangles set off from one another',
    topic,
    about: 'Sides parallel, anywhere in their planes.',
    formula: 'C-13',
    inputs: {
      x: { dimension: 'length', about: 'first, from and to', list: true },
      y: { dimension: 'length', about: 'first, from and to the other way', list: true },
      'x-2': { dimension: 'length', about: 'second, from and to', list: true },
      'y-2': { dimension: 'length', about: 'second, from and to the other way', list: true },
      distance: length('distance between the planes', 'z'),
    },
    result: { symbol: 'F', name: 'view factor from the first to the second', dimension: 'ratio' },
    source: { ...HOWELL, place: 'C-13' },
    compute: (v) =>
      offsetParallelFactor(span(v.x, 'x'), span(v.y, 'y'), span(v['x-2'], 'x-2'), span(v['y-2'], 'y-2'), v.distance),
  }),
  formula({
    name: 'view-factor-offset-perpendicular',
    title: 'View factor between rectangles at right angles, anywhere',
    topic,
    about: 'Each is given by its distance from the line where their planes meet and by where it lies along that line.',
    formula: 'C-15',
    inputs: {
      x: { dimension: 'length', about: 'first: nearest and farthest from the line', list: true, min: 0 },
      y: { dimension: 'length', about: 'first: from and to along the line', list: true },
      'y-2': { dimension: 'length', about: 'second: from and to along the line', list: true },
      height: { dimension: 'length', about: 'second: nearest and farthest from the line', list: true, min: 0 },
    },
    result: { symbol: 'F', name: 'view factor from the first to the second', dimension: 'ratio' },
    source: { ...HOWELL, place: 'C-15' },
    compute: (v) =>
      offsetPerpendicularFactor(span(v.x, 'x'), span(v.y, 'y'), span(v['y-2'], 'y-2'), span(v.height, 'height')),
  }),
  formula({
    name: 'view-factor-rest',
    title: 'View factor by shape-factor algebra',
    topic,
    about: 'From surface 1 to surface 4, where 1 and 2 lie beside one another, and 3 and 4.',
    formula: 'F14 = [(A1 + A2)(F12-34 − F12-3) − A2 (F2-34 − F2-3)]/A1',
    inputs: {
      'area-1': { dimension: 'area', about: 'area of surface 1', symbol: 'A1', above: 0 },
      'area-2': { dimension: 'area', about: 'area of surface 2', symbol: 'A2', above: 0 },
      'f-12-34': { dimension: 'ratio', about: 'from 1 and 2 together to 3 and 4 together', min: 0, max: 1 },
      'f-12-3': { dimension: 'ratio', about: 'from 1 and 2 together to 3', min: 0, max: 1 },
      'f-2-34': { dimension: 'ratio', about: 'from 2 to 3 and 4 together', min: 0, max: 1 },
      'f-2-3': { dimension: 'ratio', about: 'from 2 to 3', min: 0, max: 1 },
    },
    result: { symbol: 'F14', name: 'view factor', dimension: 'ratio' },
    source: { title: 'S. K. Som, Introduction to Heat Transfer', place: 'chapter 11' },
    compute: (v) =>
      ((v['area-1'] + v['area-2']) * (v['f-12-34'] - v['f-12-3']) - v['area-2'] * (v['f-2-34'] - v['f-2-3'])) /
      v['area-1'],
  }),
  formula({
    name: 'room-view-factors',
    title: 'View factors of a room from its floor',
    topic,
    about: 'To the ceiling and to each wall; together they make 1.',
    formula: 'C-11 and C-14',
    inputs: { size: { dimension: 'length', about: 'length, width and height', list: true, above: 0 } },
    result: { symbol: 'F', name: 'to the ceiling', dimension: 'ratio' },
    source: HOWELL,
    compute: (v) => {
      const [l, w, h] = three(v.size, 'size');
      const f = boxFactors(l, w, h);
      return {
        value: f.ceiling,
        also: [
          { symbol: '', name: 'to a long wall', value: f.long, unit: '' },
          { symbol: '', name: 'to a short wall', value: f.short, unit: '' },
          { symbol: '', name: 'sum', value: f.ceiling + 2 * f.long + 2 * f.short, unit: '' },
        ],
      };
    },
  }),
  formula({
    name: 'grey-exchange',
    title: 'Heat exchanged in a closed enclosure of grey surfaces',
    topic,
    about:
      'The same equations as interreflected light. Give factors row by row; a surface named as insulated finds its own temperature.',
    formula: 'J_i − (1 − ε_i) Σ F_ij J_j = ε_i σ T_i⁴; q_i = A_i (J_i − Σ F_ij J_j)',
    inputs: {
      areas: { dimension: 'area', about: 'areas', list: true, above: 0 },
      emissivities: { dimension: 'ratio', about: 'emissivities', list: true, above: 0, max: 1 },
      temperatures: { dimension: 'temperature', about: 'temperatures (any for an insulated surface)', list: true },
      factors: { dimension: 'ratio', about: 'view factors, row by row', list: true, min: 0, max: 1 },
      insulated: { dimension: 'count', about: 'number of the insulated surface', optional: true, min: 1 },
      sigma: {
        dimension: 'number',
        about: 'Stefan–Boltzmann constant, W/(m²·K⁴)',
        symbol: 'σ',
        default: STEFAN_BOLTZMANN,
        above: 0,
      },
    },
    result: { symbol: 'q1', name: 'heat given off by surface 1', dimension: 'power' },
    source: HOLMAN,
    compute: (v) => {
      const n = v.areas.length;
      if (v.emissivities.length !== n || v.temperatures.length !== n || v.factors.length !== n * n)
        throw new RangeError(`${n} areas need ${n} emissivities, ${n} temperatures and ${n * n} factors`);
      const answer = greyExchange(
        v.areas.map((area, i) => ({
          area,
          emissivity: v.emissivities[i]!,
          ...(v.insulated === i + 1 ? {} : { kelvin: v.temperatures[i]! + 273.15 }),
        })),
        v.areas.map((_, i) => v.factors.slice(i * n, (i + 1) * n)),
        v.sigma,
      );
      return {
        value: answer.heat[0]!,
        also: [
          ...answer.heat
            .slice(1)
            .map((value, i) => ({ symbol: `q${i + 2}`, name: `heat given off by surface ${i + 2}`, value, unit: 'W' })),
          ...answer.kelvin.map((value, i) => ({
            symbol: `T${i + 1}`,
            name: `temperature of surface ${i + 1}`,
            value,
            unit: 'K',
          })),
        ],
      };
    },
  }),
];

const rooms = [
  formula({
    name: 'disc-illuminance',
    title: 'Light under an evenly bright diffuse disc',
    topic,
    about: 'Straight under its middle.',
    formula: 'E = π L r²/(r² + h²)',
    inputs: {
      luminance: { dimension: 'luminance', about: 'luminance', symbol: 'L', min: 0 },
      radius: length('radius', 'r'),
      height: length('height above', 'h'),
    },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: HOWELL,
    compute: (v) => discIlluminance(v.luminance, v.radius, v.height),
  }),
  formula({
    name: 'interreflection-gain',
    title: 'Interreflected over direct light',
    topic,
    about: 'On average in any closed room of one reflectance.',
    formula: 'ρ/(1 − ρ)',
    inputs: { reflectance: reflectance('mean reflectance') },
    result: { symbol: '', name: 'gain', dimension: 'ratio' },
    source: BALANCE,
    compute: (v) => interreflectionGain(v.reflectance),
  }),
  formula({
    name: 'sphere-multiplier',
    title: 'Multiplier of an integrating sphere',
    topic,
    about: 'With a share of its wall open.',
    formula: 'ρ/(1 − ρ(1 − f))',
    inputs: {
      reflectance: reflectance('reflectance of the wall'),
      ports: { dimension: 'ratio', about: 'share that is open', symbol: 'f', default: 0, min: 0, max: 1 },
    },
    result: { symbol: 'M', name: 'multiplier', dimension: 'ratio' },
    source: { title: 'D. G. Goebel, Appl. Opt. 6', edition: '1967' },
    compute: (v) => sphereMultiplier(v.reflectance, v.ports),
  }),
  formula({
    name: 'enclosure-illuminance',
    title: 'Mean illuminance of a closed room',
    topic,
    about: 'Over all its surfaces; one reflectance.',
    formula: 'E = Φ/(S (1 − ρ))',
    inputs: {
      flux: { dimension: 'luminous flux', about: 'flux of the lamps', symbol: 'Φ', min: 0 },
      surface: { dimension: 'area', about: 'all surfaces', symbol: 'S', optional: true, above: 0 },
      size: {
        dimension: 'length',
        about: 'length, width and height, in place of the surface',
        list: true,
        optional: true,
        above: 0,
      },
      reflectance: reflectance('reflectance'),
    },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: BALANCE,
    compute: (v) => {
      const box = v.size && three(v.size, 'size');
      const S = v.surface ?? (box && (2 * (box[0] * box[1] + box[0] * box[2] + box[1] * box[2])) / 1e6);
      if (S === undefined) throw new RangeError('the room needs a surface or a size');
      return enclosureIlluminance(v.flux, S, v.reflectance);
    },
  }),
  formula({
    name: 'lumens-for-enclosure',
    title: 'Lumens a room needs for a mean illuminance',
    topic,
    about: 'Over all its surfaces: what a dark set costs in light.',
    formula: 'Φ = E S (1 − ρ)',
    inputs: {
      illuminance: { dimension: 'illuminance', about: 'mean illuminance wanted', symbol: 'E', above: 0 },
      surface: { dimension: 'area', about: 'all surfaces', symbol: 'S', above: 0 },
      reflectance: reflectance('mean reflectance'),
    },
    result: { symbol: 'Φ', name: 'flux', dimension: 'luminous flux' },
    source: BALANCE,
    compute: (v) => v.illuminance * v.surface * (1 - v.reflectance),
  }),
  formula({
    name: 'facing-planes-gain',
    title: 'Light between two large facing planes',
    topic,
    about: 'How much interreflection adds to the direct light on one of them.',
    formula: '1/(1 − ρ1 ρ2)',
    inputs: {
      first: reflectance('reflectance of the first', 'ρ1'),
      second: reflectance('reflectance of the second', 'ρ2'),
    },
    result: { symbol: '', name: 'gain', dimension: 'ratio' },
    source: BALANCE,
    compute: (v) => 1 / (1 - v.first * v.second),
  }),
  formula({
    name: 'colour-bleed',
    title: 'Colour a painted plane throws on a white one facing it',
    topic,
    about: 'Ratio of two bands (red to green, say) on the white plane when it alone is lit.',
    formula: '(1 − ρ_w ρ_b)/(1 − ρ_w ρ_a)',
    inputs: {
      white: reflectance('reflectance of the white plane', 'ρ_w'),
      paint: reflectance('reflectance of the paint in the first band', 'ρ_a'),
      'paint-2': reflectance('its reflectance in the second band', 'ρ_b'),
    },
    result: { symbol: '', name: 'ratio of the bands', dimension: 'ratio' },
    source: BALANCE,
    compute: (v) => (1 - v.white * v['paint-2']) / (1 - v.white * v.paint),
  }),
  formula({
    name: 'wall-colour-cast',
    title: 'Colour cast of painted walls on a white card',
    topic,
    about: 'A closed even room: the light, direct and thrown back, wavelength by wavelength, against the lamp’s own.',
    formula: 'S (d + ρ̄/(1 − ρ̄)) at each wavelength; CIEDE2000 of a white card against the lamp',
    inputs: {
      lamp: {
        dimension: 'colour temperature',
        about: 'colour temperature of the lamps',
        default: 4000,
        min: 1500,
        max: 25000,
      },
      paint: {
        dimension: 'number',
        about: 'colour of the paint in daylight: red, green, blue from 0 to 255',
        list: true,
        min: 0,
        max: 255,
      },
      share: { dimension: 'ratio', about: 'share of the surfaces it covers', default: 0.5, min: 0, max: 1 },
      rest: reflectance('reflectance of the rest, taken as grey'),
      direct: {
        dimension: 'ratio',
        about: 'direct light on the card over the mean of the room',
        symbol: 'd',
        default: 1,
        min: 0,
      },
    },
    result: { symbol: 'ΔE', name: 'CIEDE2000 difference', dimension: 'number' },
    source: { title: 'CIE 15, ISO/CIE 11664-6', place: 'flux balance of a sphere by wavelength' },
    validity:
      'a first answer: where the card and the lamps are in the room is left out; the smoothest spectrum of that colour stands for the paint',
    compute: (v) => {
      const [r, g, b] = three(v.paint, 'paint');
      const lamp = lampSpectrum(v.lamp);
      const cast = castOf(
        enclosureSpectrum(
          lamp,
          [
            { share: v.share, reflectance: paintSpectrum([r / 255, g / 255, b / 255]) },
            { share: 1 - v.share, reflectance: flat(v.rest) },
          ],
          v.direct,
        ),
        lamp,
      );
      return {
        value: cast.difference,
        also: [
          { symbol: 'CCT', name: 'colour temperature', value: cast.kelvin, unit: 'K' },
          { symbol: '', name: 'shift of the colour temperature', value: cast.kelvinShift, unit: 'K' },
          { symbol: 'Duv', name: 'shift of Duv', value: cast.duvShift, unit: '' },
          { symbol: 'a*', name: 'red-green', value: cast.lab[1], unit: '' },
          { symbol: 'b*', name: 'yellow-blue', value: cast.lab[2], unit: '' },
        ],
        assumes: [`in words: ${cast.words}`],
      };
    },
  }),
  formula({
    name: 'measured-reflectance',
    title: 'Measured reflectance of a paint',
    topic,
    about: 'Three paints of an open data set, 400 to 700 nm.',
    formula: 'table every 4 nm, in straight lines between',
    inputs: {
      paint: { choices: ['white', 'green', 'red'], about: 'paint' },
      wavelength: { dimension: 'length', about: 'wavelength', min: 399.999e-6, max: 700.001e-6 },
    },
    result: { symbol: 'ρ', name: 'reflectance', dimension: 'ratio' },
    source: MEASURED_PAINTS.source,
    compute: (v) => {
      const values: readonly number[] = MEASURED_PAINTS[v.paint as 'white' | 'green' | 'red'];
      const at = (v.wavelength * 1e6 - MEASURED_PAINTS.first) / MEASURED_PAINTS.step;
      const i = Math.min(values.length - 2, Math.max(0, Math.floor(at + 1e-9)));
      return values[i]! + (at - i) * (values[i + 1]! - values[i]!);
    },
  }),
];

const intensity = {
  dimension: 'luminous intensity',
  about: 'intensity of each lamp',
  symbol: 'I',
  optional: true,
  above: 0,
} as const;
const sources = [
  formula({
    name: 'point-illuminance',
    title: 'Light of one or more lamps at a point of a level plane',
    topic,
    about: 'Lamps that shine the same every way; a mirror image counts as a lamp with a weight.',
    formula: 'E = Σ w I h/(h² + x²)^1.5; I = Φ/4π',
    inputs: {
      intensity,
      flux: {
        dimension: 'luminous flux',
        about: 'flux of each, in place of the intensity',
        symbol: 'Φ',
        optional: true,
        above: 0,
      },
      height: {
        dimension: 'length',
        about: 'height of each above the plane (one for all will do)',
        symbol: 'h',
        list: true,
        above: 0,
      },
      aside: { dimension: 'length', about: 'distance of each aside', symbol: 'x', list: true, optional: true, min: 0 },
      weights: {
        dimension: 'ratio',
        about: 'weight of each, e.g. the reflectance of a mirror',
        symbol: 'w',
        list: true,
        optional: true,
        min: 0,
      },
    },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: INVERSE_SQUARE,
    compute: (v) => {
      const I = v.intensity ?? (v.flux === undefined ? undefined : meanIntensity(v.flux));
      if (I === undefined) throw new RangeError('the lamp needs an intensity or a flux');
      const aside = v.aside ?? [0];
      const n = Math.max(v.height.length, aside.length, v.weights?.length ?? 1);
      const pick = (list: readonly number[], i: number): number =>
        list[i] ?? (list.length === 1 ? list[0]! : Number.NaN);
      let value = 0;
      for (let i = 0; i < n; i++)
        value += pick(v.weights ?? [1], i) * pointIlluminance(I, pick(v.height, i) / 1000, pick(aside, i) / 1000);
      if (Number.isNaN(value)) throw new RangeError('each list has one value for all lamps, or one for each');
      return { value, also: [{ symbol: 'I', name: 'intensity', value: I, unit: 'cd' }] };
    },
  }),
  formula({
    name: 'mean-intensity',
    title: 'Mean intensity of a lamp',
    topic,
    about: 'Of its flux, spread the same every way.',
    formula: 'I = Φ/4π',
    inputs: { flux: { dimension: 'luminous flux', about: 'flux', symbol: 'Φ', above: 0 } },
    result: { symbol: 'I', name: 'intensity', dimension: 'luminous intensity' },
    source: { title: 'Definition of the steradian' },
    compute: (v) => meanIntensity(v.flux),
  }),
  formula({
    name: 'normal-illuminance',
    title: 'Light of a lamp at a distance',
    topic,
    about: 'Falling at an angle to the surface’s normal.',
    formula: 'E = I cos θ/d²',
    inputs: {
      intensity: { dimension: 'luminous intensity', about: 'intensity', symbol: 'I', above: 0 },
      distance: length('distance', 'd'),
      angle: { dimension: 'angle', about: 'angle to the normal', symbol: 'θ', default: 0, min: 0, max: 90 },
    },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: INVERSE_SQUARE,
    compute: (v) => (v.intensity * Math.cos((v.angle * Math.PI) / 180)) / (v.distance / 1000) ** 2,
  }),
  formula({
    name: 'disc-under-lamp',
    title: 'Light over a disc under a lamp',
    topic,
    about: 'At its centre, at its edge and on average.',
    formula: 'centre I/h²; edge I h/(h² + r²)^1.5; mean 2 I (1 − h/√(h² + r²))/r²',
    inputs: {
      intensity: { dimension: 'luminous intensity', about: 'intensity, the same every way', symbol: 'I', above: 0 },
      height: length('height of the lamp', 'h'),
      diameter: length('diameter of the disc'),
    },
    result: { symbol: 'E', name: 'at the centre', dimension: 'illuminance' },
    source: INVERSE_SQUARE,
    compute: (v) => {
      const [h, r] = [v.height / 1000, v.diameter / 2000];
      return {
        value: pointIlluminance(v.intensity, h),
        also: [
          { symbol: '', name: 'at the edge', value: pointIlluminance(v.intensity, h, r), unit: 'lx' },
          { symbol: '', name: 'mean', value: discMean(v.intensity, h, r), unit: 'lx' },
        ],
      };
    },
  }),
];

const method = {
  area: { dimension: 'area', about: 'area lit', symbol: 'A', above: 0 },
  utilisation: { dimension: 'ratio', about: 'share of the lumens that reaches it', symbol: 'UF', above: 0 },
  maintenance: { dimension: 'ratio', about: 'what is left in service', symbol: 'MF', default: 1, above: 0 },
  depreciation: {
    dimension: 'ratio',
    about: 'the same as a divisor of more than 1',
    symbol: 'DF',
    default: 1,
    above: 0,
  },
  waste: { dimension: 'ratio', about: 'light that misses, as a divisor of more than 1', default: 1, above: 0 },
} as const;
const lumen = [
  formula({
    name: 'mean-illuminance',
    title: 'Mean illuminance by the lumen method',
    topic,
    about: 'From the lumens of the lamps, or their watts.',
    formula: 'E = N Φ UF MF/(A DF waste)',
    inputs: {
      count: { dimension: 'number', about: 'lamps', symbol: 'N', default: 1, above: 0 },
      flux: { dimension: 'luminous flux', about: 'flux of one', symbol: 'Φ', optional: true, above: 0 },
      power: { dimension: 'power', about: 'power of one, with an efficacy', optional: true, above: 0 },
      efficacy: { dimension: 'luminous efficacy', about: 'lumens a watt', optional: true, above: 0 },
      ...method,
    },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: LUMENS,
    compute: (v) => {
      const flux = v.flux ?? (v.power !== undefined && v.efficacy !== undefined ? v.power * v.efficacy : undefined);
      if (flux === undefined) throw new RangeError('the lamps need a flux, or a power and an efficacy');
      return {
        value: meanIlluminance(v.count * flux, v),
        also: [{ symbol: '', name: 'lumens', value: v.count * flux, unit: 'lm' }],
      };
    },
  }),
  formula({
    name: 'lumens-needed',
    title: 'Lumens for a mean illuminance',
    topic,
    about: 'By the lumen method; with the flux or power of one lamp, how many.',
    formula: 'Φ = E A DF waste/(UF MF)',
    inputs: {
      illuminance: { dimension: 'illuminance', about: 'illuminance wanted', symbol: 'E', above: 0 },
      ...method,
      each: { dimension: 'luminous flux', about: 'flux of one lamp', optional: true, above: 0 },
      efficacy: { dimension: 'luminous efficacy', about: 'lumens a watt', optional: true, above: 0 },
      'lamp-power': { dimension: 'power', about: 'power of one lamp', optional: true, above: 0 },
    },
    result: { symbol: 'Φ', name: 'lumens', dimension: 'luminous flux' },
    source: LUMENS,
    compute: (v) => {
      const value = lumensFor(v.illuminance, v);
      const watts = v.efficacy === undefined ? undefined : value / v.efficacy;
      const lamps =
        v.each !== undefined
          ? value / v.each
          : watts !== undefined && v['lamp-power'] !== undefined
            ? watts / v['lamp-power']
            : undefined;
      return {
        value,
        also: [
          ...(watts === undefined ? [] : [{ symbol: 'P', name: 'power', value: watts, unit: 'W' }]),
          ...(lamps === undefined
            ? []
            : [
                { symbol: 'N', name: 'lamps', value: lamps, unit: '' },
                { symbol: '', name: 'whole lamps', value: Math.ceil(lamps - 1e-9), unit: '' },
              ]),
        ],
      };
    },
  }),
  formula({
    name: 'lamp-columns',
    title: 'Rows of lamps along a length',
    topic,
    about: 'By the spacing that keeps the light even, as a multiple of the height.',
    formula: '⌈L/(s h)⌉',
    inputs: {
      length: length('length to light', 'L'),
      height: length('height of the lamps above what is lit', 'h'),
      spacing: { dimension: 'ratio', about: 'spacing over height', symbol: 's', default: 1.5, above: 0 },
    },
    result: { symbol: '', name: 'rows', dimension: 'count' },
    source: LUMENS,
    compute: (v) => Math.ceil(v.length / (v.spacing * v.height) - 1e-9),
  }),
  formula({
    name: 'lamp-lumens',
    title: 'Lumens of several luminaires',
    topic,
    about: 'All their lamps together.',
    formula: 'luminaires · lamps · flux',
    inputs: {
      luminaires: { dimension: 'count', about: 'luminaires', min: 0 },
      lamps: { dimension: 'count', about: 'lamps in each', default: 1, min: 0 },
      flux: { dimension: 'luminous flux', about: 'flux of one lamp', min: 0 },
    },
    result: { symbol: 'Φ', name: 'lumens', dimension: 'luminous flux' },
    source: LUMENS,
    compute: (v) => v.luminaires * v.lamps * v.flux,
  }),
  formula({
    name: 'room-cavity-ratio',
    title: 'Cavity ratio',
    topic,
    about: 'Of the room between lamps and table tops, or of the space above or below; the room index beside.',
    formula: '5 h (L + W)/(L W)',
    inputs: { height: length('height of the cavity', 'h'), length: length('length', 'L'), width: length('width', 'W') },
    result: { symbol: 'RCR', name: 'cavity ratio', dimension: 'ratio' },
    source: { title: 'IES zonal cavity method' },
    compute: (v) => ({
      value: cavityRatio(v.height, v.length, v.width),
      also: [{ symbol: 'k', name: 'room index', value: roomIndex(v.height, v.length, v.width), unit: '' }],
    }),
  }),
  formula({
    name: 'room-index',
    title: 'Room index',
    topic,
    about: 'From the cavity ratio, or from the room.',
    formula: 'k = 5/RCR = L W/(h (L + W))',
    inputs: {
      'cavity-ratio': { dimension: 'ratio', about: 'cavity ratio', symbol: 'RCR', optional: true, above: 0 },
      height: { ...length('height of the cavity', 'h'), optional: true },
      length: { ...length('length', 'L'), optional: true },
      width: { ...length('width', 'W'), optional: true },
    },
    result: { symbol: 'k', name: 'room index', dimension: 'ratio' },
    source: { title: 'IES zonal cavity method' },
    compute: (v) => {
      if (v['cavity-ratio'] !== undefined) return 5 / v['cavity-ratio'];
      if (v.height === undefined || v.length === undefined || v.width === undefined)
        throw new RangeError('give the cavity ratio, or height, length and width');
      return roomIndex(v.height, v.length, v.width);
    },
  }),
  formula({
    name: 'cavity-reflectance',
    title: 'What a cavity sends back',
    topic,
    about: 'The space above the lamps or below the table tops as one surface at its opening.',
    formula: 'three diffuse surfaces: base, walls as one, opening',
    inputs: {
      base: reflectance('reflectance of its ceiling or floor'),
      walls: reflectance('reflectance of its walls'),
      length: length('length', 'L'),
      width: length('width', 'W'),
      height: length('height', 'h'),
    },
    result: { symbol: 'ρ', name: 'effective reflectance', dimension: 'ratio' },
    source: { title: 'IES zonal cavity method', place: 'effective cavity reflectance, by its three surfaces' },
    compute: (v) => cavityReflectance(v.base, v.walls, v.length, v.width, v.height),
  }),
];

/** Levels of standards and of practice; the task rows from memory. */
const LEVELS: Readonly<
  Record<string, { readonly lux: number; readonly source: Source | 'from memory' | 'common practice' }>
> = {
  'classroom, general': { lux: 300, source: 'from memory' },
  'classroom, evening classes': { lux: 500, source: 'from memory' },
  'lecture hall': { lux: 500, source: 'from memory' },
  board: { lux: 500, source: 'from memory' },
  'teaching room, walls': {
    lux: 75,
    source: { title: 'EN 12464-1', place: 'note on walls and ceiling of teaching rooms' },
  },
  'teaching room, ceiling': {
    lux: 50,
    source: { title: 'EN 12464-1', place: 'note on walls and ceiling of teaching rooms' },
  },
  'teaching room, faces': {
    lux: 150,
    source: { title: 'EN 12464-1', place: 'cylindrical illuminance in teaching rooms' },
  },
  'studio, from': { lux: 45 / 0.3048 ** 2, source: { title: 'B. Aleksander, How Bright Is My Studio?' } },
  'studio, to': { lux: 65 / 0.3048 ** 2, source: { title: 'B. Aleksander, How Bright Is My Studio?' } },
  'studio, early 1970s': { lux: 300 / 0.3048 ** 2, source: { title: 'B. Aleksander, How Bright Is My Studio?' } },
};
const colour = [
  formula({
    name: 'illuminance-level',
    title: 'Illuminance asked for or usual',
    topic,
    about: 'By room and surface.',
    formula: 'table',
    inputs: { place: { choices: Object.keys(LEVELS), about: 'where' } },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: { title: 'EN 12464-1', place: 'task rows from memory' },
    compute: ({ place }) => ({ value: LEVELS[place]!.lux, source: LEVELS[place]!.source }),
  }),
  formula({
    name: 'mirrored-luminance',
    title: 'Luminance of a lamp or window mirrored in glass',
    topic,
    about: 'Seen straight on; at grazing angles more is mirrored.',
    formula: 'L ((n − 1)/(n + 1))²',
    inputs: {
      luminance: { dimension: 'luminance', about: 'luminance of the lamp or window', symbol: 'L', min: 0 },
      index: { dimension: 'number', about: 'refractive index of the surface', symbol: 'n', default: 1.5, min: 1 },
    },
    result: { symbol: '', name: 'mirrored luminance', dimension: 'luminance' },
    source: { title: 'Fresnel’s equations at normal incidence' },
    compute: (v) => ({
      value: v.luminance * mirrorShare(v.index),
      also: [{ symbol: 'r', name: 'share mirrored', value: mirrorShare(v.index), unit: '' }],
    }),
  }),
  formula({
    name: 'display-contrast',
    title: 'Contrast of a display with room light on it',
    topic,
    about: 'Light thrown back diffusely and a lamp mirrored in it lift black and white alike.',
    formula: '(L_white + veil)/(L_black + veil); veil = E ρ/π + L r',
    inputs: {
      white: { dimension: 'luminance', about: 'luminance of white', symbol: 'L_white', above: 0 },
      black: { dimension: 'luminance', about: 'luminance of black', symbol: 'L_black', default: 0.3, min: 0 },
      illuminance: { dimension: 'illuminance', about: 'light on the display', symbol: 'E', default: 0, min: 0 },
      diffuse: {
        dimension: 'ratio',
        about: 'diffuse reflectance of the display',
        symbol: 'ρ',
        default: 0.01,
        min: 0,
        max: 1,
      },
      mirrored: {
        dimension: 'luminance',
        about: 'luminance of what is mirrored in it',
        symbol: 'L',
        default: 0,
        min: 0,
      },
      share: { dimension: 'ratio', about: 'share that is mirrored', symbol: 'r', default: 0.04, min: 0, max: 1 },
    },
    result: { symbol: '', name: 'contrast', dimension: 'ratio' },
    source: { title: 'Lambert’s law and Fresnel’s equations' },
    compute: (v) => {
      const veil = veilOf(v.illuminance, v.diffuse, v.mirrored, v.share);
      if (v.black + veil === 0) throw new RangeError('a black of nothing in a dark room has no contrast to speak of');
      return {
        value: contrastOf(v.white, v.black, veil),
        also: [{ symbol: '', name: 'veil', value: veil, unit: 'cd/m²' }],
      };
    },
  }),
  formula({
    name: 'footcandles',
    title: 'Footcandles in lux',
    topic,
    about: 'One lumen a square foot.',
    formula: '1/0.3048²',
    inputs: { footcandles: { dimension: 'number', about: 'footcandles', default: 1 } },
    result: { symbol: 'E', name: 'illuminance', dimension: 'illuminance' },
    source: { title: 'NIST SP 811', edition: '2008', place: 'appendix B.8' },
    compute: (v) => v.footcandles / 0.3048 ** 2,
  }),
  formula({
    name: 'light-reflectance-value',
    title: 'Light reflectance value from lightness',
    topic,
    about: 'Of a paint or floor, from L*.',
    formula: 'LRV = 100 ((L* + 16)/116)³',
    inputs: { lightness: { dimension: 'number', about: 'CIELAB lightness', symbol: 'L*', min: 0, max: 100 } },
    result: { symbol: 'LRV', name: 'light reflectance value', dimension: 'percent' },
    source: { title: 'BS 8493', edition: '2008' },
    compute: (v) => reflectanceValue(v.lightness),
  }),
  formula({
    name: 'reflectance-contrast',
    title: 'Difference in light reflectance that sets surfaces apart',
    topic,
    about: 'Least points between adjacent surfaces.',
    formula: 'table',
    inputs: {
      surfaces: { choices: ['normal', 'large, or lit above 200 lx'], about: 'which surfaces', default: 'normal' },
    },
    result: { symbol: '', name: 'points', dimension: 'percent' },
    source: { title: 'BS 8300-2', edition: '2018', place: 'annex B' },
    compute: ({ surfaces }) => (surfaces === 'normal' ? 30 : 20),
  }),
  formula({
    name: 'colour-difference',
    title: 'Difference of two colours (CIEDE2000)',
    topic,
    about: 'Of two CIELAB colours.',
    formula: 'CIEDE2000, kL = kC = kH = 1',
    inputs: {
      lab: { dimension: 'number', about: 'first: L*, a*, b*', list: true },
      'lab-2': { dimension: 'number', about: 'second: L*, a*, b*', list: true },
      kl: { dimension: 'number', about: 'weight of lightness', symbol: 'kL', default: 1, above: 0 },
      kc: { dimension: 'number', about: 'weight of chroma', symbol: 'kC', default: 1, above: 0 },
      kh: { dimension: 'number', about: 'weight of hue', symbol: 'kH', default: 1, above: 0 },
    },
    result: { symbol: 'ΔE00', name: 'difference', dimension: 'number' },
    source: { title: 'G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30', edition: '2005' },
    compute: (v) => ciede2000(three(v.lab, 'lab'), three(v['lab-2'], 'lab-2'), v.kl, v.kc, v.kh),
  }),
  formula({
    name: 'colour-temperature-mccamy',
    title: 'Correlated colour temperature by McCamy',
    topic,
    about: 'From x and y.',
    formula: 'n = (x − 0.3320)/(0.1858 − y); 449 n³ + 3525 n² + 6823.3 n + 5520.33',
    inputs: {
      x: { dimension: 'number', about: 'CIE 1931 x', above: 0, max: 0.8 },
      y: { dimension: 'number', about: 'CIE 1931 y', above: 0, max: 0.9 },
    },
    result: { symbol: 'CCT', name: 'colour temperature', dimension: 'colour temperature' },
    source: { title: 'C. S. McCamy, Color Res. Appl. 17', edition: '1992' },
    validity: 'near the locus, about 2000 to 12 500 K',
    compute: (v) => mccamy(v.x, v.y),
  }),
  formula({
    name: 'colour-temperature',
    title: 'Correlated colour temperature and Duv',
    topic,
    about: 'By the definition: the nearest black body in CIE 1960 u, v. From x and y, or u and v.',
    formula: 'T that makes |uv − uv(T)| least, on the locus of the 1931 observer',
    inputs: {
      x: { dimension: 'number', about: 'CIE 1931 x', optional: true, above: 0, max: 0.8 },
      y: { dimension: 'number', about: 'CIE 1931 y', optional: true, above: 0, max: 0.9 },
      u: { dimension: 'number', about: 'CIE 1960 u', optional: true, above: 0, max: 1 },
      v: { dimension: 'number', about: 'CIE 1960 v', optional: true, above: 0, max: 1 },
    },
    result: { symbol: 'CCT', name: 'colour temperature', dimension: 'colour temperature' },
    source: { ...CIE_15, place: 'definition of the correlated colour temperature' },
    validity: 'observer in steps of 5 nm: within about 2 K of finer tables; |Duv| < 0.05',
    compute: (v) => {
      const [x, y] = v.u !== undefined && v.v !== undefined ? xyOf(v.u, v.v) : [v.x, v.y];
      if (x === undefined || y === undefined) throw new RangeError('give x and y, or u and v');
      const { kelvin, duv } = correlatedTemperature(x, y);
      return { value: kelvin, also: [{ symbol: 'Duv', name: 'distance from the locus', value: duv, unit: '' }] };
    },
  }),
  formula({
    name: 'duv',
    title: 'Distance from the Planckian locus',
    topic,
    about: 'Duv by the fitted curve: + is greenish, − pinkish. From x and y, or u and v.',
    formula: '√((u − 0.292)² + (v − 0.240)²) − Σ k_n aⁿ',
    inputs: {
      x: { dimension: 'number', about: 'CIE 1931 x', optional: true, above: 0, max: 0.8 },
      y: { dimension: 'number', about: 'CIE 1931 y', optional: true, above: 0, max: 0.9 },
      u: { dimension: 'number', about: 'CIE 1960 u', optional: true, above: 0, max: 1 },
      v: { dimension: 'number', about: 'CIE 1960 v', optional: true, above: 0, max: 1 },
    },
    result: { symbol: 'Duv', name: 'distance', dimension: 'number' },
    source: { title: 'Y. Ohno, LEUKOS 10', edition: '2014' },
    compute: (g) => {
      const [u, v] =
        g.u !== undefined && g.v !== undefined
          ? [g.u, g.v]
          : g.x !== undefined && g.y !== undefined
            ? uvOf(g.x, g.y)
            : [undefined, undefined];
      if (u === undefined || v === undefined) throw new RangeError('give x and y, or u and v');
      return duvByFit(u, v);
    },
  }),
  formula({
    name: 'uv-chromaticity',
    title: 'CIE 1960 u, v from x, y',
    topic,
    about: 'The plane in which colour temperature is defined.',
    formula: 'u = 4x/(−2x + 12y + 3); v = 6y/(−2x + 12y + 3)',
    inputs: {
      x: { dimension: 'number', about: 'CIE 1931 x', above: 0, max: 0.8 },
      y: { dimension: 'number', about: 'CIE 1931 y', above: 0, max: 0.9 },
    },
    result: { symbol: 'u', name: 'u', dimension: 'number' },
    source: CIE_15,
    compute: (g) => {
      const [u, v] = uvOf(g.x, g.y);
      return { value: u, also: [{ symbol: 'v', name: 'v', value: v, unit: '' }] };
    },
  }),
  formula({
    name: 'white-point',
    title: 'Chromaticity of a standard illuminant',
    topic,
    about: 'CIE 1931, 2° observer.',
    formula: 'table',
    inputs: { illuminant: { choices: Object.keys(WHITE_POINTS), about: 'illuminant' } },
    result: { symbol: 'x', name: 'x', dimension: 'number' },
    source: CIE_15,
    assumes: ['A and D65 were read; the others are from memory'],
    compute: ({ illuminant }) => {
      const [x, y] = WHITE_POINTS[illuminant]!;
      return { value: x, also: [{ symbol: 'y', name: 'y', value: y, unit: '' }] };
    },
  }),
  formula({
    name: 'lamp-target',
    title: 'Nominal chromaticity of a white lamp',
    topic,
    about: 'By its nominal colour temperature.',
    formula: 'table',
    inputs: { lamp: { choices: Object.keys(LAMP_TARGETS), about: 'nominal colour temperature, K' } },
    result: { symbol: 'x', name: 'x', dimension: 'number' },
    source: { title: 'ANSI C78.377', place: 'targets' },
    compute: ({ lamp }) => {
      const [x, y] = LAMP_TARGETS[Number(lamp)]!;
      return { value: x, also: [{ symbol: 'y', name: 'y', value: y, unit: '' }] };
    },
  }),
  formula({
    name: 'daylight-chromaticity',
    title: 'Chromaticity of daylight of a colour temperature',
    topic,
    about: '4000 to 25 000 K.',
    formula: 'x by a cubic in 1/T; y = −3x² + 2.87x − 0.275',
    inputs: {
      temperature: { dimension: 'colour temperature', about: 'colour temperature', symbol: 'T', min: 4000, max: 25000 },
    },
    result: { symbol: 'x', name: 'x', dimension: 'number' },
    source: CIE_15,
    compute: (v) => {
      const [x, y] = daylightChromaticity(v.temperature);
      return { value: x, also: [{ symbol: 'y', name: 'y', value: y, unit: '' }] };
    },
  }),
  formula({
    name: 'srgb-decode',
    title: 'Linear light of an sRGB channel',
    topic,
    about: 'From 0 to 1.',
    formula: '((c + 0.055)/1.055)^2.4, c/12.92 below 0.04045',
    inputs: { channel: { dimension: 'ratio', about: 'channel', symbol: 'c', min: 0, max: 1 } },
    result: { symbol: '', name: 'linear', dimension: 'ratio' },
    source: SRGB,
    compute: (v) => srgbToLinear(v.channel),
  }),
  formula({
    name: 'linear-srgb-from-xyz',
    title: 'Linear sRGB from XYZ',
    topic,
    about: 'Red is the result, green and blue beside.',
    formula: 'the matrix printed in the standard, to four decimals',
    inputs: { xyz: { dimension: 'number', about: 'X, Y, Z', list: true } },
    result: { symbol: 'R', name: 'red', dimension: 'number' },
    source: SRGB,
    compute: (v) => {
      const [r, g, b] = xyzToLinearRgbAsPrinted(three(v.xyz, 'xyz'));
      return {
        value: r,
        also: [
          { symbol: 'G', name: 'green', value: g, unit: '' },
          { symbol: 'B', name: 'blue', value: b, unit: '' },
        ],
      };
    },
  }),
  formula({
    name: 'xyz-from-linear-srgb',
    title: 'XYZ from linear sRGB',
    topic,
    about: 'X is the result, Y and Z beside.',
    formula: 'matrix of the primaries',
    inputs: { rgb: { dimension: 'number', about: 'red, green, blue, linear', list: true } },
    result: { symbol: 'X', name: 'X', dimension: 'number' },
    source: SRGB,
    compute: (v) => {
      const [X, Y, Z] = linearRgbToXyz(three(v.rgb, 'rgb'));
      return {
        value: X,
        also: [
          { symbol: 'Y', name: 'Y', value: Y, unit: '' },
          { symbol: 'Z', name: 'Z', value: Z, unit: '' },
        ],
      };
    },
  }),
  formula({
    name: 'srgb-lightness',
    title: 'CIELAB of an sRGB colour',
    topic,
    about: 'Against D65: lightness is the result, a* and b* beside.',
    formula: 'sRGB → XYZ → CIELAB',
    inputs: { rgb: { dimension: 'number', about: 'red, green, blue from 0 to 255', list: true, min: 0, max: 255 } },
    result: { symbol: 'L*', name: 'lightness', dimension: 'number' },
    source: SRGB,
    compute: (v) => {
      const [r, g, b] = three(v.rgb, 'rgb');
      const [L, a, bb] = xyzToLab(srgbToXyz([r / 255, g / 255, b / 255]));
      return {
        value: L,
        also: [
          { symbol: 'a*', name: 'red-green', value: a, unit: '' },
          { symbol: 'b*', name: 'yellow-blue', value: bb, unit: '' },
          { symbol: 'LRV', name: 'light reflectance value', value: 100 * labToXyz([L, a, bb])[1], unit: '%' },
        ],
      };
    },
  }),
];

export const calculators: readonly AnyCalculator[] = [...factors, ...rooms, ...sources, ...lumen, ...colour];
