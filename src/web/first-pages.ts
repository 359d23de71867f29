import { wallCalled } from '../core/called.ts';
import type { RegisterEntry } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';

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
        title: `Elevation, ${wallCalled(wall.id)}`,
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
