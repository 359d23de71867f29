import { describe, expect, it } from 'vitest';
import { plainRoom } from '../surroundings/plain-room.testing.ts';
import { blurDiameter, cameraNotes, circleOfConfusion, diagonalOf, framesOf } from './index.ts';

const sceneWith = (pieces: readonly string[]) => plainRoom(pieces, 5000);
const seat = (id: string, x: number, y: number): string => `{seat: ${id}, at: {x: ${x}, y: ${y}, turn: 180}}`;
const camera = (more = ''): string => `{camera: lens, wall: north, centre: 2000, above: 1150, focal: 20${more}}`;
const told = (pieces: readonly string[]): readonly string[] =>
  cameraNotes(sceneWith(pieces))
    .filter(({ id }) => /^(framed|in-frame|below-frame|behind-lens|hidden-face|soft-face):/.test(id))
    .map(({ id }) => id);

describe('somebody whom the camera does not see is never called whole in its picture', () => {
  it('is whole where nothing is in the way', () =>
    expect(told([seat('ann', 2250, 2500), camera()])).toEqual(['framed:lens']));

  it.each([
    ['behind a case', '{case: wardrobe, at: {x: 1200, y: 1000}, size: {width: 1600, height: 2000, depth: 400}}'],
    [
      'for a lens shut into a case',
      '{case: wardrobe, wall: north, from: 1500, size: {width: 1000, height: 2000, depth: 400}}',
    ],
  ])('%s', (_, wardrobe) =>
    expect(told([seat('ann', 2250, 2500), wardrobe, camera()])).toEqual(['hidden-face:lens/ann']),
  );

  it('is seen over a table', () =>
    expect(
      told([
        seat('ann', 2250, 2500),
        '{thing: table, at: {x: 1200, y: 1400}, size: {width: 1600, height: 740, depth: 500}}',
        camera(),
      ]),
    ).toEqual(['framed:lens']));

  it('below the picture, and behind the lens', () => {
    expect(told([seat('ann', 2250, 2500), camera(', towards: {x: 2000, y: 1500, above: 2300}')])).toContain(
      'below-frame:lens/ann',
    );
    // from beside the lens it looks back to the wall
    expect(
      told([seat('ann', 2250, 2500), '{camera: lens, at: {x: 2000, y: 3500, turn: 0}, above: 1150, focal: 20}']),
    ).toEqual(['behind-lens:lens/ann']);
  });

  it('an aim that is said decides who is before the lens, however its body is turned', () => {
    const aimed = (turn: number, y: number) =>
      told([
        seat('ann', 2250, 2500),
        `{camera: lens, at: {x: 2000, y: 500, turn: ${turn}}, above: 1150, focal: 20, towards: {x: 2000, y: ${y}, above: 1150}}`,
      ]);
    for (const turn of [0, 100, 180, 260]) {
      expect(aimed(turn, 2500), `turned ${turn}`).toEqual(['framed:lens']);
      expect(aimed(turn, 100), `turned ${turn}`).toEqual(['behind-lens:lens/ann']);
    }
  });

  it('cut by a side: its working is that of this side, and beyond its limit', () => {
    const scene = sceneWith([seat('ann', 2250, 2500), camera(', towards: {x: 600, y: 2500, above: 1100}')]);
    const cut = cameraNotes(scene).find(({ id }) => id === 'in-frame:lens/ann')!;
    const side = / is cut by the (left|right) edge of /.exec(cut.title)![1] as 'left' | 'right';
    const round = framesOf(scene)[0]!.sitters[0]!.round!;
    expect(round.above).toBeGreaterThan(0);
    expect(cut.working!.what).toBe(`Room from the shoulder to the ${side} edge`);
    expect(cut.working!.result.value).toBe(round[side]);
    expect(cut.working!.result.value).toBeLessThan(cut.working!.limit!.value);
  });

  it('is focused on faces in the picture alone, and between them where all are sharp then', () => {
    const framedOf = (pieces: readonly string[]) => framesOf(sceneWith(pieces))[0]!;
    const two = [seat('ann', 2250, 2000), seat('bob', 1500, 2400)];
    const depths = framedOf([...two, camera()]).sitters.map((s) => s.depth);
    const [n, f] = [Math.min(...depths), Math.max(...depths)];
    // on the nearest at f/4, where that is enough; between them at f/2.8, where neither alone would do
    const at = (stop: number) => framedOf([...two, camera(`, stop: ${stop}`)]);
    expect(at(8).focus).toBeCloseTo(n, 6);
    const tight = [2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3].map(at).find(({ focus }) => focus > n + 1)!;
    expect(1 / tight.focus).toBeCloseTo((1 / n + 1 / f) / 2, 9);
    expect(tight.near).toBeLessThanOrEqual(n);
    expect(tight.far).toBeGreaterThanOrEqual(f);
    const circle = circleOfConfusion(diagonalOf(tight.camera));
    // on the nearest the farther one is blurred
    expect(blurDiameter(20, tight.piece.stop, n, f)).toBeGreaterThan(circle);

    // too far open for both: on the nearest, and the stop that would do is told, the widest of the scale
    const open = at(1);
    expect(open.focus).toBeCloseTo(n, 6);
    const { stop } = open.stopped!;
    expect(at(stop).stopped).toBeUndefined();
    expect(at(stop).sitters.every(({ depth }) => depth >= at(stop).near - 1e-6 && depth <= at(stop).far + 1e-6)).toBe(
      true,
    );
    expect(at(stop * 0.85).stopped).toEqual(open.stopped);
    expect(
      cameraNotes(sceneWith([...two, camera(', stop: 1')])).find(({ id }) => id === 'soft-face:lens/bob')!.advice,
    ).toContain(`f/${stop} and focus `);

    // somebody near who is out of the picture draws no focus, and is not called blurred besides
    const aimed = camera(', stop: 1.4, towards: {x: 2000, y: 2200, above: 1100}');
    const aside = [...two, seat('cy', 200, 1000), aimed];
    expect(framedOf(aside).focus).toBeCloseTo(framedOf([...two, aimed]).focus, 6);
    expect(told(aside)).toContain('in-frame:lens/cy');
    expect(told(aside)).not.toContain('soft-face:lens/cy');
  });

  it('out of focus: just where the blur is larger than the circle of confusion', () => {
    let [sharp, soft] = [0, 0];
    for (const stop of [1.4, 2.8, 5.6, 11])
      for (const back of [2100, 2300, 2700, 3200, 4000]) {
        const scene = sceneWith([seat('ann', 2250, 2000), seat('bob', 2900, back), camera(`, stop: ${stop}`)]);
        const [framed] = framesOf(scene);
        const c = circleOfConfusion(diagonalOf(framed!.camera));
        const depth = framed!.sitters.find(({ sitter }) => sitter.id === 'bob')!.depth;
        const blur = blurDiameter(20, stop, framed!.focus, depth);
        if (Math.abs(blur / c - 1) < 0.02) continue;
        const ids = cameraNotes(scene).map((n) => n.id);
        expect(ids.includes('soft-face:lens/bob'), `f/${stop}, ${back}`).toBe(blur > c);
        expect(ids).not.toContain('soft-face:lens/ann');
        if (blur > c) soft += 1;
        else sharp += 1;
      }
    expect(Math.min(sharp, soft)).toBeGreaterThan(3);
  });
});

it('a shelf hides of what stands at its back as much as by similar triangles from the lens to its front', () => {
  const shelf =
    '{shelf: high, wall: south, from: 1500, above: 1600, size: {width: 1000, height: 50, depth: 300}, skin: ply, core: ply}';
  const [framed] = framesOf(sceneWith([shelf, camera()]));
  const { at } = framed!.camera;
  const { hidden } = framed!.fronts[0]!;
  // its top 1650 up, its front 300 before a wall at 5000
  expect(hidden).toBeCloseTo(((1650 - at.y) * 300) / Math.hypot(2000 - at.x, 4700 - at.z), 6);
});
