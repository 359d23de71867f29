import { z } from 'zod';
import { weekSchema } from './dates.ts';
import type { Values } from './values.ts';

/** What can be bought, at whose price of which day, and what the rack holds. */
export function stockSchema(v: Values) {
  const offer = {
    price: v.money.optional().describe('for one; left out: not known, which is noted, never taken as nothing'),
    supplier: v.id.optional(),
    date: v.date.optional().describe('the day the price was true'),
    count: v.count.optional().describe('how many there are; left out: as many as wanted'),
  };
  const panel = z
    .strictObject({
      id: v.stockId,
      name: z.string().max(120).optional(),
      kind: z
        .string()
        .optional()
        .describe('what it is made of, for mass and stiffness: birch plywood, MDF, particleboard …'),
      thickness: v.positive.describe('actual, as measured'),
      nominal: v.words.optional().describe('as it is sold: 3/4'),
      grain: z
        .enum(['length', 'width', 'none'])
        .default('length')
        .describe('along which side of the panel the grain runs'),
      density: z.number().positive().optional().describe('kg/m³, where it is known better than the handbook'),
      colour: z.string().optional(),
      sizes: z
        .array(
          z
            .strictObject({ length: v.positive, width: v.positive, ...offer })
            .meta({ id: 'PanelSize', description: 'one size a panel is sold in' }),
        )
        .prefault([]),
    })
    .meta({ id: 'Panel', description: 'sheet goods, sold in whole panels' });
  const board = z
    .strictObject({
      id: v.stockId,
      name: z.string().max(120).optional(),
      species: z.string().optional(),
      nominal: v.words.optional().describe('as it is sold: 1x4; gives the dressed size of the published standard'),
      thickness: v.positive.optional().describe('actual; overrides the nominal size'),
      width: v.positive.optional().describe('actual; overrides the nominal size'),
      moulding: z.string().optional().describe('of a moulding: what it is for'),
      density: z.number().positive().optional(),
      colour: z.string().optional(),
      lengths: z
        .array(
          z
            .strictObject({ length: v.positive, ...offer })
            .meta({ id: 'BoardLength', description: 'one length a board is sold in' }),
        )
        .prefault([]),
    })
    .meta({ id: 'Board', description: 'boards and mouldings, sold by length' });
  const pack = z
    .strictObject({
      id: v.stockId,
      name: z.string().max(120).optional(),
      use: z
        .string()
        .describe(
          'what it serves for: screw, front screw (from behind into a drawer front, a lid or an end panel), brad, glue, edge band, hinge, flap stay, drawer slide, shelf pin, rod, paint, primer …',
        ),
      holds: z
        .union([v.count, z.string()])
        .default(1)
        .describe('how much is in one: a count, or a length, area, volume or mass: 25 ft, 1 gal'),
      thickness: v.notNegative.optional().describe('of an edge band'),
      width: v.positive.optional(),
      ...offer,
    })
    .meta({ id: 'Pack', description: 'what is sold by the pack: screws, glue, edge band, paint' });
  const offcut = z
    .strictObject({
      id: v.stockId.optional(),
      stock: v.stockId.describe('the panel or board it is a piece of'),
      length: v.positive,
      width: v.positive
        .optional()
        .describe('of a piece of panel, or of a board ripped narrower; left out: the whole board'),
      count: v.count.default(1),
      where: z.string().optional(),
    })
    .meta({ id: 'Offcut', description: 'what the rack already holds; used first' });
  return z
    .strictObject({
      tax: z.number().min(0).max(100).default(0).describe('percent added to every price'),
      stale: z.int().min(1).default(180).describe('days after which a price is old'),
      suppliers: z
        .array(
          z
            .strictObject({
              id: v.id,
              name: z.string().max(120).optional(),
              remark: z.string().optional(),
              open: weekSchema.optional().describe('opening hours; left out: whenever the maker works'),
              lead: z.int().min(0).max(365).default(0).describe('days from ordering to fetching'),
            })
            .meta({ id: 'Supplier', description: 'who sells' }),
        )
        .prefault([]),
      panels: z.array(panel).prefault([]),
      boards: z.array(board).prefault([]),
      packs: z.array(pack).prefault([]),
      rack: z.array(offcut).prefault([]),
    })
    .meta({ id: 'Stock', description: 'what can be bought, at whose price of which day, and what the rack holds' });
}

/** The shop and the hands in it: what limits the cutting, the carrying and the days. */
/** mm: in a plan in metres a bare 3.2 would be three metres of every cut. Common practice. */
const WIDEST_KERF = 25.4;

export function shopSchema(v: Values) {
  return z
    .strictObject({
      kerf: v.notNegative
        .refine((kerf) => kerf <= WIDEST_KERF, { error: 'no blade takes more than 1 in (25.4 mm)' })
        .optional()
        .describe('what the blade takes; left out: 1/8" or 3.2 mm'),
      trim: v.notNegative
        .optional()
        .describe('taken off each edge of a bought panel before cutting; left out: nothing'),
      ends: v.notNegative.optional().describe('taken off each end of a bought board; left out: nothing'),
      rip: v.positive.optional().describe('widest rip the saw can make'),
      table: z
        .strictObject({ length: v.positive, width: v.positive })
        .optional()
        .describe('the largest piece the saw table carries'),
      track: v.positive.optional().describe('longest cut with the guided hand saw'),
      crosscut: v.positive.optional().describe('widest board the mitre saw cuts'),
      lift: v.mass
        .optional()
        .describe('what one person will handle; left out: 23 kg, the load constant of the lifting equation'),
      keep: v.positive.optional().describe('offcuts with both sides shorter than this are waste; left out: 150 mm'),
      hands: z.int().min(1).max(8).default(1).describe('people working'),
      pace: z.number().positive().max(10).default(1).describe("this maker's time over the usual time"),
    })
    .meta({
      id: 'Shop',
      description: 'the shop and the hands in it: what limits the cutting, the carrying and the days',
    });
}
