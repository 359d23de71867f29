import { expect } from 'vitest';
import { withCures } from '../cures.ts';
import type { Note } from '../notes/index.ts';
import { type Scene, sceneOf } from '../outcome.ts';
import { applyToPlain, type Edit, type PlainValue, type Plan, planOf, readPlan } from '../plan/index.ts';

/** A plain room of 4 by 3 m with timber studs 400 apart from 200 on, behind 12.5 of board. */
export const roomOf = (
  pieces: string,
  {
    framing = '{kind: timber stud, spacing: 400, first: 200, board: 12.5}',
    room = '',
    option = '',
    stock = '',
  }: { framing?: string; room?: string; option?: string; stock?: string } = {},
) => `
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls:
    - {id: north, length: 4000, framing: ${framing}}
    - {id: east, length: 3000}
    - {id: south, length: 4000}
    - {id: west, length: 3000}
${room}
stock:
  panels:
    - {id: board, kind: chipboard, thickness: 18, sizes: [{length: 2800, width: 2070}]}
    - {id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}
    - {id: thin, kind: birch plywood, thickness: 6, sizes: [{length: 2440, width: 1220}]}
${stock}
make: {panel: ply, joint: dado, let: 6, back: {kind: rabbeted, panel: thin}, band: none}
options:
  - id: one
${option}
    pieces:
${pieces}
`;

export interface Known {
  readonly plan: Plan;
  readonly plain: PlainValue;
}
export function read(text: string): Known {
  const { plan, document, issues } = readPlan(text);
  if (!plan) throw new Error(JSON.stringify(issues));
  return { plan, plain: document.plain as PlainValue };
}

export function sceneIn(plan: Plan): Scene {
  const scene = sceneOf(plan, plan.options[0]!);
  expect(scene.issues).toEqual([]);
  return scene;
}
/** With the cures that are tried out. */
export function notesOf(plan: Plan): readonly Note[] {
  const scene = sceneIn(plan);
  return withCures(scene, scene.notes);
}
export const noteOn = (notes: readonly Note[], start: string): Note | undefined =>
  notes.find(({ id }) => id.startsWith(start));

/** The plan after a note's cure was applied to it. */
export function curedPlan(plain: PlainValue, { cure }: Note): Known {
  expect(cure).toBeDefined();
  const edited = applyToPlain(plain, cure!.edits as readonly Edit[]);
  if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
  const result = planOf(edited.value);
  if (!result.plan) throw new Error(JSON.stringify(result.issues));
  return { plan: result.plan, plain: edited.value };
}
export const cured = (plain: PlainValue, note: Note): readonly Note[] => notesOf(curedPlan(plain, note).plan);
