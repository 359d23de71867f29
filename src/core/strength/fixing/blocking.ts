import type { Edit } from '../../plan/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { set, type WallInput } from '../plan-input.ts';

interface Block {
  readonly from: number;
  readonly to: number;
  readonly above: number;
  readonly height: number;
  readonly thickness: number;
}

/** A piece of 38 mm timber 140 high behind a stretch of wall, with its middle at a height. */
export const blockOf = (wall: PlacedWall, [from, to]: readonly [number, number], middle: number): Block => ({
  from: Math.max(0, from - 30),
  to: Math.min(wall.length, to + 30),
  above: Math.max(0, middle - 70),
  height: 140,
  thickness: 38,
});

/** The plan with timber let in behind a wall; undefined where nothing can be let in. */
export function blocked(
  input: WallInput,
  wall: PlacedWall,
  block: Block,
): { readonly input: WallInput; readonly edits: readonly Edit[] } | undefined {
  const index = input.plan.room.walls.findIndex((w) => w.id === wall.id);
  const saidWall = input.plan.room.walls[index]!;
  const { framing } = saidWall;
  if (framing?.kind !== 'timber stud' && framing?.kind !== 'steel stud') return undefined;
  const path = ['room', 'walls', index, 'framing', 'blocking'];
  const plain = Object.fromEntries(Object.entries(block).map(([key, value]) => [key, `${value} mm`]));
  const walls = input.plan.room.walls.with(index, {
    ...saidWall,
    framing: {
      ...framing,
      blocking: [...(framing.blocking ?? []), block as unknown as NonNullable<typeof framing.blocking>[number]],
    },
  });
  return {
    input: { ...input, plan: { ...input.plan, room: { ...input.plan.room, walls } } },
    edits: [
      framing.blocking ? { op: 'insert', path: [...path, framing.blocking.length], value: plain } : set(path, [plain]),
    ],
  };
}
