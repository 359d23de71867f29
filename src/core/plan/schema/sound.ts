import { z } from 'zod';
import type { Values } from './values.ts';

/** Absorbers on a wall, and the places where people sit. */
export function soundFields(v: Values) {
  return {
    absorber: {
      size: z.strictObject({
        width: v.positive,
        height: v.positive,
        depth: v.positive.prefault('50 mm').describe('thickness of the tiles'),
      }),
      material: z
        .string()
        .max(80)
        .default('contoured open-cell foam 2 in')
        .describe('a surface material of the sound table'),
      tile: v.positive.prefault('12 in').describe('side of one tile'),
      between: v.notNegative.prefault(0).describe('free space between tiles'),
      backing: v.stockId
        .optional()
        .describe('panel the tiles are glued to, so that the wall is not spoiled: cut and bought with the rest'),
      clear: v.notNegative.prefault('10 mm').describe('round sockets and openings'),
      colour: z.string().optional(),
    },
    seat: {
      size: z
        .strictObject({
          width: v.positive.prefault('500 mm'),
          height: v.positive.prefault('450 mm').describe('of the seat above the floor'),
          depth: v.positive.prefault('500 mm'),
        })
        .prefault({}),
      sex: z.enum(['men', 'women']).default('men').describe('whose published sizes the sitter has'),
      percentile: z.number().min(5).max(95).default(50).describe('of their size among those'),
      talks: z.boolean().default(true).describe('heard by the microphone'),
      places: z
        .array(
          z.strictObject({
            name: z.string().max(60),
            at: z.strictObject({ x: v.length, y: v.length, turn: z.number().min(-360).max(360).default(0) }),
          }),
        )
        .optional()
        .describe('where else it may stand'),
    },
  };
}

/** What a face of the room other than a wall is made of. */
export const faceSchema = z
  .strictObject({
    surface: z
      .string()
      .max(80)
      .optional()
      .describe('a surface material of the sound table: carpet, heavy, on concrete'),
    colour: z
      .string()
      .regex(/^#[0-9a-fA-F]{6}$/, { error: 'expected a colour such as #d8c9a0' })
      .optional(),
  })
  .meta({ id: 'Face', description: 'floor or ceiling: what it is made of and its colour' });
