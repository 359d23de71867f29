import { createHash } from 'node:crypto';
import { cpSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { accessOf } from './access.ts';
import { type Opened, openDatabase } from './database.ts';
import { machineSecret, stateFolder } from './machine.ts';
import { newFolder } from './server.testing.ts';

const folders: string[] = [];
const databases: Opened[] = [];
const folder = (): string => {
  const made = newFolder();
  folders.push(made);
  return made;
};
const open = (workspace: string): Opened => {
  const opened = openDatabase(workspace);
  databases.push(opened);
  return opened;
};
afterEach(() => {
  for (const one of databases.splice(0)) one.close();
  for (const one of folders.splice(0)) rmSync(one, { recursive: true, force: true });
});

/** Pairs a device with a workspace on the machine of this state folder, and closes the workspace again. */
async function paired(workspace: string, state: string): Promise<string> {
  const opened = openDatabase(workspace);
  const access = accessOf(opened.db, machineSecret(state));
  const { token } = await access.pair(access.newCode(80).code, 'phone', '10.0.0.2');
  opened.close();
  return token;
}

describe('a workspace folder', () => {
  it('knows its devices again on the machine they were paired with', async () => {
    const [workspace, state] = [folder(), folder()];
    const token = await paired(workspace, state);
    const again = accessOf(open(workspace).db, machineSecret(state));
    expect((await again.deviceOf(token))?.name).toBe('phone');
  });

  it('that was copied to another machine lets none of them in', async () => {
    const [workspace, copy] = [folder(), folder()];
    const token = await paired(workspace, folder());
    cpSync(workspace, copy, { recursive: true });
    const there = accessOf(open(copy).db, machineSecret(folder()));
    expect(await there.deviceOf(token)).toBeUndefined();
  });

  it('into which a stranger wrote a device of theirs does not let it in', async () => {
    const workspace = folder();
    const { db } = open(workspace);
    const token = 'a'.repeat(43);
    const access = accessOf(db, machineSecret(folder()));
    const [at, expires] = ['2026-01-01T00:00:00.000Z', '2999-01-01T00:00:00.000Z'];
    // all a stranger can make without the secret: what the program itself once stored, and the bare token
    for (const stored of [createHash('sha256').update(token).digest('hex'), token])
      await db.insertInto('devices').values({ name: 'theirs', token: stored, paired: at, seen: at, expires }).execute();
    expect(await access.deviceOf(token)).toBeUndefined();
  });
});

describe('the secret of a machine', () => {
  it('is made once, for the user alone, and is the same for every program', () => {
    const state = join(folder(), 'new', 'setwright');
    const one = machineSecret(state)();
    expect(machineSecret(state)()).toEqual(one);
    const file = join(state, 'machine.key');
    expect(readFileSync(file)).toEqual(one);
    if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600);
  });
  it('is not written before it is needed', () => {
    const state = join(folder(), 'unused');
    machineSecret(state);
    expect(statSync(state, { throwIfNoEntry: false })).toBeUndefined();
  });
  it('lasts as long as the program where it cannot be kept, or where something else stands in its place', () => {
    const state = folder();
    writeFileSync(join(state, 'machine.key'), 'short');
    const [one, two] = [machineSecret(state), machineSecret(state)];
    expect(one()).toHaveLength(32);
    expect(one()).toEqual(one());
    expect(one()).not.toEqual(two());
    expect(readFileSync(join(state, 'machine.key'), 'utf8')).toBe('short');
    const file = join(folder(), 'file');
    writeFileSync(file, '');
    expect(machineSecret(join(file, 'below'))()).toHaveLength(32);
  });
  it('lies where the system keeps what belongs to a machine', () => {
    const at = (env: Readonly<Record<string, string>>): string => stateFolder(env, 'linux');
    expect(at({ XDG_STATE_HOME: '/state' })).toBe('/state/setwright');
    expect(at({ XDG_STATE_HOME: 'relative' })).toBe(at({}));
    expect(stateFolder({ LOCALAPPDATA: '/data' }, 'win32')).toContain('data');
  });
});
