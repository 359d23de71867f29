import { type Area, below, LETTER, line, point, text } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { BALLOON, balloonAt } from '../layout/place.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark, Tone } from '../marks.ts';
import { type NumberedNote, numberRuns } from './desk.ts';

export const toneOf = (verdict: NumberedNote['note']['verdict']): Tone =>
  verdict === 'stop' ? 'alert' : verdict === 'caution' ? 'caution' : 'ink';
const WORD = { stop: 'Stop', caution: 'Caution', fine: 'Holds' } as const;

const INDENT = 2 * BALLOON + 2;
const AFTER = 3;
const H = LETTER.small;

interface Laid {
  readonly height: number;
  readonly at: (x: number, y: number) => readonly Mark[];
}

/** One note: its balloon, what it says in bold with its verdict in words, and the advice under it. */
function layNote({ number, note }: NumberedNote, width: number): Laid {
  const title = wrapText(`${WORD[note.verdict]}: ${note.title}`, H, width - INDENT, true);
  const advice = note.advice === '' ? [] : wrapText(note.advice, H, width - INDENT);
  const tone = toneOf(note.verdict);
  return {
    height: (title.length + advice.length) * LEADING + AFTER,
    at: (x, y) => [
      ...balloonAt(point(x + BALLOON, y + LEADING - H / 2 - 0.6), number, tone),
      ...title.map((words, i) => text(x + INDENT, y + LEADING * (i + 1) - 0.6, words, { bold: true })),
      ...advice.map((words, i) => text(x + INDENT, y + LEADING * (title.length + i + 1) - 0.6, words)),
    ],
  };
}

/** Where the next note would stand: in which of the columns, and how far down. */
export interface Spot {
  readonly column: number;
  readonly y: number;
}

/** Notes one under another in as many columns as are given, from a spot on; what does not fit is given back. */
export function layNotes(
  notes: readonly NumberedNote[],
  columns: readonly Area[],
  from: Spot = { column: 0, y: columns[0]?.y ?? 0 },
): { readonly marks: readonly Mark[]; readonly left: readonly NumberedNote[]; readonly end: Spot } {
  const marks: Mark[] = [];
  let { column, y } = from;
  for (const [i, note] of notes.entries()) {
    const stop = () => ({ marks, left: notes.slice(i), end: { column, y } });
    let place = columns[column];
    if (!place) return stop();
    const laid = layNote(note, place.width);
    if (y + laid.height - AFTER > below(place) && y > place.y) {
      column += 1;
      place = columns[column];
      if (!place) return stop();
      y = place.y;
    }
    if (y + laid.height - AFTER > below(place)) return stop();
    marks.push({ kind: 'group', about: note.note.id, marks: laid.at(place.x, y) });
    y += laid.height;
  }
  return { marks, left: [], end: { column, y } };
}

/** The margin beside a drawing: a heading, its notes, and a word about those that had no room. */
export function noteMargin(notes: readonly NumberedNote[], place: Area): readonly Mark[] {
  if (notes.length === 0) return [];
  const head = [
    text(place.x, place.y + 2.5, 'Notes', { tone: 'faint' }),
    line(place.x, place.y + 4.6, place.x + place.width, place.y + 4.6, 'thin'),
  ];
  // the word about the others takes a line, or two where they are many: fewer notes leave no fewer to tell of
  const withLines = (lines: number): readonly Mark[] => {
    const column = { ...place, y: place.y + 7, height: place.height - 7 - lines * LEADING };
    const { marks, left } = layNotes(notes, [column]);
    const told =
      left.length === 0 ? [] : wrapText(`and ${numberRuns(left.map((n) => n.number))}: see the notes`, H, place.width);
    if (told.length > lines) return withLines(told.length);
    const more = told.map((words, i) =>
      text(place.x, below(place) - 0.6 - (told.length - 1 - i) * LEADING, words, { tone: 'faint' }),
    );
    return [...marks, ...more];
  };
  return [...head, ...withLines(1)];
}
