import { createHash, randomBytes } from 'node:crypto';
import {
  closeSync,
  constants,
  fchmodSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Larger than any plan, in bytes: a million characters of up to four. */
export const MOST_BYTES = 4_000_000;
const ENDING = /\.ya?ml$/i;

/** The name of a plan without its ending: what its papers are called by. */
export const stemOf = (name: string): string => name.replace(ENDING, '').replace(/\.plan$/i, '');

/**
 * The name of a plan in the workspace: one file name, no path, nothing hidden, nothing that some system treats in its own way.
 * Undefined when it is none.
 */
export function planName(name: string): string | undefined {
  const stem = stemOf(name);
  const sound =
    ENDING.test(name) &&
    stem.trim() !== '' &&
    Buffer.byteLength(name) <= 200 &&
    !/^[.\s]|[\s]$/.test(name) &&
    !/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}/\\<>:"|?*]/u.test(name) &&
    // names of devices on some systems, whatever follows their point
    !/^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i.test(name);
  return sound ? name : undefined;
}

/** A plan's name from what a person typed, which may leave out `.plan.yaml`. */
export const withEnding = (written: string): string =>
  (ENDING.test(written) ? written : `${written.trim()}.plan.yaml`).normalize('NFC');

export const sha256 = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');

export class NotText extends Error {}
export class Outside extends Error {}
export class FolderGone extends Error {}

/** @throws FolderGone where what is not there is more than a file. */
export function folderIsThere(folder: string): void {
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) throw new FolderGone(folder);
}

/** Where a plan of this name is or would be; a link that leads out of the folder is refused. */
export function pathOf(folder: string, name: string): string {
  const path = join(folder, name);
  let real: string;
  try {
    real = realpathSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return path;
    throw error;
  }
  if (dirname(real) !== folder) throw new Outside(`${name} leads out of the workspace folder`);
  return real;
}

export interface FileText {
  readonly text: string;
  readonly hash: string;
  readonly changed: Date;
}

/** Opens without waiting: a pipe put in a plan's place would hold the whole server until somebody writes into it. */
const openAtOnce = (path: string): number => openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));

/** The text of a file; undefined when there is none. */
export function readTextFile(path: string): FileText | undefined {
  let fd: number;
  try {
    fd = openAtOnce(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  try {
    const stat = fstatSync(fd);
    if (!stat.isFile()) throw new NotText(`${basename(path)} is no file`);
    if (stat.size > MOST_BYTES) throw new NotText(`${basename(path)} is too large for a plan`);
    return { ...textOf(readFileSync(fd), path), changed: stat.mtime };
  } finally {
    closeSync(fd);
  }
}

function textOf(bytes: Uint8Array, path: string): { readonly text: string; readonly hash: string } {
  try {
    // a byte order mark is a part of the text: it is written back as it was
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return { text, hash: sha256(bytes) };
  } catch {
    throw new NotText(`${basename(path)} is not text in UTF-8`);
  }
}

/** The file was changed by somebody else in the moment before it was to be replaced. */
export class Overtaken extends Error {}

export interface Replaced {
  /** What another program had written into the old file in the last moment, if so: it is no longer in the folder. */
  readonly overtaken?: FileText;
  /** Puts the old file back, unless something else stands there already. Needs no room on the disk. */
  readonly undo: () => void;
  /** Lets the old file go. */
  readonly keep: () => void;
}

/**
 * Puts a text in a file's place in one step: written beside it, brought to the disk, renamed, the folder brought to the disk. Nobody
 * ever sees half of it. `expected` is the hash of what is being replaced, or undefined for a new file.
 *
 * The old file is held under a hidden name until `keep` or `undo`.
 *
 * @throws Overtaken when something else stands there, and the system's error when it cannot be written; nothing is changed then.
 */
export function replaceFile(path: string, text: string, expected: string | undefined): Replaced {
  const folder = dirname(path);
  const hidden = (): string =>
    join(folder, `.${basename(path).slice(0, 100)}.${randomBytes(6).toString('hex')}.setwright-tmp`);
  const temporary = hidden();
  const old = expected === undefined ? undefined : openAtOnce(path);
  try {
    const before = old === undefined ? undefined : fstatSync(old);
    const fd = openSync(temporary, 'wx', 0o666);
    try {
      if (before) fchmodSync(fd, before.mode & 0o7777);
      const bytes = Buffer.from(text, 'utf8');
      for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at);
      fsyncSync(fd);
    } finally {
      closeSync(fd);
    }
    if (old !== undefined) {
      if (sha256(readWhole(old)) !== expected || statSync(path).ino !== before!.ino) throw new Overtaken(path);
    } else if (statSync(path, { throwIfNoEntry: false })) throw new Overtaken(path);
    const held = old === undefined ? undefined : hold(path, hidden());
    renameSync(temporary, path);
    syncFolder(folder);
    const keep = (): void => {
      if (held !== undefined) rmSync(held, { force: true });
    };
    const undo = (): void => {
      const isOurs = readTextFile(path)?.hash === sha256(text);
      if (isOurs && held !== undefined) renameSync(held, path);
      else if (isOurs && old === undefined) rmSync(path);
      else keep();
      syncFolder(folder);
    };
    if (old === undefined) return { undo, keep };
    const left = readWhole(old);
    return sha256(left) === expected
      ? { undo, keep }
      : { undo, keep, overtaken: { ...textOf(left, path), changed: new Date() } };
  } finally {
    if (old !== undefined) closeSync(old);
    rmSync(temporary, { force: true });
  }
}

/** A second name for a file; undefined on a disk that has no such thing. A name needs room too: without it nothing may be replaced. */
function hold(path: string, name: string): string | undefined {
  try {
    linkSync(path, name);
    return name;
  } catch (error) {
    if (['ENOSPC', 'EDQUOT', 'EIO', 'EROFS'].includes((error as NodeJS.ErrnoException).code ?? '')) throw error;
    return undefined;
  }
}

function readWhole(fd: number): Uint8Array {
  const { size } = fstatSync(fd);
  const bytes = Buffer.alloc(Math.min(size, MOST_BYTES + 1));
  let at = 0;
  for (let got = -1; got !== 0 && at < bytes.length; at += got) got = readSync(fd, bytes, at, bytes.length - at, at);
  return bytes.subarray(0, at);
}

function syncFolder(folder: string): void {
  let fd: number;
  try {
    fd = openSync(folder, 'r');
  } catch {
    return; // a system that opens no folders writes its names through
  }
  try {
    fsyncSync(fd);
  } catch {
    // as above
  } finally {
    closeSync(fd);
  }
}

/** What a kill in the middle of a save left behind. A younger one may be another server's. */
export function sweep(folder: string, now: number): void {
  for (const name of readdirSync(folder)) {
    if (!/^\..*\.[0-9a-f]{12}\.setwright-tmp$/.test(name)) continue;
    const path = join(folder, name);
    try {
      if (now - statSync(path).mtimeMs > 60_000) rmSync(path, { force: true });
    } catch {
      // somebody else's, or gone
    }
  }
}

/** The names of the plans in the folder, in order. */
export function planNames(folder: string): readonly string[] {
  folderIsThere(folder);
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => (entry.isFile() || entry.isSymbolicLink()) && planName(entry.name) === entry.name)
    .map((entry) => entry.name)
    .sort();
}
