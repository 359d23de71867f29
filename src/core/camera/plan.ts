import { type Box, dot, fromRoom, magnitude, scale, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { CameraPiece } from '../plan/index.ts';
import { bodiesOf, bodyOf, lampsOf, type Staged } from '../surroundings/index.ts';
import {
  angleOfView,
  blurDiameter,
  circleOfConfusion,
  cropTo,
  diagonalOf,
  farLimit,
  frameAt,
  hyperfocal,
  nearLimit,
  sensorOf,
} from './optics.ts';
import { barsAcross, MOIRE_LIMIT, pitchInPixels, pulseSwing, rippleLeft } from './shutter.ts';
import { type Sitter, sittersOf } from './sitters.ts';
import { type Camera, glareAt, type Headroom, roomRound, seenShare, sightOf } from './view.ts';

/** A camera of the plan, set up: where it looks and what its picture holds. Lengths mm, angles degrees. */
export interface Framed {
  readonly id: string;
  readonly title: string;
  readonly piece: CameraPiece;
  readonly camera: Camera;
  readonly angle: { readonly across: number; readonly high: number };
  /** Distance it is focused at: the nearest face, or what it looks at. */
  readonly focus: number;
  readonly near: number;
  readonly far: number;
  /** What fills the picture at that distance. */
  readonly frame: { readonly width: number; readonly height: number };
  /** Room round each sitter in the picture; undefined behind the lens. */
  readonly sitters: readonly {
    readonly sitter: Sitter;
    readonly round: Headroom | undefined;
    readonly depth: number;
  }[];
  /** How much of each solid piece is in the picture and seen. */
  readonly seen: readonly {
    readonly id: string;
    readonly title: string;
    readonly inFrame: number;
    readonly seen: number;
    /** Blur of it in pixels of the picture: under about two it counts as sharp. */
    readonly blur: number;
  }[];
  readonly workings: readonly Working[];
}

const GREENLEAF = { title: 'A. R. Greenleaf, Photographic Optics', edition: '1950' } as const;

/** Every camera of the option and its picture. */
export function framesOf(staged: Staged): readonly Framed[] {
  const sitters = sittersOf(staged);
  const placed = new Map(staged.pieces.map((p) => [p.id, p]));
  return staged.option.pieces.flatMap((piece): readonly Framed[] => {
    if (!('camera' in piece)) return [];
    const own = placed.get(piece.camera);
    if (!own) return [];
    const { max } = own.outside;
    const at = toRoom(own.frame, vec(max.x / 2, max.y / 2, max.z));
    const ahead = subtract(toRoom(own.frame, vec(0, 0, 1)), toRoom(own.frame, vec(0, 0, 0)));
    const before = sitters.filter((s) => dot(subtract(s.eyes, at), ahead) > 0);
    const middle = (points: readonly Vec3[]): Vec3 =>
      scale(
        points.reduce((a, b) => vec(a.x + b.x, a.y + b.y, a.z + b.z), vec(0, 0, 0)),
        1 / points.length,
      );
    // Towards the faces, a little below them, so that the head has room above it.
    const faces = before.length > 0 ? middle(before.map((s) => s.mouth)) : undefined;
    const towards = piece.towards
      ? vec(piece.towards.x, piece.towards.above, piece.towards.y)
      : (faces ?? toRoom(own.frame, vec(max.x / 2, max.y / 2, max.z + 2000)));
    const size = cropTo(sensorOf(piece.sensor), piece.aspect);
    const camera: Camera = { at, towards, focal: piece.focal, ...size };
    const sight = sightOf(camera);
    const depthOf = (p: Vec3): number => dot(subtract(p, at), sight.ahead);
    const focus = Math.max(
      2 * piece.focal,
      before.length > 0 ? Math.min(...before.map((s) => depthOf(s.eyes))) : magnitude(subtract(towards, at)),
    );
    const circle = circleOfConfusion(diagonalOf(size));
    const H = hyperfocal(piece.focal, piece.stop, circle);
    const bodies = bodiesOf(staged);
    const boxes = bodies.map((b) => b.box);
    const pixel = size.width / piece.pixels;
    const near = nearLimit(H, piece.focal, focus);
    const far = farLimit(H, piece.focal, focus);
    return [
      {
        id: piece.camera,
        title: piece.title ?? piece.camera,
        piece,
        camera,
        angle: { across: angleOfView(size.width, piece.focal), high: angleOfView(size.height, piece.focal) },
        focus,
        near,
        far,
        frame: {
          width: frameAt(size.width, piece.focal, focus),
          height: frameAt(size.height, piece.focal, focus),
        },
        sitters: before.map((sitter) => ({
          sitter,
          round: roomRound(camera, sitter.head, sitter.shoulder),
          depth: depthOf(sitter.eyes),
        })),
        seen: bodies.map((b, k) => {
          const depth = Math.max(2 * piece.focal, depthOf(middle([b.box.min, b.box.max])));
          return {
            id: b.piece.id,
            title: b.piece.title,
            ...seenShare(
              camera,
              b.box,
              boxes.filter((_, i) => i !== k),
              8,
            ),
            blur: blurDiameter(piece.focal, piece.stop, focus, depth) / pixel,
          };
        }),
        workings: [
          {
            what: `Depth of field of ${piece.title ?? piece.camera}`,
            formula: 'H = f²/(N c) + f;  near = s (H − f)/(H + s − 2f);  far = s (H − f)/(H − s)',
            inputs: [
              { symbol: 'f', name: 'focal length', value: piece.focal, unit: 'mm' },
              { symbol: 'N', name: 'stop', value: piece.stop, unit: '' },
              {
                symbol: 'c',
                name: 'circle of confusion, diagonal/1500',
                value: circle,
                unit: 'mm',
                source: 'common practice',
              },
              { symbol: 's', name: 'distance focused at', value: focus, unit: 'mm' },
            ],
            result: { value: near, unit: 'mm' },
            also: Number.isFinite(far)
              ? [{ symbol: 'far', name: 'farthest sharp distance', value: far, unit: 'mm' }]
              : [],
            source: GREENLEAF,
            assumes: ['a thin lens, focused on the nearest face'],
          },
        ],
      },
    ];
  });
}

/** What a lamp leaves of even light in the picture: share by which it swings, or 0. */
function flickerOf(framed: Framed, staged: Staged): readonly Note[] {
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
  notes.push(
    whole || ripple < 0.02
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
          advice: `Set the shutter to 1/${piece.mains} or 1/${2 * piece.mains} s, or use lamps with a steady driver.`,
          working,
        },
  );
  for (const lamp of lampsOf(staged)) {
    const { flicker } = lamp.piece;
    if (!flicker) continue;
    const swing = pulseSwing(flicker.frequency, flicker.duty, exposure);
    if (swing < 0.02) continue;
    notes.push({
      id: `pulse:${framed.id}/${lamp.id}`,
      about: framed.id,
      at: lamp.at,
      verdict: 'caution',
      title: `${lamp.title} swings ${Math.round(100 * swing)} % from picture to picture at 1/${piece.shutter} s`,
      advice: `Its dimmer switches ${flicker.frequency} times a second: about ${barsAcross(flicker.frequency, 0.02).toFixed(0)} bars across a picture read out in 20 ms. Run it undimmed, or with a driver that does not switch.`,
    });
  }
  return notes;
}

