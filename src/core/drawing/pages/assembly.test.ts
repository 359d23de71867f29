import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type AssemblyStep, assembliesOf, assemblySteps } from '../../assembly/index.ts';
import { anyCase, builtOf } from '../../casework/random.testing.ts';
import { type Direction, type Part, type Solid, sideByLabel, stickingOf } from '../../scene/index.ts';
import { textsOf } from '../draw.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { assemblyPages, atOnce } from './assembly.ts';
import { layingWords, setBackWords, wordsOf } from './assembly-words.ts';
import { deskOf } from './desk.ts';
import { labelPages, labelSheet, SIDE_ON_LABEL } from './labels.ts';

const WAYS: readonly Direction[] = ['left', 'right', 'up', 'down', 'back', 'front'];
/** Which side of a part is down for one who has the words and the part with its label, and knows nothing else. */
function downBy(words: string, part: Part): Direction {
  const said = [
    [/label down/, 'face'],
    [/label up/, 'behind'],
    [/arrow of its label points to/, 'arrow'],
    [/arrow of its label points away/, 'foot'],
    [/left of its label as you read it/, 'left'],
    [/right of its label as you read it/, 'right'],
  ] as const;
  const [[, by], ...more] = said.filter(([pattern]) => pattern.test(words)) as unknown as [(typeof said)[number]];
  expect(more).toEqual([]);
  const down = WAYS.find((way) => sideByLabel(part, way) === by)!;
  // the side it has in the piece is named, too; of an edge, whether there is a band on it
  const name = { left: 'left', right: 'right', up: 'top', down: 'bottom', front: 'front', back: 'back' }[down];
  expect(words).toMatch(new RegExp(`its ${name} (edge|end)|piece’s ${name} is down`));
  expect(words.includes('banded')).toBe(part.edges.some((e) => e.towards === down));
  return down;
}
const firstOnes = (steps: readonly AssemblyStep[]): readonly AssemblyStep[] =>
  steps.filter((s) => s.present.length === 0);

it.each(EXAMPLES)(
  'the first part of everything in %s is laid as its label tells, which is the side the plan means',
  (name) => {
    const desk = deskOf(exampleInput(name), 'A4');
    let all = 0;
    for (const { plan } of assembliesOf(desk.input))
      for (const step of firstOnes(plan.steps)) {
        const { part } = desk.numbered().partOf.get(step.adds[0]!)!;
        expect(downBy(layingWords(part, step.down), part), part.id).toBe(step.down);
        expect(wordsOf(desk, step).join(' ')).toContain(layingWords(part, step.down));
        all++;
      }
    expect(all).toBeGreaterThan(4);
  },
);

it('the first part of any case and drawer is laid as its label tells', () => {
  let all = 0;
  fc.assert(
    fc.property(anyCase, (unspelt) => {
      const placed = builtOf(unspelt)?.placed;
      if (!placed) return;
      for (const step of firstOnes(assemblySteps(placed, { effort: 2 }).steps)) {
        const part = placed.parts.find((p) => p.id === step.adds[0])!;
        expect(downBy(layingWords(part, step.down), part), part.id).toBe(step.down);
        all++;
      }
    }),
    { numRuns: 40 },
  );
  expect(all).toBeGreaterThan(40);
});

it.each(EXAMPLES)('every later step of %s says how the part is turned, as its label on paper says', (name) => {
  const desk = deskOf(exampleInput(name), 'A4');
  const labels = new Map(
    labelPages(desk, labelSheet('A4')).flatMap(({ marks }) =>
      marks.flatMap((m) => (m.kind === 'group' ? [[m.about, textsOf([m]).map((t) => t.text)] as const] : [])),
    ),
  );
  const side = {
    left: 'the left',
    right: 'the right',
    up: 'the top',
    down: 'the bottom',
    front: 'the front',
    back: 'the back',
  };
  for (const { plan } of assembliesOf(desk.input))
    for (const step of plan.steps.filter((s) => s.present.length > 0)) {
      const [id] = step.adds;
      const { face, arrow } = stickingOf(desk.numbered().partOf.get(id!)!.part);
      const whose = step.asOne === undefined ? 'label' : `label of ${desk.numbered().numberOf.get(id!)}`;
      const words = wordsOf(desk, step).join(' ');
      expect(words).toContain(`${whose} to ${side[face]}, arrow to ${side[arrow]}`);
      expect(words).not.toMatch(/face (down|up)/);
      expect(labels.get(id!)).toContain(SIDE_ON_LABEL[face]);
    }
});

it('what is set back says from which side or cut-out of the other, at that distance behind it', () => {
  const at = {
    left: ['x', 'min'],
    right: ['x', 'max'],
    bottom: ['y', 'min'],
    top: ['y', 'max'],
    back: ['z', 'min'],
    front: ['z', 'max'],
  } as const;
  const kinds = new Set<string>();
  for (const desk of EXAMPLES.map((name) => deskOf(exampleInput(name), 'A4')))
    for (const { plan } of assembliesOf(desk.input))
      for (const { gauge } of plan.steps.flatMap((s) => s.set)) {
        if (gauge?.manner !== 'set back') continue;
        const words = setBackWords(desk, gauge);
        const [, named, kind, inIt] = /^set back from the (\w+) (face|edge|end)( of the \w+ in)?( of)? \d+$/.exec(
          words,
        )!;
        const [axis, end] = at[named as keyof typeof at];
        const [other, own] = gauge.between.map((id) => desk.numbered().partOf.get(id)!.part.solid) as [Solid, Solid];
        const places = (inIt ? other.taken.map((t) => t.box) : [other.box]).map((b) => b[end][axis]);
        // the part lies behind a side, and beyond the edge of a cut-out
        const from = (end === 'max') === (inIt === undefined) ? own.box.max[axis] : own.box.min[axis];
        expect(Math.min(...places.map((p) => Math.abs(Math.abs(p - from) - gauge.distance))), words).toBeLessThan(
          0.001,
        );
        kinds.add(inIt ? 'cut-out' : kind!);
      }
  expect([...kinds].sort()).toEqual(expect.arrayContaining(['cut-out', 'face']));
});

