import { type AnyCalculator, formula } from '../notes/index.ts';
import { dryingFactor, LEAST_WARMTH, MOST_DAMP, SHEET_AIR, saturationPressure, vapourDeficit } from './drying.ts';
import { criticalPath } from './network.ts';
import { expected, normalShare, variance } from './three-point.ts';

const MALCOLM = {
  title: 'Malcolm, Roseboom, Clark & Fazar, Operations Research 7',
  edition: '1959',
  place: 'pp. 646–669',
};

const vapour = formula({
  name: 'vapour-pressure',
  title: 'Saturation pressure of water vapour',
  topic: 'calendar',
  about: 'How much water vapour air of a temperature can hold: what drying draws on.',
  formula: 'e_s = 611.2 · exp(17.62 t / (243.12 + t))',
  inputs: { temperature: { dimension: 'temperature', about: 'of the air', symbol: 't', min: -45, max: 60 } },
  result: { symbol: 'e_s', name: 'saturation pressure', dimension: 'area load' },
  source: {
    title: 'WMO No. 8, Guide to Meteorological Instruments',
    edition: '2008',
    place: 'annex 4.B, after Sonntag 1990',
  },
  validity: 'Over water, −45 to 60 °C.',
  compute: ({ temperature }) => saturationPressure(temperature),
});

const drying = formula({
  name: 'drying-time',
  title: 'Drying time in other air than the tin was tested in',
  topic: 'calendar',
  about: 'Of whatever gives its water to the air: latex paint, primer, filler, joint compound.',
  formula: 't = t₀ · max(1, e_s(T₀)(1 − φ₀) / (e_s(T)(1 − φ)))',
  inputs: {
    tin: { dimension: 'time', about: 'what the tin says', symbol: 't₀', above: 0 },
    temperature: { dimension: 'temperature', about: 'of the air it dries in', symbol: 'T', min: -20, max: 50 },
    humidity: { dimension: 'percent', about: 'of the air it dries in', symbol: 'φ', default: 50, min: 0, max: 99 },
    'tin-temperature': {
      dimension: 'temperature',
      about: 'what the tin was tested at',
      symbol: 'T₀',
      default: SHEET_AIR.celsius,
      min: -20,
      max: 50,
    },
    'tin-humidity': {
      dimension: 'percent',
      about: 'what the tin was tested in',
      symbol: 'φ₀',
      default: SHEET_AIR.humidity,
      min: 0,
      max: 99,
    },
  },
  result: { symbol: 't', name: 'time to dry', dimension: 'time' },
  source: {
    title: 'Dalton’s law of evaporation',
    place: 'rate as the deficit of vapour pressure; e_s after WMO No. 8',
  },
  validity: `Never shorter than the tin says. No film forms below ${LEAST_WARMTH} °C (50 °F); above ${MOST_DAMP} % humidity the time cannot be told.`,
  caution: 'The tin in your hand governs. Air the room for the fumes, and keep flames and sparks away from solvents.',
  assumes: ['still air renewed by a little airing', 'one coat as thick as the tin asks'],
  compute: (v) => {
    const factor = dryingFactor(
      { celsius: v.temperature, humidity: v.humidity },
      { celsius: v['tin-temperature'], humidity: v['tin-humidity'] },
    );
    return {
      value: v.tin * Math.max(1, factor),
      limit: {
        value: LEAST_WARMTH,
        unit: '°C',
        why: 'colder, neither latex nor PVA makes a film',
        source: 'common practice',
      },
      also: [
        { symbol: 'k', name: 'drying factor', value: factor, unit: '' },
        {
          symbol: 'Δe',
          name: 'deficit of vapour pressure',
          value: vapourDeficit({ celsius: v.temperature, humidity: v.humidity }),
          unit: 'Pa',
        },
      ],
    };
  },
});

