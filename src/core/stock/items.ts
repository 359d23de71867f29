import { editDistance } from '../issue/index.ts';
import type { Note } from '../notes/index.ts';
import type { BoardStockItem, PackItem, PanelStockItem, Stock } from '../plan/index.ts';
import { inch, type Mm, parseQuantity, snap } from '../quantity/index.ts';
import { actualSize } from './data/lumber.ts';
import { MATERIAL_NAMES, type MaterialName, materialOf } from './data/materials.ts';

export const panelItem = (stock: Stock, id: string): PanelStockItem | undefined =>
  stock.panels.find((p) => p.id === id);
export const boardItem = (stock: Stock, id: string): BoardStockItem | undefined =>
  stock.boards.find((b) => b.id === id);
export const packItem = (stock: Stock, id: string): PackItem | undefined => stock.packs.find((p) => p.id === id);

/** What a stock item is called in print: its own name, else its id. */
export const stockName = (stock: Stock, id: string): string =>
  (panelItem(stock, id) ?? boardItem(stock, id) ?? packItem(stock, id))?.name ?? id;

/** What a supplier is called: by the name the stock has of it, else by its id. */
export const supplierName = (stock: Stock, id: string): string => stock.suppliers.find((s) => s.id === id)?.name ?? id;

/**
 * How long a screw or plug is, mm, by its name: what stands behind the cross of `10 × 80`, `5 × 60 mm` or `#10 × 1-1/2 in`. A bare
 * number is taken for inches up to twelve and for millimetres beyond, a decimal one for inches only behind a gauge number. Undefined where the name
 * says no length.
 */
