import { z } from 'zod';
import type { Edit, PlainValue } from '../core/plan/index.ts';
import type {
  NewPlan,
  NewPrice,
  NewTick,
  PairRequest,
  PriceImport,
  PriceRequest,
  RackImport,
  RestoreRequest,
  SaveRequest,
  Supplier,
  TickRequest,
} from '../core/workspace/index.ts';
import { Refused } from './refusal.ts';

// the pages run under a strict content policy, and the server has no need of code made at run time either
z.config({ jitless: true });

const MOST_CHARACTERS = 1_000_000;
const MOST_DEPTH = 60;

const line = (most: number) =>
  z
    .string()
    .max(most)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    .regex(/^[^\u0000-\u001f\u007f\u2028\u2029]*$/);
const id = z.string().regex(/^[\w.:-]{1,64}$/);
const text = z.string().max(MOST_CHARACTERS);
/** As long as a body may be: who reads the table says in its own words that it is too large. */
const table = z.string();
const number = z.int().min(0).max(1e9);
const path = z.array(z.union([z.string().max(200), z.int().min(0).max(100_000)])).max(MOST_DEPTH);
const instant = z.iso.datetime({ offset: true });
const day = z.iso.date();
/** Plain data of bounded depth. JSON has made it, so there is nothing in it but what JSON can say. */
const value = z.custom<PlainValue>((v) => v !== undefined && isShallow(v), { error: 'nested too deep' });

const edit: z.ZodType<Edit> = z.discriminatedUnion('op', [
  z.strictObject({ op: z.literal('set'), path, value }),
  z.strictObject({ op: z.literal('remove'), path }),
  z.strictObject({ op: z.literal('insert'), path, value }),
  z.strictObject({ op: z.literal('move'), from: path, path }),
  z.strictObject({ op: z.literal('text'), at: z.int().min(0).max(MOST_CHARACTERS), old: text, new: text }),
]);

const saveParts = {
  base: number,
  baseHash: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
  madeOn: text.optional(),
  id: id.optional(),
  evenIfWrong: z.boolean().optional(),
};
const tick = z.strictObject({
  id,
  about: line(300).refine((s) => s !== ''),
  done: z.boolean(),
  at: instant,
});
const price = z.strictObject({
  id,
  stock: line(120),
  size: line(120),
  supplier: line(120),
  price: line(40),
  currency: line(3),
  date: day,
  remark: line(500).optional(),
  withdrawn: z.boolean().optional(),
});

/** The bodies of the requests; what is not said here is refused. */
export const bodies = {
  pair: z.strictObject({ code: z.string().max(40), device: line(60).refine((s) => s.trim() !== '') }),
  newPlan: z.strictObject({ name: z.string().max(200), text }),
  save: z.union([
    z.strictObject({ ...saveParts, text }),
    z.strictObject({ ...saveParts, edits: z.array(edit).max(2000) }),
  ]),
  restore: z.strictObject({ revision: number, base: number, id: id.optional() }),
  rack: z.strictObject({ csv: table, base: number, id: id.optional() }),
  ticks: z.strictObject({ ticks: z.array(tick).min(1).max(500), sent: instant.optional() }),
  prices: z.strictObject({ prices: z.array(price).min(1).max(1000) }),
  priceImport: z.strictObject({
    csv: table,
    currency: z.string().regex(/^[A-Z]{3}$/),
    date: day,
    dryRun: z.boolean().optional(),
  }),
  supplier: z.strictObject({
    id: line(60).refine((s) => s.trim() !== ''),
    name: line(120),
    remark: line(500).optional(),
  }),
};

/** What the protocol promises of each body; the assignment keeps the two from drifting apart. */
interface Bodies {
  pair: PairRequest;
  newPlan: NewPlan;
  save: SaveRequest;
  restore: RestoreRequest;
  rack: RackImport;
  ticks: TickRequest;
  prices: PriceRequest;
  priceImport: PriceImport;
  supplier: Supplier;
}

export type { NewPrice, NewTick };

/** A body of its kind, or a refusal that says what is wrong with it. */
export function bodyOf<K extends keyof Bodies>(kind: K, body: unknown): Bodies[K] {
  const read = bodies[kind].safeParse(body);
  if (read.success) return withoutUndefined(read.data) as Bodies[K];
  throw new Refused('bad-request', 'The request is not as it should be.', {
    issues: read.error.issues.slice(0, 20).map((issue) => ({
      path: issue.path.map((step) => (typeof step === 'number' ? step : String(step))),
      message: issue.message,
    })),
  });
}
const withoutUndefined = (data: object): object =>
  Object.fromEntries(Object.entries(data).filter(([, v]) => v !== undefined));

function isShallow(whole: unknown): boolean {
  const stack: { readonly at: unknown; readonly depth: number }[] = [{ at: whole, depth: 0 }];
  for (let step = stack.pop(); step; step = stack.pop()) {
    if (typeof step.at !== 'object' || step.at === null) continue;
    if (step.depth >= MOST_DEPTH) return false;
    for (const inner of Object.values(step.at)) stack.push({ at: inner, depth: step.depth + 1 });
  }
  return true;
}

/** A whole number from a query, within its bounds; undefined when it is left out. */
export function wholeNumber(
  written: string | undefined,
  what: string,
  least: number,
  most: number,
): number | undefined {
  if (written === undefined) return undefined;
  const n = /^\d{1,10}$/.test(written) ? Number(written) : Number.NaN;
  if (!(n >= least && n <= most))
    throw new Refused('bad-request', `${what} is a whole number from ${least} to ${most}.`);
  return n;
}
