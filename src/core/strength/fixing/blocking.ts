import type { Edit } from '../../plan/index.ts';
import { inch, snap } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { exact, imperial, set, type WallInput } from '../plan-input.ts';

export interface Block {
  readonly from: number;
  readonly to: number;
  readonly above: number;
  readonly height: number;
  readonly thickness: number;
  /** It is let in for this job. */
  readonly new: true;
}

/** Dressed thickness and widths of nominal two-inch timber, mm (NIST PS 20): to the millimetre where the plan is metric. */
export const twoBy = (input: Pick<WallInput, 'plan'>) =>
  imperial(input)
    ? ({ thick: snap(inch(1.5)), widths: [5.5, 7.25, 9.25].map((wide) => snap(inch(wide))) } as const)
    : ({ thick: 38, widths: [140, 184, 235] } as const);

/** A piece of such timber behind a stretch of wall, with its middle at a height. */
export function blockOf(
  input: WallInput,
  wall: PlacedWall,
  [from, to]: readonly [number, number],
  middle: number,
  height: number = twoBy(input).widths[0],
): Block {
  return {
    from: Math.max(0, from - 30),
    to: Math.min(wall.length, to + 30),
    above: Math.max(0, middle - height / 2),
    height,
    thickness: twoBy(input).thick,
    new: true,
  };
}

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
  const plain = Object.fromEntries(
    Object.entries(block).map(([key, value]) => [key, value === true ? value : exact(input, value)]),
  );
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
