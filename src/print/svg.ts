import { codeBars, emOf, hatchLines, type Mark, type Page, PENS, type Pen, type Tone } from '../core/drawing/index.ts';
import { flatArea } from '../core/geometry/index.ts';
import { remember } from '../core/remember.ts';
import { DARK, FAMILY, LIGHT, swatchOf, TONES } from './palette.ts';

export interface SvgOptions {
  /** 'auto' follows the reader's system; 'host' leaves colours and font to the page it is put in (see `sheetCss`). Left out: 'light'. */
  readonly theme?: 'light' | 'dark' | 'auto' | 'host';
  /** Decimals of a millimetre; 3 when left out. */
  readonly decimals?: number;
  /** A font face to carry along, as a data: address of a WOFF2 or TTF file. Left out: the reader's own Source Sans 3, or its nearest. */
  readonly font?: { readonly regular: string; readonly semibold: string };
  /** Lines and areas of one kind that follow one another in a group as one path: the same picture of far fewer elements, for a screen. */
  readonly joined?: boolean;
}

const colours = (inks: Readonly<Record<Tone, string>>): string => TONES.map((t) => `--sheet-${t}:${inks[t]}`).join(';');

/** The rules a host page needs when sheets are put into it with `theme: 'host'`; it may set the colours anew. */
export function sheetCss(theme: 'light' | 'dark' | 'auto' = 'auto'): string {
  const plain = theme === 'dark' ? DARK : LIGHT;
  const strokes = TONES.map(
    (t) =>
      `.sheet .s-${t}{stroke:${plain[t]};stroke:var(--sheet-${t},${plain[t]})}.sheet .f-${t}{fill:${plain[t]};fill:var(--sheet-${t},${plain[t]})}`,
  ).join('');
  const pens = (Object.keys(PENS) as Pen[])
    .map((pen) => {
      const { width, dash } = PENS[pen];
      return `.sheet .p-${pen}{fill:none;stroke-width:${width}${dash ? `;stroke-dasharray:${dash.join(' ')}` : ''}}`;
    })
    .join('');
  const auto = theme === 'auto' ? `@media (prefers-color-scheme:dark){.sheet{${colours(DARK)}}}` : '';
  return `.sheet{${colours(plain)}}${auto}.sheet text{font-family:${FAMILY};white-space:pre}.sheet .bold{font-weight:600}.sheet path,.sheet circle{stroke-linecap:butt;stroke-linejoin:miter}${pens}${strokes}`;
}

/** One page as a free-standing SVG, in millimetres. No script, nothing fetched; every text escaped. */
export function toSvg(page: Page, options: SvgOptions = {}): string {
  const { head, marks, tail } = svgParts(page, options, codeBars);
  return `${head}${marks.join('')}${tail}`;
}

/** The same in parts, one for each mark of the page: whoever shows a page that changes puts in anew only the parts that did. */
export interface SvgParts {
  readonly head: string;
  readonly marks: readonly string[];
  readonly tail: string;
}
/** Pages drawn under the hand keep the marks of what did not move. */
const written = remember<Mark, string>();

/** Who draws pages without any codes needs not carry along what makes them. @throws when there is one after all. */
export function svgParts(
  page: Page,
  { theme = 'light', decimals = 3, font, joined = false }: SvgOptions = {},
  codes?: typeof codeBars,
): SvgParts {
  const n = (value: number): string => String(Number(value.toFixed(decimals)) + 0);
  const size = `width="${n(page.width)}mm" height="${n(page.height)}mm" viewBox="0 0 ${n(page.width)} ${n(page.height)}"`;
  const faces = font
    ? `@font-face{font-family:'Source Sans 3';src:url(${font.regular})}@font-face{font-family:'Source Sans 3';font-weight:600;src:url(${font.semibold})}`
    : '';
  const style = theme === 'host' ? '' : `<style>${faces}${sheetCss(theme)}</style>`;
  const paper = `<path class="f-paper" d="M0 0H${n(page.width)}V${n(page.height)}H0Z"/>`;
  return {
    head: `<svg xmlns="http://www.w3.org/2000/svg" class="sheet" ${size} role="img"><title>${escapeXml(`${page.number} ${page.title}`)}</title>${style}${paper}\n`,
    marks: page.marks.map((mark) => written(mark, [decimals, joined], () => drawn([mark], { n, codes, joined }))),
    tail: '</svg>\n',
  };
}

interface Writing {
  readonly n: (value: number) => string;
  readonly codes: typeof codeBars | undefined;
  readonly joined: boolean;
}

function drawn(marks: readonly Mark[], writing: Writing): string {
  if (!writing.joined) return marks.map((mark) => `${drawnMark(mark, writing)}\n`).join('');
  const lines: string[] = [];
  let run: { readonly kind: string; readonly paths: string[] } | undefined;
  const end = (): void => {
    if (run) lines.push(`<path class="${run.kind}" d="${run.paths.join('')}"/>\n`);
    run = undefined;
  };
  for (const mark of marks) {
    const plain = plainPath(mark, writing.n);
    if (plain && plain.kind === run?.kind) run.paths.push(plain.path);
    else {
      end();
      if (plain) run = { kind: plain.kind, paths: [plain.path] };
      else lines.push(`${drawnMark(mark, writing)}\n`);
    }
  }
  end();
  return lines.join('');
}

