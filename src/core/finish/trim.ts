/** How an end of a moulding is cut. Angles in degrees from square, as a mitre saw is set. */
export type TrimEnd =
  | { readonly cut: 'square' }
  | { readonly cut: 'mitre'; readonly corner: 'inside' | 'outside'; readonly saw: number }
  | { readonly cut: 'scarf'; readonly saw: number };

/** One straight stretch of moulding along a wall, between corners or openings. */
export interface TrimRun {
  readonly id: string;
  /** Along the wall, corner to corner, mm. */
  readonly length: number;
  /** Angle of the room at each end in degrees: 90 a plain inside corner, 270 a plain outside one. Left out: a square end. */
  readonly start?: number;
  readonly end?: number;
}

export interface TrimPiece {
  readonly run: string;
  /** 1-based, where a run takes several pieces, and how many it takes. */
  readonly number: number;
  readonly of: number;
  /** On the wall, mm: where it begins along the run, and how much of it it covers. */
  readonly at: number;
  readonly wall: number;
  /** Longest edge, what must be cut from stock, mm. */
  readonly length: number;
  readonly start: TrimEnd;
  readonly end: TrimEnd;
}

export interface TrimOptions {
  /** How far the moulding stands out from the wall, mm. */
  readonly thickness: number;
  /** Longest piece that can be bought or carried, mm. */
  readonly longest: number;
}

const SCARF = 45;

/** Saw setting for two equal pieces that meet in a corner of the room: |90° − θ/2| from square. */
export const mitreSaw = (corner: number): number => Math.abs(90 - corner / 2);

/** How much longer the front edge of a moulding is than its back at a corner; negative at an inside one. t·tan(θ/2 − 90°) */
export const mitreFront = (corner: number, thickness: number): number =>
  thickness * Math.tan(((corner / 2 - 90) * Math.PI) / 180);

function endOf(corner: number | undefined): TrimEnd {
  if (corner === undefined || corner === 180) return { cut: 'square' };
  return { cut: 'mitre', corner: corner < 180 ? 'inside' : 'outside', saw: mitreSaw(corner) };
}

/**
 * Pieces of moulding for the runs of a room: mitred at corners, square at openings, and where a run is longer than a piece may
 * be, joined by 45° scarfs: whole lengths, and what is left at its end, so that the rests of several runs may share a board. The back of each piece covers its stretch of wall exactly; the length
 * to cut is its longest edge. For a cope, cut the inside mitre first and follow its edge.
 * @throws RangeError where a corner is not between 0 and 360°, or a size is not positive.
 */
export function trimJoints(runs: readonly TrimRun[], { thickness, longest }: TrimOptions): readonly TrimPiece[] {
  if (!(thickness > 0 && longest > 0)) throw new RangeError('the moulding needs a thickness and a longest piece');
  return runs.flatMap((run) => {
    if (!(run.length > 0)) throw new RangeError(`run ${run.id} has no length`);
    for (const corner of [run.start, run.end])
      if (corner !== undefined && !(corner > 0 && corner < 360))
        throw new RangeError(`a corner of run ${run.id} is not between 0 and 360°`);
    const outside = (corner: number | undefined) =>
      corner === undefined ? 0 : Math.max(0, mitreFront(corner, thickness));
    if (longest <= thickness + Math.max(outside(run.start), outside(run.end)))
      throw new RangeError('the longest piece is shorter than its own joints');
    const stretches = stretchesOf(run.length, longest, thickness, outside(run.start), outside(run.end));
    return stretches.map((wall, i): TrimPiece => {
      const first = i === 0;
      const last = i === stretches.length - 1;
      return {
        run: run.id,
        number: i + 1,
        of: stretches.length,
        at: stretches.slice(0, i).reduce((sum, one) => sum + one, 0),
        wall,
        length: wall + (first ? outside(run.start) : 0) + (last ? outside(run.end) : thickness),
        start: first ? endOf(run.start) : { cut: 'scarf', saw: SCARF },
        end: last ? endOf(run.end) : { cut: 'scarf', saw: SCARF },
      };
    });
  });
}

/** Shorter than so much no piece is joined on, mm: the one before it gives. Common practice. */
const SHORTEST = 300;

/** How much of the wall each piece of a run covers. The overlap of a scarf is as long as the moulding is thick; the piece before the joint has it. */
function stretchesOf(length: number, longest: number, scarf: number, start: number, end: number): readonly number[] {
  const stretches: number[] = [];
  let left = length;
  while (left + end + (stretches.length === 0 ? start : 0) > longest + 1e-9) {
    const whole = longest - scarf - (stretches.length === 0 ? start : 0);
    // what goes on behind an outer corner must not be left by itself
    stretches.push(Math.min(whole, left));
    left -= stretches.at(-1)!;
  }
  const lacks = Math.min(SHORTEST, longest / 2 - scarf) - left;
  const before = stretches.at(-1);
  if (before !== undefined && lacks > 0) {
    stretches.splice(-1, 1, before - lacks);
    left += lacks;
  }
  return [...stretches, left];
}
