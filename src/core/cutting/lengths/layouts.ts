import { toTicks } from '../../quantity/index.ts';
import type { LengthLayout, LengthPart, LengthProblem, PlacedLength } from '../problem.ts';
import { type End, endsOf, gapBetween, type Model, runsOf, sameEnd } from './model.ts';
import type { Cut } from './pattern.ts';

/**
 * Turns a plan of kinds into layouts of parts with their places, longest first from the start of each run; mitred parts are chained so
 * that like ends meet. Undefined when some run does not hold its chain, which only a `relaxed` reading of mixed ends can bring about.
 */
export function layOut(
  problem: LengthProblem,
  model: Model,
  cuts: readonly Cut[],
): readonly LengthLayout[] | undefined {
  const { layOutOne } = createLayer(problem, model);
  const layouts = new Map<string, { times: number; layout: LengthLayout }>();
  for (const cut of cuts) {
    const own = layOutOne(cut);
    if (!own) return undefined;
    for (const layout of own) {
      const key = JSON.stringify([layout.stock, layout.placed]);
      const same = layouts.get(key);
      if (same) same.times += layout.times;
      else layouts.set(key, { times: layout.times, layout });
    }
  }
  return [...layouts.values()].map(({ times, layout }) => ({ ...layout, times }));
}

/** Gives the parts of a problem to cuts, one cut after the other; a cut that does not lie leaves them as they were. */
export function createLayer(problem: LengthProblem, model: Model) {
  const left = new Float64Array(problem.parts.map((part) => part.count));
  // Of each kind, the first member of which some are left.
  const next = new Int32Array(model.members.length);
  const cursor = new Int32Array(model.members.length);
  const used = new Map<number, number>();

  const layOutOne = ({ pattern, times: all }: Cut): readonly LengthLayout[] | undefined => {
    const stock = problem.stock[model.stocks[pattern.stock]!.index]!;
    const usable = runsOf(stock, problem.trim, problem.kerf);
    const runs = model.stocks[pattern.stock]!.places.map((place) => usable[place]!);
    const split = pattern.split ?? [
      pattern.kinds.flatMap((kind, k) => Array.from({ length: pattern.counts[k]! }, () => kind)),
    ];
    const nextBefore = pattern.kinds.map((kind) => next[kind]!);
    const given: (readonly [member: number, count: number])[] = [];
    const layouts: LengthLayout[] = [];
    for (let times = all; times > 0; ) {
      used.clear();
      for (const kind of pattern.kinds) cursor[kind] = next[kind]!;
      const chosen = split.map((kinds) =>
        kinds.map((kind) => {
          const members = model.members[kind]!;
          while (left[members[cursor[kind]!]!]! - (used.get(members[cursor[kind]!]!) ?? 0) <= 0)
            cursor[kind] = cursor[kind]! + 1;
          const member = members[cursor[kind]!]!;
          used.set(member, (used.get(member) ?? 0) + 1);
          return member;
        }),
      );
      let repeat = times;
      for (const [member, count] of used) repeat = Math.min(repeat, Math.floor(left[member]! / count));
      for (const [member, count] of used) {
        left[member] = left[member]! - repeat * count;
        given.push([member, repeat * count]);
      }
      for (const kind of pattern.kinds) {
        const members = model.members[kind]!;
        while (next[kind]! < members.length - 1 && left[members[next[kind]!]!] === 0) next[kind] = next[kind]! + 1;
      }
      times -= repeat;
      const placed: PlacedLength[] = [];
      for (let r = 0; r < chosen.length; r++) {
        const lies = place(
          problem,
          chosen[r]!.map((member) => problem.parts[member]!),
          runs[r]!,
        );
        if (!lies) {
          for (const [member, count] of given) left[member] = left[member]! + count;
          pattern.kinds.forEach((kind, k) => {
            next[kind] = nextBefore[k]!;
          });
          return undefined;
        }
        for (const one of lies) placed.push(one);
      }
      layouts.push({ stock: stock.id, times: repeat, placed });
    }
    return layouts;
  };
  return { left, layOutOne };
}

