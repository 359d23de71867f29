import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { ladderDropOneEnd } from './closed-form.ts';
import { traceCurrent } from './conductor.ts';
import { powerNotes } from './notes.ts';
import { cutToFit } from './pixel.ts';
import { powerOf } from './plan.ts';
import { fuseFor } from './rules.ts';
import { chooseFeeds, type Installation, type InstallationAnswer, type StripRun, solveInstallation } from './strip.ts';

const solved = (installation: Installation): Extract<InstallationAnswer, { status: 'solved' }> => {
  const answer = solveInstallation(installation);
  if (answer.status !== 'solved') throw new Error(answer.why);
  return answer;
};
const run = (groups: number, amps: number): StripRun => ({
  id: 'a',
  groups,
  groupLength: 1000 / 60,
  rail: { plus: 0.05, minus: 0.05 },
  demand: { kind: 'current', amps },
});
const feed = (boundary: number, length = 0) => ({
  from: { supply: 's' },
  to: { strip: 'a', boundary },
  length,
  ohmPerKm: 13.3,
});
const supply = { id: 's', volts: 12, ohm: 0 };

describe('one strip', () => {
  it('drops half a section less than the ladder whose lights stand at the ends of their sections', () => {
    const strip = run(60, 0.02);
    const loop = 0.1 * (1 / 60);
    const answer = solved({ strips: [strip], supplies: [supply], leads: [feed(0)] });
    // The first half section carries everything: N i · r/2 less than the ladder; the joint of a microohm a side is 2.4 µV.
    expect(12 - answer.strips[0]!.lowest).toBeCloseTo(ladderDropOneEnd(60, 0.02, loop) - (60 * 0.02 * loop) / 2, 5);
    expect(answer.strips[0]!.railCurrent).toBeCloseTo(1.2, 9);
  });
  it('is the same from either end, turned round', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 80 }), (groups) => {
        const strip = run(groups, 0.01);
        const ahead = solved({ strips: [strip], supplies: [supply], leads: [feed(0, 2000)] });
        const back = solved({ strips: [strip], supplies: [supply], leads: [feed(groups, 2000)] });
        ahead.strips[0]!.volts.forEach((v, k) => {
          expect(v).toBeCloseTo(back.strips[0]!.volts.at(-1 - k)!, 10);
        });
      }),
    ));
  it('never does worse for one more feed (constant currents)', () =>
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 60 }), fc.nat(60), fc.nat(60), (groups, a, b) => {
        const strip = run(groups, 0.02);
        const one = solved({ strips: [strip], supplies: [supply], leads: [feed(a % (groups + 1), 500)] });
        const two = solved({
          strips: [strip],
          supplies: [supply],
          leads: [feed(a % (groups + 1), 500), feed(b % (groups + 1), 500)],
        });
        two.strips[0]!.volts.forEach((v, k) => {
          expect(v).toBeGreaterThanOrEqual(one.strips[0]!.volts[k]! - 1e-9);
        });
      }),
    ));
  it('says so when it is not fed, and when its lights ask for too much', () => {
    expect(solveInstallation({ strips: [run(3, 0.01)], supplies: [supply], leads: [] })).toMatchObject({
      status: 'loose',
      why: "strip 'a' is not fed",
    });
    const greedy: StripRun = { ...run(300, 0), demand: { kind: 'power', watts: 2 } };
    expect(solveInstallation({ strips: [greedy], supplies: [supply], leads: [feed(0)] }).status).toBe('collapsed');
  });
});

describe('chooseFeeds', () => {
  it('takes one feed when it will do, both ends next, and no more than are needed', () => {
    const wire = { length: 1000, ohmPerKm: 13.3 };
    expect(chooseFeeds(run(60, 0.02), supply, wire, 11.5).boundaries).toEqual([0]);
    const long = chooseFeeds(run(300, 0.02), supply, wire, 11.2);
    expect(long.boundaries).toEqual([0, 300]);
    expect(long.enough).toBe(true);
    const hard = chooseFeeds(run(300, 0.05), supply, wire, 11.6);
    expect(hard.enough).toBe(true);
    const fewer = chooseFeeds(run(300, 0.05), supply, wire, 11.6, hard.boundaries.length - 1);
    expect(fewer.enough).toBe(false);
  });
});

describe('current in the copper of a strip', () => {
  it('is that of the chart of IPC-2221: 1 A in 0.30 mm of 35 µm at 10 K, more for more copper and a greater rise', () => {
    expect(traceCurrent(0.3, 35, 10)).toBeCloseTo(1, 1);
    expect(traceCurrent(5, 35, 10) / traceCurrent(2.5, 35, 10)).toBeCloseTo(2 ** 0.725, 9);
    expect(traceCurrent(2.5, 35, 20) / traceCurrent(2.5, 35, 10)).toBeCloseTo(2 ** 0.44, 9);
  });
  it('of 144 lights to the metre at 12 V, 7 A at one feed, is shared by a second one', () => {
    const scene = plainRoom([
      '{case: low, wall: north, from: 500, size: {width: 1500, height: 800, depth: 300}, inside: {open: true}}',
      "{strip: glow, along: low, pixel: '12 V RGB', perMetre: 144, level: 1}",
    ]);
    const { strips } = powerOf(scene)!;
    const most = traceCurrent(2.5, 35, 10);
    const long = strips.filter((s) => s.current > most);
    expect(long).not.toEqual([]);
    for (const { feeds } of long) {
      expect(feeds.enough).toBe(true);
      expect(feeds.boundaries.length).toBeGreaterThan(1);
      expect(feeds.railCurrent).toBeLessThanOrEqual(most);
    }
  });
});

it('cuts a strip to whole groups', () => {
  expect(cutToFit(1000, 12.5)).toEqual({ groups: 80, length: 1000, left: 0 });
  expect(cutToFit(999, 50, 10)).toEqual({ groups: 19, length: 950, left: 39 });
});

it('chooses a fuse above the load and below the wire', () => {
  expect(fuseFor(4, 7)).toBe(5);
  expect(fuseFor(6, 7)).toBeUndefined();
});

it('says of a kind of light that is in no list which one it is reckoned as, once for each strip', () => {
  const glow = (kind: string) => [
    '{case: low, wall: north, from: 500, size: {width: 1500, height: 800, depth: 300}, inside: {open: [1*, 1*]}}',
    `{strip: glow, title: Glow, along: low, pixel: '${kind}'}`,
  ];
  const told = (kind: string) =>
    powerNotes(plainRoom(glow(kind))).flatMap((n) =>
      n.id.startsWith('pixel-kind') ? [`${n.title}. ${n.advice}`] : [],
    );
  expect(told('12 V RGB')).toEqual([]);
  expect(told('12 V RBG')).toEqual([
    expect.stringMatching(
      /^No kind of light is called '12 V RBG': Glow is reckoned as 5 V RGB, typical\. Did you mean '12 V RGB'\?/,
    ),
  ]);
});
