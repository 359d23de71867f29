import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anyHouse, type Fields, type House, planOfHouse } from '../../houses.testing.ts';
import { type Scene, sceneOf } from '../../outcome.ts';
import { settingOut } from '../../setting-out/index.ts';
import { massesOf } from '../../solids.ts';
import { fixings } from './held.ts';

/** Its cases as they are, or lifted off the floor; fixed as they say or as is usual, on rails or not. */
const anyHeld: fc.Arbitrary<House> = fc
  .record({ house: anyHouse, lifted: fc.boolean(), usual: fc.boolean(), railed: fc.boolean() })
  .map(({ house, lifted, usual, railed }) => ({
    ...house,
    pieces: house.pieces.map((piece): Fields => {
      if (piece.case === undefined) return piece;
      const { heights: _, ...fix } = piece.fix as Fields;
      return {
        ...piece,
        ...(lifted && { above: '30 in', toe: undefined }),
        fix: usual ? undefined : lifted ? fix : piece.fix,
        ...(railed && { rails: { stock: 'ply' }, make: { back: { kind: 'grooved', inset: '1 in' } } }),
      };
    }),
  }));

function scenes(check: (scene: Scene) => void): void {
  fc.assert(
    fc.property(anyHeld, (house) => {
      const plan = planOfHouse(house);
      check(sceneOf(plan, plan.options[0]!));
    }),
    { numRuns: 60 },
  );
}
const inputOf = (scene: Scene) => ({ ...scene, massOf: massesOf(scene) });
/** What a note says is used: of fixings, and of the screws of hanging rails. */
const shareIn = (title: string): number | undefined => {
  const share = / (\d+) % (?:used|of what they may take|of their screws used)/.exec(title)?.[1];
  return share === undefined ? undefined : Number(share);
};
/** A little more than all is never told as all. */
const shareTold = (use: number): number => (use > 1 ? Math.ceil(100 * use - 1e-6) : Math.round(100 * use));

it('law: the share that a note tells is what its working comes to, and is bad news where it is more than all', () => {
  const told = { fixing: 0, rails: 0, over: 0 };
  scenes(({ notes }) => {
    for (const { id, title, working, verdict } of notes) {
      const [kind] = id.split(':');
      const share = kind === 'fixing' || kind === 'rails' ? shareIn(title) : undefined;
      if (share === undefined) continue;
      told[kind as 'fixing' | 'rails']++;
      if (share > 100) told.over++;
      expect([title, working!.result.unit, shareTold(working!.result.value)]).toEqual([title, '', share]);
      expect(working!.limit!.value).toBe(1);
      expect([title, working!.result.value > 1 && verdict === 'fine']).toEqual([title, false]);
      expect([title, title.includes('do not hold')]).toEqual([title, working!.result.value > 1]);
    }
  });
  expect(Object.values(told).map((n) => n > 10)).toEqual([true, true, true]);
});

it('law: what a working takes beyond its limit no note calls fine, and what does not hold has no working that holds', () => {
  let limited = 0;
  scenes(({ notes }) => {
    for (const { id, title, working, verdict } of notes) {
      const limit = working?.limit?.value;
      if (!working || typeof limit !== 'number') continue;
      limited++;
      if (verdict === 'fine') expect([title, working.result.value <= limit]).toEqual([title, true]);
      if (id.startsWith('fixing:') && title.includes('do not hold'))
        expect([title, working.result.value > limit]).toEqual([title, true]);
    }
  });
  expect(limited).toBeGreaterThan(100);
});

it('law: of what is used more than all of it in the drilling table a note says so', () => {
  const told = { over: 0, within: 0 };
  scenes((scene) => {
    const input = inputOf(scene);
    const { pieces } = fixings(input);
    const rows = settingOut(input).flatMap(({ holes }) => holes.map(({ point }) => point));
    for (const { piece, use, idle } of pieces) {
      const own = rows.filter((row) => row.piece === piece).flatMap((row) => row.use ?? []);
      // nothing is asked of it, and its rows tell no share
      if (idle) continue;
      const notes = scene.notes.filter(({ id }) => id === `fixing:${piece}`);
      expect([piece, notes.length]).toEqual([piece, 1]);
      const most = own.length > 0 ? Math.max(...own) : undefined;
      if (most !== undefined) expect([piece, use]).toEqual([piece, most]);
      if ((use ?? 0) <= 1) {
        told.within++;
        continue;
      }
      told.over++;
      const [{ verdict, title }] = notes as [(typeof notes)[number]];
      expect([title, verdict === 'fine']).toEqual([title, false]);
      expect(title).toMatch(/do not hold|misses the studs|too near an edge|lands on the framing|must hold it/);
      if (Number.isFinite(use) && title.includes('do not hold')) expect(shareIn(title)).toBe(shareTold(use!));
    }
  });
  expect(Math.min(told.over, told.within)).toBeGreaterThan(20);
});
