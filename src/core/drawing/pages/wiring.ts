import {
  ELECTRICAL_CAUTION,
  type Joining,
  LIMITED_CABLE,
  type PowerPlan,
  powerOf,
  SEPARATION,
  type SuppliedStrips,
  type WiredStrip,
} from '../../power/index.ts';
import { roundly } from '../../quantity/index.ts';
import { area, group, LETTER, line, point, polyline, rectangle, text } from '../draw.ts';
import { fitEnds, fitText, wrapText } from '../font/measure.ts';
import { LEADING } from '../layout/table.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { type Block, fewestSheets, freeUnder, pagesOf, tableOf, wordsOf } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** A strip takes so much of the page's height at least, mm. */
const ROW = 13;
/** What it takes where there is room, and where words would need a sheet of their own, mm. */
const PITCHES = [20, 16, 14.5, ROW] as const;
/** From the top of the diagram to its first strip, under so many lines of words and a ring, mm. */
const [HEAD, KEY] = [21.5, 3];
/** Width of a supply, and of one with a long name, mm. */
const BOX = { usual: 32, wide: 46 };
/** From one line of a title to the next, mm, and what a strip takes at least whose title has two. */
const [TIGHT, TWO_LINES] = [3.8, 16];

/** Supplies, fuses, leads, plugs, strips and the data line as a diagram; what to cut and join beside it. */
export function wiringPages(desk: Desk): readonly Draft[] {
  const power = powerOf(desk.input);
  if (!power) return [];
  const { body } = desk.sheet;
  const left = area(body.x, body.y, body.width * 0.55, body.height);
  const rest = area(body.x + body.width * 0.59, body.y, body.width * 0.41, body.height);
  const top = headOf(keyOf(desk.letter, power, left.width));
  const fit = Math.max(1, Math.floor((left.height - top - 3) / ROW));
  const rows = rowsOf(power);
  const sheets = Array.from({ length: Math.ceil(rows.length / fit) }, (_, k) => rows.slice(k * fit, (k + 1) * fit));
  const drawnAt = (pitch: number): Draft => ({
    id: 'wiring',
    chapter: 'Wiring',
    title: 'Strip lights and their wiring',
    marks: diagram(desk, power, sheets[0]!, left, pitch),
  });
  const first = drawnAt(PITCHES[0]);
  const [head, ...more] = fewestSheets(
    PITCHES.map((pitch) => () => {
      const own = drawnAt(pitch);
      return pagesOf(desk, own, [rest, ...freeUnder(own.marks, left)], blocksOf(desk, power));
    }),
  );
  return [
    head!,
    ...sheets.slice(1).map(
      (own, k): Draft => ({
        ...first,
        id: `wiring-diagram-${k + 2}`,
        title: `${first.title}, more strips`,
        marks: diagram(desk, power, own, area(body.x, body.y, body.width, body.height)),
      }),
    ),
    ...more,
  ];
}

interface Row {
  readonly supply: SuppliedStrips;
  readonly strip: WiredStrip;
  /** Its place in the data line: 1 is fed by the controller. */
  readonly order: number;
}
const rowsOf = (power: PowerPlan): readonly Row[] =>
  power.supplies.flatMap((supply) =>
    supply.strips.map((id) => {
      const strip = power.strips.find((s) => s.run.id === id)!;
      const line = power.data.find((d) => d.links.some((l) => l.to === id))!;
      return { supply, strip, order: line.links.findIndex((l) => l.to === id) + 1 };
    }),
  );

