import {
  API,
  CLIENT_HEADER,
  type Conflict,
  type LiveEvent,
  type Moved,
  type NewPlan,
  type Opening,
  type PlanEntry,
  type PlanState,
  type Plans,
  type ReadPlan,
  type Refusal,
  type Saved,
  type Session,
} from '../core/workspace/index.ts';
import { layAnew, say, takeOver, useBench } from './bench.ts';
import { create } from './store.ts';

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
      // a change names the page that makes it; what is only asked for goes as plainly as the page asks ahead for it
      headers: {
        ...(method !== 'GET' && { [CLIENT_HEADER]: client }),
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    const value: unknown = response.status === 204 ? undefined : await response.json();
    const moved = !response.ok && (value as Refusal).error.moved;
    if (moved) await follow(moved);
    const shut = response.status === 401;
    if (shut !== useDesk.getState().shut) useDesk.setState({ shut });
    return response.ok
      ? { ok: true, value: value as T }
      : { ok: false, status: response.status, refusal: value as Refusal };
  } catch {
    const message = 'The workbench cannot be reached. What you did is kept on this page.';
    return { ok: false, status: 0, refusal: { error: { code: 'failed', message } } };
  }
}

/** Undefined while it cannot be loaded: what needs it goes another way, or is told again. */
const elsewhere = () => import('./elsewhere.ts').catch(() => undefined);
async function follow(moved: Moved): Promise<void> {
  if (!(await elsewhere())?.follow(moved)) return;
  useDesk.setState({ gone: false });
  void save();
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
  /** Whether the server tells its news: without it nothing is lost, but nothing comes either. */
  readonly reached: boolean;
  /** This device is let in no more. */
  readonly shut: boolean;
  /** The file on the bench was taken away by another program. */
  readonly gone: boolean;
  /** The newest thing the server told, for views that show more than the plan. */
  readonly event: LiveEvent | undefined;
}
export const useDesk = create<Desk>(() => ({
  state: 'opening',
  session: undefined,
  plans: [],
  why: '',
  kept: 'saved',
  reached: true,
  shut: false,
  gone: false,
  event: undefined,
}));

/** Opens the plan the server was given, or the named one, or the only one there is; without any, the bench is empty. */
export async function openPlan(name?: string): Promise<void> {
  const opening = await ask<Opening>('GET', '/opening');
  if (!opening.ok)
    return useDesk.setState({
      state: opening.status === 401 ? 'unpaired' : 'failed',
      why: opening.refusal.error.message,
    });
  const { session, plans, plan: opened, read } = opening.value;
  useDesk.setState({ session, plans });
  listen();
  const here = plans.find((plan) => window.name === hereOf(session.open, plan.name));
  const only = plans.length === 1 && plans[0]!.sound ? plans[0]!.name : '';
  const wanted = name ?? here?.name ?? (session.open || only);
  if (wanted === '') return useDesk.setState({ state: 'empty', why: '' });
  const { left, asked } = await deliverLeft(wanted);
  // what was delivered only now is not in the plan that came with the opening
  if (opened?.name === wanted && !asked) return take(opened, left, read);
  const plan = await ask<PlanState>('GET', planPath(wanted));
  if (plan.ok) return take(plan.value, left);
  const { moved } = plan.refusal.error;
  if (moved) return openPlan(moved.to);
  // what was made on a file that is gone is still here
  if (left && plan.status === 404) return takeUnsaved(wanted, left);
  useDesk.setState({ state: 'empty', why: plan.refusal.error.message });
}

/** What the tab is called while a plan lies there: loaded again it goes on with it, unless the server was started on another. */
const hereOf = (open: string | undefined, name: string): string => `setwright ${open} ${name}`;
useBench.subscribe(({ name }, before) => {
  if (name !== before.name) window.name = hereOf(useDesk.getState().session?.open, name);
});

/** Lays a plan on the bench; or what was made on it and still cannot be kept, to be saved on what it was made on. */
function take(state: PlanState, left?: Left, read?: ReadPlan): void {
  if (left) {
    takeUnsaved(state.name, left);
    return;
  }
  saved = { text: state.text, revision: state.revision, hash: state.hash };
  layAnew(state.name, state.text, state.revision, read);
  useDesk.setState({ state: 'open', why: '', kept: 'saved', gone: false });
}
function takeUnsaved(name: string, { text, revision, hash, place }: Left): void {
  saved = { text: '', revision, hash };
  layAnew(name, text, revision);
  useDesk.setState({ state: 'open', why: '', gone: false });
  void save();
  // this page keeps it from here: brought once more later, it would do again what was undone meanwhile
  if (localStorage.getItem(unsavedOf(name) + client) !== null) localStorage.removeItem(place);
}

