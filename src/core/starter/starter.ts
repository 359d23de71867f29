import { formatLength, inch, isInches, type LengthUnit, type Mm, mm, parseLength } from '../quantity/index.ts';

/** What a maker can say before anything is designed. */
export interface Answers {
  readonly title: string;
  readonly length: LengthUnit;
  readonly currency: string;
  /** Of the wall the set stands at. */
  readonly wall: Mm;
  readonly ceiling: Mm;
  /** How far the room goes back from that wall. */
  readonly room: Mm;
  readonly framing: Framing;
  readonly fits: readonly Need[];
}
export const FRAMINGS = ['timber stud', 'steel stud', 'masonry', 'unknown'] as const;
export type Framing = (typeof FRAMINGS)[number];
export const NEEDS = ['books', 'drawers', 'doors', 'gear', 'shelves', 'display'] as const;
export type Need = (typeof NEEDS)[number];

/**
 * The least wall, ceiling and depth of a room that a set is begun in, round in either system: less is a slip of the unit, or a cupboard.
 * Common practice.
 */
export const leastOf = (unit: LengthUnit): { readonly wall: Mm; readonly ceiling: Mm; readonly room: Mm } =>
  isInches(unit)
    ? { wall: inch(24), ceiling: inch(60), room: inch(48) }
    : { wall: mm(600), ceiling: mm(1500), room: mm(1200) };
/** The greatest, round in either system: more is a slip of the unit, or a hall. Common practice. */
export const mostOf = (unit: LengthUnit): { readonly wall: Mm; readonly ceiling: Mm; readonly room: Mm } =>
  isInches(unit)
    ? { wall: inch(160 * 12), ceiling: inch(40 * 12), room: inch(160 * 12) }
    : { wall: mm(50_000), ceiling: mm(12_000), room: mm(50_000) };

/**
 * What is taken where nobody answers, as it would be typed. What is behind a wall is not known until somebody has looked: what hangs on it
 * is not to be called safe by a guess.
 */
export const usualOf = (unit: LengthUnit) =>
  ({
    ...(isInches(unit)
      ? { wall: "12'", ceiling: "8'", room: "11'", currency: 'USD' }
      : { wall: '3.6 m', ceiling: '2.4 m', room: '3.4 m', currency: 'EUR' }),
    framing: 'unknown',
    fits: ['books', 'doors', 'drawers'],
  }) as const satisfies Partial<Record<keyof Answers, unknown>>;

/** Round sizes of either system: a low run, the longest shelf to stay straight under books in 3/4 in panels, the gap at the walls. */
const SIZES = {
  inch: {
    end: inch(2),
    widest: inch(48),
    height: inch(30),
    depth: inch(15),
    toe: inch(3.5),
    setback: inch(2.5),
    longest: inch(32),
    shelf: inch(48),
    shelfAbove: [inch(51), inch(65)],
    screen: { width: inch(43), height: inch(25), above: inch(40) },
    grid: inch(1),
  },
  metric: {
    end: mm(50),
    widest: mm(1200),
    height: mm(760),
    depth: mm(380),
    toe: mm(80),
    setback: mm(60),
    longest: mm(800),
    shelf: mm(1200),
    shelfAbove: [mm(1300), mm(1650)],
    screen: { width: mm(1100), height: mm(640), above: mm(1000) },
    grid: mm(10),
  },
} as const;

/** What each need puts into a case: one bay, or two side by side where one shelf would be too long to stay straight. */
const BAYS: Record<Need, { readonly one: string; readonly two: string } | undefined> = {
  books: {
    one: '{name: books, open: [1*, 1*]}',
    two: '{columns: [{name: books, open: [1*, 1*]}, {name: more books, open: [1*, 1*]}]}',
  },
  drawers: {
    one: '{name: small things, drawers: 3}',
    two: '{columns: [{name: small things, drawers: 3}, {name: large things, drawers: 2}]}',
  },
  doors: {
    one: '{name: put away, door: pair, shelves: 1}',
    two: '{columns: [{name: put away, door: left, shelves: 1}, {name: kept apart, door: right, shelves: 1}]}',
  },
  gear: {
    one: '{name: gear, open: true, shelves: 1}',
    two: '{columns: [{name: gear, open: true, shelves: 1}, {name: cables, open: true, shelves: 1}]}',
  },
  shelves: undefined,
  display: undefined,
};