export function fixingLength(name: string): number | undefined {
  const match = /[×x]\s*(\d+[ -]\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?)\s*(mm|cm|in|")?/.exec(name);
  if (!match) return undefined;
  const number = match[1]!;
  const whole = !/[.,]/.test(number) || /#\s*\d+\s*[×x]/.test(name);
  const inches = number.includes('/') || (whole && Number(number.replace(',', '.')) <= 12);
  const read = parseQuantity(`${number} ${match[2] ?? (inches ? 'in' : 'mm')}`, 'length');
  return read.ok ? read.value : undefined;
}

/**
 * How thick a screw or plug is, mm, by its name: what stands before the cross of `10 × 80`, `#10 × 1-1/2 in` or `1/4 in × 2 in`. A bare fraction
 * is taken for inches, any other bare number for millimetres. Undefined where the name says no thickness.
 */
export function fixingThickness(name: string): number | undefined {
  const match = /(#\s*)?(\d+\/\d+|\d+(?:[.,]\d+)?)\s*(mm|in|")?\s*[×x]\s*\d/.exec(name);
  if (!match) return undefined;
  const [, gauge, number, unit] = match;
  // screw numbers step by 0.013 in from 0.060 in: ANSI/ASME B18.6.1
  if (gauge !== undefined) return inch(0.06 + 0.013 * Number(number));
  const read = parseQuantity(`${number} ${unit ?? (number!.includes('/') ? 'in' : 'mm')}`, 'length');
  return read.ok ? read.value : undefined;
}

/** A screw may be sold a little thicker than it was reckoned, of inches for millimetres, and hardly thinner, mm. Common practice. */
const THINNER = 0.1;
const THICKER = 0.3;

/** Whether what is sold by this name is as thick as what was reckoned; a name that says no thickness is left to the maker. */
export function isAsThick(name: string, wanted: number | undefined): boolean {
  const has = fixingThickness(name);
  return has === undefined || wanted === undefined || (has > wanted - THINNER && has < wanted + THICKER);
}

export interface BoardSection {
  readonly thickness: Mm;
  readonly width: Mm;
  /** Where it comes from: measured, or the dressed size of the nominal one by PS 20. */
  readonly from: 'given' | 'nominal' | 'both';
}

/** The actual section of a board: as measured, else what its nominal size is dressed to. Undefined when neither says. */
export function boardSection(board: Pick<BoardStockItem, 'thickness' | 'width' | 'nominal'>): BoardSection | undefined {
  const dressed = board.nominal === undefined ? undefined : actualSize(board.nominal);
  const thickness = board.thickness ?? dressed?.thickness;
  const width = board.width ?? dressed?.width;
  if (thickness === undefined || width === undefined) return undefined;
  const given = Number(board.thickness !== undefined) + Number(board.width !== undefined);
  return { thickness: snap(thickness), width: snap(width), from: (['nominal', 'both', 'given'] as const)[given]! };
}

export interface Density {
  /** kg/m³ */
  readonly value: number;
  readonly from: 'given' | MaterialName;
  /** The plan's word is not the handbook's own, only near it. */
  readonly near: boolean;
}

interface Handbook {
  readonly name: MaterialName;
  readonly near: boolean;
}

/** Every part of a plan asks for one of a few materials: what was found for a word is kept. */
export function byWord<V>(find: (words: string) => V): (words: string) => V {
  const known = new Map<string, V>();
  return (words) => {
    if (!known.has(words)) {
      if (known.size >= 200) known.clear();
      known.set(words, find(words));
    }
    return known.get(words)!;
  };
}

/** The plan's word for a material, as the handbook tables know it. */
export const handbookName = byWord(lookUp);

/** Longest name first, so that plywood is not taken for fir. A slip of the pen is read as the word it is nearest to. */
function lookUp(words: string): Handbook | undefined {
  const said = (corrected(words) ?? words).toLowerCase().replaceAll('-', ' ');
  const plain = (name: string): string => name.toLowerCase().replaceAll('-', ' ');
  const exact = MATERIAL_NAMES.find((name) => plain(name) === said);
  if (exact) return { name: exact, near: false };
  // `poplar` for yellow-poplar, `red oak` for northern red oak, before `oak` alone is read: all of what is said, within one name only
  const one = (names: readonly MaterialName[]): Handbook | undefined =>
    names.length === 1 ? { name: names[0]!, near: true } : undefined;
  const longer = one(MATERIAL_NAMES.filter((name) => plain(name).includes(said)));
  if (longer) return longer;
  const nickname = NICKNAMES.find(([word]) => said.includes(word));
  if (nickname) return { name: nickname[1], near: true };
  return one(MATERIAL_NAMES.filter((name) => said.includes(plain(name))));
}
/** Words of the trade for what the tables list by another name. Common practice. */
const NICKNAMES: readonly (readonly [string, MaterialName])[] = [
  ['plywood', 'plywood'],
  ['multiplex', 'plywood'],
  ['mdf', 'MDF'],
  ['chipboard', 'particleboard'],
  ['particle', 'particleboard'],
  ['hardboard', 'hardboard'],
  ['osb', 'OSB'],
  ['blockboard', 'plywood'],
  ['spruce', 'Sitka spruce'],
  ['douglas', 'Douglas-fir (coast)'],
  ['beech', 'American beech'],
  ['walnut', 'black walnut'],
  ['cherry', 'black cherry'],
  ['ash', 'white ash'],
  ['white pine', 'eastern white pine'],
  ['pine', 'ponderosa pine'],
  ['cedar', 'western redcedar'],
  ['birch', 'yellow birch'],
  ['soft maple', 'red maple'],
  ['maple', 'sugar maple'],
  ['red oak', 'northern red oak'],
  ['oak', 'white oak'],
  ['poplar', 'yellow-poplar'],
];

/** Words that name what something is made of, long enough to be known in spite of one wrong letter. */
const nouns = (): readonly string[] => [
  ...NICKNAMES.map(([word]) => word).filter((word) => word.length >= 5),
  ...['particleboard', 'basswood', 'hickory', 'aspen', 'alder', 'redwood'],
];

/** What a material is called, with its one slip put right; undefined where there is none: plywod, but not larch, which is no slip of birch. */
export const corrected = byWord((words): string | undefined => {
  const known = nouns();
  const meant = words.replaceAll(/\p{L}{5,}/gu, (word) => {
    const said = word.toLowerCase();
    if (known.some((noun) => said.includes(noun))) return word;
    return known.find((noun) => editDistance(said, noun) === 1) ?? word;
  });
  return meant === words ? undefined : meant;
});

/** Of a panel or board: as the plan gives it, else by its kind or species from the handbook. Undefined when neither is known. */
export function densityOf(stock: Stock, id: string): Density | undefined {
  const panel = panelItem(stock, id);
  const board = panel ? undefined : boardItem(stock, id);
  const given = (panel ?? board)?.density;
  if (given !== undefined) return { value: given, from: 'given', near: false };
  const words = panel ? panel.kind : board?.species;
  const found = words === undefined ? undefined : handbookName(words);
  return found && { value: materialOf(found.name).density, from: found.name, near: found.near };
}

/** The handbook's name for what a panel or board is made of, for its stiffness. Undefined when the plan does not say or it is not listed. */
export function materialNameOf(stock: Stock, id: string): MaterialName | undefined {
  const panel = panelItem(stock, id);
  const words = panel ? panel.kind : boardItem(stock, id)?.species;
  return words === undefined ? undefined : handbookName(words)?.name;
}

/** Stock whose weight is not known, of the parts that are cut from it: then lifts and loads are too low by it. */
export const densityNotes = (stock: Stock, ids: Iterable<string>): readonly Note[] =>
  [...new Set(ids)]
    .filter((id) => (panelItem(stock, id) ?? boardItem(stock, id)) && densityOf(stock, id) === undefined)
    .map((id) => ({
      id: `no-density:${id}`,
      about: id,
      verdict: 'caution',
      title: `How heavy ${stockName(stock, id)} is, is not known: the weights leave it out`,
      advice:
        "Give its 'density' in kg/m³, or a kind or species the handbook has. Weigh an offcut: kg over length × width × thickness in m.",
    }));

/** Panels and boards whose kind or species has a slip in it, of those that are asked for: what it is taken for, and the change that says so. */
export const slipNotes = (stock: Stock, ids: Iterable<string>): readonly Note[] => {
  const used = new Set(ids);
  const lists = [
    { list: 'panels', key: 'kind', items: stock.panels.map((one) => ({ ...one, words: one.kind })) },
    { list: 'boards', key: 'species', items: stock.boards.map((one) => ({ ...one, words: one.species })) },
  ] as const;
  return lists.flatMap(({ list, key, items }) =>
    items.flatMap(({ id, words }, i): readonly Note[] => {
      const meant = words !== undefined && used.has(id) ? corrected(words) : undefined;
      if (meant === undefined) return [];
      return [
        {
          id: `slip:${id}`,
          about: id,
          verdict: 'caution',
          title: `The ${key} of ${stockName(stock, id)} is '${words}', which is taken for '${meant}'`,
          advice: 'Its weight and its strength are reckoned by that. Put it right, or give its density.',
          cure: { title: `Write '${meant}'`, edits: [{ op: 'set', path: ['stock', list, i, key], value: meant }] },
        },
      ];
    }),
  );
};

/** More than this over what is sold and an offcut was measured or written wrong, mm: sheets come a little over their size. Common practice. */
const OVERSIZE = 30;
/** Offcuts larger than the largest that their stock is sold in, of what is asked for: parts would be cut from what is not there. */
export const rackNotes = (stock: Stock, ids: Iterable<string>, told: (mm: number) => string): readonly Note[] => {
  const used = new Set(ids);
  return stock.rack.flatMap(({ id, stock: of, length, width }, i): readonly Note[] => {
    if (!used.has(of)) return [];
    const sold = [
      ...(panelItem(stock, of)?.sizes ?? []).map((size) => [size.length, size.width]),
      ...(boardItem(stock, of)?.lengths ?? []).map((size) => [size.length, 0]),
    ].map((sides) => sides.toSorted((a, b) => b - a));
    const own = [length, width ?? 0].toSorted((a, b) => b - a);
    const over = (side: number): boolean => own[side]! > Math.max(...sold.map((sides) => sides[side]!)) + OVERSIZE;
    // a board may be wider than its rips, and its width is asked elsewhere
    if (sold.length === 0 || !(over(0) || (panelItem(stock, of) && over(1)))) return [];
    const size = [length, ...(width === undefined ? [] : [width])].map(told).join(' × ');
    return [
      {
        id: `rack-size:${id ?? i}`,
        about: of,
        verdict: 'caution',
        title: `${id === undefined ? 'An offcut' : `The offcut ${id}`} of ${stockName(stock, of)} is larger than any that is sold: ${size}`,
        advice: 'Parts are cut from it in the plan. Measure it again, and mind the unit it is written in.',
      },
    ];
  });
};
