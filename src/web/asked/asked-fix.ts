import { type Piece, printersFor, type Units, USUAL_SAFETY } from '../../core/plan/index.ts';
import type { Kg } from '../../core/quantity/index.ts';
import { type Asked, type AskedGroup, field, RATED } from './asked.ts';

const KINDS = [
  'wood screw',
  'lag screw',
  'self-drilling screw',
  'toggle',
  'hollow-wall anchor',
  'plug',
] as const satisfies NonNullable<Piece['fix']>['kind'][];

/** What holds a piece to its wall. */
export function askedOfFix(units: Units, piece: Piece): AskedGroup {
  const { fix } = piece;
  const print = printersFor(units);
  const kind = fix?.kind;
  const screw = kind?.endsWith('screw');
  const more: readonly Asked[] =
    kind === undefined
      ? []
      : [
          field(['fix', 'diameter'], `${kind}, diameter`, 'small', 'as usual'),
          ...(screw || kind === 'plug' ? [field(['fix', 'length'], `${kind}, length`, 'length', 'as usual')] : []),
          // shown beside a screw too where it is said, since it means nothing there and is to go
          ...(screw && fix?.rated === undefined && fix?.safety === undefined
            ? []
            : [
                field(
                  ['fix', 'rated'],
                  'rated pull and shear',
                  RATED,
                  `by its packet: ${print.mass(120 as Kg)} and ${print.mass(150 as Kg)}`,
                ),
                field(['fix', 'safety'], 'safety factor', 'number', String(USUAL_SAFETY)),
              ]),
          ...('display' in piece ? [field(['fix', 'count'], 'how many', 'number', 'as its mount asks')] : []),
          field(['fix', 'at'], 'places from its left', 'lengths', 'as usual'),
          field(['fix', 'heights'], 'heights above its foot', 'lengths', 'as usual'),
        ];
  return {
    title: 'What holds it to the wall',
    asked: [
      {
        key: ['fix', 'kind'],
        words: 'fixed with',
        of: [['', 'what is usual'], ...KINDS.map((each) => [each, `${each}s`] as const)],
        unsaid: ['fix'],
      },
      ...more,
    ],
  };
}
