import { describe, expect, it } from 'vitest';
import { type Mark, type Page, packetPages } from '../core/drawing/index.ts';
import { exampleInput } from '../core/drawing/packet.testing.ts';
import { toPdf } from './pdf.ts';
import { has, run, testFonts, withFile } from './print.testing.ts';

const missing = ['pdftoppm', 'zbarimg'].filter((p) => !has(p));
const reason = missing.length > 0 ? ` (left out: no ${missing.join(', ')} here)` : '';

type Code = Extract<Mark, { kind: 'code' }>;
const codesOf = (marks: readonly Mark[]): readonly Code[] =>
  marks.flatMap((m) => (m.kind === 'group' ? codesOf(m.marks) : m.kind === 'code' ? [m] : []));

describe('codes on labels', () => {
  const page = packetPages(exampleInput('radio-corner'), { paper: 'A4' }).find((p) => p.id === 'labels-1') as Page;

  it.skipIf(missing.length > 0)(`each, cropped from the printed sheet, reads back as its part${reason}`, async () => {
    const bytes = await toPdf([page], testFonts(), { title: 'Labels', date: new Date(0) });
    const dpi = 300;
    const dots = (mm: number): string => String(Math.round((mm * dpi) / 25.4));
    const codes = codesOf(page.marks);
    expect(codes.length).toBe(21);
    withFile('labels.pdf', bytes, (path, folder) => {
      for (const { at, size, text } of codes) {
        // The quiet zone of four modules comes with it.
        const area = ['-x', dots(at.x - 3), '-y', dots(at.y - 3), '-W', dots(size + 6), '-H', dots(size + 6)];
        run('pdftoppm', '-r', String(dpi), '-gray', '-singlefile', ...area, path, `${folder}/code`);
        expect(run('zbarimg', '--quiet', '--raw', `${folder}/code.pgm`).trim()).toBe(text);
      }
    });
  });
});
