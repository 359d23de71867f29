import type { Axis } from '../../geometry/index.ts';
import type { Part } from '../../scene/index.ts';
import type { Hatch } from '../marks.ts';
import type { Look } from './project.ts';

/** Fronts hide what is behind them; it is drawn dashed. */
export const FRONTS: ReadonlySet<string> = new Set(['door', 'drawer front', 'false front']);

export const hatchOf =
  (parts: ReadonlyMap<string, Part>) =>
  (owner: string): Hatch =>
    parts.get(owner)?.from === 'board' ? 'solid wood' : 'panel';

/** Parts that lie flat are hatched the other way than those that stand, so that they differ where they meet. */
export const overOf =
  (parts: ReadonlyMap<string, Part>, look: Look) =>
  (owner: string): boolean => {
    const across: Axis = look === 'top' ? 'z' : 'y';
    return parts.get(owner)?.axes.thickness === across;
  };
