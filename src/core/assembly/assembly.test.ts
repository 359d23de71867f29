import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildCase } from '../casework/index.ts';
import { AT_ORIGIN, firstOf, planOf } from '../casework/plan.testing.ts';
import { anyCase, builtOf } from '../casework/random.testing.ts';
import { type AssemblyPlan, type AssemblyStep, assemblySteps, jobAssembly } from './index.ts';
import { judge } from './laws.testing.ts';

/** Thousands more: `npm run bench -- assembly`. */
const RUNS = 80;

describe('the order of assembly of any case', () => {
  it('adds each part once, in a straight free move, with reachable fasteners and true gauges', () => {
    let [built, gauges, fasteners] = [0, 0, 0];
    fc.assert(
      fc.property(anyCase, (unspelt) => {
        const placed = builtOf(unspelt)?.placed;
        if (!placed) return;
        const assembly = assemblySteps(placed, { effort: 6 });
        const judged = judge(placed, assembly);
        expect(judged.faults).toEqual([]);
        built += 1;
        gauges += judged.gauges;
        fasteners += judged.fasteners;
      }),
      { numRuns: RUNS },
    );
    // a law that most cases escape would show little
    expect(built).toBeGreaterThan(RUNS / 2);
    expect(gauges).toBeGreaterThan(built);
    expect(fasteners).toBeGreaterThan(5 * built);
  });
});

describe('thin panels', () => {
  it('of any case are nailed from above when the case can be turned for it', () => {
    let [all, above] = [0, 0];
    fc.assert(
      fc.property(anyCase, (unspelt) => {
        const placed = builtOf(unspelt)?.placed;
        if (!placed) return;
        for (const step of assemblySteps(placed, { effort: 6 }).steps) {
          const thin = placed.parts.filter((p) => step.adds.includes(p.id) && p.role === 'back');
          if (thin.length === 0 || thin[0]!.size.thickness > 10 || step.fasteners.length === 0) continue;
          if (step.fasteners.some((f) => f.manner !== 'straight')) continue;
          all += 1;
          above += step.down === 'front' && step.fasteners.every((f) => f.from === 'back') ? 1 : 0;
        }
      }),
      { numRuns: RUNS },
    );
    expect(all).toBeGreaterThan(5);
    expect(above).toBe(all);
  });
});

describe('doors and drawer fronts', () => {
  it('of any case come straight on from the front, whatever would carry them on another way', () => {
    let all = 0;
    fc.assert(
      fc.property(anyCase, (unspelt) => {
        const placed = builtOf(unspelt)?.placed;
        if (!placed) return;
        const fronts = placed.parts.filter((p) => p.role === 'door' || p.role === 'drawer front');
        if (fronts.length === 0) return;
        const { steps } = assemblySteps(placed, { effort: 6 });
        for (const front of fronts) {
          const step = steps.find((s) => s.adds.includes(front.id))!;
          if (step.present.length === 0) continue;
          expect(step.moves, front.id).toBe('back');
          expect(step.down, front.id).not.toBe('front');
          all += 1;
        }
      }),
      { numRuns: 2 * RUNS },
    );
    expect(all).toBeGreaterThan(RUNS);
  });
});

describe('a plinth', () => {
  it('of any case is put to it where it does not have to be raised from the bench', () => {
    let all = 0;
    fc.assert(
      fc.property(anyCase, (unspelt) => {
        const placed = builtOf(unspelt)?.placed;
        if (!placed) return;
        const boxOf = new Map(placed.parts.map((p) => [p.id, p.solid.box]));
        for (const step of assemblySteps(placed, { effort: 6 }).steps) {
          if (step.asOne !== 'plinth' || step.present.length === 0) continue;
          all += 1;
          const lowest = (ids: readonly string[]): number => Math.min(...ids.map((id) => boxOf.get(id)!.min.y));
          if (step.down === 'down') expect(lowest(step.adds)).toBeGreaterThanOrEqual(lowest(step.present) - 20);
        }
      }),
      { numRuns: 2 * RUNS },
    );
    expect(all).toBeGreaterThan(5);
  });
});

/** A case small enough to follow by eye: two sides, bottom, top, one upright, a shelf at either side of it, a back let in. */
function bookcase() {
  const plan = planOf({
    panels: [
      { id: 'ply', thickness: '18 mm' },
      { id: 'thin', thickness: '6 mm' },
    ],
    make: { panel: 'ply', joint: 'dado', let: '6 mm', back: { kind: 'rabbeted', panel: 'thin' }, band: 'none' },
    pieces: [
      {
        case: 'books',
        size: { width: '900 mm', height: '800 mm', depth: '300 mm' },
        inside: { columns: [{ fixed: 1 }, { shelves: 1 }] },
      },
    ],
  });
  const { placed, issues } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  expect(issues).toEqual([]);
  return placed;
}
const PIECE = bookcase();
const PLAN = assemblySteps(PIECE);
const stepOf = (part: string): AssemblyStep => PLAN.steps.find((s) => s.adds.includes(`books/${part}`))!;

