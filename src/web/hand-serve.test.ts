import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawLive, noSpots, type Page } from '../core/drawing/index.ts';
import { sceneFrom } from '../core/findings.ts';
import type { Note } from '../core/notes/index.ts';
import { findOption, packetInput } from '../core/outcome.ts';
import { applyToPlain, type Edit, type PlainValue, paperOf, planOf, readPlan } from '../core/plan/index.ts';
import { LIGHT } from '../print/palette.ts';
import { firstPages } from './first-pages.ts';
import type { FromHand, Lying, Pane, ToHand, Told } from './hand-protocol.ts';
import { serveHand } from './hand-serve.ts';
import { keepRough, work } from './work.ts';

const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plain = readPlan(text).document.plain as PlainValue;
const TODAY = '2026-10-02';
const option = planOf(plain).plan!.options[0]!;
const lying: Lying = {
  plain,
  option: option.id,
  page: 'elevation-north',
  register: [],
  found: undefined,
  today: TODAY,
  cutting: [],
};
const width = (mm: number): Edit => ({
  op: 'set',
  path: ['options', 0, 'pieces', 0, 'size', 'width'],
  value: `${mm} mm`,
});
const from = (mm: number): Edit => ({ op: 'set', path: ['options', 0, 'pieces', 0, 'from'], value: `${mm} mm` });

const pane: Pane = {
  ...{ width: 900, height: 600, scale: 4, corner: { x: 0, y: 0 }, clip: { x: 0, y: 0, width: 200, height: 150 } },
  ...{ inks: LIGHT, selected: undefined, note: undefined },
};

/** What a page has that is told of one state after another, and what is painted for it. */
function listener() {
  let painted: Page | undefined;
  const answers: FromHand[] = [];
  const serve = serveHand(
    (page) => {
      painted = page;
    },
    // through what stands between a worker and its page
    (message) => void answers.push(structuredClone(message)),
  );
  let revision = 0;
  let now: { readonly page: Page | undefined; readonly notes: readonly Note[]; readonly told: Told } | undefined;
  return (message: ToHand extends infer M ? (M extends ToHand ? Omit<M, 'revision'> : never) : never) => {
    serve(structuredClone({ ...message, revision: ++revision }) as ToHand);
    const [first, second] = answers.splice(0);
    expect([first?.type, second?.type]).toEqual(['told', 'done']);
    const told = first?.type === 'told' ? first.told : undefined;
    if (!told) return undefined;
    expect(second).toEqual({ type: 'done', revision, painted: painted !== undefined });
    for (const [problem, answer] of told.cutting) keepRough(problem, answer);
    now = {
      page: painted,
      notes: told.notes.map((note) => (typeof note === 'number' ? now!.notes[note]! : note)),
      told,
    };
    return now;
  };
}
/** The same worked out and drawn from nothing, but for the balloons, which stand where they stood as all lay there. */
function anew(edits: readonly Edit[]) {
  const spots = noSpots();
  drawnWith([], spots);
  return drawnWith(edits, spots);
}
function drawnWith(edits: readonly Edit[], spots = noSpots()) {
  const changed = applyToPlain(structuredClone(plain), edits);
  const { plan } = planOf(changed.ok ? changed.value : undefined);
  const { outcome } = work(plan!, findOption(plan!, option.id)!, TODAY, sceneFrom);
  const options = { paper: paperOf(plan!), spots };
  const page = drawLive(packetInput(outcome, [], TODAY), options, firstPages(outcome), lying.page)!;
  return { outcome, page };
}

/** How each balloon stands to the dot that it points at, by what it tells of. */
const balloonsOf = (page: Page): readonly string[] =>
  page.marks.flatMap((mark) => {
    if (mark.kind !== 'group') return [];
    const [dot, ring] = mark.marks.flatMap((m) => (m.kind === 'circle' ? [m] : []));
    if (!dot || !ring) return [];
    const [dx, dy] = [ring.centre.x - dot.centre.x, ring.centre.y - dot.centre.y];
    return [`${mark.about} ${dx.toFixed(3)} ${dy.toFixed(3)}`];
  });

