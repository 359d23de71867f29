import { DEFAULTS, railGroove } from '../../core/casework/index.ts';
import { type CasePiece, type Edit, type Path, type Plan, printersFor } from '../../core/plan/index.ts';
import { written } from '../arrange.ts';
import { useBench } from '../bench.ts';
import { type Asked, type AskedGroup, field, putIn } from './asked.ts';
import { boards, panels, withUnsaid } from './stocks.ts';

const JOINTS = [
  ['butt', 'butted'],
  ['rabbet', 'rabbeted'],
  ['dado', 'let into dadoes'],
] as const;
const BACKS = [
  ['applied', 'laid on the rear edges'],
  ['rabbeted', 'in a rabbet'],
  ['grooved', 'in a groove'],
  ['none', 'none'],
] as const;
const FRONTS = [
  ['overlay', 'before the carcass'],
  ['inset', 'within the carcass'],
] as const;
const SIDES = ['left', 'right'] as const;
const NONE = ['', 'none'] as const;

const wordOf = (of: readonly (readonly [string, string])[], key: string): string =>
  of.find(([each]) => each === key)?.[1] ?? key;

/** What may be said of a case besides its size and its bays. */
export function askedOfCase(plan: Plan, piece: CasePiece): readonly AskedGroup[] {
  const { make, stock, units } = plan;
  const print = printersFor(units);
  const own = piece.make;
  const sheet = panels(stock);
  const any = [...sheet, ...boards(stock)];
  const usual = {
    panel: make.panel ?? 'none named',
    joint: make.joint ?? DEFAULTS.joint,
    back: make.back?.kind ?? DEFAULTS.back,
    style: make.style ?? DEFAULTS.style,
  };
  const panel = own?.panel ?? usual.panel;
  const back = own?.back?.kind ?? usual.back;
  const carcass: readonly Asked[] = [
    { key: ['make', 'panel'], words: 'carcass of', of: withUnsaid(sheet, usual.panel) },
    { key: ['make', 'joint'], words: 'joints', of: withUnsaid(JOINTS, wordOf(JOINTS, usual.joint)) },
    { key: ['make', 'style'], words: 'doors and drawer fronts', of: withUnsaid(FRONTS, wordOf(FRONTS, usual.style)) },
    { key: ['make', 'front'], words: 'fronts of', of: withUnsaid(sheet, make.front ?? panel) },
    {
      key: ['carries'],
      words: 'its shelves carry',
      of: [
        ['', 'gear'],
        ['books', 'books'],
        ['light things', 'light things'],
      ],
    },
  ];
  const rear: readonly Asked[] = [
    { key: ['make', 'back', 'kind'], words: 'back', of: withUnsaid(BACKS, wordOf(BACKS, usual.back)) },
    ...(back === 'none'
      ? []
      : [{ key: ['make', 'back', 'panel'], words: 'back of', of: withUnsaid(sheet, make.back?.panel ?? panel) }]),
    ...(back === 'grooved'
      ? [
          field(
            ['make', 'back', 'inset'],
            'groove from the rear',
            'length',
            print.length(make.back?.inset ?? DEFAULTS.backInset),
          ),
        ]
      : []),
    {
      key: ['rails', 'stock'],
      words: 'hanging rails of',
      of: [NONE, ...any],
      unsaid: ['rails'],
      along: (rail, path) => grooved(plan, piece, path, rail),
    },
    ...(piece.rails
      ? [
          field(
            ['rails', 'height'],
            'hanging rails, height',
            'length',
            stock.boards.some((b) => b.id === piece.rails!.stock)
              ? 'as its board is wide'
              : print.length(DEFAULTS.railHeight),
          ),
          {
            key: ['rails', 'at'],
            words: 'hanging rails lie',
            of: [
              ['both', 'under the top and above the bottom'],
              ['top', 'under the top alone'],
            ],
          } as const,
        ]
      : []),
  ];
  // what comes in pairs stands in pairs
  const round: readonly Asked[] = [
    ...SIDES.map((side) => ({ key: ['ends', side], words: `end panel at the ${side}`, of: [NONE, ...sheet] })),
    ...SIDES.map((side) => field(['fillers', side], `filler at the ${side}`, 'length', 'none')),
    piece.toe
      ? {
          key: ['toe', 'kind'],
          words: 'toe',
          of: [
            ['', 'none'],
            ['notch', 'cut out of the sides'],
            ['plinth', 'a base by itself'],
          ],
          unsaid: ['toe'],
        }
      : field(['toe', 'height'], 'toe height', 'length', 'none'),
    ...(piece.toe ? [field(['toe', 'setback'], 'toe, set back', 'length', print.length(DEFAULTS.toeSetback))] : []),
    { key: ['top', 'stock'], words: 'top laid on, of', of: [NONE, ...any], unsaid: ['top'] },
    ...(piece.top ? [field(['top', 'front'], 'top, over the front', 'length', '0')] : []),
  ];
  return [
    { title: 'How it is made', asked: carcass },
    { title: 'Back and hanging rails', asked: rear },
    { title: 'Ends, fillers, toe and top', asked: round },
  ];
}

/** Rails lie behind a back in a groove: one that is not so, or not so deep, is made so with them. */
function grooved(plan: Plan, piece: CasePiece, path: Path, rail: string): readonly Edit[] {
  const plain = useBench.getState().plain ?? null;
  const inset = railGroove(plan, piece, rail);
  if (inset === undefined) return [];
  const said = { ...plan.make.back, ...piece.make?.back };
  const deep = (said.inset ?? DEFAULTS.backInset) < inset ? { inset: written(plan.units, inset) } : {};
  const words = { ...((said.kind ?? DEFAULTS.back) !== 'grooved' && { kind: 'grooved' }), ...deep };
  if (Object.keys(words).length === 0) return [];
  // what its own back says already stays
  return piece.make?.back
    ? Object.entries(words).flatMap(([key, value]) => putIn(plain, [...path, 'make', 'back', key], value))
    : putIn(plain, [...path, 'make', 'back'], words);
}
