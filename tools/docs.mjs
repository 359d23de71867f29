import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { install, root } from './setup.mjs';

/** Writes the pages and the schema that are generated from the source. */
install();
const vite = await import('vite');
const cache = join(root, 'node_modules', '.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'docs-'));
try {
  await vite.build({
    root,
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: true,
      target: 'node20',
      outDir: folder,
      emptyOutDir: true,
      rollupOptions: { input: join(root, 'src/cli/docs.ts'), output: { entryFileNames: 'docs.js' } },
    },
  });
  const { generatedFiles } = await import(pathToFileURL(join(folder, 'docs.js')).href);
  for (const { path, text } of generatedFiles()) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
    console.log(path);
  }
} finally {
  rmSync(folder, { recursive: true });
}
