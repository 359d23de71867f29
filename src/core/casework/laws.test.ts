import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bay, CasePiece, Plan, SizeOrShare } from '../plan/index.ts';
import { TICKS_PER_MM } from '../quantity/index.ts';
import type { BayOpening, PlacedPiece } from '../scene/index.ts';
import { BARE_WALL, buildCase, DEFAULTS, mirrored } from './index.ts';
import {
  backFaults,
  behindDoorFaults,
  cells,
  type DrawerRoom,
  drawerFaults,
  frontAreaFaults,
  frontFaults,
  holdersOf,
  isDoorOf,
  jointFaults,
  openingFaults,
  outsideFaults,
  overlaps,
  partFaults,
  pinFaults,
  seen,
  volumesOf,
} from './laws.testing.ts';
import { AT_ORIGIN } from './plan.testing.ts';
import { anyCase, anyWildCase, builtOf, readUnspelt, thicknesses, type UnspeltPlan } from './random.testing.ts';

const RUNS = 1000;

interface Sound {
  readonly plan: Plan;
  readonly piece: CasePiece;
  readonly placed: PlacedPiece;
}

/** The law holds for every random case that can be built as asked. */
function holds(law: (sound: Sound, unspelt: UnspeltPlan) => readonly string[], runs = RUNS) {
  let built = 0;
  fc.assert(
    fc.property(anyCase, (unspelt) => {
      const sound = builtOf(unspelt);
      if (!sound) return;
      built += 1;
      expect(law(sound, unspelt)).toEqual([]);
    }),
    { numRuns: runs },
  );
  // a law that most cases escape would show little
  expect(built).toBeGreaterThan(runs / 2);
}

const habit = <K extends 'gap' | 'style' | 'frame'>({ plan, piece }: Sound, key: K) =>
  piece.make?.[key] ?? plan.make[key];

