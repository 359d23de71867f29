import {
  type KeyboardEvent,
  memo,
  type PointerEvent,
  type ReactNode,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'preact/compat';
import type { Page, PageView } from '../core/drawing/index.ts';
import type { Box } from '../core/geometry/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { type Edit, type Plan, printersFor, sharing } from '../core/plan/index.ts';
import { isInches } from '../core/quantity/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import type { SvgParts } from '../print/svg.ts';
import {
  dimensionOf,
  type Found,
  findPiece,
  type Place,
  placeEdits,
  type Side,
  sizedIn,
  sizeEdits,
} from './arrange.ts';
import { Balloons } from './balloons.tsx';
import { bayNumber } from './bays.ts';
import { change, preview, useBench } from './bench.ts';
import { command } from './command.ts';
import { followBetween, holding, useHand } from './hand.ts';
import { alongWall, type Extent, extentIn, nearness, targetsAlong, targetsUp } from './handles.ts';
import { SheetSvg } from './sheet-svg.tsx';
import { regionOf, Sight } from './sight.tsx';
import { type Caught, catchAt, onGrid, type Target } from './snap.ts';

/** Of plain data. */
const isSame = (a: unknown, b: unknown): boolean => sharing(a, b) === a;

/** Closer than this on the screen, an edge is caught. */
const REACH_PX = 7;
/** What dragging moves in when nothing catches, and what the arrow keys move by: small, and with Shift large. mm. */
export const gridOf = (plan: Plan): number => (isInches(plan.units.length) ? 25.4 / 8 : 5);
export const stepsOf = (plan: Plan): readonly [number, number] =>
  isInches(plan.units.length) ? [25.4 / 16, 25.4] : [1, 10];

interface Hand {
  readonly found: Found;
  readonly outcome: Outcome;
  readonly side: Side | undefined;
  readonly x: number;
  readonly y: number;
  /** Real mm for one pixel. */
  readonly perPixel: number;
  edits: readonly Edit[];
  moved: boolean;
}
interface Guide {
  readonly u?: Caught;
  readonly v?: Caught;
}

/** A sheet with, over its views of the room, everything that can be taken hold of. */
export function Stage({
  page,
  parts,
  outcome,
  foot,
}: {
  readonly page: Page;
  readonly parts?: SvgParts;
  readonly outcome: Outcome;
  readonly foot: ReactNode;
}) {
  const { view } = page;
  return (
    <Sight page={page} region={regionOf(page, outcome.room)} foot={foot}>
      <Picker page={page} {...(parts && { parts })} />
      {view && <Painted />}
      {view && <Handles page={page} view={view} outcome={outcome} />}
    </Sight>
  );
}

/** A click on the drawing itself picks what was drawn there: a part, a note's balloon, an outlet. */
function Picker(sheet: { readonly page: Page; readonly parts?: SvgParts }) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: everything that can be picked here stands in lists beside the drawing too
    // biome-ignore lint/a11y/noStaticElementInteractions: picking on the picture is a short cut
    <div
      onClick={(event) => {
        const about = (event.target as Element).closest('[data-about]')?.getAttribute('data-about') ?? undefined;
        if (about?.includes(':')) useBench.setState({ note: about });
        else useBench.setState({ selected: about, note: undefined });
      }}
    >
      <SheetSvg {...sheet} />
    </div>
  );
}

/** What is held, as a worker paints it, over the drawing of what lies there. */
function Painted() {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useHand((hand) => hand.canvas);
  const shown = useHand((hand) => hand.drawn !== undefined);
  const covers = useHand((hand) => hand.covers);
  useLayoutEffect(() => {
    if (canvas) host.current!.replaceChildren(canvas);
  }, [canvas]);
  useLayoutEffect(() => {
    host.current!.closest<HTMLElement>('.paper')!.toggleAttribute('data-covered', covers);
  }, [covers]);
  return <div className="painted" ref={host} data-shown={shown || undefined} aria-hidden="true" />;
}

