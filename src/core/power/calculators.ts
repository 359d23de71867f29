import { type AnyCalculator, formula, type Source } from '../notes/index.ts';
import {
  constantPowerVoltage,
  ladderDropOneEnd,
  ladderDropTwoEnds,
  ladderLossOneEnd,
  ladderLossTwoEnds,
  resistiveEndVoltage,
  tappedLine,
  uniformDrop,
  uniformLoss,
  uniformTwoEnds,
} from './closed-form.ts';
import {
  areaForDrop,
  copperCoefficientAt,
  copperResistance,
  factorTo20,
  gaugeArea,
  gaugeDiameter,
  gaugeOfArea,
  gaugeRatio,
  RESISTANCE_AT_75,
  railResistance,
  resistanceAt,
  STANDARD_AREAS,
  standardResistance,
  twoWireDrop,
} from './conductor.ts';
import type { Demand } from './network.ts';
import {
  BIT_SHAPE,
  BIT_TIME,
  frameTime,
  PIXEL_KINDS,
  pitch,
  pixelCurrent,
  pixelKind,
  pixelsForRate,
  pixelTime,
} from './pixel.ts';
import {
  CLASS_2,
  CLASS_2_VOLTS,
  CONTINUOUS,
  class2Limit,
  continuousLimit,
  deviceFor,
  ELECTRICAL_CAUTION,
  fuseFor,
  LIMITED_CABLE,
  protectionFor,
  SEPARATION,
  SHORT_CIRCUIT_LIMIT,
} from './rules.ts';
import { channelRise, solveInstallation } from './strip.ts';

const GAUGES: Source = { title: 'ASTM B258-02', place: 'standard nominal diameters of AWG wire' };
const ANNEALED_COPPER: Source = {
  title: 'International Annealed Copper Standard, Copper Wire Tables (NBS Handbook 100)',
  edition: '1966',
  place: 'ρ = 1/58 Ω·mm²/m at 20 °C, α = 0.00393 /K',
};
const DISTRIBUTION: Source = {
  title: 'V. K. Mehta & R. Mehta, Principles of Power System',
  place: 'chapter 13, D.C. distribution',
};
const CIRCUIT_LAWS: Source = { title: "Ohm's and Kirchhoff's laws" };
const ONE_WIRE: Source = { title: 'Worldsemi WS2812B data sheet', place: 'data transfer time, 800 kbit/s' };

const topic = 'power';
const gaugeInput = {
  dimension: 'number',
  about: 'American wire gauge (1/0 is 0, 2/0 is −1)',
  symbol: 'n',
  min: -3,
  max: 56,
} as const;
const optionalArea = {
  dimension: 'conductor area',
  about: 'copper area',
  symbol: 'A',
  above: 0,
  optional: true,
} as const;
const kinds = PIXEL_KINDS.map((k) => k.id);

/** The area asked for, by itself or by gauge. */
function areaOf(area: number | undefined, gauge: number | undefined): number {
  if (area !== undefined && gauge !== undefined) throw new RangeError('give the area or the gauge, not both');
  if (area !== undefined) return area;
  if (gauge !== undefined) return gaugeArea(gauge);
  throw new RangeError('the wire needs an area or a gauge');
}