export async function newPlan(name: string, text: string): Promise<string | undefined> {
  const made = await ask<PlanState>('POST', '/plans', { name, text } satisfies NewPlan);
  if (!made.ok) return made.refusal.error.message;
  take(made.value);
  return undefined;
}

/** What this page knows last to be with the server, and the revision in which it is; `merged` when that holds more, which is not shown yet. */
let saved: { readonly text: string; readonly revision: number; readonly hash: string; readonly merged?: boolean } = {
  text: '',
  revision: 0,
  hash: '',
};
export const revisionNow = (): number => saved.revision;

const know = ({ text, revision, hash }: PlanState): void => {
  saved = { text, revision, hash };
  useBench.setState({ revision });
};
/** Puts a text that the server sent on the bench. */
export function settleOn(state: PlanState, title?: string): void {
  know(state);
  takeOver(state.name, state.text, title);
}
let saving = false;
/** Why the last save failed. */
let why = '';
let again: ReturnType<typeof setTimeout> | undefined;
const RETRY = 4000;

/** Saves what stands on the bench, one save at a time; asks again while the bench has moved on meanwhile. */
async function save(): Promise<void> {
  const { name, text } = useBench.getState();
  if (saving || name === '' || text === saved.text) return;
  saving = true;
  clearTimeout(again);
  useDesk.setState({ kept: 'saving' });
  // kept by the browser before it is sent: neither a page that is closed nor a server that falls takes it along
  const { revision, hash, merged } = saved;
  const unsaved: Unsaved = { text, revision, hash, id: uniqueId(), ...(merged && { madeOn: saved.text }) };
  keepUnsaved(name, unsaved);
  const answer = await send(name, unsaved);
  // what somebody else did is not laid under a hand that holds something
  if (answer.ok ? answer.value.text !== text : answer.status === 409) await handIsFree();
  saving = false;
  if (useBench.getState().name !== name) {
    // another plan was laid on the bench meanwhile: what was sent is with the server, or waits in the browser for when this one is opened
    if (answer.ok || answer.status === 409) keepUnsaved(name, undefined);
    useDesk.setState({ kept: 'saved' });
    void save();
    return;
  }
  if (answer.ok) {
    const { value } = answer;
    keepUnsaved(name, undefined);
    // why it could not be saved does not hold any more
    if (useBench.getState().message === why) say(undefined);
    const untouched = useBench.getState().text === text;
    know(value);
    if (value.text !== text && untouched) {
      takeOver(name, value.text);
      say('Saved, together with a change made elsewhere.');
    } else if (value.text !== text) saved = { ...saved, text, merged: true };
    useDesk.setState({ kept: 'saved', gone: false });
  } else if (answer.status === 409 && 'current' in answer.refusal) {
    // what was done meanwhile is kept with the rest
    if (useBench.getState().text !== text) return save();
    const { current } = answer.refusal as Conflict;
    keepUnsaved(name, undefined);
    say('Somebody else changed the same place. Yours is kept among the revisions; theirs is shown.');
    settleOn(current);
    useDesk.setState({ kept: 'saved' });
  } else {
    useDesk.setState({ kept: 'not saved' });
    const { code, message } = answer.refusal.error;
    why = message;
    if (answer.status === 404) useDesk.setState({ gone: true });
    // of one that is shut out it is said already
    else if (answer.status !== 401) say(why);
    if (answer.status === 0 || answer.status === 429 || answer.status >= 500 || code === 'read-only')
      again = setTimeout(() => void save(), RETRY);
    return;
  }
  if (useBench.getState().text !== saved.text) void save();
}
useBench.subscribe((now, before) => {
  if (now.text !== before.text && now.name === before.name) void save();
});

/** A text on its way, what it was made on, and the name of the save, by which the server knows one that it has already. */
interface Unsaved {
  readonly text: string;
  readonly revision: number;
  readonly hash: string;
  readonly id: string;
  /** Where it was not made on that revision's own text. */
  readonly madeOn?: string;
}
/** What a page that is gone had not delivered, and where the browser has it. */
interface Left extends Unsaved {
  readonly place: string;
}
const send = (name: string, { revision, hash, ...more }: Unsaved): Promise<Answer<Saved>> =>
  ask<Saved>('PUT', planPath(name), { base: revision, ...(hash !== '' && { baseHash: hash }), ...more });

