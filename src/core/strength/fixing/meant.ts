import type { Issue } from '../../issue/index.ts';
import { kindOf, type Option, type Piece } from '../../plan/index.ts';
import { remember } from '../../remember.ts';
import { isHungPanel } from './hung-panel.ts';
import { isScrew } from './point.ts';

/**
 * What a plan says of fixings where it means nothing: left standing, it would look as if it had been checked. Of what is
 * only moved away from its wall a note speaks.
 */
export function fixIssues({ pieces }: Option, at: number): readonly Issue[] {
  if (!pieces.some(({ fix }) => fix)) return NONE;
  return pieces.flatMap((said, i) =>
    said.fix ? told(said, [at, i], () => issuesOf(said, ['options', at, 'pieces', i, 'fix'])) : NONE,
  );
}
const NONE: readonly Issue[] = [];
const told = remember<Piece, readonly Issue[]>();

function issuesOf(said: Piece, path: Issue['path']): readonly Issue[] {
  const fix = said.fix!;
  const found = `${fix.kind}s on a ${kindOf(said)}`;
  const whole = wholeIssue(said);
  if (whole) return [{ path, found, ...whole }];
  const issues: Issue[] = [];
  const refuse = (key: keyof typeof fix, message: string, expected: string, nearest?: string) => {
    const value = fix[key];
    if (value === undefined) return;
    issues.push({
      path: [...path, key],
      message,
      found: `${typeof value === 'object' ? key : value} of ${found}`,
      expected,
      ...(nearest && { nearest }),
    });
  };
  if (!('display' in said))
    refuse(
      'count',
      'only the plate of a display is told how many fixings it takes',
      'their places',
      "'at' and 'heights'",
    );
  if (isScrew(fix.kind)) {
    const no = "no 'rated' and no 'safety', or a toggle, a hollow-wall anchor or a plug";
    refuse('rated', "a screw is reckoned from its size and what it goes into, not from its maker's figures", no);
    refuse('safety', 'the safety of a screw is in the standard it is reckoned by', no);
  }
  return issues;
}

/** It takes no fixings at all. */
export const takesNoFixings = (said: Piece): boolean => wholeIssue(said) !== undefined;

/** Why no fixing is asked of a piece at all. */
function wholeIssue(said: Piece): Pick<Issue, 'message' | 'expected' | 'nearest'> | undefined {
  if ('absorber' in said && !isHungPanel(said))
    return {
      message: 'tiles without a backing are glued to the wall',
      expected: "no 'fix', or a panel behind the tiles that is screwed up",
      nearest: "'backing'",
    };
  if ('strip' in said || 'seat' in said)
    return {
      message: `nothing is reckoned of what holds a ${kindOf(said)}`,
      expected: "no 'fix'; a thing, a lamp or a camera may hang on a wall",
    };
  return undefined;
}
