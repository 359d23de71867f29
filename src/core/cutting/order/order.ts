import { type Kg, type Mm, toTicks } from '../../quantity/index.ts';
import type { PlacedPart } from '../problem.ts';
import {
  type Axis,
  across,
  type Blade,
  clip,
  cutTree,
  end,
  extent,
  type Lying,
  type Manner,
  type Piece,
  type Region,
  start,
} from './tree.ts';

/** One panel with the parts that lie on it: any PanelLayout together with its stock, kerf and trim. */
export interface SheetToCut {
  readonly length: number;
  readonly width: number;
  readonly trim: number;
  readonly kerf: number;
  readonly placed: readonly PlacedPart[];
}

/** What the shop and its hands can do. Left out means no limit known, and nothing is said of it. */
export interface CutShop {
  /** Widest setting of the fence, mm. */
  readonly rip?: number;
  /** The largest piece the saw table carries, mm. */
  readonly table?: { readonly length: number; readonly width: number };
  /** Longest cut with the guided hand saw, mm. */
  readonly track?: number;
  /** What one person should handle, kg. */
  readonly lift?: number;
  /** Longest piece one person should handle, mm. */
  readonly reach?: number;
  /** Of the material: kg/m². Left out, masses are not said. */
  readonly arealDensity?: number;
  /** An offcut is kept when its longer side is at least this, mm … */
  readonly keep: number;
  /** … and its shorter side at least this; 40 mm when left out. */
  readonly keepWidth?: number;
}

export interface CutPiece {
  /** `sheet`, `piece 1` …, the part's id, or an offcut's letter; waste has no name. */
  readonly name?: string;
  readonly is: 'sheet' | 'piece' | 'part' | 'offcut' | 'waste';
  /** Where it came from on the sheet, and its size along x and y, mm. */
  readonly x: Mm;
  readonly y: Mm;
  readonly length: Mm;
  readonly width: Mm;
  readonly mass?: Kg;
}

export type CutTool = 'guided saw' | 'table saw';
/** What a step asks for beyond what the shop has or one person should do. */
export type CutWarning =
  | { readonly what: 'mass'; readonly is: number; readonly limit: number }
  | { readonly what: 'reach'; readonly is: number; readonly limit: number }
  | { readonly what: 'track'; readonly is: number; readonly limit: number }
  | { readonly what: 'rip'; readonly is: number; readonly limit: number };

export interface CutStep {
  readonly number: number;
  readonly tool: CutTool;
  /** A trim straightens an edge; a rip runs along x, the grain; a crosscut across it. */
  readonly kind: 'trim' | 'rip' | 'crosscut';
  readonly piece: CutPiece;
  /**
   * What stays between fence, stop or measured mark and the blade, mm, and on which side of the blade it lies. At the table saw a piece
   * goes along the fence with its longer edge; where the cut is the shorter way it goes against a stop on the sled or mitre gauge instead
   * (common practice: a short edge along the fence lets the piece turn and bind).
   */
  readonly setting: Mm;
  readonly against: 'fence' | 'stop' | 'mark';
  readonly side: 'low' | 'high';
  /** The edge-to-edge line on the sheet: the middle of the blade, mm. */
  readonly line: { readonly from: { readonly x: Mm; readonly y: Mm }; readonly to: { readonly x: Mm; readonly y: Mm } };
  /** Length of cut, mm. */
  readonly run: Mm;
  /** What the blade takes here, mm: less than the kerf where it runs over the edge. */
  readonly taken: Mm;
  readonly gives: readonly CutPiece[];
  readonly warnings: readonly CutWarning[];
}
export interface CutOrder {
  readonly steps: readonly CutStep[];
  /** Pieces for the rack, largest first as named A, B, C … */
  readonly offcuts: readonly CutPiece[];
  readonly waste: readonly CutPiece[];
  /** How often fence or stop is set at the table saw. */
  readonly settings: number;
}

const mmOf = (ticks: number): Mm => (ticks / 640) as Mm;

