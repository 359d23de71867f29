import { type Bill, type Cut, orderedCutUp } from '../bill/index.ts';
import { paintedWalls, type Waiting } from '../finish/index.ts';
import { floorArea } from '../geometry/index.ts';
import type { Option, Plan } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import { isMade, type PartId, type PlacedPiece } from '../scene/index.ts';
import { settingOut } from '../setting-out/index.ts';
import { densityOf, panelItem, realLayouts, stockName } from '../stock/index.ts';
import { type DryingAir, waitFor } from './drying.ts';
import { type Counted, paceOf } from './paces.ts';

export interface TasksInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly cuts: readonly Cut[];
  readonly bill: Bill;
  /** kg of a part, where it is known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** Share of the steps of putting a piece together that want a second person; left out: none. */
  readonly helpedShare?: (piece: string) => number;
}

export const PHASES = ['room', 'buying', 'cutting', 'assembly', 'finish', 'fitting', 'last'] as const;
export type Phase = (typeof PHASES)[number];
export type Tool = 'saws' | 'benches' | 'clamps' | 'floor';
/** Whose hours: the maker's, those with a helper, or the maker's while a shop is open. */
export type WhoseHours = 'own' | 'helped' | { readonly supplier: string };

/** One task of the job, as counted; times in minutes. */
export interface JobTask {
  readonly id: string;
  /** As it is told to do: `Cut birch 3/4`. */
  readonly title: string;
  /** As it is spoken of: `the cutting of birch 3/4`. */
  readonly noun: string;
  readonly phase: Phase;
  readonly piece?: string;
  readonly counts: readonly { readonly counted: Counted; readonly count: number }[];
  /** The maker's likely time, exactly; a part of it where one task is told in several. */
  readonly minutes: number;
  readonly hours: WhoseHours;
  /** A second person is wanted, and why. */
  readonly helper?: string;
  /** What is fetched or ordered: `3 × birch 3/4, 8' 0" × 4' 0"`. */
  readonly list?: readonly string[];
  readonly whole: boolean;
  readonly place: 'room' | 'shop' | 'away';
  readonly air?: { readonly kind: 'dust' | 'wet'; readonly beyond: number };
  readonly holds: readonly { readonly tool: Tool; readonly amount: number; readonly beyond: number }[];
  readonly after: readonly { readonly task: number; readonly wait: number; readonly why?: string }[];
}

/** Minutes for dust to settle before a brush comes out. Common practice. */
const SETTLE = 60;
/** Longest stretch told as one task, minutes: an errand or a helper must find a place between. */
const STRETCH = 240;
/** What one person lifts where the shop does not say, kg: the load constant. Source: Waters et al., revised NIOSH lifting equation (1993). */
const LOAD_CONSTANT = 23;
/** A share of the fitting of a piece is its carrying in, the rest its levelling and fixing. Common practice. */
const CARRYING = 1 / 3;
const COATS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'] as const;
/** On a case, a front or a moulding. Common practice. */
const SHOP_COATS = COATS.slice(0, 2);

interface Draft {
  readonly id: string;
  readonly title: string;
  readonly noun: string;
  readonly phase: Phase;
  readonly piece?: string;
  readonly counts: readonly (readonly [Counted, number])[];
  readonly share?: number;
  readonly hours?: WhoseHours;
  readonly helper?: string | undefined;
  readonly list?: readonly string[];
  readonly whole?: boolean;
  readonly place: JobTask['place'];
  readonly air?: 'dust' | { readonly wet: number };
  readonly holds?: JobTask['holds'];
  readonly after: readonly (After | undefined)[];
}
interface After {
  readonly task: number;
  readonly wait?: number;
  readonly why?: string;
}

/**
 * The whole job as tasks, each after those it waits for: the room, buying, the shop, fitting, the last look. Times come from what is
 * counted and the maker's pace; waits from what is published. `longest` is the longest stretch of each kind of hours.
 */
