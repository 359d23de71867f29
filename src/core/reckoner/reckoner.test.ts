import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formula, type InputSpec } from '../notes/index.ts';
import { CANONICAL_UNIT } from '../quantity/index.ts';
import {
  checkAgainstSource,
  describeRegister,
  findCalculator,
  listCalculators,
  listChecks,
  reckon,
  workingText,
} from './index.ts';
import { reckonWith, runCheck } from './reckon.ts';

describe('the register', () => {
  it('has each name once, in plain words with hyphens', () => {
    const names = listCalculators().map((c) => c.name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
  });

  it('describes each calculator completely', () => {
    for (const c of describeRegister()) {
      expect(c.title.length, c.name).toBeGreaterThan(3);
      expect(c.source.length, c.name).toBeGreaterThan(3);
      expect(c.inputs.length, c.name).toBeGreaterThan(0);
      for (const input of c.inputs) expect(input.about.length, `${c.name}.${input.name}`).toBeGreaterThan(2);
    }
  });

  it('gives every result in the declared unit', () => {
    for (const row of listChecks()) {
      const working = reckon(row.calculator, row.inputs);
      const calculator = findCalculator(row.calculator);
      if (working.ok && calculator.ok)
        expect(working.value.result.unit, row.calculator).toBe(CANONICAL_UNIT[calculator.value.result.dimension]);
    }
  });

  it('holds at least one published value against every calculator', () => {
    const checked = new Set(listChecks().map((row) => row.calculator));
    expect(
      listCalculators()
        .filter((c) => !checked.has(c.name))
        .map((c) => c.name),
    ).toEqual([]);
  });
});

describe('published values', () => {
  // rows known only from memory are shown, but no test hangs on them
  const firm = listChecks().filter((row) => row.confidence !== 'memory');
  it.each(firm.map((row, i) => [`${i + 1} ${row.calculator} ${JSON.stringify(row.inputs)}`, row] as const))(
    '%s',
    (_, row) => {
      const checked = checkAgainstSource(row);
      expect(
        checked.agrees,
        `${row.also ?? 'result'}: got ${checked.got ?? checked.trouble}, ${row.source} has ${row.expected} ${row.unit}`,
      ).toBe(true);
    },
  );
  it('can be run even where they are only remembered', () => {
    const broken = listChecks()
      .filter((row) => row.confidence === 'memory')
      .map(checkAgainstSource)
      .filter((checked) => checked.trouble !== undefined);
    expect(broken.map((b) => `${b.row.calculator}: ${b.trouble}`)).toEqual([]);
  });
});

describe('a calculator by itself', () => {
  const pressure = formula({
    name: 'test-pressure',
    title: 'Pressure under a foot',
    topic: 'test',
    about: 'Force over area.',
    formula: 'p = F / A',
    inputs: {
      force: { dimension: 'force', about: 'what presses', symbol: 'F', above: 0 },
      area: { dimension: 'area', about: 'what it presses on', symbol: 'A', above: 0, default: 1 },
      feet: { dimension: 'count', about: 'how many', default: 1, min: 1, max: 4 },
      floor: { choices: ['soft', 'Hard wood'], about: 'kind of floor', optional: true },
      extra: { dimension: 'length', about: 'a list', list: true, optional: true },
    },
    result: { symbol: 'p', name: 'pressure', dimension: 'area load' },
    source: 'common practice',
    compute: ({ force, area, feet, extra }) => {
      if (extra && extra.length > 2) throw new RangeError('no more than two extras');
      return force / area / feet;
    },
  });
  const value = (inputs: Record<string, string | number>) => {
    const working = reckonWith(pressure, inputs);
    if (!working.ok) throw new Error(JSON.stringify(working.issues));
    return working.value.result.value;
  };

  it('reads text in any unit, numbers in the canonical one, and its defaults', () => {
    expect(value({ force: '1 kN' })).toBe(1000);
    expect(value({ force: 12, area: '2 m2', feet: '2' })).toBe(3);
    expect(value({ FORCE: 12, floor: 'hard wood', extra: '1, 2 in' })).toBe(12);
    expect(value({ force: 12, floor: 'HARD-WOOD' })).toBe(12);
  });
  it.each<[Record<string, string | number>, string, string | undefined]>([
    [{}, 'is needed', undefined],
    [{ force: '3 lb', forse: '2' }, 'no such input', 'force'],
    [{ force: '0 N' }, 'must be more than 0 N', undefined],
    [{ force: 1, feet: 5 }, 'must be at most 4', undefined],
    [{ force: 1, feet: 0 }, 'must be at least 1', undefined],
    [{ force: 1, feet: 1.5 }, 'whole number', undefined],
    [{ force: 1, floor: 'sofy' }, 'not one of its choices', 'soft'],
    [{ force: 1, floor: 'wood' }, 'not one of its choices', 'Hard wood'],
    [{ force: '1 newtn' }, 'not a unit of force', 'newton'],
    [{ force: 1, extra: '1 2 3' }, 'no more than two', undefined],
    [{ force: 1, Force: 2 }, 'given twice', undefined],
    [{ force: Number.NaN }, 'finite', undefined],
  ])('%j is refused: %s', (inputs, message, near) => {
    const working = reckonWith(pressure, inputs);
    expect(working.ok).toBe(false);
    if (working.ok) return;
    expect(working.issues.map((i) => i.message).join('; ')).toContain(message);
    if (near !== undefined) expect(working.issues.map((i) => i.nearest)).toContain(near);
  });
  it('tells every fault at once', () => {
    const working = reckonWith(pressure, { feet: 9, floor: 'x', wrong: 1 });
    expect(working.ok ? 0 : working.issues.length).toBe(4);
  });
  it('shows a published value that is missed', () => {
    const row = {
      calculator: 'test-pressure',
      inputs: { force: '1 lbf', area: '1 in2' },
      expected: 1,
      unit: 'psi',
      tolerance: { absolute: 1e-9 },
      source: 'definition of psi',
      confidence: 'computed',
    } as const;
    expect(runCheck([pressure], row)).toMatchObject({ agrees: true });
    expect(runCheck([pressure], { ...row, expected: 1.01 })).toMatchObject({ agrees: false });
    expect(runCheck([pressure], { ...row, calculator: 'nothing' })).toMatchObject({ agrees: false });
    expect(runCheck([pressure], { ...row, also: 'q' })).toMatchObject({ agrees: false });
  });
  it('writes its working out', () => {
    const working = reckonWith(pressure, { force: '1 kN' });
    expect(working.ok && workingText(working.value)).toContain('result: 1000 N/m²');
  });
});

describe('whatever is typed', () => {
  const numbers = fc.oneof(
    fc.constantFrom('0', '1', '-1', '0.5', '1e-9', '1e9', '100', '1000', '25.4', '2'),
    fc.double({ min: 0, max: 5000, noNaN: true }).map(String),
  );
  const rubbish = fc.constantFrom('', 'x', '1/0', 'NaN', '1,000', '3 furlongs', '1e400', ';', '§');
  const typed = (spec: InputSpec): fc.Arbitrary<string> =>
    'choices' in spec
      ? fc.constantFrom(...spec.choices)
      : spec.list
        ? fc.array(numbers, { minLength: 1, maxLength: 4 }).map((list) => list.join('; '))
        : numbers;

  it.each(listCalculators().map((c) => [c.name, c.inputs as Record<string, InputSpec>] as const))(
    '%s answers or says why not, and never falls over',
    (name, specs) => {
      const entries = Object.entries(specs);
      const inputs = fc.record(
        Object.fromEntries(
          entries.map(([key, spec]) => [key, fc.oneof({ weight: 30, arbitrary: typed(spec) }, rubbish)]),
        ),
        { requiredKeys: entries.filter(([, s]) => s.default === undefined && !s.optional).map(([key]) => key) },
      );
      fc.assert(
        fc.property(inputs, (values) => {
          const working = reckon(name, values as Record<string, string>);
          if (working.ok) expect(Number.isFinite(working.value.result.value)).toBe(true);
          else expect(working.issues.every((issue) => issue.message.length > 5)).toBe(true);
        }),
        { numRuns: 60 },
      );
    },
  );
});

it('offers the nearest name of a calculator', () => {
  expect(reckon('shelf-sga', {})).toMatchObject({ ok: false, issues: [{ nearest: 'shelf-sag' }] });
  expect(reckon('Shelf Sag', {}).ok).toBe(false); // found, but its inputs are missing
  expect(findCalculator('Shelf Sag').ok).toBe(true);
});

it('takes a choice as people write it, but never one that is merely alike', () => {
  const width = (size: string) => {
    const working = reckon('nominal-size', { size });
    return working.ok ? working.value.result.value : undefined;
  };
  expect(width('1 x 4')).toBe(88.9);
  expect(width('1X4')).toBe(88.9);
  expect(width('14')).toBeUndefined();
  const label = (category: string) => reckon('panel-thickness', { category }).ok;
  expect(label('1-1/8')).toBe(true);
  expect(label('1-1/32')).toBe(false); // 11/32 is a category, 1-1/32 is not
});
