import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { solidsOf } from '../core/outcome.ts';
import {
  applyEdits,
  applyToPlain,
  type Edit,
  PIECE_KINDS,
  type PlainValue,
  type Plan,
  planOf,
  readPlan,
} from '../core/plan/index.ts';
import { type Found, findPiece, placeEdits, type Scene, sizeEdits } from './arrange.ts';
import { bayPath, divideEdits, dropEdits, fillEdits, joinEdits } from './bays.ts';
import { addEdits, copyEdits, mirrorEdits, otherSide, removeEdits } from './whole-pieces.ts';

/** What a hand does on the page, by three numbers: which piece, which of its bays, how far. */
type Gesture = (scene: Scene, plain: PlainValue, found: Found, n: number, far: number) => readonly Edit[];
const inBay =
  (edits: (plain: PlainValue, path: NonNullable<ReturnType<typeof bayPath>>, n: number) => readonly Edit[]): Gesture =>
  (_, plain, { placed, path }, n) => {
    const bays = placed?.bays ?? [];
    const at = bays.length === 0 ? undefined : bayPath(plain, path, bays[n % bays.length]!.id);
    return at ? edits(plain, at, n) : [];
  };
const GESTURES: Readonly<Record<string, Gesture>> = {
  move: (scene, _, found, __, far) => placeEdits(scene, found, { along: far }),
  size: (scene, _, found, n, far) =>
    sizeEdits(scene, found, (['right', 'left', 'top'] as const)[n % 3]!, far / 8 - 150),
  copy: (scene, plain, found) => copyEdits(scene, plain, found).edits,
  remove: (scene, plain, found) => removeEdits(scene, plain, found),
  mirror: (_, plain, found) => mirrorEdits(plain, found),
  'other side': (scene, _, found) => {
    const to = otherSide(scene, found);
    return to ? placeEdits(scene, found, to) : [];
  },
  add: (scene, plain, _, n) =>
    addEdits(scene, PIECE_KINDS[n % PIECE_KINDS.length]!, scene.room.walls[n % scene.room.walls.length]!.id, plain)
      .edits,
  door: inBay((plain, path, n) => fillEdits(plain, path, { kind: 'door', door: 'left', shelves: n % 3 })),
  drawers: inBay((plain, path, n) => fillEdits(plain, path, { kind: 'drawers', drawers: 1 + (n % 3) })),
  shelves: inBay((plain, path, n) => fillEdits(plain, path, { kind: 'open', fixed: n % 3, shelves: n % 2 })),
  divide: inBay((plain, path, n) => divideEdits(plain, path, n % 2 ? 'rows' : 'columns', 2 + (n % 2))),
  drop: inBay((plain, path) => dropEdits(plain, path)),
  join: inBay((plain, path) => joinEdits(plain, path)),
  title: (_, __, { path }, n) => [{ op: 'set', path: [...path, 'title'], value: `No. ${n}: "new" # and so on` }],
};

const IN_BAYS: ReadonlySet<string> = new Set(['door', 'drawers', 'shelves', 'divide', 'drop', 'join']);

const sceneOf = (plan: Plan): Scene => {
  const { room, pieces } = solidsOf(plan, plan.options[0]!);
  return { plan, option: plan.options[0]!, room, pieces };
};

it.each(['lesson-room', 'radio-corner'])(
  'whatever a hand does to the %s, its text reads as what was done, and undone it is the text it was, to the last byte',
  (name) => {
    const first = readFileSync(join(import.meta.dirname, `../../examples/${name}.plan.yaml`), 'utf8');
    const done = new Map<string, number>();
    const anyStep = fc.tuple(fc.constantFrom(...Object.keys(GESTURES)), fc.nat(99), fc.nat(99), fc.nat(3000));
    fc.assert(
      fc.property(fc.array(anyStep, { minLength: 5, maxLength: 10 }), (steps) => {
        const texts = [first];
        const inverses: (readonly Edit[])[] = [];
        for (const [kind, which, n, far] of steps) {
          const text = texts.at(-1)!;
          const read = readPlan(text);
          const scene = sceneOf(read.plan!);
          // bays are in cases
          const asked = IN_BAYS.has(kind) ? scene.pieces.filter((p) => p.kind === 'case') : scene.pieces;
          const names = asked.map((p) => p.id);
          const found = findPiece(scene, names[which % names.length]);
          const plain = read.document.plain as PlainValue;
          const edits = found ? GESTURES[kind]!(scene, plain, found, n, far) : [];
          const meant = applyToPlain(plain, edits);
          // what the page would refuse is not written either
          if (edits.length === 0 || !meant.ok || !planOf(meant.value).plan) continue;
          const edited = applyEdits(text, edits);
          if (!edited.ok) throw new Error(edited.issues[0]!.message);
          const again = readPlan(edited.value.text);
          expect(again.issues).toEqual([]);
          expect(again.document.plain).toEqual(meant.value);
          expect(again.plan).toEqual(planOf(meant.value).plan);
          texts.push(edited.value.text);
          inverses.push(edited.value.inverse);
          done.set(kind, (done.get(kind) ?? 0) + 1);
        }
        const redo: (readonly Edit[])[] = [];
        const step = (from: string, edits: readonly Edit[], to: string): readonly Edit[] => {
          const result = applyEdits(from, edits);
          if (!result.ok) throw new Error(result.issues[0]!.message);
          expect(result.value.text).toBe(to);
          return result.value.inverse;
        };
        for (let i = inverses.length; i > 0; i--) redo.unshift(step(texts[i]!, inverses[i - 1]!, texts[i - 1]!));
        redo.forEach((edits, i) => {
          step(texts[i]!, edits, texts[i + 1]!);
        });
      }),
      { numRuns: 8, endOnFailure: true },
    );
    expect(done.size).toBeGreaterThan(10);
  },
);
