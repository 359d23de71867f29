import { wallCalled } from '../../called.ts';
import { framesOf, sittersOf } from '../../camera/index.ts';
import { grouped } from '../../grouped.ts';
import { FOAM_CAUTION, isBox, type SoundPlan, soundOf, type TiledWall } from '../../sound/index.ts';
import { type Area, area, below, extentOf, group, line, point, polyline, rectangle, right, text } from '../draw.ts';
import { fitText, wrapText } from '../font/measure.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { areaOnPaper, onPaper } from '../view/view.ts';
import type { Desk } from './desk.ts';
import { fewestSheets, freeUnder, pagesOf, setPlan, tableOf, wordsAt, wordsOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** The sound of the room before and after, and the treatment as it is laid. */
export function soundPages(desk: Desk): readonly Draft[] {
  const { option } = desk.input;
  if (!option.pieces.some((p) => 'absorber' in p || 'seat' in p)) return [];
  const s = soundOf(desk.input);
  return [...roomPages(desk, s), ...treatmentPages(desk, s)];
}

const seconds = (t: number): string => t.toFixed(2);

type NumberedReflection = SoundPlan['reflections'][number] & { readonly number: number };

/** Reverberation before and after, first reflections numbered on the plan, flutter, modes. */
function roomPages(desk: Desk, s: SoundPlan): readonly Draft[] {
  const { body } = desk.sheet;
  const width = body.width * 0.44;
  const numbered = s.reflections.map((r, k) => ({ ...r, number: k + 1 }));
  const { marks, scale } = planWith(desk, numbered, area(body.x, body.y, width, body.height * 0.56));
  const under = Math.min(below(extentOf(marks)!) + 6, body.y + body.height * 0.6);
  const rest = area(body.x + width + body.width * 0.04, body.y, body.width * 0.52, body.height);
  const laidWith = (share: number): readonly Draft[] => {
    const chart = curve(s, area(body.x, under, width, body.height * share));
    return pagesOf(
      desk,
      {
        id: 'sound',
        chapter: 'Sound',
        title: 'Sound of the room',
        scale,
        marks: [...marks, ...chart],
      },
      [rest, ...freeUnder(chart, area(body.x, body.y, width, body.height))],
      [timesTable(s), meaning(s), reflectionsTable(numbered), modesTold(s), flutterTable(desk, s)],
    );
  };
  return fewestSheets(CHARTS.map((share) => () => laidWith(share)));
}

/** The room from above with its people, microphones and numbered first reflections. */
function planWith(
  desk: Desk,
  numbered: readonly NumberedReflection[],
  into: Area,
): { readonly marks: readonly Mark[]; readonly scale: string } {
  const { marks, at, scale, places, lines } = setPlan(desk, into);
  places.taken.push(
    ...[...numbered.map((r) => r.point), ...sittersOf(desk.input).map((sitter) => sitter.mouth)].map((p) => {
      const spot = at(p);
      return area(spot.x - 1.4, spot.y - 1.4, 2.8, 2.8);
    }),
  );
  const people = sittersOf(desk.input).flatMap((sitter) => {
    const mouth = at(sitter.mouth);
    return [
      { kind: 'circle' as const, centre: mouth, radius: 1.4, pen: 'visible' as const },
      ...wordsAt(places, mouth, sitter.title, { lines }),
    ];
  });
  const microphones = framesOf(desk.input)
    .filter((f) => f.piece.microphone)
    .flatMap((f) => {
      const spot = at(f.camera.at);
      return [
        rectangle(area(spot.x - 1.4, spot.y - 1.4, 2.8, 2.8), { pen: 'visible', fill: 'ink' }),
        ...wordsAt(places, spot, 'microphone', { lines }),
      ];
    });
  const spots = numbered.flatMap((r): readonly Mark[] => {
    const spot = at(r.point);
    const level = r.face !== 'floor' && r.face !== 'ceiling';
    return [
      { kind: 'circle', centre: spot, radius: 1.1, pen: 'visible', fill: r.met === undefined ? 'paper' : 'ink' },
      ...(level ? [] : [line(spot.x - 1.1, spot.y, spot.x + 1.1, spot.y, 'thin')]),
      ...wordsAt(places, spot, `${r.number}`, { lines, bold: true }),
    ];
  });
  return { marks: [...marks, ...people, ...microphones, ...spots], scale: scale.text };
}

function timesTable(s: SoundPlan) {
  const times = [
    { what: 'bare', of: s.before },
    { what: 'treated', of: s.after },
    { what: 'treated, by Sabine', of: s.sabineAfter },
    { what: 'treated, absorption uneven', of: s.unevenAfter },
  ];
  return tableOf<(typeof times)[number]>(
    'Reverberation, in seconds',
    [
      { head: 'Hz', cell: (t) => t.what, share: 1, bold: true },
      ...s.bands.map((f, i) => ({
        head: `${f}`,
        cell: (t: (typeof times)[number]) => seconds(t.of[i]!),
        align: 'right' as const,
      })),
    ],
    times,
  );
}

const meaning = ({ worst, target, index }: SoundPlan) =>
  wordsOf('What it means', [
    `Longest of the middle bands with nobody in the room: ${seconds(worst.before)} s bare, ${seconds(worst.after)} s treated; for teaching ${seconds(target.speech)} s is the most (ANSI/ASA S12.60), for close recording ${seconds(target.listening)} s the mark (EBU Tech 3276). Speech transmission index ${index.before.toFixed(2)} bare, ${index.after.toFixed(2)} treated: ${index.word}.`,
  ]);

const reflectionsTable = (numbered: readonly NumberedReflection[]) =>
  tableOf<NumberedReflection>(
    'First reflections at the microphone',
    [
      { head: '', cell: (r) => `${r.number}`, align: 'right', bold: true },
      { head: 'from', cell: (r) => r.from, share: 1 },
      { head: 'off', cell: (r) => r.face },
      { head: 'late, ms', cell: (r) => (1000 * r.delay).toFixed(1), align: 'right' },
      { head: 'dB', cell: (r) => r.level.toFixed(1).replace('-', '−'), align: 'right' },
      { head: 'met by', cell: (r) => r.met ?? 'nothing', most: 40 },
    ],
    numbered.slice(0, 12),
  );

function modesTold({ schroeder, fills, modes, crowded }: SoundPlan) {
  const close = crowded.map((g) => listed(g.map((m) => m.frequency.toFixed(0)))).slice(0, 3);
  const of = isBox(fills)
    ? 'Of the room as a box'
    : `The room is no box, and its own are not known; roughly, of the box round it, of which it fills ${Math.round(100 * fills)} %`;
  const first = modes.slice(0, 12).map((m) => `${m.frequency.toFixed(0)} (${m.order.join('\u00a0')})`);
  const low = close.length > 0 ? ` Close together, so that a low voice booms there: ${close.join('; ')} Hz.` : '';
  return wordsOf('Below the Schroeder frequency', [
    `Under ${Math.round(schroeder)} Hz single modes rule and the times above say little. ${of}: ${first.join(', ')} Hz.${low}`,
  ]);
}

const flutterTable = ({ letter }: Desk, { flutter }: SoundPlan) =>
  tableOf<SoundPlan['flutter'][number]>(
    'Flutter between parallel faces, at 1000 Hz',
    [
      { head: 'between', cell: (f) => f.faces, share: 1 },
      { head: 'apart', cell: (f) => letter.length(f.distance), align: 'right' },
      { head: 'a second', cell: (f) => f.rate.toFixed(0), align: 'right' },
      { head: 'bare, s', cell: (f) => seconds(f.bare), align: 'right' },
      { head: 'treated, s', cell: (f) => seconds(f.treated), align: 'right' },
    ],
    flutter,
  );

/** Heights of the chart that are tried, as shares of the sheet's. */
const CHARTS = [0.36, 0.28, 0.21] as const;

/** Every field of tiles as it is laid on its wall, the pieces to cut, and how it is hung so that the wall is not spoiled. */
function treatmentPages(desk: Desk, s: SoundPlan): readonly Draft[] {
  const walls = s.tiles.filter((t) => t.laid.length > 0);
  if (walls.length === 0) return [];
  const { body } = desk.sheet;
  const { letter } = desk;
  const first = fieldsIn(desk, walls.slice(0, FIELDS), area(body.x, body.y, body.width * 0.54, body.height));
  const drawn = first.marks;
  // what the fields leave beside them is for the words
  const edge = Math.min(body.x + body.width * 0.54, right(extentOf(drawn)!)) + 8;
  const rest = area(edge, body.y, right(body) - edge, body.height);
  const cutRows = walls.flatMap((t) =>
    t.cutting.tiles.map((c) => ({
      title: t.title,
      times: c.times,
      pieces: c.pieces.map((p) => `${letter.length(p.width)} × ${letter.length(p.height)}`).join(', '),
    })),
  );
  const backed = walls.filter(({ piece }) => piece.backing !== undefined);
  const sheet = { id: 'sound-treatment', chapter: 'Sound', title: 'Tiles as they are laid' } as const;
  const pages = pagesOf(
    desk,
    { ...sheet, ...first },
    [rest, ...freeUnder(drawn, area(body.x, body.y, edge - 8 - body.x, body.height))],
    [
      tableOf<TiledWall>(
        'Tiles to buy',
        [
          { head: 'field', cell: (t) => t.title, share: 1 },
          { head: 'whole', cell: (t) => `${t.whole}`, align: 'right' },
          { head: 'cut', cell: (t) => `${t.cut}`, align: 'right' },
          { head: 'buy', cell: (t) => `${t.buy}`, align: 'right', bold: true },
          { head: 'area', cell: (t) => letter.area(t.area * 1e6), align: 'right' },
        ],
        walls,
      ),
      tableOf<(typeof cutRows)[number]>(
        'Cut from whole tiles, with a long sharp knife',
        [
          { head: 'field', cell: (c) => c.title, most: 34 },
          { head: 'tiles', cell: (c) => `${c.times}`, align: 'right' },
          { head: 'each into', cell: (c) => c.pieces, share: 1 },
        ],
        cutRows,
      ),
      ...(backed.length === walls.length ? [] : [glueWords(backed.length > 0)]),
      ...(backed.length === 0
        ? []
        : [
            wordsOf(
              backed.length === walls.length ? 'How they go up' : 'How those on backing panels go up',
              [
                'Cut the backing panels, with their cut-outs round what is on the wall, and draw the grid on them as shown: a level line and a plumb one first, then parallels.',
                'Lay the panels flat. Dry-fit all tiles; then glue one after another from the middle out, in dabs, so that each can be pulled off later. Let the glue set as its maker says before the panels stand upright.',
                'Hang each panel by the holes of the drilling table, through the level joints between tiles; where the grid was shifted, in the nearest joint. To take it down, draw the screws: the wall keeps only their holes.',
              ],
              true,
            ),
          ]),
      tableOf<SoundPlan['cures'][number]>(
        `What else would bring ${seconds(s.target.speech)} s`,
        [
          {
            head: 'one of these',
            cell: (c) => (c.tiles === undefined ? c.what : `${c.tiles} ${c.what}`),
            share: 1,
          },
          { head: 'area', cell: (c) => letter.area(c.area * 1e6), align: 'right' },
          { head: 'cost', cell: (c) => (c.cost === undefined ? 'not known' : letter.money(c.cost)), align: 'right' },
          { head: 's', cell: (c) => seconds(c.time), align: 'right', bold: true },
          { head: 'index', cell: (c) => c.index.toFixed(2), align: 'right' },
        ],
        s.cures,
      ),
      wordsOf('Caution: fire, and loads overhead', [
        FOAM_CAUTION,
        'Nothing of this hangs over heads: a cloud under a ceiling is for somebody who answers for its fixings.',
      ]),
    ],
  );
  const more = Array.from({ length: Math.ceil(walls.length / FIELDS) - 1 }, (_, k): Draft => {
    const own = walls.slice((k + 1) * FIELDS, (k + 2) * FIELDS);
    return {
      ...sheet,
      id: `${sheet.id}-fields-${k + 2}`,
      title: `${sheet.title}, further fields`,
      ...fieldsIn(desk, own, body),
    };
  });
  return [...pages, ...more];
}

/** Fields of tiles on one sheet. */
const FIELDS = 4;
function fieldsIn(desk: Desk, walls: readonly TiledWall[], into: Area): Pick<Draft, 'marks' | 'scale'> {
  const columns = walls.length > 2 ? 2 : 1;
  const rows = Math.ceil(walls.length / columns);
  const fields = walls.map((t, k) =>
    field(
      desk,
      t,
      area(
        into.x + ((k % columns) * into.width) / columns,
        into.y + (Math.floor(k / columns) * into.height) / rows,
        into.width / columns - 4,
        into.height / rows - 4,
      ),
    ),
  );
  const [one] = fields;
  return {
    marks: fields.flatMap((f) => f.marks),
    ...(one && { scale: fields.every((f) => f.scale === one.scale) ? one.scale : 'as shown' }),
  };
}

const glueWords = (beside: boolean) =>
  wordsOf(
    beside ? 'How those without a backing panel go up' : 'How they go up',
    [
      'Clean the wall; tiles hold no better than the paint they are glued to. Draw the grid on it as shown: a level line and a plumb one first, then parallels.',
      'Dry-fit and cut all tiles; then glue one after another from the middle out, in dabs, and prop or tape each till the glue has set as its maker says.',
      'To take them down they are cut off their dabs: reckon with filling and painting the wall, or give the field a backing panel.',
    ],
    true,
  );

/** One field on its wall: backing thick, tiles thin, cut ones hatched, what they go round crossed. */
function field(desk: Desk, t: TiledWall, into: Area): { readonly marks: readonly Mark[]; readonly scale: string } {
  const own = desk.input.pieces.find((p) => p.id === t.piece.absorber);
  const { x, y, width, height } = t.field;
  const { letter } = desk;
  const met = soundOf(desk.input).reflections.flatMap((r, k) => (r.met === t.title ? [{ ...r, number: k + 1 }] : []));
  const dots = met.length === 1 ? 'Dot: first reflection' : 'Dots: first reflections';
  const told = [
    `from ${letter.length(x)} along the ${wallCalled(t.wall)}, ${letter.length(y)} above the floor`,
    ...(met.length === 0 ? [] : [`${dots} ${met.map((r) => r.number).join(', ')}, which it takes up`]),
  ].flatMap((words) => wrapText(words, 2.5, into.width));
  const head = 6 + told.length * LEADING;
  const inner = area(into.x, into.y + head, into.width, into.height - head);
  const row = t.laid.filter((tile) => Math.abs(tile.y - Math.min(...t.laid.map((l) => l.y))) < 1);
  const columnX = [...new Set(row.flatMap((tile) => [tile.x, tile.x + tile.width]))];
  const stops = [
    x,
    ...columnX
      .toSorted((a, b) => a - b)
      .filter((v) => v > x + 1 && v < x + width - 1)
      .slice(0, 1),
    x + width,
  ];
  const { place, scale, dimensions } = layView({
    u: [x, x + width],
    v: [-(y + height), -y],
    into: inner,
    letter,
    stand: 'top',
    dimensions: { below: [stops, [x, x + width]].filter((c, i) => i > 0 || c.length > 2), left: [[-(y + height), -y]] },
  });
  const on = (r: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }): Area =>
    areaOnPaper(place, [r.x, r.x + r.width], [-(r.y + r.height), -r.y]);
  const tiles = t.laid.map((tile) =>
    rectangle(on(tile), { pen: 'thin', ...(tile.cut && { hatch: 'waste' as const }) }),
  );
  const clipped = t.round.map((r) => {
    const [x0, x1] = [Math.max(r.x, x), Math.min(r.x + r.width, x + width)];
    const [y0, y1] = [Math.max(r.y, y), Math.min(r.y + r.height, y + height)];
    return { id: r.id, x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
  });
  const holes = clipped.flatMap((r): readonly Mark[] => {
    const a = on(r);
    return [
      rectangle(a, { pen: 'visible', fill: 'paper' }),
      line(a.x, a.y, a.x + a.width, a.y + a.height, 'thin'),
      line(a.x, a.y + a.height, a.x + a.width, a.y, 'thin'),
    ];
  });
  const panels = (own?.parts ?? [])
    .filter((p) => p.role === 'lining panel')
    .map((p): Mark => {
      const { min, max } = p.solid.box;
      return rectangle(on({ x: x + min.x, y: y + min.y, width: max.x - min.x, height: max.y - min.y }), {
        pen: 'outline',
      });
    });
  const reflections = met.map((r): Mark => {
    const wall = desk.input.room.walls.find((w) => w.id === t.wall)!;
    const along = Math.hypot(r.point.x - wall.frame.origin.x, r.point.z - wall.frame.origin.z);
    return { kind: 'circle', centre: onPaper(place, along, -r.point.y), radius: 1.1, fill: 'ink' };
  });
  return {
    scale: scale.text,
    marks: [
      text(into.x, into.y + 2.5, fitText(t.title, 2.5, into.width, true), { bold: true }),
      ...told.map((words, i) => text(into.x, into.y + 2.5 + (i + 1) * LEADING, words, { tone: 'faint' })),
      group(t.piece.absorber, [...tiles, ...holes, ...panels, ...reflections], t.title),
      ...dimensions,
    ],
  };
}

/** Time over the octaves, before as a dashed line, after as a full one, the mark for speech across. */
function curve(s: SoundPlan, place: Area): readonly Mark[] {
  const most = Math.ceil(Math.max(...s.before, ...s.after, s.target.speech) * 5) / 5;
  const inner = area(place.x + 9, place.y + 6, place.width - 12, place.height - 14);
  const y = (t: number): number => inner.y + inner.height * (1 - t / most);
  const x = (i: number): number => inner.x + (inner.width * i) / (s.bands.length - 1);
  const steps = Array.from({ length: Math.round(most / 0.2) + 1 }, (_, k) => k * 0.2);
  const shown = steps.filter((_, k) => k % Math.ceil(steps.length / 6) === 0);
  return [
    text(place.x, place.y + 2.5, 'Reverberation, s: bare dashed, treated thick, most for teaching dash-dot', {
      tone: 'faint',
    }),
    ...shown.flatMap((t): readonly Mark[] => [
      line(inner.x, y(t), inner.x + inner.width, y(t), 'thin', 'faint'),
      text(inner.x - 2, y(t), t.toFixed(1), { align: 'right', anchor: 'middle' }),
    ]),
    ...s.bands.map((f, i) => text(x(i), inner.y + inner.height + 5, `${f}`, { align: 'centre' })),
    polyline(
      s.before.map((t, i) => point(x(i), y(t))),
      'hidden',
    ),
    polyline(
      s.after.map((t, i) => point(x(i), y(t))),
      'outline',
    ),
    line(inner.x, y(s.target.speech), inner.x + inner.width, y(s.target.speech), 'centre'),
  ];
}

/** 90, 91 and 92; what comes out alike is told with how often: 116 twice. */
export function listed(figures: readonly string[]): string {
  const often = [...grouped(figures, (own) => own)].map(([own, { length }]) =>
    length === 1 ? own : length === 2 ? `${own} twice` : `${own} ${length} times`,
  );
  return often.length === 1 ? often[0]! : `${often.slice(0, -1).join(', ')} and ${often.at(-1)}`;
}
