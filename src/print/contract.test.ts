import { describe, expect, it } from 'vitest';
import { type Mark, type Page, packetPages, textsOf } from '../core/drawing/index.ts';
import { exampleInput } from '../core/drawing/packet.testing.ts';
import { type Canvas, paint } from './canvas.ts';
import { LIGHT } from './palette.ts';
import { toPdf } from './pdf.ts';
import { has, run, runBinary, testFonts, withFile } from './print.testing.ts';
import { toSvg } from './svg.ts';

/** One suite for every way of showing a page: it says where each word and each line lies, and all must put it there. */
interface Word {
  readonly text: string;
  /** Left end of the baseline, mm. */
  readonly x: number;
  readonly y: number;
}
interface Backend {
  readonly name: string;
  readonly missing: readonly string[];
  /** Words of a page that stand upright, where they are. */
  readonly words: (page: Page) => Promise<readonly Word[]>;
  /** Length in mm of the page's only line. */
  readonly lineLength: (page: Page) => Promise<number>;
}

const fonts = testFonts();
const options = { title: 'Contract', date: new Date('2026-11-25T00:00:00Z') };
const POINT = 25.4 / 72;

const svg: Backend = {
  name: 'SVG',
  missing: [],
  words: async (page) =>
    [
      ...toSvg(page).matchAll(/<text class="[^"]*" x="([\d.-]+)" y="([\d.-]+)" font-size="[\d.]+">([^<]*)<\/text>/g),
    ].map(([, x, y, text]) => ({ text: unescapeXml(text!), x: Number(x), y: Number(y) })),
  lineLength: async (page) => {
    const path = /class="p-[^"]*" d="M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)"/.exec(toSvg(page))!;
    const [x1, y1, x2, y2] = path.slice(1).map(Number) as [number, number, number, number];
    const [, width, box] = /width="([\d.]+)mm"[^>]*viewBox="0 0 ([\d.]+)/.exec(toSvg(page))!;
    return (Math.hypot(x2 - x1, y2 - y1) * Number(width)) / Number(box);
  },
};
const pdf: Backend = {
  name: 'PDF',
  missing: ['pdftotext', 'qpdf'].filter((p) => !has(p)),
  words: async (page) => {
    const bytes = await toPdf([page], fonts, options);
    const xml = withFile('page.pdf', bytes, (path) => run('pdftotext', '-bbox', path, '-'));
    return [
      ...xml.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">([^<]*)<\/word>/g),
    ].map(([, x, top, bottom, text]) => {
      // The box spans ascent to descent of the font, 1000 and 326 thousandths of the em above and below the baseline.
      const [y0, y1] = [Number(top), Number(bottom)];
      return { text: unescapeXml(text!), x: Number(x) * POINT, y: (y0 + ((y1 - y0) * 1000) / 1326) * POINT };
    });
  },
  lineLength: async (page) => {
    const bytes = await toPdf([page], fonts, options);
    const plain = withFile('page.pdf', bytes, (path) =>
      new TextDecoder('latin1').decode(runBinary('qpdf', '--qdf', '--object-streams=disable', path, '-')),
    );
    const [, x1, y1, x2, y2] = /([\d.-]+) ([\d.-]+) m\n([\d.-]+) ([\d.-]+) l/.exec(plain)!.map(Number) as number[];
    const scales = [...plain.matchAll(/^([\d.]+) 0 0 ([\d.-]+) [\d.-]+ [\d.-]+ cm$/gm)].map((m) => Number(m[1]));
    const scale = scales.reduce((a, b) => a * b, 1);
    return Math.hypot(x2! - x1!, y2! - y1!) * scale * POINT;
  },
};

/** A canvas that notes what is put on it, in px. */
function noting() {
  const words: Word[] = [];
  const lines: (readonly [number, number, number, number])[] = [];
  let at: readonly [number, number] = [0, 0];
  let corner: readonly [number, number] = [0, 0];
  const nothing = (): void => {};
  const canvas: Canvas = {
    ...{ fillStyle: '', strokeStyle: '', font: '', lineWidth: 1, miterLimit: 10, textAlign: 'start' },
    ...{ arc: nothing, beginPath: nothing, clip: nothing, closePath: nothing, fill: nothing, fillRect: nothing },
    ...{ rect: nothing, rotate: nothing, save: nothing, setLineDash: nothing, stroke: nothing },
    restore: () => {
      corner = [0, 0];
    },
    translate: (x, y) => {
      corner = [x, y];
    },
    moveTo: (x, y) => {
      at = [x, y];
    },
    lineTo: (x, y) => {
      lines.push([...at, x, y]);
      at = [x, y];
    },
    fillText: (text, x, y) => void words.push({ text, x: corner[0] + x, y: corner[1] + y }),
  };
  return { canvas, words, lines };
}
const EASEL = { scale: 3, corner: { x: 10, y: 5 }, clip: { x: 0, y: 0, width: 210, height: 148 }, inks: LIGHT };
const painted = (page: Page) => {
  const { canvas, words, lines } = noting();
  paint(canvas, page.marks, EASEL);
  const { scale, corner } = EASEL;
  return {
    words: words.map(({ text, x, y }) => ({ text, x: x / scale + corner.x, y: y / scale + corner.y })),
    lines: lines.map(([x1, y1, x2, y2]) => Math.hypot(x2 - x1, y2 - y1) / scale),
  };
};
const canvas: Backend = {
  name: 'canvas',
  missing: [],
  words: async (page) => painted(page).words,
  lineLength: async (page) => painted(page).lines[0]!,
};

