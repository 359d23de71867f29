import { renameSync, rmSync, unlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { NAME, newFolder, PLAN, type Trial, trial } from './server.testing.ts';
import { trials } from './trials.testing.ts';

const start = trials();
const wider = (width: number): string => PLAN.replace(/width: \d+, height/, `width: ${width}, height`);
const NEW = 'long-wall.plan.yaml';
/** Written some time ago, as what another program left. */
const written = (file: string, text: string): void => {
  writeFileSync(file, text);
  const then = new Date(Date.now() - 5000);
  utimesSync(file, then, then);
};
const kinds = async ({ ask }: Trial, name: string): Promise<readonly string[]> =>
  (await ask('GET', `plans/${name}/revisions`)).body.revisions.map(({ kind }: { kind: string }) => kind);
const tick = { id: 't1', about: 'part:scores', done: true, at: '2026-05-04T10:00:00Z' };

describe('a plan whose file another program gives another name', () => {
  it.each(['while the server runs', 'while it is down'])('keeps its revisions and its ticks (%s)', async (when) => {
    const folder = newFolder();
    const first = await trial({}, folder);
    await first.ask('GET', `plans/${NAME}`);
    await first.ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    await first.ask('POST', `plans/${NAME}/ticks`, { ticks: [tick] });
    const isDown = when === 'while it is down';
    if (isDown) await first.app.close();
    renameSync(join(folder, NAME), join(folder, NEW));
    const now = isDown ? await start({ open: NEW }, folder) : first;
    // the trial writes the plan where it is missing
    if (isDown) unlinkSync(join(folder, NAME));
    expect((await now.ask('GET', `plans/${NEW}`)).body).toMatchObject({ revision: 2, text: wider(60) });
    expect(await kinds(now, NEW)).toEqual(['saved', 'found']);
    expect((await now.ask('GET', `plans/${NEW}/ticks`)).body.ticks).toMatchObject([{ id: 't1' }]);
    const saved = await now.ask('PUT', `plans/${NEW}`, { base: 2, text: wider(61) });
    expect(saved.body).toMatchObject({ outcome: 'saved', revision: 3 });
    // whoever asks by the old name is told the new one
    for (const [method, path, body] of [
      ['GET', `plans/${NAME}`],
      ['PUT', `plans/${NAME}`, { base: 2, text: wider(62) }],
      ['GET', `plans/${NAME}/revisions`],
    ] as const)
      expect(await now.ask(method, path, body)).toMatchObject({
        status: 404,
        body: { error: { code: 'not-found', moved: { name: NAME, to: NEW } } },
      });
    if (!isDown) await first.close();
  });

  it('and back again is what it was', async () => {
    const bench = await start();
    await bench.ask('GET', `plans/${NAME}`);
    await bench.ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    for (const [from, to] of [
      [NAME, NEW],
      [NEW, NAME],
      [NAME, NEW],
    ] as const) {
      renameSync(join(bench.folder, from), join(bench.folder, to));
      expect((await bench.ask('GET', `plans/${to}`)).body.revision).toBe(2);
    }
    expect((await bench.ask('GET', `plans/${NAME}`)).body.error.moved).toEqual({ name: NAME, to: NEW });
    // the name is free for another plan, with a history of its own
    expect((await bench.ask('POST', 'plans', { name: NAME, text: wider(70) })).status).toBe(201);
    expect(await kinds(bench, NAME)).toEqual(['created']);
    expect(await kinds(bench, NEW)).toEqual(['saved', 'found']);
  });

  it('as it was earlier goes on with its history', async () => {
    const bench = await start();
    await bench.ask('GET', `plans/${NAME}`);
    await bench.ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    unlinkSync(bench.file);
    written(join(bench.folder, NEW), PLAN);
    expect((await bench.ask('GET', `plans/${NEW}`)).body.revision).toBe(3);
    expect(await kinds(bench, NEW)).toEqual(['outside', 'saved', 'found']);
  });

  it('leaves its history where it is when the file was only copied, or says something else', async () => {
    const bench = await start();
    await bench.ask('GET', `plans/${NAME}`);
    await bench.ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    written(join(bench.folder, 'copy.yaml'), wider(60));
    expect((await bench.ask('GET', 'plans/copy.yaml')).body.revision).toBe(1);
    expect(await kinds(bench, NAME)).toEqual(['saved', 'found']);
    rmSync(bench.file);
    written(join(bench.folder, 'other.yaml'), wider(99));
    expect(await kinds(bench, 'other.yaml')).toEqual(['found']);
    expect(await kinds(bench, NAME)).toEqual(['saved', 'found']);
  });
});

describe('names that differ only by capital letters or accents', () => {
  it('are not both made: on many disks the one would be the other', async () => {
    const { ask, folder } = await start();
    for (const name of ['Wall.plan.yaml', 'WALL.PLAN.YAML', 'Wall']) {
      const { status, body } = await ask('POST', 'plans', { name, text: PLAN });
      expect([status, body.error.code]).toEqual([409, 'exists']);
      expect(body.error.message).toContain(`a plan ${NAME} already; nothing was written`);
    }
    writeFileSync(join(folder, 'caf\u00e9.plan.yaml'.normalize('NFD')), PLAN);
    expect((await ask('POST', 'plans', { name: 'Caf\u00c9', text: PLAN })).status).toBe(409);
    expect((await ask('POST', 'plans', { name: 'wall-2', text: PLAN })).status).toBe(201);
  });
  it('and are both there, on a disk that tells them apart, are two plans', async () => {
    const { ask, folder } = await start();
    writeFileSync(join(folder, 'Wall.plan.yaml'), wider(70));
    expect((await ask('GET', 'plans/Wall.plan.yaml')).body.text).toBe(wider(70));
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, baseHash: '', text: wider(60) })).status).toBe(400);
    await ask('GET', `plans/${NAME}`);
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) })).status).toBe(200);
    expect((await ask('GET', 'plans/Wall.plan.yaml')).body.text).toBe(wider(70));
  });
  it('lead to the one that is there', async () => {
    const { ask } = await start();
    expect(await ask('GET', 'plans/WALL.plan.yaml')).toMatchObject({
      status: 404,
      body: { error: { moved: { name: 'WALL.plan.yaml', to: NAME } } },
    });
  });
});
