import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'setwright-cli-'));
afterAll(() => rmSync(folder, { recursive: true }));

function setwright(args: readonly string[], input = '') {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'bin/setwright.mjs'), ...args], {
    cwd: root,
    input,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { status, stdout, stderr };
}
const EXAMPLES = ['lesson-room', 'radio-corner'].map((name) => join('examples', `${name}.plan.yaml`));

describe('a call that is right', () => {
  it.each(EXAMPLES)('checks %s without an error or a stop note', (plan) => {
    const { status, stderr } = setwright(['check', plan]);
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });

  it.each(EXAMPLES)('gives the parts, the bill and the comparison of %s as data', (plan) => {
    const parts = JSON.parse(setwright(['parts', plan, '--json']).stdout);
    expect(parts.pieces.flatMap((p: { parts: unknown[] }) => p.parts).length).toBeGreaterThan(40);
    const bill = JSON.parse(setwright(['bill', plan, '--json', '--today', '2026-11-25']).stdout);
    expect(bill.complete).toBe(true);
    expect(bill.total).toBe(bill.net + bill.tax);
    const compared = JSON.parse(setwright(['compare', plan, '--json', '--today', '2026-11-25']).stdout);
    expect(compared).toHaveLength(2);
    expect(compared[0].tally.cost).toBe(bill.total);
    expect(compared[1].difference.cost).toBe(compared[1].tally.cost - compared[0].tally.cost);
  });

  it('writes the packet, the same bytes each time on the same day', () => {
    const write = (name: string) => {
      const out = join(folder, name);
      const { status, stderr } = setwright(['packet', EXAMPLES[0]!, '--out', out, '--today', '2026-11-25']);
      expect(status, stderr).toBe(0);
      return readFileSync(join(out, 'packet.pdf'));
    };
    const first = write('one');
    expect(first.subarray(0, 5).toString()).toBe('%PDF-');
    expect(write('two').equals(first)).toBe(true);
  });

  it('writes a plan to start from that can be worked out at once', () => {
    for (const units of ['ft-in', 'mm']) {
      const plan = join(folder, `new-${units}.plan.yaml`);
      const fits = 'books,doors,drawers,gear,shelves,display';
      expect(setwright(['new', plan, '--units', units, '--fits', fits]).status).toBe(0);
      expect(setwright(['check', plan]).stderr).toBe('');
      expect(setwright(['new', plan, '--units', units]).status).toBe(2); // it is there already
    }
  });

  it('says with a note what settles it, also where that has to be tried out', () => {
    const plan = join(folder, 'heavy.plan.yaml');
    expect(setwright(['new', plan, '--units', 'mm', '--fits', 'books']).status).toBe(0);
    const studs = '{kind: timber stud, spacing: 600 mm, first: 300 mm, board: 12.5 mm}';
    const own =
      '{case: heavy, wall: set, above: 1400 mm, from: 300 mm, carries: books, size: {width: 1200 mm, height: 900 mm, depth: 300 mm}, inside: {shelves: 2}}';
    const text = readFileSync(plan, 'utf8')
      .replace(/framing: .*/, `framing: ${studs}`)
      .replace(/^( *)pieces:.*\n/m, (pieces, by) => `${pieces}${by}  - ${own}\n`);
    writeFileSync(plan, text);
    const { status, stdout, stderr } = setwright(['check', plan]);
    expect([status, stderr]).toEqual([1, expect.stringContaining('stop note')]);
    expect(stdout).toMatch(/fixings of heavy do not hold.*\n.*\n *What settles it: /);
    const { options } = JSON.parse(setwright(['check', plan, '--json']).stdout);
    const note = options[0].notes.find(({ id }: { id: string }) => id === 'fixing:heavy');
    expect(note.cure.edits.length).toBeGreaterThan(0);
  });

  it('says how a length without a unit was read, in the units of the plan', () => {
    const { status, stderr } = setwright(['new', join(folder, 'short.plan.yaml'), '--wall', '12']);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^.*1' 0" is less than \d+' \S*; is the unit right\?/);
    expect(setwright(['new', join(folder, 'short.plan.yaml'), '--wall', '2000 ft']).stderr).toMatch(
      /is more than \d+' /,
    );
  });

  it('does one calculation, with its working or as data', () => {
    const { stdout } = setwright(['reckon', 'board-feet', 'thickness=1in', 'width=6in', 'length=8ft', '--json']);
    // 1 in × 6 in × 8 ft / 12 = 4 board feet: NIST Handbook 130 defines a board foot as 1 in × 1 ft × 1 ft
    expect(JSON.parse(stdout).result.value).toBeCloseTo(4, 9);
    expect(setwright(['reckon', 'board-feet', 'thickness=1in', 'width=6in', 'length=8ft']).stdout).toContain('source');
  });
});

