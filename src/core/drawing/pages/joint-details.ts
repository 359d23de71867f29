import { AXES, type Axis, side } from '../../geometry/index.ts';
import { grouped } from '../../grouped.ts';
import type { Joint, PlacedPiece } from '../../scene/index.ts';
import { type Area, area, below, LETTER, rectangle, right, text } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { type Face, type Seen, seen } from '../view/hidden-lines.ts';
import { hatchOf, overOf } from '../view/manner.ts';
import { bodiesOf, type Look, sectionFaces } from '../view/project.ts';
import { drawSeen, placed } from '../view/view.ts';
import type { Desk, NumberedNote } from './desk.ts';
import { layNotes } from './notes.ts';
import { runLength } from './run-length.ts';
import type { Draft } from './sheet.ts';

/** A section is cut across the length of a joint. */
const LOOK: Readonly<Record<Axis, Look>> = { x: 'right', y: 'top', z: 'front' };
const ORDER: readonly Joint['kind'][] = ['dado', 'rabbet', 'groove', 'applied', 'butt', 'pinned', 'hung', 'slid'];
/** Real mm round the joint that the detail shows. */
const WINDOW = { wide: 84, high: 62 };
const MOST = 12;

/** Is there anything of a piece to be drawn larger or counted? */
export const detailsOf = (piece: PlacedPiece): boolean => kindsOf(piece).length > 0 || piece.fittings.length > 0;

/** One joint of each kind that a piece has, cut across and enlarged, with what is let in how deep and how it is fastened. */
export function detailPages(
  desk: Desk,
  piece: PlacedPiece,
  name: string,
  letter: Lettering,
  notes: readonly NumberedNote[],
): readonly Draft[] {
  const chosen = kindsOf(piece);
  if (!detailsOf(piece)) return [];
  const { body } = desk.sheet;
  const gap = 7;
  const rightWidth = Math.max(78, body.width * 0.3);
  const left = area(body.x, body.y, body.width - rightWidth - gap * 1.5, body.height);
  const gridsAt = (scale: Scale): readonly Grid[] => {
    const cell = { width: WINDOW.wide / scale.ratio, height: WINDOW.high / scale.ratio };
    const columns = Math.max(1, Math.floor((left.width + gap) / (cell.width + gap)));
    const step = Math.min((left.width + gap) / columns, cell.width + 26);
    const wanted = Math.max(...chosen.map((joint) => namesOf(desk, piece, joint, step - gap).length), NAMES);
    return [...new Set([wanted, NAMES])].map((names) => {
      const captionHigh = (names + 2) * LEADING + 3;
      const rows = Math.max(1, Math.floor((left.height + gap) / (cell.height + captionHigh)));
      return { scale, cell, columns, rows, step, names, captionHigh };
    });
  };
  // Full size where as many have room so with their whole names, else half, else with their names cut short.
  const drawnIn = ({ columns, rows }: Grid): number => Math.min(chosen.length, MOST, columns * rows);
  const grid = scalesOf(letter.unit)
    .slice(0, 2)
    .flatMap(gridsAt)
    .reduce((best, other) => (drawnIn(other) > drawnIn(best) ? other : best));
  const { scale, cell, columns, step, names, captionHigh } = grid;
  const drawn = drawnIn(grid);
  const marks = chosen.slice(0, drawn).flatMap((joint, i) => {
    const at = area(
      left.x + (i % columns) * step,
      left.y + Math.floor(i / columns) * (cell.height + captionHigh),
      cell.width,
      cell.height,
    );
    return detail(desk, piece, joint, at, scale.ratio, step - gap, names);
  });
  const aside = area(right(body) - rightWidth, body.y, rightWidth, body.height);
  marks.push(...fittings(piece, aside, letter));
  let used =
    piece.fittings.length === 0
      ? 0
      : (new Set(piece.fittings.map((f) => f.use + f.name)).size + 2) * (LEADING + 2.4) + 8;
  if (drawn < chosen.length) {
    const words = `Drawn: ${drawn} of ${chosen.length} kinds of joint. How the others are made is told in the assembly, step by step.`;
    const lines = wrapText(words, LETTER.small, aside.width);
    marks.push(...lines.map((own, i) => text(aside.x, aside.y + used + LEADING * i, own, { tone: 'faint' })));
    used += lines.length * LEADING + 2;
  }
  const noteArea = area(aside.x, aside.y + used, aside.width, aside.height - used);
  marks.push(...layNotes(notes, [noteArea]).marks);
  return [
    {
      id: `details-${piece.id}`,
      chapter: 'Pieces',
      title: `${name}: details`,
      ...(chosen.length > 0 && { scale: scale.text }),
      marks,
    },
  ];
}

interface Grid {
  readonly scale: Scale;
  readonly cell: { readonly width: number; readonly height: number };
  readonly columns: number;
  readonly rows: number;
  readonly step: number;
  /** Lines that the names of the two parts may take. */
  readonly names: number;
  readonly captionHigh: number;
}
/** Lines that the names of two parts take at least: there is always so much room. */
const NAMES = 2;

/** Which parts meet, by their numbers and names. */
function namesOf(desk: Desk, piece: PlacedPiece, joint: Joint, width: number): readonly string[] {
  const called = (id: string): string =>
    `${desk.numbered().numberOf.get(id) ?? ''} ${piece.parts.find((p) => p.id === id)?.label.name ?? ''}`.trim();
  return wrapText(`${called(joint.a)} to ${called(joint.b)}`, LETTER.small, width);
}

