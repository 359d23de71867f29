import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { packetPages } from '../src/core/drawing/index.ts';
import { EXAMPLES, exampleInput } from '../src/core/drawing/packet.testing.ts';
import { toPdf, toSvg } from '../src/print/index.ts';

/** Pages, PDF and SVG of both examples: median processor time of warm runs (the machine may be busy with other things). */
const require = createRequire(import.meta.url);
const face = (name: string): Uint8Array => readFileSync(require.resolve(`source-sans/TTF/SourceSans3-${name}.ttf`));
const fonts = { regular: face('Regular'), semibold: face('Semibold') };
const RUNS = 9;

const median = (times: readonly number[]): string => times.toSorted((a, b) => a - b)[times.length >> 1]!.toFixed(0);
async function timed(work: () => unknown): Promise<string> {
  const times: number[] = [];
  for (let i = 0; i < RUNS; i++) {
    const start = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(start);
    times.push((user + system) / 1000);
  }
  return median(times.slice(2));
}

for (const name of EXAMPLES) {
  const input = exampleInput(name);
  const parts = input.pieces.reduce((sum, p) => sum + p.parts.length, 0);
  const paper = input.plan.paper ?? 'A4';
  const pages = packetPages(input, { paper });
  const bytes = (await toPdf(pages, fonts, { title: name, date: new Date(0) })).length;
  console.log(
    `${name}: ${parts} parts, ${pages.length} pages; pages ${await timed(() => packetPages(input, { paper }))} ms, ` +
      `PDF ${await timed(() => toPdf(pages, fonts, { title: name, date: new Date(0) }))} ms (${(bytes / 1000).toFixed(0)} kB), ` +
      `SVG ${await timed(() => pages.map((p) => toSvg(p)))} ms`,
  );
}