const conductors = [
  formula({
    name: 'wire-diameter',
    title: 'Diameter of a solid wire by gauge',
    topic,
    about: 'American wire gauge to millimetres.',
    formula: 'd = 0.005 in · 92^((36 − n)/39)',
    inputs: { gauge: gaugeInput },
    result: { symbol: 'd', name: 'diameter', dimension: 'length' },
    source: GAUGES,
    compute: ({ gauge }) => gaugeDiameter(gauge),
  }),
  formula({
    name: 'wire-area',
    title: 'Copper area of a solid wire by gauge',
    topic,
    about: 'American wire gauge to square millimetres.',
    formula: 'A = π/4 · d²',
    inputs: { gauge: gaugeInput },
    result: { symbol: 'A', name: 'area', dimension: 'conductor area' },
    source: GAUGES,
    compute: ({ gauge }) => gaugeArea(gauge),
  }),
  formula({
    name: 'wire-gauge-for-area',
    title: 'Gauge that has at least an area',
    topic,
    about: 'The thinnest whole American wire gauge with at least this much copper.',
    formula: 'n = 36 − 39 · ln(d / 0.005 in) / ln 92, rounded down',
    inputs: { area: { dimension: 'conductor area', about: 'copper area', symbol: 'A', above: 0 } },
    result: { symbol: 'n', name: 'gauge', dimension: 'number' },
    source: GAUGES,
    compute: ({ area }) => {
      const exact = gaugeOfArea(area);
      return { value: Math.floor(exact + 1e-9), also: [{ symbol: 'n', name: 'exact', value: exact, unit: '' }] };
    },
  }),
  formula({
    name: 'gauge-step',
    title: 'Ratio of the diameters of two gauges',
    topic,
    about: 'How much thicker a wire is so many gauges down.',
    formula: '92^(steps/39)',
    inputs: { steps: { dimension: 'number', about: 'gauges apart', default: 1 } },
    result: { symbol: '', name: 'ratio', dimension: 'ratio' },
    source: GAUGES,
    compute: ({ steps }) => gaugeRatio(steps),
  }),
  formula({
    name: 'wire-resistance',
    title: 'Resistance of a copper wire',
    topic,
    about: 'By gauge or area, at a temperature; with a length, the resistance of that much wire too.',
    formula: 'R′ = ρ/A · [1 + α(T − 20)] · lay',
    inputs: {
      gauge: { ...gaugeInput, optional: true },
      area: optionalArea,
      temperature: {
        dimension: 'temperature',
        about: 'temperature of the wire',
        symbol: 'T',
        default: 20,
        min: -50,
        max: 200,
      },
      stranding: { choices: ['solid', '7 strands'], about: 'solid or stranded', default: 'solid' },
      length: { dimension: 'length', about: 'length of the wire, one conductor', symbol: 'L', optional: true, min: 0 },
    },
    result: { symbol: 'R′', name: 'resistance per length', dimension: 'resistance per length' },
    source: ANNEALED_COPPER,
    validity: 'plain copper, about −20 to 120 °C; strands add about 2 % (NEC chapter 9 table 8)',
    compute: ({ gauge, area, temperature, stranding, length }) => {
      const value = copperResistance(areaOf(area, gauge), temperature, stranding as 'solid' | '7 strands');
      return {
        value,
        also:
          length === undefined ? [] : [{ symbol: 'R', name: 'resistance', value: (value * length) / 1e6, unit: 'Ω' }],
      };
    },
  }),
  formula({
    name: 'wire-resistance-at-75',
    title: 'Resistance of copper wire at 75 °C, from the code table',
    topic,
    about: 'The printed value for uncoated copper, solid or of seven strands.',
    formula: 'table',
    inputs: {
      gauge: { ...gaugeInput, min: 10, max: 18 },
      stranding: { choices: ['solid', '7 strands'], about: 'solid or stranded', default: 'solid' },
    },
    result: { symbol: 'R′', name: 'resistance per length', dimension: 'resistance per length' },
    source: RESISTANCE_AT_75.source,
    compute: ({ gauge, stranding }) => {
      const row = RESISTANCE_AT_75.rows.find((r) => r.gauge === gauge);
      if (!row) throw new RangeError(`the table has gauges ${RESISTANCE_AT_75.rows.map((r) => r.gauge).join(', ')}`);
      return (stranding === 'solid' ? row.solid : row.stranded) / 0.3048;
    },
  }),
  formula({
    name: 'cable-resistance-limit',
    title: 'Highest resistance of a standard conductor at 20 °C',
    topic,
    about: 'IEC nominal areas: class 1 and 2 (solid or stranded) or class 5 (flexible), plain copper.',
    formula: 'table',
    inputs: {
      area: { dimension: 'conductor area', about: 'nominal area', symbol: 'A', above: 0 },
      class: { choices: ['solid', 'flexible'], about: 'class 1 and 2, or class 5', default: 'flexible' },
    },
    result: { symbol: 'R′', name: 'resistance per length', dimension: 'resistance per length' },
    source: STANDARD_AREAS.source,
    compute: ({ area, class: kind }) => standardResistance(area, kind as 'solid' | 'flexible'),
  }),
  formula({
    name: 'resistance-at-temperature',
    title: 'Resistance at another temperature',
    topic,
    about: 'From one temperature to another by the coefficient that belongs to the first; copper when none is given.',
    formula: 'R2 = R1 [1 + α(T2 − T1)]',
    inputs: {
      resistance: {
        dimension: 'resistance per length',
        about: 'resistance per length at the first temperature',
        symbol: 'R1',
      },
      from: { dimension: 'temperature', about: 'first temperature', symbol: 'T1', default: 20 },
      to: { dimension: 'temperature', about: 'second temperature', symbol: 'T2' },
      coefficient: {
        dimension: 'number',
        about: 'temperature coefficient at the first temperature, 1/K',
        symbol: 'α',
        optional: true,
      },
    },
    result: { symbol: 'R2', name: 'resistance per length', dimension: 'resistance per length' },
    source: { title: 'NFPA 70 (NEC)', place: 'chapter 9 table 8, note on temperature' },
    compute: ({ resistance, from, to, coefficient }) => ({
      value: resistanceAt(resistance, from, to, coefficient ?? copperCoefficientAt(from)),
      looked:
        coefficient === undefined
          ? [
              {
                symbol: 'α',
                name: 'copper at the first temperature',
                value: copperCoefficientAt(from),
                unit: '1/K',
                source: ANNEALED_COPPER,
              },
            ]
          : [],
    }),
  }),
  formula({
    name: 'resistance-factor-to-20',
    title: 'Factor that brings a measured resistance to 20 °C',
    topic,
    about: 'Multiply what was measured at t by it.',
    formula: 'k = 250/(230 + t)',
    inputs: {
      temperature: { dimension: 'temperature', about: 'temperature when measured', symbol: 't', min: -50, max: 150 },
    },
    result: { symbol: 'k', name: 'factor', dimension: 'ratio' },
    source: { title: 'IEC 60228', edition: '2004', place: 'annex, temperature correction factors' },
    compute: ({ temperature }) => factorTo20(temperature),
  }),
  formula({
    name: 'strip-rail-resistance',
    title: "Resistance of a strip's copper rail",
    topic,
    about: 'One rail; the loop has two. One ounce of copper a square foot is 35 µm.',
    formula: 'R′ = ρ/(w t) · [1 + α(T − 20)]',
    inputs: {
      width: { dimension: 'length', about: 'width of the rail', symbol: 'w', above: 0 },
      thickness: { dimension: 'length', about: 'thickness of its copper', symbol: 't', above: 0, default: 0.035 },
      temperature: { dimension: 'temperature', about: 'temperature of the copper', symbol: 'T', default: 20 },
    },
    result: { symbol: 'R′', name: 'resistance per length', dimension: 'resistance per length' },
    source: ANNEALED_COPPER,
    compute: ({ width, thickness, temperature }) => railResistance(width, thickness * 1000, temperature) * 1000,
  }),
  formula({
    name: 'wire-drop',
    title: 'Voltage drop along a two-wire run',
    topic,
    about: 'There and back. Give the resistance per length, or the gauge, or the area.',
    formula: 'ΔV = 2 L I R′',
    inputs: {
      length: { dimension: 'length', about: 'length one way', symbol: 'L', min: 0 },
      current: { dimension: 'current', about: 'current', symbol: 'I', min: 0 },
      resistance: {
        dimension: 'resistance per length',
        about: 'resistance of one conductor per length',
        symbol: 'R′',
        optional: true,
        above: 0,
      },
      gauge: { ...gaugeInput, optional: true },
      area: optionalArea,
      temperature: { dimension: 'temperature', about: 'temperature of the wire', symbol: 'T', default: 20 },
    },
    result: { symbol: 'ΔV', name: 'drop', dimension: 'voltage' },
    source: CIRCUIT_LAWS,
    assumes: ['the temperature matters only where the resistance is worked out from gauge or area'],
    compute: ({ length, current, resistance, gauge, area, temperature }) => {
      const perKm = resistance ?? copperResistance(areaOf(area, gauge), temperature);
      const drop = twoWireDrop(length, current, perKm);
      return { value: drop, also: [{ symbol: 'P', name: 'loss', value: drop * current, unit: 'W' }] };
    },
  }),
  formula({
    name: 'wire-for-drop',
    title: 'Copper needed to keep a run within a voltage drop',
    topic,
    about: 'Least area of each of the two conductors; the gauge that has it is shown beside.',
    formula: 'A = 2 L I ρ [1 + α(T − 20)] / ΔV',
    inputs: {
      length: { dimension: 'length', about: 'length one way', symbol: 'L', above: 0 },
      current: { dimension: 'current', about: 'current', symbol: 'I', above: 0 },
      drop: { dimension: 'voltage', about: 'drop allowed', symbol: 'ΔV', above: 0 },
      temperature: { dimension: 'temperature', about: 'temperature of the wire', symbol: 'T', default: 20 },
    },
    result: { symbol: 'A', name: 'area', dimension: 'conductor area' },
    source: ANNEALED_COPPER,
    caution: ELECTRICAL_CAUTION,
    assumes: ['only the drop is looked at: the current a wire may carry is a second limit'],
    compute: ({ length, current, drop, temperature }) => {
      const value = areaForDrop(length, current, drop, temperature);
      return {
        value,
        also: [{ symbol: 'n', name: 'gauge', value: Math.floor(gaugeOfArea(value) + 1e-9), unit: 'AWG' }],
      };
    },
  }),
];

