import { AXIS_OF, type Direction, OPPOSITE, type Part } from './part.ts';

/** Where a label is stuck on its part: on which broad face, and where its arrow points. Directions of the piece as it will stand. */
export interface Sticking {
  readonly face: Direction;
  readonly arrow: Direction;
}

const BROAD = { x: 'left', y: 'up', z: 'front' } as const;

/**
 * The face that shows, where that is a broad one; else the top of what lies flat, the left of what stands from front to back, the front
 * of the rest. The arrow points up; on what lies flat, to the front. A face and a way along it are all it takes: every other side of
 * the part follows, though the part be alike on all of them.
 */
export function stickingOf({ axes, label }: Pick<Part, 'axes' | 'label'>): Sticking {
  const face = AXIS_OF[label.show] === axes.thickness ? label.show : BROAD[axes.thickness];
  return { face, arrow: axes.thickness === 'y' ? 'front' : 'up' };
}

/** A side of a part as it is found by its label: its face, the one behind it, and the four edges as one reads the label. */
export type ByLabel = 'face' | 'behind' | 'arrow' | 'foot' | 'left' | 'right';

/** To the right of whoever reads a label on that face whose arrow points so. Facing the wall, a label on the front reads as the wall does. */
const RIGHT_OF: Readonly<Partial<Record<`${Direction} ${Direction}`, Direction>>> = {
  'front up': 'right',
  'back up': 'left',
  'left up': 'front',
  'right up': 'back',
  'up front': 'left',
  'down front': 'right',
};

export function sideByLabel(part: Pick<Part, 'axes' | 'label'>, side: Direction): ByLabel {
  const { face, arrow } = stickingOf(part);
  if (side === face) return 'face';
  if (side === OPPOSITE[face]) return 'behind';
  if (side === arrow) return 'arrow';
  if (side === OPPOSITE[arrow]) return 'foot';
  return side === RIGHT_OF[`${face} ${arrow}`] ? 'right' : 'left';
}
