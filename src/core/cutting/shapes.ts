import { z } from 'zod';
import type { LengthAnswer, LengthProblem, PanelAnswer, PanelProblem } from './problem.ts';

/**
 * What a neutral cutting problem looks like as JSON. Only the shape is judged here (is there a length, is it a number); whether the
 * numbers make sense the solver says, so that a list of problems is answered line by line. Fields not known are passed over.
 */
const count = z.number().nullable();
const panelProblem = z.object({
  name: z.string(),
  kind: z.literal('panels'),
  kerf: z.number().default(0),
  trim: z.number().default(0),
  stock: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      width: z.number(),
      cost: z.number().default(1),
      count: count.default(null),
    }),
  ),
  parts: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      width: z.number(),
      count: z.number().default(1),
      turn: z.boolean().default(false),
    }),
  ),
});
const stretch = z.object({ from: z.number(), to: z.number() });
const lengthProblem = z.object({
  name: z.string(),
  kind: z.literal('lengths'),
  kerf: z.number().default(0),
  trim: z.number().default(0),
  stock: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      cost: z.number().default(1),
      count: count.default(null),
      unusable: z.array(stretch).exactOptional(),
    }),
  ),
  parts: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      count: z.number().default(1),
      ends: z.tuple([z.number(), z.number()]).exactOptional(),
      faceWidth: z.number().exactOptional(),
    }),
  ),
});

export type CutProblem = PanelProblem | LengthProblem;
export const CUTTING_SHAPES: { readonly panels: z.ZodType<PanelProblem>; readonly lengths: z.ZodType<LengthProblem> } =
  {
    panels: panelProblem,
    lengths: lengthProblem,
  };

/** One answer as one line. `seconds` is what the caller's clock says; the core has none. */
export function writeCutAnswer(answer: PanelAnswer | LengthAnswer, seconds?: number): string {
  const time = seconds === undefined ? {} : { seconds: Math.round(seconds * 1000) / 1000 };
  if (answer.status === 'infeasible') return JSON.stringify({ ...answer, ...time });
  const { name, kind, status, cost, bound, steps, layouts, cutShort } = answer;
  return JSON.stringify({ name, kind, status, cost, bound, steps, ...time, ...(cutShort && { cutShort }), layouts });
}