/** One place for each plan and page: of two pages without a server neither takes the other's. */
const unsavedOf = (name: string): string => `setwright:unsaved:${name}:`;
export function keepUnsaved(name: string, unsaved: Unsaved | undefined): void {
  try {
    if (unsaved === undefined) localStorage.removeItem(unsavedOf(name) + client);
    else localStorage.setItem(unsavedOf(name) + client, JSON.stringify(unsaved));
  } catch {
    // no room in the browser: the page itself still holds it
  }
}

/**
 * Brings to the server what pages that are gone had not delivered: it merges, or keeps it among the revisions. What cannot be kept even
 * now is given back, to stand on the bench.
 */
async function deliverLeft(name: string): Promise<{ readonly left?: Left; readonly asked: boolean }> {
  let left: Left | undefined;
  let asked = false;
  try {
    const places = Object.keys(localStorage).filter((key) => key.startsWith(unsavedOf(name)));
    for (const place of places) {
      const unsaved = JSON.parse(localStorage.getItem(place) ?? 'null') as Unsaved | null;
      asked = true;
      const answer = unsaved && (await send(name, unsaved));
      if (answer && !answer.ok && answer.status !== 409) left ??= { ...unsaved, place };
      else localStorage.removeItem(place);
    }
  } catch {
    // unreadable or forbidden: as if nothing had been kept
  }
  return { ...(left && { left }), asked };
}

let events: EventSource | undefined;
let listening: ReturnType<typeof setTimeout> | undefined;
function listen(): void {
  events?.close();
  clearTimeout(listening);
  const stream = new EventSource(`${API}/events?page=${client}`);
  events = stream;
  stream.onmessage = ({ data }) => void heard(JSON.parse(data as string) as LiveEvent);
  let lost: ReturnType<typeof setTimeout> | undefined;
  stream.onopen = () => {
    clearTimeout(lost);
    useDesk.setState({ reached: true });
  };
  stream.onerror = () => {
    // one that is back in a moment is nothing to speak of
    clearTimeout(lost);
    lost = setTimeout(() => stream === events && useDesk.setState({ reached: false }), RETRY / 2);
    // a lost connection comes back by itself; one that was refused (a flood, a session that ran out) does not, and is not told why
    if (stream.readyState !== EventSource.CLOSED || events !== stream) return;
    listening = setTimeout(listen, RETRY);
    void ask('GET', '/plans');
  };
}

async function heard(event: LiveEvent): Promise<void> {
  useDesk.setState({ event });
  const { name } = useBench.getState();
  if (event.type === 'plans') {
    const plans = await ask<Plans>('GET', '/plans');
    if (plans.ok) useDesk.setState({ plans: plans.value.plans });
  }
  if (event.type === 'plan-gone' && event.name === name) {
    useDesk.setState({ gone: true });
    if (event.to !== undefined) void follow({ name, to: event.to });
  }
  if (event.type === 'plan' && event.name === name) useDesk.setState({ gone: false });
  if (event.type === 'hello' && useDesk.getState().kept === 'not saved') void save();
  const ours = event.type === 'plan' && event.name === name && event.by !== client && event.revision > saved.revision;
  // a stream that is new, or had a gap, may have missed something
  if (name === '' || !(ours || event.type === 'again' || event.type === 'hello')) return;
  // places in the plan are told by their numbers: they stay as they are while something is held
  await handIsFree();
  const plan = await ask<PlanState>('GET', planPath(name));
  // another plan may lie on the bench by now
  if (useBench.getState().name !== name) return;
  // what is on the bench and not saved yet goes to the server first: it merges
  if (!plan.ok || useBench.getState().text !== saved.text || plan.value.text === saved.text) return;
  settleOn(plan.value);
  const { author } = plan.value;
  say(author === 'this machine' ? 'Changed in another window.' : `Changed by ${author}.`);
}

const handIsFree = (): Promise<void> =>
  new Promise((resolve) => {
    if (!useBench.getState().dragging) return resolve();
    const stop = useBench.subscribe(({ dragging }) => {
      if (dragging) return;
      stop();
      resolve();
    });
  });
