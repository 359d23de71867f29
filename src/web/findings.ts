import type { Scene, Solids } from '../core/outcome.ts';
import { create } from './store.ts';

/**
 * What follows from the solids (notes, mouldings) is half of the core's script and nothing that the first drawing needs: it is loaded
 * behind it. Until then the tally says that it is not done.
 */
interface Findings {
  readonly finish: ((solids: Solids) => Scene) | undefined;
}
export const useFindings = create<Findings>(() => ({ finish: undefined }));

let asked = false;
export function loadFindings(): void {
  if (asked) return;
  asked = true;
  import('../core/findings.ts').then(
    ({ sceneFrom }) => useFindings.setState({ finish: sceneFrom }),
    () => {
      asked = false; // a bad connection: whatever is shown next asks again
    },
  );
}