/**
 * The order in which one person cuts a panel: edges trimmed, then broken down with the guided saw on the floor until every piece can
 * go over the saw table and be lifted, then rips and crosscuts at the table saw, those of one setting together.
 *
 * Sizes in mm; all sums in whole ticks, so that replaying the steps gives the parts exactly. Undefined where the parts cannot be
 * cut apart edge to edge. Limits that cannot be kept are not refused but said, in `warnings`.
 */
export function orderOfCuts(sheet: SheetToCut, shop: CutShop): CutOrder | undefined {
  const kerf = toTicks(sheet.kerf);
  const trim = toTicks(sheet.trim);
  const whole: Region = { x0: 0, x1: toTicks(sheet.length), y0: 0, y1: toTicks(sheet.width) };
  const parts: readonly Lying[] = sheet.placed.map((p) => ({
    part: p.part,
    x0: toTicks(p.x),
    x1: toTicks(p.x) + toTicks(p.length),
    y0: toTicks(p.y),
    y1: toTicks(p.y) + toTicks(p.width),
  }));
  const manner = mannerOf(shop, kerf);
  const inner: Region = { x0: trim, x1: whole.x1 - trim, y0: trim, y1: whole.y1 - trim };
  if (parts.length === 0 || inner.x1 <= inner.x0 || inner.y1 <= inner.y0) return undefined;
  const tree = cutTree(inner, parts, manner);
  if (!tree) return undefined;
  return sequence(trimmed(whole, inner, kerf, tree), tree, shop, manner);
}

/** What can be kept of a layout: the offcuts of its order of cuts, with the waste. */
export function offcuts(
  sheet: SheetToCut,
  shop: Pick<CutShop, 'keep' | 'keepWidth'>,
): Pick<CutOrder, 'offcuts' | 'waste'> | undefined {
  const order = orderOfCuts(sheet, shop);
  return order && { offcuts: order.offcuts, waste: order.waste };
}

const limitOf = (value: number | undefined): number =>
  value === undefined ? Number.POSITIVE_INFINITY : toTicks(value);

function mannerOf(shop: CutShop, kerf: number): Manner {
  const table = [limitOf(shop.table?.length), limitOf(shop.table?.width)].sort((a, b) => b - a);
  const [rip, track] = [limitOf(shop.rip), limitOf(shop.track)];
  const large = (r: Region): boolean => {
    const sides = [extent(r, 'x'), extent(r, 'y')].sort((a, b) => b - a);
    const mass = massOf(r, shop);
    return (
      sides[0]! > table[0]! ||
      sides[1]! > table[1]! ||
      (mass !== undefined && shop.lift !== undefined && mass > shop.lift) ||
      sides[0]! > limitOf(shop.reach)
    );
  };
  return {
    kerf,
    large,
    can: (r, blade) => (large(r) ? extent(r, across(blade.axis)) <= track : settingOf(r, blade, rip).setting <= rip),
    useful: (r) => {
      const sides = [extent(r, 'x'), extent(r, 'y')].sort((a, b) => b - a);
      return sides[0]! >= toTicks(shop.keep) && sides[1]! >= toTicks(shop.keepWidth ?? 40);
    },
  };
}

function massOf(r: Region, shop: CutShop): number | undefined {
  if (shop.arealDensity === undefined) return undefined;
  return (mmOf(extent(r, 'x')) / 1000) * (mmOf(extent(r, 'y')) / 1000) * shop.arealDensity;
}

/**
 * Nothing narrower than this goes between fence or stop and the blade where the other side can: a sliver there binds and is thrown, and
 * cannot be held down (common practice). It falls off on the far side of the blade.
 */
const SLIVER = 15;

/** The side that is measured: what lies below the blade, unless it is a sliver or the fence does not reach, and what lies above suits. */
function settingOf(r: Region, blade: Blade, rip: number): { setting: number; side: 'low' | 'high' } {
  const low = { setting: blade.from - start(r, blade.axis), side: 'low' } as const;
  const high = { setting: end(r, blade.axis) - blade.to, side: 'high' } as const;
  const sides = [low, high].filter(({ setting }) => setting > 0);
  const held = sides.filter(({ setting }) => setting >= toTicks(SLIVER));
  const narrower = (a: typeof low | typeof high, b: typeof low | typeof high) => (b.setting < a.setting ? b : a);
  return held.find(({ setting }) => setting <= rip) ?? (held.length > 0 ? held.reduce(narrower) : (sides[0] ?? low));
}

