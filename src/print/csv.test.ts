import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { EXAMPLES, exampleInput } from '../core/drawing/packet.testing.ts';
import { billCsv, partsCsv } from './csv.ts';

const read = (csv: string): readonly Record<string, string>[] =>
  Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true }).data;

describe.each(EXAMPLES)('%s', (name) => {
  const input = exampleInput(name);

  it('parts: one row each, sizes in millimetres to the tick', () => {
    const rows = read(partsCsv(input));
    const parts = input.pieces.flatMap((p) => p.parts);
    expect(rows.length).toBe(parts.length);
    rows.forEach((row, i) => {
      expect(row.number).toBe(String(i + 1));
      expect(row.id).toBe(parts[i]!.id);
      expect(Math.abs(Number(row['cut length mm']) - parts[i]!.cut.length)).toBeLessThan(1e-6);
      expect(Number(row['mass kg'])).toBeGreaterThan(0);
      expect(row['mass kg']).toMatch(/^\d+(\.\d{1,3})?$/);
    });
  });

  it('bill: its costs add up to the total in the smallest unit', () => {
    const rows = read(billCsv(input));
    expect(rows.length).toBe(input.bill.lines.length);
    const sum = rows.reduce((total, r) => total + Math.round(Number(r.cost) * 100), 0);
    if (input.bill.complete) expect(sum).toBe(input.bill.total);
  });
});

it('defuses what a spreadsheet would take for a formula, and quotes what must be', () => {
  const input = exampleInput('radio-corner');
  const named = (label: string) =>
    partsCsv({
      ...input,
      pieces: input.pieces.slice(0, 1).map((p) => ({
        ...p,
        parts: p.parts.slice(0, 1).map((part) => ({ ...part, label: { ...part.label, name: label } })),
      })),
    });
  for (const bad of ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1'])
    expect(read(named(bad))[0]!.name!.startsWith("'")).toBe(true);
  expect(read(named('side, "left"'))[0]!.name).toBe('side, "left"');
});

it('a price that is not known is an empty cell', () => {
  const input = exampleInput('radio-corner');
  const { price: _, total: __, tax: ___, cost: ____, ...line } = input.bill.lines[0]!;
  const row = read(billCsv({ plan: input.plan, bill: { ...input.bill, lines: [line] } }))[0]!;
  expect([row.each, row.net, row.cost]).toEqual(['', '', '']);
});
