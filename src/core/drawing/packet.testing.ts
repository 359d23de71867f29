import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildCase } from '../casework/index.ts';
import { box, boxAt, vec } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import { kindOf, nameOf, type Option, type Plan, readPlan } from '../plan/index.ts';
import { placePieces, placeRoom, sizeOf } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import type { PacketInput } from './input.ts';

export type Example = 'lesson-room' | 'radio-corner';

export function examplePlan(name: Example): Plan {
  const file = fileURLToPath(new URL(`../../../examples/${name}.plan.yaml`, import.meta.url));
  const { plan, issues } = readPlan(readFileSync(file, 'utf8'));
  if (!plan) throw new Error(JSON.stringify(issues));
  return plan;
}

/** A whole example as packet input, without the topics that come after the parts. */
export function exampleInput(name: Example, optionId?: string): PacketInput {
  const plan = examplePlan(name);
  const option = plan.options.find((o) => o.id === (optionId ?? plan.build)) ?? plan.options[0]!;
  return inputOf(plan, option);
}

export function inputOf(plan: Plan, option: Option): PacketInput {
  const { room } = placeRoom(plan.room);
  const { places } = placePieces(option, room);
  const pieces = option.pieces.flatMap((piece): readonly PlacedPiece[] => {
    const place = places.get(nameOf(piece));
    if (!place) return [];
    if ('case' in piece) return [{ ...buildCase(piece, plan, place).placed, ...(place.wall && { wall: place.wall }) }];
    const { width, height, depth } = sizeOf(piece);
    return [
      {
        id: nameOf(piece),
        kind: kindOf(piece),
        title: piece.title ?? nameOf(piece),
        frame: place.frame,
        outside: depth > 0 ? boxAt(0, 0, 0, width, height, depth) : box(vec(0, 0, 0), vec(width, height, 18)),
        ...(place.wall && { wall: place.wall }),
        needs: [],
        parts: [],
        joints: [],
        fittings: [],
        bays: [],
      },
    ];
  });
  const notes = pieces.flatMap((p, i) => sampleNotes(p, i));
  const parts = pieces.reduce((sum, p) => sum + p.parts.length, 0);
  const tally = {
    cost: 148_260,
    panels: 7,
    boards: 5,
    cuts: 64,
    parts,
    mass: 181,
    heaviest: 31.4,
    hours: 42,
    stops: 1,
    cautions: 4,
  };
  return {
    plan,
    option,
    room,
    pieces,
    notes,
    panels: [],
    boards: [],
    tally,
    others: plan.options
      .filter((o) => o !== option)
      .map((o) => ({ title: o.title ?? o.id, tally: { ...tally, cost: 171_115, panels: 9 } })),
    date: '2026-11-25',
  };
}

/** Made up, to have something of each kind to draw. */
function sampleNotes(piece: PlacedPiece, i: number): readonly Note[] {
  const verdict = (['caution', 'stop', 'fine', 'caution'] as const)[i % 4]!;
  return [
    {
      id: `sample:${piece.id}`,
      about: piece.parts[i]?.id ?? piece.id,
      verdict,
      title: verdict === 'fine' ? `${piece.title} goes through the door` : `${piece.title} stands before the outlet`,
      advice:
        verdict === 'fine'
          ? 'Checked upright and on its side; 38 mm to spare.'
          : 'Cut the back out round it and bring the box forward with an extender, or move the piece 120 mm to the right. Wiring is for a licensed electrician.',
    },
  ];
}
