import { alsoOf, type Note, type Working, work } from '../notes/index.ts';
import type { Bay, CasePiece, Edit, Path, PlainValue } from '../plan/index.ts';
import { formatSold, inch, STANDARD_GRAVITY } from '../quantity/index.ts';
import type { Part, PlacedPiece } from '../scene/index.ts';
import { materialNameOf, stockName } from '../stock/index.ts';
import {
  imperial,
  ownMass,
  type Subject,
  saying,
  set,
  small,
  titleOf,
  type WallInput,
  writtenBay,
} from './plan-input.ts';
import { standingOn } from './plan-shelf-box.ts';
import { rodShelf, shelfSag } from './shelf.ts';
import { DESIGN_LOADS, type DesignLoad, designMassOf, SHELF_LOAD_CAP } from './standards.ts';

/** The design load that goes with what the plan says the shelves of a case carry. */
export const LOAD_OF: Readonly<Record<NonNullable<CasePiece['carries']>, DesignLoad>> = {
  books: 'casework: books, school, library',
  gear: 'casework: all other',
  'light things': 'kitchen cabinet test',
};

/** One shelf of a case as its sag sees it. */
export interface Span {
  readonly part: Part;
  /** The longest clear run between supports, mm, and all of them as they lie along the case. */
  readonly span: number;
  readonly runs: readonly { readonly from: number; readonly to: number }[];
  readonly lip?: { readonly height: number; readonly thickness: number; readonly stock: string };
}

const SHELVES: ReadonlySet<string> = new Set(['adjustable shelf', 'fixed shelf']);
const near = (a: number, b: number) => Math.abs(a - b) < 0.5;

/** Shelves of a case with their longest clear span: let-in ends and uprights standing under them taken off. */
export function shelfSpans(piece: PlacedPiece): readonly Span[] {
  const byId = new Map(piece.parts.map((part) => [part.id, part]));
  return piece.parts
    .filter((part) => SHELVES.has(part.role))
    .map((part): Span => {
      const { min, max } = part.solid.box;
      const letIn = piece.joints
        .filter((joint) => joint.a === part.id && joint.kind === 'dado')
        .map(({ contact }) => contact);
      const left = letIn.find((c) => near(c.min.x, min.x))?.max.x ?? min.x;
      const right = letIn.find((c) => near(c.max.x, max.x))?.min.x ?? max.x;
      const under = piece.joints.flatMap(({ a, b }) => {
        const upright = b === part.id ? byId.get(a) : undefined;
        if (upright?.role !== 'upright' || upright.solid.box.min.y > min.y) return [];
        return [{ from: upright.solid.box.min.x, to: upright.solid.box.max.x }];
      });
      const stops = [{ from: left, to: left }, ...under.sort((p, q) => p.from - q.from), { from: right, to: right }];
      const runs = stops.slice(1).map((stop, i) => ({ from: stops[i]!.to, to: stop.from }));
      const rail = piece.joints
        .filter((joint) => joint.kind === 'applied' && joint.b === part.id)
        .map(({ a }) => byId.get(a))
        .find((p) => p?.role === 'rail');
      return {
        part,
        span: Math.max(...runs.map(({ from, to }) => to - from)),
        runs,
        ...(rail && { lip: { height: rail.size.width, thickness: rail.size.thickness, stock: rail.stock } }),
      };
    });
}

/** kg that a shelf of a case is reckoned with over one clear run. */
export const designLoadOf = (part: Part, span: number, design: DesignLoad): number =>
  designMassOf(design, span, part.size.width);

