import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin, type Rolldown } from 'vite';
import { sheetCss } from './src/print/svg.ts';

/** The rules of the sheets as a style sheet of its own: the content policy allows no style inside the page. */
const sheets = (): Plugin => ({
  name: 'sheets',
  resolveId: (id) => (id === 'virtual:sheets.css' ? `\0${id}` : undefined),
  // the colours come from the page itself, which knows whether it is light or dark
  load: (id) => (id === '\0virtual:sheets.css' ? sheetCss('light').replace(/^\.sheet\{[^}]*\}/, '') : undefined),
});

/**
 * What the first drawing needs goes into one file: all that the page imports, however far, but for the findings and the topics they are
 * about, which are loaded behind it. Left to itself the bundler puts what the two share into the findings' file, and everything is
 * loaded at once.
 */
const BEHIND =
  /\/src\/core\/(?:findings\.ts|(?:fit|strength|setting-out|calendar|light|sound|camera|power|surroundings)\/)/;
const first = new Set<string>();
function inFirst(id: string, context: { getModuleInfo: (id: string) => Rolldown.ModuleInfo | null }): string | null {
  if (first.size === 0) {
    const entry = fileURLToPath(new URL('src/web/main.tsx', import.meta.url));
    const waiting = [entry];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      if (first.has(next) || BEHIND.test(next)) continue;
      first.add(next);
      waiting.push(...(context.getModuleInfo(next)?.importedIds ?? []));
    }
    first.delete(entry);
  }
  return first.has(id) ? 'first' : null;
}

/** The core is pure: a module of it that nothing is used of is left out, whatever it works out at its top. */
const shaken = {
  treeshake: { moduleSideEffects: (id: string) => !/\/src\/(core|print)\//.test(id) },
};

/** The workbench's pages. The command line and the server are bundled by tools/build.mjs. */
export default defineConfig({
  root: 'src/web',
  base: './',
  plugins: [react(), sheets()],
  worker: { format: 'es', rolldownOptions: { ...shaken, checks: { pluginTimings: false } } },
  build: {
    target: 'es2022',
    outDir: '../../dist/web',
    emptyOutDir: true,
    // no data: addresses, so that the content policy can stay strict
    assetsInlineLimit: 0,
    sourcemap: true,
    rolldownOptions: {
      ...shaken,
      checks: { pluginTimings: false },
      output: { codeSplitting: { includeDependenciesRecursively: false, groups: [{ name: inFirst }] } },
    },
  },
});