/** What a first set is put together with, as it is usually sold, inch and metric. Common practice. */
const PACKS: readonly {
  readonly use: string;
  readonly name: readonly [string, string];
  readonly holds: readonly [string, string];
  readonly wanted: 'always' | readonly Need[];
  /** Only for a wall of this kind. */
  readonly into?: Framing;
}[] = [
  { use: 'screw', name: ['screws #8 × 1-1/4 in', 'screws 4 × 30'], holds: ['100', '200'], wanted: 'always' },
  { use: 'front screw', name: ['screws #8 × 1 in', 'screws 4 × 25'], holds: ['100', '200'], wanted: ['drawers'] },
  { use: 'brad', name: ['18 ga brads 1-1/4 in', 'brads 1.2 × 30'], holds: ['1000', '1000'], wanted: 'always' },
  { use: 'glue', name: ['wood glue', 'wood glue'], holds: ['16 fl oz', '500 ml'], wanted: 'always' },
  { use: 'drawer slide', name: ['drawer slides', 'drawer slides'], holds: ['1', '1'], wanted: ['drawers'] },
  { use: 'hinge', name: ['concealed hinges', 'concealed hinges'], holds: ['2', '2'], wanted: ['doors'] },
  { use: 'shelf pin', name: ['shelf pins 5 mm', 'shelf pins 5 mm'], holds: ['24', '20'], wanted: ['doors', 'gear'] },
  { use: 'rod', name: ['steel rod 1/2 in', 'steel rod 12 mm'], holds: ['36 in', '1 m'], wanted: ['shelves'] },
  {
    use: 'connector bolt',
    name: ['connector bolts 1-1/4 in', 'connector bolts 30 mm'],
    holds: ['10', '10'],
    wanted: 'always',
  },
  { use: 'wall plate', name: ['wall plate for rods', 'wall plate for rods'], holds: ['1', '1'], wanted: ['shelves'] },
  { use: 'mount', name: ['fixed display mount', 'fixed display mount'], holds: ['1', '1'], wanted: ['display'] },
  {
    use: 'wood screw',
    name: ['wood screws #12 × 3 in', 'wood screws 5 × 80'],
    holds: ['25', '50'],
    wanted: 'always',
    into: 'timber stud',
  },
  {
    use: 'lag screw',
    name: ['lag screws 1/4 × 3 in', 'lag screws 6 × 80'],
    holds: ['25', '50'],
    wanted: ['shelves', 'display'],
    into: 'timber stud',
  },
  {
    use: 'self-drilling screw',
    name: ['self-drilling screws #10 × 1-1/2 in', 'self-drilling screws 4.8 × 38'],
    holds: ['50', '50'],
    wanted: 'always',
    into: 'steel stud',
  },
  {
    use: 'plug',
    name: ['frame plugs 3/8 in with screw', 'frame plugs 10 mm with screw'],
    holds: ['25', '25'],
    wanted: 'always',
    into: 'masonry',
  },
];

/**
 * A commented plan to start from: a plain room, a low run of cases along the wall, and what was asked for above it.
 * Everything in it is there to be changed; prices are left out, so that the notes ask for them. `schema` is the way from the file
 * to the schema, for the editor it is opened in.
 */
export function starterPlan(answers: Answers, schema = '../schema/plan.schema.json'): string {
  const set = settled(answers);
  const { measured, of } = set;
  return `# yaml-language-server: $schema=${schema}
# A plan for Setwright. Lengths may be written any way: 3' 4-1/2", 40 1/2", 1029 mm, 1.03 m.
# \`setwright check\` reads it, \`setwright packet\` draws it, prices it and writes what to buy, cut and build.
setwright: 1
title: ${JSON.stringify(answers.title)}
units: {length: ${answers.length}, currency: ${answers.currency}}

room: # as measured, on the inside, clockwise seen from above; walls are known from inside, left to right
  ceiling: ${measured(answers.ceiling)}
  walls:
    - id: set
      length: ${measured(answers.wall)}
      framing: ${framingText(set)} # at: [ … ] for studs you have found
    - {id: right, length: ${measured(answers.room)}}
    - {id: rear, length: ${measured(answers.wall)}}
    - {id: left, length: ${measured(answers.room)}}
  openings: [] # - {wall: rear, kind: door, from: …, width: …, height: …, hinge: left, swing: in}
  services: [] # - {wall: set, kind: outlet, at: …, height: …}

stock: # what you can buy. Give each a price, a supplier and the date of the price, and the bill is complete.
  tax: 0
  suppliers: []
  panels:
${panelText(set, 'panel', of(inch(0.703), mm(18)), of('3/4', '18 mm'))}
${panelText(set, 'drawer panel', of(inch(0.472), mm(12)), of('1/2', '12 mm'))}
${panelText(set, 'thin panel', of(inch(0.205), mm(6)), of('1/4', '6 mm'))}
  boards: []
${packsText(set)}
  rack: [] # offcuts you own: - {stock: panel, length: …, width: …}

shop:
  kerf: ${measured(of(inch(0.125), mm(3.2)))}
  hands: 1

make: # how cases are made unless one says otherwise
  panel: panel
  front: panel
  joint: butt # or rabbet, dado
  back: {kind: applied, panel: thin panel} # or rabbeted, grooved, none
  style: overlay # or inset
  drawer: {panel: drawer panel, bottom: thin panel}

options: # design it twice; \`setwright compare\` shows what each costs
  - id: first
    pieces:
${[...casesText(set), ...aboveText(set)].join('\n')}
`;
}

