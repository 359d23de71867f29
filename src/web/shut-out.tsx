import { useDesk } from './workspace.ts';

/** That this device is let in no more, and the way in again. */
export default function ShutOut() {
  return (
    <span>
      <span className="heed">The workbench lets this device in no more.</span> What you do is kept here.{' '}
      <button type="button" className="link" onClick={() => useDesk.setState({ state: 'unpaired' })}>
        Pair again
      </button>
    </span>
  );
}
