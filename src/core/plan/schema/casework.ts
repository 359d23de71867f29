import { z } from 'zod';
import type { Mm } from '../../quantity/index.ts';
import type { Values } from './values.ts';

export type SizeOrShare = Mm | { readonly share: number };

/** One opening of a case, and everything in it. Rows are listed from the top down, columns from left to right. */
export interface Bay {
  readonly name?: string | undefined;
  /** Clear width in a row of columns, clear height in a column of rows. */
  readonly width?: SizeOrShare | undefined;
  readonly height?: SizeOrShare | undefined;
  readonly columns?: readonly Bay[] | undefined;
  readonly rows?: readonly Bay[] | undefined;
  readonly open?: true | readonly SizeOrShare[] | undefined;
  readonly door?: 'left' | 'right' | 'pair' | 'up' | 'down' | undefined;
  readonly drawers?: number | readonly SizeOrShare[] | undefined;
  readonly fixed?: number | readonly Mm[] | undefined;
  readonly shelves?: number | undefined;
  readonly style?: 'inset' | 'overlay' | undefined;
  readonly heat?: number | undefined;
  readonly vent?: { readonly width: Mm; readonly height: Mm; readonly in: 'back' | 'door' } | undefined;
}

/** As written, before lengths are read. */
type BayWritten = { [K in keyof Bay]?: unknown };

export function baySchema(v: Values): z.ZodType<Bay, BayWritten> {
  const bay: z.ZodType<Bay, BayWritten> = z
    .lazy(() =>
      z
        .strictObject({
          name: z.string().max(60).optional(),
          width: v.sizeOrShare.optional().describe('clear width of this column, or its share'),
          height: v.sizeOrShare.optional().describe('clear height of this row, or its share'),
          columns: z.array(bay).min(1).max(24).optional().describe('divided by uprights, left to right'),
          rows: z.array(bay).min(1).max(24).optional().describe('divided by fixed shelves, from the top down'),
          open: z
            .union([z.literal(true), z.array(v.sizeOrShare).min(1).max(40)])
            .optional()
            .describe('open, or open rows of these clear heights with fixed shelves between, from the top down'),
          door: z
            .enum(['left', 'right', 'pair', 'up', 'down'])
            .optional()
            .describe('hinged at this side, or a pair; the rest of the bay lies behind it'),
          drawers: z
            .union([z.int().min(1).max(20), z.array(v.sizeOrShare).min(1).max(20)])
            .optional()
            .describe('how many, or their front heights from the top down'),
          fixed: z
            .union([z.int().min(0).max(40), z.array(v.positive).max(40)])
            .optional()
            .describe('fixed shelves: how many, evenly, or heights of their tops above the bay floor'),
          shelves: z.int().min(0).max(40).optional().describe('adjustable shelves on pins'),
          style: z
            .enum(['inset', 'overlay'])
            .optional()
            .describe('of this door or these drawers, where it differs from the case'),
          heat: z.number().min(0).max(5000).optional().describe('watts that gear in it draws'),
          vent: z
            .strictObject({
              width: v.positive,
              height: v.positive,
              in: z
                .enum(['back', 'door'])
                .default('back')
                .describe('what they are cut out of; in the back they want a hollow behind it'),
            })
            .optional()
            .describe('each of two vents, one low and one high, cut out of the bay; a grille leaves half of it open'),
        })
        .refine((b) => !(b.columns && b.rows), {
          error: 'a bay has columns or rows, not both: put one inside the other',
        })
        .refine(
          (b) => !(b.drawers !== undefined && (b.columns || b.rows || b.open || b.door || b.shelves || b.fixed)),
          {
            error: 'a bay of drawers holds nothing else',
          },
        ),
    )
    .meta({ id: 'Bay', description: 'one opening of a case, and everything in it' });
  return bay;
}

