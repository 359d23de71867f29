import type { Source } from '../notes/index.ts';

/** What the calculators of fixings cite, and what they warn of. */
export const NDS = (place: string): Source => ({
  title: 'National Design Specification for Wood Construction (NDS)',
  edition: '2018',
  place,
});
export const OVERHEAD =
  'What hangs overhead can kill. Check what is really behind the board, drill no cable or pipe, and follow local codes; heavy or public loads are for a licensed engineer.';
