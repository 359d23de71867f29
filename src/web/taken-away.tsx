import { say, useBench } from './bench.ts';
import { keepUnsaved, newPlan } from './workspace.ts';

/** Makes the file anew that another program took away. */
async function putBack(): Promise<void> {
  const { name, text } = useBench.getState();
  const refused = await newPlan(name, text);
  if (refused === undefined) keepUnsaved(name, undefined);
  say(refused);
}

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
