import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { mm } from '../quantity/index.ts';
import { cured, curedPlan, noteOn, notesOf, read, roomOf, sceneIn } from '../strength/plan.testing.ts';
import { cableRuns, wallBoxes } from './in-wall.ts';

const withOption = (option: string, pieces = '', framing?: string, room = '') =>
  read(
    roomOf(pieces === '' ? '      []' : pieces, {
      option: option
        .split('\n')
        .map((l) => `    ${l}`)
        .join('\n'),
      room,
      ...(framing !== undefined && { framing }),
    }),
  );
const massOf = (): number => 1;
const box = (id: string, at: number, carries = 'mains', height = 400, wall = 'north') =>
  `{id: ${id}, wall: ${wall}, at: ${at}, height: ${height}, carries: ${carries}}`;

describe('boxes in a wall with studs 400 apart from 200 on, 38 wide', () => {
  it('one on a stud is moved into a bay, as near as it goes', () => {
    const { plan, plain } = withOption(`boxes: [${box('a', 610)}]`);
    const note = noteOn(notesOf(plan), 'box:a')!;
    expect(note.verdict).toBe('stop');
    const after = curedPlan(plain, note);
    expect(noteOn(notesOf(after.plan), 'box:a')!.verdict).toBe('fine');
    // 19 of stud, 5 of board, 28.5 of box: 52.5 from the middle of the stud
    expect(Math.abs(after.plan.options[0]!.boxes![0]!.at - 600)).toBeGreaterThanOrEqual(52.5);
    expect(Math.abs(after.plan.options[0]!.boxes![0]!.at - 600)).toBeLessThan(63);
  });

  it('never leaves a box that is called fine on a stud, a service or another of its kind, wherever it stands', () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4000 }), fc.integer({ min: 60, max: 2300 }), (at, height) => {
        const { plan } = withOption(
          `boxes: [${box('a', at, 'mains', height)}]`,
          '',
          undefined,
          '  services: [{id: old, wall: north, kind: outlet, at: 1000, height: 400, width: 70, tall: 115}]',
        );
        const scene = sceneIn(plan);
        const [own] = wallBoxes(scene);
        const [wall] = scene.room.walls;
        const clear =
          own!.x[0] >= 0 &&
          own!.x[1] <= 4000 &&
          wall!.studs.every(
            (s) => s.at + s.width / 2 + 5 <= own!.x[0] + 1e-9 || own!.x[1] + 5 <= s.at - s.width / 2 + 1e-9,
          ) &&
          !(Math.abs(at - 1000) < 35 + 28.5 + 25 - 1e-9 && Math.abs(height - 400) < 57.5 + 47.5 + 25 - 1e-9) &&
          own!.y[0] >= 0;
        expect(noteOn(scene.notes, 'box:a')!.verdict === 'fine').toBe(clear);
      }),
      { numRuns: 60 },
    ));

  it('mains and signal, and an anchor that opens there, each want a bay of their own', () => {
    const { plan, plain } = withOption(
      `boxes: [${box('power', 1700, 'mains', 600)}, ${box('signal', 1520, 'signal', 600)}]`,
      `      - {display: d, wall: north, centre: 1600, above: 1200, size: {width: 500, height: 400, depth: 60}, mass: 4 kg, mount: {plate: {width: 300, height: 150}}, fix: {kind: toggle, at: [330, 370], heights: [100], rated: {pull: 60 kg, shear: 90 kg}}}`,
    );
    const notes = notesOf(plan);
    expect(noteOn(notes, 'box:power:shares')!.verdict).toBe('caution');
    const anchor = noteOn(notes, 'box:power:anchor')!;
    expect(anchor.title).toContain('toggle of d opens in the bay');
    // nothing of a screw spreads: its point comes out behind the board
    const screwed = {
      ...plan.options[0]!.pieces[0]!.fix!,
      kind: 'wood screw' as const,
      diameter: mm(5),
      length: mm(60),
    };
    const { rated: _, ...fix } = screwed;
    const [option] = plan.options;
    const withScrews = { ...plan, options: [{ ...option!, pieces: [{ ...option!.pieces[0]!, fix }] }] };
    expect(noteOn(notesOf(withScrews), 'box:power:anchor')!.title).toContain(
      'wood screw of d comes out behind the board',
    );
    const after = cured(plain, anchor);
    expect(noteOn(after, 'box:power')!.verdict).toBe('fine');
    expect(noteOn(after, 'box:signal')!.verdict).toBe('fine');
  });

  it('a screw into a box is stopped', () => {
    const { plan, plain } = withOption(
      `boxes: [${box('power', 1690, 'mains', 1300)}]`,
      `      - {display: d, wall: north, centre: 1700, above: 1100, size: {width: 500, height: 400, depth: 60}, mass: 4 kg, fix: {kind: toggle, at: [240], heights: [200], rated: {pull: 60 kg, shear: 90 kg}}}`,
    );
    const note = noteOn(notesOf(plan), 'box:power:fixing')!;
    expect(note.verdict).toBe('stop');
    expect(cured(plain, note).filter((n) => n.id.startsWith('box:power') && n.verdict === 'stop')).toEqual([]);
  });
});