it.each(EXAMPLES)('the spacers of %s are called in the picture what the words and the layout call them', (name) => {
  const desk = deskOf(exampleInput(name), 'A4');
  const pages = assemblyPages(desk).slice(1);
  const said = new Set(pages.flatMap((p) => textsOf(p.marks)).flatMap(({ text }) => text.match(/\bS\d+\b/g) ?? []));
  const drawn = new Set(pages.flatMap((p) => textsOf(p.marks)).flatMap(({ text }) => text.match(/^S\d+$/g) ?? []));
  expect(drawn.size).toBeGreaterThan(1);
  expect([...drawn].sort()).toEqual([...said].sort());
});

it.each(EXAMPLES)('no words of a step of %s are cut off', (name) => {
  for (const paper of ['A4', 'Letter'] as const)
    for (const page of assemblyPages(deskOf(exampleInput(name), paper)))
      for (const { text } of textsOf(page.marks)) expect(text.endsWith('…'), `${page.title}: ${text}`).toBe(false);
});

it.each(EXAMPLES)('steps of %s that share one picture are told in the same words', (name) => {
  const desk = deskOf(exampleInput(name), 'A4');
  const runs = assembliesOf(desk.input).flatMap(({ plan }) =>
    atOnce(plan.steps, (id) => desk.numbered().partOf.get(id)!.part).filter((run) => run.length > 1),
  );
  expect(runs.length).toBeGreaterThan(0);
  for (const run of runs) {
    // the turn before the first is told with it
    const [first, ...more] = run.map((step) => wordsOf(desk, { ...step, turned: false }).join(' '));
    for (const words of more) expect(words).toBe(first);
  }
});

it('says which of two parts has the groove: the one that goes in, or the one that is there', () => {
  const desk = deskOf(exampleInput('lesson-room'), 'A4');
  const { plan, piece } = assembliesOf(desk.input).find((a) => a.piece.id === 'scores')!;
  const words = (part: string): string =>
    wordsOf(desk, plan.steps.find((s) => s.adds.includes(`scores/${part}` as never))!).join(' ');
  const shelf = desk.numbered().numberOf.get(piece.parts.find((p) => p.role === 'fixed shelf')!.id);
  // the first upright is housed over the end of the fixed shelf that lies there; the second goes up into the top
  expect(words('upright-1')).toContain(`Its groove over ${shelf}`);
  expect(words('upright-2')).toContain(`Let into ${desk.numbered().numberOf.get('scores/top' as never)}`);
});

it('screws the front of a drawer from inside the drawer, which is drawn out for it, with screws that stay in the wood', () => {
  const desk = deskOf(exampleInput('lesson-room'), 'A4');
  const { plan, piece } = assembliesOf(desk.input).find((a) => a.piece.id === 'scores')!;
  const fronts = piece.parts.filter((p) => p.role === 'drawer front');
  expect(fronts.length).toBeGreaterThan(0);
  for (const front of fronts) {
    const step = plan.steps.find((s) => s.adds.includes(front.id))!;
    const box = piece.parts.find((p) => p.id === front.id.replace(/front$/, 'box-front'))!;
    expect(step.fasteners.map(({ through, from }) => [through, from])).toEqual([[box.id, 'back']]);
    const words = wordsOf(desk, step).join(' ');
    expect(words).toContain('draw the drawer out');
    const [, most] = /none longer than ([^.]+)\./.exec(words)!;
    expect(most).toBe(desk.letter.length(front.size.thickness + box.size.thickness - 3));
  }
});

it.each(EXAMPLES)('brings the doors and drawer fronts of %s straight on, from the front', (name) => {
  let all = 0;
  for (const { plan, piece } of assembliesOf(deskOf(exampleInput(name), 'A4').input))
    for (const front of piece.parts.filter((p) => p.role === 'door' || p.role === 'drawer front')) {
      const step = plan.steps.find((s) => s.adds.includes(front.id));
      if (step?.moves === undefined) continue;
      all++;
      expect(step.moves, front.id).toBe('back');
    }
  expect(all).toBeGreaterThan(2);
});

it('the heads of the steps of a piece are of one size', () => {
  const sizes = new Map<string, Set<number>>();
  for (const name of EXAMPLES)
    for (const page of assemblyPages(deskOf(exampleInput(name), 'A4'))) {
      const heads = textsOf(page.marks).filter((t) => t.bold && /^[\d, –]+\s+[A-Z]/.test(t.text));
      if (heads.length === 0) continue;
      const of = `${name} ${page.title.split(':')[0]}`;
      sizes.set(of, new Set([...(sizes.get(of) ?? []), ...heads.map((t) => t.height)]));
    }
  // a short name alone is written large
  expect(new Set([...sizes.values()].flatMap((all) => [...all])).size).toBe(2);
  for (const [of, all] of sizes) expect(all.size, of).toBe(1);
});
