import { boxesOf } from '../core/drawing/index.ts';
import type { Box } from '../core/geometry/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';

interface Flat {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}
const fromFront = ({ min, max }: Box): Flat => ({ x: min.x, y: -max.y, w: max.x - min.x, h: max.y - min.y });
const fromRight = ({ min, max }: Box): Flat => ({ x: -max.z, y: -max.y, w: max.z - min.z, h: max.y - min.y });
const fromAbove = ({ min, max }: Box): Flat => ({ x: min.x, y: min.z, w: max.x - min.x, h: max.z - min.z });
const VIEWS = [
  ['from the front', fromFront],
  ['from the right, its front at the left', fromRight],
  ['from above, its front below', fromAbove],
] as const;

/** Where a part sits in its piece: three views of the outlines of all its parts, this one filled in. */
export function PartPicture({ piece, part }: { readonly piece: PlacedPiece; readonly part: string }) {
  const all = piece.parts.map(({ id, solid }) => ({ own: id === part, boxes: boxesOf(solid) }));
  // what it is looked for in is drawn first, itself on top
  const inOrder = [...all.filter((p) => !p.own), ...all.filter((p) => p.own)];
  return (
    <div className="part-picture">
      {VIEWS.map(([name, flat]) => {
        const whole = flat(piece.outside);
        const pen = Math.max(whole.w, whole.h) / 180;
        return (
          <figure key={name}>
            <svg
              viewBox={`${whole.x - 2 * pen} ${whole.y - 2 * pen} ${whole.w + 4 * pen} ${whole.h + 4 * pen}`}
              role="img"
              aria-label={`The part in ${piece.title}, ${name}`}
            >
              {inOrder.flatMap(({ own, boxes }, i) =>
                boxes.map((box, j) => {
                  const { x, y, w, h } = flat(box);
                  return (
                    <rect
                      key={`${i} ${j}`}
                      x={x}
                      y={y}
                      width={w}
                      height={h}
                      className={own ? 'own-part' : 'other-part'}
                    />
                  );
                }),
              )}
            </svg>
            <figcaption>{name}</figcaption>
          </figure>
        );
      })}
    </div>
  );
}