/** The first joint of each kind, told apart further by the roles of the parts. */
function kindsOf(piece: PlacedPiece): readonly Joint[] {
  const role = (id: string): string => piece.parts.find((p) => p.id === id)?.role ?? '';
  const worth = piece.joints.filter((j) => !['pinned', 'hung', 'slid'].includes(j.kind));
  const groups = grouped(worth, (j) => `${j.kind} ${role(j.a)} ${role(j.b)}`);
  return [...groups.values()].map((g) => g[0]!).sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
}

function detail(
  desk: Desk,
  piece: PlacedPiece,
  joint: Joint,
  at: Area,
  ratio: number,
  captionWidth: number,
  most: number,
): readonly Mark[] {
  const { min, max } = joint.contact;
  const axis = AXES.reduce((a, b) => (side(joint.contact, b) > side(joint.contact, a) ? b : a));
  const look = LOOK[axis];
  const middle = (a: Axis): number => (min[a] + max[a]) / 2;
  // A little off the middle, where dividers and mullions like to stand.
  const plane = middle(axis) + Math.min(17, side(joint.contact, axis) / 5);
  const depth = look === 'right' ? -plane : plane;
  const [cu, cv] =
    look === 'front'
      ? [middle('x'), -middle('y')]
      : look === 'top'
        ? [middle('x'), middle('z')]
        : [middle('z'), -middle('y')];
  const u = [cu - WINDOW.wide / 2, cu + WINDOW.wide / 2] as const;
  const v = [cv - WINDOW.high / 2, cv + WINDOW.high / 2] as const;
  const faces = sectionFaces(bodiesOf(piece), look, depth).flatMap((f) => clip(f, u, v));
  const place = placed(u, v, ratio, at);
  const shown = withoutBorder(seen(faces), u, v);
  const parts = new Map(piece.parts.map((p) => [p.id, p]));
  const small = Math.min(...AXES.filter((a) => a !== axis).map((a) => side(joint.contact, a)));
  const let_ =
    small > 0.1 && joint.kind !== 'butt' && joint.kind !== 'applied' ? `, let in ${desk.letter.length(small)}` : '';
  const own = namesOf(desk, piece, joint, captionWidth);
  const caption = [
    `${joint.kind}${let_}`,
    ...own.slice(0, most - 1),
    own.slice(most - 1).join(' '),
    joint.fasten.filter((f) => f !== 'nothing').join(', '),
  ].filter((w) => w !== '');
  return [
    ...drawSeen(shown, place, { hatch: hatchOf(parts), over: overOf(parts, look) }),
    rectangle(at, { pen: 'ghost', tone: 'faint' }),
    ...caption.map((words, i) =>
      text(
        at.x,
        below(at) + LEADING * (i + 1),
        fitText(words, LETTER.small, captionWidth, i === 0),
        i === 0 ? { bold: true } : {},
      ),
    ),
  ];
}

type Range = readonly [number, number];
/** A face within a window of the view. */
function clip(face: Face, u: Range, v: Range): readonly Face[] {
  const cu = [Math.max(face.u[0], u[0]), Math.min(face.u[1], u[1])] as const;
  const cv = [Math.max(face.v[0], v[0]), Math.min(face.v[1], v[1])] as const;
  return cu[1] - cu[0] < 1e-6 || cv[1] - cv[0] < 1e-6 ? [] : [{ ...face, u: cu, v: cv }];
}
/** Edges that only the window made are no edges. */
function withoutBorder(view: Seen, u: Range, v: Range): Seen {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  return {
    ...view,
    edges: view.edges.filter(
      ({ from, to }) =>
        !(near(from[0], to[0]) && (near(from[0], u[0]) || near(from[0], u[1]))) &&
        !(near(from[1], to[1]) && (near(from[1], v[0]) || near(from[1], v[1]))),
    ),
  };
}

interface FittingLine {
  readonly name: string;
  readonly count: string;
}
/** Hinges, slides, pins, screws … of the piece, each kind once. */
function fittings(piece: PlacedPiece, at: Area, letter: Lettering): readonly Mark[] {
  if (piece.fittings.length === 0) return [];
  const rows = [...grouped(piece.fittings, (f) => `${f.use} ${f.name}`).values()].map((same): FittingLine => {
    const amounts = same.flatMap((f) => (f.amount ? [f.amount] : []));
    const sum = amounts.reduce((total, a) => total + a.value, 0);
    const unit = amounts[0]?.unit;
    const count = same.reduce((total, f) => total + f.count, 0);
    return {
      name: same[0]!.name,
      count:
        unit === 'mm'
          ? runLength(letter, sum)
          : unit === 'mm²'
            ? letter.area(sum)
            : unit !== undefined
              ? `${Number(sum.toPrecision(3))} ${unit}`
              : `${count}`,
    };
  });
  const columns: Column<FittingLine>[] = [
    { head: 'Fittings', cell: (l) => l.name, share: 1 },
    { head: 'How many', cell: (l) => l.count, align: 'right' },
  ];
  return layTable(
    columns,
    rows.map((row) => ({ row })),
    () => ({ ...at, height: 1e4 }),
  ).pieces.flat();
}
