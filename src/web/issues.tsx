import { explain, type Issue } from '../core/issue/index.ts';

/** What is wrong with the plan as it stands, and where. */
export default function Issues({ issues }: { readonly issues: readonly Issue[] }) {
  return (
    <section className="issues" role="alert">
      <h2>{issues.length === 1 ? 'One thing' : `${issues.length} things`} in the plan cannot stay so</h2>
      <ul>
        {issues.slice(0, 12).map((issue) => (
          <li key={`${issue.path.join('.')} ${issue.message}`}>{explain(issue)}</li>
        ))}
      </ul>
    </section>
  );
}