const sheet = (marks: readonly Mark[]): Page => ({ id: 'p', number: 1, title: 'Page', width: 210, height: 148, marks });

describe.each([svg, pdf, canvas])('$name', (backend) => {
  const reason = backend.missing.length > 0 ? ` (left out: no ${backend.missing.join(', ')} here)` : '';
  const test = it.skipIf(backend.missing.length > 0);

  test(`a line of 100 mm measures 100 mm${reason}`, async () => {
    const page = sheet([{ kind: 'line', from: { x: 20, y: 30 }, to: { x: 120, y: 30 }, pen: 'thin' }]);
    expect(Math.abs((await backend.lineLength(page)) - 100)).toBeLessThan(0.005);
  });

  test(`a word stands where its mark says, whatever its size and weight${reason}`, async () => {
    const marks = ([2.5, 3.5, 5, 7] as const).flatMap((height, i): Mark[] => [
      { kind: 'text', at: { x: 20, y: 20 + 15 * i }, text: `plain${i}`, height },
      { kind: 'text', at: { x: 100, y: 20 + 15 * i }, text: `heavy${i}`, height, bold: true },
      { kind: 'text', at: { x: 150, y: 20 + 15 * i }, text: `middle${i}`, height, anchor: 'middle' },
    ]);
    const words = await backend.words(sheet(marks));
    expect(words.length).toBe(marks.length);
    for (const mark of textsOf(marks)) {
      const word = words.find((w) => w.text === mark.text)!;
      expect(Math.abs(word.x - mark.at.x), mark.text).toBeLessThan(0.4); // the side bearing of the first letter
      const baseline = mark.at.y + (mark.anchor === 'middle' ? mark.height / 2 : 0);
      expect(Math.abs(word.y - baseline), mark.text).toBeLessThan(0.1);
    }
  });

  test(`gives back every letter a maker writes${reason}`, async () => {
    const said = ['15⁄16″', '½', '⅜', '×', 'Ø', '±', '°', 'µ', '≤', '→', 'Ł', 'ő', 'ß', 'é', '"', '&', '<b>', "'", '✓'];
    const marks = said.map((text, i): Mark => ({ kind: 'text', at: { x: 15, y: 10 + 6 * i }, text, height: 2.5 }));
    const words = (await backend.words(sheet(marks))).map((w) => w.text);
    expect(words.toSorted()).toEqual(said.toSorted());
  });
});

describe('both, on a whole packet', () => {
  const input = exampleInput('lesson-room');
  const pages = packetPages(input, { paper: 'Letter' });
  const missing = ['pdftotext', 'qpdf'].filter((p) => !has(p));
  const reason = missing.length > 0 ? ` (left out: no ${missing.join(', ')} here)` : '';

  it.skipIf(missing.length > 0)(`say the same words on every page${reason}`, async () => {
    const bytes = await toPdf(pages, fonts, options);
    const printed = withFile('packet.pdf', bytes, (path) => run('pdftotext', '-raw', path, '-')).split('\f');
    const letters = (text: string): string => [...text.replace(/\s/g, '')].sort().join('');
    pages.forEach((page, i) => {
      const fromSvg = [...toSvg(page).matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, t]) => unescapeXml(t!)).join('');
      expect(letters(printed[i]!), page.title).toBe(letters(fromSvg));
      expect(letters(fromSvg), page.title).toBe(
        letters(
          textsOf(page.marks)
            .map((t) => t.text)
            .join(''),
        ),
      );
    });
  });

  it.skipIf(missing.length > 0)(
    `a PDF that opens clean, with a title, an outline and each page's true size${reason}`,
    async () => {
      const bytes = await toPdf(pages, fonts, { ...options, title: 'Alder Lane' });
      withFile('packet.pdf', bytes, (path) => {
        expect(run('qpdf', '--check', path)).toContain('No syntax or stream encoding errors found');
        const info = run('pdfinfo', '-f', '1', '-l', String(pages.length), path);
        expect(info).toMatch(/Title:\s+Alder Lane/);
        expect(info).toMatch(new RegExp(`Pages:\\s+${pages.length}`));
        pages.forEach((page, i) => {
          const [, width, height] = new RegExp(`Page\\s+${i + 1} size:\\s+([\\d.]+) x ([\\d.]+)`).exec(info)!;
          expect(Number(width) * POINT).toBeCloseTo(page.width, 2);
          expect(Number(height) * POINT).toBeCloseTo(page.height, 2);
        });
        const listed = run('pdffonts', path).trim().split('\n').slice(2);
        expect(listed.length).toBe(2);
        for (const font of listed) expect(font).toMatch(/SourceSans3.*yes\s+yes\s+yes/);
      });
    },
  );

  it('the same bytes every time', async () => {
    expect(await toPdf(pages, fonts, options)).toEqual(await toPdf(pages, fonts, options));
  });
});

const unescapeXml = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replace(/&#39;|&apos;/g, "'")
    .replaceAll('&amp;', '&');
