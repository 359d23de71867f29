import type { Outcome } from '../core/outcome.ts';
import { kindOf, nameOf, type PieceKind, printersFor } from '../core/plan/index.ts';
import { type Found, set, without, written } from './arrange.ts';
import { putNumber } from './asked/asked.ts';
import { change } from './bench.ts';
import { Choice, Field } from './field.tsx';
import { MoreForm } from './more-form.tsx';
import { go } from './route.ts';

/** Lenses go by millimetres wherever they are sold. */
type Quantity = 'mass' | 'mm' | 'number';
/** What else is asked of a piece first, by its kind: the rest stands in the plan in words. */
const ASKED: Readonly<
  Partial<Record<PieceKind, readonly (readonly [key: string, words: string, quantity: Quantity])[]>>
> = {
  shelf: [['load', 'what will stand on it weighs', 'mass']],
  display: [['mass', 'weighs', 'mass']],
  thing: [['mass', 'weighs', 'mass']],
  strip: [
    ['lumens', 'lumens to the metre', 'number'],
    ['kelvin', 'colour of its light, K', 'number'],
  ],
  lamp: [
    ['lumens', 'lumens of all of it', 'number'],
    ['kelvin', 'colour of its light, K', 'number'],
  ],
  camera: [['focal', 'focal length of its lens', 'mm']],
};
/** What only one kind of piece has, the wall it is on, and for a light the edge it follows. */
export default function KindForm({ outcome, found }: { readonly outcome: Outcome; readonly found: Found }) {
  const { piece, path, placed } = found;
  const { plan, option, room } = outcome;
  const print = printersFor(plan.units);
  const shown = (key: string, quantity: Quantity): string => {
    const value = (piece as unknown as Readonly<Record<string, number | undefined>>)[key];
    if (value === undefined) return '';
    return quantity === 'mass' ? print.mass(value) : quantity === 'mm' ? `${value} mm` : `${value}`;
  };
  const along = 'along' in piece ? piece.along : undefined;
  const isLed = piece.after !== undefined || piece.on !== undefined || along !== undefined;
  const edges = option.pieces.filter((p) => kindOf(p) === 'case' || kindOf(p) === 'shelf');
  const onWall = (wall: string): void => {
    if (change(`${placed?.title ?? nameOf(piece)} to another wall`, [set([...path, 'wall'], wall)]).length === 0)
      go({ to: 'page', id: `elevation-${wall}` });
  };
  const follow = (edge: string): void => {
    const { units } = plan;
    change(
      edge === '' ? 'Light by itself' : `Light along ${edge}`,
      edge === ''
        ? [
            ...without(piece, path, ['along' as keyof typeof piece]),
            set([...path, 'wall'], placed?.wall?.id ?? room.walls[0]!.id),
            set([...path, 'from'], written(units, placed?.wall?.from ?? 0)),
            set([...path, 'above'], written(units, placed?.frame.origin.y ?? 0)),
          ]
        : [
            ...without(piece, path, ['wall', 'from', 'centre', 'above', 'out', 'after', 'gap', 'on', 'at']),
            set([...path, 'along'], edge),
          ],
    );
  };
  const asked = ASKED[kindOf(piece)] ?? [];
  const walls = !isLed && placed?.wall && room.walls.length > 1;
  return (
    <>
      {(asked.length > 0 || walls) && (
        <div className="fields kind-fields" key={nameOf(piece)}>
          {'strip' in piece && (
            <Choice
              name="along the front of"
              value={along ?? ''}
              of={[['', 'nothing'], ...edges.map((p) => [nameOf(p), p.title ?? nameOf(p)] as const)]}
              onChange={follow}
            />
          )}
          {walls && (
            <Choice
              name="on the wall"
              value={placed.wall!.id}
              of={room.walls.map((wall) => [wall.id, wall.id] as const)}
              onChange={onWall}
            />
          )}
          {asked.map(([key, words, quantity]) => (
            <Field
              key={key}
              name={words}
              path={[...path, key]}
              shown={shown(key, quantity)}
              {...(quantity === 'number' && { edits: putNumber })}
            />
          ))}
        </div>
      )}
      <MoreForm outcome={outcome} found={found} key={nameOf(piece)} />
    </>
  );
}
