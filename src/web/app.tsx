import { useEffect } from 'preact/compat';
import { useBench } from './bench.ts';
import { Desk } from './desk.tsx';
import { later, NotCome } from './later.tsx';
import { useRoute } from './route.ts';
import { redo, undo } from './undo.ts';
import { useDesk } from './workspace.ts';

const MOMENT = <p className="empty">One moment …</p>;
const MISSING = (
  <main className="empty" data-ready>
    <h1>Setwright</h1>
    <NotCome />
  </main>
);
const Pairing = later(() => import('./pairing.tsx'), MOMENT, MISSING);
const Start = later(() => import('./start.tsx'), MOMENT, MISSING);
const Shop = later(() => import('./shop.tsx'), MOMENT, MISSING);

export function App() {
  const { state, why } = useDesk();
  const route = useRoute();
  const title = useBench((b) => b.plan?.title);
  useEffect(() => {
    document.title = state === 'open' && title ? `${title} – Setwright` : 'Setwright';
  }, [state, title]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if (!(event.ctrlKey || event.metaKey) || (key !== 'z' && key !== 'y')) return;
      if (event.target instanceof HTMLElement && event.target.matches('input, textarea')) return;
      event.preventDefault();
      if (event.shiftKey || key === 'y') void redo();
      else void undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);

  if (state === 'opening' || state === 'failed')
    return (
      <main className="empty" data-ready={state === 'failed' || undefined}>
        <h1>Setwright</h1>
        <p role="status">{state === 'failed' ? why : 'Opening the plan …'}</p>
      </main>
    );
  if (state === 'unpaired') return <Pairing />;
  if (state === 'empty') return <Start why={why} />;
  return route.to === 'shop' || route.to === 'part' ? <Shop route={route} /> : <Desk route={route} />;
}
