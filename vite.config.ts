import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The workbench's pages. The command line and the server are bundled by tools/build.mjs. */
export default defineConfig({
  root: 'src/web',
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    outDir: '../../dist/web',
    emptyOutDir: true,
    // no data: addresses, so that the content policy can stay strict
    assetsInlineLimit: 0,
    sourcemap: true,
  },
});
