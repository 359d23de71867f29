import { type FormEvent, useState } from 'preact/compat';
import { partNumbers } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { go, hashOf } from './route.ts';
import { codeReader, readCode } from './scan.ts';

/** A part by its number, by its name, by a photograph of its label, or from the list of all. */
export function PartFinder({ outcome, whole }: { readonly outcome: Outcome; readonly whole: boolean }) {
  const [wanted, setWanted] = useState('');
  const [wrong, setWrong] = useState('');
  const [reading, setReading] = useState(false);
  const open = (words: string) => {
    const part = partCalled(outcome, words);
    setWrong(
      part === undefined
        ? `There is no part “${words.trim().slice(0, 60)}” in ${outcome.option.title ?? outcome.option.id}.${
            whole ? '' : ' The mouldings are not loaded yet.'
          }`
        : '',
    );
    if (part !== undefined) go({ to: 'part', id: part });
  };
  const photographed = async (file: File) => {
    setReading(true);
    setWrong('');
    const decode = await codeReader().catch(() => undefined);
    const words = decode && (await readCode(file, decode).catch(() => undefined));
    setReading(false);
    if (!decode)
      return setWrong(
        'What reads codes could not be loaded: the workbench cannot be reached. Type the number instead.',
      );
    if (words === undefined)
      setWrong('No code was found in the picture: go closer, hold it flat, give it light; or type the number.');
    else open(words);
  };
  return (
    <form
      className="part-finder"
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        if (wanted.trim() !== '') open(wanted);
      }}
    >
      <label htmlFor="part-wanted">Number or name of a part</label>
      <div className="shop-row">
        <input
          id="part-wanted"
          value={wanted}
          onChange={(e) => setWanted(e.currentTarget.value)}
          autoComplete="off"
          enterKeyHint="search"
        />
        <button type="submit">Find</button>
        <label className="button">
          Photograph a label
          <input
            className="unseen"
            type="file"
            accept="image/*"
            capture="environment"
            onChange={(e) => {
              const file = e.currentTarget.files?.[0];
              e.currentTarget.value = '';
              if (file) void photographed(file);
            }}
          />
        </label>
      </div>
      {reading && <p role="status">Reading the label …</p>}
      {wrong !== '' && (
        <p className="wrong" role="alert">
          {wrong}
        </p>
      )}
    </form>
  );
}

/** All parts by piece, with their numbers. */
export function PartList({ outcome }: { readonly outcome: Outcome }) {
  const numbered = partNumbers(outcome.pieces);
  if (numbered.length === 0) return <p>Nothing in this option is made of parts yet.</p>;
  return outcome.pieces
    .filter((piece) => piece.parts.length > 0)
    .map((piece) => (
      <section key={piece.id} aria-label={piece.title}>
        <h2>{piece.title}</h2>
        <ul className="part-list">
          {numbered
            .filter(({ part }) => part.piece === piece.id)
            .map(({ part, number }) => (
              <li key={part.id}>
                <a href={hashOf({ to: 'part', id: part.id })}>
                  <span className="number">{number}</span> {part.label.name}
                </a>
              </li>
            ))}
        </ul>
      </section>
    ));
}

/** `12`, or what a label's code says: `12 scores/left-side | Alder Lane`, or a name. */
export function partCalled(outcome: Outcome, words: string): string | undefined {
  const id = words
    .split('|')[0]!
    .replace(/^\s*\d+\s+/, '')
    .trim();
  const named = outcome.parts.find((p) => p.id === id) ?? outcome.parts.find((p) => p.label.name === words.trim());
  if (named) return named.id;
  // the number alone: with a name that is not there it would be another part's
  const number = /^\s*(\d+)\s*$/.exec(words)?.[1];
  return partNumbers(outcome.pieces).find((p) => p.number === Number(number))?.part.id;
}
