import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { PageView } from '../core/drawing/index.ts';
import { type Outcome, sceneOf } from '../core/outcome.ts';
import { applyToPlain, type PlainValue, type Plan, planOf, readPlan } from '../core/plan/index.ts';
import { dimensionOf, findPiece, type Side, sizedIn } from './arrange.ts';
import { type Extent, extentIn } from './handles.ts';
import { type Hand, moved, type Pulled, sidesOf, stretched } from './pull.ts';

const sceneIn = (plan: Plan) => sceneOf(plan, plan.options[0]!);
const rooms = ['lesson-room', 'radio-corner'].map((name) => {
  const { plan, document } = readPlan(
    readFileSync(join(import.meta.dirname, `../../examples/${name}.plan.yaml`), 'utf8'),
  );
  return { plain: document.plain as PlainValue, scene: sceneIn(plan!) };
});
const viewOf = (wall?: string): PageView => ({
  kind: wall === undefined ? 'plan' : 'elevation',
  ...(wall !== undefined && { wall }),
  origin: { x: 0, y: 0 },
  ratio: 20,
  area: { x: 0, y: 0, width: 400, height: 250 },
});
/** Everything that can be taken hold of, in its elevation and in the plan. */
const held = rooms.flatMap((room) =>
  room.scene.pieces.flatMap((piece) => {
    if (piece.kind === 'trim' || !findPiece(room.scene, piece.id)) return [];
    return [undefined, ...(piece.wall ? [piece.wall.id] : [])].map((wall) => ({
      room,
      name: piece.id,
      view: viewOf(wall),
    }));
  }),
);
const handOn = ({ room, name }: (typeof held)[number], side?: Side): Hand => ({
  found: findPiece(room.scene, name)!,
  outcome: room.scene as Outcome,
  side,
  x: 0,
  y: 0,
  perPixel: 5,
  edits: [],
  moved: false,
});
/** Where it stands after the edits; undefined where the plan would not be sound. */
function standsAt({ room, name, view }: (typeof held)[number], { edits }: Pulled): Extent | undefined {
  const changed = applyToPlain(room.plain, edits);
  const plan = changed.ok ? planOf(changed.value).plan : undefined;
  if (!plan) return undefined;
  const after = sceneIn(plan);
  const piece = after.pieces.find((p) => p.id === name);
  return piece && extentIn(view, after.room, piece);
}
function expectThere(of: (typeof held)[number], pulled: Pulled): void {
  const { comesTo } = pulled.guide;
  const there = pulled.edits.length > 0 ? standsAt(of, pulled) : undefined;
  if (pulled.edits.length === 0) expect(comesTo).toBeUndefined();
  if (!there) return;
  for (const side of ['u', 'v'] as const)
    for (const end of [0, 1] as const)
      expect(comesTo![side][end], `${of.name} ${side}`).toBeCloseTo(there[side][end], 1);
}
const by = fc.integer({ min: -900, max: 900 });
const reach = fc.constantFrom(0, 35);

/** Each of them a few times. */
const RUNS = { numRuns: 4 };

it('frames what is moved where it comes to, in every view', () => {
  for (const of of held)
    fc.assert(
      fc.property(by, by, reach, (du, dv, r) => expectThere(of, moved(handOn(of), of.view, du, dv, r))),
      RUNS,
    );
});

it('frames what is pulled at a side as large as it gets', () => {
  for (const of of held) {
    const { piece, placed } = findPiece(of.room.scene, of.name)!;
    const sides = sidesOf(of.view, placed!).filter((side) => sizedIn(piece).includes(dimensionOf(side)));
    for (const side of sides)
      fc.assert(
        fc.property(by, by, reach, (du, dv, r) =>
          expectThere(of, stretched(handOn(of, side), of.view, side, du, dv, r)),
        ),
        RUNS,
      );
  }
});