/** Plus over minus from the supply through a fuse and a plug to the strip; data comes in dashed, numbered in its order. */
function diagram(
  { letter }: Desk,
  power: PowerPlan,
  rows: readonly Row[],
  into: ReturnType<typeof area>,
  most: number = PITCHES[0],
): readonly Mark[] {
  const key = keyOf(letter, power, into.width);
  const top = headOf(key);
  const pitch = Math.min(most, (into.height - top - 3) / rows.length);
  const yOf = (k: number): number => into.y + top + pitch * k;
  const linesOf = (outlet: string, width: number) => wrapText(outlet, LETTER.small, width - 4, true);
  const boxWidth = rows.some(({ supply }) => linesOf(supply.outlet, BOX.usual).length > 2) ? BOX.wide : BOX.usual;
  const [x0, x1] = [into.x + boxWidth, into.x + into.width];
  const [fuseAt, plugAt, stripAt] = [x0 + 3, x0 + 29, x0 + 38];
  const supplies = [...new Set(rows.map((r) => r.supply))].flatMap((supply): readonly Mark[] => {
    const own = rows.flatMap((r, k) => (r.supply === supply ? [k] : []));
    const [first, last] = [yOf(own[0]!), yOf(own.at(-1)!)];
    const outlet = linesOf(supply.outlet, boxWidth);
    const wanted = (LEADING * (outlet.length + 3) + 1 - (last - first)) / 2;
    const reach = Math.min(Math.max(7, wanted), pitch * 0.45);
    const box = area(into.x, first - reach, boxWidth, last - first + 2 * reach);
    const lines = Math.max(1, Math.floor((box.height - 1) / LEADING));
    // a long name leaves room for what is to be bought
    const named =
      outlet.length <= Math.max(1, lines - 1) ? outlet : [fitEnds(supply.outlet, LETTER.small, boxWidth - 4, true)];
    const words = [
      ...named,
      `${supply.volts} V, ${supply.rating === undefined ? 'too much' : `${supply.rating} A`}`,
      `${supply.current.toFixed(1)} A, ${Math.round(supply.watts)} W`,
      supply.class2 ? 'class 2' : 'not class 2',
    ];
    return [
      rectangle(box, { pen: 'outline' }),
      ...words.slice(0, lines).map((w, i) => text(box.x + 2, box.y + LEADING * (i + 1), w, { bold: i < named.length })),
    ];
  });
  const lines = rows.map(({ strip: s, order }, k): Mark => {
    const y = yOf(k);
    const body = area(stripAt, y - 2, x1 - stripAt, 4);
    const width = x1 - stripAt;
    const whole = wrapText(s.run.title, LETTER.small, width, true);
    const title =
      whole.length <= (pitch >= TWO_LINES ? 2 : 1) ? whole : [fitEnds(s.run.title, LETTER.small, width, true)];
    return group(
      s.run.strip.strip,
      [
        line(x0, y - 0.8, plugAt, y - 0.8, 'outline'),
        line(x0, y + 0.8, plugAt, y + 0.8, 'visible'),
        rectangle(area(fuseAt, y - 2, 6, 2.4), { pen: 'visible', fill: 'paper' }),
        line(fuseAt, y - 0.8, fuseAt + 6, y - 0.8, 'thin'),
        text(fuseAt, y - 3.4, s.wire?.fuse === undefined ? 'fuse by wire' : `${s.wire.fuse} A`),
        text(fuseAt + 8, y + 4.8, s.wire ? s.wire.wire.name : 'no wire'),
        // plug and socket: two half boxes that meet
        rectangle(area(plugAt, y - 2, 3, 4), { pen: 'visible', fill: 'paper' }),
        rectangle(area(plugAt + 3, y - 2, 3, 4), { pen: 'visible', fill: 'ink' }),
        line(plugAt + 6, y - 0.8, stripAt, y - 0.8, 'outline'),
        line(plugAt + 6, y + 0.8, stripAt, y + 0.8, 'visible'),
        polyline([point(plugAt + 1.5, y - 5.4), point(plugAt + 1.5, y - 2)], 'hidden'),
        { kind: 'circle', centre: point(plugAt + 1.5, y - 7), radius: 1.7, pen: 'visible' },
        text(plugAt + 1.5, y - 7, `${order}`, { align: 'centre', anchor: 'middle', bold: true }),
        rectangle(body, { pen: 'outline' }),
        ...s.feeds.boundaries.map((b): Mark => {
          const x = body.x + (body.width * b) / Math.max(1, s.pixels);
          return { kind: 'circle', centre: point(x, y), radius: 0.9, fill: 'ink' };
        }),
        ...title.map((words, i) => text(body.x, y - 3.4 - (title.length - 1 - i) * TIGHT, words, { bold: true })),
        text(
          body.x,
          y + 5.6,
          fitText(
            `${s.pixels} lights, ${s.current.toFixed(1)} A, ${s.feeds.lowest.toFixed(2)} V${s.begins === 'right' ? ', fed at the right' : ''}`,
            2.5,
            width,
          ),
        ),
      ],
      s.run.title,
    );
  });
  return [
    ...key.map((words, i) => text(into.x, into.y + 2.5 + i * LEADING, words, { tone: 'faint' })),
    ...supplies,
    ...lines,
  ];
}