type Sizes = (typeof SIZES)['inch' | 'metric'];

/** The answers, and what follows from them for every part of the text. */
interface Settled {
  readonly answers: Answers;
  readonly size: Sizes;
  /** Between studs, where the wall has them. */
  readonly spacing: Mm | undefined;
  /** Of the two systems of units, what belongs to the plan's own. */
  readonly of: <T>(imperial: T, metric: T) => T;
  readonly say: (length: number) => string;
  /** What was answered stands there as it was measured: in millimetres where the plan's own grid is too coarse. */
  readonly measured: (length: number) => string;
}
function settled(answers: Answers): Settled {
  const imperial = isInches(answers.length);
  const of: Settled['of'] = (inches, metric) => (imperial ? inches : metric);
  const plain = (length: number) => formatLength(length, { unit: answers.length });
  return {
    answers,
    size: of<Sizes>(SIZES.inch, SIZES.metric),
    spacing: answers.framing.endsWith('stud') ? of(inch(16), mm(600)) : undefined,
    of,
    say: (length) => quoted(plain(length)),
    measured: (length) => {
      const back = parseLength(plain(length), { unit: answers.length });
      return quoted(back.ok && back.value === length ? plain(length) : `${Number(length.toFixed(4))} mm`);
    },
  };
}

const framingText = ({ answers: { framing }, spacing, say, measured, of }: Settled): string =>
  spacing === undefined
    ? `{kind: ${framing}}`
    : `{kind: ${framing}, spacing: ${say(spacing)}, board: ${measured(of(inch(0.5), mm(12.5)))}}`;

function panelText({ say, of }: Settled, id: string, thickness: Mm, nominal: string): string {
  // as a gauge shows it: rounded to a fraction it would be another thickness, and every part another length
  const gauge = of(quoted(formatLength(thickness, { unit: 'in', decimals: 3 })), say(thickness));
  return [
    `    - id: ${id}`,
    '      kind: birch plywood',
    `      nominal: ${nominal}`,
    `      thickness: ${gauge} # measure the sheet: it is rarely what it is called`,
    `      sizes: [{length: ${say(of(inch(96), mm(2500)))}, width: ${say(of(inch(48), mm(1250)))}}] # add price, supplier, date`,
  ].join('\n');
}

function packsText({ answers: { fits, framing }, of }: Settled): string {
  const lines = PACKS.filter(
    ({ wanted, into = framing }) =>
      into === framing && (wanted === 'always' || wanted.some((need) => fits.includes(need))),
  ).map(
    ({ use, name, holds }) =>
      `    - {id: ${use}, use: ${use}, name: "${of(...name)}", holds: ${of(...holds)}} # add price, supplier, date`,
  );
  return ['  packs: # sold by count, length or amount; what one holds decides how many to buy', ...lines].join('\n');
}

