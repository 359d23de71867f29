import { explain, type Issue } from '../core/issue/index.ts';
import { nameOf, type Plan } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { useBench } from './bench.ts';
import { useToldWhole } from './told-whole.ts';

const MOST = 12;

/** What is wrong with the plan as it stands, and where: by the name of the piece, of a plan that could be read. */
export default function Issues({ issues: bare, plan }: { readonly issues: readonly Issue[]; readonly plan?: Plan }) {
  const issues = useToldWhole(
    bare,
    useBench((b) => b.plain),
  );
  return (
    <section className="issues" role="alert">
      <h2>{issues.length === 1 ? 'One thing' : `${issues.length} things`} in the plan cannot stay so</h2>
      <ul>
        {issues.slice(0, MOST).map((issue) => (
          <li key={`${issue.path.join('.')} ${issue.message}`}>
            {unbroken(explain(plan ? inPiece(issue, plan) : issue))}
          </li>
        ))}
      </ul>
      {issues.length > MOST && <p>And {issues.length - MOST} more, which may all come of the first.</p>}
    </section>
  );
}

/** With the name of its piece in place of its number. */
function inPiece(issue: Issue, plan: Plan): Issue {
  const [top, option, list, at, ...within] = issue.path;
  const piece = top === 'options' && list === 'pieces' ? plan.options[Number(option)]?.pieces[Number(at)] : undefined;
  return piece ? { ...issue, path: [piece.title ?? nameOf(piece), ...within] } : issue;
}
