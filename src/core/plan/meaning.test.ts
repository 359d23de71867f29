import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Issue } from '../issue/index.ts';
import type { PlainValue } from './edit/edit.ts';
import { applyToPlain } from './edit/plain.ts';
import { jsonSchema } from './json-schema.ts';
import { withMeanings } from './meaning.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { planOf, readPlan } from './read.ts';

const schema = jsonSchema();
const PLAIN = readPlan(SMALL_PLAN).document.plain as PlainValue;
type Step = string | number;
const placesIn = (value: unknown, at: readonly Step[] = []): readonly (readonly Step[])[] =>
  typeof value !== 'object' || value === null
    ? [at]
    : [
        ...(at.length > 0 ? [at] : []),
        ...Object.entries(value).flatMap(([key, inner]) =>
          placesIn(inner, [...at, Array.isArray(value) ? Number(key) : key]),
        ),
      ];
const PLACES = placesIn(PLAIN);

it('law: what was expected of a wrong value is found in the schema’s file, word for word, and nothing is added', () => {
  let found = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...PLACES),
      fc.constantFrom<PlainValue | undefined>(undefined, 'moon', true, null, [], { a: 1 }, ['x'], 7),
      (path, value) => {
        const made = applyToPlain(PLAIN, [value === undefined ? { op: 'remove', path } : { op: 'set', path, value }]);
        if (!made.ok) return;
        const { issues } = planOf(made.value);
        const bare = issues.map((issue): Issue => {
          const { expected, ...rest } = issue;
          const [again] = withMeanings([rest], made.value, schema);
          if (expected === undefined || again!.expected !== expected) return issue;
          found++;
          return rest;
        });
        // those left as they were are told by something else than the meaning of a key
        expect(withMeanings(bare, made.value, schema)).toEqual(issues);
        for (const { expected, message } of bare)
          if (expected !== undefined && /is missing|nothing is written/.test(message)) expect(expected).toBe('');
      },
    ),
    { numRuns: 600 },
  );
  expect(found).toBeGreaterThan(20);
});