export function tasksOf(input: TasksInput, longest: (hours: WhoseHours) => number): readonly JobTask[] {
  const { plan, option, pieces, bill, cuts } = input;
  const tasks: JobTask[] = [];
  const air: DryingAir = {
    celsius: plan.dates.air.temperature,
    humidity: plan.dates.air.humidity,
  };
  const lift = plan.shop.lift ?? LOAD_CONSTANT;
  const shopFloor = plan.dates.floor ? plan.dates.floor.length * plan.dates.floor.width : Number.POSITIVE_INFINITY;
  const wait = (step: Waiting): number => waitFor(step, air);
  const next = wait('latex paint, next coat');
  const touch = wait('latex paint, dry to touch');

  /** The last task of what was added, or nothing where there is nothing to do. */
  const add = (draft: Draft): number | undefined => {
    const counted = draft.counts.filter(([, count]) => count > 0);
    const minutes =
      plan.shop.pace * (draft.share ?? 1) * counted.reduce((sum, [key, count]) => sum + count * paceOf(key).minutes, 0);
    if (minutes <= 0) return undefined;
    const hours = draft.hours ?? (draft.helper === undefined ? 'own' : 'helped');
    const whole = draft.whole ?? false;
    const stretch = Math.max(30, whole ? Math.min(STRETCH, longest(hours)) : STRETCH);
    const parts = Math.ceil(minutes / stretch - 1e-9);
    for (let k = 0; k < parts; k++) {
      const of = parts === 1 ? '' : `, ${k + 1} of ${parts}`;
      tasks.push({
        id: parts === 1 ? draft.id : `${draft.id} ${k + 1}`,
        title: `${draft.title}${of}`,
        noun: `${draft.noun}${of}`,
        phase: draft.phase,
        ...(draft.piece !== undefined && { piece: draft.piece }),
        counts: counted.map(([key, count]) => ({ counted: key, count })),
        minutes: minutes / parts,
        hours,
        ...(draft.helper !== undefined && { helper: draft.helper }),
        ...(draft.list && { list: draft.list }),
        whole,
        place: draft.place,
        ...(draft.air && {
          air: draft.air === 'dust' ? { kind: 'dust', beyond: SETTLE } : { kind: 'wet', beyond: draft.air.wet },
        }),
        holds: draft.holds ?? [],
        after:
          k > 0
            ? [{ task: tasks.length - 1, wait: 0 }]
            : draft.after.flatMap((a) =>
                a ? [{ task: a.task, wait: a.wait ?? 0, ...(a.why && { why: a.why }) }] : [],
              ),
      });
    }
    return tasks.length - 1;
  };
  const after = (task: number | undefined, waiting = 0, why?: string): After | undefined =>
    task === undefined ? undefined : { task, wait: waiting, ...(why !== undefined && { why }) };
  const afterAll = (list: readonly (number | undefined)[], waiting = 0, why?: string) =>
    list.map((task) => after(task, waiting, why));

  // the room
  const clear = add({
    id: 'clear room',
    title: 'Clear and cover the room',
    noun: 'clearing of the room',
    phase: 'room',
    counts: [['clear', 1]],
    place: 'room',
    after: [],
  });

  // buying
  // by kind too: a panel and a pack may share an id; by list, as one panel may come from several shops
  const errands = new Map<string, number[]>();
  const keyOf = (kind: Bill['lines'][number]['kind'], stock: string): string => `${kind} ${stock}`;
  const errandsFor = (lines: Bill['lines']): readonly number[] => [
    ...new Set(lines.flatMap((line) => errands.get(keyOf(line.kind, line.stock)) ?? [])),
  ];
  for (const { supplier, name, lines } of bill.shopping) {
    const said = plan.stock.suppliers.find((s) => s.id === supplier);
    const called = name || supplier || 'other shops';
    const lead = said?.lead ?? 0;
    const list = lines.map(({ count, name: what, detail }) => `${count} × ${what}${detail ? `, ${detail}` : ''}`);
    const order =
      lead > 0
        ? add({
            id: `order ${called}`,
            title: `Order from ${called}`,
            noun: `order from ${called}`,
            phase: 'buying',
            counts: [['order', 1]],
            list,
            whole: true,
            place: 'away',
            after: [],
          })
        : undefined;
    const errand = add({
      id: `buy ${called}`,
      title: `Buy at ${called}`,
      noun: `errand to ${called}`,
      phase: 'buying',
      counts: [
        ['errand', 1],
        ['line', lines.length],
      ],
      list,
      hours: said?.open ? { supplier } : 'own',
      whole: true,
      place: 'away',
      after: [after(order, lead * 1440, `${called} takes ${lead} ${lead === 1 ? 'day' : 'days'} to deliver`)],
    });
    if (errand !== undefined)
      for (const line of lines) {
        const key = keyOf(line.kind, line.stock);
        errands.set(key, [...(errands.get(key) ?? []), errand]);
      }
  }
  const packs = errandsFor(bill.lines.filter((l) => l.kind === 'pack'));
  const useOf = new Map(plan.stock.packs.map((p) => [p.id, p.use.toLowerCase()]));
  /** What serves for one of these is fetched. */
  const fetched = (...uses: readonly string[]): readonly (After | undefined)[] => {
    const serves = ({ kind, stock }: Bill['lines'][number]): boolean =>
      kind === 'pack' && uses.some((use) => useOf.get(stock)?.startsWith(use));
    return afterAll(errandsFor(bill.lines.filter(serves)));
  };

  // its walls and ceiling
  let ready = after(clear);
  const painted = paintedWalls(option, input.room);
  const coats = COATS.slice(0, option.finish?.coats ?? 2);
  const ceiling = option.paint?.ceiling !== undefined;
  if (painted.length > 0 || ceiling) {
    const patch = add({
      id: 'patch walls',
      title: 'Patch the walls',
      noun: 'patching of the walls',
      phase: 'room',
      counts: [['patch wall', painted.length]],
      whole: true,
      place: 'room',
      air: { wet: 0 },
      after: [ready, ...fetched('filler')],
    });
    const sand = add({
      id: 'sand patches',
      title: 'Sand the patches',
      noun: 'sanding of the patches',
      phase: 'room',
      counts: [['sand wall', painted.length]],
      place: 'room',
      air: 'dust',
      after: [after(patch, wait('ready-mixed joint compound, a coat'), 'the filler on the walls dries')],
    });
    let last = add({
      id: 'prime patches',
      title: 'Prime the patches',
      noun: 'primer on the patches',
      phase: 'room',
      counts: [['prime wall', painted.length]],
      whole: true,
      place: 'room',
      air: { wet: touch },
      after: [after(sand), ...fetched('primer')],
    });
    const surfaces = [
      ...(ceiling ? [['ceiling', 'ceiling paint', floorArea(input.room)] as const] : []),
      ['walls', 'paint', wallsArea(input.room, painted)] as const,
    ];
    for (const [surface, paint, area] of surfaces)
      for (const coat of coats)
        last =
          add({
            id: `${coat} coat ${surface}`,
            title: `Paint the ${surface}, ${coat} coat`,
            noun: `${coat} coat on the ${surface}`,
            phase: 'room',
            counts: [['paint m²', area]],
            whole: true,
            place: 'room',
            air: { wet: touch },
            after: [after(last, next, 'the coat before it dries'), ...fetched(paint)],
          }) ?? last;
    ready = after(last, next, 'the paint in the room dries');
  }

  // breaking down and cutting, stock by stock
  const cutUp = orderedCutUp(plan);
  const layouts = cuts.flatMap(({ job, answer }) => realLayouts(job, answer));
  const cutOf = new Map<PartId, readonly number[]>();
  for (const stock of [...new Set(layouts.map((l) => l.stock))]) {
    const own = layouts.filter((l) => l.stock === stock);
    const whole = own.filter((l) => l.from === 'panel' && l.source.kind === 'buy');
    const name = stockName(plan.stock, stock);
    const thickness = panelItem(plan.stock, stock)?.thickness;
    const density = densityOf(plan.stock, stock);
    const heaviest =
      thickness && density
        ? Math.max(0, ...whole.map((l) => l.length * l.width * thickness * 1e-9 * density.value))
        : 0;
    const bought = afterAll(errandsFor(bill.lines.filter((l) => l.kind !== 'pack' && l.stock === stock)));
    const broken = add({
      id: `break down ${stock}`,
      title: `Break down ${name}`,
      noun: `breaking down of ${name}`,
      phase: 'cutting',
      counts: [['panels', whole.length]],
      helper: heaviest > lift ? 'a whole panel is heavier than one person lifts' : undefined,
      place: 'shop',
      air: 'dust',
      holds: [{ tool: 'saws', amount: 1, beyond: 0 }],
      after: bought,
    });
    const cut = add({
      id: `cut ${stock}`,
      title: `Cut ${name}`,
      noun: `cutting of ${name}`,
      phase: 'cutting',
      counts: [['cuts', own.reduce((sum, l) => sum + cutUp(l).cuts, 0)]],
      place: 'shop',
      air: 'dust',
      holds: [{ tool: 'saws', amount: 1, beyond: 0 }],
      after: broken === undefined ? bought : [after(broken)],
    });
    const done = cut ?? broken;
    const there = done === undefined ? bought.flatMap((b) => (b ? [b.task] : [])) : [done];
    for (const layout of own) for (const { part } of layout.placed) cutOf.set(part, there);
  }

  // piece by piece in the shop
  const made = pieces.filter(isMade);
  const glue = wait('PVA glue, in clamps');
  const stressed = wait('PVA glue, full strength');
  const sanded = new Map<string, number | undefined>();
  const finished = new Map<string, readonly (After | undefined)[]>();
  for (const piece of made) {
    const title = piece.title || piece.id;
    const box = piece.outside;
    const [w, h, d] = [box.max.x - box.min.x, box.max.y - box.min.y, box.max.z - box.min.z];
    const skin = (2 * (w * h + w * d + h * d)) / 1e6;
    const foot = Math.min(w * d, shopFloor);
    const cutsOf = [...new Set(piece.parts.flatMap((part) => cutOf.get(part.id) ?? []))];
    const parts = add({
      id: `sand parts ${piece.id}`,
      title: `Label, edge and sand the parts of ${title}`,
      noun: `sanding of the parts of ${title}`,
      phase: 'cutting',
      piece: piece.id,
      counts: [['parts', piece.parts.length]],
      place: 'shop',
      air: 'dust',
      after: afterAll(cutsOf),
    });
    sanded.set(piece.id, parts);
    const helped = input.helpedShare?.(piece.id) ?? 0;
    const bench = { tool: 'benches', amount: 1, beyond: glue } as const;
    const clamps = { tool: 'clamps', amount: 1, beyond: glue } as const;
    const floor = { tool: 'floor', amount: foot, beyond: glue } as const;
    const before = [...afterAll(packs), after(parts)];
    const joints: Draft = {
      id: `assemble ${piece.id}`,
      title: `Put ${title} together`,
      noun: `assembly of ${title}`,
      phase: 'assembly',
      piece: piece.id,
      counts: [['joints', piece.joints.length]],
      share: 1 - helped,
      place: 'shop',
      holds: [bench, clamps, floor],
      after: before,
    };
    const alone = add(joints);
    const together =
      helped > 0
        ? add({
            ...joints,
            id: `turn ${piece.id}`,
            title: `Put ${title} together: the steps for two`,
            noun: `steps for two of ${title}`,
            share: helped,
            helper: 'some steps of the assembly want a second pair of hands',
            after: alone === undefined ? before : [after(alone, glue, 'the glue sets in the clamps')],
          })
        : undefined;
    const glued = together ?? alone;
    const brads = piece.fittings.filter((f) => f.use === 'brad').reduce((sum, f) => sum + f.count, 0);
    const fill = add({
      id: `fill ${piece.id}`,
      title: `Fill the nail holes of ${title}`,
      noun: `filling of ${title}`,
      phase: 'finish',
      piece: piece.id,
      counts: [['brad', brads]],
      place: 'shop',
      after: [after(glued, glue, 'the glue sets in the clamps')],
    });
    const coated = piece.kind === 'case' || piece.kind === 'shelf' || piece.kind === 'lining';
    const sand = coated
      ? add({
          id: `sand ${piece.id}`,
          title: `Sand ${title}`,
          noun: `sanding of ${title}`,
          phase: 'finish',
          piece: piece.id,
          counts: [['sand m²', skin]],
          place: 'shop',
          air: 'dust',
          after: [
            after(fill, wait('light filler'), 'the filler dries') ??
              after(glued, glue, 'the glue sets in the clamps') ??
              after(parts),
          ],
        })
      : undefined;
    let last = after(sand);
    if (coated)
      for (const coat of SHOP_COATS)
        last =
          after(
            add({
              id: `${coat} coat ${piece.id}`,
              title: `Coat ${title}, ${coat} time`,
              noun: `${coat} coat on ${title}`,
              phase: 'finish',
              piece: piece.id,
              counts: [['coat m²', skin]],
              whole: true,
              place: 'shop',
              air: { wet: touch },
              holds: [{ tool: 'floor', amount: foot, beyond: next }],
              // what is put together has waited for the packs already
              after: coat === SHOP_COATS[0] && glued === undefined ? [last, ...afterAll(packs)] : [last],
            }),
            next,
            'the coat before it dries',
          ) ?? last;
    finished.set(piece.id, [
      last && { ...last, ...(last.why && { why: 'its last coat dries' }) },
      after(glued, stressed, 'the glue reaches its strength'),
      after(parts),
    ]);
  }

  // doors and drawer fronts are coated lying down, all together as far as the floor allows
  const fronts = made.flatMap((piece) =>
    piece.parts.filter((p) => p.role === 'door' || p.role === 'drawer front').map((part) => ({ piece, part })),
  );
  const batches: (typeof fronts)[] = [];
  let laid = Number.POSITIVE_INFINITY;
  const faceOf = (f: (typeof fronts)[number]): number => f.part.size.length * f.part.size.width;
  for (const front of fronts) {
    if (laid + faceOf(front) > shopFloor || batches.length === 0) {
      batches.push([]);
      laid = 0;
    }
    batches.at(-1)!.push(front);
    laid += faceOf(front);
  }
  const frontsDone = new Map<string, After[]>();
  batches.forEach((batch, k) => {
    const of = batches.length === 1 ? '' : ` (batch ${k + 1} of ${batches.length})`;
    const id = batches.length === 1 ? 'fronts' : `fronts ${k + 1}`;
    const area = batch.reduce((sum, f) => sum + faceOf(f), 0);
    const bare = batch.some((f) => panelItem(plan.stock, f.part.stock)?.kind?.toLowerCase().includes('mdf'));
    let last: readonly (After | undefined)[] = [
      ...[...new Set(batch.map((f) => f.piece.id))].map((piece) => after(sanded.get(piece))),
      ...fetched('primer', 'trim paint'),
    ];
    for (const coat of [...(bare ? (['primer'] as const) : []), ...SHOP_COATS]) {
      const done = add({
        id: coat === 'primer' ? `prime ${id}` : `${coat} coat ${id}`,
        title: coat === 'primer' ? `Prime the fronts${of}` : `Paint the fronts${of}, ${coat} coat`,
        noun: coat === 'primer' ? `primer on the fronts${of}` : `${coat} coat on the fronts${of}`,
        phase: 'finish',
        counts: [['coat m²', (2 * area) / 1e6]],
        whole: true,
        place: 'shop',
        air: { wet: touch },
        holds: [{ tool: 'floor', amount: Math.min(area, shopFloor), beyond: next }],
        after: last,
      });
      last = [after(done, next, coat === 'primer' ? 'the primer on the fronts dries' : 'the coat before it dries')];
    }
    for (const { piece } of batch)
      frontsDone.set(piece.id, [
        ...(frontsDone.get(piece.id) ?? []),
        ...last.flatMap((l) => (l ? [{ ...l, why: 'the last coat on the fronts dries' }] : [])),
      ]);
  });

  // into the room
  const holes = settingOut({
    plan,
    option,
    room: input.room,
    pieces,
    massOf: input.massOf ?? (() => undefined),
  }).reduce((sum, wall) => sum + wall.holes.length, 0);
  const marked = add({
    id: 'set out walls',
    title: 'Set out the walls',
    noun: 'setting-out of the walls',
    phase: 'fitting',
    counts: [['mark', holes]],
    place: 'room',
    after: [ready],
  });
  const onWall = after(marked) ?? ready;
  const fixed: (number | undefined)[] = [];
  const fixedOf = new Map<string, number | undefined>();
  for (const piece of made.filter((p) => p.kind !== 'display' && p.kind !== 'trim')) {
    const title = piece.title || piece.id;
    const mass = (piece.mass ?? 0) + piece.parts.reduce((sum, p) => sum + (input.massOf?.(p.id) ?? 0), 0);
    const heavy = mass > lift ? `${title} is heavier than one person lifts` : undefined;
    if (piece.kind === 'absorber') {
      fixed.push(
        add({
          id: `line ${piece.id}`,
          title: `Line the wall: ${title}`,
          noun: `lining with ${title}`,
          phase: 'fitting',
          piece: piece.id,
          counts: [['pieces', 1]],
          place: 'room',
          after: [onWall, ...afterAll(packs), ...(finished.get(piece.id) ?? [])],
        }),
      );
      continue;
    }
    const carried = add({
      id: `carry ${piece.id}`,
      title: `Carry in ${title}`,
      noun: `carrying in of ${title}`,
      phase: 'fitting',
      piece: piece.id,
      counts: [['pieces', 1]],
      share: CARRYING,
      helper: heavy,
      whole: true,
      place: 'room',
      after: [onWall, ...(finished.get(piece.id) ?? [])],
    });
    const scribed = add({
      id: `scribe ${piece.id}`,
      title: `Scribe the fillers of ${title}`,
      noun: `scribing of ${title}`,
      phase: 'fitting',
      piece: piece.id,
      counts: [['scribe', piece.parts.filter((p) => p.role === 'filler').length]],
      place: 'room',
      air: 'dust',
      after: [after(carried)],
    });
    const fix = add({
      id: `fix ${piece.id}`,
      title: `Level and fix ${title}`,
      noun: `fixing of ${title}`,
      phase: 'fitting',
      piece: piece.id,
      counts: [['pieces', 1]],
      share: 1 - CARRYING,
      place: 'room',
      after: [after(scribed) ?? after(carried)],
    });
    fixedOf.set(piece.id, fix);
    fixed.push(fix);
    fixed.push(
      add({
        id: `hang ${piece.id}`,
        title: `Hang the fronts of ${title}`,
        noun: `hanging of the fronts of ${title}`,
        phase: 'fitting',
        piece: piece.id,
        counts: [['fronts', piece.needs.length]],
        place: 'room',
        after: [after(fix), ...(frontsDone.get(piece.id) ?? [])],
      }),
    );
  }
  for (const piece of made.filter((p) => p.kind === 'display')) {
    const title = piece.title || piece.id;
    const mount = add({
      id: `mount ${piece.id}`,
      title: `Mount ${title}`,
      noun: `mounting of ${title}`,
      phase: 'fitting',
      piece: piece.id,
      counts: [['pieces', 1]],
      helper: 'a display is hooked in by two',
      whole: true,
      place: 'room',
      // what stands behind or under it is fixed first
      after: [
        onWall,
        ...afterAll(packs),
        ...made.filter((p) => p !== piece && shareWall(p, piece)).map((p) => after(fixedOf.get(p.id))),
      ],
    });
    fixed.push(
      mount,
      add({
        id: `wire ${piece.id}`,
        title: `Wire ${title}`,
        noun: `wiring of ${title}`,
        phase: 'fitting',
        piece: piece.id,
        counts: [['screen cable', 1]],
        place: 'room',
        after: [after(mount)],
      }),
    );
  }
  for (const piece of option.pieces)
    if ('strip' in piece)
      fixed.push(
        add({
          id: `wire ${piece.strip}`,
          title: `Lay and plug in ${piece.title ?? piece.strip}`,
          noun: `wiring of ${piece.title ?? piece.strip}`,
          phase: 'fitting',
          piece: piece.strip,
          counts: [['strip', 1]],
          place: 'room',
          after: [
            after(piece.along === undefined ? undefined : fixedOf.get(piece.along)) ?? ready,
            ...fetched('strip light', 'wire ', 'connector ', 'fuse', 'power supply', 'light controller'),
          ],
        }),
      );

  // trim, the last paint, the last look
  const trims = made.filter((p) => p.kind === 'trim');
  const metres = trims.reduce((sum, p) => sum + p.parts.reduce((s, part) => s + part.size.length, 0), 0) / 1000;
  let coated: readonly (After | undefined)[] = [
    ...trims.map((p) => after(sanded.get(p.id))),
    ...fetched('primer', 'trim paint'),
  ];
  for (const coat of SHOP_COATS) {
    const painting = add({
      id: `${coat} coat trim`,
      title: `Paint the trim, ${coat} coat`,
      noun: `${coat} coat on the trim`,
      phase: 'finish',
      counts: [['trim coat m', metres]],
      whole: true,
      place: 'shop',
      air: { wet: touch },
      after: coated,
    });
    coated = [after(painting, next, 'the coat before it dries')];
  }
  const fitted = trims.map((piece) =>
    add({
      id: `fit ${piece.id}`,
      title: `Fit ${piece.title || piece.id}`,
      noun: `fitting of ${piece.title || piece.id}`,
      phase: 'last',
      piece: piece.id,
      counts: [['pieces', 1]],
      place: 'room',
      after: [...coated, onWall, ...fetched('finish nail'), ...afterAll([...fixedOf.values()])],
    }),
  );
  const caulk = add({
    id: 'caulk',
    title: 'Fill, caulk and touch up the trim',
    noun: 'caulking of the trim',
    phase: 'last',
    counts: [['caulk m', metres]],
    whole: true,
    place: 'room',
    air: { wet: touch },
    after: [...afterAll(fitted), ...afterAll([...fixedOf.values()]), ...fetched('caulk', 'filler', 'masking tape')],
  });
  const clean = add({
    id: 'clean room',
    title: 'Clean the room',
    noun: 'cleaning of the room',
    phase: 'last',
    counts: [['clean', 1]],
    place: 'room',
    air: 'dust',
    after: [after(caulk, next, 'the touched-up paint dries'), ready, ...afterAll(fixed)],
  });
  const camera = option.pieces.some((p) => 'camera' in p);
  add({
    id: camera ? 'check on camera' : 'look over',
    title: camera ? 'Check the set on camera' : 'Look the set over',
    noun: camera ? 'check on camera' : 'last look',
    phase: 'last',
    counts: [[camera ? 'camera' : 'look', 1]],
    place: 'room',
    after: [after(clean)],
  });
  return tasks;
}

/** On one wall, and over the same stretch of it. */
const shareWall = (a: PlacedPiece, b: PlacedPiece): boolean => {
  if (!a.wall || !b.wall || a.wall.id !== b.wall.id) return false;
  const [from, to] = [a, b].map((p) => [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x] as const) as [
    readonly [number, number],
    readonly [number, number],
  ];
  return from[0] < to[1] && to[0] < from[1];
};

/** m² of walls less their openings: they are painted before anything stands before them. */
const wallsArea = ({ openings }: PlacedRoom, walls: PlacedRoom['walls']): number =>
  walls.reduce(
    (sum, wall) =>
      sum +
      wall.length * wall.height -
      openings.filter((o) => o.wall === wall.id).reduce((s, o) => s + (o.x[1] - o.x[0]) * (o.y[1] - o.y[0]), 0),
    0,
  ) / 1e6;
