import { AXES, type Axis, type Box, intersect, side } from '../geometry/index.ts';
import type { Issue } from '../issue/index.ts';
import { finestOf, type Plan, printersFor } from '../plan/index.ts';
import { denominator, formatSold, fromTicks, inch, isInches, toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import {
  AXIS_OF,
  type BayOpening,
  type Direction,
  type Edge,
  type Fitting,
  type Joint,
  longestScrew,
  type Machining,
  type Part,
  type PlacedPiece,
  type Solid,
} from '../scene/index.ts';
import { BAND_OVER, fastenerCount } from './defaults.ts';
import type { Ticks } from './divide.ts';
import type { Material } from './material.ts';

/** A box with whole ticks for coordinates. */
export type TickBox = Box;
export type Span = readonly [Ticks, Ticks];
export type Path = Issue['path'];

export const cuboid = (x: Span, y: Span, z: Span): TickBox => ({
  min: { x: x[0], y: y[0], z: z[0] },
  max: { x: x[1], y: y[1], z: z[1] },
});
export const long = (span: Span): Ticks => span[1] - span[0];

/** A part while its piece is being built: lengths in ticks. */
export interface DraftPart {
  readonly id: string;
  readonly name: string;
  readonly place: string;
  readonly role: string;
  readonly material: Material;
  readonly box: TickBox;
  readonly axes: Part['axes'];
  readonly edges: readonly { readonly towards: Direction; readonly band: string; readonly thickness: Ticks }[];
  readonly up: Direction;
  readonly show: Direction;
  readonly grainMatters: boolean;
  readonly taken: DraftMachining[];
}
export interface DraftMachining extends Omit<Machining, 'box' | 'round'> {
  readonly box: TickBox;
  readonly round?: { readonly diameter: Ticks; readonly axis: Axis };
}
interface DraftJoint extends Omit<Joint, 'contact'> {
  readonly contact: TickBox;
}

/** A piece while it is being built. Filled by the functions of this folder and read once, by `finish`; it never leaves the folder. */
export interface Draft {
  readonly piece: string;
  readonly kind: string;
  readonly title: string;
  readonly path: Path;
  readonly parts: DraftPart[];
  readonly joints: DraftJoint[];
  readonly fittings: Fitting[];
  readonly bays: (Omit<BayOpening, 'clear'> & { readonly clear: TickBox })[];
  readonly needs: { readonly what: string; readonly box: TickBox; readonly part?: string }[];
  readonly issues: Issue[];
  /** A length in the plan's own units, in decimals where its finest fraction is not exact: of what must come out even. */
  readonly show: (length: Ticks) => string;
  /** A bound as the plan prints it, and what is found on its wrong side: rounded up or down, so that what is said holds. */
  readonly notLess: (length: Ticks) => string;
  readonly notMore: (length: Ticks) => string;
  /** `from 3/4" to 29-1/4"`, bounds both; exact where no printed length lies between them. */
  readonly range: (reach: Span) => string;
  /** As hardware is sold: inches without feet, or millimetres. */
  readonly showAsSold: (length: Ticks) => string;
}

export function newDraft(kind: string, piece: string, title: string | undefined, path: Path, plan: Plan): Draft {
  const { units } = plan;
  const { length: print, notLess, notMore } = printersFor(units);
  const imperial = isInches(units.length);
  const finest = denominator(units.fraction);
  const show = (length: Ticks): string =>
    imperial && (length * finest) % toTicks(inch(1)) === 0
      ? print(fromTicks(length))
      : print(fromTicks(length), { fraction: undefined, decimals: imperial ? 3 : 4 });
  return {
    piece,
    kind,
    title: title ?? piece,
    path,
    parts: [],
    joints: [],
    fittings: [],
    bays: [],
    needs: [],
    issues: [],
    show,
    notLess: (length) => notLess(fromTicks(length)),
    notMore: (length) => notMore(fromTicks(length)),
    range: ([low, high]) =>
      high - low < toTicks(finestOf(units))
        ? `from ${show(low)} to ${show(high)}`
        : `from ${notLess(fromTicks(low))} to ${notMore(fromTicks(high))}`,
    showAsSold: (length) => formatSold(fromTicks(length), imperial),
  };
}

/** What is found outside of a range that ends at `most`, said so that it still lies outside. */
export const beside = (draft: Draft, found: Ticks, most: Ticks): string =>
  found > most ? draft.notLess(found) : draft.notMore(found);

export interface PartWanted {
  /** After the piece's own name: `bay-2/door`. */
  readonly id: string;
  readonly name: string;
  readonly role: string;
  readonly bay?: string | undefined;
  readonly material: Material;
  readonly box: TickBox;
  readonly length: Axis;
  readonly thickness: Axis;
  readonly band?:
    | { readonly id: string; readonly thickness: Ticks; readonly towards: readonly Direction[] }
    | undefined;
  readonly show?: Direction;
  readonly grainMatters?: boolean;
  readonly path?: Path;
}

/** Far beyond any piece that is built by hand; what is after that is a slip of the pen, and would take hours to work out. */
export const MOST_PARTS = 2000;

/**
 * Adds a part; undefined, with an issue, when its sizes or its edge bands leave nothing to cut, a board is too narrow for it or the
 * piece has too many parts already.
 */
export function addPart(draft: Draft, wanted: PartWanted): DraftPart | undefined {
  if (draft.parts.length >= MOST_PARTS) {
    refuseMore(draft);
    return undefined;
  }
  const { box, material } = wanted;
  const path = wanted.path ?? draft.path;
  const width = AXES.find((axis) => axis !== wanted.length && axis !== wanted.thickness)!;
  const none = AXES.find((axis) => side(box, axis) <= 0);
  if (none) {
    draft.issues.push({
      path,
      message: `there is no room for ${wanted.name}`,
      found: `${draft.notMore(side(box, none))} ${WIDE[none]}`,
      expected: 'more than 0',
    });
    return undefined;
  }
  if (material.width !== undefined && side(box, width) > material.width) {
    // of many parts of one board the first tells enough, unless a later one asks for more
    const expected = `at least ${draft.notLess(side(box, width))}, or a panel`;
    const told = draft.issues.some(
      (i) =>
        i.message.startsWith(`board ${material.id} is too narrow`) &&
        i.expected === expected &&
        `${i.path}` === `${path}`,
    );
    if (!told)
      draft.issues.push({
        path,
        message: `board ${material.id} is too narrow for ${wanted.name}`,
        found: draft.notMore(material.width),
        expected,
      });
    return undefined;
  }
  const bands = material.from === 'board' ? [] : (wanted.band?.towards ?? []);
  for (const axis of [wanted.length, width]) {
    const covered = bands.filter((towards) => AXIS_OF[towards] === axis).length * (wanted.band?.thickness ?? 0);
    if (covered === 0 || side(box, axis) > covered) continue;
    draft.issues.push({
      path,
      message: `its edge band leaves nothing to cut of ${wanted.name}`,
      found: `${draft.notMore(side(box, axis))} ${WIDE[axis]}`,
      expected: `more than ${draft.notLess(covered)}`,
    });
    return undefined;
  }
  const part: DraftPart = {
    id: `${draft.piece}/${wanted.id}`,
    name: wanted.name,
    place: wanted.bay ? `${draft.title}, ${wanted.bay}` : draft.title,
    role: wanted.role,
    material,
    box,
    axes: { length: wanted.length, width, thickness: wanted.thickness },
    edges: bands.map((towards) => ({ towards, band: wanted.band!.id, thickness: wanted.band!.thickness })),
    up: 'up',
    show: wanted.show ?? 'front',
    grainMatters: wanted.grainMatters ?? true,
    taken: [],
  };
  draft.parts.push(part);
  return part;
}

const WIDE = { x: 'wide', y: 'high', z: 'deep' } as const;

/** Says once that a piece has more parts than can be worked out. */
export function refuseMore(draft: Draft): void {
  if (draft.issues.some(({ message }) => message === TOO_MANY)) return;
  draft.issues.push({
    path: draft.path,
    message: TOO_MANY,
    found: `more than ${MOST_PARTS}`,
    expected: `at most ${MOST_PARTS}`,
  });
}
const TOO_MANY = 'this piece would be made of more parts than can be worked out';

/** Where two boxes share a face, overlap, or face each other across a gap; undefined when they do not face each other. */
export function meeting(a: TickBox, b: TickBox): TickBox | undefined {
  let apart = 0;
  const [min, max] = [
    { x: 0, y: 0, z: 0 },
    { x: 0, y: 0, z: 0 },
  ];
  for (const axis of AXES) {
    const [low, high] = [Math.max(a.min[axis], b.min[axis]), Math.min(a.max[axis], b.max[axis])];
    if (high <= low) apart += 1;
    [min[axis], max[axis]] = high < low ? [high, low] : [low, high];
  }
  return apart <= 1 ? { min, max } : undefined;
}

type Fasten = Joint['fasten'];
type MaybePart = DraftPart | undefined;

/**
 * Declares that `a` meets `b`, at `at` where their boxes alone do not tell. Parts that could not be made, or that do not face each
 * other, are passed over.
 */
export function join(
  draft: Draft,
  kind: Joint['kind'],
  a: MaybePart,
  b: MaybePart,
  fasten: Fasten,
  at?: TickBox,
): boolean {
  if (!a || !b) return false;
  const contact = at ?? meeting(a.box, b.box);
  if (!contact) return false;
  const local = (part: DraftPart) => part.id.slice(draft.piece.length + 1);
  draft.joints.push({ id: `${a.id}+${local(b)}`, kind, a: a.id, b: b.id, contact, fasten });
  return true;
}

/** `a` is let into `b`: what they share is taken out of `b`. Where they only touch it is a butt joint. */
export function letInto(
  draft: Draft,
  kind: 'rabbet' | 'dado' | 'groove',
  a: MaybePart,
  b: MaybePart,
  fasten: Fasten,
): void {
  if (!a || !b) return;
  const common = intersect(a.box, b.box);
  if (AXES.some((axis) => side(common, axis) <= 0)) {
    join(draft, 'butt', a, b, fasten);
    return;
  }
  b.taken.push({ kind, box: common, why: a.name });
  join(draft, kind, a, b, fasten);
}

/** What the blocks leave of a stretch. */
export function withoutSpans(from: Span, blocks: readonly Span[]): readonly Span[] {
  return blocks.reduce<readonly Span[]>(
    (left, [low, high]) =>
      left.flatMap(([a, b]): Span[] => {
        if (high <= a || low >= b) return [[a, b]];
        return [...(low > a ? [[a, low] as Span] : []), ...(high < b ? [[high, b] as Span] : [])];
      }),
    [from],
  );
}

export function take(part: MaybePart, machining: DraftMachining): void {
  if (part) part.taken.push(...takenFrom(part, machining));
}
/** So much of it as lies within the part; nothing where it does not meet it. */
export function takenFrom(part: DraftPart, machining: DraftMachining): readonly DraftMachining[] {
  const common = intersect(part.box, machining.box);
  return AXES.every((axis) => side(common, axis) > 0) ? [{ ...machining, box: common }] : [];
}

const mmBox = (b: TickBox): Box => ({
  min: { x: fromTicks(b.min.x), y: fromTicks(b.min.y), z: fromTicks(b.min.z) },
  max: { x: fromTicks(b.max.x), y: fromTicks(b.max.y), z: fromTicks(b.max.z) },
});
export const solidOf = (box: TickBox): Solid => ({ box: mmBox(box), taken: [] });

export function finishPart(piece: string, part: DraftPart): Part {
  const { axes, box } = part;
  const along = (axis: Axis) => side(box, axis);
  const banded = (axis: Axis) =>
    part.edges.reduce((sum, edge) => sum + (AXIS_OF[edge.towards] === axis ? edge.thickness : 0), 0);
  // an edge runs along the one axis of the face that it does not face
  const edgeLength = (towards: Direction) => along(AXIS_OF[towards] === axes.length ? axes.width : axes.length);
  return {
    id: part.id,
    piece,
    label: { place: part.place, name: part.name, up: part.up, show: part.show },
    role: part.role,
    stock: part.material.id,
    from: part.material.from,
    solid: {
      box: mmBox(box),
      taken: part.taken.map(({ round, ...machining }) => ({
        ...machining,
        box: mmBox(machining.box),
        ...(round && { round: { diameter: fromTicks(round.diameter), axis: round.axis } }),
      })),
    },
    axes,
    size: {
      length: fromTicks(along(axes.length)),
      width: fromTicks(along(axes.width)),
      thickness: fromTicks(along(axes.thickness)),
    },
    cut: {
      length: fromTicks(along(axes.length) - banded(axes.length)),
      width: fromTicks(along(axes.width) - banded(axes.width)),
    },
    grain: part.material.grain && part.grainMatters ? 'fixed' : 'free',
    edges: part.edges.map(
      (edge): Edge => ({ ...edge, thickness: fromTicks(edge.thickness), length: fromTicks(edgeLength(edge.towards)) }),
    ),
  };
}

/** What is bought by the joint: screws, brads, glue and edge band of the whole piece. */
function consumables(draft: Draft, parts: readonly Part[]): Fitting[] {
  const partOf = new Map(parts.map((part) => [part.id, part]));
  let [screws, brads, glue] = [0, 0, 0];
  /** Of screws that are driven from behind, so many of each greatest length. */
  const fromBehind = new Map<number, number>();
  for (const joint of draft.joints) {
    const { contact, fasten } = joint;
    const [w, h, d] = [side(contact, 'x'), side(contact, 'y'), side(contact, 'z')];
    const longest = Math.max(w, h, d);
    const length = fromTicks(longest);
    if (fasten.includes('screws')) {
      const count = fastenerCount(length, 'screws');
      const way = AXES.find((axis) => side(contact, axis) === 0);
      const most = way && longestScrew(partOf.get(joint.b)!, partOf.get(joint.a)!, way);
      if (most === undefined) screws += count;
      else fromBehind.set(most, (fromBehind.get(most) ?? 0) + count);
    }
    if (fasten.includes('brads')) brads += fastenerCount(length, 'brads');
    if (fasten.includes('glue')) glue += length * fromTicks(w + h + d - longest - Math.min(w, h, d));
  }
  const bands = new Map<string, number>();
  for (const part of draft.parts) {
    for (const edge of part.edges) {
      const along = AXIS_OF[edge.towards] === part.axes.length ? part.axes.width : part.axes.length;
      bands.set(edge.band, (bands.get(edge.band) ?? 0) + fromTicks(side(part.box, along)) + BAND_OVER);
    }
  }
  const { piece } = draft;
  const list: Fitting[] = [];
  if (screws > 0) list.push({ id: `${piece}/screws`, piece, use: 'screw', name: 'screws', count: screws });
  for (const [longest, count] of fromBehind)
    list.push({
      id: `${piece}/front-screws-${longest}`,
      piece,
      use: 'front screw',
      name: `screws from behind, none longer than ${draft.notMore(toTicks(longest))}`,
      count,
      longest,
    });
  if (brads > 0) list.push({ id: `${piece}/brads`, piece, use: 'brad', name: 'brads', count: brads });
  if (glue > 0)
    list.push({
      id: `${piece}/glue`,
      piece,
      use: 'glue',
      name: 'wood glue, by glued area',
      count: 1,
      amount: { value: glue, unit: 'mm²' },
    });
  for (const [band, length] of bands) {
    list.push({
      id: `${piece}/band-${band}`,
      piece,
      use: 'edge band',
      name: 'edge band',
      count: 1,
      amount: { value: length, unit: 'mm' },
      stock: band,
    });
  }
  return list;
}

export interface Built {
  readonly placed: PlacedPiece;
  readonly issues: readonly Issue[];
}
export interface Made {
  readonly placed: Omit<PlacedPiece, 'frame' | 'wall'>;
  readonly issues: readonly Issue[];
}
/** Where it stands. */
export const stand = ({ placed, issues }: Made, { frame, wall }: Placing): Built => ({
  placed: { ...placed, frame, ...(wall && { wall }) },
  issues,
});

export const finish = (draft: Draft, placing: Placing, outside: TickBox, mass?: number): Built =>
  stand(made(draft, outside, mass), placing);

/** What became of a draft, wherever it is to stand. */
export function made(draft: Draft, outside: TickBox, mass?: number): Made {
  const { piece, kind, title } = draft;
  const parts = draft.parts.map((part) => finishPart(piece, part));
  return {
    placed: {
      id: piece,
      kind,
      title,
      outside: mmBox(outside),
      needs: draft.needs.map((need) => ({ ...need, box: mmBox(need.box) })),
      parts,
      joints: draft.joints.map((joint) => ({ ...joint, contact: mmBox(joint.contact) })),
      fittings: [...draft.fittings, ...consumables(draft, parts)],
      bays: draft.bays.map((bay) => ({ ...bay, clear: mmBox(bay.clear) })),
      ...(mass !== undefined && { mass }),
    },
    issues: draft.issues,
  };
}

/** options[i].pieces[j] of a piece that is in the plan; its own name alone when it is not. */
export function pathOf(
  options: readonly { readonly pieces: readonly unknown[] }[],
  piece: unknown,
  name: string,
): Path {
  for (const [i, option] of options.entries()) {
    const j = option.pieces.indexOf(piece);
    if (j >= 0) return ['options', i, 'pieces', j];
  }
  return [name];
}
