import { framesOf, sittersOf } from '../camera/index.ts';
import { isInside, type Vec3 } from '../geometry/index.ts';
import { bodiesOf, prismOf, type Staged } from '../surroundings/index.ts';
import { ROOM_SPEED } from './air.ts';
import { findReflections } from './reflections.ts';
import type { TiledWall } from './tiles.ts';
import type { LaidTile } from './treatment.ts';

export interface FirstReflection {
  readonly from: string;
  readonly to: string;
  readonly face: string;
  readonly point: Vec3;
  /** s behind the direct sound, and dB against it. */
  readonly delay: number;
  readonly level: number;
  /** The absorber it meets, if any. */
  readonly met: string | undefined;
}

/** s: later than this a reflection is heard as a part of the room. Common practice. */
const EARLY = 0.02;

/** First reflections from each mouth to each microphone, and whether a tile meets them. */
export function firstReflections(
  staged: Staged,
  tiles: readonly TiledWall[],
  nameOfFace: (id: string) => string,
): readonly FirstReflection[] {
  const { room } = staged;
  const prism = prismOf(room);
  const boxes = bodiesOf(staged)
    .filter((b) => b.piece.kind !== 'absorber' && b.piece.kind !== 'lining')
    .map((b) => b.box);
  const microphones = framesOf(staged).filter((f) => f.piece.microphone);
  const sources = sittersOf(staged).filter((s) => s.seat.talks);
  return microphones.flatMap((m) =>
    sources.flatMap((s) => {
      if (!isInside(prism, s.mouth) || !isInside(prism, m.camera.at)) return [];
      const { paths } = findReflections(prism, s.mouth, m.camera.at, { boxes, speed: ROOM_SPEED });
      return paths
        .filter((path) => path.delay < EARLY)
        .map((path): FirstReflection => {
          const point = path.points[0]!;
          const face = path.faces[0]!;
          const wall = face.startsWith('wall ') ? room.walls[Number(face.slice(5))] : undefined;
          const met = wall && tiles.find((t) => t.wall === wall.id && isOn(t.laid, wall.frame.origin, point));
          return {
            from: s.title,
            to: m.title,
            face: nameOfFace(face),
            point,
            delay: path.delay,
            level: path.spreading,
            met: met?.title,
          };
        });
    }),
  );
}

/** Whether a point of a wall, which begins at `origin`, lies on a tile. */
function isOn(laid: readonly LaidTile[], origin: Vec3, point: Vec3): boolean {
  const x = Math.hypot(point.x - origin.x, point.z - origin.z);
  return laid.some((t) => x >= t.x && x <= t.x + t.width && point.y >= t.y && point.y <= t.y + t.height);
}
