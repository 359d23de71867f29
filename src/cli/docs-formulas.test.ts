import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { listCalculators } from '../core/reckoner/index.ts';
import { formulasPage } from './docs-formulas.ts';

describe('docs/formulas.md', () => {
  const page = formulasPage();
  it('is current (else: npm run docs)', () =>
    expect(readFileSync(new URL('../../docs/formulas.md', import.meta.url), 'utf8').replaceAll('\r\n', '\n')).toBe(
      page,
    ));
  it('has every calculator, and a heading for every link', () => {
    const headings = new Set([...page.matchAll(/^##+ (.+)$/gm)].map(([, title]) => title!.replaceAll(' ', '-')));
    for (const { name } of listCalculators()) expect(headings).toContain(name);
    for (const [, link] of page.matchAll(/\]\(#([^)]+)\)/g)) expect(headings).toContain(link);
  });
});
