import { randomBytes } from 'node:crypto';
import { linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';

const BYTES = 32;

/** Where programs of this user keep what belongs to this machine and to no document. Source: XDG Base Directory Specification 0.8. */
export function stateFolder(
  env: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
): string {
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local'), 'setwright');
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'setwright');
  // relative paths are invalid there and to be ignored
  const named = env.XDG_STATE_HOME?.startsWith('/') ? env.XDG_STATE_HOME : join(homedir(), '.local', 'state');
  return join(named, 'setwright');
}

/**
 * A secret of this machine, made when it is first needed and kept outside of every workspace. What is stored in a workspace about
 * paired devices means something only together with it: a folder that came from elsewhere, or was copied, lets nobody in.
 * Where nothing can be kept it lasts as long as the program, and so do the sessions.
 */
export function machineSecret(folder: string): () => Buffer {
  let known: Buffer | undefined;
  return () => {
    known ??= kept(join(folder, 'machine.key')) ?? randomBytes(BYTES);
    return known;
  };
}

function kept(file: string): Buffer | undefined {
  try {
    const there = read(file);
    if (there) return there;
    mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
    // written whole before it gets its name: of two programs that begin together both take the one that came first
    const own = `${file}.${randomBytes(6).toString('hex')}`;
    try {
      writeFileSync(own, randomBytes(BYTES), { mode: 0o600, flag: 'wx' });
      linkSync(own, file);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    } finally {
      rmSync(own, { force: true });
    }
    return read(file);
  } catch {
    return undefined;
  }
}

/** Undefined when there is none. @throws when what is there is no secret: it is not replaced, somebody may want to know why. */
function read(file: string): Buffer | undefined {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  if (bytes.length !== BYTES) throw new Error(`${file} is no secret of ${BYTES} bytes`);
  return bytes;
}
