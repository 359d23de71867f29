import { z } from 'zod';
import type { Values } from './values.ts';

/** mm: in a plan in inches a bare 24 would be a lens of two feet, in one in metres of 24 m. Common practice. */
const LENS: readonly [number, number] = [1, 200];

export function cameraFields(v: Values) {
  return {
    size: z
      .strictObject({
        width: v.positive.prefault('130 mm'),
        height: v.positive.prefault('100 mm'),
        depth: v.positive.prefault('120 mm'),
      })
      .prefault({}),
    mass: v.mass.optional().describe('with its lens, and its arm where it hangs on a wall'),
    sensor: z
      .enum(['full frame', 'APS-C', 'four thirds', '1 inch', '1/2.3 inch'])
      .default('APS-C')
      .describe('size of the sensor'),
    focal: v.positive
      .refine((focal) => focal >= LENS[0] && focal <= LENS[1], {
        error: 'in a room a lens has 1 to 200 mm: write its unit, as in 24 mm',
      })
      .describe('focal length of the lens'),
    aspect: z.number().min(0.3).max(4).default(1.7778).describe('width of the picture over its height'),
    stop: z.number().min(0.7).max(64).default(4).describe('f-number'),
    shutter: z.number().min(1).max(10_000).default(50).describe('1/s of exposure: 50 is a fiftieth'),
    rate: z.number().min(1).max(1000).default(25).describe('pictures a second'),
    pixels: z.int().min(320).max(20_000).default(3840).describe('across the picture'),
    mains: z
      .union([z.literal(50), z.literal(60)])
      .default(50)
      .describe('Hz of the mains where the lamps are'),
    towards: z
      .strictObject({ x: v.length, y: v.length, above: v.notNegative })
      .optional()
      .describe('the point it looks at; left out: the middle of the faces'),
    microphone: z.boolean().default(true).describe('sound is taken here'),
  };
}
