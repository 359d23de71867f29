import { buildPiece } from '../casework/index.ts';
import { grouped } from '../grouped.ts';
import type { Bay, CasePiece, Edit, Piece, PlainValue } from '../plan/index.ts';
import { nameOf } from '../plan/index.ts';
import { mm } from '../quantity/index.ts';
import type { BayOpening } from '../scene/index.ts';
import { exact, finest, massesLike, type Subject, saying, set, type WallInput, writtenBay } from './plan-input.ts';

/** One way of making a case in two or more: how its pieces are said, built, and joined again in the room. */
export interface Split {
  /** From left to right, or from the lowest up, where it is parted one way only. */
  readonly pieces: readonly Subject[];
  readonly massOf: WallInput['massOf'];
  /** The plan with the pieces in place of the whole. */
  readonly after: Pick<WallInput, 'plan' | 'option'>;
  readonly title: string;
  /** How each of its joints is made, from the first that it was parted at. */
  readonly joints: readonly string[];
  readonly edits: readonly Edit[];
}

/** Narrower or lower than this and a half is not worth making, mm. Common practice. */
const LEAST = 250;
/** Connector bolts no further apart than this, one row near the front and one near the back, mm. Common practice. */
const BOLTS_APART = 400;

/** A place where a case can be parted, and what it would be made into there; undefined where that cannot be built. */
interface Cut {
  /** From the left end, or from its foot, of so much. */
  readonly at: number;
  readonly of: number;
  readonly make: () => Split | undefined;
}

/** Every place where a case can be made in two, at one of its uprights or fixed shelves, the most even first. */
function cutsOf(input: WallInput, subject: Subject): readonly Cut[] {
  if (!('case' in subject.said)) return [];
  const whole = withoutFrames(subject, subject.said.inside ?? { open: true });
  const { inside } = whole;
  const said = { ...subject.said, inside };
  const cuts = inside.columns
    ? beside(input, whole.subject, said, inside.columns)
    : inside.rows
      ? stacked(input, whole.subject, said, inside.rows)
      : halved(input, whole.subject, said, inside);
  return cuts
    .filter(({ at, of }) => at >= LEAST && of - at >= LEAST)
    .toSorted((a, b) => Math.abs(a.at - a.of / 2) - Math.abs(b.at - b.of / 2));
}

/** What is divided into one is that one, and its bays are the bays of it: a single column of rows is parted between its rows. */
function withoutFrames(subject: Subject, inside: Bay): { readonly subject: Subject; readonly inside: Bay } {
  const [only, ...others] = inside.columns ?? inside.rows ?? [];
  if (!only || others.length > 0) return { subject, inside };
  const { width: _, height: __, ...own } = only;
  const bays = subject.placed.bays
    .filter(({ id }) => !id.endsWith('/bay-1') || (!own.columns && !own.rows))
    .map((bay) => ({ ...bay, id: bay.id.replace('/bay-1-', '/bay-') }));
  return withoutFrames({ ...subject, placed: { ...subject.placed, bays } }, own);
}

/** Parted no more often than twice over: four pieces at most. Beyond that it is built in the room. */
const DEEPEST = 2;

/** The first split after which every piece passes a check: in two, else in two of which one or both are parted again. */
export function splitFor(
  input: WallInput,
  subject: Subject,
  passes: (piece: Subject, input: WallInput) => boolean,
  depth = DEEPEST,
): Split | undefined {
  const splits: Split[] = [];
  for (const { make } of cutsOf(input, subject)) {
    const split = make();
    if (!split) continue;
    if (split.pieces.every((piece) => passes(piece, { ...input, massOf: split.massOf }))) return split;
    splits.push(split);
  }
  if (depth <= 1) return undefined;
  for (const split of splits) {
    const again = partAgain(input, split, passes, depth - 1);
    if (again) return again;
  }
  return undefined;
}

