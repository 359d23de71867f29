import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { root } from './setup.mjs';

/** The programs that Node runs, each bundled from its source; packages stay outside, but for those of hundreds of files each. */
const PROGRAMS = [
  {
    name: 'cli',
    entries: { main: 'src/cli/main.ts', worker: 'src/cli/worker.ts', 'solve-worker': 'src/cli/solve-worker.ts' },
  },
];

function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) latest = Math.max(latest, newest(path));
    else if (!entry.name.includes('.test.')) latest = Math.max(latest, statSync(path).mtimeMs);
  }
  return latest;
}

const WEB = join(root, 'dist', 'web', 'index.html');

/** What else a program is made by. */
const RULES = ['vite.config.ts', 'tools/only-reading.ts', 'tools/build.mjs', 'package-lock.json'];

/** True when every program is there and younger than every source, and than what it is made by. */
export function isBuilt() {
  const made = [...PROGRAMS.map(({ name }) => join(root, 'dist', name, 'main.js')), WEB];
  const latest = Math.max(newest(join(root, 'src')), ...RULES.map((file) => statSync(join(root, file)).mtimeMs));
  return made.every((file) => existsSync(file) && statSync(file).mtimeMs > latest);
}

/** Bundles what is out of date. */
export async function build() {
  if (isBuilt()) return;
  const vite = await import('vite');
  for (const { name, entries } of PROGRAMS) {
    const input = Object.fromEntries(Object.entries(entries).map(([entry, file]) => [entry, join(root, file)]));
    await vite.build({
      root,
      configFile: false,
      logLevel: 'error',
      ssr: { noExternal: ['kysely', 'zod'] },
      build: {
        ssr: true,
        target: 'node20',
        outDir: join(root, 'dist', name),
        emptyOutDir: true,
        sourcemap: true,
        rollupOptions: {
          checks: { pluginTimings: false },
          input,
          output: { entryFileNames: '[name].js', chunkFileNames: 'parts/[name]-[hash].js' },
        },
      },
    });
  }
  // its root again, whole: vite takes a relative one from where the command was typed
  // made aside and put in place whole: a server may be reading, another build may be under way
  const aside = join(root, 'dist', `web-${process.pid}`);
  await vite.build({
    configFile: join(root, 'vite.config.ts'),
    root: join(root, 'src/web'),
    // the configuration shares the style sheet with the print: bundling it for itself would bundle the core once more
    configLoader: 'runner',
    logLevel: 'error',
    build: { outDir: aside },
  });
  compress(aside);
  const web = join(root, 'dist', 'web');
  rmSync(web, { recursive: true, force: true });
  try {
    renameSync(aside, web);
  } catch {
    // another build was quicker, with the same pages
    rmSync(aside, { recursive: true, force: true });
  }
}

/** The same in a process of its own, whose memory, more than a gigabyte, is free again afterwards. False where it failed, which it has said. */
export function buildApart() {
  if (isBuilt()) return true;
  return spawnSync(process.execPath, [join(root, 'tools', 'build.mjs')], { cwd: root, stdio: 'inherit' }).status === 0;
}

/** The server sends what was compressed beforehand; it compresses nothing itself. */
function compress(folder) {
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !/\.(js|css|html|svg)$/.test(entry.name)) continue;
    const file = join(entry.parentPath, entry.name);
    const text = readFileSync(file);
    writeFileSync(`${file}.gz`, gzipSync(text, { level: 9 }));
    writeFileSync(`${file}.br`, brotliCompressSync(text));
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await build();
