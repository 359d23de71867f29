import { create } from 'zustand';
import type { Page, RegisterEntry } from '../core/drawing/index.ts';
import type { Outcome, SetFindings } from '../core/outcome.ts';
import type { FromPacket, ToPacket } from './packet.worker.ts';
import { today } from './today.ts';

/**
 * What takes longer than a frame: all the pages of the packet, and what the finished set does in the room (light, sound, wiring, camera).
 * A worker works it out whenever the hand is still; until then the last of it serves.
 */
interface Kept {
  readonly register: readonly RegisterEntry[];
  /** By option. */
  readonly found: ReadonlyMap<string, SetFindings>;
  readonly page: Page | undefined;
}
export const useRegister = create<Kept>()(() => ({ register: [], found: new Map(), page: undefined }));
export const setFindingsOf = (option: string): SetFindings | undefined => useRegister.getState().found.get(option);

const PAUSE = 250;
let pending: ReturnType<typeof setTimeout> | undefined;
let worker: Worker | undefined;
let busy = false;
let revision = 0;
let wanted = '';

/** Has the packet of an outcome drawn anew. */
export function countPages(text: string, { option, cuts }: Outcome): () => void {
  clearTimeout(pending);
  pending = setTimeout(() => {
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
  }, PAUSE);
  return () => clearTimeout(pending);
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
    if (data.type === 'page') return useRegister.setState({ page: data.page });
    busy = false;
    const { register, option } = data;
    // of the other options, the notes that were found when they were looked at serve on
    useRegister.setState(({ found: before }) => ({
      register,
      found: new Map(
        data.found.map(([id, found]) => [id, id === option ? found : { ...found, notes: before.get(id)?.notes ?? [] }]),
      ),
    }));
  };
  return made;
}

/** Before the first count: the pages there are for certain. */
export const firstPages = ({ room, pieces }: Outcome): readonly RegisterEntry[] => [
  { id: 'cover', number: 1, title: 'Overview', chapter: 'Overview' },
  { id: 'plan', number: 2, title: 'Plan of the room', chapter: 'Room' },
  ...room.walls
    .filter((wall) => pieces.some((piece) => piece.wall?.id === wall.id))
    .map(
      (wall, i): RegisterEntry => ({
        id: `elevation-${wall.id}`,
        number: 3 + i,
        title: `Elevation, ${wall.id} wall`,
        chapter: 'Room',
      }),
    ),
];

/** The page that is opened first: the elevation of the wall on which most is built. */
export function firstPage({ pieces }: Outcome, register: readonly RegisterEntry[]): string {
  const parts = (id: string): number =>
    pieces.reduce((n, piece) => n + (`elevation-${piece.wall?.id}` === id ? piece.parts.length : 0), 0);
  const walls = register.filter(({ id }) => id.startsWith('elevation-')).map(({ id }) => id);
  return walls.reduce((best, id) => (parts(id) > parts(best) ? id : best), walls[0] ?? 'cover');
}
