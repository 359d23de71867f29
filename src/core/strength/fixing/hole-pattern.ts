import { type Note, work } from '../../notes/index.ts';
import { displayPattern } from '../fixings.ts';
import { DISPLAY_PATTERNS, type DisplayPattern } from '../hanging.ts';
import { type Subject, saying, titleOf, type WallInput } from '../plan-input.ts';

/** A display heavier than the screws of its hole pattern are meant for. */
export function patternNotes(input: WallInput, { placed, said }: Subject): readonly Note[] {
  const holes = 'display' in said ? said.mount?.holes : undefined;
  if (!holes || !('display' in said)) return [];
  const found = (Object.keys(DISPLAY_PATTERNS) as DisplayPattern[]).find((name) => {
    const { across, up } = DISPLAY_PATTERNS[name];
    return Math.abs(across - holes.width) < 1 && Math.abs(up - holes.height) < 1;
  });
  if (!found || said.mass <= DISPLAY_PATTERNS[found].mass) return [];
  const { mass } = saying(input);
  return [
    {
      id: `display-pattern:${placed.id}`,
      about: placed.id,
      verdict: 'caution',
      title: `${titleOf(placed)} weighs ${mass(said.mass)}; its hole pattern is meant for ${mass(DISPLAY_PATTERNS[found].mass)} at most`,
      advice:
        'Look at the back of the display for a larger pattern and at the mount for what it carries: one of the two is said wrong in the plan, or the mount does not suit.',
      working: work(displayPattern, { pattern: found }),
    },
  ];
}
