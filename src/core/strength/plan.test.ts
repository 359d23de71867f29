import { describe, expect, it } from 'vitest';
import { cured, noteOn, notesOf, read, roomOf as room } from './plan.testing.ts';

describe('plans that would fail at the wall', () => {
  it('65 kg on a long arm on two plasterboard anchors', () => {
    const { plan, plain } = read(
      room(`      - display: screen
        wall: north
        centre: 1700
        above: 1000
        size: {width: 1400, height: 800, depth: 60}
        mass: 65 kg
        mount: {kind: arm, reach: 600}
        fix: {kind: hollow-wall anchor, count: 2, rated: {pull: 25 kg, shear: 40 kg}}`),
    );
    const note = noteOn(notesOf(plan), 'fixing:screen')!;
    expect(note.verdict).toBe('stop');
    expect(note.working?.source).toBeDefined();
    // by hand: two anchors 210 apart on a plate of 240: the upper one pulls with m g e y/(y² + 15²), y = 225
    const upper = (65 * 9.80665 * 630 * 225) / (225 ** 2 + 15 ** 2);
    expect(note.working!.inputs.find((i) => i.symbol === 'T')!.value).toBeCloseTo(upper, 6);
    expect(note.working!.result.value).toBeCloseTo(
      upper / ((25 * 9.80665) / 4) + (65 * 9.80665) / 2 / ((40 * 9.80665) / 4),
      6,
    );
    const after = noteOn(cured(plain, note), 'fixing:screen')!;
    expect(after.verdict).toBe('fine');
  });

  it('a shelf of chipboard 2 m long full of books', () => {
    const { plan, plain } = read(
      room(`      - case: books
        wall: north
        from: 300
        size: {width: 2036, height: 900, depth: 300}
        make: {panel: board}
        carries: books
        inside: {shelves: 1}`),
    );
    const notes = notesOf(plan);
    const note = noteOn(notes, 'shelf-sag:books')!;
    expect(note.verdict).toBe('stop');
    // Young & Budynas, table 8.1 case 2e: 5 W L³/(384 E I); 0.4 Mpsi, FPL-GTR-190 table 12-1; 50 psf, at most 200 lb: AWS 10-1.2.21
    const { span, depth } = { span: 1997, depth: 288 };
    const W = Math.min(50 * 47.880259 * 1e-6 * span * depth, 200 * 4.4482216);
    const sag = (5 * W * span ** 3) / (384 * 0.4e6 * 0.00689475729 * ((depth * 18 ** 3) / 12));
    expect(note.working!.result.value / sag).toBeCloseTo(1, 6);
    const after = cured(plain, note).filter(({ id }) => id.startsWith('shelf-sag'));
    expect(after.map((n) => n.verdict)).toEqual(['fine']);
  });

  it('a case of 2.35 m in a room of 2.4 m', () => {
    const piece = (toe: string) =>
      room(`      - case: tall
        wall: north
        from: 300
        size: {width: 600, height: 2350, depth: 560}
        ${toe}
        inside: {shelves: 3}`);
    for (const toe of ['toe: {height: 100, setback: 50}', '']) {
      const { plan, plain } = read(piece(toe));
      const note = noteOn(notesOf(plan), 'stand-up:tall')!;
      expect(note.verdict).toBe('stop');
      expect(note.working!.result.value).toBeCloseTo(Math.sqrt(2350 ** 2 + 560 ** 2), 9);
      expect(noteOn(cured(plain, note), 'stand-up:tall')!.verdict).toBe('fine');
    }
  });

  it('a floating shelf whose rods miss every stud', () => {
    const { plan, plain } = read(
      room(`      - shelf: float
        wall: north
        from: 500
        above: 1400
        size: {width: 1000, height: 60, depth: 200}
        skin: thin
        core: ply
        rods: {at: [200, 400, 800], diameter: 12}
        load: 10 kg`),
    );
    const note = noteOn(notesOf(plan), 'fixing:float')!;
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('misses');
    expect(noteOn(cured(plain, note), 'fixing:float')!.verdict).toBe('fine');
  });

  it('the same between the studs, where no rod can be moved to one', () => {
    const { plan, plain } = read(
      room(`      - shelf: float
        wall: north
        from: 230
        above: 1400
        size: {width: 350, height: 60, depth: 200}
        skin: thin
        core: ply
        rods: {diameter: 12}
        load: 5 kg`),
    );
    const note = noteOn(notesOf(plan), 'fixing:float')!;
    expect(note.verdict).toBe('stop');
    expect(noteOn(cured(plain, note), 'fixing:float')!.verdict).toBe('fine');
  });
});

