import { fromTicks, type Mm, mm, toTicks } from '../quantity/index.ts';
import type { Direction, Part, PartId } from '../scene/index.ts';
import { type Body, type Cell, DIRECTIONS, high, low, meetsOnTheWay, overlaps, WAYS, type Way } from './solids.ts';

/** Something of a known length that another part is rested on or held against, instead of a measured mark. */
export interface Gauge {
  /** Which distance, along which axis of the piece. */
  readonly axis: 0 | 1 | 2;
  readonly distance: Mm;
  readonly from: 'parts' | 'spacer' | 'shim';
  /** The parts stood on their end or on their edge, one after the other; none for a spacer or a shim. */
  readonly parts: readonly { readonly part: PartId; readonly by: 'length' | 'width' }[];
  /** The two parts it stands between; for a set-back, the part its block is held to and the part that comes up to it. */
  readonly between: readonly [PartId, PartId];
  readonly manner: 'between' | 'set back';
  /** Where it stands, in ticks, and the way it is drawn out afterwards. */
  readonly cell: Cell;
  readonly out: Direction;
}

/** A part that may serve as a gauge while it is loose. */
export interface LoosePart {
  readonly part: Part;
  readonly by: 'length' | 'width';
  readonly ticks: number;
  readonly other: number;
  readonly thickness: number;
}

/** Thinner strips are not safely ripped on a table saw: card, laminate or veneer is packed instead. Common practice. */
export const LEAST_SPACER: Mm = mm(6);
/** Longer across than this a part is too unwieldy to be stood somewhere as a gauge. Common practice. */
const HANDY: Mm = mm(1300);

/** What parts may serve: straight from end to end, so nothing taken out of an end; no longer than is handy. */
export function looseParts(parts: readonly Part[]): readonly LoosePart[] {
  return parts.flatMap((part) => {
    if (part.solid.taken.some(({ kind }) => kind === 'notch' || kind === 'rabbet' || kind === 'cut-out')) return [];
    const [length, width] = [toTicks(part.size.length), toTicks(part.size.width)];
    const thickness = toTicks(part.size.thickness);
    if (Math.max(length, width) > toTicks(HANDY)) return [];
    const own: LoosePart[] = [{ part, by: 'length', ticks: length, other: width, thickness }];
    if (width !== length) own.push({ part, by: 'width', ticks: width, other: length, thickness });
    return own;
  });
}

/** Loose parts by what they measure, so that a distance finds its gauge at once. */
export interface Rack {
  readonly byTicks: ReadonlyMap<number, readonly LoosePart[]>;
  /** Two loose parts that together measure a distance, the longer first; found when first asked for. */
  readonly pairs: (ticks: number) => readonly (readonly [LoosePart, LoosePart])[];
}
export function rackOf(parts: readonly Part[]): Rack {
  const byTicks = new Map<number, LoosePart[]>();
  for (const loose of looseParts(parts)) {
    const there = byTicks.get(loose.ticks);
    if (there) there.push(loose);
    else byTicks.set(loose.ticks, [loose]);
  }
  const known = new Map<number, readonly (readonly [LoosePart, LoosePart])[]>();
  const pairs = (ticks: number) => {
    const found = known.get(ticks);
    if (found) return found;
    const made: (readonly [LoosePart, LoosePart])[] = [];
    for (const [first, list] of byTicks) {
      if (2 * first < ticks) continue;
      for (const a of list) for (const b of byTicks.get(ticks - first) ?? []) if (a.part !== b.part) made.push([a, b]);
    }
    known.set(ticks, made);
    return made;
  };
  return { byTicks, pairs };
}

/** A distance that sets a part: between a face of a body that is there and a face of the one that comes. */
export interface Distance {
  readonly ticks: number;
  readonly manner: Gauge['manner'];
  /** The room the gauge stands in: exactly the distance along the axis, what both faces share across it. */
  readonly room: Cell;
  readonly between: readonly [PartId, PartId];
  /** It stands under the part when the piece stands upright: the part rests on it. */
  readonly under: boolean;
}

/**
 * How a part that comes can be set at its distance along an axis: by a loose part of that length or width, by packing, by two parts one
 * after the other, else by a spacer cut for it. Undefined only where nothing that is there faces it.
 */
export function gaugeFor(
  moving: Body,
  present: readonly Body[],
  distances: readonly Distance[],
  axis: 0 | 1 | 2,
  rack: Rack,
  isLoose: (part: Part) => boolean,
): Gauge | undefined {
  const free = (cell: Cell): Direction | undefined => {
    if (moving.cells.some((c) => overlaps(c, cell))) return undefined;
    if (present.some((b) => overlaps(b.bounds, cell) && b.cells.some((c) => overlaps(c, cell)))) return undefined;
    // it must come out again when the part is fast
    const all = [moving, ...present];
    const out = WAYS.find((way) => {
      if (way >> 1 === axis) return false;
      const back = (way ^ 1) as Way;
      return !all.some((b) => meetsOnTheWay(cell, b.bounds, back) && b.cells.some((c) => meetsOnTheWay(cell, c, back)));
    });
    return out === undefined ? undefined : DIRECTIONS[out];
  };
  const place = (d: Distance, wide: number, thick: number) => {
    for (const cell of stands(d.room, axis, wide, thick)) {
      const out = free(cell);
      if (out) return { cell, out };
    }
    return undefined;
  };
  const gauge = (
    d: Distance,
    from: Gauge['from'],
    parts: readonly LoosePart[],
    at: { cell: Cell; out: Direction },
  ) => ({
    axis,
    distance: fromTicks(d.ticks),
    from,
    parts: parts.map((l) => ({ part: l.part.id, by: l.by })),
    between: d.between,
    manner: d.manner,
    ...at,
  });
  for (const d of distances) {
    for (const loose of rack.byTicks.get(d.ticks) ?? []) {
      if (!isLoose(loose.part)) continue;
      const at = place(d, loose.other, loose.thickness);
      if (at) return gauge(d, 'parts', [loose], at);
    }
  }
  const thin = distances.find((d) => d.ticks < toTicks(LEAST_SPACER));
  if (thin) {
    for (const [wide, thick] of [
      [60, 12],
      [20, 5],
      [3, 3],
    ] as const) {
      const at = place(thin, toTicks(wide), toTicks(thick));
      if (at) return gauge(thin, 'shim', [], at);
    }
  }
  for (const d of distances) {
    for (const [a, b] of rack.pairs(d.ticks)) {
      if (!isLoose(a.part) || !isLoose(b.part)) continue;
      const at = place(d, Math.max(a.other, b.other), Math.max(a.thickness, b.thickness));
      if (at) return gauge(d, 'parts', [a, b], at);
    }
  }
  for (const [wide, thick] of SPACERS)
    for (const d of distances) {
      const at = place(d, toTicks(wide), toTicks(thick));
      if (at) return gauge(d, 'spacer', [], at);
    }
  return undefined;
}

