import { spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { closeSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { NAME, newFolder, PLAN, trial } from './server.testing.ts';

// a small disk of its own; only the system's administrator may make one
const folder = newFolder();
const mounted =
  process.platform === 'linux' && spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=700k', 'tmpfs', folder]).status === 0;
afterAll(() => {
  if (mounted) spawnSync('umount', ['-l', folder]);
  rmSync(folder, { recursive: true, force: true });
});

it.skipIf(!mounted)(
  'a disk that fills up: said clearly, nothing torn or lost, and going on once there is room',
  async () => {
    const bench = await trial({}, folder);
    const { ask, file } = bench;
    let { body: state } = await ask('GET', `plans/${NAME}`);
    const acknowledged: { revision: number; text: string }[] = [];
    // a remark that does not compress fills the history
    const grown = (n: number): string => `${PLAN}# ${n} ${randomBytes(9000).toString('base64')}\n`;
    let refused = 0;
    for (let n = 0; n < 80 && refused < 3; n++) {
      const { status, body } = await ask('PUT', `plans/${NAME}`, { base: state.revision, text: grown(n) });
      if (status === 200) {
        state = body;
        acknowledged.push(body);
        expect(refused).toBe(0);
      } else {
        refused++;
        expect([status, body.error.code]).toEqual([507, 'disk-full']);
        expect(body.error.message).toMatch(/disk is full/);
        expect(readFileSync(file, 'utf8') === (acknowledged.at(-1)?.text ?? PLAN)).toBe(true);
      }
    }
    expect(refused).toBe(3);
    expect(acknowledged.length).toBeGreaterThan(3);
    expect(readFileSync(file, 'utf8') === acknowledged.at(-1)!.text).toBe(true);

    // what is read is still read, and so is what another program wrote: over the same bytes, since there is room for no more
    expect((await ask('GET', `plans/${NAME}`)).body.text === acknowledged.at(-1)!.text).toBe(true);
    expect((await ask('GET', 'opening')).body.plan.text === acknowledged.at(-1)!.text).toBe(true);
    // not even what is smaller than a save finds room
    expect(() => writeFileSync(join(folder, 'fill'), Buffer.alloc(4e6))).toThrow(/ENOSPC/);
    const elsewhere = acknowledged.at(-1)!.text.replace(/# \d/, '# x');
    const handle = openSync(file, 'r+');
    writeSync(handle, elsewhere);
    closeSync(handle);
    const { status, body: lies } = await ask('GET', `plans/${NAME}`);
    expect([status, lies.text === elsewhere, lies.revision]).toEqual([200, true, state.revision]);
    state = lies;

    // the plan itself may be saved once something else made room
    expect(spawnSync('mount', ['-o', 'remount,size=4m', folder]).status).toBe(0);
    const after = await ask('PUT', `plans/${NAME}`, {
      base: state.revision,
      baseHash: state.hash,
      text: grown(99),
    });
    expect([after.status, after.body.outcome]).toEqual([200, 'saved']);
    for (const { revision, text } of acknowledged)
      expect((await ask('GET', `plans/${NAME}/revisions/${revision}`)).body.text === text).toBe(true);
    expect(bench.log).toEqual([]);
    await bench.app.close();
  },
);
