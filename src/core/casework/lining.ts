import { withoutAll } from '../geometry/index.ts';
import type { LiningPiece, Plan } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { kerfOf } from '../stock/index.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally, halves, type Ticks } from './divide.ts';
import {
  addPart,
  type Built,
  cuboid,
  type Draft,
  type DraftPart,
  finish,
  join,
  long,
  MOST_PARTS,
  newDraft,
  pathOf,
  refuseMore,
  type Span,
  type TickBox,
  take,
  withoutSpans,
} from './draft.ts';
import { findMaterial, type Material } from './material.ts';
import { BARE_WALL, type WallContext } from './wall.ts';

type Rectangle = { readonly x: Span; readonly y: Span; readonly why: string };

/**
 * Builds a lining: one panel where one is enough, else whole panels from the left and from the floor, what is left ripped from the
 * last (the last two are made equal where that would be a sliver), over battens across them if there are any. What is on the wall is cut out with the clearance
 * asked; a panel that this cuts in two becomes two parts.
 */
export function buildLining(piece: LiningPiece, plan: Plan, placing: Placing, context: WallContext = BARE_WALL): Built {
  const path = pathOf(plan.options, piece, piece.lining);
  const draft = newDraft('lining', piece.lining, piece.title, path, plan);
  const [width, height] = [toTicks(piece.size.width), toTicks(piece.size.height)];
  const stock = (id: string, key: readonly string[], kind: 'panel' | 'board'): Material | undefined => {
    const found = findMaterial(plan, id, [...path, ...key], [kind]);
    if (found.ok) return found.material;
    draft.issues.push(found.issue);
    return undefined;
  };
  const panel = stock(piece.panel, ['panel'], 'panel');
  const batten = piece.battens && stock(piece.battens.board, ['battens', 'board'], 'board');
  const behind = batten?.thickness ?? 0;
  const outside = cuboid([0, width], [0, height], [0, behind + (panel?.thickness ?? 0)]);
  if (!panel || (piece.battens && !batten)) return finish(draft, placing, outside);

  const clear = toTicks(piece.clear ?? 0);
  const holes = context.features
    .map(
      ({ id, x, y }): Rectangle => ({
        x: [toTicks(x[0]) - clear, toTicks(x[1]) + clear],
        y: [toTicks(y[0]) - clear, toTicks(y[1]) + clear],
        why: id,
      }),
    )
    .filter(({ x, y }) => x[0] < width && x[1] > 0 && y[0] < height && y[1] > 0);
  const grid = gridOf(draft, piece, plan, panel, { width, height });
  if (!grid) return finish(draft, placing, outside);
  const battens =
    batten && piece.battens
      ? layBattens(draft, piece, plan, batten, toTicks(piece.battens.spacing), { width, height }, holes, grid)
      : [];
  layPanels(draft, piece, plan, panel, [behind, behind + panel.thickness], grid, holes, battens);
  return finish(draft, placing, outside);
}

/** How a lining is parted into panels. */
type Grid = Pick<Choice, 'columns' | 'rows'>;

/** The panels that cover it for the least money; undefined where they would be too many. */
function gridOf(
  draft: Draft,
  piece: LiningPiece,
  plan: Plan,
  panel: Material,
  size: { readonly width: Ticks; readonly height: Ticks },
): Grid | undefined {
  const upright = piece.board === 'vertical';
  const gap = toTicks(piece.joint ?? 0);
  const trim = 2 * toTicks(plan.shop.trim ?? 0);
  const item = plan.stock.panels.find((p) => p.id === panel.id)!;
  const sheets = item.sizes
    .map((size) => ({ size, length: toTicks(size.length) - trim, width: toTicks(size.width) - trim }))
    .filter(({ length, width }) => length > 0 && width > 0);
  type Standing = { readonly size: (typeof item.sizes)[number]; readonly across: Ticks; readonly up: Ticks };
  const stand = (tall: boolean): readonly Standing[] =>
    sheets.map(({ size: sold, length, width }) => ({
      size: sold,
      across: tall ? width : length,
      up: tall ? length : width,
    }));
  // how whole panels stand matters only where one is not enough: without grain, one that lies the other way will do
  const singles = panel.grain
    ? []
    : stand(!upright).filter(({ across, up }) => across >= size.width && up >= size.height);
  const wanted = [...stand(upright), ...singles];
  const kerf = toTicks(kerfOf(plan));
  const choices = wanted
    .filter(({ across, up }) => (size.width / (across + gap)) * (size.height / (up + gap)) < MOST_PARTS)
    .map(({ size: sold, across, up }) => {
      const columns = modules(size.width, across, gap);
      const rows = modules(size.height, up, gap);
      // strips that lie side by side in one panel, and lengths one after the other in it
      const needed = bins(columns, across, kerf) * bins(rows, up, kerf);
      return {
        columns,
        rows,
        short: sold.count !== undefined && sold.count < needed,
        cost: sold.price === undefined ? undefined : needed * sold.price,
      };
    });
  if (wanted.length > 0 && choices.length === 0) {
    refuseMore(draft);
    return undefined;
  }
  if (choices.length === 0) {
    draft.issues.push({
      path: [...draft.path, 'panel'],
      message: `panel ${panel.id} has no size: the lining is drawn in one piece`,
      expected: 'sizes under that panel in the stock',
    });
  }
  const count = (c: Choice): number => c.columns.length * c.rows.length;
  // first what is enough, then what has a price, then what costs least: a price not known is never taken as nothing
  const before = (a: Choice, b: Choice): number =>
    Number(a.short) - Number(b.short) ||
    Number(a.cost === undefined) - Number(b.cost === undefined) ||
    (a.cost ?? 0) - (b.cost ?? 0) ||
    count(a) - count(b);
  return choices.toSorted(before)[0] ?? { columns: [[0, size.width]], rows: [[0, size.height]] };
}