/** A split of which each piece that does not pass is parted again; undefined where that does not help. */
function partAgain(
  input: WallInput,
  split: Split,
  passes: (piece: Subject, input: WallInput) => boolean,
  depth: number,
): Split | undefined {
  let made: Split = split;
  // the later piece first: what comes before it keeps its place in the plan
  for (const piece of split.pieces.toReversed()) {
    const now = { ...input, ...made.after, massOf: made.massOf };
    if (passes(piece, now)) continue;
    const own = splitFor(now, piece, passes, depth);
    if (!own) return undefined;
    const { massOf } = made;
    made = {
      pieces: made.pieces.flatMap((p) => (p === piece ? own.pieces : [p])),
      massOf: (id) => own.massOf(id) ?? massOf(id),
      after: own.after,
      title: '',
      joints: [...made.joints, ...own.joints],
      edits: [...made.edits, ...own.edits],
    };
  }
  const { length } = saying(input);
  const sizes = made.pieces.map(({ said }) => ('case' in said ? said.size : undefined)!);
  const key = sizes.every((size) => size.height === sizes[0]!.height) ? 'width' : 'height';
  const even = sizes.every(
    (size) => size[key === 'width' ? 'height' : 'width'] === sizes[0]![key === 'width' ? 'height' : 'width'],
  );
  const listed = sizes.map((size) => (even ? length(size[key]) : `${length(size.width)} × ${length(size.height)}`));
  const how = !even ? '' : key === 'width' ? ' wide' : ' high, one on the other';
  return {
    ...made,
    title: `Make it in ${made.pieces.length === 3 ? 'three' : 'four'}, ${listed.slice(0, -1).join(', ')} and ${listed.at(-1)}${how}`,
  };
}

/** The clear boxes of the top level of a case, in the order of the plan. */
function topBays(bays: readonly BayOpening[], count: number) {
  return Array.from({ length: count }, (_, i) => {
    const own = bays.filter(({ id }) => new RegExp(`/bay-${i + 1}(-|$)`).test(id)).map((b) => b.clear);
    return {
      x: [Math.min(...own.map((b) => b.min.x)), Math.max(...own.map((b) => b.max.x))] as const,
      y: [Math.min(...own.map((b) => b.min.y)), Math.max(...own.map((b) => b.max.y))] as const,
    };
  });
}

/** Some columns or rows as a bay of their own; where none of them gives way, the largest does. */
function group(kind: 'columns' | 'rows', bays: readonly Bay[], sizes: readonly number[]): Bay {
  const key = kind === 'columns' ? 'width' : 'height';
  const [only] = bays;
  if (bays.length === 1 && only) {
    const { [key]: _, ...rest } = only;
    return Object.keys(rest).filter((k) => k !== 'name').length === 0 ? { ...rest, open: true } : rest;
  }
  const gives = bays.some((bay) => typeof bay[key] !== 'number');
  const largest = sizes.indexOf(Math.max(...sizes));
  return {
    [kind]: bays.map((bay, i) => {
      if (gives || i !== largest) return bay;
      const { [key]: _, ...rest } = bay;
      return rest;
    }),
  };
}

function beside(input: WallInput, subject: Subject, said: CasePiece, columns: readonly Bay[]): readonly Cut[] {
  const clear = topBays(subject.placed.bays, columns.length);
  const start = (said.fillers?.left ?? 0) + endThickness(subject, 'left');
  const edge = clear[0]!.x[0] - start;
  return columns.slice(1).map((_, i) => {
    const at = rounded(input, clear[i]!.x[1] + edge);
    const widths = clear.map((c) => c.x[1] - c.x[0]);
    const insides = [
      group('columns', columns.slice(0, i + 1), widths.slice(0, i + 1)),
      group('columns', columns.slice(i + 1), widths.slice(i + 1)),
    ] as const;
    return { at, of: said.size.width, make: () => sideBySide(input, subject, said, at, insides) };
  });
}

const DOORS = { left: 'left', right: 'right', pair: undefined, up: 'up', down: 'down' } as const;

/** One bay, made twice beside each other: its doors and drawers are as wide as each half. */
function halved(input: WallInput, subject: Subject, said: CasePiece, bay: Bay): readonly Cut[] {
  const door = bay.door;
  const hinged = (hand: 'left' | 'right'): Bay =>
    door === undefined ? bay : { ...bay, door: door === 'up' || door === 'down' ? DOORS[door] : hand };
  const at = rounded(input, said.size.width / 2);
  const insides = [hinged('left'), hinged('right')] as const;
  return [{ at, of: said.size.width, make: () => sideBySide(input, subject, said, at, insides) }];
}

const endThickness = ({ placed }: Subject, end: 'left' | 'right'): number => {
  const panels = placed.parts.filter((p) => p.role === 'end panel');
  const middle = (placed.outside.min.x + placed.outside.max.x) / 2;
  const own = panels.find((p) => (end === 'left' ? p.solid.box.max.x < middle : p.solid.box.min.x > middle));
  return own?.size.thickness ?? 0;
};

