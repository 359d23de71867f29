import { fileURLToPath } from 'node:url';
import { build, defineConfig, type Plugin, type Rolldown } from 'vite';
import { sheetCss } from './src/print/svg.ts';
import { onlyReading, onlyWorkings } from './tools/only-reading.ts';

/** The rules of the sheets as a style sheet of its own: the content policy allows no style inside the page. */
const sheets = (): Plugin => ({
  name: 'sheets',
  resolveId: (id) => (id === 'virtual:sheets.css' ? `\0${id}` : undefined),
  // the colours come from the page itself, which knows whether it is light or dark
  load: (id) => (id === '\0virtual:sheets.css' ? sheetCss('light').replace(/^\.sheet\{[^}]*\}/, '') : undefined),
});

/** The core is pure: a module of it that nothing is used of is left out, whatever it works out at its top. */
const TARGET = 'es2022';
const shaken = {
  treeshake: {
    manualPureFunctions: ['formula', 'remember', 'unit', 'shifted', 'byWord'],
    propertyReadSideEffects: false as const,
    moduleSideEffects: (id: string) => !/\/src\/(core|print)\//.test(id),
  },
};

/**
 * What the first drawing needs goes into one file, and nothing else does. Left to itself the bundler goes by who imports what, however
 * little of it: what the page and the findings share would be loaded with both. So the page is bundled once by itself, without what it
 * loads later; the modules of which something is left then are the first ones.
 */
const first = new Set<string>();
/** What the page itself names stays a file of its own. */
const ENTRY = /\/src\/web\/(?:main\.tsx|index\.html)/;
const firstFile = (): Plugin => ({
  name: 'first-file',
  apply: 'build',
  async buildStart() {
    if (first.size > 0) return;
    const alone: Plugin = {
      name: 'alone',
      resolveDynamicImport: (id) => ({ id: String(id), external: true }),
      // workers are files of their own
      transform: (code, id) => (/\/src\/web\//.test(id) ? code.replaceAll('import.meta.url', '""') : undefined),
    };
    const made = await build({
      configFile: false,
      root: fileURLToPath(new URL('src/web', import.meta.url)),
      logLevel: 'error',
      plugins: [alone, sheets(), onlyReading(), onlyWorkings()],
      build: { target: TARGET, write: false, minify: false, rolldownOptions: shaken },
    });
    for (const { output } of [made].flat() as Rolldown.RolldownOutput[])
      for (const part of output)
        if (part.type === 'chunk')
          for (const [id, { code }] of Object.entries(part.modules)) if (code && !ENTRY.test(id)) first.add(id);
  },
});

/** The workbench's pages. The command line and the server are bundled by tools/build.mjs. */
export default defineConfig({
  root: 'src/web',
  base: './',
  plugins: [sheets(), onlyReading(), onlyWorkings(), firstFile()],
  worker: {
    format: 'es',
    plugins: () => [onlyReading(), onlyWorkings()],
    rolldownOptions: { ...shaken, checks: { pluginTimings: false } },
  },
  build: {
    target: TARGET,
    outDir: '../../dist/web',
    emptyOutDir: true,
    // the first file is asked for by the page itself; what a part asks for, when it is read, for to list it beforehand takes a kilobyte
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, files, { hostType }) => (hostType === 'html' ? files : []),
    },
    // no data: addresses, so that the content policy can stay strict
    assetsInlineLimit: 0,
    sourcemap: true,
    rolldownOptions: {
      ...shaken,
      checks: { pluginTimings: false },
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [{ name: (id: string) => (first.has(id) ? 'first' : null) }],
        },
      },
    },
  },
});
