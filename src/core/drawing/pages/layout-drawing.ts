import type { AlikeLayouts } from '../alike.ts';
import {
  type Area,
  area,
  below,
  group,
  LETTER,
  line,
  overlaps,
  point,
  rectangle,
  right,
  text,
  textArea,
} from '../draw.ts';
import type { LayoutPlan } from '../input.ts';
import { type InTurn, type Places, placeInTurn, placesIn, takeLed } from '../layout/place.ts';
import { numberedWords, small, wordsIn } from '../layout/words-in.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark, Point } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { areaOnPaper, type Placement } from '../view/view.ts';
import { type Desk, numberRuns } from './desk.ts';

/** What lies on the panel, in mm from its lower left corner. */
interface Lying {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}
/** A panel as it is cut, with what is written on its drawing. */
export interface Panel {
  readonly full: Lying;
  readonly parts: readonly (Lying & { readonly id: string; readonly numbers: string; readonly name: string })[];
  readonly cuts: readonly (Lying & { readonly number: number })[];
  readonly left: LayoutPlan['left'];
}

/** A stretch of the panel that is drawn again, larger. */
export interface Detail {
  readonly name: string;
  readonly of: Lying;
}

export function panelOf(desk: Desk, { layout, parts: ids }: AlikeLayouts, plan: LayoutPlan): Panel {
  return {
    full: { x: 0, y: 0, length: layout.length, width: layout.width },
    parts: layout.placed.map((p, i) => ({
      ...{ x: p.x, y: p.y, length: p.length, width: p.width, id: p.part },
      numbers: numberRuns(ids[i]!.flatMap((id) => desk.numbered().numberOf.get(id) ?? [])) || p.part,
      name: desk.numbered().partOf.get(p.part)?.part.label.name ?? p.part,
    })),
    cuts: plan.steps.flatMap(({ number, line: cut }) => {
      if (!cut) return [];
      const [x, y] = [Math.min(cut.from.x, cut.to.x), Math.min(cut.from.y, cut.to.y)];
      return [{ x, y, length: Math.abs(cut.to.x - cut.from.x), width: Math.abs(cut.to.y - cut.from.y), number }];
    }),
    left: plan.left,
  };
}

interface OnPaper {
  readonly place: Placement;
  readonly frame: Area;
  readonly places: Places;
  readonly letter: Lettering;
}

/** Thinner than this on the paper, mm, and a part has to be told beside itself. */
const THIN = 3.7;
/** Nearer to one another than this on the paper, mm, and what is told beside them is in one another's way; so many of them crowd. */
const NEAR = 6;
const CROWD = 6;
/** By how much a drawing that is worth its place is larger. */
const LARGER = 1.6;
const MOST_DETAILS = 2;

/** The panel with its words; where thin parts crowd, they are told in enlarged drawings, which are named on it and find `room` elsewhere. */
export function detailed(
  panel: Panel,
  on: OnPaper,
  room: Area,
): { readonly marks: readonly Mark[]; readonly details: readonly Detail[] } {
  const details = crowds(panel, on.place.ratio, room);
  return { marks: drawPanel(panel, on, details), details };
}

/**
 * Where thin parts lie close together: the most of them first. Where they reach too far for a drawing that is larger, the longest of
 * them are left out: what is long has room for its number somewhere along it.
 */
