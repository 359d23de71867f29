import { putBack } from './workspace.ts';

/** That the file of the plan is gone, and how it comes back. */
export default function TakenAway() {
  return (
    <span>
      <span className="heed">The file of this plan was taken away by another program.</span> What stands here is kept.{' '}
      <button type="button" className="link" onClick={() => void putBack()}>
        Put it back
      </button>
    </span>
  );
}
