import { wallCalled } from '../called.ts';
import { enclose, floorArea } from '../geometry/index.ts';
import { grouped } from '../grouped.ts';
import { type Issue, nearest } from '../issue/index.ts';
import { type Working, work } from '../notes/index.ts';
import type { Option, Plan } from '../plan/index.ts';
import { mm } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom, PlacedWall } from '../room/index.ts';
import type { Fitting, Part, PlacedPiece } from '../scene/index.ts';
import { boardItem, boardSection } from '../stock/index.ts';
import { paintNeeded } from './paint.ts';
import { beadArea, sealantLength } from './sundries.ts';
import { caulkRuns, NAIL_SPACING, paintedWalls, scribeRuns, skirtingRuns, wallArea } from './take-off.ts';
import { mitreFront, type TrimPiece, trimJoints } from './trim.ts';

export interface FinishingInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  /** Every hole in the walls: what goes into it, and whether a shim goes behind it. */
  readonly holes: readonly {
    readonly use: string;
    readonly name: string;
    readonly diameter?: number;
    readonly length?: number;
    readonly shim: boolean;
    readonly washer?: boolean;
  }[];
  /** Places under the runs that are shimmed up from the floor. */
  readonly floorShims: number;
  /** Joints between cases that touch: how many bolts each takes. */
  readonly bolts: readonly number[];
}

/** One thing the finishing takes. Amounts in the unit named; '' is a count. */
export interface FinishItem {
  readonly id: string;
  readonly what: string;
  readonly why: string;
  readonly amount: number;
  readonly unit: 'L' | 'mm' | 'mm²' | '';
  /** The pack that serves for it. */
  readonly use: string;
  /** Of what goes into a wall, how thick and how long it is sold, mm. */
  readonly diameter?: number;
  readonly length?: number;
  readonly working?: Working;
}

/** A length of moulding as it is cut. */
export interface TrimCut {
  readonly part: Part;
  readonly piece: TrimPiece;
}

export interface Finishing {
  /** The mouldings as pieces of the room, one for each wall and kind: their parts are cut and bought like all others. */
  readonly trim: readonly PlacedPiece[];
  readonly cuts: readonly TrimCut[];
  readonly items: readonly FinishItem[];
  readonly fittings: readonly Fitting[];
  readonly issues: readonly Issue[];
}

/** A nail hole, and the hole of a wall screw that is seen, filled: millilitres; most are filled twice. Common practice. */
const NAIL_FILL = 0.5;
const SCREW_FILL = 2;
const FILLINGS = 2;
/** Filler and the primer over it, m² each patch. Common practice. */
const PATCH = 0.01;
/** Leg of a bead of caulk tooled flat, mm. Common practice. */
const BEAD = 6;
/** A bead of grab adhesive on the back of a skirting, round, mm, and how many run along it. Common practice. */
const GRAB_BEAD = 6;
const GRAB_BEADS = 2;
/** What it goes into: the tube, the tray and the brush keep a tenth. Common practice. */
const WASTE = 0.1;

const LEAD =
  'Old paint may hold lead, old textured coatings, fillers and tile adhesives asbestos: have them tested before anything is sanded, scraped or drilled. Mask against dust, air the room.';

/** Everything the walls and the trim of one option take when the carpentry is done: mouldings to cut, and what is bought by the pack. */
export function finishingOf(input: FinishingInput): Finishing {
  const { option, plan } = input;
  const said = option.finish;
  if (!said) {
    const items = roomPaint(input);
    const fittings = fittingsOf([...fittingItems(input), ...items]);
    return { trim: [], cuts: [], items, fittings, issues: [] };
  }
  const path = ['options', plan.options.indexOf(option), 'finish'];
  const issues: Issue[] = [];
  const made: { piece: PlacedPiece; cuts: readonly TrimCut[] }[] = [];
  const moulding = (key: 'skirting' | 'scribe', lay: (board: Moulding) => typeof made): void => {
    const id = said[key];
    if (id === undefined) return;
    const found = mouldingOf(plan, id);
    if (found) made.push(...lay(found));
    else
      issues.push({
        path: [...path, key],
        message:
          'this moulding cannot be cut: the stock has no board of that name with a width, a thickness and a length',
        found: `'${id}'`,
        expected: 'a board of the stock',
        ...nearestOf(
          id,
          plan.stock.boards.map((b) => b.id),
        ),
      });
  };
  moulding('skirting', (board) => skirtingPieces(input, board));
  moulding('scribe', (board) => scribePieces(input, board));
  const cuts = made.flatMap((m) => m.cuts);
  const items = itemsOf(input, cuts);
  return {
    trim: made.map((m) => m.piece),
    cuts,
    items,
    issues,
    fittings: fittingsOf(items),
  };
}

