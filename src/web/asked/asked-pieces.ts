import { kindOf, type Piece, type PieceKind, type Plan, type Stock, type Units } from '../../core/plan/index.ts';
import { isInches } from '../../core/quantity/index.ts';
import { takesNoFixings } from '../../core/strength/index.ts';
import { type Asked, type AskedGroup, field, SIZE } from './asked.ts';
import { askedOfCase } from './asked-case.ts';
import { askedOfFix } from './asked-fix.ts';
import { boards, panels } from './stocks.ts';

const yes = (words: readonly [string, string]) =>
  ({
    of: [
      ['true', words[0]],
      ['false', words[1]],
    ],
    as: (text: string) => text === 'true',
  }) as const;
const same = (...words: readonly string[]) => words.map((each) => [each, each] as const);

type Of<K extends PieceKind> = Extract<Piece, { readonly [key in K]: string }>;
/** What may be said of a piece of each kind besides its size and its place; a case has more. */
const KINDS: {
  readonly [K in Exclude<PieceKind, 'case'>]: (piece: Of<K>, stock: Stock, units: Units) => readonly Asked[];
} = {
  shelf: ({ lip }, stock) => [
    { key: ['skin'], words: 'skins of', of: panels(stock) },
    { key: ['core'], words: 'spacers of', of: [['', 'as the skins'], ...panels(stock), ...boards(stock)] },
    {
      key: ['lip', 'stock'],
      words: 'front edge of',
      of: [['', 'as the skins'], ...panels(stock), ...boards(stock)],
      unsaid: ['lip'],
    },
    ...(lip ? [field(['lip', 'height'], 'front edge, height', 'length', 'as the shelf')] : []),
    { key: ['ends'], words: 'ends', of: same('closed', 'open') },
    field(['rods', 'count'], 'rods', 'number', 'one at each stud'),
    field(['rods', 'at'], 'rods, from its left', 'lengths', 'at the studs'),
    field(['rods', 'length'], 'rods, out of the wall', 'length', 'as usual'),
    field(['rods', 'diameter'], 'rods, diameter', 'small', 'as usual'),
    field(['rods', 'plate'], 'wall plate, height', 'length', 'as usual'),
  ],
  display: ({ mount }) => [
    {
      key: ['mount', 'kind'],
      words: 'hangs on a mount',
      of: [
        ['fixed', 'that is fixed'],
        ['tilt', 'that tilts'],
        ['arm', 'with an arm'],
      ],
    },
    ...(mount?.kind === 'arm' ? [field(['mount', 'reach'], 'arm, from the wall to its back', 'length', '0')] : []),
    field(['mount', 'holes'], 'holes in its back', SIZE, 'width × height'),
    field(['mount', 'plate'], 'wall plate of the mount', SIZE, 'as usual'),
    field(['mount', 'mass'], 'mount weighs', 'mass', '0'),
    field(['heat'], 'it draws, W', 'number', '0'),
  ],
  lining: ({ battens }, stock, units) => [
    { key: ['panel'], words: 'panels of', of: panels(stock) },
    { key: ['board'], words: 'whole panels stand', of: same('vertical', 'horizontal') },
    {
      key: ['battens', 'board'],
      words: 'battens of',
      of: [['', 'none'], ...boards(stock)],
      unsaid: ['battens'],
      // a first spacing, which is common practice
      along: (_text, path) =>
        battens
          ? []
          : [{ op: 'set', path: [...path, 'battens', 'spacing'], value: isInches(units.length) ? '16"' : '400 mm' }],
    },
    ...(battens ? [field(['battens', 'spacing'], 'battens apart', 'length')] : []),
    field(['joint'], 'open joints', 'length', 'as usual'),
    field(['clear'], 'free round sockets', 'length', 'as usual'),
  ],
  thing: () => [
    field(['heat'], 'it draws, W', 'number', '0'),
    { key: ['fixed'], words: 'place', ...yes(['cannot be moved', 'may be moved']) },
  ],
  strip: () => [
    field(['perMetre'], 'lights to the metre', 'number'),
    field(['level'], 'how bright it is run, 1 is full', 'number'),
  ],
  lamp: ({ shape }) => [
    {
      key: ['shape'],
      words: 'shines',
      of: [
        ['diffuse', 'one way, as a panel'],
        ['beam', 'in a beam'],
        ['all round', 'every way'],
      ],
    },
    ...(shape === 'beam' ? [field(['angle'], 'beam, degrees', 'number')] : []),
    field(['mass'], 'weighs', 'mass', 'not known'),
  ],
  absorber: (_, stock) => [
    field(['tile'], 'side of one tile', 'length'),
    field(['between'], 'between tiles', 'length'),
    { key: ['backing'], words: 'glued to a panel of', of: [['', 'none: to the wall'], ...panels(stock)] },
    field(['clear'], 'free round sockets', 'length'),
  ],
  seat: () => [
    { key: ['sex'], words: 'sized as published of', of: same('men', 'women') },
    field(['percentile'], 'taller than so many of 100', 'number'),
    { key: ['talks'], words: 'who sits there', ...yes(['talks', 'is silent']) },
  ],
  camera: () => [
    field(['mass'], 'weighs', 'mass', 'not known'),
    { key: ['sensor'], words: 'sensor', of: same('full frame', 'APS-C', 'four thirds', '1 inch', '1/2.3 inch') },
    field(['aspect'], 'picture, width over height', 'number'),
    field(['stop'], 'f-number', 'number'),
    field(['shutter'], 'shutter, parts of a second', 'number'),
    field(['rate'], 'pictures a second', 'number'),
    { key: ['mains'], words: 'mains of the lamps, Hz', of: same('50', '60'), as: Number },
    { key: ['microphone'], words: 'sound', ...yes(['is taken here', 'is not taken here']) },
  ],
};

/** Everything that may be said of a piece besides its size, its place and its bays, and is not asked of it first. */
export function askedOf(plan: Plan, piece: Piece, onWall: boolean): readonly AskedGroup[] {
  const of = 'case' in piece ? askedOfCase(plan, piece) : [{ title: 'More of it', asked: askedOfKind(plan, piece) }];
  // where it is said it is shown, so that what means nothing can be taken away
  return [...of, ...(piece.fix || (onWall && !takesNoFixings(piece)) ? [askedOfFix(plan.units, piece)] : [])];
}
const askedOfKind = ({ stock, units }: Plan, piece: Exclude<Piece, { readonly case: string }>): readonly Asked[] => [
  ...(KINDS[kindOf(piece) as keyof typeof KINDS] as (p: Piece, s: Stock, u: Units) => readonly Asked[])(
    piece,
    stock,
    units,
  ),
];