/** Sag of one shelf under its design load, or under what is given, at once and after years. Undefined when the stock's stiffness is not known. */
export function sagOf(
  input: WallInput,
  { part, lip }: Span,
  span: number,
  design: DesignLoad,
  given?: number,
): { readonly working: Working; readonly later: number; readonly limit: number; readonly load: number } | undefined {
  const { plan } = input;
  const material = materialNameOf(plan.stock, part.stock);
  if (material === undefined) return undefined;
  const load = given ?? designLoadOf(part, span, design);
  const lipMaterial = lip && materialNameOf(plan.stock, lip.stock);
  const reckoned = work(shelfSag, {
    span,
    depth: part.size.width,
    thickness: part.size.thickness,
    material,
    load,
    ...(lip &&
      lipMaterial && { 'lip-height': lip.height, 'lip-thickness': lip.thickness, 'lip-material': lipMaterial }),
  });
  if (given !== undefined)
    return { working: reckoned, later: alsoOf(reckoned, 'δ∞'), limit: reckoned.limit!.value, load };
  const { source } = DESIGN_LOADS[design];
  const most = saying(input).mass(SHELF_LOAD_CAP / STANDARD_GRAVITY);
  const working: Working = {
    ...reckoned,
    inputs: reckoned.inputs.map((given) => (given.symbol === 'm' ? { ...given, source } : given)),
    assumes: [...reckoned.assumes, `design load of ${design}: at most ${most} on a shelf`],
  };
  return { working, later: alsoOf(working, 'δ∞'), limit: working.limit!.value, load };
}

/**
 * What carries the ends of a shelf of a case under a load in kg: AWS (ed. 1, 2009), sec. 10, 4.1.8.1.4, asks of its supports that they meet
 * ANSI/BHMA A156.9, grade 1, and bear the design load of the shelf; EN 16337 is the test by which their makers rate them here.
 */
export function endsUnder(
  input: Pick<WallInput, 'plan'>,
  { joints, fittings }: Pick<PlacedPiece, 'joints' | 'fittings'>,
  { part, runs }: Span,
  load: number,
): string {
  const { mass } = saying(input);
  const pins = fittings.find(({ id, use }) => use === 'shelf pin' && id === `${part.id}/pins`);
  if (pins)
    return `Each of its ${pins.count} pins bears ${mass(load / pins.count)}, where all bear alike: take pins whose maker rates them for that (EN 16337; ANSI/BHMA A156.9, grade 1).`;
  const own = joints.filter(({ a, b, kind }) => a === part.id && kind !== 'applied' && b !== part.id);
  if (own.some(({ kind }) => kind === 'dado')) return 'Its ends are let into what carries them.';
  const screwed = own.some(({ fasten }) => fasten.includes('screws'));
  if (!screwed || runs.length === 0) return 'What carries its ends is not checked.';
  return `Each of its ends hangs from glue and screws into its edge with ${mass(load / runs.length / 2)}, which is not checked: a cleat under it bears it.`;
}

const same = (a: Span, b: Span) =>
  near(a.span, b.span) &&
  near(a.part.size.width, b.part.size.width) &&
  near(a.part.size.thickness, b.part.size.thickness) &&
  a.part.stock === b.part.stock &&
  (a.lip === undefined) === (b.lip === undefined) &&
  near(a.lip?.height ?? 0, b.lip?.height ?? 0);

