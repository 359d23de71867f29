import PDFDocument from 'pdfkit';
import type { Page } from '../core/drawing/index.ts';
import { contentOf } from './content.ts';
import { faceOf } from './face.ts';

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
  const faces = { regular: faceOf(doc, 'regular', fonts.regular), semibold: faceOf(doc, 'semibold', fonts.semibold) };
  const finished = collect(doc);
  for (const page of pages) {
    doc.addPage({ size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM], margin: 0 });
    doc.outline.addItem(`${page.number}  ${page.title}`);
    faces.regular.onPage();
    faces.semibold.onPage();
    doc.scale(POINTS_PER_MM);
    doc.addContent(contentOf(page.marks, faces));
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
