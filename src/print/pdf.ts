import PDFDocument from 'pdfkit';
import { codeBars, emOf, hatchLines, type Mark, type Page, PENS, type Pen, type Tone } from '../core/drawing/index.ts';
import { LIGHT } from './palette.ts';

/** The two faces as TTF bytes (pdfkit cannot embed WOFF2). The shell reads them; this runs in a browser too. */
export interface Fonts {
  readonly regular: Uint8Array;
  readonly semibold: Uint8Array;
}
export interface PdfOptions {
  readonly title: string;
  readonly subject?: string;
  /** Written as the date of making, so that the same plan on the same day gives the same bytes. */
  readonly date: Date;
}

const POINTS_PER_MM = 72 / 25.4;
type Doc = InstanceType<typeof PDFDocument>;

/** The pages as one PDF: vector, both faces embedded as subsets, an outline entry a page. */
export function toPdf(pages: readonly Page[], fonts: Fonts, { title, subject, date }: PdfOptions): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    // No font yet: left out, pdfkit would open a standard one that is then never embedded; given here, every later use by its
    // registered name would read the file anew.
    font: '',
    displayTitle: true,
    info: {
      Title: title,
      Creator: 'Setwright',
      Producer: 'Setwright',
      CreationDate: date,
      ModDate: date,
      ...(subject && { Subject: subject }),
    },
  });
  doc.registerFont('regular', fonts.regular as unknown as ArrayBuffer);
  doc.registerFont('semibold', fonts.semibold as unknown as ArrayBuffer);
  const finished = collect(doc);
  for (const page of pages) {
    doc.addPage({ size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM], margin: 0 });
    doc.outline.addItem(`${page.number}  ${page.title}`);
    doc.save().scale(POINTS_PER_MM);
    drawAll(doc, page.marks);
    doc.restore();
  }
  doc.end();
  return finished;
}

function collect(doc: Doc): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      const bytes = new Uint8Array(chunks.reduce((sum, c) => sum + c.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, at);
        at += chunk.length;
      }
      resolve(bytes);
    });
  });
}

function drawAll(doc: Doc, marks: readonly Mark[]): void {
  for (const mark of marks) draw(doc, mark);
}

function setPen(doc: Doc, pen: Pen, tone: Tone = 'ink'): void {
  const { width, dash } = PENS[pen];
  doc.lineWidth(width).strokeColor(LIGHT[tone]);
  if (dash) doc.dash(dash as unknown as number, {});
  else doc.undash();
}

function draw(doc: Doc, mark: Mark): void {
  switch (mark.kind) {
    case 'line':
      setPen(doc, mark.pen, mark.tone);
      doc.moveTo(mark.from.x, mark.from.y).lineTo(mark.to.x, mark.to.y).stroke();
      return;
    case 'shape': {
      const path = (): void => {
        mark.points.forEach((p, i) => {
          if (i === 0) doc.moveTo(p.x, p.y);
          else doc.lineTo(p.x, p.y);
        });
        if (mark.closed) doc.closePath();
      };
      if (mark.points.length === 0) return;
      if (mark.fill) {
        path();
        doc.fillColor(LIGHT[mark.fill]).fill();
      }
      if (mark.hatch) {
        const lines = hatchLines(mark.points, mark.hatch, mark.hatchOver);
        for (const { from, to } of lines) doc.moveTo(from.x, from.y).lineTo(to.x, to.y);
        setPen(doc, 'thin', mark.tone);
        if (lines.length > 0) doc.stroke();
      }
      if (mark.pen) {
        setPen(doc, mark.pen, mark.tone);
        path();
        doc.stroke();
      }
      return;
    }
    case 'circle':
      if (mark.fill) doc.circle(mark.centre.x, mark.centre.y, mark.radius).fillColor(LIGHT[mark.fill]).fill();
      if (mark.pen) {
        setPen(doc, mark.pen, mark.tone);
        doc.circle(mark.centre.x, mark.centre.y, mark.radius).stroke();
      }
      return;
    case 'arc':
      setPen(doc, mark.pen, mark.tone);
      drawArc(doc, mark.centre.x, mark.centre.y, mark.radius, mark.start, mark.end);
      doc.stroke();
      return;
    case 'text':
      drawText(doc, mark);
      return;
    case 'code':
      for (const b of codeBars(mark.text, mark.at.x, mark.at.y, mark.size)) doc.rect(b.x, b.y, b.width, b.height);
      doc.fillColor('#000000').fill();
      return;
    case 'group':
      drawAll(doc, mark.marks);
  }
}

function drawText(
  doc: Doc,
  { at, text, height, align, anchor, turn = 0, bold = false, tone = 'ink' }: Extract<Mark, { kind: 'text' }>,
): void {
  if (text.trim() === '') return;
  doc
    .font(bold ? 'semibold' : 'regular')
    .fontSize(emOf(height, bold))
    .fillColor(LIGHT[tone]);
  const width = align === 'right' || align === 'centre' ? doc.widthOfString(text) : 0;
  const x = align === 'right' ? -width : -width / 2;
  const y = anchor === 'middle' ? height / 2 : 0;
  const options = { lineBreak: false, baseline: 'alphabetic' } as const;
  if (turn === 0) {
    doc.text(text, at.x + x, at.y + y, options);
    return;
  }
  doc.save().translate(at.x, at.y).rotate(turn);
  doc.text(text, x, y, options);
  doc.restore();
}

/**
 * An arc as Bézier curves of at most a quarter turn each; off the circle by less than 0.03 % of the radius.
 * κ = 4/3 tan(θ/4). Common practice.
 */
function drawArc(doc: Doc, cx: number, cy: number, radius: number, start: number, end: number): void {
  const parts = Math.max(1, Math.ceil((end - start) / 90));
  const step = (((end - start) / parts) * Math.PI) / 180;
  const reach = (4 / 3) * Math.tan(step / 4) * radius;
  let angle = (start * Math.PI) / 180;
  doc.moveTo(cx + radius * Math.cos(angle), cy + radius * Math.sin(angle));
  for (let i = 0; i < parts; i++) {
    const [c0, s0] = [Math.cos(angle), Math.sin(angle)];
    angle += step;
    const [c1, s1] = [Math.cos(angle), Math.sin(angle)];
    doc.bezierCurveTo(
      cx + radius * c0 - reach * s0,
      cy + radius * s0 + reach * c0,
      cx + radius * c1 + reach * s1,
      cy + radius * s1 - reach * c1,
      cx + radius * c1,
      cy + radius * s1,
    );
  }
}
