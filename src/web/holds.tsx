import { type KeyboardEvent, memo, type PointerEvent, type RefObject, useEffect, useRef } from 'preact/compat';
import type { Page, PageView } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { type Plan, printersFor, sharing } from '../core/plan/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { dimensionOf, findPiece, type Side, sizedIn } from './arrange.ts';
import { Balloons } from './balloons.tsx';
import { Bays } from './bay-holds.tsx';
import { change, preview, useBench } from './bench.ts';
import { command } from './command.ts';
import { Guides } from './guides.tsx';
import { followBetween, holding } from './hand.ts';
import { type Extent, extentIn, nearness } from './handles.ts';
import { layAt, placeOf } from './laid.ts';
import { type Guide, type Hand, isEnd, moved, nudged, REACH_PX, sidesOf, stretched, strip } from './pull.ts';

/** Of plain data. */
const isSame = (a: unknown, b: unknown): boolean => sharing(a, b) === a;

/** Everything in a view that can be taken hold of. */
export function Handles({ page, view, outcome }: Taken) {
  const selected = useBench((b) => b.selected);
  const host = useRef<HTMLDivElement>(null);
  const guides = useRef<(guide: Guide) => void>(() => {});
  const own = selected?.split('/')[0];
  const hands = useHands({ page, view, outcome }, own, host, guides);

  const at = (extent: Extent): string => placeOf(page, view, extent);
  const place = (node: HTMLElement | null, extent: Extent) => layAt(node, at(extent));

  // mouldings follow from the plan: there is nothing of them to take hold of
  const pieces = outcome.pieces
    .filter((piece) => piece.kind !== 'trim')
    .flatMap((piece) => {
      const extent = extentIn(view, outcome.room, piece);
      return extent ? [{ piece, extent }] : [];
    })
    .sort((a, b) => nearness(view, a.piece) - nearness(view, b.piece));
  const chosen = pieces.find(({ piece }) => piece.id === own);
  const written = findPiece(outcome, own)?.piece;
  const sized = written ? sizedIn(written) : [];
  return (
    <div className="handles" ref={host}>
      {pieces.map(({ piece, extent }) => (
        <Hold
          key={piece.id}
          piece={piece}
          units={outcome.plan.units}
          chosen={piece.id === own}
          at={at(extent)}
          hands={hands}
        />
      ))}
      {chosen && view.kind === 'elevation' && (
        <Bays
          piece={chosen.piece}
          outcome={outcome}
          view={view}
          place={place}
          selected={selected}
          onTake={hands.take}
          onPull={hands.pull}
          onRelease={hands.release}
        />
      )}
      {chosen && <Pulls {...chosen} view={view} sized={sized} place={place} hands={hands} />}
      {chosen && <Balloons page={page} />}
      <Guides show={guides} page={page} view={view} />
    </div>
  );
}

interface Taken {
  readonly page: Page;
  readonly view: PageView;
  readonly outcome: Outcome;
}

