import type { Note } from '../core/notes/index.ts';
import { useBench } from './bench.ts';

const ORDER = { stop: 0, caution: 1, fine: 2 } as const;

/** The notes in the margin, numbered as on the drawings. */
export function Notes({ notes }: { readonly notes: readonly Note[] }) {
  const sorted = [...notes].sort((a, b) => ORDER[a.verdict] - ORDER[b.verdict]);
  return (
    <section aria-labelledby="notes-title" className="notes">
      <h2 id="notes-title">Notes</h2>
      {sorted.length === 0 && <p>Nothing stands out.</p>}
      <ol>
        {sorted.map((note, i) => (
          <li key={note.id} className={note.verdict}>
            <details onToggle={(e) => e.currentTarget.open && useBench.setState({ selected: note.about })}>
              <summary>
                <span className="balloon" aria-hidden="true">
                  {i + 1}
                </span>
                <span>
                  <strong>{{ stop: 'Stop', caution: 'Caution', fine: 'Fine' }[note.verdict]}:</strong> {note.title}
                </span>
              </summary>
              <p>{note.advice}</p>
            </details>
          </li>
        ))}
      </ol>
    </section>
  );
}
