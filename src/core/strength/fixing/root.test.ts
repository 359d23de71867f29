import { describe, expect, it } from 'vitest';
import { printersFor } from '../../plan/index.ts';
import { inch } from '../../quantity/index.ts';
import { rootOf } from '../timber-fixing.ts';
import { capacityOf } from './capacity.ts';

const print = printersFor({ length: 'mm', currency: 'EUR' });

describe('where thread crosses the joint the root of it bends', () => {
  it('roots: as the tables have them for inch sizes, 0.7 of a metric lag screw, 0.6 of others', () => {
    expect(rootOf('wood screw', inch(0.19))).toBeCloseTo(inch(0.152), 9);
    expect(rootOf('lag screw', inch(0.25))).toBeCloseTo(inch(0.173), 9);
    expect(rootOf('wood screw', 5)).toBeCloseTo(3, 9);
    expect(rootOf('lag screw', 8)).toBeCloseTo(5.6, 9);
  });

  it('a screw of 5 mm through steel into spruce, by hand: mode IIIs of a root of 3 mm', () => {
    const lateral = (hangs: boolean): number => {
      const held = capacityOf(
        { kind: 'wood screw', name: 'screw', diameter: 5, length: 80, safety: 4, print, sold: {} },
        { lands: 'stud', timber: { depth: 89, gravity: 0.42 } },
        { board: 12.5 },
        undefined,
        hangs,
      );
      if (!('lateral' in held)) throw new Error(held.why);
      return held.lateral;
    };
    // inches, pounds: D = 0.1181, F_em = 16 600 × 0.42^1.84, F_es = 61 850, F_yb = 80 000 by 5 mm, K_D = 2.2, t = 3/25.4
    const [D, Fem, Fyb, ls] = [3 / 25.4, 16_600 * 0.42 ** 1.84, 80_000, 3 / 25.4];
    const Re = Fem / 61_850;
    const k3 = -1 + Math.sqrt((2 * (1 + Re)) / Re + (2 * Fyb * (2 + Re) * D ** 2) / (3 * Fem * ls ** 2));
    const IIIs = (k3 * D * ls * Fem) / ((2 + Re) * 2.2);
    const IV = (D ** 2 / 2.2) * Math.sqrt((2 * Fem * Fyb) / (3 * (1 + Re)));
    // what stands bears on the floor: the board drawn tight
    expect(lateral(false)).toBeCloseTo(0.9 * Math.min(IIIs, IV) * 4.4482216, 3);
    // of what hangs, over a gap of 12.5 mm the shear has an arm besides: V²/4q_s + V²/2q_m + V (l_s/2 + g) = q_s l_s²/4 + M, and IV in the same way
    const [qm, qs, M, g] = [Fem * D, 61_850 * D, (Fyb * D ** 3) / 6, 12.5 / 25.4];
    const solved = (A: number, B: number, C: number) => (-B + Math.sqrt(B * B + 4 * A * C)) / (2 * A);
    const over = Math.min(
      solved(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + g, (qs * ls ** 2) / 4 + M),
      solved(1 / (2 * qs) + 1 / (2 * qm), g, 2 * M),
    );
    expect(lateral(true)).toBeCloseTo((0.9 * over * 4.4482216) / 2.2, 3);
    expect(lateral(true) / lateral(false)).toBeLessThan(0.5);
  });

  it('of a steel stud the working says that its shear is that of sheets in contact, where board lies between them', () => {
    const assumes = (board: number) => {
      const held = capacityOf(
        { kind: 'self-drilling screw', name: 'screw', diameter: 4.8, length: 38, safety: 4, print, sold: {} },
        { lands: 'stud', steel: '33' },
        { board },
        undefined,
        true,
      );
      return 'pull' in held && held.assumes.some((words) => words.includes('with board between the sheets'));
    };
    expect([assumes(0), assumes(12.5)]).toEqual([false, true]);
  });
});