/** A mark that is one path of one class, which may be joined with its like: of an area the corners go round as a rectangle's do, so that two that overlap fill each other. */
function plainPath(mark: Mark, n: Writing['n']): { readonly kind: string; readonly path: string } | undefined {
  if (mark.kind === 'line') return { kind: penClass(mark.pen, mark.tone), path: linePath(mark, n) };
  if (mark.kind !== 'shape' || mark.swatch !== undefined || mark.hatch) return undefined;
  if (mark.pen && !mark.fill) return { kind: penClass(mark.pen, mark.tone), path: shapePath(mark, n) };
  if (mark.pen || !mark.fill || !(flatArea(mark.points) > 0)) return undefined;
  return { kind: `f-${mark.fill}`, path: shapePath(mark, n) };
}
type Line = Extract<Mark, { kind: 'line' }>;
type Shape = Extract<Mark, { kind: 'shape' }>;

const linePath = ({ from, to }: Line, n: Writing['n']): string => `M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`;
const shapePath = ({ points, closed }: Shape, n: Writing['n']): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${n(p.x)} ${n(p.y)}`).join('') + (closed ? 'Z' : '');

function drawnMark(mark: Mark, writing: Writing): string {
  const { n, codes } = writing;
  switch (mark.kind) {
    case 'line':
      return `<path class="${penClass(mark.pen, mark.tone)}" d="${linePath(mark, n)}"/>`;
    case 'shape': {
      const path = shapePath(mark, n);
      const plain = mark.fill ? `<path class="f-${mark.fill}" d="${path}"/>` : '';
      const swatch = swatchOf(mark);
      const fill = swatch ? `<path fill="${swatch}" d="${path}"/>` : plain;
      const hatch = mark.hatch
        ? `<path class="${penClass('thin', mark.tone)}" d="${hatchLines(mark.points, mark.hatch, mark.hatchOver)
            .map(({ from, to }) => `M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`)
            .join('')}"/>`
        : '';
      const outline = mark.pen ? `<path class="${penClass(mark.pen, mark.tone)}" d="${path}"/>` : '';
      return fill + hatch + outline;
    }
    case 'circle': {
      const at = `cx="${n(mark.centre.x)}" cy="${n(mark.centre.y)}" r="${n(mark.radius)}"`;
      const fill = mark.fill ? `<circle class="f-${mark.fill}" ${at}/>` : '';
      return fill + (mark.pen ? `<circle class="${penClass(mark.pen, mark.tone)}" ${at}/>` : '');
    }
    case 'arc': {
      const on = (degrees: number): string => {
        const angle = (degrees * Math.PI) / 180;
        return `${n(mark.centre.x + mark.radius * Math.cos(angle))} ${n(mark.centre.y + mark.radius * Math.sin(angle))}`;
      };
      const sweep = mark.end - mark.start;
      return `<path class="${penClass(mark.pen, mark.tone)}" d="M${on(mark.start)}A${n(mark.radius)} ${n(mark.radius)} 0 ${sweep > 180 ? 1 : 0} 1 ${on(mark.end)}"/>`;
    }
    case 'text': {
      const { at, text, height, align = 'left', anchor = 'baseline', turn = 0, bold = false, tone = 'ink' } = mark;
      const y = anchor === 'middle' ? height / 2 : 0;
      const place =
        turn === 0
          ? `x="${n(at.x)}" y="${n(at.y + y)}"`
          : `transform="translate(${n(at.x)} ${n(at.y)}) rotate(${n(turn)})"${y === 0 ? '' : ` y="${n(y)}"`}`;
      const anchored = align === 'left' ? '' : ` text-anchor="${align === 'right' ? 'end' : 'middle'}"`;
      return `<text class="f-${tone}${bold ? ' bold' : ''}" ${place} font-size="${n(emOf(height, bold))}"${anchored}>${escapeXml(text)}</text>`;
    }
    case 'code': {
      if (!codes) throw new Error(`page with a code, drawn without codes: ${mark.text}`);
      const { ground, bars } = codes(mark.text, mark.at.x, mark.at.y, mark.size);
      const path = (of: ReturnType<typeof codeBars>['ground']): string =>
        `M${n(of.x)} ${n(of.y)}h${n(of.width)}v${n(of.height)}h${n(-of.width)}z`;
      // Always dark on light, whatever the theme: readers expect it.
      return `<path fill="#fff" d="${path(ground)}"/><path fill="#000" d="${bars.map(path).join('')}"/>`;
    }
    case 'group': {
      const title = mark.title === undefined ? '' : `<title>${escapeXml(mark.title)}</title>`;
      return `<g data-about="${escapeXml(mark.about)}">${title}\n${drawn(mark.marks, writing)}</g>`;
    }
  }
}

const penClass = (pen: Pen, tone: Tone = 'ink'): string => `p-${pen} s-${tone}`;

/** Text for XML: the five that mean something, and what XML 1.0 cannot hold (section 2.2) replaced. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD')
    .replace(/[&<>"']/g, (c) => ENTITIES[c]!);
}
const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
