import { add, scale, subtract, type Vec3 } from '../geometry/index.ts';
import { grouped } from '../grouped.ts';
import { nearest } from '../issue/index.ts';
import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import { roundly } from '../quantity/index.ts';
import { type Staged, stripRuns } from '../surroundings/index.ts';
import { DATA_REACH } from './data-line.ts';
import { isPriced, neededFittings } from './fittings.ts';
import { PIXEL_KINDS } from './pixel.ts';
import { powerOf } from './plan.ts';
import { ELECTRICAL_CAUTION } from './rules.ts';
import { cutOf, RAIL_LIMIT, RAIL_RISE, STRIP_ENDS, type WiredStrip } from './wired.ts';
import { heatWorking, RISE_LIMIT } from './workings.ts';

/** A kind of light that is not in the list is reckoned as the usual one, and told: its volts and amperes may be others. */
function strangeKinds(strips: readonly WiredStrip[]): readonly Note[] {
  const ids = PIXEL_KINDS.map(({ id }) => id);
  const strange = grouped(
    strips.filter(({ run }) => !cutOf(run).known),
    ({ run }) => run.strip.strip,
  );
  return [...strange].map(([strip, [first]]): Note => {
    const { title = strip, pixel } = first!.run.strip;
    const near = nearest(pixel, ids);
    return {
      id: `pixel-kind:${strip}`,
      about: strip,
      at: middleOf(first!),
      verdict: 'caution',
      title: `No kind of light is called '${pixel}': ${title} is reckoned as ${first!.kind.id}`,
      advice: `${near === undefined ? '' : `Did you mean '${near}'? `}Write as its 'pixel' one of ${ids.map((id) => `'${id}'`).join(', ')}. Volts, amperes, wires and supplies are of the kind it is reckoned as.`,
    };
  });
}

/** The hottest channel of a strip: what has too little wire is no cooler for it. */
function hotNotes(strip: string, own: readonly WiredStrip[]): readonly Note[] {
  const hot = own.reduce((a, b) => (b.rise > a.rise ? b : a));
  if (hot.rise <= RISE_LIMIT) return [];
  return [
    {
      id: `channel-heat:${strip}`,
      about: strip,
      at: middleOf(hot),
      verdict: 'caution',
      title: `The channel of ${hot.run.strip.title ?? strip} gets about ${Math.round(hot.rise)} K warmer than the room`,
      advice:
        'Lay it in an aluminium channel as wide as it may be, run it dimmer, or leave air behind it; keep foam and cloth away.',
      working: heatWorking(hot),
    },
  ];
}

