import { fail, type Issue, nearest, ok, type Result } from '../issue/index.ts';
import { type AnyCalculator, type CheckRow, type InputSpec, originText, type Working } from '../notes/index.ts';
import {
  CANONICAL_UNIT,
  convert,
  convertTo,
  DIMENSIONS,
  findUnit,
  formatQuantity,
  parseQuantities,
  parseQuantity,
} from '../quantity/index.ts';

/** Inputs as a person types them, or numbers already in the canonical unit of each input. */
export type TypedInputs = Readonly<Record<string, string | number>>;
type Value = number | string | readonly number[] | undefined;

/** Case, spaces, underscores and hyphens do not matter in the name of a calculator or an input. */
const key = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');

export function findIn(register: readonly AnyCalculator[], name: string): Result<AnyCalculator> {
  const found = register.find((calculator) => calculator.name === key(name));
  if (found) return ok(found);
  const near = nearest(
    key(name),
    register.map((calculator) => calculator.name),
  );
  return fail({
    path: [],
    message: 'there is no calculator of this name',
    found: `'${name}'`,
    ...(near === undefined ? {} : { nearest: near }),
  });
}

/** Reads the typed inputs against the calculator's declaration, every fault at once, and does the sum. */
export function reckonWith(calculator: AnyCalculator, typed: TypedInputs): Result<Working> {
  const specs: readonly (readonly [string, InputSpec])[] = Object.entries(
    calculator.inputs as Record<string, InputSpec>,
  );
  const names = specs.map(([name]) => name);
  const issues: Issue[] = [];
  const given = new Map<string, string | number>();
  for (const [name, text] of Object.entries(typed)) {
    const known = names.find((candidate) => key(candidate) === key(name));
    if (known === undefined) {
      const near = nearest(key(name), names);
      issues.push({
        path: [name],
        message: `${calculator.name} has no such input`,
        expected: `one of ${names.join(', ')}`,
        ...(near === undefined ? {} : { nearest: near }),
      });
    } else if (given.has(known)) issues.push({ path: [name], message: 'is given twice' });
    else given.set(known, text);
  }
  const values: Record<string, Value> = {};
  for (const [name, spec] of specs) {
    const value = readInput(name, spec, given.get(name));
    if (value.ok) values[name] = value.value;
    else issues.push(...value.issues);
  }
  if (issues.length > 0) return fail(...issues);
  try {
    const working = calculator.reckon(values) as Working;
    if (!Number.isFinite(working.result.value))
      return fail({
        path: [],
        message: 'these values have no finite answer; look for one that is zero or far too large',
      });
    return ok(working);
  } catch (problem) {
    // by contract a RangeError says, in words for the user, that the values do not go together
    if (problem instanceof RangeError) return fail({ path: [], message: problem.message });
    throw problem;
  }
}

function readInput(name: string, spec: InputSpec, typed: string | number | undefined): Result<Value> {
  if (typed === undefined) {
    if (spec.default !== undefined) return ok(spec.default);
    if (spec.optional) return ok(undefined);
    return fail({ path: [name], message: 'is needed', expected: describeInput(spec) });
  }
  if ('choices' in spec) return readChoice(name, spec.choices, String(typed));
  if (spec.list) {
    const list = typeof typed === 'number' ? ok([typed]) : parseQuantities(typed, spec.dimension);
    if (!list.ok) return fail(...list.issues.map((issue) => ({ ...issue, path: [name, ...issue.path] })));
    if (list.value.length === 0) return fail({ path: [name], message: 'needs at least one value' });
    const faults = list.value.flatMap((value, i) => outOfRange([name, i], spec, value));
    return faults.length > 0 ? fail(...faults) : ok(list.value);
  }
  const value = typeof typed === 'number' ? ok(typed) : parseQuantity(typed, spec.dimension);
  if (!value.ok) return fail(...value.issues.map((issue) => ({ ...issue, path: [name, ...issue.path] })));
  const faults = outOfRange([name], spec, value.value);
  return faults.length > 0 ? fail(...faults) : ok(value.value);
}

/** As typed in haste: capitals, spaces, commas, quotes and hyphens do not count, but a hyphen between digits does (1-1/8). */
const squeezed = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s_,'’"()]+/g, '')
    .replace(/(?<!\d)-|-(?!\d)/g, '');

function readChoice(name: string, choices: readonly string[], typed: string): Result<string> {
  const alike = choices.filter((c) => squeezed(c) === squeezed(typed));
  const chosen = choices.find((c) => c === typed.trim()) ?? (alike.length === 1 ? alike[0] : undefined);
  if (chosen !== undefined) return ok(chosen);
  // `oak` is far from every name by its letters, but part of two
  const holding = choices.filter((c) => squeezed(typed) !== '' && squeezed(c).includes(squeezed(typed)));
  const near = holding.length > 0 && holding.length <= 4 ? holding.join(' or ') : nearest(typed.trim(), choices);
  return fail({
    path: [name],
    message: 'is not one of its choices',
    found: `'${typed}'`,
    ...(near === undefined || choices.length <= 8
      ? { expected: `one of ${choices.join(', ')}` }
      : { expected: `one of its ${choices.length} names` }),
    ...(near === undefined ? {} : { nearest: near }),
  });
}

