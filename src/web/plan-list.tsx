import { openPlan, useDesk } from './workspace.ts';

/** The plans of the folder, to go on with one of them. */
export function PlanList({ lying = '', onDone }: { readonly lying?: string; readonly onDone: () => void }) {
  const plans = useDesk((d) => d.plans);
  return (
    <ul className="plans">
      {plans.map(({ name, title, sound }) => (
        <li key={name}>
          <button type="button" disabled={name === lying} onClick={() => void openPlan(name).then(onDone)}>
            <span>{sound ? title : name}</span> <small>{sound ? name : 'cannot be read as a plan'}</small>
          </button>
        </li>
      ))}
    </ul>
  );
}
