import { useEffect } from 'preact/compat';
import {
  type LiveEvent,
  type NewTick,
  type Tick,
  type TickRequest,
  type Ticks,
  tickStates,
} from '../core/workspace/index.ts';
import { create } from './store.ts';
import { ask, planPath, uniqueId, useDesk } from './workspace.ts';

/**
 * What was ticked off in the shop. Every tick goes into a list the browser keeps, and leaves it when the server has it: a bad
 * connection only makes it later.
 */
interface Ticked {
  readonly plan: string;
  readonly known: readonly NewTick[];
  readonly queued: readonly NewTick[];
  /** Why they were not taken, where the connection is not to blame. */
  readonly why?: string | undefined;
}
export const useTicks = create<Ticked>(() => ({ plan: '', known: [], queued: [] }));

const knownPlace = (plan: string): string => `setwright:ticked:${plan}`;
/** Where all that waited stood in one before: it is put where each has its own. */
const formerPlace = (plan: string): string => `setwright:ticks:${plan}`;
/** Each that waits has a place of its own: of two pages without a connection neither takes the other's. */
const queuePlace = (plan: string): string => `setwright:tick:${plan}:`;

/** The browser's own memory, where there is room in it: the page itself still holds everything. */
function putAside(place: string, what: unknown): void {
  try {
    if (what === undefined) localStorage.removeItem(place);
    else localStorage.setItem(place, JSON.stringify(what));
  } catch {
    // no room
  }
}
function recall<T>(place: string, otherwise: T): T {
  try {
    return (JSON.parse(localStorage.getItem(place) ?? 'null') as T | null) ?? otherwise;
  } catch {
    return otherwise; // unreadable: the server has them
  }
}
function recallQueue(plan: string): readonly NewTick[] {
  for (const one of recall<{ readonly queued?: readonly NewTick[] }>(formerPlace(plan), {}).queued ?? [])
    putAside(queuePlace(plan) + one.id, one);
  putAside(formerPlace(plan), undefined);
  let places: readonly string[] = [];
  try {
    places = Object.keys(localStorage).filter((place) => place.startsWith(queuePlace(plan)));
  } catch {
    // forbidden
  }
  const ticks = places.map((place) => recall<NewTick | undefined>(place, undefined)).filter((t) => t !== undefined);
  return ticks.sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}

/** A clock that is behind, or was set back, takes nobody's last word: a tick is later than all that this page knows of the same thing. */
function timeOf(about: string): string {
  const { known, queued } = useTicks.getState();
  const before = tickStates([...known, ...queued]).get(about);
  return new Date(Math.max(Date.now(), before ? Date.parse(before.at) + 1 : 0)).toISOString();
}

export function tick(plan: string, about: string, done: boolean): void {
  const made: NewTick = { id: uniqueId(), about, done, at: timeOf(about) };
  putAside(queuePlace(plan) + made.id, made);
  useTicks.setState((t) => ({ queued: [...t.queued, made] }));
  void deliver();
}

const RETRY = 5000;
const MOST_AT_ONCE = 200;
let busy = false;
let again: ReturnType<typeof setTimeout> | undefined;
async function deliver(): Promise<void> {
  const { plan, queued } = useTicks.getState();
  if (busy || plan === '' || queued.length === 0) return;
  busy = true;
  clearTimeout(again);
  const body: TickRequest = { ticks: queued.slice(0, MOST_AT_ONCE), sent: new Date().toISOString() };
  const answer = await ask<Ticks>('POST', `${planPath(plan)}/ticks`, body);
  busy = false;
  const got = new Set(answer.ok ? answer.value.ticks.map((t) => t.id) : []);
  for (const id of got) putAside(queuePlace(plan) + id, undefined);
  // another plan may lie on the bench by now, with a queue of its own
  if (useTicks.getState().plan !== plan) return void deliver();
  useTicks.setState((t) => ({
    queued: t.queued.filter((q) => !got.has(q.id)),
    why: answer.ok || answer.status === 0 ? undefined : answer.refusal.error.message,
  }));
  if (answer.ok) learn(plan, answer.value.ticks);
  if (useTicks.getState().queued.length === 0) return;
  if (got.size > 0) void deliver();
  else again = setTimeout(() => void deliver(), RETRY);
}

/** Ticks of a plan that the server told. */
function learn(plan: string, more: readonly Tick[]): void {
  const { plan: current, known } = useTicks.getState();
  if (plan !== current) return;
  const ids = new Set(known.map((t) => t.id));
  const all = [...known, ...more.filter((t) => !ids.has(t.id))];
  useTicks.setState({ known: all });
  putAside(knownPlace(plan), all);
}

/** Reads the whole log, which the server tells by pieces. */
async function readAll(plan: string): Promise<void> {
  for (let after = 0; plan === useTicks.getState().plan; ) {
    const answer = await ask<Ticks>('GET', `${planPath(plan)}/ticks?after=${after}`);
    if (!answer.ok) return;
    learn(plan, answer.value.ticks);
    if (!answer.value.more) return;
    after = answer.value.last;
  }
}

function heard(event: LiveEvent): void {
  const { plan } = useTicks.getState();
  if (plan === '') return;
  if (event.type === 'ticks') learn(event.name, event.ticks);
  // a stream that is new, or had a gap, may have missed some
  if (event.type !== 'hello' && event.type !== 'again') return;
  void deliver();
  void readAll(plan);
}
// every event, where what is drawn by them may see only the last of several
useDesk.subscribe(({ event }, before) => event && event !== before.event && heard(event));
addEventListener('online', () => void deliver());

/** The tick that holds for each thing, by the server's and those still on their way. */
export function useTickStates(plan: string): ReadonlyMap<string, NewTick> {
  const { plan: current, known, queued } = useTicks();
  useEffect(() => {
    if (plan === '' || plan === useTicks.getState().plan) return;
    useTicks.setState({ plan, known: recall(knownPlace(plan), []), queued: recallQueue(plan), why: undefined });
    void readAll(plan);
    void deliver();
  }, [plan]);
  return tickStates(plan === current ? [...known, ...queued] : []);
}