// What is let in to carry a shelf stands in the hollow that a box wants: 230 to 570 along, 1000 to 1140 up.
it('a box is never called fine where timber is let in behind the board', () => {
  const framing =
    '{kind: timber stud, spacing: 400, first: 200, board: 12.5, blocking: [{from: 230, to: 570, above: 1000, height: 140, thickness: 38}]}';
  const heights = [900, 940, 951, 1070, 1189, 1200, 1300].map((height) => {
    const { plan } = withOption(`boxes: [${box('a', 400, 'signal', height)}]`, '', framing);
    return noteOn(notesOf(plan), 'box:a')!.id;
  });
  // 47.5 of box above and below its middle, and 5 of board
  expect(heights.map((id) => id === 'box:a:blocking')).toEqual([false, false, true, true, true, false, false]);
});

describe('cables', () => {
  it.each([
    ['in the wall', 400, 'stop'],
    ['on the wall', 400, 'stop'],
    ['on the wall', 2150, 'fine'],
  ])('%s, %i up, beside a door 2000 high: %s, for nothing carries them across', (route, height, verdict) => {
    const { plan } = withOption(
      `boxes: [${box('low', 1700, 'signal', height)}, ${box('high', 3700, 'signal', height)}]\ncables: [{id: link, from: low, to: high, carries: signal, rated: true, route: ${route}}]`,
      '',
      undefined,
      '  openings: [{id: way out, wall: north, kind: door, from: 2300, width: 800, height: 2000}]',
    );
    const note = noteOn(notesOf(plan), 'cable:link')!;
    expect(note.verdict).toBe(verdict);
    expect(note.id.endsWith(':opening')).toBe(verdict === 'stop');
  });

  const cable = (carries: string, more = '') =>
    withOption(
      `boxes: [${box('low', 1700, 'signal', 400)}, ${box('high', 2500, 'signal', 1500)}]\ncables: [{id: link, from: low, to: high, carries: ${carries}${more}}]`,
    );
  it.each([
    ['plug cord', '', 'cable:link:cord'],
    ['signal', '', 'cable:link:rating'],
    ['signal', ', rated: true, diameter: 40', 'cable:link:bore'],
  ])('%s%s may not run in the wall; the cure settles it', (carries, more, id) => {
    const { plan, plain } = cable(carries, more);
    const note = noteOn(notesOf(plan), id)!;
    expect(note.verdict).toBe('stop');
    expect(noteOn(cured(plain, note), 'cable:link')!.verdict).toBe('fine');
  });

  it('run level and upright, and cross the studs between: 800 along, 1100 up, two studs', () => {
    const { plan } = cable('signal', ', rated: true');
    const [run] = cableRuns({ ...sceneIn(plan), massOf });
    expect(run).toMatchObject({ way: 1900, length: 2500, crosses: 2 });
    expect(noteOn(notesOf(plan), 'cable:link')!.advice).toContain('crosses 2 studs');
  });

  it('are chased where there is masonry, and not where the way goes on behind board', () => {
    // from 1000 along the framed north wall and 300 up, round the west corner, to 500 before the end of the wall of brick and 900 up
    const { plan } = withOption(
      `boxes: [${box('low', 1000, 'signal', 300)}, ${box('high', 2500, 'signal', 900, 'west')}]\ncables: [{id: link, from: low, to: high, carries: signal, rated: true}]`,
    );
    const { walls } = plan.room;
    const west = { ...walls[3]!, framing: { kind: 'masonry', masonry: 'solid brick', board: mm(0) } as const };
    const { title } = noteOn(notesOf({ ...plan, room: { ...plan.room, walls: walls.with(3, west) } }), 'cable:link')!;
    expect(title).toBe('link would be chased into masonry over 1100 mm');
  });

  it('of two ways round that are as long, go the one that meets no door', () => {
    for (const wall of ['north', 'south']) {
      const { plan } = withOption(
        `boxes: [${box('low', 1500, 'signal', 400, 'east')}, ${box('high', 1500, 'signal', 400, 'west')}]\ncables: [{id: link, from: low, to: high, carries: signal, rated: true}]`,
        '',
        undefined,
        `  openings: [{id: way out, wall: ${wall}, kind: door, from: 2300, width: 800, height: 2000}]`,
      );
      const [run] = cableRuns({ ...sceneIn(plan), massOf });
      expect(
        run!.legs.map((leg) => leg.wall),
        wall,
      ).not.toContain(wall);
      expect(run!.way).toBeCloseTo(7000, 6);
    }
  });

  it('go the shorter way round the room, and are as long from either end', () =>
    fc.assert(
      fc.property(
        fc.constantFrom('north', 'east', 'south', 'west'),
        fc.constantFrom('north', 'east', 'south', 'west'),
        fc.tuple(...[0, 1].map(() => fc.integer({ min: 100, max: 2900 }))),
        fc.tuple(...[0, 1].map(() => fc.integer({ min: 100, max: 2000 }))),
        (w1, w2, [x1, x2], [y1, y2]) => {
          const along = (wall: string, x: number): number =>
            ({ north: 0, east: 4000, south: 7000, west: 11_000 })[wall]! + x;
          const lengths = (['low high', 'high low'] as const).map((ends) => {
            const [from, to] = ends.split(' ');
            const { plan } = withOption(
              `boxes: [${box('low', x1!, 'signal', y1, w1)}, ${box('high', x2!, 'signal', y2, w2)}]\ncables: [{id: link, from: ${from}, to: ${to}, carries: signal, route: on the wall}]`,
            );
            return cableRuns({ ...sceneIn(plan), massOf })[0]!;
          });
          const d = Math.abs(along(w1, x1!) - along(w2, x2!));
          const round = w1 === w2 ? d : Math.min(d, 14_000 - d);
          expect(lengths[0]!.way).toBeCloseTo(round + Math.abs(y1! - y2!), 6);
          expect(lengths[1]!.way).toBeCloseTo(lengths[0]!.way, 6);
          // its legs hang together and are as long as it
          const legs = lengths[0]!.legs.reduce(
            (s, l) => s + Math.abs(l.to.x - l.from.x) + Math.abs(l.to.y - l.from.y),
            0,
          );
          expect(legs).toBeCloseTo(lengths[0]!.way, 6);
        },
      ),
      { numRuns: 40 },
    ));
});

