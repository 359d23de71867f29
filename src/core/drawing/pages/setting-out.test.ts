import { expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { settingOut } from '../../setting-out/index.ts';
import { textArea, textsOf } from '../draw.ts';
import { EXAMPLES, exampleInput, inputOf } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { packetPages } from './packet.ts';
import { wallInputOf } from './setting-out.ts';

/** All that stands on the drilling table of a wall with studs 400 apart from 200 on, word by word. */
function drillingTable(piece: string): readonly string[] {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 400, first: 200, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
options: [{id: one, pieces: [${piece}]}]
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  // a figure and its unit are kept together by a space that does not break
  return packetPages(inputOf(plan, plan.options[0]!), { paper: 'A4' })
    .filter(({ id }) => id.startsWith('setting-north'))
    .flatMap(({ marks }) => textsOf(marks).map((t) => t.text.replaceAll(/\s/g, ' ')));
}
/** Of a display whose slots are 420 long. */
const tableOfScreen = (centre: number): string =>
  drillingTable(
    `{display: screen, title: Screen, wall: north, centre: ${centre}, above: 900, size: {width: 1000, height: 600, depth: 60}, mass: 20 kg, mount: {holes: {width: 200, height: 200}, plate: {width: 440, height: 300}}}`,
  ).join(' ');

it('the drilling table says where a wall plate sits that is not behind the middle of its display', () => {
  expect(tableOfScreen(1670)).toContain(
    'Screen: the middle of its wall plate sits 60 mm to the left of its own middle.',
  );
  // mirrored about the middle of the bay from 1400 to 1800: slots reach the stud at 1400 alone, 1800 is 60 further right
  const mirrored = 3200 - 1670;
  expect(tableOfScreen(mirrored)).toContain('sits 60 mm to the right of its own middle.');
  // in the middle of the bay both are within reach
  expect(tableOfScreen(1600)).not.toContain('wall plate sits');
});

it('the drilling table tells no share of what nothing can hold', () => {
  const used = drillingTable(
    '{case: flat, title: Flat, wall: north, from: 0, size: {width: 1000, height: 19, depth: 380}, toe: {height: 90, setback: 60}, fix: {kind: wood screw, diameter: 5, length: 80}}',
  ).filter((text) => text.includes('%'));
  expect(used.length).toBeGreaterThan(0);
  expect(new Set(used)).toEqual(new Set(['> 100 %']));
});

it('the drilling table tells no share of screws that only keep a low case in its place, and of no other', () => {
  const shares = (height: number) =>
    drillingTable(
      `{case: low, title: Low, wall: north, from: 0, size: {width: 1000, height: ${height}, depth: 450}}`,
    ).filter((text) => /%$|^–$/.test(text));
  expect(new Set(shares(760))).toEqual(new Set(['–']));
  expect(shares(1800).length).toBeGreaterThan(0);
  expect(shares(1800)).not.toContain('–');
});

it.each(EXAMPLES)(
  'writes nothing as what it is nothing of, in one manner on all sheets of %s, and never less than nothing',
  (name) => {
    const input = exampleInput(name);
    const zero = input.plan.units.length === 'mm' ? '0' : '0″';
    const told = packetPages(input, { paper: 'A4' })
      .filter(({ id }) => /^(setting|wall-fit|template|elevation)/.test(id))
      .flatMap(({ id, marks }) => textsOf(marks).map((t) => `${id}: ${t.text}`));
    const nothing = told.filter((words) => /: −?0[″"]?$/.test(words));
    expect(nothing.length).toBeGreaterThan(3);
    for (const words of nothing) expect(words.slice(words.lastIndexOf(':') + 2), words).toBe(zero);
  },
);

/** One case at a wall, with screws at so many heights. */
function standing(wall: number, from: number, width: number, heights: string) {
  const { plan } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: ${wall}, framing: {kind: timber stud, spacing: 400, first: 200, board: 12.5}}, {id: east, length: 3000}, {id: south, length: ${wall}}, {id: west, length: 3000}]
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, back: {kind: none}, band: none}
options: [{id: one, pieces: [{case: a, wall: north, from: ${from}, size: {width: ${width}, height: 2000, depth: 300}, fix: {kind: wood screw, diameter: 5, length: 80, heights: [${heights}]}}]}]
`);
  return inputOf(plan!, plan!.options[0]!);
}
const MANY = '200, 500, 800, 1100, 1400, 1700, 1900';

it('a short drilling table stands under its drawing, a long one on sheets of its own', () => {
  const sheets = (heights: string): readonly string[] => {
    const input = standing(4000, 100, 1800, heights);
    const pages = packetPages(input, { paper: 'A4' }).filter(({ id }) => id.startsWith('setting-north'));
    const rows = pages.flatMap(({ marks }) => textsOf(marks)).filter((t) => /^(?:EDGE of )?stud \d+$/.test(t.text));
    expect(rows).toHaveLength(settingOut(wallInputOf(deskOf(input, 'A4')))[0]!.holes.length);
    return pages.map(({ marks }) => {
      const words = textsOf(marks).map((t) => t.text);
      return [words.includes('Across') && 'table', words.some((w) => w.startsWith('Plumb line')) && 'drawing']
        .filter(Boolean)
        .join(' ');
    });
  };
  expect(sheets('1900')).toEqual(['table drawing']);
  expect(sheets(MANY).slice(0, 2)).toEqual(['drawing', 'table']);
});

it('a wall that has room beside its figures alone is drawn off the middle of its sheet rather than smaller', () => {
  const input = standing(5700, 0, 2400, MANY);
  const page = packetPages(input, { paper: 'A4' }).find(({ id }) => id === 'setting-north')!;
  expect(page.scale).toBe('1:25');
  const { body } = deskOf(input, 'A4').sheet;
  for (const own of textsOf(page.marks)
    .map(textArea)
    .filter(({ y }) => y > body.y && y < body.y + body.height - 5)) {
    expect(own.x).toBeGreaterThanOrEqual(body.x - 0.01);
    if (own.x < body.x + body.width) expect(own.x + own.width).toBeLessThanOrEqual(body.x + body.width + 0.01);
  }
});

it('timber let in between the studs is drawn and told before the holes that go into it; what is in the wall already is only told', () => {
  const pages = (blocking: string) => {
    const { plan } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 600, first: 300, board: 12.5, blocking: [${blocking}]}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
options: [{id: one, pieces: [{case: c, wall: north, from: 400, above: 1400, size: {width: 800, height: 700, depth: 200}, fix: {kind: lag screw, diameter: 6, length: 80, at: [200, 600], heights: [50, 650]}}]}]
`);
    const drawn = packetPages(inputOf(plan!, plan!.options[0]!), { paper: 'A4' }).filter(({ id }) =>
      id.startsWith('setting-north'),
    );
    const marks = drawn.flatMap((page) => page.marks);
    return {
      words: textsOf(marks)
        .map((t) => t.text.replaceAll(/\s/g, ' '))
        .join(' '),
      broken: marks.filter((mark) => 'pen' in mark && mark.pen === 'hidden').length,
    };
  };
  // studs of 38.1 at 300, 900 and 1500: faces at 319.05, 880.95 and 919.05, 1480.95; the plumb line at 400
  const timber = 'from: 300, to: 1500, above: 1980, height: 140, thickness: 38';
  const fresh = pages(`{${timber}, new: true}`);
  expect(fresh.broken).toBe(2);
  expect(fresh.words).toMatch(
    /Let in timber 38 mm × 140 mm, lower edge 980 up, 1980 above the floor: 561\.9 long at −81 across, 2 screws in each end; 561.9 long at 519\.1 across, 2 screws in each end\./,
  );
  expect(fresh.words).toContain('How it is let in (common practice)');
  expect(fresh.words).toContain('wood screws 5 mm × 80 mm at a slant');
  expect(fresh.words).toContain('timber let in');
  const there = pages(`{${timber}}`);
  expect(there.broken).toBe(2);
  expect(there.words).toContain('Timber 38 mm × 140 mm is in the wall already, lower edge 980 up');
  expect(there.words).not.toContain('How it is let in');
  expect(pages('').broken).toBe(0);
});
