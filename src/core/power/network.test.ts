import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  constantPowerVoltage,
  ladderDropOneEnd,
  ladderDropTwoEnds,
  ladderLossOneEnd,
  ladderLossTwoEnds,
  resistiveEndVoltage,
  tappedLine,
  uniformDrop,
  uniformTwoEnds,
} from './closed-form.ts';
import { solveByTableau } from './network.testing.ts';
import { type Demand, type Load, type Network, type NetworkAnswer, type Resistor, solveNetwork } from './network.ts';

const solved = (answer: NetworkAnswer): Extract<NetworkAnswer, { status: 'solved' }> => {
  if (answer.status !== 'solved') throw new Error(`expected a solution, got ${answer.status}`);
  return answer;
};

/** N loads in a row behind sections of loop resistance r; node 0 is the ground, node 1 end A, 2 … N+1 the loads. */
function ladder(count: number, r: number, demand: Demand, both: boolean, volts = 12): Network {
  const resistors: Resistor[] = [];
  const loads: Load[] = [];
  for (let k = 0; k < count; k++) {
    resistors.push({ from: 1 + k, to: 2 + k, ohm: r });
    loads.push({ plus: 2 + k, minus: 0, demand });
  }
  const sources = [{ plus: 1, minus: 0, volts, ohm: 0 }];
  if (both) {
    resistors.push({ from: count + 1, to: count + 2, ohm: r });
    sources.push({ plus: count + 2, minus: 0, volts, ohm: 0 });
  }
  return { nodes: count + (both ? 3 : 2), ground: 0, resistors, sources, loads };
}

describe('a ladder of equal constant currents', () => {
  const anyLadder = fc.record({
    count: fc.integer({ min: 1, max: 300 }),
    i: fc.double({ min: 0.001, max: 0.06, noNaN: true }),
    r: fc.double({ min: 0.0005, max: 0.01, noNaN: true }),
  });
  it('drops and loses what the closed forms say, fed at one end and at both', () =>
    fc.assert(
      fc.property(anyLadder, ({ count, i, r }) => {
        const demand: Demand = { kind: 'current', amps: i };
        const one = solved(solveNetwork(ladder(count, r, demand, false, 100)));
        expect(100 - Math.min(...one.potentials.slice(1))).toBeCloseTo(ladderDropOneEnd(count, i, r), 9);
        expect(one.loss).toBeCloseTo(ladderLossOneEnd(count, i, r), 8);
        const two = solved(solveNetwork(ladder(count, r, demand, true, 100)));
        expect(100 - Math.min(...two.potentials.slice(1))).toBeCloseTo(ladderDropTwoEnds(count, i, r), 9);
        expect(two.loss).toBeCloseTo(ladderLossTwoEnds(count, i, r), 8);
        expect(two.sourceCurrents[0]).toBeCloseTo(two.sourceCurrents[1]!, 9);
      }),
    ));
  it('tends to the uniform load as the sections grow short', () => {
    const error = (count: number): number => {
      const loop = 0.1;
      const total = 5;
      const net = ladder(count, (loop * 5) / count, { kind: 'current', amps: total / count }, false, 100);
      const drop = 100 - Math.min(...solved(solveNetwork(net)).potentials.slice(1));
      return Math.abs(drop - uniformDrop(total / 5, loop, 5, 5));
    };
    expect(error(200) / error(100)).toBeCloseTo(0.5, 6); // first order: the load sits at the end of its section
    expect(error(1600)).toBeLessThan(1e-3);
  });
});

it('comes to Vs / cosh(L √(rg)) for a load that is a conductance all along', () => {
  const sections = 2000;
  const answer = solved(
    solveNetwork(ladder(sections, (0.06 * 5) / sections, { kind: 'resistance', ohm: sections / (0.8 * 5) }, false, 12)),
  );
  expect(answer.potentials[sections + 1]).toBeCloseTo(resistiveEndVoltage(12, 0.06, 0.8, 5), 2);
});

