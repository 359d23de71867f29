import { add, scale, subtract, vec } from '../geometry/index.ts';
import { lampsOf, type Staged, stripRuns } from '../surroundings/index.ts';
import { lampBands, lampSpectrum, luxOf, toBands } from './cast.ts';
import type { Lamp } from './radiosity.ts';
import type { Spectrum } from './spectrum.ts';

const lamps = new Map<number, readonly number[]>();
/** Bands of one lumen of a lamp; worked out once for each colour temperature. */
function lumenOf(kelvin: number): readonly number[] {
  const known = lamps.get(kelvin);
  if (known) return known;
  if (lamps.size > 200) lamps.clear();
  const made = lampBands(1, lampSpectrum(kelvin));
  lamps.set(kelvin, made);
  return made;
}
/** Bands of so many lumens of a lamp. */
export const lit = (lumens: number, kelvin: number): readonly number[] => lumenOf(kelvin).map((v) => v * lumens);

export interface Source {
  readonly lamp: Lamp;
  readonly lumens: number;
  readonly kelvin: number;
}

/** Lamps and, at so many points, strips, as sources with their flux by band. */
export function sourcesOf(staged: Staged, apart: number): readonly Source[] {
  const lamps = lampsOf(staged).map(({ piece, at }): Source => {
    const flux = lit(piece.lumens, piece.kelvin);
    const shape: Lamp['shape'] = piece.shape === 'beam' ? { kind: 'beam', angle: piece.angle } : { kind: piece.shape };
    const towards = piece.towards && vec(piece.towards.x, piece.towards.above, piece.towards.y);
    return { lamp: { at, flux, shape, ...(towards && { towards }) }, lumens: piece.lumens, kelvin: piece.kelvin };
  });
  const strips = stripRuns(staged).flatMap(({ strip, from, to, space }): readonly Source[] => {
    const lumens = ((strip.lumens ?? 0) * strip.level * space) / 1000;
    if (lumens <= 0) return [];
    const way = subtract(to, from);
    const count = Math.max(1, Math.round(space / apart));
    return Array.from({ length: count }, (_, k): Source => {
      const at = add(from, scale(way, (k + 0.5) / count));
      return {
        lamp: { at: vec(at.x, at.y - 2, at.z), flux: lit(lumens / count, strip.kelvin), shape: { kind: 'diffuse' } },
        lumens: lumens / count,
        kelvin: strip.kelvin,
      };
    });
  });
  return [...lamps, ...strips];
}

/** The light of all of them together. */
export function mixOf(sources: readonly Source[]): Spectrum {
  const kelvins = [...new Set(sources.map((s) => s.kelvin))];
  const parts = kelvins.map((kelvin) => ({
    spectrum: lampSpectrum(kelvin),
    lumens: sources.reduce((sum, s) => sum + (s.kelvin === kelvin ? s.lumens : 0), 0),
  }));
  const shares = parts.map((p) => ({ spectrum: p.spectrum, of: p.lumens / luxOf(toBands(p.spectrum)) }));
  return parts[0]!.spectrum.map((_, k) => shares.reduce((sum, p) => sum + p.spectrum[k]! * p.of, 0));
}
