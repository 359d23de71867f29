import { z } from 'zod';
import type { Values } from './values.ts';

/** What the ultimate figures of toggles, anchors and plugs are divided by, where a plan says nothing. Common practice of their makers. */
export const USUAL_SAFETY = 4;

/** What holds a piece to the wall, where the usual choice is not wanted. */
export function fixSchema(v: Values) {
  return z
    .strictObject({
      kind: z
        .enum(['wood screw', 'lag screw', 'self-drilling screw', 'toggle', 'hollow-wall anchor', 'plug'])
        .describe('screws want framing behind the board; toggles and anchors hold in the board, plugs in masonry'),
      diameter: v.positive.optional().describe('of a screw: its shank'),
      length: v.positive.optional().describe('of a screw, from under its head to its point'),
      rated: z
        .strictObject({
          pull: v.mass.describe('ultimate pull straight out, as a mass'),
          shear: v.mass.describe('ultimate load along the wall, as a mass'),
        })
        .optional()
        .describe("the maker's ultimate figures for one, in this board or masonry; of a toggle, an anchor or a plug"),
      safety: z
        .number()
        .min(1)
        .max(20)
        .optional()
        .describe(`what the maker's ultimate figures are divided by; left out: ${USUAL_SAFETY}`),
      count: z.int().min(1).max(40).optional().describe('how many, of the plate of a display; left out: as it asks'),
      at: z.array(v.notNegative).max(40).optional().describe('from the left end of the piece; left out: at the studs'),
      heights: z.array(v.notNegative).max(10).optional().describe('above the lowest point of the piece'),
    })
    .meta({ id: 'Fix', description: 'what holds a piece to the wall' });
}

/** Timber let in between the studs behind the board, so that a fixing finds wood where there is no stud. */
export function blockingSchema(v: Values) {
  return z
    .strictObject({
      from: v.notNegative.describe('its left end, from the left end of the wall'),
      to: v.positive.describe('its right end'),
      above: v.notNegative.describe('its lower edge above the floor'),
      height: v.positive.describe('from its lower to its upper edge'),
      thickness: v.positive.describe('into the wall'),
      species: z.string().optional().describe('wood, for the strength of screws; left out: spruce-pine-fir'),
      new: z
        .boolean()
        .optional()
        .describe(
          'true: let in for this job, so it is bought and put in before the walls are painted; left out: it is there',
        ),
    })
    .meta({ id: 'Blocking', description: 'timber let in behind the board to take fixings' });
}

export const carriesSchema = z
  .enum(['books', 'gear', 'light things'])
  .describe('what stands on the shelves, for their design load; left out: gear');

/** What is done to the walls and where the work meets them, once the pieces stand. */
export function finishSchema(v: Values) {
  return z
    .strictObject({
      skirting: v.stockId
        .optional()
        .describe('board that runs round the room at the floor, mitred at corners; left out: none is bought'),
      scribe: v.stockId
        .optional()
        .describe('thin board or moulding that covers the gap between cases and wall; left out: caulk only'),
      walls: z
        .union([z.literal('all'), z.array(v.id).max(200)])
        .optional()
        .describe('walls that are painted; left out: none'),
      coats: z.int().min(1).max(6).optional().describe('coats of paint; left out: 2'),
    })
    .meta({
      id: 'Finish',
      description: 'mouldings, patching and paint of an option: cut, counted and bought with the rest',
    });
}

/** What runs in or on the walls to feed and join the gear. */
export function inWallSchemas(v: Values) {
  const box = z
    .strictObject({
      id: v.id,
      wall: v.id,
      at: v.notNegative.describe('its centre, from the left end of the wall'),
      height: v.notNegative.describe('its centre, above the floor'),
      carries: z.enum(['mains', 'signal']).describe('mains and signal never share a box'),
      width: v.positive.optional().describe('of the hole in the board; left out: 2-1/4" or 57 mm'),
      tall: v.positive.optional().describe('left out: 3-3/4" or 95 mm'),
      depth: v.positive.optional().describe('behind the face of the board; left out: 2-3/4" or 70 mm'),
    })
    .meta({ id: 'WallBox', description: 'a box let into a wall for sockets or signal cables' });
  const cable = z
    .strictObject({
      id: v.id,
      from: v.id.describe('a box, a service of the room, or a piece'),
      to: v.id,
      carries: z
        .enum(['mains cable', 'plug cord', 'signal'])
        .describe('mains cable is installed by an electrician; a plug cord or an extension never runs in a wall'),
      route: z.enum(['in the wall', 'on the wall']).default('in the wall'),
      rated: z
        .boolean()
        .default(false)
        .describe('of a signal cable: marked for use inside walls (CL2, CL3, CM or what the local code names)'),
      diameter: v.positive.optional().describe('over its sheath; left out: 8 mm'),
    })
    .meta({ id: 'Cable', description: 'a cable between boxes, sockets and gear' });
  return { box, cable };
}
