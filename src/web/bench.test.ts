import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { change, lay, layAnew, useBench } from './bench.ts';

const text = readFileSync(join(import.meta.dirname, '../../examples/lesson-room.plan.yaml'), 'utf8');
const NAME = 'lesson-room.plan.yaml';
const width = { op: 'set', path: ['options', 0, 'pieces', 0, 'size', 'width'], value: '40"' } as const;

describe('a plan that another program left with faults', () => {
  it('is not changed by places in what was drawn before, where another piece stands now', () => {
    layAnew(NAME, text, 1);
    const first = text.indexOf('      - case:');
    const faulty = `${text.slice(0, first)}      - case: in the way\n        wall: nowhere\n${text.slice(first)}`;
    lay(NAME, faulty);
    expect(useBench.getState().issues.length).toBeGreaterThan(0);
    expect(change('Width', [width])).toMatchObject([{ message: expect.stringMatching(/changed elsewhere/) }]);
    expect(useBench.getState().text).toBe(faulty);
  });
  it('is put right on the page where it is the same piece', () => {
    layAnew(NAME, text, 1);
    lay(NAME, text.replace(/(case: scores\n[\s\S]*?width: )[^,]+,/, '$1nonsense,'));
    expect(useBench.getState().issues.length).toBeGreaterThan(0);
    expect(change('Width', [width])).toEqual([]);
    expect(useBench.getState().issues).toEqual([]);
  });
});
