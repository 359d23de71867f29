import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { install, root } from './setup.mjs';

/** `npm run bench -- NAME …`: bundles bench/NAME.ts and runs it; what follows the name is passed on. */
const [name, ...rest] = process.argv.slice(2);
const entry = join(root, 'bench', `${name}.ts`);
if (!name || !existsSync(entry)) {
  const known = readdirSync(join(root, 'bench')).flatMap((file) => (file.endsWith('.ts') ? [file.slice(0, -3)] : []));
  console.error(`Usage: npm run bench -- NAME [options]; there is: ${known.join(', ')}`);
  process.exit(2);
}
install();
const { build } = await import('vite');
const outDir = join(root, 'node_modules', '.cache', 'bench', name);
await build({
  root,
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: entry,
    outDir,
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    rollupOptions: { output: { entryFileNames: '[name].mjs' } },
  },
});
const { status } = spawnSync(process.execPath, ['--expose-gc', join(outDir, `${name}.mjs`), ...rest], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, SETWRIGHT_ROOT: pathToFileURL(root).href },
});
process.exit(status ?? 1);
