import {
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  unlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../core/plan/index.ts';
import { replaceFile, sha256 } from './files.ts';
import { NAME, newFolder, PLAN, trial } from './server.testing.ts';
import { trials } from './trials.testing.ts';

const start = trials();
/** Another program saves the file, some time ago. */
const outside = (file: string, text: string): void => {
  writeFileSync(file, text);
  const then = new Date(Date.now() - 5000);
  utimesSync(file, then, then);
};
const wider = (width: number, text = PLAN): string => text.replace(/width: \d+, height/, `width: ${width}, height`);
const higher = (ceiling: number, text = PLAN): string => text.replace(/ceiling: \d+/, `ceiling: ${ceiling}`);

describe('a plan', () => {
  it('is read with its revision, and listed', async () => {
    const { ask } = await start();
    const { status, body } = await ask('GET', `plans/${NAME}`);
    expect(status).toBe(200);
    expect(body).toMatchObject({ name: NAME, text: PLAN, revision: 1, hash: sha256(PLAN), issues: [] });
    const { body: list } = await ask('GET', 'plans');
    expect(list.plans).toMatchObject([{ name: NAME, title: 'Back wall', sound: true }]);
  });
  it('comes with the opening as it reads, so that the page need not read it; one with faults as its text alone', async () => {
    const { ask, file } = await start();
    for (const example of ['lesson-room', 'radio-corner']) {
      const text = readFileSync(join(import.meta.dirname, `../../examples/${example}.plan.yaml`), 'utf8');
      outside(file, text);
      const { plan, document } = readPlan(text);
      const { body } = await ask('GET', 'opening');
      expect(body.plan).toMatchObject({ name: NAME, text, issues: [] });
      expect(body.read).toEqual({ plan, plain: document.plain });
    }
    outside(file, wider(60).replace('width', 'wide'));
    const { body } = await ask('GET', 'opening');
    expect(body.plan.issues.length).toBeGreaterThan(0);
    expect(body.read).toBeUndefined();
  });
  it('is saved as text, and lies in the folder at once, alone', async () => {
    const { ask, text, folder } = await start();
    await ask('GET', `plans/${NAME}`);
    const { status, body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect([status, body.outcome, body.revision, body.text]).toEqual([200, 'saved', 2, wider(60)]);
    expect(text()).toBe(wider(60));
    expect(readdirSync(folder).sort()).toEqual(['.setwright', NAME]);
  });
  it('is saved as edits, comments kept', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const edits = [{ op: 'set', path: ['options', 0, 'pieces', 0, 'size', 'width'], value: 61 }];
    const { body } = await ask('PUT', `plans/${NAME}`, { base: 1, baseHash: sha256(PLAN), edits });
    expect(body).toMatchObject({ outcome: 'saved', revision: 2 });
    expect(text()).toBe(wider(61));
  });
  it('is not saved when it would not read as a plan, unless that is wished; never when it is no YAML', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const wrong = PLAN.replace('wall: north', 'wall: nowhere');
    const refused = await ask('PUT', `plans/${NAME}`, { base: 1, text: wrong });
    expect([refused.status, refused.body.error.code]).toEqual([422, 'not-a-plan']);
    expect(refused.body.error.issues.length).toBeGreaterThan(0);
    expect(text()).toBe(PLAN);
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: 'a: [', evenIfWrong: true })).status).toBe(422);
    const wished = await ask('PUT', `plans/${NAME}`, { base: 1, text: wrong, evenIfWrong: true });
    expect(wished.body).toMatchObject({ outcome: 'saved', text: wrong });
    expect(wished.body.issues.length).toBeGreaterThan(0);
  });
  it('saved twice under one id is saved once', async () => {
    const { ask } = await start();
    await ask('GET', `plans/${NAME}`);
    const save = { base: 1, id: 'a1', text: wider(60) };
    const first = await ask('PUT', `plans/${NAME}`, save);
    const second = await ask('PUT', `plans/${NAME}`, save);
    expect(second.body).toEqual(first.body);
    const later = await ask('PUT', `plans/${NAME}`, { base: 2, id: 'a2', text: wider(64) });
    expect(later.body.revision).toBe(3);
    expect((await ask('PUT', `plans/${NAME}`, save)).body).toMatchObject({
      outcome: 'merged',
      revision: 3,
      text: wider(64),
    });
  });
  it('keeps the mode of its file', async () => {
    const { ask, file } = await start();
    const { chmodSync, statSync } = await import('node:fs');
    chmodSync(file, 0o640);
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect(statSync(file).mode & 0o777).toBe(0o640);
  });
});

