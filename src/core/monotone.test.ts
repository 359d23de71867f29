import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Answer, workedOut } from './answers.testing.ts';
import type { Length } from './casework/random.testing.ts';
import { anyHouse, type Fields, type House, length, planOfHouse, plus } from './houses.testing.ts';
import { sceneOf, setNotes, solidsOf } from './outcome.ts';
import type { Plan } from './plan/index.ts';

const figures = ({ notes }: Found, kind: string): ReadonlyMap<string, number> =>
  new Map(
    notes.flatMap(({ id, working, title }) => {
      // what is used of a fixing is told in its title: its working has what the fixing holds
      const used = /(\d+) % used/.exec(title)?.[1];
      const figure = kind === 'fixing' ? used && Number(used) : working?.result.value;
      return id.startsWith(`${kind}:`) && figure !== undefined ? [[id, Number(figure)] as const] : [];
    }),
  );
/** Where the rods of a floating shelf stand; empty of another. */
const rodsOf = ({ notes }: Found, id: string): string =>
  `${notes.find((note) => note.id === id)?.working?.inputs.find(({ symbol }) => symbol === 'x')?.value ?? ''}`;
const NEAR = 1e-6;

type Found = Pick<Answer, 'notes' | 'issues'>;
function found(plan: Plan, set?: true): Found {
  const [option] = plan.options;
  const solids = solidsOf(plan, option!);
  return set ? { issues: solids.issues, notes: setNotes(solids) } : sceneOf(plan, option!);
}

/** A house with one thing more of it, and which figures may not rise and which may not fall for that. */
interface Law {
  readonly what: string;
  /** Of the finished set in its room, not of its pieces alone. */
  readonly set?: true;
  readonly more: (house: House) => House;
  /** Kinds of notes whose figures may not fall, or not rise. */
  readonly never: readonly (readonly ['falls' | 'rises', string])[];
}
const changed = (house: House, kind: string, change: (piece: Fields) => Fields): House => ({
  ...house,
  pieces: house.pieces.map((piece) => (kind in piece ? change(piece) : piece)),
});
const sized = (piece: Fields, by: Readonly<Record<string, Length>>): Fields => {
  const size = piece.size as Readonly<Record<string, Length>>;
  const more = Object.entries(by).map(([side, mm]) => [side, plus(size[side]!, mm)] as const);
  return { ...piece, size: { ...size, ...Object.fromEntries(more) } };
};
/** One open bay over two shelves, so that what spans is known. */
const plain = (house: House): House => changed(house, 'case', (piece) => ({ ...piece, inside: { fixed: 2 } }));

const LAWS: readonly Law[] = [
  {
    what: 'load on a shelf',
    more: (house) =>
      changed(house, 'shelf', (p) => ({ ...p, load: { pounds: (p.load as { readonly pounds: number }).pounds + 6 } })),
    never: [
      ['falls', 'rods'],
      ['falls', 'fixing'],
    ],
  },
  {
    what: 'width of a case',
    more: (house) => changed(plain(house), 'case', (p) => sized(p, { width: length(4) })),
    never: [['falls', 'shelf-sag']],
  },
  {
    what: 'mass of a display',
    more: (house) =>
      changed(house, 'display', (p) => ({
        ...p,
        mass: { pounds: (p.mass as { readonly pounds: number }).pounds + 9 },
      })),
    never: [['falls', 'fixing']],
  },
  {
    what: 'tiles on a wall',
    set: true,
    more: (house) => changed(house, 'absorber', (p) => sized(p, { width: length(12) })),
    never: [['rises', 'reverberation']],
  },
  {
    what: 'light of a lamp',
    set: true,
    more: (house) => changed(house, 'lamp', (p) => ({ ...p, lumens: Number(p.lumens) + 1500 })),
    // the sensitivity a camera needs
    never: [['rises', 'exposure']],
  },
  {
    what: 'light of a strip',
    set: true,
    more: (house) => changed(house, 'strip', (p) => ({ ...p, lumens: Number(p.lumens) + 200 })),
    never: [['rises', 'exposure']],
  },
];