/** Notes on the shelves inside cases: one for each kind of shelf that sags too far, one for all that hold. */
export function shelfNotes(input: WallInput, { placed, said, path }: Subject): readonly Note[] {
  if (!('case' in said)) return [];
  const { length, notLess, notMore, mass } = saying(input);
  const design = LOAD_OF[said.carries ?? 'gear'];
  const kinds: Span[][] = [];
  for (const shelf of shelfSpans(placed)) {
    const kind = kinds.find(([first]) => same(first!, shelf));
    if (kind) kind.push(shelf);
    else kinds.push([shelf]);
  }
  const notes: Note[] = [];
  let worst: { share: number; note: Note } | undefined;
  for (const kind of kinds) {
    const first = kind[0]!;
    const name = first.part.label.name;
    const others = kind.length > 1 ? ` and ${kind.length - 1} like it` : '';
    const sag = sagOf(input, first, first.span, design);
    if (!sag) {
      notes.push({
        id: `shelf-sag:${first.part.id}`,
        about: first.part.id,
        verdict: 'caution',
        title: `How far the ${name} of ${titleOf(placed)} will sag is not known`,
        advice: `Give ${stockName(input.plan.stock, first.part.stock)} a kind or species the handbook has, such as birch plywood.`,
      });
      continue;
    }
    const { working, later, limit, load } = sag;
    const now = working.result.value;
    const share = later / limit;
    const verdict = now > limit ? 'stop' : later > limit ? 'caution' : 'fine';
    const tall = `${mass(load)} over ${length(first.span)}`;
    const note: Note = {
      id: `shelf-sag:${first.part.id}`,
      about: first.part.id,
      verdict,
      title:
        verdict === 'stop'
          ? `The ${name} of ${titleOf(placed)}${others} sags ${notLess(now)} at once, ${notLess(later)} in time; ${notMore(limit)} is allowed`
          : verdict === 'caution'
            ? `The ${name} of ${titleOf(placed)}${others} will have sagged ${notLess(later)} in some years; ${notMore(limit)} is allowed`
            : `The shelves of ${titleOf(placed)} stay within ${length(limit)}: the worst, the ${name}, sags ${small(input, later)} in time`,
      advice:
        verdict === 'fine'
          ? `Checked with ${tall}, evenly spread (${design}). ${endsUnder(input, placed, first, load)} Not checked: someone standing on it.`
          : `Under ${tall} (${design}). A support under its middle takes away nine tenths of the sag.`,
      working,
    };
    if (verdict === 'fine') {
      if (!worst || share > worst.share) worst = { share, note };
      continue;
    }
    const cure = divideCure(input, said, path, first, design);
    const figures = curesInFigures(input, first, design);
    notes.push({ ...note, advice: `${note.advice} ${figures}`, ...(cure && { cure }) });
  }
  if (worst && notes.length === 0) notes.push({ ...worst.note, id: `shelf-sag:${placed.id}`, about: placed.id });
  return notes;
}

/** Strips of the shelf's own board along its front edge that are tried, on edge, mm. */
const LIPS = [25, 32, 38, 45, 50, 60, 75, 90, 100];

/** What would hold instead, each by itself: the longest span, the least thickness, a strip along the front edge. */
function curesInFigures(input: WallInput, shelf: Span, design: DesignLoad): string {
  const { notLess, notMore } = saying(input);
  const holds = (changed: Span, span: number): boolean => {
    const sag = sagOf(input, changed, span, design);
    return sag !== undefined && sag.later <= sag.limit;
  };
  let [low, high] = [0, shelf.span];
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (middle > 1 && holds(shelf, middle)) low = middle;
    else high = middle;
  }
  const own = shelf.part.size.thickness;
  const withThickness = (thickness: number): Span => ({
    ...shelf,
    part: { ...shelf.part, size: { ...shelf.part.size, thickness: thickness as typeof own } },
  });
  const step = imperial(input) ? inch(1 / 16) : 1;
  let thickness = Math.ceil(own / step) * step;
  while (thickness < 100 && !holds(withThickness(thickness), shelf.span)) thickness += step;
  const lip = shelf.lip
    ? undefined
    : LIPS.find((height) => holds({ ...shelf, lip: { height, thickness: own, stock: shelf.part.stock } }, shelf.span));
  return [
    `Longest span as it is: ${notMore(Math.floor(low / step) * step)}.`,
    ...(thickness < 100 ? [`Least thickness over this span: ${notLess(thickness)}.`] : []),
    ...(lip === undefined ? [] : [`Or a strip of the same board ${notLess(lip)} high, glued on edge along its front.`]),
  ].join(' ');
}