function outOfRange(
  path: readonly (string | number)[],
  spec: Exclude<InputSpec, { choices: readonly string[] }>,
  value: number,
): Issue[] {
  const show = (v: number) => formatQuantity(v, spec.dimension, { digits: 6 });
  const found = show(value);
  if (!Number.isFinite(value)) return [{ path, message: 'must be a finite number', found: String(value) }];
  if (spec.above !== undefined && value <= spec.above)
    return [{ path, message: `must be more than ${show(spec.above)}`, found }];
  if (spec.min !== undefined && value < spec.min)
    return [{ path, message: `must be at least ${show(spec.min)}`, found }];
  if (spec.max !== undefined && value > spec.max)
    return [{ path, message: `must be at most ${show(spec.max)}`, found }];
  if (spec.dimension === 'count' && !Number.isInteger(value))
    return [{ path, message: 'must be a whole number', found }];
  return [];
}

export function describeInput(spec: InputSpec): string {
  if ('choices' in spec) return `one of ${spec.choices.join(', ')}`;
  const unit = CANONICAL_UNIT[spec.dimension];
  return `${spec.list ? 'a list of ' : ''}${spec.dimension}${unit === '' ? '' : ` (a bare number is in ${unit})`}`;
}

export interface DescribedInput {
  readonly name: string;
  /** What a bare number is taken to be in. Empty for a pure number or a choice. */
  readonly unit: string;
  readonly required: boolean;
  readonly about: string;
  readonly symbol?: string;
  readonly dimension?: string;
  readonly choices?: readonly string[];
  readonly default?: number | string;
  readonly list?: true;
  readonly min?: number;
  readonly max?: number;
  readonly above?: number;
}
export interface DescribedCalculator {
  readonly name: string;
  readonly title: string;
  readonly topic: string;
  readonly about: string;
  readonly formula: string;
  readonly inputs: readonly DescribedInput[];
  readonly result: {
    readonly unit: string;
    readonly symbol: string;
    readonly name: string;
    readonly dimension: string;
  };
  readonly source: string;
  readonly validity?: string;
  readonly caution?: string;
}

export function describe(calculator: AnyCalculator): DescribedCalculator {
  const inputs = Object.entries(calculator.inputs as Record<string, InputSpec>).map(
    ([name, spec]): DescribedInput => ({
      name,
      unit: 'choices' in spec ? '' : CANONICAL_UNIT[spec.dimension],
      required: spec.default === undefined && !spec.optional,
      about: spec.about,
      ...(spec.symbol !== undefined && { symbol: spec.symbol }),
      ...(spec.default !== undefined && { default: spec.default }),
      ...('choices' in spec
        ? { choices: spec.choices }
        : {
            dimension: spec.dimension,
            ...(spec.list && { list: spec.list }),
            ...(spec.min !== undefined && { min: spec.min }),
            ...(spec.max !== undefined && { max: spec.max }),
            ...(spec.above !== undefined && { above: spec.above }),
          }),
    }),
  );
  const { name, title, topic, about, formula, result, source, validity, caution } = calculator;
  return {
    name,
    title,
    topic,
    about,
    formula,
    inputs,
    result: { ...result, unit: CANONICAL_UNIT[result.dimension] },
    source: originText(source),
    ...(validity !== undefined && { validity }),
    ...(caution !== undefined && { caution }),
  };
}

export interface Checked {
  readonly row: CheckRow;
  /** In the row's own unit. Undefined when it could not be reckoned; `trouble` says why. */
  readonly got?: number;
  readonly trouble?: string;
  readonly agrees: boolean;
}

/** Runs one published value through the calculator it is for, and compares in the unit the source prints. */
export function runCheck(register: readonly AnyCalculator[], row: CheckRow): Checked {
  const calculator = findIn(register, row.calculator);
  if (!calculator.ok) return { row, agrees: false, trouble: `no calculator ${row.calculator}` };
  const working = reckonWith(calculator.value, row.inputs);
  if (!working.ok)
    return {
      row,
      agrees: false,
      trouble: working.issues.map((i) => `${i.path.join('.')} ${i.message} ${i.found ?? ''}`).join('; '),
    };
  const { also = [], result } = working.value;
  const wanted = row.also === undefined ? result : also.find((v) => v.symbol === row.also || v.name === row.also);
  if (!wanted) return { row, agrees: false, trouble: `no further figure '${row.also}'` };
  const got =
    wanted.unit === row.unit
      ? wanted.value
      : row.also === undefined
        ? convertTo(wanted.value, row.unit, calculator.value.result.dimension)
        : between(wanted.value, wanted.unit, row.unit);
  const allowed =
    'absolute' in row.tolerance ? row.tolerance.absolute : Math.abs(row.expected) * row.tolerance.relative;
  // a bound that is met exactly in decimal may be missed by the last bit in binary
  return { row, got, agrees: Math.abs(got - row.expected) <= allowed * (1 + 1e-9) + 1e-12 * Math.abs(row.expected) };
}

function between(value: number, from: string, to: string): number {
  const dimension = DIMENSIONS.find((d) => findUnit(from, d) && findUnit(to, d));
  if (!dimension) throw new RangeError(`no dimension has both '${from}' and '${to}'`);
  return convertTo(convert(value, from, dimension), to, dimension);
}