const pixels = [
  formula({
    name: 'pixel-time',
    title: "Time of one pixel's data",
    topic,
    about: '24 bits for red, green, blue; 32 with white.',
    formula: 't = bits · bit time',
    inputs: {
      bits: { dimension: 'count', about: 'bits a pixel', default: 24, above: 0 },
      'bit-time': { dimension: 'time', about: 'time of one bit', default: BIT_TIME, above: 0 },
    },
    result: { symbol: 't', name: 'time', dimension: 'time' },
    source: ONE_WIRE,
    compute: (v) => pixelTime(v.bits, v['bit-time']),
  }),
  formula({
    name: 'frame-rate',
    title: 'Highest frame rate of one data line',
    topic,
    about: 'Pixels in a row on one line, each passing on the rest.',
    formula: 'f = 1/(n · bits · bit time + reset)',
    inputs: {
      pixels: { dimension: 'count', about: 'pixels on the line', symbol: 'n', min: 1 },
      bits: { dimension: 'count', about: 'bits a pixel', default: 24, above: 0 },
      reset: {
        dimension: 'time',
        about: 'pause that ends a frame (50 to 300 µs by chip; 280 µs does for most)',
        default: 280e-6,
        min: 0,
      },
      'bit-time': { dimension: 'time', about: 'time of one bit', default: BIT_TIME, above: 0 },
    },
    result: { symbol: 'f', name: 'frames a second', dimension: 'frequency' },
    source: ONE_WIRE,
    compute: (v) => {
      const time = frameTime(v.pixels, v.bits, v.reset, v['bit-time']);
      return { value: 1 / time, also: [{ symbol: 't', name: 'frame time', value: time, unit: 's' }] };
    },
  }),
  formula({
    name: 'pixels-for-frame-rate',
    title: 'Most pixels on one data line at a frame rate',
    topic,
    about: 'More pixels need a second line.',
    formula: 'n = ⌊(1/f − reset)/(bits · bit time)⌋',
    inputs: {
      rate: { dimension: 'frequency', about: 'frames a second', symbol: 'f', above: 0 },
      bits: { dimension: 'count', about: 'bits a pixel', default: 24, above: 0 },
      reset: { dimension: 'time', about: 'pause that ends a frame', default: 280e-6, min: 0 },
      'bit-time': { dimension: 'time', about: 'time of one bit', default: BIT_TIME, above: 0 },
    },
    result: { symbol: 'n', name: 'pixels', dimension: 'count' },
    source: ONE_WIRE,
    compute: (v) => pixelsForRate(v.rate, v.bits, v.reset, v['bit-time']),
  }),
  formula({
    name: 'pixel-reset-time',
    title: 'Pause that ends a frame, by kind of pixel',
    topic,
    about: 'Chips sold under one name need different pauses: take the longer where in doubt.',
    formula: 'table',
    inputs: { kind: { choices: kinds, about: 'kind of pixel' } },
    result: { symbol: 't', name: 'reset', dimension: 'time' },
    source: ONE_WIRE,
    compute: ({ kind }) => ({ value: pixelKind(kind).reset, source: pixelKind(kind).source }),
  }),
  formula({
    name: 'pixel-bit-shape',
    title: 'How long a bit of pixel data is high and low',
    topic,
    about: 'A zero or a one of the one-wire protocol; tolerance 0.15 µs.',
    formula: 'table',
    inputs: { bit: { choices: ['zero', 'one'], about: 'which bit' } },
    result: { symbol: 'T_high', name: 'high', dimension: 'time' },
    source: BIT_SHAPE.source,
    compute: ({ bit }) => {
      const [high, low] = BIT_SHAPE[bit as 'zero' | 'one'];
      return { value: high, also: [{ symbol: 'T_low', name: 'low', value: low, unit: 's' }] };
    },
  }),
  formula({
    name: 'pixel-supply-voltage',
    title: 'Supply range of a kind of pixel',
    topic,
    about: 'Least and most voltage at the pixel.',
    formula: 'table',
    inputs: { kind: { choices: kinds, about: 'kind of pixel' } },
    result: { symbol: 'V', name: 'nominal', dimension: 'voltage' },
    source: ONE_WIRE,
    compute: ({ kind }) => {
      const k = pixelKind(kind);
      return {
        value: k.volts,
        also: [
          { symbol: 'Vmin', name: 'least', value: k.supply[0], unit: 'V' },
          { symbol: 'Vmax', name: 'most', value: k.supply[1], unit: 'V' },
        ],
        source: k.source,
      };
    },
  }),
  formula({
    name: 'pixel-current',
    title: 'Current of one pixel',
    topic,
    about: 'By kind, or by the channel currents of its data sheet; levels from 0 to 1 say what it shows.',
    formula: 'I = Iq + Σ I_channel · level',
    inputs: {
      kind: { choices: kinds, about: 'kind of pixel', default: '5 V RGB, typical' },
      channels: {
        dimension: 'current',
        about: 'full-scale current of each channel, in place of the kind’s',
        list: true,
        optional: true,
        min: 0,
      },
      quiescent: {
        dimension: 'current',
        about: 'current when dark, in place of the kind’s',
        symbol: 'Iq',
        optional: true,
        min: 0,
      },
      levels: {
        dimension: 'ratio',
        about: 'level of each channel, or one for all; 1 is full white',
        list: true,
        optional: true,
        min: 0,
        max: 1,
      },
      voltage: {
        dimension: 'voltage',
        about: 'voltage at the pixel, in place of the kind’s',
        symbol: 'V',
        optional: true,
        above: 0,
      },
    },
    result: { symbol: 'I', name: 'current', dimension: 'current' },
    source: { title: 'FastLED library', place: 'power_mgt.cpp' },
    validity: 'a bound from published currents, not a measurement: chips of one name differ by a factor of two',
    compute: ({ kind, channels, quiescent, levels, voltage }) => {
      const k = pixelKind(kind);
      const value = pixelCurrent(channels ?? k.channels, quiescent ?? (channels ? 0 : k.quiescent), levels ?? [1]);
      return {
        value,
        also: [{ symbol: 'P', name: 'power', value: value * (voltage ?? k.volts), unit: 'W' }],
        source: channels ? CIRCUIT_LAWS : k.currentSource,
      };
    },
  }),
  formula({
    name: 'strip-current',
    title: 'Current of a strip',
    topic,
    about: 'Length and density, or a count, times what each light takes at what it really shows.',
    formula: 'I = n · (Iq + I · level)',
    inputs: {
      length: { dimension: 'length', about: 'length of the strip', symbol: 'L', optional: true, min: 0 },
      density: { dimension: 'per length', about: 'lights a metre', optional: true, above: 0 },
      count: {
        dimension: 'count',
        about: 'lights, in place of length and density',
        symbol: 'n',
        optional: true,
        min: 0,
      },
      each: { dimension: 'current', about: 'current of one light at full', symbol: 'I', default: 0.06, min: 0 },
      quiescent: { dimension: 'current', about: 'current of one light when dark', symbol: 'Iq', default: 0, min: 0 },
      level: { dimension: 'ratio', about: 'share of full that is shown', default: 1, min: 0, max: 1 },
      voltage: { dimension: 'voltage', about: 'supply voltage', symbol: 'V', optional: true, above: 0 },
    },
    result: { symbol: 'I', name: 'current', dimension: 'current' },
    source: CIRCUIT_LAWS,
    assumes: ['60 mA a pixel (three channels of 20 mA) is a bound, from memory; current production measures far less'],
    compute: ({ length, density, count, each, quiescent, level, voltage }) => {
      if (count === undefined && (length === undefined || density === undefined))
        throw new RangeError('the strip needs a count, or a length and a density');
      const n = count ?? Math.floor((length! / 1000) * density! + 1e-9);
      const value = n * (quiescent + each * level);
      return {
        value,
        also: [
          { symbol: 'n', name: 'lights', value: n, unit: '' },
          ...(voltage === undefined ? [] : [{ symbol: 'P', name: 'power', value: value * voltage, unit: 'W' }]),
        ],
      };
    },
  }),
  formula({
    name: 'pixel-pitch',
    title: 'Distance from one light of a strip to the next',
    topic,
    about: 'A strip is cut at whole pitches, or at whole groups of them.',
    formula: 'p = 1000 mm / density',
    inputs: { density: { dimension: 'per length', about: 'lights a metre', above: 0 } },
    result: { symbol: 'p', name: 'pitch', dimension: 'length' },
    source: 'common practice',
    compute: ({ density }) => pitch(density),
  }),
  formula({
    name: 'data-level',
    title: 'Level a data line must reach',
    topic,
    about:
      'A pixel reads a one above a share of its own supply; a controller of a lower voltage needs a level shifter.',
    formula: 'V_one = 0.7 · V_supply',
    inputs: {
      supply: { dimension: 'voltage', about: 'supply of the first pixel', above: 0 },
      controller: { dimension: 'voltage', about: 'level the controller gives', default: 3.3, above: 0 },
      share: { dimension: 'ratio', about: 'share of its supply that reads as one', default: 0.7, min: 0, max: 1 },
    },
    result: { symbol: 'V_one', name: 'least level of a one', dimension: 'voltage' },
    source: 'from memory',
    validity: 'the share is the chip’s: later revisions accept less',
    compute: ({ supply, controller, share }) => ({
      value: supply * share,
      also: [{ symbol: '', name: 'margin', value: controller - supply * share, unit: 'V' }],
    }),
  }),
];

