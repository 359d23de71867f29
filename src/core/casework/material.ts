import { type Issue, nearest } from '../issue/index.ts';
import type { Plan } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { actualSize } from '../stock/index.ts';
import type { Ticks } from './divide.ts';

/** What a part is cut from, as far as its size depends on it. */
export interface Material {
  readonly id: string;
  readonly from: 'panel' | 'board';
  readonly thickness: Ticks;
  /** Of a board: the widest part it gives. */
  readonly width?: Ticks;
  /** Has grain that shows: a part of it may not be turned on the panel. */
  readonly grain: boolean;
}

export type Found = { readonly ok: true; readonly material: Material } | { readonly ok: false; readonly issue: Issue };
type Path = Issue['path'];

/** A panel or board of the plan's stock by its id. */
export function findMaterial(plan: Plan, id: string, path: Path, kinds: readonly ('panel' | 'board')[]): Found {
  if (kinds.includes('panel')) {
    const panel = plan.stock.panels.find((item) => item.id === id);
    if (panel) {
      const thickness = toTicks(panel.thickness);
      return { ok: true, material: { id, from: 'panel', thickness, grain: panel.grain !== 'none' } };
    }
  }
  if (kinds.includes('board')) {
    const board = plan.stock.boards.find((item) => item.id === id);
    if (board) {
      const section = sectionOf(board);
      if (section) return { ok: true, material: { id, from: 'board', ...section, grain: true } };
      return {
        ok: false,
        issue: {
          path,
          message: `the section of board ${id} is not known`,
          expected: 'its thickness and width, or a nominal size such as 1x4',
        },
      };
    }
  }
  const ids = [
    ...(kinds.includes('panel') ? plan.stock.panels.map((item) => item.id) : []),
    ...(kinds.includes('board') ? plan.stock.boards.map((item) => item.id) : []),
  ];
  const near = nearest(id, ids);
  return {
    ok: false,
    issue: {
      path,
      message: `there is no such ${kinds.join(' or ')} in the stock`,
      found: id,
      expected: ids.length > 0 ? `one of ${ids.slice(0, 12).join(', ')}` : `a ${kinds.join(' or ')} under stock`,
      ...(near !== undefined && { nearest: near }),
    },
  };
}

function sectionOf(board: Plan['stock']['boards'][number]): { thickness: Ticks; width: Ticks } | undefined {
  const dressed = board.nominal === undefined ? undefined : actualSize(board.nominal);
  const thickness = board.thickness ?? dressed?.thickness;
  const width = board.width ?? dressed?.width;
  return thickness && width ? { thickness: toTicks(thickness), width: toTicks(width) } : undefined;
}
