import { DEFAULTS, railGroove } from '../../core/casework/index.ts';
import {
  type Bay,
  type CasePiece,
  type Edit,
  type Make,
  type Path,
  type Plan,
  printersFor,
} from '../../core/plan/index.ts';
import { written } from '../arrange.ts';
import { useBench } from '../bench.ts';
import { type Asked, type AskedGroup, field, putIn } from './asked.ts';
import { small, usually } from './small.ts';
import { bands, boards, panels, withUnsaid } from './stocks.ts';

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
const TOPS = [
  ['true', 'lies over the sides'],
  ['false', 'stands between the sides'],
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
  const joint = own?.joint ?? usual.joint;
  const style = own?.style ?? usual.style;
  const carcass: readonly Asked[] = [
    { key: ['make', 'panel'], words: 'carcass of', of: withUnsaid(sheet, usual.panel) },
    { key: ['make', 'joint'], words: 'joints', of: withUnsaid(JOINTS, wordOf(JOINTS, usual.joint)) },
    ...(joint === 'butt' && back !== 'rabbeted' && back !== 'grooved'
      ? []
      : [field(['make', 'let'], 'let in, how deep', 'small', make.let ? small(units, make.let) : 'a third')]),
    {
      key: ['make', 'capped'],
      words: 'its top',
      of: withUnsaid(TOPS, wordOf(TOPS, String(make.capped ?? DEFAULTS.capped))),
      as: (text) => text === 'true',
    },
    {
      key: ['make', 'band'],
      words: 'edges that show',
      of: withUnsaid([['none', 'as they are cut'], ...bands(stock)], make.band ?? 'as they are cut'),
    },
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
    ...(piece.toe
      ? [
          field(['toe', 'setback'], 'toe, set back', 'length', print.length(DEFAULTS.toeSetback)),
          { key: ['toe', 'board'], words: 'toe board of', of: withUnsaid(any, panel) } as const,
        ]
      : []),
    { key: ['top', 'stock'], words: 'top laid on, of', of: [NONE, ...any], unsaid: ['top'] },
    ...(piece.top ? [field(['top', 'front'], 'top, over the front', 'length', print.length(0))] : []),
  ];
  return [
    { title: 'How it is made', asked: carcass },
    { title: 'Fronts and face frame', asked: askedOfFronts(plan, piece, panel, style) },
    ...(piece.inside && hasDrawers(piece.inside)
      ? [{ title: 'Drawer boxes', asked: askedOfDrawers(plan, piece, panel) }]
      : []),
    { title: 'Back and hanging rails', asked: rear },
    { title: 'Ends, fillers, toe and top', asked: round },
  ];
}

/** What is seen of it from the front. */
function askedOfFronts({ make, stock, units }: Plan, piece: CasePiece, panel: string, style: string): readonly Asked[] {
  const own = piece.make?.frame;
  const usual = make.frame === undefined || make.frame === 'none' ? 'none' : make.frame.board;
  const frame = own ?? make.frame;
  const board = frame === undefined || frame === 'none' ? undefined : frame.board;
  return [
    {
      key: ['make', 'style'],
      words: 'doors and drawer fronts',
      of: withUnsaid(FRONTS, wordOf(FRONTS, make.style ?? DEFAULTS.style)),
    },
    { key: ['make', 'front'], words: 'fronts of', of: withUnsaid(panels(stock), make.front ?? panel) },
    field(
      ['make', 'gap'],
      style === 'inset' ? 'gap round a front' : 'gap between fronts',
      'small',
      usually(units, make.gap, DEFAULTS.gap),
    ),
    ...(style === 'overlay'
      ? [field(['make', 'reveal'], 'edge seen round fronts', 'small', usually(units, make.reveal, DEFAULTS.reveal))]
      : []),
    {
      key: ['make', 'frame'],
      words: 'face frame of',
      of: withUnsaid([...(usual === 'none' ? [] : [['none', 'none'] as const]), ...boards(stock)], usual),
      now: own === undefined ? '' : own === 'none' ? 'none' : own.board,
      edits: (text, path) => frameEdits(own, path, text),
    },
    ...(board === undefined || own === undefined || own === 'none'
      ? []
      : [
          field(['make', 'frame', 'stile'], 'face frame, stiles', 'length', 'as its board is wide'),
          field(['make', 'frame', 'rail'], 'face frame, rails', 'length', 'as its board is wide'),
        ]),
  ];
}

function askedOfDrawers({ make, stock, units }: Plan, piece: CasePiece, panel: string): readonly Asked[] {
  const usual = (key: 'side' | 'rear' | 'above' | 'below') => usually(units, make.drawer?.[key], DEFAULTS.drawer[key]);
  const sheet = panels(stock);
  const usualBox = make.drawer?.panel ?? panel;
  const box = piece.make?.drawer?.panel ?? usualBox;
  return [
    { key: ['make', 'drawer', 'panel'], words: 'boxes of', of: withUnsaid(sheet, usualBox) },
    { key: ['make', 'drawer', 'bottom'], words: 'bottoms of', of: withUnsaid(sheet, make.drawer?.bottom ?? box) },
    field(['make', 'drawer', 'side'], 'for the slide, each side', 'small', usual('side')),
    field(['make', 'drawer', 'rear'], 'clear behind the box', 'small', usual('rear')),
    field(['make', 'drawer', 'above'], 'clear above the box', 'small', usual('above')),
    field(['make', 'drawer', 'below'], 'clear below the box', 'small', usual('below')),
  ];
}

/** Another board leaves the widths of a frame as they were said. */
function frameEdits(own: Make['frame'], path: Path, text: string): readonly Edit[] {
  const plain = useBench.getState().plain ?? null;
  const at = [...path, 'make', 'frame'];
  if (text === '') return putIn(plain, at, undefined);
  if (text === 'none') return putIn(plain, at, text);
  return typeof own === 'object' ? putIn(plain, [...at, 'board'], text) : putIn(plain, at, { board: text });
}
const hasDrawers = ({ drawers, columns, rows }: Bay): boolean =>
  drawers !== undefined || [...(columns ?? []), ...(rows ?? [])].some(hasDrawers);

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