it.each(LAWS)('more $what never helps what it burdens', ({ more, never, set }) => {
  let compared = 0;
  fc.assert(
    fc.property(anyHouse, (house) => {
      const few = more === LAWS[1]!.more ? plain(house) : house;
      if (JSON.stringify(more(house)) === JSON.stringify(few)) return;
      const [before, after] = [few, more(house)].map((each) => found(planOfHouse(each), set)) as [Found, Found];
      if (before.issues.length + after.issues.length > 0) return;
      for (const [way, kind] of never) {
        const was = figures(before, kind);
        for (const [id, now] of figures(after, kind)) {
          const then = was.get(id);
          if (then === undefined) continue;
          compared++;
          const rose = (now - then) / Math.max(Math.abs(then), 1e-9);
          // light goes round the room until a thousandth is left
          const slack = kind === 'exposure' ? 1e-3 : NEAR;
          expect(way === 'falls' ? rose : -rose, `${id}: ${then}, ${now}`).toBeGreaterThanOrEqual(-slack);
        }
      }
    }),
    { numRuns: 12, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(0);
});

const proven = ({ cuts }: Answer): boolean => cuts.every(({ answer }) => answer.status === 'optimal');

it('a thicker board never sags more, a dearer one never costs less, and one more case never needs fewer sheets', () => {
  let [sags, costs, sheets] = [0, 0, 0];
  fc.assert(
    fc.property(anyHouse, fc.integer({ min: 1, max: 40 }), (house, by) => {
      // one more case before a wall leaves less of it to paint and to skirt, so nothing is finished here
      const plan = planOfHouse(plain({ ...house, finish: undefined }));
      const stock = (change: (panel: Plan['stock']['panels'][number]) => object): Plan => ({
        ...plan,
        stock: {
          ...plan.stock,
          panels: plan.stock.panels.map((p) => ({ ...p, ...change(p) })) as typeof plan.stock.panels,
        },
      });
      const before = workedOut(plan, 20);
      const thick = workedOut(stock(({ thickness }) => ({ thickness: thickness + by / 64 })));
      const was = figures(before, 'shelf-sag');
      for (const [id, now] of figures(thick, 'shelf-sag')) {
        const then = was.get(id);
        // thicker spacers beside a rod may no longer fit before its end of the shelf: it goes into another stud then
        if (then === undefined || rodsOf(thick, id) !== rodsOf(before, id)) continue;
        sags++;
        expect(now, id).toBeLessThanOrEqual(then + NEAR);
      }
      const dear = workedOut(
        stock(({ sizes }) => ({ sizes: sizes.map((s) => ({ ...s, price: (s.price ?? 0) + 100 * by })) })),
        50,
      );
      if (proven(before) && proven(dear)) {
        costs++;
        expect(dear.bill.known).toBeGreaterThanOrEqual(before.bill.known);
      }
      const [option] = plan.options;
      const [first] = option!.pieces;
      const twin = { ...first!, case: 'twin', from: undefined, after: 'case 1' } as typeof first;
      const two = { ...plan, options: [{ ...option!, pieces: [...option!.pieces, twin!] }] };
      const more = workedOut(two, 20);
      if (proven(before) && proven(more) && more.issues.length === 0) {
        sheets++;
        expect(more.bill.known).toBeGreaterThanOrEqual(before.bill.known);
        const least = ({ cuts }: Answer, stock: string) =>
          cuts.find(({ job }) => job.stock === stock)?.answer as { readonly bound?: number } | undefined;
        for (const { job } of before.cuts)
          expect(least(more, job.stock)?.bound ?? 0).toBeGreaterThanOrEqual(least(before, job.stock)?.bound ?? 0);
      }
    }),
    { numRuns: 3, endOnFailure: true },
  );
  expect(Math.min(sags, costs, sheets)).toBeGreaterThan(0);
});

it('begun later, or with days off, a job never ends earlier', () => {
  let compared = 0;
  fc.assert(
    fc.property(anyHouse, fc.integer({ min: 1, max: 9 }), (house, days) => {
      const plan = planOfHouse(house);
      const on = (day: number): string => new Date(Date.UTC(2026, 10, 28 + day)).toISOString().slice(0, 10);
      const dated = (dates: Partial<Plan['dates']>) => workedOut({ ...plan, dates: { ...plan.dates, ...dates } });
      const endOf = ({ calendar }: Answer) => calendar.first * 1440 + calendar.finish;
      const before = dated({ start: on(0) });
      // a shorter evening also parts what is done in one go into shorter stretches, which may fit where the longer did not: so whole days
      const off = Array.from({ length: days }, (_, i) => on(2 + 3 * i));
      for (const after of [dated({ start: on(days) }), dated({ start: on(0), off })]) {
        if (before.calendar.impossible || after.calendar.impossible) continue;
        compared++;
        // what was found first may be bettered; what no order can better may not
        expect(endOf(after)).toBeGreaterThanOrEqual(before.calendar.first * 1440 + before.calendar.bound);
      }
    }),
    { numRuns: 4, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(0);
});