describe('what is under the hand, told by a worker', () => {
  it('is what the page would work out and draw itself, whatever was told before', () => {
    const anyEdit = fc.oneof(
      fc.integer({ min: 700, max: 1500 }).map(width),
      fc.integer({ min: 0, max: 900 }).map(from),
    );
    const base = anew([]).outcome;
    fc.assert(
      fc.property(fc.array(anyEdit, { minLength: 1, maxLength: 4 }), (steps) => {
        const tell = listener();
        tell({ type: 'lies', lying });
        for (const edit of steps) {
          const heard = tell({ type: 'held', edits: [edit], pane })!;
          const { outcome, page } = anew([edit]);
          expect(heard.page).toEqual(page);
          expect(heard.told.tally).toEqual(outcome.tally);
          expect(heard.notes).toEqual(outcome.notes);
          // what is held, over what lies there
          const said = new Map(heard.told.pieces);
          expect(base.option.pieces.map((piece, i) => said.get(i) ?? piece)).toEqual(outcome.option.pieces);
          const stand = new Map(heard.told.standing.map((piece) => [piece.id, piece]));
          for (const { parts: _, joints: __, fittings: ___, ...piece } of outcome.pieces)
            if (piece.kind !== 'trim')
              expect({ ...base.pieces.find(({ id }) => id === piece.id), ...stand.get(piece.id) }).toMatchObject(piece);
        }
      }),
      { numRuns: 6 },
    );
  });

  it('tells little again of what stands still', () => {
    const tell = listener();
    tell({ type: 'lies', lying });
    tell({ type: 'held', edits: [from(300)], pane });
    const { told, notes } = tell({ type: 'held', edits: [from(312)], pane })!;
    expect(told.standing.length).toBeGreaterThan(0);
    expect(told.standing.length).toBeLessThan(0.3 * option.pieces.length);
    expect(told.notes.filter((note) => typeof note !== 'number').length).toBeLessThan(0.5 * notes.length);
  });

  it('goes on from what it told before a state that cannot be read', () => {
    const tell = listener();
    tell({ type: 'lies', lying });
    expect(tell({ type: 'held', edits: [{ ...width(900), value: 'wide' } as Edit], pane })).toBeUndefined();
    expect(tell({ type: 'held', edits: [width(905)], pane })!.page).toEqual(anew([width(905)]).page);
  });

  it('leaves the balloons of what stands still where they were', () => {
    const tell = listener();
    tell({ type: 'lies', lying });
    const before = balloonsOf(drawnWith([]).page);
    const same = (page: Page): number => balloonsOf(page).filter((one) => before.includes(one)).length;
    const steps = [160, 180, 200, 240, 280, 320].map(from);
    const sum = (pages: readonly Page[]): number => pages.reduce((all, page) => all + same(page), 0);
    const held = sum(steps.map((edit) => tell({ type: 'held', edits: [edit], pane })!.page!));
    expect(held).toBe(before.length * steps.length);
    // placed anew, some of them would have wandered
    expect(sum(steps.map((edit) => drawnWith([edit]).page))).toBeLessThan(held);
  });

  it('keeps the view where it lay', () => {
    const tell = listener();
    const { view } = anew([]).page;
    const hold = { ...view!, ratio: view!.ratio * 2 };
    tell({ type: 'lies', lying });
    expect(tell({ type: 'held', edits: [from(200)], hold, pane })!.page!.view).toEqual(hold);
  });

  it('says nothing of a page that it does not draw, and nothing before it knows what lies there', () => {
    expect(listener()({ type: 'lies', lying: { ...lying, page: 'cover' } })).toBeUndefined();
    expect(listener()({ type: 'held', edits: [], pane })).toBeUndefined();
  });

  it('takes away what it painted when nothing is held any more', () => {
    const tell = listener();
    tell({ type: 'lies', lying });
    expect(tell({ type: 'held', edits: [from(200)], pane })!.page).toBeDefined();
    expect(tell({ type: 'lies', lying })!.page).toBeUndefined();
  });
});
