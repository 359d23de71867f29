import type { Bay } from '../plan/index.ts';

/** How the fronts seen on the face of a case sit: one for every bay with a door or drawers that is not behind another door. */
export function frontsOf(bay: Bay, style: 'inset' | 'overlay'): readonly ('inset' | 'overlay')[] {
  const own = bay.style ?? style;
  if (bay.door !== undefined || bay.drawers !== undefined) return [own];
  return [...(bay.columns ?? []), ...(bay.rows ?? [])].flatMap((child) => frontsOf(child, style));
}