describe('a mistake', () => {
  const wrong = (name: string, text: string) => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return setwright(['check', path]);
  };
  const good = readFileSync(join(root, EXAMPLES[0]!), 'utf8');

  it.each([
    ['a command that is not there', ['cutt'], 'Did you mean cut'],
    ['a flag that is not there', ['check', EXAMPLES[0]!, '--jason'], '--json'],
    ['a file that is not there', ['check', 'no-such.plan.yaml'], 'there is no such file'],
    ['a folder for a file', ['check', 'examples'], 'a folder'],
    ['an option that is not there', ['parts', EXAMPLES[0]!, '-o', 'lov'], 'Did you mean low?'],
    ['a piece that is not there', ['steps', EXAMPLES[0]!, 'skores', 'width'], 'Did you mean scores?'],
    ['a size that cannot vary', ['steps', EXAMPLES[0]!, 'scores', 'hight'], 'expected one of width, height'],
    ['a calculator that is not there', ['reckon', 'shelfsag'], 'shelf-sag'],
    ['an input that is not there', ['reckon', 'board-feet', 'thikness=1in'], 'thickness'],
    ['a day that is none', ['bill', EXAMPLES[0]!, '--today', '2026-02-30'], 'expected a date'],
  ])('in the call, %s, ends with 2 and says what would do', (_, args, said) => {
    const { status, stderr } = setwright(args);
    expect(stderr).toContain(said);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/); // no stack trace
    expect(status).toBe(2);
  });

  it('in the plan ends with 1 and says where, what and what was meant, all in one go', () => {
    const { status, stderr } = wrong(
      'wrong.plan.yaml',
      good
        .replace('wall: north\n        from: 6"', 'wall: noth\n        from: 6"')
        .replace('depth: 16"}', 'depth: 16 1}'),
    );
    expect(stderr).toMatch(/wrong\.plan\.yaml, line \d+, column \d+: options\[0\]\.pieces\[0\]\.wall/);
    expect(stderr).toContain('north');
    expect(stderr).toMatch(/size\.depth/);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
    expect(status).toBe(1);
  });

  it.each([
    ['nothing', ''],
    ['a list', '- 1\n- 2\n'],
    ['no YAML', 'a: [1, 2\nb: }'],
    [
      'a bomb',
      `a: &a [x,x,x,x,x,x,x,x,x,x]\n${[...'bcdefghi'].map((c, i) => `${c}: &${c} [${Array(10).fill(`*${'abcdefgh'[i]}`)}]`).join('\n')}`,
    ],
    ['a newer version', good.replace('setwright: 1', 'setwright: 99')],
    ['bytes', '\u0000\u0001\u0002'],
  ])('in the file, %s, ends with 1 and no stack trace', (_, text) => {
    const { status, stderr } = wrong('bad.plan.yaml', text);
    expect(stderr.length).toBeGreaterThan(10);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
    expect(status).toBe(1);
  });

  it('a plan that cannot be built says which piece and why', () => {
    const { status, stderr } = wrong(
      'small.plan.yaml',
      good.replace('size: {width: 4\' 6", height: 30", depth: 16"}', 'size: {width: 9", height: 30", depth: 16"}'),
    );
    expect(stderr).toMatch(/line \d+/);
    expect(stderr).toContain('pieces[0]');
    expect(status).toBe(1);
  });
});
