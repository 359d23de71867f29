import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CutProblem, type FromCutter, serveCut } from '../cutting/index.ts';
import { checkNeutral, type NeutralAnswer, readNeutral, solveNeutral, writeAnswer } from './index.ts';

const read = (text: string) => readNeutral(text, 7);
const faults = (text: string) => {
  const result = read(text);
  return result.ok
    ? []
    : result.issues.map(({ path, message, place }) => `${place?.line} ${path.join('.')}: ${message}`);
};
const panels =
  '{"name":"x","kind":"panels","kerf":3.2,"trim":0,"stock":[{"id":"a","length":2440,"width":1220,"cost":48,"count":null}],"parts":[{"id":"p1","length":600,"width":300,"count":2,"turn":true}],"known":{"best":1}}';
const lengths =
  '{"name":"y","kind":"lengths","kerf":3.2,"trim":0,"stock":[{"id":"b","length":2400,"cost":9,"count":null}],"parts":[{"id":"p1","length":700,"count":4}]}';

describe('readNeutral', () => {
  it('reads both kinds, passes over fields it does not know, and turns nothing that is not said to turn', () => {
    expect(read(panels)).toMatchObject({ ok: true, value: { kind: 'panels', parts: [{ turn: true }] } });
    expect(read(panels.replace(',"turn":true', ''))).toMatchObject({ ok: true, value: { parts: [{ turn: false }] } });
    const value = read(lengths);
    expect(value).toEqual({ ok: true, value: JSON.parse(lengths) });
  });
  it.each<[string, string]>([
    ['{"name":', '7 : this line is not JSON'],
    ['[1]', '7 : a problem is one JSON object a line'],
    ['{"name":"x"}', '7 kind: there is no such kind of problem'],
    [lengths.replace('lengths', 'length'), '7 kind: there is no such kind of problem'],
    [lengths.replace('"length":700', '"length":"700"'), '7 parts.0.length: this is not what it should be'],
    [lengths.replace('"length":700', '"lenght":700'), '7 parts.0.length: a field is missing'],
    [lengths.replace('"parts"', '"part"'), '7 parts: a field is missing'],
  ])('%s → %s', (text, fault) => {
    expect(faults(text).some((found) => found.startsWith(fault))).toBe(true);
  });
  it('names the kind that was meant, and the misspelt field', () => {
    const kind = read(lengths.replace('"lengths"', '"lenghts"'));
    expect(!kind.ok && kind.issues[0]!.nearest).toBe('lengths');
    const field = read(lengths.replace('"length":700', '"lenght":700'));
    expect(!field.ok && field.issues[0]!.found).toBe('a field named lenght');
  });
  it('is not taken in by names every object has', () => {
    expect(faults('{"kind":"constructor"}')).toEqual(['7 kind: there is no such kind of problem']);
  });
  it('never throws, whatever the line', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        read(text);
      }),
    );
  });
});

describe('writeAnswer', () => {
  it('is one line that reads back as the answer, with the seconds', () => {
    for (const text of [panels, lengths]) {
      const problem = read(text);
      if (!problem.ok) throw new Error(text);
      const answer = solveNeutral(problem.value, { steps: 200 });
      expect(checkNeutral(problem.value, answer)).toEqual([]);
      const line = writeAnswer(answer, 0.0204);
      expect(line).not.toContain('\n');
      expect(JSON.parse(line)).toEqual({ ...answer, seconds: 0.02 });
    }
  });
});

describe('serveCut', () => {
  const problem: CutProblem = JSON.parse(lengths);
  const replies = (message: object): FromCutter<NeutralAnswer>[] => {
    const told: FromCutter<NeutralAnswer>[] = [];
    serveCut(
      solveNeutral,
      { revision: 3, type: 'solve', problem, steps: 100, ...message },
      (reply) => told.push(reply),
      () => 5,
    );
    return told;
  };
  it('ends with the answer, after progress where it is wanted, each with the revision asked', () => {
    expect(replies({}).map((reply) => reply.type)).toEqual(['done']);
    const told = replies({ progress: true });
    expect(told.at(-1)).toMatchObject({ type: 'done', revision: 3, milliseconds: 0 });
    expect(told.length).toBeGreaterThan(1);
    expect(told.every((reply) => reply.revision === 3)).toBe(true);
  });
  it('tells of a bug instead of falling silent', () => {
    expect(replies({ problem: { ...problem, parts: null } })).toMatchObject([{ type: 'crashed', revision: 3 }]);
  });
});
