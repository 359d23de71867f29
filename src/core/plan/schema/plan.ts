import { z } from 'zod';
import { LENGTH_UNITS } from '../../quantity/index.ts';
import { makeSchema } from './casework.ts';
import { datesSchema } from './dates.ts';
import { paintSchema, repaintSchema } from './light.ts';
import { pieceSchemas } from './pieces.ts';
import { roomSchema } from './room.ts';
import { shopSchema, stockSchema } from './stock.ts';
import { makeValues, type Readers } from './values.ts';
import { finishSchema, inWallSchemas } from './wall.ts';

/** The papers a packet can be printed on. */
export const PAPER_NAMES = ['A4', 'A3', 'Letter', 'Tabloid'] as const;
export type PaperName = (typeof PAPER_NAMES)[number];

export const PLAN_VERSION = 1;

/** How lengths and money are written. Read before everything else, since bare numbers depend on it. */
export const unitsSchema = z
  .strictObject({
    length: z.enum(LENGTH_UNITS).describe('unit of bare numbers (inches with ft-in), and of what is printed'),
    fraction: z
      .enum(['1/1', '1/2', '1/4', '1/8', '1/16', '1/32', '1/64', '1/128'])
      .optional()
      .describe('finest fraction of an inch that is printed; left out: 1/32'),
    decimals: z
      .int()
      .min(0)
      .max(4)
      .optional()
      .describe('decimals printed in metric; left out: 1 in mm, 2 in cm, 4 in m, a tenth of a millimetre'),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, { error: 'expected a currency code such as USD or EUR' })
      .default('USD')
      .describe('ISO 4217'),
  })
  .meta({ id: 'Units', description: 'how lengths and money are written' });
export type Units = z.output<typeof unitsSchema>;

/** The fewest and the most that a plan has of them. */
export const OPTIONS = { fewest: 1, most: 40 } as const;
export const PIECES = { fewest: 0, most: 500 } as const;

/** The whole document, for one way of writing quantities. */
export function planSchema(readers: Readers) {
  const v = makeValues(readers);
  const make = makeSchema(v);
  const { case: caseOf, shelf, display, lining, thing, strip, lamp, absorber, seat, camera } = pieceSchemas(v, make);
  const piece = z.union([caseOf, shelf, display, lining, thing, strip, lamp, absorber, seat, camera]);
  const inWall = inWallSchemas(v);
  const option = z
    .strictObject({
      id: v.id,
      title: z.string().max(80).optional(),
      remark: z.string().max(2000).optional(),
      pieces: z.array(piece).max(PIECES.most).prefault([]),
      paint: repaintSchema.optional().describe('what this option paints the room in'),
      finish: finishSchema(v).optional(),
      boxes: z.array(inWall.box).max(200).optional().describe('boxes let into the walls'),
      cables: z.array(inWall.cable).max(200).optional().describe('cables in or on the walls'),
    })
    .meta({ id: 'Option', description: 'one complete design; options are compared, one is built' });
  return z.strictObject({
    setwright: z.literal(PLAN_VERSION).describe('version of this file format'),
    title: z.string().max(120).default('Untitled'),
    units: unitsSchema,
    remark: z.string().max(4000).optional(),
    room: roomSchema(v),
    stock: stockSchema(v).prefault({}),
    shop: shopSchema(v).prefault({}),
    make: make.prefault({}).describe('how cases are made unless one says otherwise'),
    options: z
      .array(option)
      .min(OPTIONS.fewest, { error: 'a plan has at least one option' })
      .max(OPTIONS.most)
      .describe('the designs that are compared'),
    build: v.id.optional().describe('the option that is built; left out: the first'),
    paints: z.array(paintSchema).max(200).optional().describe('paints to compare by the light they leave on a face'),
    dates: datesSchema(v).prefault({}),
    paper: z.enum(PAPER_NAMES).optional().describe('left out: Letter with inches, A4 with metric'),
  });
}
export type PlanSchema = ReturnType<typeof planSchema>;
/** A plan as read: every length in mm, every default filled in. */
export type Plan = z.output<PlanSchema>;
export type Option = Plan['options'][number];
export type Piece = Option['pieces'][number];
export type CasePiece = Extract<Piece, { case: string }>;
export type ShelfPiece = Extract<Piece, { shelf: string }>;
export type DisplayPiece = Extract<Piece, { display: string }>;
export type LiningPiece = Extract<Piece, { lining: string }>;
export type ThingPiece = Extract<Piece, { thing: string }>;
export type StripPiece = Extract<Piece, { strip: string }>;
export type LampPiece = Extract<Piece, { lamp: string }>;
export type AbsorberPiece = Extract<Piece, { absorber: string }>;
export type SeatPiece = Extract<Piece, { seat: string }>;
export type CameraPiece = Extract<Piece, { camera: string }>;
export type Room = Plan['room'];
export type Wall = Room['walls'][number];
export type Stock = Plan['stock'];
export type PanelStockItem = Stock['panels'][number];
export type BoardStockItem = Stock['boards'][number];
export type PackItem = Stock['packs'][number];
export type Make = Plan['make'];
export type Dates = Plan['dates'];

/** The kinds of piece, by the key that names each. */
export const PIECE_KINDS = [
  'case',
  'shelf',
  'display',
  'lining',
  'thing',
  'strip',
  'lamp',
  'absorber',
  'seat',
  'camera',
] as const;
export type PieceKind = (typeof PIECE_KINDS)[number];
export function kindOf(piece: Piece): PieceKind {
  // asked many times of every piece in each frame of a drag
  for (const kind of PIECE_KINDS) if (kind in piece) return kind;
  throw new Error('a piece of no kind');
}
/** A piece's own name, whatever its kind. */
export const nameOf = (piece: Piece): string => (piece as unknown as Record<PieceKind, string>)[kindOf(piece)];
