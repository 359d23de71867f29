import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Fonts } from '../print/index.ts';

/** The two faces of the packet, read from the installed font package. */
export function readFonts(): Fonts {
  const folder = join(dirname(createRequire(import.meta.url).resolve('source-sans/package.json')), 'TTF');
  return {
    regular: readFileSync(join(folder, 'SourceSans3-Regular.ttf')),
    semibold: readFileSync(join(folder, 'SourceSans3-Semibold.ttf')),
  };
}
