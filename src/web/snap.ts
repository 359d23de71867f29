/** Catching a dragged edge on something worth standing at: other edges, middles, studs, equal spacing, and at last a grid. */

export interface Target {
  readonly at: number;
  readonly what: string;
  /** Only the piece's middle is caught here, not its edges. */
  readonly middle?: boolean;
}
export interface Caught {
  /** How much further the piece has to go to stand there, mm. */
  readonly by: number;
  readonly at: number;
  readonly what: string;
}

/** Of all edges and targets the closest pair; of equals the first target. Undefined when none is within reach. */
export function catchAt(
  edges: { readonly start?: number; readonly middle?: number; readonly end?: number },
  targets: readonly Target[],
  reach: number,
): Caught | undefined {
  let best: Caught | undefined;
  for (const { at, what, middle } of targets)
    for (const edge of middle ? [edges.middle] : [edges.start, edges.end, edges.middle]) {
      if (edge === undefined) continue;
      const by = at - edge;
      if (Math.abs(by) <= reach && (!best || Math.abs(by) < Math.abs(best.by) - 1e-6)) best = { by, at, what };
    }
  return best;
}

export interface Interval {
  readonly start: number;
  readonly end: number;
  readonly name: string;
}

/**
 * Places where a piece of this width leaves equal spaces: in the middle between two neighbours, or as far from one as that one is from
 * the next. Given for the piece's start.
 */
export function equalSpacing(
  width: number,
  others: readonly Interval[],
  limits: readonly [number, number],
): readonly Target[] {
  const ends: readonly Interval[] = [
    { start: limits[0], end: limits[0], name: 'the wall' },
    ...[...others].sort((a, b) => a.start - b.start),
    { start: limits[1], end: limits[1], name: 'the wall' },
  ];
  const targets: Target[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const [left, right] = [ends[i]!, ends[i + 1]!];
    const space = right.start - left.end;
    if (space > width + 1)
      targets.push({ at: left.end + (space - width) / 2, what: `same space to ${left.name} and ${right.name}` });
    if (i === 0 || i + 2 >= ends.length || space < 1) continue;
    targets.push({ at: right.end + space, what: `same space as between ${left.name} and ${right.name}` });
    targets.push({ at: left.start - space - width, what: `same space as between ${left.name} and ${right.name}` });
  }
  return targets;
}

/** The nearest place on the plan's drag grid, mm. */
export const onGrid = (at: number, grid: number): number => Math.round(at / grid) * grid;
