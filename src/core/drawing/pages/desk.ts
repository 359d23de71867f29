import { grouped } from '../../grouped.ts';
import { lazy } from '../../lazy.ts';
import { byUrgency, type Note } from '../../notes/index.ts';
import type { Part, PartId, PlacedPiece } from '../../scene/index.ts';
import type { PacketInput } from '../input.ts';
import type { Spots } from '../layout/place.ts';
import { type Lettering, letteringOf } from '../lettering.ts';
import type { PageView, PaperName } from '../marks.ts';
import { type Sheet, sheetOf } from './sheet.ts';

export interface NumberedNote {
  readonly number: number;
  readonly note: Note;
}
export interface NumberedPart {
  readonly number: number;
  readonly part: Part;
  readonly piece: PlacedPiece;
}

/** Parts in the order of pieces and their parts; the number is what the label, the layout and the part list say. */
export interface Numbered {
  readonly parts: readonly NumberedPart[];
  readonly numberOf: ReadonlyMap<PartId, number>;
  readonly partOf: ReadonlyMap<PartId, NumberedPart>;
}

/** What every page needs at hand: the plan worked out, how to letter it, the numbers of parts and notes, the sheet. */
export interface Desk {
  readonly input: PacketInput;
  readonly letter: Lettering;
  readonly paper: PaperName;
  readonly sheet: Sheet;
  /** Pages that are drawn with every step of the hand do not ask for it. */
  readonly numbered: () => Numbered;
  /** Stop notes first, then cautions, then what holds. */
  readonly notes: readonly NumberedNote[];
  /** Notes about a piece or any of its parts. */
  readonly notesOn: (piece: string) => readonly NumberedNote[];
}

/** What a drawing that changes under the hand keeps of one before: where its view lies, and where its balloons stand. */
export interface Held {
  readonly hold?: PageView;
  /** Empty: how they stand is put down. */
  readonly spots?: Spots;
}

/** Every part with its label number, in the order of the pieces and their parts. */
export const partNumbers = (pieces: readonly PlacedPiece[]): readonly NumberedPart[] =>
  pieces.flatMap((piece) => piece.parts.map((part) => ({ part, piece }))).map((p, i) => ({ ...p, number: i + 1 }));

export function deskOf(input: PacketInput, paper: PaperName): Desk {
  const notes = [...input.notes].sort(byUrgency).map((note, i) => ({ number: i + 1, note }));
  const byPiece = grouped(notes, ({ note }) => note.about.split('/')[0]!);
  return {
    input,
    letter: letteringOf(input.plan.units),
    paper,
    sheet: sheetOf(paper),
    numbered: lazy(() => {
      const parts = partNumbers(input.pieces);
      const partOf = new Map(parts.map((p) => [p.part.id, p]));
      return { parts, partOf, numberOf: new Map(parts.map(({ part, number }) => [part.id, number])) };
    }),
    notes,
    notesOn: (piece) => byPiece.get(piece) ?? [],
  };
}

/** `3`, `3, 5`, `3–7`: numbers in the shortest way that names each. */
export function numberRuns(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a}–${b}`)).join(', ');
}