const headOf = (key: readonly string[]): number => HEAD + Math.max(0, key.length - KEY) * LEADING;
/** What is said over the diagram, line by line. */
function keyOf(letter: Lettering, power: PowerPlan, width: number): readonly string[] {
  const [only, ...others] = power.data;
  const data = power.data.map((d) => `controller at ${d.outlet}`).join(', ');
  return [
    'Thick: plus. Thin: minus. Dots: where it is fed. Half black: plug and socket.',
    `Data in circles, in its order: ${data} → 1 → 2 …`,
    ...(only && others.length === 0
      ? [
          `${only.pixels} lights on it, ${only.frames.toFixed(0)} pictures a second, ${letter.length(only.links[0]!.wire)} to the first.`,
        ]
      : []),
  ].flatMap((words) => wrapText(words, LETTER.small, width));
}

function blocksOf(desk: Desk, power: PowerPlan): readonly Block[] {
  const { letter } = desk;
  // Pairs are told once: red and black are of one length.
  const cuts = [
    ...new Map(
      power.cuts.map((c) => {
        const key = `${c.wire}|${c.label}`;
        const colours = power.cuts.filter((d) => `${d.wire}|${d.label}` === key).map((d) => d.colour);
        return [key, { ...c, colours: colours.join(', ') }] as const;
      }),
    ).values(),
  ];
  const distance = SEPARATION['outside enclosures'];
  const replaced = power.strips[0]!;
  return [
    tableOf<WiredStrip>(
      'Strips to cut',
      [
        { head: 'strip', cell: (s) => s.run.title, share: 1 },
        { head: 'length', cell: (s) => letter.length(s.length), align: 'right' },
        { head: 'lights', cell: (s) => `${s.pixels}`, align: 'right' },
        { head: 'warmer by', cell: (s) => `${Math.round(s.rise)} K`, align: 'right' },
      ],
      power.strips,
    ),
    tableOf<(typeof cuts)[number]>(
      'Wires to cut',
      [
        { head: 'wire', cell: (c) => c.wire },
        { head: 'from → to', cell: (c) => c.label, share: 1 },
        { head: 'colours', cell: (c) => c.colours },
        { head: 'each', cell: (c) => letter.length(Math.ceil(c.length)), align: 'right' },
      ],
      cuts,
    ),
    tableOf<Joining>(
      'To join them',
      [
        { head: '', cell: (j) => `${j.count} ×`, align: 'right' },
        { head: 'what', cell: (j) => j.what, share: 1 },
      ],
      power.joinings,
    ),
    // a single one is told over the diagram
    tableOf<PowerPlan['data'][number]>(
      'Data lines',
      [
        { head: 'from', cell: (d) => `controller at ${d.outlet}`, share: 1 },
        { head: 'lights', cell: (d) => `${d.pixels}`, align: 'right' },
        { head: 'pictures a second', cell: (d) => d.frames.toFixed(0), align: 'right' },
        { head: 'to the first', cell: (d) => letter.length(d.links[0]!.wire), align: 'right' },
      ],
      power.data.length === 1 ? [] : power.data,
    ),
    wordsOf(
      'When one strip fails',
      [
        'Switch the supply off and draw its plug. Draw the three-pole plug of that strip, and the two-pole one that hands its data on.',
        `Lift the cover of its channel and pull the strip out towards the front; nothing else has to move. Cut the new one to the list above (${letter.length(replaced.length)} for ${replaced.run.title}).`,
        'Mind the arrow on it: data runs from the controller outwards. Solder or clamp its two plugs, push them home, try it before the cover goes on.',
      ],
      true,
    ),
    wordsOf('Before any of it: what the code asks', [
      'All minus sides that share a data line are joined; plus sides of two supplies never are.',
      `Low voltage keeps ${letter.length(roundly(distance.distance, 'at least', letter.unit))} from mains wiring outside boxes and never shares a box with it (${distance.source.title} ${distance.source.place}).`,
      `Inside a wall only cable listed for it: CL2 (${LIMITED_CABLE.volts.CL2} V) or CL3 (${LIMITED_CABLE.volts.CL3} V), or wires in a raceway. The cord of a plugged supply never; the supply stands in air, where it can be reached.`,
      'Sleeve the wires black and draw them down inside the wall or behind the case. Bore cases where no drawer or door comes; bush the edges of holes; no joint inside a wall.',
      ELECTRICAL_CAUTION,
    ]),
  ];
}