describe('warmth and old walls', () => {
  it('200 W behind a door without vents', () => {
    const { plan, plain } = read(
      roomOf(
        '      - {case: gear, wall: north, from: 300, size: {width: 700, height: 800, depth: 450}, inside: {columns: [{name: amplifiers, door: left, heat: 200}, {open: true}]}}',
      ),
    );
    const note = noteOn(notesOf(plan), 'gear-heat:gear')!;
    expect(note.verdict).toBe('stop');
    const after = curedPlan(plain, note);
    const settled = noteOn(notesOf(after.plan), 'gear-heat:gear')!;
    expect(settled.verdict).toBe('fine');
    // heat and draught apart: what flows at that rise through half of each vent carries the 200 W off
    const rise = settled.working!.result.value;
    const of = (symbol: string) => settled.working!.inputs.find((i) => i.symbol === symbol)!.value as number;
    const [A, H] = [of('A'), of('H') / 1000];
    const flow = 0.65 * A * Math.sqrt((9.80665 * H * rise) / (25 + 273.15 + rise / 2));
    expect((1.2 * 1006 * flow * rise) / 200).toBeCloseTo(1, 3);
  });

  it('vents are cut where the plan says, low and high; the wall behind a back shuts them off', () => {
    const gear = (vent: string, more = '', door = 'left') =>
      read(
        roomOf(
          `      - {case: gear, wall: north, from: 300, ${more} size: {width: 700, height: 800, depth: 450}, inside: {columns: [{name: amplifiers, door: ${door}, heat: 200, vent: ${vent}}, {open: true}]}}`,
        ),
      ).plan;
    const cuts = (plan: ReturnType<typeof gear>) =>
      sceneIn(plan).parts.flatMap((p) =>
        p.solid.taken.filter((t) => t.kind === 'cut-out').map((t) => ({ part: p.id, ...t, clear: p.solid.box })),
      );
    const back = cuts(gear('{width: 200, height: 60}'));
    expect(back.map((c) => [c.part, c.why])).toEqual([
      ['gear/back', 'lower vent of amplifiers'],
      ['gear/back', 'upper vent of amplifiers'],
    ]);
    const bay = sceneIn(gear('{width: 200, height: 60}')).pieces[0]!.bays.find((b) => b.title === 'amplifiers')!.clear;
    for (const { box } of back) {
      expect(box.max.x - box.min.x).toBeCloseTo(200, 6);
      expect(box.max.y - box.min.y).toBeCloseTo(60, 6);
      expect((box.min.x + box.max.x) / 2).toBeCloseTo((bay.min.x + bay.max.x) / 2, 1);
    }
    expect([back[0]!.box.min.y - bay.min.y, bay.max.y - back[1]!.box.max.y]).toEqual([20, 20]);
    // each leaf of a pair gets half, in its middle
    const pair = cuts(gear('{width: 200, height: 60, in: door}', '', 'pair'));
    expect(pair.map((c) => c.part)).toEqual([
      'gear/bay-1/left-door',
      'gear/bay-1/left-door',
      'gear/bay-1/right-door',
      'gear/bay-1/right-door',
    ]);
    for (const { box, clear } of pair) {
      expect(box.max.x - box.min.x).toBeCloseTo(100, 6);
      expect((box.min.x + box.max.x) / 2).toBeCloseTo((clear.min.x + clear.max.x) / 2, 1);
    }
    const rise = (plan: ReturnType<typeof gear>) => noteOn(notesOf(plan), 'gear-heat:gear')!.working!.result.value;
    const size = '{width: 200, height: 60';
    expect(noteOn(notesOf(gear(`${size}}`)), 'gear-heat:gear')!.title).toContain('shut off by the wall');
    expect(rise(gear(`${size}}`, 'out: 30,'))).toBeCloseTo(rise(gear(`${size}, in: door}`)), 9);
    expect(rise(gear(`${size}}`))).toBeGreaterThan(2 * rise(gear(`${size}, in: door}`)));
    const tooWide = sceneOf(gear('{width: 600, height: 60}'), gear('{width: 600, height: 60}').options[0]!);
    expect(tooWide.issues[0]).toMatchObject({ message: 'two such vents do not fit one above the other' });
  });

  it('gear in a row behind a door that it shares is as warm as behind a door of its own', () => {
    const gear = (inside: string) =>
      read(
        roomOf(
          `      - {case: gear, wall: north, from: 300, size: {width: 700, height: 800, depth: 450}, inside: ${inside}}`,
        ),
      );
    const { plan, plain } = gear('{door: left, rows: [{heat: 1500, height: 400}, {open: true}]}');
    const note = noteOn(notesOf(plan), 'gear-heat:gear')!;
    expect(note.verdict).toBe('stop');
    expect(note.cure!.title).toContain('door off');
    expect(noteOn(cured(plain, note), 'gear-heat:gear')).toBeUndefined();
    const own = noteOn(
      notesOf(gear('{rows: [{door: left, heat: 1500, height: 400}, {open: true}]}').plan),
      'gear-heat',
    )!;
    expect(note.working!.result.value / own.working!.result.value).toBeCloseTo(1, 1);
    const open = notesOf(gear('{rows: [{heat: 1500, height: 400}, {open: true}]}').plan);
    expect(open.filter(({ id }) => id.startsWith('gear-heat'))).toEqual([]);
  });

  it('what is behind two doors is vented by neither of them alone, and both come off', () => {
    const gear = (inside: string) =>
      read(
        roomOf(
          `      - {case: gear, wall: north, from: 300, size: {width: 700, height: 800, depth: 450}, inside: ${inside}}`,
        ),
      );
    const vent = 'vent: {width: 600, height: 90, in: door}';
    const one = noteOn(
      notesOf(gear(`{rows: [{door: left, heat: 40, height: 400, ${vent}}, {open: true}]}`).plan),
      'gear-heat',
    )!;
    expect(one.verdict).toBe('fine');
    const { plan, plain } = gear(`{door: left, rows: [{door: left, heat: 40, height: 400, ${vent}}, {open: true}]}`);
    const two = noteOn(notesOf(plan), 'gear-heat')!;
    expect(two.verdict).not.toBe('fine');
    expect(two.title).toContain('shut off by the door before them');
    expect(two.cure!.title).toContain('doors off');
    expect(noteOn(cured(plain, two), 'gear-heat')).toBeUndefined();
  });

  it('1500 W behind a door: no vents do, the door comes off', () => {
    const { plan, plain } = read(
      roomOf(
        '      - {case: gear, wall: north, from: 300, size: {width: 700, height: 800, depth: 450}, inside: {door: pair, heat: 1500}}',
      ),
    );
    const note = noteOn(notesOf(plan), 'gear-heat:gear')!;
    expect(note.cure!.title).toContain('door off');
    expect(noteOn(cured(plain, note), 'gear-heat:gear')).toBeUndefined();
  });

  it('a house from before the lead year, and tiles of nobody knows when', () => {
    const old = read(roomOf('      []', { room: '  built: 1964' }));
    expect(notesOf(old.plan).map((n) => n.id)).toEqual(['old-paint', 'old-boards']);
    const young = read(roomOf('      []', { room: '  built: 2015' }));
    expect(notesOf(young.plan)).toEqual([]);
    const tiles = read(
      roomOf('      []').replace('{id: east, length: 3000}', '{id: east, length: 3000, surface: wall tiles}'),
    );
    const [note] = notesOf(tiles.plan);
    expect(note!.title).toContain('east: wall tiles');
    expect(note!.advice).toContain('laboratory');
    // one facing that stands out does not clear the rest of an old house
    const faced = (surface: string, built = '') =>
      notesOf(
        read(
          roomOf('      []', { room: built }).replace(
            '{id: east, length: 3000}',
            `{id: east, length: 3000, surface: ${surface}}`,
          ),
        ).plan,
      ).find((n) => n.id === 'old-boards')?.title;
    expect(faced('textured coating', '  built: 1936')).toBe(
      'A house of 1936: boards, textured coatings, fillers, tiles and their adhesive may hold asbestos; look first at east: textured coating',
    );
    expect(faced('plaster on brick or tile')).toBeUndefined();
    expect(faced('plaster on brick or tile', '  built: 1936')).not.toContain('look first');
  });
});

it('boxes and cables are bought: each cable in one length, with its slack; what nobody sells is noted', () => {
  const { plan } = withOption(
    `boxes: [${box('power', 1700)}, ${box('signal', 1000, 'signal')}]
cables:
  - {id: picture, from: power, to: signal, carries: signal, rated: true}`,
  );
  const { fittings } = sceneIn(plan);
  expect(fittings.filter((f) => f.use === 'wall box')).toHaveLength(2);
  // 700 along, nothing up, 300 of slack at either end
  expect(fittings.find((f) => f.use === 'signal cable')!.amount).toEqual({ value: 1300, unit: 'mm' });
});
