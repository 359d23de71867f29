import {
  API,
  CLIENT_HEADER,
  type Conflict,
  type LiveEvent,
  type PlanState,
  type Refusal,
  type Saved,
  type Session,
} from '../core/workspace/index.ts';
import { lay, useBench } from './bench.ts';

/** Unique enough to tell pages apart; `crypto.randomUUID` does not exist on plain HTTP in a local network. */
export const uniqueId = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
};
const client = uniqueId();

type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly status: number; readonly refusal: Refusal };

/** One request to the server. A refusal is data; only a server that cannot be reached throws. */
export async function ask<T>(method: string, path: string, body?: unknown): Promise<Answer<T>> {
  const response = await fetch(`${API}${path}`, {
    method,
    headers: { [CLIENT_HEADER]: client, ...(body !== undefined && { 'content-type': 'application/json' }) },
    ...(body !== undefined && { body: JSON.stringify(body) }),
  });
  if (response.ok) return { ok: true, value: (response.status === 204 ? undefined : await response.json()) as T };
  return { ok: false, status: response.status, refusal: (await response.json()) as Refusal };
}

const planPath = (name: string): string => `/plans/${encodeURIComponent(name)}`;

export async function openPlan(name?: string): Promise<void> {
  const session = await ask<Session>('GET', '/session');
  if (!session.ok) return useBench.setState({ message: session.refusal.error.message });
  const plan = await ask<PlanState>('GET', planPath(name ?? session.value.open));
  if (!plan.ok) return useBench.setState({ message: plan.refusal.error.message });
  settleOn(plan.value);
  useBench.setState({ option: undefined, done: [], undone: [] });
  listen();
}

/** The text the server has, and what it calls it. */
let saved = { text: '', revision: 0 };
function settleOn(state: PlanState): void {
  saved = { text: state.text, revision: state.revision };
  lay(state.name, state.text, String(state.revision));
}

let saving = false;
/** Saves what stands on the bench, one save at a time; asks again while the bench has moved on meanwhile. */
async function save(): Promise<void> {
  const { name, text } = useBench.getState();
  if (saving || name === '' || text === saved.text) return;
  saving = true;
  try {
    const answer = await ask<Saved>('PUT', planPath(name), { base: saved.revision, id: uniqueId(), text });
    if (answer.ok) {
      const merged = answer.value.outcome === 'merged' && useBench.getState().text === text;
      saved = { text: merged ? answer.value.text : text, revision: answer.value.revision };
      if (merged) lay(name, answer.value.text, String(answer.value.revision));
      useBench.setState({ message: merged ? 'Saved, together with a change made elsewhere.' : 'Saved.' });
    } else if (answer.status === 409) {
      const { current } = answer.refusal as Conflict;
      useBench.setState({ message: 'Somebody else changed the same place. Yours is kept aside; theirs is shown.' });
      settleOn(current);
    } else useBench.setState({ message: `Not saved: ${answer.refusal.error.message}` });
  } catch {
    useBench.setState({ message: 'Not saved: the workbench cannot be reached. What you did is kept on this page.' });
  } finally {
    saving = false;
  }
  const now = useBench.getState();
  if (now.text !== text && now.text !== saved.text) void save();
}
useBench.subscribe((now, before) => {
  if (now.text !== before.text) void save();
});

let events: EventSource | undefined;
function listen(): void {
  events?.close();
  events = new EventSource(`${API}/events`);
  events.onmessage = async ({ data }) => {
    const event = JSON.parse(data as string) as LiveEvent;
    const { name, text } = useBench.getState();
    const mine =
      event.type === 'plan' && (event.name !== name || event.by === client || event.revision <= saved.revision);
    if ((event.type !== 'plan' && event.type !== 'again') || mine || text !== saved.text) return;
    const plan = await ask<PlanState>('GET', planPath(name));
    if (plan.ok && plan.value.text !== useBench.getState().text) {
      settleOn(plan.value);
      useBench.setState({ message: `Changed by ${plan.value.author}.` });
    }
  };
}
