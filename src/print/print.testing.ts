import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Fonts } from './pdf.ts';

const require = createRequire(import.meta.url);
const face = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(require.resolve(`source-sans/TTF/SourceSans3-${name}.ttf`)));
export const testFonts = (): Fonts => ({ regular: face('Regular'), semibold: face('Semibold') });

/** Is a program of the machine to be had? Tests that lean on one say plainly that they are left out when it is not. */
export function has(program: string): boolean {
  try {
    execFileSync('sh', ['-c', `command -v ${program}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Writes a file into a folder of its own, hands its path on, and clears up. */
export function withFile<T>(name: string, bytes: Uint8Array | string, use: (path: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
  try {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    return use(path, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
export const run = (program: string, ...args: readonly string[]): string =>
  execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 28 });
export const runBinary = (program: string, ...args: readonly string[]): Uint8Array =>
  execFileSync(program, args, { stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 28 });