describe('a constant power behind a resistance', () => {
  it('settles on the upper root of V² − Vs V + P R = 0 whenever it has one, and collapses otherwise', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 48, noNaN: true }),
        fc.double({ min: 0.05, max: 2, noNaN: true }),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        (vs, ohm, share) => {
          fc.pre(Math.abs(share - 1) > 1e-3); // at the very nose of the curve the root is double and rounding decides
          const watts = (share * vs * vs) / (4 * ohm);
          const answer = solveNetwork(ladder(1, ohm, { kind: 'power', watts }, false, vs));
          const exact = constantPowerVoltage(vs, watts, ohm);
          if (exact === undefined) expect(answer.status).toBe('collapsed');
          else expect(solved(answer).potentials[2]! / exact).toBeCloseTo(1, 8);
        },
      ),
    ));
});

// V. K. Mehta & R. Mehta, Principles of Power System, ch. 13, examples 13.12 and 13.1 (printed answers).
it('gives the published currents of a distributor fed at both ends', () => {
  const spans = [150, 150, 50, 100, 150];
  const taken = [100, 200, 250, 300];
  const answer = solved(
    solveNetwork({
      nodes: 7,
      ground: 0,
      resistors: spans.map((m, k) => ({ from: k + 1, to: k + 2, ohm: m * 0.0002 })),
      sources: [
        { plus: 1, minus: 0, volts: 440, ohm: 0 },
        { plus: 6, minus: 0, volts: 430, ohm: 0 },
      ],
      loads: taken.map((amps, k) => ({ plus: k + 2, minus: 0, demand: { kind: 'current', amps } })),
    }),
  );
  expect(answer.sourceCurrents[0]).toBeCloseTo(437.5, 9);
  expect(answer.sourceCurrents[1]).toBeCloseTo(412.5, 9);
  expect(answer.loss).toBeCloseTo(14706.25, 7);
});

const anyDemand: fc.Arbitrary<Demand> = fc.oneof(
  fc.record({ kind: fc.constant('current' as const), amps: fc.double({ min: 0, max: 0.3, noNaN: true }) }),
  fc.record({
    kind: fc.constant('current' as const),
    amps: fc.double({ min: 0, max: 0.3, noNaN: true }),
    none: fc.constant(3),
    full: fc.constant(9),
  }),
  fc.record({
    kind: fc.constant('power' as const),
    watts: fc.double({ min: 0, max: 2, noNaN: true }),
    least: fc.constant(6),
  }),
  fc.record({ kind: fc.constant('resistance' as const), ohm: fc.double({ min: 20, max: 500, noNaN: true }) }),
  fc.record({
    kind: fc.constant('diodes' as const),
    forward: fc.constant(8),
    ohm: fc.double({ min: 20, max: 500, noNaN: true }),
  }),
);
/** Any connected network: a random tree with some links more, one source with a resistance, one without. */
const anyNetwork: fc.Arbitrary<Network> = fc.integer({ min: 3, max: 14 }).chain((nodes) =>
  fc
    .record({
      parents: fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), { minLength: nodes, maxLength: nodes }),
      ohms: fc.array(fc.double({ min: 0.05, max: 2, noNaN: true }), { minLength: 2 * nodes, maxLength: 2 * nodes }),
      links: fc.array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1)), { maxLength: nodes }),
      loads: fc.array(fc.tuple(fc.nat(nodes - 1), anyDemand), { maxLength: 8 }),
      second: fc.double({ min: 11, max: 13, noNaN: true }),
    })
    .map(({ parents, ohms, links, loads, second }) => ({
      nodes,
      ground: 0,
      resistors: [
        ...parents.slice(2).map((p, k) => ({ from: k + 2, to: 1 + Math.floor(p * (k + 1)), ohm: ohms[k]! })),
        ...links.flatMap(([a, b], k) => (a !== b && a > 0 && b > 0 ? [{ from: a, to: b, ohm: ohms[nodes + k]! }] : [])),
      ],
      sources: [
        { plus: 1, minus: 0, volts: 12, ohm: 0 },
        { plus: nodes - 1, minus: 0, volts: second, ohm: 0.2 },
      ],
      loads: loads.flatMap(([at, demand]) => (at > 0 ? [{ plus: at, minus: 0, demand }] : [])),
    })),
);