/** On the floor a mark is measured from the near edge, a sliver too. */
function markOf(r: Region, blade: Blade): { setting: number; side: 'low' | 'high' } {
  const low = blade.from - start(r, blade.axis);
  return low > 0 ? { setting: low, side: 'low' } : { setting: end(r, blade.axis) - blade.to, side: 'high' };
}

/** The four cuts that take the edges off, as a tree round the one of what is inside. */
function trimmed(whole: Region, inner: Region, kerf: number, tree: Piece): Piece {
  // From the inside out, so that the cut across y0 is the first to be made.
  const sides: readonly { readonly axis: Axis; readonly high: boolean }[] = [
    { axis: 'x', high: true },
    { axis: 'x', high: false },
    { axis: 'y', high: true },
    { axis: 'y', high: false },
  ];
  let piece = tree;
  let region = inner;
  for (const { axis, high } of sides) {
    const edge = high ? end(whole, axis) : start(whole, axis);
    const at = high ? end(inner, axis) : start(inner, axis);
    if (edge === at) continue;
    const outer = clip(region, axis, high ? start(region, axis) : edge, high ? edge : end(region, axis))!;
    const blade = high
      ? { axis, from: at, to: Math.min(edge, at + kerf) }
      : { axis, from: Math.max(edge, at - kerf), to: at };
    const strip = high ? clip(outer, axis, blade.to, edge) : clip(outer, axis, edge, blade.from);
    const rest: Piece | undefined = strip && { is: 'rest', region: strip };
    piece = {
      is: 'cut',
      region: outer,
      blade,
      ...(high ? { low: piece, ...(rest && { high: rest }) } : { ...(rest && { low: rest }), high: piece }),
    };
    region = outer;
  }
  return piece;
}

type CutNode = Extract<Piece, { is: 'cut' }>;

