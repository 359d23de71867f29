/**
 * A layout as the cuts that make it, each edge to edge of the piece it is made in. Whole ticks throughout.
 *
 * A cut lies across one axis; the blade takes a span of it, and what was below and above the span is left, if anything.
 */
export type Axis = 'x' | 'y';
export interface Region {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}
export interface Lying extends Region {
  readonly part: string;
}
export interface Blade {
  readonly axis: Axis;
  readonly from: number;
  readonly to: number;
}
export type Piece =
  | { readonly is: 'part'; readonly region: Region; readonly part: string }
  | { readonly is: 'rest'; readonly region: Region }
  | { readonly is: 'cut'; readonly region: Region; readonly blade: Blade; readonly low?: Piece; readonly high?: Piece };

export const extent = (r: Region, axis: Axis): number => (axis === 'x' ? r.x1 - r.x0 : r.y1 - r.y0);
export const start = (r: Region, axis: Axis): number => (axis === 'x' ? r.x0 : r.y0);
export const end = (r: Region, axis: Axis): number => (axis === 'x' ? r.x1 : r.y1);
export const across = (axis: Axis): Axis => (axis === 'x' ? 'y' : 'x');
const area = (r: Region): number => (r.x1 - r.x0) * (r.y1 - r.y0);

export function clip(r: Region, axis: Axis, from: number, to: number): Region | undefined {
  if (to <= from) return undefined;
  return axis === 'x' ? { ...r, x0: from, x1: to } : { ...r, y0: from, y1: to };
}

export interface Manner {
  readonly kerf: number;
  /** Is this piece to be broken down before anything finer is done to it? */
  readonly large: (region: Region) => boolean;
  /** Can this cut be made at all with the tool a piece of that size goes to? */
  readonly can: (region: Region, blade: Blade) => boolean;
  readonly useful: (region: Region) => boolean;
}

/**
 * The cuts of a region. While a piece is large, first an offcut worth keeping, if one lies along an edge, else the cut that leaves the
 * smaller of its larger halves; once it can be handled, the free edges first and then strip by strip, rips before crosscuts.
 * Undefined where parts cannot be cut apart edge to edge. Any possible cut may be made at any time without spoiling a later one.
 */
export function cutTree(region: Region, parts: readonly Lying[], manner: Manner): Piece | undefined {
  if (parts.length === 0) return { is: 'rest', region };
  const only = parts.length === 1 ? parts[0]! : undefined;
  if (only && only.x0 === region.x0 && only.x1 === region.x1 && only.y0 === region.y0 && only.y1 === region.y1)
    return { is: 'part', region, part: only.part };
  const blade = chooseBlade(region, parts, manner);
  if (!blade) return undefined;
  const { axis, from, to } = blade;
  const below = clip(region, axis, start(region, axis), from);
  const above = clip(region, axis, to, end(region, axis));
  const low =
    below &&
    cutTree(
      below,
      parts.filter((p) => end(p, axis) <= from),
      manner,
    );
  const high =
    above &&
    cutTree(
      above,
      parts.filter((p) => start(p, axis) >= to),
      manner,
    );
  if ((below && !low) || (above && !high)) return undefined;
  return { is: 'cut', region, blade, ...(low && { low }), ...(high && { high }) };
}

interface Choice {
  readonly blade: Blade;
  readonly kind: 'edge' | 'split';
  readonly rest?: Region;
  /** Area of the larger piece left. */
  readonly larger: number;
}

function chooseBlade(region: Region, parts: readonly Lying[], manner: Manner): Blade | undefined {
  const choices = [...edges(region, parts, manner.kerf), ...splits(region, parts, manner.kerf)];
  const possible = choices.filter((choice) => manner.can(region, choice.blade));
  // Where no cut suits the tools, one is made all the same, and the step says what it exceeds.
  const open = possible.length > 0 ? possible : choices;
  const useful = open.filter((choice) => choice.rest && manner.useful(choice.rest));
  const best = (list: readonly Choice[], score: (choice: Choice) => number): Choice | undefined =>
    list.reduce<Choice | undefined>((a, b) => (a === undefined || score(b) < score(a) ? b : a), undefined);
  const restArea = (choice: Choice): number => (choice.rest ? area(choice.rest) : 0);
  if (manner.large(region)) {
    const offcut = best(useful, (choice) => -restArea(choice));
    if (offcut) return offcut.blade;
    const split = best(
      open.filter((choice) => choice.kind === 'split'),
      (choice) => choice.larger,
    );
    return (split ?? best(open, (choice) => -restArea(choice)))?.blade;
  }
  const edge = best(
    open.filter((choice) => choice.kind === 'edge'),
    (choice) => -restArea(choice),
  );
  // Splits come low to high, rips first; the first of them takes the next strip.
  return (edge ?? open.find((choice) => choice.kind === 'split'))?.blade;
}

/** Cuts that free the parts of what lies between them and an edge of the piece. */
function edges(region: Region, parts: readonly Lying[], kerf: number): Choice[] {
  const found: Choice[] = [];
  for (const axis of ['y', 'x'] as const) {
    const low = Math.min(...parts.map((p) => start(p, axis)));
    const high = Math.max(...parts.map((p) => end(p, axis)));
    const from = start(region, axis);
    const to = end(region, axis);
    const add = (blade: Blade, rest: Region | undefined, kept: Region | undefined): void => {
      found.push({ blade, kind: 'edge', ...(rest && { rest }), larger: kept ? area(kept) : 0 });
    };
    if (high < to) {
      const blade = { axis, from: high, to: Math.min(to, high + kerf) };
      add(blade, clip(region, axis, blade.to, to), clip(region, axis, from, high));
    }
    if (low > from) {
      const blade = { axis, from: Math.max(from, low - kerf), to: low };
      add(blade, clip(region, axis, from, blade.from), clip(region, axis, low, to));
    }
  }
  return found;
}

/** Cuts between parts; across y first: a cut along x is a rip. */
function splits(region: Region, parts: readonly Lying[], kerf: number): Choice[] {
  const found: Choice[] = [];
  for (const axis of ['y', 'x'] as const) {
    const sorted = [...parts].sort((a, b) => start(a, axis) - start(b, axis));
    let reach = Number.NEGATIVE_INFINITY;
    sorted.forEach((part, i) => {
      if (i > 0 && start(part, axis) >= reach + kerf) {
        const blade = { axis, from: reach, to: reach + kerf };
        const low = clip(region, axis, start(region, axis), blade.from);
        const high = clip(region, axis, blade.to, end(region, axis));
        found.push({ blade, kind: 'split', larger: Math.max(low ? area(low) : 0, high ? area(high) : 0) });
      }
      reach = Math.max(reach, end(part, axis));
    });
  }
  return found;
}
