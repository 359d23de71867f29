import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { solveProblem } from '../core/cutting/index.ts';
import type { Note } from '../core/notes/index.ts';
import { findOption, sceneOf, workOut } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import type { FromPacket, ToPacket } from './packet-protocol.ts';
import { servePacket } from './packet-serve.ts';
import { heard, type Kept } from './register.ts';

const TODAY = '2026-11-26';
const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plan = readPlan(text).plan!;
const option = findOption(plan)!;
const answers = cutJobs(sceneOf(plan, option).parts, plan).map(({ problem }) => solveProblem(problem, { steps: 0 }));
const draw = (revision: number): ToPacket => ({
  type: 'draw',
  revision,
  text,
  option: option.id,
  today: TODAY,
  answers,
});

/** What the page knows after these messages. */
function after(...messages: readonly FromPacket[]): Kept {
  const kept = { register: [], found: new Map(), dates: new Map(), sheet: undefined };
  for (const message of messages) Object.assign(kept, heard(kept, message));
  return kept;
}

describe('the packet beside the page', () => {
  const messages: FromPacket[] = [];
  const serve = servePacket((message) => void messages.push(message));
  serve(draw(7));
  const types = messages.map(({ type }) => type);

  it('tells what it knows as soon as it knows it: the notes, the dates, the pages, what the others come to last', () => {
    expect(types).toEqual(['found', 'dates', 'drawn', 'others']);
    expect(messages.every(({ revision }) => revision === 7)).toBe(true);
  });

  it('leaves the page with the notes that the command line tells', () => {
    const kept = after(...messages);
    const scene = sceneOf(plan, option);
    const whole = workOut(plan, option, { today: TODAY, effort: { steps: 0 } });
    const bill = new Set(whole.bill.notes.map((note) => note.id));
    const own = new Set(scene.notes.map((note) => note.id));
    const told = whole.notes.map((note) => note.id).filter((id) => !bill.has(id) && !own.has(id));
    expect(kept.found.get(option.id)!.notes.map((note) => note.id)).toEqual(told);
    expect([...kept.found.keys()].sort()).toEqual(plan.options.map((one) => one.id).sort());
    expect(kept.register.length).toBeGreaterThan(20);
  });

  it('writes a page that is asked for, codes and all, and none that is not there', () => {
    const register = messages.flatMap((m) => (m.type === 'drawn' ? m.register : []));
    messages.length = 0;
    for (const id of [...register.map((entry) => entry.id), 'nowhere']) serve({ type: 'page', revision: 7, id });
    const sheets = messages.map((m) => (m.type === 'page' ? m.sheet : undefined));
    expect(sheets.at(-1)).toBeUndefined();
    expect(sheets.slice(0, -1).map((sheet) => sheet?.page.id)).toEqual(register.map((entry) => entry.id));
    expect(sheets.slice(0, -1).every((sheet) => sheet!.parts.marks.length > 0 && sheet!.page.marks.length === 0)).toBe(
      true,
    );
  });

  it('says nothing about a plan it cannot read', () => {
    messages.length = 0;
    serve({ ...draw(8), text: 'milk: 2' } as ToPacket);
    expect(messages).toEqual([]);
  });
});

describe('what the page knows', () => {
  const note = (id: string): Note => ({ id, about: 'x', verdict: 'fine', title: id, advice: '' }) as unknown as Note;
  const found = (...ids: string[]): FromPacket => ({
    type: 'found',
    revision: 1,
    option: 'low',
    found: { notes: ids.map(note), fittings: [] },
  });
  const dates = (...ids: string[]): FromPacket => ({ type: 'dates', revision: 1, option: 'low', notes: ids.map(note) });
  const ids = (kept: Kept): readonly string[] => kept.found.get('low')!.notes.map((n) => n.id);

  it('keeps the notes on the dates until new ones come, and never holds old and new together', () => {
    const first = [found('light'), dates('late')];
    expect(ids(after(...first))).toEqual(['light', 'late']);
    expect(ids(after(...first, found('dark')))).toEqual(['dark', 'late']);
    expect(ids(after(...first, found('dark'), dates('early')))).toEqual(['dark', 'early']);
    expect(ids(after(...first, found('dark'), dates()))).toEqual(['dark']);
  });
  it('keeps what the dates of an option said while another is looked at', () => {
    const others: FromPacket = {
      type: 'others',
      revision: 2,
      found: [['low', { notes: [note('dark')], fittings: [] }]],
    };
    expect(ids(after(found('light'), dates('late'), others))).toEqual(['dark', 'late']);
  });
});
