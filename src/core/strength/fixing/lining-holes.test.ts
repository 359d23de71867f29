import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { massesOf } from '../../solids.ts';
import { cured, noteOn, notesOf, read, roomOf, sceneIn } from '../plan.testing.ts';
import { fixings } from './held.ts';

const stock = `  boards:
    - {id: batten, species: spruce, thickness: 24, width: 48, lengths: [{length: 3000}]}`;
const planOf = (pieces: string, framing?: string) =>
  read(roomOf(pieces, { stock, ...(framing !== undefined && { framing }) }));
const holesOf = (text: string, framing?: string) => {
  const scene = sceneIn(planOf(text, framing).plan);
  return { scene, ...fixings({ ...scene, massOf: () => 4 }) };
};
const lining = (more = '', from = 300, width = 1200, height = 900) =>
  `      - {lining: panel, wall: north, from: ${from}, above: 900, size: {width: ${width}, height: ${height}}, panel: ply${more}}`;

describe('panels on a wall are screwed up', () => {
  it('each hole goes through a batten, away from its end, into a stud that crosses it', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1800 }),
        fc.integer({ min: 700, max: 2100 }),
        fc.integer({ min: 300, max: 1400 }),
        fc.integer({ min: 250, max: 700 }),
        (from, width, height, spacing) => {
          const { scene, points } = holesOf(
            lining(`, battens: {board: batten, spacing: ${spacing}}`, from, width, height),
          );
          const battens = scene.parts.filter((p) => p.role === 'batten');
          expect(battens.length).toBeGreaterThan(1);
          for (const p of points) {
            expect(p.lands).toBe('stud');
            const through = battens.filter(({ solid: { box } }) => {
              const [x, y] = [p.x - from, p.y - 900];
              return x > box.min.x + 20 && x < box.max.x - 20 && Math.abs((box.min.y + box.max.y) / 2 - y) < 1e-6;
            });
            expect(through).toHaveLength(1);
          }
          // and no crossing is left out: counted from the two lists alone
          const crossings = battens.reduce(
            (sum, { solid: { box } }) =>
              sum +
              Array.from({ length: 10 }, (_, i) => 200 + 400 * i - from).filter(
                (at) => at >= box.min.x + 25 && at <= box.max.x - 25,
              ).length,
            0,
          );
          expect(points).toHaveLength(crossings);
        },
      ),
      { numRuns: 40 },
    ));

  it('without battens the panels are screwed to the studs, no further apart up them than 400', () => {
    const { points } = holesOf(lining());
    const columns = [...new Set(points.map((p) => p.x))];
    expect(columns).toEqual([600, 1000, 1400]);
    for (const x of columns) {
      const up = points.filter((p) => p.x === x).map((p) => p.y);
      expect(Math.min(...up) - 900).toBe(25);
      expect(1800 - Math.max(...up)).toBe(25);
      for (const [i, y] of up.slice(1).entries()) expect(y - up[i]!).toBeLessThanOrEqual(400);
    }
  });

  it('tiles on a backing: into studs, through the level joints between the tiles', () =>
    fc.assert(
      fc.property(fc.integer({ min: 600, max: 1500 }), fc.integer({ min: 200, max: 400 }), (height, tile) => {
        const { points } = holesOf(
          `      - {absorber: tiles, wall: north, from: 300, above: 900, size: {width: 1000, height: ${height}, depth: 50}, tile: ${tile}, backing: thin}`,
        );
        expect(points.length).toBeGreaterThan(0);
        const rows = Math.floor(height / tile);
        for (const p of points) {
          expect(p.lands).toBe('stud');
          // whole tiles lie in the middle of the field: a joint stands a whole number of tiles from half of what is left
          const joint = (p.y - 900 - (height - rows * tile) / 2) / tile;
          expect(joint).toBeCloseTo(Math.round(joint), 6);
        }
      }),
      { numRuns: 30 },
    ));

  it('tiles that the screws between them do not hold are cured by more: through every level joint, or two at each stud', () => {
    for (const [size, more, title] of [
      [
        '{width: 2400, height: 2000, depth: 120}, tile: 400',
        ', fix: {kind: wood screw, diameter: 5, length: 160}',
        'Screw it up, through every level joint between the tiles',
      ],
      // one level joint only
      [
        '{width: 2400, height: 1200, depth: 100}, tile: 600',
        '',
        'Screw it up with wood screws 5 mm × 70 mm, two at each stud',
      ],
      [
        '{width: 2400, height: 2000, depth: 300}, tile: 400',
        '',
        'Screw it up with wood screws 5 mm × 70 mm, through every level joint between the tiles, two at each stud',
      ],
    ] as const) {
      const known = planOf(
        `      - {absorber: tiles, wall: north, from: 200, above: 100, size: ${size}, backing: thin${more}}`,
      );
      const note = noteOn(notesOf(known.plan), 'fixing:tiles')!;
      expect(note.verdict).toBe('stop');
      expect(note.cure!.title).toBe(title);
      expect(noteOn(cured(known.plain, note), 'fixing:tiles')!.verdict).toBe('fine');
    }
  });

  it('the screws are long enough for batten and board, and what they carry is the panel', () => {
    const { points, pieces } = holesOf(lining(', battens: {board: batten, spacing: 400}'));
    // 24 of batten, 12.5 of board, 8 × 5 of thread and point: 76.5, so the next length sold
    expect(new Set(points.map((p) => p.fixing))).toEqual(new Set(['wood screw 5 mm × 80 mm']));
    const parts = sceneIn(planOf(lining(', battens: {board: batten, spacing: 400}')).plan).parts.length;
    expect(points.reduce((sum, p) => sum + p.shear, 0)).toBeCloseTo(4 * parts * 9.80665, 6);
    expect(pieces[0]!.use).toBeLessThan(1);
  });

  it('battens that stand between the studs hold nothing: they are turned across them', () => {
    const known = planOf(lining(', board: horizontal, battens: {board: batten, spacing: 300}', 230, 350));
    const note = noteOn(notesOf(known.plan), 'fixing:panel')!;
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('misses the studs');
    // nothing crosses a panel that lies between two studs; a wider one is cured
    const wide = planOf(lining(', board: horizontal, battens: {board: batten, spacing: 900}', 230, 700));
    const stop = noteOn(notesOf(wide.plan), 'fixing:panel')!;
    expect(stop.verdict).toBe('stop');
    expect(noteOn(cured(wide.plain, stop), 'fixing:panel')!.verdict).toBe('fine');
  });

  it('a plug that hardly reaches the masonry holds nothing, and a longer one cures it', () => {
    const known = planOf(
      lining(
        ', battens: {board: batten, spacing: 400}, fix: {kind: plug, diameter: 10, length: 80, rated: {pull: 280 kg, shear: 350 kg}}',
      ),
      '{kind: masonry, masonry: solid brick, board: 18}',
    );
    const note = noteOn(notesOf(known.plan), 'fixing:panel')!;
    // 80 less 24 of batten and 18 of plaster is 38, less than five diameters
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('38 mm into the masonry');
    // 38 mm are 1-31/64 in, told to the fraction of the plan and never more
    const inches = { ...known.plan, units: { ...known.plan.units, length: 'in', fraction: '1/16' } } as const;
    expect(noteOn(notesOf(inches), 'fixing:panel')!.title).toContain('only 1-7/16" into the masonry');
    const after = noteOn(cured(known.plain, note), 'fixing:panel')!;
    expect(after.verdict).toBe('fine');
  });

  it('what hangs before a lining is screwed through it, with longer screws and packing behind', () => {
    const screen =
      '      - {display: d, wall: north, centre: 800, above: 1100, size: {width: 800, height: 500, depth: 60}, mass: 12 kg, mount: {plate: {width: 500, height: 200}}, fix: {kind: wood screw, diameter: 5, length: 70}}';
    const bare = noteOn(notesOf(planOf(screen).plan), 'fixing:d')!;
    expect(bare.verdict).toBe('fine');
    const known = planOf(`${lining(', battens: {board: batten, spacing: 400}')}\n${screen}`);
    const before = noteOn(notesOf(known.plan), 'fixing:d')!;
    // 70 less 12.5 of board, 24 and 18 of lining and 3 of plate leaves 12.5: no six diameters and a point
    expect(before.verdict).toBe('stop');
    const after = noteOn(cured(known.plain, before), 'fixing:d')!;
    expect(after.verdict).toBe('fine');
    expect(after.advice).toContain('Pack the hollow of 24 mm');
  });
});

it('a hung case tells what the test load of wall cabinets would ask of its fixings', () => {
  const scene = sceneIn(
    planOf(
      '      - {case: hung, wall: north, from: 500, above: 1400, size: {width: 800, height: 700, depth: 300}, inside: {shelves: 1}, make: {back: {kind: applied, panel: ply}}, fix: {kind: lag screw, diameter: 8, length: 120, heights: [50, 350, 650]}}',
    ).plan,
  );
  const massOf = massesOf(scene);
  const own = scene.parts.reduce((sum, part) => sum + massOf(part.id)!, 0);
  const { advice } = noteOn(scene.notes, 'fixing:hung')!;
  const told = Number(/used (\d+) %\./.exec(advice)![1]) / 100;
  // 40 psf on two levels of 800 × 300 (AWS 10-1.2.21), against 500 lb on the same holes; told to a whole percent
  const hangs = (2 * 40 * 47.880259e-6 * 800 * 300) / 9.80665 + own;
  const [held] = fixings({ ...scene, massOf }).pieces;
  expect(Math.abs(told - (held!.use! * (226.796185 + own)) / hangs)).toBeLessThanOrEqual(0.0051);
});