function layPanels(
  draft: Draft,
  piece: LiningPiece,
  plan: Plan,
  panel: Material,
  z: Span,
  { columns, rows }: Grid,
  holes: readonly Rectangle[],
  battens: readonly DraftPart[],
): void {
  const upright = piece.board === 'vertical';
  const item = plan.stock.panels.find((p) => p.id === panel.id)!;
  let number = 0;
  for (const y of rows) {
    for (const x of columns) {
      for (const piecePart of splitBy({ x, y }, holes)) {
        const box = cuboid(piecePart.x, piecePart.y, z);
        const cut = holes.map((hole) => cuboid(hole.x, hole.y, z));
        if (withoutAll(box, cut).length === 0) continue;
        number += 1;
        const part = addPart(draft, {
          id: `panel-${number}`,
          name: `panel ${number}`,
          role: 'lining panel',
          material: panel,
          box,
          // a part is as long as its grain runs
          length: upright === (item.grain !== 'width') ? 'y' : 'x',
          thickness: 'z',
        });
        if (!part) continue;
        for (const hole of holes) {
          const whole =
            hole.x[0] > piecePart.x[0] &&
            hole.x[1] < piecePart.x[1] &&
            hole.y[0] > piecePart.y[0] &&
            hole.y[1] < piecePart.y[1];
          take(part, { kind: whole ? 'cut-out' : 'notch', box: cuboid(hole.x, hole.y, z), why: hole.why });
        }
        for (const b of battens) join(draft, 'applied', part, b, ['glue', 'brads']);
      }
    }
  }
}

interface Choice {
  readonly columns: readonly Span[];
  readonly rows: readonly Span[];
  /** There are too few of it. */
  readonly short: boolean;
  readonly cost: number | undefined;
}

/** How many panels' breadths some strips take, each laid into the first that has room for it. */
function bins(spans: readonly Span[], breadth: Ticks, kerf: Ticks): number {
  const left: Ticks[] = [];
  for (const strip of spans.map(long)) {
    const at = left.findIndex((room) => room >= strip);
    if (at < 0) left.push(breadth - strip - kerf);
    else left[at]! -= strip + kerf;
  }
  return left.length;
}

/** Whole modules with open joints between them, and what is left; the last two alike where the last would be a sliver. */
function modules(total: Ticks, module: Ticks, gap: Ticks): readonly Span[] {
  const spans: Span[] = [];
  let at = 0;
  while (at < total) {
    spans.push([at, Math.min(at + module, total)]);
    at += module + gap;
  }
  // what is left over would be joint and no panel
  const [from, to] = spans.at(-1)!;
  if (to < total && total - from > gap + 1) spans.push([total, total]);
  const [beforeLast, last] = [spans.at(-2), spans.at(-1)];
  if (beforeLast && last && long(last) < toTicks(DEFAULTS.leastRipping)) {
    const [first, second] = halves(total - beforeLast[0] - gap);
    spans.splice(-2, 2, [beforeLast[0], beforeLast[0] + first], [total - second, total]);
  }
  return spans;
}

