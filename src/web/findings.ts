import type { Scene, Solids } from '../core/outcome.ts';
import { insist } from './insist.ts';
import { create } from './store.ts';

/**
 * What follows from the solids (notes, mouldings) is half of the core's script and nothing that the first drawing needs: it is loaded
 * behind it. Until then the tally says that it is not done.
 */
interface Findings {
  readonly finish: ((solids: Solids) => Scene) | undefined;
  /** It did not come when it was asked for last. */
  readonly missing: boolean;
}
export const useFindings = create<Findings>(() => ({ finish: undefined, missing: false }));

let asked = false;
export function loadFindings(): void {
  if (asked) return;
  asked = true;
  void insist(
    () => import('../core/findings.ts'),
    () => useFindings.setState({ missing: true }),
  ).then(({ sceneFrom }) => useFindings.setState({ finish: sceneFrom, missing: false }));
}
