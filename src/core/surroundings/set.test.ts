import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillsOf, framesOf } from '../camera/index.ts';
import { lightOf, quickLight } from '../light/index.ts';
import { findOption, solidsOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { CLASS_2_VOLTS, class2Limit, powerOf } from '../power/index.ts';
import { airAttenuation, exactMidband, SURFACE_MATERIALS, soundOf, tiledWalls } from '../sound/index.ts';
import type { Staged } from './index.ts';

/** The finished set as a whole, over random rooms: what power, light, sound and camera say must hold together. */
interface Room {
  readonly width: number;
  readonly depth: number;
  readonly ceiling: number;
  readonly wall: string;
  readonly strips: readonly {
    readonly from: number;
    readonly length: number;
    readonly level: number;
    readonly volts: 5 | 12;
  }[];
  readonly lumens: number;
  readonly tile: number;
  readonly field: readonly [number, number];
  readonly socket: number;
  readonly focal: number;
}
const rooms: fc.Arbitrary<Room> = fc.record({
  width: fc.integer({ min: 3000, max: 6000 }),
  depth: fc.integer({ min: 3000, max: 5000 }),
  ceiling: fc.integer({ min: 2300, max: 3000 }),
  wall: fc.constantFrom('#d9c79b', '#cfcfcb', '#33463d', '#f0f0ee'),
  strips: fc.array(
    fc.record({
      from: fc.integer({ min: 0, max: 1500 }),
      length: fc.integer({ min: 200, max: 1400 }),
      level: fc.constantFrom(0.2, 0.5, 1),
      volts: fc.constantFrom(5 as const, 12 as const),
    }),
    { minLength: 1, maxLength: 5 },
  ),
  lumens: fc.integer({ min: 1000, max: 8000 }),
  tile: fc.constantFrom(300, 400, 600),
  field: fc.tuple(fc.integer({ min: 600, max: 2000 }), fc.integer({ min: 600, max: 1200 })),
  socket: fc.integer({ min: 300, max: 2500 }),
  focal: fc.integer({ min: 12, max: 50 }),
});

function stagedOf(r: Room): Staged {
  const walls = [
    ['north', r.width],
    ['east', r.depth],
    ['south', r.width],
    ['west', r.depth],
  ].map(
    ([id, length]) =>
      `    - {id: ${id}, length: ${length}, framing: {kind: masonry, masonry: solid brick}, colour: "${r.wall}"}`,
  );
  const strips = r.strips.map(
    (s, k) =>
      `      - {strip: strip ${k}, wall: north, from: ${s.from}, above: ${900 + 200 * k}, size: {width: ${s.length}}, level: ${s.level}, lumens: 300, pixel: "${s.volts === 5 ? '5 V RGB, typical' : '12 V RGB'}"}`,
  );
  const text = `setwright: 1
title: random set
units: {length: mm, currency: EUR}
room:
  ceiling: ${r.ceiling}
  walls:
${walls.join('\n')}
  services:
    - {id: socket, wall: north, kind: outlet, at: 500, height: 300}
    - {id: side, wall: east, kind: outlet, at: ${r.socket}, height: 1300}
options:
  - id: only
    pieces:
      - {display: screen, wall: north, from: 900, above: 1100, out: 30, size: {width: 900, height: 520, depth: 60}, mass: 10 kg}
      - {thing: table, at: {x: 1000, y: 1500}, size: {width: 1200, height: 740, depth: 700}, colour: "#6b4a2f"}
${strips.join('\n')}
      - {lamp: lamp, at: {x: ${Math.round(r.width / 2) - 300}, y: ${Math.round(r.depth / 2) - 300}}, lumens: ${r.lumens}}
      - {absorber: tiles, wall: east, from: 200, above: 900, size: {width: ${Math.min(r.field[0], r.depth - 300)}, height: ${r.field[1]}}, tile: ${r.tile}}
      - {seat: one, at: {x: 1200, y: 900}}
      - {seat: two, at: {x: 1900, y: 900}}
      - {camera: lens, at: {x: ${Math.round(r.width / 2)}, y: ${r.depth - 200}, turn: 180}, above: 1200, focal: ${r.focal}}
`;
  const { plan, issues } = readPlan(text, {});
  if (!plan) throw new Error(JSON.stringify(issues));
  return solidsOf(plan, findOption(plan)!);
}
const holds = (law: (staged: Staged, room: Room) => void, runs: number) =>
  fc.assert(
    fc.property(rooms, (room) => law(stagedOf(room), room)),
    { numRuns: runs },
  );

describe('wiring', () => {
  it('feeds every length from one supply that is loaded to 80 % at most, of class 2 where a strip allows', () =>
    holds((staged) => {
      const power = powerOf(staged)!;
      expect(power.supplies.flatMap((s) => s.strips).sort()).toEqual(power.strips.map((s) => s.run.id).sort());
      for (const supply of power.supplies) {
        const own = power.strips.filter((s) => supply.strips.includes(s.run.id));
        expect(supply.current).toBeCloseTo(
          own.reduce((sum, s) => sum + s.current, 0),
          9,
        );
        if (supply.rating !== undefined) expect(supply.current).toBeLessThanOrEqual(0.8 * supply.rating + 1e-9);
        expect(new Set(own.map((s) => s.kind.volts)).size).toBe(1);
        // Several where one of class 2 is too small; one larger only where a single length takes more than it may give.
        const limit = supply.volts <= CLASS_2_VOLTS.dry ? class2Limit(supply.volts).current : 0;
        if (!supply.class2) expect(Math.max(...own.map((s) => s.current))).toBeGreaterThan(0.8 * (limit - 1) - 1e-9);
        else expect(supply.rating).toBeLessThanOrEqual(limit);
      }
    }, 60));
  it('hands the data on to every length once, and cuts a wire for every conductor', () =>
    holds((staged) => {
      const power = powerOf(staged)!;
      expect(power.data.flatMap((d) => d.links.map((l) => l.to)).sort()).toEqual(
        power.strips.map((s) => s.run.id).sort(),
      );
      const feeds = power.strips.reduce((sum, s) => sum + s.feeds.boundaries.length, 0);
      const count = (colour: string) => power.cuts.filter((c) => c.colour === colour).length;
      expect([count('red'), count('black'), count('white')]).toEqual([feeds, feeds, power.strips.length]);
      expect([...power.total.values()].reduce((a, b) => a + b, 0)).toBeCloseTo(
        power.cuts.reduce((sum, c) => sum + c.length, 0),
        6,
      );
      for (const s of power.strips) {
        if (s.wire?.fuse !== undefined) expect(s.wire.fuse).toBeLessThanOrEqual(s.wire.wire.limit!);
        expect(s.length).toBeLessThanOrEqual(s.run.space + 1e-9);
      }
    }, 60));
});

describe('sound', () => {
  it('has surfaces that add up to the room, with the tiles and without', () =>
    holds((staged, r) => {
      const s = soundOf(staged);
      const whole = (2 * (r.width * r.depth + r.width * r.ceiling + r.depth * r.ceiling)) / 1e6;
      expect(s.surfaces.reduce((sum, x) => sum + x.area, 0)).toBeCloseTo(whole, 6);
      s.after.forEach((t, b) => {
        if (b >= 2) expect(t).toBeLessThanOrEqual(s.before[b]! + 1e-9);
      });
      expect(s.index.after).toBeGreaterThanOrEqual(s.index.before - 1e-9);
    }, 40));
  it('names cures that are enough, and tiles of which one fewer is not, by Eyring written out here', () =>
    holds((staged, r) => {
      const s = soundOf(staged);
      if (s.worst.after <= s.target.speech) return expect(s.cures).toEqual([]);
      const of = (id: string) => SURFACE_MATERIALS.find((m) => m.id === id)!.coefficients;
      const S = s.surfaces.reduce((sum, x) => sum + x.area, 0);
      const bare = s.surfaces.filter((x) => x.name.startsWith('wall '));
      const bareArea = bare.reduce((sum, x) => sum + x.area, 0);
      const worst = (tiles: number, material: string): number =>
        Math.max(
          ...[2, 3, 4].map((b) => {
            const mean = bare.reduce((sum, x) => sum + x.area * of(x.material)[b]!, 0) / bareArea;
            const A =
              s.surfaces.reduce((sum, x) => sum + x.area * Math.min(1, of(x.material)[b]!), 0) +
              (tiles * r.tile ** 2 * (Math.min(1, of(material)[b]!) - mean)) / 1e6;
            const m = airAttenuation({ celsius: 20, humidity: 50 }, exactMidband([500, 1000, 2000][b - 2]!)) / 4343;
            return ((24 * Math.LN10) / 343) * (s.volume / (-S * Math.log(1 - A / S) + 4 * m * s.volume));
          }),
        );
      for (const cure of s.cures) {
        expect(cure.enough).toBe(cure.time <= s.target.speech * (1 + 1e-9));
        if (cure.tiles === undefined) continue;
        const material = SURFACE_MATERIALS.find((m) => cure.what.endsWith(m.id))!.id;
        expect(worst(cure.tiles, material) / cure.time).toBeCloseTo(1, 4);
        if (cure.enough && cure.tiles > 0) expect(worst(cure.tiles - 1, material)).toBeGreaterThan(s.target.speech);
      }
    }, 40));
  it('buys as many tiles as are laid whole and no fewer than the area of the cut ones', () =>
    holds((staged) => {
      for (const t of tiledWalls(staged)) {
        const cut = t.laid.filter((l) => l.cut).reduce((sum, l) => sum + l.width * l.height, 0);
        expect(t.buy).toBeGreaterThanOrEqual(t.whole + Math.ceil(cut / t.piece.tile ** 2 - 1e-9));
        expect(t.buy).toBeLessThanOrEqual(t.whole + t.cut);
        for (const l of t.laid)
          for (const hole of t.round)
            expect(
              l.x >= hole.x + hole.width - 1e-6 ||
                hole.x >= l.x + l.width - 1e-6 ||
                l.y >= hole.y + hole.height - 1e-6 ||
                hole.y >= l.y + l.height - 1e-6,
            ).toBe(true);
      }
    }, 40));
});

describe('light', () => {
  it('is told under the hand within a tenth of what the pages say', () =>
    holds((staged) => {
      const [quick, coarse] = [quickLight(staged)!, lightOf(staged)!.faces];
      quick.forEach((face, k) => {
        expect(Math.abs(face.lux / coarse[k]!.lux - 1)).toBeLessThan(0.1);
        expect(Math.abs(face.cast.difference - coarse[k]!.cast.difference)).toBeLessThan(1.5);
      });
    }, 8));
  it('is greater on lighter walls, whose brightest needs the lumens there are; causes stand strongest first', () =>
    holds((staged) => {
      const light = lightOf(staged)!;
      const byReflectance = light.paints.toSorted((a, b) => a.reflectance - b.reflectance);
      byReflectance.slice(1).forEach((p, k) => {
        expect(p.lux).toBeGreaterThan(byReflectance[k]!.lux);
      });
      expect(light.paints.map((p) => p.lumens).toSorted((a, b) => a - b)[0]).toBeCloseTo(1, 9);
      expect(light.causes.map((c) => c.takes)).toEqual(light.causes.map((c) => c.takes).toSorted((a, b) => b - a));
    }, 8));
});

describe('picture', () => {
  it('is shared out whole', () =>
    holds((staged) => {
      for (const framed of framesOf(staged)) {
        const fills = fillsOf(staged, framed.camera, framed.silhouettes, { across: 32, down: 18 });
        expect(fills.reduce((sum, f) => sum + f.share, 0)).toBeCloseTo(1, 9);
      }
    }, 40));
  it('gives a display seen square on the share that similar triangles say', () =>
    holds((staged, r) => {
      const camera = {
        at: { x: 1350, y: 1360, z: r.depth - 100 },
        towards: { x: 1350, y: 1360, z: 0 },
        focal: r.focal,
        width: 23.5,
        height: 13.2,
      };
      // straight at the middle of the screen, whose face stands 90 mm off the wall; the table is lower than what is counted
      const away = r.depth - 100 - 90;
      const wide = Math.min(1, (900 * r.focal) / away / camera.width);
      const high = Math.min(1, (520 * r.focal) / away / camera.height);
      const fills = fillsOf(staged, camera, [], { across: 120, down: 80 });
      const share = fills.find((f) => f.id === 'screen')?.share ?? 0;
      // one row and one column of rays either way
      expect(Math.abs(share - wide * high)).toBeLessThan((2 * wide) / 80 + (2 * high) / 120 + 0.002);
    }, 20));
});