/** Notes on the low-voltage lights: voltage, wires, supplies, data, heat, and how they meet the mains and the wall. */
export function powerNotes(staged: Staged): readonly Note[] {
  const show = printersFor(staged.plan.units).length;
  const short = stripRuns(staged).flatMap((run): readonly Note[] => {
    const { kind, step, groups } = cutOf(run);
    if (groups > 0) return [];
    const least = step * kind.perGroup + STRIP_ENDS;
    return [
      {
        id: `strip-short:${run.id}`,
        about: run.strip.strip,
        at: scale(add(run.from, run.to), 0.5),
        verdict: 'caution',
        title: `${run.title} stays dark: ${show(run.space)} is too short for one light, which takes ${show(least)}`,
        advice: 'Take a strip with more lights to the metre, or leave this stretch without.',
      },
    ];
  });
  const power = powerOf(staged);
  if (!power) return short;
  const about = (id: string): string => power.strips.find((s) => s.run.id === id)!.run.strip.strip;
  const notes: Note[] = [...short, ...strangeKinds(power.strips)];
  // Stretches of one strip that are well are told together: nobody reads the same line seven times.
  for (const [strip, own] of grouped(power.strips, (s) => s.run.strip.strip)) {
    for (const s of own.filter((w) => !(w.feeds.enough && w.wire)))
      notes.push({
        id: `strip:${s.run.id}`,
        about: strip,
        at: middleOf(s),
        verdict: 'caution',
        title: s.wire
          ? s.feeds.lowest >= s.kind.supply[0]
            ? `${s.run.title} carries ${s.feeds.railCurrent.toFixed(1)} A in its own copper; about ${RAIL_LIMIT.toFixed(1)} A warm that by ${RAIL_RISE} K (IPC-2221)`
            : `${s.run.title} falls to ${s.feeds.lowest.toFixed(2)} V; its lights need ${s.kind.supply[0]} V`
          : `No wire of the list carries ${s.current.toFixed(1)} A to ${s.run.title} over ${show(s.lead)}`,
        advice: 'Feed it at more places, bring the supply nearer, run it dimmer, or use a strip of a higher voltage.',
        working: power.workings[power.strips.indexOf(s)]!,
      });
    const well = own.filter((w) => w.feeds.enough && w.wire);
    if (well.length > 0) {
      const worst = well.reduce((a, b) => (b.feeds.lowest < a.feeds.lowest ? b : a));
      const title = worst.run.strip.title ?? strip;
      const sum = (of: (s: WiredStrip) => number): number => well.reduce((total, s) => total + of(s), 0);
      notes.push({
        id: `strip:${strip}`,
        about: strip,
        at: middleOf(worst),
        verdict: 'fine',
        title: `${title}: ${sum((s) => s.pixels)} lights in ${well.length === 1 ? 'one length' : `${well.length} lengths`}, ${sum((s) => s.current).toFixed(1)} A, at least ${worst.feeds.lowest.toFixed(2)} V of ${worst.kind.volts} V`,
        advice: 'Checked as a network of both rails. Not checked: the joints, and what the maker of the reel says.',
        working: power.workings[power.strips.indexOf(worst)]!,
      });
    }
    notes.push(...hotNotes(strip, own));
  }
  for (const supply of power.supplies)
    notes.push({
      id: `supply:${supply.id}`,
      about: about(supply.strips[0]!),
      verdict: supply.class2 ? 'fine' : 'caution',
      title:
        supply.rating === undefined
          ? `Supply at ${supply.id}: ${supply.current.toFixed(1)} A is more than any supply on the list`
          : `Supply at ${supply.id}: ${supply.current.toFixed(1)} A, so one of ${supply.rating} A`,
      advice: `${supply.class2 ? 'A class 2 supply will do.' : 'More than one class 2 supply may give: divide the strip, run it dimmer, use a higher voltage, or leave the wiring to an electrician.'} A plugged supply stays where it can be reached, in air; its cord may not run inside a wall. ${ELECTRICAL_CAUTION}`,
    });
  const needed = neededFittings(staged);
  if (!isPriced(staged, needed))
    notes.push({
      id: 'wiring-unpriced:stock',
      about: power.strips[0]!.run.strip.strip,
      verdict: 'caution',
      title: 'The strips and their wiring are not in the bill: the stock has no packs for them',
      advice: `Add packs with their prices and 'use' of: ${[...new Set(needed.map((f) => f.use))].join(', ')}.`,
    });
  for (const line of power.data) {
    const slow = line.frames < 30;
    if (!slow && !line.far) continue;
    const far = line.links.reduce((a, b) => (b.wire > a.wire ? b : a));
    notes.push({
      id: `data:${line.outlet}`,
      about: about(far.to),
      verdict: 'caution',
      title: slow
        ? `The data line at ${line.outlet} carries ${line.pixels} lights: only ${line.frames.toFixed(0)} pictures a second`
        : `The data wire to ${far.title} is ${show(far.wire)} long; ${show(roundly(DATA_REACH, 'at most', staged.plan.units.length))} is what common practice trusts`,
      advice: slow
        ? 'Share the strips out over two data lines.'
        : 'Put the controller nearer, or a driver of 5 V level with a resistor at its output before the long wire. A controller of 3.3 V wants such a driver in any case.',
    });
  }
  return notes;
}

const middleOf = (s: WiredStrip): Vec3 => add(s.run.from, scale(subtract(s.run.to, s.run.from), 0.5));
