import { create } from 'zustand';
import type { RegisterEntry } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import type { FromRegister, ToRegister } from './packet.worker.ts';
import { today } from './today.ts';

/** The pages of the packet as last counted. While a new count is on its way the old one serves. */
interface Kept {
  readonly register: readonly RegisterEntry[];
  readonly fresh: boolean;
}
export const useRegister = create<Kept>()(() => ({ register: [], fresh: false }));

let worker: Worker | undefined;
let revision = 0;
let pending: ReturnType<typeof setTimeout> | undefined;
const PAUSE = 300;

/** Asks for the register of an outcome; the answer comes by the store. */
export function countPages(text: string, { option, cuts }: Outcome): void {
  clearTimeout(pending);
  useRegister.setState({ fresh: false });
  pending = setTimeout(() => {
    // what is still being counted is out of date
    if (!useRegister.getState().fresh && worker && busy) {
      worker.terminate();
      worker = undefined;
    }
    worker ??= start();
    busy = true;
    const message: ToRegister = {
      revision: ++revision,
      text,
      option: option.id,
      today: today(),
      answers: cuts.map((cut) => cut.answer),
    };
    worker.postMessage(message);
  }, PAUSE);
}
let busy = false;

function start(): Worker {
  const made = new Worker(new URL('./packet.worker.ts', import.meta.url), { type: 'module' });
  made.onmessage = ({ data }: MessageEvent<FromRegister>) => {
    if (data.revision !== revision) return;
    busy = false;
    useRegister.setState({ register: data.register, fresh: true });
  };
  return made;
}

/** Before the first count: the pages there are for certain. */
export const firstPages = ({ room, pieces }: Outcome): readonly RegisterEntry[] => [
  { id: 'cover', number: 1, title: 'Cover', chapter: 'Overview' },
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