describe('every case that can be built', () => {
  it('has no two solids in one place', () => holds(({ placed }) => overlaps(placed)));
  it('is as large outside as was asked, to a tick, and lies within it', () =>
    holds(({ piece, placed }) => {
      const at = (value: number | undefined) => Math.round((value ?? 0) * TICKS_PER_MM);
      const { size, top } = piece;
      expect(cells(placed.outside)).toEqual({
        x: [-at(top?.left), at(size.width) + at(top?.right)],
        y: [0, at(size.height)],
        z: [0, at(size.depth) + at(top?.front)],
      });
      return outsideFaults(placed);
    }));
  it('keeps every opening clear', () => holds(({ placed }) => openingFaults(placed)));
  it('gives every bay the clear size that was asked', () => holds(sizesAsked));
  it('holds together, and every contact lies on both its parts', () => holds(({ placed }) => jointFaults(placed)));
  it('has parts that agree with their solids, their stock and their labels', () =>
    holds(({ plan, placed }) => partFaults(placed, thicknesses(plan))));
  it('keeps fronts apart by the gap', () =>
    holds((sound) => frontFaults(sound.placed, habit(sound, 'gap') ?? DEFAULTS.gap)));
  it('keeps what is behind a door clear of it', () =>
    holds((sound) => behindDoorFaults(sound.placed, habit(sound, 'gap') ?? DEFAULTS.gap)));
  it('closes every back over the whole of it', () =>
    holds(({ plan, piece, placed }) => {
      const [own, usual] = [piece.make ?? {}, plan.make];
      const panel = plan.stock.panels.find(({ id }) => id === (own.panel ?? usual.panel))!;
      const third = Math.floor((Math.round(panel.thickness * TICKS_PER_MM) * 1) / 3) / TICKS_PER_MM;
      return backFaults(placed, {
        kind: own.back?.kind ?? usual.back?.kind ?? DEFAULTS.back,
        let: own.let ?? usual.let ?? third,
        inset: own.back?.inset ?? usual.back?.inset ?? DEFAULTS.backInset,
        toe: piece.toe?.height ?? 0,
      });
    }));
  it('gives every drawer box its clearances and the longest slide', () =>
    holds(({ plan, piece, placed }) => {
      const said = { ...DEFAULTS.drawer, ...plan.make.drawer, ...piece.make?.drawer };
      return drawerFaults(placed, said as DrawerRoom);
    }));
  it('rests every adjustable shelf on four pins', () => holds(({ placed }) => pinFaults(placed)));
  it('sets inset fronts into their openings by the gap all round', () => holds(insetFaults));
  it('has openings and edges that make up its whole front', () =>
    holds(({ piece, placed }) =>
      frontAreaFaults(placed, {
        width: Math.round(piece.size.width * TICKS_PER_MM),
        height: Math.round(piece.size.height * TICKS_PER_MM),
      }),
    ));
  it('has no point in two parts, wherever one looks near an edge', () =>
    holds(({ placed }) => {
      // half a tick inside each corner of each joint: where a size that is wrong by one tick would show
      const faults: string[] = [];
      for (const { contact } of placed.joints.slice(0, 40)) {
        const c = cells(contact);
        for (const x of [c.x[0] - 0.5, c.x[0] + 0.5, c.x[1] - 0.5, c.x[1] + 0.5])
          for (const y of [c.y[0] + 0.5, c.y[1] - 0.5, c.y[0] - 0.5])
            for (const z of [c.z[0] + 0.5, c.z[1] - 0.5]) {
              const holders = holdersOf(placed, x, y, z);
              if (holders.length > 1) faults.push(holders.join(' and '));
            }
      }
      return faults;
    }, RUNS / 5));
  it('has volumes that two routes agree on', () =>
    holds(({ placed }) =>
      placed.parts
        .map((part) => ({ part, ...volumesOf(part) }))
        .filter(({ byGrid, byInclusion }) => byGrid !== byInclusion || byGrid <= 0n)
        .map(({ part }) => part.id),
    ));
  it('is the same, spelt in inches or in millimetres', () =>
    holds(({ placed }, unspelt) => {
      const { plan, piece } = readUnspelt(unspelt, 'in');
      // names of hardware say its size as it is sold, in the plan's units; all else is the same to the bit
      const nameless = (of: PlacedPiece) => ({ ...of, fittings: of.fittings.map((f) => ({ ...f, name: '' })) });
      expect(nameless(buildCase(piece, plan, AT_ORIGIN).placed)).toEqual(nameless(placed));
      return [];
    }));
  it('follows its own words before the habits of the plan, each one', () =>
    holds(({ plan, piece, placed }) => {
      const [own, usual] = [piece.make ?? {}, plan.make];
      const make = {
        ...usual,
        ...own,
        ...(own.back && { back: { ...usual.back, ...own.back } }),
        ...(own.drawer && { drawer: { ...usual.drawer, ...own.drawer } }),
      };
      // the same habits, all of them said by the plan and then all of them by the case
      const { make: _, ...bare } = piece;
      expect(buildCase(bare, { ...plan, make }, AT_ORIGIN).placed).toEqual(placed);
      expect(buildCase({ ...piece, make }, { ...plan, make: {} }, AT_ORIGIN).placed).toEqual(placed);
      return [];
    }));
  it('is mirrored by the mirrored plan, part for part', () =>
    holds(({ plan, piece, placed }) => {
      const twin = buildCase(mirrored(piece), plan, AT_ORIGIN, BARE_WALL, { oddTick: 'right' });
      expect(twin.issues).toEqual([]);
      const width = Math.round(piece.size.width * TICKS_PER_MM);
      expect(twin.placed.parts.map((part) => seen(part, width, true)).sort()).toEqual(
        placed.parts.map((part) => seen(part, width, false)).sort(),
      );
      expect(mirrored(mirrored(piece))).toEqual(piece);
      return [];
    }));
});

it('never throws at a plan that makes no sense, says so, and still builds nothing into one place', () => {
  let faulty = 0;
  fc.assert(
    fc.property(anyWildCase, (read) => {
      const { plan, piece } = read();
      const { placed, issues } = buildCase(piece, plan, AT_ORIGIN);
      if (issues.length > 0) faulty += 1;
      else expect([...outsideFaults(placed), ...openingFaults(placed), ...jointFaults(placed)]).toEqual([]);
      expect(overlaps(placed)).toEqual([]);
      expect(partFaults(placed, thicknesses(plan))).toEqual([]);
      for (const issue of issues) expect(issue.path.length).toBeGreaterThan(1);
    }),
    { numRuns: RUNS },
  );
  expect(faulty).toBeGreaterThan(RUNS / 4);
});

