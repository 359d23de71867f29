import { useEffect, useLayoutEffect, useRef, useState } from 'preact/compat';
import { readPlan } from '../core/plan/index.ts';
import type { RevisionText } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import Issues from './issues.tsx';
import { PlanList } from './plan-list.tsx';
import { earlierTexts } from './revision-texts.ts';
import { bringBack, RevisionsView } from './revisions-view.tsx';
import { toDrawing } from './to-drawing.ts';
import { WordsView } from './words-view.tsx';
import { useDesk } from './workspace.ts';

/** Of a plan that cannot be read: what is wrong with it, and every way on. */
export default function Unread() {
  const name = useBench((b) => b.name);
  const issues = useBench((b) => b.issues);
  const message = useBench((b) => b.message);
  const others = useDesk((d) => d.plans.some((plan) => plan.name !== name));
  const main = useRef<HTMLElement>(null);
  // what was pressed to come here, or to go on, is gone; at once, so that nobody who went on meanwhile is called back
  useLayoutEffect(() => {
    scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
    return toDrawing;
  }, [name]);
  return (
    <main className="empty unread" tabIndex={-1} ref={main} data-ready>
      <h1>Setwright</h1>
      <p>
        {name} cannot be read as a plan, so nothing of it is drawn. The file stays as it is until you change it, and
        what it said before is kept.
      </p>
      {issues.length > 0 && <Issues issues={issues} />}
      <section aria-labelledby="back-title">
        <h2 id="back-title">Go back to when it could be read</h2>
        <LastRead name={name} />
      </section>
      <p role="status">{message}</p>
      <section aria-labelledby="others-title">
        <h2 id="others-title">{others ? 'Or open another plan' : 'Or begin another plan'}</h2>
        {others && <PlanList lying={name} onDone={() => {}} />}
        <div className="buttons">
          <button type="button" onClick={() => useDesk.setState({ state: 'empty', why: '' })}>
            New plan
          </button>
        </div>
      </section>
      <WordsView />
      <RevisionsView />
    </main>
  );
}

/** The newest revision that can be read, which is what most want back. */
function LastRead({ name }: { readonly name: string }) {
  const text = useBench((b) => b.text);
  const [last, setLast] = useState<RevisionText | 'none' | string>();
  useEffect(() => {
    let asked = true;
    const look = async () => {
      for await (const old of earlierTexts(name)) {
        if (!asked) return;
        if (typeof old === 'string' || readPlan(old.text, {}).plan) return setLast(old);
      }
      setLast('none');
    };
    void look();
    return () => {
      asked = false;
    };
  }, [name, text]);
  if (last === undefined) return <p role="status">Looking through its revisions …</p>;
  if (last === 'none') return <p role="status">None of its revisions could be read.</p>;
  if (typeof last === 'string') return <p role="alert">{last}</p>;
  return (
    <div className="buttons">
      <button type="button" className="primary" onClick={() => void bringBack(last.revision)}>
        Bring revision {last.revision} back, of {new Date(last.at).toLocaleString()}
      </button>
    </div>
  );
}
