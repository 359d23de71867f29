import type { AssemblyStep } from '../../assembly/index.ts';
import { add, type Box, centre, cornersOf, enclose, move, scale, side, type Vec3 } from '../../geometry/index.ts';
import { fromTicks } from '../../quantity/index.ts';
import {
  AXIS_OF,
  type Direction,
  OPPOSITE,
  type Part,
  type PartId,
  type PlacedPiece,
  stickingOf,
  TOWARDS,
} from '../../scene/index.ts';
import {
  type Area,
  area,
  below,
  extentOf,
  LETTER,
  line,
  moved,
  point,
  polygon,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import { type InTurn, placeInTurn, placesIn } from '../layout/place.ts';
import { crosses } from '../layout/squares.ts';
import { tag } from '../layout/words-in.ts';
import type { Mark } from '../marks.ts';
import {
  isSeen,
  longest,
  type P2,
  project,
  type Standing,
  type Stroke,
  strokesOf,
  type Thing,
  turner,
} from '../view/isometric.ts';
import { boxesOf } from '../view/project.ts';
import { markOfSpacer } from './assembly-words.ts';
import type { Desk } from './desk.ts';

const AROUND: readonly Direction[] = ['front', 'right', 'left', 'back', 'up', 'down'];

/** The step as it lies on the bench, from the side that shows most of what is new; the new part drawn out along its way. */
export function pictureMarks(desk: Desk, piece: PlacedPiece, step: AssemblyStep, at: Area): readonly Mark[] {
  const parts = new Map(piece.parts.map((p) => [p.id, p]));
  const boxes = (id: PartId): readonly Box[] => boxesOf(parts.get(id)!.solid);
  const fresh = enclose(step.adds.map((id) => parts.get(id)!.solid.box));
  const stands = step.present.map((id) => parts.get(id)!.solid.box);
  const out = step.moves && stands.length > 0 ? drawnOut(fresh, enclose(stands), step.moves) : 0;
  const away: Vec3 = step.moves ? scale(TOWARDS[OPPOSITE[step.moves]], out) : { x: 0, y: 0, z: 0 };
  const there: Thing[] = step.present.map((id) => ({ id, boxes: boxes(id) }));
  const gauges: Thing[] = step.set.flatMap(({ gauge }, i) =>
    gauge ? [{ id: `gauge ${i}`, boxes: [boxOfCell(gauge.cell)] }] : [],
  );
  const added: Thing[] = step.adds.map((id) => ({ id, boxes: boxes(id), away }));
  const everything = [...there, ...gauges, ...added];
  const isNew = new Set(added.map((t) => t.id));
  const coarse = Math.max(20, longest(fresh) / 10);
  let best: { standing: Standing; score: number } | undefined;
  for (const front of AROUND) {
    if (front === step.down || front === OPPOSITE[step.down]) continue;
    const standing: Standing = { down: step.down, front };
    const seen = strokesOf(
      everything.map((t) => (isNew.has(t.id) ? { ...t, hatch: coarse } : t)),
      standing,
      'hatch',
    );
    const bare = seen.reduce((sum, s) => sum + length(s), 0);
    // the joint it goes to should be seen too: from the side it comes from
    const score =
      bare * (step.moves && turner(standing)(TOWARDS[OPPOSITE[step.moves]]).some((c) => c > 0.5) ? 1.15 : 1);
    if (!best || score > best.score * 1.0001) best = { standing, score };
  }
  const { standing } = best!;
  const turn = turner(standing);
  const corners = everything.flatMap(({ boxes: own, away: by }) =>
    own.flatMap((b) => cornersOf(by ? move(b, by) : b).map((p) => project(turn(p)))),
  );
  const [u0, u1] = [Math.min(...corners.map((c) => c[0])), Math.max(...corners.map((c) => c[0]))];
  const [v0, v1] = [Math.min(...corners.map((c) => c[1])), Math.max(...corners.map((c) => c[1]))];
  const margin = 4;
  const ratio = Math.max((u1 - u0) / (at.width - 2 * margin), (v1 - v0) / (at.height - 2 * margin));
  const onPaper = ([u, v]: P2) =>
    point(at.x + at.width / 2 + (u - (u0 + u1) / 2) / ratio, at.y + at.height / 2 + (v - (v0 + v1) / 2) / ratio);
  const strokes = strokesOf(
    [
      ...there,
      ...gauges.map((t) => ({ ...t, hatch: 0.9 * ratio, hatchOver: true })),
      ...added.map((t) => ({ ...t, hatch: 1.7 * ratio })),
    ],
    standing,
  );
  const marks = strokes.map((s): Mark => {
    const [a, b] = [onPaper(s.from), onPaper(s.to)];
    const pen = s.kind === 'hatch' ? 'thin' : isNew.has(s.id) ? 'outline' : 'visible';
    return line(
      a.x,
      a.y,
      b.x,
      b.y,
      pen,
      s.kind === 'edge' && !isNew.has(s.id) && !s.id.startsWith('gauge') ? 'ink' : undefined,
    );
  });
  if (step.moves && out > 0) {
    const middle = centre(fresh);
    const face = facing(fresh, step.moves, middle);
    const [tail, tip] = [
      onPaper(project(turn(add(middle, away)))),
      onPaper(project(turn(add(face, scale(away, 0.15))))),
    ];
    marks.push(...arrow(tail, tip));
  }
  const stuck = labelled(step).flatMap((id) => {
    const own = added.find((t) => t.id === id)!;
    const mark = labelMark(parts.get(id)!, own, everything, standing, ratio, onPaper);
    return mark ? [mark] : [];
  });
  marks.push(...stuck.flat());
  // which way is up in the finished piece, for a reader who has lost it
  const compass = upMark(turn, at, marks);
  const places = placesIn(at, [...textsOf(compass).map(textArea), ...stuck.map((m) => extentOf(m)!)]);
  const partners = [
    ...new Set(step.set.flatMap((s) => (s.against ? [s.against] : s.gauge ? [s.gauge.between[0]] : []))),
  ];
  const names: (readonly [string, string])[] = [
    ...labelled(step).map((id) => [id, `${desk.numbered().numberOf.get(id)}`] as const),
    ...gauges.map((g) => {
      const { gauge } = step.set[Number(g.id.slice(6))]!;
      const what =
        gauge!.from === 'parts'
          ? `gauge ${gauge!.parts.map((p) => desk.numbered().numberOf.get(p.part)).join('+')}`
          : gauge!.from === 'shim'
            ? 'packing'
            : markOfSpacer(desk, gauge!.distance);
      return [g.id, what] as const;
    }),
    ...partners.map((id) => [id, `${desk.numbered().numberOf.get(id)}`] as const),
  ];
  const told = names.flatMap(([id, words]) => {
    const on = anchor(strokes, id);
    return on ? [{ ...onPaper(on), words }] : [];
  });
  // no name stands where another points
  places.taken.push(...told.map(({ x, y }) => area(x - 0.8, y - 0.8, 1.6, 1.6)));
  const tags = told.map(
    ({ x, y, words }): InTurn =>
      (on) =>
        tag(on, area(x - 0.1, y - 0.1, 0.2, 0.2), words),
  );
  marks.push(...placeInTurn(places, tags).flat());
  marks.push(...compass);
  return marks;
}

/** How large a label is drawn, mm on paper; smaller on a narrow part, and not at all below the least. */
const LABEL_MARK = { length: 6, least: 2 } as const;
/** Off the middle, where the way it comes is drawn. */
const ALONG = [0.3, 0.7, 0.2, 0.8, 0.5] as const;

/** The part's label on the face it is stuck on, with its arrow, where all of it is seen. */
function labelMark(
  part: Part,
  own: Thing,
  all: readonly Thing[],
  standing: Standing,
  ratio: number,
  onPaper: (p: P2) => { readonly x: number; readonly y: number },
): readonly Mark[] | undefined {
  const { face, arrow: points } = stickingOf(part);
  const turn = turner(standing);
  if (!turn(TOWARDS[face]).some((c) => c > 0.5)) return undefined;
  const { box } = part.solid;
  const [out, along] = [AXIS_OF[face], AXIS_OF[points]];
  const across = (['x', 'y', 'z'] as const).find((a) => a !== out && a !== along)!;
  const most = Math.min(LABEL_MARK.length * ratio, 0.5 * side(box, along), 0.5 * side(box, across));
  if (most < LABEL_MARK.least * ratio) return undefined;
  const up = TOWARDS[points][along];
  const away = own.away ?? { x: 0, y: 0, z: 0 };
  const at = (a: number, b: number, u: number, v: number): Vec3 => ({
    ...add(away, {
      ...box.min,
      [out]: TOWARDS[face][out] > 0 ? box.max[out] : box.min[out],
      [along]: box.min[along] + side(box, along) * a + up * u * most,
      [across]: box.min[across] + side(box, across) * b + v * most,
    }),
  });
  for (const a of ALONG)
    for (const b of ALONG) {
      const inside = (share: number, size: number): boolean => most / 2 <= Math.min(share, 1 - share) * size;
      if (!inside(a, side(box, along)) || !inside(b, side(box, across))) continue;
      const corners = [at(a, b, 0.5, -0.5), at(a, b, 0.5, 0.5), at(a, b, -0.5, 0.5), at(a, b, -0.5, -0.5)];
      if (!isSeen(corners, all, standing)) continue;
      const paper = (list: readonly Vec3[]) =>
        list.map((p) => onPaper(project(turn(p)))).map(({ x, y }) => point(x, y));
      return [
        polygon(paper(corners), { pen: 'thin', fill: 'paper' }),
        polygon(paper([at(a, b, 0.36, 0), at(a, b, -0.3, 0.26), at(a, b, -0.3, -0.26)]), { fill: 'ink' }),
      ];
    }
  return undefined;
}

/** Of many parts that go in alike only the first and the last carry their number. */
const labelled = ({ adds, asOne }: AssemblyStep): readonly PartId[] =>
  asOne !== undefined ? adds.slice(0, 1) : adds.length > 6 ? [adds[0]!, adds.at(-1)!] : adds;

const length = (s: Stroke): number => Math.hypot(s.to[0] - s.from[0], s.to[1] - s.from[1]);
/** A place on what is seen of a thing: the middle of its longest hatch line, else of its longest edge. */
function anchor(strokes: readonly Stroke[], id: string): P2 | undefined {
  const own = strokes.filter((s) => s.id === id);
  const hatches = own.filter((s) => s.kind === 'hatch');
  const pick = (hatches.length > 0 ? hatches : own).reduce<Stroke | undefined>(
    (a, b) => (a && length(a) >= length(b) ? a : b),
    undefined,
  );
  return pick && [(pick.from[0] + pick.to[0]) / 2, (pick.from[1] + pick.to[1]) / 2];
}

/** How far the new part is drawn out: clear of the rest where that is not too far. */
function drawnOut(fresh: Box, rest: Box, moves: Direction): number {
  const axis = AXIS_OF[moves];
  const clear = TOWARDS[moves][axis] > 0 ? fresh.max[axis] - rest.min[axis] : rest.max[axis] - fresh.min[axis];
  const size = Math.max(longest(rest), longest(fresh));
  return Math.min(Math.max(clear, 0) + 0.14 * size + 30, 0.3 * size + 0.6 * side(fresh, axis) + 40);
}

function facing(b: Box, way: Direction, middle: Vec3): Vec3 {
  const axis = AXIS_OF[way];
  return { ...middle, [axis]: TOWARDS[way][axis] > 0 ? b.max[axis] : b.min[axis] };
}
const boxOfCell = (c: readonly number[]): Box => ({
  min: { x: fromTicks(c[0]!), y: fromTicks(c[2]!), z: fromTicks(c[4]!) },
  max: { x: fromTicks(c[1]!), y: fromTicks(c[3]!), z: fromTicks(c[5]!) },
});

function arrow(tail: { x: number; y: number }, tip: { x: number; y: number }): readonly Mark[] {
  const far = Math.hypot(tip.x - tail.x, tip.y - tail.y);
  if (far < 1) return [];
  const [dx, dy] = [(tip.x - tail.x) / far, (tip.y - tail.y) / far];
  const neck = point(tip.x - dx * 2.6, tip.y - dy * 2.6);
  return [
    line(tail.x, tail.y, neck.x, neck.y, 'outline', 'accent'),
    polygon(
      [point(tip.x, tip.y), point(neck.x - dy * 1.1, neck.y + dx * 1.1), point(neck.x + dy * 1.1, neck.y - dx * 1.1)],
      {
        fill: 'accent',
      },
    ),
  ];
}

/** Little arrows to the piece's own top and front, in that corner of the picture where they cross least of it. */
function upMark(turn: ReturnType<typeof turner>, at: Area, drawn: readonly Mark[]): readonly Mark[] {
  const own = (['up', 'front'] as const).flatMap((way): readonly Mark[] => {
    const [u, v] = project(turn(TOWARDS[way]));
    const [tx, ty] = [u * 5, v * 5];
    const word = way === 'up' ? 'top' : 'front';
    const wide = textWidth(word, LETTER.small);
    return [
      line(0, 0, tx, ty, 'thin', 'faint'),
      text(tx + (u < -0.1 ? -wide - 0.5 : u > 0.1 ? 0.5 : -wide / 2), ty + (v > 0.1 ? 3.2 : -0.6), word, {
        tone: 'faint',
      }),
    ];
  });
  const reach = extentOf(own)!;
  const corners = [below(at) - reach.height, at.y].flatMap((y) =>
    [at.x, right(at) - reach.width].map((x) => area(x, y, reach.width, reach.height)),
  );
  const crossed = (a: Area): number => drawn.filter((m) => m.kind === 'line' && crosses(m.from, m.to, a)).length;
  const best = corners.map((a) => ({ a, n: crossed(a) })).reduce((x, y) => (y.n < x.n ? y : x)).a;
  return moved(own, best.x - reach.x, best.y - reach.y);
}
