import { describe, expect, it } from 'vitest';
import { inch } from '../../quantity/index.ts';
import { rootOf } from '../timber-fixing.ts';
import { capacityOf } from './capacity.ts';

describe('where thread crosses the joint the root of it bends', () => {
  it('roots: as the tables have them for inch sizes, 0.7 of a metric lag screw, 0.6 of others', () => {
    expect(rootOf('wood screw', inch(0.19))).toBeCloseTo(inch(0.152), 9);
    expect(rootOf('lag screw', inch(0.25))).toBeCloseTo(inch(0.173), 9);
    expect(rootOf('wood screw', 5)).toBeCloseTo(3, 9);
    expect(rootOf('lag screw', 8)).toBeCloseTo(5.6, 9);
  });

  it('a screw of 5 mm through steel into spruce, by hand: mode IIIs of a root of 3 mm', () => {
    const held = capacityOf(
      { kind: 'wood screw', name: 'screw', diameter: 5, length: 80, safety: 4, sold: {} },
      { lands: 'stud', timber: { depth: 89, gravity: 0.42 } },
      { board: 12.5 },
      undefined,
    );
    if (!('lateral' in held)) throw new Error(held.why);
    // inches, pounds: D = 0.1181, F_em = 16 600 × 0.42^1.84, F_es = 61 850, F_yb = 80 000 by 5 mm, K_D = 2.2, t = 3/25.4
    const [D, Fem, Fyb, ls] = [3 / 25.4, 16_600 * 0.42 ** 1.84, 80_000, 3 / 25.4];
    const Re = Fem / 61_850;
    const k3 = -1 + Math.sqrt((2 * (1 + Re)) / Re + (2 * Fyb * (2 + Re) * D ** 2) / (3 * Fem * ls ** 2));
    const IIIs = (k3 * D * ls * Fem) / ((2 + Re) * 2.2);
    const IV = (D ** 2 / 2.2) * Math.sqrt((2 * Fem * Fyb) / (3 * (1 + Re)));
    expect(held.lateral).toBeCloseTo(0.9 * Math.min(IIIs, IV) * 4.4482216, 3);
  });
});
