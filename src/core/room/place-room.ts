import { cosSin, signedArea, vec } from '../geometry/index.ts';
import type { Issue } from '../issue/index.ts';
import { type Printers, printersFor, type Room, type Wall } from '../plan/index.ts';
import { inch, type Mm, mm, snap } from '../quantity/index.ts';
import { crossings } from './outline.ts';
import type { PlacedRoom, PlacedWall, WallFeature } from './room.ts';
import { shareOut } from './traverse.ts';

/** Degrees by which the measured inside angles may miss (n − 2)·180° before it is called a mistake. Common practice: a bevel and a protractor. */
export const LARGEST_ANGLE_MISCLOSURE = 2;
/** How far a room measured with a tape may fail to close, mm: 1/400 of its perimeter, at least 10 mm. Common practice. */
export const largestMisclosure = (perimeter: number): number => Math.max(10, perimeter / 400);

/** Face width of a stud where the plan gives none. Timber: nominal 2 in, dressed (NIST PS 20). Steel: the flange, common practice. */
export const STUD_WIDTH = { 'timber stud': snap(inch(1.5)), 'steel stud': snap(inch(1.25)) } as const;

/** Studs nearer than this leave no room to work between them: a slip of the pen, most likely of the unit. Common practice. */
const LEAST_STUD_SPACING = mm(100);
/** No room that a set is built in has a wall this long, mm: most likely a slip of the unit. Common practice. */
const LONGEST_WALL = mm(100_000);
/** A nave is lower. Common practice. */
const HIGHEST = mm(50_000);
/** A tape along a wall may come out so much longer than the wall was written, mm. Common practice. */
const BEYOND = 50;

type LengthPrinters = Pick<Printers, 'length' | 'notLess' | 'notMore'>;
const IN_MM = printersFor({ length: 'mm', currency: 'XXX' });

type ServiceKind = Room['services'][number]['kind'];
/** Sizes of services whose own are not given, mm; `clear` is what is to be kept free in front. Common practice throughout. */
export const DEFAULT_SERVICE: Readonly<
  Record<ServiceKind, { readonly width: number; readonly tall: number; readonly out: number; readonly clear: number }>
> = {
  outlet: { width: 70, tall: 115, out: 5, clear: 50 }, // a plug stands out about this far
  switch: { width: 70, tall: 115, out: 10, clear: 300 }, // a hand reaches it
  data: { width: 70, tall: 115, out: 5, clear: 50 },
  vent: { width: 300, tall: 150, out: 10, clear: 150 },
  return: { width: 500, tall: 300, out: 10, clear: 150 },
  radiator: { width: 1000, tall: 600, out: 110, clear: 100 },
  thermostat: { width: 120, tall: 120, out: 30, clear: 150 },
  valve: { width: 80, tall: 80, out: 60, clear: 150 },
  other: { width: 100, tall: 100, out: 0, clear: 0 },
};

/** Free depth in front of a doorway without a leaf into the room, mm: room to walk through. Common practice. */
const PASSAGE = 600;
/** Free depth in front of a window that still counts as standing before it, mm: room to reach the catch. Common practice. */
const WINDOW_REACH = 150;

/**
 * The measured walls as a closed outline with the first wall's left end at the origin and its run along x. Inside angles are
 * shared out evenly, then the misclosure by the compass rule. A room is given back even where there are issues, so that it
 * can be drawn; where the walls cross or run the wrong way round it is not to be built from.
 */