describe('two at once', () => {
  it('whose changes do not meet are both kept, and the answer holds both', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    const { status, body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: higher(97) });
    expect([status, body.outcome, body.revision]).toEqual([200, 'merged', 3]);
    expect(body.text).toBe(higher(97, wider(60)));
    expect(text()).toBe(body.text);
  });
  it('who change one value: the second is told, with both sides, and its text is kept beside', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    const { status, body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(50) });
    expect(status).toBe(409);
    expect(body).toMatchObject({
      error: { code: 'conflict' },
      base: { revision: 1, text: PLAN },
      current: { revision: 2, text: wider(60) },
      mine: wider(50),
      aside: 3,
      clashes: [{ mine: { from: 17, to: 18 } }],
    });
    expect(text()).toBe(wider(60));
    expect((await ask('GET', `plans/${NAME}/revisions/3`)).body).toMatchObject({ kind: 'aside', text: wider(50) });
    // and decides
    const decided = await ask('PUT', `plans/${NAME}`, { base: 2, text: wider(50) });
    expect(decided.body).toMatchObject({ outcome: 'saved', revision: 4 });
  });

  it('keep both, where one went on before it learnt that its last text was merged', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: higher(97) });
    const sent = wider(60);
    const { body: merged } = await ask('PUT', `plans/${NAME}`, { base: 1, text: sent });
    const { revision: base, hash: baseHash } = merged;
    const { body } = await ask('PUT', `plans/${NAME}`, { base, baseHash, madeOn: sent, text: wider(61) });
    expect([body.outcome, body.text]).toEqual(['merged', higher(97, wider(61))]);
    expect(text()).toBe(body.text);
    const again = { base: body.revision, madeOn: wider(61), text: higher(98, wider(61)) };
    expect((await ask('PUT', `plans/${NAME}`, again)).status).toBe(409);
  });

  it('never lose a change that was acknowledged, however their saves fall', () =>
    fc.assert(
      fc.asyncProperty(
        fc.array(fc.record({ page: fc.nat(2), field: fc.nat(3), value: fc.integer({ min: 100, max: 999 }) }), {
          minLength: 4,
          maxLength: 14,
        }),
        async (saves) => {
          const { ask, text, close } = await trial();
          const fields = ['north', 'east', 'south', 'west'];
          const set = (from: string, field: number, value: number): string =>
            from.replace(new RegExp(`(id: ${fields[field]}, length: )\\d+`), `$1${value}`);
          try {
            const first = (await ask('GET', `plans/${NAME}`)).body;
            const pages = [0, 1, 2].map(() => ({ revision: first.revision as number, text: first.text as string }));
            const kept = new Map<number, number>();
            // all asked at once: nobody waits for anybody's answer
            const answers = await Promise.all(
              saves.map(({ page, field, value }) => {
                const { revision, text: base } = pages[page]!;
                return ask('PUT', `plans/${NAME}`, { base: revision, text: set(base, field, value) });
              }),
            );
            answers.forEach(({ status }, i) => {
              const { field, value } = saves[i]!;
              expect([200, 409]).toContain(status);
              if (status === 200 && !kept.has(field)) kept.set(field, value);
            });
            for (const [field, value] of kept) expect(text()).toContain(`id: ${fields[field]}, length: ${value}`);
            expect(readPlan(text()).issues).toEqual([]);
            // and each acknowledged text can still be read
            for (const { status, body } of answers)
              if (status === 200) {
                const { body: kept } = await ask('GET', `plans/${NAME}/revisions/${body.revision}`);
                expect(kept.text).toBe(body.text);
              }
          } finally {
            await close();
          }
        },
      ),
      { numRuns: 25 },
    ));
});

