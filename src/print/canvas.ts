import { emOf, hatchLines, type Mark, PENS, type Pen, type Point, type Tone } from '../core/drawing/index.ts';
import { FAMILY, swatchOf } from './palette.ts';

/** What is asked of a canvas, on the page or in a worker. */
export type Canvas = Pick<
  CanvasRenderingContext2D,
  | 'arc'
  | 'beginPath'
  | 'clip'
  | 'closePath'
  | 'fill'
  | 'fillRect'
  | 'fillStyle'
  | 'fillText'
  | 'font'
  | 'lineTo'
  | 'lineWidth'
  | 'miterLimit'
  | 'moveTo'
  | 'rect'
  | 'restore'
  | 'rotate'
  | 'save'
  | 'setLineDash'
  | 'stroke'
  | 'strokeStyle'
  | 'textAlign'
  | 'translate'
>;

/** Which stretch of the sheet lies on the canvas, and in which colours. */
export interface Easel {
  /** Pixels of the canvas for a mm of paper. */
  readonly scale: number;
  /** The place of the sheet, in mm, that lies in the upper left corner of the canvas. */
  readonly corner: Point;
  /** Only this much of the sheet is shown, in mm. */
  readonly clip: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly inks: Readonly<Record<Tone, string>>;
}

const RIGHT = Math.PI / 180;

/**
 * The marks of a page on a canvas: the same picture as its SVG by `theme: 'host'`, for a page that changes too often to be one of elements.
 * What `isMarked` says of a group by what it is about is drawn in the accent.
 * @throws on a code: only sheets that are worked on are painted, and none of these has any.
 */
export function paint(
  canvas: Canvas,
  marks: readonly Mark[],
  { scale, corner, clip, inks }: Easel,
  isMarked: (about: string) => boolean = () => false,
): void {
  const x = (mm: number): number => (mm - corner.x) * scale;
  const y = (mm: number): number => (mm - corner.y) * scale;
  /** What is being gathered to be stroked at once, and in which pen. */
  let [pen, ink]: [Pen | undefined, string] = [undefined, ''];
  const end = (): void => {
    if (pen !== undefined) canvas.stroke();
    pen = undefined;
  };
  const setPen = (wanted: Pen, tone: string): void => {
    if (wanted === pen && tone === ink) return;
    end();
    const { width, dash = [] } = PENS[wanted];
    canvas.lineWidth = width * scale;
    canvas.setLineDash(dash.map((mm) => mm * scale));
    canvas.strokeStyle = tone;
    canvas.beginPath();
    [pen, ink] = [wanted, tone];
  };
  const trace = (points: readonly Point[], closed: boolean): void => {
    points.forEach((p, i) => {
      if (i === 0) canvas.moveTo(x(p.x), y(p.y));
      else canvas.lineTo(x(p.x), y(p.y));
    });
    if (closed) canvas.closePath();
  };
  const circle = ({ x: u, y: v }: Point, radius: number, from = 0, to = 360): void => {
    canvas.moveTo(x(u + radius * Math.cos(from * RIGHT)), y(v + radius * Math.sin(from * RIGHT)));
    canvas.arc(x(u), y(v), radius * scale, from * RIGHT, to * RIGHT);
  };
  const filled = (colour: string, outline: () => void): void => {
    end();
    canvas.fillStyle = colour;
    canvas.beginPath();
    outline();
    canvas.fill();
  };

  const draw = (mark: Mark, marked: boolean): void => {
    const lineInk = (tone: Tone = 'ink'): string => inks[marked ? 'accent' : tone];
    switch (mark.kind) {
      case 'line':
        setPen(mark.pen, lineInk(mark.tone));
        trace([mark.from, mark.to], false);
        return;
      case 'shape': {
        const fill = swatchOf(mark) ?? (mark.fill && inks[mark.fill]);
        if (fill) filled(fill, () => trace(mark.points, mark.closed));
        if (mark.hatch) {
          setPen('thin', lineInk(mark.tone));
          for (const { from, to } of hatchLines(mark.points, mark.hatch, mark.hatchOver)) trace([from, to], false);
        }
        if (!mark.pen) return;
        setPen(mark.pen, lineInk(mark.tone));
        trace(mark.points, mark.closed);
        return;
      }
      case 'circle':
        if (mark.fill) filled(inks[mark.fill], () => circle(mark.centre, mark.radius));
        if (!mark.pen) return;
        setPen(mark.pen, lineInk(mark.tone));
        circle(mark.centre, mark.radius);
        return;
      case 'arc':
        setPen(mark.pen, lineInk(mark.tone));
        circle(mark.centre, mark.radius, mark.start, mark.end);
        return;
      case 'text': {
        const { at, text, height, align = 'left', anchor = 'baseline', turn = 0, bold = false, tone } = mark;
        end();
        const down = anchor === 'middle' ? (height / 2) * scale : 0;
        canvas.fillStyle = lineInk(tone);
        canvas.font = `${bold ? 600 : 400} ${emOf(height, bold) * scale}px ${FAMILY}`;
        canvas.textAlign = align === 'centre' ? 'center' : align;
        canvas.save();
        canvas.translate(x(at.x), y(at.y));
        if (turn !== 0) canvas.rotate(turn * RIGHT);
        canvas.fillText(text, 0, down);
        canvas.restore();
        return;
      }
      case 'code':
        throw new Error(`a page with a code is not painted: ${mark.text}`);
      case 'group':
        for (const inner of mark.marks) draw(inner, marked || isMarked(mark.about));
    }
  };

  canvas.save();
  canvas.beginPath();
  canvas.rect(x(clip.x), y(clip.y), clip.width * scale, clip.height * scale);
  canvas.clip();
  canvas.fillStyle = inks.paper;
  canvas.fillRect(x(clip.x), y(clip.y), clip.width * scale, clip.height * scale);
  // as SVG has it when nothing is said (SVG 2, 13.5.4)
  canvas.miterLimit = 4;
  for (const mark of marks) draw(mark, false);
  end();
  canvas.restore();
}
