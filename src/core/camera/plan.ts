import { type Box, dot, fromRoom, magnitude, scale, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import { type CameraPiece, printersFor } from '../plan/index.ts';
import { bodiesOf, bodyOf, lampsOf, type Staged } from '../surroundings/index.ts';
import { arrangementsOf } from './arrangements.ts';
import { fillsOf, HEAD, type Silhouette, silhouetteOf, sitsIn, strayThings } from './fills.ts';
import {
  angleOfView,
  blurDiameter,
  circleOfConfusion,
  cropTo,
  diagonalOf,
  distanceFor,
  farLimit,
  frameAt,
  hyperfocal,
  nearLimit,
  rowWidth,
  sensorOf,
} from './optics.ts';
import { personSize } from './people.ts';
import { barsAcross, MOIRE_LIMIT, pitchInPixels, pulseSwing, rippleLeft } from './shutter.ts';
import { type Sitter, sittersOf } from './sitters.ts';
import { type Camera, glareAt, type Headroom, hidesPoint, project, roomRound, seenShare, sightOf } from './view.ts';

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
  /** The people as outlines, for what they hide. */
  readonly silhouettes: readonly Silhouette[];
  /** How far the lens looks up (+) or down (−) of level, degrees: what makes upright lines lean. */
  readonly tilt: number;
  /** From what distance on so many people side by side fill the width of the picture, mm. */
  readonly rows: readonly { readonly people: number; readonly width: number; readonly distance: number }[];
  /** What a shelf's own front hides of what stands at its back, mm; negative when its top is looked upon. */
  readonly fronts: readonly { readonly id: string; readonly title: string; readonly hidden: number }[];
  readonly workings: readonly Working[];
}

/** Room between two people's shoulders, mm. Common practice. */
const ELBOW = 100;

const GREENLEAF = { title: 'A. R. Greenleaf, Photographic Optics', edition: '1950' } as const;

const kept = new WeakMap<object, readonly Framed[]>();
/** Every camera of the option and its picture, worked out once for the pieces it is made from. */
export function framesOf(staged: Staged): readonly Framed[] {
  const known = kept.get(staged.pieces);
  if (known) return known;
  const made = frame(staged);
  kept.set(staged.pieces, made);
  return made;
}

