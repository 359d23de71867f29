import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchema } from '../core/plan/index.ts';
import { parseLength } from '../core/quantity/index.ts';
import { planFormatPage, planSchemaText } from './docs-plan.ts';

const onDisk = (path: string): string =>
  readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8').replaceAll('\r\n', '\n');

describe('generated from the plan schema', () => {
  it('schema/plan.schema.json is current (else: npm run docs)', () =>
    expect(onDisk('schema/plan.schema.json')).toBe(planSchemaText()));
  it('docs/plan-format.md is current (else: npm run docs)', () =>
    expect(onDisk('docs/plan-format.md')).toBe(planFormatPage()));

  it('has a row for every key, and a heading for every link', () => {
    const page = planFormatPage();
    const keys = new Set(Object.values(jsonSchema().$defs ?? {}).flatMap((node) => Object.keys(node.properties ?? {})));
    expect(keys.size).toBeGreaterThan(80);
    for (const key of keys) expect(page).toContain(`| \`${key}\` |`);
    const places = new Set([
      ...[...page.matchAll(/^##+ (.+)$/gm)].map(([, title]) => title!.toLowerCase().replaceAll(' ', '-')),
      ...[...page.matchAll(/<a id="([^"]+)">/g)].map(([, id]) => id!),
    ]);
    for (const [, link] of page.matchAll(/\]\(#([^)]+)\)/g)) expect(places).toContain(link);
  });

  it('says of lengths what the reader does', () => {
    const page = planFormatPage();
    const inFeet = (text: string) => parseLength(text, { unit: 'ft-in' });
    const same = /^> (.+)$/m
      .exec(page)![1]!
      .split(' · ')
      .map((text) => text.slice(1, -1));
    expect(same.length).toBe(9);
    for (const text of same) expect([text, inFeet(text)]).toEqual([text, { ok: true, value: 1028.7 }]);
    const table = page.slice(page.indexOf('| written | why | instead |'), page.indexOf('## The whole file'));
    const refused = [...table.matchAll(/^\| `([^`]+)` \| [^|]+ \| (?:`([^`]+)`)?/gm)];
    expect(refused.length).toBe(9);
    for (const [, bad, good] of refused) {
      expect([bad, inFeet(bad!).ok]).toEqual([bad, false]);
      if (good !== undefined) expect([good, inFeet(good).ok]).toEqual([good, true]);
    }
  });
});
