import { useEffect } from 'preact/compat';
import { type NewTick, type Tick, type Ticks, tickStates } from '../core/workspace/index.ts';
import { create } from './store.ts';
import { ask, planPath, uniqueId, useDesk } from './workspace.ts';

/**
 * What was ticked off in the shop. Every tick goes into a list the browser keeps, and leaves it when the server has it: a bad
 * connection only makes it later.
 */
interface Ticked {
  readonly known: readonly NewTick[];
  readonly queued: readonly NewTick[];
  /** Why they were not taken, where the connection is not to blame. */
  readonly why?: string | undefined;
}
export const useTicks = create<Ticked>(() => ({ known: [], queued: [] }));

const place = (plan: string): string => `setwright:ticks:${plan}`;
let current = '';

function keep(): void {
  try {
    localStorage.setItem(place(current), JSON.stringify(useTicks.getState()));
  } catch {
    // no room: the page itself still holds them
  }
}

export function tick(plan: string, about: string, done: boolean): void {
  const made: NewTick = { id: uniqueId(), about, done, at: new Date().toISOString() };
  useTicks.setState((t) => ({ queued: [...t.queued, made] }));
  keep();
  void deliver(plan);
}

let busy = false;
async function deliver(plan: string): Promise<void> {
  const { queued } = useTicks.getState();
  if (busy || queued.length === 0 || plan !== current) return;
  busy = true;
  const answer = await ask<Ticks>('POST', `${planPath(plan)}/ticks`, { ticks: queued.slice(0, 200) });
  busy = false;
  useTicks.setState({ why: answer.ok || answer.status === 0 ? undefined : answer.refusal.error.message });
  if (answer.ok) {
    const got = new Set(answer.value.ticks.map((t) => t.id));
    useTicks.setState((t) => ({
      known: merged(t.known, answer.value.ticks),
      queued: t.queued.filter((q) => !got.has(q.id)),
    }));
    keep();
    if (useTicks.getState().queued.length > 0 && got.size > 0) void deliver(plan);
  } else setTimeout(() => void deliver(plan), 5000);
}

function merged(known: readonly NewTick[], more: readonly Tick[]): readonly NewTick[] {
  const ids = new Set(known.map((t) => t.id));
  return [...known, ...more.filter((t) => !ids.has(t.id))];
}

/** The tick that holds for each thing, by the server's and those still on their way. */
export function useTickStates(plan: string): ReadonlyMap<string, NewTick> {
  const { known, queued } = useTicks();
  const event = useDesk((d) => d.event);
  useEffect(() => {
    if (plan === '') return;
    if (plan !== current) {
      current = plan;
      let kept: Ticked = { known: [], queued: [] };
      try {
        kept = (JSON.parse(localStorage.getItem(place(plan)) ?? 'null') as Ticked | null) ?? kept;
      } catch {
        // unreadable: the server has them
      }
      useTicks.setState(kept);
    }
    void ask<Ticks>('GET', `${planPath(plan)}/ticks`).then((answer) => {
      if (answer.ok) useTicks.setState((t) => ({ known: merged(t.known, answer.value.ticks) }));
    });
    void deliver(plan);
    const online = () => void deliver(plan);
    addEventListener('online', online);
    return () => removeEventListener('online', online);
  }, [plan]);
  useEffect(() => {
    if (event?.type === 'ticks' && event.name === plan)
      useTicks.setState((t) => ({ known: merged(t.known, event.ticks) }));
    if (event?.type === 'hello') void deliver(plan);
  }, [event, plan]);
  return tickStates([...known, ...queued]);
}
