import type { PaperName } from '../plan/index.ts';

export type { PaperName } from '../plan/index.ts';

/**
 * The display list: what every drawing of the set is made of, for screen, SVG and PDF alike. Coordinates are millimetres on
 * the paper, x to the right, y down, from the sheet's upper left corner. A view is already scaled when it gets here.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * Lines by what they mean. Widths follow ISO 128-2:2020 (thick to thin 2 : 1 in the 0.5 group); see `PENS`.
 * outline: what is cut by the view's plane or stands foremost; visible: edges seen; thin: dimensions, leaders, hatching;
 * hidden: edges behind; centre: axes and symmetry; cut: saw cuts; ghost: what moves or stands elsewhere; wall: the room.
 */
export type Pen = 'wall' | 'outline' | 'visible' | 'thin' | 'hidden' | 'centre' | 'cut' | 'ghost';

/** Tones carry meaning and never alone: ink for the drawing, faint for what is beside the point, alert for stop notes. */
export type Tone = 'ink' | 'faint' | 'alert' | 'caution' | 'accent' | 'paper';

/** Hatches by material; drawn as lines, so that they print on any machine. */
export type Hatch = 'panel' | 'solid wood' | 'end grain' | 'masonry' | 'board' | 'waste' | 'offcut' | 'selected';

export type Mark =
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point; readonly pen: Pen; readonly tone?: Tone }
  | {
      readonly kind: 'shape';
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly pen?: Pen;
      readonly fill?: Tone;
      /** A colour as it is seen (a paint, a cast), six hexadecimal digits: the same in light and dark, and never alone. */
      readonly swatch?: string;
      readonly hatch?: Hatch;
      /** The hatch mirrored, so that two parts that touch can be told apart (ISO 128-3:2022, hatching of adjacent parts). */
      readonly hatchOver?: boolean;
      readonly tone?: Tone;
    }
  | {
      readonly kind: 'circle';
      readonly centre: Point;
      readonly radius: number;
      readonly pen?: Pen;
      readonly fill?: Tone;
      readonly tone?: Tone;
    }
  | {
      readonly kind: 'arc';
      readonly centre: Point;
      readonly radius: number;
      /** Degrees clockwise on the paper from the x axis; the arc runs clockwise from start to end. */
      readonly start: number;
      readonly end: number;
      readonly pen: Pen;
      readonly tone?: Tone;
    }
  | {
      readonly kind: 'text';
      readonly at: Point;
      readonly text: string;
      /** Height of the capitals, in mm. ISO 3098: 2.5, 3.5, 5, 7. */
      readonly height: number;
      readonly align?: 'left' | 'centre' | 'right';
      /** Where `at` lies in the line of text: on the baseline, or at the middle of the capitals. */
      readonly anchor?: 'baseline' | 'middle';
      /** Degrees clockwise on the paper. */
      readonly turn?: number;
      readonly bold?: boolean;
      readonly tone?: Tone;
    }
  /** A QR code (ISO/IEC 18004), `size` wide without its quiet zone. */
  | { readonly kind: 'code'; readonly at: Point; readonly size: number; readonly text: string }
  /** What belongs to one piece, part or note: the screen picks by it, print ignores it. */
  | { readonly kind: 'group'; readonly about: string; readonly title?: string; readonly marks: readonly Mark[] };

/** Upright width and height in mm. Sources: ISO 216:2007 (A4, A3); ANSI/ASME Y14.1 (A: Letter, B: Tabloid). */
export const PAPERS: Readonly<Record<PaperName, { readonly width: number; readonly height: number }>> = {
  A4: { width: 210, height: 297 },
  A3: { width: 297, height: 420 },
  Letter: { width: 215.9, height: 279.4 },
  Tabloid: { width: 279.4, height: 431.8 },
};

/**
 * A scaled view of the room on a page, so that a screen can turn places on the paper into places in the room: real u = (x − origin.x)·ratio,
 * v = (y − origin.y)·ratio. In an elevation u runs along its wall and −v up; in a plan u is the room's x, v its z. All of it in mm.
 */
export interface PageView {
  readonly kind: 'elevation' | 'plan';
  readonly wall?: string;
  readonly origin: Point;
  readonly ratio: number;
  /** Where on the sheet it lies with its dimensions and names, clear of the notes beside it. */
  readonly area: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** One sheet of the set. */
export interface Page {
  /** Stable: 'cover', 'plan', 'elevation-north', 'layout-3' … */
  readonly id: string;
  readonly number: number;
  readonly title: string;
  /** What its state in the register says: how many notes stand on it, or nothing. */
  readonly state?: string;
  /** '1:20', or nothing when it holds no scaled view. */
  readonly scale?: string;
  /** Of the room, where it holds one. */
  readonly view?: PageView;
  /** In mm, as it lies (landscape has width > height). */
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** Line widths in mm and dashes. Source: ISO 128-2:2020, line groups and types 01, 02, 04, 05; widths 0.18, 0.25, 0.35, 0.5, 0.7. */
export const PENS: Readonly<Record<Pen, { readonly width: number; readonly dash?: readonly number[] }>> = {
  wall: { width: 0.7 },
  outline: { width: 0.5 },
  visible: { width: 0.25 },
  thin: { width: 0.18 },
  hidden: { width: 0.18, dash: [2, 1] },
  centre: { width: 0.18, dash: [6, 1, 0.5, 1] },
  cut: { width: 0.35, dash: [4, 1.5] },
  ghost: { width: 0.18, dash: [6, 1, 0.5, 1, 0.5, 1] },
};