describe('any network', () => {
  it('agrees with a dense tableau solved by a general solver', () =>
    fc.assert(
      fc.property(anyNetwork, (network) => {
        const own = solved(solveNetwork(network));
        const other = solveByTableau(network);
        other.forEach((v, k) => {
          expect(own.potentials[k]).toBeCloseTo(v, 7);
        });
      }),
      { numRuns: 150 },
    ));
  it('keeps Kirchhoff’s current law and gives out as much power as is taken', () =>
    fc.assert(
      fc.property(anyNetwork, (network) => {
        const answer = solved(solveNetwork(network));
        const given = network.sources.reduce((sum, s, k) => sum + s.volts * answer.sourceCurrents[k]!, 0);
        const taken = network.loads.reduce(
          (sum, l, k) => sum + (answer.potentials[l.plus]! - answer.potentials[l.minus]!) * answer.loadCurrents[k]!,
          0,
        );
        expect(given).toBeCloseTo(taken + answer.loss, 7);
        expect(answer.residual).toBeLessThan(1e-9);
      }),
    ));
});

it('solves both rails of a strip as well as its loop', () => {
  // Plus rail 1 … N+1, minus rail N+2 … 2N+2; loop resistance is the sum of both.
  const count = 40;
  const demand: Demand = { kind: 'power', watts: 0.2, least: 4 };
  const resistors: Resistor[] = [];
  for (let k = 0; k < count; k++) {
    resistors.push({ from: 1 + k, to: 2 + k, ohm: 0.004 });
    resistors.push({ from: k === 0 ? 0 : count + 1 + k, to: count + 2 + k, ohm: 0.006 });
  }
  const loads = Array.from({ length: count }, (_, k) => ({ plus: 2 + k, minus: count + 2 + k, demand }));
  const rails = solved(
    solveNetwork({
      nodes: 2 * count + 2,
      ground: 0,
      resistors,
      sources: [{ plus: 1, minus: 0, volts: 5, ohm: 0 }],
      loads,
    }),
  );
  const loop = solved(solveNetwork(ladder(count, 0.01, demand, false, 5)));
  for (let k = 0; k < count; k++)
    expect(rails.potentials[2 + k]! - rails.potentials[count + 2 + k]!).toBeCloseTo(loop.potentials[2 + k]!, 9);
});

it('names a node that nothing holds', () => {
  expect(
    solveNetwork({ nodes: 3, ground: 0, resistors: [], sources: [{ plus: 1, minus: 0, volts: 5, ohm: 0 }], loads: [] }),
  ).toEqual({ status: 'loose', node: 2 });
});

describe('a tapped line', () => {
  it('agrees with the network, fed at one end or at both', () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 99 }), fc.double({ min: 0, max: 3, noNaN: true })), {
          minLength: 1,
          maxLength: 6,
        }),
        fc.boolean(),
        fc.double({ min: 11, max: 13, noNaN: true }),
        (taps, both, vb) => {
          const line = {
            at: taps.map(([x]) => x / 10),
            loads: taps.map(([, i]) => i),
            uniform: 0,
            length: 10,
            loop: 0.02,
          };
          const closed = tappedLine(line, 12, both ? vb : undefined);
          const net = solved(
            solveNetwork({
              nodes: 102,
              ground: 0,
              resistors: Array.from({ length: 100 }, (_, k) => ({ from: k + 1, to: k + 2, ohm: 0.002 })),
              sources: [
                { plus: 1, minus: 0, volts: 12, ohm: 0 },
                ...(both ? [{ plus: 101, minus: 0, volts: vb, ohm: 0 }] : []),
              ],
              loads: taps.map(([x, amps]) => ({ plus: 1 + x, minus: 0, demand: { kind: 'current', amps } })),
            }),
          );
          taps.forEach(([x], k) => {
            expect(closed.voltages[k]).toBeCloseTo(net.potentials[1 + x]!, 8);
          });
          expect(closed.currentA).toBeCloseTo(net.sourceCurrents[0]!, 7);
          expect(closed.loss).toBeCloseTo(net.loss, 7);
        },
      ),
    ));
  it('agrees with the parabola for a uniform load', () => {
    const closed = tappedLine({ at: [], loads: [], uniform: 1, length: 500, loop: 0.0002 }, 255, 250);
    const parabola = uniformTwoEnds(255, 250, 1, 0.0002, 500);
    expect(closed.lowest).toBeCloseTo(parabola.lowest, 10);
    expect(closed.lowestAt).toBeCloseTo(parabola.lowestAt, 8);
    expect(closed.loss).toBeCloseTo(parabola.loss, 8);
  });
});
