import fc from 'fast-check';
import type { Note } from '../../notes/index.ts';
import { readPlan } from '../../plan/index.ts';
import type { PacketInput } from '../input.ts';
import type { PaperName } from '../marks.ts';
import { inputOf } from '../packet.testing.ts';
import { LABEL_SHEETS } from './labels.ts';

/**
 * Whole rooms never seen: four walls or an L, up to nine pieces of every kind with names short, long and strange, units of either
 * system, and notes as wordy as they come.
 */
const words = fc.constantFrom(
  'Scores',
  'low',
  'run',
  'under the window',
  'Schallplattenaufbewahrung',
  'bookcase',
  'Ærø',
  'mit Sockel',
  'x',
  'of bay 2.1',
  '½',
  'No. 7',
);
const anyTitle = fc.array(words, { minLength: 1, maxLength: 7 }).map((w) => w.join(' ').slice(0, 80).trim());
const mm = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: least * 10, max: most * 10 }).map((n) => n / 10);

const anyInside = fc.constantFrom(
  { open: true },
  { open: [1, 2, 1].map((n) => `${n}*`) },
  { door: 'left', shelves: 2 },
  { door: 'pair', shelves: 1 },
  { drawers: 3 },
  { columns: [{ open: true }, { width: 300, drawers: 2 }, { door: 'right' }] },
  { rows: [{ height: 150, open: true }, { columns: [{ open: true, shelves: 1 }, { drawers: 2 }] }] },
);
const anyPiece = (wall: string) =>
  fc.oneof(
    fc.record({
      kind: fc.constant('case'),
      wall: fc.constant(wall),
      from: mm(0, 3000),
      size: fc.record({ width: mm(300, 1800), height: mm(250, 2100), depth: mm(200, 600) }),
      inside: anyInside,
      toe: fc.option(fc.constant({ height: 90, setback: 60 }), { nil: undefined }),
    }),
    fc.record({
      kind: fc.constant('shelf'),
      wall: fc.constant(wall),
      from: mm(0, 3000),
      above: mm(900, 1900),
      size: fc.record({ width: mm(300, 1500), height: mm(45, 80), depth: mm(180, 300) }),
      rods: fc.constant({ diameter: 12, length: 150 }),
      play: fc.constant(20),
      skin: fc.constant('ply 6'),
      core: fc.constant('ply 18'),
    }),
    fc.record({
      kind: fc.constant('lining'),
      wall: fc.constant(wall),
      from: mm(0, 2500),
      above: mm(0, 1000),
      size: fc.record({ width: mm(200, 2400), height: mm(200, 1400) }),
      panel: fc.constantFrom('ply 6', 'fibre 19'),
    }),
    fc.record({
      kind: fc.constant('display'),
      wall: fc.constant(wall),
      from: mm(0, 2500),
      above: mm(900, 1500),
      size: fc.record({ width: mm(400, 1500), height: mm(300, 900), depth: mm(20, 90) }),
      mass: mm(2, 40),
      out: fc.constant(60),
    }),
    fc.record({
      kind: fc.constant('thing'),
      at: fc.record({ x: mm(100, 3500), y: mm(100, 2500) }),
      size: fc.record({ width: mm(50, 2000), height: mm(50, 1900), depth: mm(50, 1200) }),
    }),
  );

const UNITS = [
  { length: 'mm', decimals: 1 },
  { length: 'cm', decimals: 2 },
  { length: 'm' },
  { length: 'in', fraction: '1/16' },
  { length: 'ft-in', fraction: '1/32' },
  { length: 'ft-in', fraction: '1/64' },
];
const WALLS = {
  rectangle: (w: number, d: number) => [
    { id: 'north', length: w },
    { id: 'east', length: d },
    { id: 'south', length: w },
    { id: 'west', length: d },
  ],
  // clockwise seen from above, the notch at the south east
  ell: (w: number, d: number) => [
    { id: 'north', length: w },
    { id: 'east', length: d * 0.6 },
    { id: 'notch south', length: w * 0.4 },
    { id: 'notch east', length: d * 0.4, corner: 270 },
    { id: 'south', length: w * 0.6 },
    { id: 'west', length: d },
  ],
};

const anyNotes = fc.array(
  fc.record({
    verdict: fc.constantFrom('stop' as const, 'caution' as const, 'fine' as const),
    title: anyTitle,
    advice: fc.array(anyTitle, { maxLength: 8 }).map((t) => t.join('. ')),
    at: fc.option(fc.record({ x: mm(0, 4000), y: mm(0, 2300), z: mm(0, 3000) }), { nil: undefined }),
    piece: fc.nat(8),
  }),
  { maxLength: 24 },
);