export function placeRoom(
  room: Room,
  print: LengthPrinters = IN_MM,
): { readonly room: PlacedRoom; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const closed = closeOutline(room.walls, print, issues);
  const walls = room.walls.map((wall, i): PlacedWall => {
    const start = closed.corners[i]!;
    return {
      id: wall.id,
      frame: { origin: vec(start.x, 0, start.z), turn: closed.turns[i]! },
      length: wall.length,
      height: wall.height ?? room.ceiling,
      corner: closed.angles[i]!,
      studs: studsOf(wall, i, print, issues),
    };
  });
  room.walls.forEach(({ length }, i) => {
    if (length <= LONGEST_WALL) return;
    issues.push({
      path: ['room', 'walls', i, 'length'],
      message: 'no room has a wall this long; is the unit right?',
      found: print.notLess(length),
      expected: `at most ${print.notMore(LONGEST_WALL)}`,
    });
  });
  if (room.ceiling > HIGHEST)
    issues.push({
      path: ['room', 'ceiling'],
      message: 'no room to build in is this high; is the unit right?',
      found: print.notLess(room.ceiling),
      expected: `at most ${print.notMore(HIGHEST)}`,
    });
  const byId = new Map(walls.map((wall) => [wall.id, wall]));
  const names = new Set([...room.openings, ...room.services].flatMap((f) => (f.id === undefined ? [] : [f.id])));
  const openings = room.openings.flatMap((opening, i): readonly WallFeature[] => {
    const wall = byId.get(opening.wall);
    if (!wall) {
      issues.push(noWall(['room', 'openings', i, 'wall'], opening.wall, walls));
      return [];
    }
    const swing = opening.kind === 'door' ? (opening.swing ?? 'in') : undefined;
    return [
      {
        id: opening.id ?? freshName(opening.kind, names),
        wall: opening.wall,
        kind: opening.kind,
        x: [opening.from, mm(opening.from + opening.width)],
        y: [opening.sill, mm(opening.sill + opening.height)],
        out: mm(0),
        clear: mm(opening.kind === 'window' ? WINDOW_REACH : swing === 'in' ? opening.width : PASSAGE),
        trim: opening.trim,
        ...(swing && { swing, hinge: opening.hinge ?? 'left' }),
      },
    ];
  });
  const services = room.services.flatMap((service, i): readonly WallFeature[] => {
    const wall = byId.get(service.wall);
    if (!wall) {
      issues.push(noWall(['room', 'services', i, 'wall'], service.wall, walls));
      return [];
    }
    const usual = DEFAULT_SERVICE[service.kind];
    const [width, tall] = [service.width ?? usual.width, service.tall ?? usual.tall];
    return [
      {
        id: service.id ?? freshName(service.kind, names),
        wall: service.wall,
        kind: service.kind,
        x: [mm(service.at - width / 2), mm(service.at + width / 2)],
        y: [mm(service.height - tall / 2), mm(service.height + tall / 2)],
        out: mm(service.depth ?? usual.out),
        clear: mm(service.clear ?? usual.clear),
      },
    ];
  });
  issues.push(...featureIssues(room, byId, print));
  return {
    room: {
      ceiling: room.ceiling,
      outline: closed.corners.map((c) => vec(c.x, 0, c.z)),
      walls,
      openings,
      services,
      misclosure: mm(closed.misclosure),
    },
    issues,
  };
}

interface Closed {
  readonly corners: readonly { readonly x: number; readonly z: number }[];
  readonly turns: readonly number[];
  readonly angles: readonly number[];
  readonly misclosure: number;
}

