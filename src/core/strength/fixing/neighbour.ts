import { type Subject, subjectsOf, type WallInput } from '../plan-input.ts';
import { isHung } from './carried.ts';
import { keptFixing } from './held.ts';

/**
 * A case that touches this one along the wall and stands as high, and is itself held; else one that is fixed to something, whose own note
 * says what would hold it.
 */
export function heldBeside(input: WallInput, subject: Subject): Subject | undefined {
  const stretch = ({ placed }: Subject) =>
    [placed.wall!.from + placed.outside.min.x, placed.wall!.from + placed.outside.max.x] as const;
  const top = ({ placed }: Subject) => placed.frame.origin.y + placed.outside.max.y;
  const [from, to] = stretch(subject);
  const use = (other: Subject) => keptFixing(input, other)?.use ?? Number.POSITIVE_INFINITY;
  const near = subjectsOf(input).filter((other) => {
    if (other.placed.id === subject.placed.id || !('case' in other.said) || isHung(input, other)) return false;
    if (other.placed.wall?.id !== subject.placed.wall?.id) return false;
    const [a, b] = stretch(other);
    const touches = Math.abs(a - to) < 1 || Math.abs(b - from) < 1;
    return touches && top(other) > top(subject) - 100 && Number.isFinite(use(other));
  });
  return near.find((other) => use(other) <= 1) ?? near[0];
}
