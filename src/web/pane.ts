import type { Page, Tone } from '../core/drawing/index.ts';
import { TONES } from '../print/palette.ts';
import type { Pane } from './hand-protocol.ts';

export type Seen = Pick<Page, 'id' | 'view' | 'width' | 'height'>;

/** Whether a worker can paint what stands on the page. */
export const canPaint = (): boolean =>
  typeof OffscreenCanvas !== 'undefined' && 'transferControlToOffscreen' in HTMLCanvasElement.prototype;

/** How the window that a sheet is looked at through lies over it: where the canvas has to be, in px of the sheet, and what is painted on it. */
export interface Framed {
  readonly pane: Omit<Pane, 'selected' | 'note'>;
  readonly place: { readonly left: string; readonly top: string; readonly width: string; readonly height: string };
}

/** Undefined when the sheet is not on the page. A pixel of the canvas is one of the display: nothing is painted twice as fine, or blurred. */
export function frameOf(canvas: HTMLCanvasElement, page: Seen): Framed | undefined {
  const paper = canvas.closest('.paper');
  const scroll = paper?.closest<HTMLElement>('.paper-scroll');
  if (!paper || !scroll) return undefined;
  const fine = devicePixelRatio;
  const [sheet, outer] = [paper.getBoundingClientRect(), scroll.getBoundingClientRect()];
  const [x, y] = [outer.left + scroll.clientLeft, outer.top + scroll.clientTop];
  // whole points, where these are whole pixels: some browsers lay what they enlarge on points
  const step = Number.isInteger(fine) ? fine : 1;
  const down = (at: number): number => Math.floor((at * fine) / step) * step;
  const [left, top] = [down(Math.max(sheet.left, x)), down(Math.max(sheet.top, y))];
  const width = -down(-Math.min(sheet.right, x + scroll.clientWidth)) - left;
  const height = -down(-Math.min(sheet.bottom, y + scroll.clientHeight)) - top;
  if (!(width > 0 && height > 0)) return undefined;
  const scale = sheet.width / page.width;
  const whole = { x: 0, y: 0, width: page.width, height: page.height };
  const style = getComputedStyle(paper);
  // the browser lays the corner of a drawing, and of what is laid over it, on a whole pixel
  const from = {
    x: (left - Math.round(sheet.left * fine)) / fine,
    y: (top - Math.round(sheet.top * fine)) / fine,
  };
  return {
    pane: {
      width,
      height,
      scale: scale * fine,
      corner: { x: from.x / scale, y: from.y / scale },
      // from close by, only the drawing itself is there
      clip: scroll.dataset.close !== undefined && page.view ? page.view.area : whole,
      inks: Object.fromEntries(
        TONES.map((tone) => [tone, style.getPropertyValue(`--sheet-${tone}`).trim()]),
      ) as Readonly<Record<Tone, string>>,
    },
    place: { left: `${from.x}px`, top: `${from.y}px`, width: `${width / fine}px`, height: `${height / fine}px` },
  };
}