const three = formula({
  name: 'three-point',
  title: 'Mean and spread of a task by three points',
  topic: 'calendar',
  about: 'From the least, the likely and the most a task may take.',
  formula: 't = (a + 4 m + b) / 6,  σ = (b − a) / 6',
  inputs: {
    least: { dimension: 'time', about: 'if all goes well', symbol: 'a', min: 0 },
    likely: { dimension: 'time', about: 'most often', symbol: 'm', min: 0 },
    most: { dimension: 'time', about: 'if much goes wrong', symbol: 'b', min: 0 },
  },
  result: { symbol: 't', name: 'mean', dimension: 'time' },
  source: MALCOLM,
  assumes: ['a beta distribution between least and most'],
  compute: ({ least, likely, most }) => {
    if (!(least <= likely && likely <= most)) throw new RangeError('least, likely and most must rise in this order');
    return {
      value: expected({ least, likely, most }),
      also: [
        { symbol: 'σ', name: 'standard deviation', value: Math.sqrt(variance({ least, likely, most })), unit: 's' },
      ],
    };
  },
});

const path = formula({
  name: 'critical-path',
  title: 'Shortest time for tasks that wait for each other',
  topic: 'calendar',
  about:
    'Tasks numbered from 1 in the order of their times; the lists before and after name the two ends of each wait.',
  formula: 'T = max over chains of Σ t',
  inputs: {
    times: { dimension: 'time', about: 'of the tasks, in order', symbol: 't', list: true, min: 0 },
    before: { dimension: 'count', about: 'number of the task that comes first, of each wait', list: true, min: 1 },
    after: { dimension: 'count', about: 'number of the task that waits for it, of each wait', list: true, min: 1 },
  },
  result: { symbol: 'T', name: 'longest chain', dimension: 'time' },
  source: { title: 'Kelley & Walker, Eastern Joint Computer Conference', edition: '1959', place: 'pp. 160–173' },
  validity: 'Nobody’s hands and no hours of the day are counted: no calendar can be shorter.',
  compute: ({ times, before, after }) => {
    if (before.length !== after.length) throw new RangeError('before and after must be lists of the same length');
    const found = criticalPath({
      durations: times,
      arcs: before.map((from, i) => ({ from: from - 1, to: after[i]! - 1 })),
    });
    return {
      value: found.length,
      assumes: [`tasks ${found.chain.map((i) => i + 1).join(' → ')} decide it`],
      also: found.slack.map((slack, i) => ({
        symbol: `s${i + 1}`,
        name: `slack of task ${i + 1}`,
        value: slack,
        unit: 's',
      })),
    };
  },
});

const chance = formula({
  name: 'deadline-chance',
  title: 'Chance that a chain of tasks is done in time',
  topic: 'calendar',
  about: 'Three points of each task of the chain that decides the end; the sum taken as normal.',
  formula: 'P = Φ((T − Σ t) / √Σ σ²)',
  inputs: {
    least: { dimension: 'time', about: 'of each task, if all goes well', symbol: 'a', list: true, min: 0 },
    likely: { dimension: 'time', about: 'of each task, most often', symbol: 'm', list: true, min: 0 },
    most: { dimension: 'time', about: 'of each task, if much goes wrong', symbol: 'b', list: true, min: 0 },
    by: { dimension: 'time', about: 'the time there is', symbol: 'T', above: 0 },
  },
  result: { symbol: 'P', name: 'chance', dimension: 'ratio' },
  source: MALCOLM,
  assumes: [
    'tasks go well or badly independently of each other: one slow hand makes all of them slow, and the chance then lies nearer to a half',
    'no other chain becomes the longest',
  ],
  compute: ({ least, likely, most, by }) => {
    if (least.length !== likely.length || likely.length !== most.length)
      throw new RangeError('least, likely and most must be lists of the same length');
    const points = least.map((a, i) => ({ least: a, likely: likely[i]!, most: most[i]! }));
    if (points.some((p) => !(p.least <= p.likely && p.likely <= p.most)))
      throw new RangeError('least, likely and most of each task must rise in this order');
    const mean = points.reduce((s, p) => s + expected(p), 0);
    const spread = Math.sqrt(points.reduce((s, p) => s + variance(p), 0));
    return {
      value: spread === 0 ? (mean <= by ? 1 : 0) : normalShare((by - mean) / spread),
      also: [
        { symbol: 'Σt', name: 'mean of the chain', value: mean, unit: 's' },
        { symbol: 'σ', name: 'standard deviation of the chain', value: spread, unit: 's' },
      ],
    };
  },
});

export const calculators: readonly AnyCalculator[] = [vapour, drying, three, path, chance];