function frame(staged: Staged): readonly Framed[] {
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
    const silhouettes = before.flatMap((sitter) => silhouetteOf(camera, sitter, sight) ?? []);
    const shoulder = personSize('shoulder breadth', 'men', 95);
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
        silhouettes,
        tilt: (Math.asin(sight.ahead.y) * 180) / Math.PI,
        rows: [1, 2, 3, 4].map((people) => {
          const width = rowWidth(people, shoulder, ELBOW);
          return { people, width, distance: distanceFor(width, piece.focal, size.width) };
        }),
        fronts: bodies.flatMap(({ piece: of, box }) => {
          if (of.kind !== 'shelf') return [];
          const middle = Math.hypot((box.min.x + box.max.x) / 2 - at.x, (box.min.z + box.max.z) / 2 - at.z);
          const depth = shelfDepth(of);
          // to its front; a lens nearer than that looks along it
          const away = Math.max(1, middle - depth / 2);
          return [{ id: of.id, title: of.title, hidden: hiddenBehind(box.max.y - at.y, depth, away) }];
        }),
        workings: [
          {
            what: `Depth of field of ${piece.title ?? piece.camera}`,
            formula: 'H = f²/(N c) + f;  near = s (H − f)/(H + s − 2f);  far = s (H − f)/(H − s)',
            reckonedIn: 'metric',
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

const shelfDepth = ({ outside }: { readonly outside: Box }): number => outside.max.z - outside.min.z;
/** By similar triangles: a lens below the top of a shelf of a depth, so far from its front, loses so much at its back. */
export const hiddenBehind = (above: number, depth: number, away: number): number => (above * depth) / away;

export interface Glare {
  readonly display: string;
  readonly source: string;
  readonly by: 'lamp' | 'window';
  readonly point: Vec3;
}
/** Lamps, and windows by day, whose mirror image in a display the camera sees, with the point of the glass. */
export function glaresOf(framed: Framed, staged: Staged): readonly Glare[] {
  const bodies = bodiesOf(staged);
  const sitting = framed.silhouettes.map((p) => p.sitter);
  const { room } = staged;
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
      const others = bodies
        .filter((b) => b.piece.id !== display.id && !sitting.some((s) => sitsIn(s, b.box)))
        .map((b) => b.box);
      // The way from the source to the glass and on to the lens must be free.
      const free = (source: Vec3, point: Vec3): boolean =>
        others.every((box) => !hidesPoint(framed.camera.at, point, box) && !hidesPoint(source, point, box));
      const lamps = lampsOf(staged).map((lamp) => {
        const half = { x: lamp.piece.size.width / 2, z: lamp.piece.size.depth / 2 };
        return {
          source: lamp.title,
          by: 'lamp' as const,
          spots: [-1, 0, 1].flatMap((i) =>
            [-1, 0, 1].map((j) => vec(lamp.at.x + i * half.x, lamp.at.y, lamp.at.z + j * half.z)),
          ),
        };
      });
      const windows = room.openings
        .filter((o) => o.kind === 'window')
        .flatMap((o) => {
          const k = room.walls.findIndex((w) => w.id === o.wall);
          const [a, b] = [room.outline[k], room.outline[(k + 1) % room.outline.length]];
          if (!a || !b) return [];
          const run = Math.hypot(b.x - a.x, b.z - a.z);
          const steps = [0.1, 0.3, 0.5, 0.7, 0.9];
          return [
            {
              source: o.id,
              by: 'window' as const,
              spots: steps.flatMap((i) =>
                steps.map((j) => {
                  const u = (o.x[0] + i * (o.x[1] - o.x[0])) / run;
                  return vec(a.x + u * (b.x - a.x), o.y[0] + j * (o.y[1] - o.y[0]), a.z + u * (b.z - a.z));
                }),
              ),
            },
          ];
        });
      return [...lamps, ...windows].flatMap(({ source, by, spots }): readonly Glare[] => {
        for (const spot of spots) {
          const hit = glareAt(framed.camera.at, spot, glass);
          if (hit && free(spot, hit.point)) return [{ display: display.title, source, by, point: hit.point }];
        }
        return [];
      });
    });
}

/** What a picture should not show, or not like this: in words for the maker. */
function pictureNotes(framed: Framed, staged: Staged): readonly Note[] {
  const show = printersFor(staged.plan.units).length;
  const { camera } = framed;
  const notes: Note[] = [];
  const note = (id: string, title: string, advice: string, at: Vec3 = camera.at, about = framed.id): void => {
    notes.push({ id: `${id}:${framed.id}`, about, at, verdict: 'caution', title, advice });
  };
  const { services, lamps } = strayThings(staged, camera, framed.silhouettes);
  if (services.length > 0)
    note(
      'services-seen',
      `${framed.title} sees ${services.map((s) => s.title).join(', ')}: plugs and cords hang there in the picture`,
      'Bring the cords down behind a case, or stand something before them; a box itself stays reachable.',
      services[0]!.at,
    );
  if (lamps.length > 0)
    note(
      'lamp-seen',
      `${framed.title} sees ${lamps.map((l) => l.title).join(', ')} themselves`,
      'A lamp in the picture burns out and pulls the exposure down: aim the camera lower, take a longer lens, or move the lamp.',
      lamps[0]!.at,
    );
  const fills = fillsOf(staged, camera, framed.silhouettes);
  const ceiling = fills.find((f) => f.kind === 'ceiling');
  if (ceiling && ceiling.share > 0.05)
    note(
      'ceiling-seen',
      `The ceiling takes ${Math.round(100 * ceiling.share)} % of the picture of ${framed.title}`,
      'Lower the camera’s aim or raise it and look level; what is seen of the ceiling must be finished like the set.',
    );
  const cut = framed.seen.filter((s) => {
    const body = staged.pieces.find((p) => p.id === s.id);
    return body?.kind === 'absorber' && s.seen > 0.03 && s.inFrame < 0.97;
  });
  if (cut.length > 0)
    note(
      'absorber-edge',
      `The edge of the picture of ${framed.title} cuts through ${cut.map((s) => s.title).join(', ')}`,
      'Foam that ends in the picture looks like a mistake: let it run out of the frame on a whole tile, or trim its edge.',
    );
  if (Math.abs(framed.tilt) > 5)
    note(
      'tilt',
      `${framed.title} looks ${framed.tilt < 0 ? 'down' : 'up'} by ${Math.abs(framed.tilt).toFixed(0)}°: upright edges of cases lean in its picture`,
      'Set the lens at the height of the eyes and level it, and crop; or straighten the picture afterwards and leave room for that.',
    );
  const hides = framed.fronts.filter(
    (f) => f.hidden > 25 && (framed.seen.find((s) => s.id === f.id)?.seen ?? 0) > 0.05,
  );
  if (hides.length > 0)
    note(
      'shelf-front',
      `${hides.map((f) => f.title).join(' and ')} hide up to ${show(Math.max(...hides.map((f) => f.hidden)))} of what stands at the back`,
      'Stand low things at the front edge, or on a step behind it.',
    );
  const arrangements = arrangementsOf(staged).slice(1);
  for (const { name, staged: moved } of arrangements) {
    const other = framesOf(moved).find((f) => f.id === framed.id);
    const lost =
      other?.sitters.filter(({ round }) => !round || Math.min(round.left, round.right, round.above) < 0) ?? [];
    const behind = (other ? framed.sitters.length - other.sitters.length : 0) > 0;
    if (lost.length > 0 || behind)
      note(
        `place-${name}`,
        `With the desk ${name}, ${lost.length > 0 ? `${lost.map((l) => l.sitter.title).join(' and ')} are not whole in the picture` : 'somebody sits behind the lens'} of ${framed.title}`,
        'Give that arrangement a place of its own for the camera.',
      );
  }
  return notes;
}

/** People the picture has not, or not as they should be: behind the lens, under its lower edge, behind something, out of focus. */
function awayNotes(framed: Framed, staged: Staged): readonly Note[] {
  const { camera, near, far, silhouettes } = framed;
  const show = printersFor(staged.plan.units).length;
  const note = (what: string, sitter: Sitter, title: string, advice: string): Note => ({
    id: `${what}:${framed.id}/${sitter.id}`,
    about: sitter.id,
    at: sitter.head,
    verdict: 'caution',
    title,
    advice,
  });
  const before = new Map(framed.sitters.map((s) => [s.sitter.id, s]));
  const sitting = silhouettes.map((p) => p.sitter);
  const bodies = bodiesOf(staged).filter((b) => !sitting.some((s) => sitsIn(s, b.box)));
  return sittersOf(staged).flatMap((sitter): readonly Note[] => {
    const own = before.get(sitter.id);
    if (!own?.round)
      return [
        note(
          'behind-lens',
          sitter,
          `${sitter.title} sits behind the lens of ${framed.title}`,
          'Turn the camera round or set it elsewhere; or let somebody else have that seat.',
        ),
      ];
    const chin = project(camera, vec(sitter.head.x, sitter.head.y - HEAD.high, sitter.head.z));
    if (chin && chin.y < -camera.height / 2)
      return [
        note(
          'below-frame',
          sitter,
          `The face of ${sitter.title} is cut by the lower edge of ${framed.title}`,
          'Aim the camera lower, move it back, or take a shorter lens.',
        ),
      ];
    const hides = bodies.find((b) => hidesPoint(camera.at, sitter.eyes, b.box));
    if (hides)
      return [
        note(
          'hidden-face',
          sitter,
          `${hides.piece.title || hides.piece.id} hides the face of ${sitter.title} from ${framed.title}`,
          'Move the camera or what stands before it; a piece counts as closed and as large as it is outside.',
        ),
      ];
    if (own.depth >= near - 1 && own.depth <= far + 1) return [];
    return [
      note(
        'soft-face',
        sitter,
        `${sitter.title} is not sharp in ${framed.title}: ${show(own.depth)} away, where it is sharp from ${show(near)} ${Number.isFinite(far) ? `to ${show(far)}` : 'on'}`,
        'Stop the lens down, seat people at one distance, move the camera back, or take a shorter lens.',
      ),
    ];
  });
}

/** Notes on every camera: heads cut off, people out of the picture, flicker, patterns and glare of displays. */
export function cameraNotes(staged: Staged): readonly Note[] {
  const { notLess, notMore } = printersFor(staged.plan.units);
  return framesOf(staged).flatMap((framed): readonly Note[] => {
    const away = awayNotes(framed, staged);
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
      framed.sitters.length > 0 && people.length + away.length === 0
        ? [
            {
              id: `framed:${framed.id}`,
              about: framed.id,
              at: framed.camera.at,
              verdict: 'fine',
              title: `${framed.title} has ${framed.sitters.length === 1 ? 'the sitter' : `all ${framed.sitters.length} sitters`} whole in the picture`,
              advice: `Sharp from ${notLess(framed.near)} ${Number.isFinite(framed.far) ? `to ${notMore(framed.far)}` : 'on'}. Not checked: leaning, raised hands, instruments.`,
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
        title: `${framed.title} sees ${own.map((g) => g.source).join(' and ')} mirrored in ${display}`,
        advice: own.every((g) => g.by === 'window')
          ? 'By day: draw a blind, tilt the display forwards, or move the camera aside.'
          : 'Tilt the display, move the lamp out of the mirror angle, or shade it with a louvre.',
      };
    });
    return [
      ...people,
      ...away,
      ...whole,
      ...flickerOf(framed, staged),
      ...moireOf(framed, staged),
      ...glare,
      ...pictureNotes(framed, staged),
    ];
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