describe('another program', () => {
  it('changes the file: that is a revision, and a save from before is merged into it', async () => {
    const { ask, file, text } = await start();
    await ask('GET', `plans/${NAME}`);
    outside(file, higher(99));
    const { body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect(body).toMatchObject({ outcome: 'merged', revision: 3 });
    expect(text()).toBe(higher(99, wider(60)));
    const { body: history } = await ask('GET', `plans/${NAME}/revisions`);
    expect(history.revisions.map((r: { kind: string }) => r.kind)).toEqual(['merged', 'outside', 'found']);
  });
  it('changes the same place: nothing is overwritten', async () => {
    const { ask, file, text } = await start();
    await ask('GET', `plans/${NAME}`);
    outside(file, wider(70));
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) })).status).toBe(409);
    expect(text()).toBe(wider(70));
  });
  it('is waited for while it writes', async () => {
    const { ask, file } = await start();
    await ask('GET', `plans/${NAME}`);
    writeFileSync(file, PLAN.slice(0, 300));
    setTimeout(() => writeFileSync(file, higher(99)), 60);
    const { body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect(body).toMatchObject({ outcome: 'merged', revision: 3 });
  });
  it('takes the file away: saving does not bring it back unasked, and the history stays', async () => {
    const { ask, file } = await start();
    await ask('GET', `plans/${NAME}`);
    unlinkSync(file);
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) })).status).toBe(404);
    expect((await ask('GET', `plans/${NAME}/revisions/1`)).body.text).toBe(PLAN);
    expect((await ask('POST', 'plans', { name: NAME, text: wider(60) })).status).toBe(201);
  });
  it('stands in the way of a replacement, which can be taken back and leaves nothing behind', () => {
    const folder = newFolder();
    const file = join(folder, NAME);
    writeFileSync(file, PLAN);
    expect(() => replaceFile(file, wider(60), sha256('else'))).toThrow();
    // names are drawn by lot: the old file and the new one must never be given the same
    for (let i = 0; i < 60; i++) {
      const replaced = replaceFile(file, wider(60), sha256(PLAN));
      expect(replaced.overtaken).toBeUndefined();
      replaced.undo();
      expect(readdirSync(folder)).toEqual([NAME]);
      expect(readFileSync(file, 'utf8')).toBe(PLAN);
    }
    replaceFile(file, wider(60), sha256(PLAN)).keep();
    expect(readdirSync(folder)).toEqual([NAME]);
    expect(readFileSync(file, 'utf8')).toBe(wider(60));
    rmSync(folder, { recursive: true });
  });
  it('overtakes a save: the save looks again and merges', async () => {
    let once = true;
    const { ask, text, file } = await start({
      replace: (path, next, expected) => {
        if (once && next !== PLAN) outside(file, higher(99));
        once = false;
        return replaceFile(path, next, expected);
      },
    });
    await ask('GET', `plans/${NAME}`);
    const { body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect(body.outcome).toBe('merged');
    expect(text()).toBe(higher(99, wider(60)));
  });
});

describe('revisions', () => {
  it('are listed newest first, in steps, looked at and brought back', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    for (let i = 0; i < 5; i++) await ask('PUT', `plans/${NAME}`, { base: i + 1, text: wider(60 + i) });
    const { body: first } = await ask('GET', `plans/${NAME}/revisions?most=4`);
    expect(first.revisions.map((r: { revision: number }) => r.revision)).toEqual([6, 5, 4, 3]);
    const { body: rest } = await ask('GET', `plans/${NAME}/revisions?before=${first.older}&most=4`);
    expect(rest.revisions.map((r: { revision: number }) => r.revision)).toEqual([2, 1]);
    expect(rest.older).toBeUndefined();
    const back = await ask('POST', `plans/${NAME}/restore`, { revision: 3, base: 6 });
    expect(back.body).toMatchObject({ outcome: 'saved', revision: 7, text: wider(61) });
    expect(text()).toBe(wider(61));
    expect((await ask('POST', `plans/${NAME}/restore`, { revision: 1, base: 6 })).status).toBe(409);
    expect((await ask('POST', `plans/${NAME}/restore`, { revision: 99, base: 7 })).status).toBe(404);
  });
  it('outlive the server', async () => {
    const folder = newFolder();
    const one = await trial({}, folder);
    await one.ask('GET', `plans/${NAME}`);
    await one.ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    await one.app.close();
    const two = await start({}, folder);
    const { body } = await two.ask('GET', `plans/${NAME}/revisions`);
    expect(body.revisions).toHaveLength(2);
    expect((await two.ask('PUT', `plans/${NAME}`, { base: 2, text: wider(61) })).body.revision).toBe(3);
  });
  it('that were lost with their folder are a clash, never a wrong merge', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const stale = { base: 1, baseHash: sha256('what it was before'), text: wider(60) };
    expect((await ask('PUT', `plans/${NAME}`, stale)).status).toBe(409);
    expect((await ask('PUT', `plans/${NAME}`, { base: 77, text: wider(60) })).status).toBe(409);
    expect((await ask('PUT', `plans/${NAME}`, { base: 77, edits: [] })).status).toBe(409);
    expect(text()).toBe(PLAN);
  });
  it('in a file that is no database any more are moved aside, and the workbench opens', async () => {
    const folder = newFolder();
    const one = await trial({}, folder);
    await one.app.close();
    writeFileSync(join(folder, '.setwright', 'workbench.db'), 'this was a database once'.repeat(100));
    const two = await start({}, folder);
    expect((await two.ask('GET', `plans/${NAME}`)).body.revision).toBe(1);
    expect(readdirSync(join(folder, '.setwright')).filter((name) => /\.db\.broken-.*Z$/.test(name))).toHaveLength(1);
  });
});

