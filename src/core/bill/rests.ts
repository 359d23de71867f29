import type { RealLayout } from '../stock/index.ts';

export interface Rest {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}
interface Region {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}
type Placed = RealLayout['placed'][number];

/** Sums of lengths are off by no more than this, mm: a fortieth of a tick. */
const SLACK = 1 / 25_600;

export interface CutUp {
  /** What is left over, cut edge to edge; the largest strips first. Blade and trim are already off. */
  readonly rests: readonly Rest[];
  readonly cuts: number;
  /** A layout that cannot be cut edge to edge is a fault of whoever made it; then nothing more is said of it. */
  readonly possible: boolean;
}

/**
 * Takes a layout apart by edge-to-edge cuts: first the largest free strip along an edge, then a cut between parts, and so on with both
 * halves. One cut for each, trimming not counted.
 */
export function cutUp(layout: RealLayout): CutUp {
  const { trim, kerf } = layout;
  const rests: Rest[] = [];
  let cuts = 0;
  let possible = true;
  const keep = (r: Region): void => {
    if (r.x1 - r.x0 > SLACK && r.y1 - r.y0 > SLACK)
      rests.push({ x: r.x0, y: r.y0, length: r.x1 - r.x0, width: r.y1 - r.y0 });
  };

  const take = (region: Region, parts: readonly Placed[]): void => {
    let r = region;
    if (parts.length === 0) {
      keep(r);
      return;
    }
    for (;;) {
      const right = r.x1 - Math.max(...parts.map((p) => p.x + p.length));
      const top = r.y1 - Math.max(...parts.map((p) => p.y + p.width));
      const left = Math.min(...parts.map((p) => p.x)) - r.x0;
      const bottom = Math.min(...parts.map((p) => p.y)) - r.y0;
      const strips = [
        { gap: right, area: right * (r.y1 - r.y0) },
        { gap: top, area: top * (r.x1 - r.x0) },
        { gap: left, area: left * (r.y1 - r.y0) },
        { gap: bottom, area: bottom * (r.x1 - r.x0) },
      ];
      const best = strips.reduce((a, s, i) => (s.gap > SLACK && s.area > (strips[a]?.area ?? 0) ? i : a), -1);
      if (best < 0) break;
      cuts++;
      const off = Math.max(0, strips[best]!.gap - kerf);
      if (best === 0) {
        keep({ ...r, x0: r.x1 - off });
        r = { ...r, x1: r.x1 - right };
      } else if (best === 1) {
        keep({ ...r, y0: r.y1 - off });
        r = { ...r, y1: r.y1 - top };
      } else if (best === 2) {
        keep({ ...r, x1: r.x0 + off });
        r = { ...r, x0: r.x0 + left };
      } else {
        keep({ ...r, y1: r.y0 + off });
        r = { ...r, y0: r.y0 + bottom };
      }
    }
    if (parts.length === 1) return;
    const split = between(parts, 'x', 'length') ?? between(parts, 'y', 'width');
    if (!split) {
      possible = false;
      return;
    }
    cuts++;
    const { axis, at, resume, before, after } = split;
    take(axis === 'x' ? { ...r, x1: at } : { ...r, y1: at }, before);
    take(axis === 'x' ? { ...r, x0: resume } : { ...r, y0: resume }, after);
  };

  /** The first gap along an axis that no part reaches across and that holds the blade. */
  const between = (parts: readonly Placed[], axis: 'x' | 'y', size: 'length' | 'width') => {
    const sorted = parts.toSorted((a, b) => a[axis] - b[axis]);
    let reach = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < sorted.length - 1; i++) {
      reach = Math.max(reach, sorted[i]![axis] + sorted[i]![size]);
      const resume = sorted[i + 1]![axis];
      if (resume >= reach + kerf - SLACK)
        return {
          axis,
          at: reach,
          resume: reach + kerf,
          before: sorted.slice(0, i + 1),
          after: sorted.slice(i + 1),
        };
    }
    return undefined;
  };

  take(
    {
      x0: trim,
      y0: layout.from === 'panel' ? trim : 0,
      x1: layout.length - trim,
      y1: layout.from === 'panel' ? layout.width - trim : layout.width,
    },
    layout.placed,
  );
  return {
    rests: rests.toSorted((a, b) => b.length * b.width - a.length * a.width || a.x - b.x || a.y - b.y),
    cuts,
    possible,
  };
}

/** Narrower strips than this are not worth racking, mm. Common practice. */
export const LEAST_STRIP = 40;
/** What the shop keeps: one side at least `keep` mm, and no sliver. */
export const isKept = (
  rest: { readonly length: number; readonly width: number },
  from: 'panel' | 'board',
  keep: number,
): boolean =>
  from === 'board'
    ? rest.length >= keep
    : Math.max(rest.length, rest.width) >= keep && Math.min(rest.length, rest.width) >= LEAST_STRIP;
