import { dot, subtract, vec } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import { bodyOf, type Staged } from '../surroundings/index.ts';
import type { Framed } from './plan.ts';
import { MOIRE_LIMIT, pitchInPixels } from './shutter.ts';
import { sightOf } from './view.ts';

/** Displays whose pixels make patterns with those of the camera. */
export function moireNotes(framed: Framed, staged: Staged): readonly Note[] {
  const size = framed.camera.width / framed.piece.pixels;
  return staged.option.pieces.flatMap((piece): readonly Note[] => {
    if (!('display' in piece)) return [];
    const own = staged.pieces.find((p) => p.id === piece.display);
    const seen = framed.seen.find((s) => s.id === piece.display);
    if (!own || !seen || seen.seen < 0.02) return [];
    const body = bodyOf(own);
    const distance = dot(
      subtract(
        vec((body.min.x + body.max.x) / 2, (body.min.y + body.max.y) / 2, (body.min.z + body.max.z) / 2),
        framed.camera.at,
      ),
      sightOf(framed.camera).ahead,
    );
    const pixels = pitchInPixels(piece.size.width / piece.pixels, framed.camera.focal, distance, size);
    // A pitch that is blurred over more than itself makes no pattern.
    const sharp = seen.blur < pixels;
    if (pixels >= MOIRE_LIMIT || !sharp) return [];
    return [
      {
        id: `moire:${framed.id}/${piece.display}`,
        about: piece.display,
        at: { ...body.min },
        verdict: 'caution',
        title: `${piece.title ?? piece.display} may show patterns in the picture: one of its pixels is ${pixels.toFixed(1)} of the camera's`,
        advice: 'Focus in front of it, open the stop, turn it off, or show soft pictures without fine lines on it.',
        working: {
          what: 'Pixel of the display in pixels of the camera',
          formula: 'p f/(D s)',
          inputs: [
            { symbol: 'p', name: 'pitch of the display', value: piece.size.width / piece.pixels, unit: 'mm' },
            { symbol: 'f', name: 'focal length', value: framed.camera.focal, unit: 'mm' },
            { symbol: 'D', name: 'distance', value: distance, unit: 'mm' },
            { symbol: 's', name: 'pitch of the sensor', value: size, unit: 'mm' },
          ],
          result: { value: pixels, unit: '' },
          limit: { value: MOIRE_LIMIT, unit: '', why: 'two samples a period (Nyquist)' },
          source: { title: 'C. E. Shannon, Communication in the presence of noise', edition: '1949' },
          assumes: ['no optical low-pass filter in the camera'],
        },
      },
    ];
  });
}