function moireOf(framed: Framed, staged: Staged): readonly Note[] {
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

/** Lamps whose mirror image in a display the camera sees, with the point of the glass. */
export function glaresOf(
  framed: Framed,
  staged: Staged,
): readonly { readonly display: string; readonly lamp: string; readonly point: Vec3 }[] {
  const boxes = bodiesOf(staged);
  return staged.pieces
    .filter((p) => p.kind === 'display')
    .flatMap((display) => {
      const { min, max } = display.outside;
      const at = (x: number, y: number): Vec3 => toRoom(display.frame, vec(x, y, max.z));
      const corner = at(min.x, min.y);
      const glass = {
        corner,
        across: subtract(at(max.x, min.y), corner),
        up: subtract(at(min.x, max.y), corner),
      };
      // Seen from its front only.
      if (fromRoom(display.frame, framed.camera.at).z <= max.z) return [];
      return lampsOf(staged).flatMap((lamp) => {
        const half = { x: lamp.piece.size.width / 2, z: lamp.piece.size.depth / 2 };
        const spots = [-1, 0, 1].flatMap((i) =>
          [-1, 0, 1].map((j) => vec(lamp.at.x + i * half.x, lamp.at.y, lamp.at.z + j * half.z)),
        );
        const hit = spots.map((s) => glareAt(framed.camera.at, s, glass)).find((g) => g !== undefined);
        return hit && boxes.length >= 0 ? [{ display: display.title, lamp: lamp.title, point: hit.point }] : [];
      });
    });
}

/** Notes on every camera: heads cut off, people out of the picture, flicker, patterns and glare of displays. */
export function cameraNotes(staged: Staged): readonly Note[] {
  return framesOf(staged).flatMap((framed): readonly Note[] => {
    const people = framed.sitters.flatMap(({ sitter, round }): readonly Note[] => {
      if (!round) return [];
      const least = Math.min(round.left, round.right);
      const out = least < 0 || round.above < 0;
      const tight = round.above < 0.03;
      if (!out && !tight) return [];
      return [
        {
          id: `in-frame:${framed.id}/${sitter.id}`,
          about: sitter.id,
          at: sitter.head,
          verdict: 'caution',
          title: out
            ? `${sitter.title} is cut by the ${round.above < least ? 'upper edge' : round.left < round.right ? 'left edge' : 'right edge'} of ${framed.title}`
            : `${sitter.title} has only ${Math.round(100 * round.above)} % of the picture above the head in ${framed.title}`,
          advice: 'Move the camera back or aim it anew, take a shorter lens, or bring the seats together.',
          working: {
            what: 'Room from the top of the head to the upper edge',
            formula: '(h/2 − y)/h, y = f Y/D',
            inputs: [
              { symbol: 'h', name: 'height of the picture on the sensor', value: framed.camera.height, unit: 'mm' },
              { symbol: 'f', name: 'focal length', value: framed.camera.focal, unit: 'mm' },
              {
                symbol: '',
                name: 'top of the head above the floor',
                value: sitter.head.y,
                unit: 'mm',
                source: {
                  title: '2012 Anthropometric Survey of U.S. Army Personnel (Gordon et al., NATICK/TR-15/007)',
                  place: 'sitting height',
                },
              },
            ],
            result: { value: round.above, unit: '' },
            limit: { value: 0, unit: '', why: 'the head is whole' },
            source: { title: 'pinhole projection' },
            assumes: ['upright in the middle of the seat, no shoes, no hair'],
          },
        },
      ];
    });
    const whole: readonly Note[] =
      framed.sitters.length > 0 && people.length === 0
        ? [
            {
              id: `framed:${framed.id}`,
              about: framed.id,
              at: framed.camera.at,
              verdict: 'fine',
              title: `${framed.title} has ${framed.sitters.length === 1 ? 'the sitter' : `all ${framed.sitters.length} sitters`} whole in the picture`,
              advice: `Sharp from ${Math.round(framed.near)} mm ${Number.isFinite(framed.far) ? `to ${Math.round(framed.far)} mm` : 'on'}. Not checked: leaning, raised hands, instruments.`,
              ...(framed.workings[0] && { working: framed.workings[0] }),
            },
          ]
        : [];
    const glares = glaresOf(framed, staged);
    const glare: readonly Note[] = [...new Set(glares.map((g) => g.display))].map((display): Note => {
      const own = glares.filter((g) => g.display === display);
      return {
        id: `glare:${framed.id}/${display}`,
        about: framed.id,
        at: own[0]!.point,
        verdict: 'caution',
        title: `${framed.title} sees ${own.map((g) => g.lamp).join(' and ')} mirrored in ${display}`,
        advice: 'Tilt the display, move the lamp out of the mirror angle, or shade it with a louvre.',
      };
    });
    return [...people, ...whole, ...flickerOf(framed, staged), ...moireOf(framed, staged), ...glare];
  });
}

/** The boxes the camera sees: parts where a piece is made of parts, else its outside. */
export function viewBoxes(staged: Staged): readonly { readonly piece: string; readonly box: Box }[] {
  return staged.pieces.flatMap((piece) => {
    if (['seat', 'camera', 'strip'].includes(piece.kind)) return [];
    const shown = piece.parts.filter((p) => !HIDDEN.has(p.role));
    return shown.length === 0
      ? [{ piece: piece.id, box: bodyOf(piece) }]
      : shown.map((p) => ({ piece: piece.id, box: bodyOf(piece, p.solid.box) }));
  });
}
/** Parts that lie inside others and only add lines to the picture. */
const HIDDEN: ReadonlySet<string> = new Set([
  'drawer side',
  'drawer back',
  'drawer bottom',
  'drawer box',
  'core',
  'batten',
  'spacer',
]);