function closeOutline(walls: readonly Wall[], print: LengthPrinters, issues: Issue[]): Closed {
  const n = walls.length;
  const sum = walls.reduce((total, wall) => total + wall.corner, 0);
  const wanted = (n - 2) * 180;
  const excess = sum - wanted;
  const angles = walls.map((wall) => wall.corner - excess / n);
  const turns = angles.map((_, i) => angles.slice(0, i).reduce((turn, angle) => turn + 180 - angle, 0));
  const measured = walls.map((wall, i) => {
    const [c, s] = cosSin(turns[i]!);
    return { x: c * wall.length, z: s * wall.length };
  });
  const perimeter = walls.reduce((total, wall) => total + wall.length, 0);
  const { legs, misclosure } = shareOut(measured);
  const miss = Math.hypot(misclosure.x, misclosure.z);

  const backwards = Math.abs(sum - (n + 2) * 180) <= LARGEST_ANGLE_MISCLOSURE;
  if (backwards) {
    issues.push({
      path: ['room', 'walls'],
      message: 'the walls are listed counter-clockwise: list them in the order you see them turning to the right',
      found: `inside angles adding up to ${round(sum)}°`,
      expected: `${wanted}° for ${n} walls`,
    });
  } else if (Math.abs(excess) > LARGEST_ANGLE_MISCLOSURE) {
    issues.push({
      path: ['room', 'walls'],
      message: 'the inside angles of the corners do not make a closed room',
      found: `${round(sum)}° in all`,
      expected: `${wanted}° for ${n} walls; give 'corner' where one is not square`,
    });
  } else if (miss > largestMisclosure(perimeter)) {
    issues.push({
      path: ['room', 'walls'],
      message: `the walls do not close: the end of '${walls[n - 1]!.id}' misses the start of '${walls[0]!.id}'; measure again, the diagonals too`,
      found: `a gap of ${print.notLess(miss)} (${print.length(Math.abs(misclosure.x))} along the first wall, ${print.length(Math.abs(misclosure.z))} across it)`,
      expected: `no more than ${print.notMore(largestMisclosure(perimeter))}, which is shared out`,
    });
  }

  // A room that closes keeps its exact angles; one that does not is turned so that its first wall still runs along x.
  const closes = miss < 1e-6;
  const used = closes ? measured : legs;
  const first = closes ? 0 : Math.atan2(used[0]!.z, used[0]!.x);
  const [c, s] = [Math.cos(first), Math.sin(first)];
  const turned = used.map((leg) => ({ x: c * leg.x + s * leg.z, z: -s * leg.x + c * leg.z }));
  const corners: { x: number; z: number }[] = [];
  let at = { x: 0, z: 0 };
  for (const leg of turned) {
    corners.push(at);
    at = { x: at.x + leg.x, z: at.z + leg.z };
  }
  const finalTurns = closes
    ? turns.map((turn) => modulo(turn, 360))
    : turned.map((leg, i) => (i === 0 ? 0 : modulo((Math.atan2(leg.z, leg.x) * 180) / Math.PI, 360)));
  const finalAngles = closes
    ? angles
    : finalTurns.map((turn, i) => modulo(180 - (finalTurns[(i + 1) % n]! - turn), 360));

  if (issues.length === 0) {
    const crossing = crossings(corners)[0];
    if (crossing) {
      const [i, j] = crossing;
      issues.push({
        path: ['room', 'walls', j],
        message: `wall '${walls[j]!.id}' crosses wall '${walls[i]!.id}'`,
        expected: 'walls that meet only at their corners',
      });
    } else if (signedArea(corners) <= 0) {
      issues.push({
        path: ['room', 'walls'],
        message: 'the walls enclose nothing, or run counter-clockwise',
        expected: 'walls listed clockwise seen from above',
      });
    }
  }
  return { corners, turns: finalTurns, angles: finalAngles, misclosure: miss };
}

function studsOf(wall: Wall, index: number, print: LengthPrinters, issues: Issue[]): PlacedWall['studs'] {
  const framing = wall.framing;
  if (!framing || framing.kind === 'masonry') return [];
  const width = framing.width ?? (framing.kind === 'steel stud' ? STUD_WIDTH['steel stud'] : STUD_WIDTH['timber stud']);
  if (framing.at) {
    framing.at.forEach((at, i) => {
      if (at > wall.length)
        issues.push({
          path: ['room', 'walls', index, 'framing', 'at', i],
          message: `this stud is past the end of wall '${wall.id}'`,
          found: print.notLess(at),
          expected: `at most ${print.notMore(wall.length)}`,
        });
    });
    return framing.at
      .filter((at) => at <= wall.length)
      .toSorted((a, b) => a - b)
      .map((at) => ({ at, width, measured: true }));
  }
  if (framing.spacing === undefined) return [];
  if (framing.spacing < LEAST_STUD_SPACING) {
    issues.push({
      path: ['room', 'walls', index, 'framing', 'spacing'],
      message: `the studs of wall '${wall.id}' stand nearer to one another than studs do; is the unit right?`,
      found: print.notMore(framing.spacing),
      expected: `at least ${print.notLess(LEAST_STUD_SPACING)}, or each stud under 'at'`,
    });
    return [];
  }
  const first = framing.first ?? framing.spacing;
  const studs: { at: Mm; width: Mm; measured: boolean }[] = [];
  for (let i = 0; first + i * framing.spacing <= wall.length; i++)
    studs.push({ at: mm(first + i * framing.spacing), width, measured: false });
  return studs;
}

interface OnWall {
  readonly path: readonly (string | number)[];
  readonly name: string;
  readonly kind: string;
  readonly wall: string;
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** Whether its size is the user's own, so that its edges may be held against the wall. */
  readonly sized: boolean;
}

