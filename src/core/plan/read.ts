import type { z } from 'zod';
import type { Issue } from '../issue/index.ts';
import { type PlanDocument, readDocument } from './document.ts';
import type { PlainValue } from './edit/edit.ts';
import { explainFaults, foundText, type Told, valueAt } from './faults.ts';
import { MIGRATIONS, type Migration, migrate } from './migrate.ts';
import { readersFor } from './readers.ts';
import { checkReferences } from './references.ts';
import { OPTIONS, PIECES, PLAN_VERSION, type Plan, type PlanSchema, planSchema, unitsSchema } from './schema/plan.ts';
import type { Readers } from './schema/values.ts';

export interface ReadOptions {
  /** Named in every issue. */
  readonly file?: string;
}
export interface PlanRead {
  /** There is a plan when there are no issues, and only then: a file is read whole or refused whole. */
  readonly plan?: Plan;
  /** Everything that is wrong with the file, in the order of its lines. */
  readonly issues: readonly Issue[];
  readonly document: PlanDocument;
}

/**
 * Reads the text of a plan file: YAML 1.2, then the version, then every field, then the names that lead from one to another.
 * A file of a newer version than this program knows is refused untouched; an older one is brought up to date in memory.
 * Whatever the text is, it never throws.
 */
export function readPlan(text: string, options: ReadOptions = {}): PlanRead {
  return readVersions(text, options, PLAN_VERSION, MIGRATIONS);
}

/** The same for any run of versions, so that migration can be tested while there is only one. */
export function readVersions(
  text: string,
  { file }: ReadOptions,
  version: number,
  migrations: readonly Migration[],
): PlanRead {
  const { document, issues: before } = readDocument(text);
  const finish = (issues: readonly Told[], plan?: Plan): PlanRead => {
    const placed = inOrder(issues.map((issue) => located(issue, document, file)));
    return placed.length === 0 && plan ? { plan, issues: [], document } : { issues: placed, document };
  };
  if (document.plain === undefined) return finish(before);

  const written = valueAt(document.plain, ['setwright']);
  if (typeof written === 'number' && written > version)
    return finish([
      {
        path: ['setwright'],
        message: 'this plan is newer than the program; it is left untouched',
        found: foundText(written),
        expected: `version ${version} or older, or a newer program`,
      },
    ]);
  let plain = document.plain;
  if (typeof written === 'number' && Number.isInteger(written) && written >= 1 && written < version) {
    const migrated = migrate(plain as PlainValue, written, version, migrations);
    if (!migrated.ok) return finish([...before, ...migrated.issues]);
    plain = migrated.value.plain;
  }
  // a later version of the schema is for later; the fixture of the tests counts on to the version this program writes
  if (version !== PLAN_VERSION) plain = { ...(plain as object), setwright: PLAN_VERSION };

  const { plan, told } = judged(plain);
  return finish([...before, ...told], plan);
}

/** A plan from plain data of this version, as it is after an edit: the same checks without a file, so without places. */
export function planOf(plain: unknown): { readonly plan?: Plan; readonly issues: readonly Issue[] } {
  const { plan, told } = judged(plain);
  return { ...(plan && { plan }), issues: told.map(({ at, ...issue }) => issue) };
}

function judged(plain: unknown): { readonly plan?: Plan; readonly told: readonly Told[] } {
  const schema = schemaFor(plain);
  const again = readAgain(schema, plain);
  const read = again ? { success: true as const, data: again } : schema.safeParse(plain);
  const told = [...(read.success ? [] : explainFaults(read.error.issues, plain, schema)), ...checkReferences(plain)];
  return read.success && told.length === 0 ? { plan: read.data, told } : { told };
}

type Memory = WeakMap<object, unknown>;
const memories = new WeakMap<z.ZodType, Memory>();

/**
 * The same written value, read by the same schema, is the same value again. Edits as data leave what they do not touch as it is, so of a
 * plan under the hand only the piece that is held is read anew; everything made of the others stays as well. A value without a fault is
 * put together as the whole schema would; whatever it might refuse is undefined here, and the whole schema says why.
 */
