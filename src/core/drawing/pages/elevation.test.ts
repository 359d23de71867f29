import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Note } from '../../notes/index.ts';
import { findOption, packetInput, sceneOf, settle } from '../../outcome.ts';
import { readPlan } from '../../plan/index.ts';
import { extentOf, overlaps, textArea, textsOf } from '../draw.ts';
import type { PacketInput } from '../input.ts';
import { noSpots } from '../layout/place.ts';
import type { Mark } from '../marks.ts';
import { exampleInput, examplePlan, inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { deskOf, type Held } from './desk.ts';
import { elevationPages } from './elevation.ts';
import { planPages } from './plan-view.ts';

const text = readFileSync(join(import.meta.dirname, '../../../../examples/lesson-room.plan.yaml'), 'utf8');
/** The lesson room with small things side by side on its shelves. */
function roomWith(
  things: readonly { readonly title: string; readonly on: string; readonly from: number }[],
): PacketInput {
  const told = things.map(
    ({ title, on, from }) =>
      `      - {thing: ${title}, title: ${title}, 'on': ${on}, wall: north, from: ${from}", size: {width: 6", height: 10", depth: 6"}}\n`,
  );
  const { plan, issues } = readPlan(text.replace("      - {thing: teacher's chair", `${told.join('')}$&`));
  if (!plan) throw new Error(JSON.stringify(issues));
  return inputOf(plan, plan.options[0]!);
}
const onLower = ['Metronome', 'Plaster bust', 'Vase of reeds'].map((title, i) => ({
  title,
  on: 'lower shelf',
  from: 12 + 12 * i,
}));
const onUpper = ['Old metronome', 'Second bust', 'Bowl'].map((title, i) => ({
  title,
  on: 'upper shelf',
  from: 10 + 9 * i,
}));
const north = (input: PacketInput) => elevationPages(deskOf(input, 'Letter'), 'elevation-north')[0]!;

/** Each line of a piece with what it belongs to. */
const linesOf = (marks: readonly Mark[], about = ''): readonly { readonly about: string; readonly mark: Mark }[] =>
  marks.flatMap((mark) =>
    mark.kind === 'group'
      ? linesOf(mark.marks, mark.about)
      : mark.kind === 'line' && about !== ''
        ? [{ about, mark }]
        : [],
  );
/** Names of pieces that lie over a line of another piece, and whatever is named nowhere. */
function faults(input: PacketInput): readonly string[] {
  const { marks } = north(input);
  const named = input.pieces.filter((p) => p.wall?.id === 'north' && p.kind !== 'trim' && p.kind !== 'strip');
  const names = textsOf(marks).filter((t) => t.bold && !/^\d+$/.test(t.text));
  const lines = linesOf(marks).filter(
    ({ mark }) => mark.kind === 'line' && mark.pen !== 'thin' && mark.tone !== 'faint',
  );
  expect(lines.length).toBeGreaterThan(50);
  const over = names.flatMap((name) => {
    const own = named.find(({ title }) => title === name.text || title.includes(name.text));
    return lines
      .filter(({ about, mark }) => about !== own?.id && overlaps(textArea(name), extentOf([mark])!, -0.1))
      .map(({ about }) => `'${name.text}' over ${about}`);
  });
  const written = names.map((t) => t.text).join(' ');
  return [
    ...over,
    ...named.filter(({ title }) => !written.includes(title)).map(({ title }) => `${title} is not named`),
  ];
}

describe('small things side by side on shelves', () => {
  it.each([
    ['one shelf', onLower],
    ['two shelves', [...onLower, ...onUpper]],
  ])('on %s: everything is named, and no name lies over a line of something else', (_, things) => {
    expect(faults(roomWith(things))).toEqual([]);
  });
  it('keep their names where they are while one of them is moved', () => {
    const spots = noSpots();
    const namesWith = (from: number, held?: Held) => {
      const input = roomWith([...onLower, { ...onUpper[0]!, from }, ...onUpper.slice(1)]);
      const { marks } = elevationPages(deskOf(input, 'Letter'), 'elevation-north', held)[0]!;
      return textsOf(marks).flatMap((t) => (t.bold && !/^\d+$/.test(t.text) ? [`${t.text} ${t.at.x} ${t.at.y}`] : []));
    };
    const before = namesWith(10, { spots });
    // as far as nothing has come there
    const wandered = (held?: Held) =>
      [10.25, 10.5, 11, 11.5].map(
        (from) =>
          namesWith(from, held).filter((name) => !before.includes(name) && !/^(Old|metronome)/.test(name)).length,
      );
    expect(wandered({ spots })).toEqual([0, 0, 0, 0]);
    expect(Math.max(...wandered())).toBeGreaterThan(0);
  });
  it('are not measured: they are set down by eye', () => {
    const figures = (input: PacketInput) =>
      textsOf(north(input).marks)
        .filter((t) => /^[\d\s′″⁄½-¾⅐-⅞×()=]+$/.test(t.text) && !t.bold)
        .map((t) => t.text)
        .sort();
    expect(figures(exampleInput('lesson-room')).length).toBeGreaterThan(20);
    expect(figures(roomWith(onLower))).toEqual(figures(exampleInput('lesson-room')));
  });
});

it.each([
  ['lesson-room', 'north', 'screen board', 'screen'],
  ['radio-corner', 'west', 'sound panel', 'monitor'],
] as const)('what hangs before a lining in %s does not carry its name', (example, wall, lining, display) => {
  const input = exampleInput(example);
  const [page] = elevationPages(deskOf(input, 'A4'), `elevation-${wall}`);
  const boxOf = (id: string) => extentOf(page!.marks.filter((m) => m.kind === 'group' && m.about === id))!;
  const title = input.pieces.find(({ id }) => id === lining)!.title;
  const name = textsOf(page!.marks).find((t) => t.text === title)!;
  expect(overlaps(textArea(name), boxOf(display))).toBe(false);
  expect(overlaps(textArea(name), boxOf(lining))).toBe(true);
});

it('the length of a wall is told once where a moulding reaches past its outer corner', () => {
  const plan = examplePlan('radio-corner');
  const today = '2026-10-02';
  // with the mouldings, which are laid when all else stands
  const desk = deskOf(packetInput(settle(sceneOf(plan, findOption(plan)!), [], today), [], today), 'A4');
  const count = (marks: readonly Mark[], figure: string): number =>
    textsOf(marks).filter((t) => t.text === figure).length;
  const { marks } = planPages(desk)[0]!;
  // both sides of the chimney breast, its front
  expect([count(marks, '340'), count(marks, '1420'), count(marks, '15')]).toEqual([2, 1, 0]);
  for (const [wall, figure] of [
    ['breast left', '340'],
    ['breast', '1420'],
  ] as const) {
    const [page] = elevationPages(desk, `elevation-${wall}`);
    expect([count(page!.marks, figure), count(page!.marks, '15')]).toEqual([1, 0]);
  }
});

it.each([
  [2600, '1:20', true],
  [5200, '1:25', false],
] as const)(
  'of a wall of %d mm the notes have their words beside it only where it is not much smaller for them',
  (length, scale, isBeside) => {
    const { plan } = readPlan(SMALL_PLAN.replaceAll('length: 2600', `length: ${length}`));
    const input = inputOf(plan!, plan!.options[0]!);
    const note: Note = { id: 'look', about: 'music', verdict: 'caution', title: 'Look here', advice: 'Look.' };
    const [page] = elevationPages(deskOf({ ...input, notes: [note] }, 'A4'), 'elevation-long');
    expect(page!.scale).toBe(scale);
    const words = textsOf(page!.marks).map((t) => t.text);
    expect(words).toContain('1');
    expect([words.includes('Look.'), words.includes('1: see the notes')]).toEqual([isBeside, !isBeside]);
  },
);

it('no word of a name on a leader is broken', () => {
  const title = 'Bust of the great-great-grandmother-in-law';
  const words = textsOf(
    north(roomWith([...onLower.slice(0, 1), { title, on: 'lower shelf', from: 24 }, ...onLower.slice(2)])).marks,
  )
    .filter((t) => t.bold)
    .flatMap((t) => t.text.split(' '));
  for (const word of title.split(' ')) expect(words).toContain(word);
});
