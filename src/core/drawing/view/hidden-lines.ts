import { lazy } from '../../lazy.ts';

/**
 * Hidden-line removal for axis-aligned boxes, exactly: the view is divided by every edge of every face into a grid of cells, in
 * each of which one face is foremost; a line stands wherever two neighbouring cells show different faces. No sampling, no
 * tolerance but that of equal coordinates.
 */
export interface Face {
  /** In the view, real mm, u to the right and v down. */
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  /** Greater is nearer to whoever looks. */
  readonly near: number;
  /** What it belongs to: faces of one owner at one depth show no line between them. */
  readonly owner: string;
  /** What its owner belongs to; lines between two bodies are outlines. */
  readonly body: string;
  /** Cut by the view's plane: in front of everything, its edge an outline. */
  readonly cut?: boolean;
}

export interface Edge {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly weight: 'outline' | 'visible';
  /** The owner of the nearer face. */
  readonly owner: string;
}
/** Part of the view where one owner is foremost, as rectangles that do not overlap. */
export interface ShownArea {
  readonly owner: string;
  readonly cut: boolean;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
}
export interface Seen {
  readonly edges: readonly Edge[];
  /** Worked out when it is asked for. */
  readonly shown: () => readonly ShownArea[];
  /** Whether anything is cut by the view's plane. */
  readonly cut: boolean;
}

/** Coordinates closer than this are one: a hundredth of a tick. */
const SAME = 1 / 64_000;

/**
 * @param deep a step in depth by more than this, mm, is drawn as an outline, so that what stands forward is set off from what
 * lies behind it; left out, only bodies and cut faces have outlines
 */
export function seen(faces: readonly Face[], deep = Infinity): Seen {
  const us = grid(faces.map((f) => f.u));
  const vs = grid(faces.map((f) => f.v));
  const [columns, rows] = [Math.max(0, us.length - 1), Math.max(0, vs.length - 1)];
  // Far to near, so that what is nearer is painted over; equal depths in the order given, whatever the sort.
  const order = faces.map((_, i) => i).sort((a, b) => depth(faces[a]!) - depth(faces[b]!) || b - a);
  const cells = new Int32Array(columns * rows).fill(-1);
  for (const index of order) {
    const { u, v } = faces[index]!;
    const [i0, i1, j0, j1] = [find(us, u[0]), find(us, u[1]), find(vs, v[0]), find(vs, v[1])];
    for (let j = j0; j < j1; j++) cells.fill(index, j * columns + i0, j * columns + i1);
  }
  const cell = (i: number, j: number): number =>
    i < 0 || j < 0 || i >= columns || j >= rows ? -1 : cells[j * columns + i]!;
  const edges: Edge[] = [];
  for (let i = 0; i <= columns; i++)
    run(
      rows,
      (j) => between(faces, cell(i - 1, j), cell(i, j), deep),
      (a, b, kind) => {
        edges.push({ from: [us[i]!, vs[a]!], to: [us[i]!, vs[b]!], ...kind });
      },
    );
  for (let j = 0; j <= rows; j++)
    run(
      columns,
      (i) => between(faces, cell(i, j - 1), cell(i, j), deep),
      (a, b, kind) => {
        edges.push({ from: [us[a]!, vs[j]!], to: [us[b]!, vs[j]!], ...kind });
      },
    );
  return {
    edges,
    shown: lazy(() => shownAreas(faces, us, vs, cell)),
    cut: faces.some((face) => face.cut),
  };
}

const depth = (face: Face): number => (face.cut ? Infinity : face.near);

/** Sorted coordinates without repeats. */
function grid(spans: readonly (readonly [number, number])[]): readonly number[] {
  const out: number[] = [];
  for (const value of spans.flat().sort((a, b) => a - b))
    if (out.length === 0 || value - out.at(-1)! > SAME) out.push(value);
  return out;
}

/** Index of the coordinate that stands for a value. */
function find(sorted: readonly number[], value: number): number {
  let [low, high] = [0, sorted.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value - SAME) low = middle + 1;
    else high = middle;
  }
  return low;
}
type Kind = Pick<Edge, 'weight' | 'owner'>;

function between(faces: readonly Face[], a: number, b: number, deep: number): Kind | undefined {
  if (a === b) return undefined;
  const [p, q] = [faces[a], faces[b]];
  if (p && q && p.owner === q.owner && Math.abs(depthOf(p) - depthOf(q)) <= SAME && p.cut === q.cut) return undefined;
  const nearer = !q || (p && depth(p) >= depth(q)) ? p! : q;
  const outline = !p || !q || p.body !== q.body || nearer.cut || Math.abs(p.near - q.near) > deep;
  return { weight: outline ? 'outline' : 'visible', owner: nearer.owner };
}
const depthOf = (face: Face): number => (face.cut ? 0 : face.near);

/** Joins neighbours of one kind into one stretch. */
function run(
  count: number,
  kindAt: (i: number) => Kind | undefined,
  emit: (a: number, b: number, kind: Kind) => void,
): void {
  let start = 0;
  let kind: Kind | undefined;
  for (let i = 0; i <= count; i++) {
    const next = i < count ? kindAt(i) : undefined;
    if (kind && next && next.weight === kind.weight && next.owner === kind.owner) continue;
    if (kind) emit(start, i, kind);
    [start, kind] = [i, next];
  }
}

function shownAreas(
  faces: readonly Face[],
  us: readonly number[],
  vs: readonly number[],
  cell: (i: number, j: number) => number,
): readonly ShownArea[] {
  const areas: ShownArea[] = [];
  /** Areas that end at the row above, by where they begin: they may be carried on. */
  let above = new Map<string, number>();
  const like = (a: Face, b: Face | undefined): boolean => b?.owner === a.owner && !b.cut === !a.cut;
  for (let j = 0; j + 1 < vs.length; j++) {
    const here = new Map<string, number>();
    for (let i = 0; i + 1 < us.length; i++) {
      const face = faces[cell(i, j)];
      if (!face) continue;
      let end = i + 1;
      while (end + 1 < us.length && like(face, faces[cell(end, j)])) end++;
      const key = `${face.owner} ${face.cut ? 'cut' : 'seen'} ${i} ${end}`;
      const index = above.get(key);
      if (index !== undefined) {
        areas[index] = { ...areas[index]!, v: [areas[index]!.v[0], vs[j + 1]!] };
        here.set(key, index);
      } else {
        here.set(key, areas.length);
        areas.push({ owner: face.owner, cut: face.cut === true, u: [us[i]!, us[end]!], v: [vs[j]!, vs[j + 1]!] });
      }
      i = end - 1;
    }
    above = here;
  }
  return areas;
}