function crowds({ full, parts }: Panel, ratio: number, room: Area): readonly Detail[] {
  const [wide, high] = [room.width - 2 * BESIDE, room.height - HEAD - BESIDE - GAP];
  const found: Crowd[] = [];
  const open = crowdsOf(
    parts.filter((p) => Math.min(p.length, p.width) / ratio < THIN),
    NEAR * ratio,
  );
  for (let own = open.pop(); own; own = open.pop()) {
    if (own.parts.length < CROWD) continue;
    const { length, width } = own.of;
    if (LARGER * Math.max(length / wide, width / high) < ratio) {
      found.push(own);
      continue;
    }
    const longest = Math.max(...own.parts.map(longSide));
    open.push(
      ...crowdsOf(
        own.parts.filter((p) => longSide(p) < longest - 1e-6),
        NEAR * ratio,
      ),
    );
  }
  return found
    .sort((a, b) => b.parts.length - a.parts.length)
    .slice(0, MOST_DETAILS)
    .map(({ of }, i) => ({ name: 'AB'[i]!, of: within(full, grown(of, 1.5 * ratio))! }));
}
interface Crowd {
  readonly of: Lying;
  readonly parts: readonly Lying[];
}
const longSide = ({ length, width }: Lying): number => Math.max(length, width);
function crowdsOf(thin: readonly Lying[], near: number): Crowd[] {
  let groups = thin.map((p): Crowd => ({ of: p, parts: [p] }));
  for (;;) {
    const [a, b] = firstPair(groups, (g, h) => isNear(g.of, h.of, near)) ?? [];
    if (!a || !b) return groups;
    const joined = { of: round([a.of, b.of]), parts: [...a.parts, ...b.parts] };
    groups = [...groups.filter((g) => g !== a && g !== b), joined];
  }
}

/** Enlarged drawings one under the other, each with its name and scale. */
export function drawDetails(
  panel: Panel,
  details: readonly Detail[],
  into: Area,
  letter: Lettering,
): { readonly marks: readonly Mark[]; readonly scale: string } {
  const high = into.height / details.length;
  const drawn = details.map(({ name, of }, i) => {
    const own = area(into.x, into.y + i * high, into.width, high - GAP);
    const { place, frame, scale } = layView({
      u: [of.x, of.x + of.length],
      v: [-of.y - of.width, -of.y],
      into: area(own.x + BESIDE, own.y + HEAD, own.width - 2 * BESIDE, own.height - HEAD - BESIDE),
      letter,
      stand: 'top',
    });
    const head = text(own.x, own.y + LETTER.head + 0.5, `${name}, ${scale.text}`, { bold: true, height: LETTER.head });
    const places = placesIn(own, [textArea(head)]);
    const marks = drawPanel(panel, { place, frame, places, letter }, [], of);
    return { marks: [head, ...marks], scale: scale.text };
  });
  return {
    marks: drawn.flatMap((d) => d.marks),
    scale: [...new Set(drawn.map((d) => d.scale))].join(' and '),
  };
}
const GAP = 4;
const HEAD = 8;
/** Room beside an enlarged drawing for what is led out of it, mm. */
const BESIDE = 12;

/**
 * The parts, what is left, and the cuts. What lies whole in one of the `details` is told there; of a drawing of a stretch of the panel,
 * `only`, all the rest is told elsewhere.
 */
function drawPanel(
  { full, parts, cuts, left }: Panel,
  { place, frame, places, letter }: OnPaper,
  details: readonly Detail[],
  only?: Lying,
): readonly Mark[] {
  const told = (l: Lying): boolean => (only ? isWithin(l, only) : !details.some((d) => isWithin(l, d.of)));
  const at = (l: Lying): Area => areaOnPaper(place, [l.x, l.x + l.length], [-l.y - l.width, -l.y]);
  const seen = <L extends Lying>(all: readonly L[], draw: (l: L, at: Area) => Mark): readonly Mark[] =>
    all.flatMap((l) => {
      const shown = only ? within(only, l) : l;
      return shown ? [draw(l, at(shown))] : [];
    });
  const marks: Mark[] = [
    rectangle(frame, { hatch: 'waste', tone: 'faint' }),
    ...seen(left, (l, own) =>
      rectangle(own, {
        fill: 'paper',
        ...(l.name === undefined && l.spacers === undefined ? { hatch: 'waste', tone: 'faint' } : {}),
      }),
    ),
    ...seen(parts, (_, own) => rectangle(own, { fill: 'paper', pen: 'visible' })),
    rectangle(frame, { pen: only ? 'ghost' : 'outline' }),
    ...(only ? edgesOf(full, only, frame) : []),
    ...seen(cuts, (_, own) => line(own.x, own.y, right(own), below(own), 'cut', 'accent')),
  ];
  const named = details.flatMap(({ name, of }): readonly Mark[] => {
    const own = at(of);
    const centre = point(own.x + own.width / 2, own.y + own.height / 2);
    // what is told there is told nowhere here; what reaches out of it keeps its words
    places.taken.push(area(centre.x - RING, centre.y - RING, 2 * RING, 2 * RING));
    places.taken.push(...parts.filter((p) => isWithin(p, of)).map(at));
    return [
      rectangle(own, { pen: 'ghost' }),
      { kind: 'circle', centre, radius: RING, pen: 'visible', fill: 'paper' },
      text(centre.x, centre.y, name, { align: 'centre', anchor: 'middle', bold: true, height: LETTER.head }),
    ];
  });
  const worded = [
    ...cuts.filter(told).map(
      (cut): InTurn =>
        (on) =>
          cutNumber(on, at(cut), cut.number),
    ),
    ...parts
      .filter(told)
      .sort((a, b) => a.length * a.width - b.length * b.width)
      .map((p): InTurn => {
        const size = `${letter.figure(p.length)} × ${letter.figure(p.width)}`;
        return (on) => [group(p.id, numberedWords(on, at(p), p.numbers, p.name, size), p.name)];
      }),
    ...left.filter(told).map(
      (l): InTurn =>
        (on) =>
          wordsOfRest(on, at(l), l, letter),
    ),
  ];
  return [...marks, ...named, ...placeInTurn(places, worded).flat()];
}
const RING = 3.4;