/** What holes that reach right across a rectangle leave of it, each piece whole again. */
function splitBy(from: { readonly x: Span; readonly y: Span }, holes: readonly Rectangle[]): { x: Span; y: Span }[] {
  for (const { x, y } of holes) {
    const meets = x[0] < from.x[1] && x[1] > from.x[0] && y[0] < from.y[1] && y[1] > from.y[0];
    if (!meets) continue;
    const rest: { x: Span; y: Span }[] = [];
    if (y[0] <= from.y[0] && y[1] >= from.y[1]) {
      if (x[0] > from.x[0]) rest.push({ x: [from.x[0], x[0]], y: from.y });
      if (x[1] < from.x[1]) rest.push({ x: [x[1], from.x[1]], y: from.y });
    } else if (x[0] <= from.x[0] && x[1] >= from.x[1]) {
      if (y[0] > from.y[0]) rest.push({ x: from.x, y: [from.y[0], y[0]] });
      if (y[1] < from.y[1]) rest.push({ x: from.x, y: [y[1], from.y[1]] });
    } else continue;
    return rest.flatMap((piece) => splitBy(piece, holes));
  }
  return [{ x: from.x, y: from.y }];
}

/**
 * Battens across the panels: one along either edge and behind every joint that runs their way, so that no edge hangs free, and between
 * them no further apart than the spacing, broken where something is in the way.
 */
function layBattens(
  draft: Draft,
  piece: LiningPiece,
  plan: Plan,
  batten: Material,
  spacing: Ticks,
  size: { readonly width: Ticks; readonly height: Ticks },
  holes: readonly Rectangle[],
  { columns, rows }: Grid,
): DraftPart[] {
  const upright = piece.board === 'vertical';
  const [run, reach] = upright ? [size.width, size.height] : [size.height, size.width];
  const wide = batten.width!;
  if (reach < 2 * wide) {
    draft.issues.push({
      path: [...draft.path, 'battens'],
      message: 'the lining is too small for two battens',
      found: draft.notMore(reach),
      expected: `at least ${draft.notLess(2 * wide)}`,
    });
    return [];
  }
  const fixed = [0];
  const across = upright ? rows : columns;
  for (const [i, [begins]] of across.entries()) {
    const ended = across[i - 1]?.[1];
    if (ended === undefined) continue;
    const at = Math.round((ended + begins - wide) / 2);
    // one half each; over an open joint as wide as the batten neither edge would lie on it
    if (begins - ended < wide && at >= fixed.at(-1)! + wide && at + wide <= reach - wide) fixed.push(at);
  }
  fixed.push(reach - wide);
  const stretches = fixed.slice(1).map((to, i) => {
    const length = to - fixed[i]!;
    return { from: fixed[i]!, length, steps: Math.max(1, Math.ceil(length / Math.max(spacing, wide))) };
  });
  if (stretches.reduce((sum, { steps }) => sum + steps, 0) > MOST_PARTS) {
    refuseMore(draft);
    return [];
  }
  const places = stretches.flatMap(({ from, length, steps }) => {
    const pitch = divide(length, equally(steps));
    let at = from;
    return (pitch.fits ? pitch.sizes : []).map((size) => {
      const here = at;
      at += size;
      return here;
    });
  });
  const ends = 2 * toTicks(plan.shop.ends ?? 0);
  const longest = Math.max(
    0,
    ...plan.stock.boards.find((item) => item.id === batten.id)!.lengths.map((l) => toTicks(l.length) - ends),
  );
  const made: DraftPart[] = [];
  for (const [i, at] of [...places, reach - wide].entries()) {
    const across: Span = [at, at + wide];
    const blocks = holes
      .filter((hole) => (upright ? hole.y : hole.x)[0] < across[1] && (upright ? hole.y : hole.x)[1] > across[0])
      .map((hole) => (upright ? hole.x : hole.y));
    let piecesOfRun = 0;
    for (const free of withoutSpans([0, run], blocks)) {
      const pieces = longest > 0 ? Math.ceil(long(free) / longest) : 1;
      const lengths = divide(long(free), equally(pieces));
      if (!lengths.fits) continue;
      let from = free[0];
      for (const length of lengths.sizes) {
        piecesOfRun += 1;
        const along: Span = [from, from + length];
        from += length;
        const box: TickBox = upright
          ? cuboid(along, across, [0, batten.thickness])
          : cuboid(across, along, [0, batten.thickness]);
        const id = piecesOfRun === 1 ? `batten-${i + 1}` : `batten-${i + 1}-${piecesOfRun}`;
        const part = addPart(draft, {
          id,
          name: `batten ${i + 1}${piecesOfRun === 1 ? '' : `, piece ${piecesOfRun}`}`,
          role: 'batten',
          material: batten,
          box,
          length: upright ? 'x' : 'y',
          thickness: 'z',
        });
        if (part) made.push(part);
      }
    }
  }
  return made;
}
