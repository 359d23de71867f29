import { describe, expect, it } from 'vitest';
import type { Direction, Part } from './part.ts';
import { type ByLabel, sideByLabel, stickingOf } from './sticking.ts';

const WAYS: readonly Direction[] = ['left', 'right', 'up', 'down', 'back', 'front'];
const VECTOR: Readonly<Record<Direction, readonly [number, number, number]>> = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  up: [0, 1, 0],
  down: [0, -1, 0],
  back: [0, 0, -1],
  front: [0, 0, 1],
};
const AXIS = ['x', 'y', 'z'] as const;
const parts = AXIS.flatMap((thickness) =>
  WAYS.filter((show) => show !== 'up' || thickness === 'y').map((show): Pick<Part, 'axes' | 'label'> => {
    const [length, width] = AXIS.filter((a) => a !== thickness) as ['x' | 'y' | 'z', 'x' | 'y' | 'z'];
    return { axes: { length, width, thickness }, label: { place: '', name: '', up: 'up', show } };
  }),
);

/** As a right-handed frame has it, which shares nothing with the table: the reader's right, their up and the way out of the paper. */
const reader = (face: Direction, arrow: Direction): readonly number[] => {
  const [[ax, ay, az], [fx, fy, fz]] = [VECTOR[arrow], VECTOR[face]];
  return [ay * fz - az * fy, az * fx - ax * fz, ax * fy - ay * fx];
};

describe('a label on its part', () => {
  it('is stuck on a broad face, its arrow along that face', () => {
    for (const part of parts) {
      const { face, arrow } = stickingOf(part);
      const at = (way: Direction): string => AXIS[VECTOR[way].findIndex((c) => c !== 0)]!;
      expect(at(face)).toBe(part.axes.thickness);
      expect(at(arrow)).not.toBe(part.axes.thickness);
      if (at(part.label.show) === part.axes.thickness) expect(face).toBe(part.label.show);
    }
  });

  it('tells every side of the part from every other, left and right as they are read', () => {
    for (const part of parts) {
      const { face, arrow } = stickingOf(part);
      const sides = WAYS.map((way) => sideByLabel(part, way));
      expect(new Set(sides).size).toBe(6);
      const towards = (by: ByLabel) => VECTOR[WAYS[sides.indexOf(by)]!];
      expect(towards('face')).toEqual(VECTOR[face]);
      expect(towards('arrow')).toEqual(VECTOR[arrow]);
      expect(towards('right').map((c) => c + 0)).toEqual(reader(face, arrow).map((c) => c + 0));
    }
  });
});