function readAgain(schema: PlanSchema, plain: unknown): Plan | undefined {
  if (!isFields(plain) || Object.keys(plain).some((key) => !Object.hasOwn(schema.shape, key))) return undefined;
  const options = schema.shape.options.element;
  const pieces = options.shape.pieces.unwrap();
  const plan: Record<string, unknown> = {};
  const take = (into: Record<string, unknown>, key: string, part: z.ZodType, value: unknown): boolean => {
    const read = remembered(part, value);
    if (read && read.value !== undefined) into[key] = read.value;
    return read !== undefined;
  };
  for (const [key, part] of Object.entries(schema.shape)) {
    if (key !== 'options') {
      if (!take(plan, key, part, plain[key])) return undefined;
      continue;
    }
    const written = plain[key];
    if (!Array.isArray(written) || !isWithin(OPTIONS, written.length)) return undefined;
    const read = written.map((option: unknown) => {
      const list = isFields(option) ? option.pieces : undefined;
      if (!isFields(option) || !Array.isArray(list) || !isWithin(PIECES, list.length))
        return remembered(options, option)?.value;
      const around = options.safeParse({ ...option, pieces: [] });
      if (!around.success) return undefined;
      const all = list.map((piece) => remembered(pieces.element, piece)?.value);
      return all.includes(undefined) ? undefined : { ...around.data, pieces: all };
    });
    if (read.includes(undefined)) return undefined;
    plan[key] = read;
  }
  return plan as Plan;
}

/** The schema's own limits of a list, which is not read as a whole here. */
const isWithin = ({ fewest, most }: { readonly fewest: number; readonly most: number }, length: number): boolean =>
  fewest <= length && length <= most;

function remembered(schema: z.ZodType, written: unknown): { readonly value: unknown } | undefined {
  if (typeof written !== 'object' || written === null) {
    const read = schema.safeParse(written);
    return read.success ? { value: read.data } : undefined;
  }
  let memory = memories.get(schema);
  if (!memory) {
    memory = new WeakMap();
    memories.set(schema, memory);
  }
  if (!memory.has(written)) {
    const read = schema.safeParse(written);
    if (!read.success) return undefined;
    memory.set(written, read.data);
  }
  return { value: memory.get(written) };
}

const isFields = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Built once for each way of writing quantities. Where the units themselves cannot be read the rest is still checked: bare
 * lengths are then taken for millimetres and amounts of money for right, since the plan is refused anyway.
 */
const schemas = new Map<string, PlanSchema>();
function schemaFor(plain: unknown): PlanSchema {
  const units = valueAt(plain, ['units']);
  const length = unitsSchema.shape.length.safeParse(valueAt(units, ['length']));
  const currency = unitsSchema.shape.currency.safeParse(valueAt(units, ['currency']));
  const key = `${length.data ?? ''}/${currency.data ?? ''}`;
  const known = schemas.get(key);
  if (known) return known;
  const readers = readersFor({ length: length.data ?? 'mm', currency: currency.data ?? 'XXX' });
  const anyMoney: Readers['money'] = () => ({ ok: true, value: 0 as never });
  const schema = planSchema(currency.success ? readers : { ...readers, money: anyMoney });
  if (schemas.size >= 50) schemas.clear();
  schemas.set(key, schema);
  return schema;
}

function located({ at, ...issue }: Told, document: PlanDocument, file: string | undefined): Issue {
  const place =
    issue.place ??
    (at === 'parent'
      ? document.place(issue.path.slice(0, -1), 'key')
      : document.place(issue.path, at === 'key' ? 'key' : 'value'));
  return { ...(file === undefined ? {} : { file }), ...(place ? { place } : {}), ...issue };
}

/** By line and column, each said once. */
function inOrder(issues: readonly Issue[]): readonly Issue[] {
  const seen = new Set<string>();
  return issues
    .filter((issue) => {
      const key = JSON.stringify([issue.place, issue.path, issue.message]);
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => (a.place?.line ?? 0) - (b.place?.line ?? 0) || (a.place?.column ?? 0) - (b.place?.column ?? 0));
}