const lines = [
  formula({
    name: 'line-voltages',
    title: 'Voltages along a line with loads tapped off it',
    topic,
    about:
      'Currents at points and a uniform current besides; fed at one end, or at both when a second voltage is given.',
    formula: 'V falls by Σ I r l from load to load; fed at both ends, I_A = (VA − VB)/(r L) + Σ I (L − x)/L',
    inputs: {
      voltage: { dimension: 'voltage', about: 'voltage at the feed A', symbol: 'VA' },
      'far-voltage': {
        dimension: 'voltage',
        about: 'voltage at the other end B, when fed there too',
        symbol: 'VB',
        optional: true,
      },
      loads: { dimension: 'current', about: 'currents taken', symbol: 'I', list: true, optional: true },
      at: {
        dimension: 'length',
        about: 'where they are taken, from A',
        symbol: 'x',
        list: true,
        optional: true,
        min: 0,
      },
      uniform: { dimension: 'current per length', about: 'current taken all along', symbol: 'i', default: 0, min: 0 },
      length: {
        dimension: 'length',
        about: 'length of the line; that of the last load when left out',
        symbol: 'L',
        optional: true,
        above: 0,
      },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length of line',
        symbol: 'r',
        optional: true,
        above: 0,
      },
      conductor: {
        dimension: 'resistance per length',
        about: 'resistance of one conductor, in place of the loop',
        optional: true,
        above: 0,
      },
    },
    result: { symbol: 'Vmin', name: 'lowest voltage', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: (v) => {
      const loop = v.loop ?? (v.conductor === undefined ? undefined : 2 * v.conductor);
      if (loop === undefined) throw new RangeError('the line needs the resistance of its loop or of one conductor');
      const at = (v.at ?? []).map((x) => x / 1000);
      const length = v.length === undefined ? Math.max(0, ...at) : v.length / 1000;
      if (!(length > 0)) throw new RangeError('the line needs a length');
      const line = { at, loads: v.loads ?? [], uniform: v.uniform, length, loop: loop / 1000 };
      const answer = tappedLine(line, v.voltage, v['far-voltage']);
      return {
        value: answer.lowest,
        also: [
          ...answer.voltages.map((value, k) => ({
            symbol: `V${k + 1}`,
            name: `voltage at load ${k + 1}`,
            value,
            unit: 'V',
          })),
          { symbol: 'VB', name: 'voltage at the far end', value: answer.endVoltage, unit: 'V' },
          { symbol: 'x', name: 'place of the lowest', value: answer.lowestAt * 1000, unit: 'mm' },
          { symbol: 'IA', name: 'current from A', value: answer.currentA, unit: 'A' },
          ...(v['far-voltage'] === undefined
            ? []
            : [{ symbol: 'IB', name: 'current from B', value: answer.currentB, unit: 'A' }]),
          { symbol: 'P', name: 'loss', value: answer.loss, unit: 'W' },
        ],
      };
    },
  }),
  formula({
    name: 'uniform-line-drop',
    title: 'Drop along a uniformly loaded line fed at one end',
    topic,
    about: 'At a point, and the loss of the whole line.',
    formula: 'V = i r (L x − x²/2); loss = i² r L³/3',
    inputs: {
      uniform: { dimension: 'current per length', about: 'current taken all along', symbol: 'i', above: 0 },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length of line',
        symbol: 'r',
        above: 0,
      },
      length: { dimension: 'length', about: 'length of the line', symbol: 'L', above: 0 },
      at: {
        dimension: 'length',
        about: 'distance from the feed; the far end when left out',
        symbol: 'x',
        optional: true,
        min: 0,
      },
    },
    result: { symbol: 'V', name: 'drop', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: ({ uniform, loop, length, at }) => {
      const [r, L] = [loop / 1000, length / 1000];
      const x = (at ?? length) / 1000;
      if (x > L) throw new RangeError(`${x} m is beyond the end of the line at ${L} m`);
      return {
        value: uniformDrop(uniform, r, L, x),
        also: [{ symbol: 'P', name: 'loss', value: uniformLoss(uniform, r, L), unit: 'W' }],
      };
    },
  }),
  formula({
    name: 'feed-voltage',
    title: 'Voltage to feed in so that a point of a uniform line is held',
    topic,
    about: 'Fed at one end; the voltage wanted at a point, the far end when no point is named.',
    formula: 'VA = V + i r (L x − x²/2)',
    inputs: {
      voltage: { dimension: 'voltage', about: 'voltage wanted there', symbol: 'V' },
      uniform: { dimension: 'current per length', about: 'current taken all along', symbol: 'i', above: 0 },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length of line',
        symbol: 'r',
        above: 0,
      },
      length: { dimension: 'length', about: 'length of the line', symbol: 'L', above: 0 },
      at: { dimension: 'length', about: 'distance of the point from the feed', symbol: 'x', optional: true, min: 0 },
    },
    result: { symbol: 'VA', name: 'feed voltage', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: ({ voltage, uniform, loop, length, at }) =>
      voltage + uniformDrop(uniform, loop / 1000, length / 1000, (at ?? length) / 1000),
  }),
  formula({
    name: 'two-end-line',
    title: 'Uniformly loaded line fed at both ends',
    topic,
    about: 'Lowest voltage, where it is, and what each end gives.',
    formula: 'x = L/2 + (VA − VB)/(i r L); V = VA − i r x²/2',
    inputs: {
      voltage: { dimension: 'voltage', about: 'voltage at A', symbol: 'VA' },
      'far-voltage': {
        dimension: 'voltage',
        about: 'voltage at B; as at A when left out',
        symbol: 'VB',
        optional: true,
      },
      uniform: { dimension: 'current per length', about: 'current taken all along', symbol: 'i', above: 0 },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length of line',
        symbol: 'r',
        above: 0,
      },
      length: { dimension: 'length', about: 'length of the line', symbol: 'L', above: 0 },
    },
    result: { symbol: 'Vmin', name: 'lowest voltage', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: (v) => {
      const answer = uniformTwoEnds(
        v.voltage,
        v['far-voltage'] ?? v.voltage,
        v.uniform,
        v.loop / 1000,
        v.length / 1000,
      );
      return {
        value: answer.lowest,
        also: [
          { symbol: 'x', name: 'place of the lowest', value: answer.lowestAt * 1000, unit: 'mm' },
          { symbol: 'ΔV', name: 'greatest drop from A', value: v.voltage - answer.lowest, unit: 'V' },
          { symbol: 'IA', name: 'current from A', value: answer.currentA, unit: 'A' },
          { symbol: 'IB', name: 'current from B', value: answer.currentB, unit: 'A' },
          { symbol: 'P', name: 'loss', value: answer.loss, unit: 'W' },
        ],
      };
    },
  }),
  formula({
    name: 'two-end-drop',
    title: 'Greatest drop of a uniform line fed equally at both ends',
    topic,
    about: 'From the whole current and the whole resistance of the loop.',
    formula: 'ΔV = I R / 8',
    inputs: {
      current: { dimension: 'current', about: 'current of the whole line', symbol: 'I', above: 0 },
      resistance: { dimension: 'resistance', about: 'resistance of the whole loop', symbol: 'R', above: 0 },
      voltage: { dimension: 'voltage', about: 'voltage at both ends', symbol: 'V', optional: true },
    },
    result: { symbol: 'ΔV', name: 'greatest drop', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: ({ current, resistance, voltage }) => {
      const value = (current * resistance) / 8;
      return {
        value,
        also:
          voltage === undefined ? [] : [{ symbol: 'Vmin', name: 'lowest voltage', value: voltage - value, unit: 'V' }],
      };
    },
  }),
  formula({
    name: 'end-voltages-for-minimum',
    title: 'End voltages that put the lowest voltage at a place',
    topic,
    about: 'Uniform line fed at both ends; the lowest voltage and where it is are known.',
    formula: 'VA = V + i r x²/2; VB = V + i r (L − x)²/2',
    inputs: {
      lowest: { dimension: 'voltage', about: 'lowest voltage', symbol: 'V' },
      at: { dimension: 'length', about: 'its distance from A', symbol: 'x', min: 0 },
      uniform: { dimension: 'current per length', about: 'current taken all along', symbol: 'i', above: 0 },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length of line',
        symbol: 'r',
        above: 0,
      },
      length: { dimension: 'length', about: 'length of the line', symbol: 'L', above: 0 },
    },
    result: { symbol: 'VA', name: 'voltage at A', dimension: 'voltage' },
    source: DISTRIBUTION,
    compute: ({ lowest, at, uniform, loop, length }) => {
      const end = (d: number): number => lowest + (uniform * (loop / 1000) * (d / 1000) ** 2) / 2;
      return { value: end(at), also: [{ symbol: 'VB', name: 'voltage at B', value: end(length - at), unit: 'V' }] };
    },
  }),
  formula({
    name: 'ladder-drop',
    title: 'Drop along equal lights behind equal sections',
    topic,
    about: 'N lights of the same current in a row, fed at one end or at both.',
    formula: 'one end: i r N(N+1)/2; both: i r [(N+1)² − ((N+1) mod 2)]/8',
    inputs: {
      count: { dimension: 'count', about: 'lights', symbol: 'N', min: 1 },
      current: { dimension: 'current', about: 'current of each', symbol: 'i', above: 0 },
      section: { dimension: 'resistance', about: 'loop resistance of one section', symbol: 'r', above: 0 },
      feed: { choices: ['one end', 'both ends'], about: 'where it is fed', default: 'one end' },
    },
    result: { symbol: 'ΔV', name: 'greatest drop', dimension: 'voltage' },
    source: CIRCUIT_LAWS,
    compute: ({ count, current, section, feed }) => {
      const both = feed === 'both ends';
      return {
        value: (both ? ladderDropTwoEnds : ladderDropOneEnd)(count, current, section),
        also: [
          {
            symbol: 'P',
            name: 'loss',
            value: (both ? ladderLossTwoEnds : ladderLossOneEnd)(count, current, section),
            unit: 'W',
          },
        ],
        formula: both
          ? 'ΔV = i r [(N+1)² − ((N+1) mod 2)]/8; P = i² r N(N+1)(N+2)/12'
          : 'ΔV = i r N(N+1)/2; P = i² r N(N+1)(2N+1)/6',
      };
    },
  }),
  formula({
    name: 'resistive-line-end-voltage',
    title: 'End voltage of a line loaded by a conductance all along',
    topic,
    about: 'Lights that take less as the voltage falls.',
    formula: 'V(L) = Vs / cosh(L √(r g))',
    inputs: {
      voltage: { dimension: 'voltage', about: 'voltage at the feed', symbol: 'Vs' },
      loop: {
        dimension: 'resistance per length',
        about: 'resistance of both conductors per length',
        symbol: 'r',
        above: 0,
      },
      conductance: {
        dimension: 'conductance per length',
        about: 'conductance of the load per length',
        symbol: 'g',
        above: 0,
      },
      length: { dimension: 'length', about: 'length of the line', symbol: 'L', above: 0 },
    },
    result: { symbol: 'V', name: 'voltage at the far end', dimension: 'voltage' },
    source: CIRCUIT_LAWS,
    compute: ({ voltage, loop, conductance, length }) =>
      resistiveEndVoltage(voltage, loop / 1000, conductance, length / 1000),
  }),
  formula({
    name: 'constant-power-voltage',
    title: 'Voltage at a load that takes a constant power',
    topic,
    about: 'A regulator behind a resistance: it takes more current as its voltage falls, until there is no answer.',
    formula: 'V = [Vs + √(Vs² − 4 P R)]/2',
    inputs: {
      voltage: { dimension: 'voltage', about: 'supply voltage', symbol: 'Vs', above: 0 },
      power: { dimension: 'power', about: 'power of the load', symbol: 'P', min: 0 },
      resistance: { dimension: 'resistance', about: 'resistance on the way, both conductors', symbol: 'R', min: 0 },
    },
    result: { symbol: 'V', name: 'voltage at the load', dimension: 'voltage' },
    source: CIRCUIT_LAWS,
    validity: 'no steady voltage exists when 4 P R > Vs²',
    compute: ({ voltage, power, resistance }) => {
      const value = constantPowerVoltage(voltage, power, resistance);
      if (value === undefined)
        throw new RangeError(
          `no voltage carries ${power} W through ${resistance} Ω from ${voltage} V: at most ${(voltage * voltage) / (4 * resistance)} W pass`,
        );
      return { value, also: [{ symbol: 'I', name: 'current', value: power / value, unit: 'A' }] };
    },
  }),
  formula({
    name: 'strip-lowest-voltage',
    title: 'Lowest voltage on a strip, its wires included',
    topic,
    about: 'The strip and its wires solved as a network of both rails, with every light in it.',
    formula: 'nodal equations G v = j − i(v), by Newton’s method',
    inputs: {
      count: { dimension: 'count', about: 'lights or groups', symbol: 'N', min: 1, max: 5000 },
      density: { dimension: 'per length', about: 'lights or groups a metre', above: 0 },
      voltage: { dimension: 'voltage', about: 'supply voltage', symbol: 'Vs', above: 0 },
      rail: { dimension: 'resistance per length', about: 'resistance of one rail of the strip per length', above: 0 },
      load: {
        choices: ['current', 'power', 'resistance'],
        about: 'what a light holds constant as the voltage falls',
        default: 'current',
      },
      each: { dimension: 'current', about: 'current of one light at the supply voltage', symbol: 'i', above: 0 },
      feed: { choices: ['one end', 'both ends', 'middle'], about: 'where it is fed', default: 'one end' },
      'wire-length': { dimension: 'length', about: 'length of each feed wire, one way', default: 0, min: 0 },
      'wire-resistance': {
        dimension: 'resistance per length',
        about: 'resistance of one conductor of the feed wire',
        default: 13.3,
        min: 0,
      },
    },
    result: { symbol: 'Vmin', name: 'lowest voltage', dimension: 'voltage' },
    source: CIRCUIT_LAWS,
    assumes: ['all lights show the same', 'the supply holds its voltage'],
    compute: (v) => {
      const groups = Math.round(v.count);
      const demand: Demand =
        v.load === 'current'
          ? { kind: 'current', amps: v.each }
          : v.load === 'power'
            ? { kind: 'power', watts: v.each * v.voltage }
            : { kind: 'resistance', ohm: v.voltage / v.each };
      const boundaries = v.feed === 'one end' ? [0] : v.feed === 'both ends' ? [0, groups] : [Math.floor(groups / 2)];
      const answer = solveInstallation({
        strips: [
          {
            id: 'strip',
            groups,
            groupLength: 1000 / v.density,
            rail: { plus: v.rail / 1000, minus: v.rail / 1000 },
            demand,
          },
        ],
        supplies: [{ id: 'supply', volts: v.voltage, ohm: 0 }],
        leads: boundaries.map((boundary) => ({
          from: { supply: 'supply' },
          to: { strip: 'strip', boundary },
          length: v['wire-length'],
          ohmPerKm: v['wire-resistance'],
        })),
      });
      if (answer.status !== 'solved') throw new RangeError(answer.why);
      const state = answer.strips[0]!;
      return {
        value: state.lowest,
        also: [
          { symbol: 'I', name: 'current', value: state.current, unit: 'A' },
          { symbol: 'Irail', name: 'most current in a rail', value: state.railCurrent, unit: 'A' },
          { symbol: 'P', name: 'loss', value: answer.loss, unit: 'W' },
        ],
      };
    },
  }),
];

