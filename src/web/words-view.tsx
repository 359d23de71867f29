import { useLayoutEffect, useState } from 'preact/compat';
import { explain } from '../core/issue/index.ts';
import { readPlan } from '../core/plan/index.ts';
import { changeText, useBench } from './bench.ts';
import { begun, type Draft, drafted } from './draft.ts';
import { useToldWhole } from './told-whole.ts';

/** What is not kept yet, by plan: it is there again for who looked at another page meanwhile. */
const left = new Map<string, Draft>();

/** The plan's own text, for whoever likes to write it: as it is in the file. */
export function WordsView() {
  const name = useBench((b) => b.name);
  return <Words key={name} name={name} />;
}

function Words({ name }: { readonly name: string }) {
  const text = useBench((b) => b.text);
  const [draft, setDraft] = useState<Draft>(left.get(name) ?? begun(text));
  // at once: a frame later it would take away what was typed meanwhile
  useLayoutEffect(() => setDraft((before) => drafted(before, text)), [text]);
  const { base, typed } = draft;
  if (typed === base) left.delete(name);
  else left.set(name, draft);
  const setTyped = (now: string): void => setDraft({ base, typed: now });
  const read = typed === text ? undefined : readPlan(typed, {});
  const issues = useToldWhole(read?.issues ?? [], read?.document.plain);
  return (
    <section className="sheet-like words">
      <h2>The plan in words</h2>
      <label htmlFor="words">The file as it is. What is changed here is kept with the button below.</label>
      <textarea
        id="words"
        value={typed}
        spellcheck={false}
        onChange={(e) => setTyped(e.currentTarget.value)}
        aria-describedby="words-issues"
      />
      <div id="words-issues" role="status">
        {issues.slice(0, 3).map((issue) => (
          <p className="wrong" key={`${issue.place?.line} ${issue.message}`}>
            {explain(issue)}
          </p>
        ))}
        {base !== text && typed !== text && (
          <p>
            The plan was changed elsewhere since, in a way that cannot be put together with this. Kept, this takes the
            place of it; “As it was” takes what the plan is now.
          </p>
        )}
      </div>
      <div className="buttons">
        <button
          type="button"
          className="primary"
          disabled={typed === text || issues.length > 0}
          onClick={() => changeText('The plan rewritten', typed)}
        >
          Keep it
        </button>
        <button type="button" disabled={typed === text} onClick={() => setDraft(begun(text))}>
          As it was
        </button>
      </div>
    </section>
  );
}
