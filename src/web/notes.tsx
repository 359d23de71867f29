import { memo, useCallback, useEffect, useRef } from 'preact/compat';
import type { RegisterEntry } from '../core/drawing/index.ts';
import { byUrgency, type Note, type Verdict } from '../core/notes/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { unbroken } from '../core/quantity/index.ts';
import { useBench } from './bench.ts';
import { CureButton } from './cure-button.tsx';
import { later, ONE_MOMENT } from './later.tsx';
import { go } from './route.ts';

const TriedCure = later(() => import('./tried-cure.tsx'), ONE_MOMENT);
const WorkingView = later(() => import('./working-view.tsx'), ONE_MOMENT);

const WORDS: Readonly<Record<Verdict, string>> = { stop: 'Stop', caution: 'Caution', fine: 'Fine' };

interface Shown {
  readonly outcome: Outcome;
  readonly register: readonly RegisterEntry[];
  readonly page: string;
}
const isSame = (a: Shown, b: Shown): boolean =>
  a.outcome.notes === b.outcome.notes && a.register === b.register && a.page === b.page;

/** The notes in the margin, numbered as on the drawings. */
export const Notes = memo(function Notes({ outcome, register, page }: Shown) {
  const current = useBench((b) => b.note);
  const sorted = [...outcome.notes].sort(byUrgency);
  const open = sorted.filter((n) => n.verdict !== 'fine');
  const fine = sorted.filter((n) => n.verdict === 'fine');
  // a list of hundreds is not gone through again with every step of a drag
  const now = useRef({ outcome, register, page });
  now.current = { outcome, register, page };
  const onShow = useCallback(
    (note: Note) => show(note, now.current.outcome, now.current.register, now.current.page),
    [],
  );
  const list = (notes: readonly Note[], from: number) => (
    <ol>
      {notes.map((note, i) => (
        <NoteItem key={note.id} note={note} number={from + i} open={note.id === current} onShow={onShow} />
      ))}
    </ol>
  );
  return (
    <section aria-labelledby="notes-title" className="notes">
      <h2 id="notes-title">Notes</h2>
      {sorted.length === 0 && <p>Nothing stands out.</p>}
      {list(open, 1)}
      {fine.length > 0 && (
        <details className="fines">
          <summary>{fine.length} checked and found to hold</summary>
          {list(fine, open.length + 1)}
        </details>
      )}
    </section>
  );
}, isSame);

interface Item {
  readonly note: Note;
  readonly number: number;
  readonly open: boolean;
  readonly onShow: (note: Note) => void;
}
/** Of a note that is not open only its title is shown. */
const looksSame = (a: Item, b: Item): boolean =>
  a.number === b.number &&
  a.open === b.open &&
  (a.note === b.note ||
    (!a.open && a.note.id === b.note.id && a.note.title === b.note.title && a.note.verdict === b.note.verdict));

const NoteItem = memo(function NoteItem({ note, number, open, onShow }: Item) {
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => (open ? keepInView(item.current!) : undefined), [open]);
  return (
    <li ref={item} className={`note ${note.verdict}`}>
      <button
        type="button"
        className="note-title"
        aria-expanded={open}
        onClick={() => (open ? useBench.setState({ note: undefined }) : onShow(note))}
      >
        <span className="balloon">{number}</span>
        <span>
          <strong>{WORDS[note.verdict]}:</strong> {unbroken(note.title)}
        </span>
      </button>
      {open && (
        <div className="note-body">
          <p>{unbroken(note.advice)}</p>
          {note.cure && <CureButton cure={note.cure} />}
          {note.tried && <TriedCure note={note} />}
          {note.working && <WorkingView working={note.working} />}
        </div>
      )}
    </li>
  );
}, looksSame);

/** Brings a note into view, and again when what stands over it or in it comes later, until a hand takes the list elsewhere. */
function keepInView(item: HTMLElement): () => void {
  const watch = new ResizeObserver(() => item.scrollIntoView({ block: 'nearest' }));
  const end = (): void => {
    watch.disconnect();
    for (const kind of HANDS) removeEventListener(kind, end, true);
  };
  for (const kind of HANDS) addEventListener(kind, end, true);
  for (const beside of [item, ...item.closest('aside')!.children]) watch.observe(beside);
  return end;
}
const HANDS = ['pointerdown', 'wheel', 'keydown'] as const;

/** Opens a note and brings up a page on which its place is drawn, if the one shown is none. */
function show(note: Note, { pieces }: Outcome, register: readonly RegisterEntry[], page: string): void {
  const name = note.about.split('/')[0]!;
  useBench.setState({ note: note.id, selected: note.about });
  const piece = pieces.find((p) => p.id === name);
  const fitting = [`elevation-${piece?.wall?.id}`, `piece-${name}`, 'plan'];
  if (page === 'plan' || fitting.includes(page)) return;
  const to = fitting.find((id) => register.some((entry) => entry.id === id));
  if (to !== undefined) go({ to: 'page', id: to });
}