/** Puts the cuts of a tree in order: large pieces first, then those of one setting together. */
function sequence(root: Piece, inner: Piece, shop: CutShop, manner: Manner): CutOrder {
  const [rip, track] = [limitOf(shop.rip), limitOf(shop.track)];
  const rests: Region[] = [];
  collectRests(root, rests);
  const names = nameOffcuts(rests, manner);
  const trims = new Set<Piece>();
  for (let node = root; node !== inner && node.is === 'cut'; ) {
    trims.add(node);
    node = [node.low, node.high].find((piece) => piece !== undefined && piece.is !== 'rest')!;
  }
  const pieceNames = new Map<Piece, string>([[root, 'sheet']]);
  let pieces = 0;
  const told = (piece: Piece): CutPiece => {
    const { region } = piece;
    const mass = massOf(region, shop);
    const name = piece.is === 'part' ? piece.part : piece.is === 'rest' ? names.get(region) : pieceNames.get(piece);
    const kept = piece.is === 'rest' ? (names.has(region) ? 'offcut' : 'waste') : undefined;
    return {
      ...(name !== undefined && { name }),
      is: piece === root ? 'sheet' : (kept ?? (piece.is === 'part' ? 'part' : 'piece')),
      x: mmOf(region.x0),
      y: mmOf(region.y0),
      length: mmOf(extent(region, 'x')),
      width: mmOf(extent(region, 'y')),
      ...(mass !== undefined && { mass: mass as Kg }),
    };
  };

  const ready: CutNode[] = root.is === 'cut' ? [root] : [];
  const steps: CutStep[] = [];
  let settings = 0;
  let lastSet = '';
  // Pieces that lie on the floor still: what the fence does not reach is cut there too, if the track does.
  const lying = new Set<Piece>([root]);
  const how = (node: CutNode) => {
    const sawn = settingOf(node.region, node.blade, rip);
    const beyond = sawn.setting > rip && extent(node.region, across(node.blade.axis)) <= track;
    const onFloor = trims.has(node) || manner.large(node.region) || (lying.has(node) && beyond);
    const { setting, side } = onFloor ? markOf(node.region, node.blade) : sawn;
    const run = extent(node.region, across(node.blade.axis));
    const against = onFloor ? ('mark' as const) : run >= setting ? ('fence' as const) : ('stop' as const);
    return { onFloor, setting, side, run, against, key: onFloor ? 'floor' : `${against} ${setting}` };
  };
  while (ready.length > 0) {
    const ways = ready.map((node) => ({ node, ...how(node) }));
    const tally = new Map<string, number>();
    for (const way of ways) tally.set(way.key, (tally.get(way.key) ?? 0) + 1);
    // The floor first; then what the saw is set to; then rips before crosscuts, the setting most cuts wait for, the widest.
    const rank = (way: (typeof ways)[number]): readonly number[] => [
      way.onFloor ? 0 : 1,
      way.key === lastSet ? 0 : 1,
      way.node.blade.axis === 'y' ? 0 : 1,
      -tally.get(way.key)!,
      -way.setting,
    ];
    const next = ways.reduce((a, b) => (lower(rank(b), rank(a)) ? b : a));
    ready.splice(ready.indexOf(next.node), 1);
    const { node, onFloor, setting, side, run, against, key } = next;
    if (!onFloor && key !== lastSet) settings += 1;
    lastSet = onFloor ? lastSet : key;
    const children = [node.low, node.high].filter((piece) => piece !== undefined);
    for (const child of children)
      if (child.is === 'cut') {
        pieces += 1;
        pieceNames.set(child, `piece ${pieces}`);
        if (onFloor) lying.add(child);
        ready.push(child);
      }
    const piece = told(node);
    const { axis, from, to } = node.blade;
    const middle = mmOf((from + to) / 2);
    steps.push({
      number: steps.length + 1,
      tool: onFloor ? 'guided saw' : 'table saw',
      kind: trims.has(node) ? 'trim' : axis === 'y' ? 'rip' : 'crosscut',
      piece,
      setting: mmOf(setting),
      against,
      side,
      line:
        axis === 'y'
          ? { from: { x: mmOf(node.region.x0), y: middle }, to: { x: mmOf(node.region.x1), y: middle } }
          : { from: { x: middle, y: mmOf(node.region.y0) }, to: { x: middle, y: mmOf(node.region.y1) } },
      run: mmOf(run),
      taken: mmOf(to - from),
      gives: children.map(told),
      warnings: warningsOf(piece, mmOf(run), mmOf(setting), against, onFloor, shop),
    });
  }
  const finished = rests.map((region) => told({ is: 'rest', region }));
  return {
    steps,
    offcuts: finished
      .filter((piece) => piece.is === 'offcut')
      .sort((a, b) => a.name!.length - b.name!.length || (a.name! < b.name! ? -1 : 1)),
    waste: finished.filter((piece) => piece.is === 'waste'),
    settings,
  };
}

function warningsOf(
  piece: CutPiece,
  run: number,
  setting: number,
  against: CutStep['against'],
  onFloor: boolean,
  shop: CutShop,
): readonly CutWarning[] {
  const warnings: CutWarning[] = [];
  const heed = (what: CutWarning['what'], is: number | undefined, limit: number | undefined): void => {
    if (is !== undefined && limit !== undefined && is > limit) warnings.push({ what, is, limit });
  };
  heed('mass', piece.mass, shop.lift);
  heed('reach', Math.max(piece.length, piece.width), shop.reach);
  if (onFloor) heed('track', run, shop.track);
  else if (against !== 'mark') heed('rip', setting, shop.rip);
  return warnings;
}

function collectRests(piece: Piece, into: Region[]): void {
  if (piece.is === 'rest') into.push(piece.region);
  if (piece.is !== 'cut') return;
  if (piece.low) collectRests(piece.low, into);
  if (piece.high) collectRests(piece.high, into);
}

/** A, B, C … from the largest down. */
function nameOffcuts(rests: readonly Region[], manner: Manner): ReadonlyMap<Region, string> {
  const area = (r: Region): number => extent(r, 'x') * extent(r, 'y');
  const kept = rests.filter(manner.useful).sort((a, b) => area(b) - area(a) || a.x0 - b.x0 || a.y0 - b.y0);
  return new Map(kept.map((region, i) => [region, letters(i)]));
}

/** A … Z, AA, AB … */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

function lower(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! < b[i]!;
  return false;
}