describe('a small bookcase', () => {
  it('is built in an order that no other beats', () => expect(PLAN.proven).toBe(true));
  it('gets its back last of the carcass: it squares what holds it', () => {
    const carcass = PLAN.steps.filter((s) => !s.adds.includes('books/bay-2/shelf-1'));
    expect(carcass.at(-1)!.adds).toEqual(['books/back']);
    expect(carcass.at(-1)!.moves).toBe('front');
  });
  it('gets its back nailed from above: the case lies on its face, so that nobody holds the back up meanwhile', () => {
    const back = stepOf('back');
    expect(back.down).toBe('front');
    expect(back.fasteners.length).toBeGreaterThan(0);
    for (const f of back.fasteners) expect(f.from).toBe('back');
  });
  it('gets its back fastened through the back, never into the edge of a panel 6 mm thick', () => {
    expect(stepOf('back').fasteners.map((f) => f.through)).not.toContain('books/left-side');
    for (const f of PLAN.steps.flatMap((s) => s.fasteners)) expect(f.into).not.toBe('books/back');
  });
  it('has its fixed shelf in before the second of the two panels it is let into', () => {
    const at = (part: string) => stepOf(part).number;
    expect(at('bay-1/fixed-shelf-1')).toBeLessThan(Math.max(at('left-side'), at('upright-1')));
  });
  it('is built alone as long as nobody says that its parts are heavy', () => {
    expect(PLAN.steps.filter((s) => s.helper)).toEqual([]);
    const heavy = assemblySteps(PIECE, { massOf: () => 30 });
    expect(heavy.steps.every((s) => s.helper)).toBe(true);
    expect(judge(PIECE, heavy, { massOf: () => 30 }).faults).toEqual([]);
  });
  it('says the same again', () => expect(assemblySteps(PIECE)).toEqual(PLAN));
});

describe('gauges', () => {
  it('rests a butted shelf on a loose part of just that width, and cuts a spacer when there is none', () => {
    const written = (extra: string) =>
      planOf({
        panels: [{ id: 'ply', thickness: '18 mm' }],
        make: { panel: 'ply', joint: 'butt', back: { kind: 'none' }, band: 'none' },
        pieces: [
          {
            case: 'rack',
            size: { width: '500 mm', height: '700 mm', depth: '300 mm' },
            inside: { fixed: [extra] },
          },
        ],
      });
    const built = (top: string) => {
      const plan = written(top);
      return buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN).placed;
    };
    // underside of the shelf 300 mm over the bottom: the depth of the case, and so the width of its panels
    const found = assemblySteps(built('318 mm')).steps.flatMap((s) => s.set.flatMap((l) => l.gauge ?? []));
    expect(found.map((g) => [g.from, g.distance, g.parts.map((p) => p.by)])).toContainEqual(['parts', 300, ['width']]);
    const cut = assemblySteps(built('251 mm'));
    expect(cut.spacers.length).toBeGreaterThan(0);
  });
  it('takes no part of a twin, which the last of them to be built has not', () => {
    const twin = { size: { width: 500, height: 700, depth: 300 }, toe: { height: 90 }, inside: { fixed: [318] } };
    const plan = planOf({
      panels: [{ id: 'ply', thickness: 18 }],
      make: { panel: 'ply', joint: 'butt', back: { kind: 'none' } },
      pieces: [
        { case: 'a', ...twin },
        { case: 'b', ...twin },
      ],
    });
    const pieces = plan.options[0]!.pieces.flatMap((p) => ('case' in p ? [buildCase(p, plan, AT_ORIGIN).placed] : []));
    const jobs = jobAssembly(pieces);
    expect(jobs.map(({ piece, alike }) => [piece.id, ...alike.map((p) => p.id)])).toEqual([['a', 'b']]);
    const lent = jobs[0]!.plan.steps.flatMap((s) => s.set.flatMap((l) => l.gauge?.parts ?? []));
    expect(lent.filter(({ part }) => part.startsWith('b/'))).toEqual([]);
  });
});

describe('the judge', () => {
  const change = (k: number, how: (step: AssemblyStep) => AssemblyStep): AssemblyPlan => ({
    ...PLAN,
    steps: PLAN.steps.map((s, i) => (i === k ? how(s) : s)),
  });
  const faults = (plan: AssemblyPlan) => judge(PIECE, plan).faults;
  const opposite = { left: 'right', right: 'left', up: 'down', down: 'up', front: 'back', back: 'front' } as const;
  const last = PLAN.steps.findIndex((s) => s.adds.includes('books/back'));

  it('finds nothing wrong with the plan itself', () => expect(faults(PLAN)).toEqual([]));
  it.each([
    ['a step left out', { ...PLAN, steps: PLAN.steps.filter((_, i) => i !== 2) }],
    [
      'two steps exchanged',
      { ...PLAN, steps: [PLAN.steps[0]!, PLAN.steps[2]!, PLAN.steps[1]!, ...PLAN.steps.slice(3)] },
    ],
    ['a part brought in from the wrong side', change(last, (s) => ({ ...s, moves: opposite[s.moves!] }))],
    ['a joint that is not fastened', change(last, (s) => ({ ...s, fasteners: s.fasteners.slice(1) }))],
    ['a joint that is not glued', change(last, (s) => ({ ...s, glue: s.glue.slice(1) }))],
    [
      'a brad driven from inside the wood',
      change(last, (s) => ({ ...s, fasteners: s.fasteners.map((f) => ({ ...f, from: opposite[f.from] })) })),
    ],
    ['a turn of the work that is not told', change(last, (s) => ({ ...s, turned: !s.turned }))],
    ['a brad driven from under the bench', change(last, (s) => ({ ...s, down: s.fasteners[0]!.from }))],
  ] as const)('finds %s', (_, plan) => expect(faults(plan)).not.toEqual([]));
});
