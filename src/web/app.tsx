import { useEffect, useMemo } from 'react';
import { packetPages } from '../core/drawing/index.ts';
import { packetInput } from '../core/outcome.ts';
import { optionOf, redo, undo, useBench, work } from './bench.ts';
import { useAnswers } from './cutting.ts';
import { Inspector } from './inspector.tsx';
import { Notes } from './notes.tsx';
import { Register } from './register.tsx';
import { SheetView } from './sheet-view.tsx';
import { Tally } from './tally.tsx';
import { today } from './today.ts';

export function App() {
  const plan = useBench((b) => b.plan);
  const issues = useBench((b) => b.issues);
  const optionId = useBench((b) => b.option);
  const pageId = useBench((b) => b.page);
  const message = useBench((b) => b.message);
  const answers = useAnswers((a) => a.revision);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new answer of the cutter changes what `work` finds
  const worked = useMemo(() => plan && work(plan, optionOf(plan, optionId), today()), [plan, optionId, answers]);
  const pages = useMemo(
    () => worked && packetPages(packetInput(worked.outcome, [], today()), { paper: plan?.paper ?? 'A4' }),
    [worked, plan],
  );
  useEffect(() => {
    if (worked) useAnswers.getState().ask(worked.waiting);
  }, [worked]);

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      if (event.target instanceof HTMLElement && event.target.matches('input, textarea')) return;
      event.preventDefault();
      if (event.shiftKey) redo();
      else undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);

  if (!plan || !worked || !pages) {
    return (
      <main className="empty">
        <h1>Setwright</h1>
        {issues.length > 0 ? <Issues /> : <p>{message ?? 'Opening the plan …'}</p>}
      </main>
    );
  }
  const page = pages.find((p) => p.id === pageId) ?? pages[0]!;
  return (
    <div className="desk">
      <Tally plan={plan} worked={worked} />
      <Register pages={pages} current={page.id} />
      <main aria-label={page.title}>
        {issues.length > 0 && <Issues />}
        <SheetView page={page} />
        <p className="message" role="status">
          {message}
        </p>
      </main>
      <aside aria-label="Notes and sizes">
        <Inspector plan={plan} option={worked.outcome.option} />
        <Notes notes={worked.outcome.notes} />
      </aside>
    </div>
  );
}

function Issues() {
  const issues = useBench((b) => b.issues);
  return (
    <section className="issues" role="alert">
      <h2>{issues.length === 1 ? 'One thing' : `${issues.length} things`} in the plan cannot stay so</h2>
      <ul>
        {issues.slice(0, 12).map((issue) => (
          <li key={`${issue.path.join('.')} ${issue.message}`}>
            {issue.place && `line ${issue.place.line}: `}
            {issue.message}
            {issue.found !== undefined && `; found ${issue.found}`}
            {issue.expected !== undefined && `; expected ${issue.expected}`}
            {issue.nearest !== undefined && `; did you mean ${issue.nearest}?`}
          </li>
        ))}
      </ul>
    </section>
  );
}
