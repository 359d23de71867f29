import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Cut, makeBill, makeTally, partMass } from '../bill/index.ts';
import { buildPiece, wallBehindPiece } from '../casework/index.ts';
import { solveLengths, solvePanels } from '../cutting/index.ts';
import { conflictNotes } from '../fit/index.ts';
import type { Note } from '../notes/index.ts';
import { nameOf, type Option, type Plan, printersFor, readPlan } from '../plan/index.ts';
import { placePieces, placeRoom } from '../room/index.ts';
import { cutJobs } from '../stock/index.ts';
import type { PacketInput } from './input.ts';

export type Example = 'lesson-room' | 'radio-corner';
export const EXAMPLES: readonly Example[] = ['lesson-room', 'radio-corner'];

export function examplePlan(name: Example): Plan {
  // A bundled benchmark does not lie where this file does; its runner says where the project is.
  const root = process.env.SETWRIGHT_ROOT ? `${process.env.SETWRIGHT_ROOT}/` : new URL('../../../', import.meta.url);
  const file = fileURLToPath(new URL(`examples/${name}.plan.yaml`, root));
  const { plan, issues } = readPlan(readFileSync(file, 'utf8'));
  if (!plan) throw new Error(JSON.stringify(issues));
  return plan;
}

/** A whole example as packet input, put together without the outcome, so that drawing is tested by itself. */
export function exampleInput(name: Example, optionId?: string): PacketInput {
  const plan = examplePlan(name);
  const option = plan.options.find((o) => o.id === (optionId ?? plan.build)) ?? plan.options[0]!;
  const worked = plan.options.map((o) => ({ option: o, input: inputOf(plan, o) }));
  const own = worked.find((w) => w.option === option)!.input;
  const others = worked.filter((w) => w.option !== option);
  return { ...own, others: others.map(({ option: o, input }) => ({ title: o.title ?? o.id, tally: input.tally })) };
}

/** One wall, one case of two bays: small enough that a stored drawing of it can be read by eye. */
export const SMALL_PLAN = `
setwright: 1
title: Small room
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls:
    - {id: long, length: 2600, framing: {kind: timber stud, at: [300, 900, 1500, 2100]}}
    - {id: right, length: 2000}
    - {id: far, length: 2600}
    - {id: left, length: 2000}
  openings: [{id: window, wall: long, kind: window, from: 1500, width: 800, sill: 1000, height: 1000}]
  services: [{id: socket, wall: long, kind: outlet, at: 200, height: 300}]
stock:
  panels:
    - {id: ply 18, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220, price: 60.00, date: 2026-11-01}]}
    - {id: ply 6, kind: birch plywood, thickness: 6, sizes: [{length: 2440, width: 1220, price: 25.00, date: 2026-11-01}]}
make: {panel: ply 18, joint: dado, let: 6, back: {kind: rabbeted, panel: ply 6}, front: ply 18, style: inset, gap: 2, band: none}
options:
  - id: one
    pieces:
      - case: music
        title: Music case
        wall: long
        from: 400
        size: {width: 900, height: 800, depth: 350}
        inside: {columns: [{width: 1*, open: [1*, 1*]}, {width: 1*, door: right}]}
`;
export function smallInput(): PacketInput {
  const { plan, issues } = readPlan(SMALL_PLAN);
  if (!plan) throw new Error(JSON.stringify(issues));
  return inputOf(plan, plan.options[0]!);
}

export function inputOf(plan: Plan, option: Option): PacketInput {
  const { room } = placeRoom(plan.room);
  const { places } = placePieces(option, room);
  const pieces = option.pieces.flatMap((piece) => {
    const place = places.get(nameOf(piece));
    return place ? [buildPiece(piece, plan, place, wallBehindPiece(room, place)).placed] : [];
  });
  const parts = pieces.flatMap((p) => p.parts);
  const cuts = cutJobs(parts, plan).flatMap((job): readonly Cut[] =>
    job.from === 'panel'
      ? [{ job, answer: solvePanels(job.problem, { steps: 200 }) }]
      : [{ job, answer: solveLengths(job.problem, { steps: 200 }) }],
  );
  const today = '2026-11-25';
  const bill = makeBill({ plan, pieces, parts, fittings: pieces.flatMap((p) => p.fittings), cuts, today });
  const show = printersFor(plan.units).length;
  const notes: readonly Note[] = [...conflictNotes(room, pieces, { show }), ...bill.notes];
  const tally = makeTally({ plan, pieces, parts, cuts, bill, notes });
  const byId = new Map(parts.map((p) => [p.id, p]));
  return {
    plan,
    option,
    room,
    pieces,
    notes,
    cuts,
    bill,
    tally,
    massOf: (id) => {
      const part = byId.get(id);
      return part && partMass(part, plan);
    },
    date: today,
  };
}
