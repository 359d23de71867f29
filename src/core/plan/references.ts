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
  const room = fields(plan.room);
  const stock = fields(plan.stock);
  const issues: Issue[] = [];

  const declare = (what: string, ...groups: readonly (readonly [unknown, Path])[]): Names => {
    const first = new Map<string, Path>();
    for (const [items, path] of groups)
      list(items).forEach((item, i) => {
        const id = name(fields(item).id);
        if (id === undefined) return;
        if (first.has(id)) issues.push(twice([...path, i, 'id'], id, what));
        else first.set(id, path);
      });
    return { what, all: new Set(first.keys()) };
  };
  const follow = (value: unknown, path: Path, names: Names, none?: string): void => {
    const id = name(value);
    if (id === undefined || id === none || names.all.has(id)) return;
    issues.push(unknown(path, id, names));
  };

  const walls = declare('wall', [room.walls, ['room', 'walls']]);
  declare('opening', [room.openings, ['room', 'openings']]);
  const services = declare('service', [room.services, ['room', 'services']]);
  for (const part of ['openings', 'services', 'survey', 'floor'])
    list(room[part]).forEach((item, i) => {
      follow(fields(item).wall, ['room', part, i, 'wall'], walls);
    });

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
      if (id === undefined || id === none || names[among]!.all.has(id)) continue;
      issues.push(unknown([...path, ...at], id, names[among]!));
    }
  };
  const stocks = { panels, wood, packs };
  followAll(plan.make, ['make'], OF_MAKE, stocks);

  const options = declare('option', [plan.options, ['options']]);
  follow(plan.build, ['build'], options);
  list(plan.options).forEach((option, i) => {
    const path: Path = ['options', i, 'pieces'];
    const pieces = list(fields(option).pieces).map(fields);
    const names = new Map<string, number>();
    pieces.forEach((piece, j) => {
      const kind = PIECE_KINDS.find((key) => Object.hasOwn(piece, key));
      const id = kind === undefined ? undefined : name(piece[kind]);
      if (kind === undefined || id === undefined) return;
      if (names.has(id)) issues.push(twice([...path, j, kind], id, 'piece of this option'));
      else names.set(id, j);
    });
    const others: Names = { what: 'piece of this option', all: new Set(names.keys()) };
    const known = { ...stocks, walls, others };
    pieces.forEach((piece, j) => {
      const here: Path = [...path, j];
      followAll(piece, here, OF_PIECE, known);
      const places = new Set<string>();
      list(piece.places).forEach((place, k) => {
        const id = name(fields(place).name);
        if (id === undefined) return;
        if (places.has(id)) issues.push(twice([...here, 'places', k, 'name'], id, 'place'));
        places.add(id);
      });
    });
    const finish = fields(fields(option).finish);
    const finishPath: Path = ['options', i, 'finish'];
    follow(finish.skirting, [...finishPath, 'skirting'], boards);
    follow(finish.scribe, [...finishPath, 'scribe'], boards);
    list(finish.walls).forEach((wall, k) => {
      follow(wall, [...finishPath, 'walls', k], walls);
    });
    const boxes = declare('box of this option', [fields(option).boxes, ['options', i, 'boxes']]);
    list(fields(option).boxes).forEach((box, k) => {
      follow(fields(box).wall, ['options', i, 'boxes', k, 'wall'], walls);
    });
    const ends: Names = {
      what: 'box, service of the room or piece of this option',
      all: new Set([...boxes.all, ...services.all, ...names.keys()]),
    };
    declare('cable of this option', [fields(option).cables, ['options', i, 'cables']]);
    list(fields(option).cables).forEach((cable, k) => {
      follow(fields(cable).from, ['options', i, 'cables', k, 'from'], ends);
      follow(fields(cable).to, ['options', i, 'cables', k, 'to'], ends);
    });
    issues.push(...circles(pieces, names, path));
  });
  return issues;
}

/** Where something is named, and among what the name is to be found. */
interface Said {
  readonly at: readonly string[];
  readonly among: 'walls' | 'others' | 'panels' | 'wood' | 'packs';
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
