import type { Bay } from '../plan/index.ts';

/** How the fronts seen on the face of a case sit: one for every bay with a door or drawers that is not behind another door. */
export function frontsOf(bay: Bay, style: 'inset' | 'overlay'): readonly ('inset' | 'overlay')[] {
  const own = bay.style ?? style;
  if (bay.door !== undefined || bay.drawers !== undefined) return [own];
  return [...(bay.columns ?? []), ...(bay.rows ?? [])].flatMap((child) => frontsOf(child, style));
}

/** The parts that dividing and filling a bay asks for, at the least: counted from the plan alone, before anything is built. */
export function leastPartsOf(bay: Bay): number {
  const many = (list: number | readonly unknown[] | boolean | undefined): number =>
    typeof list === 'number' ? list : Array.isArray(list) ? list.length : 0;
  const divided = bay.columns ?? bay.rows;
  const open = many(bay.open);
  return (
    many(bay.drawers) +
    many(bay.fixed) +
    (bay.shelves ?? 0) +
    Math.max(0, open - 1) +
    (divided ? divided.length - 1 + divided.reduce((sum, child) => sum + leastPartsOf(child), 0) : 0)
  );
}