describe('more plans made to fail', () => {
  it('a floating shelf on rods in the board alone', () => {
    const { plan, plain } = read(
      room(`      - shelf: float
        wall: north
        from: 500
        above: 1400
        size: {width: 1000, height: 60, depth: 220}
        skin: thin
        core: ply
        rods: {at: [100, 500, 900], diameter: 12}
        fix: {kind: hollow-wall anchor, rated: {pull: 30 kg, shear: 45 kg}}
        load: 15 kg`),
    );
    const note = noteOn(notesOf(plan), 'fixing:float')!;
    expect(note.verdict).toBe('stop');
    expect(note.working).toBeDefined();
    expect(noteOn(cured(plain, note), 'fixing:float')!.verdict).toBe('fine');
  });

  it('a tall case that is held by nothing: a child on its front tips it, and its screws miss', () => {
    const { plan, plain } = read(
      room(`      - case: tall
        wall: north
        from: 230
        size: {width: 340, height: 1900, depth: 350}
        inside: {rows: [{shelves: 2}, {drawers: 4}]}`),
    );
    const note = noteOn(notesOf(plan), 'fixing:tall')!;
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('misses the studs');
    expect(noteOn(cured(plain, note), 'fixing:tall')!.verdict).toBe('fine');
  });

  it('a narrow tall case without a stud behind it is held by its neighbour', () => {
    const { plan } = read(
      room(`      - {case: narrow, wall: north, from: 230, size: {width: 300, height: 1900, depth: 350}}
      - {case: wide, wall: north, after: narrow, size: {width: 900, height: 1900, depth: 350}}`),
    );
    const note = noteOn(notesOf(plan), 'fixing:narrow')!;
    expect(note.verdict).toBe('caution');
    expect(note.advice).toContain('connector bolts');
  });

  it('masonry plugs beside a window', () => {
    const { plan, plain } = read(
      room(
        `      - display: screen
        wall: north
        from: 1100
        above: 1100
        size: {width: 800, height: 500, depth: 60}
        mass: 14 kg
        mount: {kind: fixed, plate: {width: 400, height: 300}}
        fix: {kind: plug, diameter: 10, rated: {pull: 200 kg, shear: 250 kg}}`,
        {
          framing: '{kind: masonry, masonry: solid brick, board: 15}',
          room: '  openings: [{wall: north, kind: window, from: 1720, width: 900, sill: 900, height: 1200}]',
        },
      ),
    );
    const note = noteOn(notesOf(plan), 'fixing:screen')!;
    // the plate's right-hand holes stand at 1685, 35 mm from the window: half of the plugs count for nothing
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('2 of 4 holes sit too near an edge');
    const { plan: worse, plain: its } = read(
      room(
        `      - {display: screen, wall: north, centre: 1700, above: 1100, size: {width: 800, height: 500, depth: 60}, mass: 14 kg, mount: {kind: arm, reach: 300}, fix: {kind: plug, diameter: 10, rated: {pull: 400 kg, shear: 400 kg}}}`,
        {
          framing: '{kind: masonry, masonry: solid brick, board: 15}',
          room: '  openings: [{wall: north, kind: window, from: 1720, width: 900, sill: 900, height: 1200}]',
        },
      ),
    );
    const stop = noteOn(notesOf(worse), 'fixing:screen')!;
    expect(stop.verdict).toBe('stop');
    expect(noteOn(cured(its, stop), 'fixing:screen')!.verdict).toBe('fine');
    expect(plain).toBeDefined();
  });

  it('lag screws too short through a thick board', () => {
    const { plan, plain } = read(
      room(
        `      - display: screen
        wall: north
        centre: 1800
        above: 1100
        size: {width: 800, height: 500, depth: 60}
        mass: 20 kg
        mount: {kind: fixed, plate: {width: 500, height: 300}}
        fix: {kind: lag screw, diameter: 6.35, length: 65}`,
        { framing: '{kind: timber stud, spacing: 400, first: 200, board: 40}' },
      ),
    );
    const note = noteOn(notesOf(plan), 'fixing:screen')!;
    expect(note.verdict).toBe('stop');
    expect(note.title).toContain('too short');
    expect(noteOn(cured(plain, note), 'fixing:screen')!.verdict).toBe('fine');
  });
});

it('says in figures what would hold in place of a shelf that sags: span and thickness as the beam formula gives them', () => {
  const { plan } = read(
    room(
      '      - {case: books, wall: north, from: 300, size: {width: 1600, height: 900, depth: 300}, make: {panel: board}, carries: books, inside: {shelves: 1}}',
    ),
  );
  const note = noteOn(notesOf(plan), 'shelf-sag:books')!;
  const of = (symbol: string) => note.working!.inputs.find((i) => i.symbol === symbol)!.value as number;
  const creep = note.working!.also!.find((a) => a.symbol === 'δ∞')!.value / note.working!.result.value;
  // 5 w L⁴/(384 E I) · creep = L/144, w by area: under the cap of 200 lb at this span
  const [b, h] = [of('b'), of('h')];
  const [w, E] = [50 * 47.880259e-6 * b, 0.4e6 * 0.00689475729];
  const longest = Math.cbrt((384 * E * ((b * h ** 3) / 12)) / (5 * 144 * w * creep));
  expect(Number(/Longest span as it is: ([\d.]+) mm/.exec(note.advice)![1])).toBe(Math.floor(longest));
  const thick = Number(/Least thickness over this span: ([\d.]+) mm/.exec(note.advice)![1]);
  const L = of('L');
  const W = Math.min(w * L, 200 * 4.4482216);
  const sag = (t: number) => ((5 * W * L ** 3) / (384 * E * ((b * t ** 3) / 12))) * creep;
  expect(sag(thick)).toBeLessThanOrEqual(L / 144 + 1e-6);
  expect(sag(thick - 1)).toBeGreaterThan(L / 144);
});

it('a display too heavy for its own hole pattern is noted: MIS-D carries 14 kg (FDMI)', () => {
  const of = (kg: number) =>
    notesOf(
      read(
        room(
          `      - {display: d, wall: north, centre: 1800, above: 1100, size: {width: 800, height: 500, depth: 60}, mass: ${kg} kg, mount: {holes: {width: 100, height: 100}, plate: {width: 500, height: 300}}}`,
        ),
      ).plan,
    );
  expect(noteOn(of(14), 'display-pattern')).toBeUndefined();
  expect(noteOn(of(15), 'display-pattern')).toMatchObject({ verdict: 'caution', id: 'display-pattern:d' });
});
