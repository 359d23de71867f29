import { type FormEvent, useEffect, useRef, useState } from 'preact/compat';
import type { PairRequest, Session } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import { Entry } from './entry.tsx';
import { ask, openPlan } from './workspace.ts';

/** The code that a square scanned from the terminal brings along in the address. */
const scanned = (): string => /^#pair=([\w-]{1,40})$/.exec(location.hash)?.[1] ?? '';

/** A device that the workbench does not know yet says the code that is shown on the other one. */
export default function Pairing() {
  const [code, setCode] = useState(scanned);
  const [device, setDevice] = useState('');
  const [wrong, setWrong] = useState('');
  const form = useRef<HTMLFormElement>(null);
  // one that was let in before comes here by a button that is gone
  const toFirst = () => form.current?.querySelector('input')?.focus();
  useEffect(toFirst, []);
  const pair = async (event: FormEvent) => {
    event.preventDefault();
    if (code.trim() === '') {
      setWrong('the code is still missing');
      toFirst();
      return;
    }
    const body: PairRequest = { code, device: device.trim() || 'another device' };
    const answer = await ask<Session>('POST', '/pair', body);
    if (answer.ok) {
      // it is good once, and is not to be kept with the page
      if (scanned() !== '') history.replaceState(null, '', '#');
      await openPlan(useBench.getState().name || undefined);
      return;
    }
    setWrong(answer.refusal.error.message);
    toFirst();
  };
  return (
    <main className="empty start" data-ready>
      <h1>Setwright</h1>
      <p>
        The workbench runs on another machine. Type the code that it shows there: in its terminal, or in the browser
        under More, Other devices.
      </p>
      <form ref={form} onSubmit={(e) => void pair(e)} noValidate>
        <div className="fields">
          <Entry name="Code" value={code} wrong={wrong} maxLength={40} onChange={setCode} />
          <Entry name="What to call this device" value={device} maxLength={40} onChange={setDevice} />
        </div>
        <button type="submit" className="primary">
          Join
        </button>
      </form>
    </main>
  );
}