/** Steel of plain rods, MPa, and how much of its yield a lasting load may use. Common practice. */
const ROD_YIELD = 235;
const ROD_SAFETY = 1.65;
/** Rods as they are sold where the plan's units are used, mm. Common practice. */
const RODS = { metric: [10, 12, 14, 16, 20, 25], inch: [3 / 8, 1 / 2, 5 / 8, 3 / 4, 1].map(inch) };
/** Someone who leans on the front edge, kg, all of it on one rod. Common practice. */
const LEANING = 25;
/** Slope of a floating shelf that the eye sees as falling: L/100 of its reach. Common practice. */
const TIP_SHARE = 100;

/** From here on the rods stand so far to one side that moving them is the first cure: half as much again as the mean. Common practice. */
const UNEVEN = 1.5;
/** A limp shelf loads the middle one of three rods 1.9 times the mean: a beam over three supports, Roark. */
const LIMP_SHARE = 1.9;

/**
 * Load of the most loaded rod over the mean where the rods do not stand evenly about the middle of a stiff shelf: by moments, as the
 * bolts of a plate share a load beside their middle, 1 + n e x/Σ x². Past the last rod it is more than the whole: another is lifted.
 */
function besideShare(rods: readonly number[], middle: number): number {
  const mean = rods.reduce((sum, x) => sum + x, 0) / rods.length;
  const spread = rods.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  if (spread === 0) return 1;
  return Math.max(...rods.map((x) => Math.abs(1 + (rods.length * (middle - mean) * (x - mean)) / spread)));
}

/** Notes on the rods of a floating shelf, bent at the wall. */
export function floatingNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said, path } = subject;
  if (!('shelf' in said)) return [];
  const rods = placed.fittings.flatMap((f) => (f.use === 'rod' && f.solid ? [f.solid.box] : []));
  const first = rods[0];
  if (!first) return [];
  const { mass } = saying(input);
  const load = standingOn(subject);
  const all = load + ownMass(input, placed);
  const diameter = first.max.x - first.min.x;
  const reach = first.max.z - first.min.z;
  const beside = besideShare(
    rods.map(({ min, max }) => (min.x + max.x) / 2),
    said.size.width / 2,
  );
  const uneven = Math.max(rods.length > 2 ? LIMP_SHARE : 1, beside);
  const share = uneven > 1.01 ? { share: uneven } : {};
  const rod = (d: number, n: number) =>
    work(rodShelf, { rods: n, diameter: d, reach, load: all, yield: ROD_YIELD, ...share });
  const working = rod(diameter, rods.length);
  const leaned = work(rodShelf, {
    rods: rods.length,
    diameter,
    reach,
    load: ownMass(input, placed),
    'tip-load': LEANING * STANDARD_GRAVITY,
    yield: ROD_YIELD,
    ...(beside > 1.01 && { share: beside }),
  });
  const sag = working.result.value;
  const spare = (w: Working) => alsoOf(w, 'σ_y/σ') / ROD_SAFETY;
  const okay = (w: Working) => spare(w) >= 1 && w.result.value <= reach / TIP_SHARE;
  const verdict = spare(working) < 1 ? 'stop' : okay(working) ? 'fine' : 'caution';
  const stiffer = RODS[imperial(input) ? 'inch' : 'metric'].find((d) => d > diameter && okay(rod(d, rods.length)));
  return [
    {
      id: `rods:${placed.id}`,
      about: placed.id,
      verdict,
      title:
        verdict === 'stop'
          ? `The rods of ${titleOf(placed)} bend for good under ${mass(all)}`
          : `The rods of ${titleOf(placed)} ${verdict === 'fine' ? 'hold and' : ''} bend ${small(input, sag)} at their tips under ${mass(all)}`.replace(
              '  ',
              ' ',
            ),
      advice:
        verdict === 'fine'
          ? `Checked with ${mass(load)} on it, evenly spread. Someone who leans ${mass(LEANING)} on its front edge, the shelf empty, bends one rod ${small(input, leaned.result.value)}${alsoOf(leaned, 'σ_y/σ') < 1 ? ' and it stays bent: keep people off it' : ', and it springs back'}. Not checked: play in the sockets, and what the wall plate's screws say to that.`
          : `${beside > UNEVEN ? 'Rods that stand evenly about its middle, or thicker' : 'Thicker'} rods, more of them, or a shallower shelf.`,
      working: {
        ...working,
        limit: { value: reach / TIP_SHARE, unit: 'mm', why: `reach/${TIP_SHARE}`, source: 'common practice' },
      },
      ...(verdict !== 'fine' &&
        stiffer !== undefined && {
          cure: {
            title: `Take rods of ${formatSold(stiffer, imperial(input))}`,
            edits: [
              said.rods
                ? set([...path, 'rods', 'diameter'], formatSold(stiffer, imperial(input)))
                : set([...path, 'rods'], { diameter: formatSold(stiffer, imperial(input)) }),
            ],
          },
        }),
    },
  ];
}

