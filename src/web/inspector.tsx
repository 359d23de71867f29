import type { Outcome } from '../core/outcome.ts';
import { kindOf, lookUp, nameOf, PIECE_KINDS, type PieceKind, printersFor } from '../core/plan/index.ts';
import { type Found, findPiece, SIZED, sizeEdits, sizesOf } from './arrange.ts';
import { BayForm } from './bay-form.tsx';
import { change, useBench } from './bench.ts';
import { addPiece, copyPiece, deletePiece, mirrorPiece, toOtherSide } from './commands.ts';
import { Choice, Field } from './field.tsx';
import { PartCard } from './part-card.tsx';

const SIZE = ['width', 'height', 'depth'] as const;
const PLACE = [
  ['from', 'from the left end'],
  ['centre', 'middle from the left end'],
  ['gap', 'gap before it'],
  ['above', 'above the floor'],
  ['out', 'out from the wall'],
] as const;
const KIND_WORDS: Readonly<Record<PieceKind, string>> = {
  case: 'case',
  shelf: 'floating shelf',
  display: 'display',
  lining: 'lining',
  thing: 'thing',
  strip: 'strip light',
  lamp: 'lamp',
  absorber: 'absorber',
  seat: 'seat',
  camera: 'camera',
};

/** What is selected, with everything about it that can be typed. A length may be typed any way. */
export default function Inspector({ outcome, wall }: { readonly outcome: Outcome; readonly wall: string }) {
  const selected = useBench((b) => b.selected);
  const { option } = outcome;
  const found = findPiece(outcome, selected?.split('/')[0]);
  const name = found && nameOf(found.piece);
  const part = outcome.parts.find((p) => p.id === selected);
  return (
    <section aria-labelledby="piece-title" className="inspector">
      <h2 id="piece-title">Pieces</h2>
      <div className="row">
        <Choice
          name="Selected"
          value={name ?? ''}
          of={[
            ['', 'none'],
            ...option.pieces.map((p) => [nameOf(p), `${p.title ?? nameOf(p)} (${KIND_WORDS[kindOf(p)]})`] as const),
          ]}
          onChange={(value) => useBench.setState({ selected: value || undefined, note: undefined })}
        />
        <Choice
          name="Add"
          value=""
          of={[['', 'a new …'], ...PIECE_KINDS.map((kind) => [kind, KIND_WORDS[kind]] as const)]}
          onChange={(kind) => kind !== '' && addPiece(outcome, kind as PieceKind, wall)}
        />
      </div>
      {found && name !== undefined && <PieceForm outcome={outcome} found={found} name={name} />}
      {found && 'case' in found.piece && <BayForm found={found} />}
      {part && <PartCard part={part} outcome={outcome} />}
    </section>
  );
}

function PieceForm({
  outcome,
  found,
  name,
}: {
  readonly outcome: Outcome;
  readonly found: Found;
  readonly name: string;
}) {
  const { piece, path, placed } = found;
  const plain = useBench((b) => b.plain);
  const print = printersFor(outcome.plan.units);
  const titled = plain === undefined ? undefined : lookUp(plain, [...path, 'title']);
  const size = SIZED.has(kindOf(piece)) ? sizesOf(piece) : {};
  return (
    <>
      <div className="fields" key={name}>
        <Field name="title" path={[...path, 'title']} shown={typeof titled === 'string' ? titled : ''} hint={name} />
        {SIZE.filter((key) => size[key] !== undefined).map((key) => (
          <Field
            key={key}
            name={key}
            path={[...path, 'size', key]}
            shown={print.length(size[key]!)}
            edits={(text) => [{ op: 'set', path: [...path, 'size', key], value: text }]}
          />
        ))}
        {PLACE.filter(([key]) => piece[key] !== undefined || isUseful(key, found)).map(([key, words]) => (
          <Field
            key={key}
            name={words}
            path={[...path, key]}
            shown={piece[key] === undefined ? '' : print.length(piece[key])}
            hint={key === 'above' && placed ? print.length(placed.frame.origin.y) : '0'}
          />
        ))}
        {piece.at && (
          <>
            <Field name="east of the corner" path={[...path, 'at', 'x']} shown={print.length(piece.at.x)} />
            <Field name="south of the corner" path={[...path, 'at', 'y']} shown={print.length(piece.at.y)} />
            <Field
              name="turned, degrees"
              path={[...path, 'at', 'turn']}
              shown={String(piece.at.turn)}
              edits={(text) => [{ op: 'set', path: [...path, 'at', 'turn'], value: Number(text) }]}
            />
          </>
        )}
        {'toe' in piece && piece.toe && (
          <Field name="toe height" path={[...path, 'toe', 'height']} shown={print.length(piece.toe.height)} />
        )}
      </div>
      <div className="buttons">
        <button type="button" onClick={() => copyPiece(outcome, name)}>
          Copy
        </button>
        <button type="button" onClick={() => mirrorPiece(outcome, name)}>
          Mirror
        </button>
        {placed?.wall && (
          <>
            <button type="button" onClick={() => toOtherSide(outcome, name)}>
              To the other side
            </button>
            <button type="button" onClick={() => fillWall(outcome, found)}>
              Fill to the right
            </button>
          </>
        )}
        <button type="button" onClick={() => deletePiece(outcome, name)}>
          Delete
        </button>
      </div>
    </>
  );
}

const isUseful = (key: (typeof PLACE)[number][0], { piece }: Found): boolean =>
  !piece.at &&
  ((key === 'above' && piece.on === undefined) ||
    (key === 'out' && kindOf(piece) !== 'lining') ||
    (key === 'gap' && piece.after !== undefined));

/** Makes the piece as wide as there is room for, up to what stands next on its level or the end of the wall. */
function fillWall(outcome: Outcome, found: Found): void {
  const piece = found.placed!;
  const wall = outcome.room.walls.find((w) => w.id === piece.wall?.id);
  if (!wall || !piece.wall) return;
  const end = piece.wall.from + found.piece.size.width;
  const { min, max } = piece.outside;
  const next = outcome.pieces
    .filter(
      (p) =>
        p.id !== piece.id &&
        p.wall?.id === wall.id &&
        p.wall.from + p.outside.min.x >= end - 1 &&
        p.frame.origin.y + p.outside.min.y < piece.frame.origin.y + max.y &&
        piece.frame.origin.y + min.y < p.frame.origin.y + p.outside.max.y,
    )
    .map((p) => p.wall!.from + p.outside.min.x);
  change(`${piece.title} to the next thing`, sizeEdits(outcome, found, 'right', Math.min(wall.length, ...next) - end));
}
