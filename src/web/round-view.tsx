import { type RefObject, useEffect, useRef, useState } from 'preact/compat';
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
const SIDES = [
  ['front', 'the front'],
  ['left', 'the left'],
  ['right', 'the right'],
  ['above', 'above'],
] as const;

/** The room and the set in the round, made of the same solids as the drawings. */
export function RoundView({ worked: { outcome } }: { readonly worked: WorkedPlan }) {
  const host = useRef<HTMLDivElement>(null);
  const { round, state } = useRound(host);
  const cameras = useCameras(outcome);
  const [apart, setApart] = useState(0);
  const [cut, setCut] = useState(0);
  const [from, setFrom] = useState<From>('front');
  const [through, setThrough] = useState<string>();
  const lens = cameras.find((c) => c.id === through);

  useEffect(() => round?.show(outcome), [outcome, round]);
  useEffect(() => round?.pullApart(apart / 100), [apart, round]);
  useEffect(() => round?.section(cut / 100, from), [cut, from, round]);
  // a camera that was moved is looked through from its new place
  useEffect(() => {
    if (lens) round?.through(lens);
  }, [lens, round]);

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
                round?.look(key);
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
        <Slider id="apart" name="Parts pulled apart" value={apart} onChange={setApart} />
        <Slider id="cut" name="Cut away" value={cut} onChange={setCut} />
        <Choice name="Cut away from" value={from} of={SIDES} onChange={setFrom} />
      </div>
      {state === 'missing' && <NotCome what="What draws in the round" />}
      {state === 'failed' && (
        <p role="alert">This browser draws nothing in the round; the drawings show it all the same.</p>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: a picture that is turned, not a form */}
      <div
        className="round-host"
        ref={host}
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys turn it
        tabIndex={0}
        aria-label="The room in the round; drag or the arrow keys turn it"
      >
        {lens && <LensFrame lens={lens} />}
      </div>
    </section>
  );
}

/** What draws in the host, once it has come; it ends with the page. */
function useRound(host: RefObject<HTMLDivElement | null>) {
  const [round, setRound] = useState<Round>();
  const [state, setState] = useState<'' | 'missing' | 'failed'>('');
  useEffect(() => {
    let started: Round | undefined;
    let gone = false;
    void insist(
      () => import('./round.ts'),
      () => setState('missing'),
    ).then(({ startRound }) => {
      if (gone || !host.current) return;
      try {
        started = startRound(host.current);
        setRound(started);
        setState('');
      } catch {
        setState('failed');
      }
    });
    return () => {
      gone = true;
      started?.end();
    };
  }, []);
  return { round, state };
}

/** The cameras of the set, once what knows of their pictures has come. */
function useCameras(outcome: WorkedPlan['outcome']): readonly Framed[] {
  const [cameras, setCameras] = useState<readonly Framed[]>([]);
  useEffect(() => {
    let gone = false;
    void insist(
      () => import('../core/camera/index.ts'),
      () => {},
    ).then(({ framesOf }) => !gone && setCameras(framesOf(outcome)));
    return () => {
      gone = true;
    };
  }, [outcome]);
  return cameras;
}

function Slider({
  id,
  name,
  value,
  onChange,
}: {
  readonly id: string;
  readonly name: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
}) {
  return (
    <div className="field">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        type="range"
        min={0}
        max={100}
        value={value}
        onChange={(e) => onChange(e.currentTarget.valueAsNumber)}
      />
    </div>
  );
}

function LensFrame({ lens: { title, camera } }: { readonly lens: Framed }) {
  const { width, height } = camera;
  return (
    <svg
      className="lens-frame"
      viewBox={`${-width / 2} ${-height / 2} ${width} ${height}`}
      role="img"
      aria-label={`The picture of ${title}`}
    >
      <rect x={-width / 2} y={-height / 2} width={width} height={height} />
    </svg>
  );
}
