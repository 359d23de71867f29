import { useEffect, useRef, useState } from 'react';
import type { Round } from './round.ts';
import type { WorkedPlan } from './worked-plan.ts';

const VIEWS = [
  ['corner', 'from a corner'],
  ['front', 'facing the wall'],
  ['above', 'from above'],
  ['eye', 'from a chair, at eye height'],
] as const;

/** The room and the set in the round, made of the same solids as the drawings. */
export function RoundView({ worked: { outcome } }: { readonly worked: WorkedPlan }) {
  const host = useRef<HTMLDivElement>(null);
  const round = useRef<Round>(undefined);
  const [apart, setApart] = useState(0);
  const [cut, setCut] = useState(0);
  const [failed, setFailed] = useState(false);

  useEffect(() => {
    let gone = false;
    void import('./round.ts').then(({ startRound }) => {
      if (gone || !host.current) return;
      try {
        round.current = startRound(host.current);
        round.current.show(outcome);
      } catch {
        setFailed(true);
      }
    });
    return () => {
      gone = true;
      round.current?.end();
      round.current = undefined;
    };
    // the set is shown anew below, without starting again
  }, []);
  useEffect(() => round.current?.show(outcome), [outcome]);
  useEffect(() => round.current?.pullApart(apart / 100), [apart]);
  useEffect(() => round.current?.section(cut / 100), [cut]);

  const name = 'The room in the round; arrow keys move it';
  return (
    <section className="round">
      <h2>In the round</h2>
      <div className="row">
        <div className="field">
          <label htmlFor="apart">Parts pulled apart</label>
          <input
            id="apart"
            type="range"
            min={0}
            max={100}
            value={apart}
            onChange={(e) => setApart(e.target.valueAsNumber)}
          />
        </div>
        <div className="field">
          <label htmlFor="cut">Cut away from the front</label>
          <input id="cut" type="range" min={0} max={100} value={cut} onChange={(e) => setCut(e.target.valueAsNumber)} />
        </div>
      </div>
      <div className="buttons">
        {VIEWS.map(([key, words]) => (
          <button key={key} type="button" onClick={() => round.current?.look(key)}>
            {words}
          </button>
        ))}
      </div>
      {failed && <p role="alert">This browser draws nothing in the round; the drawings show it all the same.</p>}
      {/* biome-ignore lint/a11y/useSemanticElements: a picture that is turned, not a form */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys turn it */}
      <div className="round-host" ref={host} role="group" tabIndex={0} aria-label={name} />
    </section>
  );
}
