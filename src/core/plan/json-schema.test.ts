import { readdirSync, readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { pathBy } from './edit/edit.testing.ts';
import type { PlainValue } from './edit/edit.ts';
import { applyToPlain } from './edit/plain.ts';
import { jsonSchema } from './json-schema.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { planOf } from './read.ts';

// a general-purpose validator that shares no code with the reader
const validate = new Ajv({ strict: false, formats: { date: true } }).compile(jsonSchema() as object);

describe('the schema for editors', () => {
  const folder = new URL('../../../examples/', import.meta.url);
  it.each(readdirSync(folder).filter((name) => name.endsWith('.plan.yaml')))('accepts %s', (name) => {
    validate(parse(readFileSync(new URL(name, folder), 'utf8')));
    expect(validate.errors).toBeNull();
  });
  it('accepts the small plan', () => expect(validate(parse(SMALL_PLAN))).toBe(true));

  it('is draft 2020-12, and every node of it has a description or a name', () => {
    const schema = jsonSchema() as { $schema?: string } & ReturnType<typeof jsonSchema>;
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    for (const [name, node] of Object.entries(schema.$defs ?? {}))
      expect([name, node.description]).not.toEqual([name, undefined]);
  });

  it('refuses no plan that the reader takes', () =>
    fc.assert(
      fc.property(
        fc.array(fc.nat(9), { minLength: 1, maxLength: 7 }),
        fc.constantFrom<PlainValue>(
          1,
          0,
          -1,
          `3' 4"`,
          '1*',
          'north',
          'none',
          true,
          'left',
          [],
          {},
          null,
          '2026-11-03',
          ['10"', '1*'],
          'birch 1/4',
        ),
        (turns, value) => {
          const plain = parse(SMALL_PLAN) as PlainValue;
          const changed = applyToPlain(plain, [{ op: 'set', path: pathBy(plain, turns), value }]);
          if (!changed.ok) throw new Error('no edit');
          const { plan } = planOf(changed.value);
          if (plan) expect([validate(changed.value), validate.errors]).toEqual([true, null]);
        },
      ),
      { numRuns: 200 },
    ));
});