/** Walks the plan beside the openings: fixed sizes to the tick, shares in proportion within a tick and the odd ticks first. */
function sizesAsked({ piece, placed, ...sound }: Sound): string[] {
  const faults: string[] = [];
  const clear = new Map(placed.bays.map((bay) => [bay.id, cells(bay.clear)]));
  const check = (what: string, wanted: readonly SizeOrShare[], got: readonly number[]) => {
    const unit = wanted.flatMap((w, i) => (typeof w === 'number' ? [] : [got[i]! / w.share]));
    wanted.forEach((w, i) => {
      if (typeof w === 'number') {
        if (got[i] !== Math.round(w * TICKS_PER_MM))
          faults.push(`${what} ${i + 1}: asked ${w} mm, got ${got[i]! / TICKS_PER_MM}`);
      } else {
        const others = wanted.flatMap((v, j) => (typeof v === 'number' ? [] : [{ share: v.share, got: got[j]! }]));
        const [shares, sum] = others.reduce(([s, g], o) => [s + o.share, g + o.got], [0, 0]);
        if (Math.abs(got[i]! - (sum * w.share) / shares) > 1)
          faults.push(`${what} ${i + 1}: ${got[i]} is not its share of ${sum}`);
      }
    });
    const equal = wanted.every((w) => typeof w !== 'number' && w.share === (wanted[0] as { share: number }).share);
    if (equal && unit.some((u, i) => i > 0 && u > unit[i - 1]!))
      faults.push(`${what}: an odd tick did not go to the first`);
  };
  const walk = (bay: Bay, number: string) => {
    const open = Array.isArray(bay.open)
      ? (bay.open as readonly SizeOrShare[]).map((height): Bay => ({ height }))
      : undefined;
    const [children, axis] = bay.columns ? ([bay.columns, 'x'] as const) : ([bay.rows ?? open, 'y'] as const);
    if (!children) return;
    // a case of one bay calls it bay 1
    const base = number === '' && open ? '1' : number;
    const boxes = children.map((_, i) =>
      clear.get(`${placed.id}/bay-${[...(base ? base.split('.') : []), i + 1].join('-')}`),
    );
    if (boxes.some((box) => !box)) {
      faults.push(`${base}: an opening is missing`);
      return;
    }
    check(
      `bay ${base}`,
      children.map((c) => (axis === 'x' ? c.width : c.height) ?? { share: 1 }),
      boxes.map((box) => box![axis][1] - box![axis][0]),
    );
    for (const [i, c] of children.entries()) walk(c, base ? `${base}.${i + 1}` : `${i + 1}`);
  };
  void sound;
  if (piece.inside) walk(piece.inside, '');
  return faults;
}

const isFrontIn = (bay: BayOpening, id: string, role: string): boolean =>
  role === 'drawer front' && id.startsWith(`${bay.id}/`);

/** An inset door or stack of drawers fills its opening but for the gap at each edge, and lies flush with the face. */
function insetFaults(sound: Sound): string[] {
  const { piece, plan, placed } = sound;
  const gap = Math.round((habit(sound, 'gap') ?? DEFAULTS.gap) * TICKS_PER_MM);
  const usual = habit(sound, 'style') ?? DEFAULTS.style;
  const faults: string[] = [];
  const walk = (bay: Bay, id: string, behind: boolean) => {
    const opening = placed.bays.find((b) => b.id === `${placed.id}/${id}`);
    const style = behind ? 'inset' : (bay.style ?? usual);
    if ((bay.door ?? bay.drawers) !== undefined && style === 'inset' && opening) {
      const fronts = placed.parts
        .filter(({ id, role }) =>
          bay.door !== undefined ? role === 'door' && isDoorOf(placed, opening, id) : isFrontIn(opening, id, role),
        )
        .map((part) => cells(part.solid.box));
      const clear = cells(opening.clear);
      for (const axis of ['x', 'y'] as const) {
        const [low, high] = [Math.min(...fronts.map((f) => f[axis][0])), Math.max(...fronts.map((f) => f[axis][1]))];
        if (low - clear[axis][0] !== gap || clear[axis][1] - high !== gap)
          faults.push(`${opening.id}: not the gap along ${axis}`);
      }
    }
    const prefix = id === 'inside' ? 'bay' : id;
    for (const [i, c] of [...(bay.columns ?? bay.rows ?? [])].entries())
      walk(c, `${prefix}-${i + 1}`, behind || bay.door !== undefined);
  };
  void plan;
  if (piece.inside) walk(piece.inside, piece.inside.columns || piece.inside.rows ? 'inside' : 'bay-1', false);
  return faults;
}
