import { create } from 'zustand';
import { packetRegister, type RegisterEntry } from '../core/drawing/index.ts';
import { type Outcome, packetInput } from '../core/outcome.ts';
import { paperOf } from './paper.ts';
import { today } from './today.ts';

/** The pages of the packet as last counted. While a new count is on its way the old one serves. */
interface Kept {
  readonly register: readonly RegisterEntry[];
  readonly fresh: boolean;
}
export const useRegister = create<Kept>()(() => ({ register: [], fresh: false }));

const PAUSE = 300;
let pending: ReturnType<typeof setTimeout> | undefined;

/** Counts the pages of an outcome anew, a chapter at a time so that nothing under the hand waits for it. */
export function countPages(outcome: Outcome): () => void {
  const counting = packetRegister(packetInput(outcome, [], today()), { paper: paperOf(outcome.plan) });
  useRegister.setState({ fresh: false });
  const step = () => {
    const { done, value } = counting.next();
    if (done) useRegister.setState({ register: value, fresh: true });
    else pending = setTimeout(step);
  };
  clearTimeout(pending);
  pending = setTimeout(step, PAUSE);
  return () => clearTimeout(pending);
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