const rules = [
  formula({
    name: 'class-2-power',
    title: 'Power limit of a class 2 supply',
    topic,
    about: 'Nameplate limit of a d.c. source by its highest voltage; the current limit is shown beside it.',
    formula: '5·V volt-amperes and 5 A up to 20 V; 100 VA and 100/V amperes above',
    inputs: {
      voltage: { dimension: 'voltage', about: 'highest voltage', symbol: 'V', above: 0, max: CLASS_2_VOLTS.dry },
    },
    result: { symbol: 'S', name: 'power', dimension: 'power' },
    source: CLASS_2,
    caution: ELECTRICAL_CAUTION,
    assumes: [
      'the body of the table is from memory; its notes were read',
      'a supply is class 2 only when it is marked so',
    ],
    compute: ({ voltage }) => {
      const { power, current } = class2Limit(voltage);
      return { value: power, also: [{ symbol: 'I', name: 'current', value: current, unit: 'A' }] };
    },
  }),
  formula({
    name: 'class-2-current',
    title: 'Current limit of a class 2 supply',
    topic,
    about: 'Nameplate limit of a d.c. source by its highest voltage.',
    formula: '5 A up to 20 V; 100/V amperes above',
    inputs: {
      voltage: { dimension: 'voltage', about: 'highest voltage', symbol: 'V', above: 0, max: CLASS_2_VOLTS.dry },
    },
    result: { symbol: 'I', name: 'current', dimension: 'current' },
    source: CLASS_2,
    caution: ELECTRICAL_CAUTION,
    assumes: ['the body of the table is from memory; its notes were read'],
    compute: ({ voltage }) => class2Limit(voltage).current,
  }),
  formula({
    name: 'class-2-voltage',
    title: 'Highest voltage of class 2 wiring',
    topic,
    about: 'Continuous d.c., less where it may be touched wet.',
    formula: 'table',
    inputs: { place: { choices: ['dry', 'wet'], about: 'whether wet contact is likely', default: 'dry' } },
    result: { symbol: 'V', name: 'voltage', dimension: 'voltage' },
    source: CLASS_2,
    caution: ELECTRICAL_CAUTION,
    compute: ({ place }) => CLASS_2_VOLTS[place as 'dry' | 'wet'],
  }),
  formula({
    name: 'limited-source-current',
    title: 'Short-circuit current of an inherently limited source',
    topic,
    about: 'Most current after 60 s into any load, up to 30 V.',
    formula: 'table',
    inputs: {
      voltage: { dimension: 'voltage', about: 'voltage of the source', above: 0, max: SHORT_CIRCUIT_LIMIT.upTo },
    },
    result: { symbol: 'I', name: 'current', dimension: 'current' },
    source: SHORT_CIRCUIT_LIMIT.source,
    caution: ELECTRICAL_CAUTION,
    compute: () => SHORT_CIRCUIT_LIMIT.amps,
  }),
  formula({
    name: 'continuous-load-limit',
    title: 'Most a device may carry for hours',
    topic,
    about: 'Three hours or more count as continuous; lights of a set do.',
    formula: 'I = 0.8 · rating',
    inputs: { device: { dimension: 'current', about: 'rating of the breaker or fuse', above: 0 } },
    result: { symbol: 'I', name: 'continuous load', dimension: 'current' },
    source: CONTINUOUS.source,
    caution: ELECTRICAL_CAUTION,
    compute: ({ device }) => continuousLimit(device),
  }),
  formula({
    name: 'device-for-continuous-load',
    title: 'Rating needed for a load that runs for hours',
    topic,
    about: 'Least rating of the breaker, fuse or supply.',
    formula: 'rating = 1.25 · I',
    inputs: { load: { dimension: 'current', about: 'continuous load', symbol: 'I', above: 0 } },
    result: { symbol: '', name: 'rating', dimension: 'current' },
    source: CONTINUOUS.source,
    caution: ELECTRICAL_CAUTION,
    compute: ({ load }) => deviceFor(load),
  }),
  formula({
    name: 'supply-power',
    title: 'Power a supply should have',
    topic,
    about: 'What is drawn, with headroom.',
    formula: 'P = V · I / share',
    inputs: {
      voltage: { dimension: 'voltage', about: 'supply voltage', symbol: 'V', above: 0 },
      current: { dimension: 'current', about: 'current drawn', symbol: 'I', above: 0 },
      share: { dimension: 'ratio', about: 'share of its rating a supply is loaded to', default: 0.8, above: 0, max: 1 },
    },
    result: { symbol: 'P', name: 'power', dimension: 'power' },
    source: 'common practice',
    caution: ELECTRICAL_CAUTION,
    compute: ({ voltage, current, share }) => (voltage * current) / share,
  }),
  formula({
    name: 'wire-protection-limit',
    title: 'Largest fuse or breaker for a copper wire',
    topic,
    about: 'By gauge.',
    formula: 'table',
    inputs: { gauge: { ...gaugeInput, min: 10, max: 18 } },
    result: { symbol: 'I', name: 'most', dimension: 'current' },
    source: { title: 'NFPA 70 (NEC)', place: '240.4(D)' },
    caution: ELECTRICAL_CAUTION,
    compute: ({ gauge }) => {
      const row = protectionFor(gauge);
      return { value: row.amps, source: row.source };
    },
  }),
  formula({
    name: 'fuse-for-load',
    title: 'Fuse for a load on a wire',
    topic,
    about: 'The smallest common rating that carries the load for hours and still guards the wire.',
    formula: '1.25 · I ≤ fuse ≤ limit of the wire',
    inputs: {
      load: { dimension: 'current', about: 'continuous load', symbol: 'I', above: 0 },
      gauge: { ...gaugeInput, optional: true, min: 10, max: 18 },
      'wire-limit': {
        dimension: 'current',
        about: 'limit of the wire from its data sheet, in place of the gauge',
        optional: true,
        above: 0,
      },
    },
    result: { symbol: '', name: 'fuse', dimension: 'current' },
    source: CONTINUOUS.source,
    caution: ELECTRICAL_CAUTION,
    assumes: ['common ratings 1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30 A, from memory'],
    compute: (v) => {
      const limit = v['wire-limit'] ?? (v.gauge === undefined ? undefined : protectionFor(v.gauge).amps);
      if (limit === undefined) throw new RangeError('the wire needs a gauge or a limit');
      const value = fuseFor(v.load, limit);
      if (value === undefined)
        throw new RangeError(
          `no common fuse carries ${v.load} A for hours on a wire limited to ${limit} A: take a thicker wire`,
        );
      return { value, limit: { value: limit, unit: 'A', why: 'limit of the wire' } };
    },
  }),
  formula({
    name: 'class-2-separation',
    title: 'Distance of low-voltage wires from power conductors',
    topic,
    about: 'Class 2 wires beside conductors of light and power.',
    formula: 'table',
    inputs: {
      where: {
        choices: ['outside enclosures', 'in one enclosure'],
        about: 'where they lie beside each other',
        default: 'outside enclosures',
      },
    },
    result: { symbol: 'd', name: 'distance', dimension: 'length' },
    source: SEPARATION['outside enclosures'].source,
    caution: ELECTRICAL_CAUTION,
    compute: ({ where }) => {
      const row = SEPARATION[where as keyof typeof SEPARATION];
      return { value: row.distance, source: row.source, assumes: [row.note] };
    },
  }),
  formula({
    name: 'limited-cable-voltage',
    title: 'Voltage rating of power-limited cable',
    topic,
    about: 'The higher may stand in for the lower, never the other way.',
    formula: 'table',
    inputs: { cable: { choices: ['CL2', 'CL3'], about: 'marking of the cable', default: 'CL2' } },
    result: { symbol: 'V', name: 'rating', dimension: 'voltage' },
    source: LIMITED_CABLE.source,
    caution: ELECTRICAL_CAUTION,
    compute: ({ cable }) => LIMITED_CABLE.volts[cable as 'CL2' | 'CL3'],
  }),
  formula({
    name: 'channel-temperature-rise',
    title: 'How warm a strip gets in its channel',
    topic,
    about: 'The heat of each metre through the surface that gives it off to the room.',
    formula: 'ΔT = P′ · share · Rs / perimeter',
    inputs: {
      power: { dimension: 'power', about: 'power of one metre of strip', symbol: 'P′', min: 0 },
      perimeter: { dimension: 'length', about: 'outline of the channel that gives off heat', above: 0 },
      share: { dimension: 'ratio', about: 'share of the power that stays as heat', default: 1, min: 0, max: 1 },
      'surface-resistance': {
        dimension: 'surface resistance',
        about: 'resistance of the surface to the room',
        symbol: 'Rs',
        default: 0.13,
        above: 0,
      },
    },
    result: { symbol: 'ΔT', name: 'rise', dimension: 'temperature difference' },
    source: CIRCUIT_LAWS,
    validity:
      'steady, one temperature over the outline; the default surface resistance (0.13 m²·K/W, still air, sideways) is that of ISO 6946, from memory',
    caution:
      'Wood and plastics nearby age with heat and may burn: keep what the strip’s maker asks for, and let the channel breathe.',
    compute: (v) => channelRise(v.power, v.share, v.perimeter, v['surface-resistance']),
  }),
];

export const calculators: readonly AnyCalculator[] = [...conductors, ...pixels, ...lines, ...rules];