function place(
  problem: LengthProblem,
  parts: readonly LengthPart[],
  run: { readonly from: number; readonly to: number },
): readonly PlacedLength[] | undefined {
  const chain = parts.some((part) => part.ends?.some((angle) => angle > 0))
    ? chainOf(parts)
    : [...parts].sort((a, b) => b.length - a.length).map((part) => ({ part, turned: false }));
  const placed: PlacedLength[] = [];
  let end: number = run.from;
  let lastEnd: End | undefined;
  for (const { part, turned } of chain) {
    const [first, second] = endsOf(part);
    const [left, right] = turned ? [second, first] : [first, second];
    const x = lastEnd ? end + gapBetween(problem.kerf, lastEnd, left) : end;
    end = x + toTicks(part.length);
    if (end > run.to) return undefined;
    lastEnd = right;
    const at = { part: part.id, x: x / 640, length: part.length };
    placed.push(turned && !sameEnd(first, second) ? { ...at, turned: true } : at);
  }
  return placed;
}

interface Link {
  readonly part: LengthPart;
  readonly turned: boolean;
}

/**
 * An order in which as many neighbours as can be share a cut. Ends of one class are the vertices of a graph and parts its edges; a walk
 * that uses each edge once (Euler) meets like with like at every step. Where a connected piece of the graph has more than two vertices of
 * odd degree, it takes several walks, and between walks there is a plain cut.
 */
function chainOf(parts: readonly LengthPart[]): readonly Link[] {
  const classes: End[] = [];
  const classOf = (end: End): number => {
    const known = classes.findIndex((other) => sameEnd(other, end));
    return known >= 0 ? known : classes.push(end) - 1;
  };
  const ordered = [...parts].sort((a, b) => b.length - a.length);
  const edges = ordered.map((part) => {
    const [a, b] = endsOf(part);
    return { part, a: classOf(a), b: classOf(b), free: true };
  });
  const chain: Link[] = [];
  const degree = (vertex: number): number =>
    edges.reduce((sum, edge) => sum + (edge.free ? Number(edge.a === vertex) + Number(edge.b === vertex) : 0), 0);
  // Square ends have nothing to share, so walks begin there where they can, then at odd vertices.
  const isSquare = (vertex: number): boolean => classes[vertex]!.angle === 0;
  for (;;) {
    const open = classes.map((_, v) => v).filter((v) => degree(v) > 0);
    if (open.length === 0) return chain;
    const odd = open.filter((v) => degree(v) % 2 === 1);
    const start = odd.find(isSquare) ?? odd[0] ?? open.find(isSquare) ?? open[0]!;
    chain.push(...walk(edges, start));
  }
}

interface Edge {
  readonly part: LengthPart;
  readonly a: number;
  readonly b: number;
  free: boolean;
}

/** Hierholzer: walk until stuck, then let detours in where the walk passes a vertex with edges left. */
function walk(edges: Edge[], start: number): readonly Link[] {
  const path: { link: Link; from: number; to: number }[] = [];
  const step = (at: number) => {
    const edge = edges.find((other) => other.free && (other.a === at || other.b === at));
    if (!edge) return undefined;
    edge.free = false;
    const turned = edge.a !== at;
    return { link: { part: edge.part, turned }, from: at, to: turned ? edge.a : edge.b };
  };
  let at = start;
  for (let next = step(at); next; next = step(at)) {
    path.push(next);
    at = next.to;
  }
  for (let i = 0; i < path.length; i++) {
    const detour: typeof path = [];
    let where = path[i]!.from;
    for (let next = step(where); next; next = step(where)) {
      detour.push(next);
      where = next.to;
    }
    // A detour that does not come back cannot be put in the middle; its edges make a walk of their own.
    if (where === path[i]!.from) path.splice(i, 0, ...detour);
    else for (const { link } of detour) edges.find((edge) => edge.part === link.part && !edge.free)!.free = true;
  }
  return path.map(({ link }) => link);
}