describe('import and export', () => {
  it('a plan comes in under a new name and goes out as it is', async () => {
    const { ask } = await start();
    const made = await ask('POST', 'plans', { name: 'Ärger im "Eck"'.replaceAll('"', ''), text: PLAN });
    expect([made.status, made.body.name]).toEqual([201, 'Ärger im Eck.plan.yaml']);
    const out = await ask('GET', `plans/${encodeURIComponent(made.body.name)}/export`);
    expect(out.raw.toString()).toBe(PLAN);
    expect(out.headers['content-disposition']).toBe(
      `attachment; filename="_rger im Eck.plan.yaml"; filename*=UTF-8''%C3%84rger%20im%20Eck.plan.yaml`,
    );
    expect((await ask('POST', 'plans', { name: 'Ärger im Eck', text: PLAN })).status).toBe(409);
    expect((await ask('POST', 'plans', { name: 'other', text: 'setwright: 1' })).status).toBe(422);
  });
  it('the rack comes in as a save like any other', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const { raw } = await ask('GET', `plans/${NAME}/rack.csv`);
    expect(raw.toString()).toBe('id,stock,length,width,count,where\r\nleft,ply,"30""","12""",1,\r\n');
    const { body } = await ask('POST', `plans/${NAME}/rack`, {
      base: 1,
      csv: 'stock;length;width\nply;40;20\nply;10;9\n',
    });
    expect(body).toMatchObject({ outcome: 'saved', revision: 2 });
    expect(readPlan(text()).plan?.stock.rack).toHaveLength(2);
    const bad = await ask('POST', `plans/${NAME}/rack`, { base: 2, csv: 'stock,length\noak,3\n' });
    expect([bad.status, bad.body.error.code]).toEqual([422, 'bad-csv']);
  });
  it('a packet that could not be drawn is drawn when it is asked for again', async () => {
    let asked = 0;
    const make = async () =>
      ++asked === 1
        ? ({ ok: false, message: 'Drawing the packet took too long and was stopped.', issues: [] } as const)
        : ({ ok: true, pdf: Buffer.from('%PDF') } as const);
    const { ask } = await start({ makePacket: { make, close: () => undefined } });
    expect((await ask('GET', `plans/${NAME}/packet.pdf`)).status).toBe(422);
    expect((await ask('GET', `plans/${NAME}/packet.pdf`)).raw.toString()).toBe('%PDF');
  });
  it('the packet is drawn by the maker it is given, once for the same question', async () => {
    let drawn = 0;
    const { ask } = await start({
      makePacket: { make: async () => ({ ok: true, pdf: Buffer.from(`%PDF ${++drawn}`) }), close: () => undefined },
    });
    const one = await ask('GET', `plans/${NAME}/packet.pdf?paper=A4`);
    expect([one.status, one.headers['content-type'], one.raw.toString()]).toEqual([200, 'application/pdf', '%PDF 1']);
    expect((await ask('GET', `plans/${NAME}/packet.pdf?paper=A4`)).raw.toString()).toBe('%PDF 1');
    expect((await ask('GET', `plans/${NAME}/packet.pdf?paper=A3`)).raw.toString()).toBe('%PDF 2');
    expect((await ask('GET', `plans/${NAME}/packet.pdf?paper=A9`)).status).toBe(400);
    expect((await ask('GET', `plans/${NAME}/packet.pdf?today=2026-02-30`)).status).toBe(400);
  });
});

