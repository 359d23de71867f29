import type { Note, Working } from '../notes/index.ts';
import { nameOf } from '../plan/index.ts';
import { lampsOf, type Staged } from '../surroundings/index.ts';
import type { Framed } from './plan.ts';
import { barsAcross, pulseSwing, rippleLeft } from './shutter.ts';

/** A swing that nobody sees, as a share of the light. Common practice. */
const UNSEEN = 0.02;

/** What a lamp leaves of even light in the picture: share by which it swings, or 0. */
export function flickerNotes(framed: Framed, staged: Staged): readonly Note[] {
  const { piece } = framed;
  const exposure = 1 / piece.shutter;
  const notes: Note[] = [];
  const cycles = (2 * piece.mains) / piece.shutter;
  const whole = Math.abs(cycles - Math.round(cycles)) < 1e-3 && cycles > 0.5;
  const ripple = rippleLeft(2 * piece.mains, exposure);
  const working: Working = {
    what: 'Ripple of the mains left in an exposure',
    formula: '|sin(π · 2f · t)/(π · 2f · t)|',
    inputs: [
      { symbol: 'f', name: 'mains', value: piece.mains, unit: 'Hz' },
      { symbol: 't', name: 'exposure', value: exposure, unit: 's' },
    ],
    result: { value: ripple, unit: '' },
    source: 'common practice',
    assumes: ['brightness that follows the mains as a sine, at twice its frequency; many LED fittings do so far less'],
  };
  const even = evenCure(framed, staged);
  notes.push(
    whole || ripple < UNSEEN
      ? {
          id: `shutter:${framed.id}`,
          about: framed.id,
          at: framed.camera.at,
          verdict: 'fine',
          title: `${framed.title}: 1/${piece.shutter} s averages the flicker of ${piece.mains} Hz mains`,
          advice: 'Checked for lamps that follow the mains. Not checked: dimmers, and the display.',
          working,
        }
      : {
          id: `shutter:${framed.id}`,
          about: framed.id,
          at: framed.camera.at,
          verdict: 'caution',
          title: `${framed.title}: 1/${piece.shutter} s lets ${piece.mains} Hz mains flicker through`,
          advice: `${steadyWords(piece)} or use lamps with a steady driver.`,
          working,
          ...even,
        },
  );
  for (const lamp of lampsOf(staged)) {
    const { flicker } = lamp.piece;
    if (!flicker) continue;
    const swing = pulseSwing(flicker.frequency, flicker.duty, exposure);
    if (swing < UNSEEN) continue;
    notes.push({
      id: `pulse:${framed.id}/${lamp.id}`,
      about: framed.id,
      at: lamp.at,
      verdict: 'caution',
      title: `${lamp.title} swings ${Math.round(100 * swing)} % from picture to picture at 1/${piece.shutter} s`,
      advice: `Its dimmer switches ${flicker.frequency} times a second: about ${barsAcross(flicker.frequency, 0.02).toFixed(0)} bars across a picture read out in 20 ms. Run it undimmed, or with a driver that does not switch${even.cure ? `, or at a shutter over which it averages out` : ''}.`,
      ...even,
    });
  }
  return notes;
}

/** Exposures of whole waves of the mains that a picture has the time for, in words; where there is none, why. */
function steadyWords({ rate, mains }: Framed['piece']): string {
  const long = [mains, 2 * mains].filter((s) => s >= rate).map((s) => `1/${s}`);
  return long.length > 0
    ? `Set the shutter to ${long.join(' or ')} s,`
    : `At ${rate} pictures a second none has the time for 1/${2 * mains} s, one wave of the light: take ${2 * mains} pictures a second or fewer,`;
}

/** The exposure nearest to the camera's own over which the mains and the dimmers of all lamps average out, where a picture has the time for one. */
function evenCure({ id, piece: { rate, shutter, mains } }: Framed, staged: Staged): Pick<Note, 'cure'> {
  const { plan, option } = staged;
  const lamps = lampsOf(staged).flatMap(({ piece: { flicker } }) => (flicker ? [flicker] : []));
  // 1/f or 1/2f of the mains, and so many of those: what is no whole wave of the mains is none of a lamp on it
  const times = Array.from({ length: 2 * mains }, (_, i) => (2 * mains) / (i + 1)).filter(
    (s) =>
      Number.isInteger(s) &&
      s >= rate &&
      lamps.every(({ frequency, duty }) => pulseSwing(frequency, duty, 1 / s) < UNSEEN),
  );
  const far = (s: number): number => Math.abs(Math.log(s / shutter));
  const best = times.reduce<number | undefined>((a, s) => (a === undefined || far(s) < far(a) ? s : a), undefined);
  const at = option.pieces.findIndex((one) => nameOf(one) === id);
  if (best === undefined || at < 0) return {};
  return {
    cure: {
      title: `Set the shutter to 1/${best} s`,
      edits: [{ op: 'set', path: ['options', plan.options.indexOf(option), 'pieces', at, 'shutter'], value: best }],
    },
  };
}
