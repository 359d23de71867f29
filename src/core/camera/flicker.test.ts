import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Note } from '../notes/index.ts';
import { sceneOf } from '../outcome.ts';
import { applyToPlain, type Edit, type PlainValue, planOf, readPlan } from '../plan/index.ts';
import { cameraNotes } from './notes.ts';

interface Said {
  readonly shutter: number;
  readonly mains?: 50 | 60;
  readonly rate?: number;
  readonly lamps?: readonly { readonly frequency: number; readonly duty: number }[];
}
const roomOf = ({ shutter, mains = 50, rate = 25, lamps = [] }: Said): PlainValue =>
  readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2400, walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]}
stock: {}
options:
  - id: one
    pieces:
      - {camera: eye, at: {x: 2000, y: 2600}, above: 1200, focal: 35, shutter: ${shutter}, mains: ${mains}, rate: ${rate}}
      - {seat: ann, at: {x: 2000, y: 1200}}
${lamps.map(({ frequency, duty }, i) => `      - {lamp: l${i}, at: {x: 2000, y: 1500}, lumens: 2000, flicker: {frequency: ${frequency}, duty: ${duty}}}`).join('\n')}
`).document.plain as PlainValue;
const flickers = (plain: PlainValue): readonly Note[] => {
  const { plan, issues } = planOf(plain);
  if (!plan) throw new Error(JSON.stringify(issues));
  return cameraNotes(sceneOf(plan, plan.options[0]!)).filter(
    ({ id, verdict }) => /^(shutter|pulse):/.test(id) && verdict === 'caution',
  );
};

describe('an exposure that lets light swing', () => {
  it('of the mains is set to a whole wave of it', () => {
    const plain = roomOf({ shutter: 60 });
    const [note] = flickers(plain);
    expect(note!.cure).toEqual({
      title: 'Set the shutter to 1/50 s',
      edits: [{ op: 'set', path: ['options', 0, 'pieces', 0, 'shutter'], value: 50 }],
    });
  });

  // 1.25 of the wave is lit on the mean of an exposure, 1 at least and 1.5 at most
  it('of a dimmer of 250 Hz at 1/100 s takes two waves and a half of it, and five at 1/50 s', () => {
    const [note, ...more] = flickers(roomOf({ shutter: 100, lamps: [{ frequency: 250, duty: 0.5 }] }));
    expect(more).toEqual([]);
    expect(note!.title).toBe('l0 swings 40 % from picture to picture at 1/100 s');
    expect(note!.advice).toMatch(/or at a shutter over which it averages out\.$/);
    expect(note!.cure!.title).toBe('Set the shutter to 1/50 s');
  });

  it('of a dimmer that no picture has the time for stays without a cure', () => {
    const [note] = flickers(roomOf({ shutter: 100, rate: 60, lamps: [{ frequency: 130, duty: 0.3 }] }));
    expect(note!.id).toBe('pulse:eye/l0');
    expect(note).not.toHaveProperty('cure');
  });

  it('of the mains is told exposures that a picture has the time for', () => {
    const advice = (rate: number): string => flickers(roomOf({ shutter: 1000, rate }))[0]!.advice;
    expect(advice(50)).toMatch(/^Set the shutter to 1\/50 or 1\/100 s,/);
    expect(advice(60)).toMatch(/^Set the shutter to 1\/100 s,/);
    expect(advice(120)).toMatch(/^At 120 pictures a second none has the time for 1\/100 s/);
    expect(flickers(roomOf({ shutter: 1000, rate: 120 }))[0]).not.toHaveProperty('cure');
  });

  it('law: what is offered leaves no light that swings', () =>
    fc.assert(
      fc.property(
        fc.record({
          shutter: fc.integer({ min: 25, max: 400 }),
          mains: fc.constantFrom(50 as const, 60 as const),
          rate: fc.constantFrom(24, 25, 30, 50, 60),
          lamps: fc.array(
            fc.record({
              frequency: fc.constantFrom(100, 120, 130, 250, 300, 500, 1000),
              duty: fc.constantFrom(0.1, 0.5, 0.9),
            }),
            { maxLength: 2 },
          ),
        }),
        (said) => {
          const plain = roomOf(said);
          for (const { cure } of flickers(plain)) {
            if (!cure) continue;
            const made = applyToPlain(plain, cure.edits as readonly Edit[]);
            expect(made.ok && flickers(made.value)).toEqual([]);
          }
        },
      ),
      { numRuns: 80 },
    ));
});