/** Uprights under the shelf's bay, as few as hold it within its limit for good. */
function divideCure(input: WallInput, said: CasePiece, path: Path, shelf: Span, design: DesignLoad): Note['cure'] {
  const found = bayOf(said, shelf.part.id);
  if (!found) return undefined;
  const thickness = shelf.part.size.thickness;
  for (let n = 2; n <= 6; n++) {
    const span = (shelf.span - (n - 1) * thickness) / n;
    const sag = span > 150 ? sagOf(input, shelf, span, design) : undefined;
    if (!sag) return undefined;
    if (sag.later > sag.limit) continue;
    const title = n === 2 ? 'an upright' : `${n - 1} uprights`;
    // between two rows: uprights in the row below carry it, and nothing else need change
    const below = rowBelow(found, shelf.part.id);
    if (below) {
      const { open, fixed, shelves, ...outer } = below.bay;
      const held = writtenBay({ open, fixed, shelves }) as Record<string, PlainValue>;
      const column = Object.keys(held).length > 0 || outer.door !== undefined ? held : { open: true };
      const parted = {
        ...(writtenBay(outer) as Record<string, PlainValue>),
        columns: Array.from({ length: n }, () => column),
      };
      return { title: `Put ${title} under it`, edits: [set([...path, 'inside', ...below.path], parted)] };
    }
    const { open, fixed, shelves, rows, ...outer } = found.bay;
    const inner = writtenBay({ open, fixed, shelves, rows });
    const edits: readonly Edit[] = [
      set([...path, 'inside', ...found.path], {
        ...(writtenBay(outer) as Record<string, PlainValue>),
        columns: Array.from({ length: n }, () => inner),
      }),
    ];
    return { title: `Divide the bay with ${title}`, edits };
  }
  return undefined;
}

/** The row under a shelf between two rows, when it can take uprights. */
function rowBelow(
  { bay, path }: { readonly bay: Bay; readonly path: Path },
  id: string,
): { readonly bay: Bay; readonly path: Path } | undefined {
  const number = Number(/fixed-shelf-(\d+)$/.exec(id)?.[1]);
  const below = bay.rows?.[number];
  if (!below || below.columns || below.rows || below.drawers !== undefined || Array.isArray(below.open))
    return undefined;
  return { bay: below, path: [...path, 'rows', number] };
}

/** The bay of the plan that holds a shelf, by the shelf's id: `case/bay-1-2/shelf-1`. */
function bayOf(said: CasePiece, id: string): { readonly bay: Bay; readonly path: Path } | undefined {
  let bay: Bay = said.inside ?? { open: true };
  const path: (string | number)[] = [];
  const number = /\/bay-([\d-]+)\//.exec(id)?.[1];
  const steps = number === undefined ? [] : number.split('-').map(Number);
  // a case that is one bay calls it bay 1
  if (!bay.columns && !bay.rows) steps.shift();
  for (const step of steps) {
    const kind = bay.columns ? 'columns' : 'rows';
    const next = bay[kind]?.[step - 1];
    if (!next) return undefined;
    bay = next;
    path.push(kind, step - 1);
  }
  return bay.columns ? undefined : { bay, path };
}
