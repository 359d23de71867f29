import { describe, expect, it } from 'vitest';
import { cured, curedPlan, type Known, noteOn, notesOf, read, roomOf, sceneIn } from '../plan.testing.ts';
import { lateralValue, rootOf } from '../timber-fixing.ts';
import { fixings } from './held.ts';
import { lengthsOf } from './let-in.ts';

const TIMBER = '{kind: timber stud, spacing: 600, first: 300, board: 12.5}';
const STEEL = '{kind: steel stud, spacing: 600, first: 300, board: 12.5, mils: 18}';
const books = (name: string, from: number, width: number, more = '') =>
  `      - {case: ${name}, wall: north, from: ${from}, above: 1400, carries: books, size: {width: ${width}, height: 700, depth: 300}, inside: {open: [1*, 1*, 1*]}${more}}`;
const pointsOf = ({ plan }: Known) => fixings({ ...sceneIn(plan), massOf: () => undefined }).points;
const blockingOf = ({ plan }: Known) => {
  const { framing } = plan.room.walls[0]!;
  return framing && 'blocking' in framing ? framing.blocking! : [];
};

describe('a hung case of books that the studs alone do not hold', () => {
  it.each([
    ['two timber studs', TIMBER, 200, 1000],
    ['two timber studs', TIMBER, 200, 1200],
    ['thin steel studs', STEEL, 200, 800],
    ['thin steel studs', STEEL, 200, 1000],
    ['thin steel studs', STEEL, 450, 1200],
  ])('gets timber between %s, and hangs: %s from %i, %i wide', (_, framing, from, width) => {
    const { plan, plain } = read(roomOf(books('c', from, width), { framing }));
    const before = noteOn(notesOf(plan), 'fixing:c')!;
    expect(before.verdict).toBe('stop');
    expect(before.cure!.title).toContain('between the studs');
    const notes = cured(plain, before);
    expect(['fixing:c', 'rails:c', 'let-in:c'].map((id) => noteOn(notes, id)!.verdict)).toEqual([
      'fine',
      'fine',
      'fine',
    ]);
    // studs of thin steel are proven for nothing like some 230 kg to the metre
    expect(noteOn(notes, 'partition:')?.verdict).toBe(framing === STEEL ? 'caution' : undefined);
    const after = curedPlan(plain, before);
    const points = pointsOf(after);
    expect(points.some((p) => p.lands === 'blocking')).toBe(true);
    const studs = sceneIn(after.plan).room.walls[0]!.studs;
    const off = (x: number) => Math.min(...studs.map((s) => Math.abs(s.at - x) - s.width / 2));
    for (const { lands, x } of points) {
      expect(['stud', 'blocking']).toContain(lands);
      // never in the seam between a stud and the end of the timber
      if (lands === 'blocking') expect(off(x)).toBeGreaterThan(35);
      if (framing === STEEL) expect(lands).toBe('blocking');
    }
    // each ends at a stud, or where the wall does
    for (const { from: left, to: right } of blockingOf(after))
      for (const end of [left, right]) expect([0, 4000, ...studs.map((s) => s.at)]).toContain(end);
  });

  const INCHES = `
setwright: 1
units: {length: in, currency: USD}
room:
  ceiling: 96
  walls:
    - {id: north, length: 157, framing: {kind: steel stud, spacing: 24, first: 8-1/4, mils: 33, depth: 2-3/4, board: 1}}
    - {id: east, length: 118}
    - {id: south, length: 157}
    - {id: west, length: 118}
stock:
  panels:
    - {id: ply, kind: birch plywood, thickness: 3/4, sizes: [{length: 96, width: 48}]}
    - {id: thin, kind: birch plywood, thickness: 1/4, sizes: [{length: 96, width: 48}]}
make: {panel: ply, back: {kind: applied, panel: thin}}
options: [{id: one, pieces: [{case: c, wall: north, from: 8, above: 43-1/4, size: {width: 36, height: 15-3/4, depth: 9}, inside: {open: [1*, 1*, 1*]}, carries: books}]}]
`;

  it('gets screws long enough for a thick board, and in inches timber as that is planed', () => {
    const { plan, plain } = read(INCHES);
    const before = noteOn(notesOf(plan), 'fixing:c')!;
    // 1 in of board, 1/4 of back and 3/4 of rail before 1-1/2 of timber
    expect(before.cure!.title).toContain('wood screws #8 × 3-1/2"');
    expect(noteOn(cured(plain, before), 'fixing:c')!.verdict).toBe('fine');
    expect(blockingOf(curedPlan(plain, before)).map((b) => [b.height, b.thickness])).toEqual([
      [184.15, 38.1],
      [184.15, 38.1],
    ]);
  });

  it('shares the timber with the case beside it: what is let in for one is not let in again', () => {
    const { plan, plain } = read(
      roomOf([books('c', 200, 1000), books('d', 1200, 1000)].join('\n'), { framing: TIMBER }),
    );
    const first = curedPlan(plain, noteOn(notesOf(plan), 'fixing:c')!);
    const second = curedPlan(first.plain, noteOn(notesOf(first.plan), 'fixing:d')!);
    expect(notesOf(second.plan).filter((n) => n.verdict === 'stop' && /^(fixing|rails|let-in):/.test(n.id))).toEqual(
      [],
    );
    const blocks = blockingOf(second);
    expect(blocks.length).toBeGreaterThan(2);
    for (const a of blocks)
      for (const b of blocks)
        if (a !== b)
          expect(
            a.to <= b.from || b.to <= a.from || a.above + a.height <= b.above || b.above + b.height <= a.above,
          ).toBe(true);
  });

  it.each(['outlet', 'window'])('gets none with this in the way: %s', (what) => {
    const room =
      what === 'window'
        ? '  openings: [{wall: north, kind: window, from: 350, width: 400, sill: 1450, height: 500}]'
        : '  services: [{id: o, wall: north, kind: outlet, at: 600, height: 1980}]';
    const { plan } = read(roomOf(books('c', 200, 1000), { framing: TIMBER, room }));
    expect(noteOn(notesOf(plan), 'fixing:c')!.cure).toBeUndefined();
  });
});

