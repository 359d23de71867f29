import { z } from 'zod';
import { cameraFields } from './camera.ts';
import { caseFields, type makeSchema } from './casework.ts';
import { lightFields } from './light.ts';
import { soundFields } from './sound.ts';
import type { Values } from './values.ts';
import { carriesSchema, fixSchema } from './wall.ts';

/** Where a piece stands or hangs. Facing its wall; heights above the floor. */
function placeFields(v: Values) {
  return {
    title: z.string().max(80).optional(),
    wall: v.id.optional(),
    from: v.length.optional().describe('its left end, from the left end of the wall'),
    after: v.id.optional().describe('the piece it stands to the right of'),
    gap: v.length.optional().describe('between it and the piece it stands after'),
    centre: v.length.optional().describe('its middle, from the left end of the wall, instead of `from`'),
    above: v.length.optional().describe('its lowest point above the floor'),
    on: v.id.optional().describe('the piece it stands on top of'),
    out: v.notNegative.optional().describe('its back, out from the wall'),
    at: z
      .strictObject({ x: v.length, y: v.length.describe('southward'), turn: z.number().min(-360).max(360).default(0) })
      .optional()
      .meta({
        id: 'FreePlace',
        description: 'free in the room: its rear left corner from the start of the first wall, and its turn clockwise',
      }),
    remark: z.string().max(400).optional(),
    fix: fixSchema(v).optional().describe('left out: screws into what is behind the board'),
  };
}

function sizeOf(v: Values) {
  return z
    .strictObject({ width: v.positive, height: v.positive, depth: v.positive })
    .meta({ id: 'Size', description: 'outside size' });
}

/** Every kind of piece, each known by its first key, whose value is its name: `case: scores`. */
export function pieceSchemas(v: Values, make: ReturnType<typeof makeSchema>) {
  const place = placeFields(v);
  const size = sizeOf(v);
  const light = lightFields(v);
  const sound = soundFields(v);
  return {
    case: z
      .strictObject({
        case: v.id,
        ...place,
        size: size.describe('outside, with toe, top, ends, fillers, frame and fronts; without overhangs'),
        ...caseFields(v, make),
        carries: carriesSchema.optional(),
      })
      .meta({ id: 'Case', description: 'a box of casework' }),
    shelf: z
      .strictObject({
        shelf: v.id.describe('a floating shelf: hollow, slid over rods fixed to the wall'),
        ...place,
        size,
        skin: v.stockId.describe('stock of the top and bottom skins'),
        core: v.stockId.optional().describe("stock of the spacers; left out: the skins'"),
        lip: z
          .strictObject({ stock: v.stockId, height: v.positive.optional() })
          .optional()
          .describe("front edge piece; left out: of the skins' stock"),
        ends: z.enum(['closed', 'open']).default('closed'),
        rods: z
          .strictObject({
            diameter: v.positive.optional(),
            length: v.positive.optional().describe('how far they reach out of the wall'),
            at: z.array(v.notNegative).optional().describe('from the left end of the shelf; left out: at the studs'),
            count: z.int().min(2).max(40).optional(),
            plate: v.positive.optional().describe('height of the wall plate, in a recess at the back'),
          })
          .optional(),
        play: v.notNegative.optional().describe('room for the shelf to slide sideways on its rods'),
        load: v.mass.optional().describe('what will stand on it'),
      })
      .meta({ id: 'Shelf', description: 'a floating shelf: hollow, slid over rods fixed to the wall' }),
    display: z
      .strictObject({
        display: v.id,
        ...place,
        size,
        mass: v.mass,
        mount: z
          .strictObject({
            kind: z.enum(['fixed', 'tilt', 'arm']).default('fixed'),
            holes: z
              .strictObject({ width: v.positive, height: v.positive })
              .optional()
              .describe('hole pattern on the back'),
            reach: v.positive.optional().describe('of an arm, from the wall to the back of the display'),
            plate: z.strictObject({ width: v.positive, height: v.positive }).optional(),
            mass: v.mass.optional(),
          })
          .optional(),
        heat: z.number().min(0).max(5000).optional().describe('watts'),
        bright: z.number().min(0).max(5000).optional().describe('mean of what it shows, cd/m²; left out: dark'),
        pixels: z.int().min(16).max(20_000).default(1920).describe('across'),
      })
      .meta({ id: 'Display', description: 'a screen on the wall' }),
    lining: z
      .strictObject({
        lining: v.id.describe('panels on a wall'),
        ...place,
        size: z.strictObject({ width: v.positive, height: v.positive }),
        panel: v.stockId,
        board: z
          .enum(['vertical', 'horizontal'])
          .default('vertical')
          .describe('how whole panels stand where one is not enough'),
        battens: z.strictObject({ board: v.stockId, spacing: v.positive }).optional(),
        gap: v.length.optional(),
        joint: v.notNegative.optional().describe('open joint between panels'),
        clear: v.notNegative.optional().describe('round sockets and openings'),
      })
      .meta({ id: 'Lining', description: 'panels on a wall' }),
    thing: z
      .strictObject({
        thing: v.id.describe('what the room has or will show: desk, chair, instrument, lamp'),
        ...place,
        size,
        mass: v.mass.optional(),
        colour: z.string().optional(),
        heat: z.number().min(0).max(5000).optional().describe('watts'),
        surface: z
          .string()
          .max(80)
          .optional()
          .describe('a surface material of the sound table, where it is upholstered: upholstered seats, empty'),
        places: z
          .array(z.strictObject({ name: z.string().max(60), at: place.at.unwrap() }))
          .optional()
          .describe('where else it may stand'),
        fixed: z.boolean().default(false).describe('cannot be moved'),
      })
      .meta({ id: 'Thing', description: 'what the room has or will show: desk, chair, instrument, lamp' }),
    strip: z
      .strictObject({
        strip: v.id.describe('a strip of lights on an edge, in bays or on a wall'),
        ...place,
        ...light.strip,
      })
      .meta({ id: 'Strip', description: 'a strip of lights on an edge, in bays or on a wall' }),
    lamp: z
      .strictObject({ lamp: v.id.describe('a lamp; without `above` it hangs at the ceiling'), ...place, ...light.lamp })
      .meta({ id: 'Lamp', description: 'a lamp that lights the room' }),
    absorber: z
      .strictObject({ absorber: v.id.describe('tiles on a wall that swallow sound'), ...place, ...sound.absorber })
      .meta({ id: 'Absorber', description: 'tiles on a wall that swallow sound' }),
    seat: z
      .strictObject({ seat: v.id.describe('where somebody sits, facing away from its back'), ...place, ...sound.seat })
      .meta({ id: 'Seat', description: 'where somebody sits' }),
    camera: z
      .strictObject({ camera: v.id.describe('a camera and where it looks'), ...place, ...cameraFields(v) })
      .meta({ id: 'Camera', description: 'a camera and where it looks' }),
  };
}
