import {
  type PointerEvent,
  type ReactNode,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'preact/compat';
import { isLivePage, type Page } from '../core/drawing/index.ts';
import type { PlacedRoom } from '../core/room/index.ts';
import { useBench } from './bench.ts';
import { create } from './store.ts';

/** Whether one looks at the drawing from close by or at the whole sheet: kept from page to page. */
const useClose = create<{ readonly close: boolean }>(() => ({ close: true }));

/** A rectangle of a sheet, in mm of paper. */
interface Region {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}
/** Room for dimensions and names round a wall that is drawn to scale, mm of paper. */
const MARGIN = { left: 34, right: 22, top: 26, bottom: 34 };
/** At this many pixels a mm lettering of 8 points can be read; below the other the whole sheet is too small for it. */
const LEGIBLE = 3.1;
const ILLEGIBLE = 2.3;
const MOST = 10;

/** What is worked on in a sheet: its drawing with the dimensions round it. Undefined for a sheet of lists. */
export function regionOf({ id, view }: Page, room: PlacedRoom): Region | undefined {
  if (!view || !isLivePage(id)) return undefined;
  const { origin, ratio, area } = view;
  const [right, below] = [area.x + area.width, area.y + area.height];
  const wall = room.walls.find((w) => w.id === view.wall);
  if (!wall) return { x: [area.x, right], y: [area.y, below] };
  return {
    x: [Math.max(area.x, origin.x - MARGIN.left), Math.min(right, origin.x + wall.length / ratio + MARGIN.right)],
    y: [Math.max(area.y, origin.y - wall.height / ratio - MARGIN.top), Math.min(below, origin.y + MARGIN.bottom)],
  };
}
/** Where the middle of the window comes: over the middle of what is shown, or at its beginning where it is larger than the window. */
const middleOf = ([from, to]: Region['x'], window: number): number => Math.min((from + to) / 2, from + window / 2);

/** A sheet as large as it is wanted: whole, from close by, or further in. Ctrl and the wheel go in and out; an empty place drags it along. */
export function Sight({
  page,
  region,
  foot,
  children,
}: {
  readonly page: Page;
  readonly region: Region | undefined;
  /** Stands beside the controls. */
  readonly foot: ReactNode;
  readonly children: ReactNode;
}) {
  const scroll = useRef<HTMLElement>(null);
  const { close } = useClose();
  const size = useSizeOf(scroll);
  const [further, setFurther] = useState(1);
  const [homed, setHomed] = useState(0);
  /** The place of the sheet in the middle of the window, as shares of its sides. */
  const middle = useRef({ x: 0.5, y: 0.5 });
  /** Where it was scrolled to for that, and whether it was scrolled by hand since it was brought to its drawing. */
  const placed = useRef({ x: 0, y: 0 });
  const moved = useRef(false);

  const [wide, high] = [size[0] - EDGE, size[1] - EDGE];
  /** Pixels a mm with the whole sheet in the window. */
  const whole = Math.max(0.1, Math.min(wide / page.width, high / page.height));
  const fits = region
    ? Math.max(whole, Math.min(wide / (region.x[1] - region.x[0]), high / (region.y[1] - region.y[0])))
    : whole;
  const near = fits < ILLEGIBLE ? LEGIBLE : fits;
  const scale = Math.min(whole * MOST, Math.max(whole, (close ? near : whole) * further));

  const home = (): void => {
    middle.current = region
      ? { x: middleOf(region.x, wide / near) / page.width, y: middleOf(region.y, high / near) / page.height }
      : { x: 0, y: 0 };
    moved.current = false;
    setFurther(1);
    setHomed((n) => n + 1);
  };
  // before it is scrolled: only what is large enough can be
  const paper = usePaper(page, scale);

  // another sheet or another window begins where the drawing is; a change of the drawing leaves the eye where it was
  useLayoutEffect(home, [page.id, close, size]);
  // until somebody has looked elsewhere: notes that come later take their room from the drawing
  useLayoutEffect(() => {
    if (!moved.current && further === 1) home();
  }, [region?.x[0], region?.x[1], region?.y[0], region?.y[1]]);
  useLayoutEffect(() => {
    const node = scroll.current!;
    const { x, y } = middle.current;
    node.scrollTo(x * page.width * scale - node.clientWidth / 2, y * page.height * scale - node.clientHeight / 2);
    placed.current = { x: node.scrollLeft, y: node.scrollTop };
  }, [scale, homed, page.width, page.height]);

  const zoom = (factor: number): void => setFurther((f) => Math.min((whole * MOST) / near, Math.max(0.05, f * factor)));
  useEffect(() => {
    const node = scroll.current!;
    const wheel = (event: WheelEvent) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      const box = node.getBoundingClientRect();
      const factor = event.deltaY < 0 ? STEP : 1 / STEP;
      const at = {
        x: middle.current.x + (event.clientX - box.left - box.width / 2) / (page.width * scale),
        y: middle.current.y + (event.clientY - box.top - box.height / 2) / (page.height * scale),
      };
      middle.current = {
        x: at.x + (middle.current.x - at.x) / factor,
        y: at.y + (middle.current.y - at.y) / factor,
      };
      zoom(factor);
    };
    node.addEventListener('wheel', wheel, { passive: false });
    return () => node.removeEventListener('wheel', wheel);
  });

  return (
    <div className="stage">
      <section
        className="paper-scroll"
        data-close={(close && region !== undefined) || undefined}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls can be scrolled by keyboard
        tabIndex={0}
        aria-label="Drawing"
        ref={scroll}
        {...usePulled(scroll)}
        onScroll={({ currentTarget: node }) => {
          if (size[0] === 0) return;
          if (Math.hypot(node.scrollLeft - placed.current.x, node.scrollTop - placed.current.y) > 2)
            moved.current = true;
          middle.current = {
            x: (node.scrollLeft + node.clientWidth / 2) / (page.width * scale),
            y: (node.scrollTop + node.clientHeight / 2) / (page.height * scale),
          };
        }}
      >
        <div className="paper" ref={paper}>
          {children}
        </div>
      </section>
      <div className="foot">
        {foot}
        <Zoom
          zoom={zoom}
          isLeast={scale <= whole * 1.001}
          isMost={scale >= whole * MOST * 0.999}
          sights={near > whole * 1.05}
          close={further === 1 ? close : undefined}
          onClose={(wanted) => {
            useClose.setState({ close: wanted });
            home();
          }}
        />
      </div>
    </div>
  );
}