/** Openings and services off their wall, or over each other. */
function featureIssues(room: Room, walls: ReadonlyMap<string, PlacedWall>, print: LengthPrinters): readonly Issue[] {
  const issues: Issue[] = [];
  const openings = room.openings.map(
    (o, i): OnWall => ({
      path: ['room', 'openings', i],
      name: o.id ?? o.kind,
      kind: o.kind,
      wall: o.wall,
      x: [o.from, o.from + o.width],
      y: [o.sill, o.sill + o.height],
      sized: true,
    }),
  );
  const services = room.services.map((s, i): OnWall => {
    const [width, tall] = [s.width ?? 0, s.tall ?? 0];
    return {
      path: ['room', 'services', i],
      name: s.id ?? s.kind,
      kind: s.kind,
      wall: s.wall,
      x: [s.at - width / 2, s.at + width / 2],
      y: [s.height - tall / 2, s.height + tall / 2],
      sized: false,
    };
  });
  const slack = 0.01; // mm: sums of lengths as typed
  const all = [...openings, ...services];
  for (const f of all) {
    const wall = walls.get(f.wall);
    if (!wall) continue;
    if (f.x[0] < -slack || f.x[1] > wall.length + slack)
      issues.push({
        path: [...f.path, f.sized ? 'from' : 'at'],
        message: `'${f.name}' is not on wall '${f.wall}'`,
        found: `from ${print.notMore(f.x[0])} to ${print.notLess(f.x[1])}`,
        expected: `between 0 and ${print.notMore(wall.length)}`,
      });
    if (f.y[0] < -slack || f.y[1] > wall.height + slack)
      issues.push({
        path: [...f.path, 'height'],
        message: `'${f.name}' reaches past the ${f.y[0] < 0 ? 'floor' : 'top of the wall'}`,
        found: `from ${print.notMore(f.y[0])} to ${print.notLess(f.y[1])} above the floor`,
        expected: `between 0 and ${print.notMore(wall.height)}`,
      });
  }
  const lines = [
    ...room.survey.map((s, i) => ({ wall: s.wall, path: ['room', 'survey', i, 'offsets'], points: s.offsets })),
    ...room.floor.map((f, i) => ({ wall: f.wall, path: ['room', 'floor', i, 'drops'], points: f.drops })),
  ];
  for (const { wall: id, path, points } of lines) {
    const wall = walls.get(id);
    const past = wall && points.find(({ at }) => at < 0 || at > wall.length + BEYOND);
    if (past)
      issues.push({
        path,
        message: `a place that was measured is not on wall '${id}'`,
        found: print.length(past.at),
        expected: `between 0 and ${print.notMore(wall.length)}`,
      });
  }
  for (let j = 0; j < all.length; j++) {
    for (let i = 0; i < j; i++) {
      const [a, b] = [all[i]!, all[j]!];
      if (
        a.wall !== b.wall ||
        (a.kind === 'radiator' && b.kind === 'valve') ||
        (a.kind === 'valve' && b.kind === 'radiator')
      )
        continue;
      const over = !a.sized && !b.sized ? eitherCentreInside(a, b) : overlap(a.x, b.x) && overlap(a.y, b.y);
      if (over)
        issues.push({
          path: b.path,
          message: `'${b.name}' lies over '${a.name}' on wall '${a.wall}'`,
          expected: 'openings and services beside each other',
        });
    }
  }
  return issues;
}

/** Services as usually drawn may touch; one is misplaced only when its middle lies on another. */
const eitherCentreInside = (a: OnWall, b: OnWall): boolean => centreInside(a, b) || centreInside(b, a);
const centreInside = (a: OnWall, b: OnWall): boolean =>
  [a.x, a.y].every(([low, high], i) => {
    const [from, to] = i === 0 ? b.x : b.y;
    const centre = (low + high) / 2;
    return centre >= from && centre <= to;
  });
/** A point counts as lying in an interval when it is strictly inside. */
const overlap = (a: readonly [number, number], b: readonly [number, number]): boolean =>
  Math.min(a[1], b[1]) - Math.max(a[0], b[0]) > 0.01 ||
  (a[0] === a[1] && a[0] > b[0] && a[0] < b[1]) ||
  (b[0] === b[1] && b[0] > a[0] && b[0] < a[1]);

function freshName(kind: string, taken: Set<string>): string {
  for (let i = 1; ; i++) {
    const name = `${kind}-${i}`;
    if (taken.has(name)) continue;
    taken.add(name);
    return name;
  }
}

const noWall = (path: Issue['path'], found: string, walls: readonly PlacedWall[]): Issue => ({
  path,
  message: 'the room has no such wall',
  found: `'${found}'`,
  expected: walls.map((wall) => `'${wall.id}'`).join(', '),
});
const modulo = (a: number, by: number): number => ((a % by) + by) % by;
const round = (value: number): number => Math.round(value * 10) / 10;
