import { useLayoutEffect, useState } from 'preact/compat';
import { explain } from '../core/issue/index.ts';
import { readPlan } from '../core/plan/index.ts';
import { changeText, useBench } from './bench.ts';
import { useToldWhole } from './told-whole.ts';

/** The plan's own text, for whoever likes to write it: as it is in the file. */
export function WordsView() {
  const text = useBench((b) => b.text);
  const [typed, setTyped] = useState(text);
  // at once: a frame later it would take away what was typed meanwhile
  useLayoutEffect(() => setTyped(text), [text]);
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
        <button type="button" disabled={typed === text} onClick={() => setTyped(text)}>
          As it was
        </button>
      </div>
    </section>
  );
}