/** The edges of the panel that an enlarged drawing ends at. */
function edgesOf(full: Lying, of: Lying, frame: Area): readonly Mark[] {
  const [x, y, to, foot] = [frame.x, frame.y, right(frame), below(frame)];
  return [
    ...(of.x <= full.x ? [line(x, y, x, foot, 'outline')] : []),
    ...(of.x + of.length >= full.x + full.length ? [line(to, y, to, foot, 'outline')] : []),
    ...(of.y <= full.y ? [line(x, foot, to, foot, 'outline')] : []),
    ...(of.y + of.width >= full.y + full.width ? [line(x, y, to, y, 'outline')] : []),
  ];
}

const asArea = ({ x, y, length, width }: Lying): Area => area(x, y, length, width);
const grown = ({ x, y, length, width }: Lying, by: number): Lying => ({
  ...{ x: x - by, y: y - by, length: length + 2 * by, width: width + 2 * by },
});
const isNear = (a: Lying, b: Lying, by: number): boolean => overlaps(asArea(grown(a, by)), asArea(b));
function round(all: readonly Lying[]): Lying {
  const [x, y] = [Math.min(...all.map((l) => l.x)), Math.min(...all.map((l) => l.y))];
  const [to, top] = [Math.max(...all.map((l) => l.x + l.length)), Math.max(...all.map((l) => l.y + l.width))];
  return { x, y, length: to - x, width: top - y };
}
/** What of one lies in the other. */
function within(limits: Lying, l: Lying): Lying | undefined {
  const [x, y] = [Math.max(l.x, limits.x), Math.max(l.y, limits.y)];
  const length = Math.min(l.x + l.length, limits.x + limits.length) - x;
  const width = Math.min(l.y + l.width, limits.y + limits.width) - y;
  return length < 0 || width < 0 || (length === 0 && width === 0) ? undefined : { x, y, length, width };
}
const isWithin = (l: Lying, limits: Lying): boolean =>
  l.x >= limits.x - 1e-6 &&
  l.y >= limits.y - 1e-6 &&
  l.x + l.length <= limits.x + limits.length + 1e-6 &&
  l.y + l.width <= limits.y + limits.width + 1e-6;
function firstPair<T>(all: readonly T[], fits: (a: T, b: T) => boolean): readonly [T, T] | undefined {
  for (const [i, a] of all.entries()) for (const b of all.slice(i + 1)) if (fits(a, b)) return [a, b];
  return undefined;
}

