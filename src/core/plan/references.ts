import { type Issue, nearest } from '../issue/index.ts';
import type { Path } from './document.ts';
import { PIECE_KINDS } from './schema/plan.ts';

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const fields = (value: unknown): Fields => (isFields(value) ? value : {});
const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
/** A name as text, since a bare number in the file is a name too. */
const name = (value: unknown): string | undefined =>
  typeof value === 'string' ? value : typeof value === 'number' ? String(value) : undefined;

/** Names that were declared, and what they are called together. */
interface Names {
  readonly what: string;
  readonly all: ReadonlySet<string>;
}

/**
 * Names that do not lead anywhere, and names given twice. Works on the document as written, so that a fault elsewhere in it does
 * not hide these; whatever has the wrong shape is passed over, since the schema speaks about it.
 */
export function checkReferences(document: unknown): readonly Issue[] {
  const plan = fields(document);
  const names = namesIn();
  const ofRoom = checkRoom(fields(plan.room), names);
  const ofStock = checkStock(fields(plan.stock), names);
  names.followAll(plan.make, ['make'], OF_MAKE, ofStock);
  names.follow(plan.build, ['build'], names.declare('option', [plan.options, ['options']]));
  list(plan.options).forEach((option, i) => {
    checkOption(fields(option), ['options', i], { ...ofRoom, ...ofStock }, names);
  });
  return names.issues;
}

/** Collects what is wrong with the names of one document. */
function namesIn() {
  const issues: Issue[] = [];
  /** What has a name of its own in these lists: told where one is given again. */
  const declare = (what: string, ...groups: readonly (readonly [unknown, Path])[]): Names => {
    const first = new Set<string>();
    for (const [items, path] of groups)
      list(items).forEach((item, i) => {
        const id = name(fields(item).id);
        if (id === undefined) return;
        if (first.has(id)) issues.push(twice([...path, i, 'id'], id, what));
        first.add(id);
      });
    return { what, all: first };
  };
  const leads = (id: string | undefined, names: Names, none?: string): boolean =>
    id === undefined || id === none || names.all.has(id);
  const follow = (value: unknown, path: Path, names: Names): void => {
    const id = name(value);
    if (!leads(id, names)) issues.push(unknown(path, id!, names));
  };
  const followAll = (
    value: unknown,
    path: Path,
    said: readonly Said[],
    names: Readonly<Record<string, Names>>,
  ): void => {
    for (const { at, among, none } of said) {
      let found = value;
      for (const key of at) found = fields(found)[key];
      const id = name(found);
      // most lead somewhere: where they stand is written out for the others only
      if (!leads(id, names[among]!, none)) issues.push(unknown([...path, ...at], id!, names[among]!));
    }
  };
  return { issues, declare, follow, followAll };
}
type NamesIn = ReturnType<typeof namesIn>;

function checkRoom(room: Fields, { declare, follow }: NamesIn): Record<'walls' | 'services' | 'outlets', Names> {
  const walls = declare('wall', [room.walls, ['room', 'walls']]);
  declare('opening', [room.openings, ['room', 'openings']]);
  const services = declare('service', [room.services, ['room', 'services']]);
  for (const part of ['openings', 'services', 'survey', 'floor'])
    list(room[part]).forEach((item, i) => {
      follow(fields(item).wall, ['room', part, i, 'wall'], walls);
    });
  const all = new Set(
    list(room.services)
      .map(fields)
      .flatMap(({ kind, id }) => (kind === 'outlet' ? (name(id) ?? []) : [])),
  );
  return { walls, services, outlets: { what: 'outlet', all } };
}

function checkStock(
  stock: Fields,
  { issues, declare, follow }: NamesIn,
): Record<'panels' | 'boards' | 'wood' | 'packs', Names> {
  const suppliers = declare('supplier', [stock.suppliers, ['stock', 'suppliers']]);
  const panels = declare('panel', [stock.panels, ['stock', 'panels']]);
  const boards = declare('board', [stock.boards, ['stock', 'boards']]);
  const packs = declare('pack', [stock.packs, ['stock', 'packs']]);
  declare('offcut', [stock.rack, ['stock', 'rack']]);
  list(stock.boards).forEach((board, i) => {
    const id = name(fields(board).id);
    if (id !== undefined && panels.all.has(id)) issues.push(twice(['stock', 'boards', i, 'id'], id, 'panel or board'));
  });
  const wood: Names = { what: 'panel or board', all: new Set([...panels.all, ...boards.all]) };
  for (const [part, within] of [
    ['panels', 'sizes'],
    ['boards', 'lengths'],
  ] as const)
    list(stock[part]).forEach((item, i) => {
      list(fields(item)[within]).forEach((offer, j) => {
        follow(fields(offer).supplier, ['stock', part, i, within, j, 'supplier'], suppliers);
      });
    });
  list(stock.packs).forEach((pack, i) => {
    follow(fields(pack).supplier, ['stock', 'packs', i, 'supplier'], suppliers);
  });
  list(stock.rack).forEach((offcut, i) => {
    follow(fields(offcut).stock, ['stock', 'rack', i, 'stock'], wood);
  });
  return { panels, boards, wood, packs };
}

type Known = ReturnType<typeof checkRoom> & ReturnType<typeof checkStock>;

