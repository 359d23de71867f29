import { fromRoom, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import { bodiesOf, lampsOf, type Staged } from '../surroundings/index.ts';
import { sitsIn } from './fills.ts';
import type { Framed } from './plan.ts';
import { glareAt, hidesPoint } from './view.ts';

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
