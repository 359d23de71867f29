import { useEffect, useRef, useState } from 'preact/compat';
import type { Framed } from '../core/camera/index.ts';
import { Choice } from './field.tsx';
import { insist } from './insist.ts';
import { NotCome } from './later.tsx';
import type { Round } from './round.ts';
import type { From } from './round-stand.ts';
import type { WorkedPlan } from './worked-plan.ts';

const VIEWS = [
  ['corner', 'From a corner'],
  ['front', 'Facing the wall'],
  ['above', 'From above'],
  ['eye', 'From a chair'],
] as const;

/** The room and the set in the round, made of the same solids as the drawings. */
export function RoundView({ worked: { outcome } }: { readonly worked: WorkedPlan }) {
  const host = useRef<HTMLDivElement>(null);
  const round = useRef<Round>(undefined);
  const [apart, setApart] = useState(0);
  const [cut, setCut] = useState(0);
  const [from, setFrom] = useState<From>('front');
  const [failed, setFailed] = useState(false);
  const [missing, setMissing] = useState(false);
  const [started, setStarted] = useState(false);
  const [cameras, setCameras] = useState<readonly Framed[]>([]);
  const [through, setThrough] = useState<string>();

  useEffect(() => {
    let gone = false;
    void insist(
      () => import('./round.ts'),
      () => setMissing(true),
    ).then(({ startRound }) => {
      if (gone || !host.current) return;
      setMissing(false);
      try {
        round.current = startRound(host.current);
        setStarted(true);
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
  useEffect(() => {
    round.current?.show(outcome);
    let gone = false;
    void insist(
      () => import('../core/camera/index.ts'),
      () => {},
    ).then(({ framesOf }) => !gone && setCameras(framesOf(outcome)));
    return () => {
      gone = true;
    };
  }, [outcome, started]);
  useEffect(() => round.current?.pullApart(apart / 100), [apart, started]);
  useEffect(() => round.current?.section(cut / 100, from), [cut, from, started]);
  const lens = cameras.find((c) => c.id === through);
  // a camera that was moved is looked through from its new place
  useEffect(() => {
    if (lens) round.current?.through(lens);
  }, [lens, started]);

  const name = 'The room in the round; drag or the arrow keys turn it';
  return (
    <section className="round">
      <h2>In the round</h2>
      <div className="round-bar">
        <fieldset className="buttons" aria-label="Where one stands">
          {VIEWS.map(([key, words]) => (
            <button
              key={key}
              type="button"
              onClick={() => {
                setThrough(undefined);
                round.current?.look(key);
              }}
            >
              {words}
            </button>
          ))}
          {cameras.map(({ id, title }) => (
            <button key={id} type="button" aria-pressed={through === id} onClick={() => setThrough(id)}>
              Through {title}
            </button>
          ))}
        </fieldset>
        <div className="field">
          <label htmlFor="apart">Parts pulled apart</label>
          <input
            id="apart"
            type="range"
            min={0}
            max={100}
            value={apart}
            onChange={(e) => setApart(e.currentTarget.valueAsNumber)}
          />
        </div>
        <div className="field">
          <label htmlFor="cut">Cut away</label>
          <input
            id="cut"
            type="range"
            min={0}
            max={100}
            value={cut}
            onChange={(e) => setCut(e.currentTarget.valueAsNumber)}
          />
        </div>
        <Choice
          name="Cut away from"
          value={from}
          of={[
            ['front', 'the front'],
            ['left', 'the left'],
            ['right', 'the right'],
            ['above', 'above'],
          ]}
          onChange={setFrom}
        />
      </div>
      {missing && <NotCome what="What draws in the round" />}
      {failed && <p role="alert">This browser draws nothing in the round; the drawings show it all the same.</p>}
      {/* biome-ignore lint/a11y/useSemanticElements: a picture that is turned, not a form */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys turn it */}
      <div className="round-host" ref={host} role="group" tabIndex={0} aria-label={name}>
        {lens && (
          <svg
            className="lens-frame"
            viewBox={`${-lens.camera.width / 2} ${-lens.camera.height / 2} ${lens.camera.width} ${lens.camera.height}`}
            role="img"
            aria-label={`The picture of ${lens.title}`}
          >
            <rect
              x={-lens.camera.width / 2}
              y={-lens.camera.height / 2}
              width={lens.camera.width}
              height={lens.camera.height}
            />
          </svg>
        )}
      </div>
    </section>
  );
}
