import { type FormEvent, useState } from 'preact/compat';
import type { PairRequest, Session } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import { ask, openPlan } from './workspace.ts';

/** The code that a square scanned from the terminal brings along in the address. */
const scanned = (): string => /^#pair=([\w-]{1,40})$/.exec(location.hash)?.[1] ?? '';

/** A device that the workbench does not know yet says the code that is shown on the other one. */
export default function Pairing() {
  const [code, setCode] = useState(scanned);
  const [device, setDevice] = useState('');
  const [wrong, setWrong] = useState('');
  const pair = async (event: FormEvent) => {
    event.preventDefault();
    const body: PairRequest = { code, device: device.trim() || 'another device' };
    const answer = await ask<Session>('POST', '/pair', body);
    if (answer.ok) {
      // it is good once, and is not to be kept with the page
      if (scanned() !== '') history.replaceState(null, '', '#');
      await openPlan(useBench.getState().name || undefined);
    }
    if (!answer.ok) setWrong(answer.refusal.error.message);
  };
  return (
    <main className="empty" data-ready>
      <h1>Setwright</h1>
      <p>Type the code that is shown where the workbench runs.</p>
      <form onSubmit={pair} className="fields">
        <div className="field">
          <label htmlFor="code">Code</label>
          <input
            id="code"
            value={code}
            autoComplete="one-time-code"
            onChange={(e) => setCode(e.currentTarget.value)}
            required
          />
        </div>
        <div className="field">
          <label htmlFor="device">What to call this device</label>
          <input id="device" value={device} onChange={(e) => setDevice(e.currentTarget.value)} maxLength={40} />
        </div>
        <button type="submit">Join</button>
      </form>
      {wrong !== '' && <p role="alert">{wrong}</p>}
    </main>
  );
}
