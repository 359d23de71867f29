import { create } from 'zustand';
import {
  API,
  CLIENT_HEADER,
  type Conflict,
  type LiveEvent,
  type NewPlan,
  type PlanEntry,
  type PlanState,
  type Plans,
  type Refusal,
  type Saved,
  type Session,
} from '../core/workspace/index.ts';
import { lay, layAnew, say, useBench } from './bench.ts';

/** Unique enough to tell pages apart; `crypto.randomUUID` does not exist on plain HTTP in a local network. */
export const uniqueId = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
};
const client = uniqueId();

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly status: number; readonly refusal: Refusal };

/** One request to the server. A refusal is data; a server that cannot be reached is one with the status 0. */
export async function ask<T>(method: string, path: string, body?: unknown): Promise<Answer<T>> {
  try {
    const response = await fetch(`${API}${path}`, {
      method,
      headers: { [CLIENT_HEADER]: client, ...(body !== undefined && { 'content-type': 'application/json' }) },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    const value: unknown = response.status === 204 ? undefined : await response.json();
    return response.ok
      ? { ok: true, value: value as T }
      : { ok: false, status: response.status, refusal: value as Refusal };
  } catch {
    const message = 'The workbench cannot be reached. What you did is kept on this page.';
    return { ok: false, status: 0, refusal: { error: { code: 'failed', message } } };
  }
}

export const planPath = (name: string): string => `/plans/${encodeURIComponent(name)}`;

/** Where this page stands with the server. */
interface Desk {
  readonly state: 'opening' | 'unpaired' | 'empty' | 'open' | 'failed';
  readonly session: Session | undefined;
  readonly plans: readonly PlanEntry[];
  readonly why: string;
  /** Whether what stands on the bench is with the server. */
  readonly kept: 'saved' | 'saving' | 'not saved';
  /** The newest thing the server told, for views that show more than the plan. */
  readonly event: LiveEvent | undefined;
}
export const useDesk = create<Desk>()(() => ({
  state: 'opening',
  session: undefined,
  plans: [],
  why: '',
  kept: 'saved',
  event: undefined,
}));

/** Opens the plan the server was given, or the named one; without any, the bench is empty. */
export async function openPlan(name?: string): Promise<void> {
  const session = await ask<Session>('GET', '/session');
  if (!session.ok)
    return useDesk.setState({
      state: session.status === 401 ? 'unpaired' : 'failed',
      why: session.refusal.error.message,
    });
  useDesk.setState({ session: session.value });
  listen();
  const plans = await ask<Plans>('GET', '/plans');
  if (plans.ok) useDesk.setState({ plans: plans.value.plans });
  const wanted = name ?? session.value.open;
  if (wanted === '') return useDesk.setState({ state: 'empty', why: '' });
  const plan = await ask<PlanState>('GET', planPath(wanted));
  if (!plan.ok) return useDesk.setState({ state: 'empty', why: plan.refusal.error.message });
  take(plan.value);
}

function take(state: PlanState): void {
  saved = { text: state.text, revision: state.revision, hash: state.hash };
  const unsaved = keptUnsaved(state.name);
  layAnew(state.name, unsaved?.text ?? state.text);
  useDesk.setState({ state: 'open', why: '' });
  if (unsaved && unsaved.text !== state.text) {
    // made while the server could not be reached: saved on what it was made on, so that other changes are merged
    saved = { text: '', revision: unsaved.revision, hash: unsaved.hash };
    void save();
  }
}

export async function newPlan(name: string, text: string): Promise<string | undefined> {
  const made = await ask<PlanState>('POST', '/plans', { name, text } satisfies NewPlan);
  if (!made.ok) return made.refusal.error.message;
  take(made.value);
  return undefined;
}

/** The text the server has, and what it calls it. */
let saved = { text: '', revision: 0, hash: '' };
export const revisionNow = (): number => saved.revision;

/** Puts a text that the server sent on the bench. */
export function settleOn(state: PlanState): void {
  saved = { text: state.text, revision: state.revision, hash: state.hash };
  lay(state.name, state.text);
}

let saving = false;
let again: ReturnType<typeof setTimeout> | undefined;
const RETRY = 4000;

/** Saves what stands on the bench, one save at a time; asks again while the bench has moved on meanwhile. */
async function save(): Promise<void> {
  const { name, text } = useBench.getState();
  if (saving || name === '' || text === saved.text) return;
  saving = true;
  clearTimeout(again);
  useDesk.setState({ kept: 'saving' });
  const base = saved.hash === '' ? {} : { baseHash: saved.hash };
  const answer = await ask<Saved>('PUT', planPath(name), { base: saved.revision, ...base, id: uniqueId(), text });
  saving = false;
  if (answer.ok) {
    const { value } = answer;
    keepUnsaved(name, undefined);
    const untouched = useBench.getState().text === text && useBench.getState().name === name;
    saved = { text: value.text, revision: value.revision, hash: value.hash };
    if (value.text !== text && untouched) {
      lay(name, value.text);
      say('Saved, together with a change made elsewhere.');
    } else if (value.text !== text) saved = { ...saved, text };
    useDesk.setState({ kept: 'saved' });
  } else if (answer.status === 409 && 'current' in answer.refusal) {
    const { current } = answer.refusal as Conflict;
    keepUnsaved(name, undefined);
    say('Somebody else changed the same place. Yours is kept among the revisions; theirs is shown.');
    settleOn(current);
    useDesk.setState({ kept: 'saved' });
  } else {
    keepUnsaved(name, text);
    useDesk.setState({ kept: 'not saved' });
    say(`Not saved: ${answer.refusal.error.message}`);
    if (answer.status === 0 || answer.status === 429 || answer.status >= 500)
      again = setTimeout(() => void save(), RETRY);
    return;
  }
  if (useBench.getState().text !== saved.text) void save();
}
useBench.subscribe((now, before) => {
  if (now.text !== before.text && now.name === before.name) void save();
});

interface Unsaved {
  readonly text: string;
  readonly revision: number;
  readonly hash: string;
}
const unsavedPlace = (name: string): string => `setwright:unsaved:${name}`;
function keepUnsaved(name: string, text: string | undefined): void {
  try {
    if (text === undefined) localStorage.removeItem(unsavedPlace(name));
    else
      localStorage.setItem(
        unsavedPlace(name),
        JSON.stringify({ text, revision: saved.revision, hash: saved.hash } satisfies Unsaved),
      );
  } catch {
    // no room in the browser: the page itself still holds it
  }
}
function keptUnsaved(name: string): Unsaved | undefined {
  try {
    return (JSON.parse(localStorage.getItem(unsavedPlace(name)) ?? 'null') as Unsaved | null) ?? undefined;
  } catch {
    return undefined;
  }
}

let events: EventSource | undefined;
function listen(): void {
  events?.close();
  events = new EventSource(`${API}/events`);
  events.onmessage = ({ data }) => void heard(JSON.parse(data as string) as LiveEvent);
}

async function heard(event: LiveEvent): Promise<void> {
  useDesk.setState({ event });
  const { name } = useBench.getState();
  if (event.type === 'plans') {
    const plans = await ask<Plans>('GET', '/plans');
    if (plans.ok) useDesk.setState({ plans: plans.value.plans });
  }
  if (event.type === 'hello' && useDesk.getState().kept === 'not saved') void save();
  const ours = event.type === 'plan' && event.name === name && event.by !== client && event.revision > saved.revision;
  if (name === '' || !(ours || event.type === 'again')) return;
  const plan = await ask<PlanState>('GET', planPath(name));
  // what is on the bench and not saved yet goes to the server first: it merges
  if (!plan.ok || useBench.getState().text !== saved.text || plan.value.text === saved.text) return;
  settleOn(plan.value);
  say(`Changed by ${plan.value.author}.`);
}
