import type { Working } from '../notes/index.ts';
import { railResistance } from './conductor.ts';
import { ELECTRICAL_CAUTION } from './rules.ts';
import { RAIL, type WiredStrip } from './wired.ts';

/** Share of a light's power that stays in the channel as heat. Common practice: a third leaves as light at best. */
export const HEAT_SHARE = 0.75;
/** From a surface to the air of a room, m² K/W: ISO 6946:2017, table 7, heat flow horizontal. */
export const SURFACE_RESISTANCE = 0.13;
/** Warmer than the room by this, a strip ages fast. Common practice. */
export const RISE_LIMIT = 25;

export const stripWorking = (s: WiredStrip): Working => ({
  what: `Voltage at the darkest light of ${s.run.title}`,
  formula: 'G v = i, both rails as a network of sections and lights',
  inputs: [
    { symbol: 'V', name: 'supply', value: s.kind.volts, unit: 'V' },
    { symbol: 'n', name: 'lights', value: s.pixels, unit: '' },
    { symbol: 'I', name: 'current of the whole strip', value: s.current, unit: 'A', source: s.kind.currentSource },
    {
      symbol: 'r',
      name: 'each rail',
      value: railResistance(RAIL.width, RAIL.copper),
      unit: 'Ω/m',
    },
    { symbol: 'w', name: 'width of a rail', value: RAIL.width, unit: 'mm', source: 'common practice' },
    { symbol: 't', name: 'its copper', value: RAIL.copper / 1000, unit: 'mm', source: 'common practice' },
    { symbol: 'L', name: 'lead, one way', value: s.lead, unit: 'mm' },
    { symbol: 'f', name: 'feeds', value: s.feeds.boundaries.length, unit: '' },
  ],
  result: { value: s.feeds.lowest, unit: 'V' },
  limit: { value: s.kind.supply[0], unit: 'V', why: 'least supply of the light', source: s.kind.source },
  source: { title: 'G. Kirchhoff, Annalen der Physik 64', edition: '1845', place: 'laws of currents and voltages' },
  assumes: ['lights that take a constant current; rails as most reels have them: check the reel'],
  caution: ELECTRICAL_CAUTION,
});

export const heatWorking = (s: WiredStrip): Working => ({
  what: `Rise of the channel of ${s.run.title} above the room`,
  formula: 'ΔT = P h R / b',
  reckonedIn: 'metric',
  inputs: [
    { symbol: 'P', name: 'power of a metre', value: s.wattsPerMetre, unit: 'W/m' },
    { symbol: 'h', name: 'share that stays as heat', value: HEAT_SHARE, unit: '', source: 'common practice' },
    {
      symbol: 'R',
      name: 'surface resistance',
      value: SURFACE_RESISTANCE,
      unit: 'm² K/W',
      source: { title: 'ISO 6946', edition: '2017', place: 'table 7' },
    },
    {
      symbol: 'b',
      name: 'front and sides of the channel',
      value: s.run.strip.size.depth + 2 * s.run.strip.size.height,
      unit: 'mm',
    },
  ],
  result: { value: s.rise, unit: 'K' },
  limit: { value: RISE_LIMIT, unit: 'K', why: 'lights age fast beyond it (common practice)' },
  source: { title: 'heat balance of a metre of channel' },
  assumes: ['steady, free air before it, its back on wood gives nothing off'],
});
