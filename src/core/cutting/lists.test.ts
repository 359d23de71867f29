import { describe, expect, it } from 'vitest';
import { problemOfLists, readPartList, readStockList } from './lists.ts';

const rows = (text: string): string[][] => text.split('\n').map((line) => line.split(';').map((cell) => cell.trim()));
const faults = (read: ReturnType<typeof readPartList> | ReturnType<typeof readStockList>) =>
  read.ok ? [] : read.issues.map((issue) => `${issue.place?.line ?? '-'}:${issue.path.join('.')} ${issue.message}`);

describe('readPartList', () => {
  it('reads parts under heads written any way, in any order, with lengths in any unit', () => {
    const read = readPartList(
      rows('Qty.; Len (in); WIDTH; Part; Grain\n2; 30 1/2"; 11-1/4; side; along\n; 1\' 2"; 300 mm; ; none'),
      'in',
    );
    expect(read).toEqual({
      ok: true,
      value: {
        kind: 'panels',
        rows: [
          { id: 'side', length: 774.7, width: 285.75, count: 2, turn: false },
          { id: 'row 3', length: 355.6, width: 300, count: 1, turn: true },
        ],
      },
    });
  });
  it('knows which way the grain runs, and what may turn', () => {
    const turns = (said: string) => {
      const read = readPartList(rows(`part; length; width; turn\na; 600; 300; ${said}`), 'mm');
      return read.ok && read.value.kind === 'panels' && read.value.rows[0]!.turn;
    };
    expect(['yes', 'any', 'turn', 'no grain', 'none', 'no', ''].map(turns)).toEqual([
      true,
      true,
      true,
      true,
      false,
      false,
      false,
    ]);
    const text = 'panel; length; width; grain\na; 600; 300; across\nb; 600; 300; Length';
    for (const read of [readPartList(rows(text), 'mm'), readStockList(rows(text), 'mm')])
      expect(read.ok && read.value.rows).toMatchObject([
        { id: 'a', length: 300, width: 600 },
        { id: 'b', length: 600, width: 300 },
      ]);
  });
  it('takes a list without widths for boards, skips empty rows and a title above the head', () => {
    const read = readPartList(rows('Face frame\n\nname; length; count\nstile; 760; 2\n;;\nrail; 450; 3'), 'mm');
    expect(read).toEqual({
      ok: true,
      value: {
        kind: 'lengths',
        rows: [
          { id: 'stile', length: 760, count: 2 },
          { id: 'rail', length: 450, count: 3 },
        ],
      },
    });
  });
  it('tells equal names apart', () => {
    const read = readPartList(rows('part; length\nshelf; 600\nshelf; 500\nshelf; 400'), 'mm');
    expect(read.ok && read.value.rows.map((row) => row.id)).toEqual(['shelf', 'shelf (2)', 'shelf (3)']);
  });
  it('names every fault by its row and column', () => {
    const read = readPartList(
      rows(
        'part; length; width; count; turn\na; 0; 300; 1\nb; long; 300; 2\nc; 600; 300; 1.5\nd; 600; 300; 1; perhaps',
      ),
      'mm',
    );
    expect(faults(read).map((fault) => fault.split(' ')[0])).toEqual(['2:length', '3:length', '4:count', '5:turn']);
  });
  it('says what it looks for when there is no head', () => {
    expect(faults(readPartList(rows('600; 300; 2'), 'mm'))).toEqual(['1: no column is headed length']);
    expect(faults(readPartList([], 'mm'))).toEqual(['1: no column is headed length']);
    expect(faults(readPartList(rows('part; length'), 'mm'))).toEqual(['-: the list has no parts under its head']);
  });
  it('forgives a slip in a head', () => {
    expect(readPartList(rows('part; lenght; widht\na; 600; 300'), 'mm').ok).toBe(true);
  });
});

describe('readStockList', () => {
  it('reads prices with currency signs and commas, and counts that may be left out', () => {
    const read = readStockList(
      rows(
        'sheet; length; width; price; have\nply; 2440; 1220; $48.50;\nrest; 900; 600; 0; 1\nbirch; 2500; 1250; 1.048,50 €; any',
      ),
      'mm',
    );
    expect(read.ok && read.value.rows).toEqual([
      { id: 'ply', length: 2440, width: 1220, cost: 48.5, count: null },
      { id: 'rest', length: 900, width: 600, cost: 0, count: 1 },
      { id: 'birch', length: 2500, width: 1250, cost: 1048.5, count: null },
    ]);
  });
  it('without prices counts material: metres, or square metres', () => {
    const read = readStockList(rows('board; length\na; 2400'), 'mm');
    expect(read.ok && read.value.rows).toEqual([{ id: 'a', length: 2400, cost: 2.4, count: null }]);
    const panels = readStockList(rows('sheet; length; width\na; 2000; 1000'), 'mm');
    expect(panels.ok && panels.value.rows[0]!.cost).toBe(2);
  });
  it('names a price that is none', () => {
    expect(faults(readStockList(rows('board; length; cost\na; 2400; cheap\nb; 2400; -3'), 'mm'))).toEqual([
      '2:cost this is not a price',
      '3:cost this is not a price',
    ]);
  });
});

describe('problemOfLists', () => {
  const list = <T>(read: { ok: true; value: T } | { ok: false }): T => {
    if (!read.ok) throw new Error('unreadable');
    return read.value;
  };
  const parts = list(readPartList(rows('part; length\na; 600'), 'mm'));
  it('puts parts and stock together', () => {
    const stock = list(readStockList(rows('board; length; cost\nb; 2400; 9'), 'mm'));
    expect(problemOfLists('x', parts, stock, { kerf: 3, trim: 0 })).toMatchObject({
      ok: true,
      value: { kind: 'lengths', kerf: 3 },
    });
  });
  it('refuses boards for panels', () => {
    const stock = list(readStockList(rows('sheet; length; width\nb; 2400; 1200'), 'mm'));
    expect(problemOfLists('x', parts, stock, { kerf: 3, trim: 0 })).toMatchObject({ ok: false });
  });
});