/** What a rest is called and how large it is, as much as fits; which spacers are cut from it, beside it where it must be. */
function wordsOfRest(places: Places, at: Area, rest: LayoutPlan['left'][number], letter: Lettering): readonly Mark[] {
  const { name, spacers } = rest;
  if (spacers !== undefined) {
    const [own, short] = [`spacers ${spacers}`, spacers].map(small);
    const inside = wordsIn(places, at, [...(name === undefined ? [] : [[small(name), own!]]), [own!], [short!]]);
    return inside.length > 0 ? inside : wordsBeside(places, at, spacers);
  }
  if (name === undefined) return [];
  const size = `${letter.figure(rest.length)} × ${letter.figure(rest.width)}`;
  return wordsIn(places, at, [[small(name), small(size)], [small(name)], [small(name.replace(/^.* /, ''))]]);
}

/** The words of a rest too small for them, led to from beside it. */
function wordsBeside(places: Places, of: Area, words: string): readonly Mark[] {
  const on = point(of.x + of.width / 2, of.y + of.height / 2);
  const spots = ROUND.flatMap((far) =>
    Array.from({ length: 16 }, (_, i) => {
      const mark = text(on.x + far * Math.cos((i * Math.PI) / 8), on.y + far * Math.sin((i * Math.PI) / 8), words, {
        align: 'centre',
        anchor: 'middle',
        bold: true,
      });
      const own = textArea(mark);
      const near = point(Math.max(own.x, Math.min(right(own), on.x)), Math.max(own.y, Math.min(below(own), on.y)));
      return { mark, area: own, leader: [on, near] as const };
    }),
  );
  const found = takeLed(places, spots);
  if (!found) return [];
  const near = found.leader[1];
  return [
    line(on.x, on.y, near.x, near.y, 'thin'),
    { kind: 'circle', centre: on, radius: 0.6, fill: 'ink' },
    found.mark,
  ];
}

const ALONG = [0.5, 0.08, 0.92, 0.25, 0.75, 0.4, 0.6, 0.16, 0.84, 0.33, 0.67, 0.04, 0.96, 0, 1];
const ASIDE = [0, 3, -3, 5.5, -5.5, 8, -8, 11, -11, 15, -15, 20, -20, 26, -26];

const ROUND = [6, 9, 12, 16, 20, 25, 30, 36, 44];

/** The number of a cut in a small ring on its line; beside it on a leader where the line has no room. */
function cutNumber(places: Places, cut: Area, number: number): readonly Mark[] {
  const r = number > 99 ? 3 : 2.4;
  const upright = cut.height > cut.width;
  const spot = (on: Point, dx: number, dy: number) => {
    const centre = point(on.x + dx, on.y + dy);
    return {
      on,
      centre,
      far: Math.hypot(dx, dy),
      leader: [on, centre] as const,
      area: area(centre.x - r, centre.y - r, 2 * r, 2 * r),
    };
  };
  const onCut = (share: number): Point =>
    point(cut.x + cut.width * (upright ? 0.5 : share), cut.y + cut.height * (upright ? share : 0.5));
  // one after the other: most cuts have room for it on their line
  function* spots() {
    for (const aside of ASIDE)
      for (const share of ALONG) yield upright ? spot(onCut(share), aside, 0) : spot(onCut(share), 0, aside);
    for (const far of ROUND)
      for (const share of [0.5, 0, 1, 0.25, 0.75])
        for (let i = 0; i < 16; i++)
          yield spot(onCut(share), far * Math.cos((i * Math.PI) / 8), far * Math.sin((i * Math.PI) / 8));
  }
  const { on, far, centre } = takeLed(places, spots()) ?? spot(onCut(0.5), 0, 0);
  const figure = text(centre.x, centre.y, `${number}`, {
    align: 'centre',
    anchor: 'middle',
    tone: 'accent',
    bold: true,
  });
  // no leader may cross it on its way out of the ring
  places.taken.push(textArea(figure));
  return [
    ...(far > r ? [line(on.x, on.y, centre.x, centre.y, 'thin', 'accent')] : []),
    { kind: 'circle', centre, radius: r, pen: 'thin', fill: 'paper', tone: 'accent' },
    figure,
  ];
}
