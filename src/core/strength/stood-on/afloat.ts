import { vec } from '../../geometry/index.ts';
import type { Note } from '../../notes/index.ts';
import { lowest, SAME } from '../fixing/carried.ts';
import { exact, type Subject, saying, set, titleOf, type WallInput } from '../plan-input.ts';
import type { Surface } from './surface.ts';

/** A thing at no wall that stands on nothing and does not reach the ceiling. What is part of the house, the house holds; a camera has its tripod. */
export function afloatNote(
  input: WallInput,
  { placed, said, path }: Subject,
  under: Surface | 'floor',
): readonly Note[] {
  if (!('thing' in said) || said.fixed) return [];
  const { length } = saying(input);
  const bottom = lowest(placed);
  const [what, top] = under === 'floor' ? ['the floor', 0] : [titleOf(under.owner.placed), under.top];
  const { x, z } = placed.frame.origin;
  return [
    {
      id: `mid-air:${placed.id}`,
      about: placed.id,
      at: vec(x, bottom, z),
      verdict: 'caution',
      title: `${titleOf(placed)} stands on nothing: its foot is ${length(bottom)} above the floor, ${length(bottom - top)} above ${what}`,
      advice: `A thing stands on the floor or on a piece, hangs at a wall or reaches the ceiling. Nearest under it: ${what}${under === 'floor' ? '' : `, ${length(top)} above the floor`}. ${said.on === undefined ? '' : `'${said.on}', which it is said to stand on, is not under it: move it over that. `}Or put what carries it into the plan, so that it is seen and weighed.`,
      working: {
        what: 'How far it stands above what is under it',
        formula: 'h = above − top',
        inputs: [
          { symbol: 'above', name: 'its lowest point above the floor', value: bottom, unit: 'mm' },
          { symbol: 'top', name: `top of ${what}`, value: top, unit: 'mm' },
        ],
        result: { value: bottom - top, unit: 'mm' },
        limit: { value: SAME, unit: 'mm', why: 'what counts as touching' },
        source: 'common practice',
        assumes: ['a thing counts as its whole outside box'],
      },
      ...(said.on === undefined && {
        cure: { title: `Stand it on ${what}`, edits: [set([...path, 'above'], exact(input, top))] },
      }),
    },
  ];
}