const sizes = [
  { length: '2500 mm', width: '1250 mm', price: 61.5, date: '2026-11-01' },
  { length: '1525 mm', width: '1525 mm', price: 48.9, date: '2026-11-01' },
];
const STOCK = {
  panels: [
    { id: 'ply 18', kind: 'birch plywood', thickness: '17.7 mm', sizes },
    { id: 'ply 6', kind: 'birch plywood', thickness: '6.4 mm', sizes },
    { id: 'fibre 19', kind: 'MDF', thickness: '19 mm', grain: 'none', sizes: sizes.slice(0, 1) },
  ],
  rack: [
    { id: 'rest of the long shelf', stock: 'ply 18', length: '900 mm', width: '610 mm', where: 'behind the door' },
  ],
};
const MAKE = {
  panel: 'ply 18',
  joint: 'dado',
  let: '6 mm',
  back: { kind: 'rabbeted', panel: 'ply 6' },
  front: 'fibre 19',
  style: 'inset',
  gap: '2 mm',
  drawer: {
    panel: 'ply 18',
    bottom: 'ply 6',
    side: '13 mm',
    above: '12 mm',
    below: '10 mm',
    rear: '20 mm',
    slides: ['250 mm', '300 mm', '400 mm'],
  },
};
const SHOP = { kerf: '3.2 mm', trim: '10 mm', lift: '20 kg' };

export interface Room {
  readonly input: PacketInput;
  readonly paper: PaperName;
  readonly labels: string | undefined;
}

export const anyRoom: fc.Arbitrary<() => Room> = fc
  .record({
    shape: fc.constantFrom('rectangle' as const, 'ell' as const),
    width: mm(2200, 6500),
    depth: mm(2000, 5000),
    ceiling: mm(2200, 3100),
    units: fc.constantFrom(...UNITS),
    title: anyTitle,
    remark: fc.option(
      fc.array(anyTitle, { maxLength: 14 }).map((t) => t.join(', ')),
      { nil: undefined },
    ),
    pieces: fc.array(fc.tuple(fc.constantFrom('north', 'east', 'south', 'west').chain(anyPiece), anyTitle), {
      minLength: 1,
      maxLength: 9,
    }),
    notes: anyNotes,
    others: fc.nat(4),
    astray: fc.subarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { maxLength: 2 }),
    paper: fc.constantFrom<PaperName>('A4', 'A3', 'Letter', 'Tabloid'),
    labels: fc.option(fc.constantFrom(...Object.keys(LABEL_SHEETS)), { nil: undefined }),
  })
  .map((drawn) => () => {
    const { shape, width, depth, ceiling, units, title, remark, pieces, notes, others, astray, paper, labels } = drawn;
    const walls = WALLS[shape](width, depth);
    // most pieces stand on their wall and in the room; what sticks out is told by the notes, and drawn where the plan has it
    const fitted = pieces.map(([piece, name], i) => {
      if (astray.includes(i)) return [piece, name] as const;
      if ('at' in piece) {
        const [x, y] = [Math.min(piece.at.x, width / 2), Math.min(piece.at.y, depth / 2)];
        const own = { width: Math.min(piece.size.width, width / 2), depth: Math.min(piece.size.depth, depth / 2) };
        return [{ ...piece, at: { x, y }, size: { ...piece.size, ...own } }, name] as const;
      }
      const { length } = walls.find((w) => w.id === piece.wall)!;
      const wide = Math.min(piece.size.width, length - 20);
      const from = Math.min(piece.from, Math.max(0, length - wide - 10));
      return [{ ...piece, from, size: { ...piece.size, width: wide } }, name] as const;
    });
    const text = JSON.stringify({
      setwright: 1,
      title,
      ...(remark && { remark }),
      units: { ...units, currency: 'EUR' },
      stock: STOCK,
      make: MAKE,
      shop: SHOP,
      room: {
        ceiling: `${ceiling} mm`,
        walls: walls.map((w) => ({ ...w, length: `${Math.round(w.length)} mm` })),
      },
      options: [
        {
          id: 'one',
          title,
          pieces: fitted.map(([{ kind, ...rest }, name], i) => ({ [kind]: `p${i}`, title: name, ...spelt(rest) })),
        },
      ],
    });
    const { plan: read, issues } = readPlan(text);
    if (!read) throw new Error(JSON.stringify(issues.slice(0, 3)));
    const input = inputOf(read, read.options[0]!);
    const placed = input.pieces;
    const added = notes.map(({ piece, at, ...note }, i): Note => {
      const about = placed[piece % Math.max(1, placed.length)]?.id ?? 'room';
      return { id: `n${i}`, about, ...note, ...(at && { at }) };
    });
    const tally = input.tally;
    return {
      input: {
        ...input,
        notes: [...input.notes, ...added],
        others: Array.from({ length: others }, (_, i) => ({ title: `${title} ${i}`, tally })),
      },
      paper,
      labels,
    };
  });

/** Bare numbers are millimetres, whatever the plan's own unit. */
function spelt(value: unknown, key = ''): Record<string, unknown> {
  const said = (v: unknown, k: string): unknown =>
    typeof v === 'number' && !['shelves', 'drawers', 'mass'].includes(k)
      ? `${v} mm`
      : typeof v === 'number' && k === 'mass'
        ? `${v} kg`
        : Array.isArray(v)
          ? v.map((e) => said(e, k))
          : typeof v === 'object' && v !== null
            ? Object.fromEntries(
                Object.entries(v)
                  .filter(([, e]) => e !== undefined)
                  .map(([n, e]) => [n, said(e, n)]),
              )
            : v;
  return said(value, key) as Record<string, unknown>;
}