function sideBySide(
  input: WallInput,
  subject: Subject,
  said: CasePiece,
  at: number,
  [leftInside, rightInside]: readonly [Bay, Bay],
): Split | undefined {
  const { placed, path } = subject;
  const right = said.size.width - at;
  const { top, ends, fillers, fix: _fix, ...plain } = said;
  const name = freeName(input, said.case);
  const only = <T extends object, K extends keyof T>(of: T | undefined, key: K) =>
    of?.[key] === undefined ? undefined : { [key]: of[key] };
  const half = (
    id: string,
    hand: 'left' | 'right',
    width: number,
    inside: Bay,
    title: string | undefined,
  ): CasePiece => {
    const end = only(ends, hand);
    const filler = only(fillers, hand);
    const { left, right: over, ...flat } = top ?? { stock: '' };
    const reach = hand === 'left' ? left : over;
    return {
      ...plain,
      case: id,
      ...(title !== undefined && { title }),
      size: { ...said.size, width: mm(width) },
      inside,
      ...(top && { top: { ...flat, ...(reach !== undefined && { [hand]: reach }) } }),
      ...(end && { ends: end }),
      ...(filler && { fillers: filler }),
    } as CasePiece;
  };
  const named = said.title ?? said.case;
  const a = half(said.case, 'left', at, leftInside, said.title);
  const b = half(name, 'right', right, rightInside, farther(named, 'right', 'far right'));
  const built = build(input, subject, a, b, 'after');
  if (!built) return undefined;
  const { length } = saying(input);
  const [place, kept] = [
    { after: said.case },
    written(input, b, ['from', 'centre', 'after', 'gap', 'on', 'at', 'fix']),
  ];
  const edits: Edit[] = [
    set([...path, 'size', 'width'], exact(input, at)),
    set([...path, 'inside'], writtenBay(leftInside)),
    ...replaced(input, path, said, a),
    ...(said.centre !== undefined && placed.wall
      ? [set([...path, 'from'], exact(input, placed.wall.from)), { op: 'remove' as const, path: [...path, 'centre'] }]
      : []),
    ...leaning(input, said.case, 'after', name),
    { op: 'insert', path: [...path.slice(0, -1), (path.at(-1) as number) + 1], value: { ...kept, ...place } },
  ];
  return {
    ...built,
    title: `Make it in two, ${length(at)} and ${length(right)} wide`,
    joints: [joining(placed.outside.max.y - placed.outside.min.y, 'the doubled uprights')],
    edits,
  };
}

function stacked(input: WallInput, subject: Subject, said: CasePiece, rows: readonly Bay[]): readonly Cut[] {
  const { placed, path } = subject;
  const clear = topBays(placed.bays, rows.length);
  const heights = clear.map((c) => c.y[1] - c.y[0]);
  return rows.slice(1).map((_, i): Cut => {
    const at = rounded(input, clear[i]!.y[0]);
    const make = (): Split | undefined => {
      const upper = said.size.height - at;
      const { top, fix, toe, ...plain } = said;
      const name = freeName(input, said.case);
      const low = group('rows', rows.slice(i + 1), heights.slice(i + 1));
      const high = group('rows', rows.slice(0, i + 1), heights.slice(0, i + 1));
      const a = { ...plain, ...(toe && { toe }), size: { ...said.size, height: mm(at) }, inside: low } as CasePiece;
      const b = {
        ...plain,
        ...(top && { top }),
        case: name,
        title: farther(said.title ?? said.case, 'upper', 'top'),
        size: { ...said.size, height: mm(upper) },
        inside: high,
      } as CasePiece;
      const built = build(input, subject, a, b, 'on');
      if (!built) return undefined;
      const { length } = saying(input);
      const kept = written(input, b, ['from', 'centre', 'after', 'gap', 'on', 'at', 'above', 'fix']);
      const edits: Edit[] = [
        set([...path, 'size', 'height'], exact(input, at)),
        set([...path, 'inside'], writtenBay(low)),
        ...(top ? [{ op: 'remove' as const, path: [...path, 'top'] }] : []),
        ...(fix ? [{ op: 'remove' as const, path: [...path, 'fix'] }] : []),
        ...leaning(input, said.case, 'on', name),
        {
          op: 'insert',
          path: [...path.slice(0, -1), (path.at(-1) as number) + 1],
          value: { ...kept, on: said.case },
        },
      ];
      return {
        ...built,
        title: `Make it in two, ${length(at)} and ${length(upper)} high, one on the other`,
        joints: [joining(said.size.width, 'the upper bottom and the lower top')],
        edits,
      };
    };
    return { at, of: said.size.height, make };
  });
}

/** The name of the second of two; of one that was a second itself, a word further on. */
const farther = (name: string, word: string, further: string): string =>
  name.endsWith(`, ${word}`) ? `${name.slice(0, -word.length)}${further}` : `${name}, ${word}`;

/** Connector bolts along a joint, in each of its two rows. */
export const boltRows = (along: number): number => Math.max(2, Math.ceil((along - 100) / BOLTS_APART) + 1);

