import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { sheetCss } from './src/print/svg.ts';

/** The rules of the sheets as a style sheet of its own: the content policy allows no style inside the page. */
const sheets = (): Plugin => ({
  name: 'sheets',
  resolveId: (id) => (id === 'virtual:sheets.css' ? `\0${id}` : undefined),
  // the colours come from the page itself, which knows whether it is light or dark
  load: (id) => (id === '\0virtual:sheets.css' ? sheetCss('light').replace(/^\.sheet\{[^}]*\}/, '') : undefined),
});

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
    rolldownOptions: { ...shaken, checks: { pluginTimings: false } },
  },
});
