import { expect, it } from 'vitest';
import { findOption, packetInput, sceneOf, settle } from '../../outcome.ts';
import { readPlan } from '../../plan/index.ts';
import { extentOf, type TextMark, textArea, textsOf } from '../draw.ts';
import type { Mark, Page, PaperName } from '../marks.ts';
import { examplePlan, inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { packetPages } from './packet.ts';
import { piecePages } from './piece.ts';

const PAPERS: readonly PaperName[] = ['A4', 'A3', 'Letter', 'Tabloid'];
const rows = PAPERS.flatMap((paper) => [151, 251, 351, 451].map((depth) => ({ paper, depth })));

it.each(rows)('no number of a part of a shelf $depth deep is broken into its figures on $paper', ({ paper, depth }) => {
  const { plan, issues } = readPlan(`${SMALL_PLAN}
      - shelf: high
        title: Long shelf
        wall: long
        from: 40
        above: 1880
        size: {width: 2530, height: 57, depth: ${depth}}
        skin: ply 6
        core: ply 18
        rods: {diameter: 12, length: 120}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const page = packetPages(inputOf(plan, plan.options[0]!), { paper }).find(({ id }) => id === 'piece-high')!;
  const numbers = textsOf(page.marks).filter((t) => t.bold && /^\d+$/.test(t.text) && t.at.y < page.height - 20);
  expect(numbers.length).toBeGreaterThan(6);
  for (const [i, a] of numbers.entries())
    for (const b of numbers.slice(i + 1))
      if (a.text.length === 1 && b.text.length === 1 && a.at.x === b.at.x)
        expect(Math.abs(a.at.y - b.at.y), `${a.text} over ${b.text}`).toBeGreaterThan(4.5);
});

/** Whether two views of a page overlap is no matter of words: their captions tell where each begins. */
const captionsOf = (page: Page): readonly TextMark[] =>
  textsOf(page.marks).filter((t) => /^(Front|Section A|Plan section B)/.test(t.text));
const pageOfCase = (width: number, height: number, paper: PaperName): Page => {
  const { plan, issues } = readPlan(
    SMALL_PLAN.replace(
      'size: {width: 900, height: 800, depth: 350}',
      `size: {width: ${width}, height: ${height}, depth: 350}`,
    ),
  );
  if (!plan) throw new Error(JSON.stringify(issues));
  return packetPages(inputOf(plan, plan.options[0]!), { paper }).find(({ id }) => id === 'piece-music')!;
};
it('the plan of a tall case stands beside its front where it would make it smaller under it, that of a low one under it', () => {
  // 2100 mm are 140 mm of paper at 1:15; with a plan of 350 mm under them there would be room for 1:20
  const tall = pageOfCase(700, 2100, 'A4');
  expect(tall.scale).toBe('1:15');
  const [front, across, plan] = captionsOf(tall);
  expect(plan!.at.x).toBeGreaterThan(textArea(across!).x + textArea(across!).width);
  expect(plan!.at.y).toBeLessThan(front!.at.y + 20);
  const low = captionsOf(pageOfCase(1200, 800, 'A4'));
  expect(low[2]!.at.x).toBe(low[0]!.at.x);
  expect(low[2]!.at.y).toBeGreaterThan(low[0]!.at.y + 60);
});

it('the tiles of an absorber, whose thickness is told on its sections, are drawn there', () => {
  const plan = examplePlan('lesson-room');
  const today = '2026-10-02';
  const input = packetInput(settle(sceneOf(plan, findOption(plan)!), [], today), [], today);
  const pages = piecePages(deskOf(input, 'Letter'));
  for (const id of ['piece-foam west', 'piece-foam east']) {
    const page = pages.find((own) => own.id === id)!;
    const ratio = { '1⁄2″ = 1′ 0″': 24, '1″ = 1′ 0″': 12 }[page.scale!]!;
    const marks = flat(page.marks);
    const tiles = marks.flatMap((m) => (m.kind === 'shape' && m.pen === 'ghost' ? [extentOf([m])!] : []));
    // two inches, on the section from the side and on that from above
    expect(tiles.map((t) => (Math.min(t.width, t.height) * ratio) / 25.4)).toEqual([
      expect.closeTo(2),
      expect.closeTo(2),
    ]);
  }
});
const flat = (marks: readonly Mark[]): readonly Mark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? flat(m.marks) : [m]));
