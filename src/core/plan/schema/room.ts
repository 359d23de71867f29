import { z } from 'zod';
import { faceSchema } from './sound.ts';
import type { Values } from './values.ts';
import { blockingSchema } from './wall.ts';

/** The room as measured: walls clockwise seen from above, each known from inside, left to right. */
export function roomSchema(v: Values) {
  const framing = z
    .strictObject({
      kind: z
        .enum(['timber stud', 'steel stud', 'masonry', 'unknown'])
        .describe('what carries the wall behind its face'),
      spacing: v.positive.optional().describe('centre to centre of the studs'),
      first: v.notNegative.optional().describe('centre of the first stud from the left end of the wall'),
      at: z
        .array(v.notNegative)
        .optional()
        .describe('measured centres of the studs from the left end; they override the spacing'),
      width: v.positive.optional().describe('face width of a stud; left out: 1-1/2" for timber, 1-1/4" for steel'),
      depth: v.positive.optional().describe('depth of the stud, the space inside the wall'),
      mils: z
        .number()
        .min(15)
        .max(120)
        .optional()
        .describe('base steel thickness of steel studs in mils: 18, 27, 30, 33, 43, 54, 68, 97'),
      species: z.string().optional().describe('species of timber studs, for the strength of screws'),
      masonry: z
        .enum(['solid brick', 'hollow brick', 'concrete', 'aerated concrete', 'hollow block', 'stone'])
        .optional(),
      board: v.notNegative.optional().describe('thickness of the board or plaster on the inside face'),
      blocking: z.array(blockingSchema(v)).max(40).optional().describe('timber let in between the studs'),
    })
    .meta({ id: 'Framing', description: 'what is behind the face of the wall' });
  const wall = z
    .strictObject({
      id: v.id,
      length: v.positive.describe('measured on the inside face at the floor'),
      corner: v.angle
        .default(90)
        .describe(
          'inside angle at the right end of the wall, where the next one begins: 90 square, 270 an outer corner',
        ),
      height: v.positive.optional().describe('where it differs from the ceiling of the room'),
      framing: framing.optional(),
      surface: z.string().optional().describe('what it is finished with now: painted board, wallpaper, brick'),
      colour: z
        .string()
        .regex(/^#[0-9a-fA-F]{6}$/, { error: 'expected a colour such as #d8c9a0' })
        .optional(),
    })
    .meta({ id: 'Wall', description: 'one straight wall, known from inside' });
  const opening = z
    .strictObject({
      id: v.id.optional(),
      wall: v.id,
      kind: z.enum(['door', 'window', 'opening']),
      from: v.notNegative.describe('its left edge, from the left end of the wall'),
      width: v.positive,
      height: v.positive,
      sill: v.notNegative.prefault(0).describe('height of its lower edge above the floor'),
      trim: v.notNegative.prefault(0).describe('width of the casing around it'),
      hinge: z.enum(['left', 'right']).optional().describe('of a door, seen from inside the room'),
      swing: z.enum(['in', 'out']).optional().describe('of a door: into this room or out of it'),
      daylight: z
        .number()
        .min(0)
        .max(100_000)
        .optional()
        .describe('lux on the outside of its glass, where pictures are taken by day; left out: evening'),
    })
    .meta({ id: 'Opening', description: 'a door, a window or an open passage' });
  const service = z
    .strictObject({
      id: v.id.optional(),
      wall: v.id,
      kind: z.enum(['outlet', 'switch', 'data', 'vent', 'return', 'radiator', 'thermostat', 'valve', 'other']),
      at: v.notNegative.describe('its centre, from the left end of the wall'),
      height: v.notNegative.describe('its centre, above the floor'),
      width: v.positive.optional(),
      tall: v.positive.optional(),
      depth: v.notNegative.optional().describe('how far it stands out of the wall'),
      clear: v.notNegative.optional().describe('space to keep free in front of it'),
    })
    .meta({ id: 'Service', description: 'what is fixed in or on a wall and must stay reachable' });
  const survey = z
    .strictObject({
      wall: v.id,
      height: v.notNegative.describe('of the straightedge or line above the floor'),
      offsets: v.along(
        'gap between the straight line and the wall, by distance from the left end; less is nearer the room',
      ),
    })
    .meta({ id: 'Survey', description: 'how straight a wall is: gaps to a straight line held along it' });
  const floor = z
    .strictObject({
      wall: v.id,
      out: v.notNegative.prefault(0).describe('distance from the wall at which it was measured'),
      drops: v.along('how far the floor is below a level line, by distance from the left end'),
    })
    .meta({ id: 'Floor', description: 'how level the floor is along a wall' });
  return z
    .strictObject({
      ceiling: v.positive.describe('height of the ceiling above the floor'),
      built: z
        .int()
        .min(1000)
        .max(2200)
        .optional()
        .describe('year the house was built, for cautions on old paint and boards'),
      walls: z.array(wall).min(3, { error: 'a room has at least 3 walls' }).max(200),
      faces: z
        .strictObject({ floor: faceSchema.optional(), ceiling: faceSchema.optional() })
        .optional()
        .describe('what floor and ceiling are made of'),
      openings: z.array(opening).prefault([]),
      services: z.array(service).prefault([]),
      survey: z.array(survey).prefault([]),
      floor: z.array(floor).prefault([]),
      door: z
        .strictObject({ width: v.positive, height: v.positive })
        .optional()
        .describe('the narrowest door or passage on the way in'),
      hall: z
        .strictObject({ width: v.positive, turn: v.positive.optional() })
        .optional()
        .describe('width of the hall, and of the part it turns into'),
      vehicle: z
        .strictObject({ length: v.positive, width: v.positive, height: v.positive })
        .optional()
        .describe('load space that must carry the panels'),
    })
    .meta({ id: 'Room', description: 'the room as measured' });
}
