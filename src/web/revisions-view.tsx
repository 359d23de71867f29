import { useEffect, useState } from 'preact/compat';
import type { RevisionEntry, RevisionKind, Revisions, RevisionText, Saved } from '../core/workspace/index.ts';
import { say, useBench } from './bench.ts';
import { ask, planPath, revisionNow, settleOn, uniqueId, useDesk } from './workspace.ts';

const KINDS: Readonly<Record<RevisionKind, string>> = {
  found: 'as it was found',
  saved: 'saved',
  merged: 'two changes put together',
  outside: 'changed by another program',
  restored: 'brought back',
  created: 'begun',
  aside: 'kept aside after a clash',
};

export async function bringBack(revision: number): Promise<void> {
  const body = { revision, base: revisionNow(), id: uniqueId() };
  const answer = await ask<Saved>('POST', `${planPath(useBench.getState().name)}/restore`, body);
  if (!answer.ok) return say(answer.refusal.error.message);
  settleOn(answer.value, `revision ${revision} brought back`);
  say(`Revision ${revision} is back.`);
}

/** Every save, to be looked at and brought back. */
export function RevisionsView() {
  const name = useBench((b) => b.name);
  const text = useBench((b) => b.text);
  const kept = useDesk((d) => d.kept);
  const [revisions, setRevisions] = useState<readonly RevisionEntry[]>([]);
  const [older, setOlder] = useState<number>();
  const [looked, setLooked] = useState<RevisionText>();
  const load = async (before?: number) => {
    const answer = await ask<Revisions>(
      'GET',
      `${planPath(name)}/revisions${before === undefined ? '' : `?before=${before}`}`,
    );
    if (!answer.ok) return say(answer.refusal.error.message);
    setRevisions((known) => (before === undefined ? answer.value.revisions : [...known, ...answer.value.revisions]));
    setOlder(answer.value.older);
  };
  // a save makes a new one
  useEffect(() => void load(), [name, kept]);
  const look = async (revision: number) => {
    const answer = await ask<RevisionText>('GET', `${planPath(name)}/revisions/${revision}`);
    if (answer.ok) setLooked(answer.value);
    else say(answer.refusal.error.message);
  };
  const restore = (revision: number) => void bringBack(revision).then(() => load());
  return (
    <section className="sheet-like">
      <h2>Revisions</h2>
      <table className="rows">
        <thead>
          <tr>
            <th scope="col">Number</th>
            <th scope="col">When</th>
            <th scope="col">By</th>
            <th scope="col">How</th>
            <th scope="col">
              <span className="unseen">What to do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {revisions.map((r) => (
            <tr key={r.revision}>
              <td>{r.revision}</td>
              <td>{new Date(r.at).toLocaleString()}</td>
              <td>{r.author}</td>
              <td>{KINDS[r.kind]}</td>
              <td>
                <button type="button" onClick={() => void look(r.revision)}>
                  Look at {r.revision}
                </button>{' '}
                <button type="button" onClick={() => restore(r.revision)}>
                  Bring {r.revision} back
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {older !== undefined && (
        <button type="button" onClick={() => void load(older)}>
          Older ones
        </button>
      )}
      {looked && (
        <section aria-labelledby="looked">
          <h3 id="looked">Revision {looked.revision}, what differs from now</h3>
          <Differences before={looked.text} after={text} />
        </section>
      )}
    </section>
  );
}

/** Lines that only one of the texts has, after what they share at both ends. */
function Differences({ before, after }: { readonly before: string; readonly after: string }) {
  const [a, b] = [before.split('\n'), after.split('\n')];
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a.at(-1 - end) === b.at(-1 - end)) end++;
  const [was, is] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (was.length === 0 && is.length === 0) return <p>Nothing.</p>;
  return (
    <>
      <p>From line {start + 1}.</p>
      <h4>Then</h4>
      <pre>{was.join('\n') || '(nothing)'}</pre>
      <h4>Now</h4>
      <pre>{is.join('\n') || '(nothing)'}</pre>
    </>
  );
}
