import { sittersOf } from '../../camera/index.ts';
import { type LightPlan, lightOf, TABLE_HEIGHT } from '../../light/index.ts';
import { inch, isInches } from '../../quantity/index.ts';
import { bodyOf, lampsOf } from '../../surroundings/index.ts';
import { type Area, area, group, line, point, rectangle, text, textArea } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import { takeFirst } from '../layout/place.ts';
import type { Column } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { type Block, fewestSheets, freeUnder, pagesOf, setPlan, tableOf, wordsAt, wordsOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** Radius of a head on the plan, mm of paper. */
const HEAD = 1.6;

/** Lamps and faces on the plan; what reaches each face, its cast, and what each paint would do. */
export function lightPages(desk: Desk): readonly Draft[] {
  const light = lightOf(desk.input);
  if (!light) return [];
  const { body } = desk.sheet;
  const left = area(body.x, body.y, body.width * 0.44, body.height * 0.66);
  const bottom = Math.max(...desk.input.room.outline.map((p) => p.z));
  const rest = area(body.x + body.width * 0.48, body.y, body.width * 0.52, body.height);
  const { marks, at, scale, places, lines } = setPlan(desk, left);
  const sitters = sittersOf(desk.input);
  const gaze = ({ eyes, ahead }: (typeof sitters)[number]) =>
    [at(eyes), at({ x: eyes.x + 300 * ahead.x, y: 0, z: eyes.z + 300 * ahead.z })] as const;
  // no figure stands on a head, or where it looks
  for (const [eye, tip] of sitters.map(gaze)) {
    const [x, y] = [Math.min(eye.x, tip.x), Math.min(eye.y, tip.y)];
    places.taken.push(area(x - HEAD, y - HEAD, Math.abs(eye.x - tip.x) + 2 * HEAD, Math.abs(eye.y - tip.y) + 2 * HEAD));
  }
  const lamps = lampsOf(desk.input).map((lamp) => {
    const { min, max } = bodyOf(desk.input.pieces.find((p) => p.id === lamp.id)!);
    const [a, b] = [at(min), at(max)];
    const box = area(a.x, a.y, b.x - a.x, b.y - a.y);
    places.taken.push(box);
    return group(
      lamp.id,
      [
        rectangle(box, { pen: 'visible' }),
        line(a.x, a.y, b.x, b.y, 'thin'),
        line(a.x, b.y, b.x, a.y, 'thin'),
        ...wordsAt(places, point((a.x + b.x) / 2, b.y), `${lamp.piece.lumens} lm, ${lamp.piece.kelvin} K`, { lines }),
      ],
      lamp.title,
    );
  });
  const faces = sitters.flatMap((s) => {
    const lit = light.faces.find((f) => f.id === s.id);
    if (!lit) return [];
    const [eye, tip] = gaze(s);
    return [
      group(s.id, [
        { kind: 'circle' as const, centre: eye, radius: HEAD, pen: 'outline' as const },
        line(eye.x, eye.y, tip.x, tip.y, 'visible'),
        ...wordsAt(places, eye, `${s.title} ${Math.round(lit.lux)} lx`, { lines, bold: true }),
      ]),
    ];
  });
  const signed = (v: number, digits = 0): string => `${v > 0 ? '+' : v < 0 ? '−' : ''}${Math.abs(v).toFixed(digits)}`;
  type Row = (typeof light.faces)[number];
  const faceColumns: Column<Row>[] = [
    { head: 'face', cell: (f) => f.title, share: 1 },
    { head: 'lx', cell: (f) => `${Math.round(f.lux)}`, align: 'right', bold: true },
    { head: 'from lamps', cell: (f) => `${Math.round(f.directLux)}`, align: 'right' },
    { head: 'K', cell: (f) => `${Math.round(f.cast.kelvin)}`, align: 'right' },
    { head: 'shift', cell: (f) => signed(f.cast.kelvinShift), align: 'right' },
    { head: 'Duv', cell: (f) => signed(f.cast.duv, 4), align: 'right' },
    { head: 'ΔE00', cell: (f) => f.cast.difference.toFixed(1), align: 'right', bold: true },
    ...(light.painted
      ? [{ head: 'unpainted', cell: (f: Row) => f.before.cast.difference.toFixed(1), align: 'right' as const }]
      : []),
  ];
  const paintColumns: Column<(typeof light.paints)[number]>[] = [
    { head: 'all walls in', cell: (p) => p.name, share: 1 },
    { head: 'reflects', cell: (p) => `${p.reflectance.toFixed(0)} %`, align: 'right' },
    { head: 'lx', cell: (p) => `${Math.round(p.lux)}`, align: 'right' },
    { head: 'lumens', cell: (p) => `× ${p.lumens.toFixed(2)}`, align: 'right' },
    { head: 'ΔE00', cell: (p) => p.cast.difference.toFixed(1), align: 'right', bold: true },
    { head: 'cast', cell: (p) => p.cast.words, most: 44 },
  ];
  const causeRows = light.causes.filter((c) => c.takes > 0.05);
  const first = light.faces[0]!;
  const numbers = light.grid.flatMap(({ at: spot, lux }): readonly Mark[] => {
    const p = at(spot);
    const words = text(p.x, p.y, `${Math.round(lux / 10) * 10}`, { align: 'centre', anchor: 'middle', tone: 'faint' });
    const found = takeFirst(places, [{ area: textArea(words) }]);
    // the outline of what stands there is broken for the figure, as for a dimension
    return found ? [rectangle(found.area, { fill: 'paper' }), words] : [];
  });
  const drawn = [...marks, ...lamps, ...faces, ...numbers];
  const under = area(left.x, at({ x: 0, y: 0, z: bottom }).y + 7, left.width, 60);
  const tables = [
    tableOf('Light that reaches the faces', faceColumns, light.faces),
    tableOf<(typeof causeRows)[number]>(
      `Where the cast on ${first.title} comes from`,
      [
        { head: 'were this grey', cell: (c) => c.what, share: 1 },
        { head: 'ΔE00 would be', cell: (c) => c.without.toFixed(1), align: 'right', bold: true },
        { head: 'less by', cell: (c) => signed(c.takes, 1), align: 'right' },
      ],
      causeRows,
    ),
    tableOf('What paint on the walls would do', paintColumns, light.paints),
  ];
  const white =
    'ΔE00 is how far a white card held at the face is from white to a camera set to the lamps alone: from 1 it can be seen side by side, from 2 it is worth a brush. Duv is green above, pink below.';
  const lumens = `Lumens: with so many times the ${Math.round(light.lumens)} lm of all lamps and strips the face is lit as well as under the brightest of these paints.${light.paler === undefined ? '' : ` Pale wood on cases and linings would give it ${light.paler.toFixed(2)} times the light.`}`;
  const high = desk.letter.length(isInches(desk.letter.unit) ? inch(30) : TABLE_HEIGHT);
  const plan = `ux on a level sheet at the height of a table, about ${high}, evening unless a window has daylight in the plan.`;
  const told = [wordsOf('How to read it', [white, lumens, `Numbers on the plan: l${plan}`])];
  const inTwo = [wordsOf('Numbers on the plan', [`L${plan}`]), wordsOf('How to read it', [white, lumens])];
  const laid = (close: boolean, blocks: readonly Block[]) => (): readonly Draft[] => {
    const own = [...drawn, ...swatches(desk, light, under, close)];
    return pagesOf(
      desk,
      { id: 'light', chapter: 'Light', title: 'Light on faces and walls', scale: scale.text, marks: own },
      [rest, ...freeUnder(own, area(body.x, body.y, left.width, body.height))],
      [...tables, ...blocks],
    );
  };
  return fewestSheets([
    laid(false, [elsewhere(light.places), ...told]),
    laid(true, [elsewhere(light.places), ...told]),
    laid(true, [elsewhereAbreast(light.places), ...inTwo]),
  ]);
}

type Place = LightPlan['places'][number];
const ELSEWHERE = 'Light elsewhere, in lux';
const mean = (r: Place | undefined): string => (r ? `${Math.round(r.lux)}` : '');
const evenness = (r: Place | undefined): string => r?.evenness?.toFixed(2) ?? '';

function elsewhere(places: readonly Place[]): Block {
  return tableOf<Place>(
    ELSEWHERE,
    [
      { head: 'on', cell: (r) => r.what, share: 1 },
      { head: 'mean', cell: mean, align: 'right', bold: true },
      { head: 'least over mean', cell: evenness, align: 'right' },
    ],
    places,
  );
}

/** The same, its second half beside the first. */
function elsewhereAbreast(places: readonly Place[]): Block {
  const half = Math.ceil(places.length / 2);
  type Pair = readonly [Place, Place | undefined];
  return tableOf<Pair>(
    ELSEWHERE,
    ([0, 1] as const).flatMap((k): readonly Column<Pair>[] => [
      { head: 'on', cell: (pair) => pair[k]?.what ?? '', share: 1 },
      { head: 'mean', cell: (pair) => mean(pair[k]), align: 'right', bold: true },
      { head: 'least/mean', cell: (pair) => evenness(pair[k]), align: 'right' },
    ]),
    places.slice(0, half).map((place, i): Pair => [place, places[half + i]]),
  );
}

/** The cast as a card would show it: under the lamps alone, unpainted, as the option paints; then the paints tried. */
function swatches(desk: Desk, light: LightPlan, into: Area, close: boolean): readonly Mark[] {
  // what the cards and the paints under them are lower by where the sheet is full, mm
  const [card, paintHigh] = close ? [6, 4] : [8, 5];
  const first = light.faces[0]!;
  const cards = [
    { words: ['white card,', 'lamps alone'], colour: '#e2e2e2' },
    ...(light.painted ? [{ words: ['as the room', 'is now'], colour: first.before.cast.swatch }] : []),
    { words: light.painted ? ['as it will', 'be painted'] : ['in the room', 'as it is'], colour: first.cast.swatch },
  ];
  const paints = light.paints
    .slice(0, 5)
    .map((p) => ({ words: wrapText(p.name, 2.5, 24).slice(0, 2), colour: p.cast.swatch, paint: p.colour }));
  const row = (
    head: string,
    y: number,
    all: readonly { readonly words: readonly string[]; readonly colour: string; readonly paint?: string }[],
  ): readonly Mark[] => {
    const width = Math.min(26, into.width / all.length);
    return [
      text(into.x, y, head, { bold: true }),
      ...all.flatMap(({ words, colour, paint }, k): readonly Mark[] => {
        const x = into.x + k * width;
        return [
          rectangle(area(x, y + 2, width - 3, card), { swatch: colour, pen: 'thin' }),
          ...(paint ? [rectangle(area(x, y + 2 + card, width - 3, paintHigh), { swatch: paint, pen: 'thin' })] : []),
          ...words.map((w, i) =>
            text(x, y + card + (paint ? paintHigh : 0) + 5.5 + 3.8 * i, fitText(w, 2.5, width - 2)),
          ),
        ];
      }),
    ];
  };
  const low = into.y + card + (close ? 14.5 : 16);
  if (low + 26 > desk.sheet.body.y + desk.sheet.body.height)
    return row(`A white card at ${first.title}`, into.y, cards);
  return [
    ...row(`A white card at ${first.title}`, into.y, cards),
    ...row('The same card with all walls in each paint (the paint under it)', low, paints),
  ];
}