const fittingsOf = (items: readonly FinishItem[]): readonly Fitting[] =>
  items.map(({ id, use, what, amount, unit, diameter, length }) => ({
    id: `finish/${id}`,
    piece: 'finish',
    use,
    name: what,
    count: unit === '' ? amount : 1,
    ...(unit !== '' && { amount: { value: amount, unit } }),
    ...(diameter !== undefined && { diameter }),
    ...(length !== undefined && { length }),
  }));

const nearestOf = (id: string, among: readonly string[]) => {
  const found = nearest(id, among);
  return found === undefined ? {} : { nearest: found };
};

interface Moulding {
  readonly id: string;
  readonly thickness: number;
  readonly width: number;
  readonly longest: number;
}
function mouldingOf(plan: Plan, id: string): Moulding | undefined {
  const board = boardItem(plan.stock, id);
  const section = board && boardSection(board);
  const longest = Math.max(0, ...(board?.lengths ?? []).map((l) => l.length - 2 * (plan.shop.ends ?? 0)));
  return section && longest > 2 * section.width
    ? { id, thickness: section.thickness, width: section.width, longest }
    : undefined;
}

/** How wide the moulding is that an option is finished with, mm; 0 without one. */
export function mouldingWidth(
  { option, plan }: Pick<FinishingInput, 'option' | 'plan'>,
  which: 'skirting' | 'scribe',
): number {
  const id = option.finish?.[which];
  return (id === undefined ? undefined : mouldingOf(plan, id))?.width ?? 0;
}