function Handles({ page, view, outcome }: { readonly page: Page; readonly view: PageView; readonly outcome: Outcome }) {
  const selected = useBench((b) => b.selected);
  const host = useRef<HTMLDivElement>(null);
  const hand = useRef<Hand>(undefined);
  const guides = useRef<(guide: Guide) => void>(() => {});
  const own = selected?.split('/')[0];

  useEffect(() => {
    const cancel = (event: globalThis.KeyboardEvent) => {
      if (event.key !== 'Escape' || !hand.current) return;
      hand.current = undefined;
      guides.current({});
      preview([]);
    };
    addEventListener('keydown', cancel);
    return () => removeEventListener('keydown', cancel);
  }, []);

  const placeOf = ({ u, v }: Extent): string => {
    const x = (r: number) => ((view.origin.x + r / view.ratio) / page.width) * 100;
    const y = (r: number) => ((view.origin.y + r / view.ratio) / page.height) * 100;
    return [x(u[0]), y(v[0]), x(u[1]) - x(u[0]), y(v[1]) - y(v[0])].map((share) => `${share}%`).join(' ');
  };
  const place = (node: HTMLElement | null, extent: Extent) => put(node, placeOf(extent));

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
  const pull = (event: Pulled) => {
    const held = hand.current;
    if (!held) return;
    const [dx, dy] = [event.clientX - held.x, event.clientY - held.y];
    if (!held.moved && Math.hypot(dx, dy) < 4) return;
    const free = event.altKey || event.ctrlKey;
    const reach = free ? 0 : REACH_PX * held.perPixel;
    const now = held.side
      ? stretched(held, view, held.side, dx * held.perPixel, dy * held.perPixel, reach)
      : moved(held, view, dx * held.perPixel, dy * held.perPixel, reach);
    guides.current(now.guide);
    // caught, or within one step of the grid: nothing follows from what stays
    if (held.moved && isSame(held.edits, now.edits)) return;
    held.moved = true;
    held.edits = now.edits;
    holding(now.edits);
  };
  const release = (name: string, title: string) => {
    const held = hand.current;
    hand.current = undefined;
    guides.current({});
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
          at={placeOf(extent)}
          hands={hands.current}
        />
      ))}
      {chosen && view.kind === 'elevation' && (
        <Bays
          piece={chosen.piece}
          outcome={outcome}
          view={view}
          place={place}
          selected={selected}
          onTake={take}
          onPull={pull}
          onRelease={release}
        />
      )}
      {chosen &&
        sidesOf(view, chosen.piece)
          .filter((side) => sized.includes(dimensionOf(side)))
          .map((side) => (
            <span
              key={side}
              className={`pull pull-${side}${isEnd(side, chosen.extent) ? ' pull-end' : ''}`}
              ref={(node) => place(node, strip(side, chosen.extent, view))}
              onPointerDown={(e) => take(e, chosen.piece.id, side)}
              onPointerMove={pull}
              onPointerUp={() => release(chosen.piece.id, chosen.piece.title)}
              onPointerCancel={() => release(chosen.piece.id, chosen.piece.title)}
            />
          ))}
      {chosen && <Balloons page={page} />}
      <Guides show={guides} page={page} view={view} />
    </div>
  );
}

const lain = new WeakMap<HTMLElement, string>();
/** Writes a place, `left top width height`, through the style of the element: the content policy allows no style in the page. */
function put(node: HTMLElement | null, at: string): void {
  if (!node || lain.get(node) === at) return;
  lain.set(node, at);
  const [left, top, width, height] = at.split(' ');
  Object.assign(node.style, { left, top, width, height });
}