/** How cases are made. A case may override any of it; the plan's `make` gives its habits. */
export function makeSchema(v: Values) {
  return z
    .strictObject({
      panel: v.stockId.optional().describe('stock of the carcass'),
      joint: z.enum(['butt', 'rabbet', 'dado']).optional().describe('how bottoms, tops and dividers meet the sides'),
      let: v.positive.optional().describe('depth of rabbets, dadoes and grooves; left out: a third of the thickness'),
      capped: z.boolean().optional().describe('true: the top lies over the sides; false: it stands between them'),
      back: z
        .strictObject({
          kind: z.enum(['applied', 'rabbeted', 'grooved', 'none']).optional(),
          panel: v.stockId.optional(),
          inset: v.notNegative.optional().describe('of a grooved back: from the rear edge to the groove'),
        })
        .optional(),
      style: z.enum(['inset', 'overlay']).optional().describe('how doors and drawer fronts sit'),
      gap: v.notNegative.optional().describe('clearance round an inset front, and between fronts'),
      reveal: v.notNegative.optional().describe('how much of the carcass edge an overlay front leaves to be seen'),
      front: v.stockId.optional().describe('stock of doors and drawer fronts'),
      frame: z
        .union([
          z.literal('none'),
          z.strictObject({ board: v.stockId, stile: v.positive.optional(), rail: v.positive.optional() }),
        ])
        .optional()
        .describe('face frame: the board it is made of, and widths where they are narrower than the board'),
      band: z
        .union([z.literal('none'), v.stockId])
        .optional()
        .describe('edge band on edges that show'),
      setback: v.notNegative.optional().describe('of shelves behind the front edge of the sides'),
      play: v.notNegative.optional().describe('total side clearance of an adjustable shelf'),
      drawer: z
        .strictObject({
          panel: v.stockId.optional().describe('stock of the box sides'),
          bottom: v.stockId.optional().describe('stock of the box bottom'),
          side: v.notNegative.optional().describe('clearance for the slide at each side of the box'),
          above: v.notNegative.optional().describe('clearance above the box within its front'),
          below: v.notNegative.optional().describe('clearance below the box within its front'),
          rear: v.notNegative.optional().describe('clearance behind the box'),
          slides: z
            .array(v.positive)
            .optional()
            .describe('lengths the slides are sold in; the longest that fits is used'),
          groove: v.positive.optional().describe('of the bottom, above the lower edge of the sides'),
        })
        .optional(),
    })
    .meta({ id: 'Make', description: 'how cases are made' });
}

export function caseFields(v: Values, make: ReturnType<typeof makeSchema>) {
  return {
    toe: z
      .strictObject({
        height: v.positive,
        setback: v.notNegative.optional(),
        kind: z.enum(['notch', 'plinth']).default('notch').describe('cut out of the sides, or a separate base'),
        board: v.stockId.optional().describe('stock of the toe board or the plinth'),
      })
      .optional(),
    make: make.optional().describe("where this case differs from the plan's habits"),
    inside: baySchema(v).optional().describe('left out: one open bay'),
    rails: z
      .strictObject({
        stock: v.stockId,
        height: v.positive.optional().describe("left out: the board's width, or 90 mm of a panel"),
        at: z
          .enum(['both', 'top'])
          .default('both')
          .describe('under the top and above the bottom, or under the top alone'),
      })
      .optional()
      .describe('hanging rails behind a grooved back: the case is screwed to the wall through them'),
    top: z
      .strictObject({
        stock: v.stockId,
        front: v.notNegative.optional().describe('overhang'),
        left: v.notNegative.optional(),
        right: v.notNegative.optional(),
      })
      .optional()
      .describe('a separate top laid on the case; its thickness counts into the height'),
    ends: z
      .strictObject({ left: v.stockId.optional(), right: v.stockId.optional() })
      .optional()
      .describe('end panels laid on the sides; they count into the width'),
    fillers: z
      .strictObject({ left: v.positive.optional(), right: v.positive.optional() })
      .optional()
      .describe('strips between the case and the wall beside it, scribed; they count into the width'),
  };
}
