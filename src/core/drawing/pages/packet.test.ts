import { describe, expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { area, extentOf, holds, LETTER, textsOf } from '../draw.ts';
import type { Mark, PaperName } from '../marks.ts';
import { EXAMPLES, exampleInput, inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { collisions, crossings } from './collisions.testing.ts';
import { packetPages } from './packet.ts';

const PAPERS: readonly PaperName[] = ['A4', 'A3', 'Letter', 'Tabloid'];
const inputs = new Map(EXAMPLES.map((name) => [name, exampleInput(name)]));
const rows = EXAMPLES.flatMap((name) => PAPERS.map((paper) => ({ name, paper })));

describe.each(rows)('the packet of $name on $paper', ({ name, paper }) => {
  const input = inputs.get(name)!;
  const pages = packetPages(input, { paper });

  it('leaves no mark off its sheet', () => {
    for (const page of pages)
      expect(
        holds(area(3, 3, page.width - 6, page.height - 6), extentOf(page.marks)!),
        `${page.number} ${page.title}`,
      ).toBe(true);
  });

  it('writes nothing smaller than can be read at arm’s length (ISO 3098: 2.5 mm)', () => {
    for (const page of pages)
      for (const text of textsOf(page.marks)) expect(text.height).toBeGreaterThanOrEqual(LETTER.small);
  });

  it('writes no text over another', () => {
    expect(pages.flatMap(collisions)).toEqual([]);
  });

  it('leads no leader through what is written', () => {
    expect(pages.flatMap(crossings)).toEqual([]);
  });

  it('numbers its pages from 1, each with an id of its own', () => {
    expect(pages.map((p) => p.number)).toEqual(pages.map((_, i) => i + 1));
    expect(new Set(pages.map((p) => p.id)).size).toBe(pages.length);
  });

  it('has every part on a label, in the part list, and on one layout', () => {
    const wordsOn = (prefix: string): string =>
      pages
        .filter((p) => p.id.startsWith(prefix))
        .flatMap((p) => textsOf(p.marks).map((t) => t.text))
        .join(' ');
    const count = input.pieces.reduce((sum, p) => sum + p.parts.length, 0);
    const labels = pages.filter((p) => p.id.startsWith('labels')).flatMap((p) => codes(p.marks));
    expect(labels.length).toBe(count);
    expect(new Set(labels).size).toBe(count);
    const listed = numbersIn(wordsOn('parts-'));
    for (let n = 1; n <= count; n++) expect(listed.has(n), `part ${n} in the list`).toBe(true);
  });

  it('breaks no word of the place a label names', () => {
    const onLabel = (marks: readonly Mark[]): readonly string[] => textsOf(marks).map((t) => t.text);
    const labels = pages.filter((p) => p.id.startsWith('labels')).flatMap((p) => p.marks);
    for (const piece of input.pieces)
      for (const part of piece.parts) {
        const own = labels.find((m) => m.kind === 'group' && m.about === part.id);
        const [, ...words] = onLabel(own?.kind === 'group' ? own.marks : []);
        const place = part.label.place || piece.title;
        const told = words.join(' ').replaceAll('\u00a0', ' ');
        if (!told.startsWith(place)) expect(words.slice(0, 2).join(' '), `part ${part.id} in ${place}`).toContain('…');
      }
  });

  it('cuts no place short on a label that has room for it, and no number from its name', () => {
    const labels = pages.filter((p) => p.id.startsWith('labels')).flatMap((p) => textsOf(p.marks).map((t) => t.text));
    // one word may be wider than the space beside the number
    expect(labels.filter((words) => words.endsWith('…')).length).toBeLessThanOrEqual(2);
    expect(labels.filter((words) => /^\d+$/.test(words)).length).toBe(
      input.pieces.reduce((sum, p) => sum + p.parts.length, 0),
    );
  });

  it('says every note with its number and its advice', () => {
    const words = pages
      .flatMap((p) => textsOf(p.marks).map((t) => t.text))
      .join(' ')
      .replace(/\s+/g, '');
    for (const note of input.notes) {
      expect(words).toContain(note.title.replace(/\s+/g, ''));
      expect(words).toContain(note.advice.replace(/\s+/g, ''));
    }
  });

  it('is the same every time', () => {
    expect(packetPages(exampleInput(name), { paper })).toEqual(pages);
  });
});

function codes(marks: readonly Mark[]): readonly string[] {
  return marks.flatMap((m) => (m.kind === 'group' ? codes(m.marks) : m.kind === 'code' ? [m.text] : []));
}

/** Every number that `3`, `5–7` and `9, 12` name. */
function numbersIn(words: string): ReadonlySet<number> {
  const found = new Set<number>();
  for (const [, from, to] of words.matchAll(/(\d+)(?:–(\d+))?/g))
    for (let n = Number(from); n <= Number(to ?? from); n++) found.add(n);
  return found;
}

describe.each([
  ['evenly', 'spacing: 400', /75 × 400 \(= 30000\)/],
  // 45 of them have no room in a row beside one another, 70 none even when they are turned
  ['unevenly, as they were found', `at: [${found(45, 380)}]`, /^381$/],
  ['so unevenly and so often that no row holds their figures', `at: [${found(70, 380)}]`, /29800|30000/],
])('a very long wall with studs %s', (_, framing, said) => {
  const text = SMALL_PLAN.replace(/framing: \{.*?\}\}/, `framing: {kind: steel stud, ${framing}}}`).replaceAll(
    /(id: (?:long|far), length:) 2600/g,
    '$1 30000',
  );
  const { plan, issues } = readPlan(text);
  if (!plan) throw new Error(JSON.stringify(issues));
  const pages = packetPages(inputOf(plan, plan.options[0]!), { paper: 'A4' });
  const page = pages.find(({ id }) => id === 'elevation-long')!;

  it('is drawn within its sheet, no figure over another', () => {
    expect(holds(area(3, 3, page.width - 6, page.height - 6), extentOf(page.marks)!)).toBe(true);
    expect(collisions(page)).toEqual([]);
    expect(textsOf(page.marks).map((t) => t.text)).toContainEqual(expect.stringMatching(said));
  });
});

/** Studs at distances of which no two that follow one another are equal. */
function found(count: number, apart: number): string {
  return Array.from({ length: count }, (_, i) => (i + 1) * apart + (i % 2)).join(', ');
}

it('writes the title of a sheet in two lines where one is too short for it', () => {
  const title = 'Music case between the chimney breast and the door to the old workshop';
  const { plan } = readPlan(SMALL_PLAN.replace('title: Music case', `title: ${title}`));
  const pages = packetPages(inputOf(plan!, plan!.options[0]!), { paper: 'Letter' });
  const page = pages.find(({ id }) => id === 'piece-music')!;
  const foot = textsOf(page.marks).filter((t) => t.height === LETTER.head && t.at.y > page.height - 20);
  expect(foot.map((t) => t.text).join(' ')).toBe(title);
  expect(collisions(page)).toEqual([]);
});

describe('long titles of a plan and its option', () => {
  // as long as the plan file lets them be, in words of the language whose words are longest
  const plan =
    'Das kleine Lesezimmer mit Schallplattenaufbewahrung und Sendeplatz im Dachgeschoss der alten Druckerei am Fluss';
  const option = 'Niedrige Schränke unter dem Fenster, ein hohes Regal für Schallplatten im Eck';
  const text = SMALL_PLAN.replace('title: Small room', `title: ${plan}`).replace(
    '- id: one',
    `- id: one\n    title: ${option}`,
  );
  const read = readPlan(text).plan!;

  it.each(PAPERS)('stand whole round every sheet on %s, where the titles of the sheets are short', (paper) => {
    const pages = packetPages(inputOf(read, read.options[0]!), { paper });
    for (const page of pages) {
      const at = (from: number, to: number): string =>
        textsOf(page.marks)
          .filter((t) => t.at.y > from && t.at.y < to && t.turn === undefined)
          .map((t) => t.text)
          .join(' ');
      if (/^(?:labels|stick|template|scribe)/.test(page.id)) continue;
      expect(at(0, 18), page.id).toContain(option);
      expect(at(page.height - 19, page.height), page.id).toContain(plan);
      expect(collisions(page)).toEqual([]);
    }
  });

  it('break no word on the cover', () => {
    const cover = packetPages(inputOf(read, read.options[0]!), { paper: 'A4' })[0]!;
    const title = textsOf(cover.marks).filter((t) => t.bold && t.height === LETTER.title && t.at.x < 25);
    expect(title.map((t) => t.text).join(' ')).toContain(plan);
  });
});