/** What takes hold of a piece or of a side of it, pulls it and lets it go, and the keys that do the same. */
function useHands(
  { page, view, outcome }: Taken,
  own: string | undefined,
  host: RefObject<HTMLDivElement | null>,
  guides: RefObject<(guide: Guide) => void>,
): Hands {
  const hand = useRef<Hand>(undefined);

  useEffect(() => {
    const cancel = (event: globalThis.KeyboardEvent) => {
      if (event.key !== 'Escape' || !hand.current) return;
      hand.current = undefined;
      lead({});
      preview([]);
    };
    addEventListener('keydown', cancel);
    return () => removeEventListener('keydown', cancel);
  }, []);

  const take = (event: PointerEvent<HTMLElement>, name: string, side?: Side) => {
    if (event.button !== 0) return;
    const found = findPiece(outcome, name);
    const width = host.current?.getBoundingClientRect().width;
    if (!found?.placed || !width) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    followBetween(event.currentTarget, (e) => hands.current.pull(e));
    const perPixel = (page.width / width) * view.ratio;
    hand.current = { found, outcome, side, x: event.clientX, y: event.clientY, perPixel, edits: [], moved: false };
  };
  /** What is held is framed where it comes to: the hold itself follows when it was worked out. */
  const lead = (guide: Guide): void => {
    guides.current(guide);
    host.current?.toggleAttribute('data-led', guide.comesTo !== undefined);
  };
  const pull = (event: At) => {
    const held = hand.current;
    if (!held) return;
    const [dx, dy] = [event.clientX - held.x, event.clientY - held.y];
    if (!held.moved && Math.hypot(dx, dy) < 4) return;
    const free = event.altKey || event.ctrlKey;
    const reach = free ? 0 : REACH_PX * held.perPixel;
    const now = held.side
      ? stretched(held, view, held.side, dx * held.perPixel, dy * held.perPixel, reach)
      : moved(held, view, dx * held.perPixel, dy * held.perPixel, reach);
    lead(now.guide);
    // caught, or within one step of the grid: nothing follows from what stays
    if (held.moved && isSame(held.edits, now.edits)) return;
    held.moved = true;
    held.edits = now.edits;
    holding(now.edits);
  };
  const release = (name: string, title: string) => {
    const held = hand.current;
    hand.current = undefined;
    lead({});
    if (held?.moved) {
      const verb = held.side ? 'Size of' : 'Place of';
      if (held.edits.length > 0) change(`${verb} ${title}`, held.edits);
      else preview([]);
    }
    if (own !== name) useBench.setState({ selected: name, note: undefined });
  };

  const onKey = (event: KeyboardEvent<HTMLElement>, name: string) => {
    const found = findPiece(outcome, name);
    if (!found) return;
    const edits = nudged(event, found, outcome, view);
    const [ctrl, key] = [event.ctrlKey || event.metaKey, event.key];
    if (edits) change(`${event.altKey ? 'Size' : 'Place'} of ${found.placed?.title ?? name}`, edits);
    else if (key === 'Delete' || key === 'Backspace') void command('deletePiece', outcome, name);
    else if (ctrl && key.toLowerCase() === 'd') void command('copyPiece', outcome, name);
    else if (!ctrl && key.toLowerCase() === 'm') void command('mirrorPiece', outcome, name);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  // each frame of a drag has its own: what is drawn once asks for those of now
  const hands = useRef<Hands>({} as Hands);
  Object.assign(hands.current, { take, pull, release, onKey } satisfies Hands);
  return hands.current;
}

/** The sides of the chosen piece that can be pulled. */
function Pulls({
  piece,
  extent,
  view,
  sized,
  place,
  hands,
}: {
  readonly piece: PlacedPiece;
  readonly extent: Extent;
  readonly view: PageView;
  /** What of its size is written in the plan. */
  readonly sized: ReturnType<typeof sizedIn>;
  readonly place: (node: HTMLElement | null, extent: Extent) => void;
  readonly hands: Hands;
}) {
  const release = (): void => hands.release(piece.id, piece.title);
  return (
    <>
      {sidesOf(view, piece)
        .filter((side) => sized.includes(dimensionOf(side)))
        .map((side) => (
          <span
            key={side}
            className={`pull pull-${side}${isEnd(side, extent) ? ' pull-end' : ''}`}
            ref={(node) => place(node, strip(side, extent, view))}
            onPointerDown={(e) => hands.take(e, piece.id, side)}
            onPointerMove={(e) => hands.pull(e)}
            onPointerUp={release}
            onPointerCancel={release}
          />
        ))}
    </>
  );
}

type At = Pick<globalThis.PointerEvent, 'clientX' | 'clientY' | 'altKey' | 'ctrlKey'>;
interface Hands {
  readonly take: (event: PointerEvent<HTMLElement>, name: string, side?: Side) => void;
  readonly pull: (event: At) => void;
  readonly release: (name: string, title: string) => void;
  readonly onKey: (event: KeyboardEvent<HTMLElement>, name: string) => void;
}

/** What a piece is taken hold of by. While another is dragged it is not drawn anew. */
const Hold = memo(function Hold({
  piece,
  units,
  chosen,
  at,
  hands,
}: {
  readonly piece: PlacedPiece;
  readonly units: Plan['units'];
  readonly chosen: boolean;
  readonly at: string;
  readonly hands: Hands;
}) {
  const { id: name, title } = piece;
  const choose = (): void => {
    if (!chosen) useBench.setState({ selected: name, note: undefined });
  };
  return (
    <button
      type="button"
      className={chosen ? 'hold chosen' : 'hold'}
      ref={(node) => layAt(node, at)}
      aria-pressed={chosen}
      aria-label={`${title}, ${piece.kind}, ${sizeInWords(piece, printersFor(units).length)}`}
      aria-keyshortcuts="ArrowLeft ArrowRight ArrowUp ArrowDown Delete Control+D M"
      onPointerDown={(e) => hands.take(e, name)}
      onPointerMove={(e) => hands.pull(e)}
      onPointerUp={() => hands.release(name, title)}
      onPointerCancel={() => hands.release(name, title)}
      onFocus={(e) => e.currentTarget.matches(':focus-visible') && choose()}
      onClick={choose}
      onKeyDown={(e) => hands.onKey(e, name)}
    />
  );
});

const sizeInWords = ({ outside: { min, max } }: PlacedPiece, show: (mm: number) => string): string =>
  `${show(max.x - min.x)} wide, ${show(max.y - min.y)} high, ${show(max.z - min.z)} deep`;
