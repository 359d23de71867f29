import { type Edit, lookUp, type Path, type PlainValue } from '../core/plan/index.ts';

/** Dividing bays and putting doors, drawers and shelves into them, as edits of the plan. */

type Fields = { readonly [key: string]: PlainValue };
const isFields = (value: PlainValue | undefined): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export type Fill =
  | { readonly kind: 'open'; readonly shelves: number; readonly fixed: number }
  | {
      readonly kind: 'door';
      readonly door: 'left' | 'right' | 'pair' | 'up' | 'down';
      readonly shelves: number;
    }
  | { readonly kind: 'drawers'; readonly drawers: number };

/**
 * Where a bay is written: `scores/bay-1-2` is the second of the first of what the inside is divided into. Rows of an open bay are
 * told apart by `open` in the path.
 */
export function bayPath(plain: PlainValue, piecePath: Path, bay: string): Path | undefined {
  const numbers = /\/bay-([\d-]+)$/.exec(bay)?.[1]?.split('-').map(Number);
  const inside = [...piecePath, 'inside'];
  if (!numbers) return bay.endsWith('/inside') ? inside : undefined;
  let path: Path = inside;
  for (const [level, number] of numbers.entries()) {
    const here = lookUp(plain, path);
    const key = isFields(here) ? DIVISIONS.find((k) => Array.isArray(here[k])) : undefined;
    if (key === undefined) return level === 0 && number === 1 && numbers.length === 1 ? inside : undefined;
    path = [...path, key, number - 1];
    if (key === 'open') break;
  }
  return path;
}
const DIVISIONS = ['columns', 'rows', 'open'] as const;

/** The bay as a map of its own, with the edits that make it one: an open bay's row is only a length until then. */
function ownBay(
  plain: PlainValue,
  path: Path,
): { readonly before: readonly Edit[]; readonly path: Path; readonly bay: Fields } {
  const here = lookUp(plain, path);
  if (path.at(-2) === 'open') {
    const parentPath = path.slice(0, -2);
    const { open, ...rest } = lookUp(plain, parentPath) as Fields;
    const rows = (open as readonly PlainValue[]).map((height): PlainValue => ({ height, open: true }));
    const row = path.at(-1) as number;
    return {
      before: [{ op: 'set', path: parentPath, value: { ...rest, rows } }],
      path: [...parentPath, 'rows', row],
      bay: rows[row] as Fields,
    };
  }
  return { before: [], path, bay: isFields(here) ? here : {} };
}

const kept = ({ name, width, height }: Fields): Fields => ({
  ...(name !== undefined && { name }),
  ...(width !== undefined && { width }),
  ...(height !== undefined && { height }),
});

/** What else was said of a bay, as far as it still means something: the gear in it, its vents, how its fronts sit. */
const stays = ({ heat, vent, style }: Fields, { kind }: Fill): Fields => ({
  ...(heat !== undefined && { heat }),
  ...(vent !== undefined && (kind === 'door' || (kind === 'open' && !isInDoor(vent))) && { vent }),
  ...(style !== undefined && kind !== 'open' && { style }),
});
const isInDoor = (vent: PlainValue): boolean => lookUp(vent, ['in']) === 'door';

/**
 * Puts something else into a bay; its name, size and gear stay, and what is behind a door that only opens otherwise. A divided bay that gets
 * a door keeps its divisions behind it.
 */
export function fillEdits(plain: PlainValue, path: Path, fill: Fill): readonly Edit[] {
  const { before, path: at, bay } = ownBay(plain, path);
  const divided = bay.columns !== undefined || bay.rows !== undefined;
  const content: Fields =
    fill.kind === 'drawers'
      ? { drawers: fill.drawers }
      : fill.kind === 'door'
        ? divided
          ? { ...bay, door: fill.door }
          : { ...fixedShelves(bay, fixedIn(bay), fill.shelves), door: fill.door, ...looseShelves(bay, fill.shelves) }
        : {
            ...(fill.fixed > 0 ? fixedShelves(bay, fill.fixed, fill.shelves) : { open: true }),
            ...looseShelves(bay, fill.shelves),
          };
  return [...before, { op: 'set', path: at, value: { ...kept(bay), ...stays(bay, fill), ...content } }];
}

const countOf = (value: PlainValue | undefined): number =>
  typeof value === 'number' ? value : Array.isArray(value) ? value.length : 0;
/** Fixed shelves that a bay has, told by themselves or by the open rows between them. */
export function fixedIn(bay: PlainValue | undefined): number {
  const { open, fixed } = isFields(bay) ? bay : {};
  return Array.isArray(open) ? open.length - 1 : countOf(fixed);
}
/** Whether its fixed shelves are told by the heights of the rows between them: loose ones then lie in one of these. */
export const isOpenInRows = (bay: PlainValue | undefined): boolean => isFields(bay) && Array.isArray(bay.open);

