import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkLengths, checkPanels } from './check.ts';
import { solveLengths } from './lengths/index.ts';
import type { LengthAnswer, LengthProblem, PanelAnswer, PanelProblem, PlacedPart } from './problem.ts';

const panels = (parts: PanelProblem['parts'], over: Partial<PanelProblem> = {}): PanelProblem => ({
  name: 'x',
  kind: 'panels',
  kerf: 0,
  trim: 0,
  stock: [{ id: 'a', length: 100, width: 100, cost: 10, count: null }],
  parts,
  ...over,
});
const cut = (placed: readonly PlacedPart[], over: Partial<PanelAnswer> = {}): PanelAnswer =>
  ({
    name: 'x',
    kind: 'panels',
    status: 'feasible',
    cost: 10,
    bound: 10,
    steps: 1,
    layouts: [{ stock: 'a', times: 1, placed }],
    ...over,
  }) as PanelAnswer;
const at = (part: string, x: number, y: number, length: number, width: number): PlacedPart => ({
  part,
  x,
  y,
  length,
  width,
});
const messages = (issues: readonly { readonly message: string }[]) => issues.map((issue) => issue.message);

describe('checkPanels', () => {
  const one = panels([{ id: 'p', length: 60, width: 40, count: 1 }]);

  it('finds nothing wrong with a sound answer', () => {
    expect(checkPanels(one, cut([at('p', 0, 0, 60, 40)], { status: 'optimal' }))).toEqual([]);
  });
  it.each<[string, PanelProblem, PanelAnswer]>([
    ['a part is cut to the wrong size', one, cut([at('p', 0, 0, 60, 40.1)])],
    ['a part with grain lies turned', one, cut([at('p', 0, 0, 40, 60)])],
    ['a part reaches outside the trimmed panel', one, cut([at('p', 40.1, 0, 60, 40)])],
    ['a part reaches outside the trimmed panel', { ...one, trim: 5 }, cut([at('p', 4, 10, 60, 40)])],
    ['part p is cut the wrong number of times', one, cut([at('p', 0, 0, 60, 40), at('p', 0, 50, 60, 40)])],
    [
      'part p is cut the wrong number of times',
      one,
      cut([], { layouts: [{ stock: 'a', times: 2, placed: [at('p', 0, 0, 60, 40)] }], cost: 20 }),
    ],
    ['there is no such part', one, cut([at('p', 0, 0, 60, 40), at('q', 0, 50, 1, 1)])],
    [
      'there is no such stock',
      one,
      cut([], { cost: 0, bound: 0, layouts: [{ stock: 'b', times: 1, placed: [at('p', 0, 0, 60, 40)] }] }),
    ],
    ['the cost is not the sum of the stock used', one, cut([at('p', 0, 0, 60, 40)], { cost: 9 })],
    ['the bound lies above the cost', one, cut([at('p', 0, 0, 60, 40)], { bound: 11 })],
    [
      'optimal is claimed without proof: the cost is above the bound',
      one,
      cut([at('p', 0, 0, 60, 40)], { bound: 9, status: 'optimal' }),
    ],
    [
      'more of stock a is used than there is',
      { ...one, stock: [{ ...one.stock[0]!, count: 0 }] },
      cut([at('p', 0, 0, 60, 40)]),
    ],
    ['stock is taken and nothing is cut from it', panels([]), cut([])],
    ['the answer belongs to another problem', one, cut([at('p', 0, 0, 60, 40)], { name: 'y' })],
    [
      'refused, although every part fits stock of which there is as much as wanted',
      one,
      { name: 'x', kind: 'panels', status: 'infeasible', issues: [{ path: [], message: 'no' }] },
    ],
    [
      'a refusal must say what does not fit',
      { ...one, stock: [] },
      { name: 'x', kind: 'panels', status: 'infeasible', issues: [] },
    ],
  ])('says: %s', (message, problem, answer) => expect(messages(checkPanels(problem, answer))).toContain(message));

  it('lets a part without grain lie turned', () => {
    const free = panels([{ id: 'p', length: 60, width: 40, count: 1, turn: true }]);
    expect(checkPanels(free, cut([at('p', 0, 0, 40, 60)]))).toEqual([]);
  });

  // Four parts round a hole: the smallest pattern no edge-to-edge cut divides.
  const pinwheel = [at('l', 0, 0, 60, 40), at('w', 60, 0, 40, 60), at('l', 40, 60, 60, 40), at('w', 0, 40, 40, 60)];
  const four = [
    { id: 'l', length: 60, width: 40, count: 2 },
    { id: 'w', length: 40, width: 60, count: 2 },
  ];
  it('refuses a pinwheel', () => {
    expect(messages(checkPanels(panels(four), cut(pinwheel)))).toEqual([
      'these parts cannot be cut apart edge to edge',
    ]);
  });
  it('refuses parts that overlap', () => {
    const two = panels([{ id: 'p', length: 60, width: 40, count: 2 }]);
    expect(messages(checkPanels(two, cut([at('p', 0, 0, 60, 40), at('p', 30, 20, 60, 40)])))).toEqual([
      'these parts cannot be cut apart edge to edge',
    ]);
  });
  it('wants the blade between parts to the tick', () => {
    const two = panels([{ id: 'p', length: 48, width: 100, count: 2 }], { kerf: 3.2 });
    expect(checkPanels(two, cut([at('p', 0, 0, 48, 100), at('p', 51.2, 0, 48, 100)]))).toEqual([]);
    expect(checkPanels(two, cut([at('p', 0, 0, 48, 100), at('p', 51.2 - 1 / 640, 0, 48, 100)]))).toHaveLength(1);
  });

  /** Cuts a panel at random, edge to edge, until the pieces are small: sound by construction. */
  it('accepts whatever was cut edge to edge, and refuses it once two parts are brought nearer than the blade', () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat(1000)), fc.integer({ min: 0, max: 9 }), (dice, kerf) => {
        const placed: PlacedPart[] = [];
        const pieces = [{ x: 0, y: 0, length: 1000, width: 700 }];
        const draw = () => dice.next().value as number;
        for (let piece = pieces.pop(); piece; piece = pieces.pop()) {
          const { x, y, length, width } = piece;
          const lengthwise = draw() % 2 === 0;
          const room = (lengthwise ? length : width) - kerf;
          if (room < 60 || placed.length + pieces.length > 12) {
            placed.push(at(`p${placed.length}`, x, y, length, width));
            continue;
          }
          const first = 20 + (draw() % (room - 40));
          if (lengthwise)
            pieces.push({ ...piece, length: first }, { ...piece, x: x + first + kerf, length: length - first - kerf });
          else pieces.push({ ...piece, width: first }, { ...piece, y: y + first + kerf, width: width - first - kerf });
        }
        const problem = panels(
          placed.map(({ part, length, width }) => ({ id: part, length, width, count: 1 })),
          { kerf, stock: [{ id: 'a', length: 1000, width: 700, cost: 10, count: 1 }] },
        );
        expect(checkPanels(problem, cut(placed))).toEqual([]);
        if (placed.length > 1)
          expect(messages(checkPanels({ ...problem, kerf: kerf + 1 / 640 }, cut(placed)))).toEqual([
            'these parts cannot be cut apart edge to edge',
          ]);
      }),
    );
  });
});