interface Laid {
  readonly name: string;
  readonly trim: TrimPiece;
  /** Where its lower left rear corner lies, and whether it runs up. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly upright: boolean;
}

/** Lengths of one moulding on one wall, as a piece of the room. */
function pieceOf(wall: PlacedWall, id: string, title: string, role: string, board: Moulding, laid: readonly Laid[]) {
  const { thickness: t, width: w } = board;
  const cuts = laid.map(({ name, trim, x, y, z, upright }, i): TrimCut => {
    const [length, width] = [mm(trim.length), mm(w)];
    const size = upright ? { x: w, y: length } : { x: length, y: w };
    const part: Part = {
      id: `${id}/${i + 1}`,
      piece: id,
      label: { place: title, name, up: 'up', show: 'front' },
      role,
      stock: board.id,
      from: 'board',
      solid: { box: { min: { x, y, z }, max: { x: x + size.x, y: y + size.y, z: z + t } }, taken: [] },
      axes: upright ? { length: 'y', width: 'x', thickness: 'z' } : { length: 'x', width: 'y', thickness: 'z' },
      size: { length, width, thickness: mm(t) },
      cut: { length, width },
      grain: 'fixed',
      edges: [],
    };
    return { part, piece: trim };
  });
  const parts = cuts.map((c) => c.part);
  const piece: PlacedPiece = {
    id,
    kind: 'trim',
    title,
    frame: wall.frame,
    outside: enclose(parts.map((p) => p.solid.box)),
    wall: { id: wall.id, from: mm(0) },
    needs: [],
    parts,
    joints: [],
    fittings: [],
    bays: [],
  };
  return { piece, cuts };
}

/** Mouldings are laid anew at every edit, and mostly come out the same. */
const skirtings = remember<PlacedWall, ReturnType<typeof pieceOf>>();
const scribes = remember<PlacedWall, ReturnType<typeof pieceOf>>();

/** What the skirting of a wall is called as a piece. */
const skirtingOn = ({ id }: { readonly id: string }): string => `skirting · ${id}`;
/** What skirting takes where no nail holds. */
export const SKIRTING_GRAB = 'skirting-adhesive';

/** Skirting of each wall, mitred at the corners, square at casings and cases. */
function skirtingPieces(input: FinishingInput, board: Moulding) {
  const runs = skirtingRuns(input, board.width, mouldingWidth(input, 'scribe'));
  const pieces = trimJoints(runs, board);
  return input.room.walls.flatMap((wall) => {
    const own = runs.filter((r) => r.wall === wall.id);
    const laid = own.flatMap((run) =>
      pieces
        .filter((p) => p.run === run.id)
        .map((trim): Laid => {
          // an outside mitre reaches past the end of its wall
          const start =
            trim.number === 1 && run.start !== undefined ? Math.max(0, mitreFront(run.start, board.thickness)) : 0;
          return {
            name: `skirting ${trim.run.slice(wall.id.length + 1)}${trim.of > 1 ? `, ${trim.number} of ${trim.of}` : ''}`,
            trim,
            x: run.from + trim.at - start,
            y: 0,
            z: 0,
            upright: false,
          };
        }),
    );
    return laid.length === 0
      ? []
      : [
          skirtings(wall, [JSON.stringify([board, laid])], () =>
            pieceOf(wall, skirtingOn(wall), `Skirting, ${wallCalled(wall.id)}`, 'skirting', board, laid),
          ),
        ];
  });
}

/** A thin moulding over the gap to the wall: up the free ends of every run and along its top. Square ends, glued and nailed. */
function scribePieces(input: FinishingInput, board: Moulding) {
  return input.room.walls.flatMap((wall) => {
    const laid = scribeRuns(input, wall, board.width).flatMap(({ id, name, x, y, length, upright, free }) =>
      trimJoints([{ id, length }], board).map(
        (trim): Laid => ({
          name: `${upright ? 'upright' : 'top'} ${name}${trim.of > 1 ? `, ${trim.number} of ${trim.of}` : ''}`,
          trim,
          x: upright ? (free === 'left' ? x - board.width : x) : x + trim.at,
          y: upright ? y + trim.at : y,
          z: 0,
          upright,
        }),
      ),
    );
    return laid.length === 0
      ? []
      : [
          scribes(wall, [JSON.stringify([board, laid])], () =>
            pieceOf(
              wall,
              `scribe · ${wall.id}`,
              `Scribe moulding, ${wallCalled(wall.id)}`,
              'scribe moulding',
              board,
              laid,
            ),
          ),
        ];
  });
}

/** Bare fibreboard parts that are painted: fronts on both faces, linings on the one that shows, m². */
function bareArea({ plan, pieces }: FinishingInput): number {
  const bare = new Set(
    plan.stock.panels.filter((p) => /mdf|fibreboard|fiberboard/i.test(p.kind ?? '')).map((p) => p.id),
  );
  if (bare.size === 0) return 0;
  let area = 0;
  for (const { parts } of pieces)
    for (const { from, stock, role, size } of parts)
      if (from === 'panel' && bare.has(stock))
        area += (role === 'lining panel' ? 1 : 2) * size.length * size.width * 1e-6;
  return area;
}

/** Paint of an area in m², bought by what spreads it. */
function paintItem(id: string, what: string, why: string, use: string, m2: number, coats: number): FinishItem[] {
  if (!(m2 > 0)) return [];
  const working = { ...work(paintNeeded, { area: m2, coats, waste: WASTE }), caution: LEAD };
  return [{ id, what, why, amount: working.result.value, unit: 'L', use, working }];
}

/** Paint of whole walls and of the whole ceiling: they are rolled before anything stands there. */
function roomPaint(input: FinishingInput): readonly FinishItem[] {
  const { option, room } = input;
  const coats = option.finish?.coats ?? 2;
  const walls = paintedWalls(option, room);
  const area = walls.reduce((sum, wall) => sum + wallArea(room, wall), 0) / 1e6;
  const ceiling = option.paint?.ceiling === undefined ? 0 : floorArea(room);
  return [
    ...paintItem('wall-paint', `wall paint, ${coats} coats`, walls.map((w) => w.id).join(', '), 'paint', area, coats),
    ...paintItem(
      'ceiling-paint',
      `ceiling paint, ${coats} coats`,
      'the whole ceiling',
      'ceiling paint',
      ceiling,
      coats,
    ),
  ];
}

/** What holds the set to the walls and its cases together, and what goes behind and under them: it is wanted whatever is finished. */
function fittingItems({ holes, bolts, floorShims }: FinishingInput): readonly FinishItem[] {
  // by their sizes in mm, whatever the plan says them in
  const alike = grouped(holes, ({ use, diameter, length }) =>
    [use, ...[diameter, length].map((size) => (size === undefined ? '' : Math.round(size * 100) / 100))].join(' '),
  );
  const fixings = [...alike].map(([key, group]): FinishItem => {
    const { name, use, diameter, length } = group[0]!;
    return {
      id: `fixing ${key.trim()}`,
      what: name,
      why: 'one in each hole of the drilling table',
      amount: group.length,
      unit: '',
      use,
      ...(diameter !== undefined && { diameter }),
      ...(length !== undefined && { length }),
    };
  });
  const washers = [...grouped(holes, ({ washer, diameter }) => (washer ? (diameter ?? 0) : undefined))].flatMap(
    ([diameter, group]): readonly FinishItem[] =>
      diameter === undefined
        ? []
        : [
            {
              id: `washers ${Math.round(diameter * 100) / 100}`,
              what: `cut washers for ${group[0]!.name}`,
              why: 'one under each head that bears on wood',
              amount: group.length,
              unit: '',
              use: 'washer',
              ...(diameter > 0 && { diameter }),
            },
          ],
  );
  const joints: FinishItem = {
    id: 'bolts',
    what: 'connector bolts between cases that touch',
    why: `${bolts.length} ${bolts.length === 1 ? 'joint' : 'joints'} between neighbours`,
    amount: bolts.reduce((a, b) => a + b, 0),
    unit: '',
    use: 'connector bolt',
  };
  const behind = holes.filter((h) => h.shim).length;
  const shims: FinishItem = {
    id: 'shims',
    what: 'shims, in pairs of wedges',
    why: `${behind} at fixings, ${floorShims} under the runs`,
    amount: 2 * (behind + floorShims),
    unit: '',
    use: 'shim',
  };
  return [...fixings, ...washers, joints, shims].filter((item) => item.amount > 0);
}

function itemsOf(input: FinishingInput, cuts: readonly TrimCut[]): readonly FinishItem[] {
  const said = input.option.finish!;
  const { plan, room, holes } = input;
  const coats = said.coats ?? 2;
  const painted = paintedWalls(input.option, room);
  // no nail goes into brick or concrete, and no stud is behind them; a cover moulding is nailed to its case on any wall
  const bedded = new Set(plan.room.walls.flatMap((w) => (w.framing?.kind === 'masonry' ? [skirtingOn(w)] : [])));
  const trim = cuts.map(({ part, piece }) => ({
    length: piece.wall,
    role: part.role,
    bedded: bedded.has(part.piece),
    face: (part.size.width + 2 * part.size.thickness) * piece.wall * 1e-6,
    section: part.size.width * part.size.thickness,
    glued: [piece.start, piece.end].filter((e) => e.cut !== 'square').length,
  }));
  const trimFace = trim.reduce((sum, t) => sum + t.face, 0);
  const bare = bareArea(input);
  const nailed = trim.filter((t) => !t.bedded);
  const nails = nailed.reduce((sum, t) => sum + 2 * (Math.ceil(t.length / NAIL_SPACING) + 1), 0);
  const grabbed = trim.reduce((sum, t) => sum + (t.bedded ? t.length : 0), 0);
  const patches = nails + holes.length;
  const beads = room.walls.flatMap((wall) => caulkRuns(input, wall));
  const bead =
    beads.reduce((sum, b) => sum + b.length, 0) +
    skirtingRuns(input, undefined, mouldingWidth(input, 'scribe')).reduce((sum, r) => sum + r.length, 0);
  const items: FinishItem[] = [...fittingItems(input)];
  const add = (item: FinishItem): void => {
    if (item.amount > 0) items.push(item);
  };
  add({
    id: 'finish-nails',
    what: 'finish nails for the trim',
    why: nailed.some((t) => t.role === 'skirting')
      ? 'two at every stud, one of them into the plate'
      : 'into the edges of the cases',
    amount: nails,
    unit: '',
    use: 'finish nail',
  });
  add({
    id: SKIRTING_GRAB,
    what: 'grab adhesive for the skirting of masonry walls',
    why: 'two beads along its back, since no nail holds there; prop it till it has set',
    amount: (grabbed * (1 + WASTE) * GRAB_BEADS * Math.PI * (GRAB_BEAD / 2) ** 2) / 1e6,
    unit: 'L',
    use: 'grab adhesive',
  });
  add({
    id: 'trim-glue',
    what: 'wood glue for mitres and scarfs',
    why: 'on every mitred or scarfed end',
    amount: trim.reduce((sum, t) => sum + (t.glued * t.section * Math.SQRT2) / 2, 0),
    unit: 'mm²',
    use: 'glue',
  });
  add({
    id: 'filler',
    what: 'filler for nail and screw holes',
    why: `${patches} holes, filled twice: the first shrinks`,
    amount: (FILLINGS * (nails * NAIL_FILL + holes.length * SCREW_FILL)) / 1000,
    unit: 'L',
    use: 'filler',
  });
  if (bead > 0) {
    const working = {
      ...work(sealantLength, { shape: 'fillet', width: BEAD, run: bead * (1 + WASTE) }),
      caution: LEAD,
    };
    add({
      id: 'caulk',
      what: 'paintable caulk along cases, mouldings and skirting',
      why: 'a bead where painted wood meets the wall',
      amount: (bead * (1 + WASTE) * beadArea('fillet', BEAD, BEAD)) / 1e6,
      unit: 'L',
      use: 'caulk',
      working,
    });
    add({
      id: 'tape',
      what: 'masking tape along what is not painted',
      why: 'beside every bead, and along the ceiling of painted walls',
      amount: bead + painted.reduce((sum, w) => sum + w.length, 0),
      unit: 'mm',
      use: 'masking tape',
    });
  }
  items.push(
    ...paintItem(
      'primer',
      'primer over patches, bare fibreboard and bare trim',
      'one coat: filler that is not primed flashes through the paint',
      'primer',
      patches * PATCH + bare + trimFace,
      1,
    ),
    ...roomPaint(input),
    ...paintItem(
      'trim-paint',
      `paint for trim and fibreboard, ${coats} coats`,
      'before it goes up; joints and nail holes once more after',
      'trim paint',
      trimFace + bare,
      coats,
    ),
  );
  return items;
}