/** The room there is in a window, px. */
function useSizeOf(window: RefObject<HTMLElement | null>): readonly [number, number] {
  const [size, setSize] = useState<readonly [number, number]>([0, 0]);
  // a message that comes or goes under the drawing must not take what is held away from the hand
  const held = useBench((b) => b.dragging);
  useLayoutEffect(() => {
    if (held) return;
    const node = window.current!;
    const measure = (): void => {
      const now = [node.clientWidth, node.clientHeight] as const;
      setSize((was) => (was[0] === now[0] && was[1] === now[1] ? was : now));
    };
    const watch = new ResizeObserver(measure);
    watch.observe(node);
    return () => watch.disconnect();
  }, [held]);
  return size;
}

/** A sheet of so many pixels a mm, on the screen; printed, in its true size. */
function usePaper(page: Page, scale: number): RefObject<HTMLDivElement | null> {
  const paper = useRef<HTMLDivElement>(null);
  const clip = clipOf(page);
  // a value that is written anew has all that lies on the paper looked at again, even where it is the same
  useLayoutEffect(() => {
    const { style } = paper.current!;
    style.setProperty('--width', `${page.width * scale}px`);
    style.setProperty('--height', `${page.height * scale}px`);
    style.setProperty('--clip', clip);
    style.setProperty('--printed-width', `${page.width}mm`);
    style.setProperty('--printed-height', `${page.height}mm`);
  }, [page.width, page.height, scale, clip]);
  return paper;
}

/** An empty place of a window drags along what is looked at through it. */
function usePulled(window: RefObject<HTMLElement | null>) {
  const pulled = useRef<{ readonly x: number; readonly y: number; readonly moved: boolean }>(undefined);
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>): void => {
      const { pointerType, button, target, clientX: x, clientY: y } = event;
      if (pointerType !== 'mouse' || button !== 0 || (target as Element).closest('button, .pull')) return;
      pulled.current = { x, y, moved: false };
    },
    onPointerMove: ({ buttons, clientX: x, clientY: y }: PointerEvent<HTMLElement>): void => {
      const from = pulled.current;
      if (!from || (buttons & 1) === 0) return;
      const [dx, dy] = [x - from.x, y - from.y];
      if (!from.moved && Math.hypot(dx, dy) < 4) return;
      window.current!.scrollBy(-dx, -dy);
      pulled.current = { x, y, moved: true };
    },
    onPointerUp: (): void => {
      pulled.current = undefined;
    },
  };
}

function Zoom({
  zoom,
  isLeast,
  isMost,
  sights,
  close,
  onClose,
}: {
  readonly zoom: (factor: number) => void;
  readonly isLeast: boolean;
  readonly isMost: boolean;
  /** From close by is something else than the whole sheet. */
  readonly sights: boolean;
  /** Undefined where it is looked at in neither of the two ways. */
  readonly close: boolean | undefined;
  readonly onClose: (wanted: boolean) => void;
}) {
  return (
    <fieldset className="zoom" aria-label="Size of the drawing">
      <button type="button" onClick={() => zoom(1 / STEP)} disabled={isLeast} aria-label="Smaller">
        −
      </button>
      <button type="button" onClick={() => zoom(STEP)} disabled={isMost} aria-label="Larger">
        +
      </button>
      {sights &&
        ([false, true] as const).map((wanted) => (
          <button key={String(wanted)} type="button" aria-pressed={close === wanted} onClick={() => onClose(wanted)}>
            {wanted ? 'Close up' : 'Whole sheet'}
          </button>
        ))}
    </fieldset>
  );
}

/** The border of the sheet, with air round it, px. */
const EDGE = 8;
const STEP = 1.25;

/** Cuts away what stands round the drawing, for who looks at it from close by. */
function clipOf({ view, width, height }: Page): string {
  if (!view) return 'none';
  const { x, y, ...area } = view.area;
  const shares = [y / height, 1 - (x + area.width) / width, 1 - (y + area.height) / height, x / width];
  return `inset(${shares.map((share) => `${(100 * share).toFixed(3)}%`).join(' ')})`;
}