function checkOption(option: Fields, path: Path, known: Known, names: NamesIn): void {
  const { declare, follow } = names;
  const { walls, services, boards } = known;
  const places = checkPieces(list(option.pieces).map(fields), [...path, 'pieces'], known, names);
  const finish = fields(option.finish);
  follow(finish.skirting, [...path, 'finish', 'skirting'], boards);
  follow(finish.scribe, [...path, 'finish', 'scribe'], boards);
  list(finish.walls).forEach((wall, k) => {
    follow(wall, [...path, 'finish', 'walls', k], walls);
  });
  const boxes = declare('box of this option', [option.boxes, [...path, 'boxes']]);
  list(option.boxes).forEach((box, k) => {
    follow(fields(box).wall, [...path, 'boxes', k, 'wall'], walls);
  });
  const ends: Names = {
    what: 'box, service of the room or piece of this option',
    all: new Set([...boxes.all, ...services.all, ...places.keys()]),
  };
  declare('cable of this option', [option.cables, [...path, 'cables']]);
  list(option.cables).forEach((cable, k) => {
    for (const end of ['from', 'to'] as const) follow(fields(cable)[end], [...path, 'cables', k, end], ends);
  });
}

/** The place of each piece in the list, by its name. */
function checkPieces(
  pieces: readonly Fields[],
  path: Path,
  known: Known,
  { issues, followAll }: NamesIn,
): ReadonlyMap<string, number> {
  const what = 'piece of this option';
  const places = new Map<string, number>();
  pieces.forEach((piece, j) => {
    const kind = PIECE_KINDS.find((key) => Object.hasOwn(piece, key));
    const id = kind === undefined ? undefined : name(piece[kind]);
    if (kind === undefined || id === undefined) return;
    if (places.has(id)) issues.push(twice([...path, j, kind], id, what));
    else places.set(id, j);
  });
  const names = { ...known, others: { what, all: new Set(places.keys()) } };
  pieces.forEach((piece, j) => {
    followAll(piece, [...path, j], OF_PIECE, names);
    const stands = new Set<string>();
    list(piece.places).forEach((place, k) => {
      const id = name(fields(place).name);
      if (id === undefined) return;
      if (stands.has(id)) issues.push(twice([...path, j, 'places', k, 'name'], id, 'place'));
      stands.add(id);
    });
  });
  issues.push(...circles(pieces, places, path));
  return places;
}

/** Where something is named, and among what the name is to be found. */
interface Said {
  readonly at: readonly string[];
  readonly among: 'walls' | 'others' | 'outlets' | 'panels' | 'wood' | 'packs';
  /** The word for nothing. */
  readonly none?: string;
}
const OF_MAKE: readonly Said[] = [
  { at: ['panel'], among: 'panels' },
  { at: ['back', 'panel'], among: 'panels' },
  { at: ['front'], among: 'wood' },
  { at: ['frame', 'board'], among: 'wood' },
  { at: ['band'], among: 'packs', none: 'none' },
  { at: ['drawer', 'panel'], among: 'wood' },
  { at: ['drawer', 'bottom'], among: 'panels' },
];
const OF_PIECE: readonly Said[] = [
  { at: ['wall'], among: 'walls' },
  { at: ['after'], among: 'others' },
  { at: ['on'], among: 'others' },
  { at: ['along'], among: 'others' },
  { at: ['supply'], among: 'outlets' },
  { at: ['backing'], among: 'panels' },
  ...OF_MAKE.map((said) => ({ ...said, at: ['make', ...said.at] })),
  { at: ['toe', 'board'], among: 'wood' },
  { at: ['top', 'stock'], among: 'wood' },
  { at: ['ends', 'left'], among: 'wood' },
  { at: ['ends', 'right'], among: 'wood' },
  { at: ['skin'], among: 'wood' },
  { at: ['core'], among: 'wood' },
  { at: ['lip', 'stock'], among: 'wood' },
  { at: ['panel'], among: 'panels' },
  { at: ['battens', 'board'], among: 'wood' },
];

const twice = (path: Path, id: string, what: string): Issue => ({
  path,
  message: `another ${what} has this name already`,
  found: `'${id}'`,
  expected: 'a name of its own',
});

function unknown(path: Path, id: string, { what, all }: Names): Issue {
  const near = nearest(id, all);
  const known = [...all];
  return {
    path,
    message: `there is no ${what} of this name`,
    found: `'${id}'`,
    expected:
      known.length === 0
        ? `${/^[aeiou]/.test(what) ? 'an' : 'a'} ${what}, but the plan has none`
        : `one of ${known
            .slice(0, 12)
            .map((one) => `'${one}'`)
            .join(', ')}${known.length > 12 ? ', …' : ''}`,
    ...(near === undefined ? {} : { nearest: `'${near}'` }),
  };
}

/** Pieces that stand after or on one another in a circle, so that none has a place of its own. Told once for each circle. */
function circles(pieces: readonly Fields[], names: ReadonlyMap<string, number>, path: Path): Issue[] {
  const issues: Issue[] = [];
  const done = new Set<number>();
  for (const link of ['after', 'on'] as const) {
    done.clear();
    for (let start = 0; start < pieces.length; start++) {
      const trail: number[] = [];
      let at: number | undefined = start;
      while (at !== undefined && !done.has(at) && !trail.includes(at)) {
        trail.push(at);
        const next = name(pieces[at]![link]);
        at = next === undefined ? undefined : names.get(next);
      }
      if (at !== undefined && trail.includes(at)) {
        const circle = trail.slice(trail.indexOf(at)).map((j) => name(pieces[j]![link])!);
        issues.push({
          path: [...path, at, link],
          message:
            circle.length === 1
              ? `a piece cannot stand ${link} itself`
              : `these pieces stand ${link} one another in a circle`,
          found: circle.map((id) => `'${id}'`).join(' → '),
          expected: link === 'after' ? 'one of them with `from` or `centre`' : 'one of them with `above`',
        });
      }
      for (const j of trail) done.add(j);
    }
  }
  return issues;
}