/** The low run: cases of one width side by side, with what must fit in turn. */
function casesText({ answers, size, say }: Settled): readonly string[] {
  const run = answers.wall - 2 * size.end;
  const count = Math.max(1, Math.ceil(run / size.widest));
  const width = Math.floor(run / count / size.grid) * size.grid;
  const many = width > size.longest ? 'two' : 'one';
  const bays = answers.fits.flatMap((need) => BAYS[need]?.[many] ?? []);
  if (bays.length === 0) bays.push(BAYS.books![many]);
  return Array.from({ length: count }, (_, i) =>
    [
      `      - case: case ${i + 1}`,
      '        wall: set',
      i === 0 ? `        from: ${say(size.end)}` : `        after: case ${i}`,
      `        size: {width: ${say(width)}, height: ${say(size.height)}, depth: ${say(size.depth)}}`,
      `        toe: {height: ${say(size.toe)}, setback: ${say(size.setback)}}`,
      `        inside: ${bays[i % bays.length]}`,
    ].join('\n'),
  );
}

/** What was asked for above the run; in a comment, why it is not there. */
function aboveText(set: Settled): readonly string[] {
  const { fits } = set.answers;
  const screen = screenOn(set);
  const shelves = shelvesOn(set, screen?.from ?? set.answers.wall - set.size.end);
  const texts = shelves.above.map((above, i) => shelfText(set, shelves, i, above));
  if (fits.includes('shelves') && texts.length === 0)
    texts.push('      # no floating shelf yet: two studs to hold one are not to be had beside the rest on this wall');
  if (screen) texts.push(screenText(set, screen));
  else if (fits.includes('display'))
    texts.push('      # no screen yet: on this wall there is no stud behind it to hold its mount');
  return texts;
}

const shelfText = (
  { say, of }: Settled,
  { from, width }: { readonly from: number; readonly width: number },
  i: number,
  above: number,
): string =>
  [
    `      - shelf: shelf ${i + 1}`,
    '        wall: set',
    `        from: ${say(from)}`,
    `        above: ${say(above)}`,
    `        size: {width: ${say(width)}, height: ${say(of(inch(2.25), mm(60)))}, depth: ${say(of(inch(8), mm(200)))}}`,
    '        skin: thin panel',
    '        core: panel',
    `        load: ${of('10 lb', '5 kg')} # what will stand on it`,
  ].join('\n');

interface Screen {
  readonly width: number;
  readonly height: number;
  readonly centre: number;
  readonly above: number;
  readonly from: number;
}
const screenText = ({ say, of }: Settled, { width, height, centre, above }: Screen): string =>
  [
    '      - display: screen',
    '        wall: set',
    `        centre: ${say(centre)}`,
    `        above: ${say(above)}`,
    `        out: ${say(of(inch(2), mm(50)))}`,
    `        size: {width: ${say(width)}, height: ${say(height)}, depth: ${say(of(inch(2.5), mm(60)))}} # measure yours`,
    `        mass: ${of('30 lb', '14 kg')} # see its manual`,
    '        mount: {kind: fixed}',
  ].join('\n');

/** The screen before the stud nearest the middle of the wall, or right of the shelves where there is room for both. */
function screenOn({ answers: { fits, wall, ceiling }, size, spacing }: Settled): Screen | undefined {
  if (!fits.includes('display')) return undefined;
  const width = Math.min(size.screen.width, Math.floor((wall - 2 * size.end) / size.grid) * size.grid);
  const height = Math.round((width * size.screen.height) / size.screen.width / size.grid) * size.grid;
  const [least, most] = [size.end + width / 2, wall - size.end - width / 2];
  const aside = fits.includes('shelves') && wall > size.shelf + width + 4 * size.end ? most : wall / 2;
  const stud = spacing && Math.floor(Math.min(aside, most) / spacing) * spacing;
  if (stud !== undefined && stud < least) return undefined;
  const centre = stud ?? aside;
  const above = Math.min(size.screen.above, Math.floor((ceiling - height - size.end) / size.grid) * size.grid);
  return { width, height, centre, above, from: centre - width / 2 };
}

/** Floating shelves left of `until`, long enough for two studs and as far beyond each as a half of their spacing. */
function shelvesOn({ answers: { fits, ceiling }, size, spacing }: Settled, until: number) {
  const from = spacing === undefined ? size.end : spacing / 2;
  const width = Math.min(size.shelf, Math.floor((until - size.end - from) / size.grid) * size.grid);
  const fit = fits.includes('shelves') && width >= (spacing === undefined ? size.shelf / 3 : 2 * spacing);
  const above = fit ? size.shelfAbove.filter((height) => height + 2 * size.end <= ceiling) : [];
  return { from, width, above };
}

/** A length as YAML text: inch marks need quotes. */
const quoted = (text: string): string => (/^[\w.]+$/.test(text) ? text : `'${text.replaceAll("'", "''")}'`);