/** Cross-sections of a spacer, the steadiest first. Common practice. */
const SPACERS = [
  [mm(60), mm(12)],
  [mm(25), mm(6)],
  [mm(5), mm(3)],
] as const;

/** A face narrower than this holds nothing. */
const LEAST_FACE = toTicks(3);

/** Every distance from one body to another that could be gauged. `joined` parts of it also give their faces for a block to be held to. */
export function distancesBetween(
  moving: Body,
  body: Body,
  axis: 0 | 1 | 2,
  joined: ReadonlySet<PartId>,
): readonly Distance[] {
  const list: Distance[] = [];
  const others = [0, 1, 2].filter((a) => a !== axis) as [number, number];
  const shared = (a: Cell, b: Cell, from: number, to: number): Cell => {
    const cell = [0, 0, 0, 0, 0, 0];
    for (const o of others) {
      cell[o * 2] = Math.max(low(a, o), low(b, o));
      cell[o * 2 + 1] = Math.min(high(a, o), high(b, o));
    }
    [cell[axis * 2], cell[axis * 2 + 1]] = [from, to];
    return cell as unknown as Cell;
  };
  const add = (
    ticks: number,
    manner: Gauge['manner'],
    room: Cell,
    between: Distance['between'],
    under = false,
  ): void => {
    if (others.every((o) => high(room, o) - low(room, o) >= LEAST_FACE))
      list.push({ ticks, manner, room, between, under });
  };
  body.cells.forEach((still, s) => {
    moving.cells.forEach((mine, m) => {
      const between = [body.owners[s]!, moving.owners[m]!] as const;
      const up = low(mine, axis) - high(still, axis);
      const down = low(still, axis) - high(mine, axis);
      if (up > 0) add(up, 'between', shared(mine, still, high(still, axis), low(mine, axis)), between, axis === 1);
      else if (down > 0) add(down, 'between', shared(mine, still, high(mine, axis), low(still, axis)), between);
      if (!joined.has(body.owners[s]!)) return;
      // a block held to a face of the one, with a spacer from it to the like face of the other
      for (const side of [1, 0]) {
        const [a, b] = [still[axis * 2 + side]!, mine[axis * 2 + side]!];
        if (b !== moving.bounds[axis * 2 + side]) continue;
        const set = side === 1 ? a - b : b - a;
        if (set > 0) add(set, 'set back', shared(mine, mine, Math.min(a, b), Math.max(a, b)), between);
      }
    });
  });
  return shortest(list);
}

/** Gaps before set-backs, what can be rested on before what hangs, the shortest first, none twice, no more than are worth trying. */
export function shortest(list: readonly Distance[]): readonly Distance[] {
  const seen = new Set<string>();
  return [...list]
    .sort(
      (a, b) =>
        Number(a.manner === 'set back') - Number(b.manner === 'set back') ||
        Number(b.under) - Number(a.under) ||
        a.ticks - b.ticks,
    )
    .filter((d) => {
      const key = `${d.ticks} ${d.room.join()}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .slice(0, 12);
}

/** Where a gauge of a cross-section can stand in its room: from each corner of what the faces share, either way round. */
function* stands(room: Cell, axis: number, wide: number, thick: number): Generator<Cell> {
  const [u, v] = [0, 1, 2].filter((a) => a !== axis) as [number, number];
  for (const [a, b] of [
    [wide, thick],
    [thick, wide],
  ] as const)
    for (const su of [1, 0])
      for (const sv of [1, 0]) {
        const cell = [...room];
        // beyond the room on the far side when it is longer than what is shared
        [cell[u * 2], cell[u * 2 + 1]] = su ? [high(room, u) - a, high(room, u)] : [low(room, u), low(room, u) + a];
        [cell[v * 2], cell[v * 2 + 1]] = sv ? [high(room, v) - b, high(room, v)] : [low(room, v), low(room, v) + b];
        const outward = [...cell];
        if (a > high(room, u) - low(room, u))
          [outward[u * 2], outward[u * 2 + 1]] = su
            ? [low(room, u), low(room, u) + a]
            : [high(room, u) - a, high(room, u)];
        if (b > high(room, v) - low(room, v))
          [outward[v * 2], outward[v * 2 + 1]] = sv
            ? [low(room, v), low(room, v) + b]
            : [high(room, v) - b, high(room, v)];
        yield outward as unknown as Cell;
      }
}
