import type { PointerEvent } from 'preact/compat';
import type { PageView } from '../core/drawing/index.ts';
import type { Box } from '../core/geometry/index.ts';
import type { Outcome } from '../core/outcome.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { bayNumber } from './bays.ts';
import { useBench } from './bench.ts';
import { type Extent, extentIn } from './handles.ts';

/** What the bays of a piece are picked by. */
export function Bays({
  piece,
  outcome,
  view,
  place,
  selected,
  onTake,
  onPull,
  onRelease,
}: {
  readonly piece: PlacedPiece;
  readonly outcome: Outcome;
  readonly view: PageView;
  readonly place: (node: HTMLElement | null, extent: Extent) => void;
  readonly selected: string | undefined;
  readonly onTake: (event: PointerEvent<HTMLElement>, name: string) => void;
  readonly onPull: (event: PointerEvent<HTMLElement>) => void;
  readonly onRelease: (name: string, title: string) => void;
}) {
  const face = ({ min, max }: Box): number => (max.x - min.x) * (max.y - min.y);
  const above = (box: Box): number => piece.bays.filter((other) => face(other.clear) > face(box)).length;
  return (
    piece.bays
      // one that is divided shows when it was picked by name: below those within it
      .filter((bay) => bay.kind !== 'divided' || bay.id === selected)
      .map((bay) => {
        const extent = extentIn(view, outcome.room, piece, bay.clear);
        return (
          extent && (
            <button
              key={bay.id}
              type="button"
              className={bay.id === selected ? 'bay chosen' : 'bay'}
              aria-pressed={bay.id === selected}
              aria-label={`${piece.title}, bay ${bayNumber(bay.id)}${bay.title ? `, ${bay.title}` : ''}: ${bay.kind}`}
              ref={(node) => {
                place(node, extent);
                // a bay within another lies upon it, so that both can be picked
                node?.style.setProperty('z-index', String(above(bay.clear)));
              }}
              onPointerDown={(e) => onTake(e, piece.id)}
              onPointerMove={onPull}
              onPointerUp={() => onRelease(piece.id, piece.title)}
              onClick={() => useBench.setState({ selected: bay.id, note: undefined })}
            />
          )
        );
      })
  );
}
