import { codeModules, emOf, hatchLines, type Mark, PENS, type Pen, type Tone } from '../core/drawing/index.ts';
import { LIGHT, swatchOf } from './palette.ts';

/** A line of text as glyphs: what stands between the brackets of `TJ`, and how wide it runs, in thousandths of the em. */
export interface Run {
  readonly glyphs: string;
  readonly width: number;
}
/** One face of the document: its name among the page's resources, and text as its glyphs. */
export interface Face {
  readonly id: string;
  readonly run: (text: string) => Run;
}
export interface Faces {
  readonly regular: Face;
  readonly semibold: Face;
}

/** To the micrometre: finer than any printer, and the same on every machine. */
const n = (value: number): string => String(Math.round(value * 1000) / 1000 + 0);
/** To a millionth, for sines and cosines. */
const fine = (value: number): string => String(Math.round(value * 1e6) / 1e6 + 0);

const rgb = (hex: string): string =>
  [1, 3, 5].map((at) => fine(Number.parseInt(hex.slice(at, at + 2), 16) / 255)).join(' ');
const inks = Object.fromEntries(Object.entries(LIGHT).map(([tone, hex]) => [tone, rgb(hex)])) as Record<Tone, string>;
const strokes = Object.fromEntries(
  Object.entries(PENS).map(([pen, { width, dash = [] }]) => [pen, `${n(width)} w [${dash.map(n).join(' ')}] 0 d`]),
) as Record<Pen, string>;
const BLACK = '0 0 0';

/** What a shape is filled with: a colour as it is seen, or an ink. */
function fillOf(shape: { readonly fill?: Tone; readonly swatch?: string }): string | undefined {
  const swatch = swatchOf(shape);
  return swatch ? rgb(swatch) : shape.fill && inks[shape.fill];
}

/**
 * The marks as operators of a page whose unit is the millimetre, y down. Lines that follow one another in the same pen make one
 * path, and nothing is set that is set already: most of a packet is short lines.
 * Source: ISO 32000-1:2008, 8.4.4 (graphics state), 8.5.2 and 8.5.3 (paths), 9.4 (text).
 */
export function contentOf(marks: readonly Mark[], faces: Faces): string {
  const out: string[] = [];
  let [pen, stroke, fill] = ['', '', ''];
  let open = false;
  /** Strokes the path that is being gathered. */
  const close = (): void => {
    if (open) out.push('S');
    open = false;
  };
  const setPen = (wanted: Pen, tone: Tone = 'ink'): void => {
    const ink = inks[tone];
    if (strokes[wanted] === pen && ink === stroke) return;
    close();
    if (strokes[wanted] !== pen) out.push(strokes[wanted]);
    if (ink !== stroke) out.push(`${ink} RG`);
    [pen, stroke] = [strokes[wanted], ink];
  };
  const setFill = (ink: string): void => {
    close();
    if (ink !== fill) out.push(`${ink} rg`);
    fill = ink;
  };
  const path = (points: readonly { readonly x: number; readonly y: number }[], closed: boolean): void => {
    points.forEach(({ x, y }, i) => {
      out.push(`${n(x)} ${n(y)} ${i === 0 ? 'm' : 'l'}`);
    });
    if (closed) out.push('h');
  };

  const write = (mark: Mark): void => {
    switch (mark.kind) {
      case 'line':
        setPen(mark.pen, mark.tone);
        path([mark.from, mark.to], false);
        open = true;
        return;
      case 'shape':
        if (mark.points.length === 0) return;
        if (fillOf(mark) !== undefined) {
          setFill(fillOf(mark)!);
          path(mark.points, mark.closed);
          out.push('f');
        }
        if (mark.hatch) {
          const lines = hatchLines(mark.points, mark.hatch, mark.hatchOver);
          if (lines.length > 0) {
            setPen('thin', mark.tone);
            for (const { from, to } of lines) path([from, to], false);
            open = true;
          }
        }
        if (mark.pen) {
          setPen(mark.pen, mark.tone);
          path(mark.points, mark.closed);
          open = true;
        }
        return;
      case 'circle': {
        const whole = (): void => {
          out.push(...arc(mark.centre.x, mark.centre.y, mark.radius, 0, 360), 'h');
        };
        if (mark.fill) {
          setFill(inks[mark.fill]);
          whole();
          out.push('f');
        }
        if (mark.pen) {
          setPen(mark.pen, mark.tone);
          whole();
          open = true;
        }
        return;
      }
      case 'arc':
        setPen(mark.pen, mark.tone);
        out.push(...arc(mark.centre.x, mark.centre.y, mark.radius, mark.start, mark.end));
        open = true;
        return;
      case 'text': {
        const { at, text, height, align, anchor, turn = 0, bold = false, tone = 'ink' } = mark;
        if (text.trim() === '') return;
        setFill(inks[tone]);
        const face = bold ? faces.semibold : faces.regular;
        const em = emOf(height, bold);
        const run = face.run(text);
        const left = align === 'right' ? -run.width : align === 'centre' ? -run.width / 2 : 0;
        const [dx, dy] = [(left * em) / 1000, anchor === 'middle' ? height / 2 : 0];
        const angle = (turn * Math.PI) / 180;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const [x, y] = [at.x + c * dx - s * dy, at.y + s * dx + c * dy];
        // letters stand up on a page whose y runs down
        const upright = `${fine(c)} ${fine(s)} ${fine(s)} ${fine(-c)} ${n(x)} ${n(y)} Tm`;
        out.push(`BT /${face.id} ${n(em)} Tf ${upright} [${run.glyphs}] TJ ET`);
        return;
      }
      case 'code': {
        setFill(BLACK);
        const { count, bars } = codeModules(mark.text);
        const module = fine(mark.size / count);
        out.push(`q ${module} 0 0 ${module} ${n(mark.at.x)} ${n(mark.at.y)} cm`);
        for (const b of bars) out.push(`${b.x} ${b.y} ${b.width} ${b.height} re`);
        out.push('f Q');
        return;
      }
      case 'group':
        for (const inner of mark.marks) write(inner);
    }
  };
  for (const mark of marks) write(mark);
  close();
  return out.join('\n');
}

/**
 * An arc as Bézier curves of at most a quarter turn each; off the circle by less than 0.03 % of the radius.
 * κ = 4/3 tan(θ/4). Common practice.
 */
function arc(cx: number, cy: number, radius: number, start: number, end: number): readonly string[] {
  const parts = Math.max(1, Math.ceil((end - start) / 90));
  const step = (((end - start) / parts) * Math.PI) / 180;
  const reach = (4 / 3) * Math.tan(step / 4) * radius;
  let angle = (start * Math.PI) / 180;
  const out = [`${n(cx + radius * Math.cos(angle))} ${n(cy + radius * Math.sin(angle))} m`];
  for (let i = 0; i < parts; i++) {
    const [c0, s0] = [Math.cos(angle), Math.sin(angle)];
    angle += step;
    const [c1, s1] = [Math.cos(angle), Math.sin(angle)];
    const [x1, y1] = [cx + radius * c0 - reach * s0, cy + radius * s0 + reach * c0];
    const [x2, y2] = [cx + radius * c1 + reach * s1, cy + radius * s1 - reach * c1];
    out.push(`${n(x1)} ${n(y1)} ${n(x2)} ${n(y2)} ${n(cx + radius * c1)} ${n(cy + radius * s1)} c`);
  }
  return out;
}