type Pulled = Pick<globalThis.PointerEvent, 'clientX' | 'clientY' | 'altKey' | 'ctrlKey'>;
interface Hands {
  readonly take: (event: PointerEvent<HTMLElement>, name: string) => void;
  readonly pull: (event: Pulled) => void;
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
      ref={(node) => put(node, at)}
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

function Bays({
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

/** Lines through what caught the piece, and what that is. They change with every step of a hand, and all that can be held does not. */
function Guides({
  show,
  page,
  view,
}: {
  readonly show: RefObject<(guide: Guide) => void>;
  readonly page: Page;
  readonly view: PageView;
}) {
  const [guide, setGuide] = useState<Guide>({});
  show.current = (now) => setGuide((before) => (isSame(before, now) ? before : now));
  const x = guide.u && ((view.origin.x + guide.u.at / view.ratio) / page.width) * 100;
  const y = guide.v && ((view.origin.y + guide.v.at / view.ratio) / page.height) * 100;
  return (
    <>
      {guide.u && (
        <span className="guide upright" ref={(node) => node?.style.setProperty('left', `${x}%`)}>
          <b>{guide.u.what}</b>
        </span>
      )}
      {guide.v && (
        <span className="guide level" ref={(node) => node?.style.setProperty('top', `${y}%`)}>
          <b>{guide.v.what}</b>
        </span>
      )}
    </>
  );
}

const sizeInWords = ({ outside: { min, max } }: PlacedPiece, show: (mm: number) => string): string =>
  `${show(max.x - min.x)} wide, ${show(max.y - min.y)} high, ${show(max.z - min.z)} deep`;

/** Which sides can be pulled in a view. In a plan only those of pieces that stand square to it. */
function sidesOf(view: PageView, piece: PlacedPiece): readonly Side[] {
  if (view.kind === 'elevation')
    return piece.frame.origin.y > 1 ? ['left', 'right', 'top', 'bottom'] : ['left', 'right', 'top'];
  return piece.frame.turn % 360 === 0 ? ['left', 'right', 'front'] : [];
}
/** Of a piece that is thin the long sides leave nothing of the others but what lies above them. */
const isEnd = (side: Side, { u, v }: Extent): boolean =>
  (side === 'left' || side === 'right') === u[1] - u[0] > v[1] - v[0];
function strip(side: Side, { u, v }: Extent, view: PageView): Extent {
  const t = 1.2 * view.ratio;
  if (side === 'left') return { u: [u[0] - t, u[0] + t], v };
  if (side === 'right') return { u: [u[1] - t, u[1] + t], v };
  return side === 'top' ? { u, v: [v[0] - t, v[0] + t] } : { u, v: [v[1] - t, v[1] + t] };
}

/** How much further than it catches a piece has to be lifted to leave the floor. */
const STICKY = 4;

/** Where a piece goes that is dragged by (du, dv), and what caught it. */
function moved(
  hand: Hand,
  view: PageView,
  du: number,
  dv: number,
  reach: number,
): { edits: readonly Edit[]; guide: Guide } {
  const { found, outcome } = hand;
  const piece = found.placed!;
  const grid = gridOf(outcome.plan);
  const to: { -readonly [K in keyof Place]: Place[K] } = {};
  const guide: { u?: Caught; v?: Caught } = {};
  const { min, max } = piece.outside;
  if (found.piece.at) {
    if (view.kind === 'elevation') return { edits: [], guide };
    to.x = onGrid(found.piece.at.x + du, grid);
    to.z = onGrid(found.piece.at.y + dv, grid);
    return { edits: placeEdits(outcome, found, to), guide };
  }
  const { along: dAlong, out: dOut } = view.kind === 'plan' ? alongWall(piece, du, dv) : { along: du, out: 0 };
  if (piece.wall) {
    const start = piece.wall.from + dAlong;
    const caught = caughtAlong(hand, start, reach);
    to.along = caught ? start + caught.by : onGrid(start, grid);
    if (caught && view.kind === 'elevation') guide.u = caught;
  }
  // what stands on the floor is not lifted off it by an unsteady hand
  const sticky = piece.frame.origin.y < 1 ? STICKY : 0.5;
  if (view.kind === 'elevation' && Math.abs(dv) > reach * sticky) {
    const bottom = Math.max(0, piece.frame.origin.y - dv);
    const edges = { start: bottom + min.y, end: bottom + max.y, middle: bottom + (min.y + max.y) / 2 };
    const caught = catchAt(edges, targetsUp(outcome.room, outcome.pieces, piece), reach);
    to.above = caught ? bottom + caught.by : onGrid(bottom, grid);
    if (caught) guide.v = { ...caught, at: -caught.at };
  }
  if (view.kind === 'plan' && Math.abs(dOut) > reach) to.out = Math.max(0, onGrid((found.piece.out ?? 0) + dOut, grid));
  return { edits: placeEdits(outcome, found, to), guide };
}

function caughtAlong({ found, outcome }: Hand, start: number, reach: number): Caught | undefined {
  const piece = found.placed!;
  const { min, max } = piece.outside;
  const known = targetsAlong(outcome.room, outcome.pieces, piece, max.x - min.x);
  if (!known) return undefined;
  const edges = { start: start + min.x, end: start + max.x, middle: start + (min.x + max.x) / 2 };
  const [edge, even] = [catchAt(edges, known.targets, reach), catchAt({ start: edges.start }, known.starts, reach)];
  if (edge && even) return Math.abs(even.by) < Math.abs(edge.by) ? even : edge;
  return edge ?? even;
}

function stretched(
  { found, outcome }: Hand,
  view: PageView,
  side: Side,
  du: number,
  dv: number,
  reach: number,
): { edits: readonly Edit[]; guide: Guide } {
  const piece = found.placed!;
  const { min, max } = piece.outside;
  const grid = gridOf(outcome.plan);
  const outwards = { left: -du, right: du, top: -dv, bottom: dv, front: dv }[side];
  const size = {
    left: max.x - min.x,
    right: max.x - min.x,
    top: max.y - min.y,
    bottom: max.y - min.y,
    front: max.z - min.z,
  }[side];
  const guide: { u?: Caught; v?: Caught } = {};
  let by = onGrid(size + outwards, grid) - size;
  const catchSide = (edge: number, targets: readonly Target[], sign: 1 | -1): Caught | undefined => {
    const caught = catchAt(
      { end: edge },
      targets.filter((t) => !t.middle),
      reach,
    );
    if (caught) by = outwards + sign * caught.by;
    return caught;
  };
  if ((side === 'left' || side === 'right') && piece.wall && view.kind === 'elevation') {
    const targets = targetsAlong(outcome.room, outcome.pieces, piece, size)?.targets ?? [];
    const edge = piece.wall.from + (side === 'left' ? min.x - outwards : max.x + outwards);
    const caught = catchSide(edge, targets, side === 'left' ? -1 : 1);
    if (caught) guide.u = caught;
  } else if (side === 'top' || side === 'bottom') {
    const edge = piece.frame.origin.y + (side === 'top' ? max.y + outwards : min.y - outwards);
    const caught = catchSide(edge, targetsUp(outcome.room, outcome.pieces, piece), side === 'top' ? 1 : -1);
    if (caught) guide.v = { ...caught, at: -caught.at };
  }
  return { edits: sizeEdits(outcome, found, side, by), guide };
}

/** Arrows move a piece, with Shift further; with Alt they change its size: right and up larger. */
function nudged(
  event: KeyboardEvent<HTMLElement>,
  found: Found,
  outcome: Outcome,
  view: PageView,
): readonly Edit[] | undefined {
  const directions: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const direction = directions[event.key];
  const piece = found.placed;
  if (!direction || !piece || event.ctrlKey || event.metaKey) return undefined;
  const step = stepsOf(outcome.plan)[event.shiftKey ? 1 : 0]!;
  const [du, dv] = [direction[0] * step, direction[1] * step];
  if (event.altKey)
    return du !== 0
      ? sizeEdits(outcome, found, 'right', du)
      : sizeEdits(outcome, found, view.kind === 'elevation' ? 'top' : 'front', view.kind === 'elevation' ? -dv : dv);
  if (found.piece.at)
    return view.kind === 'elevation'
      ? []
      : placeEdits(outcome, found, { ...(du !== 0 ? { x: found.piece.at.x + du } : { z: found.piece.at.y + dv }) });
  if (!piece.wall) return [];
  if (view.kind === 'elevation')
    return placeEdits(
      outcome,
      found,
      du !== 0 ? { along: piece.wall.from + du } : { above: Math.max(0, piece.frame.origin.y - dv) },
    );
  const { along, out } = alongWall(piece, du, dv);
  return placeEdits(
    outcome,
    found,
    Math.abs(along) > Math.abs(out)
      ? { along: piece.wall.from + along }
      : { out: Math.max(0, (found.piece.out ?? 0) + out) },
  );
}
