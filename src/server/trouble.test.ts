import { cpSync, readdirSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { describe, expect, it, vi } from 'vitest';
import { openDatabase } from './database.ts';
import { NAME, newFolder, PLAN } from './server.testing.ts';
import { trials } from './trials.testing.ts';

// what happens to a folder, a clock or a disk while the workbench has it open
const start = trials();
const wide = (width: number): string => PLAN.replace('54', `${width}`);
/** Longer than the database waits for who holds it, and than it takes to look again; ms. */
const WAIT = { timeout: 60_000, interval: 200 };
const tick = { id: 'a', about: 'x', done: true, at: '2026-05-04T10:00:00.000Z' };

describe('a file', () => {
  it('whose time is still to come is not taken for one that is being written', async () => {
    const { ask, file } = await start();
    let waits = 0;
    const { setTimeout: real } = globalThis;
    utimesSync(file, new Date(Date.now() + 86_400_000), new Date(Date.now() + 86_400_000));
    globalThis.setTimeout = ((work: () => void, ms?: number) => {
      if (ms === 60) waits++;
      return real(work, ms);
    }) as typeof setTimeout;
    try {
      expect((await ask('GET', `plans/${NAME}`)).status).toBe(200);
    } finally {
      globalThis.setTimeout = real;
    }
    expect(waits).toBe(1);
  });

  it('that changes while another program holds the history is taken in once that lets go', async () => {
    const { ask, folder, file, log } = await start();
    await ask('GET', `plans/${NAME}`);
    const other = new DatabaseSync(join(folder, '.setwright', 'workbench.db'));
    other.exec('begin immediate');
    writeFileSync(file, wide(60));
    await vi.waitFor(() => expect(log.join('\n')).toMatch(/locked/), WAIT);
    other.exec('rollback');
    other.close();
    const kinds = async (): Promise<readonly string[]> =>
      (await ask('GET', `plans/${NAME}/revisions`)).body.revisions.map((r: { kind: string }) => r.kind);
    await vi.waitFor(async () => expect(await kinds()).toEqual(['outside', 'found']), WAIT);
  });
});

describe('a workspace folder', () => {
  it('that is moved away is said to be gone, plan by plan, and everything goes on once it is back', async () => {
    const { ask, folder, text, log } = await start();
    await ask('GET', `plans/${NAME}`);
    const elsewhere = `${folder}-elsewhere`;
    renameSync(folder, elsewhere);
    try {
      for (const answer of [
        await ask('GET', 'plans'),
        await ask('GET', 'opening'),
        await ask('GET', `plans/${NAME}`),
        await ask('PUT', `plans/${NAME}`, { base: 1, text: wide(60) }),
        await ask('POST', 'plans', { name: 'other', text: PLAN }),
      ])
        expect([answer.status, answer.body.error.code]).toEqual([503, 'no-folder']);
    } finally {
      renameSync(elsewhere, folder);
    }
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: wide(60) })).status).toBe(200);
    expect(text()).toBe(wide(60));
    expect(log.join('\n')).not.toMatch(/fault/);
  });

  it('whose history is cleared away while it is open has it again with the next save or tick', async () => {
    const { ask, folder, app } = await start();
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: wide(55) });
    rmSync(join(folder, '.setwright'), { recursive: true });
    expect((await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick] })).status).toBe(200);
    expect((await ask('PUT', `plans/${NAME}`, { base: 2, text: wide(56) })).status).toBe(200);
    await app.close();
    const again = await start({}, folder);
    expect((await again.ask('GET', `plans/${NAME}/revisions/2`)).body.text).toBe(wide(55));
    expect((await again.ask('GET', `plans/${NAME}/revisions/3`)).body.text).toBe(wide(56));
    expect((await again.ask('GET', `plans/${NAME}/ticks`)).body.ticks).toMatchObject([tick]);
  });

  it('into which another history is put goes on with that one, and the one before is set aside whole', async () => {
    const { ask, folder, app } = await start();
    await ask('GET', `plans/${NAME}`);
    await app.close();
    const home = join(folder, '.setwright');
    const backup = join(newFolder(), 'backup');
    cpSync(home, backup, { recursive: true });
    const second = await start({}, folder);
    await second.ask('PUT', `plans/${NAME}`, { base: 1, text: wide(55) });
    rmSync(home, { recursive: true });
    cpSync(backup, home, { recursive: true });
    expect((await second.ask('POST', `plans/${NAME}/ticks`, { ticks: [tick] })).status).toBe(200);
    await second.app.close();
    const aside = readdirSync(home).filter((name) => name.includes('.before-'));
    expect(aside).toHaveLength(1);
    renameSync(join(home, aside[0]!), join(home, 'workbench.db'));
    const { db, close } = openDatabase(folder);
    expect(await db.selectFrom('revisions').select('number').execute()).toHaveLength(2);
    close();
  });
});

describe('a device that was paired', () => {
  const host = 'bench.test';
  const phone = { remoteAddress: '192.168.1.40', headers: { host, origin: `http://${host}` } };
  it('sees the plan also while nothing can be written', async () => {
    const database = openDatabase(newFolder());
    const { ask } = await start({ database, lan: true, names: [host] }, (await start()).folder);
    await ask('GET', `plans/${NAME}`);
    const { body: code } = await ask('POST', 'pair/code', {});
    const paired = await ask('POST', 'pair', { code: code.code, device: 'phone' }, phone);
    const cookie = String(paired.headers['set-cookie']).split(';')[0]!;
    await database.db.updateTable('devices').set({ seen: '2026-01-01T00:00:00.000Z' }).execute();
    // what a full disk makes of every change
    const { sql } = await import('kysely');
    await sql`create trigger full before update on devices begin select raise(abort, 'database or disk is full'); end`.execute(
      database.db,
    );
    const { status } = await ask('GET', `plans/${NAME}`, undefined, {
      ...phone,
      headers: { ...phone.headers, cookie },
    });
    expect(status).toBe(200);
  });
});