/** How two halves become one again. */
function joining(along: number, what: string): string {
  const rows = boltRows(along);
  return `${2 * rows} connector bolts through ${what}, ${rows} near the front and ${rows} near the back`;
}

/** How the pieces become one again, joints that are alike said once. */
export function joinWords({ joints }: Split): string {
  const alike = [...grouped(joints, (how) => how)].map(
    ([how, all]) => `${how}${all.length > 1 ? ` at each of ${all.length} joints` : ''}`,
  );
  return `Joined in the room by ${alike.join('; by ')}; clamped flush and shimmed first.`;
}

/** The halves as they would be built and stand in the plan; undefined when either cannot. */
function build(
  input: WallInput,
  subject: Subject,
  a: CasePiece,
  b: CasePiece,
  leans: 'after' | 'on',
): Pick<Split, 'pieces' | 'massOf' | 'after'> | undefined {
  const { placed, path, said: whole } = subject;
  const at = path.at(-1) as number;
  const { from: _from, centre: _centre, after: _after, gap: _gap, on: _on, above: _above, ...plain } = b;
  const second = { ...plain, [leans]: a.case } as CasePiece;
  const { centre, ...kept } = a;
  // a half is not in the middle of the whole: it keeps the whole's left end
  const first =
    leans === 'after' && centre !== undefined && placed.wall ? ({ ...kept, from: placed.wall.from } as CasePiece) : a;
  const pieces = [first, second].map((said, i): Subject | undefined => {
    const placing = { frame: placed.frame, ...(placed.wall && { wall: placed.wall }) };
    const { placed: built, issues } = buildPiece(said, input.plan, placing);
    return issues.length > 0 ? undefined : { placed: built, said, path: [...path.slice(0, -1), at + i] };
  });
  const [one, two] = pieces;
  if (!one || !two) return undefined;
  const option = {
    ...input.option,
    pieces: input.option.pieces.flatMap((piece, i): Piece[] => {
      if (i === at) return [first, second];
      return (piece as { after?: string; on?: string })[leans] === nameOf(whole)
        ? [{ ...piece, [leans]: second.case } as Piece]
        : [piece];
    }),
  };
  const plan = { ...input.plan, options: input.plan.options.map((o) => (o === input.option ? option : o)) };
  return { pieces: [one, two], massOf: massesLike(input, placed, [one.placed, two.placed]), after: { plan, option } };
}

/** What of a half's surround differs from what the plan says of the whole. */
const replaced = (input: WallInput, path: Subject['path'], whole: CasePiece, half: CasePiece): readonly Edit[] =>
  (['top', 'ends', 'fillers', 'fix'] as const).flatMap((key): readonly Edit[] => {
    if (whole[key] === undefined || whole[key] === half[key]) return [];
    const value = half[key];
    return [
      value === undefined
        ? { op: 'remove', path: [...path, key] }
        : set([...path, key], writtenLengths(input, value) as PlainValue),
    ];
  });

/** Pieces that stood against the whole now stand against its second half. */
const leaning = (input: WallInput, whole: string, field: 'after' | 'on', second: string): readonly Edit[] => {
  const at = input.plan.options.indexOf(input.option);
  return input.option.pieces.flatMap((piece, j): readonly Edit[] =>
    (piece as { after?: string; on?: string })[field] === whole
      ? [set(['options', at, 'pieces', j, field], second)]
      : [],
  );
};

function freeName(input: WallInput, name: string): string {
  const taken = new Set(input.option.pieces.map(nameOf));
  for (let n = 2; ; n++) if (!taken.has(`${name} ${n}`)) return `${name} ${n}`;
}

/** To what the plan prints, so that its file stays readable. */
const rounded = (input: WallInput, length: number): number => Math.round(length / finest(input)) * finest(input);

/** Every number of a case but those of its bays is a length. */
function writtenLengths(input: WallInput, value: unknown): PlainValue {
  if (typeof value === 'number') return exact(input, value);
  if (Array.isArray(value)) return value.map((v) => writtenLengths(input, v));
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(
      Object.entries(value)
        .filter(([, v]) => v !== undefined)
        .map(([k, v]) => [k, writtenLengths(input, v)]),
    );
  return value as PlainValue;
}

/** A case as the plan file writes it, some of its keys left out. */
function written(
  input: WallInput,
  said: CasePiece,
  without: readonly string[],
): { readonly [key: string]: PlainValue } {
  const { inside, ...rest } = said;
  return {
    ...Object.fromEntries(
      Object.entries(rest)
        .filter(([key, value]) => value !== undefined && !without.includes(key))
        .map(([key, value]) => [key, writtenLengths(input, value)]),
    ),
    ...(inside && { inside: writtenBay(inside) }),
  };
}