const isShare = (size: PlainValue): boolean => `${size}`.endsWith('*');
/** So many fixed shelves, at the heights that were said of them as far as they were. */
function fixedShelves(bay: Fields, fixed: number, loose: number): Fields {
  if (fixed === 0) return {};
  if (!Array.isArray(bay.open) || loose > 0) return { fixed: countOf(bay.fixed) === fixed ? bay.fixed! : fixed };
  const rows = [...(bay.open as readonly PlainValue[]), ...Array<PlainValue>(fixed).fill('1*')].slice(0, fixed + 1);
  return { open: rows.some(isShare) ? rows : rows.with(-1, '1*') };
}
const looseShelves = ({ shelves }: Fields, loose: number): Fields =>
  loose === 0 ? {} : { shelves: countOf(shelves) === loose ? shelves! : loose };

/** Divides a bay into so many columns or rows; what was in it stays in the first. Of a column among columns, it makes more columns. */
export function divideEdits(plain: PlainValue, path: Path, into: 'columns' | 'rows', count: number): readonly Edit[] {
  const { before, path: at, bay } = ownBay(plain, path);
  const more = Array.from({ length: count - 1 }, (): PlainValue => ({ open: true }));
  if (at.at(-2) === into) {
    const list = at.slice(0, -1);
    const index = at.at(-1) as number;
    const { width, height, ...rest } = bay;
    return [
      ...before,
      { op: 'set', path: at, value: rest },
      ...more.map((value, i): Edit => ({ op: 'insert', path: [...list, index + 1 + i], value })),
    ];
  }
  const { name, width, height, door, ...rest } = bay;
  const content = Object.keys(rest).length > 0 ? rest : { open: true };
  const first: PlainValue = 'fixed' in content || 'shelves' in content ? { ...content } : content;
  return [
    ...before,
    {
      op: 'set',
      path: at,
      value: { ...kept(bay), ...(door !== undefined && { door }), [into]: [first, ...more] },
    },
  ];
}

/** Takes a bay out of its row; the last one but one leaves its neighbour undivided. */
export function dropEdits(plain: PlainValue, path: Path): readonly Edit[] {
  const { before, path: at } = ownBay(plain, path);
  const key = at.at(-2);
  if (key !== 'columns' && key !== 'rows') return [{ op: 'set', path: at, value: { open: true } }];
  const parentPath = at.slice(0, -2);
  const whole = before[0]?.op === 'set' ? before[0].value : lookUp(plain, parentPath);
  const { [key]: list, ...parent } = whole as Fields;
  const index = at.at(-1) as number;
  const left = (list as readonly Fields[]).filter((_, i) => i !== index);
  if (left.length < 2) {
    const { width, height, name, ...other } = left[0] ?? { open: true };
    return [
      {
        op: 'set',
        path: parentPath,
        value: behindDoor({ ...parent, ...other, ...(parent.door !== undefined && { door: parent.door }) }),
      },
    ];
  }
  const size = key === 'columns' ? 'width' : 'height';
  const isShare = (bay: Fields): boolean => bay[size] === undefined || `${bay[size]}`.endsWith('*');
  if (left.some(isShare)) return [...before, { op: 'remove', path: at }];
  // what it leaves free goes to its neighbour: of sizes alone, some would be left over
  const next = Math.min(index, left.length - 1);
  const { [size]: _, ...wider } = left[next]!;
  return [{ op: 'set', path: parentPath, value: { ...parent, [key]: left.with(next, wider) } }];
}

/** Makes a divided bay one again: what it was divided into goes, its door, size and name stay. */
export function joinEdits(plain: PlainValue, path: Path): readonly Edit[] {
  const { before, path: at, bay } = ownBay(plain, path);
  const { columns, rows, ...rest } = bay;
  return [...before, { op: 'set', path: at, value: behindDoor({ ...rest, open: true }) }];
}
/** A bay with a door is not open as well. */
function behindDoor(bay: Fields): Fields {
  const { open, ...rest } = bay;
  return open === true && bay.door !== undefined ? rest : bay;
}

/** How a bay is called where there are several: `1.2` is the second of the first. */
export const bayNumber = (id: string): string => /\/bay-([\d-]+)$/.exec(id)?.[1]?.replaceAll('-', '.') ?? '';
/** The bay that one lies in; undefined for the whole inside. */
export function bayAround(id: string): string | undefined {
  const match = /^(.*)\/bay-([\d-]+)$/.exec(id);
  if (!match) return undefined;
  const outer = match[2]!.split('-').slice(0, -1).join('-');
  return outer === '' ? `${match[1]}/inside` : `${match[1]}/bay-${outer}`;
}

/** What a bay holds, for the form that changes it. */
export function fillOf(bay: PlainValue | undefined): { readonly fill: Fill; readonly divided: boolean } {
  const fields = isFields(bay) ? bay : {};
  const divided = fields.columns !== undefined || fields.rows !== undefined;
  const { door } = fields;
  if (fields.drawers !== undefined) return { divided, fill: { kind: 'drawers', drawers: countOf(fields.drawers) } };
  if (typeof door === 'string')
    return { divided, fill: { kind: 'door', door: door as 'left', shelves: countOf(fields.shelves) } };
  return { divided, fill: { kind: 'open', shelves: countOf(fields.shelves), fixed: fixedIn(fields) } };
}