it('a floating shelf gets timber high enough for the screws that its ends take', () => {
  const shelf =
    '      - {shelf: s, wall: north, from: 700, above: 900, size: {width: 800, height: 60, depth: 250}, skin: thin, core: ply, load: 20 kg, rods: {diameter: 12, length: 150, count: 3}, play: 12}';
  const { plan, plain } = read(
    roomOf(shelf, { framing: '{kind: timber stud, spacing: 600, first: 200, board: 12.5}' }),
  );
  const before = noteOn(notesOf(plan), 'fixing:s')!;
  const after = curedPlan(plain, before);
  expect(blockingOf(after)[0]!.height).toBeGreaterThan(140);
  expect(noteOn(notesOf(after.plan), 'let-in:s')!.verdict).toBe('fine');
});

describe('the ends of timber between studs', () => {
  const BLOCKS =
    'blocking: [{from: 600, to: 1000, above: 1380, height: 140, thickness: 38}, {from: 600, to: 1000, above: 1980, height: 140, thickness: 38}]';
  const one = (at: number, framing = `{kind: timber stud, spacing: 400, first: 200, board: 12.5, ${BLOCKS}}`) =>
    read(
      roomOf(
        `      - {case: c, wall: north, from: 500, above: 1400, size: {width: 600, height: 700, depth: 200}, make: {back: {kind: applied, panel: ply}}, fix: {kind: lag screw, diameter: 6, length: 80, at: [${at}, 260, 340], heights: [50, 650]}}`,
        { framing },
      ),
    );
  const inputs = (known: Known) => {
    const { working } = noteOn(notesOf(known.plan), 'let-in:c')!;
    const of = (symbol: string) => working!.inputs.find((i) => i.symbol === symbol)!.value as number;
    return { of, working: working! };
  };

  it('bear what lands between them as a beam bears it, by levers about the other end', () => {
    const known = one(150);
    const upper = pointsOf(known).filter((p) => p.y > 2000);
    expect(upper.map((p) => [p.x, p.lands])).toEqual([
      [650, 'blocking'],
      [760, 'blocking'],
      [840, 'blocking'],
    ]);
    // faces of studs of 38 at 600 and 1000
    const [left, right] = [600 + WIDE / 2, 1000 - WIDE / 2];
    // all pulled and loaded alike
    const share = upper.reduce((moment, p) => moment + (right - p.x) / 3, 0) / (right - left);
    const { of } = inputs(known);
    const mass = noteOn(notesOf(known.plan), 'fixing:c')!.working!.inputs.find((i) => i.symbol === 'm')!
      .value as number;
    expect(of('V')).toBeCloseTo(((mass * 9.80665) / 2) * share, 6);
    // half of 200 out; rows 50 and 650 above the lower edge
    expect(of('T')).toBeCloseTo(((mass * 9.80665 * 100 * 650) / (50 ** 2 + 650 ** 2)) * share, 6);
  });

  it('are screwed at a slant into timber, as toe-nails are: NDS-2018 12.5.4.1', () => {
    const { of, working } = inputs(one(150));
    // 80 mm at 30°, a third of it before the joint, the tip left out
    const into = 80 * Math.cos(Math.PI / 6) - 80 / 3 - 10;
    const Z = lateralValue({
      fastener: 'wood screw',
      diameter: rootOf('wood screw', 5),
      nominal: 5,
      sideThickness: 80 / 3,
      penetration: into,
      mainGravity: 0.42,
      side: { gravity: 0.42 },
    }).value;
    expect(of('Z')).toBeCloseTo(Z, 6);
    expect(working.result.value).toBeCloseTo(Math.hypot(of('V'), of('T')) / (of('n') * 0.83 * 0.9 * Z), 9);
  });

  it('are screwed through the web of a steel stud into end grain: NDS-2018 12.5.2.2', () => {
    const { of, working } = inputs(
      one(150, `{kind: steel stud, spacing: 400, first: 200, mils: 33, board: 12.5, ${BLOCKS}}`),
    );
    expect(working.result.value).toBeCloseTo(Math.hypot(of('V'), of('T')) / (of('n') * 0.67 * 0.9 * of('Z')), 9);
  });

  it('are told where they do not hold, whatever holds in the timber itself', () => {
    const low = BLOCKS.replaceAll('140', '60')
      .replace('1380', '1420')
      .replace('1980', '2020')
      .replaceAll('38}', '38, species: northern red oak}');
    const heavy = read(
      roomOf(
        `      - {case: c, wall: north, from: 620, above: 1400, carries: books, size: {width: 360, height: 700, depth: 400}, make: {back: {kind: applied, panel: ply}}, inside: {open: [1*, 1*, 1*, 1*]}, fix: {kind: lag screw, diameter: 6, length: 80, at: [50, 80, 110, 140, 170, 200, 230, 260, 290, 320], heights: [50, 650]}}`,
        { framing: `{kind: timber stud, spacing: 400, first: 200, board: 12.5, ${low}}` },
      ),
    );
    const notes = notesOf(heavy.plan);
    expect(noteOn(notes, 'fixing:c')!.verdict).toBe('fine');
    expect(noteOn(notes, 'let-in:c')!.verdict).toBe('stop');
  });

  it('lie between the faces of the studs that the timber reaches', () => {
    const wall = sceneIn(one(150).plan).room.walls[0]!;
    const block = { from: 300, to: 1400, above: 1000, height: 140, thickness: 38 } as never;
    expect(lengthsOf(wall, block).map(({ from, to }) => [from, to].map(Math.round))).toEqual([
      [219, 581],
      [619, 981],
      [1019, 1381],
    ]);
    // up to a stud's middle is up to that stud
    const up = { from: 600, to: 1000, above: 1000, height: 140, thickness: 38 } as never;
    expect(lengthsOf(wall, up).map(({ from, to }) => [from, to].map(Math.round))).toEqual([[619, 981]]);
  });

  it('are loaded across their grain by what hangs, where that counts: NDS-2018 table 12.3.3, from 1/4 in on', () => {
    const thick = BLOCKS.replaceAll('thickness: 38', 'thickness: 76');
    const { plan } = read(
      roomOf(
        `      - {case: c, wall: north, from: 500, above: 1400, size: {width: 600, height: 700, depth: 200}, make: {back: {kind: applied, panel: ply}}, fix: {kind: lag screw, diameter: 8, length: 120, at: [200, 300, 400], heights: [50, 650]}}`,
        { framing: `{kind: timber stud, spacing: 400, first: 200, board: 12.5, ${thick}}` },
      ),
    );
    const { inputs } = noteOn(notesOf(plan), 'fixing:c')!.working!;
    const of = (symbol: string) => inputs.find((i) => i.symbol === symbol)!.value as number;
    const Z = (acrossGrain: boolean) =>
      0.9 *
      lateralValue({
        fastener: 'lag screw',
        diameter: rootOf('lag screw', 8),
        nominal: 8,
        sideThickness: 18,
        penetration: 60,
        mainGravity: 0.42,
        side: { gravity: 0.42 },
        gap: 12.5,
        acrossGrain,
      }).value;
    expect(of('p')).toBe(60);
    expect(of('Z')).toBeCloseTo(Z(true), 6);
    expect(Z(true)).toBeLessThan(0.95 * Z(false));
  });

  it('give way to the stud: a screw at its middle goes into all of its depth', () => {
    const at = (framing: string) =>
      pointsOf(one(100, framing))
        .filter((p) => p.x === 600)
        .map((p) => p.lands);
    const wide = BLOCKS.replaceAll('from: 600', 'from: 200');
    expect(at(`{kind: timber stud, spacing: 400, first: 200, board: 12.5, ${wide}}`)).toEqual(['stud', 'stud']);
    expect(at(`{kind: steel stud, spacing: 400, first: 200, board: 12.5, ${wide}}`)).toEqual(['blocking', 'blocking']);
  });
});
/** Width of a timber stud, mm. */
const WIDE = 38.1;