describe('a folder that cannot be written', () => {
  const failing = (code: string) => () => {
    throw Object.assign(new Error(code), { code });
  };
  it.each([
    ['ENOSPC', 507, 'disk-full'],
    ['EDQUOT', 507, 'disk-full'],
    ['EROFS', 403, 'read-only'],
    ['EACCES', 403, 'read-only'],
  ])('says so (%s), keeps the file and pretends no revision', async (code, status, refusal) => {
    const { ask, text } = await start({ replace: failing(code) });
    await ask('GET', `plans/${NAME}`);
    const answer = await ask('PUT', `plans/${NAME}`, { base: 1, text: wider(60) });
    expect([answer.status, answer.body.error.code]).toEqual([status, refusal]);
    expect(answer.body.error.message).toMatch(/still on your page/);
    expect(text()).toBe(PLAN);
    expect((await ask('GET', `plans/${NAME}/revisions`)).body.revisions).toHaveLength(1);
  });
});

describe('names', () => {
  const folder = newFolder();
  it.each([
    '../wall.plan.yaml',
    '..%2fwall.plan.yaml',
    '.hidden.yaml',
    '.setwright/workbench.db',
    'a/b.yaml',
    'a\\b.yaml',
    'C:x.yaml',
    'nul.yaml',
    'con.plan.yaml',
    'x.yaml\0.txt',
    'x\u202egpj.yaml',
    'two\nlines.yaml',
    '<img src=x onerror=alert(1)>.yaml',
    ' .yaml',
    '.yaml',
    `${'a'.repeat(300)}.yaml`,
    '__proto__',
    'wall.txt',
    '/etc/passwd.yaml',
  ])('that are none of a plan lead nowhere: %j', async (name) => {
    const { ask } = await start();
    const get = await ask('GET', `plans/${encodeURIComponent(name)}`);
    expect([400, 404]).toContain(get.status);
    const post = await ask('POST', 'plans', { name, text: PLAN });
    // one without an ending gets it
    if (post.status === 201) expect(post.body.name).toMatch(/^[\w.]+\.plan\.yaml$/);
    else expect(post.status).toBe(400);
    expect(get.body.error.message).not.toContain('<img');
  });
  it('that are links out of the folder are neither read nor written nor listed', async () => {
    const { ask, folder: inside } = await start();
    writeFileSync(join(folder, 'secret.yaml'), PLAN);
    symlinkSync(join(folder, 'secret.yaml'), join(inside, 'link.yaml'));
    expect((await ask('GET', 'plans/link.yaml')).status).toBe(400);
    expect((await ask('PUT', 'plans/link.yaml', { base: 1, text: wider(60) })).status).toBe(400);
    expect((await ask('GET', 'plans')).body.plans).toHaveLength(1);
  });
  it('that are links within the folder are followed, and stay links', async () => {
    const { ask, folder: inside, text } = await start();
    symlinkSync(NAME, join(inside, 'link.yaml'));
    expect((await ask('GET', 'plans/link.yaml')).body.text).toBe(PLAN);
    await ask('PUT', 'plans/link.yaml', { base: 1, text: wider(60) });
    expect(text()).toBe(wider(60));
  });
  it('of folders, devices and files of other kinds are refused', async () => {
    const { ask, folder: inside } = await start();
    const { mkdirSync } = await import('node:fs');
    mkdirSync(join(inside, 'folder.yaml'));
    writeFileSync(join(inside, 'latin.yaml'), Buffer.from([0x61, 0xe9]));
    writeFileSync(join(inside, 'big.yaml'), Buffer.alloc(5_000_000, 0x61));
    expect((await ask('GET', 'plans/folder.yaml')).status).toBe(422);
    expect((await ask('GET', 'plans/latin.yaml')).status).toBe(422);
    expect((await ask('GET', 'plans/big.yaml')).status).toBe(422);
    renameSync(join(inside, 'latin.yaml'), join(inside, 'gone.yaml'));
    expect((await ask('GET', 'plans')).body.plans.filter((p: { sound: boolean }) => p.sound)).toHaveLength(1);
  });
});
