import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { mergeTexts, type SaveRequest } from '../core/workspace/index.ts';
import { change, useBench } from './bench.ts';
import { openPlan } from './workspace.ts';

const PLAN = `setwright: 1
title: Back wall
units: {length: mm, currency: EUR}
room:
  ceiling: 2500
  walls:
    - {id: north, length: 4000}
    - {id: east, length: 3000}
    - {id: south, length: 4000}
    - {id: west, length: 3000}
options:
  - id: low
    pieces: []
`;
const titled = (title: string, text = PLAN): string => text.replace(/title: .*/, `title: ${title}`);
const higher = (ceiling: number, text = PLAN): string => text.replace(/ceiling: .*/, `ceiling: ${ceiling}`);
const retitle = (title: string): void => void change('Title', [{ op: 'set', path: ['title'], value: title }]);

/** A server of one plan, whose answers to saves are let go one by one. */
const server = { texts: [] as string[], held: [] as (() => void)[] };
const answer = (status: number, body: unknown) => ({ ok: status < 400, status, json: async () => body });
const state = (): object => ({
  name: 'a.plan.yaml',
  text: server.texts.at(-1),
  revision: server.texts.length,
  hash: `${server.texts.length}`,
  author: 'another',
  issues: [],
});
async function fetched(path: string, { method, body }: { method: string; body?: string }) {
  if (method === 'GET') {
    const session = { open: 'a.plan.yaml' };
    return answer(200, path.endsWith('/opening') ? { session, plans: [], plan: state() } : state());
  }
  const { base, madeOn, text } = JSON.parse(body!) as SaveRequest & { readonly text: string };
  const merge = mergeTexts(madeOn ?? server.texts[base - 1]!, text, server.texts.at(-1)!);
  if (merge.clean) server.texts.push(merge.text);
  const made = merge.clean ? answer(200, state()) : answer(409, { error: {}, current: state() });
  await new Promise<void>((letGo) => server.held.push(letGo));
  return made;
}
/** Lets the save that is under way be answered. */
const answered = async (): Promise<void> => {
  await vi.waitFor(() => expect(server.held.length).toBeGreaterThan(0));
  server.held.shift()!();
};

beforeEach(async () => {
  server.texts = [PLAN];
  server.held = [];
  vi.stubGlobal('window', { name: '' });
  vi.stubGlobal(
    'EventSource',
    class {
      close() {}
    },
  );
  vi.stubGlobal('fetch', fetched);
  await openPlan();
});
afterEach(() => vi.unstubAllGlobals());

it('what others changed stays, where the page went on while its save was merged', async () => {
  server.texts.push(higher(2600));
  retitle('One');
  retitle('Two');
  await answered();
  await answered();
  await vi.waitFor(() => expect(useBench.getState().text).toBe(titled('Two', higher(2600))));
  expect(server.texts.at(-1)).toBe(titled('Two', higher(2600)));
});

it('what was done while a clash was on its way is kept too', async () => {
  server.texts.push(titled('Theirs'));
  retitle('One');
  change('Ceiling', [{ op: 'set', path: ['room', 'ceiling'], value: 2700 }]);
  const sent = vi.fn(fetched);
  vi.stubGlobal('fetch', sent);
  await answered();
  await answered();
  await vi.waitFor(() => expect(useBench.getState().text).toBe(titled('Theirs')));
  expect(sent.mock.calls.map(([, { body }]) => JSON.parse(body!).text)).toEqual([higher(2700, titled('One'))]);
});

it('what others changed is not laid under a hand that holds something', async () => {
  server.texts.push(higher(2600));
  retitle('One');
  useBench.setState({ dragging: true });
  await answered();
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(useBench.getState().text).toBe(titled('One'));
  useBench.setState({ dragging: false });
  await vi.waitFor(() => expect(useBench.getState().text).toBe(titled('One', higher(2600))));
});