describe('checkLengths', () => {
  const boards: LengthProblem = {
    name: 'y',
    kind: 'lengths',
    kerf: 3,
    trim: 10,
    stock: [{ id: 'b', length: 1000, cost: 9, count: 2 }],
    parts: [{ id: 'p', length: 400, count: 2 }],
  };
  const sawn = (xs: readonly number[], over: Partial<LengthAnswer> = {}): LengthAnswer =>
    ({
      name: 'y',
      kind: 'lengths',
      status: 'optimal',
      cost: 9,
      bound: 9,
      steps: 1,
      layouts: [{ stock: 'b', times: 1, placed: xs.map((x) => ({ part: 'p', x, length: 400 })) }],
      ...over,
    }) as LengthAnswer;

  it('finds nothing wrong with a sound answer, in any order', () => {
    expect(checkLengths(boards, sawn([413, 10]))).toEqual([]);
  });
  it.each<[string, readonly number[]]>([
    ['there is no room for the blade before this part', [10, 412.9]],
    ['a part reaches outside the trimmed board', [9, 413]],
    ['a part reaches outside the trimmed board', [10, 590.1]],
    ['part p is cut the wrong number of times', [10]],
  ])('says: %s', (message, xs) => expect(messages(checkLengths(boards, sawn(xs)))).toContain(message));

  it('keeps parts off a knot, and counts a crack as one blade wide', () => {
    const knot = { ...boards, stock: [{ ...boards.stock[0]!, unusable: [{ from: 410, to: 420 }] }] };
    expect(messages(checkLengths(knot, sawn([10, 413])))).toContain('a part lies over an unusable stretch');
    expect(checkLengths(knot, sawn([10, 420]))).toEqual([]);
    const crack = { ...boards, stock: [{ ...boards.stock[0]!, unusable: [{ from: 410, to: 410.1 }] }] };
    expect(checkLengths(crack, sawn([10, 413]))).toEqual([]);
    expect(messages(checkLengths(crack, sawn([10, 412])))).toContain('a part lies over an unusable stretch');
  });

  it('lets equal mitres share a cut and no others', () => {
    // 45° across a 60 mm face: the long points may pass each other by 60 − 3·√2 = 55.757 mm.
    const mitred: LengthProblem = {
      ...boards,
      parts: [{ id: 'p', length: 400, count: 2, ends: [45, 45], faceWidth: 60 }],
    };
    expect(checkLengths(mitred, sawn([10, 355]))).toEqual([]);
    expect(messages(checkLengths(mitred, sawn([10, 354])))).toContain(
      'there is no room for the blade before this part',
    );
    // One end square: turned, the mitres meet; not turned, square meets mitre and the blade needs 3·√2 = 4.243 mm.
    const half: LengthProblem = {
      ...mitred,
      parts: [{ id: 'p', length: 400, count: 2, ends: [0, 45], faceWidth: 60 }],
    };
    const meeting = (x: number, turned: boolean) =>
      sawn([], {
        layouts: [
          {
            stock: 'b',
            times: 1,
            placed: [
              { part: 'p', x: 10, length: 400 },
              { part: 'p', x, length: 400, turned },
            ],
          },
        ],
      });
    expect(checkLengths(half, meeting(355, true))).toEqual([]);
    expect(checkLengths(half, meeting(414, false))).toHaveLength(1);
    expect(checkLengths(half, meeting(414.25, false))).toEqual([]);
  });

  it('names a refusal that is none', () => {
    const unlimited = { ...boards, stock: [{ ...boards.stock[0]!, count: null }] };
    const refusal: LengthAnswer = {
      name: 'y',
      kind: 'lengths',
      status: 'infeasible',
      issues: [{ path: [], message: 'no' }],
    };
    expect(checkLengths(unlimited, refusal)).toHaveLength(1);
    expect(checkLengths({ ...unlimited, parts: [{ id: 'p', length: 981, count: 1 }] }, refusal)).toEqual([]);
    expect(checkLengths({ ...unlimited, parts: [{ id: 'p', length: Number.NaN, count: 1 }] }, refusal)).toEqual([]);
  });

  it('holds nothing against a refusal that is true, whatever would fit by its length', () => {
    const square = { id: 'p', length: 400, count: 1 };
    const [board] = boards.stock;
    const mitred = (faceWidth: number, angle = 45): LengthProblem => ({
      ...boards,
      stock: [{ ...board!, count: null }],
      parts: [{ ...square, ends: [angle, angle], faceWidth }],
    });
    const knotted = (from: number, to: number): LengthProblem => ({
      ...boards,
      stock: [{ ...board!, count: null, unusable: [{ from, to }] }],
      parts: [square],
    });
    const rows: LengthProblem = {
      ...mitred(60),
      parts: Array.from({ length: 5001 }, (_, i) => ({ ...square, id: `p${i}` })),
    };
    // 45° off a face of 200 at both ends meets in a point at 400: that can still be cut
    const told = (problem: LengthProblem): readonly string[] => {
      const answer = solveLengths(problem, { steps: 1 });
      return answer.status === 'infeasible' ? messages(checkLengths(problem, answer)) : ['cut'];
    };
    expect([200, 200.1].map((face) => told(mitred(face)))).toEqual([['cut'], []]);
    expect([75, 76].map((angle) => told(mitred(9, angle)))).toEqual([['cut'], []]);
    expect([knotted(5, 9), knotted(-5, 9), knotted(9, 9), knotted(9, 5)].map(told)).toEqual([['cut'], [], [], []]);
    expect(told(rows)).toEqual([]);
  });
});
