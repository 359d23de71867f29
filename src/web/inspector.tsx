import { type KeyboardEvent, useRef, useState } from 'preact/compat';
import type { Outcome } from '../core/outcome.ts';
import {
  type Edit,
  kindOf,
  lookUp,
  nameOf,
  type Path,
  PIECE_KINDS,
  type PieceKind,
  printersFor,
} from '../core/plan/index.ts';
import { type Found, findPiece, sizedIn, sizeEdits, sizesOf } from './arrange.ts';
import { change, useBench } from './bench.ts';
import { command } from './command.ts';
import { Choice, Field } from './field.tsx';
import { later } from './later.tsx';

// what only one kind of piece has is loaded with the first of them
const BayForm = later(() => import('./bay-form.tsx'));
const KindForm = later(() => import('./kind-form.tsx'), null, null);
const PartCard = later(() => import('./part-card.tsx'));

const PLACE = [
  ['from', 'from the left end'],
  ['centre', 'middle from the left end'],
  ['gap', 'gap before it'],
  ['above', 'above the floor'],
  ['out', 'out from the wall'],
] as const;
const KINDS: Readonly<Record<PieceKind, readonly [string, string]>> = {
  case: ['case', 'a box of casework, divided into bays'],
  shelf: ['floating shelf', 'hollow, over rods in the wall'],
  display: ['display', 'a screen on the wall'],
  lining: ['lining', 'a panel flat on the wall'],
  thing: ['thing', 'what stands or will stand in the room'],
  strip: ['strip light', 'low voltage, along an edge'],
  lamp: ['lamp', 'lights the room and the faces'],
  absorber: ['absorber', 'foam or cloth that takes echo away'],
  seat: ['seat', 'where somebody sits, and faces'],
  camera: ['camera', 'what it sees is drawn'],
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
      <div className="pick">
        <Choice
          name="Selected"
          value={name ?? ''}
          of={[
            ['', 'none'],
            ...option.pieces.map((p) => [nameOf(p), `${p.title ?? nameOf(p)} (${KINDS[kindOf(p)][0]})`] as const),
          ]}
          onChange={(value) => useBench.setState({ selected: value || undefined, note: undefined })}
        />
        <AddPiece outcome={outcome} wall={wall} />
      </div>
      {!found && (
        <p className="hint">
          {option.pieces.length === 0
            ? 'Nothing stands in the room yet. Add a first piece.'
            : 'Pick a piece on the drawing to size it, or add one. Drag it, or its sides; the arrow keys nudge.'}
        </p>
      )}
      {found && name !== undefined && <PieceForm outcome={outcome} found={found} name={name} />}
      {found && 'case' in found.piece && <BayForm found={found} />}
      {part && <PartCard part={part} outcome={outcome} />}
    </section>
  );
}

/** Everything that can be added, each in a few words; it opens in place, so that nothing is covered. */
function AddPiece({ outcome, wall }: { readonly outcome: Outcome; readonly wall: string }) {
  const [open, setOpen] = useState(false);
  const own = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const shut = () => {
    setOpen(false);
    button.current?.focus();
  };
  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (event.key === 'Escape') shut();
    else if (by !== undefined) {
      const all = [...own.current!.querySelectorAll('button')];
      all[all.indexOf(event.target as HTMLButtonElement) + by]?.focus();
    } else return;
    event.preventDefault();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys go from one of its buttons to the next
    <div className="add-piece" ref={own} onKeyDown={onKey}>
      <button type="button" ref={button} aria-expanded={open} onClick={() => setOpen(!open)}>
        Add a piece
      </button>
      {open && (
        <ul aria-label="Pieces to add">
          {PIECE_KINDS.map((kind) => (
            <li key={kind}>
              <button
                type="button"
                onClick={() => {
                  shut();
                  void command('addPiece', outcome, kind, wall);
                }}
              >
                <b>{KINDS[kind][0]}</b> <span>{KINDS[kind][1]}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

const setTo = (text: string, path: Path): readonly Edit[] => [{ op: 'set', path, value: text }];
/** What is no number goes into the plan as it was typed, where it is refused in its own words. */
const turnTo = (text: string, path: Path): readonly Edit[] => {
  const value = text === '' ? Number.NaN : Number(text.replace(',', '.'));
  return [{ op: 'set', path, value: Number.isFinite(value) ? value : text }];
};

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
  const { units } = outcome.plan;
  const print = printersFor(units);
  const titled = plain === undefined ? undefined : lookUp(plain, [...path, 'title']);
  const size = sizesOf(piece);
  const sized = sizedIn(piece);
  return (
    <>
      <div className="fields" key={name}>
        <Field name="title" path={[...path, 'title']} shown={typeof titled === 'string' ? titled : ''} hint={name} />
        {sized
          .filter((key) => size[key] !== undefined)
          .map((key) => (
            <Field
              key={key}
              name={key}
              path={[...path, 'size', key]}
              shown={print.length(size[key]!)}
              edits={setTo}
              units={units}
            />
          ))}
        {PLACE.filter(([key]) => piece[key] !== undefined || isUseful(key, found)).map(([key, words]) => (
          <Field
            key={key}
            name={words}
            path={[...path, key]}
            shown={piece[key] === undefined ? '' : print.length(piece[key])}
            units={units}
            hint={print.length(key === 'above' && placed ? placed.frame.origin.y : 0)}
          />
        ))}
        {piece.at && (
          <>
            <Field
              name="east of the corner"
              path={[...path, 'at', 'x']}
              shown={print.length(piece.at.x)}
              units={units}
            />
            <Field
              name="south of the corner"
              path={[...path, 'at', 'y']}
              shown={print.length(piece.at.y)}
              units={units}
            />
            <Field name="turned, degrees" path={[...path, 'at', 'turn']} shown={String(piece.at.turn)} edits={turnTo} />
          </>
        )}
        {'toe' in piece && piece.toe && (
          <Field
            name="toe height"
            path={[...path, 'toe', 'height']}
            shown={print.length(piece.toe.height)}
            units={units}
          />
        )}
      </div>
      <KindForm outcome={outcome} found={found} />
      <div className="buttons">
        <button type="button" onClick={() => void command('copyPiece', outcome, name)}>
          Copy
        </button>
        <button type="button" onClick={() => void command('mirrorPiece', outcome, name)}>
          Mirror
        </button>
        {placed?.wall && !isLed(piece) && (
          <>
            <button type="button" onClick={() => void command('toOtherSide', outcome, name)}>
              To the other side
            </button>
            {sized.length > 0 && (
              <button type="button" onClick={() => fillWall(outcome, found)}>
                Fill to the right
              </button>
            )}
          </>
        )}
        <button type="button" onClick={() => void command('deletePiece', outcome, name)}>
          Delete
        </button>
      </div>
    </>
  );
}

/** Its place follows from that of another piece. */
const isLed = (piece: Found['piece']): boolean => 'along' in piece && piece.along !== undefined;
const isUseful = (key: (typeof PLACE)[number][0], { piece }: Found): boolean =>
  !piece.at &&
  !isLed(piece) &&
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
