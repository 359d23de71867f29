import type { RegisterEntry } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import type { Outcome, SetFindings } from '../core/outcome.ts';
import { useBench } from './bench.ts';
import { onLost } from './insist.ts';
import type { FromPacket, Sheet, ToPacket } from './packet-protocol.ts';
import { create } from './store.ts';
import { today } from './today.ts';

/**
 * What takes longer than a frame: all the pages of the packet, and what the finished set does in the room (light, sound, wiring, camera).
 * A worker works it out whenever the hand is still; until then the last of it serves.
 */
export interface Kept {
  readonly register: readonly RegisterEntry[];
  /** By option: of the one that was looked at last with its notes, those on the dates among them. */
  readonly found: ReadonlyMap<string, SetFindings>;
  readonly dates: ReadonlyMap<string, readonly Note[]>;
  readonly sheet: Sheet | undefined;
}
const NONE: Kept = { register: [], found: new Map(), dates: new Map(), sheet: undefined };
export const useRegister = create<Kept>(() => NONE);
// another plan may have options of the same name
useBench.subscribe((now, before) => now.name !== before.name && useRegister.setState(NONE));
export const setFindingsOf = (option: string): SetFindings | undefined => useRegister.getState().found.get(option);

const PAUSE = 250;
let pending: ReturnType<typeof setTimeout> | undefined;
let worker: Worker | undefined;
let busy = false;
let revision = 0;
let wanted = '';
/** What was asked for last. */
let draw = (): void => {};

/** Has the packet of an outcome drawn anew. */
export function countPages(text: string, { option, cuts }: Outcome): void {
  clearTimeout(pending);
  draw = () => {
    if (busy) {
      // what it draws is out of date
      worker?.terminate();
      worker = undefined;
    }
    worker ??= start();
    busy = true;
    const answers = cuts.map((cut) => cut.answer);
    post({ type: 'draw', revision: ++revision, text, option: option.id, today: today(), answers });
    if (wanted !== '') post({ type: 'page', revision, id: wanted });
  };
  pending = setTimeout(draw, PAUSE);
}
/** What is asked for and not begun is not wanted any more. */
export function dropCount(): void {
  clearTimeout(pending);
  draw = () => {};
}

/** Asks for a page that is not drawn here; it comes by the store, now and whenever it changes. */
export function askPage(id: string): void {
  wanted = id;
  if (id !== '' && worker) post({ type: 'page', revision, id });
}

const post = (message: ToPacket): void => worker?.postMessage(message);

function start(): Worker {
  const made = new Worker(new URL('./packet.worker.ts', import.meta.url), { type: 'module' });
  made.onmessage = ({ data }: MessageEvent<FromPacket>) => {
    if (data.revision !== revision) return;
    if (data.type === 'drawn') busy = false;
    useRegister.setState((kept) => heard(kept, data));
  };
  onLost(made, () => worker === made && draw());
  return made;
}
// what is under way when a hand takes hold is out of date by the time it lets go
useBench.subscribe((now, before) => {
  if (!now.dragging || before.dragging || !busy) return;
  worker?.terminate();
  worker = undefined;
  busy = false;
});

/** What the page knows after a message of the worker. What a message does not speak of stays as it was: nothing flickers. */
export function heard(kept: Kept, message: FromPacket): Partial<Kept> {
  const { found, dates } = kept;
  switch (message.type) {
    case 'found': {
      const { notes, fittings } = message.found;
      const all = { notes: [...notes, ...(dates.get(message.option) ?? [])], fittings };
      return { found: new Map(found).set(message.option, all) };
    }
    case 'dates': {
      const old = dates.get(message.option) ?? [];
      const own = found.get(message.option);
      const notes = [...(own?.notes ?? []).filter((note) => !old.includes(note)), ...message.notes];
      return {
        found: new Map(found).set(message.option, { notes, fittings: own?.fittings ?? [] }),
        dates: new Map(dates).set(message.option, message.notes),
      };
    }
    case 'others': {
      const all = new Map(found);
      for (const [id, { notes, fittings }] of message.found)
        all.set(id, { notes: [...notes, ...(dates.get(id) ?? [])], fittings });
      return { found: all };
    }
    case 'drawn':
      return { register: message.register };
    case 'page':
      return { sheet: message.sheet };
  }
}
