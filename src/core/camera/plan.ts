import { type Box, dot, magnitude, scale, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Working } from '../notes/index.ts';
import type { CameraPiece } from '../plan/index.ts';
import { bodiesOf, type Staged } from '../surroundings/index.ts';
import { type Silhouette, silhouetteOf } from './fills.ts';
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
import { type Sitter, sittersOf } from './sitters.ts';
import { type Camera, type Headroom, isPictured, roomRound, seenShare, sightOf } from './view.ts';

/** A camera of the plan, set up: where it looks and what its picture holds. Lengths mm, angles degrees. */
export interface Framed {
  readonly id: string;
  readonly title: string;
  readonly piece: CameraPiece;
  readonly camera: Camera;
  readonly angle: { readonly across: number; readonly high: number };
  /** Distance it is focused at: the nearest face in the picture, or between the faces where all are sharp then; or what it looks at. */
  readonly focus: number;
  /** Where not all faces in the picture are sharp, the widest stop at which they would be, and the focus for it. */
  readonly stopped?: { readonly stop: number; readonly focus: number };
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
    const aim = piece.towards && vec(piece.towards.x, piece.towards.above, piece.towards.y);
    // an aim that is said decides who is before the lens, however the body is turned
    const ahead = aim ? subtract(aim, at) : subtract(toRoom(own.frame, vec(0, 0, 1)), toRoom(own.frame, vec(0, 0, 0)));
    const before = sitters.filter((s) => dot(subtract(s.eyes, at), ahead) > 0);
    const middle = (points: readonly Vec3[]): Vec3 =>
      scale(
        points.reduce((a, b) => vec(a.x + b.x, a.y + b.y, a.z + b.z), vec(0, 0, 0)),
        1 / points.length,
      );
    // Towards the faces, a little below them, so that the head has room above it.
    const faces = before.length > 0 ? middle(before.map((s) => s.mouth)) : undefined;
    const towards = aim ?? faces ?? toRoom(own.frame, vec(max.x / 2, max.y / 2, max.z + 2000));
    const size = cropTo(sensorOf(piece.sensor), piece.aspect);
    const camera: Camera = { at, towards, focal: piece.focal, ...size };
    const sight = sightOf(camera);
    const depthOf = (p: Vec3): number => dot(subtract(p, at), sight.ahead);
    const circle = circleOfConfusion(diagonalOf(size));
    const H = hyperfocal(piece.focal, piece.stop, circle);
    const pictured = before.filter(({ eyes }) => isPictured(camera, eyes, sight));
    const depths = (pictured.length > 0 ? pictured : before).map((s) => depthOf(s.eyes));
    const aimed = depths.length > 0 ? depths : [magnitude(subtract(towards, at))];
    const { focus, how, ...stopped } = focusOn(aimed, piece, circle);
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
        ...stopped,
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
            assumes: [`a thin lens, focused ${how}`],
          },
        ],
      },
    ];
  });
}

/** Stops a lens is set to, a third apart. The scale of ISO 517, from memory. */
const STOPS = [
  1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20,
  22,
];

/** On the nearest of some depths; where the farthest is not sharp then, between them, if both are sharp so. */
function focusOn(
  depths: readonly number[],
  { focal, stop }: CameraPiece,
  circle: number,
): Pick<Framed, 'focus' | 'stopped'> & { readonly how: string } {
  const least = (depth: number): number => Math.max(2 * focal, depth);
  const [nearest, farthest] = [least(Math.min(...depths)), least(Math.max(...depths))];
  const onNearest = { focus: nearest, how: 'on the nearest face' };
  const sharpAt = (f: number): boolean => farLimit(hyperfocal(focal, f, circle), focal, nearest) >= farthest;
  if (sharpAt(stop)) return onNearest;
  // near and far limit of one focus: their reciprocals lie as far from its own either way
  const between = (2 * nearest * farthest) / (nearest + farthest);
  const both = (f: number): boolean => {
    const H = hyperfocal(focal, f, circle);
    return nearLimit(H, focal, between) <= nearest && farLimit(H, focal, between) >= farthest;
  };
  if (both(stop)) return { focus: between, how: 'between the nearest and the farthest face' };
  const enough = STOPS.find((f) => f > stop && both(f));
  return { ...onNearest, ...(enough !== undefined && { stopped: { stop: enough, focus: between } }) };
}

const shelfDepth = ({ outside }: { readonly outside: Box }): number => outside.max.z - outside.min.z;
/** By similar triangles: a lens below the top of a shelf of a depth, so far from its front, loses so much at its back. */
export const hiddenBehind = (above: number, depth: number, away: number): number => (above * depth) / away;
