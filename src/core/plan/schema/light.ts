import { z } from 'zod';
import type { Values } from './values.ts';

/** A colour as it is seen by daylight. */
export const colour = z
  .string()
  .regex(/^#[0-9a-fA-F]{6}$/, { error: 'expected a colour such as #d8c9a0' })
  .meta({ id: 'Colour', description: 'a colour by daylight: #d8c9a0' });

/** What a lamp, a strip and a place of the room may be called in the plan, beside where it is. */
export function lightFields(v: Values) {
  return {
    strip: {
      along: v.id
        .optional()
        .describe('the case or shelf whose front edges it follows: one length for each open bay, or under the shelf'),
      size: z
        .strictObject({
          width: v.positive.prefault('1000 mm').describe('its length, where it does not follow a piece'),
          height: v.positive.prefault('10 mm'),
          depth: v.positive.prefault('17 mm'),
        })
        .prefault({})
        .describe('of the channel it lies in'),
      pixel: z.string().max(60).default('5 V RGB, typical').describe('kind of light, one of the table of lights'),
      perMetre: z.number().min(1).max(400).default(60).describe('lights to the metre'),
      level: z.number().min(0).max(1).default(1).describe('how bright it is run: 1 is full white'),
      lumens: z.number().min(0).max(10_000).optional().describe('per metre at full white; left out: it lights nothing'),
      kelvin: z.number().min(1500).max(20_000).default(4000).describe('colour temperature of what it shows'),
      supply: v.id.optional().describe('the outlet its supply stands at; left out: the nearest'),
    },
    lamp: {
      size: z
        .strictObject({
          width: v.positive.prefault('600 mm'),
          height: v.positive.prefault('60 mm'),
          depth: v.positive.prefault('600 mm'),
        })
        .prefault({}),
      mass: v.mass.optional(),
      lumens: z.number().positive().max(200_000).describe('of the whole fitting'),
      kelvin: z.number().min(1500).max(20_000).default(4000).describe('colour temperature'),
      shape: z
        .enum(['diffuse', 'beam', 'all round'])
        .default('diffuse')
        .describe('a panel that shines one way, a beam, or a bulb that shines every way'),
      angle: z
        .number()
        .min(2)
        .max(170)
        .default(40)
        .describe('of a beam: degrees between the ways of half its strength'),
      towards: z
        .strictObject({ x: v.length, y: v.length, above: v.notNegative })
        .optional()
        .describe('a point of the room it shines at; left out: straight down'),
      flicker: z
        .strictObject({
          frequency: z.number().positive().max(1e6).describe('Hz of its dimmer'),
          duty: z.number().min(0.01).max(1).default(0.5).describe('share of the time it is lit'),
        })
        .optional()
        .describe('of a dimmer that switches it on and off; left out: steady'),
    },
  };
}

/** Paint an option asks for, and the paints that could be had. */
export const repaintSchema = z
  .strictObject({
    walls: colour.optional(),
    ceiling: colour.optional(),
    floor: colour.optional(),
  })
  .meta({ id: 'Repaint', description: 'colours an option paints the room in; what is left out stays as it is' });
export const paintSchema = z
  .strictObject({ name: z.string().max(60), colour })
  .meta({ id: 'Paint', description: 'a paint that could be had, to compare on the light page' });
